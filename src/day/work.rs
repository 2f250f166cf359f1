//! The work on deck with which a part of the day begins: every move, opening and shutting, in an order in which it
//! can be done, with who does it and who stands unsecured meanwhile.

use schemars::JsonSchema;
use serde::Serialize;

use super::before_or_after::Time;
use super::hands::Hands;
pub(super) use super::turns::where_it_is;
use super::turns::{is_held, round_those_that_stay, slot_of, turn_of};
use crate::checks::{LeftStanding, left_standing, natural_order, words};
use crate::geometry::Elementary as _;
use crate::layout::{
    Cylinder, DayState, Fill, Front, Id, Kit, Opened, Opening, Part, Placing, Plan, Point, Posture,
    Trip, openings,
};

/// What is done in a step.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum StepKind {
    /// A strap, cord, front or lashing is opened.
    Open,
    /// The kit is taken off.
    KitOff,
    /// A cylinder leaves where it was and is laid down.
    LayDown,
    /// A cylinder goes into the water or off the boat.
    Away,
    /// A cylinder is put into a slot.
    IntoSlot,
    /// A cylinder is put anywhere else.
    Move,
    /// A cylinder has to be held for a moment, as two change places.
    Hold,
    /// The kit is fitted.
    KitOn,
    /// A cylinder is filled.
    Fill,
    /// A strap, cord, front or lashing is shut.
    Shut,
    /// Gear is stowed or moved.
    Gear,
    /// Somebody goes elsewhere.
    Person,
}

/// One step of the work on deck.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct DeckStep {
    /// Counted from 1 within its part.
    pub number: usize,

    /// What is done.
    pub kind: StepKind,

    /// What it is done to, by name.
    pub things: Vec<Id>,

    /// What is done, in one sentence without its stop.
    pub sentence: String,

    /// Who does it; `None` where nobody has a hand free on deck.
    pub by: Option<Id>,

    /// Where a cylinder is from this step on.
    #[serde(skip)]
    pub placing: Option<Placing>,

    /// Who stands unsecured from an opening until it is shut again, first who goes first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub unsecured_meanwhile: Vec<LeftStanding>,
}

/// The work on deck with which one part of the day begins.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct PartWork {
    /// The part.
    pub part: Id,

    /// What the crew call it.
    pub name: String,

    /// The steps in their order; none where nothing changes.
    pub steps: Vec<DeckStep>,
}

/// The work on deck of a whole day.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct Work {
    /// Part by part, in the order of the day. The first part has the work that it is given beside the start of the
    /// day, mostly none.
    pub parts: Vec<PartWork>,
}

impl Work {
    /// The work of every part of a trip.
    pub fn of(plan: &Plan, trip: &Trip) -> Self {
        let days = DayState::of_trip(plan, trip);
        let start = DayState::at_start(&plan.boat.racks, trip);
        let parts = trip.parts.iter().enumerate().filter_map(|(index, part)| {
            let before = match index.checked_sub(1) {
                Some(last) => days.get(last)?,
                None => &start,
            };
            Some(PartWork::between(
                plan,
                trip,
                part,
                before,
                days.get(index)?,
            ))
        });
        Self {
            parts: parts.collect(),
        }
    }
}

impl PartWork {
    /// What is done on deck between these two states, as a part begins.
    pub fn between(
        plan: &Plan,
        trip: &Trip,
        part: &Part,
        before: &DayState,
        now: &DayState,
    ) -> Self {
        let mut steps = Steps {
            plan,
            hands: Hands::of(part, before, now),
            done: Vec::new(),
        };
        // What is filled needs nothing open: fronts and lashings are open as short as can be.
        steps.fills(before, now, Time::BeforeMoves);
        let opened = openings(&plan.boat, before, now);
        for opening in &opened {
            let left = left_standing(plan, trip, part, before, opening);
            steps.open(before, opening, left);
        }
        // What goes overboard gets its kit on deck, and what comes back is on deck before the kit comes off.
        steps.kits(before, now, false, Time::BeforeMoves);
        steps.kits(before, now, true, Time::BeforeMoves);
        steps.moves(before, now);
        steps.hands.without_those_who_went();
        steps.kits(before, now, false, Time::AfterMoves);
        steps.kits(before, now, true, Time::AfterMoves);
        steps.shut(before, now, &opened);
        steps.fills(before, now, Time::AfterMoves);
        steps.gear(before, now);
        steps.held(before, now);
        steps.people(before, now);
        Self {
            part: part.id.clone(),
            name: part.name.clone().unwrap_or_else(|| part.id.clone()),
            steps: steps.done,
        }
    }

    /// How many of its steps are of this kind.
    pub fn count(&self, kind: StepKind) -> usize {
        self.steps.iter().filter(|step| step.kind == kind).count()
    }
}

/// The steps so far.
struct Steps<'a> {
    plan: &'a Plan,
    hands: Hands,
    done: Vec<DeckStep>,
}

impl Steps<'_> {
    fn add(&mut self, kind: StepKind, things: &[Id], sentence: String, by: Option<Id>) {
        self.done.push(DeckStep {
            number: self.done.len() + 1,
            kind,
            things: things.to_vec(),
            sentence,
            by,
            placing: None,
            unsecured_meanwhile: Vec::new(),
        });
    }

    fn rack_name(&self, rack: &str) -> String {
        let named = self.plan.boat.rack(rack).and_then(|rack| rack.name.clone());
        named.unwrap_or_else(|| rack.to_owned())
    }

    /// What it is called, its deck and where it is.
    fn opened(&self, day: &DayState, what: &Opened) -> (String, Option<Id>, Option<Point>) {
        match what {
            Opened::Front { rack, front } => {
                let of = self.plan.boat.rack(rack);
                let fronts = of.map_or(&[][..], |rack| &rack.fronts);
                let called = fronts.iter().find(|item| item.id == *front);
                let called = called.map_or_else(|| front.clone(), Front::called);
                (
                    format!("{called} across {}", self.rack_name(rack)),
                    of.map(|rack| rack.deck.clone()),
                    of.map(|rack| rack.at),
                )
            }
            Opened::Lashing(id) => {
                let found = day.lashings.iter().map(|state| &state.lashing);
                let found = found.into_iter().find(|lashing| lashing.id == *id);
                let point = found.and_then(|it| self.plan.boat.lashing_point(&it.from));
                let name = found.and_then(|it| it.name.clone());
                (
                    name.unwrap_or_else(|| id.clone()),
                    point.map(|point| point.deck.clone()),
                    point.map(|point| point.at),
                )
            }
        }
    }

    fn open(&mut self, day: &DayState, opening: &Opening, left: Vec<LeftStanding>) {
        let (name, deck, at) = self.opened(day, &opening.what);
        let by = self.hands.at(deck.as_deref(), at);
        let for_whom = if opening.for_whom.is_empty() {
            String::new()
        } else {
            format!(" for {}", words::list_in_order(&opening.for_whom))
        };
        self.add(
            StepKind::Open,
            &[id_of(&opening.what)],
            format!("Open {name}{for_whom}"),
            by,
        );
        if let Some(step) = self.done.last_mut() {
            step.unsecured_meanwhile = left;
        }
    }

    /// Fronts and lashings that are shut when all is done, and were opened for it or were open before.
    fn shut(&mut self, before: &DayState, now: &DayState, opened: &[Opening]) {
        let was_opened = |what: &Opened| opened.iter().any(|opening| opening.what == *what);
        let mut to_shut: Vec<Opened> = Vec::new();
        for state in now.fronts.iter().filter(|state| state.front.shut) {
            let what = Opened::Front {
                rack: state.rack.clone(),
                front: state.front.id.clone(),
            };
            let was_open = before.fronts.iter().any(|old| {
                old.rack == state.rack && old.front.id == state.front.id && !old.front.shut
            });
            if was_open || was_opened(&what) {
                to_shut.push(what);
            }
        }
        for state in now.lashings.iter().filter(|state| state.lashing.shut) {
            let lashing = &state.lashing;
            let there = |id: &&Id| {
                now.cylinder(id)
                    .is_some_and(|it| it.placing.can_be_lashed())
            };
            let what = Opened::Lashing(lashing.id.clone());
            let mut old = before.lashings.iter().map(|old| &old.lashing);
            let was_open = old.any(|old| old.id == lashing.id && !old.shut);
            // Opened for one that goes, it is shut round those that stay.
            if (was_open || was_opened(&what)) && lashing.round.iter().any(|id| there(&id)) {
                to_shut.push(what);
            }
        }
        to_shut.sort();
        for what in to_shut {
            let (name, deck, at) = self.opened(now, &what);
            let by = self.hands.at(deck.as_deref(), at);
            let alone = round_those_that_stay(now, &what);
            let sentence = format!("Shut {name}{alone}");
            self.add(StepKind::Shut, &[id_of(&what)], sentence, by);
        }
    }

    /// Kits taken off, or fitted, at one go for all for whom it is done.
    fn kits(&mut self, before: &DayState, now: &DayState, on: bool, time: Time) {
        let (old, new) = if on {
            (Kit::Off, Kit::On)
        } else {
            (Kit::On, Kit::Off)
        };
        let ids = changed(before, now)
            .filter(|(was, is)| was.kit == old && is.kit == new)
            .filter(|(was, is)| Time::of_kit(was, is) == time)
            .map(|(_, is)| is.id.clone())
            .collect();
        let Some((ids, by)) = self.in_one_go(ids, (before, now), time) else {
            return;
        };
        let list = words::list_in_order(&ids);
        let (kind, sentence) = if on {
            (StepKind::KitOn, format!("Fit the kit to {list}"))
        } else {
            (StepKind::KitOff, format!("Take the kit off {list}"))
        };
        self.add(kind, &ids, sentence, by);
    }

    fn fills(&mut self, before: &DayState, now: &DayState, time: Time) {
        let ids = changed(before, now)
            .filter(|(was, is)| was.fill != Fill::Full && is.fill == Fill::Full)
            .filter(|(was, is)| Time::of_fill(was, is) == time)
            .map(|(_, is)| is.id.clone())
            .collect();
        let Some((ids, by)) = self.in_one_go(ids, (before, now), time) else {
            return;
        };
        self.add(
            StepKind::Fill,
            &ids,
            format!("Fill {}", words::list_in_order(&ids)),
            by,
        );
    }

    /// Cylinders to which the same is done in one go, in the order of their names, and who does it: where the first
    /// of them stands at that time. Nothing where there are none.
    fn in_one_go(
        &self,
        mut ids: Vec<Id>,
        (before, now): (&DayState, &DayState),
        time: Time,
    ) -> Option<(Vec<Id>, Option<Id>)> {
        ids.sort_by(|a, b| natural_order(a, b));
        let first = ids.first()?;
        let day = if time == Time::BeforeMoves {
            before
        } else {
            now
        };
        let at = (day.cylinder(first)).and_then(|it| where_it_is(self.plan, it));
        let by = self.hands.at(None, at);
        Some((ids, by))
    }

    /// Moves in an order in which each finds its slot free: those that leave slots go out and down first.
    fn moves(&mut self, before: &DayState, now: &DayState) {
        let mut waiting: Vec<(Cylinder, Cylinder)> = changed(before, now)
            .filter(|(was, is)| was.placing != is.placing)
            .map(|(was, is)| (was.clone(), is.clone()))
            .collect();
        // Who holds one upright has no hand free for what comes after it.
        waiting.retain(|(_, is)| !is_held(is));
        waiting.sort_by(|a, b| {
            let order = turn_of(&a.0, &a.1).cmp(&turn_of(&b.0, &b.1));
            order.then_with(|| a.0.id.cmp(&b.0.id))
        });
        let mut occupied: Vec<(Id, Id, String)> = before
            .cylinders
            .iter()
            .filter_map(|state| slot_of(&state.cylinder))
            .collect();
        while !waiting.is_empty() {
            let is_free = |(was, is): &(Cylinder, Cylinder)| {
                slot_of(is).is_none_or(|(_, rack, slot)| {
                    !occupied
                        .iter()
                        .any(|(id, r, s)| *id != was.id && *r == rack && *s == slot)
                })
            };
            if let Some(next) = waiting.iter().position(is_free) {
                let (was, is) = waiting.remove(next);
                occupied.retain(|(id, ..)| *id != was.id);
                occupied.extend(slot_of(&is));
                self.one_move(&was, &is);
            } else {
                // Two or more change places round and round: the first is held until its slot is free.
                let stuck = waiting
                    .iter()
                    .position(|(was, _)| occupied.iter().any(|(id, ..)| *id == was.id));
                let (was, is) = waiting.remove(stuck.unwrap_or(0));
                occupied.retain(|(id, ..)| *id != was.id);
                self.hold(&was);
                waiting.push((was, is));
                if stuck.is_none() {
                    // Nobody leaves: the slot is somebody's who stays, which no sound plan has.
                    break;
                }
            }
        }
    }

    /// What somebody holds upright from then on, when all else is done with both hands.
    fn held(&mut self, before: &DayState, now: &DayState) {
        let held = changed(before, now)
            .filter(|(was, is)| was.placing != is.placing && is_held(is))
            .map(|(was, is)| (was.clone(), is.clone()));
        for (was, is) in held.collect::<Vec<_>>() {
            self.one_move(&was, &is);
        }
    }

    fn hold(&mut self, was: &Cylinder) {
        let by = self.hands.at(None, where_it_is(self.plan, was));
        self.add(
            StepKind::Hold,
            std::slice::from_ref(&was.id),
            format!(
                "Take {} out and lay it down for a moment: it changes places with others",
                was.id
            ),
            by,
        );
    }

    fn one_move(&mut self, was: &Cylinder, is: &Cylinder) {
        let id = &is.id;
        let full = match is.fill {
            Fill::Empty => ", empty,",
            Fill::Full | Fill::PartUsed => "",
        };
        let from = self.out_of(&was.placing);
        let (kind, sentence) = match &is.placing {
            Placing::InSlot { rack, slot } => (
                StepKind::IntoSlot,
                format!(
                    "Put {id}{full} into slot {slot} of {}",
                    self.rack_name(rack)
                ),
            ),
            Placing::Lying { chocks, .. } => {
                let how = if chocks.is_some() {
                    " and chock it on both sides"
                } else {
                    ""
                };
                (
                    StepKind::LayDown,
                    format!("Take {id}{full}{from} and lay it down{how}"),
                )
            }
            Placing::InCrate { rack, .. } => (
                StepKind::LayDown,
                format!(
                    "Take {id}{full}{from} and lay it into {}",
                    self.rack_name(rack)
                ),
            ),
            Placing::InWater => (StepKind::Away, format!("{id} goes into the water")),
            Placing::Ashore => (StepKind::Away, format!("Hand {id}{full} ashore")),
            Placing::OnDiver { by } => (StepKind::Away, format!("{by} takes {id} on the back")),
            Placing::HeldByHand { by, .. } => (
                StepKind::Move,
                format!("{by} takes {id}{full}{from} and holds it upright"),
            ),
            Placing::Filling { .. } => (StepKind::Move, format!("Stand {id} at the filling whip")),
            Placing::Hanging { from, .. } => (StepKind::Move, format!("Hang {id} from {from}")),
            Placing::Standing { .. } => (StepKind::Move, format!("Stand {id}{full} up on deck")),
            Placing::UpsideDown { .. } => (
                StepKind::Move,
                format!("Stand {id} in its cage, valve down"),
            ),
        };
        let wears = match &is.placing {
            Placing::OnDiver { by } | Placing::HeldByHand { by, .. } => Some(by.clone()),
            Placing::InWater => is.diver.clone(),
            _ => None,
        };
        let at = where_it_is(self.plan, is).or_else(|| where_it_is(self.plan, was));
        let by = match (wears, &is.placing) {
            (Some(by), _) => Some(by),
            // Whoever dives with it carries it.
            (None, Placing::InWater) => None,
            (None, _) => self.hands.at(is.placing.deck(), at),
        };
        self.add(kind, std::slice::from_ref(id), sentence, by);
        if let Some(step) = self.done.last_mut() {
            step.placing = Some(is.placing.clone());
        }
    }

    fn out_of(&self, placing: &Placing) -> String {
        match placing {
            Placing::InSlot { rack, slot } => {
                format!(" out of slot {slot} of {}", self.rack_name(rack))
            }
            Placing::InWater => " out of the water".to_owned(),
            Placing::OnDiver { by } => format!(" off {by}'s back"),
            Placing::HeldByHand { by, .. } => format!(" from {by}'s hands"),
            _ => String::new(),
        }
    }

    fn gear(&mut self, before: &DayState, now: &DayState) {
        let pairs = before.gear.iter().zip(&now.gear);
        let mut changed: Vec<(Id, String, Id)> = Vec::new();
        for (was, is) in pairs.map(|(was, is)| (&was.gear, &is.gear)) {
            let name = is.name.clone().unwrap_or_else(|| is.id.clone());
            let what = match (was.stowed, is.stowed) {
                (false, true) => format!("Stow {name} away"),
                (true, false) => format!("Get {name} out"),
                _ if was.floor != is.floor => format!("Move {name}"),
                _ => continue,
            };
            changed.push((is.id.clone(), what, is.deck.clone()));
        }
        changed.sort();
        for (id, what, deck) in changed {
            let by = self.hands.at(Some(&deck), None);
            self.add(StepKind::Gear, &[id], what, by);
        }
    }

    /// People by what they do from now on, one step for all who do the same.
    fn people(&mut self, before: &DayState, now: &DayState) {
        let mut moved: Vec<(String, Id)> = Vec::new();
        for (was, is) in before.people.iter().zip(&now.people) {
            let (was, is) = (&was.person, &is.person);
            let goes = if was.posture != is.posture {
                does(is.posture).to_owned()
            } else if is.is_on_deck() && (is_elsewhere(was.at, is.at) || was.deck != is.deck) {
                "to another place".to_owned()
            } else {
                continue;
            };
            moved.push((goes, is.id.clone()));
        }
        moved.sort();
        while let Some((goes, _)) = moved.first().cloned() {
            let (same, others): (Vec<_>, Vec<_>) = moved.into_iter().partition(|it| it.0 == goes);
            moved = others;
            let ids: Vec<Id> = same.into_iter().map(|(_, id)| id).collect();
            let verb = if ids.len() == 1 { "goes" } else { "go" };
            let sentence = format!("{} {verb} {goes}", words::list_in_order(&ids));
            self.add(StepKind::Person, &ids, sentence, None);
        }
    }
}

fn id_of(what: &Opened) -> Id {
    match what {
        Opened::Front { front, .. } => front.clone(),
        Opened::Lashing(id) => id.clone(),
    }
}

/// Two points that are no rounding apart.
fn is_elsewhere(a: Point, b: Point) -> bool {
    (a[0] - b[0]).hypotenuse(a[1] - b[1]) > 1e-6
}

/// Where somebody goes who does this from now on.
fn does(posture: Posture) -> &'static str {
    match posture {
        Posture::Standing => "to stand on deck",
        Posture::Seated => "to sit down",
        Posture::SeatedKitted => "to sit with kit on",
        Posture::Kneeling => "to kneel at work",
        Posture::Lying => "to lie down",
        Posture::InWater => "into the water",
        Posture::Below => "below",
        Posture::Ashore => "ashore",
    }
}

/// Cylinders before and now, in the order of the trip.
fn changed<'d>(
    before: &'d DayState,
    now: &'d DayState,
) -> impl Iterator<Item = (&'d Cylinder, &'d Cylinder)> {
    let pairs = before.cylinders.iter().zip(&now.cylinders);
    pairs.map(|(was, is)| (&was.cylinder, &is.cylinder))
}
