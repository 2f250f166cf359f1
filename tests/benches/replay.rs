//! What an auditor waits for when a motion is replayed: the margins of 100 cylinders over eight hours at 100 samples a
//! second, and the rocking of 100 free-standing ones over one hour.
//!
//! `cargo bench --bench replay`. The motions are made up, the same each time, and streamed: nothing is kept but buckets
//! of time. Beside each stands a straightforward baseline in the same run, over a shorter time, which its name tells:
//! one cylinder after the other at each sample, on one core, with the library's sine and cosine; for the rocking in
//! steps of a millisecond.

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use rayon::prelude::*;
use snugdown::audit::replay::{BATCH, Batch, Margins};
use snugdown::engine::Takes;
use snugdown::mechanics::attitude::{Attitude, Differences};
use snugdown::mechanics::envelope::Envelope;
use snugdown::mechanics::motion_log::Synthetic;
use snugdown::mechanics::rocking::{Impact, Rocking, Upright};
use snugdown::mechanics::support::Base;

/// The one that the program has.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const RATE_HZ: u64 = 100;
const HOUR: u64 = 3600 * RATE_HZ;

/// Seven of ten are held and known by a table, as on the generated decks; the others stand free.
fn cylinders() -> Vec<Takes> {
    (0..100_u32)
        .map(|i| {
            let ratio = 0.3 + 0.003 * f64::from(i);
            let envelope = if i % 10 < 7 {
                Envelope::table(|towards, a_n| (2.0 + towards.x.abs()) + ratio * a_n.max(0.0))
            } else {
                Envelope::Ratio(ratio)
            };
            Takes {
                cylinder: format!("C{i:02}"),
                place_m: [
                    f64::from(i % 10) - 5.0,
                    f64::from(i % 7) * 0.5 - 1.5,
                    1.0 + 0.01 * f64::from(i),
                ],
                turns_above_m: 0.14,
                envelope,
                free: None,
            }
        })
        .collect()
}

fn log() -> Synthetic {
    Synthetic {
        rate_hz: RATE_HZ as f64,
        roll_period_s: 3.7,
        roll_rad: 0.2,
        pitch_rad: 0.05,
    }
}

/// Hands attitudes on, batch by batch.
fn stream(log: &Synthetic, samples: u64, mut each: impl FnMut(&Batch)) {
    let mut differences = Differences::default();
    let mut batch = Batch::default();
    for number in 0..samples {
        let Some(at) = differences.push(log.sample(number)) else {
            continue;
        };
        batch.push(at);
        if batch.len() == BATCH {
            each(&batch);
            batch.clear();
        }
    }
    each(&batch);
}

fn margins(c: &mut Criterion) {
    let takes = cylinders();
    let mut group = c.benchmark_group("margins of 100 cylinders");
    group
        .sample_size(10)
        .measurement_time(Duration::from_secs(8));
    group.bench_function("eight hours at 100 Hz", |b| {
        b.iter(|| {
            let mut margins = Margins::new(takes.len());
            stream(&log(), 8 * HOUR, |batch| margins.push(batch, &takes));
            black_box(margins.cylinders.iter().map(|it| it.passed).sum::<u64>())
        });
    });
    group.bench_function("baseline, a quarter of an hour", |b| {
        b.iter(|| {
            let mut largest = vec![0.0_f64; takes.len()];
            let mut differences = Differences::default();
            for number in 0..HOUR / 4 {
                let Some(at) = differences.push(log().sample(number)) else {
                    continue;
                };
                for (takes, largest) in takes.iter().zip(&mut largest) {
                    let felt = at.felt(takes.place_m);
                    let used = takes.envelope.used(felt.f.x, felt.f.y, felt.onto());
                    *largest = largest.max(used);
                }
            }
            black_box(largest)
        });
    });
    group.finish();
}

/// Free-standing cylinders from slender to squat.
fn uprights() -> Vec<(Upright, [f64; 3])> {
    (0..100_u32)
        .map(|i| {
            let upright = Upright {
                centre_height_m: 0.31 + 0.001 * f64::from(i),
                kappa2_m2: 0.0446,
                base: Base::disc(0.083 + 0.0002 * f64::from(i)),
            };
            (upright, [0.0, f64::from(i % 7) * 0.5 - 1.5, 1.5])
        })
        .collect()
}

/// A quick, choppy roll in groups, large enough to lift the feet of most of them again and again.
fn choppy() -> Synthetic {
    Synthetic {
        rate_hz: RATE_HZ as f64,
        roll_period_s: 1.3,
        roll_rad: 0.06,
        pitch_rad: 0.0,
    }
}

/// The sum of what is told, so that nothing is left out.
fn rocked(samples: u64) -> (u64, usize) {
    let bodies = uprights();
    let mut all: Vec<[Rocking; 2]> = (bodies.iter())
        .map(|(body, _)| {
            [Impact::Lossless, Impact::Housner].map(|impact| Rocking::new(body, impact))
        })
        .collect();
    stream(&choppy(), samples, |batch| {
        (all.par_iter_mut())
            .zip(bodies.par_iter())
            .for_each(|(both, (body, place))| {
                for at in &batch.at {
                    let felt = at.felt(*place);
                    for rocking in both.iter_mut() {
                        rocking.push(body, at.time_s, &felt);
                    }
                }
            });
    });
    let outcomes = || all.iter().flatten().map(Rocking::outcome);
    let uplifts = outcomes().map(|it| it.uplifts).sum();
    let over = outcomes().filter(|it| it.over_s.is_some()).count();
    (uplifts, over)
}

/// The equation of motion with the library's functions, in steps of a millisecond, all of the time.
fn rocked_plainly(samples: u64) -> f64 {
    let mut sum = 0.0;
    let mut attitudes: Vec<Attitude> = Vec::new();
    stream(&choppy(), samples, |batch| attitudes.extend(&batch.at));
    for (body, place) in uprights() {
        let (h, reach) = (
            body.centre_height_m,
            body.base.ray(snugdown::geometry::vec2(0.0, 1.0)),
        );
        let inertia = body.kappa2_m2 + h * h + reach * reach;
        let (mut lean, mut rate) = (0.0_f64, 0.0_f64);
        for at in &attitudes {
            let felt = at.felt(place);
            for _ in 0..10 {
                let side = if lean == 0.0 {
                    felt.f.y.signum()
                } else {
                    lean.signum()
                };
                let (sin, cos) = lean.abs().sin_cos();
                let push = felt.f.y * (h * cos + reach * sin);
                let rights = side * felt.onto() * (reach * cos - h * sin);
                let acceleration =
                    (push - rights + body.kappa2_m2 * felt.roll_acceleration) / inertia;
                if lean == 0.0 && side * acceleration <= 0.0 {
                    continue;
                }
                rate += 1e-3 * acceleration;
                let next = lean + 1e-3 * rate;
                if next * side < 0.0 {
                    (lean, rate) = (0.0, 0.9 * rate);
                } else {
                    lean = next.clamp(-0.8, 0.8);
                }
            }
            sum += lean;
        }
    }
    sum
}

fn rocking(c: &mut Criterion) {
    let (uplifts, over) = rocked(HOUR);
    assert!(
        uplifts >= 100,
        "each rocks once at least: {uplifts} uplifts, {over} over"
    );
    let mut group = c.benchmark_group("rocking of 100 cylinders");
    group
        .sample_size(10)
        .measurement_time(Duration::from_secs(8));
    group.bench_function("one hour at 100 Hz, without and with losses", |b| {
        b.iter(|| black_box(rocked(HOUR)));
    });
    group.bench_function("baseline, one minute with losses", |b| {
        b.iter(|| black_box(rocked_plainly(HOUR / 60)));
    });
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(Duration::from_millis(300));
    targets = margins, rocking
}
criterion_main!(benches);
