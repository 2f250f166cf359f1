//! Where a thing that is being moved comes to rest by itself: in line with others, on the centreline,
//! at the edges of the deck and of fixtures, at equal distances in a row; else on whole centimetres.

use super::super::here::{Here, cm};
use crate::engine::numbers::ThingSort;
use crate::geometry::{Bounds, Vec2, vec2};
use crate::layout::{ThingKind, ThingRef};

/// A line that shows why something came to rest there, in metres.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(crate) struct Guide {
    /// One end.
    pub(crate) from: Vec2,
    /// The other end.
    pub(crate) to: Vec2,
}

/// What a snap came to.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Snapped {
    /// The shift that was made of the one asked for.
    pub(crate) by: Vec2,
    /// Why.
    pub(crate) guides: Vec<Guide>,
}

/// A place to come to rest along one axis.
#[derive(Copy, Clone, Debug)]
struct Stop {
    /// The coordinate, in metres.
    value: f64,
    /// Which thing's, to draw a guide to.
    of: Vec2,
}

/// The shift of a thing with these bounds, of which this point goes on whole centimetres where nothing
/// else is near. `held` is what is being moved and so is nothing to come to rest at.
pub(crate) fn snap(
    here: &Here<'_>,
    held: &[ThingRef],
    bounds: &Bounds,
    anchor: Vec2,
    by: Vec2,
    reach_m: f64,
) -> Snapped {
    let moved = Bounds {
        min: bounds.min + by,
        max: bounds.max + by,
    };
    let anchor = anchor + by;
    let others = others(here, held);
    let (x_shift, x_stop) = along(
        &stops_x(here, &others, anchor),
        moved.min.x,
        anchor.x,
        moved.max.x,
        reach_m,
    );
    let (y_shift, y_stop) = along(
        &stops_y(here, &others, anchor),
        moved.min.y,
        anchor.y,
        moved.max.y,
        reach_m,
    );
    let rest = anchor + vec2(x_shift, y_shift);
    let mut guides = Vec::new();
    if let Some(stop) = x_stop {
        guides.push(Guide {
            from: vec2(stop.value, stop.of.y),
            to: vec2(stop.value, rest.y),
        });
    }
    if let Some(stop) = y_stop {
        guides.push(Guide {
            from: vec2(stop.of.x, stop.value),
            to: vec2(rest.x, stop.value),
        });
    }
    Snapped {
        by: by + vec2(x_shift, y_shift),
        guides,
    }
}

/// The nearest stop of either edge or the middle; else whole centimetres of the middle.
fn along(stops: &[Stop], low: f64, middle: f64, high: f64, reach_m: f64) -> (f64, Option<Stop>) {
    let best = stops
        .iter()
        .flat_map(|stop| [low, middle, high].map(|edge| (stop.value - edge, *stop)))
        .filter(|(shift, _)| shift.abs() <= reach_m)
        .min_by(|a, b| a.0.abs().total_cmp(&b.0.abs()));
    match best {
        Some((shift, stop)) => (shift, Some(stop)),
        None => (cm(middle) - middle, None),
    }
}

/// What may be come to rest at: everything on this deck that is not held.
fn others(here: &Here<'_>, held: &[ThingRef]) -> Vec<(ThingSort, Bounds)> {
    let racks: Vec<&str> = held
        .iter()
        .filter(|what| what.kind == ThingKind::Rack)
        .map(|what| what.id.as_str())
        .collect();
    let things = here.deck_scene().map_or(&[][..], |deck| &deck.things);
    things
        .iter()
        .filter(|thing| !held.contains(&thing.thing))
        .filter(|thing| {
            let inside = thing.inside.as_deref();
            !inside.is_some_and(|rack| racks.contains(&rack))
        })
        .map(|thing| (thing.sort, thing.shape.bounds()))
        .collect()
}

fn stops_x(here: &Here<'_>, others: &[(ThingSort, Bounds)], anchor: Vec2) -> Vec<Stop> {
    let mut stops: Vec<Stop> = others
        .iter()
        .flat_map(|(sort, bounds)| {
            stops_of(*sort, bounds.min.x, bounds.center().x, bounds.max.x)
                .map(|value| Stop {
                    value,
                    of: bounds.center(),
                })
                .collect::<Vec<_>>()
        })
        .collect();
    stops.extend(equal_spaces(others, anchor, |v| v.x, |v| v.y));
    if let Some(floor) = here.deck_scene().and_then(|deck| deck.floor.as_ref()) {
        let bounds = floor.bounds();
        stops.push(Stop {
            value: bounds.min.x,
            of: bounds.center(),
        });
    }
    stops
}

fn stops_y(here: &Here<'_>, others: &[(ThingSort, Bounds)], anchor: Vec2) -> Vec<Stop> {
    let mut stops: Vec<Stop> = others
        .iter()
        .flat_map(|(sort, bounds)| {
            stops_of(*sort, bounds.min.y, bounds.center().y, bounds.max.y)
                .map(|value| Stop {
                    value,
                    of: bounds.center(),
                })
                .collect::<Vec<_>>()
        })
        .collect();
    stops.extend(equal_spaces(others, anchor, |v| v.y, |v| v.x));
    // The centreline.
    let middle = here
        .deck_scene()
        .and_then(|deck| deck.floor.as_ref())
        .map_or(Vec2::ZERO, |floor| floor.bounds().center());
    stops.push(Stop {
        value: 0.0,
        of: vec2(middle.x, 0.0),
    });
    stops
}

/// Round things are come to rest at by their middles; straight ones by their edges too.
fn stops_of(sort: ThingSort, low: f64, middle: f64, high: f64) -> impl Iterator<Item = f64> {
    let edges = matches!(sort, ThingSort::Fixture | ThingSort::Rack | ThingSort::Gear);
    std::iter::once(middle).chain(edges.then_some([low, high]).into_iter().flatten())
}

/// Where a row of cylinders would go on, or be filled up, at the distance that it has.
fn equal_spaces(
    others: &[(ThingSort, Bounds)],
    anchor: Vec2,
    along: impl Fn(Vec2) -> f64,
    across: impl Fn(Vec2) -> f64,
) -> Vec<Stop> {
    /// Farther ones are no longer seen as a row, in metres.
    const ROW_M: f64 = 1.0;
    /// In a row, they stand in line as well as this, in metres.
    const IN_LINE_M: f64 = 0.05;
    let mut row: Vec<Vec2> = others
        .iter()
        .filter(|(sort, _)| *sort == ThingSort::Cylinder)
        .map(|(_, bounds)| bounds.center())
        .filter(|center| {
            (across(*center) - across(anchor)).abs() <= IN_LINE_M
                && (along(*center) - along(anchor)).abs() <= 2.0 * ROW_M
        })
        .collect();
    row.sort_by(|a, b| along(*a).total_cmp(&along(*b)));
    row.windows(2)
        .filter_map(|pair| {
            let (low, high) = (along(pair[0]), along(pair[1]));
            let space = high - low;
            let near = space <= ROW_M && space > 1e-6;
            near.then_some([
                Stop {
                    value: low - space,
                    of: pair[0],
                },
                Stop {
                    value: high + space,
                    of: pair[1],
                },
                Stop {
                    value: 0.5 * (low + high),
                    of: pair[0],
                },
            ])
        })
        .flatten()
        .collect()
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::super::standing;
    use super::*;
    use crate::app::live::Live;
    use crate::layout::{Cylinder, Plan};

    fn row() -> Plan {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        for (id, x, y) in [("A", 2.0, 0.7), ("B", 2.34, 0.7)] {
            let cylinder = Cylinder::new(id, "al-80cf", standing("main", [x, y]));
            plan.trips[0].cylinders.push(cylinder);
        }
        plan
    }

    fn snapped(anchor: Vec2, by: Vec2) -> Snapped {
        let plan = Arc::new(row());
        let mut live = Live::default();
        live.refresh(&plan, "trip-1");
        let here = live.here(&plan, "trip-1", 0, "main").unwrap();
        let bounds = Bounds::of([anchor]).grown(0.09);
        snap(&here, &[], &bounds, anchor, by, 0.04)
    }

    #[test]
    fn a_row_goes_on_at_its_own_distance() {
        let start = vec2(4.0, 0.7);
        let result = snapped(start, vec2(-1.30, 0.01));
        let rest = start + result.by;
        assert!((rest.x - 2.68).abs() < 1e-9, "34 cm beyond B: {rest:?}");
        assert!((rest.y - 0.7).abs() < 1e-9, "in line: {rest:?}");
        assert_eq!(result.guides.len(), 2);
    }

    #[test]
    fn the_centreline_draws() {
        let result = snapped(vec2(6.0, -1.0), vec2(0.0, 0.97));
        assert!((result.by.y - 1.0).abs() < 1e-9, "{result:?}");
    }

    #[test]
    fn with_nothing_near_it_is_whole_centimetres() {
        let start = vec2(6.0, -1.0);
        let result = snapped(start, vec2(0.333, -0.222));
        let rest = start + result.by;
        assert!(
            (rest.x - 6.33).abs() < 1e-9 && (rest.y + 1.22).abs() < 1e-9,
            "{rest:?}"
        );
        assert!(result.guides.is_empty());
    }
}
