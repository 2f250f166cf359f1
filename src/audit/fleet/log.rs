//! What was recorded, held against the rows that it belongs to.

use super::{FleetRow, one_line};
use crate::audit::replay::{Mounting, rounded};
use crate::layout::Boat;
use crate::mechanics::motion_log::{Sample, SwingMeter, Swings, Watch, WatchedBody};
use crate::mechanics::recorded::{LogPiece, Recorded};
use crate::record::SensorMounting;

/// Hands on what a log gives, piece by piece.
type Hands<'a> = &'a mut dyn FnMut(LogPiece<'_>);

/// A log that is kept, handed on with its sensor put right.
pub(super) fn recorded(
    log: &Recorded,
    mounting: Option<&SensorMounting>,
    boat: &Boat,
    each: Hands<'_>,
) {
    let mounting = Mounting::of_told(mounting, boat);
    let mut right: Vec<Sample> = Vec::new();
    for piece in log.pieces() {
        match piece {
            LogPiece::Break => each(LogPiece::Break),
            LogPiece::Samples(samples) => {
                right.clear();
                right.extend(samples.iter().map(|sample| mounting.put_right(sample)));
                each(LogPiece::Samples(&right));
            }
        }
    }
}

/// What was recorded, and which of the bodies of each row would have gone in it.
pub(super) fn add_log(
    rows: &mut [FleetRow],
    bodies: &[Vec<WatchedBody>],
    name: &str,
    read: impl FnOnce(Hands<'_>) -> Result<(), String>,
) {
    let read = measured(bodies, read);
    for (number, row) in rows.iter_mut().enumerate() {
        row.log = Some(name.to_owned());
        match &read {
            Ok((hours, roll, passed)) => {
                // The largest roll to either side, about upright: the steady heel counts.
                row.log_hours = Some(rounded(*hours, 1e2));
                row.log_largest_roll_deg = Some(rounded(roll.largest.to_degrees(), 1e2));
                if row.cylinders > 0 {
                    let passed = passed.get(number).copied().unwrap_or(0);
                    row.log_cylinders_passed = Some(passed);
                    row.log_passed_limit = Some(passed > 0);
                }
            }
            Err(error) => row.error = Some(one_line(error)),
        }
    }
}

/// Its hours, its swings, and how many bodies of each row would have gone.
fn measured(
    bodies: &[Vec<WatchedBody>],
    read: impl FnOnce(Hands<'_>) -> Result<(), String>,
) -> Result<(f64, Swings, Vec<usize>), String> {
    let mut watches: Vec<Watch> = bodies.iter().map(|bodies| Watch::new(bodies)).collect();
    let mut meter = SwingMeter::of_angles();
    let (mut seconds, mut last) = (0.0, None::<f64>);
    let read = read(&mut |piece| match piece {
        LogPiece::Samples(samples) => {
            for sample in samples {
                seconds += last.map_or(0.0, |last| sample.time_s - last);
                last = Some(sample.time_s);
                meter.push(sample.time_s, sample.roll_rad);
            }
            for watch in &mut watches {
                watch.push(samples);
            }
        }
        LogPiece::Break => {
            last = None;
            meter.break_off();
            for watch in &mut watches {
                watch.break_off();
            }
        }
    });
    read.map_err(|error| format!("log: {error}"))?;
    let passed = (watches.iter())
        .map(|watch| watch.times().iter().filter(|times| **times > 0).count())
        .collect();
    Ok((seconds / 3600.0, meter.swings(), passed))
}
