//! `E906`: cylinders are near heat, or oxygen is near fuel.

use std::collections::BTreeMap;

use super::fitting::{self, misfits, movers, names, subject};
use crate::checks::check::{declare_check, no_cure};
use crate::checks::{CheckContext, Finding, Signal, figures, words};
use crate::engine::numbers::{FitKind, FitNumbers, FitThing};

declare_check! {
    /// ## What it checks
    /// That cylinders and the oxygen kit keep 2.4 m from what gets hot (heaters, exhausts, galleys), and
    /// oxygen (40 % and more) 1 m from fuel and from a compressor with its oil.
    ///
    /// ## Why it matters
    /// Heat raises the pressure and weakens aluminium; oxygen makes fuel burn like a torch.
    ///
    /// ## Source
    /// 49 CFR 176.2, as in the text of the rule-making: 2.4 m from structure that can pass 55 °C. Ashore
    /// oxygen keeps 6.1 m from what burns (29 CFR 1910.253(b)(2), read in WAC 296-24-68203); no small boat
    /// has that, so 1 m: common practice, no source, as are the 40 %.
    pub static NEAR_OXYGEN_HEAT_OR_FUEL = {
        code: "E906",
        name: "near-oxygen-heat-or-fuel",
        summary: "cylinders are near heat, or oxygen is near fuel",
        signal: Signal::Notice,
        pictures: [
            "deck 5x2; fast roll=1/8; fixture H heat 0.5..1,-0.3..0.3 h=0.5; lie P1 2,0 cap saddle=60",
            "deck 5x2; fast roll=1/8; fixture H heat 0.5..1,-0.3..0.3 h=0.5; lie P1 4,0 cap saddle=60",
        ],
        run: near_oxygen_heat_or_fuel,
        cures: no_cure,
    }
}

fn near_oxygen_heat_or_fuel(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    const KINDS: &[FitKind] = &[
        FitKind::NearHeat,
        FitKind::OxygenNearFuel,
        FitKind::OxygenNearCompressor,
    ];
    let mut all: BTreeMap<(FitKind, &FitThing), Vec<&FitNumbers>> = BTreeMap::new();
    for fit in misfits(ctx, KINDS) {
        all.entry((fit.kind, &fit.things[1])).or_default().push(fit);
    }
    for ((kind, source), fits) in all {
        // What the boat is built with is told once for the trip.
        let own = fits.iter().all(|fit| fit.of_boat);
        if own && ctx.part_index > 0 {
            continue;
        }
        let near = movers(ctx, &fits);
        let source = subject(ctx, source);
        let least = fits
            .iter()
            .map(|fit| fit.found_m)
            .fold(f64::INFINITY, f64::min);
        let wanted = fits.iter().map(|fit| fit.wanted_m).fold(0.0, f64::max);
        let rule = match kind {
            FitKind::NearHeat => "cylinders keep cool",
            FitKind::OxygenNearFuel => "oxygen keeps from fuel",
            _ => "oxygen keeps from oil",
        };
        let sentence = format!(
            "{} {} as near as {} to {}: {rule}, {} away",
            names(&near),
            words::is_are(near.len()),
            figures::metres(least),
            source.name,
            figures::metres(wanted),
        );
        let what = (source, fits.as_slice(), near);
        let check = &NEAR_OXYGEN_HEAT_OR_FUEL;
        findings.push(
            fitting::finding(check, ctx, Signal::Notice, what, sentence)
                .measured("distance", least, wanted, "m"),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    #[test]
    fn heat_is_for_all_cylinders() {
        let heat = "deck 6x3; fast roll=1/8; fixture H heat 0.5..1,-0.3..0.3 h=0.5";
        fires(
            &format!("{heat}; lie P1 2.5,0 saddle=60"),
            "NOTICE E906 H P1",
        );
        silent(&format!("{heat}; lie P1 5,0 saddle=60"), "E906");
    }

    #[test]
    fn fuel_is_for_oxygen() {
        let fuel = "deck 6x3; fast roll=1/8; fixture F fuel 0.5..1,-0.3..0.3 h=0.5";
        fires(
            &format!("{fuel}; lie O1 1.6,0 gas=oxygen saddle=60"),
            "NOTICE E906 F O1",
        );
        silent(&format!("{fuel}; lie P1 1.6,0 saddle=60"), "E906");
    }
}
