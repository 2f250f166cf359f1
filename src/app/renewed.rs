//! Something that is made beside the window from what it stands for, and stays shown until what replaces it is there:
//! a page in another width, the pages of a plan that has just changed. So nothing flickers and nothing is waited for.

use egui::Context;

use super::beside::{Beside, Came};
use crate::store::Watch;

/// See the module. `K` is what it is made of, told apart by equality; `T` is what was made.
pub(crate) struct Renewed<K, T> {
    shown: Option<(K, T)>,
    coming: Option<(K, Beside<T>)>,
    /// What was begun and came to nothing: it is not begun over and over.
    failed: Option<K>,
}

impl<K, T> std::fmt::Debug for Renewed<K, T> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (shown, coming) = (self.shown.is_some(), self.coming.is_some());
        write!(f, "Renewed(shown: {shown}, coming: {coming})")
    }
}

impl<K, T> Default for Renewed<K, T> {
    fn default() -> Self {
        Self {
            shown: None,
            coming: None,
            failed: None,
        }
    }
}

impl<K: PartialEq + Clone, T: Send + 'static> Renewed<K, T> {
    /// Sees to it that it is made of this; what is being made of something else is given up. The work is only taken
    /// up where it is wanted.
    pub(crate) fn want<W: FnOnce(&Watch) -> T + Send + 'static>(
        &mut self,
        ctx: &Context,
        name: &str,
        of: &K,
        work: impl FnOnce() -> W,
    ) {
        self.collect();
        let is_of = |it: Option<&K>| it == Some(of);
        if is_of(self.shown.as_ref().map(|(key, _)| key)) {
            self.coming = None;
            return;
        }
        if is_of(self.coming.as_ref().map(|(key, _)| key)) || is_of(self.failed.as_ref()) {
            return;
        }
        match Beside::begin(ctx, name, work()) {
            Ok(beside) => self.coming = Some((of.clone(), beside)),
            Err(error) => {
                log::error!("{name} is not made: {error}");
                self.failed = Some(of.clone());
            }
        }
    }

    /// Takes in what was made since.
    pub(crate) fn collect(&mut self) {
        let Some((key, beside)) = self.coming.take() else {
            return;
        };
        match beside.collect() {
            Came::NotYet => self.coming = Some((key, beside)),
            Came::Here(made) => self.shown = Some((key, made)),
            Came::Nothing => self.failed = Some(key),
        }
    }

    /// What is there and what it is of: what is wanted, or what was wanted before.
    pub(crate) fn shown(&self) -> Option<(&K, &T)> {
        self.shown.as_ref().map(|(key, made)| (key, made))
    }

    /// Is it being made?
    pub(crate) fn is_busy(&self) -> bool {
        self.coming.is_some()
    }
}

#[cfg(test)]
mod tests {
    use std::sync::mpsc::channel;

    use super::*;

    fn waited_for(it: &mut Renewed<u32, u32>) {
        while it.is_busy() {
            std::thread::yield_now();
            it.collect();
        }
    }

    #[test]
    fn the_old_stays_until_the_new_is_there() {
        let ctx = Context::default();
        let mut it = Renewed::<u32, u32>::default();
        it.want(&ctx, "test", &1, || |_: &Watch| 10);
        waited_for(&mut it);
        assert_eq!(it.shown(), Some((&1, &10)));
        // Wanted again, it is not made again.
        it.want(&ctx, "test", &1, || -> fn(&Watch) -> u32 {
            panic!("it is there")
        });
        let (go, wait) = channel::<()>();
        it.want(&ctx, "test", &2, || {
            move |_: &Watch| {
                wait.recv().ok();
                20
            }
        });
        assert!(it.is_busy());
        assert_eq!(it.shown(), Some((&1, &10)));
        go.send(()).unwrap();
        waited_for(&mut it);
        assert_eq!(it.shown(), Some((&2, &20)));
    }

    #[test]
    fn what_nobody_wants_any_more_is_given_up() {
        let ctx = Context::default();
        let mut it = Renewed::<u32, u32>::default();
        let (tell, told) = channel();
        it.want(&ctx, "test", &1, || {
            move |watch: &Watch| {
                while !watch.is_given_up() {
                    std::thread::yield_now();
                }
                tell.send(()).ok();
                10
            }
        });
        it.want(&ctx, "test", &2, || |_: &Watch| 20);
        told.recv().unwrap();
        waited_for(&mut it);
        assert_eq!(it.shown(), Some((&2, &20)));
    }

    /// Work that falls over is told in the log and not begun again; what was shown stays.
    #[test]
    fn what_came_to_nothing_is_not_begun_again() {
        let ctx = Context::default();
        let mut it = Renewed::<u32, u32>::default();
        it.want(&ctx, "test", &1, || |_: &Watch| 10);
        waited_for(&mut it);
        it.want(&ctx, "test", &2, || {
            |_: &Watch| -> u32 { panic!("on purpose") }
        });
        waited_for(&mut it);
        it.want(&ctx, "test", &2, || -> fn(&Watch) -> u32 {
            panic!("not again")
        });
        assert_eq!((it.is_busy(), it.shown()), (false, Some((&1, &10))));
    }
}
