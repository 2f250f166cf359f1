//! `R311`: the front of a rack is too weak for what stands behind it.

use super::{needs, racked};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::draft::grade;
use crate::checks::{CheckContext, Finding, Signal, figures, words};
use crate::engine::numbers::FrontNumbers;
use crate::geometry::Elementary as _;
use crate::layout::{Front, FrontKind, Id, Rack, ThingKind};

declare_check! {
    /// ## What it checks
    /// That the strap, chain or bar across the front of a bench row takes the push of all cylinders behind
    /// it. A strap that is only fastened at its ends carries them all at once, and holds nothing until it
    /// bends. Where its strength is not known, the finding says what is needed. A slack front is told too: it
    /// lets a cylinder lean before it holds, and past the lean at which that tips it comes too late.
    ///
    /// ## Why it matters
    /// A strap rated for one slot is not rated for six in a row.
    ///
    /// ## Source
    /// T = sum of F / (2 sin of the angle at its ends) for a strap across a row (docs/method.md, held by a rack).
    pub static FRONT_TOO_WEAK = {
        code: "R311",
        name: "front-too-weak",
        summary: "a rack's front is too weak for what stands behind it",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=20/4; rack R1 bench 1.5,0 columns=4 foot
             front R1 F1 strap strength=0.1; slot P1 R1/1; slot P2 R1/2; slot P3 R1/3; slot P4 R1/4",
            "deck 3x2; running roll=20/4; rack R1 bench 1.5,0 columns=4 foot
             front R1 F1 strap tied strength=5; slot P1 R1/1; slot P2 R1/2; slot P3 R1/3; slot P4 R1/4",
        ],
        run: front_too_weak,
        cures: propose::tie_front,
    }
}

fn front_too_weak(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for numbers in &ctx.numbers.racks {
        let Some(rack) = ctx.plan.boat.rack(&numbers.rack) else {
            continue;
        };
        for front in numbers.fronts.iter().filter(|front| front.shut) {
            let kind = rack.fronts.iter().find(|item| item.id == front.front);
            let is_cord = kind.is_some_and(|item| item.kind == FrontKind::Cord);
            findings.extend(kind.and_then(|item| too_slack(ctx, (rack, item), front)));
            if front.behind.is_empty() || front.pull_n <= 0.0 || is_cord {
                continue;
            }
            let mut behind = front.behind.clone();
            behind.sort();
            let subject = ctx.subject(ThingKind::Rack, &rack.id);
            let fold = format!("R311/{}/{}", rack.id, front.front);
            let Some(strength) = front.strength_n else {
                let what = format!(
                    "{} across {}",
                    ctx.front(&rack.id, &front.front),
                    subject.name
                );
                let by = (front.pull_n, behind.as_slice());
                let finding = needs::strength_not_known(&FRONT_TOO_WEAK, ctx, subject, &what, by);
                findings.push(finding.on(&rack.deck, rack.at).fold_as(fold));
                continue;
            };
            let share = front.pull_n / strength;
            let Some(signal) = grade(share, ctx.numbers.motion.warning_from) else {
                continue;
            };
            let sentence = format!(
                "{} push{} {} across {} with {}, and it takes {}",
                words::list_in_order(&behind),
                if behind.len() == 1 { "es" } else { "" },
                ctx.front(&rack.id, &front.front),
                subject.name,
                figures::pull(front.pull_n),
                figures::pull(strength),
            );
            let mut finding = racked::finding_of_rack(&FRONT_TOO_WEAK, ctx, signal, rack, sentence);
            finding
                .about
                .extend(ctx.subjects(ThingKind::Cylinder, &behind));
            findings.push(
                finding
                    .measured("pull on the front", front.pull_n, strength, "N")
                    .fold_as(fold),
            );
        }
    }
}

/// From this lean before it holds on a front is called slack. Common practice, no source.
const LEAN_DEG: f64 = 5.0;

/// A front that lets what stands behind it lean before it holds, or of which nobody knows how far it does.
fn too_slack(
    ctx: &CheckContext<'_>,
    (rack, front): (&Rack, &Front),
    numbers: &FrontNumbers,
) -> Option<Finding> {
    let mut behind: Vec<Id> = numbers.behind.clone();
    behind.sort();
    let slack = front.slack_m.filter(|_| !behind.is_empty())?;
    let tips = behind
        .iter()
        .filter_map(|id| ctx.cylinder(id)?.static_tip_angle_deg)
        .fold(f64::INFINITY, f64::min);
    let rack_name = ctx.name(ThingKind::Rack, &rack.id);
    let lean = slack
        .value()
        .map(|slack| slack.max(0.0).arc_tangent_over(front.height_m).to_degrees());
    let (signal, sentence) = match lean {
        None => (
            Signal::Caution,
            format!(
                "Nobody knows how far {} across {rack_name} can be pulled out: {} must not lean; find out",
                front.called(),
                words::list_in_order(&behind)
            ),
        ),
        Some(lean) if lean <= 0.0 || lean < LEAN_DEG.min(tips) => return None,
        Some(lean) => {
            let falls = if lean >= tips {
                format!(
                    "; from {} on it tips, so the front catches what is already falling",
                    words::degrees(tips)
                )
            } else {
                String::new()
            };
            let signal = if lean >= tips {
                Signal::Danger
            } else {
                Signal::Caution
            };
            let sentence = format!(
                "{} across {rack_name} is slack: {} can lean {} before it holds{falls}",
                front.called(),
                words::list_in_order(&behind),
                words::degrees(lean),
            );
            (signal, sentence)
        }
    };
    let mut finding = racked::finding_of_rack(&FRONT_TOO_WEAK, ctx, signal, rack, sentence)
        .fold_as(format!("R311/slack/{}/{}", rack.id, front.id));
    let cylinders = ctx.subjects(ThingKind::Cylinder, &behind);
    finding.about.extend(cylinders);
    Some(match lean {
        None => finding.unknown(format!(
            "pull the middle of {} out by hand with 15 kg: it must move less than {}",
            front.called(),
            figures::metres(front.height_m * LEAN_DEG.min(tips).to_radians().tangent()),
        )),
        Some(lean) => finding.measured("lean before it holds", lean, tips.min(90.0), "deg"),
    })
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn row(front: &str) -> String {
        format!(
            "deck 6x3; running roll=20/4; rack R1 bench 3,0 columns=3 foot; front R1 F1 {front}
             slot P1 R1/1; slot P2 R1/2; slot P3 R1/3"
        )
    }

    #[test]
    fn a_weak_strap_across_a_row() {
        fires(&row("strap strength=0.1"), "DANGER R311 R1 P1 P2 P3");
        silent(&row("strap tied strength=5"), "R311");
    }

    #[test]
    fn a_strap_that_nobody_knows() {
        fires(
            &row("strap strength=?"),
            "CAUTION R311 R1 P1 P2 P3 not known",
        );
    }
}
