//! A recorded motion as it is handed on, piece by piece, and as it is kept where it is looked at several times.

use super::motion_log::Sample;

/// Samples that are handed on together.
const BLOCK: usize = 4096;

/// Something odd in a log.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LogNote {
    /// Line, counted from 1.
    pub line: u64,
    /// What.
    pub what: String,
}

/// What was read, apart from the samples.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LogReport {
    /// Rows handed on.
    pub rows: u64,
    /// Gaps in time.
    pub gaps: u64,
    /// Rows with the time of the one before, left out.
    pub duplicates: u64,
    /// Times the clock was set back.
    pub resets: u64,
    /// Rows left out since a cell is no number.
    pub bad_rows: u64,
    /// The first of all these, by line.
    pub notes: Vec<LogNote>,
    /// Has it pitch?
    pub has_pitch: bool,
    /// Has it a vertical acceleration?
    pub has_vertical: bool,
}

/// What is handed on while a log is read.
#[derive(Copy, Clone, Debug, PartialEq)]
pub enum LogPiece<'a> {
    /// Samples, one after the other.
    Samples(&'a [Sample]),
    /// The record is broken here: a gap, or a clock set back.
    Break,
}

/// A recorded motion, whole.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Recorded {
    samples: Vec<Sample>,
    /// Before which samples it is broken, by their numbers, in rising order.
    breaks: Vec<usize>,
    /// How it was read.
    pub read: LogReport,
}

impl Recorded {
    /// Takes the next piece.
    pub fn take(&mut self, piece: LogPiece<'_>) {
        match piece {
            LogPiece::Samples(samples) => self.samples.extend_from_slice(samples),
            LogPiece::Break => self.breaks.push(self.samples.len()),
        }
    }

    /// All samples, breaks or not.
    pub fn samples(&self) -> &[Sample] {
        &self.samples
    }

    /// Hands it on as a reader would, some thousand samples at a time.
    pub fn pieces(&self) -> impl Iterator<Item = LogPiece<'_>> {
        let ends = self.breaks.iter().copied().map(|at| (at, true));
        let ends = ends.chain([(self.samples.len(), false)]);
        let mut from = 0;
        ends.flat_map(move |(to, breaks)| {
            let stretch = self.samples.get(from..to).unwrap_or_default();
            from = to;
            let blocks = stretch.chunks(BLOCK).map(LogPiece::Samples);
            blocks.chain(breaks.then_some(LogPiece::Break))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is kept is handed on as it came, breaks in their places.
    #[test]
    fn it_is_handed_on_as_it_came() {
        let sample = |number: u32| Sample {
            time_s: f64::from(number),
            ..Sample::default()
        };
        let many: Vec<Sample> = (0..10_000).map(sample).collect();
        let mut kept = Recorded::default();
        let came = [
            LogPiece::Samples(&many[..9000]),
            LogPiece::Break,
            LogPiece::Break,
            LogPiece::Samples(&many[9000..]),
        ];
        for piece in came {
            kept.take(piece);
        }
        let mut again = Recorded::default();
        let mut longest = 0;
        let mut breaks = Vec::new();
        for piece in kept.pieces() {
            match piece {
                LogPiece::Samples(samples) => longest = longest.max(samples.len()),
                LogPiece::Break => breaks.push(again.samples().len()),
            }
            again.take(piece);
        }
        assert_eq!(breaks, [9000, 9000]);
        assert_eq!(again, kept);
        assert_eq!(again.samples(), many);
        assert_eq!(longest, BLOCK);
    }
}
