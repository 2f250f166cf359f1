//! `W603`: low things leave too little floor in a walkway.

use super::walked::{self, SAME_M, walkways};
use crate::catalogue::published::{LevelChange, level_change};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::figures::Figure;
use crate::checks::{CheckContext, Finding, Signal, figures, words};
use crate::engine::numbers::{Intruder, ThingSort, WalkwayNumbers};
use crate::layout::{ThingKind, Walkway};

declare_check! {
    /// ## What it checks
    /// That the clear width with low things as walls too is at least what is wanted, and that nothing makes a
    /// step in the strip: up to 6.4 mm nothing is needed, to 13 mm a bevel, above it is a trip.
    ///
    /// ## Why it matters
    /// What is lower than the knee is stepped over by those who see it and tripped over by those who carry a
    /// cylinder.
    ///
    /// ## Source
    /// ADA Standards, section 303 (changes of level); width: 46 CFR 177.820(d) or the plan's own.
    pub static WALKWAY_TRIP_HAZARD = {
        code: "W603",
        name: "walkway-trip-hazard",
        summary: "low things leave too little floor in a walkway",
        signal: Signal::Caution,
        pictures: [
            "deck 4x2; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             gear G weights 2,0 size=0.5x1.4 h=0.1",
            "deck 4x2; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             gear G weights 2,0.8 size=0.5x0.3 h=0.1",
        ],
        run: walkway_trip_hazard,
        cures: propose::clear_way,
    }
}

fn walkway_trip_hazard(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (way, numbers) in walkways(ctx) {
        findings.extend(low_things(ctx, (way, numbers)));
        for intruder in &numbers.intruders {
            findings.extend(step(ctx, (way, intruder)));
        }
    }
}

fn low_things(
    ctx: &CheckContext<'_>,
    (way, numbers): (&Walkway, &WalkwayNumbers),
) -> Option<Finding> {
    let (clear, empty) = (numbers.clear_of_low_m, numbers.boat_clear_of_low_m);
    // Where tall things leave no more, it is told as blocked or narrow.
    let by_low = clear < numbers.clear_m - SAME_M;
    if !by_low || clear >= numbers.wanted_m - SAME_M || clear >= empty - SAME_M {
        return None;
    }
    let spot = numbers.clear_of_low_spot.as_ref();
    let name = ctx.name(ThingKind::Walkway, &way.id);
    let floor = if clear <= SAME_M {
        "one has to step over something".to_owned()
    } else {
        format!("low things leave {} of floor", figures::metres(clear))
    };
    let blockers = walked::blockers(ctx, (way, numbers), (spot, true));
    // What would have to be moved is what lies in it, not what stands at the way round.
    let (in_it, shift) = match blockers.as_slice() {
        [] => (String::new(), walked::shift(ctx, way, spot)),
        some => {
            let names: Vec<&str> = some.iter().map(|it| it.name.as_str()).collect();
            let in_it = format!(" one steps over {};", words::list(&names));
            (in_it, String::new())
        }
    };
    let sentence = format!(
        "In {name}{in_it} {floor}{}, and {} is wanted ({}){}",
        walked::between(ctx, way, spot),
        figures::metres(numbers.wanted_m),
        numbers.wanted_source,
        shift,
    );
    Some(
        walked::finding(
            &WALKWAY_TRIP_HAZARD,
            ctx,
            Signal::Caution,
            (way, spot, blockers),
            sentence,
        )
        .measured(
            "clear width between low things",
            clear,
            numbers.wanted_m,
            "m",
        )
        .fold_as(walked::fold_spot(way, spot)),
    )
}

/// A thin thing that makes a step: what is no higher than a bevel could take.
fn step(ctx: &CheckContext<'_>, (way, intruder): (&Walkway, &Intruder)) -> Option<Finding> {
    let stowed_flat = matches!(intruder.kind, ThingSort::Gear | ThingSort::Rack);
    let [from, height] = intruder.from_to_m;
    if intruder.of_boat || !stowed_flat || from > 0.0 || is_line(ctx, intruder) {
        return None;
    }
    if level_change(height) != LevelChange::NeedsBevel {
        return None;
    }
    let name = ctx.name(walked::kind_of(intruder.kind), &intruder.thing);
    let sentence = format!(
        "{name} makes a step of {} in {}: its edge wants a bevel no steeper than 1 in 2",
        Figure::Thickness(height),
        ctx.name(ThingKind::Walkway, &way.id),
    );
    let check = &WALKWAY_TRIP_HAZARD;
    // One bevel is the cure for every walkway that it is in.
    let finding = walked::intruder_finding(check, ctx, Signal::Caution, (way, intruder), sentence)
        .fold_as(format!("W603/step/{}", intruder.thing));
    let ignored = crate::catalogue::published::LEVEL_CHANGE_IGNORED_M;
    Some(finding.measured("height of the step", height, ignored, "m"))
}

/// Is it a hose or line, which has a rule of its own?
pub(super) fn is_line(ctx: &CheckContext<'_>, intruder: &Intruder) -> bool {
    use crate::layout::GearShape;

    intruder.kind == ThingSort::Gear
        && ctx.day.gear.iter().any(|state| {
            state.gear.id == intruder.thing && matches!(state.gear.floor, GearShape::Line { .. })
        })
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    const WAY: &str =
        "deck 6x2; running roll=2/8; place A gate 0.4,0; place B helm 5.6,0; way W A B width=0.7";

    #[test]
    fn weights_all_over_the_floor() {
        let text = format!("{WAY}; gear G weights 3,0 size=0.5x2 h=0.1");
        fires(&text, "CAUTION W603 W");
        says(&text, "W603", "step over");
    }

    #[test]
    fn beside_the_walkway_they_are_well() {
        silent(
            &format!("{WAY}; gear G weights 3,0.8 size=0.5x0.3 h=0.1"),
            "W603",
        );
    }

    #[test]
    fn a_thin_mat_is_nothing_a_thicker_one_wants_a_bevel() {
        silent(&format!("{WAY}; gear M mat 3,0 size=0.5x0.5 h=0.006"), "W6");
        says(
            &format!("{WAY}; gear M mat 3,0 size=0.5x0.5 h=0.012"),
            "W603",
            "bevel",
        );
    }

    #[test]
    fn a_sill_of_the_boat_is_the_boats_own() {
        silent(
            &format!("{WAY}; fixture S sill 2.9..3.1,-1..1 h=0.15"),
            "W603",
        );
    }
}
