//! The order in which cylinders come aboard: heavy and inboard first, sides alternating so that the boat
//! does not lean, nothing behind what is already there, each one secured before the next is handed over.

use schemars::JsonSchema;
use serde::Serialize;

use super::load_list::{what_it_is, where_it_goes};
use super::sequence::{Item, Sequence, Verdict, sequence};
use crate::engine::numbers::{CylinderNumbers, PartNumbers, Stance};
use crate::layout::{Cylinder, DayState, Id, PlaceKind, Placing, Plan, Point, Rack, Trip};

/// How near the way to a cylinder's spot another must be to be in the way, beyond both radii, in metres;
/// a hand on each side. Common practice, no source.
const ELBOW_M: f64 = 0.05;

/// How much further inboard counts as much as one kilogram more, in metres. Common practice, no source.
const INBOARD_M_PER_KG: f64 = 0.1;

/// What is wanted of the order.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadingSettings {
    /// The heel that loading must not pass, in degrees.
    pub most_heel_deg: f64,

    /// The place over which cylinders are handed aboard; the plan's own unless given.
    pub hand_over: Option<Id>,
}

impl Default for LoadingSettings {
    /// 2° of heel: a deck that still feels level. Common practice, no source.
    fn default() -> Self {
        Self {
            most_heel_deg: 2.0,
            hand_over: None,
        }
    }
}

/// What is done to a cylinder before the next is handed over.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "how", rename_all = "snake_case")]
pub enum Securing {
    /// Its slot holds it all round.
    Slot,
    /// A strap, chain, cord or bar is shut in front of it.
    Front {
        /// Its name.
        front: Id,
        /// Is it one thing for several slots, so that it is opened and shut again for each?
        shared: bool,
    },
    /// Lashings round it are made fast.
    Lashings {
        /// Their names.
        lashings: Vec<Id>,
    },
    /// It is laid down and chocked, in a cradle, a crate or under a net, or on its kit.
    LaidDown,
    /// It is held by somebody or hangs.
    Other,
    /// Nothing: it stands or lies free.
    Nothing,
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

    /// What secures it before the next one comes.
    pub securing: Securing,

    /// The heel with it aboard, in degrees, starboard down positive; `None` without GM and displacement.
    pub heel_deg: Option<f64>,

    /// The sideways moment of all that is aboard by then, in kg·m, port positive.
    pub moment_kg_m: f64,
}

/// An order in which to load.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LoadingOrder {
    /// One cylinder after the other.
    pub steps: Vec<LoadingStep>,

    /// The place over which they are handed aboard; `None` if the plan has none.
    pub hand_over: Option<String>,

    /// The place where bottles are laid down if the chain stalls; `None` if the plan has none.
    pub set_down: Option<String>,

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
pub(super) fn order(
    plan: &Plan,
    trip: &Trip,
    day: &DayState,
    numbers: &PartNumbers,
    settings: &LoadingSettings,
) -> LoadingOrder {
    // What a diver wears walks aboard by itself.
    let mut bodies: Vec<&CylinderNumbers> = numbers
        .cylinders
        .iter()
        .filter(|body| body.stance != Stance::OnDiver)
        .collect();
    // Heavy and inboard first.
    let late = |body: &CylinderNumbers| body.at[1].abs() - INBOARD_M_PER_KG * body.mass_kg;
    bodies.sort_by(|a, b| {
        late(a)
            .total_cmp(&late(b))
            .then_with(|| a.cylinder.cmp(&b.cylinder))
    });
    let mut remarks = Vec::new();
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
    let set_down = place(plan, None, &[PlaceKind::SetDown]);
    if set_down.is_none() {
        remarks.push(
            "The plan has no set-down spot: agree where bottles are laid down if the chain stalls."
                .to_owned(),
        );
    }
    let mut items = items(plan, day, &bodies, hand_over.as_ref().map(|place| place.at));
    let boat_kg = boat_before(plan, &bodies);
    let limit = if let (Some(_), Some(gm)) = (boat_kg, plan.boat.gm_m) {
        settings.most_heel_deg.to_radians().tan() * gm
    } else {
        remarks.push(
            "GM or displacement is not known, so no heel is told: the order keeps the sideways moment \
             small."
                .to_owned(),
        );
        // As little as the single heaviest makes.
        let moments = items.iter().map(|item| (item.mass_kg * item.y_m).abs());
        moments.fold(0.0, f64::max)
    };
    let measured = boat_kg.filter(|_| plan.boat.gm_m.is_some());
    let found = sequence(&items, measured, limit).unwrap_or_else(|| {
        remarks.push(
            "Some stand in each other's way whichever comes first: hand those over the others with two \
             people."
                .to_owned(),
        );
        for item in &mut items {
            item.after.clear();
        }
        sequence(&items, measured, limit).unwrap_or(Sequence {
            order: (0..items.len()).collect(),
            greatest: 0.0,
            verdict: Verdict::GaveUp,
        })
    });
    if measured.is_some() {
        remarks.extend(verdict_remark(found.verdict, settings.most_heel_deg));
    }
    let mut order = LoadingOrder {
        steps: Vec::new(),
        hand_over: hand_over.map(|place| place.name),
        set_down: set_down.map(|place| place.name),
        greatest_heel_deg: measured.map(|_| 0.0),
        most_heel_deg: settings.most_heel_deg,
        greatest_moment_kg_m: 0.0,
        remarks,
    };
    let (mut moment, mut mass) = (0.0, 0.0);
    for index in found.order {
        let body = bodies[index];
        moment += body.mass_kg * body.at[1];
        mass += body.mass_kg;
        let heel_deg = measured.zip(plan.boat.gm_m).map(|(boat_kg, gm)| {
            // Weight to port puts port down, which is negative here.
            -(moment / ((boat_kg + mass) * gm)).atan().to_degrees()
        });
        order.greatest_moment_kg_m = order.greatest_moment_kg_m.max(moment.abs());
        if let (Some(greatest), Some(heel)) = (&mut order.greatest_heel_deg, heel_deg) {
            *greatest = greatest.max(heel.abs());
        }
        let securing = securing(day, body);
        order.steps.push(LoadingStep {
            cylinder: body.cylinder.clone(),
            mass_kg: body.mass_kg,
            at: body.at,
            sentence: day
                .cylinder(&body.cylinder)
                .map_or_else(String::new, |cylinder| {
                    sentence(plan, trip, cylinder, &securing)
                }),
            securing,
            heel_deg,
            moment_kg_m: moment,
        });
    }
    order
}

/// What to say where the heel that was wanted is passed.
fn verdict_remark(verdict: Verdict, most_heel_deg: f64) -> Option<String> {
    match verdict {
        Verdict::Within => None,
        Verdict::NoneExists => Some(format!(
            "No order keeps the heel below {most_heel_deg:.1}°: one cylinder alone leans the boat further, \
             or the sides cannot be balanced."
        )),
        Verdict::GaveUp => Some(format!(
            "No order with less than {most_heel_deg:.1}° of heel was found in the time allowed; there may \
             be one."
        )),
    }
}

/// The cylinders as things to order, each after those that it would shut in.
fn items(
    plan: &Plan,
    day: &DayState,
    bodies: &[&CylinderNumbers],
    gate: Option<Point>,
) -> Vec<Item> {
    let mut items: Vec<Item> = bodies
        .iter()
        .enumerate()
        .map(|(rank, body)| Item {
            mass_kg: body.mass_kg,
            y_m: body.at[1],
            after: Vec::new(),
            rank,
        })
        .collect();
    for (index, body) in bodies.iter().enumerate() {
        let Some(way) = way_in(plan, day, body, gate) else {
            continue;
        };
        for (other, standing) in bodies.iter().enumerate() {
            // Whoever would stand in the way of this one comes after it.
            if other != index && is_in_the_way(body, way, standing) {
                items[other].after.push(index);
            }
        }
    }
    items
}

/// A place that the order needs, by name.
struct Named {
    name: String,
    at: Point,
}

fn place(plan: &Plan, wanted: Option<&str>, kinds: &[PlaceKind]) -> Option<Named> {
    let places = &plan.boat.places;
    let found = match wanted {
        Some(id) => places.iter().find(|place| place.id == id),
        None => kinds.iter().find_map(|kind| {
            let of_kind = places.iter().filter(|place| place.kind == *kind);
            of_kind.min_by(|a, b| a.id.cmp(&b.id))
        }),
    }?;
    Some(Named {
        name: found.name.clone().unwrap_or_else(|| found.id.clone()),
        at: found.at,
    })
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
        let (sin, cos) = rack.turn_deg.to_radians().sin_cos();
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

/// How it is secured before the next one is handed over.
fn securing(day: &DayState, body: &CylinderNumbers) -> Securing {
    let lashings: Vec<Id> = body
        .lashings
        .iter()
        .map(|hold| hold.lashing.clone())
        .collect();
    if !lashings.is_empty() {
        return Securing::Lashings { lashings };
    }
    match body.stance {
        Stance::InRack => {
            let closing = body
                .rack
                .as_ref()
                .and_then(|hold| day.front_of(&hold.rack, &hold.slot))
                .filter(|front| front.shut);
            match closing {
                Some(front) => Securing::Front {
                    front: front.id.clone(),
                    shared: front.slots.len() > 1 && !front.tied_between_slots,
                },
                None if body.rack.as_ref().is_some_and(|hold| hold.closed) => Securing::Slot,
                None => Securing::Nothing,
            }
        }
        Stance::Lying | Stance::InCradle | Stance::InCrate => {
            let placing = day
                .cylinder(&body.cylinder)
                .map(|cylinder| &cylinder.placing);
            match placing {
                Some(Placing::Lying {
                    chocks: None,
                    on_kit: false,
                    upon,
                    ..
                }) if upon.is_empty() => Securing::Nothing,
                _ => Securing::LaidDown,
            }
        }
        Stance::HeldByHand | Stance::Hanging | Stance::OnWhip | Stance::UpsideDown => {
            Securing::Other
        }
        Stance::OnDiver | Stance::StandsFree | Stance::Backed | Stance::Lashed => Securing::Nothing,
    }
}

/// What to do with it, in one sentence.
fn sentence(plan: &Plan, trip: &Trip, cylinder: &Cylinder, securing: &Securing) -> String {
    let what = what_it_is(trip, cylinder);
    let where_to = where_it_goes(plan, cylinder);
    let then = match securing {
        Securing::Slot => "push it home".to_owned(),
        Securing::Front {
            front,
            shared: true,
        } => {
            format!("shut {front} again before the next one comes")
        }
        Securing::Front {
            front,
            shared: false,
        } => format!("shut {front} at its slot"),
        Securing::Lashings { lashings } => {
            format!("make {} fast", crate::checks::words::list(lashings))
        }
        Securing::LaidDown => "lay it down and see that it cannot roll".to_owned(),
        Securing::Other => "do not let go of it".to_owned(),
        Securing::Nothing => "nothing holds it there: put that right first".to_owned(),
    };
    format!("{}: {what}, {where_to}; {then}.", cylinder.id)
}

fn distance(a: Point, b: Point) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
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
