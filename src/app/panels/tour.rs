use egui::{Align2, Id, Key, Label, Modifiers, RichText, Ui, Window, vec2};

use super::super::Editor;
use super::super::command::Command;
use super::super::words::tour as words;

/// The first round through the window: a few steps that can be skipped at any time.
pub(in super::super) fn tour_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    if editor.settings.toured || editor.dialog.is_some() {
        return;
    }
    let id = Id::unique("tour step");
    let step: usize = ui.data(|data| data.get_temp(id).unwrap_or(0));
    let Some((title, text)) = words::STEPS.get(step) else {
        commands.push(Command::Toured);
        return;
    };
    if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
        commands.push(Command::Toured);
        return;
    }
    let anchor = [
        // Below the deck that it speaks of.
        (Align2::CENTER_BOTTOM, vec2(-40.0, -110.0)),
        (Align2::LEFT_TOP, vec2(250.0, 120.0)),
        (Align2::RIGHT_TOP, vec2(-370.0, 120.0)),
        (Align2::RIGHT_BOTTOM, vec2(-370.0, -110.0)),
        (Align2::LEFT_BOTTOM, vec2(250.0, -110.0)),
    ];
    let (align, offset) = anchor[step.min(anchor.len() - 1)];
    Window::new(*title)
        .id(Id::unique("tour"))
        .anchor(align, offset)
        .collapsible(false)
        .resizable(false)
        .default_width(300.0)
        .show(ui.ctx(), |ui| {
            ui.add(Label::new(*text).selectable(false));
            ui.add_space(6.0);
            ui.horizontal(|ui| {
                let last = step + 1 == words::STEPS.len();
                let next = if last { words::BEGIN } else { words::NEXT };
                if ui.button(next).clicked() {
                    ui.data_mut(|data| data.insert_temp(id, step + 1));
                    if last {
                        commands.push(Command::Toured);
                    }
                }
                if !last && ui.button(words::SKIP).clicked() {
                    commands.push(Command::Toured);
                }
                ui.label(RichText::new(words::step_of(step + 1, words::STEPS.len())).weak());
            });
        });
}
