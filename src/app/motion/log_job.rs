//! A motion log is read in a thread of its own, with progress, in bounded memory: its swings are measured and the
//! times are counted that each cylinder would have gone.

use std::io::{BufRead, Error, Read};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::mpsc::{self, Receiver, TryRecvError};

use crate::engine::{LogColumns, LogMeasures, LogMeter};
use crate::layout::Id;
use crate::mechanics::motion_log::{Watch, WatchedBody};
use crate::store::motion_log::{
    LogError, LogPiece, LogReport, LogUnits, open_motion_log, read_motion_log,
};

/// What was read.
#[derive(Clone, Debug)]
pub(super) struct LogFound {
    pub(super) measures: LogMeasures,
    pub(super) report: LogReport,
    /// How often each cylinder would have gone, most often first.
    pub(super) passed: Vec<(Id, u64)>,
}

/// Why it was not read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum LogTrouble {
    /// A column has no unit: it is asked for.
    NoUnit(String),
    /// Anything else.
    Other(String),
}

/// A log that is read, or was.
#[derive(Debug)]
pub(super) struct LogJob {
    pub(super) path: PathBuf,
    stop: Arc<AtomicBool>,
    read: Arc<AtomicU64>,
    size: u64,
    results: Receiver<Result<LogFound, LogTrouble>>,
    found: Option<Result<LogFound, LogTrouble>>,
}

impl Drop for LogJob {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
    }
}

impl LogJob {
    /// Begins to read.
    pub(super) fn start(
        ctx: &egui::Context,
        path: &Path,
        units: LogUnits,
        bodies: Vec<(Id, WatchedBody)>,
    ) -> Self {
        let (stop, read) = (
            Arc::new(AtomicBool::new(false)),
            Arc::new(AtomicU64::new(0)),
        );
        let size = std::fs::metadata(path).map_or(0, |about| about.len());
        let (send, results) = mpsc::channel();
        let of_thread = (path.to_owned(), Arc::clone(&stop), Arc::clone(&read));
        let ctx = ctx.clone();
        let thread = std::thread::Builder::new().name("motion log".to_owned());
        let started = thread.spawn(move || {
            let (path, stop, read) = of_thread;
            let found = open_motion_log(&path)
                .and_then(|inner| {
                    let mut counted = Counted { inner, read, stop };
                    read_to_end(&mut counted, units, &bodies)
                })
                .map_err(|err| match err {
                    LogError::NoUnit { .. } => LogTrouble::NoUnit(err.what()),
                    other => LogTrouble::Other(other.to_string()),
                });
            // Nobody listens if another log was asked for meanwhile.
            send.send(found).ok();
            ctx.request_repaint();
        });
        let found = started
            .err()
            .map(|err| Err(LogTrouble::Other(err.to_string())));
        Self {
            path: path.to_owned(),
            stop,
            read,
            size,
            results,
            found,
        }
    }

    /// Takes in what was found.
    pub(super) fn collect(&mut self) {
        match self.results.try_recv() {
            Ok(found) => self.found = Some(found),
            Err(TryRecvError::Disconnected) if self.found.is_none() => {
                self.found = Some(Err(LogTrouble::Other(String::new())));
            }
            Err(TryRecvError::Empty | TryRecvError::Disconnected) => {}
        }
    }

    /// What was found; nothing while it is read.
    pub(super) fn found(&self) -> Option<&Result<LogFound, LogTrouble>> {
        self.found.as_ref()
    }

    /// How much of it is read, 0 to 1.
    pub(super) fn progress(&self) -> f32 {
        let read = self.read.load(Ordering::Relaxed);
        #[expect(clippy::cast_possible_truncation, reason = "a share for a bar")]
        let share = (read as f64 / self.size.max(1) as f64) as f32;
        share.clamp(0.0, 1.0)
    }

    /// Is it still read?
    pub(super) fn is_busy(&self) -> bool {
        self.found.is_none()
    }
}

fn read_to_end(
    reader: &mut dyn BufRead,
    units: LogUnits,
    bodies: &[(Id, WatchedBody)],
) -> Result<LogFound, LogError> {
    let places: Vec<WatchedBody> = bodies.iter().map(|(_, body)| *body).collect();
    let (mut meter, mut watch) = (LogMeter::default(), Watch::new(&places));
    let report = read_motion_log(reader, units, &mut |piece| match piece {
        LogPiece::Samples(samples) => {
            meter.push(samples);
            watch.push(samples);
        }
        LogPiece::Break => {
            meter.break_off();
            watch.break_off();
        }
    })?;
    let ids = bodies.iter().map(|(id, _)| id.clone());
    let mut passed: Vec<(Id, u64)> = ids.zip(watch.times().iter().copied()).collect();
    passed.sort_by(|a, b| b.1.cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
    Ok(LogFound {
        measures: meter.measures(LogColumns {
            pitch: report.has_pitch,
            vertical: report.has_vertical,
        }),
        report,
        passed,
    })
}

/// Counts what is read, and ends the reading when nobody wants it any more.
struct Counted {
    inner: Box<dyn BufRead>,
    read: Arc<AtomicU64>,
    stop: Arc<AtomicBool>,
}

impl Read for Counted {
    fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
        let count = self.inner.read(buffer)?;
        self.read.fetch_add(count as u64, Ordering::Relaxed);
        Ok(count)
    }
}

impl BufRead for Counted {
    fn fill_buf(&mut self) -> std::io::Result<&[u8]> {
        if self.stop.load(Ordering::Relaxed) {
            return Err(Error::other("given up"));
        }
        self.inner.fill_buf()
    }

    fn consume(&mut self, amount: usize) {
        self.read.fetch_add(amount as u64, Ordering::Relaxed);
        self.inner.consume(amount);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn counted(text: &'static str, stop: bool) -> Counted {
        Counted {
            inner: Box::new(text.as_bytes()),
            read: Arc::new(AtomicU64::new(0)),
            stop: Arc::new(AtomicBool::new(stop)),
        }
    }

    #[test]
    fn what_is_read_is_counted_and_can_be_given_up() {
        let text = "time_s,roll_deg\n0,0\n1,5\n2,-5\n3,5\n4,-5\n5,5\n";
        let mut reader = counted(text, false);
        let found = read_to_end(&mut reader, LogUnits::default(), &[]).unwrap();
        assert_eq!(found.report.rows, 6);
        assert_eq!(reader.read.load(Ordering::Relaxed), text.len() as u64);
        assert!((found.measures.hours - 5.0 / 3600.0).abs() < 1e-12);
        assert!(found.measures.pitch.is_none());
        let mut given_up = counted(text, true);
        assert!(read_to_end(&mut given_up, LogUnits::default(), &[]).is_err());
    }
}
