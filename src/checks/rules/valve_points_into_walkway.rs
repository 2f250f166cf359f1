//! `Y506`: the valve of a lying cylinder points into a walkway.

use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal};
use crate::engine::numbers::CylinderNumbers;
use crate::geometry::{Segment, Vec2, vec2};
use crate::layout::{Placing, RackKind, ThingKind};

/// How far beyond the valve it counts as pointing there, in metres. Common practice, no source.
const AHEAD_M: f64 = 0.5;

declare_check! {
    /// ## What it checks
    /// That the valve of no lying cylinder ends in a walkway's strip or points at it from less than half a
    /// metre.
    ///
    /// ## Why it matters
    /// Feet open valves and break regulators, and what leaves a broken valve leaves along its axis.
    ///
    /// ## Source
    /// Common practice, no source.
    pub static VALVE_POINTS_INTO_WALKWAY = {
        code: "Y506",
        name: "valve-points-into-walkway",
        summary: "a lying cylinder's valve points into a walkway",
        signal: Signal::Caution,
        pictures: [
            "deck 4x3; running roll=2/8; place A gate 0.3,0; place B helm 3.7,0; way W A B width=0.7
             lie P1 2,1 towards=-90 cap saddle=60",
            "deck 4x3; running roll=2/8; place A gate 0.3,0; place B helm 3.7,0; way W A B width=0.7
             lie P1 2,1 towards=90 cap saddle=60",
        ],
        run: valve_points_into_walkway,
        cures: propose::turn_round,
    }
}

fn valve_points_into_walkway(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    let mut ways: Vec<_> = ctx.plan.boat.walkways.iter().collect();
    ways.sort_by(|a, b| a.id.cmp(&b.id));
    let ways: Vec<_> = (ways.into_iter())
        .map(|way| {
            let mut numbers = ctx.numbers.walkways.iter();
            let numbers = numbers.find(|item| item.walkway == way.id);
            (way, 0.5 * numbers.map_or(0.0, |numbers| numbers.wanted_m))
        })
        .collect();
    for cylinder in &ctx.numbers.cylinders {
        let Some(towards_deg) = valve_towards_deg(ctx, cylinder) else {
            continue;
        };
        let ahead = Vec2::from_angle(towards_deg.to_radians());
        let middle = vec2(cylinder.at[0], cylinder.at[1]);
        let valve = middle + 0.5 * length_m(ctx, cylinder) * ahead;
        let line = Segment::new(valve, valve + AHEAD_M * ahead);
        for &(way, half) in ways.iter().filter(|(way, _)| way.deck == cylinder.deck) {
            let strip = way.line.windows(2).filter_map(|pair| match pair {
                [a, b] => Some(Segment::new(vec2(a[0], a[1]), vec2(b[0], b[1]))),
                _ => None,
            });
            let gap = strip
                .map(|leg| leg.nearest(&line).distance_m)
                .fold(f64::INFINITY, f64::min);
            if gap >= half {
                continue;
            }
            let about = vec![
                ctx.subject(ThingKind::Cylinder, &cylinder.cylinder),
                ctx.subject(ThingKind::Walkway, &way.id),
            ];
            let sentence = format!(
                "The valve of {} points into {}",
                cylinder.cylinder,
                ctx.name(ThingKind::Walkway, &way.id),
            );
            findings.push(
                Finding::new(
                    &VALVE_POINTS_INTO_WALKWAY,
                    ctx,
                    Signal::Caution,
                    about,
                    sentence,
                )
                .on(&cylinder.deck, [valve.x, valve.y])
                .fold_as(format!("Y506/{}", way.id)),
            );
        }
    }
}

/// Where the valve of a lying cylinder points.
pub(in crate::checks) fn valve_towards_deg(
    ctx: &CheckContext<'_>,
    cylinder: &CylinderNumbers,
) -> Option<f64> {
    if cylinder.stance.is_upright() {
        return None;
    }
    match &ctx.state(&cylinder.cylinder)?.placing {
        Placing::Lying {
            valve_towards_deg, ..
        }
        | Placing::InCrate {
            valve_towards_deg, ..
        } => Some(*valve_towards_deg),
        Placing::InSlot { rack, .. } => {
            let rack = ctx.plan.boat.rack(rack)?;
            let lies = !matches!(rack.kind, RackKind::Sockets | RackKind::BenchRow);
            // Towards the back of the rack.
            lies.then_some(rack.turn_deg + 90.0)
        }
        _ => None,
    }
}

/// Length over all of a lying cylinder, from the shape on the deck plan.
fn length_m(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers) -> f64 {
    use crate::geometry::Shape;
    use crate::layout::ThingRef;

    let what = ThingRef {
        kind: ThingKind::Cylinder,
        id: cylinder.cylinder.clone(),
    };
    match ctx.scene.thing(&what).map(|(_, thing)| &thing.shape) {
        Some(Shape::Stadium { from, to, radius }) => from.distance(*to) + 2.0 * radius,
        _ => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn lies(towards: &str, y: &str) -> String {
        format!(
            "deck 6x4; running roll=2/8; place A gate 0.3,0; place B helm 5.7,0; way W A B width=0.7
             lie P1 3,{y} towards={towards} saddle=60"
        )
    }

    #[test]
    fn pointing_at_feet() {
        fires(&lies("-90", "1"), "CAUTION Y506 P1 W");
        silent(&lies("90", "1"), "Y506");
        silent(&lies("0", "1"), "Y506");
        silent(&lies("-90", "1.6"), "Y506");
    }
}
