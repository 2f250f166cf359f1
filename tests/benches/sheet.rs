//! What a skipper waits for on the quay: the crew's sheet of 24 cylinders, from the plan to the bytes of its PDF, and
//! the plan alone as pixels.
//!
//! `cargo bench --bench sheet`.

use std::hint::black_box;
use std::path::Path;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use snugdown::brief::{Assessed, Brief, LoadingSettings};
use snugdown::checks;
use snugdown::engine::Assessor;
use snugdown::sheet::{Paper, Picture, crew, pdf};
use snugdown::store;

fn sheet(c: &mut Criterion) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts/day-boat.json");
    let Ok(plan) = store::read(&path) else {
        return;
    };
    let options = crew::Options {
        paper: Paper::A4,
        facing: None,
        version: "0123abcd".to_owned(),
    };
    let trip = &plan.trips[0];
    let brief = || Brief::of(&plan, trip, None, &LoadingSettings::of(trip));
    // As the command line makes it: what was checked serves the limit cards too.
    let with_cards = || {
        let mut assessor = Assessor::default();
        let findings = checks::run(&mut assessor, &plan, trip);
        let assessed = Assessed {
            assessor: &assessor,
            findings: &findings,
        };
        let settings = LoadingSettings::of(trip);
        let mut brief = Brief::assessed(&plan, trip, None, &settings, assessed).ok()?;
        brief.add_cards(&plan, trip, assessed, &mut |_| true);
        Some(brief)
    };
    let mut group = c.benchmark_group("crew's sheet, 24 cylinders");
    group.bench_function("all: check, brief, limit cards, pages, PDF", |b| {
        b.iter(|| {
            let brief = with_cards()?;
            let pages = crew::pages(&plan, &brief, &options);
            black_box(pdf(&pages, &crew::title(&brief)).ok())
        });
    });
    group.bench_function("check and brief alone", |b| {
        b.iter(|| black_box(brief().ok()));
    });
    if let Some(brief) = with_cards() {
        group.bench_function("pages and PDF alone", |b| {
            b.iter(|| {
                let pages = crew::pages(&plan, &brief, &options);
                black_box(pdf(&pages, "sheet").ok())
            });
        });
        group.bench_function("the plan alone as pixels", |b| {
            let page = crew::plan_alone(&plan, &brief, &options);
            b.iter(|| black_box(Picture::of(&page, crew::PIXELS_PER_MM)));
        });
    }
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default()
        .sample_size(20)
        .warm_up_time(Duration::from_millis(300))
        .measurement_time(Duration::from_secs(2));
    targets = sheet
}
criterion_main!(benches);
