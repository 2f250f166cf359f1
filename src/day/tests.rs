//! The day as a whole on small decks: the order of the work, patterns that keep their promise, and what is secured.

use std::fmt::Write as _;

use proptest::prelude::*;

use super::*;
use crate::checks::fixture;
use crate::layout::{Condition, DayState, Fill, Kit, Placing, Plan, Posture, RackKind, Trip};

fn plan(text: &str) -> Plan {
    fixture::plan(text).unwrap()
}

fn sentences(work: &PartWork) -> Vec<&str> {
    let steps = work.steps.iter();
    steps.map(|step| step.sentence.as_str()).collect()
}

/// A row for the divers with one shared strap, a row of cradles with fulls, two divers and a hand.
const SWAP: &str = "deck 8x4
    rack R1 bench 4,1.6 columns=4 foot; front R1 F1 strap
    rack C1 cradles 2,0 columns=4 pitch=0.3
    slot P1 R1/1; slot P2 R1/2; slot P3 R1/3
    slot F1 C1/1; slot F2 C1/2
    person Ann diver 4,1.2; person Bob diver 4.4,1.2; person Kim crew 3,0.5
    fast roll=3/4; running roll=8/4";

#[test]
fn the_empties_go_out_and_down_before_the_fulls_go_in() {
    let plan = plan(
        "deck 8x4; rack R1 bench 4,1 columns=2 foot; front R1 F1 strap
         slot P1 R1/1 empty; slot P2 R1/2; stand F1 2,0; person Kim crew 3,0
         fast; anchored roll=12/4; slot F1 R1/1; lie P1 1,0 chock=0.05",
    );
    let work = Work::of(&plan, &plan.trips[0]);
    assert!(work.parts[0].steps.is_empty());
    let steps = &work.parts[1];
    let told = sentences(steps);
    assert_eq!(
        told,
        [
            "Open strap F1 across R1 for F1 and P1",
            "Take P1, empty, out of slot 1 of R1 and lay it down and chock it on both sides",
            "Put F1 into slot 1 of R1",
            "Shut strap F1 across R1",
        ]
    );
    let left: Vec<&str> = (steps.steps[0].unsecured_meanwhile.iter())
        .map(|left| left.cylinder.as_str())
        .collect();
    assert_eq!(left, ["P2"], "opened for one it is open for all");
    assert!(
        steps.steps[0].unsecured_meanwhile[0]
            .limit_roll_deg
            .is_some()
    );
    assert!(
        steps
            .steps
            .iter()
            .all(|step| step.by.as_deref() == Some("Kim"))
    );
}

#[test]
fn two_that_change_places_are_not_in_one_slot_on_the_way() {
    let plan = plan(
        "deck 8x4; rack R1 bench 4,1 columns=2 foot; slot P1 R1/1; slot P2 R1/2
         fast; fast later; slot P1 R1/2; slot P2 R1/1",
    );
    let work = Work::of(&plan, &plan.trips[0]);
    let kinds: Vec<StepKind> = work.parts[1].steps.iter().map(|step| step.kind).collect();
    assert_eq!(
        kinds,
        [StepKind::Hold, StepKind::IntoSlot, StepKind::IntoSlot]
    );
    assert!(
        work.parts[1].steps.iter().all(|step| step.by.is_none()),
        "nobody is aboard"
    );
}

#[test]
fn the_swap_lies_in_cradles_and_the_second_dive_has_the_fulls() {
    let plan = plan(SWAP);
    let trip = &plan.trips[0];
    let draft = lay_out(&plan, trip, Pattern::TwoDives);
    let names: Vec<&str> = draft.parts.iter().map(|part| part.id.as_str()).collect();
    let expected = [
        "alongside",
        "running out",
        "kitting up 1",
        "dive 1",
        "back aboard 1",
        "empties down",
        "fulls in",
        "kitting up 2",
        "dive 2",
        "back aboard 2",
        "running home",
        "back alongside",
    ];
    // P3 stands in the row: Ann or Bob takes it, and only the other one's full has to be put in.
    assert_eq!(names, expected, "{:?}", draft.cannot);
    let laid = draft.trip(trip);
    let after = plan.with(&draft.edits(trip)).unwrap();
    assert_eq!(after.trips[0], laid);
    let days = DayState::of_trip(&plan, &laid);
    let down = names
        .iter()
        .position(|name| *name == "empties down")
        .unwrap();
    let lies = |id: &str, part: usize| matches!(&days[part].cylinder(id).unwrap().placing, Placing::InSlot { rack, .. } if rack == "C1");
    let empties: Vec<&str> = (days[down].cylinders.iter())
        .filter(|state| state.cylinder.fill == Fill::Empty && lies(&state.cylinder.id, down))
        .map(|state| state.cylinder.id.as_str())
        .collect();
    assert_eq!(empties.len(), 1, "one empty lies in a cradle");
    assert_eq!(
        draft.parts[1].motion, trip.parts[1].motion,
        "moves as the trip's own running part"
    );
    // Two parts of the day, so that there is a moment in which neither stands.
    for (part, fill) in [("empties down", Fill::Empty), ("fulls in", Fill::Full)] {
        let index = names.iter().position(|name| *name == part).unwrap();
        let carried = draft.parts[index].changes.cylinders.iter();
        let carried: Vec<_> = carried.filter(|it| it.placing.is_some()).collect();
        assert!(!carried.is_empty(), "{part}");
        for change in carried {
            let cylinder = days[index].cylinder(&change.cylinder).unwrap();
            assert_eq!(cylinder.fill, fill, "{} in {part}", change.cylinder);
        }
    }
}

/// A part of a pattern has the sea and the wake of the trip's own part in the same condition.
#[test]
fn a_part_has_the_sea_of_the_one_that_it_is_like() {
    let mut plan = plan(SWAP);
    let sea = crate::layout::Sea {
        wave_height_m: Some(0.7),
        ..Default::default()
    };
    plan.trips[0].parts[1].sea = Some(sea.clone());
    plan.trips[0].parts[1].wake = Some(crate::layout::Wake {
        wave_height_m: 0.4,
        wave_period_s: 3.0,
        waves: 4,
    });
    let draft = lay_out(&plan, &plan.trips[0], Pattern::Drift);
    let out = &draft.parts[1];
    assert_eq!((out.id.as_str(), &out.sea), ("running out", &Some(sea)));
    assert!(out.wake.is_some() && draft.parts[0].sea.is_none());
}

/// At night nobody is on deck while she is under way; in the morning everybody is as in the evening. After a dive
/// everybody is as at the start, whatever they did then.
#[test]
fn everybody_is_back_as_they_were() {
    let plan = plan(&SWAP.replace(
        "person Bob diver 4.4,1.2",
        "person Bob diver 4.4,1.2 is=kneeling",
    ));
    let trip = &plan.trips[0];
    let start = DayState::at_start(&plan.boat.racks, trip);
    let night = lay_out(&plan, trip, Pattern::Night);
    let alone: Vec<bool> = night.parts.iter().map(|it| it.nobody_on_deck).collect();
    assert_eq!(alone, [false, true, false]);
    let conditions: Vec<_> = night.parts.iter().map(|it| it.condition).collect();
    let (anchor, running) = (Condition::AtAnchor, Condition::Running);
    assert_eq!(conditions, [anchor, running, anchor]);
    for pattern in [Pattern::Night, Pattern::Drift] {
        let draft = lay_out(&plan, trip, pattern);
        let days = DayState::of_trip(&plan, &draft.trip(trip));
        assert_eq!(days.last().unwrap().people, start.people, "{pattern:?}");
    }
}

/// Two leave their slots for the deck: the empty one first, whatever they are called.
#[test]
fn an_empty_one_goes_before_a_full_one() {
    let plan = plan(
        "deck 8x4; rack R1 bench 4,1 columns=2 foot; slot P1 R1/1; slot P2 R1/2 empty
         fast; fast later; lie P1 1,0 chock=0.05; lie P2 2,0 chock=0.05",
    );
    let work = Work::of(&plan, &plan.trips[0]);
    let carried: Vec<&str> = (work.parts[1].steps.iter())
        .map(|step| step.things[0].as_str())
        .collect();
    assert_eq!(carried, ["P2", "P1"]);
}

/// What was opened so that one could be carried away, and is made fast again, is shut last.
#[test]
fn a_lashing_that_was_opened_is_shut_again() {
    let plan = plan(
        "deck 6x3; point E1 2.6,0.6; point E2 2.6,-0.6; stand P1 3,0; stand P2 3.19,0
         lash L1 E1 P1+P2 E2 h=0.44 tight=0.2; fast; drifting; lie P2 5,0 chock=0.05; shut L1",
    );
    let work = Work::of(&plan, &plan.trips[0]);
    assert_eq!(
        sentences(&work.parts[1]),
        [
            "Open L1 for P2",
            "Take P2 and lay it down and chock it on both sides",
            "Shut L1",
        ]
    );
}

#[test]
fn with_no_cradle_and_no_chocks_it_says_so() {
    let text = SWAP.replace("rack C1 cradles 2,0 columns=4 pitch=0.3", "");
    let text = text.replace("slot P3 R1/3", "");
    let text = text.replace("slot F1 C1/1; slot F2 C1/2", "stand F1 2,0; stand F2 2,0.5");
    let bare = plan(&text);
    let draft = lay_out(&bare, &bare.trips[0], Pattern::TwoDives);
    let told = draft.cannot.join(" ");
    assert!(told.contains("no set-down spot for P1 and P2"), "{told}");
    assert!(told.contains("the boat has no cradle"), "{told}");
    assert!(told.contains("no chocks are aboard"), "{told}");
    assert!(told.contains("the day has one"), "{told}");
    let with_chocks = plan(&format!("{text}\n aboard C chock 4 height=0.06"));
    let draft = lay_out(&with_chocks, &with_chocks.trips[0], Pattern::TwoDives);
    assert!(draft.cannot.is_empty(), "{:?}", draft.cannot);
}

#[test]
fn without_divers_or_cylinders_nothing_is_laid_out() {
    let empty = Plan::new("Test", 8.0, 3.0);
    for pattern in [Pattern::TwoDives, Pattern::Drift] {
        let draft = lay_out(&empty, &empty.trips[0], pattern);
        assert!(
            draft.parts.is_empty() && !draft.cannot.is_empty(),
            "{pattern:?}"
        );
        assert_eq!(draft.trip(&empty.trips[0]), empty.trips[0]);
    }
    let plan = plan("deck 8x4; person Ann diver 4,1");
    let draft = lay_out(&plan, &plan.trips[0], Pattern::Drift);
    assert!(
        draft.cannot[0].contains("left for Ann"),
        "{:?}",
        draft.cannot
    );
}

#[test]
fn in_a_drift_nobody_is_in_the_water_or_kitted_up_while_she_runs() {
    let plan = plan(SWAP);
    let draft = lay_out(&plan, &plan.trips[0], Pattern::Drift);
    let laid = draft.trip(&plan.trips[0]);
    let days = DayState::of_trip(&plan, &laid);
    for (part, day) in laid.parts.iter().zip(&days) {
        assert_ne!(part.condition, Condition::AtAnchor);
        let busy = day.people.iter().any(|state| {
            matches!(
                state.person.posture,
                Posture::InWater | Posture::SeatedKitted
            )
        });
        let running = part.condition == Condition::Running;
        assert!(!(busy && running), "{}", part.id);
    }
}

#[test]
fn secured_for_the_night_nothing_stands_free_and_the_limit_rises() {
    let plan = plan(
        "deck 8x4; rack R1 bench 4,1 columns=4 foot; front R1 F1 strap tied open
         slot P1 R1/1; stand P2 3,0; person Kim crew 3,0.5; gear G crate 6,0
         anchored roll=12/4; running roll=12/4",
    );
    let trip = &plan.trips[0];
    let done = secure(&plan, trip, 0, Purpose::Night).unwrap();
    assert!(done.cannot.is_empty(), "{:?}", done.cannot);
    let told = sentences(&done.work);
    assert_eq!(
        told,
        [
            "Put P2 into slot 2 of R1",
            "Shut strap F1 across R1",
            "Stow G away",
            "Kim goes below",
        ]
    );
    assert_eq!(done.work.steps[0].by.as_deref(), Some("Kim"));
    let (before, after) = (done.before.first.unwrap(), done.afterwards.first.unwrap());
    assert!(before.goes && !after.goes, "{before:?} {after:?}");
    assert!(done.before.to_put_right.danger > 0);
    assert_eq!(done.afterwards.to_put_right.danger, 0);
    let with = plan.with(&done.edits).unwrap();
    let names: Vec<&str> = with.trips[0]
        .parts
        .iter()
        .map(|part| part.id.as_str())
        .collect();
    assert_eq!(names, ["anchored", "night", "running"]);
    assert!(with.trips[0].parts[1].nobody_on_deck);
    let (old, new) = (
        DayState::of_trip(&plan, trip),
        DayState::of_trip(&with, &with.trips[0]),
    );
    let placings = |day: &DayState| {
        let all = day
            .cylinders
            .iter()
            .map(|state| state.cylinder.placing.clone());
        all.collect::<Vec<_>>()
    };
    assert_eq!(
        placings(&old[1]),
        placings(&new[2]),
        "the next part is as it was"
    );
    assert_eq!(old[1].people, new[2].people);
    let again = secure(&with, &with.trips[0], 1, Purpose::Night).unwrap();
    assert!(again.is_done_already(), "{:?}", sentences(&again.work));
}

/// At night what lies free, hangs in hands or waits at the whip is put away too; mats stay, lashings that are cut
/// are told, and who is in the water is told.
#[test]
fn secured_for_the_night_it_says_what_it_cannot_do() {
    let plan = plan(
        "deck 8x4; rack R1 bench 4,1 columns=2 foot; front R1 F1 strap tied; slot P1 R1/1
         lie P2 1,0; stand P3 6,0; point E1 6,0.6; lash L1 E1 P3 E1 h=0.44 tight=0.2 is=cut open
         aboard C chock 2 height=0.06; gear M mat 2,-1; gear G crate 3,-1
         person Kim crew 3,0.5; person Ann diver 4,0 is=in_water; anchored roll=5/4",
    );
    let done = secure(&plan, &plan.trips[0], 0, Purpose::Night).unwrap();
    let told = done.cannot.join(" ");
    assert!(told.contains("Ann is in the water"), "{told}");
    assert!(told.contains("L1 is cut"), "{told}");
    let told = sentences(&done.work).join(". ");
    assert!(told.contains("Put P2 into slot 2 of R1"), "{told}");
    assert!(told.contains("P3") && told.contains("chock"), "{told}");
    assert!(
        told.contains("Stow G") && !told.contains("Stow M"),
        "{told}"
    );
}

/// Who dives takes the cylinder with their name on it, however far off it stands, and nobody else's.
#[test]
fn for_diving_everybody_has_their_own() {
    let mut plan = plan(
        "deck 8x4; rack R1 bench 4,1 columns=4 foot; front R1 F1 strap tied
         slot P1 R1/1; slot P2 R1/4; person Ann diver 3.6,1.5; person Bob diver 4.4,1.5
         person Kim crew 3,0; anchored roll=5/4",
    );
    plan.trips[0].cylinders[1].diver = Some("Ann".into());
    let done = secure(&plan, &plan.trips[0], 0, Purpose::Diving).unwrap();
    assert!(done.cannot.is_empty(), "{:?}", done.cannot);
    // Nobody gets ready while she runs.
    plan.trips[0].parts[0].condition = Condition::Running;
    let done = secure(&plan, &plan.trips[0], 0, Purpose::Diving).unwrap();
    assert_eq!(done.part.condition, Condition::Drifting);
    let draft = lay_out(&plan, &plan.trips[0], Pattern::Drift);
    let with_kit = &draft.parts[2].changes.cylinders;
    let kitted: Vec<&str> = with_kit.iter().map(|it| it.cylinder.as_str()).collect();
    assert_eq!(kitted, ["P2", "P1"], "in the order of the divers");
}

#[test]
fn opened_for_diving_the_neighbours_are_told() {
    let plan = plan(
        "deck 8x4; rack R1 bench 4,1 columns=4 foot; front R1 F1 strap
         slot P1 R1/1; slot P2 R1/2; person Ann diver 3.6,1.5; person Kim crew 3,0
         anchored roll=12/4",
    );
    let done = secure(&plan, &plan.trips[0], 0, Purpose::Diving).unwrap();
    let told = sentences(&done.work);
    assert_eq!(told, ["Open strap F1 across R1", "Fit the kit to P1"]);
    let left = &done.work.steps[0].unsecured_meanwhile;
    assert_eq!(left.len(), 2, "{left:?}");
    let (before, after) = (done.before.first.unwrap(), done.afterwards.first.unwrap());
    let degrees = |first: FirstToGo| first.roll_deg.unwrap_or(60.0);
    assert!(degrees(after) < degrees(before));
    assert!(secure(&plan, &plan.trips[0], 7, Purpose::Night).is_none());
}

/// A kit is fitted on deck before the cylinder goes overboard, and comes off when it is aboard again.
#[test]
fn no_kit_is_handled_in_the_water_or_on_a_back() {
    let mut plan = plan(
        "deck 8x4; lie P1 2,1 chock=0.05; lie P2 2,-1 chock=0.05; person Kim crew 3,0
         anchored a; anchored b; water P1; water P2; anchored c; lie P1 2,1 chock=0.05; lie P2 2,-1 chock=0.05",
    );
    let mut kit = |part: usize, kit: Kit| {
        for change in &mut plan.trips[0].parts[part].changes.cylinders {
            change.kit = Some(kit);
        }
    };
    kit(1, Kit::On);
    kit(2, Kit::Off);
    let work = Work::of(&plan, &plan.trips[0]);
    assert_eq!(
        sentences(&work.parts[1]),
        [
            "Fit the kit to P1 and P2",
            "P1 goes into the water",
            "P2 goes into the water"
        ]
    );
    let back = sentences(&work.parts[2]);
    assert!(back[0].contains("P1 out of the water"), "{back:?}");
    assert_eq!(back[2], "Take the kit off P1 and P2");
}

#[test]
fn the_strip_counts_what_is_where() {
    let plan = plan(
        "deck 8x4; rack R1 bench 4,1 columns=4 foot; front R1 F1 strap
         slot P1 R1/1; slot P2 R1/2; stand P3 2,0; lie P4 1,0 chock=0.05
         person Ann diver 4,0; person Kim crew 3,0.5
         fast roll=2/4; anchored roll=12/4; water P1; person Ann diver 4,0 is=in_water",
    );
    let trip = &plan.trips[0];
    let mut assessor = crate::engine::Assessor::default();
    let findings = crate::checks::run(&mut assessor, &plan, trip);
    let work = Work::of(&plan, trip);
    let strip = DayStrip::of(trip, &assessor, &findings, &work);
    let [first, second] = &strip.parts[..] else {
        panic!("two parts")
    };
    assert!(first.changed.is_nothing());
    assert_eq!((first.cylinders.full, first.cylinders.in_racks), (4, 2));
    assert_eq!((first.cylinders.standing, first.cylinders.lying), (1, 1));
    assert_eq!((second.cylinders.full, second.cylinders.in_water), (3, 1));
    assert_eq!((second.people.on_deck, second.people.in_water), (1, 1));
    assert_eq!((first.people.on_deck, first.people.hands), (2, 1));
    assert_eq!((second.changed.moved, second.changed.people), (1, 1));
    assert_eq!(second.changed.opened, 1);
    assert_eq!(
        second.changed.unsecured_meanwhile, 1,
        "P2, while F1 is open for P1"
    );
    assert_eq!(
        second.to_put_right.gravest(),
        Some(crate::checks::Signal::Danger)
    );
    assert_eq!(second.first.as_ref().unwrap().cylinder, "P3");
    let whole = strip.to_put_right;
    assert!(whole.danger >= second.to_put_right.danger.max(first.to_put_right.danger));
}

/// How many stand upright, in slots or on deck, but for those in somebody's hands.
fn standing(plan: &Plan, day: &DayState, in_hand: &[String]) -> usize {
    let cylinders = day.cylinders.iter().map(|state| &state.cylinder);
    let upright = cylinders.filter(|cylinder| match &cylinder.placing {
        Placing::InSlot { rack, .. } => plan.boat.rack(rack).unwrap().kind != RackKind::Cradles,
        placing => matches!(placing, Placing::Standing { .. }),
    });
    upright
        .filter(|cylinder| !in_hand.contains(&cylinder.id))
        .count()
}

/// Walks the work step by step: nobody is ever put into a slot that is taken, and never do more stand than at the
/// start of the day.
fn walk(plan: &Plan, trip: &Trip) -> Result<(), TestCaseError> {
    let start = standing(plan, &DayState::at_start(&plan.boat.racks, trip), &[]);
    let mut day = DayState::at_start(&plan.boat.racks, trip);
    for (part, work) in trip.parts.iter().zip(Work::of(plan, trip).parts) {
        let mut in_hand: Vec<String> = Vec::new();
        for step in &work.steps {
            if step.kind == StepKind::Hold {
                in_hand.extend(step.things.clone());
            }
            let Some(placing) = &step.placing else {
                continue;
            };
            in_hand.retain(|id| !step.things.contains(id));
            for state in &mut day.cylinders {
                if step.things.contains(&state.cylinder.id) {
                    state.cylinder.placing = placing.clone();
                }
            }
            let mut slots: Vec<_> = (day.cylinders.iter())
                .filter(|state| !in_hand.contains(&state.cylinder.id))
                .filter_map(|state| match &state.cylinder.placing {
                    Placing::InSlot { rack, slot } => Some((rack.clone(), slot.clone())),
                    _ => None,
                })
                .collect();
            let upright = standing(plan, &day, &in_hand);
            prop_assert!(
                upright <= start,
                "{upright} stand in {}, {start} before",
                part.id
            );
            let count = slots.len();
            slots.sort();
            slots.dedup();
            prop_assert_eq!(slots.len(), count, "two in one slot in {}", part.id);
            for rack in &plan.boat.racks {
                let inside = slots.iter().filter(|(of, _)| *of == rack.id).count();
                prop_assert!(inside <= rack.slot_count());
            }
        }
        prop_assert!(in_hand.is_empty(), "somebody is still held in {}", part.id);
        day.enter(part);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever boat it is laid out for: at no moment do an empty and the full one for its slot both stand, and no
    /// step finds its slot taken.
    #[test]
    fn a_pattern_keeps_its_promise(
        slots in 1_usize..5, cradles in 0_usize..4, spare in 0_usize..3, divers in 1_usize..4,
        chocks in 0_u32..5, tied: bool,
    ) {
        let tied = if tied { "tied" } else { "" };
        let mut text = format!(
            "deck 9x4; rack R1 bench 4.5,1.6 columns={slots} foot; front R1 F1 strap {tied}\n"
        );
        if cradles > 0 {
            writeln!(text, "rack C1 cradles 2,0 columns={cradles} pitch=0.3").unwrap();
        }
        for slot in 1..=slots.min(divers) {
            writeln!(text, "slot P{slot} R1/{slot}").unwrap();
        }
        for number in 1..=spare {
            if number <= cradles {
                writeln!(text, "slot F{number} C1/{number}").unwrap();
            } else {
                writeln!(text, "lie F{number} {}.0,-1.2 chock=0.05", 2 + number).unwrap();
            }
        }
        for number in 1..=divers {
            writeln!(text, "person D{number} diver {}.{number},1", 3).unwrap();
        }
        write!(text, "aboard chock chock {chocks} height=0.06\nfast roll=3/4").unwrap();
        let plan = plan(&text);
        let trip = &plan.trips[0];
        for pattern in Pattern::ALL {
            let draft = lay_out(&plan, trip, pattern);
            prop_assert!(!draft.parts.is_empty());
            let laid = draft.trip(trip);
            prop_assert!(plan.with(&draft.edits(trip)).is_ok(), "{:?}", plan.with(&draft.edits(trip)));
            walk(&plan, &laid)?;
        }
    }

    /// Any sound change of places can be walked step by step.
    #[test]
    fn every_shuffle_of_slots_can_be_done(order in Just((1..=5).collect::<Vec<usize>>()).prop_shuffle()) {
        let mut text = "deck 9x4; rack R1 bench 4.5,1.6 columns=6 foot\n".to_owned();
        for slot in 1..=5 {
            writeln!(text, "slot P{slot} R1/{slot}").unwrap();
        }
        text += "fast; fast later\n";
        for (index, slot) in order.iter().enumerate() {
            writeln!(text, "slot P{} R1/{slot}", index + 1).unwrap();
        }
        let plan = plan(&text);
        walk(&plan, &plan.trips[0])?;
        let work = Work::of(&plan, &plan.trips[0]);
        let moved = order.iter().enumerate().filter(|(index, slot)| index + 1 != **slot).count();
        let put = work.parts[1].count(StepKind::IntoSlot);
        prop_assert_eq!(put, moved, "each one that moves is put down once");
    }
}
