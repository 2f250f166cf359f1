//! The place itself: what can be looked at on the left, what is looked at beside it.

use egui::{Button, CentralPanel, ComboBox, Key, Modifiers, Panel, RichText, ScrollArea, Ui, vec2};

use super::super::Editor;
use super::super::actions::{Action, Facts};
use super::super::command::Command;
use super::super::panels::action_button;
use super::{BriefCommand, Briefing, Look, Output, order, walk, words};
use crate::sheet::{Paper, crew};

/// How much the gap to the quay changes at a press, in metres.
const GAP_STEP_M: f64 = 0.1;

/// Takes the whole window while the crew is briefed.
pub(crate) fn briefing_ui(
    ui: &mut Ui,
    editor: &mut Editor,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    let Some(mut briefing) = editor.briefing.take() else {
        return;
    };
    if editor.dialog.is_none() {
        keys_ui(ui, &briefing, facts, commands);
    }
    if briefing.look == Look::Walk {
        CentralPanel::default().show(ui, |ui| walk::walk_ui(ui, editor, &mut briefing, commands));
    } else {
        Panel::left("briefing").exact_size(250.0).show(ui, |ui| {
            ScrollArea::vertical().show(ui, |ui| side_ui(ui, editor, &briefing, facts, commands));
        });
        CentralPanel::default().show(ui, |ui| match briefing.look {
            Look::Sheet => pages_ui(ui, &mut briefing, Output::Sheet, commands),
            Look::LargeType => pages_ui(ui, &mut briefing, Output::LargeType, commands),
            Look::Slate => slate_ui(ui, &mut briefing, commands),
            Look::Plan => pages_ui(ui, &mut briefing, Output::Plan, commands),
            Look::Order => order::order_ui(ui, editor, &briefing, commands),
            Look::Say => say_ui(ui, &briefing, commands),
            Look::Walk => {}
        });
    }
    editor.briefing = Some(briefing);
}

/// What the keys do here; in the walk any other key is the next step.
const KEYS: [Action; 6] = [
    Action::BriefCrew,
    Action::Save,
    Action::Undo,
    Action::Redo,
    Action::TextLarger,
    Action::TextSmaller,
];

fn keys_ui(ui: &mut Ui, briefing: &Briefing, facts: &Facts, commands: &mut Vec<Command>) {
    let typing = ui.text_edit_focused();
    for action in KEYS.into_iter().filter(|action| action.is_enabled(facts)) {
        let keys = action.entry().keys;
        let of_text = typing && matches!(action, Action::Undo | Action::Redo);
        if !of_text && ui.input_mut(|input| input.consume_shortcut(&keys)) {
            commands.push(Command::Do(action));
        }
    }
    if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
        ask(
            commands,
            match briefing.look {
                Look::Walk => BriefCommand::Show(Look::Order),
                _ => BriefCommand::Leave,
            },
        );
    }
}

pub(super) fn ask(commands: &mut Vec<Command>, command: BriefCommand) {
    commands.push(Command::Brief(command));
}

fn side_ui(
    ui: &mut Ui,
    editor: &Editor,
    briefing: &Briefing,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    ui.add_space(6.0);
    if ui.button(words::LEAVE).clicked() {
        ask(commands, BriefCommand::Leave);
    }
    ui.add_space(6.0);
    ui.heading(words::TITLE);
    if let Some(notice) = editor.told() {
        ui.label(notice);
    }
    for look in Look::ALL {
        let text = RichText::new(words::look(look)).size(17.0);
        let button = Button::selectable(briefing.look == look, text);
        if ui.add_sized([225.0, 34.0], button).clicked() {
            ask(commands, BriefCommand::Show(look));
        }
    }
    ui.add_space(8.0);
    ui.label(words::PAPER);
    ui.horizontal(|ui| {
        for (paper, name) in [(Paper::A4, words::A4), (Paper::Letter, words::LETTER)] {
            if ui.selectable_label(briefing.paper == paper, name).clicked() {
                ask(commands, BriefCommand::Paper(paper));
            }
        }
    });
    ui.add_space(8.0);
    places_ui(ui, editor, briefing, commands);
    ui.add_space(8.0);
    let as_file = Button::new(words::SAVE).min_size(vec2(210.0, 44.0));
    egui::containers::menu::MenuButton::from_button(as_file).ui(ui, |ui| {
        for output in Output::ALL {
            let button = Button::new(words::save(output)).min_size(vec2(210.0, 44.0));
            if ui.add(button).clicked() {
                ask(commands, BriefCommand::Save(output));
                ui.close();
            }
        }
    });
    ui.add_space(8.0);
    for action in [Action::Undo, Action::Redo, Action::Save] {
        action_button(ui, action, facts, commands);
    }
}

/// Where cylinders are handed over and set down, and how far the boat may lean meanwhile.
fn places_ui(ui: &mut Ui, editor: &Editor, briefing: &Briefing, commands: &mut Vec<Command>) {
    let Some(made) = &briefing.made else { return };
    let loading = &made.brief.loading;
    let settled = editor.settled();
    let places = &editor.plan().boat.places;
    for (label, id, name) in [
        (words::HAND_OVER, &settled.hand_over, &loading.hand_over),
        (words::SET_DOWN, &settled.set_down, &loading.set_down),
    ] {
        ui.label(label);
        let shown = name.as_deref().unwrap_or(words::NONE_IN_PLAN);
        ComboBox::from_id_salt(label)
            .width(210.0)
            .selected_text(shown)
            .show_ui(ui, |ui| {
                let mut settle = |id: Option<String>| {
                    let mut next = settled.clone();
                    if label == words::HAND_OVER {
                        next.hand_over = id;
                    } else {
                        next.set_down = id;
                    }
                    ask(commands, BriefCommand::Settle(label, Box::new(next)));
                };
                if ui
                    .selectable_label(id.is_none(), words::AS_COMPUTED)
                    .clicked()
                {
                    settle(None);
                }
                for place in places {
                    let name = place.name.as_ref().unwrap_or(&place.id);
                    let is_it = id.as_ref() == Some(&place.id);
                    if ui.selectable_label(is_it, name).clicked() {
                        settle(Some(place.id.clone()));
                    }
                }
            })
            .response
            .accessible_name(label);
    }
    let gap_m = settled.gap_to_quay_m;
    ui.label(words::gap(gap_m, editor.settings.units));
    ui.horizontal(|ui| {
        for (text, step) in [
            (words::LESS_GAP, -GAP_STEP_M),
            (words::MORE_GAP, GAP_STEP_M),
        ] {
            if ui.button(text).clicked() {
                let mut next = settled.clone();
                // To whole steps, so that it comes back to where it was.
                let steps = ((gap_m.unwrap_or(0.0) + step) / GAP_STEP_M).round();
                next.gap_to_quay_m = Some((steps * GAP_STEP_M).clamp(0.0, 3.0));
                ask(
                    commands,
                    BriefCommand::Settle(words::STEP_GAP, Box::new(next)),
                );
            }
        }
    });
    ui.label(words::heel_limit(loading.most_heel_deg));
    ui.horizontal(|ui| {
        for (text, step) in [(words::LESS_HEEL, -0.5), (words::MORE_HEEL, 0.5)] {
            if ui.button(text).clicked() {
                let mut next = settled.clone();
                let deg = (loading.most_heel_deg + step).clamp(0.5, 15.0);
                next.loading_heel_deg = Some(deg);
                ask(
                    commands,
                    BriefCommand::Settle(words::STEP_HEEL, Box::new(next)),
                );
            }
        }
    });
}

/// The pages of an output, one at a time, as they will be printed.
fn pages_ui(ui: &mut Ui, briefing: &mut Briefing, output: Output, commands: &mut Vec<Command>) {
    let ctx = ui.ctx().clone();
    let Some((edition, pages)) = briefing.pages(&ctx, output) else {
        ui.label(if briefing.made.is_some() {
            words::PAGES_MADE
        } else {
            briefing.without_brief()
        });
        return;
    };
    let index = briefing.page.min(pages.len().saturating_sub(1));
    ui.horizontal(|ui| {
        let before = ui.add_enabled(index > 0, Button::new(words::PAGE_BEFORE));
        if before.clicked() {
            ask(commands, BriefCommand::Page(index - 1));
        }
        ui.label(words::page_of(index + 1, pages.len()));
        let next = ui.add_enabled(index + 1 < pages.len(), Button::new(words::NEXT_PAGE));
        if next.clicked() {
            ask(commands, BriefCommand::Page(index + 1));
        }
        if let Some(share) = briefing.cards_share().filter(|_| output == Output::Sheet) {
            ui.spinner();
            ui.label(words::cards_share(share));
        }
    });
    if pages.is_empty() {
        ui.label(words::NO_BRIEF);
    }
    let (what, told) = (format!("{output:?}"), words::look(briefing.look));
    (briefing.drawn).show_page(ui, (&pages, index), (&what, edition), told);
}

/// The six lines for a slate, to be copied or printed.
fn slate_ui(ui: &mut Ui, briefing: &mut Briefing, commands: &mut Vec<Command>) {
    if let Some(made) = &briefing.made {
        let copy = Button::new(words::COPY_SLATE).min_size(vec2(0.0, 44.0));
        if ui.add(copy).clicked() {
            let lines = crew::slate(&made.brief);
            let lines: Vec<&str> = lines.iter().map(|line| line.trim_end()).collect();
            commands.push(Command::Copy(lines.join("\n")));
        }
    }
    pages_ui(ui, briefing, Output::Slate, commands);
}

/// What to say, each with a way to what it is about.
fn say_ui(ui: &mut Ui, briefing: &Briefing, commands: &mut Vec<Command>) {
    ui.heading(words::look(Look::Say));
    let Some(made) = &briefing.made else {
        ui.label(briefing.without_brief());
        return;
    };
    ScrollArea::vertical().show(ui, |ui| {
        for (index, point) in made.brief.talk_points.iter().enumerate() {
            ui.add_space(8.0);
            let text = format!("{}  {}", index + 1, point.say);
            ui.add(egui::Label::new(RichText::new(text).size(22.0)).wrap());
            ui.horizontal(|ui| {
                ui.weak(&point.from);
                let leads = point.finding.is_some() || !point.things.is_empty();
                let go = Button::new(words::show_point(index + 1));
                if leads && ui.add(go).clicked() {
                    ask(commands, BriefCommand::Go(index));
                }
            });
        }
    });
}
