//! What a motion was, bucket of time by bucket of time, in bounded memory: the least and the most of each.

/// Buckets at most: more than a screen has columns.
pub const MOST_BUCKETS: usize = 2048;

/// The first width of a bucket, s.
const FIRST_WIDTH_S: f64 = 0.1;

/// Buckets of equal width that grow with the time they cover.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Buckets {
    /// When the first begins, s.
    pub start_s: f64,

    /// How long each lasts, s.
    pub width_s: f64,

    /// How many there are.
    pub count: usize,
}

impl Default for Buckets {
    fn default() -> Self {
        Self {
            start_s: 0.0,
            width_s: FIRST_WIDTH_S,
            count: 0,
        }
    }
}

impl Buckets {
    /// As many as there can be over a stretch, which they never leave.
    pub fn over([from_s, to_s]: [f64; 2]) -> Self {
        Self {
            start_s: from_s,
            width_s: (to_s - from_s).max(f64::MIN_POSITIVE) / MOST_BUCKETS as f64,
            count: MOST_BUCKETS,
        }
    }

    /// Makes room for a time; tells how often the width was doubled.
    pub fn reach(&mut self, time_s: f64) -> u32 {
        if self.count == 0 {
            self.start_s = time_s;
            self.count = 1;
        }
        let mut doubled = 0;
        while (time_s - self.start_s) / self.width_s >= MOST_BUCKETS as f64 && doubled < 64 {
            self.width_s *= 2.0;
            self.count = self.count.div_ceil(2);
            doubled += 1;
        }
        self.count = self.count.max(self.bucket(time_s) + 1);
        doubled
    }

    /// The bucket of a time.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the buckets"
    )]
    pub fn bucket(&self, time_s: f64) -> usize {
        let at = (time_s - self.start_s) / self.width_s;
        at.clamp(0.0, (MOST_BUCKETS - 1) as f64) as usize
    }

    /// The middle of a bucket, s.
    pub fn middle_s(&self, bucket: usize) -> f64 {
        self.start_s + (bucket as f64 + 0.5) * self.width_s
    }
}

/// The least and the most of a quantity in each bucket.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ranges(Vec<[f32; 2]>);

/// A bucket in which nothing was seen.
const NOTHING: [f32; 2] = [f32::INFINITY, f32::NEG_INFINITY];

impl Ranges {
    /// Widens what a bucket holds.
    pub fn widen(&mut self, bucket: usize, least: f32, most: f32) {
        if self.0.len() <= bucket {
            self.0.resize(bucket + 1, NOTHING);
        }
        let [low, high] = &mut self.0[bucket];
        *low = low.min(least);
        *high = high.max(most);
    }

    /// Two buckets become one.
    pub fn halve(&mut self) {
        let merged = (self.0.chunks(2)).map(|pair| {
            pair.iter().fold(NOTHING, |[low, high], range| {
                [low.min(range[0]), high.max(range[1])]
            })
        });
        self.0 = merged.collect();
    }

    /// The least and the most in a bucket; `None` where nothing was seen.
    pub fn get(&self, bucket: usize) -> Option<[f64; 2]> {
        let [low, high] = *self.0.get(bucket)?;
        (low <= high).then(|| [f64::from(low), f64::from(high)])
    }

    /// Nothing was seen from this bucket on.
    pub fn end_at(&mut self, bucket: usize) {
        self.0.truncate(bucket);
    }
}

/// The least and the most of a run, without branches.
pub(super) fn range_of(values: &[f32]) -> [f32; 2] {
    const LANES: usize = 8;
    let (mut low, mut high) = ([f32::INFINITY; LANES], [f32::NEG_INFINITY; LANES]);
    let runs = values.chunks_exact(LANES);
    let rest = runs.remainder();
    for run in runs {
        for lane in 0..LANES {
            let value = run[lane];
            low[lane] = if value < low[lane] { value } else { low[lane] };
            high[lane] = if value > high[lane] {
                value
            } else {
                high[lane]
            };
        }
    }
    let all = (low.into_iter().zip(high)).chain(rest.iter().map(|value| (*value, *value)));
    all.fold(NOTHING, |[a, b], (low, high)| [a.min(low), b.max(high)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(crate::mechanics::property::cases(100))]

        /// However the buckets grow, what they hold is what a plain look over the samples gives.
        #[test]
        fn buckets_hold_the_least_and_the_most(
            steps in prop::collection::vec((0.0..40.0_f64, -5.0..5.0_f32), 1..80), start in -100.0..100.0_f64,
        ) {
            let (mut buckets, mut ranges) = (Buckets::default(), Ranges::default());
            let mut samples = Vec::new();
            let mut time_s = start;
            for (step, value) in steps {
                time_s += step;
                for _ in 0..buckets.reach(time_s) {
                    ranges.halve();
                }
                ranges.widen(buckets.bucket(time_s), value, value);
                samples.push((time_s, value));
            }
            prop_assert!(buckets.count <= MOST_BUCKETS);
            for bucket in 0..buckets.count {
                let inside: Vec<f32> = (samples.iter())
                    .filter(|(time_s, _)| buckets.bucket(*time_s) == bucket)
                    .map(|(_, value)| *value)
                    .collect();
                let [low, high] = range_of(&inside);
                match ranges.get(bucket) {
                    None => prop_assert!(inside.is_empty()),
                    Some([least, most]) => {
                        prop_assert!((least - f64::from(low)).abs() < 1e-12);
                        prop_assert!((most - f64::from(high)).abs() < 1e-12);
                    }
                }
            }
        }
    }
}
