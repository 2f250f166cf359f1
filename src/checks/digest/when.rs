//! When something stands, in as few words as tell it.

use crate::layout::{Id, Part, Trip};

/// So many parts of the day are named as those in which something does not stand.
const MOST_BUT: usize = 2;

/// The parts of the day in which something stands, as the crew call them.
///
/// `all day`, `all day, but not in Dive two and not in Night`, `Dive one; Dive two`; empty where the day has one part
/// only, or where it stands in none.
pub fn when(trip: &Trip, parts: &[Id]) -> String {
    if trip.parts.len() < 2 {
        return String::new();
    }
    let (of_it, others): (Vec<&Part>, Vec<&Part>) =
        (trip.parts.iter()).partition(|part| parts.contains(&part.id));
    let names = |parts: &[&Part], between: &str| {
        let names: Vec<&str> = parts.iter().map(|part| name(part)).collect();
        names.join(between)
    };
    if of_it.is_empty() {
        String::new()
    } else if others.is_empty() {
        "all day".to_owned()
    } else if others.len() <= MOST_BUT && of_it.len() > others.len() {
        format!("all day, but not in {}", names(&others, " and not in "))
    } else {
        names(&of_it, "; ")
    }
}

/// What the crew call a part of the day.
pub(super) fn name(part: &Part) -> &str {
    part.name.as_deref().unwrap_or(&part.id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture;

    #[test]
    fn each_part_in_which_it_does_not_stand_is_told_as_that() {
        let day = "deck 6x3; fast a; running b; drifting c; anchored d; running e";
        let trip = &fixture::plan(day).unwrap().trips[0];
        let told = |parts: &[&str]| {
            let parts: Vec<Id> = parts.iter().map(|part| (*part).to_owned()).collect();
            when(trip, &parts)
        };
        assert_eq!(told(&["a", "b", "c", "d", "e"]), "all day");
        assert_eq!(told(&["a", "b", "c"]), "all day, but not in d and not in e");
        assert_eq!(told(&["e", "a"]), "a; e");
        assert_eq!(told(&[]), "");
        let one = &fixture::plan("deck 6x3; fast a").unwrap().trips[0];
        assert_eq!(when(one, &["a".to_owned()]), "");
    }
}
