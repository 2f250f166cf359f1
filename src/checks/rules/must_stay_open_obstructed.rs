//! `E902`: a freeing port or gate is obstructed in a condition that needs it.

use super::fitting::{self, in_the_way, movers, names, subject};
use super::hatch_covered::opens_upwards;
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::engine::numbers::FitKind;

declare_check! {
    /// ## What it checks
    /// That nothing covers a freeing port, gate or other opening in the conditions of the boat in which the
    /// plan says that it must stay open. Hatches are told as P804.
    ///
    /// ## Why it matters
    /// Water that stays on deck takes the boat's stability.
    ///
    /// ## Source
    /// The plan says when each must stay open; 49 CFR 176.74(d) and (g) (sounding pipes clear, safe access).
    pub static MUST_STAY_OPEN_OBSTRUCTED = {
        code: "E902",
        name: "must-stay-open-obstructed",
        summary: "a freeing port or gate is obstructed when it is needed",
        signal: Signal::Warning,
        pictures: [
            "deck 3x2; running roll=1/8; fixture F freeing_port 1.2..1.8,0.95..1 h=0.2 open-when=running
             lie P1 1.5,0.9 cap saddle=60",
            "deck 3x2; running roll=1/8; fixture F freeing_port 1.2..1.8,0.95..1 h=0.2 open-when=running
             lie P1 1.5,0.6 cap saddle=60",
        ],
        run: must_stay_open_obstructed,
        cures: propose::uncover,
    }
}

fn must_stay_open_obstructed(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for ((thing, _), fits) in in_the_way(ctx, &[FitKind::Covers, FitKind::UnderLid]) {
        let fixture = ctx.plan.boat.fixture(&thing.id);
        if fixture.is_none_or(opens_upwards) {
            continue;
        }
        let movers = movers(ctx, &fits);
        let open = subject(ctx, thing);
        let sentence = format!(
            "{} must stay open in this part of the day, and {} obstruct{} it",
            open.name,
            names(&movers),
            words::verb_s(movers.len()),
        );
        let what = (open, fits.as_slice(), movers);
        let check = &MUST_STAY_OPEN_OBSTRUCTED;
        findings.push(fitting::finding(
            check,
            ctx,
            Signal::Warning,
            what,
            sentence,
        ));
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    const PORT: &str = "fixture F freeing_port 2.7..3.3,1.45..1.5 h=0.2 open-when=running";

    #[test]
    fn under_way_a_freeing_port_is_kept_free() {
        let lies = "lie P1 3,1.4 saddle=60";
        fires(
            &format!("deck 6x3; running roll=1/8; {PORT}; {lies}"),
            "WARNING E902 F P1",
        );
        silent(&format!("deck 6x3; fast roll=1/8; {PORT}; {lies}"), "E902");
        silent(
            &format!("deck 6x3; running roll=1/8; {PORT}; lie P1 3,1 saddle=60"),
            "E902",
        );
    }
}
