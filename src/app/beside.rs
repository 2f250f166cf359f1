//! A piece of work beside the window: a named thread with how far it is and a way to give it up. Dropping it gives it
//! up.

use std::sync::mpsc::{Receiver, TryRecvError, channel};

use egui::Context;

use crate::store::Watch;

/// See the module.
pub(crate) struct Beside<T> {
    watch: Watch,
    results: Receiver<T>,
}

/// What came of it so far.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Came<T> {
    /// It is being worked on.
    NotYet,
    /// This; it is handed out once.
    Here(T),
    /// It ended without any.
    Nothing,
}

impl<T> std::fmt::Debug for Beside<T> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Beside({:.2})", self.watch.share())
    }
}

impl<T> Drop for Beside<T> {
    fn drop(&mut self) {
        self.watch.give_up();
    }
}

impl<T: Send + 'static> Beside<T> {
    /// Begins in a thread of this name; the window is drawn again when it is done.
    pub(crate) fn begin(
        ctx: &Context,
        name: &str,
        work: impl FnOnce(&Watch) -> T + Send + 'static,
    ) -> std::io::Result<Self> {
        let (send, results) = channel();
        let watch = Watch::default();
        let (ctx, watched) = (ctx.clone(), watch.clone());
        let thread = std::thread::Builder::new().name(name.to_owned());
        thread.spawn(move || {
            // Nobody listens if it was given up.
            send.send(work(&watched)).ok();
            ctx.request_repaint();
        })?;
        Ok(Self { watch, results })
    }

    /// What came of it.
    pub(crate) fn collect(&self) -> Came<T> {
        match self.results.try_recv() {
            Ok(found) => Came::Here(found),
            Err(TryRecvError::Empty) => Came::NotYet,
            Err(TryRecvError::Disconnected) => Came::Nothing,
        }
    }

    /// How far it is, 0 to 1, for a bar.
    pub(crate) fn share(&self) -> f32 {
        #[expect(clippy::cast_possible_truncation, reason = "a share for a bar")]
        let share = self.watch.share() as f32;
        share
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Waits without a clock: it is given up, so the work ends.
    #[test]
    fn it_ends_when_it_is_dropped_and_hands_out_what_came() {
        let ctx = Context::default();
        let (tell, told) = channel();
        let beside = Beside::begin(&ctx, "test", move |watch| {
            while !watch.is_given_up() {
                std::thread::yield_now();
            }
            tell.send(()).ok();
        });
        let beside = beside.unwrap();
        assert_eq!(beside.collect(), Came::NotYet);
        drop(beside);
        told.recv().unwrap();
        let (go, wait) = channel::<()>();
        let (tell, told) = channel();
        let beside = Beside::begin(&ctx, "test", move |watch| {
            watch.set(0.5);
            tell.send(()).ok();
            wait.recv().ok();
            7
        });
        let beside = beside.unwrap();
        told.recv().unwrap();
        assert!((beside.share() - 0.5).abs() < 1e-3);
        go.send(()).unwrap();
        let came = loop {
            match beside.collect() {
                Came::NotYet => std::thread::yield_now(),
                came => break came,
            }
        };
        assert_eq!(came, Came::Here(7));
    }
}
