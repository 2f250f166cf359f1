//! `R306`: shock cord alone closes the front of a rack.

use super::racked::{self, is_shut, racked};
use crate::checks::check::{declare_check, no_cure};
use crate::checks::security;
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::layout::{FrontKind, Id, ThingKind};

declare_check! {
    /// ## What it checks
    /// That no shock cord alone closes the front of slots with cylinders in them.
    ///
    /// ## Why it matters
    /// Shock cord holds by stretching: it lets a cylinder lean far before it pulls at all, and a few seasons
    /// of sun take half of what it had.
    ///
    /// ## Source
    /// Rope makers and testers advise against shock cord as a restraint (catalogue source CORD); no maximum
    /// securing load is published for it.
    pub static CORD_ALONE_ACROSS_FRONT = {
        code: "R306",
        name: "cord-alone-across-front",
        summary: "shock cord alone closes the front of a rack",
        signal: Signal::Warning,
        pictures: [
            "deck 3x2; running roll=2/8; rack R1 bench 1.5,0 columns=2 foot
             front R1 F1 cord strength=1; slot P1 R1/1",
            "deck 3x2; running roll=2/8; rack R1 bench 1.5,0 columns=2 foot
             front R1 F1 strap tied strength=5; slot P1 R1/1",
        ],
        run: cord_alone_across_front,
        cures: no_cure,
    }
}

fn cord_alone_across_front(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for rack in &ctx.plan.boat.racks {
        for front in rack
            .fronts
            .iter()
            .filter(|front| front.kind == FrontKind::Cord)
        {
            let mut behind: Vec<Id> = racked(ctx)
                .filter(|(cylinder, hold, _)| {
                    hold.rack == rack.id
                        && hold.front.as_ref() == Some(&front.id)
                        && is_shut(ctx, &rack.id, &front.id)
                        && !has_own_lashing(ctx, &cylinder.cylinder)
                })
                .map(|(cylinder, ..)| cylinder.cylinder.clone())
                .collect();
            if behind.is_empty() {
                continue;
            }
            behind.sort();
            let sentence = format!(
                "Shock cord {} alone keeps {} in {}: it holds only after it has stretched",
                front.id,
                words::list_in_order(&behind),
                ctx.name(ThingKind::Rack, &rack.id),
            );
            let mut finding = racked::finding_of_rack(
                &CORD_ALONE_ACROSS_FRONT,
                ctx,
                Signal::Warning,
                rack,
                sentence,
            );
            finding
                .about
                .extend(ctx.subjects(ThingKind::Cylinder, &behind));
            findings.push(finding.fold_as(format!("R306/{}/{}", rack.id, front.id)));
        }
    }
}

fn has_own_lashing(ctx: &CheckContext<'_>, cylinder: &str) -> bool {
    let lashings = ctx.index.lashings_round(cylinder);
    lashings
        .iter()
        .any(|lashing| security::holds_fast(ctx, lashing))
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn rack(front: &str) -> String {
        format!(
            "deck 6x3; running roll=2/8; rack R1 bench 3,0 columns=2 foot
             front R1 F1 {front}; slot P1 R1/1; slot P2 R1/2"
        )
    }

    #[test]
    fn cord_is_no_front() {
        fires(&rack("cord strength=1"), "WARNING R306 R1 P1 P2");
        silent(&rack("strap tied"), "R306");
        silent(&rack("bar"), "R306");
    }

    #[test]
    fn beside_a_strap_of_its_own_it_may_be() {
        let text = "point E1 3,0.6; point E2 3,-0.6; lash L1 E1 P1+P2 E2 h=0.44 tight=0.2";
        silent(&format!("{}; {text}", rack("cord strength=1")), "R306");
    }
}
