//! Who could have reached a spot on deck: falling over on it, taken along by another, or rolling there.
//!
//! For an upright body that tips over an edge `r` from its axis, leaned by `t`, the top edge of its far side
//! stands, seen from the spot below its axis at rest,
//!
//! ```text
//! d(t) = r + H sin t - r cos t        how far out
//! z(t) = H cos t + r sin t            how high
//! ```
//!
//! so that it is over a spot at distance `d` when `t = asin((d - r) / R) + atan(r / H)`, `R = hypot(H, r)`. What it
//! has gained by then, from its balance point on, with the deck level and no push, is
//!
//! ```text
//! E(t) = m g (hypot(h, b) - h cos t - b sin t)        h, b: centre of gravity above and beside the edge
//! ```
//!
//! and never more than when it lies on its flank. No energy is taken off for anything (method: falling).

use schemars::JsonSchema;
use serde::Serialize;

use super::Moment;
use super::compare::limit_words;
use crate::engine::numbers::{CylinderNumbers, FallNumbers, Way};
use crate::geometry::{Outline, vec2};
use crate::layout::{Id, Point};
use crate::mechanics::motion::GRAVITY;

/// How far off its path a rolling cylinder may stray, in degrees either way: decks are not true. Common
/// practice, no source.
const STRAY_DEG: f64 = 20.0;

/// How a cylinder could come to a spot.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Arrival {
    /// The motion of this part throws it there.
    FallsThere,
    /// It is long enough, but this part's motion throws it another way or not at all.
    LongEnough,
    /// It lies, and rolls across its axis towards the spot.
    RollsThere,
}

/// A cylinder that could have reached the spot.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Candidate {
    /// The cylinder.
    pub cylinder: Id,

    /// How it could come there.
    pub how: Arrival,

    /// Where it was, in metres.
    pub at: Point,

    /// From its middle to the spot, in metres.
    pub distance_m: f64,

    /// The height of its valve above the deck as it passes over the spot, in metres, for one that falls.
    pub valve_height_m: Option<f64>,

    /// What it has gained by then, in joules, for one that falls.
    pub energy_j: Option<f64>,

    /// The motion that it needed to go, in words.
    pub needed: String,
}

/// Everybody who could have reached the spot, those whom the motion throws there first, then by distance.
pub fn reach(moment: &Moment, deck: &str, spot: Point) -> Vec<Candidate> {
    let Some(numbers) = moment.numbers() else {
        return Vec::new();
    };
    let mut candidates: Vec<Candidate> = numbers
        .cylinders
        .iter()
        .filter(|body| body.deck == deck)
        .filter_map(|body| candidate(body, &numbers.falls, spot))
        .collect();
    candidates.sort_by(|a, b| {
        a.how
            .cmp(&b.how)
            .then(a.distance_m.total_cmp(&b.distance_m))
            .then_with(|| a.cylinder.cmp(&b.cylinder))
    });
    candidates
}

fn candidate(body: &CylinderNumbers, falls: &[FallNumbers], spot: Point) -> Option<Candidate> {
    let way = [spot[0] - body.at[0], spot[1] - body.at[1]];
    let distance_m = way[0].hypot(way[1]);
    let found = |how, passing: Option<(f64, f64)>| Candidate {
        cylinder: body.cylinder.clone(),
        how,
        at: body.at,
        distance_m,
        valve_height_m: passing.map(|(height, _)| height),
        energy_j: passing.map(|(_, energy)| energy),
        needed: limit_words(&body.limit),
    };
    if body.stance.is_upright() {
        let passing = passing(body, distance_m)?;
        let is_thrown = falls
            .iter()
            .filter(|fall| fall.cylinder == body.cylinder)
            .any(|fall| sweeps(fall, spot));
        let how = if is_thrown {
            Arrival::FallsThere
        } else {
            Arrival::LongEnough
        };
        return Some(found(how, Some(passing)));
    }
    let rolls = body.utilisation(Way::RollsAway)?;
    let across = rolls.governing.as_ref()?.towards_deg;
    let towards = way[1].atan2(way[0]).to_degrees();
    // It rolls either way across its axis, as the boat does.
    let apart = (towards - across).rem_euclid(180.0);
    (apart.min(180.0 - apart) <= STRAY_DEG).then(|| found(Arrival::RollsThere, None))
}

fn sweeps(fall: &FallNumbers, spot: Point) -> bool {
    let corners = fall.sweep.iter().map(|[x, y]| vec2(*x, *y)).collect();
    Outline::new(corners).is_ok_and(|outline| outline.contains(vec2(spot[0], spot[1])))
}

/// Height of the valve and energy as it passes over a spot so far from its middle; `None` beyond its reach.
fn passing(body: &CylinderNumbers, distance_m: f64) -> Option<(f64, f64)> {
    let (high, edge) = (body.height_m, body.base_radius_m);
    let length = high.hypot(edge);
    let sine = (distance_m - edge) / length;
    let quarter = std::f64::consts::FRAC_PI_2;
    // Lying flat it reaches its height beyond the edge.
    if distance_m > edge + high {
        return None;
    }
    let lean = (sine.clamp(-1.0, 1.0).asin() + edge.atan2(high)).clamp(0.0, quarter);
    let (sin, cos) = lean.sin_cos();
    let (cg, beside) = (body.cg_height_m, body.base_radius_m);
    let at_balance = cg.hypot(beside);
    // It comes to lie on its flank, which stands further out than its foot.
    let gained = (at_balance - cg * cos - beside * sin).min(at_balance - body.body_radius_m);
    let past_balance = lean > beside.atan2(cg);
    let energy = if past_balance {
        body.mass_kg * GRAVITY * gained
    } else {
        0.0
    };
    Some((high * cos + edge * sin, energy))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture;

    fn moment(text: &str) -> Moment {
        Moment::of(&fixture::plan(text).unwrap(), None, None).unwrap()
    }

    fn at(text: &str, spot: Point) -> Vec<Candidate> {
        let moment = moment(text);
        let deck = moment.plan.boat.decks[0].id.clone();
        reach(&moment, &deck, spot)
    }

    const ROLLING: &str = "deck 10x4; running roll=25/3; stand P1 5,0; lie P2 7,0 towards=0";

    #[test]
    fn the_one_that_is_thrown_there_comes_first() {
        let found = at(ROLLING, [5.0, 0.5]);
        assert_eq!(found[0].cylinder, "P1");
        assert_eq!(found[0].how, Arrival::FallsThere);
        // Rolling throws to the sides; ahead it is only long enough.
        let ahead = at(ROLLING, [5.5, 0.0]);
        let p1 = ahead.iter().find(|item| item.cylinder == "P1").unwrap();
        assert_eq!(p1.how, Arrival::LongEnough);
    }

    #[test]
    fn one_that_lies_rolls_across_its_axis_only() {
        let beside = at(ROLLING, [7.0, 1.5]);
        assert!(
            beside
                .iter()
                .any(|item| item.cylinder == "P2" && item.how == Arrival::RollsThere)
        );
        let along = at(ROLLING, [9.0, 0.0]);
        assert!(along.iter().all(|item| item.cylinder != "P2"), "{along:?}");
    }

    #[test]
    fn nobody_reaches_beyond_its_length() {
        assert!(at("deck 10x4; running roll=25/3; stand P1 5,0", [5.0, 1.9]).is_empty());
    }

    /// By hand: a body turned about its edge in steps, and the energy of its centre on the way.
    #[test]
    fn height_and_energy_are_those_of_a_turned_body() {
        let moment = moment(ROLLING);
        let numbers = moment.numbers().unwrap();
        let body = &numbers.cylinders[0];
        let (high, edge, cg) = (body.height_m, body.base_radius_m, body.cg_height_m);
        for step in 20..=90 {
            let lean = f64::from(step).to_radians();
            let turn = |[out, up]: [f64; 2]| {
                [
                    out * lean.cos() + up * lean.sin(),
                    up * lean.cos() - out * lean.sin(),
                ]
            };
            // The edge is the origin; the axis stands `edge` behind it.
            let top = turn([-edge, high]);
            let centre = turn([-edge, cg]);
            let (height, energy) = passing(body, edge + top[0]).unwrap();
            assert!(
                (height - top[1]).abs() < 1e-9,
                "{step}: {height} {}",
                top[1]
            );
            let by_hand =
                body.mass_kg * GRAVITY * (cg.hypot(edge) - centre[1].max(body.body_radius_m));
            let expected = if centre[0] > 0.0 { by_hand } else { 0.0 };
            assert!(
                (energy - expected).abs() < 1e-6,
                "{step}: {energy} {expected}"
            );
        }
    }

    #[test]
    fn flat_on_deck_the_energy_is_the_engines() {
        let moment = moment(ROLLING);
        let numbers = moment.numbers().unwrap();
        let body = &numbers.cylinders[0];
        let fall = numbers
            .falls
            .iter()
            .find(|fall| fall.cylinder == "P1")
            .unwrap();
        let (_, energy) = passing(body, body.base_radius_m + body.height_m).unwrap();
        assert!(
            (energy / fall.energy_j - 1.0).abs() < 0.02,
            "{energy} {}",
            fall.energy_j
        );
    }
}
