//! Several things moved at once: each brings the whole part of the day with its own change in it, and together
//! they must keep each other's.

use crate::layout::{Edit, Part, Thing, Trip};

/// The edits with all changes of one part of the day in one edit, where the first of them was.
pub(crate) fn together(trip: &Trip, edits: Vec<Edit>) -> Vec<Edit> {
    let parts = edits.iter().filter(|edit| part_of(edit).is_some()).count();
    if parts < 2 {
        return edits;
    }
    let mut merged: Vec<Edit> = Vec::with_capacity(edits.len());
    for edit in edits {
        let known = part_of(&edit).and_then(|new| {
            let (_, old) = trip.part(&new.id)?;
            let place = merged
                .iter()
                .position(|other| part_of(other).is_some_and(|part| part.id == new.id))?;
            Some((place, old, new.clone()))
        });
        match known {
            Some((place, old, new)) => {
                if let Edit::Put { thing, .. } = &mut merged[place]
                    && let Thing::Part(part) = thing.as_mut()
                {
                    take_over(part, old, new);
                }
            }
            None => merged.push(edit),
        }
    }
    merged
}

fn part_of(edit: &Edit) -> Option<&Part> {
    match edit {
        Edit::Put { thing, .. } => match thing.as_ref() {
            Thing::Part(part) => Some(part),
            _ => None,
        },
        _ => None,
    }
}

/// Takes over what is another in `new` than it was in `old`.
fn take_over(part: &mut Part, old: &Part, new: Part) {
    macro_rules! list {
        ($list:ident, $key:ident) => {
            for change in new.changes.$list {
                if old.changes.$list.contains(&change) {
                    continue;
                }
                let mut known = part.changes.$list.iter_mut();
                match known.find(|item| item.$key == change.$key) {
                    Some(item) => *item = change,
                    None => part.changes.$list.push(change),
                }
            }
        };
    }
    list!(cylinders, cylinder);
    list!(lashings, lashing);
    list!(gear, gear);
    list!(people, person);
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::app::live::Live;
    use crate::app::moving::Grabbed;
    use crate::app::things::reference;
    use crate::geometry::vec2;
    use crate::layout::with_part_after;
    use crate::layout::{DayState, Person, Plan, Posture, Role, ThingKind};

    #[test]
    fn two_people_are_moved_together_in_a_later_part_of_the_day() {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        for (id, x) in [("Ann", 2.0), ("Bo", 3.0)] {
            plan.trips[0].people.push(Person {
                id: id.to_owned(),
                role: Role::Crew,
                mass_kg: None,
                deck: "main".into(),
                at: [x, 0.0],
                posture: Posture::Standing,
                faces_deg: 0.0,
                fins: false,
            });
        }
        plan.trips[0] = with_part_after(&plan.trips[0], 0).unwrap();
        let mut plan = Arc::new(plan);
        let mut live = Live::default();
        live.refresh(&plan, "trip-1");
        let here = live.here(&plan, "trip-1", 1, "main").unwrap();
        let moved = ["Ann", "Bo"].map(|id| {
            let held = Grabbed::take(&here, &reference(ThingKind::Person, id)).unwrap();
            held.moved(&here, vec2(0.5, 0.25))
        });
        let edits = together(&plan.trips[0], moved.into_iter().flatten().collect());
        assert_eq!(edits.len(), 1, "{edits:?}");
        let plan = Arc::make_mut(&mut plan);
        plan.apply(&edits[0]).unwrap();
        let days = DayState::of_trip(plan, &plan.trips[0]);
        let places = |part: usize| days[part].people.iter().map(|state| state.person.at);
        assert_eq!(places(0).collect::<Vec<_>>(), [[2.0, 0.0], [3.0, 0.0]]);
        assert_eq!(places(1).collect::<Vec<_>>(), [[2.5, 0.25], [3.5, 0.25]]);
    }
}
