//! What nobody knows of what holds the cylinders, told apart by what would have to be found out.

use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::Serialize;

use crate::checks::{names, words};
use crate::engine::numbers::{CylinderNumbers, Need, NeedKind, PartNumbers};
use crate::layout::{Front, Id, Plan, Trip};

/// What would have to be found out of a thing.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ToFindOut {
    /// How strong it is.
    Strength,
    /// How tight it is.
    Tightness,
    /// How well a cylinder grips on it.
    Friction,
}

/// Something that nobody knows and that the stowage hangs on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct NotKnown {
    /// What would have to be found out.
    pub what: ToFindOut,

    /// The thing, by its name in the plan.
    pub of: Id,

    /// What the crew call it.
    pub name: String,
}

impl NotKnown {
    fn order(&self, other: &Self) -> std::cmp::Ordering {
        let order = self.what.cmp(&other.what);
        order.then_with(|| names::natural_order(&self.name, &other.name))
    }

    /// Sorts them, each once.
    pub fn sort(all: &mut Vec<Self>) {
        all.sort_by(Self::order);
        all.dedup();
    }

    /// The names of those of which this is not known.
    pub fn of_kind(all: &[Self], what: ToFindOut) -> Vec<&str> {
        let of_it = all.iter().filter(|it| it.what == what);
        of_it.map(|it| it.name.as_str()).collect()
    }

    /// `how strong pad eye 4 is; how tight strap T4 is`.
    pub fn told(all: &[Self]) -> String {
        let told = [
            ToFindOut::Strength,
            ToFindOut::Tightness,
            ToFindOut::Friction,
        ];
        let told = told.map(|what| {
            let them = Self::of_kind(all, what);
            let (is, list) = (words::is_are(them.len()), words::list(&them));
            match (them.len(), what) {
                (0, _) => String::new(),
                (_, ToFindOut::Strength) => format!("how strong {list} {is}"),
                (_, ToFindOut::Tightness) => format!("how tight {list} {is}"),
                (_, ToFindOut::Friction) => format!("what friction there is on {list}"),
            }
        });
        let told: Vec<String> = told.into_iter().filter(|it| !it.is_empty()).collect();
        told.join("; ")
    }
}

/// What nobody knows, of all cylinders: a limit that some of them have only if it holds is no limit yet. What this
/// part's motion asks nothing of counts too, as the limit lies beyond it.
pub(super) fn of_part(plan: &Plan, trip: &Trip, numbers: &PartNumbers) -> Vec<NotKnown> {
    let mut found: BTreeSet<(ToFindOut, Kind, &Id)> = BTreeSet::new();
    for cylinder in &numbers.cylinders {
        let slack = cylinder.needs.iter();
        let slack = slack.filter(|need| need.what == NeedKind::LashingSlack);
        found.extend(slack.map(|need| (ToFindOut::Tightness, Kind::Lashing, &need.of)));
        if cylinder.limit.if_unknowns_hold {
            strengths(numbers, cylinder, &mut found);
        }
    }
    let named = found.into_iter().map(|(what, kind, of)| NotKnown {
        what,
        of: of.clone(),
        name: kind.name(plan, trip, of),
    });
    let mut all: Vec<NotKnown> = named.collect();
    NotKnown::sort(&mut all);
    all
}

/// The strengths and the friction that nobody knows of what holds a cylinder.
fn strengths<'n>(
    numbers: &'n PartNumbers,
    cylinder: &'n CylinderNumbers,
    found: &mut BTreeSet<(ToFindOut, Kind, &'n Id)>,
) {
    let needed = cylinder.needs.iter();
    let needed = needed.filter(|need| need.what != NeedKind::LashingSlack);
    let before = found.len();
    let needed: Vec<&Need> = needed.collect();
    found.extend(needed.iter().map(|need| match need.what {
        NeedKind::Friction => (ToFindOut::Friction, Kind::Deck, &need.of),
        what => (ToFindOut::Strength, Kind::of(what), &need.of),
    }));
    if found.len() > before || !needed.is_empty() {
        return;
    }
    // Nothing is asked of it in this motion: a lashing is as weak as its points.
    let lashings = cylinder.lashings.iter();
    for hold in lashings.filter(|hold| hold.capacity_n.is_none()) {
        let points = numbers
            .points
            .iter()
            .filter(|point| point.capacity_n.is_none() && point.lashings.contains(&hold.lashing));
        let before = found.len();
        found.extend(points.map(|point| (ToFindOut::Strength, Kind::Point, &point.point)));
        let own = numbers
            .lashings
            .iter()
            .find(|it| it.lashing == hold.lashing);
        if found.len() == before || own.is_some_and(|own| own.capacity_n.is_none()) {
            found.insert((ToFindOut::Strength, Kind::Lashing, &hold.lashing));
        }
    }
    let rack = cylinder.rack.as_ref();
    let rack = rack.filter(|rack| rack.edge_strength_n.is_none());
    found.extend(rack.map(|rack| (ToFindOut::Strength, Kind::Rack, &rack.rack)));
    if cylinder.friction.is_none() {
        found.insert((ToFindOut::Friction, Kind::Deck, &cylinder.deck));
    }
}

/// What sort of thing it is not known of.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Kind {
    Point,
    Lashing,
    Rack,
    Front,
    Fixture,
    Deck,
}

impl Kind {
    fn of(what: NeedKind) -> Self {
        match what {
            NeedKind::PointStrength => Self::Point,
            NeedKind::LashingStrength | NeedKind::LashingSlack => Self::Lashing,
            NeedKind::SlotStrength | NeedKind::FixingStrength | NeedKind::HoldDown => Self::Rack,
            NeedKind::FrontStrength => Self::Front,
            NeedKind::BackingStrength | NeedKind::LoadLimit => Self::Fixture,
            NeedKind::Friction => Self::Deck,
        }
    }

    /// What the crew call it.
    fn name(self, plan: &Plan, trip: &Trip, id: &str) -> String {
        let boat = &plan.boat;
        let given = match self {
            Self::Point => boat.lashing_point(id).and_then(|it| it.name.clone()),
            Self::Lashing => trip.lashing(id).and_then(|it| it.name.clone()),
            Self::Rack => boat.rack(id).and_then(|it| it.name.clone()),
            Self::Front => {
                let mut fronts = boat.racks.iter().flat_map(|rack| &rack.fronts);
                fronts.find(|front| front.id == id).map(Front::called)
            }
            Self::Fixture => boat.fixture(id).and_then(|it| it.name.clone()),
            Self::Deck => boat.deck(id).and_then(|it| it.name.clone()),
        };
        given.unwrap_or_else(|| id.to_owned())
    }
}
