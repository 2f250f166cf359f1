//! Logs of a record for tests.

use super::{MotionLog, MotionLogFile, SensorMounting};
use crate::mechanics::motion_log::Sample;
use crate::mechanics::recorded::{LogPiece, Recorded};

/// A log of so many samples, 20 a second from a time on, of what rolls so many radians after so many seconds.
pub(crate) fn rolling(samples: u32, from_s: f64, roll_rad: impl Fn(f64) -> f64) -> MotionLog {
    let samples: Vec<Sample> = (0..samples)
        .map(|step| {
            let after_s = f64::from(step) / 20.0;
            Sample {
                time_s: from_s + after_s,
                roll_rad: roll_rad(after_s),
                ..Sample::default()
            }
        })
        .collect();
    let mut recorded = Recorded::default();
    recorded.take(LogPiece::Samples(&samples));
    recorded.read.rows = samples.len() as u64;
    MotionLog::Read(recorded)
}

/// How a record names its log.
pub(crate) fn log_file(mounting: Option<SensorMounting>) -> MotionLogFile {
    MotionLogFile {
        path: "log.csv".to_owned(),
        sha256: "0".repeat(64),
        made_by: None,
        units: None,
        closely_s: None,
        mounting,
    }
}
