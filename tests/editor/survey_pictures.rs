//! Pictures of the deck by tape and of a photo beneath the plan.

use egui::{Key, Modifiers, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use snugdown::app::Editor;
use snugdown::geometry::survey::{Pair, PlanFromImage};
use snugdown::layout::Plan;

use crate::pictures::keep;
use crate::support::{click_at, press_label, wait, window_of};
use crate::survey::type_into;

const BOTH: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);

/// The corners of a hatch of 2 m by 1.2 m in a photo from the stern of a deck of 7 m by 2.6 m.
const CORNERS: [([f64; 2], [f64; 2]); 4] = [
    ([250.0, 420.0], [2.0, 0.6]),
    ([550.0, 420.0], [2.0, -0.6]),
    ([480.0, 250.0], [4.0, -0.6]),
    ([320.0, 250.0], [4.0, 0.6]),
];

/// A photo of planks 20 cm wide with that hatch among them, drawn by the perspective of its corners.
fn photo(path: &std::path::Path) {
    let pairs = CORNERS.map(|(pixel, at)| Pair {
        pixel: pixel.into(),
        at: at.into(),
    });
    let map = PlanFromImage::through(&pairs).unwrap();
    let image = image::RgbImage::from_fn(800, 500, |column, row| {
        let pixel = [f64::from(column) + 0.5, f64::from(row) + 0.5];
        let Some(at) = map.at(pixel.into()) else {
            return image::Rgb([150, 180, 210]);
        };
        let on_deck = (0.0..7.0).contains(&at.x) && at.y.abs() < 1.3;
        let on_hatch = (2.0..4.0).contains(&at.x) && at.y.abs() < 0.6;
        let seam = (at.y / 0.2 - 0.5).rem_euclid(1.0) < 0.06;
        image::Rgb(match (on_deck, on_hatch, seam) {
            (false, _, _) => [70, 110, 130],
            (_, true, _) => [120, 120, 125],
            (_, _, true) => [70, 50, 35],
            _ => [190, 150, 105],
        })
    });
    image.save(path).unwrap();
}

fn keys(harness: &mut Harness<'static, Editor>, key: Key) {
    harness.key_press_modifiers(BOTH, key);
    harness.run();
}

#[test]
fn the_deck_by_tape() {
    let editor = Editor::new(Plan::new("Otter", 7.0, 2.6));
    let mut harness = window_of(editor, vec2(1280.0, 800.0));
    keys(&mut harness, Key::O);
    let stations = "0; 1.2\n2.5; 1.3\n4.5; 1.25\n6; 0.8\n7; 0";
    type_into(&mut harness, "Tape readings", stations);
    press_label(&mut harness, "Bow");
    press_label(&mut harness, "fair curve");
    type_into(
        &mut harness,
        "Diagonals",
        "1P 3S 5.13\n1S 3P 5.19\n2P 3S 3.24",
    );
    keep(&mut harness, "deck-by-tape");
}

#[test]
fn a_photo_beneath_the_plan() {
    let folder = tempfile::tempdir().unwrap();
    photo(&folder.path().join("deck.png"));
    let path = folder.path().join("otter.json");
    snugdown::store::save(&Plan::new("Otter", 7.0, 2.6), &path).unwrap();
    let mut harness = window_of(Editor::open(&path).unwrap(), vec2(1280.0, 800.0));
    keys(&mut harness, Key::P);
    press_label(&mut harness, "deck.png");
    press_label(&mut harness, "Open this one");
    wait(&mut harness);
    let rect = harness.get_by_label("The photo to be clicked").rect();
    for ([across, down], _) in CORNERS {
        let share = vec2(across as f32 / 800.0, down as f32 / 500.0);
        click_at(&mut harness, rect.min + share * rect.size());
    }
    type_into(&mut harness, "Its length; its width", "2; 1.2");
    let aft = "Its aft side from the stern; its middle from the centreline";
    type_into(&mut harness, aft, "2; 0");
    keep(&mut harness, "photo-clicked");
    press_label(&mut harness, "Lay it under the plan");
    wait(&mut harness);
    press_label(&mut harness, "Measuring tape");
    for (x, y) in [(2.0, 0.6), (4.0, 0.6)] {
        let at = crate::support::on_screen(&harness, x, y);
        click_at(&mut harness, at);
    }
    keep(&mut harness, "photo-beneath");
}
