//! The boat: decks, fixtures, places, walkways, lashing points.

use super::floor::{Decks, check_deck, check_outline};
use super::names::{Names, check_unique};
use super::{Field, Report, contents, rack, sea, underlay};
use crate::geometry::tolerances::SAME_POINT_M;
use crate::geometry::vec2;
use crate::layout::{Boat, Fixture, Walkway};

pub(super) fn check(boat: &Boat, report: &mut Report) {
    macro_rules! unique {
        ($list:ident, $what:literal) => {
            let ids = boat.$list.iter().map(|thing| thing.id.as_str());
            check_unique(
                ids,
                format_args!(concat!("boat.", stringify!($list))),
                $what,
                report,
            );
        };
    }
    unique!(decks, "deck");
    unique!(fixtures, "fixture");
    unique!(places, "place");
    unique!(walkways, "walkway");
    unique!(racks, "rack");
    unique!(lashing_points, "lashing point");

    if boat.decks.is_empty() {
        report.add(
            "boat.decks",
            "the boat has no deck",
            "add one with its outline: everything stands on a deck",
        );
    }
    check_waterline(boat, report);
    let things = (boat.fixtures.iter().map(|thing| &thing.id))
        .chain(boat.places.iter().map(|thing| &thing.id))
        .chain(boat.walkways.iter().map(|thing| &thing.id))
        .chain(boat.racks.iter().map(|thing| &thing.id))
        .chain(boat.lashing_points.iter().map(|thing| &thing.id));
    let things = Names::new("thing of the boat", things.map(String::as_str));
    for (i, id) in boat.locked.iter().enumerate() {
        things.check(id, format!("boat.locked[{i}]"), report);
    }
    sea::check_boat(boat, report);
    for (i, deck) in boat.decks.iter().enumerate() {
        check_deck(boat, deck, format_args!("boat.decks[{i}]"), report);
        if let Some(underlay) = &deck.underlay {
            underlay::check(underlay, format_args!("boat.decks[{i}].underlay"), report);
        }
    }
    contents::check_surfaces(boat, report);
    let decks = Decks::of(boat);
    for (i, fixture) in boat.fixtures.iter().enumerate() {
        check_fixture(fixture, &decks, format_args!("boat.fixtures[{i}]"), report);
    }
    for (i, place) in boat.places.iter().enumerate() {
        let field = format_args!("boat.places[{i}]");
        decks.check(&place.deck, &[place.at], field, "at", report);
    }
    let places = Names::new("place", boat.places.iter().map(|place| place.id.as_str()));
    for (i, walkway) in boat.walkways.iter().enumerate() {
        let field = format_args!("boat.walkways[{i}]");
        decks.check(&walkway.deck, &walkway.line, field, "line", report);
        check_walkway(walkway, &places, field, report);
    }
    for (i, rack) in boat.racks.iter().enumerate() {
        let field = format_args!("boat.racks[{i}]");
        decks.check(&rack.deck, &[rack.at], field, "at", report);
        rack::check(rack, field, report);
    }
    for (i, lashing_point) in boat.lashing_points.iter().enumerate() {
        let field = format_args!("boat.lashing_points[{i}]");
        decks.check(
            &lashing_point.deck,
            &[lashing_point.at],
            field,
            "at",
            report,
        );
    }
}

fn check_waterline(boat: &Boat, report: &mut Report) {
    if let Some(waterline) = boat.waterline_length_m
        && waterline > boat.length_overall_m
    {
        report.add(
            "boat.waterline_length_m",
            format!(
                "the waterline, {waterline} m, is longer than the boat, {} m",
                boat.length_overall_m
            ),
            "measure both again; one of them may be in feet",
        );
    }
    if boat.beam_m > boat.length_overall_m {
        report.add(
            "boat.beam_m",
            format!(
                "the boat is wider, {} m, than long, {} m",
                boat.beam_m, boat.length_overall_m
            ),
            "the two may be swapped",
        );
    }
}

fn check_fixture(fixture: &Fixture, decks: &Decks<'_>, place: Field<'_>, report: &mut Report) {
    decks.check(&fixture.deck, &fixture.outline, place, "outline", report);
    check_outline(&fixture.outline, format_args!("{place}.outline"), report);
    if !fixture.opens_over.is_empty() {
        let field = format_args!("{place}.opens_over");
        check_outline(&fixture.opens_over, field, report);
        if decks.names.contains(&fixture.deck) {
            decks.check_near(&fixture.deck, &fixture.opens_over, field, report);
        }
    }
    if fixture.underside_m > fixture.height_m {
        report.add(
            format_args!("{place}.underside_m"),
            format!(
                "the underside, {} m, is above the top, {} m",
                fixture.underside_m, fixture.height_m
            ),
            "both count from the deck; the two may be swapped",
        );
    }
    let mut seen = Vec::new();
    for (i, condition) in fixture.must_stay_open.iter().enumerate() {
        if seen.contains(condition) {
            report.add(
                format_args!("{place}.must_stay_open[{i}]"),
                "the condition stands here twice",
                "take one out",
            );
        }
        seen.push(*condition);
    }
}

fn check_walkway(walkway: &Walkway, places: &Names<'_>, place: Field<'_>, report: &mut Report) {
    let from = places.check(&walkway.from, format_args!("{place}.from"), report);
    let to = places.check(&walkway.to, format_args!("{place}.to"), report);
    if from && to && walkway.from == walkway.to {
        report.add(
            format_args!("{place}.to"),
            format!("the walkway leads from {:?} back to it", walkway.from),
            "name the place at its other end",
        );
    }
    for (i, pair) in walkway.line.windows(2).enumerate() {
        let [[x, y], [next_x, next_y]] = [pair[0], pair[1]];
        if vec2(x, y).distance(vec2(next_x, next_y)) < SAME_POINT_M {
            report.add(
                format_args!("{place}.line[{}]", i + 1),
                format!("points {} and {} of the line are the same", i + 1, i + 2),
                "leave one of the two out",
            );
        }
    }
}
