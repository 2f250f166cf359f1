use super::*;
use crate::checks::fixture;
use crate::engine::Stowed;
use crate::geometry::Elementary as _;
use crate::mechanics::motion_log::Sample;
use crate::mechanics::recorded::LogPiece;

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
            roll_rad: size * (std::f64::consts::TAU * time_s / 4.0).sine(),
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
        // Both views of the impacts are followed, side by side.
        assert!(rocking.housner.uplifts > 0, "{rocking:?}");
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

/// Behind a front that is tied between its slots each is held by itself, until the heaviest goes through it: then it is
/// open for all, and they go at the roll of an open slot, far below their own limit behind a shut one.
#[test]
fn a_front_that_one_went_through_is_open_for_the_others() {
    let rack = "deck 10x4 friction=0.9; running roll=10/4
        rack R1 bench 7,-1.5 columns=3 pitch=0.3 edge=0.44 strength=3 fixings=9";
    let slots = "slot D R1/1 kit=90; slot G R1/2; slot K R1/3";
    let shut = format!("{rack}; front R1 F1 strap strength=0.05 tied; {slots}");
    let open = format!("{rack}; front R1 F1 strap strength=0.05 tied open; {slots}");
    let report = replayed(&shut, &growing(60.0, 800.0), Mounting::default());
    let first = &report.events[0];
    assert_eq!(first.left_slack, ["F1"], "{:?}", report.events);
    let roll = |time_s: f64| 60.0 * time_s / 800.0;
    for event in &report.events[1..] {
        let (held, free) = (
            limit_deg(&shut, &event.cylinder),
            limit_deg(&open, &event.cylinder),
        );
        assert!(
            free < roll(first.time_s),
            "open it would have gone already: {free}"
        );
        // At the next swing that way, or at once.
        assert!(
            event.time_s - first.time_s < 4.5,
            "{event:?} after {}",
            first.time_s
        );
        assert!(held > free + 1.0, "{held} {free}");
    }
    assert_eq!(report.events.len(), 3, "{:?}", report.events);
}

/// What has been taken along is out of its place, for those that fall later.
#[test]
fn one_that_was_taken_along_is_struck_no_more() {
    let text = "deck 10x4 friction=0.9; running roll=10/4; stand A 5,0.4 kit=270; stand B 5,0.1; stand C 5.2,0.38 kit=270";
    let report = replayed(text, &growing(20.0, 400.0), Mounting::default());
    let of = |id: &str| report.events.iter().find(|it| it.cylinder == id).unwrap();
    assert_eq!(of("B").by.as_deref(), Some("A"), "{:?}", report.events);
    let later = of("C");
    assert!(later.time_s > of("A").time_s, "{:?}", report.events);
    assert!(
        later.struck.iter().all(|it| it.thing != "B"),
        "{:?}",
        later.struck
    );
}

/// Each swing to either side that passes what it takes counts once.
#[test]
fn passings_are_counted_swing_by_swing() {
    use crate::engine::Takes;
    use crate::mechanics::attitude::Differences;
    use crate::mechanics::envelope::Envelope;
    let takes = [Takes {
        cylinder: "A".to_owned(),
        place_m: [0.0; 3],
        turns_above_m: 0.0,
        envelope: Envelope::Ratio(0.15),
        free: None,
    }];
    let (mut differences, mut batch) = (Differences::default(), Batch::default());
    for number in 0..1000_u32 {
        let time_s = f64::from(number) / 50.0;
        let roll_rad = 0.3 * (std::f64::consts::TAU * time_s / 4.0).sine();
        let sample = Sample {
            time_s,
            roll_rad,
            ..Sample::default()
        };
        if let Some(at) = differences.push(sample) {
            batch.push(at);
        }
    }
    let mut margins = Margins::new(1);
    margins.push(&batch, &takes);
    // Twenty seconds of a roll of four: five to each side.
    assert_eq!(margins.cylinders[0].passed, 10);
    let (used, _) = margins.cylinders[0].largest.unwrap();
    assert!((used - 0.3_f64.tangent() / 0.15).abs() < 0.02, "{used}");
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

/// A log of few samples has a point for each two of them, and no gap between; what was recorded is as long as it was.
#[test]
fn samples_that_are_far_apart_make_no_gaps() {
    let fast = growing(5.0, 60.0);
    let slow: Vec<Sample> = fast.iter().step_by(17).copied().collect();
    let report = replayed(LOOSE, &slow, Mounting::default());
    assert!((report.lasts_s - 59.8).abs() < 0.4, "{}", report.lasts_s);
    let tracks = &report.tracks;
    assert!(tracks.time_s.len() > 60, "{}", tracks.time_s.len());
    assert!(
        tracks.roll_deg.iter().all(Option::is_some),
        "{:?}",
        tracks.roll_deg
    );
    assert!(tracks.margins[0].iter().all(Option::is_some));
}

/// What a stretch looked at closely holds is what all of it holds there, in finer points; who is gone by then has no
/// margin in it.
#[test]
fn a_stretch_looked_at_closely_is_the_same_motion() {
    let samples = growing(20.0, 400.0);
    let plan = fixture::plan(LOOSE).unwrap();
    let moment = crate::audit::Moment::of(&plan, None, None).unwrap();
    let whole = replayed(LOOSE, &samples, Mounting::default());
    let (times, width) = (
        &whole.tracks.time_s,
        whole.tracks.time_s[1] - whole.tracks.time_s[0],
    );
    assert!(width > 0.15, "wide enough to hide something: {width}");
    let close = |stretch_s: [f64; 2]| {
        let later: Vec<Sample> = (samples.iter())
            .map(|sample| Sample {
                time_s: sample.time_s + 5000.0,
                ..*sample
            })
            .collect();
        let read = |each: &mut dyn FnMut(LogPiece<'_>)| {
            for block in later.chunks(997) {
                each(LogPiece::Samples(block));
            }
            Ok::<(), ()>(())
        };
        close_up(&moment, Mounting::default(), stretch_s, read).unwrap()
    };
    let went = whole.events[0].time_s;
    for (from, to) in [(200, 300), (40, 41), (times.len() - 90, times.len() - 1)] {
        let stretch_s = [times[from] - 0.5 * width, times[to] + 0.5 * width];
        let near = close(stretch_s);
        assert!(near.time_s[1] - near.time_s[0] < 0.5 * width);
        let seen = near
            .time_s
            .iter()
            .zip(&near.roll_deg)
            .filter(|(_, it)| it.is_some());
        assert!(seen.clone().count() > 3);
        assert!(
            seen.into_iter()
                .all(|(s, _)| (stretch_s[0]..=stretch_s[1]).contains(s))
        );
        let extremes = |ranges: &[Option<[f64; 2]>]| {
            let none = [f64::INFINITY, f64::NEG_INFINITY];
            (ranges.iter().flatten()).fold(none, |[a, b], it| [a.min(it[0]), b.max(it[1])])
        };
        let mut all = vec![(&whole.tracks.roll_deg, &near.roll_deg)];
        all.extend(whole.tracks.margins.iter().zip(&near.margins));
        for (of_whole, of_near) in all {
            // A sample on the edge may fall to either side.
            let outer = extremes(&of_whole[from.saturating_sub(1)..(to + 2).min(times.len())]);
            let inner = extremes(of_whole.get(from + 1..to).unwrap_or_default());
            let [least, most] = extremes(of_near);
            assert!(
                outer[0] <= least && least <= inner[0].max(outer[0]) + 1e-9 || least.is_infinite()
            );
            assert!(outer[1] >= most && (most >= inner[1] - 1e-9 || least.is_infinite()));
        }
    }
    // The first has gone: nothing of it is left in a stretch behind that.
    let number = (whole.cylinders.iter()).position(|it| it.cylinder == whole.events[0].cylinder);
    let behind = close([went + 1.0, went + 11.0]);
    assert!(behind.margins[number.unwrap()].iter().all(Option::is_none));
    assert!(behind.roll_deg.iter().any(Option::is_some));
}
