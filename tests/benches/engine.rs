//! What a user waits for: the whole check, the check while one cylinder is dragged, and the clear
//! widths, and a frame of the window, on decks of 50, 500 and 5,000 cylinders, each beside a brute-force baseline.
//!
//! `cargo bench --bench engine`. Everything runs on one core.

mod brute;
mod decks;
mod window;

use std::hint::black_box;
use std::time::Duration;

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use snugdown::checks::{self, Digest};
use snugdown::day::{DayStrip, Work};
use snugdown::engine::Assessor;
use snugdown::geometry::Vec2;
use snugdown::layout::Plan;

/// The one that the program has.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const SIZES: [usize; 3] = [50, 500, 5_000];

/// A baseline that looks at all pairs takes a second and more on the largest deck.
const LARGEST_BASELINE: usize = 500;

fn ends(plan: &Plan) -> Vec<[Vec2; 2]> {
    let at = |id: &str| {
        plan.boat
            .place(id)
            .map_or(Vec2::ZERO, |place| place.at.into())
    };
    (plan.boat.walkways.iter())
        .map(|walkway| [at(&walkway.from), at(&walkway.to)])
        .collect()
}

fn full_check(c: &mut Criterion) {
    let mut group = c.benchmark_group("full check");
    for size in SIZES {
        let plan = decks::plan(size, 1);
        group.throughput(Throughput::Elements(size as u64));
        group.bench_with_input(BenchmarkId::new("one part", size), &plan, |b, plan| {
            b.iter(|| checks::run(&mut Assessor::default(), black_box(plan), &plan.trips[0]));
        });
    }
    let plan = decks::plan(50, 6);
    group.bench_with_input(BenchmarkId::new("six parts", 50), &plan, |b, plan| {
        b.iter(|| checks::run(&mut Assessor::default(), black_box(plan), &plan.trips[0]));
    });
    for size in SIZES.into_iter().filter(|size| *size <= LARGEST_BASELINE) {
        let plan = decks::plan(size, 1);
        let mut assessor = Assessor::default();
        assessor.assess(&plan, &plan.trips[0]);
        let ends = ends(&plan);
        group.bench_function(
            BenchmarkId::new("baseline: geometry by brute force", size),
            |b| {
                b.iter(|| {
                    let scene = black_box(&assessor.scenes()[0]);
                    let numbers = &assessor.assessment().parts[0];
                    (
                        brute::overlaps(scene),
                        brute::clear_widths(&scene.decks[0], &ends),
                        brute::within_reach(numbers, scene),
                    )
                });
            },
        );
    }
    group.finish();
}

fn moved_cylinder(c: &mut Criterion) {
    let mut group = c.benchmark_group("one cylinder moved");
    for size in SIZES {
        let mut plan = decks::plan(size, 1);
        let mut assessor = Assessor::default();
        let trip = plan.trips[0].clone();
        assessor.assess(&plan, &trip);
        let mut by_m = 0.05;
        group.bench_function(BenchmarkId::new("check again", size), |b| {
            b.iter(|| {
                decks::drag(&mut plan, by_m);
                by_m = -by_m;
                checks::run(&mut assessor, black_box(&plan), &plan.trips[0])
            });
        });
        group.bench_function(
            BenchmarkId::new("baseline: check from scratch", size),
            |b| {
                b.iter(|| {
                    decks::drag(&mut plan, by_m);
                    by_m = -by_m;
                    checks::run(&mut Assessor::default(), black_box(&plan), &plan.trips[0])
                });
            },
        );
    }
    group.finish();
}

fn clear_widths(c: &mut Criterion) {
    let mut group = c.benchmark_group("clear widths of six walkways");
    for size in SIZES {
        let plan = decks::plan(size, 1);
        let mut assessor = Assessor::default();
        assessor.assess(&plan, &plan.trips[0]);
        let scene = assessor.scenes()[0].clone();
        group.bench_function(BenchmarkId::new("rings of gaps", size), |b| {
            b.iter(|| snugdown::engine::clear_widths(black_box(&plan.boat), &scene));
        });
        if size <= LARGEST_BASELINE {
            let ends = ends(&plan);
            group.bench_function(BenchmarkId::new("baseline: grid of 0.1 m", size), |b| {
                b.iter(|| brute::clear_widths(black_box(&scene.decks[0]), &ends));
            });
        }
    }
    group.finish();
}

/// What the strip along the top follows the plan with in every frame of a drag, once the check is made; beside it
/// what folding all findings into lines for each part of the day takes. And what is made again when the drag ends:
/// the work on deck.
fn strip_of_the_day(c: &mut Criterion) {
    let mut group = c.benchmark_group("the strip of the day");
    for (cylinders, parts) in [(50, 6), (500, 1), (500, 6)] {
        let plan = decks::plan(cylinders, parts);
        let trip = &plan.trips[0];
        let mut assessor = Assessor::default();
        let findings = checks::run(&mut assessor, &plan, trip);
        let work = Work::of(&plan, trip);
        let size = format!("{cylinders} cylinders, {parts} parts");
        group.bench_function(BenchmarkId::new("while dragging", &size), |b| {
            b.iter(|| DayStrip::of(trip, &assessor, black_box(&findings), &work));
        });
        group.bench_function(
            BenchmarkId::new("baseline: lines of each part", &size),
            |b| {
                b.iter(|| {
                    let parts = trip.parts.iter().map(|part| Some(part.id.as_str()));
                    let lines = parts
                        .chain([None])
                        .map(|part| Digest::lines_of(trip, black_box(&findings), part).len());
                    lines.sum::<usize>()
                });
            },
        );
        group.bench_function(BenchmarkId::new("work on deck, at its end", &size), |b| {
            b.iter(|| Work::of(black_box(&plan), trip));
        });
    }
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default()
        .sample_size(10)
        .warm_up_time(Duration::from_millis(300))
        .measurement_time(Duration::from_millis(1_500));
    targets = full_check, moved_cylinder, clear_widths, strip_of_the_day, window::frames
}
criterion_main!(benches);
