//! `L403`: a lashing is so slack that it bites too late, or breaks when it does.

use super::lashing_too_weak::WARNING_FROM;
use super::{lashed, needs};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::draft::grade;
use crate::checks::{CheckContext, Finding, Signal, figures, words};
use crate::engine::numbers::{CylinderNumbers, LashingHold};
use crate::layout::{Known, Lashing, ThingKind};

/// From this lean before it bites on a lashing is called slack. Common practice, no source.
const LEAN_DEG: f64 = 5.0;

declare_check! {
    /// ## What it checks
    /// How far a lashing's slack lets its cylinder lean before it bites, and how hard it is then pulled:
    /// past the steady lean at which the cylinder tips, the lashing catches one that is already falling; a
    /// snatch over the calculation strength breaks it. Where nobody knows the slack, the finding gives the
    /// push test that shows it.
    ///
    /// ## Why it matters
    /// What can rock works a strap loose, and a strap that bites with a jerk feels many times the steady
    /// pull.
    ///
    /// ## Source
    /// Work of the apparent force over the lean against the strap's stretch (docs/method.md, slack and
    /// snatch). No code gives a limit for the slack of a cylinder's strap; the 5° from which it is called
    /// slack: common practice, no source.
    pub static LASHING_TOO_SLACK = {
        code: "L403",
        name: "lashing-too-slack",
        summary: "a lashing bites too late, or breaks when it does",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=15/4; stand P1 1.5,0; point E1 1.5,0.8; point E2 1.5,-0.8
             lash L1 E1 P1 E1 h=0.44 slack=0.25; lash L2 E2 P1 E2 h=0.44 slack=0.25",
            "deck 3x2; running roll=15/4; stand P1 1.5,0; point E1 1.5,0.8; point E2 1.5,-0.8
             lash L1 E1 P1 E1 h=0.44 tight=0.2; lash L2 E2 P1 E2 h=0.44 tight=0.2",
        ],
        run: lashing_too_slack,
        cures: propose::tighten,
    }
}

fn lashing_too_slack(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (cylinder, hold, lashing) in lashed::holds(ctx) {
        if !hold.on_straight_shell || lashed::is_cord(&lashing.material) {
            continue;
        }
        let found = match hold.lean_deg {
            Some(lean) => slack(ctx, (cylinder, hold, lashing), lean),
            None if is_not_known(lashing) => Some(not_known(ctx, (cylinder, hold, lashing))),
            None => None,
        };
        findings.extend(found);
    }
}

/// Did nobody say how slack or tight it is?
fn is_not_known(lashing: &Lashing) -> bool {
    match lashing.slack_m {
        Some(slack) => slack.is_not_known(),
        None => lashing
            .pretension_kn
            .is_none_or(|known| known == Known::NotKnown),
    }
}

type Held<'a> = (&'a CylinderNumbers, &'a LashingHold, &'a Lashing);

fn slack(
    ctx: &CheckContext<'_>,
    (cylinder, hold, lashing): Held<'_>,
    lean: f64,
) -> Option<Finding> {
    let tips_at = cylinder.static_tip_angle_deg;
    let name = ctx.name(ThingKind::Lashing, &lashing.id);
    let id = &cylinder.cylinder;
    let snatch = hold.snatch_n.zip(hold.capacity_n);
    let snatch_signal = snatch.and_then(|(pull, capacity)| grade(pull / capacity, WARNING_FROM));
    let late = lean > 0.0 && tips_at.is_some_and(|tips_at| lean >= tips_at);
    let (signal, sentence) = if late {
        let tips_at = tips_at.unwrap_or_default();
        let sentence = format!(
            "{name} lets {id} lean {} before it bites, and {id} tips from {} on: it catches a cylinder \
             that is already falling",
            words::degrees(lean),
            words::degrees(tips_at),
        );
        (Signal::Danger, sentence)
    } else if let (Some(signal), Some((pull, capacity))) = (snatch_signal, snatch) {
        let sentence = format!(
            "{name} lets {id} lean {}, then bites with {}, and {} of it counts",
            words::degrees(lean),
            figures::pull(pull),
            figures::weight(capacity),
        );
        (signal, sentence)
    } else if lean > LEAN_DEG {
        let sentence = format!(
            "{name} is slack: {id} leans {} before it bites",
            words::degrees(lean)
        );
        (Signal::Caution, sentence)
    } else {
        return None;
    };
    let finding = about(ctx, signal, (cylinder, lashing), sentence);
    Some(match (late, snatch) {
        (false, Some((pull, capacity))) if snatch_signal.is_some() => {
            finding.measured("pull when it bites", pull, capacity, "N")
        }
        _ => finding.measured(
            "lean before it bites",
            lean,
            tips_at.unwrap_or(LEAN_DEG),
            "deg",
        ),
    })
}

fn not_known(ctx: &CheckContext<'_>, (cylinder, hold, lashing): Held<'_>) -> Finding {
    let name = ctx.name(ThingKind::Lashing, &lashing.id);
    let id = &cylinder.cylinder;
    let need = cylinder.needs.iter().find(|need| {
        need.of == lashing.id && need.what == crate::engine::numbers::NeedKind::LashingSlack
    });
    let most = need.map_or_else(String::new, |need| {
        format!(
            ", at most {} of loose length",
            figures::metres(need.at_least)
        )
    });
    let sentence = format!(
        "Nobody knows how tight {name} round {id} is: it has to be really tight{most}; find out"
    );
    let finding = about(ctx, Signal::Caution, (cylinder, lashing), sentence)
        .unknown(needs::slack_test(hold.push_test_m))
        .fold_as("L403/not known".to_owned());
    match need {
        Some(need) => finding.measured("slack", None, need.at_least, "m"),
        None => finding,
    }
}

fn about(
    ctx: &CheckContext<'_>,
    signal: Signal,
    (cylinder, lashing): (&CylinderNumbers, &Lashing),
    sentence: String,
) -> Finding {
    let about = vec![
        ctx.subject(ThingKind::Lashing, &lashing.id),
        ctx.subject(ThingKind::Cylinder, &cylinder.cylinder),
    ];
    Finding::new(&LASHING_TOO_SLACK, ctx, signal, about, sentence).at_cylinder(cylinder)
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    fn strap(tightness: &str) -> String {
        format!(
            "deck 6x3; running roll=15/4; stand P1 3,0; point E1 3,0.8; point E2 3,-0.8
             lash L1 E1 P1 E1 h=0.44 {tightness}; lash L2 E2 P1 E2 h=0.44 tight=0.2"
        )
    }

    #[test]
    fn it_catches_what_is_already_falling() {
        fires(&strap("slack=0.25"), "DANGER L403 L1 P1");
        says(&strap("slack=0.25"), "L403", "already falling");
    }

    #[test]
    fn tight_is_well() {
        silent(&strap("tight=0.2"), "L403");
    }

    #[test]
    fn nobody_knows_how_tight() {
        fires(&strap("slack=?"), "CAUTION L403 L1 P1 not known");
        fires(&strap(""), "CAUTION L403 L1 P1 not known");
    }
}
