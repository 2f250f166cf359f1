//! A limit card is worked out in a thread of its own: first without cures, then with them.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{self, Receiver, TryRecvError};

use crate::checks::{LimitCard, limit_cards};
use crate::layout::{Id, Plan};

/// The card as far as it is worked out.
#[derive(Debug, Default)]
pub(crate) struct CardJob {
    running: Option<Running>,
    found: Option<Arc<LimitCard>>,
}

#[derive(Debug)]
struct Running {
    plan: Arc<Plan>,
    trip: Id,
    part: Id,
    stop: Arc<AtomicBool>,
    results: Receiver<Arc<LimitCard>>,
    is_done: bool,
}

impl Drop for Running {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
    }
}

impl CardJob {
    /// Sees to it that the card of this part is worked out; does nothing if it is already.
    pub(super) fn ask(&mut self, ctx: &egui::Context, plan: &Arc<Plan>, trip: &str, part: &str) {
        let is_it =
            |job: &Running| Arc::ptr_eq(&job.plan, plan) && job.trip == trip && job.part == part;
        if self.running.as_ref().is_some_and(is_it) {
            return;
        }
        self.found = None;
        let stop = Arc::new(AtomicBool::new(false));
        let (send, results) = mpsc::channel();
        let (ctx, stopped) = (ctx.clone(), Arc::clone(&stop));
        let (plan_of, trip_of, part_of) = (Arc::clone(plan), trip.to_owned(), part.to_owned());
        let thread = std::thread::Builder::new().name("limit card".to_owned());
        let started = thread.spawn(move || {
            for with_cures in [false, true] {
                let Some(trip) = plan_of.trip(&trip_of) else {
                    break;
                };
                let cards = limit_cards(&plan_of, trip, Some(&part_of), with_cures);
                let card = cards.into_iter().next().map(Arc::new);
                let sent = card.map(|card| send.send(card).is_ok());
                ctx.request_repaint();
                if sent != Some(true) || stopped.load(Ordering::Relaxed) {
                    break;
                }
            }
            drop(send);
            ctx.request_repaint();
        });
        if let Err(err) = &started {
            log::error!("the limit card is not worked out: {err}");
        }
        self.running = Some(Running {
            plan: Arc::clone(plan),
            trip: trip.to_owned(),
            part: part.to_owned(),
            stop,
            results,
            is_done: started.is_err(),
        });
    }

    /// Takes in what has been found since.
    pub(super) fn collect(&mut self) {
        let Some(job) = &mut self.running else { return };
        loop {
            match job.results.try_recv() {
                Ok(card) => self.found = Some(card),
                Err(TryRecvError::Empty) => break,
                Err(TryRecvError::Disconnected) => {
                    job.is_done = true;
                    break;
                }
            }
        }
    }

    /// The card, as far as it is known.
    pub(super) fn card(&self) -> Option<&Arc<LimitCard>> {
        self.found.as_ref()
    }

    /// Is it still being worked out?
    pub(crate) fn is_busy(&self) -> bool {
        self.running.as_ref().is_some_and(|job| !job.is_done)
    }
}
