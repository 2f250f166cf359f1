use super::*;
use crate::checks::fixture;
use crate::engine::Stowed;
use crate::mechanics::motion_log::Sample;

/// Roll about the middle every four seconds, growing to the roll of the last minute.
fn growing(largest_deg: f64, lasts_s: f64) -> Vec<Sample> {
    let count = (lasts_s * 50.0).round();
    let mut samples = Vec::new();
    let mut number = 0.0;
    while number < count {
        let time_s = number / 50.0;
        let size = (largest_deg * time_s / lasts_s).to_radians();
        samples.push(Sample {
            time_s,
            roll_rad: size * (std::f64::consts::TAU * time_s / 4.0).sin(),
            ..Sample::default()
        });
        number += 1.0;
    }
    samples
}

fn replayed(text: &str, samples: &[Sample], mounting: Mounting) -> ReplayReport {
    let plan = fixture::plan(text).unwrap();
    let stowed = Stowed::of(&plan, &plan.trips[0], 0).unwrap();
    let mut replay = Replay::new(&stowed, stowed.takes(), mounting);
    for block in samples.chunks(997) {
        replay.push(block);
    }
    replay.finish("made up".to_owned())
}

fn limit_deg(text: &str, cylinder: &str) -> f64 {
    let plan = fixture::plan(text).unwrap();
    let mut assessor = crate::engine::Assessor::default();
    let numbers = assessor.assess(&plan, &plan.trips[0]).parts[0].clone();
    let found = numbers.cylinders.iter().find(|it| it.cylinder == cylinder);
    found.unwrap().limit.roll_deg.unwrap()
}

const LOOSE: &str = "deck 10x4 friction=0.9; running roll=10/4; stand A 5,0; stand B 5,1.5";

#[test]
fn what_stands_free_goes_just_above_its_limit() {
    let report = replayed(LOOSE, &growing(20.0, 400.0), Mounting::default());
    for id in ["A", "B"] {
        let cylinder = report
            .cylinders
            .iter()
            .find(|it| it.cylinder == id)
            .unwrap();
        let went = cylinder.went_s.unwrap();
        // The roll grows by a fifth of a degree with every swing.
        let roll = 20.0 * went / 400.0;
        let limit = limit_deg(LOOSE, id);
        assert!(
            (limit - 0.2..limit + 0.8).contains(&roll),
            "{id}: {roll} for {limit}"
        );
        let rocking = cylinder.rocking.unwrap();
        assert!(rocking.lossless.uplifts > 0 && rocking.lossless.over_s.is_some());
    }
    let order: Vec<&str> = report
        .events
        .iter()
        .map(|it| it.cylinder.as_str())
        .collect();
    assert!(order.contains(&"A") && order.contains(&"B"));
    assert!(report.events.iter().all(|it| it.why == Why::WentOver));
}

#[test]
fn below_every_limit_nothing_goes() {
    let calm = growing(
        0.9 * limit_deg(LOOSE, "A").min(limit_deg(LOOSE, "B")),
        100.0,
    );
    let report = replayed(LOOSE, &calm, Mounting::default());
    assert!(report.events.is_empty());
    for cylinder in &report.cylinders {
        let left = cylinder.least_margin.unwrap();
        assert!((0.05..0.3).contains(&left), "{cylinder:?}");
        assert_eq!(cylinder.rocking.unwrap().verdict, "stood");
    }
    assert!((report.lasts_s - 99.8).abs() < 1.0, "{}", report.lasts_s);
}

#[test]
fn a_slippery_deck_lets_it_slide_first() {
    let text = "deck 10x4 friction=0.15; running roll=10/4; stand A 5,0";
    let report = replayed(text, &growing(20.0, 400.0), Mounting::default());
    assert_eq!(report.events[0].why, Why::Slid);
    let roll = 20.0 * report.events[0].time_s / 400.0;
    let limit = limit_deg(text, "A");
    assert!((limit - 0.3..limit + 0.3).contains(&roll), "{roll} {limit}");
}

#[test]
fn what_is_struck_goes_too_and_then_is_gone() {
    // B is backed to nothing and stands where A falls; C is lashed.
    let text = "deck 10x4 friction=0.9; running roll=10/4; stand A 5,0.4 kit=270; stand B 5,0.1";
    let report = replayed(text, &growing(20.0, 400.0), Mounting::default());
    let first = &report.events[0];
    let second = &report.events[1];
    assert_eq!(report.events.len(), 2);
    assert!(first.energy_j.unwrap() > 10.0);
    assert_eq!(second.why, Why::ThrownOver);
    assert_eq!(second.by.as_ref(), Some(&first.cylinder));
    assert!((second.time_s - first.time_s).abs() < 1e-9);
    let at = |time_s: f64| {
        let bucket = report.tracks.time_s.iter().position(|s| *s > time_s);
        bucket.unwrap()
    };
    let after = at(first.time_s + 1.0);
    let number = |id: &str| {
        let place = report.cylinders.iter().position(|it| it.cylinder == id);
        place.unwrap()
    };
    assert!(report.tracks.margins[number(&first.cylinder)][after].is_none());
}

#[test]
fn what_is_held_goes_at_the_engines_limit() {
    let text = "deck 10x4; running roll=10/4
        point E1 4,0.6 h=0.3 strength=0.3; point E2 4,-0.6 h=0.3 strength=0.3; stand L1 4,0
        lash S1 E1 L1 E2 h=0.44 strength=0.3";
    let limit = limit_deg(text, "L1");
    let report = replayed(text, &growing(1.5 * limit, 400.0), Mounting::default());
    let event = &report.events[0];
    assert_eq!(event.why, Why::LimitPassed);
    let roll = 1.5 * limit * event.time_s / 400.0;
    assert!((roll / limit - 1.0).abs() < 0.05, "{roll} {limit}");
}

/// Two in one strap that is fast to weak points: when it gives at one of them, the other stands free from then on, is
/// judged anew by its rocking, and goes at a roll at which the strap would have held it.
#[test]
fn a_strap_round_several_is_slack_when_one_has_gone() {
    let text = "deck 10x4 friction=0.9; running roll=10/4
        point E1 3.4,0.9 h=0.4 strength=0.9; point E2 4.6,0.9 h=0.4 strength=0.9
        stand A 3.7,0.5; stand B 4.2,0.5 kit=270; lash S1 E1 A+B E2 h=0.44 strength=0.9";
    let report = replayed(text, &growing(45.0, 600.0), Mounting::default());
    let [first, second] = report.events.as_slice() else {
        panic!("{:?}", report.events);
    };
    assert_eq!(first.why, Why::LimitPassed, "{first:?}");
    assert_eq!(first.left_slack, ["S1"], "{first:?}");
    assert_eq!(second.why, Why::WentOver, "it stood free then: {second:?}");
    assert!(second.left_slack.is_empty());
    let roll = 45.0 * second.time_s / 600.0;
    let held = limit_deg(text, &second.cylinder);
    assert!(second.time_s > first.time_s && roll < held, "{roll} {held}");
    let free = text.replace("lash S1 E1 A+B E2 h=0.44 strength=0.9", "");
    let free = limit_deg(&free, &second.cylinder);
    assert!(roll > free - 0.3, "{roll} {free}");
    let rocked = report
        .cylinders
        .iter()
        .find(|it| it.cylinder == second.cylinder);
    assert!(rocked.unwrap().rocking.unwrap().lossless.uplifts > 0);
}

/// However many go, each is held as it is after those before it: the same as if the stowage had been written so.
#[test]
fn what_is_left_goes_as_if_the_others_had_never_been() {
    let text = "deck 10x4 friction=0.9; running roll=10/4
        rack R1 bench 7,1.5 columns=3 pitch=0.25 edge=0.44 strength=0.2 fixings=9; front R1 F1 strap strength=0.1
        slot D R1/1; slot G R1/2; slot K R1/3";
    let report = replayed(text, &growing(45.0, 600.0), Mounting::default());
    let first = &report.events[0];
    assert_eq!(report.events.len(), 3, "{:?}", report.events);
    // All three are alike: what presses on one presses on all, and whoever goes first opens the front for the rest.
    let gone: Vec<&str> = report
        .events
        .iter()
        .map(|it| it.cylinder.as_str())
        .collect();
    assert_eq!(
        gone.iter().collect::<std::collections::BTreeSet<_>>().len(),
        3
    );
    if !first.left_slack.is_empty() {
        assert_eq!(first.left_slack, ["F1"]);
    }
}

#[test]
fn a_sensor_turned_round_is_put_right() {
    let straight = replayed(LOOSE, &growing(20.0, 100.0), Mounting::default());
    let turned: Vec<Sample> = growing(20.0, 100.0)
        .into_iter()
        .map(|sample| Sample {
            roll_rad: -sample.roll_rad + 0.02,
            ..sample
        })
        .collect();
    let mounting = Mounting {
        roll_reversed: true,
        roll_offset_rad: -0.02,
        ..Mounting::default()
    };
    let right = replayed(LOOSE, &turned, mounting);
    assert_eq!(straight.events, right.events);
    assert_eq!(right.assumptions.len(), 3);
    let wrong = replayed(LOOSE, &turned, Mounting::default());
    assert_ne!(straight.events, wrong.events);
}

#[test]
fn a_clock_that_is_set_back_goes_on() {
    let plan = fixture::plan(LOOSE).unwrap();
    let stowed = Stowed::of(&plan, &plan.trips[0], 0).unwrap();
    let mut replay = Replay::new(&stowed, stowed.takes(), Mounting::default());
    let samples = growing(5.0, 20.0);
    replay.push(&samples);
    replay.break_off();
    replay.push(&samples);
    let report = replay.finish(String::new());
    assert_eq!(report.breaks, 1);
    assert!((report.lasts_s - 39.6).abs() < 0.6, "{}", report.lasts_s);
    assert!(
        report
            .tracks
            .time_s
            .windows(2)
            .all(|pair| pair[0] < pair[1])
    );
}

#[test]
fn fewer_buckets_keep_the_extremes() {
    let mut report = replayed(LOOSE, &growing(9.0, 100.0), Mounting::default());
    let worst = |report: &ReplayReport| {
        let all = report.tracks.margins[0].iter().flatten();
        all.map(|range| range[0]).fold(f64::INFINITY, f64::min)
    };
    let before = worst(&report);
    report.coarser(30);
    assert!(report.tracks.time_s.len() <= 30 && report.tracks.time_s.len() > 15);
    assert!((worst(&report) - before).abs() < 1e-12);
}

#[test]
fn however_it_is_cut_into_blocks_it_is_the_same() {
    let samples = growing(20.0, 100.0);
    let plan = fixture::plan(LOOSE).unwrap();
    let stowed = Stowed::of(&plan, &plan.trips[0], 0).unwrap();
    let run = |size: usize| {
        let mut replay = Replay::new(&stowed, stowed.takes(), Mounting::default());
        for block in samples.chunks(size) {
            replay.push(block);
        }
        replay.finish(String::new())
    };
    assert_eq!(run(13), run(5000));
}
