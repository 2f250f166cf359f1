//! The whole audit on small decks, held against the engine asked otherwise.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::*;
use crate::checks::fixture;
use crate::engine::Assessor;
use crate::geometry::Elementary as _;
use crate::layout::{Id, Placing, Plan};
use crate::mechanics::motion_log::Sample;
use crate::mechanics::recorded::{LogPiece, Recorded};
use crate::record::testing::{log_file, rolling};
use crate::record::{
    Account, AuditRecord, FileState, FoundItem, FoundThing, Input, LayoutFile, MarkedSpot,
    MotionLog, Opened, Plausible, PlausibleSource, Provenance, SensorMounting,
};

const DECK: &str = "deck 10x4; drifting roll=10/3.4
point E1 4.3,1.6 h=0.3 strength=9; point E2 4.3,0.4 h=0.3 strength=9
point E3 6.3,1.6 h=0.3 strength=9; point E4 6.3,0.4 h=0.3 strength=9
stand P1 4.3,1; lash L1 E1 P1 E2 h=0.44 strength=9 tight=0.2
stand P2 6.3,1; lash L2 E3 P2 E4 h=0.44 strength=9 tight=0.2; stand P3 2,0";

fn case(planned: Plan, found: Vec<FoundThing>, spot: Option<[f64; 2]>, high_deg: f64) -> Case {
    let file = LayoutFile {
        path: "plan.json".to_owned(),
        sha256: "0".repeat(64),
        trip: None,
        part: None,
    };
    let items = found.into_iter().map(|thing| FoundItem {
        thing,
        state: Provenance::AsFound,
        rests_on: Vec::new(),
        remark: None,
    });
    let account = Account {
        id: "A".to_owned(),
        by: "mate".to_owned(),
        when: None,
        layout: None,
        found: items.collect(),
        lashings: Vec::new(),
    };
    let mut record = AuditRecord::new("Test", file, account);
    record.marked_spot = spot.map(|at| MarkedSpot {
        deck: planned.boat.decks[0].id.clone(),
        at,
        what: "a mark".to_owned(),
        state: Provenance::AsFound,
    });
    record.plausible.push(Plausible {
        id: "R1".to_owned(),
        source: PlausibleSource::Witness,
        from: "by eye".to_owned(),
        roll_amplitude_deg: [4.0, high_deg],
    });
    record.wanted_margin = Some(0.0);
    Case::of(Opened {
        record,
        planned,
        layouts: BTreeMap::new(),
        inputs: vec![Input {
            what: "record".to_owned(),
            path: "record.json".to_owned(),
            recorded_sha256: None,
            sha256: None,
            state: FileState::Itself,
        }],
        motion_log: MotionLog::None,
    })
    .unwrap()
}

fn left_off(lashings: &[&str]) -> Vec<FoundThing> {
    let things = lashings.iter().map(|id| FoundThing::NoLashing {
        lashing: (*id).to_owned(),
    });
    things.collect()
}

/// Both straps left off, with a marked spot.
fn at_spot(plan: Plan, spot: Option<[f64; 2]>) -> Case {
    case(plan, left_off(&["L1", "L2"]), spot, 9.5)
}

/// Does any cylinder of these go within this roll, asked of the engine with that roll as the part's motion?
fn goes(plan: &Plan, roll_deg: f64, of: &[Id]) -> bool {
    let mut plan = plan.clone();
    let part = &mut plan.trips[0].parts[0];
    part.motion.as_mut().unwrap().roll_amplitude_deg = roll_deg;
    let mut assessor = Assessor::default();
    let numbers = assessor.assess(&plan, &plan.trips[0]).parts[0].clone();
    let asked = numbers
        .cylinders
        .iter()
        .filter(|body| of.contains(&body.cylinder));
    asked
        .flat_map(|body| &body.utilisations)
        .any(|item| item.goes)
}

/// The needed roll is where the engine, asked forwards, turns from holding to going.
#[test]
fn the_reverse_question_is_the_forward_one_turned_round() {
    let plan = fixture::plan(DECK).unwrap();
    let case = case(plan, left_off(&["L1"]), None, 12.0);
    let audit = Audit::of(&case).unwrap();
    let rows = &audit.accounts[0].reverse;
    assert_eq!(rows.len(), 3);
    let mut asked = 0;
    for row in rows {
        let of = std::slice::from_ref(&row.cylinder);
        for (needed, moment) in [
            (&row.as_found, &case.accounts[0].moment),
            (&row.as_planned, &case.planned),
        ] {
            let Some(deg) = needed.roll_deg else { continue };
            assert!(!goes(&moment.plan, deg - 0.2, of), "{row:?}");
            assert!(goes(&moment.plan, deg + 0.2, of), "{row:?}");
            asked += 1;
        }
    }
    assert!(asked >= 3, "{asked}");
}

/// No smaller set holds, asked of the engine for every subset; the one that is told does.
#[test]
fn the_smallest_set_is_the_smallest() {
    let plan = fixture::plan(DECK).unwrap();
    let case = case(plan, left_off(&["L1", "L2"]), None, 9.5);
    let audit = Audit::of(&case).unwrap();
    let held = &audit.accounts[0].held;
    assert!(!held.as_found.holds);
    // P3 stands free by plan too, so that the plan as issued does not hold either.
    assert!(!held.as_planned.holds, "{:?}", held.as_planned);
    let spot = Some([4.3, 0.5]);
    let plan = fixture::plan(DECK).unwrap();
    let case = at_spot(plan, spot);
    let held = Audit::of(&case).unwrap().accounts[0].held.clone();
    assert_eq!(held.cylinders, ["P1"], "only one could have come there");
    assert!(held.as_planned.holds && !held.as_found.holds);
    let smallest = held.smallest.unwrap();
    assert_eq!(smallest.labels, ["L1 as planned"]);
    let found = &case.accounts[0].moment.plan;
    assert!(goes(found, 9.5, &held.cylinders));
    let mut with = found.clone();
    let strap = case.planned.plan.trips[0].lashing("L1").unwrap().clone();
    with.trips[0].lashings.push(strap);
    assert!(!goes(&with, 9.5, &held.cylinders));
    let other = held
        .singles
        .iter()
        .find(|it| it.labels == ["L2 as planned"]);
    assert!(
        other.is_none(),
        "what touches no cylinder in question is not tried"
    );
}

/// Two that both go need two remedies, and no single one is told as enough.
#[test]
fn two_that_go_need_two_remedies() {
    let deck = DECK.replace("; stand P3 2,0", "");
    let plan = fixture::plan(&deck).unwrap();
    let case = case(plan, left_off(&["L1", "L2"]), None, 9.5);
    let held = Audit::of(&case).unwrap().accounts[0].held.clone();
    assert!(held.as_planned.holds);
    assert!(held.singles.iter().all(|it| !it.outcome.holds), "{held:?}");
    let smallest = held.smallest.unwrap();
    assert_eq!(smallest.labels.len(), 2, "{smallest:?}");
    // Found by trying every pair, not by adding one to the other.
    let told = "none smaller holds";
    assert!(held.searched.contains(told), "{}", held.searched);
}

/// What was to be held is the most that any source makes plausible, with the margin that the record asks for.
#[test]
fn the_most_that_is_plausible_is_to_be_held_with_the_margin() {
    let plan = fixture::plan(DECK).unwrap();
    let mut case = case(plan, left_off(&["L1"]), None, 12.0);
    let mut other = case.opened.record.plausible[0].clone();
    other.id = "R2".to_owned();
    other.roll_amplitude_deg = [2.0, 6.0];
    case.opened.record.plausible.push(other);
    for (margin, wanted) in [(None, 15.0), (Some(0.5), 18.0)] {
        case.opened.record.wanted_margin = margin;
        let held = &Audit::of(&case).unwrap().accounts[0].held;
        assert!((held.wanted_roll_deg - wanted).abs() < 1e-9, "{held:?}");
        assert!(held.wanted_from.contains("R1 makes plausible"), "{held:?}");
    }
}

/// One that was found and not planned cannot go in the plan as issued, and none of the others is blamed for it.
#[test]
fn one_that_was_not_planned_is_not_aboard_in_the_plan() {
    let plan = fixture::plan(DECK).unwrap();
    let mut added = plan.trips[0].cylinder("P3").unwrap().clone();
    added.id = "P9".to_owned();
    let Placing::Standing { at, .. } = &mut added.placing else {
        panic!("it stands");
    };
    *at = [8.5, 0.0];
    let found = vec![FoundThing::Cylinder { cylinder: added }];
    let audit = Audit::of(&case(plan, found, Some([8.5, 0.4]), 20.0)).unwrap();
    let held = &audit.accounts[0].held;
    assert_eq!(held.cylinders, ["P9"]);
    assert_eq!(
        (held.as_planned.holds, &held.as_planned.first),
        (true, &None)
    );
    assert_eq!(held.as_planned.first_words(), "none of them aboard");
    assert!(held.as_found.first_words().starts_with("P9 "), "{held:?}");
    assert!(!held.as_found.holds);
}

/// Where some lie, rules that do not agree on it are all told; where none does, none of them.
#[test]
fn rules_that_do_not_agree_are_told_where_they_touch_it() {
    let about = |deck: &str| -> Vec<&'static str> {
        let plan = fixture::plan(deck).unwrap();
        let audit = Audit::of(&case(plan, Vec::new(), None, 9.0)).unwrap();
        assert!(
            audit.conflicts.iter().all(|it| it.rules.len() > 1),
            "{:?}",
            audit.conflicts
        );
        audit.conflicts.iter().map(|it| it.about).collect()
    };
    assert_eq!(
        about("deck 10x4; drifting roll=3/3.4; stand P3 2,0"),
        [""; 0]
    );
    let lying = about("deck 10x4; drifting roll=3/3.4; lie P3 2,0 towards=0");
    assert_eq!(lying, ["may cylinders lie?"]);
}

/// So many cylinders in a row, each in a strap of its own, and all straps left off.
fn in_straps(count: usize) -> (Plan, Vec<FoundThing>) {
    let mut deck = "deck 20x4; drifting roll=10/3.4".to_owned();
    let mut lashings = Vec::new();
    for number in 1..=count {
        let x = 2.0 * number as f64;
        let (a, b) = (2 * number - 1, 2 * number);
        write!(
            deck,
            "\npoint E{a} {x},1.6 h=0.3 strength=9; point E{b} {x},0.4 h=0.3 strength=9
            stand P{number} {x},1; lash L{number} E{a} P{number} E{b} h=0.44 strength=9 tight=0.2"
        )
        .unwrap();
        lashings.push(format!("L{number}"));
    }
    let names: Vec<&str> = lashings.iter().map(String::as_str).collect();
    (fixture::plan(&deck).unwrap(), left_off(&names))
}

fn all_left_off(count: usize) -> Held {
    let (plan, found) = in_straps(count);
    let case = case(plan, found, None, 9.5);
    Audit::of(&case).unwrap().accounts[0].held.clone()
}

/// Added one by one, each is the one that raises the weakest most: what does no good stays out of the set, though it
/// could be put right too.
#[test]
fn what_is_added_one_by_one_is_what_helps_most() {
    let (plan, mut found) = in_straps(4);
    // One stood a hand's breadth off, which neither throws it nor holds it.
    let mut moved = plan.trips[0].cylinders[0].clone();
    let Placing::Standing { at, .. } = &mut moved.placing else {
        panic!("it stands");
    };
    at[1] -= 0.1;
    found.push(FoundThing::Cylinder { cylinder: moved });
    let held = Audit::of(&case(plan, found, None, 9.5)).unwrap().accounts[0]
        .held
        .clone();
    let undone = held.singles.iter().any(|it| it.labels == ["P1 as planned"]);
    assert!(undone, "it was tried: {:?}", held.singles);
    let set = held.smallest.unwrap();
    assert!(set.outcome.holds, "{set:?}");
    let straps = ["L1", "L2", "L3", "L4"].map(|id| format!("{id} as planned"));
    let mut labels = set.labels.clone();
    labels.sort();
    assert_eq!(labels, straps, "{}", held.searched);
}

/// A set that does not hold is never told as one that does, and no larger one than is needed: three by trying every
/// set, four by adding one at a time.
#[test]
fn a_set_holds_and_is_no_larger_than_it_must_be() {
    let three = all_left_off(3);
    let set = three.smallest.unwrap();
    assert!(set.outcome.holds, "{set:?}");
    assert_eq!(
        set.labels,
        ["L1 as planned", "L2 as planned", "L3 as planned"]
    );
    assert!(
        three.searched.contains("none smaller holds"),
        "{}",
        three.searched
    );
    let four = all_left_off(4);
    let set = four.smallest.unwrap();
    assert!(set.outcome.holds, "{set:?}");
    assert_eq!(set.labels.len(), 4, "{set:?}");
    assert!(
        four.searched.contains("a smaller set may exist"),
        "{}",
        four.searched
    );
}

/// One that a bench keeps from the spot is told, with the bench, and nothing more is asked of it.
#[test]
fn one_that_is_stopped_is_told_and_not_asked_about() {
    let plan = fixture::plan(
        "deck 10x4; drifting roll=12/3.4; fixture B1 bench 4..6,0.2..0.4 h=0.45; stand P1 5,0",
    );
    let audit = Audit::of(&case(plan.unwrap(), Vec::new(), Some([5.0, 0.6]), 12.0)).unwrap();
    let account = &audit.accounts[0];
    assert!(account.reach[0].is_stopped && account.reach.len() == 1);
    assert_eq!(account.held.cylinders, [""; 0]);
    assert!(account.reverse.is_empty() && account.how_sure.is_empty());
    let told = "P1 would come as far too, but B1 stops it on its way, as drawn.";
    assert!(
        audit.summary.iter().any(|it| it == told),
        "{:?}",
        audit.summary
    );
}

#[test]
fn ranges_are_held_against_what_was_needed() {
    let plan = fixture::plan(DECK).unwrap();
    for (high, expected) in [(5.0, Beside::NotReached), (30.0, Beside::PartWasEnough)] {
        let audit = Audit::of(&case(plan.clone(), left_off(&["L1"]), None, high)).unwrap();
        let rows = &audit.accounts[0].reverse;
        let p1 = rows.iter().find(|row| row.cylinder == "P1").unwrap();
        assert_eq!(p1.beside[0].as_found, expected, "{p1:?}");
    }
}

#[test]
fn found_as_planned_tells_nothing_and_prefers_nobody() {
    let plan = fixture::plan("deck 10x4; drifting roll=3/3.4; stand P3 2,0").unwrap();
    let audit = Audit::of(&case(plan, Vec::new(), None, 3.0)).unwrap();
    assert!(!audit.has_findings(), "{:?}", audit.summary);
    assert!(
        audit
            .summary
            .iter()
            .any(|text| text.contains("was as planned")),
        "{:?}",
        audit.summary
    );
    for word in ["blame", "fault", "negligen", "careless", "should have"] {
        let said = audit.summary.iter().any(|text| text.contains(word));
        assert!(!said, "{word}");
    }
}

/// Every clause that is cited stands in the table of published limits, with the same words.
#[test]
fn only_findings_with_a_clause_are_told() {
    let plan = fixture::plan(DECK).unwrap();
    let audit = Audit::of(&case(plan, left_off(&["L1"]), None, 12.0)).unwrap();
    let findings = &audit.accounts[0].findings;
    assert!(findings.iter().any(|it| it.code == "U101"), "{findings:?}");
    let known: Vec<String> = crate::catalogue::published::limits()
        .map(crate::catalogue::published::Limit::citation)
        .collect();
    for finding in findings {
        assert!(!finding.clauses.is_empty(), "{finding:?}");
        for clause in &finding.clauses {
            assert!(known.contains(clause), "{clause}");
        }
    }
}

#[test]
fn a_spot_on_no_deck_is_told() {
    let plan = fixture::plan(DECK).unwrap();
    let mut opened = case(plan, Vec::new(), Some([1.0, 0.0]), 9.0).opened;
    opened.record.marked_spot.as_mut().unwrap().deck = "attic".to_owned();
    let error = Case::of(opened).unwrap_err();
    assert!(error.to_string().contains("attic"), "{error}");
}

/// A steady roll as a log, from a time on.
fn log(amplitude_deg: f64, from_s: f64) -> MotionLog {
    rolling(600, from_s, |t| {
        // Growing from nothing, as no boat starts in the middle of a roll.
        let grown = (t / 10.0).min(1.0);
        let roll = grown * amplitude_deg * (std::f64::consts::TAU * t / 3.4).sine();
        roll.to_radians()
    })
}

/// A roll well above what was needed throws over what stands free; one well below throws nothing.
#[test]
fn the_recorded_motion_agrees_with_what_was_needed() {
    let plan = fixture::plan(DECK).unwrap();
    let mut case = case(plan, left_off(&["L1"]), None, 12.0);
    let needed = |audit: &Audit| {
        let rows = &audit.accounts[0].reverse;
        let row = rows.iter().find(|row| row.cylinder == "P1").unwrap();
        row.as_found.roll_deg.unwrap()
    };
    let without = Audit::of(&case).unwrap();
    assert!(without.accounts[0].over_time.is_none());
    let deg = needed(&without);
    for (share, goes) in [(0.5, false), (2.0, true)] {
        case.opened.motion_log = log(share * deg, 0.0);
        let audit = Audit::of(&case).unwrap();
        let over_time = audit.accounts[0].over_time.clone().unwrap();
        let went = over_time.went.iter().any(|it| it.cylinder == "P1");
        assert_eq!(went, goes, "{share}: {over_time:?}");
        assert_eq!(over_time.nearest.len(), 3);
        let told = audit
            .summary
            .iter()
            .any(|text| text.contains("Under the recorded motion"));
        assert!(told, "{:?}", audit.summary);
    }
}

/// A log that is there and cannot be read is told in the summary and among what is not known; one that is not there
/// only as missing.
#[test]
fn a_log_that_cannot_be_read_is_told() {
    let plan = fixture::plan(DECK).unwrap();
    let mut case = case(plan, left_off(&["L1"]), None, 12.0);
    case.opened.record.motion_log = Some(log_file(None));
    let why = "line 1: there is no column for roll";
    case.opened.motion_log = MotionLog::Unreadable(why.to_owned());
    let audit = Audit::of(&case).unwrap();
    assert!(audit.accounts[0].over_time.is_none());
    assert!(audit.unreadable_log().unwrap().contains(why));
    let told = |list: &[String]| list.iter().any(|text| text.contains(why));
    assert!(told(&audit.summary), "{:?}", audit.summary);
    assert!(told(&audit.not_known), "{:?}", audit.not_known);
    case.opened.motion_log = MotionLog::Missing;
    let audit = Audit::of(&case).unwrap();
    assert_eq!(audit.unreadable_log(), None);
    let missing = audit
        .not_known
        .iter()
        .any(|text| text.contains("is missing"));
    assert!(missing, "{:?}", audit.not_known);
}

/// A sensor that was mounted the wrong way round, and a clock that does not begin at nothing: the record says so, and
/// all is as it was.
#[test]
fn the_records_mounting_puts_the_log_right() {
    let plan = fixture::plan(DECK).unwrap();
    let mut case = case(plan, left_off(&["L1"]), None, 12.0);
    case.opened.record.motion_log = Some(log_file(None));
    case.opened.motion_log = log(25.0, 0.0);
    let straight = Audit::of(&case).unwrap().accounts[0].over_time.clone();
    let MotionLog::Read(recorded) = log(25.0, 700.0) else {
        panic!("a log");
    };
    let turned: Vec<Sample> = (recorded.samples().iter())
        .map(|sample| Sample {
            // Athwartships, its bow to port: it tells the boat's roll as pitch, bow up.
            roll_rad: 0.0,
            pitch_rad: -sample.roll_rad,
            ..*sample
        })
        .collect();
    let mut kept = Recorded::default();
    kept.take(LogPiece::Samples(&turned));
    case.opened.motion_log = MotionLog::Read(kept);
    let wrong = Audit::of(&case).unwrap().accounts[0].over_time.clone();
    let mounting = SensorMounting {
        turned_deg: 90.0,
        ..SensorMounting::default()
    };
    case.opened.record.motion_log = Some(log_file(Some(mounting)));
    let audit = Audit::of(&case).unwrap();
    let right = audit.accounts[0].over_time.clone();
    let went = |it: &Option<OverTime>| it.as_ref().unwrap().went.clone();
    assert!(!went(&straight).is_empty());
    assert_eq!(went(&straight), went(&right));
    assert_ne!(went(&straight), went(&wrong));
    let assumed = &audit.motion_log.unwrap().assumed;
    assert!(
        assumed[0].what.contains("sensor turned 90.0°"),
        "{assumed:?}"
    );
}

/// Whoever waits is told how far it is, and may give it up.
#[test]
fn an_audit_can_be_given_up() {
    let plan = fixture::plan(DECK).unwrap();
    let mut case = case(plan, left_off(&["L1"]), None, 12.0);
    case.opened.motion_log = log(5.0, 0.0);
    let mut shares = Vec::new();
    let mut told = |share: f64| {
        shares.push(share);
        true
    };
    let audit = Audit::watched(&case, &mut Progress::new(&mut told));
    assert!(audit.is_some());
    assert!(
        shares.windows(2).all(|pair| pair[0] <= pair[1]),
        "{shares:?}"
    );
    assert!(shares.len() >= 5 && (shares.last().unwrap() - 1.0).abs() < 1e-9);
    for most in [0.15, 0.35, 0.6] {
        let given_up = Audit::watched(&case, &mut Progress::new(&mut |share| share < most));
        assert_eq!(given_up, None);
    }
}

#[test]
fn bands_are_told_for_those_in_question() {
    let plan = fixture::plan(DECK).unwrap();
    let audit = Audit::of(&case(plan, left_off(&["L1"]), Some([4.3, 0.5]), 12.0)).unwrap();
    let account = &audit.accounts[0];
    let bands: Vec<&Id> = account.how_sure.iter().map(|it| &it.cylinder).collect();
    assert_eq!(bands, ["P1"]);
    assert!(account.how_sure[0].sentence.contains("P1"));
    assert!(!account.ranges.is_empty());
}
