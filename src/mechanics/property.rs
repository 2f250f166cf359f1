//! What the property tests of this layer share.

use proptest::test_runner::Config;

/// So many random cases; a failure is printed and not written into the source tree.
pub(crate) fn cases(count: u32) -> Config {
    Config {
        failure_persistence: None,
        ..Config::with_cases(count)
    }
}

/// Fails unless `actual` is within `tolerance` of `expected`.
#[track_caller]
pub(crate) fn assert_close(actual: f64, expected: f64, tolerance: f64) {
    assert!(
        (actual - expected).abs() <= tolerance,
        "{actual} is not within {tolerance} of {expected}"
    );
}
