//! What the rules about a cylinder that tips, slides or lifts have in common.

use crate::checks::draft::graded;
use crate::checks::security::{self, Security};
use crate::checks::{Check, CheckContext, Finding, Signal, words};
use crate::engine::numbers::{CylinderNumbers, Utilisation, Way};
use crate::layout::ThingKind;

/// From which share on sliding is a WARNING where the friction is assumed, and where it was measured
/// (docs/method.md, grading).
const SLIDING_ASSUMED: f64 = 0.55;
const SLIDING_MEASURED: f64 = 0.75;

/// The value of a utilisation, infinite where nothing holds.
pub(in crate::checks) fn share(utilisation: &Utilisation) -> f64 {
    match utilisation.value {
        Some(value) => value,
        None if utilisation.goes => f64::INFINITY,
        None => 0.0,
    }
}

/// From which share on this way of going is a WARNING.
pub(super) fn warning_from(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers, way: Way) -> f64 {
    match way {
        Way::Slides | Way::SlidesAlong if cylinder.friction_source == "measured" => {
            SLIDING_MEASURED
        }
        Way::Slides | Way::SlidesAlong => SLIDING_ASSUMED,
        _ => ctx.numbers.motion.warning_from,
    }
}

/// Is it told already that nothing holds this cylinder upright, or does somebody hold it properly, so that
/// its own numbers are no second finding?
pub(super) fn told_as_unsecured(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers) -> bool {
    matches!(
        security::of(ctx, cylinder),
        Security::Unsecured(_) | Security::Held
    )
}

/// The cylinder, its utilisation in this way and how grave that is.
pub(super) type Graded<'a> = (&'a CylinderNumbers, &'a Utilisation, Signal, f64);

/// Every cylinder that goes in this way, or nearly.
pub(super) fn going<'a>(ctx: &CheckContext<'a>, way: Way) -> impl Iterator<Item = Graded<'a>> {
    let ctx = *ctx;
    ctx.numbers.cylinders.iter().filter_map(move |cylinder| {
        let utilisation = cylinder.utilisation(way)?;
        let from = warning_from(&ctx, cylinder, way);
        let (signal, share) = graded(utilisation, from)?;
        Some((cylinder, utilisation, signal, share))
    })
}

/// Why it goes, or how little is to spare.
pub(super) fn how_near(
    ctx: &CheckContext<'_>,
    cylinder: &CylinderNumbers,
    (way, share): (Way, f64),
) -> String {
    let limit = &cylinder.limit;
    if limit.way == Some(way) {
        words::goes_at(limit, &ctx.numbers.motion)
    } else if share >= 1.0 {
        format!("it {} within the boat's motion", words::way(way))
    } else {
        format!("it {}", words::spare(share))
    }
}

/// A finding about a cylinder and one way of going.
pub(super) fn finding(
    check: &'static Check,
    ctx: &CheckContext<'_>,
    (cylinder, utilisation, signal, share): Graded<'_>,
    sentence: String,
) -> Finding {
    let about = vec![ctx.subject(ThingKind::Cylinder, &cylinder.cylinder)];
    Finding::new(check, ctx, signal, about, sentence)
        .at_cylinder(cylinder)
        .measured("share of what holds it that is used", share, 1.0, "")
        .governed_by(utilisation)
}

/// Where the force that makes it go points, as a clause: ` to starboard`; empty where nothing governs.
pub(super) fn direction(utilisation: &Utilisation) -> String {
    utilisation
        .governing
        .as_ref()
        .map_or_else(String::new, |governing| {
            format!(" {}", words::towards(governing.towards_deg))
        })
}
