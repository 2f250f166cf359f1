//! `F703`: a cylinder that goes takes others with it.

use super::falling::{self, falls};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::layout::{Id, ThingKind};

declare_check! {
    /// ## What it checks
    /// Which other cylinders go one after the other when a cylinder that goes over strikes them or pushes
    /// on: judged by its energy where it touches and by its push after that, under the force that made it
    /// go.
    ///
    /// ## Why it matters
    /// One free cylinder in a row empties the row.
    ///
    /// ## Source
    /// Energy at contact against the barrier of the neighbour under the apparent force, and the moment that
    /// pushes on (docs/method.md, falling).
    pub static FALLS_ON_CYLINDERS = {
        code: "F703",
        name: "falls-on-cylinders",
        summary: "a cylinder that goes takes others with it",
        signal: Signal::Warning,
        pictures: [
            "deck 3x3; drifting roll=15/4; stand P1 1.5,0.12; stand P2 1.5,-0.12",
            "deck 3x3; drifting roll=15/4; stand P1 1.5,0",
        ],
        run: falls_on_cylinders,
        cures: propose::secure,
    }
}

fn falls_on_cylinders(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (fall, cylinder) in falls(ctx) {
        let mut chain: Vec<Id> = fall.iter().flat_map(|fall| fall.chain.clone()).collect();
        chain.retain(|id| *id != cylinder.cylinder);
        chain.sort();
        chain.dedup();
        if chain.is_empty() {
            continue;
        }
        let sentence = format!(
            "{} takes {} with it as it falls {}",
            cylinder.cylinder,
            words::list_in_order(&chain),
            falling::whither(&fall),
        );
        let signal = falling::signal(cylinder, Signal::Warning);
        let others = ctx.subjects(ThingKind::Cylinder, &chain);
        let check = &FALLS_ON_CYLINDERS;
        findings.push(falling::finding(
            check,
            ctx,
            signal,
            (cylinder, fall.as_slice(), others),
            sentence,
        ));
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{findings, silent};

    #[test]
    fn a_row_goes_one_after_the_other() {
        let text = "deck 6x4; drifting roll=15/4; stand P1 3,0.24; stand P2 3,0; stand P3 3,-0.24";
        let chains: Vec<_> = findings(text)
            .into_iter()
            .filter(|finding| finding.code == "F703")
            .collect();
        assert!(!chains.is_empty(), "somebody takes somebody with it");
    }

    #[test]
    fn far_apart_each_falls_alone() {
        silent(
            "deck 6x4; drifting roll=15/4; stand P1 1,0; stand P2 5,0",
            "F703",
        );
    }
}
