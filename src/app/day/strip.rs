//! The strip: the whole day at its left, then its parts in their order.

use egui::{Panel, ScrollArea, Sense, TextStyle, Ui, vec2};

use super::super::actions::{Action, Facts};
use super::super::command::Command;
use super::super::panels::action_button_short;
use super::super::words::card as card_words;
use super::super::words::day as words;
use super::super::{Editor, theme};
use super::cell::{Look, cell_ui, height, signs};
use crate::layout::{
    Edit, Trip, with_part_after, with_part_copied, with_part_moved, with_part_split, without_part,
};

/// Room below the cells for the bar with which they are shifted.
const BAR: f32 = 6.0;

/// A window less high than this in points of plain text has room for a low strip only: what must be put right
/// comes first.
const TALL: f32 = 560.0;

/// How much more height large targets take.
const LARGER: f32 = 0.3;

/// The strip along the top of the window.
pub(crate) fn day_ui(ui: &mut Ui, editor: &Editor, facts: &Facts, commands: &mut Vec<Command>) {
    let high = height(ui, &look(ui, editor, false)) + BAR;
    Panel::top("day").exact_size(high + 8.0).show(ui, |ui| {
        ui.add_space(2.0);
        ui.horizontal_top(|ui| {
            whole_day_ui(ui, editor, facts, commands);
            ScrollArea::horizontal()
                .id_salt("parts of the day")
                .auto_shrink([false, true])
                .show(ui, |ui| {
                    ui.horizontal_top(|ui| cells_ui(ui, editor, commands))
                });
        });
    });
}

fn look(ui: &Ui, editor: &Editor, shown: bool) -> Look<'static> {
    let settings = &editor.settings;
    let large = if settings.large_targets {
        1.0 + LARGER
    } else {
        1.0
    };
    let is_short = ui.ctx().content_rect().height() < TALL * settings.text_scale * large;
    Look {
        palette: settings.theme.palette(),
        shown,
        low: settings.low_strip || is_short,
        target: if settings.large_targets {
            theme::TARGET_LARGE
        } else {
            theme::TARGET
        },
        text_scale: settings.text_scale,
    }
}

/// What is to put right in the whole day, and what can be done with the day.
fn whole_day_ui(ui: &mut Ui, editor: &Editor, facts: &Facts, commands: &mut Vec<Command>) {
    let look = look(ui, editor, false);
    let high = height(ui, &look);
    ui.allocate_ui(vec2(246.0 * look.text_scale, high), |ui| {
        ui.vertical(|ui| {
            let count = &editor.day.strip.to_put_right;
            ui.horizontal(|ui| {
                let told = ui.label(words::THE_DAY);
                told.on_hover_text(words::whole_day_told(count));
                let font = TextStyle::Small.resolve(ui.style());
                let room = vec2(ui.available_width(), 18.0);
                let (rect, response) = ui.allocate_exact_size(room, Sense::hover());
                let response = response.on_hover_text(words::whole_day_told(count));
                response.widget_info(|| {
                    let told = words::whole_day_told(count);
                    egui::WidgetInfo::labeled(egui::Role::Label, true, told)
                });
                signs(ui, &look, count, rect.right_top(), &font);
            });
            if look.low {
                return;
            }
            ui.horizontal_wrapped(|ui| {
                for (action, text) in [
                    (Action::DeckWork, words::WORK_BUTTON),
                    (Action::LayOutDay, words::LAY_OUT_BUTTON),
                    (Action::SecureForNight, words::NIGHT_BUTTON),
                    (Action::OpenForDiving, words::DIVING_BUTTON),
                    (Action::Motion, words::MOTION_BUTTON),
                ] {
                    action_button_short(ui, (action, text), facts, commands);
                }
            });
        });
    });
    ui.separator();
}

fn cells_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    for (index, cell) in editor.day.strip.parts.iter().enumerate() {
        let shown = index == editor.part;
        let response = cell_ui(ui, cell, &look(ui, editor, shown));
        if response.clicked() {
            commands.push(Command::ShowPart(index));
        }
        // The part shown comes into sight when another was shown before.
        let memory = ui.scope_id().with("part in sight");
        let before = ui.data(|data| data.get_temp::<usize>(memory));
        if response.gained_focus() {
            response.scroll_to_me(None);
        }
        if shown && before != Some(index) {
            response.scroll_to_me(None);
            ui.data_mut(|data| data.insert_temp(memory, index));
        }
        response.context_menu(|ui| {
            part_menu_ui(ui, editor, index, commands);
            if !commands.is_empty() {
                ui.close();
            }
        });
    }
    let add = ui.button(words::ADD).on_hover_text(card_words::ADD_PART);
    if add.clicked()
        && let Some(trip) = editor.trip()
        && let Some(last) = trip.parts.len().checked_sub(1)
        && let Some(trip) = with_part_after(trip, last)
    {
        commands.push(step(card_words::ADD_PART, trip));
        commands.push(Command::ShowPart(last + 1));
    }
}

/// How the trip is changed at one of its parts; `None` where it cannot be.
type Make = dyn Fn(&Trip, usize) -> Option<Trip>;

fn step(label: &str, trip: Trip) -> Command {
    Command::Run {
        label: label.to_owned(),
        edits: vec![Edit::PutTrip(Box::new(trip))],
        select: None,
    }
}

/// What can be done with a part of the day: one more after it, a copy, two halves, earlier, later, away.
pub(crate) fn part_menu_ui(
    ui: &mut Ui,
    editor: &Editor,
    index: usize,
    commands: &mut Vec<Command>,
) {
    let Some(trip) = editor.trip() else { return };
    let last = trip.parts.len().saturating_sub(1);
    let before = index.saturating_sub(1);
    // The changed trip is made when it is asked for, not to know whether it can be.
    let mut offer = |ui: &mut Ui, (name, can, then): (&str, bool, usize), make: &Make| {
        let button = ui.add_enabled(can, egui::Button::new(name));
        if button.clicked()
            && let Some(trip) = make(trip, index)
        {
            commands.push(step(name, trip));
            commands.push(Command::ShowPart(then));
        }
    };
    offer(
        ui,
        (card_words::ADD_PART, true, index + 1),
        &with_part_after,
    );
    offer(ui, (words::SPLIT, true, index + 1), &with_part_split);
    let less = (card_words::REMOVE_PART, last > 0, before);
    offer(ui, less, &without_part);
    let earlier = (card_words::EARLIER, index > 0, before);
    offer(ui, earlier, &|trip, index| {
        with_part_moved(trip, index, false)
    });
    let later = (card_words::LATER, index < last, index + 1);
    offer(ui, later, &|trip, index| with_part_moved(trip, index, true));
    copy_ui(ui, editor, trip, index, commands);
}

/// A copy of a part, after the part chosen.
fn copy_ui(ui: &mut Ui, editor: &Editor, trip: &Trip, index: usize, commands: &mut Vec<Command>) {
    let Some(copied) = trip.parts.get(index) else {
        return;
    };
    ui.menu_button(card_words::COPY_PART, |ui| {
        for (after, part) in trip.parts.iter().enumerate() {
            let name = part.name.as_ref().unwrap_or(&part.id);
            if !ui.button(card_words::after_part(name)).clicked() {
                continue;
            }
            let again = super::super::words::part_again(copied.name.as_ref().unwrap_or(&copied.id));
            if let Some(trip) = with_part_copied(editor.plan(), trip, index, after, again) {
                commands.push(step(card_words::COPY_PART, trip));
                commands.push(Command::ShowPart(after + 1));
            }
            ui.close();
        }
    })
    .response
    .on_hover_text(card_words::COPY_PART_HELP);
}
