//! The stopwatch of the rolling-period test: the only place that reads a clock for it.

use std::fmt;
use std::time::Instant;

/// Seconds that pass, by the clock of the device or by one that a test gives.
pub(crate) struct Stopwatch(Box<dyn Fn() -> f64>);

impl Stopwatch {
    /// One that is read as given.
    pub(crate) fn read_by(read: impl Fn() -> f64 + 'static) -> Self {
        Self(Box::new(read))
    }

    /// Seconds since some moment.
    pub(in super::super) fn now_s(&self) -> f64 {
        (self.0)()
    }
}

impl Default for Stopwatch {
    fn default() -> Self {
        let begun = Instant::now();
        Self::read_by(move || begun.elapsed().as_secs_f64())
    }
}

impl fmt::Debug for Stopwatch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Stopwatch")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_never_runs_backwards() {
        let watch = Stopwatch::default();
        let first = watch.now_s();
        assert!(first >= 0.0 && watch.now_s() >= first);
        assert!((Stopwatch::read_by(|| 12.5).now_s() - 12.5).abs() < 1e-12);
    }
}
