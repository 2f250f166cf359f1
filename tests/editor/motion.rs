//! Motion, balance and limits: the stopwatch, the sea, a log, the balance, the limit card.

use std::cell::Cell;
use std::rc::Rc;

use egui::{Key, Modifiers, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use snugdown::app::{Editor, Theme};
use snugdown::layout::Plan;

use crate::support::{press_label, window_of};

fn day_boat() -> Plan {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts/day-boat.json");
    snugdown::store::read(&path).unwrap()
}

/// The window with this opened by its keys.
fn opened(plan: Plan, key: Key) -> Harness<'static, Editor> {
    opened_in(plan, key, Theme::Light, [1280.0, 800.0])
}

fn opened_in(plan: Plan, key: Key, theme: Theme, [w, h]: [f32; 2]) -> Harness<'static, Editor> {
    let mut editor = Editor::new(plan);
    editor.set_theme(theme);
    let mut harness = window_of(editor, vec2(w, h));
    harness.key_press_modifiers(Modifiers::COMMAND, key);
    harness.run();
    harness
}

/// Is this told somewhere in the window?
#[track_caller]
fn assert_told(harness: &Harness<'static, Editor>, words: &str) {
    let found = harness.query_all_by_label_contains(words).next();
    assert!(found.is_some(), "{words:?} is not told");
}

fn close(found: f64, expected: f64) -> bool {
    (found - expected).abs() < 1e-9
}

/// A watch that is set by the test.
fn watched(plan: Plan) -> (Harness<'static, Editor>, Rc<Cell<f64>>) {
    let mut harness = opened(plan, Key::M);
    let now = Rc::new(Cell::new(100.0));
    let read = Rc::clone(&now);
    harness.state_mut().set_stopwatch(move || read.get());
    (harness, now)
}

#[test]
fn swings_are_tapped_and_a_run_is_kept() {
    let (mut harness, now) = watched(day_boat());
    for at in [100.0, 103.2, 106.0, 109.6] {
        now.set(at);
        harness.key_press(Key::Space);
        harness.run();
    }
    assert_told(&harness, "3.20 s a swing: 3 swings in 9.6 s");
    assert_told(&harness, "shortest 2.80 s, longest 3.60 s");
    // One tap too many, by the button, and taken back by the key.
    now.set(110.2);
    press_label(&mut harness, "Tap: down again (4)");
    assert_told(&harness, "a tap missed?");
    harness.key_press(Key::Backspace);
    harness.run();
    assert_told(&harness, "3.20 s a swing");
    press_label(&mut harness, "Keep this run");
    let test = harness.state().plan().boat.roll_test.clone().unwrap();
    assert_eq!(test.runs[0].swings, 3);
    assert!(close(test.runs[0].total_s, 9.6), "{test:?}");
    assert_told(&harness, "The first tap starts the watch.");
    assert_told(&harness, "three runs of five swings");
    press_label(&mut harness, "Take away");
    assert_eq!(harness.state().plan().boat.roll_test, None);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert!(harness.state().plan().boat.roll_test.is_some(), "undone");
}

#[test]
fn a_twin_hull_gets_no_period_and_the_reason() {
    let mut plan = day_boat();
    plan.boat.hull = Some(snugdown::layout::Hull::TwinHull);
    plan.boat.roll_period_s = None;
    plan.boat.roll_period_range_s = Some([2.0, 4.0]);
    let harness = opened(plan, Key::M);
    assert_told(
        &harness,
        "gives none: two hulls roll about the water between them",
    );
    assert_told(&harness, "Counts: 2.00 to 4.00 s");
    assert_told(&harness, "Both ends are checked");
    assert_told(&harness, "common practice, no source");
}

#[test]
fn periods_that_disagree_are_told() {
    let mut plan = day_boat();
    plan.boat.roll_period_s = Some(6.0);
    plan.boat.roll_test = Some(snugdown::layout::RollTest {
        runs: vec![
            snugdown::layout::RollTestRun {
                swings: 5,
                total_s: 15.0
            };
            3
        ],
        loading: None,
    });
    let harness = opened(plan, Key::M);
    assert_told(
        &harness,
        "They disagree: roll period given 6.00 s, roll period by stopwatch 3.00 s",
    );
    assert_told(&harness, "as the published test wants it");
    assert_told(&harness, "no GM: nobody said how she was loaded");
}

#[test]
fn the_balance_says_where_gm_comes_from_and_approves_nothing() {
    let mut plan = day_boat();
    plan.boat.gm_m = None;
    let harness = opened(plan.clone(), Key::E);
    assert_told(&harness, "It approves nothing");
    assert_told(&harness, "Heel: not known, no GM is known");
    plan.boat.gm_m = Some(0.9);
    plan.boat.displacement_kg = Some(9000.0);
    let mut harness = opened(plan, Key::E);
    assert_told(&harness, "(GM as given for the boat, 0.90 m)");
    assert_told(&harness, "The gear is counted once");
    assert_told(&harness, "Steady heel from this wind: ");
    harness.key_press(Key::Escape);
    harness.run();
    assert!(
        harness
            .query_by_label_contains("It approves nothing")
            .is_none(),
        "Escape leaves"
    );
}

/// The first part of the day that has neither sea nor wake nor motion gets a sea of half a metre.
fn with_sea() -> Plan {
    let mut plan = day_boat();
    let part = &mut plan.trips[0].parts[0];
    part.motion = None;
    part.sea = Some(snugdown::layout::Sea {
        wave_height_m: Some(0.5),
        ..snugdown::layout::Sea::default()
    });
    plan
}

#[test]
fn an_estimate_is_taken_over_and_says_how_it_was_made() {
    let mut harness = opened(with_sea(), Key::M);
    press_label(&mut harness, "The sea and a wake");
    assert_told(&harness, "The eye sees ");
    assert_told(&harness, "A cylinder feels as much as at ");
    assert_told(
        &harness,
        "Not given for this part: estimated from boat and sea",
    );
    assert_told(&harness, "linear theory: it over-states large rolls");
    assert_told(
        &harness,
        "annex 13 gives accelerations for ships of 50 m and more",
    );
    assert_told(&harness, "Common practice, no source");
    press_label(&mut harness, "Take the estimate over");
    let part = harness.state().plan().trips[0].parts[0].clone();
    let motion = part.motion.unwrap();
    assert_eq!(motion.source, snugdown::layout::MotionSource::Estimate);
    let made = motion.made_from.unwrap();
    assert!(made.contains("waves of 0.50 m"), "{made}");
    assert_told(&harness, "Given for this part: estimated from boat and sea");
    press_label(&mut harness, "Back to the estimate");
    assert_eq!(harness.state().plan().trips[0].parts[0].motion, None);
    press_label(&mut harness, "Runs hard");
    let motion = harness.state().plan().trips[0].parts[0].motion.clone();
    let motion = motion.unwrap();
    assert_eq!(motion.source, snugdown::layout::MotionSource::Preset);
    assert!(motion.push_astern_g > 0.0 && motion.made_from.unwrap().contains("no source"));
}

#[test]
fn a_spread_sea_tells_where_it_comes_from() {
    let mut plan = with_sea();
    let sea = plan.trips[0].parts[0].sea.as_mut().unwrap();
    sea.waves_from_deg = Some(60.0);
    sea.spreading = snugdown::layout::SpreadingKind::Cosine2;
    let mut harness = opened(plan, Key::M);
    press_label(&mut harness, "The sea and a wake");
    assert_told(&harness, "The waves come from round 60° off the bow");
    assert_told(&harness, "61 % comes from within 30° of it");
    // What a preset is, before it is pressed.
    assert_told(&harness, "up and down 0.8 g, stopping 0.4 g, turning 0.3 g");
}

/// A sea of half a metre is of state 2, whose upper bound is half a metre.
#[test]
fn a_height_becomes_a_state_and_a_state_its_upper_height() {
    let mut harness = opened(with_sea(), Key::M);
    press_label(&mut harness, "The sea and a wake");
    let sea = |harness: &Harness<'static, Editor>| {
        let sea = harness.state().plan().trips[0].parts[0].sea.clone();
        sea.unwrap()
    };
    press_label(&mut harness, "Given as");
    press_label(&mut harness, "sea state");
    let given = sea(&harness);
    assert_eq!((given.sea_state, given.wave_height_m), (Some(2), None));
    press_label(&mut harness, "Given as");
    press_label(&mut harness, "wave height");
    let given = sea(&harness);
    assert_eq!((given.sea_state, given.wave_height_m), (None, Some(0.5)));
}

#[test]
fn too_fast_is_refused_and_a_wake_counts_at_the_quay() {
    let mut plan = with_sea();
    plan.trips[0].parts[0].sea.as_mut().unwrap().speed_kn = 22.0;
    let mut harness = opened(plan, Key::M);
    press_label(&mut harness, "The sea and a wake");
    assert_told(&harness, "No estimate: at 22 knots she lifts and slams");
    press_label(&mut harness, "There is a sea");
    assert_eq!(harness.state().plan().trips[0].parts[0].sea, None);
    press_label(&mut harness, "A wake passes");
    let part = &harness.state().plan().trips[0].parts[0];
    assert_eq!(part.wake.as_ref().unwrap().waves, 5);
    assert_told(
        &harness,
        "As of a motor yacht that passes close by: common practice, no source",
    );
    assert_told(&harness, "estimated from a passing wake");
    assert_told(&harness, "No surge along the quay");
}

/// A log of four minutes with its columns in odd order: a gap, a row twice, the clock set back once.
fn log_text(angle: &str) -> String {
    use std::fmt::Write as _;
    let mut text = format!("pitch{angle};time (s);roll{angle}\n");
    for i in 0..2400_u32 {
        if (1000..1050).contains(&i) {
            continue;
        }
        let t = f64::from(i) * 0.1 - if i > 1800 { 60.0 } else { 0.0 };
        let roll = 8.0 * (std::f64::consts::TAU * f64::from(i) * 0.1 / 4.0).sin();
        writeln!(text, "{:.2};{t:.2};{roll:.3}", 0.25 * roll).unwrap();
        if i == 500 {
            writeln!(text, "{:.2};{t:.2};{roll:.3}", 0.25 * roll).unwrap();
        }
    }
    text
}

#[test]
fn a_log_is_read_beside_the_window_and_stands_for_the_estimate() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("boat.json");
    let mut plan = with_sea();
    plan.trips[0].parts[0].motion = None;
    snugdown::store::save(&plan, &path).unwrap();
    let write = |name: &str, text: &str| {
        snugdown::store::write_atomic(&folder.path().join(name), text.as_bytes()).unwrap();
    };
    write("log.csv", &log_text(""));
    let mut harness = window_of(Editor::open(&path).unwrap(), vec2(1280.0, 800.0));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::M);
    harness.run();
    press_label(&mut harness, "A motion log");
    press_label(&mut harness, "Read a log…");
    press_label(&mut harness, "log.csv");
    crate::support::press_step(&mut harness, "Open this one");
    crate::support::wait(&mut harness);
    assert_told(&harness, "Not read: ");
    press_label(&mut harness, "Angles in");
    press_label(&mut harness, "°");
    crate::support::press_step(&mut harness, "Read it so");
    crate::support::wait(&mut harness);
    assert_told(
        &harness,
        "Gaps: 1; rows twice: 1; clock set back: 1; rows without numbers: 0",
    );
    assert_told(&harness, "8.0°");
    assert_told(&harness, "4.00 s");
    assert_told(&harness, "up to 30 % more");
    crate::pictures::keep(&mut harness, "motion-log");
    press_label(&mut harness, "Let it stand for the estimate");
    let motion = harness.state().plan().trips[0].parts[0].motion.clone();
    let motion = motion.unwrap();
    assert_eq!(motion.source, snugdown::layout::MotionSource::Recorded);
    assert!((motion.roll_amplitude_deg - 8.0).abs() < 0.05, "{motion:?}");
    assert!(motion.made_from.unwrap().starts_with("log log.csv"));
}

/// One cylinder stands free on deck, and nothing else is aboard: soon worked out.
fn one_loose() -> Plan {
    let mut plan = day_boat();
    let deck = plan.boat.decks[0].id.clone();
    let trip = &mut plan.trips[0];
    trip.parts.truncate(1);
    trip.parts[0].changes = snugdown::layout::Changes::default();
    trip.lashings.clear();
    let placing = snugdown::layout::Placing::Standing {
        deck,
        at: [4.0, 0.5],
        on: None,
    };
    trip.cylinders = vec![snugdown::layout::Cylinder::new("P6", "al-80cf", placing)];
    plan
}

fn limit_card(theme: Theme) -> Harness<'static, Editor> {
    let mut editor = Editor::new(one_loose());
    editor.set_theme(theme);
    let mut harness = window_of(editor, vec2(1280.0, 800.0));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::L);
    harness.run_steps(2);
    crate::support::wait(&mut harness);
    harness
}

#[test]
fn the_limit_card_names_a_sea_and_its_cures() {
    let mut harness = limit_card(Theme::Light);
    assert_told(&harness, "The stowage, not the boat: good to ");
    assert_told(&harness, "m of coastal sea");
    assert_told(&harness, "then P6 ");
    assert_told(&harness, "In this part's own motion: ");
    assert_told(&harness, "It holds up to ");
    assert_told(&harness, "With th");
    let before = harness.state().plan().clone();
    crate::support::press_step(&mut harness, "Do this one");
    crate::support::wait(&mut harness);
    assert_ne!(
        harness.state().plan().trips,
        before.trips,
        "the cure is done"
    );
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run_steps(2);
    crate::support::wait(&mut harness);
    assert_eq!(harness.state().plan().trips, before.trips, "in one step");
}

/// The pictures of the guide, made again with `UPDATE_PICTURES`.
#[test]
fn pictures_of_motion_and_limits() {
    let mut plan = with_sea();
    plan.boat.gm_m = Some(0.9);
    plan.boat.displacement_kg = Some(9000.0);
    // One that stands free, so that there is something that goes.
    let loose = one_loose().trips[0].cylinders[0].clone();
    plan.trips[0].cylinders.push(snugdown::layout::Cylinder {
        id: "spare".to_owned(),
        ..loose
    });
    let (mut harness, now) = watched(plan.clone());
    for at in [100.0, 103.2, 106.0, 109.6] {
        now.set(at);
        harness.key_press(Key::Space);
        harness.run();
    }
    crate::pictures::keep(&mut harness, "motion-roll-period");
    plan.trips[0].parts[0].sea.as_mut().unwrap().spreading =
        snugdown::layout::SpreadingKind::Cosine2;
    let sizes = [[1280.0, 800.0], [1920.0, 1080.0]];
    for (theme, size, name) in [
        (Theme::Light, sizes[0], "motion-sea"),
        (Theme::Dark, sizes[1], "motion-sea-dark"),
    ] {
        let mut harness = opened_in(plan.clone(), Key::M, theme, size);
        press_label(&mut harness, "The sea and a wake");
        crate::pictures::keep(&mut harness, name);
    }
    let mut harness = opened_in(plan, Key::E, Theme::Dark, sizes[0]);
    crate::pictures::keep(&mut harness, "balance");
    let mut harness = limit_card(Theme::Light);
    crate::pictures::keep(&mut harness, "limit-card");
}

/// With large text and large controls everything that is said is still there, one below the other.
#[test]
fn large_text_leaves_nothing_out() {
    let mut harness = opened_in(with_sea(), Key::M, Theme::Sunlight, [1280.0, 800.0]);
    harness.key_press(Key::F7);
    for _ in 0..5 {
        harness.key_press_modifiers(Modifiers::COMMAND, Key::Plus);
    }
    harness.run();
    for (look, words) in [
        ("The sea and a wake", "The eye sees up to "),
        ("Balance", "Heel it causes: "),
        ("Roll period and GM", "Runs kept"),
    ] {
        press_label(&mut harness, look);
        assert_told(&harness, words);
        let wide = harness.ctx.content_rect().width();
        for node in harness.query_all_by_label_contains(words) {
            let rect = node.rect();
            assert!(
                rect.left() >= 0.0 && rect.right() <= wide,
                "{words:?} {rect:?}"
            );
        }
    }
}
