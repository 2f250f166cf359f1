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
//! and never more than when it lies on its flank. No energy is taken off for anything (method: falling). Heights are
//! above what it stands on; what a shelf adds is added to the height of the valve, and nothing to the energy by then.
//!
//! What stands in between is told beside it, and whether it stops the body ([`super::between`]).

use schemars::JsonSchema;
use serde::Serialize;

use super::Moment;
use super::between::{Between, Coming, InTheWay, in_the_way};
use super::needed::{Needed, rounded};
use crate::engine::DeckScene;
use crate::engine::numbers::{CylinderNumbers, FallNumbers, ThingSort, Way};
use crate::geometry::Elementary as _;
use crate::geometry::{Outline, Segment, vec2};
use crate::layout::{Boat, Id, Point};
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
    /// It lies, and rolls across its axis towards the spot.
    RollsThere,
    /// The motion of this part throws it over that way, and lying it may roll on to the spot.
    FallsAndRolls,
    /// It is long enough, but this part's motion throws it another way or not at all.
    LongEnough,
}

impl Arrival {
    /// As it is printed, for one that something in between stops or does not.
    pub fn words(self, is_stopped: bool) -> &'static str {
        match self {
            Self::FallsThere | Self::LongEnough if is_stopped => {
                "long enough, but stopped on its way"
            }
            Self::RollsThere | Self::FallsAndRolls if is_stopped => {
                "would roll there, but is stopped on its way"
            }
            Self::FallsThere => "the motion throws it there",
            Self::RollsThere => "lies and rolls there",
            Self::FallsAndRolls => "is thrown that way and may roll on there",
            Self::LongEnough => "long enough, thrown elsewhere or not at all",
        }
    }
}

/// A cylinder that could have reached the spot.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct ReachRow {
    /// The cylinder.
    pub cylinder: Id,

    /// How it could have come there.
    pub how: Arrival,

    /// Where it stood, in metres to the millimetre.
    pub at: Point,

    /// From its middle to the spot, in metres to the centimetre.
    pub distance_m: f64,

    /// The height of its valve over the deck as it comes to the spot, in metres to the centimetre, for one
    /// that falls.
    pub valve_height_m: Option<f64>,

    /// What it has gained by then, in whole joules, for one that falls.
    pub energy_j: Option<f64>,

    /// Its height over all, in metres to the millimetre.
    pub height_m: f64,

    /// From its axis to the edge that it tips over, in metres to the millimetre.
    pub edge_m: f64,

    /// The radius of its body, in metres to the millimetre.
    pub radius_m: f64,

    /// The height of what it stood on above the deck, in metres to the millimetre.
    pub floor_m: f64,

    /// What stands in between, the nearest first; lengths to the centimetre.
    pub between: Vec<Between>,

    /// Is it stopped short of the spot by something in between, as drawn?
    pub is_stopped: bool,

    /// The lean at which its fall is stopped, in degrees to a tenth.
    pub stopped_at_deg: Option<f64>,

    /// The motion that it needed.
    pub needed: Needed,
}

impl ReachRow {
    /// How it could have come there, and what stands in between.
    pub fn how_words(&self) -> String {
        let mut words = self.how.words(self.is_stopped).to_owned();
        for it in &self.between {
            words.push_str("; ");
            words.push_str(&it.words());
        }
        words
    }
}

/// Everybody who could have reached the spot, those whom the motion throws there first, then by distance; last those
/// that something in between stops.
pub fn reach(moment: &Moment, deck: &str, spot: Point) -> Vec<ReachRow> {
    let Some(numbers) = moment.numbers() else {
        return Vec::new();
    };
    let scene = moment.scene();
    let Some(scene) = scene.deck(deck) else {
        return Vec::new();
    };
    let asked = Asked {
        boat: &moment.plan.boat,
        scene,
        falls: &numbers.falls,
        spot,
    };
    let mut rows: Vec<ReachRow> = numbers
        .cylinders
        .iter()
        .filter(|body| body.deck == deck)
        .filter_map(|body| asked.row(body))
        .collect();
    rows.sort_by(|a, b| {
        (a.is_stopped, a.how)
            .cmp(&(b.is_stopped, b.how))
            .then(a.distance_m.total_cmp(&b.distance_m))
            .then_with(|| a.cylinder.cmp(&b.cylinder))
    });
    rows
}

/// A spot on a deck as it was.
struct Asked<'a> {
    boat: &'a Boat,
    scene: &'a DeckScene,
    falls: &'a [FallNumbers],
    spot: Point,
}

impl Asked<'_> {
    fn row(&self, body: &CylinderNumbers) -> Option<ReachRow> {
        let way = [self.spot[0] - body.at[0], self.spot[1] - body.at[1]];
        let distance_m = way[0].hypotenuse(way[1]);
        let floor_m = self.floor_m(body);
        // No more digits than are printed.
        let found = |how, passing: Option<Passing>, in_the_way: InTheWay| ReachRow {
            cylinder: body.cylinder.clone(),
            how,
            at: body.at.map(|value| rounded(value, 3)),
            distance_m: rounded(distance_m, 2),
            valve_height_m: passing.map(|it| rounded(floor_m + it.height_m, 2)),
            energy_j: passing.map(|it| rounded(it.energy_j, 0)),
            height_m: rounded(body.height_m, 3),
            edge_m: rounded(body.base_radius_m, 3),
            radius_m: rounded(body.body_radius_m, 3),
            floor_m: rounded(floor_m, 3),
            is_stopped: in_the_way.stops(),
            stopped_at_deg: (in_the_way.stopped_at_rad).map(|rad| rounded(rad.to_degrees(), 1)),
            between: in_the_way.things.into_iter().map(printed).collect(),
            needed: Needed::from(&body.limit),
        };
        if body.stance.is_upright() {
            if let Some(passing) = passing(body, distance_m) {
                let is_thrown = self.falls_of(body).any(|fall| sweeps(fall, self.spot));
                let how = if is_thrown {
                    Arrival::FallsThere
                } else {
                    Arrival::LongEnough
                };
                let coming = Coming::Falling(passing.lean_rad);
                let hindered = self.in_the_way(body, coming, body.at);
                return Some(found(how, Some(passing), hindered));
            }
            // Beyond its length: it may roll on from where it comes to lie.
            return self.falls_of(body).find_map(|fall| {
                let lies = lies_at(body, fall);
                let hindered = self.rolls_from(body, lies, fall.towards_deg)?;
                Some(found(Arrival::FallsAndRolls, None, hindered))
            });
        }
        let rolls = body.utilisation(Way::RollsAway)?;
        let across = rolls.governing.as_ref()?.towards_deg;
        let towards = way[1].arc_tangent_over(way[0]).to_degrees();
        // It rolls either way across its axis, as the boat does.
        let apart = (towards - across).rem_euclid(180.0);
        if apart.min(180.0 - apart) > STRAY_DEG || self.goes_overboard(body.at) {
            return None;
        }
        let hindered = self.in_the_way(body, Coming::Rolling, body.at);
        Some(found(Arrival::RollsThere, None, hindered))
    }

    fn falls_of<'b>(&'b self, body: &'b CylinderNumbers) -> impl Iterator<Item = &'b FallNumbers> {
        (self.falls.iter()).filter(|fall| fall.cylinder == body.cylinder)
    }

    /// What is in the way of one that has fallen, lies there and rolls on; `None` where that is not towards the spot.
    /// As wide as it is long, and straying no further than any other that rolls.
    fn rolls_from(
        &self,
        body: &CylinderNumbers,
        lies: Point,
        towards_deg: f64,
    ) -> Option<InTheWay> {
        let way = vec2(self.spot[0] - lies[0], self.spot[1] - lies[1]);
        let turned = (way.angle().to_degrees() - towards_deg + 180.0).rem_euclid(360.0) - 180.0;
        if turned.abs() > STRAY_DEG || self.goes_overboard(lies) {
            return None;
        }
        Some(self.in_the_way(body, Coming::Rolling, lies))
    }

    /// Would it leave the deck on its way to the spot?
    fn goes_overboard(&self, from: Point) -> bool {
        let way = Segment::new(vec2(from[0], from[1]), vec2(self.spot[0], self.spot[1]));
        let floor = self.scene.floor.as_ref();
        floor.is_some_and(|floor| {
            !floor.contains(way.to)
                || floor
                    .boundary_edges()
                    .any(|edge| way.crossing(&edge).is_some())
        })
    }

    fn in_the_way(&self, body: &CylinderNumbers, coming: Coming, from: Point) -> InTheWay {
        in_the_way(self.boat, self.scene, body, coming, (from, self.spot))
    }

    /// The height of what it stands on above the deck.
    fn floor_m(&self, body: &CylinderNumbers) -> f64 {
        let mut things = self.scene.things.iter();
        let own = things
            .find(|thing| thing.sort == ThingSort::Cylinder && thing.thing.id == body.cylinder);
        own.map_or(0.0, |thing| thing.from_m)
    }
}

/// Something in between with no more digits than are printed.
fn printed(it: Between) -> Between {
    Between {
        height_m: rounded(it.height_m, 2),
        off_m: rounded(it.off_m, 2),
        deep_m: rounded(it.deep_m, 2),
        ..it
    }
}

/// Where the middle of one that has fallen lies.
fn lies_at(body: &CylinderNumbers, fall: &FallNumbers) -> Point {
    let (sin, cos) = fall.towards_deg.to_radians().sine_cosine();
    let off_m = body.base_radius_m + 0.5 * body.height_m;
    [body.at[0] + off_m * cos, body.at[1] + off_m * sin]
}

fn sweeps(fall: &FallNumbers, spot: Point) -> bool {
    let corners = fall.sweep.iter().map(|[x, y]| vec2(*x, *y)).collect();
    Outline::new(corners).is_ok_and(|outline| outline.contains(vec2(spot[0], spot[1])))
}

/// A body as its top is over a spot.
#[derive(Copy, Clone, Debug, PartialEq)]
struct Passing {
    lean_rad: f64,
    /// Of the valve, above what it stood on.
    height_m: f64,
    energy_j: f64,
}

/// As it passes over a spot so far from its middle; `None` beyond its reach.
fn passing(body: &CylinderNumbers, distance_m: f64) -> Option<Passing> {
    let (high, edge) = (body.height_m, body.base_radius_m);
    let length = high.hypotenuse(edge);
    let sine = (distance_m - edge) / length;
    let quarter = std::f64::consts::FRAC_PI_2;
    // Lying flat it reaches its height beyond the edge.
    if distance_m > edge + high {
        return None;
    }
    let lean = (sine.clamp(-1.0, 1.0).arc_sine() + edge.arc_tangent_over(high)).clamp(0.0, quarter);
    let (sin, cos) = lean.sine_cosine();
    let (cg, beside) = (body.cg_height_m, body.base_radius_m);
    let at_balance = cg.hypotenuse(beside);
    // It comes to lie on its flank, which stands further out than its foot.
    let gained = (at_balance - cg * cos - beside * sin).min(at_balance - body.body_radius_m);
    let past_balance = lean > beside.arc_tangent_over(cg);
    let energy = if past_balance {
        body.mass_kg * GRAVITY * gained
    } else {
        0.0
    };
    Some(Passing {
        lean_rad: lean,
        height_m: high * cos + edge * sin,
        energy_j: energy,
    })
}

#[cfg(test)]
mod tests {
    use super::super::between::Hinders;
    use super::*;
    use crate::checks::fixture;

    fn moment(text: &str) -> Moment {
        Moment::of(&fixture::plan(text).unwrap(), None, None).unwrap()
    }

    fn at(text: &str, spot: Point) -> Vec<ReachRow> {
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

    /// Beyond its length nobody falls, but one that the motion throws that way may roll on; ahead it does neither.
    #[test]
    fn beyond_its_length_it_may_only_roll_on() {
        let text = "deck 10x4; running roll=25/3; stand P1 5,0";
        let found = at(text, [5.0, 1.9]);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].how, Arrival::FallsAndRolls);
        assert_eq!((found[0].valve_height_m, found[0].energy_j), (None, None));
        assert!(at(text, [6.5, 0.0]).is_empty());
        // Ahead it is long enough, though no roll throws it there.
        let ahead = at(text, [5.4, 0.0]);
        assert_eq!(ahead[0].how, Arrival::LongEnough);
    }

    #[test]
    fn what_rolls_does_not_come_back_from_overboard() {
        let text = "deck 10x4; running roll=25/3; lie P2 7,0 towards=0";
        assert_eq!(at(text, [7.0, 1.9]).len(), 1);
        assert!(at(text, [7.0, 2.1]).is_empty());
    }

    /// What does each thing in between do, for one that stands at 5,0, and a spot 0.6 m to port of it?
    fn between(things: &str) -> (Vec<(String, Hinders)>, bool) {
        let text = format!("deck 10x4; running roll=25/3; {things}; stand P1 5,0");
        let found = at(&text, [5.0, 0.6]);
        let p1 = found.iter().find(|it| it.cylinder == "P1").unwrap();
        let told = p1.between.iter().map(|it| (it.thing.clone(), it.hinders));
        (told.collect(), p1.is_stopped)
    }

    #[test]
    fn a_bench_stops_a_fall_and_a_sill_does_not() {
        let bench = "fixture B1 bench 4..6,0.2..0.4 h=0.45";
        assert_eq!(
            between(bench),
            (vec![("B1".to_owned(), Hinders::StopsShort)], true)
        );
        let sill = "fixture B1 sill 4..6,0.2..0.3 h=0.05";
        assert_eq!(
            between(sill),
            (vec![("B1".to_owned(), Hinders::PassedOver)], false)
        );
        // Close to the spot a bench is reached when the valve is over the spot already.
        let close = "fixture B1 bench 4..6,0.57..0.8 h=0.2";
        assert!(!between(close).1);
        // In half of the way it may turn the body aside.
        let half = "fixture B1 bench 4..5,0.2..0.4 h=0.45";
        assert_eq!(
            between(half),
            (vec![("B1".to_owned(), Hinders::InPart)], false)
        );
        // What stands behind what stops it is not on its way any more.
        let two = "fixture B1 bench 4..6,0.2..0.3 h=0.45; fixture B2 bench 4..6,0.45..0.55 h=0.45";
        assert_eq!(
            between(two),
            (vec![("B1".to_owned(), Hinders::StopsShort)], true)
        );
        // Beyond the spot it is not in between.
        assert_eq!(
            between("fixture B1 bench 4..6,0.7..0.9 h=0.45"),
            (vec![], false)
        );
        // A wheelhouse is a wall: the top runs into it.
        let wall = "fixture W1 wheelhouse 4..6,0.3..1.5 h=2";
        assert_eq!(
            between(wall),
            (vec![("W1".to_owned(), Hinders::StopsShort)], true)
        );
    }

    #[test]
    fn what_is_loose_or_gives_way_stops_nothing() {
        for thing in [
            "gear G crate 5,0.3 size=0.4x0.3 h=0.3",
            "stand P2 5,0.3",
            "fixture G glass 4..6,0.3..0.32 h=0.9",
        ] {
            let (told, stopped) = between(thing);
            assert!(!stopped && told.len() == 1, "{thing}: {told:?}");
            assert_eq!(told[0].1, Hinders::Loose, "{thing}");
        }
        let (told, _) = between("person Ann crew 5,0.3");
        assert_eq!(told, [], "nobody is told as a thing");
    }

    /// From a shelf as high as the bench before it, it falls over the bench; and its valve is that much higher.
    #[test]
    fn a_shelf_lifts_it_over() {
        let text = |shelf: &str| {
            format!(
                "deck 10x4; running roll=25/3; fixture B1 bench 4..6,0.9..1.2 h=0.45
                rack R1 bench 5,1.5 columns=1 pitch=0.25 edge=0.3 {shelf} strength=0.1; slot P1 R1/1"
            )
        };
        let p1 = |shelf: &str| {
            let found = at(&text(shelf), [5.0, 0.95]);
            found.into_iter().find(|it| it.cylinder == "P1").unwrap()
        };
        let (low, high) = (p1(""), p1("shelf=0.4"));
        assert!(low.is_stopped && !high.is_stopped, "{low:?} {high:?}");
        let lifted = high.valve_height_m.unwrap() - low.valve_height_m.unwrap();
        assert!((lifted - (high.floor_m - low.floor_m)).abs() < 1e-9);
        assert!(high.floor_m - low.floor_m > 0.3, "{high:?}");
        // Its own rack is not in between.
        assert!(high.between.iter().all(|it| it.thing != "R1"), "{high:?}");
    }

    #[test]
    fn what_rolls_is_stopped_by_what_is_as_high_as_its_axis() {
        let rolls = |thing: &str| {
            let text = format!("deck 10x4; running roll=25/3; lie P2 7,0 towards=0; {thing}");
            let found = at(&text, [7.0, 1.5]);
            let p2 = found.into_iter().find(|it| it.cylinder == "P2").unwrap();
            (p2.is_stopped, p2.between.first().map(|it| it.hinders))
        };
        assert_eq!(rolls("stand P9 1,1"), (false, None));
        let bench = rolls("fixture B1 bench 5..9,0.8..1 h=0.45");
        assert_eq!(bench, (true, Some(Hinders::StopsShort)));
        let sill = rolls("fixture B1 sill 5..9,0.8..1 h=0.05");
        assert_eq!(sill, (false, Some(Hinders::PassedOver)));
        // Higher than the axis of a cylinder of 18 cm, and lower than all of it.
        let coaming = rolls("fixture B1 sill 5..9,0.8..1 h=0.12");
        assert_eq!(coaming, (true, Some(Hinders::StopsShort)));
    }

    /// Those that are stopped stand last, whatever the motion does.
    #[test]
    fn those_that_are_stopped_come_last() {
        let text = "deck 10x4; running roll=25/3; fixture B1 bench 4.7..5.3,0.2..0.35 h=0.45
            stand P1 5,0; stand P2 4.5,0.6";
        let found = at(text, [5.0, 0.6]);
        let order: Vec<(&str, bool)> = (found.iter())
            .map(|it| (it.cylinder.as_str(), it.is_stopped))
            .collect();
        assert_eq!(order, [("P2", false), ("P1", true)]);
    }

    /// By hand: a body turned about its edge in steps, and the energy of its centre on the way.
    #[test]
    fn height_and_energy_are_those_of_a_turned_body() {
        let moment = moment(ROLLING);
        let numbers = moment.numbers().unwrap();
        let body = &numbers.cylinders[0];
        let (high, edge, cg) = (body.height_m, body.base_radius_m, body.cg_height_m);
        for step in 4..=90 {
            let lean = f64::from(step).to_radians();
            let turn = |[out, up]: [f64; 2]| {
                [
                    out * lean.cosine() + up * lean.sine(),
                    up * lean.cosine() - out * lean.sine(),
                ]
            };
            // The edge is the origin; the axis stands `edge` behind it.
            let top = turn([-edge, high]);
            let centre = turn([-edge, cg]);
            let passed = passing(body, edge + top[0]).unwrap();
            let (height, energy) = (passed.height_m, passed.energy_j);
            assert!((passed.lean_rad - lean).abs() < 1e-9);
            assert!(
                (height - top[1]).abs() < 1e-9,
                "{step}: {height} {}",
                top[1]
            );
            let by_hand =
                body.mass_kg * GRAVITY * (cg.hypotenuse(edge) - centre[1].max(body.body_radius_m));
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
        let flat = passing(body, body.base_radius_m + body.height_m).unwrap();
        let energy = flat.energy_j;
        assert!(
            (energy / fall.energy_j - 1.0).abs() < 0.02,
            "{energy} {}",
            fall.energy_j
        );
    }
}
