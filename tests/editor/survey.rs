//! The deck by tape and from a drawing, as a person types and chooses it.

use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use snugdown::app::Editor;
use snugdown::layout::Plan;

use crate::support::{drop_file, otter_in, press_label, wait, window};

/// A deck of 6 m by 2 m in millimetres with a half round bow, and a box on another layer.
const DRAWING: &str = "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n5\n2A\n8\nDECK\n100\nAcDbEntity\n100\nAcDbPolyline\n90\n4\n70\n1\n10\n0\n20\n-1000\n10\n5000\n20\n-1000\n42\n1\n10\n5000\n20\n1000\n10\n0\n20\n1000\n0\nLINE\n5\n2B\n8\nDECK\n10\n1000\n20\n0\n11\n2000\n21\n0\n0\nCIRCLE\n5\n2C\n8\nHATCH\n10\n2000\n20\n0\n40\n300\n0\nENDSEC\n0\nEOF\n";

pub(crate) fn type_into(harness: &mut Harness<'static, Editor>, label: &str, text: &str) {
    let role = |harness: &Harness<'static, Editor>| {
        let lines = egui::Role::MultilineTextInput;
        if harness.query_by_role_and_label(lines, label).is_some() {
            lines
        } else {
            egui::Role::TextInput
        }
    };
    let role = role(harness);
    harness.get_by_role_and_label(role, label).focus();
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.run();
    harness.get_by_role_and_label(role, label).type_text(text);
    harness.run();
}

fn open_deck_by_tape(harness: &mut Harness<'static, Editor>) {
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::O);
    harness.run();
}

#[test]
fn a_deck_is_drawn_from_tape_readings_and_checked_by_diagonals() {
    let mut harness = window(Plan::new("Otter", 7.0, 2.6));
    open_deck_by_tape(&mut harness);
    type_into(&mut harness, "Tape readings", "0; 1.2\n4; 1.3\n6.5; 0");
    // From (0, 1.2) to (4, −1.3): √(16 + 6.25) = 4.717 m; 6 cm too long is a reading that is wrong.
    type_into(&mut harness, "Diagonals", "1P 2S 4.777");
    harness.get_by_label_contains("60 mm longer than drawn");
    harness.get_by_label_contains("a reading is wrong");
    type_into(&mut harness, "Diagonals", "1P 2S 4.72\n1S 2P 4.715");
    assert_eq!(harness.query_all_by_label_contains("agrees").count(), 2);
    press_label(&mut harness, "Draw the deck so");
    let plan = harness.state().plan();
    let expected = [[0.0, -1.2], [4.0, -1.3], [6.5, 0.0], [4.0, 1.3], [0.0, 1.2]];
    assert_eq!(plan.boat.decks[0].outline, expected);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    let undone = &harness.state().plan().boat.decks[0].outline;
    assert_eq!(
        *undone,
        Plan::new("Otter", 7.0, 2.6).boat.decks[0].outline,
        "one step"
    );
}

#[test]
fn a_round_bow_is_curved_and_the_boat_grows_with_its_deck() {
    let mut harness = window(Plan::new("Otter", 7.0, 2.6));
    open_deck_by_tape(&mut harness);
    type_into(&mut harness, "Tape readings", "0; 1.4\n6.6; 1.4\n7.9; 0");
    press_label(&mut harness, "Bow");
    press_label(&mut harness, "round");
    harness.get_by_label_contains("straight pieces within");
    press_label(&mut harness, "Draw the deck so");
    let boat = &harness.state().plan().boat;
    assert!(
        boat.decks[0].outline.len() > 8,
        "{:?}",
        boat.decks[0].outline
    );
    assert_eq!((boat.length_overall_m, boat.beam_m), (7.9, 2.8));
}

#[test]
fn a_drawing_asks_for_its_unit_and_gives_the_deck() {
    let folder = tempfile::tempdir().unwrap();
    snugdown::store::write_atomic(&folder.path().join("deck.dxf"), DRAWING.as_bytes()).unwrap();
    let mut harness = otter_in(folder.path());
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::J);
    harness.run();
    press_label(&mut harness, "deck.dxf");
    crate::support::press_step(&mut harness, "Open this one");
    wait(&mut harness);
    harness.get_by_label_contains("does not say its unit");
    press_label(&mut harness, "Drawn in");
    press_label(&mut harness, "mm");
    harness.get_by_label_contains("6.00 m long, 2.00 m wide");
    harness.get_by_label_contains("LINE 2B is not closed");
    crate::pictures::keep(&mut harness, "deck-from-drawing");
    press_label(&mut harness, "Draw the deck so");
    let outline = &harness.state().plan().boat.decks[0].outline;
    assert!(
        outline.contains(&[6.0, 0.0]) && outline.contains(&[0.0, 1.0]),
        "{outline:?}"
    );
}

#[test]
fn a_broken_drawing_is_told_and_nothing_is_lost() {
    let folder = tempfile::tempdir().unwrap();
    snugdown::store::write_atomic(&folder.path().join("deck.dxf"), b"no drawing").unwrap();
    let mut harness = otter_in(folder.path());
    let plan = harness.state().plan().clone();
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::J);
    harness.run();
    press_label(&mut harness, "deck.dxf");
    crate::support::press_step(&mut harness, "Open this one");
    wait(&mut harness);
    harness.get_by_label("The drawing was not read");
    press_label(&mut harness, "Close this");
    assert_eq!(harness.state().plan().boat.decks, plan.boat.decks);
}

#[test]
fn the_questions_fit_the_window() {
    for (width, height) in [(1280.0, 800.0), (1920.0, 1080.0)] {
        let editor = Editor::new(Plan::new("Otter", 7.0, 2.6));
        let mut harness = crate::support::window_of(editor, egui::vec2(width, height));
        open_deck_by_tape(&mut harness);
        type_into(
            &mut harness,
            "Tape readings",
            "0; 1.2\n2.5; 1.3\n4.5; 1.25\n6; 0.8\n7; 0",
        );
        press_label(&mut harness, "Bow");
        press_label(&mut harness, "fair curve");
        type_into(&mut harness, "Diagonals", "1P 3S 5.13\n1S 3P 5.19");
        let screen = harness.ctx.content_rect();
        let button = harness.get_by_label("Draw the deck so").rect();
        assert!(screen.contains_rect(button), "{button:?} in {screen:?}");
    }
}

/// 80 by 40 pixels: white with a black border, as PNG.
fn photo(path: &std::path::Path) {
    let is_border = |x: u32, y: u32| x < 2 || y < 2 || x >= 78 || y >= 38;
    let image = image::RgbImage::from_fn(80, 40, |x, y| {
        image::Rgb(if is_border(x, y) { [0; 3] } else { [255; 3] })
    });
    image.save(path).unwrap();
}

#[test]
fn a_photo_is_laid_under_the_plan_by_its_corners_and_missed_when_it_is_gone() {
    let folder = tempfile::tempdir().unwrap();
    photo(&folder.path().join("deck.png"));
    let path = folder.path().join("boat.json");
    let mut harness = otter_in(folder.path());
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::P);
    harness.run();
    press_label(&mut harness, "deck.png");
    press_label(&mut harness, "Open this one");
    crate::support::wait(&mut harness);
    let rect = harness.get_by_label("The photo to be clicked").rect();
    // The bow is to the right in the photo: aft corners on the left.
    for (across, down) in [(0.1, 0.1), (0.1, 0.9), (0.9, 0.9), (0.9, 0.1)] {
        let at = rect.min + egui::vec2(across, down) * rect.size();
        crate::support::click_at(&mut harness, at);
    }
    type_into(&mut harness, "Its length; its width", "6.4; 3.2");
    let aft = "Its aft side from the stern; its middle from the centreline";
    type_into(&mut harness, aft, "0; 0");
    harness.get_by_label_contains("is right within");
    press_label(&mut harness, "Lay it under the plan");
    let underlay = harness.state().plan().boat.decks[0]
        .underlay
        .clone()
        .unwrap();
    assert_eq!(
        (underlay.file.as_str(), underlay.points.len()),
        ("deck.png", 4)
    );
    let found = underlay.points[2].clone();
    assert_eq!(found.at, [6.4, -1.6]);
    assert!(
        (found.pixel[0] - 72.0).abs() < 0.5 && (found.pixel[1] - 36.0).abs() < 0.5,
        "{found:?}"
    );
    crate::support::wait(&mut harness);
    assert_eq!(harness.state().told(), None, "it is shown");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();

    std::fs::remove_file(folder.path().join("deck.png")).unwrap();
    let mut again =
        crate::support::window_of(Editor::open(&path).unwrap(), egui::vec2(1280.0, 800.0));
    crate::support::wait(&mut again);
    let told = again.state().told().unwrap_or_default().to_owned();
    assert!(told.contains("deck.png is not shown"), "{told}");
    again.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::B);
    again.run();
    assert!(again.state().plan().boat.decks[0].underlay.is_none());
}

#[test]
fn a_box_is_built_on_by_two_tapes_to_each_corner() {
    let mut harness = window(Plan::new("Otter", 7.0, 2.6));
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::G);
    harness.run();
    type_into(&mut harness, "What it is called", "Gear box");
    // From (0, ±1.3) to (2, 0.3) and (2, 1.1).
    let lines = "1P 2.23607; 1S 2.56125\n1P 2.00998; 1S 3.12410";
    type_into(&mut harness, "Spots by two tapes", lines);
    harness.get_by_label_contains("Say how deep it is");
    type_into(&mut harness, "Depth beyond the two corners", "0.6");
    harness.get_by_label_contains("the tapes meet at 65°");
    press_label(&mut harness, "Put it on the deck");
    let fixtures = &harness.state().plan().boat.fixtures;
    assert_eq!(fixtures.len(), 1);
    assert_eq!(fixtures[0].name.as_deref(), Some("Gear box"));
    let outline = [[2.0, 0.3], [2.0, 1.1], [2.6, 1.1], [2.6, 0.3]];
    assert_eq!(fixtures[0].outline, outline);
}

#[test]
fn a_measuring_sheet_is_saved_to_be_printed() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = otter_in(folder.path());
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::M);
    harness.run();
    press_label(&mut harness, "Save it here");
    crate::support::wait(&mut harness);
    let bytes = std::fs::read(folder.path().join("measuring-sheet.pdf")).unwrap();
    assert!(bytes.starts_with(b"%PDF-"));
    assert!(
        harness
            .state()
            .told()
            .unwrap_or_default()
            .contains("pages to print")
    );
}

#[test]
fn a_photo_that_is_none_is_told() {
    let folder = tempfile::tempdir().unwrap();
    snugdown::store::write_atomic(&folder.path().join("deck.png"), b"no photo").unwrap();
    let mut harness = otter_in(folder.path());
    harness.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::P);
    harness.run();
    press_label(&mut harness, "deck.png");
    press_label(&mut harness, "Open this one");
    crate::support::wait(&mut harness);
    harness.get_by_label("The photo was not read");
    press_label(&mut harness, "Close this");
    assert!(harness.state().plan().boat.decks[0].underlay.is_none());
}

/// The drawing is a pipe, so that it takes as long to read as the test wants.
#[cfg(unix)]
#[test]
fn reading_a_drawing_blocks_nothing_and_can_be_given_up() {
    let folder = tempfile::tempdir().unwrap();
    let pipe = |name: &str| {
        let path = folder.path().join(name);
        let made = std::process::Command::new("mkfifo").arg(&path).status();
        assert!(made.unwrap().success(), "a pipe");
        path
    };
    let write = |path: &std::path::Path, text: &str| {
        use std::io::Write as _;
        let mut pipe = std::fs::OpenOptions::new().write(true).open(path).unwrap();
        pipe.write_all(text.as_bytes()).ok();
    };
    let mut harness = window(Plan::new("Otter", 7.0, 2.6));
    let slow = pipe("slow.dxf");
    drop_file(&mut harness, &slow);
    harness.get_by_label("Reading slow.dxf…");
    assert!(harness.state().is_busy(), "it is read beside the window");
    crate::support::press_step(&mut harness, "Give it up");
    harness.run_steps(2);
    assert!(harness.query_by_label("Reading slow.dxf…").is_none());
    assert!(!harness.state().is_busy(), "nobody waits for it");
    write(&slow, "");
    // Read to its end it is what it is.
    let other = pipe("other.dxf");
    drop_file(&mut harness, &other);
    harness.get_by_label("Reading other.dxf…");
    write(&other, DRAWING);
    wait(&mut harness);
    harness.get_by_label_contains("does not say its unit");
}
