use egui::{Panel, ScrollArea, Ui};

use super::super::Editor;
use super::super::actions::Facts;
use super::super::command::Command;
use super::super::theme::RIGHT_WIDTH;
use super::{card, put_right};

/// What must be put right, and below it the card of what is selected.
pub(in super::super) fn right_ui(
    ui: &mut Ui,
    editor: &Editor,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    Panel::right("right")
        .default_size(RIGHT_WIDTH)
        .size_range(240.0..=560.0)
        .show(ui, |ui| {
            ui.take_available_width();
            // The list of what must be put right has the larger share.
            let (share, most) = (0.4 * ui.available_height(), 0.6 * ui.available_height());
            Panel::bottom("card")
                .frame(egui::Frame::NONE)
                .resizable(true)
                .default_size(share)
                // Larger letters leave less height: the list keeps its part of it.
                .size_range(most.min(120.0)..=most)
                .show(ui, |ui| {
                    ui.take_available_width();
                    ui.add_space(4.0);
                    // The card of another thing begins at its top.
                    ScrollArea::vertical()
                        .id_salt(format!("card of {:?}", editor.selection.primary()))
                        .auto_shrink(false)
                        .show(ui, |ui| card::card_ui(ui, editor, facts, commands));
                });
            ui.add_space(4.0);
            ScrollArea::vertical()
                .id_salt("to put right")
                .auto_shrink(false)
                .show(ui, |ui| {
                    put_right::put_right_ui(ui, editor, facts, commands);
                });
        });
}
