//! Who does the work on deck.

use crate::geometry::Elementary as _;
use crate::layout::{Condition, DayState, Id, Part, Person, Point, Posture, Role};

/// Those who have a hand free for work on deck: on deck before the part begins or in it.
pub(super) struct Hands {
    people: Vec<Person>,
    /// Who is in the water or ashore when the part has begun.
    gone: Vec<Id>,
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
        let now = now.people.iter().map(|state| &state.person);
        let is_gone =
            |person: &&Person| matches!(person.posture, Posture::InWater | Posture::Ashore);
        Self {
            people,
            gone: now.filter(is_gone).map(|it| it.id.clone()).collect(),
            running: part.condition == Condition::Running,
        }
    }

    /// From then on those count no more who have gone into the water or ashore.
    pub(super) fn without_those_who_went(&mut self) {
        let gone = std::mem::take(&mut self.gone);
        self.people.retain(|person| !gone.contains(&person.id));
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
            let distance = at.map_or(0.0, |at| {
                (person.at[0] - at[0]).hypotenuse(person.at[1] - at[1])
            });
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture;

    /// Who does something at a point in the second part of a day with these people.
    fn who(people: &str, second: &str, at: Point) -> Option<Id> {
        let plan = fixture::plan(&format!("deck 8x4; {people}; fast; {second}")).unwrap();
        let trip = &plan.trips[0];
        let days = DayState::of_trip(&plan, trip);
        Hands::of(&trip.parts[1], &days[0], &days[1]).at(Some("main"), Some(at))
    }

    #[test]
    fn crew_come_before_the_skipper_and_divers_and_passengers_never() {
        let all = "person Sue skipper 1,0; person Kim crew 6,0; person Ann diver 1,0.5; person Pat passenger 1,0.2";
        assert_eq!(who(all, "drifting", [1.0, 0.0]).as_deref(), Some("Kim"));
        let without_crew =
            "person Sue skipper 6,0; person Ann diver 1,0.5; person Pat passenger 1,0.2";
        assert_eq!(
            who(without_crew, "drifting", [1.0, 0.0]).as_deref(),
            Some("Sue")
        );
        // Under way the skipper steers.
        assert_eq!(
            who(without_crew, "running", [1.0, 0.0]).as_deref(),
            Some("Ann")
        );
        let passenger = "person Sue skipper 6,0; person Pat passenger 1,0.2";
        assert_eq!(who(passenger, "running", [1.0, 0.0]), None);
    }

    #[test]
    fn of_equals_the_nearest_and_then_the_first_by_name() {
        let two = "person Kim crew 6,0; person Lee mate 2,0";
        assert_eq!(who(two, "drifting", [1.0, 0.0]).as_deref(), Some("Lee"));
        assert_eq!(who(two, "drifting", [7.0, 0.0]).as_deref(), Some("Kim"));
        assert_eq!(who(two, "drifting", [4.0, 0.0]).as_deref(), Some("Kim"));
    }

    /// A diver who goes in opens the strap before and cannot shut it after.
    #[test]
    fn who_has_gone_into_the_water_shuts_nothing() {
        let plan = fixture::plan(
            "deck 8x4; person Ann diver 1,0; fast; drifting; person Ann diver 1,0 is=in_water",
        )
        .unwrap();
        let trip = &plan.trips[0];
        let days = DayState::of_trip(&plan, trip);
        let mut hands = Hands::of(&trip.parts[1], &days[0], &days[1]);
        assert_eq!(hands.at(Some("main"), None).as_deref(), Some("Ann"));
        hands.without_those_who_went();
        assert_eq!(hands.at(Some("main"), None), None);
    }

    #[test]
    fn who_sits_with_kit_on_or_lies_has_no_hand_free() {
        let kitted = "person Ann diver 1,0 is=seated_kitted; person Kim crew 2,0 is=lying";
        assert_eq!(who(kitted, "drifting", [1.0, 0.0]), None);
    }

    /// Before a night with nobody on deck those of the evening do the work, and nobody who comes on deck only then.
    #[test]
    fn before_nobody_is_on_deck_those_of_before_do_it() {
        let kim = "person Kim crew 2,0; person Lee crew 1,0 is=below";
        let night = "running nobody; person Kim crew 2,0 is=below; person Lee crew 1,0 is=standing";
        assert_eq!(who(kim, night, [1.0, 0.0]).as_deref(), Some("Kim"));
        let day = "running; person Kim crew 2,0 is=below; person Lee crew 1,0 is=standing";
        assert_eq!(who(kim, day, [1.0, 0.0]).as_deref(), Some("Lee"));
    }
}
