use super::{Covariance, ErrorEllipse};
use crate::geometry::Elementary as _;
use crate::geometry::Vec2;

/// A point with its uncertainty.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Located {
    /// Where it is.
    pub at: Vec2,
    /// How uncertain that is.
    pub covariance: Covariance,
}

impl Located {
    /// A point taken as exact.
    pub fn exact(at: Vec2) -> Self {
        Self {
            at,
            covariance: Covariance::default(),
        }
    }
}

/// Which of the two crossings of the tapes is meant, as seen by somebody at the first known corner who
/// looks towards the second.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum TapeSide {
    /// To the left.
    Left,
    /// To the right.
    Right,
}

/// How well two tapes fix a corner.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Conditioning {
    /// They meet at between 30° and 150°.
    Good,

    /// They meet at a flat angle: along one direction the corner is more than about twice as uncertain as
    /// at right angles. Take another pair of known corners, or a third tape.
    Flat,
}

/// A corner fixed by two tapes.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct TapeFix {
    /// Where it is.
    pub at: Vec2,
    /// How uncertain that is.
    pub covariance: Covariance,
    /// The same as an ellipse.
    pub ellipse: ErrorEllipse,
    /// The angle at which the two tapes meet, in (0, π).
    pub meeting_angle_rad: f64,
    /// How well they fix it.
    pub conditioning: Conditioning,
}

/// Why two tapes fix no corner.
#[derive(Copy, Clone, Debug, PartialEq, thiserror::Error)]
pub enum TapeError {
    /// A reading is no length.
    #[error("a tape reading must be more than zero")]
    NotALength,

    /// The two known corners are one.
    #[error("the two known corners are the same point")]
    SameCorner,

    /// The tapes end short of each other, or one within the other.
    #[error("the two tapes miss each other by {} mm: read both again", mm(*gap_m))]
    DoNotMeet {
        /// By how much, in metres.
        gap_m: f64,
    },
}

fn mm(metres: f64) -> f64 {
    (metres * 1000.0).round()
}

/// Flatter than this, two tapes fix a corner badly: common practice of tape and chain surveys, which
/// call a triangle well-conditioned when no angle is below 30° or above 120° to 150°. At 30° the greater
/// axis is 2.7 times the tape's error, at 90° once.
const FLATTEST_GOOD_RAD: f64 = std::f64::consts::FRAC_PI_6;

/// The corner that lies at two tape readings from two known corners.
///
/// ```text
/// d = |B − A|,  a = (r_A² − r_B² + d²) / 2d,  h = √(r_A² − a²)
/// P = A + a u ± h u⊥
///
/// C = (Jᵀ J)⁻¹ σ² + Σ of the known corners' own,  rows of J = unit vectors from A and B to P
/// greater axis = σ / √(1 − |cos γ|)
/// ```
///
/// | symbol | parameter | unit |
/// |---|---|---|
/// | A, B | `first`, `second` | m |
/// | `r_A`, `r_B` | `first_m`, `second_m` | m |
/// | σ | `standard_error_m` | m |
/// | γ | the angle at which the tapes meet | rad |
///
/// # Assumptions
///
/// Both tapes lie in the plane of the deck, straight and independent of each other. The error is of
/// first order: it holds while it is small against the readings times sin γ.
///
/// # References
///
/// Two-circle intersection: elementary. Propagation: C. D. Ghilani (2017), Adjustment Computations, 6th
/// edition, Wiley, chapter 6 (law of propagation) and section 14.2 (distance observation equation).
pub fn fix_by_two_tapes(
    first: Located,
    first_m: f64,
    second: Located,
    second_m: f64,
    side: TapeSide,
    standard_error_m: f64,
) -> Result<TapeFix, TapeError> {
    if !(first_m > 0.0 && second_m > 0.0 && first_m.is_finite() && second_m.is_finite()) {
        return Err(TapeError::NotALength);
    }
    let base = second.at - first.at;
    let Some(along) = base.normalized() else {
        return Err(TapeError::SameCorner);
    };
    let d = base.length();
    let a = (first_m * first_m - second_m * second_m + d * d) / (2.0 * d);
    let h_squared = first_m * first_m - a * a;
    let they_meet = h_squared > 0.0;
    if !they_meet {
        let gap_m = (d - first_m - second_m).max((first_m - second_m).abs() - d);
        return Err(TapeError::DoNotMeet {
            gap_m: gap_m.max(0.0),
        });
    }
    let h = match side {
        TapeSide::Left => h_squared.sqrt(),
        TapeSide::Right => -h_squared.sqrt(),
    };
    let at = first.at + a * along + h * along.perp();
    let from_first = (at - first.at) / first_m;
    let from_second = (at - second.at) / second_m;
    let cross = from_first.cross(from_second);
    // How the corner shifts when one reading grows: it keeps its distance from the other known corner.
    let per_first = -from_second.perp() / cross;
    let per_second = from_first.perp() / cross;
    let variance = |reading: Vec2, known: &Located| {
        standard_error_m * standard_error_m + known.covariance.along(reading)
    };
    let covariance = Covariance::default()
        .plus_along(variance(from_first, &first).sqrt() * per_first)
        .plus_along(variance(from_second, &second).sqrt() * per_second);
    let meeting_angle_rad = cross.abs().arc_tangent_over(from_first.dot(from_second));
    let is_flat = !(FLATTEST_GOOD_RAD..=std::f64::consts::PI - FLATTEST_GOOD_RAD)
        .contains(&meeting_angle_rad);
    Ok(TapeFix {
        at,
        covariance,
        ellipse: covariance.ellipse(),
        meeting_angle_rad,
        conditioning: if is_flat {
            Conditioning::Flat
        } else {
            Conditioning::Good
        },
    })
}

/// What a check reading says.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Judgement {
    /// Within what the tape's accuracy explains 95 times in 100.
    Agrees,
    /// Rarer than that, but not as rare as once in a thousand: read it again.
    Doubtful,
    /// Rarer than once in a thousand: one of the readings is wrong.
    Wrong,
}

impl Judgement {
    /// From how many standard errors it is off: 1.960 and 3.291, the two-sided 5 % and 0.1 % points of
    /// the normal distribution.
    pub(super) fn of(standard_errors: f64) -> Self {
        let off = standard_errors.abs();
        if off <= 1.960 {
            Self::Agrees
        } else if off <= super::SUSPECT_FROM {
            Self::Doubtful
        } else {
            Self::Wrong
        }
    }
}

/// A check reading, such as a diagonal, against the plan.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Misclosure {
    /// The reading less the distance on the plan, in metres: more than 0 if the plan is too short.
    pub off_m: f64,
    /// The standard error that the tape and both points explain, in metres.
    pub expected_m: f64,
    /// What that says.
    pub judgement: Judgement,
}

/// How far a tape reading between two points of the plan is from what the plan says.
///
/// ```text
/// m = r − |B − A|,  σ_m² = σ² + uᵀ C_A u + uᵀ C_B u
/// ```
///
/// # Assumptions
///
/// The two points are independent of each other and of the reading.
///
/// # References
///
/// As for [`fix_by_two_tapes`].
pub fn misclosure(from: Located, to: Located, reading_m: f64, standard_error_m: f64) -> Misclosure {
    let span = to.at - from.at;
    let direction = span.normalized().unwrap_or(Vec2::from_angle(0.0));
    let off_m = reading_m - span.length();
    let variance = standard_error_m * standard_error_m
        + from.covariance.along(direction)
        + to.covariance.along(direction);
    let expected_m = variance.sqrt();
    let standard_errors = if off_m == 0.0 {
        0.0
    } else {
        off_m / expected_m
    };
    Misclosure {
        off_m,
        expected_m,
        judgement: Judgement::of(standard_errors),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::test_support::cases;
    use crate::geometry::vec2;
    use proptest::prelude::*;

    fn fix(a: Vec2, ra: f64, b: Vec2, rb: f64, side: TapeSide) -> Result<TapeFix, TapeError> {
        fix_by_two_tapes(Located::exact(a), ra, Located::exact(b), rb, side, 0.005)
    }

    #[test]
    fn the_3_4_5_triangle() {
        let (a, b) = (vec2(0.0, 0.0), vec2(5.0, 0.0));
        let left = fix(a, 3.0, b, 4.0, TapeSide::Left).unwrap();
        assert!(left.at.distance(vec2(1.8, 2.4)) < 1e-12, "{:?}", left.at);
        let right = fix(a, 3.0, b, 4.0, TapeSide::Right).unwrap();
        assert!(right.at.distance(vec2(1.8, -2.4)) < 1e-12, "{:?}", right.at);
        assert!((left.meeting_angle_rad.to_degrees() - 90.0).abs() < 1e-9);
        assert!((left.ellipse.major_m - 0.005).abs() < 1e-12, "square tapes");
        assert!((left.ellipse.minor_m - 0.005).abs() < 1e-12, "square tapes");
    }

    #[test]
    fn flat_tapes_are_told() {
        let (a, b) = (vec2(0.0, 0.0), vec2(4.0, 0.0));
        let flat = fix(a, 2.02, b, 2.02, TapeSide::Left).unwrap();
        assert_eq!(flat.conditioning, Conditioning::Flat);
        let gamma = flat.meeting_angle_rad;
        let expected = 0.005 / (1.0 - gamma.cosine().abs()).sqrt();
        assert!((flat.ellipse.major_m - expected).abs() < 1e-9, "{flat:?}");
        let short = fix(a, 1.9, b, 2.0, TapeSide::Left).unwrap_err();
        let TapeError::DoNotMeet { gap_m } = short else {
            panic!("{short}")
        };
        assert!((gap_m - 0.1).abs() < 1e-12);
        assert_eq!(
            short.to_string(),
            "the two tapes miss each other by 100 mm: read both again"
        );
        assert_eq!(
            fix(a, 1.0, a, 1.0, TapeSide::Left),
            Err(TapeError::SameCorner)
        );
    }

    #[test]
    fn a_diagonal_is_judged_by_the_tape() {
        let point = |x, y| Located {
            at: vec2(x, y),
            covariance: Covariance::round(0.003),
        };
        // 3, 3 and 4 mm: together the root of 34 mm².
        let judge = |reading| misclosure(point(0.0, 0.0), point(3.0, 4.0), reading, 0.004);
        let told = judge(5.009);
        assert!(
            (told.expected_m - 34e-6_f64.sqrt()).abs() < 1e-9,
            "{told:?}"
        );
        assert!((told.off_m - 0.009).abs() < 1e-12, "{told:?}");
        assert_eq!(told.judgement, Judgement::Agrees);
        assert_eq!(judge(4.986).judgement, Judgement::Doubtful);
        assert_eq!(judge(5.050).judgement, Judgement::Wrong);
    }

    proptest! {
        #![proptest_config(cases(200))]

        /// The corner lies at both readings, on the side that was meant; the error shrinks and grows with
        /// the tape's; the first-order shift agrees with a second fix from readings that differ a little.
        #[test]
        fn the_corner_lies_at_both_readings(
            ax in -5.0_f64..5.0, ay in -5.0_f64..5.0,
            turn in 0.0_f64..6.2, d in 0.5_f64..8.0,
            px in 0.5_f64..4.0, py in 0.5_f64..4.0,
            is_left in any::<bool>(),
        ) {
            let a = vec2(ax, ay);
            let b = a + d * Vec2::from_angle(turn);
            let sign = if is_left { 1.0 } else { -1.0 };
            let p = a + vec2(px, sign * py).rotated(turn);
            let side = if is_left { TapeSide::Left } else { TapeSide::Right };
            let (ra, rb) = (p.distance(a), p.distance(b));
            let found = fix(a, ra, b, rb, side).unwrap();
            prop_assert!(found.at.distance(p) < 1e-9, "{found:?} {p:?}");
            let step = 1e-6;
            let shifted = fix(a, ra + step, b, rb, side).unwrap();
            let also = fix(a, ra, b, rb + step, side).unwrap();
            let by_steps = Covariance::default()
                .plus_along(0.005 / step * (shifted.at - found.at))
                .plus_along(0.005 / step * (also.at - found.at));
            let scale = found.ellipse.major_m.whole_power(2);
            prop_assert!((by_steps.xx - found.covariance.xx).abs() < 1e-3 * scale);
            prop_assert!((by_steps.yy - found.covariance.yy).abs() < 1e-3 * scale);
            prop_assert!((by_steps.xy - found.covariance.xy).abs() < 1e-3 * scale);
        }
    }
}
