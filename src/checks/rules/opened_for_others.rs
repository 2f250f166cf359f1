//! `R313`: what is opened between two parts of the day for some leaves others unsecured.

use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::left_standing::left_standing;
use crate::checks::{CheckContext, Finding, Signal, figures, girth, words};
use crate::layout::{Condition, DayState, Id, LashCondition, Opened, Opening, ThingKind, openings};

declare_check! {
    /// ## What it checks
    /// The moment between two parts of the day in which a shared strap, cord, chain or bar, or a lashing round
    /// several cylinders, is opened so that one of them can be taken out or put in, and is shut again
    /// afterwards. Opened for one it is open for all: the finding names those that stand unsecured meanwhile,
    /// and the roll at which the first of them goes in the motion of the part that begins. Of a lashing it also
    /// gives the girth that leaves: by how much it would go slack if it were left shut. What stays open is told by
    /// the rules for open fronts and open lashings.
    ///
    /// It is WARNING where one of them goes within that motion, CAUTION otherwise; made fast it is told only
    /// where one of them goes.
    ///
    /// ## Why it matters
    /// A swap takes minutes, beam on to the sea, with all hands at one cylinder and nobody at its neighbours.
    /// A front that is tied between every two slots is opened for one alone.
    ///
    /// ## Source
    /// 46 CFR 197.338 (cylinders are kept from falling); opened for one, open for all: plain fact of one
    /// strap. The grading: common practice, no source.
    pub static OPENED_FOR_OTHERS = {
        code: "R313",
        name: "opened-for-others",
        summary: "what is opened for one leaves its neighbours unsecured for a moment",
        signal: Signal::Warning,
        pictures: [
            "deck 3x2; drifting roll=12/4; rack R1 bench 1.5,0 columns=3 foot; front R1 F1 strap
             slot P1 R1/1; slot P2 R1/2; slot P3 R1/3; anchored roll=12/4; water P3",
            "deck 3x2; drifting roll=12/4; rack R1 bench 1.5,0 columns=3 foot; front R1 F1 strap tied
             slot P1 R1/1; slot P2 R1/2; slot P3 R1/3; anchored roll=12/4; water P3",
        ],
        run: opened_for_others,
        cures: propose::tie_front,
    }
}

fn opened_for_others(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    if ctx.part_index == 0 || !may_open(ctx) {
        return;
    }
    let Some(before) = ctx.days.get(ctx.part_index - 1) else {
        return;
    };
    for opening in openings(&ctx.plan.boat, before, ctx.day) {
        if opening.shut_again {
            findings.extend(finding(ctx, before, &opening));
        }
    }
}

/// Is there anything at all that is one thing for several, and does anything change?
fn may_open(ctx: &CheckContext<'_>) -> bool {
    let fronts = || {
        let mut fronts = ctx.day.fronts.iter().map(|state| &state.front);
        fronts.any(|front| front.slots.len() > 1 && !front.tied_between_slots)
    };
    let lashings = || {
        let mut lashings = ctx.day.lashings.iter().map(|state| &state.lashing);
        lashings.any(|item| item.round.len() > 1 && item.condition != LashCondition::Cut)
    };
    let changes = &ctx.part.changes;
    let moves = changes.cylinders.iter().any(|item| item.placing.is_some());
    (moves || !changes.lashings.is_empty()) && (fronts() || lashings())
}

fn finding(ctx: &CheckContext<'_>, before: &DayState, opening: &Opening) -> Option<Finding> {
    let left = left_standing(ctx.plan, ctx.trip, ctx.part, before, opening);
    let first = left.first()?;
    let goes = left.iter().any(|item| item.goes);
    let signal = match (ctx.part.condition, goes) {
        (Condition::MadeFast, false) => return None,
        (Condition::MadeFast, true) | (_, false) => Signal::Caution,
        (_, true) => Signal::Warning,
    };
    let names: Vec<_> = left.iter().map(|item| item.cylinder.clone()).collect();
    let mut sorted = names.clone();
    sorted.sort();
    let for_whom = words::list_in_order(&opening.for_whom);
    let stand = if names.len() == 1 { "stands" } else { "stand" };
    let (what, place) = match &opening.what {
        Opened::Front { rack, front } => (
            format!(
                "{} across {}",
                ctx.front(rack, front),
                ctx.name(ThingKind::Rack, rack)
            ),
            ctx.subject(ThingKind::Rack, rack),
        ),
        Opened::Lashing(id) => (
            ctx.name(ThingKind::Lashing, id),
            ctx.subject(ThingKind::Lashing, id),
        ),
    };
    let which = if names.len() == 1 {
        String::new()
    } else {
        format!("{} goes first, ", first.cylinder)
    };
    let sentence = format!(
        "At the start, {what} is opened for {for_whom}: {} {stand} unsecured until it is shut again; \
         {which}{}{}",
        words::list_in_order(&sorted),
        first.sentence,
        left_shut(ctx, before, opening),
    );
    let mut about = vec![place];
    about.extend(ctx.subjects(ThingKind::Cylinder, &sorted));
    let roll = ctx.numbers.motion.roll_amplitude_deg;
    let mut finding = Finding::new(&OPENED_FOR_OTHERS, ctx, signal, about, sentence).measured(
        "roll at which the first goes while it is open",
        first.limit_roll_deg,
        roll,
        "deg",
    );
    // Each front and each lashing is opened by itself, and has a cure of its own.
    if let Opened::Front { rack, front } = &opening.what {
        finding = finding.fold_as(format!("R313/{rack}/{front}"));
    }
    let where_it_is = ctx.plan.boat.rack(match &opening.what {
        Opened::Front { rack, .. } => rack.as_str(),
        Opened::Lashing(_) => "",
    });
    if let Some(rack) = where_it_is {
        finding = finding.on(&rack.deck, rack.at);
    } else if let Some(cylinder) = ctx.cylinder(&first.cylinder) {
        finding = finding.at_cylinder(cylinder);
    }
    Some(finding)
}

/// What a lashing would do if it were not opened and who leaves were drawn out of it, as the end of a sentence.
fn left_shut(ctx: &CheckContext<'_>, before: &DayState, opening: &Opening) -> String {
    let Opened::Lashing(id) = &opening.what else {
        return String::new();
    };
    let mut lashings = before.lashings.iter().map(|state| &state.lashing);
    let Some(lashing) = lashings.find(|lashing| lashing.id == *id) else {
        return String::new();
    };
    let leaves = opening.for_whom.iter();
    let leaves: Vec<Id> = leaves
        .filter(|id| lashing.round.contains(id))
        .cloned()
        .collect();
    if leaves.is_empty() {
        return String::new();
    }
    match girth::girth_m(ctx.plan, ctx.trip, ctx.part, before, id, &leaves) {
        Some(girth_m) if girth_m >= girth::LEAST_M => format!(
            ". Left shut it would go slack by {} as {} leaves it",
            figures::metres(girth_m),
            words::list_in_order(&leaves)
        ),
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    const ROW: &str =
        "deck 6x3; rack R1 bench 3,0 columns=3 foot; slot P1 R1/1; slot P2 R1/2; slot P3 R1/3";

    #[test]
    fn a_swap_within_a_part_names_the_neighbours_and_their_limit() {
        let text = format!(
            "{ROW}; front R1 F1 strap; drifting roll=2/8; anchored roll=15/4; lie P3 1,0 chock=0.05"
        );
        fires(&text, "WARNING R313 R1 P1 P2");
        says(
            &text,
            "R313",
            "F1 across R1 is opened for P3: P1 and P2 stand unsecured",
        );
        says(&text, "R313", "P1 goes first, it tips at");
    }

    #[test]
    fn held_within_the_motion_it_is_a_caution() {
        let text =
            format!("{ROW}; front R1 F1 strap; drifting roll=2/8; anchored roll=2/8; water P3");
        fires(&text, "CAUTION R313 R1 P1 P2");
    }

    #[test]
    fn made_fast_it_is_told_only_where_one_goes() {
        let row = format!("{ROW}; front R1 F1 strap; drifting roll=2/8");
        silent(&format!("{row}; fast roll=2/8; ashore P3"), "R313");
        fires(
            &format!("{row}; fast roll=20/4; ashore P3"),
            "CAUTION R313 R1 P1 P2",
        );
    }

    #[test]
    fn tied_between_the_slots_or_with_a_strap_of_their_own_they_are_held() {
        let then = "drifting roll=2/8; anchored roll=15/4; water P3";
        silent(&format!("{ROW}; front R1 F1 strap tied; {then}"), "R313");
        let own = "point E1 2.5,0.4; point E2 2.5,-0.4; point E3 3,0.4; point E4 3,-0.4
             lash L1 E1 P1 E2 h=0.44 tight=0.2; lash L2 E3 P2 E4 h=0.44 tight=0.2";
        silent(&format!("{ROW}; front R1 F1 strap; {own}; {then}"), "R313");
    }

    #[test]
    fn what_stays_open_is_told_by_others() {
        let text = format!(
            "{ROW}; front R1 F1 strap; drifting roll=2/8; anchored roll=15/4; open R1/F1; water P3"
        );
        silent(&text, "R313");
        fires(&text, "DANGER R310 R1 P1 P2");
    }

    #[test]
    fn a_common_lashing_is_opened_for_one_that_is_carried_away_and_shut_again() {
        let text = "deck 6x3; point E1 3,0.6; point E2 3,-0.6; stand P1 3,0; stand P2 3.19,0; stand P3 2.81,0
             lash L1 E1 P1+P2+P3 E2 h=0.44 tight=0.2; fast roll=1/8; drifting roll=15/4
             lie P2 5,0 chock=0.05; shut L1";
        says(
            text,
            "R313",
            "L1 is opened for P2: P1 and P3 stand unsecured",
        );
        // With its points to one side it lies round the far end of the row, which leaves.
        let aside = text.replace(
            "point E1 3,0.6; point E2 3,-0.6",
            "point E1 2.6,0.6; point E2 2.6,-0.6",
        );
        says(&aside, "R313", "Left shut it would go slack by 0.");
    }
}
