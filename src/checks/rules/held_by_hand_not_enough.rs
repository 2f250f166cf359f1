//! `U103`: a cylinder is held by hand, but not well enough.

use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::security::{self, HAND_N, Security, Why};
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::layout::{Placing, ThingKind};

declare_check! {
    /// ## What it checks
    /// That whoever holds a cylinder by hand is named and on that deck, stands within 0.8 m of it, holds
    /// nothing else, needs at most 150 N at the valve, and that the boat is not running.
    ///
    /// ## Why it matters
    /// A hand holds one cylinder for a short while in a gentle motion, and no longer: the first thing a
    /// person does when the boat lurches is to hold on to something else.
    ///
    /// ## Source
    /// Common practice, no source (reach, force and one cylinder for each person).
    pub static HELD_BY_HAND_NOT_ENOUGH = {
        code: "U103",
        name: "held-by-hand-not-enough",
        summary: "a cylinder is held by hand, but not well enough",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=2/6; person Ann crew 1.9,0; hold P1 1.5,0 by=Ann",
            "deck 3x2; drifting roll=2/6; person Ann crew 1.9,0; hold P1 1.5,0 by=Ann",
        ],
        run: held_by_hand_not_enough,
        cures: propose::secure,
    }
}

fn held_by_hand_not_enough(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for cylinder in &ctx.numbers.cylinders {
        let Security::Unsecured(Why::BadlyHeld(fault)) = security::of(ctx, cylinder) else {
            continue;
        };
        let id = &cylinder.cylinder;
        let signal = if ctx.under_way() || security::goes(cylinder) {
            Signal::Danger
        } else {
            Signal::Warning
        };
        let mut about = vec![ctx.subject(ThingKind::Cylinder, id)];
        if let Some(Placing::HeldByHand { by, .. }) = ctx.state(id).map(|state| &state.placing) {
            about.push(ctx.subject(ThingKind::Person, by));
        }
        let sentence = format!(
            "{id} is held by hand, and that is not enough: {fault}; let go, {}{}",
            words::goes_at(&cylinder.limit, &ctx.numbers.motion),
            words::leaning_slowly(cylinder),
        );
        findings.push(
            Finding::new(&HELD_BY_HAND_NOT_ENOUGH, ctx, signal, about, sentence)
                .at_cylinder(cylinder)
                .measured("pull at the valve", cylinder.hand_force_n, HAND_N, "N")
                .fold_as("U101/secure".to_owned()),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    const HELD: &str = "person Ann crew 3.5,0; hold P1 3,0 by=Ann";

    #[test]
    fn somebody_beside_it_is_enough_in_a_gentle_motion() {
        silent(&format!("deck 6x3; drifting roll=2/6; {HELD}"), "U1");
    }

    #[test]
    fn never_while_running() {
        fires(
            &format!("deck 6x3; running roll=2/6; {HELD}"),
            "DANGER U103 P1 Ann",
        );
    }

    #[test]
    fn an_arm_is_so_long() {
        let far = "deck 6x3; drifting roll=2/6; person Ann crew 3.81,0; hold P1 3,0 by=Ann";
        says(far, "U103", "Ann is 0.81 m away");
        let near = "deck 6x3; drifting roll=2/6; person Ann crew 3.79,0; hold P1 3,0 by=Ann";
        silent(near, "U1");
    }

    #[test]
    fn nobody_holds_two() {
        says(
            &format!("deck 6x3; drifting roll=2/6; {HELD}; hold P2 3.5,0.3 by=Ann"),
            "U103",
            "holds P2 as well",
        );
    }

    #[test]
    fn a_stranger_holds_nothing() {
        says(
            "deck 6x3; drifting roll=2/6; hold P1 3,0 by=Bob",
            "U103",
            "not among the people",
        );
        says(
            "deck 6x3; drifting roll=2/6; person Bob crew 3,0.3 is=below; hold P1 3,0 by=Bob",
            "U103",
            "not on that deck",
        );
    }

    #[test]
    fn a_hand_is_so_strong() {
        says(
            "deck 6x3; drifting roll=45/4; person Ann crew 3.5,0
             hold B1 3,0 by=Ann kind=bank-50l-200",
            "U103",
            "a person keeps up 15 kg of pull (0.15 kN)",
        );
    }
}
