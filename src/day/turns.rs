//! Which move comes when, and what it is about.

use crate::checks::words;
use crate::layout::{Cylinder, DayState, Fill, Id, Opened, Placing, Plan, Point};

/// Cylinder, rack and slot; nothing where it is in none.
pub(super) fn slot_of(cylinder: &Cylinder) -> Option<(Id, Id, String)> {
    match &cylinder.placing {
        Placing::InSlot { rack, slot } => Some((cylinder.id.clone(), rack.clone(), slot.clone())),
        _ => None,
    }
}

/// Who moves first: empties out and down, then others out of slots, then the rest, and into slots last.
pub(super) fn turn_of(was: &Cylinder, is: &Cylinder) -> u8 {
    let leaves = matches!(was.placing, Placing::InSlot { .. });
    let enters = matches!(is.placing, Placing::InSlot { .. });
    match (leaves, enters) {
        (true, false) if is.fill == Fill::Empty => 0,
        (true, false) => 1,
        (false, false) => 2,
        (true, true) => 3,
        (false, true) => 4,
    }
}

/// Does somebody hold it upright?
pub(super) fn is_held(cylinder: &Cylinder) -> bool {
    matches!(cylinder.placing, Placing::HeldByHand { .. })
}

/// Whom a lashing goes round, where not all that it is for are there: ` round S9 alone`.
pub(super) fn round_those_that_stay(now: &DayState, what: &Opened) -> String {
    let Opened::Lashing(id) = what else {
        return String::new();
    };
    let mut lashings = now.lashings.iter().map(|state| &state.lashing);
    let round = lashings.find(|lashing| lashing.id == *id);
    let round = round.map_or(&[][..], |lashing| &lashing.round);
    let stays = |id: &&Id| {
        let cylinder = now.cylinder(id);
        cylinder.is_some_and(|it| it.placing.can_be_lashed())
    };
    let stay: Vec<Id> = round.iter().filter(stays).cloned().collect();
    if stay.len() == round.len() {
        String::new()
    } else {
        format!(" round {} alone", words::list_in_order(&stay))
    }
}

/// Where it is on the plan, by its own point or its slot's.
pub(super) fn where_it_is(plan: &Plan, cylinder: &Cylinder) -> Option<Point> {
    match &cylinder.placing {
        Placing::InSlot { rack, slot } => {
            let slot = plan.boat.rack(rack).and_then(|rack| rack.slot(slot));
            slot.map(|slot| slot.at)
        }
        placing => placing.at(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::Work;
    use crate::checks::fixture;
    use crate::layout::{Fill, Plan};

    fn told(text: &str) -> Vec<String> {
        told_of(&fixture::plan(text).unwrap())
    }

    fn told_of(plan: &Plan) -> Vec<String> {
        let work = Work::of(plan, &plan.trips[0]);
        let steps = work.parts[1].steps.iter();
        steps.map(|step| step.sentence.clone()).collect()
    }

    /// Opened for two of three, a strap is shut round the one that stays.
    #[test]
    fn a_strap_is_shut_round_those_that_stay() {
        let told = told(
            "deck 6x3; point E1 2.6,0.6; point E2 2.6,-0.6; stand P1 3,0; stand P2 3.19,0; stand P3 3.38,0
             lash L1 E1 P1+P2+P3 E2 h=0.44 tight=0.2; fast; drifting; water P2; water P3; shut L1",
        );
        assert_eq!(
            told.last().map(String::as_str),
            Some("Shut L1 round P1 alone")
        );
    }

    /// Who holds one upright does nothing else after it, and what is filled needs no strap open.
    #[test]
    fn what_is_held_comes_last_and_fills_need_nothing_open() {
        let mut plan = fixture::plan(
            "deck 8x4; rack R1 bench 4,1.6 columns=4 foot; front R1 F1 strap
             slot P1 R1/1 empty; slot P2 R1/2 empty; stand S1 2,0; stand S2 2.5,0; person Kim crew 3,0.5
             fast; drifting; hold S1 2,0 by=Kim; lie S2 1,-1 chock=0.05; water P1; slot P2 R1/2",
        )
        .unwrap();
        let changes = &mut plan.trips[0].parts[1].changes.cylinders;
        let filled = changes.iter_mut().find(|change| change.cylinder == "P2");
        filled.unwrap().fill = Some(Fill::Full);
        let told = told_of(&plan);
        let at = |start: &str| {
            let found = told.iter().position(|it| it.contains(start));
            found.unwrap_or_else(|| panic!("{start} is not in {told:?}"))
        };
        assert!(at("Open") < at("P1 goes"), "{told:?}");
        assert!(at("Shut") < at("holds it upright"), "{told:?}");
        assert!(at("lay it down") < at("holds it upright"), "{told:?}");
        assert!(at("Shut") < at("Fill"), "{told:?}");
        assert!(at("Fill") < at("holds it upright"), "{told:?}");
    }
}
