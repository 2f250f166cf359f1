//! How much of a lashing counts: securing load, calculation strength, the weakest part.
//!
//! ```text
//! MSL = share * breaking strength       share by kind of material; a knot and wear take more off
//! MSL of a device = the least MSL of its parts in series
//! CS = MSL / 1.5
//! ```
//!
//! The shares by material stand in the catalogue.
//!
//! # References
//!
//! CSS Code (IMO), annex 13, section 4 (table 1, series) and section 7.2 (factor 1.5).

/// Maximum securing load over calculation strength: CSS Code, annex 13, section 7.2.
pub const SAFETY_FACTOR: f64 = 1.5;

/// One kilogram of pull, N: standard gravity (CGPM 1901).
pub const NEWTONS_PER_KGF: f64 = 9.80665;

/// A force as kilograms of pull.
pub fn kgf_from_newtons(force_n: f64) -> f64 {
    force_n / NEWTONS_PER_KGF
}

/// A force in newtons from kilograms of pull.
pub fn newtons_from_kgf(pull_kgf: f64) -> f64 {
    pull_kgf * NEWTONS_PER_KGF
}

/// Calculation strength, N, of a maximum securing load.
pub fn calculation_strength_n(securing_load_n: f64) -> f64 {
    securing_load_n / SAFETY_FACTOR
}

/// What takes strength off a new, straight piece.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Reductions {
    /// Maximum securing load over breaking strength, by kind of material (0 to 1).
    pub securing_load_share: f64,

    /// What a knot leaves (0 to 1): 1 without any.
    pub knot: f64,

    /// What wear, sun and salt leave (0 to 1): 1 as new.
    pub condition: f64,
}

impl Reductions {
    /// The maximum securing load, N, of a piece with this breaking strength.
    ///
    /// A marked lashing capacity takes the place of the breaking strength with a share of 1.
    pub fn securing_load_n(&self, breaking_strength_n: f64) -> f64 {
        breaking_strength_n * self.securing_load_share * self.knot * self.condition
    }
}

/// The strength of parts in series, of which some may not be known.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Weakest {
    /// The least known securing load, N; infinite when none is known.
    pub securing_load_n: f64,

    /// Whether all parts are known. If not, the true strength may be less.
    pub all_known: bool,
}

/// The weakest of parts in series; `None` is a part of unknown strength.
pub fn weakest_in_series(securing_loads_n: impl IntoIterator<Item = Option<f64>>) -> Weakest {
    let start = Weakest {
        securing_load_n: f64::INFINITY,
        all_known: true,
    };
    securing_loads_n
        .into_iter()
        .fold(start, |weakest, part| match part {
            Some(load_n) => Weakest {
                securing_load_n: weakest.securing_load_n.min(load_n),
                ..weakest
            },
            None => Weakest {
                all_known: false,
                ..weakest
            },
        })
}

/// Share of the straight strength that a fitting keeps when it is pulled at an angle to its axis.
///
/// Pairs of angle (rad) and share, rising in angle, the first at zero. Between them the share is taken
/// as linear; beyond the last it goes on along the last line until nothing is left, since nothing is
/// published there. With one pair the share is the same at every angle.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct PullCurve<'a>(pub &'a [(f64, f64)]);

/// Machinery eye bolt: a quarter at 45°.
///
/// A published table of metric machinery eye bolts rates M6 at 462 lbf straight and 116 lbf at 45°, M8
/// at 1110 and 278, M10 at 1628 and 407 (boltdepot.com, working load limits, factor 5). The straight
/// line in between is an assumption; beyond 45° it reaches zero at 60°.
pub const EYE_BOLT: PullCurve<'static> =
    PullCurve(&[(0.0, 1.0), (std::f64::consts::FRAC_PI_4, 0.25)]);

/// A fitting that keeps its strength at every angle.
pub const ANY_ANGLE: PullCurve<'static> = PullCurve(&[(0.0, 1.0)]);

impl PullCurve<'_> {
    /// The share at an angle, between 0 and 1.
    pub fn share(&self, angle_rad: f64) -> f64 {
        let angle = angle_rad.abs();
        let after = self.0.partition_point(|&(end, _)| end < angle);
        match (self.0, after.clamp(1, self.0.len().max(2) - 1)) {
            ([], _) => 0.0,
            ([(_, share)], _) => share.clamp(0.0, 1.0),
            (pairs, after) => {
                let ((a, from), (b, to)) = (pairs[after - 1], pairs[after]);
                (from + (to - from) * (angle - a) / (b - a)).clamp(0.0, 1.0)
            }
        }
    }
}

/// Lashings whose stiffness differs by more than this must not be taken to share a load.
pub const UNEQUAL_STIFFNESS: f64 = 3.0;

/// Which lashings count while it is not computed how they share by stiffness.
///
/// A shock cord counts only where there are nothing but cords. Among the rest one that is more than
/// three times softer than the stiffest is left out; one of unknown stiffness is taken to be like the
/// stiffest of its kind. Each entry is `(is a cord, stiffness in N/m if known)`.
///
/// Two equal lashings of which one is three times stiffer reach 1/1.5 of their joint strength when the
/// first is at its limit, which is what the factor 1.5 allows for: derived in `docs/method.md`.
pub fn counted_without_sharing(lashings: &[(bool, Option<f64>)]) -> Vec<bool> {
    let cords_only = lashings.iter().all(|&(is_cord, _)| is_cord);
    let candidates = || {
        lashings
            .iter()
            .filter(|(is_cord, _)| cords_only || !is_cord)
    };
    let stiffest = candidates()
        .filter_map(|&(_, stiffness)| stiffness)
        .fold(0.0, f64::max);
    lashings
        .iter()
        .map(|&(is_cord, stiffness)| {
            let stiff = stiffness.is_none_or(|k| k * UNEQUAL_STIFFNESS >= stiffest);
            (cords_only || !is_cord) && stiff
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::property::assert_close;

    /// CSS Code, annex 13, appendix 1, example 1: wire of 125 kN at 80 %, shackles of 180 kN at 50 %:
    /// securing loads 100 and 90 kN, in series 90 kN, calculation strength 60 kN.
    #[test]
    fn css_code_example_one() {
        let new = |securing_load_share| Reductions {
            securing_load_share,
            knot: 1.0,
            condition: 1.0,
        };
        let parts = [
            Some(new(0.8).securing_load_n(125e3)),
            Some(new(0.5).securing_load_n(180e3)),
        ];
        let weakest = weakest_in_series(parts);
        assert_close(weakest.securing_load_n, 90e3, 1e-9);
        assert!(weakest.all_known);
        assert_close(calculation_strength_n(weakest.securing_load_n), 60e3, 1e-9);
    }

    /// 8 mm three-strand polyester of 11.3 kN at 33 %, half of it left by a knot: 1.9 kN.
    #[test]
    fn a_knotted_rope() {
        let rope = Reductions {
            securing_load_share: 0.33,
            knot: 0.5,
            condition: 1.0,
        };
        assert_close(rope.securing_load_n(11.3e3), 1.9e3, 50.0);
    }

    #[test]
    fn an_unknown_part_is_told() {
        let weakest = weakest_in_series([Some(4e3), None]);
        assert!(!weakest.all_known);
        assert_close(weakest.securing_load_n, 4e3, 1e-9);
        assert!(weakest_in_series([None]).securing_load_n.is_infinite());
    }

    /// boltdepot.com: M6 2.05 and 0.52 kN, M8 4.94 and 1.24, M10 7.24 and 1.81, straight and at 45°.
    #[test]
    fn eye_bolts_at_an_angle() {
        for (straight, inclined) in [(2.05, 0.52), (4.94, 1.24), (7.24, 1.81)] {
            let share = EYE_BOLT.share(45.0_f64.to_radians());
            assert_close(straight * share, inclined, 0.01);
        }
        assert_close(EYE_BOLT.share(0.0), 1.0, 1e-12);
        assert_close(EYE_BOLT.share(22.5_f64.to_radians()), 0.625, 1e-12);
        assert_close(EYE_BOLT.share(55.0_f64.to_radians()), 1.0 / 12.0, 1e-9);
        assert_close(EYE_BOLT.share(90.0_f64.to_radians()), 0.0, 1e-12);
        assert_close(ANY_ANGLE.share(1.2), 1.0, 1e-12);
        assert_close(PullCurve(&[]).share(0.1), 0.0, 1e-12);
    }

    #[test]
    fn soft_lashings_beside_stiff_ones_do_not_count() {
        let strap = (false, Some(40e3));
        let half = (false, Some(20e3));
        let soft = (false, Some(9e3));
        let unknown = (false, None);
        let cord = (true, Some(500.0));
        assert_eq!(counted_without_sharing(&[strap, cord]), [true, false]);
        assert_eq!(counted_without_sharing(&[cord, cord]), [true, true]);
        assert_eq!(
            counted_without_sharing(&[strap, half, soft, unknown]),
            [true, true, false, true]
        );
    }

    #[test]
    fn kilograms_of_pull() {
        assert_close(kgf_from_newtons(150.0), 15.3, 0.01);
        assert_close(newtons_from_kgf(kgf_from_newtons(123.0)), 123.0, 1e-12);
    }
}
