//! The walk through the loading order, for a wet tablet: one step at a time, large, ticked off by holding.

use egui::{Button, Event, Key, Modifiers, RichText, TextEdit, Ui, vec2};

use super::super::Editor;
use super::super::command::Command;
use super::super::page_pictures::picture_ui;
use super::super::settings::TickBy;
use super::super::theme::Theme;
use super::confirm::{CONFIRM_HIGH, confirmed_ui};
use super::place::ask;
use super::{BriefCommand, Briefing, Look, words};
use crate::brief::LoadingStep;
use crate::sheet::crew;

/// Height of the other buttons, in points.
const BUTTON_HIGH: f32 = 60.0;

pub(super) fn walk_ui(
    ui: &mut Ui,
    editor: &Editor,
    briefing: &mut Briefing,
    commands: &mut Vec<Command>,
) {
    top_ui(ui, editor, briefing, commands);
    let (next, count) = briefing.next_step();
    let next = next.map(|(index, step)| (index, step.clone()));
    let Some((index, step)) = next else {
        done_ui(ui, briefing, count);
        buttons_ui(ui, editor, briefing, None, commands);
        return;
    };
    let high = ui.available_height() - CONFIRM_HIGH - BUTTON_HIGH - 40.0;
    ui.horizontal_top(|ui| {
        let left = 0.56 * ui.available_width();
        ui.allocate_ui(vec2(left, high), |ui| {
            place_ui(ui, briefing, &step, vec2(left, high));
        });
        ui.add_space(16.0);
        ui.vertical(|ui| words_ui(ui, briefing, &step, (index, count)));
    });
    let to_top = (ui.available_height() - CONFIRM_HIGH - BUTTON_HIGH - 16.0).max(0.0);
    ui.add_space(to_top);
    buttons_ui(ui, editor, briefing, Some(&step), commands);
}

/// Who ticks, whose cylinders, and the way out.
fn top_ui(ui: &mut Ui, editor: &Editor, briefing: &Briefing, commands: &mut Vec<Command>) {
    ui.horizontal(|ui| {
        let leave = Button::new(RichText::new(words::LEAVE_WALK).size(18.0));
        if ui.add_sized([150.0, 44.0], leave).clicked() {
            ask(commands, BriefCommand::Show(Look::Order));
        }
        let label = ui.label(RichText::new(words::WHO_TICKS).size(18.0));
        let mut by = briefing.by.clone();
        let field = TextEdit::singleline(&mut by)
            .font(egui::FontId::proportional(22.0))
            .desired_width(180.0);
        ui.add(field).labelled_by(label.id);
        if by != briefing.by {
            ask(commands, BriefCommand::By(by));
        }
        let people = editor.trip().map_or(&[][..], |trip| &trip.people);
        for person in people.iter().take(4) {
            let button = Button::new(RichText::new(&person.id).size(18.0));
            if ui.add_sized([80.0, 44.0], button).clicked() {
                ask(commands, BriefCommand::By(person.id.clone()));
            }
        }
        let mut mine = briefing.mine;
        ui.checkbox(&mut mine, RichText::new(words::ONLY_MINE).size(18.0));
        if mine != briefing.mine {
            ask(commands, BriefCommand::Mine(mine));
        }
    });
    ui.horizontal(|ui| settings_ui(ui, editor, commands));
    ui.separator();
}

/// How a step is ticked, whether the window fills the screen, and the light.
fn settings_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let settings = &editor.settings;
    ui.set_min_height(44.0);
    ui.label(RichText::new(words::TICK_BY).size(18.0));
    for way in TickBy::ALL {
        let is_it = settings.tick_by == way;
        let button = Button::selectable(is_it, RichText::new(words::tick_by(way)).size(18.0));
        if ui.add_sized([170.0, 44.0], button).clicked() && !is_it {
            ask(commands, BriefCommand::TickBy(way));
        }
    }
    ui.add_space(16.0);
    let is_full = settings.walk_fills_screen;
    let full = Button::selectable(is_full, RichText::new(words::FILL_SCREEN).size(18.0));
    if ui.add_sized([150.0, 44.0], full).clicked() {
        ask(commands, BriefCommand::FillScreen(!is_full));
    }
    let in_sun = settings.theme == Theme::Sunlight;
    let sun = Button::selectable(in_sun, RichText::new(words::IN_THE_SUN).size(18.0));
    if ui.add_sized([150.0, 44.0], sun).clicked() {
        let theme = if in_sun {
            Theme::Light
        } else {
            Theme::Sunlight
        };
        commands.push(Command::SetTheme(theme));
    }
}

/// The place on the plan, lit; black on white in any light.
fn place_ui(ui: &mut Ui, briefing: &mut Briefing, step: &LoadingStep, room: egui::Vec2) {
    let picture = briefing.lit(&ui.ctx().clone(), &step.cylinder);
    let size = picture.as_ref().map_or(room, |picture| {
        let size = picture.size_vec2();
        size * (room.x / size.x).min(room.y / size.y).max(0.05)
    });
    picture_ui(ui, picture.as_ref(), size, &words::lit(&step.cylinder));
}

/// What to do in a few words, with pictures.
fn words_ui(
    ui: &mut Ui,
    briefing: &mut Briefing,
    step: &LoadingStep,
    (index, count): (usize, usize),
) {
    ui.label(RichText::new(words::step_of(index + 1, count)).size(20.0));
    ui.label(RichText::new(&step.cylinder).size(56.0).strong());
    let big = |text: &str| egui::Label::new(RichText::new(text).size(26.0)).wrap();
    ui.add(big(&step.what));
    ui.add(big(&step.where_to));
    ui.add(egui::Label::new(RichText::new(&step.then).size(28.0).strong()).wrap());
    for rule in &step.broken {
        ui.add(big(&rule.sentence()));
    }
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(22.0, 8.0);
        for action in &step.actions {
            let (name, action) = (format!("action {action:?}"), *action);
            let page = || move || crew::action_picture(action);
            let ctx = ui.ctx().clone();
            let picture = briefing.drawn.of(&ctx, (&name, 0), 240, page);
            ui.vertical(|ui| {
                picture_ui(ui, picture.as_ref(), vec2(104.0, 104.0), action.words());
                ui.label(RichText::new(action.words()).size(18.0));
            });
        }
    });
}

fn done_ui(ui: &mut Ui, briefing: &Briefing, count: usize) {
    let ticks = briefing
        .made
        .as_ref()
        .map_or(&[][..], |made| &made.brief.ticks);
    let skipped = ticks.iter().filter(|tick| tick.skipped.is_some());
    ui.add_space(24.0);
    ui.label(RichText::new(words::all_done(count)).size(36.0).strong());
    for tick in skipped {
        let why = tick.skipped.as_deref().unwrap_or_default();
        ui.label(RichText::new(words::was_skipped(&tick.cylinder, why, &tick.by)).size(22.0));
    }
    ui.add_space(24.0);
}

/// What is held to tick, skipping, and the last tick taken back.
fn buttons_ui(
    ui: &mut Ui,
    editor: &Editor,
    briefing: &Briefing,
    step: Option<&LoadingStep>,
    commands: &mut Vec<Command>,
) {
    if let Some(why) = &briefing.skipping {
        skipping_ui(ui, why, commands);
        return;
    }
    let may_tick = !briefing.by.trim().is_empty();
    if let Some(step) = step
        && (confirmed_ui(ui, editor.settings.tick_by, &step.cylinder, may_tick)
            || may_tick && key_is_next(ui))
    {
        ask(commands, BriefCommand::Tick(None));
    }
    ui.horizontal(|ui| {
        let size = [260.0, BUTTON_HIGH];
        let large = |text: &str| Button::new(RichText::new(text).size(22.0));
        if step.is_some() && may_tick && ui.add_sized(size, large(words::SKIP)).clicked() {
            ask(commands, BriefCommand::Skipping(Some(String::new())));
        }
        if let Some(last) = editor.settled().ticks.last() {
            let text = words::take_back(&last.cylinder);
            if ui.add_sized([360.0, BUTTON_HIGH], large(&text)).clicked() {
                ask(commands, BriefCommand::TakeBack);
            }
            ui.label(RichText::new(words::ticked(&last.cylinder, &last.by, &last.when)).size(18.0));
        }
    });
}

/// Reasons to choose from, or one of one's own.
fn skipping_ui(ui: &mut Ui, why: &str, commands: &mut Vec<Command>) {
    ui.label(RichText::new(words::WHY_SKIP).size(22.0));
    ui.horizontal_wrapped(|ui| {
        for reason in words::REASONS {
            let button = Button::new(RichText::new(reason).size(22.0));
            if ui.add_sized([220.0, BUTTON_HIGH], button).clicked() {
                ask(commands, BriefCommand::Tick(Some(reason.to_owned())));
            }
        }
        let mut typed = why.to_owned();
        let field = TextEdit::singleline(&mut typed)
            .font(egui::FontId::proportional(22.0))
            .desired_width(220.0);
        ui.add(field).accessible_name(words::OTHER_REASON);
        if typed != why {
            ask(commands, BriefCommand::Skipping(Some(typed.clone())));
        }
        let ready = !typed.trim().is_empty();
        let skip = Button::new(RichText::new(words::SKIP_IT).size(22.0));
        if ui.add_enabled(ready, skip).clicked() {
            ask(commands, BriefCommand::Tick(Some(typed.trim().to_owned())));
        }
        let back = Button::new(RichText::new(words::NOT_SKIPPED).size(22.0));
        if ui.add_sized([160.0, BUTTON_HIGH], back).clicked() {
            ask(commands, BriefCommand::Skipping(None));
        }
    });
}

/// Was any key pressed that is not for leaving or for a field?
fn key_is_next(ui: &mut Ui) -> bool {
    if ui.text_edit_focused() {
        return false;
    }
    ui.input_mut(|input| {
        let before = input.events.len();
        input.events.retain(|event| !is_next(event));
        input.events.len() < before
    })
}

fn is_next(event: &Event) -> bool {
    matches!(
        event,
        Event::Key { key, pressed: true, repeat: false, modifiers, .. }
            if *modifiers == Modifiers::NONE && !matches!(key, Key::Escape | Key::Tab)
    )
}
