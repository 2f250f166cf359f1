//! `E907`: a heavy cylinder is lifted by hand.

use crate::catalogue::published::LIFT_MEN_KG;
use crate::checks::check::{declare_check, no_cure};
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// Which cylinders over 25 kg change their place at the start of a part of the day.
    ///
    /// ## Why it matters
    /// On a moving deck two people lift what one could lift ashore.
    ///
    /// ## Source
    /// HSE INDG143 (guideline weights, close to the body at waist height: 25 kg for men, 16 kg for women; a
    /// filter for a closer look, not a limit).
    pub static HEAVY_LIFT_BY_HAND = {
        code: "E907",
        name: "heavy-lift-by-hand",
        summary: "a cylinder over 25 kg is moved",
        signal: Signal::Notice,
        pictures: [
            "deck 3x2; lie B1 1.5,0.5 cap saddle=60 kind=bank-50l-200; fast a roll=1/8; fast b roll=1/8
             lie B1 1.5,-0.5 saddle=60",
            "deck 3x2; lie P1 1.5,0.5 cap saddle=60; fast a roll=1/8; fast b roll=1/8
             lie P1 1.5,-0.5 saddle=60",
        ],
        run: heavy_lift_by_hand,
        cures: no_cure,
    }
}

fn heavy_lift_by_hand(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for state in ctx.day.cylinders.iter().filter(|state| state.moved) {
        let id = &state.cylinder.id;
        let Some(cylinder) = ctx.cylinder(id) else {
            continue;
        };
        if cylinder.mass_kg <= LIFT_MEN_KG {
            continue;
        }
        let sentence = format!(
            "{id} is moved and weighs {}: more than {}, so two people or a tackle",
            figures::kilograms(cylinder.mass_kg),
            figures::kilograms(LIFT_MEN_KG),
        );
        let about = vec![ctx.subject(ThingKind::Cylinder, id)];
        findings.push(
            Finding::new(&HEAVY_LIFT_BY_HAND, ctx, Signal::Notice, about, sentence)
                .at_cylinder(cylinder)
                .measured("mass", cylinder.mass_kg, LIFT_MEN_KG, "kg")
                .fold_as("E907/two people".to_owned()),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn moved(kind: &str) -> String {
        format!(
            "deck 6x3; lie B1 3,0.5 saddle=60 kind={kind}; fast a roll=1/8; fast b roll=1/8
             lie B1 3,-0.5 saddle=60"
        )
    }

    #[test]
    fn a_storage_cylinder_is_no_lift_for_one() {
        fires(&moved("bank-50l-200"), "NOTICE E907 B1");
        silent(&moved("al-80cf"), "E907");
    }
}
