//! `P805`: something is on the floor that a place needs.

use super::fitting::{self, movers, names};
use super::no_floor_for_casualty::{size, taken_floors};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::layout::{PlaceKind, ThingKind};

declare_check! {
    /// ## What it checks
    /// That the floor which a place needs (a seat for a kitted diver, a set-down spot, a muster point) is
    /// clear, turned as it fits best. The floor for a casualty is told as E903.
    ///
    /// ## Why it matters
    /// Where nobody can kit up, somebody kits up in the walkway.
    ///
    /// ## Source
    /// The floor that the plan gives for the place.
    pub static PLACE_FLOOR_TAKEN = {
        code: "P805",
        name: "place-floor-taken",
        summary: "something is on the floor that a place needs",
        signal: Signal::Caution,
        pictures: [
            "deck 3x2; fast roll=1/8; place S set_down 1.5,0 floor=1x0.8; gear G crate 1.5,0 h=0.3",
            "deck 3x2; fast roll=1/8; place S set_down 1.5,0 floor=1x0.8; gear G crate 2.7,0.8 h=0.3",
        ],
        run: place_floor_taken,
        cures: propose::uncover,
    }
}

fn place_floor_taken(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    let others = |kind: PlaceKind| kind != PlaceKind::CasualtyFloor;
    for (place, fits) in taken_floors(ctx, others) {
        let movers = movers(ctx, &fits);
        let sentence = format!(
            "{} {} on the floor that {} needs{}",
            names(&movers),
            words::is_are(movers.len()),
            ctx.name(ThingKind::Place, &place.id),
            size(place),
        );
        let what = (
            ctx.subject(ThingKind::Place, &place.id),
            fits.as_slice(),
            movers,
        );
        let check = &PLACE_FLOOR_TAKEN;
        findings.push(fitting::finding(
            check,
            ctx,
            Signal::Caution,
            what,
            sentence,
        ));
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    #[test]
    fn a_crate_in_the_set_down_spot() {
        let deck = "deck 6x4; fast roll=1/8; place S set_down 3,0 floor=1x0.8";
        fires(
            &format!("{deck}; gear G crate 3,0 h=0.3"),
            "CAUTION P805 S G",
        );
        silent(&format!("{deck}; gear G crate 5,1.5 h=0.3"), "P805");
    }
}
