//! Watching a longer piece of work from elsewhere: how far it is, and whether it is given up.

use std::io::{self, Read};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};

/// So many steps are the whole.
const WHOLE: u32 = 10_000;

/// See the module. Clones watch the same work.
#[derive(Clone, Debug, Default)]
pub struct Watch {
    done: Arc<AtomicU32>,
    given_up: Arc<AtomicBool>,
}

impl Watch {
    /// How much of it is done, from 0 to 1.
    pub fn share(&self) -> f64 {
        f64::from(self.done.load(Ordering::Relaxed)) / f64::from(WHOLE)
    }

    /// So much of it is done.
    pub fn set(&self, share: f64) {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a share from 0 to 1"
        )]
        let done = (share.clamp(0.0, 1.0) * f64::from(WHOLE)) as u32;
        self.done.store(done, Ordering::Relaxed);
    }

    /// It is not wanted any more: it ends as soon as it looks.
    pub fn give_up(&self) {
        self.given_up.store(true, Ordering::Relaxed);
    }

    /// Is it not wanted any more?
    pub fn is_given_up(&self) -> bool {
        self.given_up.load(Ordering::Relaxed)
    }
}

/// Bytes that are read under watch, up to a share of the whole work.
pub(super) struct Watched<'a> {
    bytes: &'a [u8],
    read: usize,
    most: f64,
    watch: &'a Watch,
}

impl<'a> Watched<'a> {
    /// Reading all of the bytes is this share of the work.
    pub(super) fn new(bytes: &'a [u8], most: f64, watch: &'a Watch) -> Self {
        Self {
            bytes,
            read: 0,
            most,
            watch,
        }
    }
}

/// Looked at once in so many bytes.
const LOOK_EVERY: usize = 4096;

impl Read for Watched<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let rest = &self.bytes[self.read..];
        let count = rest.len().min(buffer.len());
        buffer[..count].copy_from_slice(&rest[..count]);
        let looks = self.read / LOOK_EVERY != (self.read + count) / LOOK_EVERY || self.read == 0;
        self.read += count;
        if looks {
            if self.watch.is_given_up() {
                return Err(io::Error::other("given up"));
            }
            let all = self.bytes.len().max(1);
            self.watch.set(self.most * self.read as f64 / all as f64);
        }
        Ok(count)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bytes_are_counted_and_end_when_given_up() {
        let bytes = vec![7; 100_000];
        let watch = Watch::default();
        let mut watched = Watched::new(&bytes, 0.8, &watch);
        let mut half = vec![0; 50_000];
        watched.read_exact(&mut half).unwrap();
        assert!((watch.share() - 0.4).abs() < 0.05, "{}", watch.share());
        assert_eq!(half, vec![7; 50_000]);
        watch.give_up();
        let mut rest = Vec::new();
        watched.read_to_end(&mut rest).unwrap_err();
    }
}
