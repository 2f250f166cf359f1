//! One cure for several findings, trouble that is moved elsewhere, and order.

use std::collections::BTreeSet;

use super::Case;
use crate::checks::{Digest, Finding, Signal};
use crate::engine::Assessor;

fn digest(case: &Case) -> Digest {
    let trip = &case.plan.trips[0];
    let mut assessor = Assessor::default();
    let numbers = assessor.assess(&case.plan, trip);
    let mut digest = Digest::of(&case.plan, trip, &case.findings, numbers);
    digest.fill_cures(&case.plan, trip, &case.findings);
    digest
}

#[test]
fn each_slot_is_given_out_once() {
    let text = "deck 8x4; drifting roll=12/5; stand P1 3,0; stand P2 3,1; stand P3 5,0
                rack R1 sockets 1,0 columns=3 foot strength=9";
    let case = Case::new(text);
    let digest = digest(&case);
    let cure = digest.lines[0].cure.as_ref().unwrap();
    assert!(cure.clears, "{cure:#?}");
    let after = case.after(cure);
    assert!(after.findings.is_empty(), "{:#?}", after.findings);
    let mut slots: Vec<_> = after.plan.trips[0]
        .cylinders
        .iter()
        .map(|item| format!("{:?}", item.placing))
        .collect();
    slots.sort();
    slots.dedup();
    assert_eq!(slots.len(), 3);
}

#[test]
fn with_too_few_slots_it_does_not_clear() {
    let text = "deck 8x4; drifting roll=12/5; stand P1 3,0; stand P2 3,1; stand P3 5,0
                rack R1 sockets 1,0 columns=2 foot strength=9";
    let digest = digest(&Case::new(text));
    let cure = digest.lines[0].cure.as_ref().unwrap();
    assert!(!cure.clears, "{cure:#?}");
    assert_eq!(cure.label.matches("in slot").count(), 2, "{}", cure.label);
}

#[test]
fn straps_are_shared_out_too() {
    let text =
        "deck 8x4; drifting roll=12/5; stand P1 2,0; stand P2 5,0; point E1 2,0.6; point E2 2,-0.6
                point E3 5,0.6; point E4 5,-0.6; aboard S strap 2";
    let case = Case::new(text);
    let digest = digest(&case);
    let cure = digest.lines[0].cure.as_ref().unwrap();
    assert!(!cure.clears);
    let after = case.after(cure);
    assert!(after.plan.trips[0].lashings.len() <= 2, "{}", cure.label);
}

#[test]
fn a_cure_clears_a_line_only_if_it_clears_every_part_of_the_day() {
    let text = "deck 6x4; rack R1 sockets 1,0 columns=2 foot strength=9; stand P1 3,0
                drifting out roll=12/5; drifting back roll=18/4";
    let case = Case::new(text);
    let digest = digest(&case);
    let line = &digest.lines[0];
    assert_eq!(line.parts.len(), 2);
    let cure = line.cure.as_ref().unwrap();
    assert!(cure.clears, "{cure:#?}");
    let after = case.after(cure);
    assert!(
        after.findings.is_empty(),
        "{}: {:#?}",
        cure.label,
        after.findings
    );
}

#[test]
fn what_it_brings_about_is_told() {
    // Laid down it takes the floor of the only way past.
    let text = "deck 3x1.2 friction=0.8; drifting roll=6/5; stand P1 1.5,0.45 kit=0
                place A seat 0.2,-0.2; place B gate 2.8,-0.2; way W A B width=0.4";
    let case = Case::new(text);
    let cures = case.cures("U101", "P1");
    let laid = cures
        .iter()
        .find(|cure| cure.label.starts_with("Lay P1 down"))
        .unwrap();
    assert!(!laid.moves_trouble_to.is_empty(), "{laid:#?}");
    let after = case.after(laid);
    for sentence in &laid.moves_trouble_to {
        let found = after
            .findings
            .iter()
            .any(|finding| finding.sentence == *sentence);
        assert!(found, "{sentence} is not there: {:#?}", after.findings);
    }
    // The same valve was bare before, and is not told as new where it is not.
    let before: Vec<&Finding> = case.findings.iter().collect();
    assert!(
        before
            .iter()
            .all(|old| !laid.moves_trouble_to.contains(&old.sentence))
    );
}

#[test]
fn the_same_cures_whoever_asks_first() {
    let text =
        "deck 8x4 friction=0.5; drifting out roll=15/4; stand P1 2,0; stand P2 5,0.5; lie P3 6,1
                point E1 2,0.6; point E2 2,-0.6; aboard S strap 4; aboard C chock 2 height=0.05
                rack R1 sockets 1,0 columns=1 foot strength=9";
    let case = Case::new(text);
    let labels = |order: &mut dyn Iterator<Item = &Finding>| {
        let mut clinic = case.clinic();
        let mut labels: Vec<_> = order
            .map(|finding| {
                format!(
                    "{} {:?}: {:?}",
                    finding.code,
                    finding.about,
                    clinic.cures(finding)
                )
            })
            .collect();
        labels.sort();
        labels
    };
    let forth = labels(&mut case.findings.iter());
    let back = labels(&mut case.findings.iter().rev());
    assert_eq!(forth, back);
    let once = format!("{:?}", digest(&case));
    assert_eq!(once, format!("{:?}", digest(&case)));
}

#[test]
fn every_new_trouble_is_told_and_no_other() {
    let mut told = 0;
    let mut rules = BTreeSet::new();
    for text in super::trials::DECKS {
        let case = Case::new(text);
        let mut clinic = case.clinic();
        for finding in &case.findings {
            for cure in clinic.cures(finding) {
                let after = case.after(&cure);
                let is_old = |new: &Finding| {
                    case.findings.iter().any(|old| {
                        let same = old.code == new.code && old.part == new.part;
                        // What was there and is graver now is new trouble too.
                        same && old.about.first() == new.about.first() && old.signal >= new.signal
                    })
                };
                let new: Vec<&Finding> = (after.findings.iter())
                    .filter(|finding| finding.signal > Signal::Notice && !is_old(finding))
                    .collect();
                let mut keys: Vec<_> = new.iter().map(|item| (item.code, item.first())).collect();
                keys.sort_unstable();
                keys.dedup();
                assert_eq!(keys.len(), cure.moves_trouble_to.len(), "{cure:#?}");
                for sentence in &cure.moves_trouble_to {
                    let found = new.iter().find(|item| item.sentence == *sentence);
                    rules.insert(found.expect(sentence).code);
                    told += 1;
                }
            }
        }
    }
    assert!(told >= 20, "only {told}");
    assert!(rules.len() >= 6, "only {rules:?}");
}

/// Where next to nothing presses it down everything goes that is not held down, forward first. P1 is too thick for
/// the only slots that hold down, and there is no strap: the others are cured none the less.
#[test]
fn what_nothing_cures_is_told_and_passed_over() {
    let text = "deck 8x4 friction=0.25; drifting roll=2/8 pitch=2/2.5 up=0.98
                lie P1 7.4,0 kind=st-15l-232 towards=0 onkit cap; stand P2 4,0; stand P3 5,0
                rack R2 sockets 5,1 columns=2 foot strength=9 hold=2 bore=0.19";
    let case = Case::new(text);
    let digest = digest(&case);
    let part = &digest.parts[0];
    assert_eq!(part.first.as_deref(), Some("P1"));
    let [told] = &part.not_cured[..] else {
        panic!("{:#?}", part.not_cured);
    };
    assert!(
        told.starts_with("Nothing that was tried cures P1: it slides"),
        "{told}"
    );
    assert!(
        told.contains("Take it off the deck for this part"),
        "{told}"
    );
    // Nobody has told what is aboard.
    assert!(told.ends_with("more can be tried."), "{told}");
    let labels: Vec<&str> = part
        .cures
        .iter()
        .map(|best| best.cure.label.as_str())
        .collect();
    assert_eq!(
        labels,
        ["Put P3 in slot 1 of R2", "Put P2 in slot 2 of R2"],
        "{:#?}",
        part.cures
    );
    for best in &part.cures {
        assert_eq!(best.without, ["P1"]);
        assert!(
            best.sentence.starts_with("P1 still goes first"),
            "{}",
            best.sentence
        );
    }
    // After the first P2 is next; after both nobody goes but P1.
    assert!(
        part.cures[0].sentence.contains("P2 tips"),
        "{}",
        part.cures[0].sentence
    );
    assert!(
        !part.cures[1].sentence.contains("P2 tips"),
        "{}",
        part.cures[1].sentence
    );
    let edits: Vec<_> = part
        .cures
        .iter()
        .flat_map(|best| best.cure.edits.clone())
        .collect();
    let after = Case::of(case.plan.with(&edits).unwrap());
    let grave = after
        .findings
        .iter()
        .filter(|item| item.signal > Signal::Notice);
    assert!(
        grave.clone().all(|item| item.first() == "P1"),
        "{:#?}",
        after.findings
    );
    // Without P1 there is nothing to tell.
    let alone = Case::new(&text.replace("lie P1 7.4,0 kind=st-15l-232 towards=0 onkit cap; ", ""));
    let digest = super::together::digest(&alone);
    assert!(digest.parts[0].not_cured.is_empty());
    assert!(
        digest.parts[0]
            .cures
            .iter()
            .all(|best| best.without.is_empty())
    );
}

/// Each cure that is listed as one that raises the limit does: applied on those before it, what goes first goes later
/// than before, those passed over left out both times.
#[test]
fn every_cure_that_is_listed_raises_the_limit() {
    use crate::checks::digest::{first_to_go_but, height};

    let crowd = Case::new(
        "deck 9x4; drifting roll=16/5; stand P1 2,0; stand P2 3,1; stand P3 4,-1; stand P4 5,0.6; stand P5 6,-0.4
         rack R1 sockets 7,0 columns=4 foot strength=9; rack R2 sockets 1,1.4 columns=2 foot strength=9",
    );
    // Two pairs of twins: none of them alone raises the limit.
    let twins = Case::new(
        "deck 8x4; drifting roll=14/5; stand P1 3,1; stand P2 3,-1
         rack R1 sockets 5,0 columns=4 foot strength=9",
    );
    let mut seen = 0;
    for plan in [crowd.plan, twins.plan] {
        let case = Case::of(plan);
        let digest = digest(&case);
        for (index, part) in digest.parts.iter().enumerate() {
            let mut edits = Vec::new();
            for best in &part.cures {
                let goes_at = |edits: &[crate::layout::Edit]| {
                    let plan = case.plan.with(edits).unwrap();
                    let mut assessor = crate::engine::Assessor::default();
                    crate::checks::run(&mut assessor, &plan, &plan.trips[0]);
                    let numbers = &assessor.assessment().parts[index];
                    first_to_go_but(numbers, &best.without).map(|first| height(&first.limit))
                };
                let before = goes_at(&edits).expect("something goes first");
                edits.extend(best.cure.edits.clone());
                if let Some(after) = goes_at(&edits) {
                    assert!(
                        after.0 > before.0 || after.1 > before.1,
                        "{}: {before:?} to {after:?} by {}",
                        part.part,
                        best.cure.label
                    );
                }
                seen += 1;
            }
        }
    }
    assert!(seen > 3, "only {seen} cures");
}

/// Where both go at the very same limit, one alone raises nothing: both together are one of the cures.
#[test]
fn twins_are_cured_together() {
    let case = Case::new(
        "deck 8x4; drifting roll=14/5; stand P1 3,1; stand P2 3,-1
         rack R1 sockets 5,0 columns=4 foot strength=9",
    );
    let digest = digest(&case);
    let [first, ..] = &digest.parts[0].cures[..] else {
        panic!("{:#?}", digest.parts[0]);
    };
    let label = first.cure.label.to_string();
    assert!(label.contains("P1") && label.contains("P2"), "{label}");
}
