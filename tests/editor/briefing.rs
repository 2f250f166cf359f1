//! Briefing the crew: looking at the sheet, arranging the order, the walk, saving.

use egui::{Key, Modifiers, Pos2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use snugdown::app::{Editor, Theme};
use snugdown::layout::Plan;

use crate::support::{drag, fill_in, press_label, window_of};

fn day_boat() -> Plan {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts/day-boat.json");
    snugdown::store::read(&path).unwrap()
}

/// The place where the crew is briefed, opened by its keys.
fn briefed(plan: Plan) -> Harness<'static, Editor> {
    briefed_in(Editor::new(plan), Theme::Light)
}

fn briefed_in(mut editor: Editor, theme: Theme) -> Harness<'static, Editor> {
    editor.set_theme(theme);
    let mut harness = window_of(editor, egui::vec2(1280.0, 800.0));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::B);
    harness.run_steps(2);
    crate::support::wait(&mut harness);
    harness
}

/// The same for the day boat as a file in a folder.
fn saved_and_briefed(folder: &std::path::Path) -> Harness<'static, Editor> {
    let path = folder.join("boat.json");
    snugdown::store::save(&day_boat(), &path).unwrap();
    briefed_in(Editor::open(&path).unwrap(), Theme::Light)
}

/// The order as the crew set it.
fn order_by_hand<'a>(harness: &'a Harness<'static, Editor>) -> &'a [String] {
    let briefing = harness.state().plan().trips[0].briefing.as_ref();
    &briefing.unwrap().order
}

/// Presses and holds for about so many seconds.
fn hold(harness: &mut Harness<'static, Editor>, at: Pos2, seconds: f64) {
    harness.hover_at(at);
    harness.run_steps(1);
    harness.drag_at(at);
    harness.run_steps(1);
    let begun = harness.ctx.input(|input| input.time);
    for _ in 0..600 {
        if harness.ctx.input(|input| input.time) - begun >= seconds {
            break;
        }
        harness.run_steps(1);
    }
    harness.drop_at(at);
    harness.run_steps(3);
}

fn ticked(harness: &Harness<'static, Editor>) -> Vec<(String, String, Option<String>)> {
    let trip = &harness.state().plan().trips[0];
    let ticks = trip.briefing.iter().flat_map(|briefing| &briefing.ticks);
    let told = ticks.map(|tick| {
        assert!(
            tick.when.ends_with(" UTC") && tick.when.starts_with("20"),
            "{}",
            tick.when
        );
        (tick.cylinder.clone(), tick.by.clone(), tick.skipped.clone())
    });
    told.collect()
}

fn middle_of(harness: &Harness<'static, Editor>, label: &str) -> Pos2 {
    harness.get_by_label(label).rect().center()
}

#[test]
fn the_sheet_is_looked_at_page_by_page() {
    let mut harness = briefed(day_boat());
    harness.get_by_label("page 1 of 2");
    press_label(&mut harness, "Next page");
    harness.get_by_label("page 2 of 2");
    press_label(&mut harness, "The plan alone");
    crate::support::wait(&mut harness);
    harness.get_by_label("page 1 of 1");
    harness.key_press(Key::Escape);
    harness.run();
    assert!(
        harness.query_by_label("page 1 of 1").is_none(),
        "Escape leaves"
    );
}

#[test]
fn the_order_is_dragged_and_says_what_it_breaks() {
    let mut harness = briefed(day_boat());
    press_label(&mut harness, "Loading order");
    let first = harness.state().next_to_load().unwrap().to_owned();
    harness.get_by_label("breaks no rule of loading");
    // The handle of the first step lies left of its "later" button, each step is 44 points high.
    let button = middle_of(&harness, &format!("{first} later"));
    let left = harness
        .get_by_label(&format!("{first} earlier"))
        .rect()
        .left()
        - 20.0;
    let from = Pos2::new(left, button.y);
    drag(&mut harness, from, Pos2::new(left, button.y + 2.0 * 44.0));
    harness.run();
    let order = order_by_hand(&harness);
    assert_eq!(order.len(), 24);
    assert_eq!(order[2], first, "{order:?}");
    press_label(&mut harness, &format!("{first} earlier"));
    let order = order_by_hand(&harness);
    assert_eq!(order[1], first, "{order:?}");
    press_label(&mut harness, "Back to the computed order");
    assert_eq!(harness.state().plan().trips[0].briefing, None);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(order_by_hand(&harness)[1], first, "undone as any step");
}

#[test]
fn a_tick_needs_a_name_and_a_long_press() {
    let mut harness = briefed(day_boat());
    press_label(&mut harness, "Walk through it");
    let first = harness.state().next_to_load().unwrap().to_owned();
    let at = middle_of(&harness, &format!("Hold to tick {first} off"));
    hold(&mut harness, at, 2.0);
    assert_eq!(ticked(&harness), [], "nobody said who ticks");
    fill_in(&mut harness, "Who ticks", "Ann");
    let at = middle_of(&harness, &format!("Hold to tick {first} off"));
    crate::support::click_at(&mut harness, at);
    assert_eq!(ticked(&harness), [], "a touch is no tick");
    // Held on and on it ticks once.
    hold(&mut harness, at, 4.0);
    assert_eq!(ticked(&harness), [(first.clone(), "Ann".to_owned(), None)]);
    let second = harness.state().next_to_load().unwrap().to_owned();
    assert_ne!(second, first);
    // Of two ticks the last is taken back.
    let at = middle_of(&harness, &format!("Hold to tick {second} off"));
    hold(&mut harness, at, 2.0);
    assert_eq!(ticked(&harness).len(), 2);
    press_label(&mut harness, &format!("Take {second} back"));
    assert_eq!(ticked(&harness), [(first.clone(), "Ann".to_owned(), None)]);
    press_label(&mut harness, &format!("Take {first} back"));
    assert_eq!(ticked(&harness), []);
    assert_eq!(harness.state().next_to_load(), Some(first.as_str()));
}

#[test]
fn two_fields_tick_only_one_after_the_other() {
    let mut harness = briefed(day_boat());
    press_label(&mut harness, "Walk through it");
    press_label(&mut harness, "two fields");
    let first = harness.state().next_to_load().unwrap().to_owned();
    let secured = middle_of(&harness, &format!("{first} is secured"));
    let pushed = middle_of(&harness, &format!("{first} was pushed: tick it off"));
    assert!(
        secured.distance(pushed) > 500.0,
        "too far apart for one slip: {secured:?} and {pushed:?}"
    );
    for at in [secured, pushed] {
        crate::support::click_at(&mut harness, at);
    }
    assert_eq!(ticked(&harness), [], "nobody said who ticks");
    fill_in(&mut harness, "Who ticks", "Ann");
    for at in [pushed, secured, secured] {
        crate::support::click_at(&mut harness, at);
        assert_eq!(ticked(&harness), [], "neither alone, nor one of them twice");
    }
    // A finger drawn from the one to the other.
    drag(&mut harness, secured, pushed);
    assert_eq!(ticked(&harness), [], "drawn across");
    crate::support::click_at(&mut harness, secured);
    crate::support::click_at(&mut harness, pushed);
    assert_eq!(ticked(&harness), [(first.clone(), "Ann".to_owned(), None)]);
    // The next cylinder begins at the first field again.
    crate::support::click_at(&mut harness, pushed);
    assert_eq!(ticked(&harness).len(), 1);
    crate::pictures::keep(&mut harness, "brief-walk-two-fields");
    // It is kept as a setting.
    press_label(&mut harness, "Leave the walk");
    press_label(&mut harness, "Walk through it");
    harness.get_by_label(&format!(
        "{} is secured",
        harness.state().next_to_load().unwrap()
    ));
}

/// What the last frame asked of the desktop about filling the screen.
fn fills_screen(harness: &Harness<'static, Editor>) -> Option<bool> {
    let viewports = &harness.output().viewport_output;
    let commands = viewports.values().flat_map(|output| &output.commands);
    let mut asked = commands.filter_map(|command| match command {
        egui::ViewportCommand::Fullscreen(full) => Some(*full),
        _ => None,
    });
    asked.next_back()
}

#[test]
fn the_walk_fills_the_screen_and_escape_leaves() {
    let mut harness = briefed(day_boat());
    assert_eq!(fills_screen(&harness), None);
    let mut asked = Vec::new();
    crate::support::press_step(&mut harness, "Walk through it");
    for _ in 0..4 {
        asked.extend(fills_screen(&harness));
        harness.run_steps(1);
    }
    assert_eq!(asked, [true], "once");
    harness.event(egui::Event::Key {
        key: Key::Escape,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers: Modifiers::NONE,
    });
    asked.clear();
    for _ in 0..4 {
        harness.run_steps(1);
        asked.extend(fills_screen(&harness));
    }
    assert_eq!(asked, [false], "as it was before");
    assert!(harness.query_by_label("Leave the walk").is_none());
    // Who wants the window as it is has it so.
    press_label(&mut harness, "Walk through it");
    press_label(&mut harness, "fill the screen");
    press_label(&mut harness, "Leave the walk");
    crate::support::press_step(&mut harness, "Walk through it");
    asked.clear();
    for _ in 0..4 {
        asked.extend(fills_screen(&harness));
        harness.run_steps(1);
    }
    assert!(asked.is_empty(), "not asked for: {asked:?}");
}

#[test]
fn any_key_is_next_and_a_step_is_skipped_with_a_reason() {
    let mut harness = briefed(day_boat());
    press_label(&mut harness, "Walk through it");
    fill_in(&mut harness, "Who ticks", "Bo");
    let first = harness.state().next_to_load().unwrap().to_owned();
    // Out of the field.
    crate::support::click_at(&mut harness, Pos2::new(640.0, 100.0));
    harness.key_press(Key::Space);
    harness.run();
    let second = harness.state().next_to_load().unwrap().to_owned();
    assert_ne!(second, first);
    press_label(&mut harness, "Skip it…");
    press_label(&mut harness, "not filled");
    assert_eq!(
        ticked(&harness),
        [
            (first, "Bo".to_owned(), None),
            (second, "Bo".to_owned(), Some("not filled".to_owned())),
        ]
    );
}

#[test]
fn only_my_cylinders_are_walked_through() {
    let mut plan = day_boat();
    plan.trips[0].cylinders[4].diver = Some("Kim".to_owned());
    let mine = plan.trips[0].cylinders[4].id.clone();
    let mut harness = briefed(plan);
    press_label(&mut harness, "Walk through it");
    fill_in(&mut harness, "Who ticks", "Kim");
    press_label(&mut harness, "only my cylinders");
    assert_eq!(harness.state().next_to_load(), Some(mine.as_str()));
    harness.get_by_label("1 of 1");
}

#[test]
fn the_set_down_spot_and_the_heel_are_settled() {
    let mut harness = briefed(day_boat());
    press_label(&mut harness, "Set-down spot");
    press_label(&mut harness, "Stern gate");
    press_label(&mut harness, "More heel");
    let briefing = harness.state().plan().trips[0].briefing.clone().unwrap();
    assert_eq!(briefing.set_down.as_deref(), Some("stern-gate"));
    assert_eq!(briefing.loading_heel_deg, Some(2.5));
}

#[test]
fn a_talk_point_leads_to_what_it_is_about() {
    let mut plan = day_boat();
    plan.boat.racks[0].fronts.clear();
    let mut harness = briefed(plan);
    press_label(&mut harness, "To say on the quay");
    crate::support::press_step(&mut harness, "Show point 2 on the plan");
    crate::support::wait(&mut harness);
    assert!(
        !harness.state().selected().is_empty(),
        "something is selected"
    );
    assert!(harness.query_by_label("Show point 2 on the plan").is_none());
}

#[test]
fn lists_and_sheets_are_saved() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = saved_and_briefed(folder.path());
    for (label, name, begins) in [
        ("Save the sheet…", "crew-sheet.pdf", "%PDF-"),
        ("Save the slate's lines…", "slate.pdf", "%PDF-"),
        ("Save the plan alone…", "plan.png", "\u{fffd}PNG"),
        ("Save the load list…", "load-list.csv", "cylinder,"),
        ("Save the lashing list…", "lashing-list.csv", "lashing,"),
    ] {
        press_label(&mut harness, "Save as a file…");
        press_label(&mut harness, label);
        press_label(&mut harness, "Save it here");
        crate::support::wait(&mut harness);
        let bytes = std::fs::read(folder.path().join(name)).unwrap();
        let text = String::from_utf8_lossy(&bytes);
        assert!(text.starts_with(begins), "{name}: {:?}", text.get(..20));
        let told = harness.state().told().unwrap_or_default();
        assert!(told.ends_with(&format!("{name} written")), "{told}");
    }
}

/// A folder stands where the file should: that is told, and nothing is left beside it.
#[test]
fn what_cannot_be_saved_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = saved_and_briefed(folder.path());
    press_label(&mut harness, "Save as a file…");
    press_label(&mut harness, "Save the load list…");
    std::fs::create_dir(folder.path().join("load-list.csv")).unwrap();
    press_label(&mut harness, "Save it here");
    crate::support::wait(&mut harness);
    harness.get_by_label("It was not saved");
    let left = std::fs::read_dir(folder.path()).unwrap().count();
    assert_eq!(left, 2, "the boat and the folder");
}

/// The six lines for a slate are copied; the gap to the quay is settled and told.
#[test]
fn the_slate_is_copied_and_the_gap_settled() {
    let mut harness = briefed(day_boat());
    press_label(&mut harness, "More gap");
    press_label(&mut harness, "More gap");
    press_label(&mut harness, "More gap");
    press_label(&mut harness, "Less gap");
    let briefing = harness.state().plan().trips[0].briefing.clone().unwrap();
    assert!((briefing.gap_to_quay_m.unwrap() - 0.2).abs() < 1e-9);
    harness.get_by_label("Gap to the quay: 0.20 m");
    press_label(&mut harness, "For a slate");
    crate::support::wait(&mut harness);
    harness.get_by_label("page 1 of 1");
    crate::support::press_step(&mut harness, "Copy the six lines");
    let mut copied = None;
    for _ in 0..3 {
        let commands = &harness.output().platform_output.commands;
        copied = copied.or_else(|| {
            commands.iter().find_map(|command| match command {
                egui::OutputCommand::CopyText(text) => Some(text.clone()),
                _ => None,
            })
        });
        harness.run_steps(1);
    }
    let copied = copied.unwrap();
    assert_eq!(copied.lines().count(), 6, "{copied}");
    assert!(copied.contains("order P9 S9"), "{copied}");
}

/// The pictures of the guide, made again with `UPDATE_PICTURES`.
#[test]
fn pictures_of_the_brief() {
    for (name, look) in [
        ("brief-sheet", "The crew's sheet"),
        ("brief-order", "Loading order"),
        ("brief-walk", "Walk through it"),
    ] {
        let mut harness = briefed(day_boat());
        press_label(&mut harness, look);
        if look == "Walk through it" {
            fill_in(&mut harness, "Who ticks", "Ann");
        }
        // The limit cards of the sheet.
        crate::support::wait(&mut harness);
        crate::pictures::keep(&mut harness, name);
    }
    // On deck before first light.
    let mut harness = briefed_in(Editor::new(day_boat()), Theme::Dark);
    press_label(&mut harness, "Walk through it");
    fill_in(&mut harness, "Who ticks", "Ann");
    crate::pictures::keep(&mut harness, "brief-walk-dark");
}

/// The sheet as it is printed, for the guide.
#[test]
fn pictures_of_the_sheet() {
    use snugdown::brief::{Brief, LoadingSettings};
    use snugdown::sheet::{Paper, Picture, crew};
    let plan = day_boat();
    let trip = &plan.trips[0];
    let brief = Brief::for_paper(&plan, trip, None, &LoadingSettings::of(trip)).unwrap();
    let options = crew::Options {
        paper: Paper::A4,
        facing: None,
        version: snugdown::store::version_of(&plan),
    };
    let pages = crew::pages(&plan, &brief, &options);
    assert_eq!(pages.len(), 2);
    let folder = crate::pictures::folder();
    std::fs::create_dir_all(&folder).unwrap();
    for (index, page) in pages.iter().enumerate() {
        let bytes = Picture::of(page, 4.5).png().unwrap();
        let path = folder.join(format!("crew-sheet-{}.png", index + 1));
        snugdown::store::write_atomic(&path, &bytes).unwrap();
    }
}
