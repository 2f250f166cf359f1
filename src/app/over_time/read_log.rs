//! A log read in a thread of its own: how much of it is read is told, and nobody who does not want it any more waits.

use std::io::{BufRead, Error, Read};
use std::path::Path;

use crate::mechanics::recorded::{LogPiece, LogReport};
use crate::store::Watch;
use crate::store::motion_log::{LogError, LogUnits, open_motion_log, read_motion_log};

/// Reads a log under watch and hands it on piece by piece.
pub(crate) fn read_log(
    path: &Path,
    units: LogUnits,
    watch: &Watch,
    each: &mut dyn FnMut(LogPiece<'_>),
) -> Result<LogReport, LogError> {
    let mut reader = Counted {
        inner: open_motion_log(path)?,
        read: 0,
        size: std::fs::metadata(path).map_or(0, |about| about.len()),
        watch,
    };
    read_motion_log(&mut reader, units, each)
}

struct Counted<'a> {
    inner: Box<dyn BufRead>,
    read: u64,
    size: u64,
    watch: &'a Watch,
}

impl Read for Counted<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> Result<usize, Error> {
        self.inner.read(buffer)
    }
}

impl BufRead for Counted<'_> {
    fn fill_buf(&mut self) -> Result<&[u8], Error> {
        if self.watch.is_given_up() {
            return Err(Error::other("given up"));
        }
        self.inner.fill_buf()
    }

    fn consume(&mut self, amount: usize) {
        self.read += amount as u64;
        self.watch.set(self.read as f64 / self.size.max(1) as f64);
        self.inner.consume(amount);
    }
}
