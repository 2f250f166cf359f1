//! `L410`: a lashing runs through something, so that it would bend round it.

use super::lashed;
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::engine::{DeckScene, SceneThing};
use crate::geometry::Elementary as _;
use crate::geometry::{Bounds, Shape, Vec2, separation, vec2};
use crate::layout::{GearKind, Lashing, ThingKind};

/// Pieces into which a leg is cut to see where it is within a thing.
const PIECES: u32 = 48;

/// So near its ends a leg touches what its point is fixed to and what it goes round, in metres.
const ENDS_M: f64 = 0.08;

/// A touch that shallow is none, in metres.
const DEPTH_M: f64 = 0.01;

declare_check! {
    /// ## What it checks
    /// That no leg of a lashing, drawn straight from the cylinder to its point, runs through a fixture, through
    /// gear that stands on deck, or through a cylinder that it does not go round. Racks are not looked at, as
    /// nobody knows where their bars are. Within 80 mm of its ends a leg touches what it is made fast to.
    ///
    /// It is WARNING through a cylinder or gear, which give way, CAUTION round a fixture.
    ///
    /// ## Why it matters
    /// It would pass over or round that thing: longer, with more stretch, chafing at the edge, and pulling in
    /// another direction than is reckoned here, where legs are straight. What gives way leaves it slack.
    ///
    /// ## Source
    /// IMO CSS Code, annex 13, section 7 (lashing forces act along the lashing); the rest: common practice, no
    /// source.
    pub static LASHING_BENDS = {
        code: "L410",
        name: "lashing-bends",
        summary: "a lashing would bend round something",
        signal: Signal::Warning,
        pictures: [
            "deck 3x2; running roll=2/8; stand P1 0.8,0; point E1 2.6,0; fixture B1 locker 1.5..1.9,-0.3..0.3 h=0.6
             lash L1 E1 P1 E1 h=0.44 tight=0.2",
            "deck 3x2; running roll=2/8; stand P1 0.8,0; point E1 2.6,0; fixture B1 locker 1.5..1.9,0.4..0.8 h=0.6
             lash L1 E1 P1 E1 h=0.44 tight=0.2",
        ],
        run: lashing_bends,
        cures: propose::another_point,
    }
}

fn lashing_bends(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (lashing, numbers) in lashed::shut(ctx) {
        for leg in &numbers.legs {
            let mut decks = ctx.scene.decks.iter();
            if let Some(hit) = decks.find_map(|deck| first_hit(ctx, lashing, deck, leg)) {
                findings.push(finding(ctx, lashing, hit));
                break;
            }
        }
    }
}

/// The first thing on a deck through which a leg runs, and how high above the deck.
fn first_hit<'a>(
    ctx: &CheckContext<'_>,
    lashing: &Lashing,
    deck: &'a DeckScene,
    [from, to]: &[[f64; 3]; 2],
) -> Option<(&'a SceneThing, f64)> {
    let ends = [from, to].map(|end| vec2(end[0], end[1]));
    (deck.near(&Bounds::of(ends), 1e-3).into_iter())
        .map(|number| &deck.things[number])
        .filter(|thing| is_in_the_way(ctx, lashing, thing))
        .find_map(|thing| Some((thing, height_within(deck, thing, [*from, *to])?)))
}

/// Is it a thing of its own that a leg of this lashing has no business with?
fn is_in_the_way(ctx: &CheckContext<'_>, lashing: &Lashing, thing: &SceneThing) -> bool {
    match thing.thing.kind {
        ThingKind::Fixture => true,
        ThingKind::Cylinder => !lashing.round.contains(&thing.thing.id),
        ThingKind::Gear => {
            let mut gear = ctx.day.gear.iter().map(|state| &state.gear);
            !gear.any(|gear| gear.id == thing.thing.id && gear.kind == GearKind::Mat)
        }
        _ => false,
    }
}

/// The height above the deck at which a leg, `[x, y, z above waterline]` at both ends, first runs within a thing;
/// `None` where it passes beside, above or below.
fn height_within(deck: &DeckScene, thing: &SceneThing, [from, to]: [[f64; 3]; 2]) -> Option<f64> {
    let ends: [Vec2; 2] = [from, to].map(|end| vec2(end[0], end[1]));
    let along = Shape::Stadium {
        from: ends[0],
        to: ends[1],
        radius: 1e-4,
    };
    if separation(&along, &thing.shape).depth_m <= 0.0 {
        return None;
    }
    let length = (ends[1] - ends[0]).length().hypotenuse(to[2] - from[2]);
    (1..PIECES).find_map(|piece| {
        let share = f64::from(piece) / f64::from(PIECES);
        let away = length * share.min(1.0 - share);
        let z = from[2] + share * (to[2] - from[2]) - deck.height_m;
        if away < ENDS_M || z <= thing.from_m + DEPTH_M || z >= thing.to_m - DEPTH_M {
            return None;
        }
        let at = ends[0] + share * (ends[1] - ends[0]);
        let depth = separation(&Shape::disc(at, 1e-4), &thing.shape).depth_m;
        (depth > DEPTH_M).then_some(z)
    })
}

fn finding(
    ctx: &CheckContext<'_>,
    lashing: &Lashing,
    (thing, height_m): (&SceneThing, f64),
) -> Finding {
    let gives_way = thing.thing.kind != ThingKind::Fixture;
    let (signal, leaves) = if gives_way {
        (Signal::Warning, ", and goes slack when that gives way")
    } else {
        (Signal::Caution, ", and chafes at its edge")
    };
    let sentence = format!(
        "{} runs through {} at {} above the deck: it would bend round it, pulls otherwise than is reckoned for a \
         straight one{leaves}",
        ctx.name(ThingKind::Lashing, &lashing.id),
        thing.name,
        figures::metres(height_m),
    );
    let mut finding = lashed::finding(&LASHING_BENDS, ctx, signal, lashing, sentence);
    finding
        .about
        .push(ctx.subject(thing.thing.kind, &thing.thing.id));
    finding
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    fn strap(more: &str) -> String {
        format!(
            "deck 6x4; running roll=2/8; stand P1 2,0; point E1 4,0; lash L1 E1 P1 E1 h=0.44 tight=0.2; {more}"
        )
    }

    #[test]
    fn through_a_fixture_it_bends() {
        let text = strap("fixture B1 locker 2.8..3.2,-0.3..0.3 h=0.6");
        fires(&text, "CAUTION L410 L1 P1 B1");
        says(&text, "L410", "chafes at its edge");
    }

    #[test]
    fn above_beside_or_at_its_own_point_it_does_not() {
        silent(&strap("fixture B1 locker 2.8..3.2,-0.3..0.3 h=0.1"), "L410");
        silent(&strap("fixture B1 locker 2.8..3.2,0.3..0.8 h=0.6"), "L410");
        let at_point = "deck 6x4; running roll=2/8; stand P1 2,0; point E1 4,0 h=0.3
             lash L1 E1 P1 E1 h=0.44 tight=0.2; fixture B1 locker 3.95..4.4,-0.3..0.3 h=0.6";
        silent(at_point, "L410");
    }

    #[test]
    fn through_another_cylinder_it_goes_slack_when_that_gives_way() {
        let text = strap("stand P2 3,0");
        fires(&text, "WARNING L410 L1 P1 P2");
        says(&text, "L410", "slack when that gives way");
        let round_both =
            "deck 6x4; running roll=2/8; stand P1 2,0; stand P2 2.2,0; point E1 1,0; point E2 4,0
             lash L1 E1 P1+P2 E2 h=0.44 tight=0.2";
        silent(round_both, "L410");
    }
}
