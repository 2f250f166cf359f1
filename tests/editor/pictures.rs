//! Pictures of the whole window, in each light and at two sizes: in the build's own folder, and with
//! `UPDATE_PICTURES=1` in `docs/pictures`. With `UPDATE_PICTURES=each` every one of them is also made in each light and
//! at both sizes, in the build's own folder: hundreds, to be looked at.

use std::path::PathBuf;

use egui::{Key, Modifiers, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use snugdown::app::{Editor, Theme};
use snugdown::layout::Plan;

use crate::support::{click_at, drag_to, on_screen, press_label, press_step, wait, window_of};

pub(crate) fn folder() -> PathBuf {
    if std::env::var_os("UPDATE_PICTURES").is_some_and(|it| it != "each") {
        PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/docs/pictures"))
    } else {
        PathBuf::from(env!("CARGO_TARGET_TMPDIR"))
    }
}

const LIGHTS: [(Theme, &str); 3] = [
    (Theme::Light, "light"),
    (Theme::Dark, "dark"),
    (Theme::Sunlight, "sunlight"),
];

const SIZES: [(f32, f32); 2] = [(1280.0, 800.0), (1920.0, 1080.0)];

/// Keeps a picture; fails if it is blank.
pub(crate) fn keep(harness: &mut Harness<'static, Editor>, name: &str) {
    wait_steps(harness);
    keep_one(harness, name);
    if std::env::var_os("UPDATE_PICTURES").is_some_and(|it| it == "each") {
        keep_each(harness, name);
    }
}

/// The same in each light and at both sizes; afterwards it is as it was.
fn keep_each(harness: &mut Harness<'static, Editor>, name: &str) {
    let (theme, size) = (harness.state().theme(), harness.ctx.content_rect().size());
    for (theme, light) in LIGHTS {
        for (width, height) in SIZES {
            harness.state_mut().set_theme(theme);
            harness.set_size(vec2(width, height));
            harness.run_steps(3);
            wait_steps(harness);
            keep_one(harness, &format!("each-{name}-{light}-{width}"));
        }
    }
    harness.state_mut().set_theme(theme);
    harness.set_size(size);
    harness.run_steps(3);
    wait_steps(harness);
}

/// Waits for what is made beside the window, without letting the rest of the window come to rest: something may move.
fn wait_steps(harness: &mut Harness<'static, Editor>) {
    for _ in 0..1200 {
        harness.step();
        if !harness.state().is_busy() {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
}

fn keep_one(harness: &mut Harness<'static, Editor>, name: &str) {
    let image = harness.render().unwrap();
    let first = *image.get_pixel(0, 0);
    let other = image.pixels().filter(|pixel| **pixel != first).count();
    assert!(other > 10_000, "{name} is nearly blank");
    let folder = folder();
    std::fs::create_dir_all(&folder).unwrap();
    image.save(folder.join(format!("{name}.png"))).unwrap();
}

fn demonstration(theme: Theme, width: f32, height: f32) -> Harness<'static, Editor> {
    let mut editor = Editor::demonstration();
    editor.set_theme(theme);
    window_of(editor, vec2(width, height))
}

#[test]
fn the_window_in_each_light() {
    for (theme, name) in LIGHTS {
        for (width, height) in SIZES {
            let mut harness = demonstration(theme, width, height);
            keep(&mut harness, &format!("window-{name}-{width}"));
        }
    }
}

#[test]
fn a_line_to_put_right_with_its_cures() {
    let mut harness = demonstration(Theme::Light, 1280.0, 800.0);
    harness.key_press(Key::F8);
    harness.run_steps(2);
    wait(&mut harness);
    keep(&mut harness, "put-right");
}

#[test]
fn the_card_of_a_cylinder() {
    for (theme, name) in [(Theme::Light, "light"), (Theme::Dark, "dark")] {
        let mut harness = demonstration(theme, 1280.0, 1000.0);
        let at = on_screen(&harness, 4.34, 1.06);
        click_at(&mut harness, at);
        for _ in 0..14 {
            harness.key_press(Key::CloseBracket);
            harness.run();
        }
        keep(&mut harness, &format!("card-{name}"));
    }
}

#[test]
fn an_empty_deck_and_what_is_in_hand() {
    let editor = Editor::new(Plan::new("Petrel", 7.5, 2.6));
    let mut harness = window_of(editor, vec2(1280.0, 800.0));
    keep(&mut harness, "empty");
    press_label(&mut harness, "Cylinders");
    press_label(&mut harness, "Aluminium 3 L, 200/207 bar");
    let at = on_screen(&harness, 3.0, 0.0);
    harness.hover_at(at);
    harness.run();
    keep(&mut harness, "placing");
    click_at(&mut harness, at);
    harness.key_press(Key::Escape);
    harness.run();
    let to = on_screen(&harness, 4.0, 0.5);
    drag_to(&mut harness, at, to);
    keep(&mut harness, "dragging");
}

#[test]
fn questions_over_the_window() {
    let mut harness = demonstration(Theme::Light, 1280.0, 800.0);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::N);
    harness.run();
    keep(&mut harness, "question-new-boat");
    harness.key_press(Key::Escape);
    harness.run();
    harness.key_press(Key::F1);
    harness.run();
    keep(&mut harness, "question-keys");
    press_label(&mut harness, "Close this");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::O);
    harness.run();
    // Not kept as a picture: it shows the folders of whoever makes it.
    harness.get_by_label("layouts/");
}

#[test]
fn large_controls_and_text() {
    let mut harness = demonstration(Theme::Sunlight, 1280.0, 800.0);
    harness.key_press(Key::F7);
    for _ in 0..3 {
        harness.key_press_modifiers(Modifiers::COMMAND, Key::Plus);
    }
    harness.run();
    press_label(&mut harness, "US");
    keep(&mut harness, "large");
}

#[test]
fn how_well_each_holds_and_the_limit_against_the_period() {
    let mut harness = demonstration(Theme::Light, 1280.0, 1000.0);
    harness.key_press(Key::H);
    harness.run();
    let at = on_screen(&harness, 4.34, 1.06);
    click_at(&mut harness, at);
    press_label(&mut harness, "From the side");
    press_label(&mut harness, "The numbers");
    press_step(&mut harness, "Curves");
    harness.run_steps(4);
    wait(&mut harness);
    keep(&mut harness, "margins");
}

#[test]
fn curves_of_a_racked_cylinder() {
    for (name, theme, picture) in [
        ("Limit and roll period", Theme::Light, "curve-period"),
        ("Margin and heel", Theme::Dark, "curve-heel"),
    ] {
        let mut harness = demonstration(theme, 1280.0, 1200.0);
        harness.key_press_modifiers(Modifiers::COMMAND, Key::G);
        harness.run();
        crate::support::fill_in(&mut harness, "What is looked for", "S1");
        harness.key_press(Key::Enter);
        harness.run();
        press_label(&mut harness, "From the side");
        press_label(&mut harness, "The numbers");
        press_step(&mut harness, "Curves");
        harness.run_steps(4);
        wait(&mut harness);
        press_label(&mut harness, name);
        wait(&mut harness);
        harness.get_by_label(name).scroll_to_me();
        harness.run();
        keep(&mut harness, picture);
    }
}

#[test]
fn questions_about_what_was_kept() {
    let mut harness = demonstration(Theme::Dark, 1280.0, 800.0);
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::O);
    harness.run();
    keep(&mut harness, "question-deck-by-tape");
    press_label(&mut harness, "Go back");
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::I);
    harness.run();
    keep(&mut harness, "question-cylinder-list");
}
