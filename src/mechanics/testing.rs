//! The bodies on which `docs/method.md` was checked, and comparison of numbers.

pub(crate) use super::property::assert_close;
use super::standing::Body;

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
