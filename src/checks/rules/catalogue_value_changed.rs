//! `N001`: the catalogue has changed since the trip was made.

use crate::catalogue::Catalogue;
use crate::catalogue::kinds::Kind;
use crate::checks::check::{declare_check, no_cure};
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::layout::{BaseForm, CylinderKind};
use crate::mechanics::shell;

declare_check! {
    /// ## What it checks
    /// Whether the cylinder kinds and strap materials that the trip carries differ from the catalogue's
    /// values of today. The trip's own values are used.
    ///
    /// ## Why it matters
    /// A plan that was well with old values need not be with new ones.
    ///
    /// ## Source
    /// The catalogue of this program; each value there says where it comes from.
    pub static CATALOGUE_VALUE_CHANGED = {
        code: "N001",
        name: "catalogue-value-changed",
        summary: "the catalogue has changed since the trip was made",
        signal: Signal::Notice,
        pictures: [
            "deck 3x2; fast roll=1/8; carries al-80cf mass=13; lie P1 1.5,0 cap saddle=60",
            "deck 3x2; fast roll=1/8; carries al-80cf; lie P1 1.5,0 cap saddle=60",
        ],
        run: catalogue_value_changed,
        cures: no_cure,
    }
}

fn catalogue_value_changed(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    if ctx.part_index > 0 {
        return;
    }
    let catalogue = Catalogue::built_in();
    let mut changed: Vec<String> = ctx
        .trip
        .kinds
        .iter()
        .filter_map(|own| {
            let now = catalogue.kind(&own.id)?;
            let what = differences(own, now);
            (!what.is_empty()).then(|| format!("{} ({})", own.id, words::list(&what)))
        })
        .collect();
    changed.extend(ctx.trip.materials.iter().filter_map(|own| {
        let now = catalogue.material(&own.id)?.msl_kn()?.value;
        let was = own.strength_kn.value()?;
        let differs = (was - now).abs() > 1e-9;
        differs.then(|| format!("{} (strength {was} kN, now {now} kN)", own.id))
    }));
    if changed.is_empty() {
        return;
    }
    changed.sort();
    let sentence = format!(
        "The catalogue has changed since this trip was made, and the trip's own values are used: {}",
        words::list(&changed)
    );
    let check = &CATALOGUE_VALUE_CHANGED;
    findings.push(Finding::new(
        check,
        ctx,
        Signal::Notice,
        Vec::new(),
        sentence,
    ));
}

/// What differs, with the old value and the new one.
fn differences(own: &CylinderKind, now: &Kind) -> Vec<String> {
    let numbers = [
        (
            "volume",
            own.water_capacity_l,
            now.water_capacity_l.value,
            "l",
        ),
        (
            "pressure",
            own.working_pressure_bar,
            now.working_pressure_bar.value,
            "bar",
        ),
        (
            "diameter",
            own.outside_diameter_mm,
            now.outside_diameter_mm.value,
            "mm",
        ),
        (
            "length",
            own.length_without_valve_mm,
            now.length_without_valve_mm.value,
            "mm",
        ),
        (
            "mass",
            own.empty_mass_without_valve_kg,
            now.empty_mass_without_valve_kg.value,
            "kg",
        ),
    ];
    let mut what: Vec<String> = numbers
        .into_iter()
        .filter(|(_, was, is, _)| (was - is).abs() > 1e-9)
        .map(|(name, was, is, unit)| format!("{name} {was} {unit}, now {is} {unit}"))
        .collect();
    let round_then = own.base_form == BaseForm::Round;
    let round_now = now.base_form.value == shell::BaseForm::Round;
    if round_then != round_now {
        what.push("form of the bottom".to_owned());
    }
    what
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{says, silent};

    #[test]
    fn an_old_mass_is_told() {
        let lies = "deck 6x3; fast roll=1/8; lie P1 3,0 saddle=60";
        says(
            &format!("{lies}; carries al-80cf mass=13"),
            "N001",
            "mass 13 kg, now",
        );
        silent(&format!("{lies}; carries al-80cf"), "N001");
    }

    #[test]
    fn a_kind_of_ones_own_is_no_change() {
        silent(
            "deck 6x3; fast roll=1/8; carries mine mass=13; lie P1 3,0 saddle=60 kind=mine",
            "N001",
        );
    }
}
