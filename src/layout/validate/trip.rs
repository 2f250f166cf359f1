//! A trip: what is stowed, by whom, with what.

use std::collections::BTreeSet;

use super::floor::Decks;
use super::names::{Names, check_unique};
use super::placing::{BoatNames, References};
use super::{Field, Report};
use super::{briefing, contents, day};
use crate::layout::{Gear, GearShape, Lashing, Person, Posture, Trip};

pub(super) fn check(boat: &BoatNames<'_>, trip: &Trip, place: Field<'_>, report: &mut Report) {
    macro_rules! unique {
        ($list:ident, $what:literal) => {
            let ids = trip.$list.iter().map(|thing| thing.id.as_str());
            let list = format_args!(concat!("{}.", stringify!($list)), place);
            check_unique(ids, list, $what, report);
        };
    }
    unique!(kinds, "kind");
    unique!(materials, "material");
    unique!(gear_aboard, "gear aboard");
    unique!(cylinders, "cylinder");
    unique!(lashings, "lashing");
    unique!(gear, "piece of gear");
    unique!(people, "person");
    unique!(parts, "part of the day");
    if trip.parts.is_empty() {
        report.add(
            format_args!("{place}.parts"),
            "the day has no parts",
            "add one with its \"id\" and \"condition\"; one is enough",
        );
    }

    let things = (trip.cylinders.iter().map(|thing| &thing.id))
        .chain(trip.gear.iter().map(|thing| &thing.id))
        .chain(trip.people.iter().map(|thing| &thing.id));
    let things = Names::new("cylinder, gear or person", things.map(String::as_str));
    for (i, id) in trip.locked.iter().enumerate() {
        things.check(id, format_args!("{place}.locked[{i}]"), report);
    }

    let known = References::of(boat, trip);
    for (i, cylinder) in trip.cylinders.iter().enumerate() {
        let field = format_args!("{place}.cylinders[{i}].placing");
        known.check(&cylinder.id, &cylinder.placing, field, report);
    }
    for (i, lashing) in trip.lashings.iter().enumerate() {
        check_lashing(
            lashing,
            &known,
            format_args!("{place}.lashings[{i}]"),
            report,
        );
    }
    for (i, gear) in trip.gear.iter().enumerate() {
        check_gear(gear, &boat.decks, format_args!("{place}.gear[{i}]"), report);
    }
    for (i, person) in trip.people.iter().enumerate() {
        check_person(
            person,
            &boat.decks,
            format_args!("{place}.people[{i}]"),
            report,
        );
    }
    contents::check(trip, place, report);
    contents::check_materials(trip, place, report);
    day::check(trip, &known, place, report);
    if let Some(briefing) = &trip.briefing {
        briefing::check(
            briefing,
            trip,
            &known,
            format_args!("{place}.briefing"),
            report,
        );
    }
}

fn check_lashing(
    lashing: &Lashing,
    known: &References<'_, '_>,
    place: Field<'_>,
    report: &mut Report,
) {
    known
        .boat
        .lashing_points
        .check(&lashing.from, format_args!("{place}.from"), report);
    known
        .boat
        .lashing_points
        .check(&lashing.to, format_args!("{place}.to"), report);
    check_round(&lashing.round, &known.cylinders, place, report);
    if lashing
        .slack_m
        .is_some_and(|slack| slack.value() != Some(0.0))
        && lashing.pretension_kn.is_some()
    {
        report.add(
            format_args!("{place}.pretension_kn"),
            "a lashing is either slack or tightened, not both",
            "keep \"slack_m\" or \"pretension_kn\", whichever is so",
        );
    }
}

/// Checks the cylinders that a lashing goes round.
pub(super) fn check_round(
    round: &[String],
    cylinders: &Names<'_>,
    place: Field<'_>,
    report: &mut Report,
) {
    let mut seen = BTreeSet::new();
    for (i, cylinder) in round.iter().enumerate() {
        let field = format_args!("{place}.round[{i}]");
        if seen.insert(cylinder) {
            cylinders.check(cylinder, field, report);
        } else {
            report.add(
                field,
                format!("the lashing goes round {cylinder:?} twice"),
                "name each cylinder once; two turns are one lashing",
            );
        }
    }
}

fn check_gear(gear: &Gear, decks: &Decks<'_>, place: Field<'_>, report: &mut Report) {
    if decks
        .names
        .check(&gear.deck, format_args!("{place}.deck"), report)
    {
        check_gear_floor(
            &gear.floor,
            &gear.deck,
            decks,
            format_args!("{place}.floor"),
            report,
        );
    }
}

/// Checks the floor that gear takes on a deck that exists.
pub(super) fn check_gear_floor(
    floor: &GearShape,
    deck: &str,
    decks: &Decks<'_>,
    place: Field<'_>,
    report: &mut Report,
) {
    match floor {
        GearShape::Round { at, .. } | GearShape::Box { at, .. } => {
            decks.check_near(deck, &[*at], format_args!("{place}.at"), report);
        }
        GearShape::Line { points, .. } => {
            decks.check_near(deck, points, format_args!("{place}.points"), report);
        }
    }
}

fn check_person(person: &Person, decks: &Decks<'_>, place: Field<'_>, report: &mut Report) {
    if decks
        .names
        .check(&person.deck, format_args!("{place}.deck"), report)
        && is_on_floor(person.posture)
    {
        let field = format_args!("{place}.at");
        decks.check_near(&person.deck, &[person.at], field, report);
    }
}

/// Is somebody like this somewhere on a deck?
pub(super) fn is_on_floor(posture: Posture) -> bool {
    !matches!(posture, Posture::InWater | Posture::Below | Posture::Ashore)
}
