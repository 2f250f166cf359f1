use super::Replay;
use crate::mechanics::motion_log::Sample;
use crate::mechanics::recorded::LogPiece;

/// Hands a log on with its first sample at no time at all, whatever its clock said.
#[derive(Clone, Debug, Default)]
pub struct FromStart {
    start_s: Option<f64>,
    shifted: Vec<Sample>,
}

impl FromStart {
    /// Hands on the next piece.
    pub fn hand(&mut self, piece: LogPiece<'_>, replay: &mut Replay<'_>) {
        match piece {
            LogPiece::Break => replay.break_off(),
            LogPiece::Samples(samples) => {
                let first = samples.first().map_or(0.0, |sample| sample.time_s);
                let start_s = *self.start_s.get_or_insert(first);
                self.shifted.clear();
                self.shifted.extend(samples.iter().map(|sample| Sample {
                    time_s: sample.time_s - start_s,
                    ..*sample
                }));
                replay.push(&self.shifted);
            }
        }
    }
}
