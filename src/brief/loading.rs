//! The order in which cylinders come aboard: heavy and inboard first, sides alternating so that the boat
//! does not lean, nothing behind what is already there, each one secured before the next is handed over.

use schemars::JsonSchema;
use serde::Serialize;

use super::load_list::{what_it_is, where_it_goes};
use super::lying;
use super::remarks;
use super::securing::{self, HandAction, Securing, every};
use super::sequence::{Item, Sequence, Verdict, sequence};
use crate::checks::natural;
use crate::engine::numbers::{CylinderNumbers, PartNumbers, Stance};
use crate::geometry::Elementary as _;
use crate::layout::{DayState, Id, Place, PlaceKind, Placing, Plan, Point, Rack, Trip};

/// How near the way to a cylinder's spot another must be to be in the way, beyond both radii, in metres;
/// a hand on each side. Common practice, no source.
const ELBOW_M: f64 = 0.05;

/// A heel that is passed by less than this is not passed, in degrees.
const SAME_HEEL_DEG: f64 = 1e-6;

/// How much further inboard counts as much as one kilogram more, in metres. Common practice, no source.
const INBOARD_M_PER_KG: f64 = 0.1;

/// What is wanted of the order.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadingSettings {
    /// The heel that loading must not pass, in degrees.
    pub most_heel_deg: f64,

    /// The place over which cylinders are handed aboard; the plan's own unless given.
    pub hand_over: Option<Id>,

    /// The place where cylinders are laid down if the chain stalls; the plan's own unless given.
    pub set_down: Option<Id>,

    /// The gap between the boat's side and the quay, in metres, where somebody said it.
    pub gap_to_quay_m: Option<f64>,

    /// The order as the crew want it; who is not named follows in the computed order.
    pub order: Vec<Id>,
}

impl LoadingSettings {
    /// What was settled for a trip.
    pub fn of(trip: &Trip) -> Self {
        let mut settings = Self::default();
        if let Some(briefing) = &trip.briefing {
            settings.hand_over.clone_from(&briefing.hand_over);
            settings.set_down.clone_from(&briefing.set_down);
            settings.gap_to_quay_m = briefing.gap_to_quay_m;
            settings.order.clone_from(&briefing.order);
            if let Some(deg) = briefing.loading_heel_deg {
                settings.most_heel_deg = deg;
            }
        }
        settings
    }
}

/// The heel that loading must not pass unless somebody says otherwise, in degrees: a deck that still feels
/// level. Common practice, no source.
const USUAL_HEEL_DEG: f64 = 2.0;

impl Default for LoadingSettings {
    fn default() -> Self {
        Self {
            most_heel_deg: USUAL_HEEL_DEG,
            hand_over: None,
            set_down: None,
            gap_to_quay_m: None,
            order: Vec::new(),
        }
    }
}

/// One cylinder coming aboard.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LoadingStep {
    /// The cylinder.
    pub cylinder: Id,

    /// Its mass in kilograms.
    pub mass_kg: f64,

    /// Where it goes, in metres on the deck plan.
    pub at: Point,

    /// What to do, in one sentence.
    pub sentence: String,

    /// What it is, in a few words.
    pub what: String,

    /// Where it goes, in a few words.
    pub where_to: String,

    /// What is done with it there, in a few words.
    pub then: String,

    /// The same as things that hands do, in order.
    pub actions: Vec<HandAction>,

    /// What secures it before the next one comes.
    pub securing: Securing,

    /// The rules of loading that it breaks at this place in the order.
    pub broken: Vec<BrokenRule>,

    /// The heel with it aboard, in degrees, starboard down positive; `None` without GM and displacement.
    pub heel_deg: Option<f64>,

    /// The sideways moment of all that is aboard by then, in kg·m, port positive.
    pub moment_kg_m: f64,
}

/// A rule of loading that a step breaks.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "rule", rename_all = "snake_case")]
pub enum BrokenRule {
    /// The boat leans further than was allowed.
    TooMuchHeel {
        /// How far, in degrees.
        heel_deg: f64,
        /// How far it may, in degrees.
        most_heel_deg: f64,
    },
    /// Others that stand before its place are aboard already.
    ShutIn {
        /// They.
        by: Vec<Id>,
    },
    /// It lies upon others that are not aboard yet.
    NothingBeneath {
        /// They.
        missing: Vec<Id>,
    },
    /// Nothing secures it before the next one is handed over.
    NotSecured,
}

impl BrokenRule {
    /// In a sentence.
    pub fn sentence(&self) -> String {
        match self {
            Self::TooMuchHeel {
                heel_deg,
                most_heel_deg,
            } => format!(
                "The boat leans {:.1}° then, and may lean {most_heel_deg:.1}°.",
                heel_deg.abs()
            ),
            Self::ShutIn { by } => format!("{} stands in its way already.", every(by)),
            Self::NothingBeneath { missing } => {
                let verb = if missing.len() == 1 { "is" } else { "are" };
                format!(
                    "It lies on {}, which {verb} not aboard yet.",
                    every(missing)
                )
            }
            Self::NotSecured => "Nothing holds it before the next one comes.".to_owned(),
        }
    }
}

/// An order in which to load.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LoadingOrder {
    /// One cylinder after the other.
    pub steps: Vec<LoadingStep>,

    /// Is it, or the beginning of it, as the crew want it rather than computed?
    pub by_hand: bool,

    /// The place over which they are handed aboard; `None` if the plan has none.
    pub hand_over: Option<String>,

    /// The same by its name in the plan.
    pub hand_over_place: Option<Id>,

    /// The gap between the boat's side and the quay there, in metres; `None` where nobody said it.
    pub gap_to_quay_m: Option<f64>,

    /// The place where bottles are laid down if the chain stalls; `None` if the plan has none.
    pub set_down: Option<String>,

    /// The same by its name in the plan.
    pub set_down_place: Option<Id>,

    /// The greatest heel along the order, in degrees; `None` without GM and displacement.
    pub greatest_heel_deg: Option<f64>,

    /// The heel that was not to be passed, in degrees.
    pub most_heel_deg: f64,

    /// The greatest sideways moment along the order, in kg·m.
    pub greatest_moment_kg_m: f64,

    /// What is doubtful about it, in whole sentences.
    pub remarks: Vec<String>,
}

/// Finds the order for everything that is on deck in this part.
///
/// Where the crew want an order of their own, it is taken as it is, and each step says which rules it breaks.
pub fn order(
    plan: &Plan,
    trip: &Trip,
    day: &DayState,
    numbers: &PartNumbers,
    settings: &LoadingSettings,
) -> LoadingOrder {
    let bodies = by_rank(numbers);
    let mut remarks: Vec<String> = Vec::new();
    remarks.extend(remarks::ashore(day));
    let hand_over = place(
        plan,
        settings.hand_over.as_deref(),
        &[PlaceKind::HandOver, PlaceKind::Gate],
    );
    if hand_over.is_none() {
        remarks.push(
            "The plan has no gate or hand-over place; ways are taken from the nearest walkway."
                .to_owned(),
        );
    }
    let set_down = place(plan, settings.set_down.as_deref(), &[PlaceKind::SetDown]);
    if set_down.is_none() {
        remarks.push(
            "The plan has no set-down spot: agree where cylinders are laid down if passing them on stops."
                .to_owned(),
        );
    }
    let beneath: Vec<Vec<usize>> = bodies.iter().map(|it| beneath(day, &bodies, it)).collect();
    let items = items(
        plan,
        day,
        (&bodies, &beneath),
        hand_over.map(|place| place.at),
    );
    let boat_kg = boat_before(plan, &bodies).filter(|_| plan.boat.gm_m.is_some());
    if boat_kg.is_none() {
        remarks.push(
            "GM or displacement is not known, so no heel is told: the order keeps the sideways moment \
             small."
                .to_owned(),
        );
    }
    let wanted = wanted(&settings.order, &bodies);
    let indices = if wanted.len() == bodies.len() {
        wanted.clone()
    } else {
        let wish = Wish {
            plan,
            boat_kg,
            settings,
        };
        let computed = computed(items.clone(), &beneath, wish, &mut remarks);
        let rest = computed.into_iter().filter(|index| !wanted.contains(index));
        wanted.iter().copied().chain(rest).collect()
    };
    let name = |place: &Place| place.name.clone().unwrap_or_else(|| place.id.clone());
    let mut order = LoadingOrder {
        steps: Vec::new(),
        by_hand: !wanted.is_empty(),
        hand_over: hand_over.map(name),
        hand_over_place: hand_over.map(|place| place.id.clone()),
        gap_to_quay_m: settings.gap_to_quay_m,
        set_down: set_down.map(name),
        set_down_place: set_down.map(|place| place.id.clone()),
        greatest_heel_deg: boat_kg.map(|_| 0.0),
        most_heel_deg: settings.most_heel_deg,
        greatest_moment_kg_m: 0.0,
        remarks,
    };
    let context = Walk {
        plan,
        trip,
        day,
        bodies: &bodies,
        beneath: &beneath,
        items: &items,
        boat_kg,
    };
    context.walk(&indices, &mut order);
    order
}

/// What has to come aboard, heavy and inboard first. What a diver wears walks aboard by itself.
fn by_rank(numbers: &PartNumbers) -> Vec<&CylinderNumbers> {
    let mut bodies: Vec<&CylinderNumbers> = numbers
        .cylinders
        .iter()
        .filter(|body| body.stance != Stance::OnDiver)
        .collect();
    let late = |body: &CylinderNumbers| body.at[1].abs() - INBOARD_M_PER_KG * body.mass_kg;
    bodies.sort_by(|a, b| {
        late(a)
            .total_cmp(&late(b))
            // P2 before P10, as people count.
            .then_with(|| natural(&a.cylinder).cmp(&natural(&b.cylinder)))
    });
    bodies
}

/// Those that the crew named, in their order, as far as they come aboard.
fn wanted(order: &[Id], bodies: &[&CylinderNumbers]) -> Vec<usize> {
    let place = |id: &Id| bodies.iter().position(|body| body.cylinder == *id);
    order.iter().filter_map(place).collect()
}

/// Within what an order is sought.
#[derive(Copy, Clone)]
struct Wish<'a> {
    plan: &'a Plan,
    /// The boat's mass before the first; `None` without GM or displacement.
    boat_kg: Option<f64>,
    settings: &'a LoadingSettings,
}

/// The computed order, with what is doubtful about it.
fn computed(
    mut items: Vec<Item>,
    beneath: &[Vec<usize>],
    wish: Wish<'_>,
    remarks: &mut Vec<String>,
) -> Vec<usize> {
    let Wish {
        plan,
        boat_kg,
        settings,
    } = wish;
    let limit = if let (Some(_), Some(gm)) = (boat_kg, plan.boat.gm_m) {
        settings.most_heel_deg.to_radians().tangent() * gm
    } else {
        // As little as the single heaviest makes.
        let moments = items.iter().map(|item| (item.mass_kg * item.y_m).abs());
        moments.fold(0.0, f64::max)
    };
    let found = sequence(&items, boat_kg, limit).unwrap_or_else(|| {
        remarks.push(
            "Some stand in each other's way whichever comes first: hand those over the others with two \
             people."
                .to_owned(),
        );
        // What lies upon others comes after them all the same.
        for (item, beneath) in items.iter_mut().zip(beneath) {
            item.after.clone_from(beneath);
        }
        sequence(&items, boat_kg, limit).unwrap_or(Sequence {
            order: (0..items.len()).collect(),
            greatest: 0.0,
            verdict: Verdict::GaveUp,
        })
    });
    if boat_kg.is_some() {
        remarks.extend(remarks::heel(found.verdict, settings.most_heel_deg));
    }
    found.order
}

/// What an order is told from.
struct Walk<'a> {
    plan: &'a Plan,
    trip: &'a Trip,
    day: &'a DayState,
    bodies: &'a [&'a CylinderNumbers],
    /// What each of them lies upon, by place in the list.
    beneath: &'a [Vec<usize>],
    items: &'a [Item],
    /// The boat's mass before the first; `None` without GM or displacement.
    boat_kg: Option<f64>,
}

impl Walk<'_> {
    /// Goes through an order and tells each step, with the rules that it breaks.
    fn walk(&self, indices: &[usize], order: &mut LoadingOrder) {
        let (mut moment, mut mass) = (0.0, 0.0);
        for (place, &index) in indices.iter().enumerate() {
            let body = self.bodies[index];
            moment += body.mass_kg * body.at[1];
            mass += body.mass_kg;
            let heel_deg = self.boat_kg.zip(self.plan.boat.gm_m).map(|(boat_kg, gm)| {
                // Weight to port puts port down, which is negative here.
                -(moment / ((boat_kg + mass) * gm))
                    .arc_tangent()
                    .to_degrees()
            });
            order.greatest_moment_kg_m = order.greatest_moment_kg_m.max(moment.abs());
            if let (Some(greatest), Some(heel)) = (&mut order.greatest_heel_deg, heel_deg) {
                *greatest = greatest.max(heel.abs());
            }
            let mut step = self.step(body);
            step.heel_deg = heel_deg;
            step.moment_kg_m = moment;
            if let Some(heel_deg) =
                heel_deg.filter(|deg| deg.abs() > order.most_heel_deg + SAME_HEEL_DEG)
            {
                step.broken.push(BrokenRule::TooMuchHeel {
                    heel_deg,
                    most_heel_deg: order.most_heel_deg,
                });
            }
            let aboard = &indices[..place];
            let shuts_in = |other: usize| {
                self.items[other].after.contains(&index) && !self.beneath[other].contains(&index)
            };
            let by = self.names(aboard.iter().copied().filter(|other| shuts_in(*other)));
            if !by.is_empty() {
                step.broken.push(BrokenRule::ShutIn { by });
            }
            let beneath = self.beneath[index].iter().copied();
            let missing = self.names(beneath.filter(|other| !aboard.contains(other)));
            if !missing.is_empty() {
                step.broken.push(BrokenRule::NothingBeneath { missing });
            }
            if step.securing == Securing::Nothing {
                step.broken.push(BrokenRule::NotSecured);
            }
            order.steps.push(step);
        }
    }

    /// The names of some of them, in the order in which one counts.
    fn names(&self, indices: impl Iterator<Item = usize>) -> Vec<Id> {
        let names = indices.map(|index| self.bodies[index].cylinder.clone());
        let mut names: Vec<Id> = names.collect();
        names.sort_by_key(|name| natural(name));
        names
    }

    fn step(&self, body: &CylinderNumbers) -> LoadingStep {
        let securing = securing::securing(self.day, body);
        let cylinder = self.day.cylinder(&body.cylinder);
        let what = cylinder.map_or_else(String::new, |it| what_it_is(self.trip, it));
        let where_to = cylinder.map_or_else(String::new, |it| where_it_goes(self.plan, it));
        let valve = cylinder.and_then(|it| lying::valve(self.plan, &it.placing));
        let valve = valve.map_or_else(String::new, |valve| format!(", {valve}"));
        let then = securing::then(self.day, &body.cylinder, &securing);
        let number = cylinder.and_then(|it| it.number.as_ref());
        let number = number.filter(|number| **number != body.cylinder);
        let number = number.map_or_else(String::new, |number| format!(" ({number})"));
        LoadingStep {
            cylinder: body.cylinder.clone(),
            mass_kg: body.mass_kg,
            at: body.at,
            sentence: format!(
                "{}{number}: {what}, {where_to}{valve}; {then}.",
                body.cylinder
            ),
            what,
            where_to,
            then,
            actions: securing::actions(self.day, body, &securing),
            securing,
            broken: Vec::new(),
            heel_deg: None,
            moment_kg_m: 0.0,
        }
    }
}

/// What a cylinder lies upon, by place in the list.
fn beneath(day: &DayState, bodies: &[&CylinderNumbers], body: &CylinderNumbers) -> Vec<usize> {
    let placing = day.cylinder(&body.cylinder).map(|it| &it.placing);
    let Some(Placing::Lying { upon, .. }) = placing else {
        return Vec::new();
    };
    let place = |id: &Id| bodies.iter().position(|it| it.cylinder == *id);
    upon.iter().filter_map(place).collect()
}

/// The cylinders as things to order, each after those that it would shut in and after those that it lies upon.
fn items(
    plan: &Plan,
    day: &DayState,
    (bodies, beneath): (&[&CylinderNumbers], &[Vec<usize>]),
    gate: Option<Point>,
) -> Vec<Item> {
    let mut items: Vec<Item> = bodies
        .iter()
        .enumerate()
        .map(|(rank, body)| Item {
            mass_kg: body.mass_kg,
            y_m: body.at[1],
            after: beneath[rank].clone(),
            rank,
        })
        .collect();
    for (index, body) in bodies.iter().enumerate() {
        let Some(way) = way_in(plan, day, body, gate) else {
            continue;
        };
        for (other, standing) in bodies.iter().enumerate() {
            // Whoever would stand in the way of this one comes after it; nobody is in the way of what lies upon them.
            let is_of_pile = other == index || beneath[index].contains(&other);
            if !is_of_pile && is_in_the_way(body, way, standing) {
                items[other].after.push(index);
            }
        }
    }
    items
}

fn place<'a>(plan: &'a Plan, wanted: Option<&str>, kinds: &[PlaceKind]) -> Option<&'a Place> {
    let places = &plan.boat.places;
    match wanted {
        Some(id) => places.iter().find(|place| place.id == id),
        None => kinds.iter().find_map(|kind| {
            let of_kind = places.iter().filter(|place| place.kind == *kind);
            of_kind.min_by(|a, b| a.id.cmp(&b.id))
        }),
    }
}

/// The boat's mass before the first cylinder: her displacement counts everything aboard.
fn boat_before(plan: &Plan, bodies: &[&CylinderNumbers]) -> Option<f64> {
    let all: f64 = bodies.iter().map(|body| body.mass_kg).sum();
    plan.boat
        .displacement_kg
        .map(|displacement| displacement - all)
        .filter(|boat_kg| *boat_kg > 0.0)
}

/// From where a cylinder is brought to its spot: the front of its rack, else the nearest point of a
/// walkway on its deck, else the hand-over place.
fn way_in(
    plan: &Plan,
    day: &DayState,
    body: &CylinderNumbers,
    hand_over: Option<Point>,
) -> Option<Point> {
    if let Some(rack) = rack_of(plan, day, body) {
        let (sin, cos) = rack.turn_deg.to_radians().sine_cosine();
        let deep = f64::from(rack.rows) * rack.row_pitch() + 0.5;
        return Some([body.at[0] + deep * sin, body.at[1] - deep * cos]);
    }
    let on_deck = plan
        .boat
        .walkways
        .iter()
        .filter(|way| way.deck == body.deck);
    let nearest = on_deck
        .flat_map(|way| way.line.windows(2))
        .map(|leg| nearest_on(leg[0], leg[1], body.at))
        .min_by(|a, b| distance(*a, body.at).total_cmp(&distance(*b, body.at)));
    nearest.or(hand_over)
}

fn rack_of<'a>(plan: &'a Plan, day: &DayState, body: &CylinderNumbers) -> Option<&'a Rack> {
    match &day.cylinder(&body.cylinder)?.placing {
        Placing::InSlot { rack, .. } => plan.boat.rack(rack),
        _ => None,
    }
}

/// Would one that is aboard already stand in the way of this one, coming from there?
fn is_in_the_way(body: &CylinderNumbers, from: Point, standing: &CylinderNumbers) -> bool {
    if standing.deck != body.deck {
        return false;
    }
    let room = body.body_radius_m + standing.body_radius_m + ELBOW_M;
    // Neighbours in a row stand closer than that; they are beside it, not before it.
    let nearest = nearest_on(from, body.at, standing.at);
    let is_beside = distance(nearest, body.at) < 0.5 * body.body_radius_m;
    !is_beside && distance(nearest, standing.at) < room
}

fn distance(a: Point, b: Point) -> f64 {
    (a[0] - b[0]).hypotenuse(a[1] - b[1])
}

/// The point of a leg that is nearest to another point.
fn nearest_on(from: Point, to: Point, at: Point) -> Point {
    let along = [to[0] - from[0], to[1] - from[1]];
    let squared = along[0] * along[0] + along[1] * along[1];
    if squared <= 0.0 {
        return from;
    }
    let share = ((at[0] - from[0]) * along[0] + (at[1] - from[1]) * along[1]) / squared;
    let share = share.clamp(0.0, 1.0);
    [from[0] + share * along[0], from[1] + share * along[1]]
}
