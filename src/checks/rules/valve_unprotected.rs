//! `Y505`: a cylinder lies with its valve unprotected.

use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal};
use crate::engine::numbers::Stance;
use crate::layout::{Fill, ThingKind};

declare_check! {
    /// ## What it checks
    /// That the valve of a lying cylinder with gas in it has a cap, guard or cage while the boat is under
    /// way.
    ///
    /// ## Why it matters
    /// Lying, the valve is what others roll and slide against; knocked off, it turns the cylinder into a
    /// rocket.
    ///
    /// ## Source
    /// 46 CFR 194.20-17 (valve protection on research vessels); 29 CFR 1910.430(e), from memory.
    pub static VALVE_UNPROTECTED = {
        code: "Y505",
        name: "valve-unprotected",
        summary: "a cylinder lies with its valve unprotected",
        signal: Signal::Caution,
        pictures: [
            "deck 3x2; running roll=5/5; lie P1 1.5,0 towards=0 saddle=60",
            "deck 3x2; running roll=5/5; lie P1 1.5,0 towards=0 saddle=60 cap",
        ],
        run: valve_unprotected,
        cures: propose::cap,
    }
}

fn valve_unprotected(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    if !ctx.under_way() {
        return;
    }
    for cylinder in &ctx.numbers.cylinders {
        let lies = matches!(
            cylinder.stance,
            Stance::Lying | Stance::InCradle | Stance::InCrate
        );
        let Some(state) = ctx.state(&cylinder.cylinder) else {
            continue;
        };
        let empty = state
            .pressure_bar
            .map_or(state.fill == Fill::Empty, |bar| bar <= 0.0);
        if !lies || state.valve_protected || empty {
            continue;
        }
        let id = &cylinder.cylinder;
        let sentence = format!("{id} lies with its valve open to knocks");
        let about = vec![ctx.subject(ThingKind::Cylinder, id)];
        findings.push(
            Finding::new(&VALVE_UNPROTECTED, ctx, Signal::Caution, about, sentence)
                .at_cylinder(cylinder)
                .fold_as("Y505/cap".to_owned()),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    #[test]
    fn lying_bare() {
        fires(
            "deck 6x3; running roll=2/8; lie P1 3,0 saddle=60",
            "CAUTION Y505 P1",
        );
    }

    #[test]
    fn capped_empty_or_made_fast() {
        silent(
            "deck 6x3; running roll=2/8; lie P1 3,0 saddle=60 cap",
            "Y505",
        );
        silent(
            "deck 6x3; running roll=2/8; lie P1 3,0 saddle=60 empty",
            "Y505",
        );
        silent("deck 6x3; fast roll=2/8; lie P1 3,0 saddle=60", "Y505");
        silent("deck 6x3; running roll=2/8; stand P1 3,0", "Y505");
    }
}
