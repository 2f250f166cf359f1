//! How much of what each cylinder takes is used up over time, in bounded memory.

use rayon::prelude::*;

use super::batch::Batch;
use super::tracks::{Buckets, Ranges, range_of};
use crate::engine::Takes;

/// One cylinder over time.
#[derive(Clone, Debug, Default)]
pub struct Margin {
    /// The share that is used up, bucket by bucket.
    pub used: Ranges,

    /// The largest share, and when it was, s.
    pub largest: Option<(f64, f64)>,

    /// How often the share passed 1.
    pub passed: u64,

    /// When it first did, s.
    pub first_passed_s: Option<f64>,

    is_over: bool,
    scratch: Vec<f32>,
}

impl Margin {
    /// The share at each attitude of the batch.
    pub(super) fn look(&mut self, batch: &Batch, takes: &Takes) -> &[f32] {
        batch.used(takes, &mut self.scratch);
        &self.scratch
    }

    /// The same from an attitude on; what was looked at before it stays.
    pub(super) fn look_from(&mut self, batch: &Batch, takes: &Takes, from: usize) -> &[f32] {
        let mut used = Vec::new();
        batch.used(takes, &mut used);
        self.scratch.truncate(from);
        self.scratch.extend(used.iter().skip(from));
        &self.scratch
    }

    /// Takes over what was looked at, up to a number of attitudes.
    pub(super) fn take(&mut self, batch: &Batch, runs: &[Run], end: usize) {
        for run in runs {
            let (from, to) = (run.from, run.to.min(end));
            if from >= to {
                break;
            }
            let values = &self.scratch[from..to];
            let [least, most] = range_of(values);
            self.used.widen(run.bucket, least, most);
            let most_before = self.largest.map_or(f64::NEG_INFINITY, |(value, _)| value);
            if f64::from(most) > most_before {
                let at = values.iter().position(|value| *value >= most).unwrap_or(0);
                self.largest = Some((f64::from(most), batch.at[from + at].time_s));
            }
            if most >= 1.0 || self.is_over {
                for (at, value) in values.iter().enumerate() {
                    let over = *value >= 1.0;
                    if over && !self.is_over {
                        self.passed += 1;
                        let time_s = batch.at[from + at].time_s;
                        self.first_passed_s.get_or_insert(time_s);
                    }
                    self.is_over = over;
                }
            }
        }
    }
}

/// Attitudes of a batch that fall into one bucket.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(super) struct Run {
    bucket: usize,
    from: usize,
    to: usize,
}

/// The runs of a batch, or of what of it lies within a stretch; buckets have room for all of it.
pub(super) fn runs(batch: &Batch, buckets: &Buckets, within_s: Option<[f64; 2]>) -> Vec<Run> {
    let mut runs: Vec<Run> = Vec::new();
    let is_within = |time_s: f64| within_s.is_none_or(|[from, to]| (from..=to).contains(&time_s));
    let all = batch.at.iter().enumerate();
    for (number, at) in all.filter(|(_, at)| is_within(at.time_s)) {
        let bucket = buckets.bucket(at.time_s);
        match runs.last_mut() {
            Some(run) if run.bucket == bucket => run.to = number + 1,
            _ => runs.push(Run {
                bucket,
                from: number,
                to: number + 1,
            }),
        }
    }
    runs
}

/// The margins of many cylinders, with roll and pitch beside them: nothing goes, nothing falls.
#[derive(Clone, Debug, Default)]
pub struct Margins {
    /// The buckets of all ranges.
    pub buckets: Buckets,

    /// Roll, rad.
    pub roll: Ranges,

    /// Pitch, rad.
    pub pitch: Ranges,

    /// The cylinders, in their order.
    pub cylinders: Vec<Margin>,

    /// Nothing before and after it is kept, s; all is unless it is set.
    within_s: Option<[f64; 2]>,
}

impl Margins {
    /// Of so many cylinders.
    pub fn new(count: usize) -> Self {
        Self {
            cylinders: vec![Margin::default(); count],
            ..Self::default()
        }
    }

    /// The same of a stretch of time alone, with as many buckets as there can be.
    pub(super) fn keep_within(&mut self, stretch_s: [f64; 2]) {
        self.buckets = Buckets::over(stretch_s);
        self.within_s = Some(stretch_s);
    }

    /// Takes a batch in, for cylinders that stay where they are.
    pub fn push(&mut self, batch: &Batch, takes: &[Takes]) {
        let runs = self.begin(batch);
        (self.cylinders.par_iter_mut())
            .zip(takes.par_iter())
            .for_each(|(margin, takes)| {
                margin.look(batch, takes);
                margin.take(batch, &runs, batch.len());
            });
    }

    /// Makes room for a batch, takes its roll and pitch in, and tells its runs.
    pub(super) fn begin(&mut self, batch: &Batch) -> Vec<Run> {
        let Some(last) = batch.at.last() else {
            return Vec::new();
        };
        if self.within_s.is_none() {
            if let Some(first) = batch.at.first() {
                self.reach(first.time_s);
            }
            self.reach(last.time_s);
        }
        let runs = runs(batch, &self.buckets, self.within_s);
        for run in &runs {
            for at in &batch.at[run.from..run.to] {
                let (roll, pitch) = (single(at.roll_rad), single(at.pitch_rad));
                self.roll.widen(run.bucket, roll, roll);
                self.pitch.widen(run.bucket, pitch, pitch);
            }
        }
        runs
    }

    fn reach(&mut self, time_s: f64) {
        for _ in 0..self.buckets.reach(time_s) {
            self.roll.halve();
            self.pitch.halve();
            for margin in &mut self.cylinders {
                margin.used.halve();
            }
        }
    }
}

#[expect(clippy::cast_possible_truncation, reason = "an angle for a plot")]
fn single(value: f64) -> f32 {
    value as f32
}
