//! Logs that somebody or something spoiled: read and replayed without a panic, without end, without numbers that are
//! none.

use proptest::prelude::*;
use snugdown::audit::replay::{MOST_BUCKETS, Mounting, Replay};
use snugdown::checks::fixture;
use snugdown::engine::Stowed;
use snugdown::store::motion_log::{LogUnits, read_motion_log, read_whole_log};

const LOOSE: &str = "deck 10x4 friction=0.9; running roll=10/4; stand A 5,0; stand B 5,1.5";

/// A row of a log that somebody or something spoiled.
fn row() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => (0..4000_i32, -600..600_i32).prop_map(|(t, roll)| {
            format!("{:.2},{:.1},0,0", f64::from(t) / 20.0, f64::from(roll) / 10.0)
        }),
        1 => Just("5.00,3.0,0,0".to_owned()),
        1 => Just("1e308,1,0,0".to_owned()),
        1 => Just("-1e308,-1,0,0".to_owned()),
        1 => Just("nan,inf,-inf,1e999".to_owned()),
        1 => Just("0,400,-400,1000".to_owned()),
        1 => "[0-9.,;eE+-]{0,24}",
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Rows twice, clocks set back, huge numbers, a good log that ends in the middle of a row, and bytes at random: an
    /// error or a replay with finite numbers, never a panic, never without end.
    #[test]
    fn hostile_logs_end_in_an_error_or_in_numbers(
        rows in prop::collection::vec(row(), 0..120),
        good in 0..200_u32,
        cut in 0..40_usize,
        bytes in prop::collection::vec(any::<u8>(), 0..60),
        after in any::<bool>(),
    ) {
        let mut text = b"time_s,roll_deg,pitch_deg,az_g\n".to_vec();
        for number in 0..good {
            let time_s = f64::from(number) / 20.0;
            text.extend(format!("{time_s:.2},{:.2},0,0\n", 30.0 * (1.6 * time_s).sin()).bytes());
        }
        text.extend(rows.join("\n").bytes());
        text.truncate(text.len() - cut.min(text.len() / 2));
        if after {
            text.extend(&bytes);
        }
        let plan = fixture::plan(LOOSE).unwrap();
        let stowed = Stowed::of(&plan, &plan.trips[0], 0).unwrap();
        let mut replay = Replay::new(&stowed, stowed.takes(), Mounting::default());
        let read = read_motion_log(&mut &*text, LogUnits::default(), &mut |piece| replay.take(piece));
        let report = replay.finish(String::new());
        if let Ok(read) = read {
            prop_assert_eq!(read.rows, report.samples);
            // Kept whole it is the same, sample for sample and break for break.
            let kept = read_whole_log(&mut &*text, LogUnits::default()).unwrap();
            prop_assert_eq!(&kept.read, &read);
            let mut again = Replay::new(&stowed, stowed.takes(), Mounting::default());
            kept.pieces().for_each(|piece| again.take(piece));
            prop_assert_eq!(again.finish(String::new()), report.clone());
        }
        prop_assert!(report.judged <= report.samples);
        prop_assert!(report.tracks.time_s.len() <= MOST_BUCKETS);
        prop_assert!(report.tracks.time_s.iter().all(|s| s.is_finite()));
        prop_assert!(report.events.iter().all(|event| event.time_s.is_finite()));
        for cylinder in &report.cylinders {
            prop_assert!(cylinder.least_margin.is_none_or(f64::is_finite), "{cylinder:?}");
        }
    }
}
