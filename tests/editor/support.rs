//! How the tests hold the window.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::{Pos2, Vec2, vec2};
use egui_kittest::Harness;
use snugdown::app::{Editor, prepare};
use snugdown::layout::Plan;

use crate::cpu_renderer::CpuRenderer;

/// A boat without anything on it, saved as `boat.json` in a folder, and the window on it.
pub(crate) fn otter_in(folder: &Path) -> Harness<'static, Editor> {
    let path = folder.join("boat.json");
    snugdown::store::save(&Plan::new("Otter", 7.0, 2.6), &path).unwrap();
    window_of(Editor::open(&path).unwrap(), vec2(1280.0, 800.0))
}

/// The window on this plan.
pub(crate) fn window(plan: Plan) -> Harness<'static, Editor> {
    window_of(Editor::new(plan), vec2(1280.0, 800.0))
}

/// The window of an editor, in a size.
pub(crate) fn window_of(editor: Editor, size: Vec2) -> Harness<'static, Editor> {
    let mut harness = Harness::builder()
        .with_size(size)
        // A wheel that turns while cures are tried beside the window asks for frames as long as that takes.
        .with_max_steps(500)
        .with_render_cursor(false)
        .renderer(CpuRenderer::default())
        .with_context_setup(prepare)
        .build_ui_state(
            |ui, editor: &mut Editor| {
                // Without the frame that the harness would put round it.
                let rect = ui.ctx().content_rect();
                let mut whole = ui.new_child(egui::UiBuilder::new().max_rect(rect));
                whole.set_clip_rect(rect);
                editor.ui(&mut whole);
            },
            editor,
        );
    harness.run();
    harness
}

/// Where a point of the plan is on the screen.
pub(crate) fn on_screen(harness: &Harness<'static, Editor>, x: f64, y: f64) -> Pos2 {
    harness.state().on_screen([x, y]).unwrap()
}

/// A press and a release without moving.
pub(crate) fn click_at(harness: &mut Harness<'static, Editor>, at: Pos2) {
    harness.hover_at(at);
    harness.run();
    harness.drag_at(at);
    harness.run_steps(1);
    harness.drop_at(at);
    harness.run();
}

/// Frames until nothing is tried beside the window any more; at most a minute.
pub(crate) fn wait(harness: &mut Harness<'static, Editor>) {
    for _ in 0..1200 {
        harness.step();
        if !harness.state().is_busy() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(50));
    }
    assert!(!harness.state().is_busy(), "still trying");
    harness.run();
}

/// A drag in ten steps, let go at its end.
pub(crate) fn drag(harness: &mut Harness<'static, Editor>, from: Pos2, to: Pos2) {
    drag_to(harness, from, to);
    harness.drop_at(to);
    harness.run();
}

/// A drag that is not let go yet.
pub(crate) fn drag_to(harness: &mut Harness<'static, Editor>, from: Pos2, to: Pos2) {
    harness.hover_at(from);
    harness.drag_at(from);
    harness.run_steps(2);
    for step in 1..=10 {
        harness.hover_at(from + (to - from) * (step as f32 / 10.0));
        harness.run_steps(1);
    }
    harness.run_steps(2);
}

/// A press on the control with this name, found as a screen reader finds it: the last one drawn, which
/// is the one of a question over the window.
pub(crate) fn press_label(harness: &mut Harness<'static, Editor>, label: &str) {
    press(harness, label);
    // What was begun beside the window may take longer than a harness runs, on a machine with other work.
    if harness.run_ok().is_none() {
        wait(harness);
    }
}

/// The same for one frame only, to see what that frame asks of the desktop.
pub(crate) fn press_step(harness: &mut Harness<'static, Editor>, label: &str) {
    press(harness, label);
    harness.run_steps(1);
}

fn press(harness: &mut Harness<'static, Editor>, label: &str) {
    use egui_kittest::kittest::{NodeT as _, Queryable as _};
    let mut controls = harness.query_all_by_label(label);
    let control = controls.rfind(|node| node.accesskit_node().role() != egui::Role::Label);
    match control {
        Some(control) => control.click(),
        None => panic!("no control is called {label:?}"),
    }
}

/// Types into the field with this name, which is empty.
pub(crate) fn fill_in(harness: &mut Harness<'static, Editor>, label: &str, text: &str) {
    use egui_kittest::kittest::Queryable as _;
    for typing in [false, true] {
        let fields = harness.query_all_by_label(label);
        let is_field = |node: &egui_kittest::Node<'_>| {
            use egui_kittest::kittest::NodeT as _;
            let role = node.accesskit_node().role();
            matches!(role, egui::Role::TextInput | egui::Role::MultilineTextInput)
        };
        let field = fields
            .into_iter()
            .find(is_field)
            .expect("a field to type in");
        if typing {
            field.type_text(text);
        } else {
            field.focus();
        }
        harness.run();
    }
}

/// Drops a file onto the window.
pub(crate) fn drop_file(harness: &mut Harness<'static, Editor>, path: &Path) {
    let file = Dropped(path.to_owned());
    harness.input_mut().dropped_files.push(Arc::new(file));
    harness.run_steps(4);
}

#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|err| err.to_string())
    }
}
