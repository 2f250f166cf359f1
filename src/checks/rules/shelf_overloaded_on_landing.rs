//! `R309`: a shelf is overloaded when the boat lands.

use std::collections::BTreeMap;

use crate::checks::check::{declare_check, no_cure};
use crate::checks::draft::grade;
use crate::checks::{CheckContext, Finding, Signal, figures, words};
use crate::layout::{Id, Known, Placing, ThingKind};
use crate::mechanics::motion::GRAVITY;

declare_check! {
    /// ## What it checks
    /// That the shelf of a rack, or the top of a fixture on which cylinders stand or lie, carries their
    /// weight at the moment when the boat lands.
    ///
    /// ## Why it matters
    /// In a seaway everything weighs half as much again for a moment, and more on a boat that runs.
    ///
    /// ## Source
    /// Weight with the upward acceleration added (docs/method.md, motion: the landing case). The limit is
    /// the boat's own.
    pub static SHELF_OVERLOADED_ON_LANDING = {
        code: "R309",
        name: "shelf-overloaded-on-landing",
        summary: "a shelf is overloaded when the boat lands",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running up=1; rack R1 sockets 1.5,0 columns=2 foot load=60 shelf=0.4 hold=1
             slot P1 R1/1; slot P2 R1/2",
            "deck 3x2; running up=1; rack R1 sockets 1.5,0 columns=2 foot load=200 shelf=0.4 hold=1
             slot P1 R1/1; slot P2 R1/2",
        ],
        run: shelf_overloaded_on_landing,
        cures: no_cure,
    }
}

fn shelf_overloaded_on_landing(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for numbers in &ctx.numbers.racks {
        let Some(rack) = ctx.plan.boat.rack(&numbers.rack) else {
            continue;
        };
        let Some(limit) = rack.load_limit_kg else {
            continue;
        };
        let inside = super::rack_fixings_overloaded::inside(ctx, &rack.id);
        let subject = ctx.subject(ThingKind::Rack, &rack.id);
        let on = Shelf {
            what: format!("the shelf of {}", subject.name),
            load_n: numbers.landing_load_n,
            limit_n: limit.value().map(|kg| kg * GRAVITY),
            bears: inside,
        };
        let found = on.judge(ctx, subject);
        findings.extend(found.map(|finding| finding.on(&rack.deck, rack.at)));
    }
    for (id, (load_n, bears)) in on_fixtures(ctx) {
        let Some(fixture) = ctx.plan.boat.fixture(id) else {
            continue;
        };
        let limit = fixture
            .shelf
            .as_ref()
            .map_or(Known::NotKnown, |shelf| shelf.load_limit_kg);
        let subject = ctx.subject(ThingKind::Fixture, id);
        let on = Shelf {
            what: format!("the top of {}", subject.name),
            load_n,
            limit_n: limit.value().map(|kg| kg * GRAVITY),
            bears,
        };
        let at = fixture.outline.first().copied().unwrap_or_default();
        let found = on.judge(ctx, subject);
        findings.extend(found.map(|finding| finding.on(&fixture.deck, at)));
    }
}

/// Load at the worst and names of what stands or lies on each fixture.
fn on_fixtures<'a>(ctx: &CheckContext<'a>) -> BTreeMap<&'a Id, (f64, Vec<Id>)> {
    let mut all: BTreeMap<&Id, (f64, Vec<Id>)> = BTreeMap::new();
    for cylinder in &ctx.numbers.cylinders {
        let state = ctx.state(&cylinder.cylinder);
        if let Some(Placing::Standing { on: Some(on), .. } | Placing::Lying { on: Some(on), .. }) =
            state.map(|state| &state.placing)
        {
            let entry = all.entry(on).or_default();
            entry.0 += cylinder.landing_load_n;
            entry.1.push(cylinder.cylinder.clone());
        }
    }
    all
}

/// A shelf with what it bears.
struct Shelf {
    what: String,
    load_n: f64,
    limit_n: Option<f64>,
    bears: Vec<Id>,
}

impl Shelf {
    fn judge(self, ctx: &CheckContext<'_>, subject: crate::checks::Subject) -> Option<Finding> {
        let check = &SHELF_OVERLOADED_ON_LANDING;
        if self.bears.is_empty() {
            return None;
        }
        let Some(limit_n) = self.limit_n else {
            let sentence = format!(
                "Nobody knows what {} carries: when the boat lands it bears {} ({}); find out",
                self.what,
                figures::weight(self.load_n),
                words::list_in_order(&self.bears),
            );
            let finding = Finding::new(check, ctx, Signal::Caution, vec![subject], sentence);
            let test = format!(
                "let people stand on it who weigh {} together, close to its middle: it must not \
                 bend or crack",
                figures::kilograms(self.load_n / GRAVITY)
            );
            let kn = self.load_n / 1000.0;
            return Some(
                finding
                    .measured("load to carry", kn, kn, "kN")
                    .unknown(test),
            );
        };
        // A shelf is given with what it may carry at rest; nothing more is kept in hand here.
        let signal = grade(self.load_n / limit_n, 1.0)?;
        let sentence = format!(
            "When the boat lands, {} bears {} ({}), and it may carry {}",
            self.what,
            figures::weight(self.load_n),
            words::list_in_order(&self.bears),
            figures::weight(limit_n),
        );
        let finding = Finding::new(check, ctx, signal, vec![subject], sentence);
        Some(finding.measured("load when the boat lands", self.load_n, limit_n, "N"))
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn rack(load: &str) -> String {
        format!(
            "deck 6x3; running up=0.9; rack R1 sockets 3,0 columns=2 foot hold=2 {load}
             slot P1 R1/1; slot P2 R1/2"
        )
    }

    #[test]
    fn twice_the_weight_on_landing() {
        fires(&rack("load=60"), "DANGER R309 R1");
        silent(&rack("load=120"), "R309");
    }

    #[test]
    fn without_a_limit_nothing_is_asked_but_not_known_is_told() {
        silent(&rack(""), "R309");
        fires(&rack("load=?"), "CAUTION R309 R1 not known");
    }

    #[test]
    fn a_bench_top_is_a_shelf_too() {
        let bench = |load: &str| {
            format!(
                "deck 6x3; running up=0.9; fixture B bench 2..4,1..1.5 h=0.45 shelf load={load}
                 lie P1 3,1.25 towards=0 on=B saddle=60"
            )
        };
        fires(&bench("20"), "DANGER R309 B");
        silent(&bench("100"), "R309");
    }
}
