//! `L408`: one lashing goes round several cylinders.

use super::lashed;
use crate::checks::check::{declare_check, no_cure};
use crate::checks::security;
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That each standing cylinder has a lashing of its own.
    ///
    /// ## Why it matters
    /// One lashing round several is one thing: opened for one it is open for all, it goes slack by the girth
    /// of one that leaves, and a cylinder in the middle can slip out below.
    ///
    /// ## Source
    /// UK Code of Safe Working Practices for Merchant Seafarers, 24.8 (each cylinder secured by itself, read
    /// in a rendering).
    pub static ONE_LASHING_ROUND_SEVERAL = {
        code: "L408",
        name: "one-lashing-round-several",
        summary: "one lashing goes round several cylinders",
        signal: Signal::Caution,
        pictures: [
            "deck 3x2; running roll=2/8; stand P1 1.4,0; stand P2 1.6,0; point E1 1,0; point E2 2,0
             lash L1 E1 P1+P2 E2 h=0.44 tight=0.2",
            "deck 3x2; running roll=2/8; stand P1 1.2,0; point E1 0.8,0; point E2 1.6,0
             lash L1 E1 P1 E2 h=0.44 tight=0.2",
        ],
        run: one_lashing_round_several,
        cures: no_cure,
    }
}

fn one_lashing_round_several(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (lashing, _) in lashed::shut(ctx) {
        let standing = lashing.round.iter().filter(|id| {
            let cylinder = ctx.cylinder(id);
            cylinder.is_some_and(|cylinder| cylinder.stance.is_upright())
        });
        // Where one has left it, all the others are told as unsecured.
        if standing.count() < 2 || !security::left(ctx, lashing).is_empty() {
            continue;
        }
        let sentence = format!(
            "{} is one lashing round {}: opened for one it is open for all",
            ctx.name(ThingKind::Lashing, &lashing.id),
            words::list_in_order(&lashed::sorted(&lashing.round)),
        );
        findings.push(lashed::finding(
            &ONE_LASHING_ROUND_SEVERAL,
            ctx,
            Signal::Caution,
            lashing,
            sentence,
        ));
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    #[test]
    fn round_two_it_is_one_thing() {
        fires(
            "deck 6x3; running roll=2/8; stand P1 2.9,0; stand P2 3.1,0; point E1 2,0; point E2 4,0
             lash L1 E1 P2+P1 E2 h=0.44 tight=0.2",
            "CAUTION L408 L1 P1 P2",
        );
    }

    #[test]
    fn each_its_own_is_well() {
        silent(
            "deck 6x3; running roll=2/8; stand P1 2,0; stand P2 4,0; point E1 1,0; point E2 5,0
             lash L1 E1 P1 E1 h=0.44 tight=0.2; lash L2 E2 P2 E2 h=0.44 tight=0.2",
            "L408",
        );
    }
}
