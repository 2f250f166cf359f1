//! The equation against the table of `docs/method.md`, "Rocking in time"; the order of the integration.

use super::*;
use crate::geometry::vec2;
use crate::mechanics::motion::GRAVITY;
use crate::mechanics::property::{assert_close, cases};
use crate::mechanics::support::Base;
use crate::mechanics::testing::{AL80, AL80_BASE_M};
use crate::mechanics::vector::vec3;
use proptest::prelude::*;

/// `I_cg` 0.795 kg m² over 17.8 kg.
const ROCKER: Rocker = Rocker::even(0.319, 0.0829, 0.795 / 17.8);

#[test]
fn the_equation_is_that_of_the_table() {
    assert_close(
        ROCKER.balance_rad(Side::Towards).to_degrees(),
        14.56749,
        0.5e-5,
    );
    assert_close(17.8 * ROCKER.inertia(Side::Away), 2.72867, 0.5e-5);
    assert_close(
        ROCKER.speed_kept(Side::Away, Impact::Housner),
        0.91034,
        0.5e-5,
    );
    // The table's p is that of sqrt(m g R / I_o).
    assert_close(ROCKER.frequency_rad_s(Side::Away, GRAVITY), 4.59182, 1e-4);
    let drive = |along, onto, turning| Drive {
        along,
        onto,
        turning,
    };
    for (side, lean, drive, expected) in [
        (Side::Towards, 0.05, drive(2.5, 9.5, 0.0), 1.12043),
        (Side::Towards, 0.05, drive(2.5, 9.5, -0.8), 1.35351),
        (Side::Away, -0.05, drive(2.5, 9.5, -0.8), 9.63947),
        (Side::Away, -0.05, drive(-3.0, 9.0, 0.8), -2.62424),
    ] {
        assert_close(ROCKER.acceleration(side, lean, &drive), expected, 0.5e-5);
    }
}

#[test]
fn two_unequal_edges_lose_what_the_table_says() {
    let rigged = Rocker {
        centre_height_m: 0.354,
        reach_m: [0.058, 0.108],
        kappa2_m2: 0.9 / 24.0,
    };
    let kept = |onto| rigged.speed_kept(onto, Impact::Housner);
    assert_close(kept(Side::Away), 0.89725, 0.5e-5);
    assert_close(kept(Side::Towards), 0.94206, 0.5e-5);
}

#[test]
fn sine_and_cosine_are_those_of_the_library() {
    for i in -100..=100 {
        let x = f64::from(i) / 100.0;
        let (sin, cos) = sin_cos(x);
        assert_close(sin, x.sine(), 1e-13);
        assert_close(cos, x.cosine(), 1e-13);
    }
}

/// A push that comes and goes smoothly, strong enough to rock and not to throw over, with both feet struck.
fn push(time_s: f64) -> Drive {
    let w = 10.0;
    Drive {
        along: 3.2 * (w * time_s).sine(),
        onto: 9.6 + 0.4 * (1.3 * time_s).cosine(),
        turning: 0.3 * (w * time_s).sine(),
    }
}

/// The state after 1.2 s in so many steps, with the drive straight between points that do not change.
fn after(steps: u32, impact: Impact) -> (Swing, u32) {
    let mut swing = Swing::REST;
    let mut impacts = 0;
    let points = 120_u32;
    let each = steps / points;
    for point in 0..points {
        let (a, b) = (
            push(f64::from(point) * 0.01),
            push(f64::from(point + 1) * 0.01),
        );
        for part in 0..each {
            let share = |i: u32| f64::from(i) / f64::from(each);
            let ends = (a.towards(&b, share(part)), a.towards(&b, share(part + 1)));
            let before = swing.on;
            let ended = swing.advance(&ROCKER, (&ends.0, &ends.1), 0.01 / f64::from(each), impact);
            assert_eq!(ended, None);
            impacts += u32::from(before.is_some() && before != swing.on);
        }
    }
    (swing, impacts)
}

/// Steps of 10, 5, 2.5 and 1.25 ms: each halving divides the error by sixteen, across uplifts and impacts.
#[test]
fn the_error_falls_with_the_fourth_power_of_the_step() {
    for impact in [Impact::Lossless, Impact::Housner] {
        let runs = [1_u32, 2, 4, 8].map(|parts| after(120 * parts, impact));
        assert!(runs[3].1 >= 2, "{impact:?}: {} impacts", runs[3].1);
        let leans = runs.map(|(swing, _)| swing.lean_rad);
        let steps: Vec<f64> = leans.windows(2).map(|pair| pair[1] - pair[0]).collect();
        for pair in steps.windows(2) {
            let order = (pair[0] / pair[1]).abs().binary_logarithm();
            assert!(
                (3.4..=5.2).contains(&order),
                "{impact:?}: {order} of {leans:?}"
            );
        }
    }
}

fn al80() -> Upright {
    Upright {
        centre_height_m: AL80.centre_height_m,
        kappa2_m2: AL80.kappa2_m2,
        base: Base::disc(AL80_BASE_M),
    }
}

fn rocked(body: &Upright, impact: Impact, felt: impl Fn(f64) -> Felt) -> Outcome {
    let mut rocking = Rocking::new(body, impact);
    for i in 0..1500_u32 {
        let time_s = f64::from(i) * 0.01;
        rocking.push(body, time_s, &felt(time_s));
    }
    *rocking.outcome()
}

fn swaying(amplitude: f64, heading_deg: f64) -> impl Fn(f64) -> Felt {
    move |time_s| {
        let (sin, cos) = heading_deg.to_radians().sine_cosine();
        let along = amplitude * (std::f64::consts::TAU * time_s / 4.0).sine();
        Felt {
            f: vec3(along * cos, along * sin, -GRAVITY),
            ..Felt::default()
        }
    }
}

/// A slow push, period 4 s: `w/p` is 0.34, where the closed form of the half-sine says 1.0549 times what lifts it.
#[test]
fn a_slow_push_that_lifts_it_throws_it_over() {
    let body = al80();
    let lifts = GRAVITY * AL80_BASE_M / AL80.centre_height_m;
    let none = rocked(&body, Impact::Lossless, swaying(0.999 * lifts, 30.0));
    assert_eq!(none, Outcome::default());
    let over = rocked(&body, Impact::Housner, swaying(1.066 * lifts, 30.0));
    assert!(over.over_s.is_some_and(|s| s > 1.0 && s < 3.0), "{over:?}");
    let towards = over.towards.unwrap().angle().to_degrees();
    assert_close(towards, 30.0, 1e-6);
    // Half a swing alone: it comes back, and then to rest.
    let once = swaying(1.035 * lifts, 30.0);
    let rocked = rocked(&body, Impact::Housner, |time_s| once(time_s.min(2.0)));
    assert!(rocked.over_s.is_none() && rocked.uplifts == 1, "{rocked:?}");
    assert!(rocked.largest_lean_rad > REST_RAD);
}

#[test]
fn a_deck_that_drops_away_lifts_it_off() {
    let body = al80();
    let outcome = rocked(&body, Impact::Lossless, |time_s| Felt {
        f: vec3(0.0, 0.0, if time_s < 5.0 { -GRAVITY } else { 0.2 }),
        ..Felt::default()
    });
    assert_eq!(outcome.lifted_off_s, Some(5.0));
}

#[test]
fn the_deck_that_turns_the_top_over_helps() {
    // Rolling to starboard with growing speed turns the top to starboard: the force of inertia on the body is to
    // port.
    let body = al80();
    let felt = Felt {
        f: vec3(0.0, 0.0, -GRAVITY),
        roll_acceleration: 0.8,
        pitch_acceleration: 0.0,
    };
    let moment = felt.tipping(&body);
    assert_close(moment.y, 0.8 * AL80.kappa2_m2, 1e-12);
    let drive = felt.drive(vec2(0.0, 1.0));
    assert_close(drive.turning, -0.8, 1e-12);
    let rocker = Rocker::even(AL80.centre_height_m, AL80_BASE_M, AL80.kappa2_m2);
    let excess = rocker.excess(Side::Towards, &drive);
    assert_close(excess, moment.y - GRAVITY * AL80_BASE_M, 1e-12);
}

proptest! {
    #![proptest_config(cases(48))]

    #[test]
    fn the_heading_of_a_push_changes_nothing(
        share in 0.9..1.4_f64, period in 1.0..5.0_f64, heading in -3.1..3.1_f64,
    ) {
        let body = al80();
        let lifts = GRAVITY * AL80_BASE_M / AL80.centre_height_m;
        let felt = |heading: f64| {
            let (sin, cos) = heading.sine_cosine();
            move |time_s: f64| {
                let along = share * lifts * (std::f64::consts::TAU * time_s / period).sine();
                Felt { f: vec3(along * cos, along * sin, -GRAVITY), ..Felt::default() }
            }
        };
        let (a, b) = (rocked(&body, Impact::Housner, felt(0.0)), rocked(&body, Impact::Housner, felt(heading)));
        prop_assert_eq!(a.over_s.is_some(), b.over_s.is_some());
        prop_assert_eq!(a.uplifts, b.uplifts);
        prop_assert!((a.largest_lean_rad - b.largest_lean_rad).abs() < 1e-6);
    }

    #[test]
    fn without_loss_the_energy_stays(lean in 0.01..0.2_f64, onto in 5.0..12.0_f64) {
        // Released on a steady level deck it comes back to the same lean on either side.
        let drive = Drive { onto, ..Drive::default() };
        let mut swing = Swing::released(lean);
        let mut largest = [0.0_f64; 2];
        for _ in 0..800 {
            prop_assert_eq!(swing.advance(&ROCKER, (&drive, &drive), 0.005, Impact::Lossless), None);
            let side = usize::from(swing.lean_rad < 0.0);
            largest[side] = largest[side].max(swing.lean_rad.abs());
        }
        prop_assert!(largest[1] > 0.0, "it never came to the other side");
        prop_assert!((largest[1] - lean).abs() < 2e-3 * lean, "{largest:?}");
        prop_assert!(largest[0] <= lean * (1.0 + 1e-6));
    }

    #[test]
    fn nothing_breaks_on_wild_records(
        pushes in prop::collection::vec((-30.0..30.0_f64, -30.0..30.0_f64, -30.0..5.0_f64, -20.0..20.0_f64), 2..60),
        step in 0.001..2.0_f64,
    ) {
        let body = al80();
        for impact in [Impact::Lossless, Impact::Housner] {
            let mut rocking = Rocking::new(&body, impact);
            for (i, (x, y, z, turn)) in pushes.iter().enumerate() {
                let felt = Felt { f: vec3(*x, *y, *z), roll_acceleration: *turn, pitch_acceleration: -turn };
                rocking.push(&body, i as f64 * step, &felt);
                prop_assert!(rocking.lean_rad().is_finite());
            }
        }
    }
}
