//! What a skipper waits for when the motion is estimated or a log is read: the response to one sea, and eight hours
//! of a log of 100 samples a second with 100 cylinders watched.
//!
//! `cargo bench --bench motion`. The log is made up, the same each time, and read from memory: parsing, measuring and
//! counting go block by block, measuring beside counting on two cores.

use std::fmt::Write as _;
use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use snugdown::mechanics::motion_log::{Sample, SwingMeter, Synthetic, Watch, WatchedBody};
use snugdown::mechanics::rolling::damping::Damping;
use snugdown::mechanics::seaway::response::{BoatInSea, Hull, Seaway, Spreading};
use snugdown::mechanics::seaway::spectrum::{Shape, Spectrum};
use snugdown::store::motion_log::{LogPiece, LogUnits, read_motion_log};

/// The one that the program has.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const HOURS: u64 = 8;
const RATE_HZ: u64 = 100;

fn estimate(c: &mut Criterion) {
    let hull = Hull {
        length_m: 11.0,
        beam_m: 3.6,
        roll_period_s: 3.4,
        damping: Damping {
            linear: 0.03,
            quadratic: 0.456,
        },
        lever_m: 1.2,
    };
    for (name, spreading) in [
        ("long-crested", Spreading::LongCrested),
        ("spread, cosine squared", Spreading::Cosine2),
    ] {
        let sea = Seaway {
            spectrum: Spectrum::new(0.8, 4.4, Shape::Bretschneider),
            spreading,
            from_rad: 1.2,
            speed_m_s: 2.0,
        };
        c.bench_function(&format!("spectral estimate, {name}"), |b| {
            b.iter(|| BoatInSea::new(black_box(hull), &sea).respond());
        });
    }
}

fn log_text() -> String {
    let log = Synthetic {
        rate_hz: RATE_HZ as f64,
        roll_period_s: 3.7,
        roll_rad: 0.2,
        pitch_rad: 0.05,
    };
    let mut text = String::from("time_s,roll_deg,pitch_deg\n");
    for i in 0..HOURS * 3600 * RATE_HZ {
        let Sample {
            time_s,
            roll_rad,
            pitch_rad,
            ..
        } = log.sample(i);
        writeln!(
            text,
            "{time_s:.2},{:.3},{:.3}",
            roll_rad.to_degrees(),
            pitch_rad.to_degrees()
        )
        .ok();
    }
    text
}

fn bodies() -> Vec<WatchedBody> {
    (0..100_u32)
        .map(|i| WatchedBody {
            place_m: [
                f64::from(i % 10) - 5.0,
                f64::from(i % 7) * 0.5 - 1.5,
                1.0 + 0.01 * f64::from(i),
            ],
            ratio: 0.2 + 0.003 * f64::from(i),
        })
        .collect()
}

fn eight_hours(c: &mut Criterion) {
    let text = log_text();
    let bodies = bodies();
    let mut group = c.benchmark_group("motion log");
    group
        .sample_size(10)
        .measurement_time(Duration::from_secs(15));
    group.bench_function("eight hours at 100 Hz, 100 cylinders", |b| {
        b.iter(|| {
            let mut watch = Watch::new(&bodies);
            let (mut roll, mut pitch) = (SwingMeter::of_angles(), SwingMeter::of_angles());
            // One block is counted while the next is read and measured.
            let mut waiting: Vec<Sample> = Vec::new();
            let (send, receive) = std::sync::mpsc::sync_channel::<Vec<Sample>>(8);
            std::thread::scope(|scope| {
                let counting = scope.spawn(move || {
                    for block in receive {
                        watch.push(&block);
                    }
                    watch.times().to_vec()
                });
                let report =
                    read_motion_log(&mut text.as_bytes(), LogUnits::default(), &mut |piece| {
                        let LogPiece::Samples(samples) = piece else {
                            return;
                        };
                        for sample in samples {
                            roll.push(sample.time_s, sample.roll_rad);
                            pitch.push(sample.time_s, sample.pitch_rad);
                        }
                        waiting.extend_from_slice(samples);
                        send.send(std::mem::take(&mut waiting)).ok();
                    });
                drop(send);
                black_box((
                    report.is_ok(),
                    counting.join().ok(),
                    roll.swings(),
                    pitch.swings(),
                ))
            })
        });
    });
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default()
        .warm_up_time(Duration::from_millis(300))
        .measurement_time(Duration::from_millis(1_500));
    targets = estimate, eight_hours
}
criterion_main!(benches);
