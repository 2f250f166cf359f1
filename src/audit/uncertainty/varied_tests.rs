//! What `engine::Varied` tells, held against the check.

use crate::checks::fixture;
use crate::engine::numbers::LimitNumbers;
use crate::engine::{AS_GIVEN, Assessor, Stowed, Uncertain, Varied};

const DECK: &str = "deck 10x4; running roll=10/4 up=0.1
    stand F1 2,0; stand F2 3,-1 kit=90
    rack R1 bench 6,1.5 columns=3 pitch=0.25 edge=0.44 strength=0.4 fixings=9; front R1 B1 strap strength=0.5
    slot R1a R1/1; slot R1b R1/2
    point E1 4,0.6 h=0.3 strength=0.6; point E2 4,-0.6 h=0.3 strength=0.6; stand L1 4,0
    lash S1 E1 L1 E2 h=0.44 strength=0.5
    lie Y1 8,-1 towards=0";

fn with<T>(then: impl FnOnce(&Varied<'_, '_>) -> T) -> T {
    let plan = fixture::plan(DECK).unwrap();
    let stowed = Stowed::of(&plan, &plan.trips[0], 0).unwrap();
    then(&Varied::new(&stowed, &plan.trips[0].parts[0]))
}

#[test]
fn as_given_the_limits_are_those_of_the_check() {
    let plan = fixture::plan(DECK).unwrap();
    let mut assessor = Assessor::default();
    let numbers = assessor.assess(&plan, &plan.trips[0]).parts[0].clone();
    let ours = with(|varied| varied.limits_deg(&AS_GIVEN));
    for (cylinder, ours) in numbers.cylinders.iter().zip(ours) {
        let theirs = limit_deg(&cylinder.limit);
        assert!(
            (ours.min(90.0) - theirs.min(90.0)).abs() < 1e-9,
            "{}: {ours} {theirs}",
            cylinder.cylinder
        );
    }
}

/// Of what stands free: a rack may hold a higher centre better, nearer to its edge.
#[test]
fn the_worse_end_of_each_input_is_no_better_for_what_stands_free() {
    with(|varied| {
        let given = varied.limits_deg(&AS_GIVEN);
        let mut moved = 0;
        for input in 0..Uncertain::ALL.len() {
            for (end, sign) in [(0.0, 1.0), (1.0, -1.0)] {
                let mut draw = AS_GIVEN;
                draw[input] = end;
                let now = varied.limits_deg(&draw);
                let all = varied.cylinders().zip(now.iter().zip(&given));
                for (id, (now, before)) in all {
                    let change = now.min(90.0) - before.min(90.0);
                    moved += usize::from(change.abs() > 1e-3);
                    let is_free = id.starts_with('F');
                    assert!(
                        !is_free || sign * change <= 1e-6,
                        "{id}, {:?} at {end}: {now} from {before}",
                        Uncertain::ALL[input]
                    );
                }
            }
        }
        assert!(moved > 15, "{moved}");
    });
}

/// Of each input the worse end is told as the worse, also where more of it holds less.
#[test]
fn the_worse_end_is_told_as_the_worse() {
    let bands = with(|varied| super::bands(varied, 0, 1));
    let mut told = 0;
    for moves in bands.cylinders.iter().flat_map(|band| &band.moved_by) {
        let end = |deg: Option<f64>| deg.unwrap_or(90.0);
        assert!(
            end(moves.worse.limit_deg) <= end(moves.better.limit_deg),
            "{moves:?}"
        );
        told += 1;
    }
    assert!(told > 8, "{told}");
}

fn limit_deg(limit: &LimitNumbers) -> f64 {
    if limit.goes_without_roll || limit.goes_at_rest {
        0.0
    } else {
        limit.roll_deg.unwrap_or(f64::INFINITY)
    }
}
