use egui::Ui;

use super::super::super::Editor;
use super::super::super::stores::{GEAR, PLACES, ROLES};
use super::super::super::words::card as words;
use super::super::super::words::stores as names;
use super::super::fields::{self, Number};
use super::{Changed, Units};
use crate::engine::numbers::TightSpot;
use crate::layout::{Gear, GearShape, Person, Place, Posture, Walkway};
use crate::units::Quantity;

/// The properties of a place; returns the field that was changed.
pub(super) fn place_ui(ui: &mut Ui, units: Units, place: &mut Place) -> Option<&'static str> {
    let mut changed = Changed::default();
    fields::grid(ui, "place", |ui| {
        changed.note(
            "name",
            fields::optional_text(ui, words::NAME, &mut place.name),
        );
        let kinds = PLACES.map(|kind| (kind, names::place(kind).to_owned()));
        changed.note(
            "kind",
            fields::choice(ui, words::KIND, &mut place.kind, &kinds),
        );
        changed.note("at", fields::point(ui, units, &mut place.at));
    });
    changed.0
}

/// How wide a walkway is, and where it is tight.
pub(super) fn walkway_numbers_ui(ui: &mut Ui, editor: &Editor, walkway: &Walkway) {
    let Some(here) = editor.here() else { return };
    let numbers = here.numbers.and_then(|numbers| {
        let mut list = numbers.walkways.iter();
        list.find(|item| item.walkway == walkway.id)
    });
    let Some(numbers) = numbers else { return };
    let units = editor.settings.units;
    let length = |value: f64| Quantity::Length.show(value, units);
    fields::grid(ui, "walkway numbers", |ui| {
        // Without a tight spot it is as wide as is measured, or wider.
        let width = |value: f64, spot: Option<&TightSpot>| match spot {
            Some(_) => length(value),
            None => words::or_more(&length(value)),
        };
        let clear = width(numbers.clear_m, numbers.clear_spot.as_ref());
        fields::told(ui, words::CLEAR, &clear);
        let low = numbers.clear_of_low_spot.as_ref();
        let of_low = width(numbers.clear_of_low_m, low);
        fields::told(ui, words::CLEAR_OF_LOW, &of_low);
        let alone = width(numbers.boat_clear_m, numbers.boat_spot.as_ref());
        fields::told(ui, words::BOAT_ALONE, &alone);
        let wanted = words::wanted(&length(numbers.wanted_m), &numbers.wanted_source);
        fields::told(ui, words::CLEAR_WIDTH, &wanted);
        if let Some(spot) = &numbers.clear_spot {
            fields::told(ui, words::TIGHT_SPOT, &words::between(&spot.between));
        }
    });
    ui.separator();
}

/// The properties of a walkway; returns the field that was changed.
pub(super) fn walkway_ui(ui: &mut Ui, units: Units, walkway: &mut Walkway) -> Option<&'static str> {
    let mut changed = Changed::default();
    fields::grid(ui, "walkway", |ui| {
        changed.note(
            "name",
            fields::optional_text(ui, words::NAME, &mut walkway.name),
        );
        fields::told(ui, words::FROM, &walkway.from);
        fields::told(ui, words::TO, &walkway.to);
        let width = Number::new(words::CLEAR_WIDTH, "clear_width_m", Quantity::Length);
        let value = &mut walkway.clear_width_m;
        let width = fields::optional(ui, width, units, value, words::BY_RULE);
        changed.note("width", width);
        let headroom = Number::new(words::HEADROOM, "headroom_m", Quantity::Length);
        let value = &mut walkway.headroom_m;
        let headroom = fields::optional(ui, headroom, units, value, words::NOT_CHECKED);
        changed.note("headroom", headroom);
        for corner in &mut walkway.line {
            changed.note("corner", fields::point(ui, units, corner));
        }
    });
    changed.0
}

/// The properties of gear; returns the field that was changed.
pub(super) fn gear_ui(ui: &mut Ui, units: Units, gear: &mut Gear) -> Option<&'static str> {
    let mut changed = Changed::default();
    fields::grid(ui, "gear", |ui| {
        changed.note(
            "name",
            fields::optional_text(ui, words::NAME, &mut gear.name),
        );
        let kinds = GEAR.map(|kind| (kind, names::gear(kind).to_owned()));
        changed.note(
            "kind",
            fields::choice(ui, words::KIND, &mut gear.kind, &kinds),
        );
        floor_ui(ui, units, &mut gear.floor, &mut changed);
        let height = Number::new(words::HEIGHT, "height_m", Quantity::SmallLength);
        changed.note(
            "height",
            fields::number(ui, height, units, &mut gear.height_m),
        );
        let mass = Number::new(words::MASS, "mass_kg", Quantity::Mass);
        changed.note("mass", fields::number(ui, mass, units, &mut gear.mass_kg));
        changed.note("stowed", fields::flag(ui, words::STOWED, &mut gear.stowed));
    });
    changed.0
}

fn floor_ui(ui: &mut Ui, units: Units, floor: &mut GearShape, changed: &mut Changed) {
    let number = |name, field| Number::new(name, field, Quantity::SmallLength);
    match floor {
        GearShape::Round { at, radius_m } => {
            changed.note("at", fields::point(ui, units, at));
            let radius = number(words::RADIUS, "radius_m");
            changed.note("radius", fields::number(ui, radius, units, radius_m));
        }
        GearShape::Box {
            at,
            length_m,
            width_m,
            turn_deg,
        } => {
            changed.note("at", fields::point(ui, units, at));
            let length = number(words::LENGTH, "length_m");
            changed.note("length", fields::number(ui, length, units, length_m));
            let width = number(words::WIDTH, "width_m");
            changed.note("width", fields::number(ui, width, units, width_m));
            let turn = Number::new(words::FACES, "turn_deg", Quantity::Angle);
            changed.note("turn", fields::number(ui, turn, units, turn_deg));
        }
        GearShape::Line {
            points,
            thickness_m,
        } => {
            let thick = number(words::THICKNESS, "thickness_m");
            changed.note("thickness", fields::number(ui, thick, units, thickness_m));
            for point in points {
                changed.note("corner", fields::point(ui, units, point));
            }
        }
    }
}

/// The properties of somebody; returns the field that was changed.
pub(super) fn person_ui(ui: &mut Ui, units: Units, person: &mut Person) -> Option<&'static str> {
    let mut changed = Changed::default();
    fields::grid(ui, "person", |ui| {
        let roles = ROLES.map(|role| (role, names::role(role).to_owned()));
        changed.note(
            "role",
            fields::choice(ui, words::ROLE, &mut person.role, &roles),
        );
        let postures = [
            Posture::Standing,
            Posture::Seated,
            Posture::SeatedKitted,
            Posture::Kneeling,
            Posture::Lying,
            Posture::InWater,
            Posture::Below,
            Posture::Ashore,
        ];
        let postures = postures.map(|posture| (posture, words::posture(posture).to_owned()));
        let value = &mut person.posture;
        changed.note(
            "posture",
            fields::choice(ui, words::POSTURE, value, &postures),
        );
        changed.note("at", fields::point(ui, units, &mut person.at));
        let faces = Number::new(words::FACES, "faces_deg", Quantity::Angle);
        changed.note(
            "faces",
            fields::number(ui, faces, units, &mut person.faces_deg),
        );
        changed.note("fins", fields::flag(ui, words::FINS, &mut person.fins));
        let mass = Number::new(words::MASS, "mass_kg", Quantity::Mass);
        let value = &mut person.mass_kg;
        let mass = fields::optional(ui, mass, units, value, words::USUAL_MASS);
        changed.note("mass", mass);
    });
    changed.0
}
