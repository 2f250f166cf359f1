//! Who does the work on deck.

use crate::layout::{Condition, DayState, Id, Part, Person, Point, Posture, Role};

/// Those who have a hand free for work on deck: on deck before the part begins or in it.
pub(super) struct Hands {
    people: Vec<Person>,
    running: bool,
}

impl Hands {
    /// Of a part of the day. Before a part with nobody on deck, those of the part before do the work.
    pub(super) fn of(part: &Part, before: &DayState, now: &DayState) -> Self {
        let can = |person: &&Person| person.is_on_deck() && person.posture != Posture::Lying;
        let of = |day: &DayState| {
            let people = day.people.iter().map(|state| &state.person);
            let mut people: Vec<Person> = people.filter(can).cloned().collect();
            people.sort_by(|a, b| a.id.cmp(&b.id));
            people
        };
        let mut people = of(before);
        if !part.nobody_on_deck {
            for person in of(now) {
                if !people.iter().any(|old| old.id == person.id) {
                    people.push(person);
                }
            }
        }
        Self {
            people,
            running: part.condition == Condition::Running,
        }
    }

    /// Whoever does something here: crew before the mate's skipper, divers only where nobody else is; passengers
    /// never, and the skipper not while the boat is running. Of equals the nearest, then the first by name.
    pub(super) fn at(&self, deck: Option<&str>, at: Option<Point>) -> Option<Id> {
        let rank = |person: &Person| match person.role {
            Role::Crew | Role::Mate => Some(0),
            Role::Skipper => (!self.running).then_some(1),
            Role::Diver => (person.posture != Posture::SeatedKitted).then_some(2),
            Role::Passenger => None,
        };
        let away = |person: &Person| {
            let on_it = deck.is_none_or(|deck| deck == person.deck);
            let distance = at.map_or(0.0, |at| (person.at[0] - at[0]).hypot(person.at[1] - at[1]));
            (!on_it, distance)
        };
        let able = self
            .people
            .iter()
            .filter_map(|person| Some((rank(person)?, person)));
        let first = able.min_by(|a, b| {
            let (a_away, b_away) = (away(a.1), away(b.1));
            let order = a.0.cmp(&b.0).then(a_away.0.cmp(&b_away.0));
            order
                .then(a_away.1.total_cmp(&b_away.1))
                .then_with(|| a.1.id.cmp(&b.1.id))
        });
        first.map(|(_, person)| person.id.clone())
    }
}
