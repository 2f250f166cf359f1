//! A trial computes only what its edits touch, and must come to what checking the whole plan comes to.

use std::sync::Arc;

use super::Case;
use crate::checks::cures::trial::{Mark, PartView, is_of_holding};
use crate::checks::index::Index;
use crate::checks::{ALL, CheckContext, run};
use crate::engine::numbers::PartNumbers;
use crate::engine::{Assessor, Scene};
use crate::layout::{Edit, Plan};

/// Decks on which all sorts of things are tried.
pub(super) const DECKS: [&str; 9] = [
    "deck 6x4 friction=0.6; rack R1 bench 1,1.6 columns=3; front R1 F1 strap tied
     stand P1 1,0; stand P2 3,1; lie P3 5,0 towards=90; slot P4 R1/1
     running out roll=15/4; drifting there roll=15/4; fast back roll=2/6",
    "deck 6x4; stand P1 1,0; stand P2 3,1; point E1 1,0.6; point E2 1,-0.6; aboard S strap 2
     aboard C chock 4 height=0.06; rack R1 sockets 5,0 columns=2 foot; place A seat 0.5,-1
     place B gate 5.5,-1; way W A B width=0.6; gear G crate 3,-1
     running out roll=12/4; drifting there roll=18/5; water P1",
    "deck 6x4; rack R1 bench 3,0 columns=3 foot; front R1 F1 strap tied open
     slot P1 R1/1; slot P2 R1/2; anchored roll=8/5; drifting roll=15/4; water P2
     running roll=9/4; slot P2 R1/3",
    "deck 6x4 friction=0.3; lie P1 2,0; lie P2 2,0.5 towards=45; stand P3 4,0 kit=90
     point E1 2,1; point E2 2,-1; aboard S strap 1
     running roll=20/4 stop=0.4; fast roll=1/5; stand P3 4,1",
    "deck 6x3 friction=0.1; lie P1 3,0 towards=0 onkit kit=90; lie P2 3,1 towards=90 saddle=60
     aboard M mat 2; place A seat 0.5,-1; place B gate 5.5,-1; way W A B width=0.6
     running roll=15/4; fast roll=1/5",
    // From here on one trouble is cured by another: the only way past is blocked or crossed by a strap,
    "deck 3x1.2 friction=0.8; place A seat 0.2,-0.2; place B gate 2.8,-0.2; way W A B width=0.4
     stand P1 1.5,0.45 kit=0; drifting out roll=6/5; anchored there roll=4/6",
    "deck 4x2; place A seat 0.3,0; place B gate 3.7,0; way W A B width=0.5; stand P1 2,0.6
     point E1 2,0.95; point E2 2,-0.95; aboard S strap 2; drifting roll=12/5",
    // the slots that are free are too weak, too wide and too low for what is put into them,
    "deck 6x3; rack R1 sockets 3,0 columns=2 edge=0.2 strength=0.02 bore=0.3 pitch=0.35 fixings=0.05
     stand P1 1,0; stand P2 5,0 kind=st-15l-232 boot; running roll=14/4; drifting roll=20/4",
    // and a mat stops the slide and starts the tip.
    "deck 6x3; stand P1 3,0; point E1 3,0.6 strength=0.1; lash L1 E1 P1 E1 h=0.2 tight=0.02; aboard M mat 1
     running roll=15/4",
];

/// What the rules find in each part of the day of a plan, from the start.
fn from_scratch(plan: &Plan) -> Vec<Vec<String>> {
    let trip = &plan.trips[0];
    let findings = run(&mut Assessor::default(), plan, trip);
    let of = |part: &str| {
        let here = findings.iter().filter(|finding| finding.part == part);
        let mut lines: Vec<String> = here
            .map(|finding| format!("{} {} {}", finding.signal, finding.code, finding.sentence))
            .collect();
        lines.sort();
        lines
    };
    trip.parts.iter().map(|part| of(&part.id)).collect()
}

fn told(view: &[Arc<PartView>]) -> Vec<Vec<String>> {
    let line = |mark: &Mark| format!("{} {} {}", mark.signal, mark.code, mark.sentence);
    let parts = view.iter().map(|part| {
        let mut lines: Vec<String> = part.marks.iter().map(line).collect();
        lines.sort();
        lines
    });
    parts.collect()
}

#[test]
fn a_trial_comes_to_what_the_whole_plan_comes_to() {
    let mut tried = 0;
    for text in DECKS {
        let case = Case::new(text);
        let mut clinic = case.clinic();
        let ground = Arc::clone(&clinic.ground);
        // Twice, so that a trial that is remembered is held against it too, and one on top of another.
        let mut first: Vec<Edit> = Vec::new();
        for finding in case.findings.iter().chain(&case.findings) {
            let proposals = clinic
                .inspect(&ground.start, &finding.part, |ctx, _| {
                    super::super::proposals(ctx, finding)
                })
                .unwrap();
            for proposal in proposals {
                let edits = [first.as_slice(), &proposal.edits].concat();
                let Some(mut attempt) = ground.attempt(&clinic.assessor, edits.clone()) else {
                    continue;
                };
                let view = attempt.whole(&mut clinic.assessor);
                let plan = case.plan.with(&edits).unwrap();
                assert_eq!(told(&view), from_scratch(&plan), "{}", proposal.label);
                tried += 1;
                if first.is_empty() && tried % 7 == 0 {
                    first = proposal.edits;
                }
            }
        }
    }
    assert!(tried > 100, "only {tried}");
}

#[test]
fn what_is_not_touched_is_not_computed_again() {
    let case = Case::new(DECKS[0]);
    let finding = case
        .findings
        .iter()
        .find(|finding| finding.part == "there" && finding.first() == "P1")
        .unwrap();
    let mut clinic = case.clinic();
    let proposal = clinic
        .inspect(&case.clinic().ground.start, "there", |ctx, _| {
            super::super::proposals(ctx, finding).remove(0)
        })
        .unwrap();
    let ground = Arc::clone(&clinic.ground);
    let mut attempt = ground.attempt(&clinic.assessor, proposal.edits).unwrap();
    let view = attempt.whole(&mut clinic.assessor);
    let before = ground.resume(&ground.start).whole(&mut clinic.assessor);
    let same = |index: usize| Arc::ptr_eq(&view[index], &before[index]);
    assert!(same(0), "before the change nothing is different");
    assert!(!same(1) && !same(2), "from it on something is");
}

#[test]
fn a_rule_about_holding_finds_the_same_without_the_rest() {
    let mut found = 0;
    for check in ALL.iter().filter(|check| is_of_holding(check)) {
        for plan in check.picture_plans() {
            let trip = &plan.trips[0];
            let mut assessor = Assessor::default();
            assessor.assess(&plan, trip);
            let days = assessor.days().to_vec();
            for (part_index, part) in trip.parts.iter().enumerate() {
                let with = |(scene, numbers): (Scene, PartNumbers)| {
                    let mut findings = Vec::new();
                    let day = &days[part_index];
                    (check.run)(
                        &CheckContext {
                            plan: &plan,
                            trip,
                            part_index,
                            part,
                            day,
                            days: &days,
                            scene: &scene,
                            numbers: &numbers,
                            index: &Index::new(day, &numbers),
                        },
                        &mut findings,
                    );
                    format!("{findings:?}")
                };
                let whole = with(assessor.what_if(&plan, trip, &days, part_index).unwrap());
                let held = assessor.what_if_held(&plan, trip, &days, part_index);
                assert_eq!(whole, with(held.unwrap()), "{}", check.code);
                found += usize::from(whole != "[]");
            }
        }
    }
    assert!(found > 20, "only {found} pictures say something");
}
