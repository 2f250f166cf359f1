//! One frame of the window, without painting it: with a cylinder being dragged and everything checked
//! again, beside a frame in which nothing changes.

use std::hint::black_box;

use criterion::{BenchmarkId, Criterion};
use egui::{Pos2, vec2};
use egui_kittest::Harness;
use snugdown::app::{Editor, prepare};

use super::decks;

const SIZES: [usize; 2] = [50, 500];

fn window(size: usize) -> Harness<'static, Editor> {
    let editor = Editor::new(decks::plan(size, 1));
    let mut harness = Harness::builder()
        .with_size(vec2(1280.0, 800.0))
        .with_context_setup(prepare)
        .build_ui_state(|ui, editor: &mut Editor| editor.ui(ui), editor);
    harness.run_steps(3);
    harness
}

/// Where the first cylinder that stands on deck is on the screen.
fn first_cylinder(harness: &Harness<'static, Editor>) -> Pos2 {
    let editor = harness.state();
    let cylinders = editor.plan().trips[0].cylinders.iter();
    let mut places = cylinders.filter_map(|cylinder| cylinder.placing.at());
    let place = places.find_map(|at| editor.on_screen(at));
    place.expect("a cylinder on deck")
}

pub(crate) fn frames(c: &mut Criterion) {
    let mut group = c.benchmark_group("a frame of the window");
    for size in SIZES {
        let mut harness = window(size);
        let runs = harness.state().check_runs();
        let at = first_cylinder(&harness);
        let mut step = 0.0;
        let mut next = move || {
            step = if step > 8.0 { 0.0 } else { step + 1.0 };
            vec2(step, -step)
        };
        group.bench_function(BenchmarkId::new("nothing changes", size), |b| {
            b.iter(|| {
                harness.hover_at(Pos2::new(300.0, 140.0) + next());
                harness.step();
            });
        });
        assert_eq!(harness.state().check_runs(), runs, "nothing was checked");
        harness.hover_at(at);
        harness.drag_at(at);
        harness.run_steps(2);
        group.bench_function(BenchmarkId::new("one cylinder dragged", size), |b| {
            b.iter(|| {
                harness.hover_at(at + vec2(12.0, 12.0) + next());
                harness.step();
                black_box(harness.state().findings().len())
            });
        });
        assert!(harness.state().check_runs() > runs + 5, "all was checked");
    }
    group.finish();
}
