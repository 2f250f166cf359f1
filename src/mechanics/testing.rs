//! Comparison of numbers in tests: the tolerance is written at each use.

use super::standing::Body;

/// Fails unless `actual` is within `tolerance` of `expected`.
#[track_caller]
pub(crate) fn assert_close(actual: f64, expected: f64, tolerance: f64) {
    assert!(
        (actual - expected).abs() <= tolerance,
        "{actual} is not within {tolerance} of {expected}"
    );
}

/// Fails unless `actual` is infinite: nothing holds at all.
#[track_caller]
pub(crate) fn assert_infinite(actual: f64) {
    assert!(actual == f64::INFINITY, "{actual} is not infinite");
}

/// An 11.1 l aluminium cylinder: the test body of `docs/method.md`.
pub(crate) const AL80: Body = Body {
    mass_kg: 17.8,
    centre_height_m: 0.319,
    kappa2_m2: 0.0446,
};

/// Radius of its flat base.
pub(crate) const AL80_BASE_M: f64 = 0.0829;

/// Radius of its shell.
pub(crate) const AL80_RADIUS_M: f64 = 0.0921;

/// A 50 l storage cylinder: the other test body of `docs/method.md`.
pub(crate) const BANK: Body = Body {
    mass_kg: 73.4,
    centre_height_m: 0.733,
    kappa2_m2: 0.2126,
};

/// Radius of its base.
pub(crate) const BANK_BASE_M: f64 = 0.103;
