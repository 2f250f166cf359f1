//! Which strap from the gear aboard, to which lashing points, at which height.

use super::moves::{add_lashing, new_lashing_id, replace_lashing};
use super::stores::{SpareLashing, spare_lashings};
use crate::catalogue::Catalogue;
use crate::catalogue::published::STRAP_HEIGHT_SHARE;
use crate::checks::{CheckContext, Proposal, figures, words};
use crate::engine::numbers::CylinderNumbers;
use crate::geometry::Elementary as _;
use crate::geometry::{Vec2, vec2};
use crate::layout::{Known, LashCondition, Lashing, LashingPoint, PointKind, ThingKind};

/// How far from the cylinder a lashing point is looked for, in metres. Common practice, no source.
const FAR_M: f64 = 2.0;

/// A strap needs so much more length than its run for buckle and tail, in metres (value from memory).
const TAIL_M: f64 = 0.3;

/// Pretension that a hand gives where the catalogue has none, in kilonewtons (value from memory).
const HAND_KN: f64 = 0.05;

/// The most ways of strapping that are proposed.
const MOST: usize = 4;

/// The height at which a strap sits best: two thirds up, on the straight shell; rounded to centimetres.
pub(super) fn height_m(cylinder: &CylinderNumbers) -> f64 {
    let [from, to] = cylinder.straight_shell_m;
    let two_thirds = STRAP_HEIGHT_SHARE * cylinder.height_m;
    // Above the centre even where the shell is short.
    let wanted = two_thirds.max(cylinder.cg_height_m);
    let lowest = (from * 100.0).ceil() / 100.0;
    let highest = (to * 100.0).floor() / 100.0;
    ((wanted * 100.0).round() / 100.0).min(highest).max(lowest)
}

/// The pretension that a hand gives this material, in kilonewtons.
pub(super) fn hand_tension_kn(material: &str) -> f64 {
    let material = Catalogue::built_in().material(material);
    let tension = material.and_then(|material| material.hand_tension_kn);
    tension.map_or(HAND_KN, |tension| tension.value.least)
}

/// One or two straps round a standing cylinder, best first by where their points lie.
pub(super) fn strap_standing(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers) -> Vec<Proposal> {
    let spare = spare_lashings(ctx);
    let height = height_m(cylinder);
    let points = points_near(ctx, cylinder);
    let pairs = pairs(cylinder, &points);
    let mut proposals = Vec::new();
    // A loop to each side holds in every direction; two points are enough.
    let opposed = pairs.iter().filter(|(a, b)| opposed(cylinder, a, b));
    for (a, b) in opposed.take(MOST) {
        proposals.extend(loops(ctx, cylinder, &spare, [a, b], height));
    }
    for (a, b) in pairs.iter().take(MOST) {
        proposals.extend(single(ctx, cylinder, &spare, [a, b], height));
    }
    proposals
}

/// The lashing points that may be used for this cylinder, nearest first, ties by name.
fn points_near<'a>(ctx: &CheckContext<'a>, cylinder: &CylinderNumbers) -> Vec<&'a LashingPoint> {
    let away = |point: &LashingPoint| {
        (point.at[0] - cylinder.at[0]).hypotenuse(point.at[1] - cylinder.at[1])
    };
    let mut points: Vec<&LashingPoint> = ctx
        .plan
        .boat
        .lashing_points
        .iter()
        .filter(|point| {
            let rail = matches!(point.kind, PointKind::GuardRail | PointKind::Stanchion);
            let distance = away(point);
            !rail
                && point.deck == cylinder.deck
                && distance <= FAR_M
                && distance > cylinder.body_radius_m
        })
        .collect();
    points.sort_by(|a, b| away(a).total_cmp(&away(b)).then_with(|| a.id.cmp(&b.id)));
    points.truncate(8);
    points
}

/// Pairs of points, those that lie most opposite each other first, then the nearer, ties by name.
fn pairs<'a>(
    cylinder: &CylinderNumbers,
    points: &[&'a LashingPoint],
) -> Vec<(&'a LashingPoint, &'a LashingPoint)> {
    let mut pairs = Vec::new();
    for (index, a) in points.iter().enumerate() {
        for b in &points[index + 1..] {
            pairs.push((*a, *b));
        }
    }
    let key = |(a, b): &(&LashingPoint, &LashingPoint)| {
        let (to_a, to_b) = (towards(cylinder, a), towards(cylinder, b));
        let cosine = match (to_a.normalized(), to_b.normalized()) {
            (Some(a), Some(b)) => a.dot(b),
            _ => 1.0,
        };
        // To a tenth, so that a nearer pair is not passed over for a hair's breadth of angle.
        ((cosine * 10.0).round(), to_a.length() + to_b.length())
    };
    pairs.sort_by(|x, y| {
        let ((cos_x, far_x), (cos_y, far_y)) = (key(x), key(y));
        let by_name = || (&x.0.id, &x.1.id).cmp(&(&y.0.id, &y.1.id));
        cos_x
            .total_cmp(&cos_y)
            .then(far_x.total_cmp(&far_y))
            .then_with(by_name)
    });
    pairs
}

fn towards(cylinder: &CylinderNumbers, point: &LashingPoint) -> Vec2 {
    vec2(point.at[0] - cylinder.at[0], point.at[1] - cylinder.at[1])
}

/// Do they pull to opposite sides?
fn opposed(cylinder: &CylinderNumbers, a: &LashingPoint, b: &LashingPoint) -> bool {
    towards(cylinder, a).dot(towards(cylinder, b)) < 0.0
}

/// Is the strap long enough for this run?
fn long_enough(strap: &SpareLashing, run_m: f64) -> bool {
    strap.length_m.is_none_or(|length| length >= run_m + TAIL_M)
}

fn leg_m(cylinder: &CylinderNumbers, point: &LashingPoint, height: f64) -> f64 {
    towards(cylinder, point)
        .length()
        .hypotenuse(height - point.height_m)
}

fn lashing(
    ctx: &CheckContext<'_>,
    cylinder: &CylinderNumbers,
    strap: &SpareLashing,
    [from, to]: [&LashingPoint; 2],
    (height, number): (f64, usize),
) -> Lashing {
    Lashing {
        id: new_lashing_id(ctx, number),
        name: None,
        material: strap.material.clone(),
        strength_kn: strap.strength_kn,
        stiffness_kn_per_m: None,
        condition: LashCondition::Good,
        from: from.id.clone(),
        round: vec![cylinder.cylinder.clone()],
        to: to.id.clone(),
        height_m: height,
        slack_m: None,
        pretension_kn: Some(Known::Value(hand_tension_kn(&strap.material))),
        shut: true,
    }
}

/// One strap from point to point, the strongest that is long enough.
fn single(
    ctx: &CheckContext<'_>,
    cylinder: &CylinderNumbers,
    spare: &[SpareLashing],
    [a, b]: [&LashingPoint; 2],
    height: f64,
) -> Option<Proposal> {
    let girth = std::f64::consts::TAU * cylinder.body_radius_m;
    let run = leg_m(cylinder, a, height) + leg_m(cylinder, b, height) + girth;
    let strap = spare.iter().find(|strap| long_enough(strap, run))?;
    let new = lashing(ctx, cylinder, strap, [a, b], (height, 0));
    Some(Proposal {
        label: format!(
            "Strap {} at {} to {} and {} ({}, hand-tight)",
            cylinder.cylinder,
            figures::metres(height),
            ctx.name(ThingKind::LashingPoint, &a.id),
            ctx.name(ThingKind::LashingPoint, &b.id),
            strap.gear,
        )
        .into(),
        edits: add_lashing(ctx, new, &cylinder.cylinder),
        gear: Some(strap.gear.clone()),
    })
}

/// Two straps of one sort, a loop to each point.
fn loops(
    ctx: &CheckContext<'_>,
    cylinder: &CylinderNumbers,
    spare: &[SpareLashing],
    [a, b]: [&LashingPoint; 2],
    height: f64,
) -> Option<Proposal> {
    let girth = std::f64::consts::TAU * cylinder.body_radius_m;
    let run = leg_m(cylinder, a, height).max(leg_m(cylinder, b, height));
    let mut spare = spare.iter().filter(|strap| strap.left >= 2);
    let strap = spare.find(|strap| long_enough(strap, 2.0 * run + girth))?;
    let first = lashing(ctx, cylinder, strap, [a, a], (height, 0));
    let second = lashing(ctx, cylinder, strap, [b, b], (height, 1));
    let mut edits = add_lashing(ctx, first, &cylinder.cylinder);
    edits.extend(add_lashing(ctx, second, &cylinder.cylinder));
    Some(Proposal {
        label: format!(
            "Strap {} at {} twice, round it to {} and round it to {} ({}, hand-tight)",
            cylinder.cylinder,
            figures::metres(height),
            ctx.name(ThingKind::LashingPoint, &a.id),
            ctx.name(ThingKind::LashingPoint, &b.id),
            strap.gear,
        )
        .into(),
        edits,
        gear: Some(strap.gear.clone()),
    })
}

/// A strap over a lying cylinder, to points on both sides of its axis.
pub(super) fn strap_lying(
    ctx: &CheckContext<'_>,
    cylinder: &CylinderNumbers,
    axis_deg: f64,
) -> Vec<Proposal> {
    let spare = spare_lashings(ctx);
    let axis = Vec2::from_angle(axis_deg.to_radians());
    let points = points_near(ctx, cylinder);
    let side = |point: &LashingPoint| axis.cross(towards(cylinder, point));
    let height = 2.0 * cylinder.body_radius_m;
    let mut proposals = Vec::new();
    for a in points.iter().filter(|point| side(point) > 0.0) {
        for b in points.iter().filter(|point| side(point) < 0.0) {
            let run = leg_m(cylinder, a, height) + leg_m(cylinder, b, height);
            let Some(strap) = spare.iter().find(|strap| long_enough(strap, run)) else {
                continue;
            };
            let new = lashing(ctx, cylinder, strap, [a, b], (height, 0));
            proposals.push((
                run,
                Proposal {
                    label: format!(
                        "Strap over {} to {} and {} ({}, hand-tight)",
                        cylinder.cylinder,
                        ctx.name(ThingKind::LashingPoint, &a.id),
                        ctx.name(ThingKind::LashingPoint, &b.id),
                        strap.gear,
                    )
                    .into(),
                    edits: add_lashing(ctx, new, &cylinder.cylinder),
                    gear: Some(strap.gear.clone()),
                },
            ));
        }
    }
    proposals.sort_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.label.cmp(&b.1.label)));
    proposals
        .into_iter()
        .take(MOST)
        .map(|(_, proposal)| proposal)
        .collect()
}

/// The same lashing to other points.
pub(super) fn other_points(ctx: &CheckContext<'_>, lashing: &Lashing) -> Vec<Proposal> {
    let Some(cylinder) = lashing.round.iter().find_map(|id| ctx.cylinder(id)) else {
        return Vec::new();
    };
    let name = ctx.name(ThingKind::Lashing, &lashing.id);
    let points = points_near(ctx, cylinder);
    let is_loop = lashing.from == lashing.to;
    let ends: Vec<(&LashingPoint, &LashingPoint)> = if is_loop {
        points.iter().map(|point| (*point, *point)).collect()
    } else {
        pairs(cylinder, &points)
    };
    let new = ends
        .into_iter()
        .filter(|(a, b)| a.id != lashing.from || b.id != lashing.to);
    let proposals = new.filter_map(|(a, b)| {
        let edits = replace_lashing(ctx, &lashing.id, |lashing| {
            lashing.from.clone_from(&a.id);
            lashing.to.clone_from(&b.id);
        })?;
        let to = if is_loop {
            ctx.name(ThingKind::LashingPoint, &a.id)
        } else {
            let names = [a, b].map(|point| ctx.name(ThingKind::LashingPoint, &point.id));
            words::list(&names)
        };
        Some(Proposal {
            label: format!("Make {name} fast to {to} instead").into(),
            edits,
            gear: None,
        })
    });
    proposals.take(2 * MOST).collect()
}

/// The same lashing from what is aboard and stronger, or as new.
pub(super) fn other_strap(ctx: &CheckContext<'_>, lashing: &Lashing) -> Vec<Proposal> {
    let name = ctx.name(ThingKind::Lashing, &lashing.id);
    let spare = spare_lashings(ctx);
    let run = run_m(ctx, lashing);
    let long = spare
        .iter()
        .filter(|strap| run.is_none_or(|run| long_enough(strap, run)));
    let proposals = long.filter_map(|strap| {
        let edits = replace_lashing(ctx, &lashing.id, |lashing| {
            lashing.material.clone_from(&strap.material);
            lashing.strength_kn = strap.strength_kn;
            lashing.stiffness_kn_per_m = None;
            lashing.condition = LashCondition::Good;
            lashing.slack_m = None;
            lashing.pretension_kn = Some(Known::Value(hand_tension_kn(&strap.material)));
        })?;
        Some(Proposal {
            label: format!("Replace {name} by one of {} (hand-tight)", strap.gear).into(),
            edits,
            gear: Some(strap.gear.clone()),
        })
    });
    proposals.take(MOST).collect()
}

/// How long a strap must be to take the place of this lashing: from point to cylinder to point, and round it.
/// `None` if it holds no cylinder that is on deck.
fn run_m(ctx: &CheckContext<'_>, lashing: &Lashing) -> Option<f64> {
    let cylinder = lashing.round.iter().find_map(|id| ctx.cylinder(id))?;
    let leg = |id: &str| {
        let point = ctx.plan.boat.lashing_point(id)?;
        Some(leg_m(cylinder, point, lashing.height_m))
    };
    let girth = std::f64::consts::TAU * cylinder.body_radius_m;
    Some(leg(&lashing.from)? + leg(&lashing.to)? + girth)
}
