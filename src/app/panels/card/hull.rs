//! What the formulas ask of the boat: form of hull, beam, waterline, draught, displacement, GM, roll period.

use egui::Ui;

use super::super::super::words::card as words;
use super::super::fields::{self, Number};
use super::{Changed, Units};
use crate::layout::{Boat, Hull};
use crate::units::Quantity;

/// The fields, in a grid that is there; tells which was changed. `period` is what the roll period is called here.
pub(in super::super::super) fn hull_ui(
    ui: &mut Ui,
    units: Units,
    boat: &mut Boat,
    period: &'static str,
) -> Option<&'static str> {
    let mut changed = Changed::default();
    let hulls = [
        None,
        Some(Hull::Monohull),
        Some(Hull::TwinHull),
        Some(Hull::Planing),
        Some(Hull::Inflatable),
    ];
    let hulls = hulls.map(|hull| (hull, words::hull(hull).to_owned()));
    changed.note(
        "hull",
        fields::choice(ui, words::HULL, &mut boat.hull, &hulls),
    );
    let length = |name, field| Number::new(name, field, Quantity::Length);
    let beam = length(words::BEAM, "beam_m");
    changed.note("beam", fields::number(ui, beam, units, &mut boat.beam_m));
    let mass = Number::new(words::DISPLACEMENT, "displacement_kg", Quantity::Mass);
    let time = Number::new(period, "roll_period_s", Quantity::Time);
    for (field, number, value) in [
        (
            "waterline",
            length(words::WATERLINE, "waterline_length_m"),
            &mut boat.waterline_length_m,
        ),
        (
            "draught",
            length(words::DRAUGHT, "draught_m"),
            &mut boat.draught_m,
        ),
        ("displacement", mass, &mut boat.displacement_kg),
        ("gm", length(words::GM, "gm_m"), &mut boat.gm_m),
        ("roll period", time, &mut boat.roll_period_s),
    ] {
        let is = fields::optional(ui, number, units, value, words::NOT_SAID);
        changed.note(field, is);
    }
    changed.0
}
