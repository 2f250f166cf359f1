//! What the tests of this layer share: things on a deck without a plan round them.

use proptest::test_runner::{Config, RngSeed};

use super::numbers::ThingSort;
use super::{DeckScene, Scene, SceneThing};
use crate::geometry::{Outline, Region, Shape, vec2};
use crate::layout::{ThingKind, ThingRef};

/// So many random cases, the same ones in every run.
pub(super) fn cases(count: u32) -> Config {
    Config {
        cases: count,
        rng_seed: RngSeed::Fixed(20_250_211),
        failure_persistence: None,
        ..Config::default()
    }
}

/// Something from the deck up to a height.
pub(super) fn thing(sort: ThingSort, id: &str, shape: Shape, to_m: f64) -> SceneThing {
    let kind = match sort {
        ThingSort::Fixture => ThingKind::Fixture,
        ThingSort::Rack => ThingKind::Rack,
        ThingSort::Gear => ThingKind::Gear,
        ThingSort::Person => ThingKind::Person,
        ThingSort::Lashing => ThingKind::Lashing,
        ThingSort::Cylinder | ThingSort::Edge | ThingSort::Place => ThingKind::Cylinder,
    };
    SceneThing {
        sort,
        thing: ThingRef {
            kind,
            id: id.to_owned(),
        },
        name: id.to_owned(),
        shape,
        from_m: 0.0,
        to_m,
        of_boat: sort == ThingSort::Fixture,
        walked_on: false,
        inside: None,
    }
}

/// A standing cylinder of 0.1 m radius and 0.65 m height.
pub(super) fn cylinder(id: &str, x: f64, y: f64) -> SceneThing {
    thing(ThingSort::Cylinder, id, Shape::disc(vec2(x, y), 0.1), 0.65)
}

/// An upright rectangle from corner to corner.
pub(super) fn rect(x1: f64, y1: f64, x2: f64, y2: f64) -> Shape {
    let corners = vec![vec2(x1, y1), vec2(x2, y1), vec2(x2, y2), vec2(x1, y2)];
    Shape::Polygon(Outline::new(corners).unwrap())
}

/// A rectangular main deck with things on it.
pub(super) fn deck(corner: [f64; 4], mut things: Vec<SceneThing>) -> DeckScene {
    let [x1, y1, x2, y2] = corner;
    let Shape::Polygon(outline) = rect(x1, y1, x2, y2) else {
        unreachable!("a rectangle is a polygon");
    };
    things.sort_by(|a, b| (a.sort, &a.thing.id).cmp(&(b.sort, &b.thing.id)));
    DeckScene {
        deck: "main".to_owned(),
        name: "Main deck".to_owned(),
        height_m: 0.6,
        floor: Some(Region::from(outline)),
        things,
        near: Default::default(),
    }
}

/// One deck of 6 x 3 m, the origin in the middle of its after edge.
pub(super) fn scene(things: Vec<SceneThing>) -> Scene {
    Scene {
        decks: vec![deck([0.0, -1.5, 6.0, 1.5], things)],
    }
}

/// The image of a scene on the other side of the centreline.
pub(super) fn mirrored(scene: &Scene) -> Scene {
    let mut scene = scene.clone();
    for deck in &mut scene.decks {
        deck.floor = deck.floor.as_ref().map(Region::mirrored_y);
        for thing in &mut deck.things {
            thing.shape = thing.shape.mirrored_y();
        }
    }
    scene
}
