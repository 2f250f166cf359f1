//! `T204`: cylinders lean on a fixture together that is too weak for all of them, or nobody knows.

use super::cylinder_goes::told_as_unsecured;
use super::needs;
use crate::checks::check::{declare_check, no_cure};
use crate::checks::draft::grade;
use crate::checks::{CheckContext, Finding, Signal, figures, words};
use crate::engine::numbers::BackingNumbers;
use crate::layout::{Id, ThingKind};

declare_check! {
    /// ## What it checks
    /// That a bulwark, bench front or tube that backs cylinders takes the push of all that lean on it
    /// towards the same side in the same load case. Where nobody knows what it takes, the finding says what
    /// is needed of it.
    ///
    /// By itself each has the part of the strength that goes with its mass among them; where that is too
    /// little for it, it is told as T201, Y501 or Y503, too. So is one that leans there alone.
    ///
    /// ## Why it matters
    /// A panel that holds one cylinder goes with six, and all six go with it.
    ///
    /// ## Source
    /// The sum of what each needs by the balance of forces and moments (docs/method.md, standing free).
    pub static BACKING_TOO_WEAK = {
        code: "T204",
        name: "backing-too-weak",
        summary: "what cylinders lean on is too weak for all of them",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=25/4; fixture B bulwark 0.5..2.5,0.5..0.6 h=0.6 backing=0.2
             lie P1 0.6,0.4 cap onkit towards=0; lie P2 1.5,0.4 cap onkit towards=0
             lie P3 2.4,0.4 cap onkit towards=0",
            "deck 3x2; running roll=25/4; fixture B bulwark 0.5..2.5,0.5..0.6 h=0.6 backing=5
             lie P1 0.6,0.4 cap onkit towards=0; lie P2 1.5,0.4 cap onkit towards=0
             lie P3 2.4,0.4 cap onkit towards=0",
        ],
        run: backing_too_weak,
        cures: no_cure,
    }
}

fn backing_too_weak(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for numbers in &ctx.numbers.backings {
        let unsecured = |id: &&Id| {
            ctx.cylinder(id)
                .is_some_and(|cylinder| told_as_unsecured(ctx, cylinder))
        };
        // Who is told as unsecured anyway leans, but asks for nothing of its own.
        let asks = numbers.behind.iter().any(|id| !unsecured(&id));
        if asks && numbers.push_n > 0.0 {
            findings.extend(judged(ctx, numbers));
        }
    }
}

fn judged(ctx: &CheckContext<'_>, numbers: &BackingNumbers) -> Option<Finding> {
    let check = &BACKING_TOO_WEAK;
    let fixture = ctx.plan.boat.fixture(&numbers.fixture)?;
    let subject = ctx.subject(ThingKind::Fixture, &numbers.fixture);
    let behind = numbers.behind.as_slice();
    let at = (behind.first().and_then(|id| ctx.cylinder(id))).map(|cylinder| cylinder.at);
    let place = |finding: Finding| match at {
        Some(at) => finding.on(&fixture.deck, at),
        None => finding,
    };
    let Some(strength) = numbers.strength_n else {
        let what = format!("the side of {}", subject.name);
        let by = (numbers.push_n, behind);
        return Some(place(needs::strength_not_known(
            check, ctx, subject, &what, by,
        )));
    };
    let share = numbers.push_n / strength;
    let signal = grade(share, ctx.numbers.motion.warning_from).filter(|_| behind.len() > 1)?;
    let sentence = format!(
        "{} lean on {} together with {}, and it takes {}",
        words::list_in_order(behind),
        subject.name,
        figures::pull(numbers.push_n),
        figures::pull(strength),
    );
    let mut about = vec![subject];
    about.extend(ctx.subjects(ThingKind::Cylinder, behind));
    let finding = Finding::new(check, ctx, signal, about, sentence);
    Some(place(finding.measured(
        "push on the fixture",
        numbers.push_n,
        strength,
        "N",
    )))
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    fn three(backing: &str) -> String {
        format!(
            "deck 6x3; running roll=25/4; fixture B bulwark 1..5,1..1.1 h=0.6 backing={backing}
             lie P1 1.4,0.9 towards=0 onkit; lie P2 2.6,0.9 towards=0 onkit; lie P3 3.8,0.9 towards=0 onkit"
        )
    }

    #[test]
    fn what_holds_one_does_not_hold_three() {
        fires(&three("0.2"), "DANGER T204 B P1 P2 P3");
        silent(&three("5"), "T204");
        // One alone is held; of three each has a third of it, and that is too little.
        let one = "deck 6x3; running roll=25/4; fixture B bulwark 1..5,1..1.1 h=0.6 backing=0.2
                   lie P2 2.6,0.9 towards=0 onkit";
        silent(one, "Y501");
        silent(one, "T204");
        for id in ["P1", "P2", "P3"] {
            says(&three("0.2"), "Y501", &format!("{id} rolls away to port"));
        }
    }

    #[test]
    fn on_opposite_sides_they_do_not_lean_together() {
        silent(
            "deck 6x4; running roll=25/4; fixture B bulwark 1..5,0..0.1 h=0.6 backing=0.2
             lie P1 2,-0.1 towards=0 onkit; lie P2 4,0.2 towards=0 onkit",
            "T204",
        );
    }

    #[test]
    fn what_nobody_knows_needs_the_sum() {
        fires(&three("?"), "CAUTION T204 B P1 P2 P3 not known");
        says(&three("?"), "T204", "kg of pull");
    }
}
