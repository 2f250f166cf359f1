//! Masses and centres of what is aboard in the part of the day shown, the heel and trim that they cause, what
//! the decks carry, and the steady heel of a wind and a turn that are tried. It approves nothing.

use egui::{CollapsingHeader, Grid, Label, RichText, ScrollArea, Ui, vec2};

use super::Editor;
use super::panels::fields::{self, Number};
use super::words::balance as words;
use crate::engine::balance;
use crate::engine::numbers::{BalanceNumbers, MassGroup};
use crate::mechanics::balance::{turn_heel_rad, wind_heel_rad};
use crate::mechanics::seaway::states::KNOT_M_S;
use crate::units::{Quantity, System};

/// Height of the list of single things, in points.
const LIST_HIGH: f32 = 220.0;

/// A steady wind and a steady turn that are tried; they are not of the plan.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(crate) struct Steady {
    wind_kn: f64,
    area_m2: f64,
    wind_lever_m: f64,
    turn_kn: f64,
    radius_m: f64,
    turn_lever_m: f64,
}

impl Default for Steady {
    fn default() -> Self {
        Self {
            wind_kn: 25.0,
            area_m2: 15.0,
            wind_lever_m: 1.5,
            turn_kn: 8.0,
            radius_m: 30.0,
            turn_lever_m: 0.8,
        }
    }
}

impl Steady {
    /// Heel away from the wind, in degrees.
    fn wind_heel_deg(&self, displacement_kg: f64, gm_m: f64) -> f64 {
        let speed = self.wind_kn * KNOT_M_S;
        wind_heel_rad(
            speed,
            self.area_m2,
            self.wind_lever_m,
            displacement_kg,
            gm_m,
        )
        .to_degrees()
    }

    /// Heel outwards in the turn, in degrees.
    fn turn_heel_deg(&self, gm_m: f64) -> f64 {
        let speed = self.turn_kn * KNOT_M_S;
        turn_heel_rad(speed, self.radius_m, self.turn_lever_m, gm_m).to_degrees()
    }
}

pub(crate) fn balance_ui(ui: &mut Ui, editor: &Editor, steady: &mut Steady) {
    let assessor = editor.live.assessor();
    let day = assessor.days().get(editor.part);
    let numbers = assessor.assessment().parts.get(editor.part);
    let (Some(day), Some(numbers)) = (day, numbers) else {
        ui.label(words::NOTHING);
        return;
    };
    let found = balance(editor.plan(), day, numbers);
    let units = editor.settings.units;
    let statement = RichText::new(found.statement).strong();
    ui.add(Label::new(statement).wrap());
    ui.add_space(6.0);
    groups_ui(ui, &found, units);
    CollapsingHeader::new(words::EACH).show(ui, |ui| each_ui(ui, &found, units));
    ui.add_space(8.0);
    heel_ui(ui, &found);
    ui.add_space(8.0);
    ui.columns(2, |columns| {
        let [left, right] = columns else { return };
        // Columns are justified; what stands in them is not.
        left.vertical(|ui| {
            decks_ui(ui, &found, units);
            ui.add_space(8.0);
            ui.strong(words::PASSENGERS);
            ui.label(words::passenger_moment(found.passenger_moment_kg_m));
            ui.add(Label::new(&found.passenger_moment_words).wrap());
        });
        right.vertical(|ui| steady_ui(ui, &found, units, steady));
    });
}

fn groups_ui(ui: &mut Ui, found: &BalanceNumbers, units: System) {
    let all = MassGroup {
        group: words::ALL_TOGETHER,
        count: found.groups.iter().map(|group| group.count).sum(),
        group_mass_kg: found.all_mass_kg,
        centre_m: found.all_centre_m,
    };
    Grid::new("masses")
        .num_columns(6)
        .striped(true)
        .spacing(vec2(18.0, 6.0))
        .show(ui, |ui| {
            for title in words::MASSES {
                ui.strong(title);
            }
            ui.end_row();
            for group in found.groups.iter().chain([&all]) {
                ui.label(words::group(group.group));
                ui.label(group.count.to_string());
                ui.label(Quantity::Mass.show(group.group_mass_kg, units));
                match group.centre_m {
                    Some(centre) => place_ui(ui, centre, units),
                    None => {
                        for _ in 0..3 {
                            ui.label("–");
                        }
                    }
                }
                ui.end_row();
            }
        });
}

/// Forward, aside and up, each in a cell of its own.
fn place_ui(ui: &mut Ui, [x, y, z]: [f64; 3], units: System) {
    ui.label(Quantity::Length.show(x, units));
    let aside = Quantity::Length.show(y.abs(), units);
    ui.label(words::aside(y, &aside));
    ui.label(Quantity::Length.show(z, units));
}

/// Mass and centre of every single thing.
fn each_ui(ui: &mut Ui, found: &BalanceNumbers, units: System) {
    ScrollArea::vertical()
        .id_salt("each mass")
        .max_height(LIST_HIGH)
        .show(ui, |ui| {
            Grid::new("each mass")
                .num_columns(5)
                .striped(true)
                .spacing(vec2(18.0, 4.0))
                .show(ui, |ui| {
                    for item in &found.items {
                        ui.label(&item.thing);
                        ui.label(Quantity::Mass.show(item.thing_mass_kg, units));
                        place_ui(ui, item.thing_centre_m, units);
                        ui.end_row();
                    }
                });
        });
}

/// Heel and trim, each with where GM comes from; nothing without GM.
fn heel_ui(ui: &mut Ui, found: &BalanceNumbers) {
    let from = words::gm(found.gm_m, &found.gm_from);
    let lines = match (found.heel_caused_deg, found.gm_m) {
        (Some(deg), _) => {
            let rail = found.people_at_rail_heel_deg;
            let rail = rail.map(|[port, starboard]| words::at_rail(port, starboard, &from));
            [Some(words::heel(deg, &from)), rail]
        }
        (None, Some(_)) => [Some(words::NO_DISPLACEMENT.to_owned()), None],
        (None, None) => [Some(words::no_heel(&found.gm_from)), None],
    };
    for line in lines.into_iter().flatten() {
        ui.add(Label::new(RichText::new(line).size(16.0)).wrap());
    }
    let trim = match found.trim_caused_deg {
        Some(deg) => words::trim(deg),
        None => words::NO_TRIM.to_owned(),
    };
    ui.add(Label::new(RichText::new(trim).size(16.0)).wrap());
}

fn decks_ui(ui: &mut Ui, found: &BalanceNumbers, units: System) {
    ui.strong(words::DECKS);
    for deck in &found.deck_shares {
        let load = Quantity::AreaLoad.show(deck.greatest_load_kg_per_m2, units);
        let limit = deck
            .load_limit_kg_per_m2
            .map(|limit| Quantity::AreaLoad.show(limit, units));
        let told = words::deck(&deck.deck, deck.share_taken, &load, limit.as_deref());
        ui.add(Label::new(told).wrap());
    }
}

/// Wind and turn: typed here, told with where GM comes from.
fn steady_ui(ui: &mut Ui, found: &BalanceNumbers, units: System, steady: &mut Steady) {
    ui.strong(words::STEADY);
    let length = |name, field| Number::new(name, field, Quantity::Length);
    let from = words::gm(found.gm_m, &found.gm_from);
    fields::grid(ui, "wind", |ui| {
        plain(ui, words::WIND, " kn", 1.0..=120.0, &mut steady.wind_kn);
        plain(ui, words::AREA, " m²", 0.1..=500.0, &mut steady.area_m2);
        let lever = length(words::WIND_LEVER, "height_m");
        fields::number(ui, lever, units, &mut steady.wind_lever_m);
    });
    let wind = found.gm_m.zip(found.displacement_kg);
    let told = match wind {
        Some((gm, mass)) => words::wind(steady.wind_heel_deg(mass, gm), &from),
        None => words::no_wind(found.gm_m.is_some(), &found.gm_from),
    };
    ui.add(Label::new(told).wrap());
    ui.add_space(6.0);
    fields::grid(ui, "turn", |ui| {
        plain(ui, words::SPEED, " kn", 0.0..=60.0, &mut steady.turn_kn);
        plain(
            ui,
            words::TURN_RADIUS,
            " m",
            3.0..=2000.0,
            &mut steady.radius_m,
        );
        let lever = length(words::TURN_LEVER, "height_m");
        fields::number(ui, lever, units, &mut steady.turn_lever_m);
    });
    let told = match found.gm_m {
        Some(gm) => words::turn(steady.turn_heel_deg(gm), &from),
        None => words::no_heel(&found.gm_from),
    };
    ui.add(Label::new(told).wrap());
    ui.weak(words::SMALL_ANGLES);
}

/// A number in a unit that both systems share.
fn plain(
    ui: &mut Ui,
    name: &str,
    unit: &str,
    range: std::ops::RangeInclusive<f64>,
    value: &mut f64,
) {
    let label = ui.add(Label::new(name).wrap());
    let field = egui::DragValue::new(value)
        .range(range)
        .speed(0.1)
        .max_decimals(1)
        .suffix(unit);
    ui.add(field).labelled_by(label.id);
    ui.end_row();
}

#[cfg(test)]
mod tests {
    use super::*;

    /// tan of the heel by hand: 504 Pa at 26 m/s on 15 m², 1.5 m; v² h / g R GM.
    #[test]
    fn wind_and_turn_by_hand() {
        let steady = Steady {
            wind_kn: 26.0 / KNOT_M_S,
            turn_kn: 5.0 / KNOT_M_S,
            ..Steady::default()
        };
        let wind = steady.wind_heel_deg(10_000.0, 0.8).to_radians().tan();
        assert!((wind - 504.0 * 15.0 * 1.5 / (9.80665 * 8_000.0)).abs() < 1e-12);
        let turn = steady.turn_heel_deg(0.8).to_radians().tan();
        assert!((turn - 25.0 * 0.8 / (9.80665 * 30.0 * 0.8)).abs() < 1e-12);
    }
}
