//! What somebody who lays out or secures a deck asks: who stands unsecured, and where one can be laid down.

use super::cures::propose;
use super::{each_context, security};
use crate::engine::Assessor;
use crate::layout::{Edit, Id, Placing, Plan, Trip};

/// The upright cylinders that nothing holds in the first part of this trip, in the order of their names.
pub fn unsecured(plan: &Plan, trip: &Trip) -> Vec<Id> {
    let mut found = Vec::new();
    in_first_part(plan, trip, |ctx| {
        let cylinders = ctx.numbers.cylinders.iter();
        let cylinders = cylinders.filter(|cylinder| security::is_unsecured(ctx, cylinder));
        found.extend(cylinders.map(|cylinder| cylinder.cylinder.clone()));
    });
    found.sort();
    found
}

/// The nearest free floor on which a cylinder can lie in the first part of this trip.
///
/// It is outside all walkways; the cylinder lies on its kit, or between chocks that are aboard and not in use. `None` where there is no floor, or no chocks.
pub fn place_to_lie(plan: &Plan, trip: &Trip, cylinder: &str) -> Option<Placing> {
    let mut placing = None;
    in_first_part(plan, trip, |ctx| {
        let body = ctx.cylinder(cylinder);
        let mut proposals = body
            .into_iter()
            .flat_map(|body| propose::lay_down(ctx, body));
        let edit = proposals
            .next()
            .and_then(|proposal| proposal.edits.into_iter().next());
        if let Some(Edit::Place { placing: found, .. }) = edit {
            placing = Some(found);
        }
    });
    placing
}

fn in_first_part(plan: &Plan, trip: &Trip, mut with: impl FnMut(&super::CheckContext<'_>)) {
    let mut assessor = Assessor::default();
    assessor.assess(plan, trip);
    each_context(&assessor, plan, trip, |ctx| {
        if ctx.part_index == 0 {
            with(ctx);
        }
    });
}
