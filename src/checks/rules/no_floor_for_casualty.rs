//! `E903`: the floor for a casualty is not clear.

use super::fitting::{self, in_the_way, movers, names};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, figures, words};
use crate::engine::numbers::{FitKind, FitNumbers};
use crate::layout::{Place, PlaceKind, ThingKind};

declare_check! {
    /// ## What it checks
    /// That the floor marked for a casualty is clear, turned as it fits best: the size is the plan's own.
    ///
    /// ## Why it matters
    /// Breathing for somebody takes a flat back and somebody kneeling beside the head.
    ///
    /// ## Source
    /// Common practice, no source.
    pub static NO_FLOOR_FOR_CASUALTY = {
        code: "E903",
        name: "no-floor-for-casualty",
        summary: "the floor for a casualty is not clear",
        signal: Signal::Warning,
        pictures: [
            "deck 4x3; fast roll=1/8; place C casualty_floor 2,0 floor=2x1; gear G crate 2,0.2 h=0.3",
            "deck 4x3; fast roll=1/8; place C casualty_floor 2,0 floor=2x1; gear G crate 3.6,1.2 h=0.3",
        ],
        run: no_floor_for_casualty,
        cures: propose::uncover,
    }
}

fn no_floor_for_casualty(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    let is_casualty = |kind: PlaceKind| kind == PlaceKind::CasualtyFloor;
    for (place, fits) in taken_floors(ctx, is_casualty) {
        let movers = movers(ctx, &fits);
        let sentence = format!(
            "{} has not the clear floor that a casualty needs{}: {} {} on it",
            ctx.name(ThingKind::Place, &place.id),
            size(place),
            names(&movers),
            words::is_are(movers.len()),
        );
        let what = (
            ctx.subject(ThingKind::Place, &place.id),
            fits.as_slice(),
            movers,
        );
        let check = &NO_FLOOR_FOR_CASUALTY;
        let finding = fitting::finding(check, ctx, Signal::Warning, what, sentence);
        // Where the floor is, whatever lies on it.
        findings.push(finding.on(&place.deck, place.at));
    }
}

/// The places of these kinds on whose floor something is, with what.
pub(super) fn taken_floors<'a>(
    ctx: &CheckContext<'a>,
    kinds: impl Fn(PlaceKind) -> bool,
) -> Vec<(&'a Place, Vec<&'a FitNumbers>)> {
    let boat = &ctx.plan.boat;
    let all = in_the_way(ctx, &[FitKind::PlaceFloor]).into_iter();
    all.filter_map(|((thing, _), fits)| Some((boat.place(&thing.id)?, fits)))
        .filter(|(place, _)| kinds(place.kind))
        .collect()
}

/// The floor that a place needs, as a clause.
pub(super) fn size(place: &Place) -> String {
    place.floor_m.map_or_else(String::new, |[length, width]| {
        let [length, width] = [length, width].map(figures::metres);
        format!(" ({length} by {width})")
    })
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    #[test]
    fn a_crate_on_the_casualtys_floor() {
        let deck = "deck 6x4; fast roll=1/8; place C casualty_floor 3,0 floor=2x1";
        fires(
            &format!("{deck}; gear G crate 3,0.2 h=0.3"),
            "WARNING E903 C G",
        );
        silent(&format!("{deck}; gear G crate 5.5,1.5 h=0.3"), "E903");
    }

    #[test]
    fn either_way_round_will_do() {
        let deck = "deck 6x4; fast roll=1/8; place C casualty_floor 3,0 floor=2x0.8";
        silent(&format!("{deck}; gear G crate 3.8,0 h=0.3"), "E903");
    }
}
