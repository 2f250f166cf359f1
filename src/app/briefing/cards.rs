//! The limit cards of the sheet, worked out beside the window: for them seas and cures are tried. Until they are there
//! the sheet stands without them.

use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

use egui::Context;

use crate::brief::{Assessed, Brief};
use crate::checks::{self, LimitCard, limit_cards_for_paper};
use crate::engine::Assessor;
use crate::layout::{Id, Plan, Trip};
use crate::store::Watch;

/// The cards of a trip, as far as they are worked out.
#[derive(Debug)]
pub(super) struct CardsJob {
    plan: Arc<Plan>,
    trip: Id,
    watch: Watch,
    found: Receiver<Vec<LimitCard>>,
    /// What was found; `None` while it is being worked out.
    cards: Option<Vec<LimitCard>>,
}

impl Drop for CardsJob {
    fn drop(&mut self) {
        self.watch.give_up();
    }
}

impl CardsJob {
    /// Begins; without a thread the sheet stays without cards.
    pub(super) fn begin(ctx: &Context, plan: &Arc<Plan>, trip: &str) -> Self {
        let (send, found) = channel();
        let watch = Watch::default();
        let (ctx, watched) = (ctx.clone(), watch.clone());
        let (plan_of, trip_of) = (Arc::clone(plan), trip.to_owned());
        let thread = std::thread::Builder::new().name("limit cards".to_owned());
        let started = thread.spawn(move || {
            send.send(cards(&plan_of, &trip_of, &watched)).ok();
            ctx.request_repaint();
        });
        if let Err(error) = started {
            log::error!("the limit cards are not worked out: {error}");
        }
        Self {
            plan: Arc::clone(plan),
            trip: trip.to_owned(),
            watch,
            found,
            cards: None,
        }
    }

    /// Are the cards of this plan the same, whatever was ticked off or settled for loading since?
    pub(super) fn is_of(&self, plan: &Arc<Plan>, trip: &str) -> bool {
        if self.trip != trip {
            return false;
        }
        let stowed = |trip: &Trip| Trip {
            briefing: None,
            ..trip.clone()
        };
        let same_trip = || {
            let (old, new) = (self.plan.trip(trip), plan.trip(trip));
            old.map(stowed) == new.map(stowed)
        };
        Arc::ptr_eq(&self.plan, plan) || self.plan.boat == plan.boat && same_trip()
    }

    /// Takes in what was found; told once.
    pub(super) fn collect(&mut self) -> bool {
        if self.cards.is_some() {
            return false;
        }
        match self.found.try_recv() {
            Ok(cards) => self.cards = Some(cards),
            Err(TryRecvError::Empty) => return false,
            Err(TryRecvError::Disconnected) => self.cards = Some(Vec::new()),
        }
        true
    }

    /// The cards, once they are there.
    pub(super) fn cards(&self) -> Option<&Vec<LimitCard>> {
        self.cards.as_ref()
    }

    /// How far it is, from 0 to 1; `None` once they are there.
    pub(super) fn share(&self) -> Option<f64> {
        self.cards.is_none().then(|| self.watch.share())
    }
}

/// The cards of a trip, under watch.
fn cards(plan: &Plan, trip: &str, watch: &Watch) -> Vec<LimitCard> {
    let Some(trip) = plan.trip(trip) else {
        return Vec::new();
    };
    let mut assessor = Assessor::default();
    let findings = checks::run(&mut assessor, plan, trip);
    limit_cards_for_paper(plan, trip, (&assessor, &findings), &mut |share| {
        watch.set(share);
        !watch.is_given_up()
    })
}

/// A brief with its cards, for paper; worked out now if they are not there yet.
pub(super) fn with_cards(brief: &Brief, plan: &Plan, watch: &Watch) -> Brief {
    let mut brief = brief.clone();
    let Some(trip) = plan.trip(&brief.trip).filter(|_| brief.cards.is_empty()) else {
        return brief;
    };
    let mut assessor = Assessor::default();
    let findings = checks::run(&mut assessor, plan, trip);
    let assessed = Assessed {
        assessor: &assessor,
        findings: &findings,
    };
    brief.add_cards(plan, trip, assessed, &mut |share| {
        watch.set(0.7 * share);
        !watch.is_given_up()
    });
    brief
}
