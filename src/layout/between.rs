//! Between two parts of the day: what is opened so that somebody can get out or in, and a part on its own.

use super::{
    Boat, Changes, DayState, FrontChange, Id, LashCondition, Lashing, Part, Placing, Trip,
};

/// Something shut that is opened between two parts of the day.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Opened {
    /// The strap, chain, cord or bar across slots of a rack.
    Front {
        /// The rack.
        rack: Id,
        /// The front.
        front: Id,
    },
    /// A lashing.
    Lashing(Id),
}

/// What is opened, for whom, and who else stands behind it: it is one thing, so that opened for one it is open
/// for all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Opening {
    /// What is opened.
    pub what: Opened,

    /// Those that get out from behind it or in, in the order of their names; none where it is only opened.
    pub for_whom: Vec<Id>,

    /// The others that it held, in the order of their names; none for a front that is tied between its slots,
    /// which can be opened slot by slot.
    pub others: Vec<Id>,

    /// Does it hold again afterwards?
    pub shut_again: bool,
}

/// What was shut before a part of the day and has to be opened for what that part changes, or is opened by it:
/// fronts rack by rack, then lashings by name.
pub fn openings(boat: &Boat, before: &DayState, after: &DayState) -> Vec<Opening> {
    let mut all = fronts(boat, before, after);
    let lashings = before
        .lashings
        .iter()
        .filter_map(|was| lashing(&was.lashing, before, after));
    all.extend(lashings);
    all.sort_by(|a, b| a.what.cmp(&b.what));
    all
}

fn fronts(boat: &Boat, before: &DayState, after: &DayState) -> Vec<Opening> {
    let shut = before.fronts.iter().filter(|state| state.front.shut);
    let openings = shut.filter_map(|was| {
        let same =
            |state: &&super::FrontState| state.rack == was.rack && state.front.id == was.front.id;
        let now = after.fronts.iter().find(same)?;
        boat.rack(&was.rack)?;
        let behind = |placing: &Placing| match placing {
            Placing::InSlot { rack, slot } => *rack == was.rack && was.front.slots.contains(slot),
            _ => false,
        };
        let mut for_whom = Vec::new();
        let mut others = Vec::new();
        for state in &before.cylinders {
            let id = &state.cylinder.id;
            let then = &state.cylinder.placing;
            let Some(next) = after.cylinder(id).map(|cylinder| &cylinder.placing) else {
                continue;
            };
            if then != next && (behind(then) || behind(next)) {
                for_whom.push(id.clone());
            } else if behind(then) {
                others.push(id.clone());
            }
        }
        for_whom.sort();
        others.sort();
        if was.front.tied_between_slots {
            others.clear();
        }
        let opened = !for_whom.is_empty() || !now.front.shut;
        opened.then(|| Opening {
            what: Opened::Front {
                rack: was.rack.clone(),
                front: was.front.id.clone(),
            },
            for_whom,
            others,
            shut_again: now.front.shut,
        })
    });
    openings.collect()
}

fn lashing(was: &Lashing, before: &DayState, after: &DayState) -> Option<Opening> {
    if !was.shut || was.condition == LashCondition::Cut {
        return None;
    }
    let now = after.lashings.iter().map(|state| &state.lashing);
    let now = now.into_iter().find(|lashing| lashing.id == was.id)?;
    let placing_of = |day: &'_ DayState, id: &str| {
        let cylinder = day.cylinder(id);
        cylinder.map(|cylinder| cylinder.placing.clone())
    };
    let there = |day: &DayState, id: &str| {
        placing_of(day, id).is_some_and(|placing| placing.can_be_lashed())
    };
    let mut for_whom: Vec<Id> = Vec::new();
    let mut others: Vec<Id> = Vec::new();
    for id in was.round.iter().filter(|id| there(before, id)) {
        let moved = placing_of(before, id) != placing_of(after, id);
        if moved || !now.round.contains(id) {
            for_whom.push(id.clone());
        } else {
            others.push(id.clone());
        }
    }
    let joins = now.round.iter().filter(|id| !was.round.contains(id));
    for_whom.extend(joins.cloned());
    for_whom.sort();
    for_whom.dedup();
    others.sort();
    if for_whom.is_empty() && now.shut {
        return None;
    }
    Some(Opening {
        what: Opened::Lashing(was.id.clone()),
        for_whom,
        others,
        shut_again: now.shut && now.round.iter().all(|id| there(after, id)),
    })
}

impl Placing {
    /// Is it somewhere on deck where a lashing can go round it, and in nobody's hands?
    pub fn can_be_lashed(&self) -> bool {
        !matches!(
            self,
            Self::InWater | Self::Ashore | Self::OnDiver { .. } | Self::HeldByHand { .. }
        )
    }
}

impl Trip {
    /// A trip of one part alone, in which everything is as it is on this day: for looking at a moment by itself.
    #[must_use]
    pub fn of_moment(&self, part: &Part, day: &DayState) -> Self {
        let fronts = day.fronts.iter().map(|state| FrontChange {
            rack: state.rack.clone(),
            front: state.front.id.clone(),
            shut: state.front.shut,
        });
        let changes = Changes {
            fronts: fronts.collect(),
            ..Changes::default()
        };
        Self {
            cylinders: (day.cylinders.iter())
                .map(|state| state.cylinder.clone())
                .collect(),
            lashings: (day.lashings.iter())
                .map(|state| state.lashing.clone())
                .collect(),
            gear: day.gear.iter().map(|state| state.gear.clone()).collect(),
            people: (day.people.iter())
                .map(|state| state.person.clone())
                .collect(),
            parts: vec![Part {
                changes,
                ..part.clone()
            }],
            briefing: None,
            ..self.clone()
        }
    }
}

impl DayState {
    /// The same with this opened.
    #[must_use]
    pub fn with_open(&self, what: &Opened) -> Self {
        let mut day = self.clone();
        match what {
            Opened::Front { rack, front } => {
                for state in &mut day.fronts {
                    if state.rack == *rack && state.front.id == *front {
                        state.front.shut = false;
                    }
                }
            }
            Opened::Lashing(id) => {
                for state in &mut day.lashings {
                    if state.lashing.id == *id {
                        state.lashing.shut = false;
                    }
                }
            }
        }
        day
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::{Cylinder, Plan};

    fn plan(tied: bool) -> Plan {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        let rack = serde_json::json!({
            "id": "R1", "deck": "main", "kind": "bench_row", "at": [3.0, 1.0], "columns": 3, "pitch_m": 0.25,
            "slot_names": ["A1", "A2", "A3"], "edge_height_m": 0.4, "mass_kg": 10.0,
            "fixings": { "kind": "unfixed" },
            "fronts": [{ "id": "cord", "kind": "strap", "slots": ["A1", "A2", "A3"], "height_m": 0.4,
                         "tied_between_slots": tied }],
        });
        plan.boat.racks = vec![serde_json::from_value(rack).unwrap()];
        let trip = &mut plan.trips[0];
        for (id, slot) in [("P1", "A1"), ("P2", "A2"), ("P3", "A3")] {
            trip.cylinders
                .push(Cylinder::new(id, "al-80cf", slot_of(slot)));
        }
        let mut second = trip.parts[0].clone();
        second.id = "next".into();
        trip.parts.push(second);
        plan
    }

    fn slot_of(slot: &str) -> Placing {
        Placing::InSlot {
            rack: "R1".into(),
            slot: slot.into(),
        }
    }

    fn found(plan: &Plan) -> Vec<Opening> {
        let days = DayState::of_trip(plan, &plan.trips[0]);
        openings(&plan.boat, &days[0], &days[1])
    }

    fn put(plan: &mut Plan, cylinder: &str, placing: Placing) {
        let edit = super::super::Edit::Place {
            trip: "trip-1".into(),
            part: 1,
            cylinder: cylinder.into(),
            placing,
        };
        plan.apply(&edit).unwrap();
    }

    #[test]
    fn opened_for_one_it_is_open_for_all() {
        let mut plan = plan(false);
        assert_eq!(found(&plan), []);
        put(&mut plan, "P2", Placing::InWater);
        let expected = Opening {
            what: Opened::Front {
                rack: "R1".into(),
                front: "cord".into(),
            },
            for_whom: vec!["P2".into()],
            others: vec!["P1".into(), "P3".into()],
            shut_again: true,
        };
        assert_eq!(found(&plan), [expected]);
    }

    #[test]
    fn tied_between_the_slots_it_is_opened_for_one_alone() {
        let mut plan = plan(true);
        put(&mut plan, "P2", Placing::InWater);
        let found = found(&plan);
        assert_eq!(found.len(), 1);
        assert!(found[0].others.is_empty(), "{found:?}");
    }

    #[test]
    fn a_common_lashing_is_opened_for_the_one_that_leaves() {
        let mut plan = plan(false);
        let stand = |x: f64| Placing::Standing {
            deck: "main".into(),
            at: [x, 0.0],
            on: None,
        };
        for (index, x) in [3.0, 3.2, 3.4].into_iter().enumerate() {
            plan.trips[0].cylinders[index].placing = stand(x);
        }
        let lashing = serde_json::json!({
            "id": "L1", "material": "ratchet_strap_25", "from": "E1", "round": ["P1", "P2", "P3"], "to": "E1",
            "height_m": 0.4,
        });
        plan.trips[0].lashings = vec![serde_json::from_value(lashing).unwrap()];
        let point = serde_json::json!({
            "id": "E1", "deck": "main", "kind": "pad_eye", "at": [3.0, 1.0], "height_m": 0.1,
        });
        plan.boat.lashing_points = vec![serde_json::from_value(point).unwrap()];
        put(&mut plan, "P1", Placing::InWater);
        let found = found(&plan);
        assert_eq!(found[0].what, Opened::Lashing("L1".into()));
        assert_eq!(found[0].for_whom, ["P1"]);
        assert_eq!(found[0].others, ["P2", "P3"]);
        assert!(
            !found[0].shut_again,
            "round one that is not there it holds nobody"
        );
    }

    #[test]
    fn a_moment_by_itself_is_as_it_was_in_the_day() {
        let mut plan = plan(false);
        put(&mut plan, "P2", Placing::InWater);
        let trip = plan.trips[0].clone();
        let days = DayState::of_trip(&plan, &trip);
        let what = Opened::Front {
            rack: "R1".into(),
            front: "cord".into(),
        };
        let moment = trip.of_moment(&trip.parts[1], &days[1].with_open(&what));
        let alone = DayState::of_trip(&plan, &moment);
        assert_eq!(alone.len(), 1);
        assert_eq!(alone[0].cylinder("P2").unwrap().placing, Placing::InWater);
        assert!(!alone[0].fronts[0].front.shut);
        assert!(days[1].fronts[0].front.shut);
    }
}
