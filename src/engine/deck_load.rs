//! How much of a deck the stowage takes, and how heavily it loads it at rest.

use std::collections::BTreeMap;

use super::numbers::{CylinderNumbers, DeckNumbers, Stance, ThingSort};
use super::walkway::lies_within;
use super::{DeckScene, Scene, SceneThing};
use crate::geometry::{Shape, Vec2, clusters, hull_area, separation, union_area};
use crate::layout::{Boat, Id};

/// The least floor over which a load is spread: a square of half a metre, about what a plank or
/// plate shares between the beams of a small boat. Without it one heavy cylinder on its foot would
/// count like a deck full of them. Common practice, no source.
const PATCH_M2: f64 = 0.25;

/// Cylinders nearer to each other than this load the deck together. Common practice, no source.
const GROUP_GAP_M: f64 = 0.1;

/// A line round a group is drawn with chords that lose less than a thousandth of a round area.
const STEP_RAD: f64 = 1.0 / 30.0;

/// Mass, area and load of each deck, in the order of their names.
///
/// `cylinders` is in the order of names. What divers wear is not counted; what hangs takes no floor.
pub(super) fn deck_loads(
    boat: &Boat,
    scene: &Scene,
    cylinders: &[CylinderNumbers],
) -> Vec<DeckNumbers> {
    let mut all: Vec<_> = (scene.decks.iter())
        .map(|deck| deck_load(boat, deck, cylinders))
        .collect();
    all.sort_by(|a, b| a.deck.cmp(&b.deck));
    all
}

/// A rack with what is in it, or one cylinder by itself.
#[derive(Clone, Debug)]
struct Load<'a> {
    thing: &'a SceneThing,
    mass_kg: f64,
}

fn deck_load(boat: &Boat, deck: &DeckScene, cylinders: &[CylinderNumbers]) -> DeckNumbers {
    let numbers = |id: &str| {
        (cylinders.binary_search_by(|known| known.cylinder.as_str().cmp(id)))
            .ok()
            .map(|found| &cylinders[found])
    };
    let mut racks: BTreeMap<&str, Load<'_>> = BTreeMap::new();
    for thing in deck.things.iter().filter(|t| t.sort == ThingSort::Rack) {
        let id = thing.thing.id.as_str();
        let mass_kg = boat.rack(id).map_or(0.0, |rack| rack.mass_kg);
        racks.insert(id, Load { thing, mass_kg });
    }
    let mut floor: Vec<&Shape> = racks.values().map(|rack| &rack.thing.shape).collect();
    let mut by_themselves = Vec::new();
    let mut stowed_mass_kg: f64 = racks.values().map(|rack| rack.mass_kg).sum();
    for thing in (deck.things.iter()).filter(|t| t.sort == ThingSort::Cylinder) {
        let Some(cylinder) = numbers(&thing.thing.id) else {
            continue;
        };
        if cylinder.stance == Stance::OnDiver {
            continue;
        }
        stowed_mass_kg += cylinder.mass_kg;
        let rack = (thing.inside.as_deref()).and_then(|rack| racks.get_mut(rack));
        if let Some(rack) = rack {
            rack.mass_kg += cylinder.mass_kg;
            if lies_within(&thing.shape, &rack.thing.shape) {
                continue;
            }
        } else if cylinder.stance != Stance::Hanging {
            by_themselves.push(Load {
                thing,
                mass_kg: cylinder.mass_kg,
            });
        }
        if cylinder.stance != Stance::Hanging {
            floor.push(&thing.shape);
        }
    }
    let of_rack = |rack: Load<'_>| {
        let area_m2 = rack.thing.shape.area().max(PATCH_M2);
        (rack.mass_kg / area_m2, rack.thing.thing.id.clone())
    };
    let greatest = (racks.into_values().map(of_rack))
        .chain(group_loads(&by_themselves))
        .max_by(|a, b| a.0.total_cmp(&b.0).then_with(|| b.1.cmp(&a.1)));
    let (greatest_load_kg_per_m2, greatest_load_of) =
        greatest.map_or((0.0, None), |(load, of)| (load, Some(of)));
    DeckNumbers {
        deck: deck.deck.clone(),
        area_m2: deck
            .floor
            .as_ref()
            .map_or(0.0, crate::geometry::Region::area),
        stowed_area_m2: union_area(&floor),
        stowed_mass_kg,
        greatest_load_kg_per_m2,
        greatest_load_of,
        load_limit_kg_per_m2: (boat.deck(&deck.deck))
            .and_then(|deck| deck.load_limit_kg_per_m2.value()),
    }
}

/// The load of each group of cylinders that stand or lie close together, spread over the floor that a
/// line drawn tight round the group encloses, with the first of their names.
fn group_loads(cylinders: &[Load<'_>]) -> Vec<(f64, Id)> {
    let shapes: Vec<&Shape> = cylinders.iter().map(|load| &load.thing.shape).collect();
    let near = |a: &Shape, b: &Shape| separation(a, b).gap_m <= GROUP_GAP_M;
    let groups = clusters(&shapes, GROUP_GAP_M, near);
    (groups.into_iter())
        .map(|group| {
            let mass_kg: f64 = group.iter().map(|i| cylinders[*i].mass_kg).sum();
            let first = (group.iter().map(|i| &cylinders[*i].thing.thing.id)).min();
            let round = (group.iter().map(|i| shapes[*i].bounds())).reduce(|a, b| a.union(&b));
            let size = round.map_or(Vec2::ZERO, |bounds| bounds.size());
            // A line round a small group encloses no more than its bounds.
            let area_m2 = if size.x * size.y <= PATCH_M2 {
                PATCH_M2
            } else {
                let corners = (group.iter())
                    .flat_map(|i| shapes[*i].to_polygon(STEP_RAD).unwrap_or_default())
                    .collect();
                hull_area(corners).max(PATCH_M2)
            };
            let load = mass_kg / area_m2;
            (load, first.cloned().unwrap_or_default())
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use proptest::prelude::*;

    use super::*;
    use crate::engine::numbers::LimitNumbers;
    use crate::engine::testing::{cases, cylinder, mirrored, rect, scene, thing};
    use crate::layout::{Fixings, Known, Rack, RackKind};

    fn numbers(id: &str, mass_kg: f64, stance: Stance) -> CylinderNumbers {
        CylinderNumbers {
            cylinder: id.into(),
            deck: "main".into(),
            at: [0.0, 0.0],
            stance,
            mass_kg,
            cg_height_m: 0.3,
            cg_above_waterline_m: 0.9,
            base_radius_m: 0.1,
            height_m: 0.65,
            body_radius_m: 0.1,
            straight_shell_m: [0.1, 0.6],
            height_to_base_ratio: None,
            static_tip_angle_deg: None,
            friction: None,
            friction_source: String::new(),
            utilisations: Vec::new(),
            needs: Vec::new(),
            rack: None,
            lashings: Vec::new(),
            backed_by: Vec::new(),
            backing_pushes: Vec::new(),
            row: Vec::new(),
            tips_by_stiffness: None,
            stiffest_lashing: None,
            hand_force_n: None,
            landing_load_n: 0.0,
            limit: LimitNumbers {
                share: None,
                roll_deg: None,
                roll_at_short_period_deg: None,
                goes_without_roll: false,
                goes_at_rest: false,
                way: None,
                if_unknowns_hold: false,
            },
        }
    }

    fn rack(mass_kg: f64) -> Rack {
        Rack {
            id: "R".into(),
            name: None,
            deck: "main".into(),
            kind: RackKind::Sockets,
            at: [2.0, 0.0],
            turn_deg: 0.0,
            columns: 4,
            rows: 1,
            pitch_m: 0.25,
            row_pitch_m: None,
            slot_names: Vec::new(),
            bore_m: None,
            edge_height_m: 0.4,
            shelf_height_m: 0.0,
            surface: None,
            foot_held: false,
            slot_strength_kn: Known::NotKnown,
            hold_down_kn: None,
            fronts: Vec::new(),
            saddle_half_angle_deg: None,
            size_m: None,
            own_floor: false,
            mass_kg,
            fixings: Fixings::Unfixed,
            load_limit_kg: None,
        }
    }

    #[test]
    fn a_rack_with_what_is_in_it() {
        let mut boat = Boat::new("Test", 6.0, 3.0);
        boat.racks = vec![rack(12.0)];
        let mut inside = cylinder("A", 1.8, 0.0);
        inside.inside = Some("R".into());
        let mut proud = cylinder("B", 2.2, 0.2);
        proud.inside = Some("R".into());
        let things = vec![
            thing(ThingSort::Rack, "R", rect(1.5, -0.2, 2.5, 0.2), 0.4),
            inside,
            proud,
            cylinder("C", 4.0, 0.0),
            cylinder("D", 5.0, 0.0),
        ];
        let cylinders = [
            numbers("A", 18.0, Stance::InRack),
            numbers("B", 20.0, Stance::InRack),
            numbers("C", 15.0, Stance::StandsFree),
            numbers("D", 15.0, Stance::OnDiver),
        ];
        let load = deck_loads(&boat, &scene(things), &cylinders).remove(0);
        assert!((load.area_m2 - 18.0).abs() < 1e-9, "6 x 3 m");
        assert!((load.stowed_mass_kg - 65.0).abs() < 1e-9, "{load:?}");
        // The rack, half of the cylinder that sticks out of it, and one by itself.
        let expected = 0.4 + 0.5 * PI * 0.01 + PI * 0.01;
        assert!((load.stowed_area_m2 - expected).abs() < 1e-4, "{load:?}");
        let of_rack = 50.0 / 0.4;
        assert!((load.greatest_load_kg_per_m2 - of_rack).abs() < 1e-9);
        assert_eq!(load.greatest_load_of.as_deref(), Some("R"));
        assert_eq!(load.load_limit_kg_per_m2, None, "not known");
    }

    #[test]
    fn close_cylinders_load_the_deck_together() {
        let boat = Boat::new("Test", 6.0, 3.0);
        // A row of ten at 0.25 m; the gap between two is 0.05 m. And one far off.
        let mut things: Vec<_> = (0..10)
            .map(|i| cylinder(&format!("A{i}"), 1.0 + 0.25 * f64::from(i), 0.0))
            .collect();
        things.push(cylinder("B", 4.5, 1.0));
        let mut cylinders: Vec<_> = (0..10)
            .map(|i| numbers(&format!("A{i}"), 70.0, Stance::StandsFree))
            .collect();
        cylinders.push(numbers("B", 80.0, Stance::StandsFree));
        let load = deck_loads(&boat, &scene(things), &cylinders).remove(0);
        // Round the row: 2.25 m by 0.2 m, and the two half circles at its ends.
        let area = 2.25 * 0.2 + PI * 0.01;
        let error = load.greatest_load_kg_per_m2 - 700.0 / area;
        assert!(error.abs() < 1e-3 * 700.0 / area, "{load:?}");
        assert_eq!(load.greatest_load_of.as_deref(), Some("A0"));
        // One by itself is spread over a quarter of a square metre.
        let alone = vec![cylinder("B", 4.5, 1.0)];
        let load = deck_loads(&boat, &scene(alone), &cylinders).remove(0);
        assert!((load.greatest_load_kg_per_m2 - 320.0).abs() < 1e-9);
        let empty = deck_loads(&boat, &scene(vec![]), &[]).remove(0);
        assert_eq!(empty.greatest_load_of, None, "nothing is stowed");
    }

    proptest! {
        #![proptest_config(cases(40))]

        #[test]
        fn neither_order_nor_mirror_matters(places in prop::collection::vec((5..55i32, -10..10i32), 0..20)) {
            let boat = Boat::new("Test", 6.0, 3.0);
            let things: Vec<_> = (places.iter().enumerate())
                .map(|(i, (x, y))| cylinder(&format!("C{i:02}"), 0.1 * f64::from(*x), 0.1 * f64::from(*y)))
                .collect();
            let cylinders: Vec<_> = (0..places.len())
                .map(|i| numbers(&format!("C{i:02}"), 15.0 + i as f64, Stance::StandsFree))
                .collect();
            let whole = scene(things);
            let one = deck_loads(&boat, &whole, &cylinders).remove(0);
            let other = deck_loads(&boat, &mirrored(&whole), &cylinders).remove(0);
            prop_assert!((one.stowed_area_m2 - other.stowed_area_m2).abs() < 1e-3);
            prop_assert!((one.greatest_load_kg_per_m2 - other.greatest_load_kg_per_m2).abs() < 0.5);
            prop_assert_eq!(one.greatest_load_of, other.greatest_load_of);
            prop_assert!((one.stowed_mass_kg - cylinders.iter().map(|c| c.mass_kg).sum::<f64>()).abs() < 1e-9);
        }
    }
}
