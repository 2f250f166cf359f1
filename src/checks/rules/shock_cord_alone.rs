//! `L404`: nothing but shock cord holds a cylinder.

use super::lashed;
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::security;
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That no cylinder is held by shock cord and nothing else; the finding tells how far the cord lets it
    /// lean.
    ///
    /// ## Why it matters
    /// Shock cord does not hold, it gives: the cylinder leans until it falls, with the cord still whole.
    ///
    /// ## Source
    /// Rope makers and testers advise against shock cord as a restraint, five like pieces measured 92.6 to
    /// 343.9 N/m (catalogue source CORD); too soft a strap never stops a leaning cylinder (docs/method.md,
    /// slack and snatch).
    pub static SHOCK_CORD_ALONE = {
        code: "L404",
        name: "shock-cord-alone",
        summary: "nothing but shock cord holds a cylinder",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=10/5; stand P1 1.5,0; point E1 1.5,0.6; point E2 1.5,-0.6
             lash L1 E1 P1 E2 h=0.44 material=shock_cord_8 tight=0.05",
            "deck 3x2; running roll=10/5; stand P1 1.5,0; point E1 1.5,0.6; point E2 1.5,-0.6
             lash L1 E1 P1 E2 h=0.44 material=ratchet_strap_25 tight=0.2",
        ],
        run: shock_cord_alone,
        cures: propose::secure,
    }
}

fn shock_cord_alone(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for cylinder in &ctx.numbers.cylinders {
        let id = &cylinder.cylinder;
        let round = ctx.index.lashings_round(id);
        let mut fast = round
            .iter()
            .filter(|lashing| security::holds_fast(ctx, lashing))
            .peekable();
        if fast.peek().is_none() || cylinder.rack.as_ref().is_some_and(|rack| rack.closed) {
            continue;
        }
        let fast: Vec<_> = fast.collect();
        if !fast
            .iter()
            .all(|lashing| lashed::is_cord(&lashing.material))
        {
            continue;
        }
        let leans = (cylinder.lashings.iter())
            .filter_map(|hold| hold.lean_deg)
            .fold(None, |least: Option<f64>, lean| {
                Some(least.map_or(lean, |least| least.min(lean)))
            });
        let lean = match (leans, cylinder.static_tip_angle_deg) {
            (Some(lean), Some(tips)) if lean >= tips => format!(
                "it lets it lean {}, and it tips from {} on",
                words::degrees(lean),
                words::degrees(tips)
            ),
            (Some(lean), _) => format!("it lets it lean {}", words::degrees(lean)),
            (None, _) => "it gives until the cylinder falls".to_owned(),
        };
        let mut about = vec![ctx.subject(ThingKind::Cylinder, id)];
        about.extend(
            fast.iter()
                .map(|lashing| ctx.subject(ThingKind::Lashing, &lashing.id)),
        );
        let signal = if ctx.under_way() {
            Signal::Danger
        } else {
            Signal::Warning
        };
        let sentence = format!("Shock cord alone holds {id}: {lean}");
        let finding = Finding::new(&SHOCK_CORD_ALONE, ctx, signal, about, sentence)
            .at_cylinder(cylinder)
            .fold_as("L404/cord".to_owned());
        findings.push(match (leans, cylinder.static_tip_angle_deg) {
            (Some(lean), Some(tips)) => {
                finding.measured("lean that the cord allows", lean, tips, "deg")
            }
            _ => finding,
        });
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    const STANDS: &str =
        "deck 6x3; running roll=10/5; stand P1 3,0; point E1 3,0.6; point E2 3,-0.6";
    const CORD: &str = "lash L1 E1 P1 E2 h=0.44 material=shock_cord_8 tight=0.05";

    #[test]
    fn cord_alone_holds_nothing() {
        fires(&format!("{STANDS}; {CORD}"), "DANGER L404 P1 L1");
    }

    #[test]
    fn beside_a_strap_it_may_be() {
        let strap = "lash L2 E1 P1 E2 h=0.44 tight=0.2";
        silent(&format!("{STANDS}; {CORD}; {strap}"), "L404");
    }
}
