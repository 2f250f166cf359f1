//! `F701`: a cylinder that goes falls on somebody.

use super::falling::{self, falls, struck};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal};
use crate::engine::numbers::StruckKind;

declare_check! {
    /// ## What it checks
    /// Who is within the reach of a cylinder that goes over within the motion, or that stands unsecured.
    ///
    /// ## Why it matters
    /// A full cylinder falls with some 40 J, a storage cylinder with ten times that: feet, hands and heads
    /// break.
    ///
    /// ## Source
    /// Geometry of the fall from its tipping edge, 30° to each side of where it goes, and its energy when it
    /// is down (docs/method.md, falling).
    pub static FALLS_ON_PEOPLE = {
        code: "F701",
        name: "falls-on-people",
        summary: "a cylinder that goes falls on somebody",
        signal: Signal::Danger,
        pictures: [
            "deck 3x3; drifting roll=15/4; stand P1 1.5,0; person Ann crew 1.5,0.6 is=seated
             person Bob crew 1.5,-0.6 is=seated",
            "deck 3x3; drifting roll=15/4; stand P1 2.5,0; person Ann crew 0.4,0 is=seated faces=180",
        ],
        run: falls_on_people,
        cures: propose::secure,
    }
}

fn falls_on_people(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (fall, cylinder) in falls(ctx) {
        let mut people = struck(ctx, &fall, &[StruckKind::Person]);
        let rolled_onto = falling::rolled_onto(ctx, &fall);
        let how_far = falling::how_far(&fall);
        let signal = falling::signal(cylinder, Signal::Danger);
        // A bottle that comes rolling gives a moment to get the feet away.
        let (signal, sentence) = match (people.is_empty(), rolled_onto.is_empty()) {
            (true, true) => continue,
            (false, true) => (
                signal,
                format!(
                    "{} falls on {}: {how_far}",
                    cylinder.cylinder,
                    falling::names(&people)
                ),
            ),
            (false, false) => (
                signal,
                format!(
                    "{} falls on {}: {how_far}; then it rolls on to {}",
                    cylinder.cylinder,
                    falling::names(&people),
                    falling::names(&rolled_onto)
                ),
            ),
            (true, false) => (
                signal.min(Signal::Warning),
                format!(
                    "{} falls and rolls on to {}: {how_far}",
                    cylinder.cylinder,
                    falling::names(&rolled_onto)
                ),
            ),
        };
        people.extend(rolled_onto);
        let fallen = (cylinder, fall.as_slice(), people);
        findings.push(falling::finding(
            &FALLS_ON_PEOPLE,
            ctx,
            signal,
            fallen,
            sentence,
        ));
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    const SEATS: &str = "person Ann crew 3,0.6 is=seated; person Bob crew 3,-0.6 is=seated";

    #[test]
    fn beside_a_free_cylinder() {
        let text = format!("deck 6x4; drifting roll=15/4; stand P1 3,0; {SEATS}");
        fires(&text, "DANGER F701 P1");
    }

    #[test]
    fn nobody_near_or_well_secured() {
        silent(
            "deck 6x4; drifting roll=15/4; stand P1 3,0; person Ann crew 5.5,1.5",
            "F701",
        );
        silent(
            &format!(
                "deck 6x4; drifting roll=5/6; rack R1 sockets 3,0 foot; slot P1 R1/1; {SEATS}"
            ),
            "F701",
        );
    }
}
