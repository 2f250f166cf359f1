//! Places as zones of floor.

use super::clearest::Neighbourhood;
use super::{End, Tag, Walls};
use crate::geometry::Vec2;
use crate::geometry::tolerances::ON_EDGE_M;

/// A place where people are: the floor within a distance of a point, as far as it is connected
/// with the floor next to the point.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Zone {
    /// The point. It may lie on an edge of the floor or of an obstacle.
    pub at: Vec2,

    /// How far the zone reaches; 0 for the point alone.
    pub radius_m: f64,
}

impl Zone {
    /// How far a place reaches if nothing else is said: a person standing there covers a circle of
    /// about this radius. Common practice, no source.
    pub const RADIUS_M: f64 = 0.45;

    /// The floor within [`Self::RADIUS_M`] of a point.
    pub const fn around(at: Vec2) -> Self {
        Self {
            at,
            radius_m: Self::RADIUS_M,
        }
    }

    /// The point alone.
    pub const fn point(at: Vec2) -> Self {
        Self { at, radius_m: 0.0 }
    }
}

/// A zone whose clearest point on certain [`Walls`] has been found.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Place {
    pub(super) zone: Zone,
    pub(super) spot: Spot,
}

impl Place {
    /// The clearest point of the zone.
    pub fn at(&self) -> Vec2 {
        self.spot.at
    }

    /// The diameter of the largest disc whose centre can be in the zone.
    pub fn room_m(&self) -> f64 {
        2.0 * self.spot.distance_m
    }
}

/// Why a place is no place on certain walls.
#[derive(Copy, Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlaceError {
    /// It is not on the floor.
    #[error("the place is not on the floor")]
    OffFloor {
        /// Which end of the way.
        end: End,
    },

    /// It is inside an obstacle.
    #[error("the place is inside an obstacle (number {tag})")]
    Inside {
        /// Which end of the way.
        end: End,
        /// The obstacle.
        tag: Tag,
    },

    /// All floor next to it is covered.
    #[error("there is no free floor next to the place")]
    NoFloor {
        /// Which end of the way.
        end: End,
    },
}

/// A point of a zone.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(super) struct Spot {
    pub(super) at: Vec2,
    /// To the nearest wall.
    pub(super) distance_m: f64,
}

/// How much more room than needed is told apart where another way into a zone is looked for. More
/// would only bring more walls into view.
const ROOM_IN_VIEW_M: f64 = 0.15;

impl Walls {
    /// Finds the clearest point of a zone. `end` is only passed on to the error.
    pub fn place(&self, zone: Zone, end: End) -> Result<Place, PlaceError> {
        let floor = self.floor();
        if !floor.contains(zone.at) && floor.distance_to_edge(zone.at) > ON_EDGE_M {
            return Err(PlaceError::OffFloor { end });
        }
        if let Some(tag) = self.solid_at(zone.at, ON_EDGE_M) {
            return Err(PlaceError::Inside { end, tag });
        }
        if zone.radius_m <= 0.0 {
            let spot = self.spot(zone.at);
            return Ok(Place { zone, spot });
        }
        let clearest = match self.memory() {
            Some(memory) => memory.clearest(self, zone),
            None => Neighbourhood::new(self, zone, None).clearest(),
        };
        let spot = clearest.ok_or(PlaceError::NoFloor { end })?;
        Ok(Place { zone, spot })
    }

    /// A point of a zone that may lead to a way wider than `width_m`, because no way of that width
    /// leads from it to those in `tried` within the zone.
    pub(super) fn other_spot(&self, zone: Zone, width_m: f64, tried: &[Spot]) -> Option<Spot> {
        if zone.radius_m <= 0.0 {
            return None;
        }
        let least = 0.5 * width_m;
        let found = Neighbourhood::new(self, zone, Some(least + ROOM_IN_VIEW_M))
            .apart_from(tried, least)?;
        Some(self.spot(found.at))
    }

    fn spot(&self, at: Vec2) -> Spot {
        let distance_m = self.distance(at);
        Spot { at, distance_m }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::geometry::tolerances::CLEAREST_M;
    use crate::geometry::{Outline, Region, Shape, rectangle, vec2};

    fn floor(length: f64, width: f64) -> Walls {
        let corners = [(0., 0.), (length, 0.), (length, width), (0., width)];
        let outline = Outline::new(corners.map(|(x, y)| vec2(x, y)).to_vec()).unwrap();
        Walls::new(Region::from(outline), 0, f64::INFINITY)
    }

    #[test]
    fn a_place_that_is_none_is_refused() {
        let box_at = |x, y| rectangle(vec2(x, y), 0.3, 0.3, 0.0).unwrap();
        let bench = box_at(1.0, 1.0);
        let post = Shape::disc(vec2(3.0, 1.0), 0.1);
        let walls = floor(4.0, 2.0).with([(1, &bench), (2, &post)]);
        let place = |x, y| {
            walls
                .place(Zone::around(vec2(x, y)), End::To)
                .map(|p| p.room_m() > 0.0)
        };
        let end = End::To;
        assert_eq!(
            place(5.0, 1.0),
            Err(PlaceError::OffFloor { end }),
            "off the floor"
        );
        assert_eq!(
            place(1.1, 1.0),
            Err(PlaceError::Inside { end, tag: 1 }),
            "in the bench"
        );
        assert_eq!(
            place(3.05, 1.0),
            Err(PlaceError::Inside { end, tag: 2 }),
            "in the post"
        );
        assert_eq!(place(0.7, 1.0), Ok(true), "at the edge of the bench");
        assert_eq!(
            place(2.0, 2.0005),
            Ok(true),
            "at the edge of the floor, half a millimetre off"
        );
        // A tenth of a millimetre of floor is left between the edge and what stands there.
        let crate_to_edge = rectangle(vec2(2.0001, 1.0), 2.0, 1.1, 0.0).unwrap();
        let covered = floor(4.0, 2.0).with([(3, &crate_to_edge)]);
        let found = covered.place(Zone::around(vec2(0.0, 1.0)), end);
        assert_eq!(found, Err(PlaceError::NoFloor { end }), "no floor left");
    }

    #[test]
    fn the_clearest_point_is_found() {
        // (what, walls, place, whereabouts of the clearest point, room), by hand.
        let walls = floor(4.0, 2.0);
        let bench = rectangle(vec2(2.0, 1.75), 2.0, 0.25, 0.0).unwrap();
        let thin = Shape::line(vec2(1.0, 0.0), vec2(1.0, 2.0));
        let benched = walls.with([(1, &bench)]);
        let parted = walls.with([(1, &thin)]);
        let half = 0.45 * std::f64::consts::FRAC_1_SQRT_2;
        let (any_x, any_y) = (0.0..4.0, 0.0..2.0);
        let near = |value: f64| value - 1e-3..value + 1e-3;
        let cases = [
            // As far from the edge as the zone allows.
            ("gate", &walls, vec2(2.0, 0.0), near(2.0), near(0.45), 0.9),
            // Away from both sides of the corner.
            (
                "corner",
                &walls,
                Vec2::ZERO,
                near(half),
                near(half),
                2.0 * half,
            ),
            // Half-way between bench and edge, anywhere along it.
            ("between", &benched, vec2(2.0, 0.4), any_x, near(0.75), 1.5),
            // Not on the other side of a thin wall, though there is more room.
            ("behind", &parted, vec2(0.9, 1.0), near(0.5), any_y, 1.0),
        ];
        for (what, walls, at, x, y, room_m) in cases {
            let place = walls.place(Zone::around(at), End::From).unwrap();
            assert!(
                (place.room_m() - room_m).abs() < 4.0 * CLEAREST_M,
                "{what}: {place:?}"
            );
            assert!(
                x.contains(&place.at().x) && y.contains(&place.at().y),
                "{what}: {place:?}"
            );
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(60))]

        /// Walls that remember tell of a place what walls that do not remember tell, to the last bit, whatever is
        /// added to them near it or far from it, and in whichever order they are asked.
        #[test]
        fn what_is_remembered_is_what_is_found(
            standing in proptest::collection::vec((0.0..6.0_f64, 0.0..3.0_f64), 0..8),
            added in proptest::collection::vec((0.0..6.0_f64, 0.0..3.0_f64, any::<bool>()), 1..6),
            places in proptest::collection::vec((0.0..6.0_f64, 0.0..3.0_f64), 1..4),
        ) {
            let posts: Vec<Shape> =
                standing.iter().map(|(x, y)| Shape::disc(vec2(*x, *y), 0.12)).collect();
            let plain = floor(6.0, 3.0).with(posts.iter().map(|post| (1, post)));
            let settled = plain.settled();
            for (x, y, is_box) in added {
                let thing = if is_box {
                    rectangle(vec2(x, y), 0.2, 0.15, x).unwrap()
                } else {
                    Shape::disc(vec2(x, y), 0.1)
                };
                for (x, y) in &places {
                    let zone = Zone::around(vec2(*x, *y));
                    let [now, remembered] =
                        [&plain, &settled].map(|walls| walls.with([(2, &thing)]).place(zone, End::To));
                    prop_assert_eq!(now, remembered);
                    prop_assert_eq!(plain.place(zone, End::To), settled.place(zone, End::To));
                }
            }
        }
    }
}
