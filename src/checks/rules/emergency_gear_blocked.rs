//! `E901`: emergency gear has no clear floor in front of it.

use super::fitting::{self, in_the_way, movers, names, subject};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, figures, words};
use crate::engine::numbers::FitKind;

declare_check! {
    /// ## What it checks
    /// That the oxygen kit, extinguishers, the liferaft and whatever else asks for it have the clear floor in
    /// front of them that the plan gives.
    ///
    /// ## Why it matters
    /// What is behind twelve cylinders is not aboard when it is needed.
    ///
    /// ## Source
    /// 49 CFR 176.74(d) (fire plugs and hoses stay clear). The depth is the plan's own.
    pub static EMERGENCY_GEAR_BLOCKED = {
        code: "E901",
        name: "emergency-gear-blocked",
        summary: "emergency gear has no clear floor in front of it",
        signal: Signal::Warning,
        pictures: [
            "deck 3x2; fast roll=1/8; fixture O oxygen_kit 1.3..1.7,0.7..1 h=0.3 front=-90 clear=0.6
             gear G crate 1.5,0.4 size=0.4x0.3 h=0.3",
            "deck 3x2; fast roll=1/8; fixture O oxygen_kit 1.3..1.7,0.7..1 h=0.3 front=-90 clear=0.6
             gear G crate 1.5,-0.4 size=0.4x0.3 h=0.3",
        ],
        run: emergency_gear_blocked,
        cures: propose::uncover,
    }
}

fn emergency_gear_blocked(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for ((thing, _), fits) in in_the_way(ctx, &[FitKind::ClearFloor]) {
        let movers = movers(ctx, &fits);
        let gear = subject(ctx, thing);
        let left = fits
            .iter()
            .map(|fit| fit.found_m)
            .fold(f64::INFINITY, f64::min);
        let wanted = fits.iter().map(|fit| fit.wanted_m).fold(0.0, f64::max);
        let sentence = format!(
            "{} wants {} of clear floor, and {} leave{} {}",
            gear.name,
            figures::metres(wanted),
            names(&movers),
            words::verb_s(movers.len()),
            figures::metres(left),
        );
        let what = (gear, fits.as_slice(), movers);
        let check = &EMERGENCY_GEAR_BLOCKED;
        findings.push(
            fitting::finding(check, ctx, Signal::Warning, what, sentence).measured(
                "clear floor",
                left,
                wanted,
                "m",
            ),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn kit(front: &str, gear: &str) -> String {
        format!(
            "deck 6x3; fast roll=1/8; fixture O oxygen_kit 2.8..3.2,0.9..1.2 h=0.3 {front}
             gear G crate {gear} size=0.4x0.3 h=0.3"
        )
    }

    #[test]
    fn in_front_of_the_oxygen_kit() {
        fires(&kit("front=-90 clear=0.6", "3,0.6"), "WARNING E901 O G");
        silent(&kit("front=-90 clear=0.6", "3,0"), "E901");
        silent(&kit("front=-90 clear=0.6", "4,0.6"), "E901");
    }

    #[test]
    fn all_round_where_no_front_is_given() {
        fires(&kit("clear=0.6", "3.7,1"), "WARNING E901 O G");
    }

    #[test]
    fn as_deep_as_the_plan_says() {
        fires(&kit("front=-90 clear=1", "3,0"), "WARNING E901 O G");
    }
}
