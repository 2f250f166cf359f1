//! What the tests of this layer share.

use proptest::test_runner::{Config, RngSeed};

/// So many random cases, the same ones in every run.
pub(super) fn cases(count: u32) -> Config {
    Config {
        cases: count,
        rng_seed: RngSeed::Fixed(20_240_607),
        failure_persistence: None,
        ..Config::default()
    }
}
