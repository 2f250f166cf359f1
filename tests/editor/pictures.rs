//! Pictures of the whole window, in each light and at two sizes: in the build's own folder, and with
//! `UPDATE_PICTURES=1` in `docs/pictures`.

use std::path::PathBuf;

use egui::vec2;
use egui_kittest::Harness;
use snugdown::app::{Editor, Theme};

use crate::support::window_of;

fn folder() -> PathBuf {
    if std::env::var_os("UPDATE_PICTURES").is_some() {
        PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/docs/pictures"))
    } else {
        PathBuf::from(env!("CARGO_TARGET_TMPDIR"))
    }
}

/// Keeps a picture; fails if it is blank.
fn keep(harness: &mut Harness<'static, Editor>, name: &str) {
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
    for (theme, name) in [
        (Theme::Light, "light"),
        (Theme::Dark, "dark"),
        (Theme::Sunlight, "sunlight"),
    ] {
        for (width, height) in [(1280.0, 800.0), (1920.0, 1080.0)] {
            let mut harness = demonstration(theme, width, height);
            keep(&mut harness, &format!("window-{name}-{width}"));
        }
    }
}
