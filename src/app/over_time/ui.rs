//! Keys, buttons, plots and the list of what went; all of them ask, nothing is changed here.

use egui::{Button, Key, Modifiers, ProgressBar, RichText, Ui};

use super::super::theme::Palette;
use super::super::words::replay as words;
use super::{CLOSER, Looked, SPEEDS, TimeCommand, TimeView, plots, point_s, span_s};
use crate::audit::replay::ReplayReport;

/// The least height of what is clicked, in points.
const TARGET: f32 = 44.0;

/// Wide enough for a list beside the plots, in points.
const LISTED: f32 = 310.0;

/// What the keys do over time.
pub(crate) fn keys_ui(
    ui: &mut Ui,
    view: &TimeView,
    found: &ReplayReport,
    asked: &mut Vec<TimeCommand>,
) {
    let [start_s, end_s] = span_s(found);
    let slower = view.speed.saturating_sub(1);
    for (modifiers, key, command) in [
        // Those with Shift first: without, they would be taken too.
        (Modifiers::SHIFT, Key::ArrowRight, TimeCommand::Step(20)),
        (Modifiers::SHIFT, Key::ArrowLeft, TimeCommand::Step(-20)),
        (Modifiers::NONE, Key::ArrowRight, TimeCommand::Step(1)),
        (Modifiers::NONE, Key::ArrowLeft, TimeCommand::Step(-1)),
        (Modifiers::SHIFT, Key::ArrowDown, TimeCommand::All),
        (
            Modifiers::NONE,
            Key::ArrowUp,
            TimeCommand::Closer(CLOSER, None),
        ),
        (
            Modifiers::NONE,
            Key::ArrowDown,
            TimeCommand::Closer(1.0 / CLOSER, None),
        ),
        (Modifiers::NONE, Key::PageUp, TimeCommand::Along(-0.5)),
        (Modifiers::NONE, Key::PageDown, TimeCommand::Along(0.5)),
        (Modifiers::NONE, Key::Space, TimeCommand::PlayOrPause),
        (Modifiers::NONE, Key::Home, TimeCommand::Cursor(start_s)),
        (Modifiers::NONE, Key::End, TimeCommand::Cursor(end_s)),
        (
            Modifiers::NONE,
            Key::Plus,
            TimeCommand::Speed(view.speed + 1),
        ),
        (Modifiers::NONE, Key::Minus, TimeCommand::Speed(slower)),
    ] {
        if ui.input_mut(|input| input.consume_key(modifiers, key)) {
            asked.push(command);
        }
    }
}

/// Play, steps, speed, and how much of it is shown.
pub(crate) fn transport_ui(
    ui: &mut Ui,
    view: &TimeView,
    found: &ReplayReport,
    asked: &mut Vec<TimeCommand>,
) {
    let [start_s, end_s] = span_s(found);
    ui.horizontal_wrapped(|ui| {
        let play = if view.playing.is_some() {
            words::PAUSE
        } else {
            words::PLAY
        };
        for (text, hint, command) in [
            (
                words::TO_START,
                words::TO_START_HINT,
                TimeCommand::Cursor(start_s),
            ),
            (words::BACK, words::BACK_HINT, TimeCommand::Step(-1)),
            (play, words::PLAY_HINT, TimeCommand::PlayOrPause),
            (words::ON, words::ON_HINT, TimeCommand::Step(1)),
            (
                words::TO_END,
                words::TO_END_HINT,
                TimeCommand::Cursor(end_s),
            ),
        ] {
            let button = Button::new(text).min_size(egui::vec2(TARGET + 12.0, TARGET));
            if ui.add(button).on_hover_text(hint).clicked() {
                asked.push(command);
            }
        }
        for (number, speed) in SPEEDS.into_iter().enumerate() {
            let text = words::speed(speed);
            let button =
                Button::selectable(view.speed == number, text).min_size(egui::vec2(TARGET, TARGET));
            if ui.add(button).clicked() {
                asked.push(TimeCommand::Speed(number));
            }
        }
        for (text, hint, command) in [
            (
                words::CLOSER,
                words::CLOSER_HINT,
                TimeCommand::Closer(CLOSER, None),
            ),
            (
                words::WIDER,
                words::WIDER_HINT,
                TimeCommand::Closer(1.0 / CLOSER, None),
            ),
            (
                words::EARLIER,
                words::EARLIER_HINT,
                TimeCommand::Along(-0.5),
            ),
            (words::LATER, words::LATER_HINT, TimeCommand::Along(0.5)),
            (words::ALL, words::ALL_HINT, TimeCommand::All),
        ] {
            let button = Button::new(text).min_size(egui::vec2(TARGET, TARGET));
            // Nothing lies beside all of it.
            let can = view.shown_s.is_some() || text == words::CLOSER;
            let pressed = ui.add_enabled(can, button).on_hover_text(hint);
            if pressed.clicked() {
                asked.push(command);
            }
        }
    });
}

/// Where the cursor is, and both plots.
pub(crate) fn plots_ui(
    ui: &mut Ui,
    view: &TimeView,
    looked: &Looked<'_>,
    palette: &Palette,
    asked: &mut Vec<TimeCommand>,
) {
    let [_, end_s] = span_s(looked.found);
    ui.horizontal_wrapped(|ui| {
        let clock = RichText::new(words::clock(view.cursor_s, end_s));
        ui.label(clock.monospace().strong());
        if let Some(shown_s) = view.shown_s {
            ui.label(words::shown(shown_s));
        }
        ui.label(words::ROLL_AND_PITCH);
    });
    plots::motion_ui(ui, view, looked, palette, asked);
    ui.horizontal_wrapped(|ui| {
        ui.label(words::MARGINS);
        ui.weak(words::each_point(point_s(looked.tracks(view))));
        close_ui(ui, view, looked);
    });
    plots::margins_ui(ui, view, looked, palette, asked);
}

/// How far the finer points of what is shown are, or why there are none.
fn close_ui(ui: &mut Ui, view: &TimeView, looked: &Looked<'_>) {
    let Some(shown_s) = view.shown_s else { return };
    if let Some(share) = looked.close.share() {
        let bar = ProgressBar::new(share)
            .desired_width(120.0)
            .show_percentage();
        ui.add(bar).accessible_name(words::CLOSELY);
        ui.label(words::CLOSELY);
    } else if let Some(why) = looked.close.trouble(looked.of, shown_s) {
        ui.label(words::not_closely(why));
    }
}

/// What went when, then what stayed with the least margin.
pub(crate) fn went_ui(
    ui: &mut Ui,
    view: &TimeView,
    found: &ReplayReport,
    asked: &mut Vec<TimeCommand>,
) {
    ui.heading(words::WENT);
    if found.events.is_empty() {
        ui.label(words::NOTHING_WENT);
    }
    for event in &found.events {
        let is_past = event.time_s <= view.cursor_s;
        let mut text = RichText::new(words::event(event));
        if is_past {
            text = text.strong();
        }
        let picked = view.picked.as_ref() == Some(&event.cylinder);
        let button = Button::selectable(picked, text).wrap();
        if ui
            .add(button.min_size(egui::vec2(LISTED, TARGET)))
            .clicked()
        {
            asked.push(TimeCommand::Cursor(event.time_s));
            asked.push(TimeCommand::Pick(Some(event.cylinder.clone())));
        }
    }
    ui.add_space(6.0);
    ui.heading(words::STAYED);
    let mut stayed: Vec<_> = (found.cylinders.iter())
        .filter(|cylinder| cylinder.went_s.is_none())
        .collect();
    stayed.sort_by(|a, b| {
        let left = |margin: Option<f64>| margin.unwrap_or(f64::INFINITY);
        left(a.least_margin).total_cmp(&left(b.least_margin))
    });
    if stayed.is_empty() {
        ui.label(words::NOTHING_STAYED);
    }
    for cylinder in stayed {
        let picked = view.picked.as_ref() == Some(&cylinder.cylinder);
        let button = Button::selectable(picked, words::stayed(cylinder)).wrap();
        if ui
            .add(button.min_size(egui::vec2(LISTED, TARGET)))
            .clicked()
        {
            let id = (!picked).then(|| cylinder.cylinder.clone());
            asked.push(TimeCommand::Pick(id));
            if let Some(at_s) = cylinder.least_margin_s {
                asked.push(TimeCommand::Cursor(at_s));
            }
        }
    }
}
