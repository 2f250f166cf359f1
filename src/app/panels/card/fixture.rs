use egui::Ui;

use super::super::super::stores::FIXTURES;
use super::super::super::words::card as words;
use super::super::super::words::stores as names;
use super::super::fields::{self, Number};
use super::{Changed, Units};
use crate::layout::{Fixture, Known, Shelf, Surface};
use crate::units::Quantity;

/// The properties of a fixture; returns the field that was changed.
pub(super) fn fixture_ui(ui: &mut Ui, units: Units, fixture: &mut Fixture) -> Option<&'static str> {
    let mut changed = Changed::default();
    fields::grid(ui, "fixture", |ui| {
        changed.note(
            "name",
            fields::optional_text(ui, words::NAME, &mut fixture.name),
        );
        let kinds = FIXTURES.map(|kind| (kind, names::fixture(kind).to_owned()));
        changed.note(
            "kind",
            fields::choice(ui, words::KIND, &mut fixture.kind, &kinds),
        );
        let height = Number::new(words::HEIGHT, "height_m", Quantity::Length);
        changed.note(
            "height",
            fields::number(ui, height, units, &mut fixture.height_m),
        );
        let underside = Number::new(words::UNDERSIDE, "underside_m", Quantity::Length);
        let value = &mut fixture.underside_m;
        changed.note("underside", fields::number(ui, underside, units, value));
        changed.note(
            "walked",
            fields::flag(ui, words::WALKED_ON, &mut fixture.walked_on),
        );
        let clear = Number::new(words::CLEAR_FLOOR, "clear_floor_m", Quantity::Length);
        let value = &mut fixture.clear_floor_m;
        let clear = fields::optional(ui, clear, units, value, words::NONE_WANTED);
        changed.note("clear floor", clear);
        let backing = Number::new(words::BACKING, "backing_kn", Quantity::Force);
        let value = &mut fixture.backing_kn;
        let backing = fields::optional_known(ui, backing, units, value, words::NO_BACKING);
        changed.note("backing", backing);
        let mut has_shelf = fixture.shelf.is_some();
        if fields::flag(ui, words::SHELF, &mut has_shelf) {
            fixture.shelf = has_shelf.then(|| Shelf {
                surface: Surface::default(),
                load_limit_kg: Known::NotKnown,
            });
            changed.note("shelf", true);
        }
        if let Some(shelf) = &mut fixture.shelf {
            surface_ui(ui, units, &mut shelf.surface, &mut changed);
            let load = Number::new(words::LOAD_LIMIT, "load_limit_kg", Quantity::Mass);
            let value = &mut shelf.load_limit_kg;
            changed.note("load", fields::known(ui, load, units, value));
        }
        for corner in &mut fixture.outline {
            changed.note("corner", fields::point(ui, units, corner));
        }
    });
    changed.0
}

/// What something is made of underfoot.
pub(super) fn surface_ui(ui: &mut Ui, units: Units, surface: &mut Surface, changed: &mut Changed) {
    let known = crate::catalogue::Catalogue::built_in().surfaces().iter();
    let mut kinds: Vec<(String, String)> = known
        .map(|surface| (surface.id.clone(), surface.name.clone()))
        .collect();
    if !kinds.iter().any(|(id, _)| *id == surface.kind) {
        kinds.push((surface.kind.clone(), surface.kind.clone()));
    }
    changed.note(
        "surface",
        fields::choice(ui, words::SURFACE, &mut surface.kind, &kinds),
    );
    changed.note("wet", fields::flag(ui, words::WET, &mut surface.wet));
    let friction = Number::new(words::FRICTION, "friction", Quantity::Plain);
    let value = &mut surface.friction;
    let friction = fields::optional_known(ui, friction, units, value, words::FRICTION_ASSUMED);
    changed.note("friction", friction);
}
