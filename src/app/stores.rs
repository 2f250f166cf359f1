//! What the stores hold: everything that can be placed, and the thing that each makes.

use super::here::{Here, to_cm};
use super::moving::put;
use super::naming;
use super::tools::{LineWhat, dropped};
use super::words::stores as words;
use crate::catalogue::Catalogue;
use crate::geometry::Vec2;
use crate::layout::{
    Cylinder, Edit, Fixings, Fixture, FixtureKind, Front, FrontKind, Gear, GearKind, GearShape,
    Known, LashingPoint, Person, Place, PlaceKind, Placing, Point, PointKind, Posture, Rack,
    RackKind, Role, Shelf, Surface, Thing, ThingKind, ThingRef,
};

/// Something in the stores.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum StoreItem {
    /// A cylinder of a kind, by its name in the catalogue or among the trip's own.
    Cylinder(String),
    /// A rack.
    Rack(RackKind),
    /// A lashing point.
    Point(PointKind),
    /// A strap, cord, rope or chain of a material.
    Lashing(String),
    /// Loose gear.
    Gear(GearKind),
    /// Somebody.
    Person(Role),
    /// A place.
    Place(PlaceKind),
    /// Something built onto the deck.
    Fixture(FixtureKind),
    /// A walkway.
    Walkway,
}

/// A shelf of the stores.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Section {
    /// Cylinders by kind.
    Cylinders,
    /// Racks.
    Racks,
    /// Lashing points.
    Points,
    /// Straps and the like.
    Lashings,
    /// Loose gear.
    Gear,
    /// People.
    People,
    /// Places and walkways.
    Ways,
    /// What is built onto the deck.
    Fixtures,
}

impl Section {
    /// In the order in which they are shown.
    pub(crate) const ALL: [Self; 8] = [
        Self::Cylinders,
        Self::Racks,
        Self::Points,
        Self::Lashings,
        Self::Ways,
        Self::Fixtures,
        Self::Gear,
        Self::People,
    ];

    /// What is on this shelf.
    pub(crate) fn items(self, own_kinds: &[String]) -> Vec<StoreItem> {
        match self {
            Self::Cylinders => {
                let catalogue = Catalogue::built_in();
                let kinds = catalogue.kinds().iter().map(|kind| kind.id.clone());
                let twins = catalogue.twins().iter().map(|twin| twin.id.clone());
                let own = own_kinds.iter().cloned();
                let rest: Vec<String> = kinds.chain(twins).collect();
                let own = own.filter(|id| !rest.contains(id)).collect::<Vec<_>>();
                own.into_iter()
                    .chain(rest)
                    .map(StoreItem::Cylinder)
                    .collect()
            }
            Self::Racks => RACKS.map(StoreItem::Rack).to_vec(),
            Self::Points => POINTS.map(StoreItem::Point).to_vec(),
            Self::Lashings => {
                let materials = Catalogue::built_in().materials().iter();
                materials
                    .map(|material| StoreItem::Lashing(material.id.clone()))
                    .collect()
            }
            Self::Gear => GEAR.map(StoreItem::Gear).to_vec(),
            Self::People => ROLES.map(StoreItem::Person).to_vec(),
            Self::Ways => std::iter::once(StoreItem::Walkway)
                .chain(PLACES.map(StoreItem::Place))
                .collect(),
            Self::Fixtures => FIXTURES.map(StoreItem::Fixture).to_vec(),
        }
    }
}

/// All kinds of rack, in the order in which they are shown.
pub(crate) const RACKS: [RackKind; 5] = [
    RackKind::BenchRow,
    RackKind::Sockets,
    RackKind::Cradles,
    RackKind::Crate,
    RackKind::Net,
];

/// All kinds of lashing point.
pub(crate) const POINTS: [PointKind; 9] = [
    PointKind::PadEye,
    PointKind::EyeBolt,
    PointKind::Ring,
    PointKind::LashingRail,
    PointKind::Cleat,
    PointKind::Stanchion,
    PointKind::GuardRail,
    PointKind::GluedPatch,
    PointKind::Other,
];

/// All kinds of gear.
pub(crate) const GEAR: [GearKind; 10] = [
    GearKind::KitBag,
    GearKind::Crate,
    GearKind::Bin,
    GearKind::Fins,
    GearKind::Weights,
    GearKind::Hose,
    GearKind::Line,
    GearKind::Mat,
    GearKind::Camera,
    GearKind::Other,
];

/// All that somebody can be aboard.
pub(crate) const ROLES: [Role; 5] = [
    Role::Diver,
    Role::Crew,
    Role::Mate,
    Role::Skipper,
    Role::Passenger,
];

/// All kinds of place.
pub(crate) const PLACES: [PlaceKind; 12] = [
    PlaceKind::Seat,
    PlaceKind::Gate,
    PlaceKind::Helm,
    PlaceKind::LadderHead,
    PlaceKind::MusterPoint,
    PlaceKind::Door,
    PlaceKind::EmergencyGear,
    PlaceKind::Filling,
    PlaceKind::HandOver,
    PlaceKind::SetDown,
    PlaceKind::CasualtyFloor,
    PlaceKind::Other,
];

/// All kinds of fixture.
pub(crate) const FIXTURES: [FixtureKind; 24] = [
    FixtureKind::Bench,
    FixtureKind::Locker,
    FixtureKind::Console,
    FixtureKind::Wheelhouse,
    FixtureKind::EngineBox,
    FixtureKind::Hatch,
    FixtureKind::Bulwark,
    FixtureKind::GuardRail,
    FixtureKind::Tube,
    FixtureKind::Gate,
    FixtureKind::Ladder,
    FixtureKind::Sill,
    FixtureKind::Post,
    FixtureKind::Winch,
    FixtureKind::Glass,
    FixtureKind::FreeingPort,
    FixtureKind::Compressor,
    FixtureKind::OxygenKit,
    FixtureKind::Extinguisher,
    FixtureKind::Liferaft,
    FixtureKind::Fuel,
    FixtureKind::Heat,
    FixtureKind::Overhead,
    FixtureKind::Other,
];

impl StoreItem {
    /// What it is called in the stores.
    pub(crate) fn name(&self) -> String {
        match self {
            Self::Cylinder(kind) => kind_name(kind),
            Self::Rack(kind) => words::rack(*kind).to_owned(),
            Self::Point(kind) => words::point(*kind).to_owned(),
            Self::Lashing(material) => material_name(material),
            Self::Gear(kind) => words::gear(*kind).to_owned(),
            Self::Person(role) => words::role(*role).to_owned(),
            Self::Place(kind) => words::place(*kind).to_owned(),
            Self::Fixture(kind) => words::fixture(*kind).to_owned(),
            Self::Walkway => words::WALKWAY.to_owned(),
        }
    }

    /// Does the search text occur in its name?
    pub(crate) fn matches(&self, search: &str) -> bool {
        let search = search.trim().to_lowercase();
        let name = self.name().to_lowercase();
        search.split_whitespace().all(|word| name.contains(word))
    }

    /// For what is drawn point by point rather than put down.
    pub(crate) fn line(&self) -> Option<LineWhat> {
        match self {
            Self::Walkway => Some(LineWhat::Walkway),
            Self::Gear(kind @ (GearKind::Hose | GearKind::Line)) => Some(LineWhat::Gear(*kind)),
            _ => None,
        }
    }

    /// The thing that it makes when let go here, and the edits that put it there.
    pub(crate) fn make(&self, here: &Here<'_>, target: Vec2, turn_deg: f64) -> Option<Made> {
        let at = to_cm(target);
        let deck = here.deck.to_owned();
        let name = |kind| naming::free(here.plan, here.trip, kind);
        let thing = match self {
            Self::Cylinder(kind) => {
                let id = name(ThingKind::Cylinder);
                let standing = super::tools::standing(here.deck, at);
                let placing = dropped(here, &id, &standing, target);
                return Some(cylinder(here, &id, kind, placing));
            }
            Self::Rack(kind) => {
                let mut rack = rack_preset(*kind, &name(ThingKind::Rack), here.deck, at);
                rack.turn_deg = turn_deg;
                Thing::Rack(rack)
            }
            Self::Point(kind) => Thing::LashingPoint(LashingPoint {
                id: name(ThingKind::LashingPoint),
                name: None,
                deck,
                at,
                height_m: point_height_m(*kind),
                kind: *kind,
                strength_kn: Known::NotKnown,
                straight_pull: None,
            }),
            Self::Gear(kind) => {
                let id = name(ThingKind::Gear);
                Thing::Gear(gear_preset(*kind, &id, &deck, at, turn_deg)?)
            }
            Self::Person(role) => Thing::Person(Person {
                id: name(ThingKind::Person),
                role: *role,
                mass_kg: None,
                deck,
                at,
                posture: if *role == Role::Diver {
                    Posture::SeatedKitted
                } else {
                    Posture::Standing
                },
                faces_deg: turn_deg,
                fins: false,
            }),
            Self::Place(kind) => Thing::Place(Place {
                id: name(ThingKind::Place),
                name: Some(words::place(*kind).to_owned()),
                deck,
                at,
                kind: *kind,
                floor_m: (*kind == PlaceKind::CasualtyFloor).then_some([2.0, 0.75]),
            }),
            Self::Fixture(kind) => {
                let id = name(ThingKind::Fixture);
                Thing::Fixture(fixture_preset(*kind, &id, &deck, at, turn_deg))
            }
            Self::Lashing(_) | Self::Walkway => return None,
        };
        let what = thing.to_ref();
        Some(Made {
            edits: vec![put(here.trip, thing)],
            what,
        })
    }
}

/// A thing that was made.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Made {
    /// The edits that put it there.
    pub(crate) edits: Vec<Edit>,

    /// What it is.
    pub(crate) what: ThingRef,
}

/// A cylinder that is there from the part shown on: earlier parts have it ashore.
pub(crate) fn cylinder(here: &Here<'_>, id: &str, kind: &str, placing: Placing) -> Made {
    let first = if here.part == 0 {
        placing.clone()
    } else {
        Placing::Ashore
    };
    let mut edits = vec![put(
        here.trip,
        Thing::Cylinder(Cylinder::new(id, kind, first)),
    )];
    if here.part > 0 {
        edits.push(super::moving::place(here, id, placing));
    }
    Made {
        edits,
        what: super::things::reference(ThingKind::Cylinder, id),
    }
}

/// What a cylinder kind is called.
pub(crate) fn kind_name(id: &str) -> String {
    let catalogue = Catalogue::built_in();
    let kind = catalogue.kind(id).map(|kind| kind.name.clone());
    let twin = || catalogue.twin(id).map(|twin| twin.name.clone());
    kind.or_else(twin).unwrap_or_else(|| id.to_owned())
}

/// The material of a lashing, where none was chosen: the first of the catalogue.
pub(crate) fn usual_material() -> String {
    let first = Catalogue::built_in().materials().first();
    first
        .map(|material| material.id.clone())
        .unwrap_or_default()
}

/// What a lashing material is called.
pub(crate) fn material_name(id: &str) -> String {
    let material = Catalogue::built_in().material(id);
    material.map_or_else(|| id.replace('_', " "), |material| material.name.clone())
}

pub(crate) fn point_height_m(kind: PointKind) -> f64 {
    match kind {
        PointKind::Stanchion => 0.6,
        PointKind::GuardRail | PointKind::LashingRail => 0.9,
        PointKind::GluedPatch => 0.4,
        PointKind::PadEye
        | PointKind::EyeBolt
        | PointKind::Cleat
        | PointKind::Ring
        | PointKind::Other => 0.05,
    }
}

/// A rack of the usual size; its strengths are not known until somebody gives them.
pub(crate) fn rack_preset(kind: RackKind, id: &str, deck: &str, at: Point) -> Rack {
    let mut rack = Rack {
        id: id.to_owned(),
        name: None,
        deck: deck.to_owned(),
        kind,
        at,
        turn_deg: 0.0,
        columns: 4,
        rows: 1,
        pitch_m: 0.26,
        row_pitch_m: None,
        slot_names: Vec::new(),
        bore_m: None,
        edge_height_m: 0.45,
        shelf_height_m: 0.0,
        surface: None,
        foot_held: false,
        slot_strength_kn: Known::NotKnown,
        hold_down_kn: None,
        fronts: Vec::new(),
        saddle_half_angle_deg: None,
        size_m: None,
        own_floor: false,
        mass_kg: 20.0,
        fixings: Fixings::Fixed {
            strength_kn: Known::NotKnown,
        },
        load_limit_kg: None,
    };
    match kind {
        RackKind::BenchRow => {
            rack.row_pitch_m = Some(0.3);
            rack.fronts = vec![Front {
                id: "strap".to_owned(),
                kind: FrontKind::Strap,
                slots: (0..rack.slot_count()).map(|i| rack.slot_name(i)).collect(),
                height_m: 0.4,
                strength_kn: Known::NotKnown,
                tied_between_slots: false,
                slack_m: None,
                shut: true,
            }];
        }
        RackKind::Sockets => {
            rack.rows = 2;
            rack.bore_m = Some(0.2);
        }
        RackKind::Cradles => {
            rack.row_pitch_m = Some(0.75);
            rack.edge_height_m = 0.05;
            rack.saddle_half_angle_deg = Some(50.0);
        }
        RackKind::Crate => {
            rack.columns = 1;
            rack.size_m = Some([0.8, 0.6]);
            rack.edge_height_m = 0.3;
            rack.own_floor = true;
            rack.mass_kg = 8.0;
            rack.fixings = Fixings::Unfixed;
        }
        RackKind::Net => {
            rack.columns = 1;
            rack.size_m = Some([1.2, 0.9]);
            rack.edge_height_m = 0.1;
            rack.mass_kg = 3.0;
        }
    }
    rack
}

fn gear_preset(kind: GearKind, id: &str, deck: &str, at: Point, turn_deg: f64) -> Option<Gear> {
    let [length_m, width_m, height_m, mass_kg] = match kind {
        GearKind::Fins => [0.65, 0.25, 0.1, 2.0],
        GearKind::Weights => [0.3, 0.2, 0.08, 10.0],
        GearKind::Crate => [0.6, 0.4, 0.32, 8.0],
        GearKind::KitBag => [0.75, 0.4, 0.35, 15.0],
        GearKind::Bin => [0.5, 0.5, 0.6, 12.0],
        GearKind::Mat => [1.2, 0.6, 0.01, 3.0],
        GearKind::Camera => [0.4, 0.3, 0.25, 5.0],
        GearKind::Other => [0.4, 0.4, 0.4, 5.0],
        GearKind::Hose | GearKind::Line => return None,
    };
    let floor = if kind == GearKind::Bin {
        GearShape::Round {
            at,
            radius_m: 0.5 * length_m,
        }
    } else {
        GearShape::Box {
            at,
            length_m,
            width_m,
            turn_deg,
        }
    };
    Some(Gear {
        id: id.to_owned(),
        name: None,
        kind,
        deck: deck.to_owned(),
        floor,
        height_m,
        mass_kg,
        friction: None,
        stowed: false,
    })
}

/// The usual length, width and height of a fixture, in metres, to be replaced by the tape.
fn fixture_size_m(kind: FixtureKind) -> [f64; 3] {
    match kind {
        FixtureKind::Bench => [2.0, 0.45, 0.45],
        FixtureKind::Console => [0.8, 0.8, 1.3],
        FixtureKind::EngineBox => [1.0, 0.8, 0.6],
        FixtureKind::Hatch => [0.6, 0.6, 0.02],
        FixtureKind::Wheelhouse => [2.5, 2.0, 2.1],
        FixtureKind::Glass => [0.9, 0.05, 1.6],
        FixtureKind::Winch => [0.4, 0.4, 0.5],
        FixtureKind::GuardRail => [2.0, 0.05, 0.9],
        FixtureKind::Bulwark => [2.0, 0.1, 0.6],
        FixtureKind::Tube => [3.0, 0.5, 0.5],
        FixtureKind::Ladder => [0.5, 0.25, 1.0],
        FixtureKind::Gate => [0.8, 0.05, 0.9],
        FixtureKind::FreeingPort => [0.4, 0.05, 0.15],
        FixtureKind::Compressor => [0.8, 0.5, 0.6],
        FixtureKind::OxygenKit => [0.5, 0.35, 0.3],
        FixtureKind::Extinguisher => [0.2, 0.2, 0.6],
        FixtureKind::Liferaft => [0.9, 0.6, 0.4],
        FixtureKind::Fuel => [0.2, 0.2, 0.1],
        FixtureKind::Heat => [0.3, 0.3, 0.8],
        FixtureKind::Sill => [0.8, 0.05, 0.1],
        FixtureKind::Locker => [1.0, 0.6, 0.9],
        FixtureKind::Post => [0.1, 0.1, 2.0],
        FixtureKind::Overhead => [2.0, 1.5, 2.1],
        FixtureKind::Other => [0.6, 0.6, 0.5],
    }
}

fn fixture_preset(kind: FixtureKind, id: &str, deck: &str, at: Point, turn_deg: f64) -> Fixture {
    let [length, width, height] = fixture_size_m(kind);
    let middle = super::here::at(at);
    let corner = |x: f64, y: f64| {
        let offset = crate::geometry::vec2(0.5 * x * length, 0.5 * y * width);
        to_cm(middle + offset.rotated(turn_deg.to_radians()))
    };
    let shelf = matches!(
        kind,
        FixtureKind::Bench | FixtureKind::Locker | FixtureKind::EngineBox
    );
    Fixture {
        id: id.to_owned(),
        name: None,
        deck: deck.to_owned(),
        kind,
        outline: vec![
            corner(-1.0, -1.0),
            corner(1.0, -1.0),
            corner(1.0, 1.0),
            corner(-1.0, 1.0),
        ],
        height_m: height,
        underside_m: if kind == FixtureKind::Overhead {
            2.0
        } else {
            0.0
        },
        walked_on: kind == FixtureKind::Hatch,
        clear_floor_m: None,
        front_deg: None,
        must_stay_open: Vec::new(),
        opens_over: Vec::new(),
        backing_kn: None,
        shelf: shelf.then(|| Shelf {
            surface: Surface::default(),
            load_limit_kg: Known::NotKnown,
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_thing_in_the_stores_has_a_name_of_its_own() {
        for section in Section::ALL {
            let items = section.items(&[]);
            assert!(!items.is_empty(), "{section:?}");
            let mut names: Vec<String> = items.iter().map(StoreItem::name).collect();
            names.sort();
            let count = names.len();
            names.dedup();
            assert_eq!(names.len(), count, "{section:?}");
        }
    }

    #[test]
    fn search_takes_words_in_any_order() {
        let item = StoreItem::Rack(RackKind::BenchRow);
        assert!(item.matches("  BENCH "), "{}", item.name());
        assert!(!item.matches("bench walrus"), "all words must occur");
    }

    #[test]
    fn a_bench_row_has_a_strap_across_every_slot() {
        let rack = rack_preset(RackKind::BenchRow, "R1", "main", [1.0, 1.0]);
        assert!(
            rack.slots()
                .iter()
                .all(|slot| rack.front_of(&slot.name).is_some())
        );
    }
}
