//! The loading order, arranged by dragging, with the heel and the rules as they would be.

use egui::{Button, Pos2, Rect, RichText, ScrollArea, Sense, Stroke, Ui, vec2};

use super::super::Editor;
use super::super::command::Command;
use super::place::ask;
use super::{BriefCommand, Briefing, words};
use crate::brief::{BrokenRule, LoadingOrder, heel_words};
use crate::layout::Id;

/// Height of a step, in points: a finger wide.
const STEP_HIGH: f32 = 44.0;

/// One step taken from a place in the order and put at another.
pub(super) fn moved(order: &[Id], from: usize, to: usize) -> Vec<Id> {
    let mut order = order.to_vec();
    if from < order.len() && to < order.len() {
        let step = order.remove(from);
        order.insert(to, step);
    }
    order
}

pub(super) fn order_ui(
    ui: &mut Ui,
    editor: &Editor,
    briefing: &Briefing,
    commands: &mut Vec<Command>,
) {
    let Some(made) = &briefing.made else {
        ui.label(briefing.without_brief());
        return;
    };
    // While the brief of the plan is being made, an order by hand stands as it is now: the next step is moved in it.
    let by_hand = editor.settled().order;
    let is_now = briefing.is_of(editor.history.plan(), &editor.trip);
    let now = (!is_now && !by_hand.is_empty())
        .then(|| made.order_if(editor, by_hand))
        .flatten();
    let loading = now.as_ref().unwrap_or(&made.brief.loading);
    let order: Vec<Id> = loading
        .steps
        .iter()
        .map(|step| step.cylinder.clone())
        .collect();
    let thought = briefing
        .dragged
        .filter(|(from, to)| from != to)
        .and_then(|(from, to)| made.order_if(editor, moved(&order, from, to)));
    let shown = thought.as_ref().unwrap_or(loading);
    head_ui(ui, editor, shown, commands);
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        let top = ui.cursor().top();
        for index in 0..shown.steps.len() {
            let wide = ui.available_width();
            let (rect, _) = ui.allocate_exact_size(vec2(wide, STEP_HIGH), Sense::hover());
            step_ui(ui, (index, rect), shown, editor, commands);
            let handle = Rect::from_min_size(rect.min, vec2(40.0, STEP_HIGH));
            let id = ui.scope_id().with(("step", index));
            let response = ui.interact(handle, id, Sense::drag());
            response.clone().on_hover_text(words::DRAG_HELP);
            let pointer = response.interact_pointer_pos();
            let at = pointer.map(|at| place_at(at, top, order.len()));
            let from = briefing.dragged.map_or(index, |(from, _)| from);
            if response.drag_stopped() {
                ask(commands, BriefCommand::Drag(None));
                if let Some(to) = briefing.dragged.map(|(_, to)| to).filter(|to| *to != from) {
                    settle(editor, commands, moved(&order, from, to));
                }
            } else if let Some(to) = at.filter(|_| response.dragged())
                && briefing.dragged != Some((from, to))
            {
                ask(commands, BriefCommand::Drag(Some((from, to))));
            }
        }
    });
}

/// The place in the order at a height of the screen.
fn place_at(at: Pos2, top: f32, count: usize) -> usize {
    let place = ((at.y - top) / STEP_HIGH).floor().max(0.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a row on the screen, not below the first"
    )]
    let place = place as usize;
    place.min(count.saturating_sub(1))
}

fn settle(editor: &Editor, commands: &mut Vec<Command>, order: Vec<Id>) {
    let mut next = editor.settled();
    next.order = order;
    ask(
        commands,
        BriefCommand::Settle(words::STEP_ORDER, Box::new(next)),
    );
}

/// The largest heel on the way, what is doubtful, and a way back to the computed order.
fn head_ui(ui: &mut Ui, editor: &Editor, order: &LoadingOrder, commands: &mut Vec<Command>) {
    let broken: usize = order.steps.iter().map(|step| step.broken.len()).sum();
    ui.horizontal_wrapped(|ui| {
        let heel = words::greatest(order.greatest_heel_deg, order.greatest_moment_kg_m);
        ui.label(RichText::new(heel).size(20.0).strong());
        ui.separator();
        ui.label(RichText::new(words::rules_broken(broken)).size(20.0));
        ui.separator();
        let back = ui.add_enabled(order.by_hand, Button::new(words::COMPUTED_ORDER));
        if back.clicked() {
            settle(editor, commands, Vec::new());
        }
    });
    for remark in &order.remarks {
        ui.weak(remark);
    }
    ui.add_space(4.0);
}

fn step_ui(
    ui: &mut Ui,
    (index, rect): (usize, Rect),
    order: &LoadingOrder,
    editor: &Editor,
    commands: &mut Vec<Command>,
) {
    let ids: Vec<Id> = order
        .steps
        .iter()
        .map(|step| step.cylinder.clone())
        .collect();
    let step = &order.steps[index];
    let palette = editor.settings.theme.palette();
    let line = Stroke::new(1.0, ui.visuals().weak_text_color());
    ui.painter().hline(rect.x_range(), rect.bottom(), line);
    for row in 0..3 {
        let y = rect.center().y - 6.0 + 6.0 * row as f32;
        ui.painter()
            .hline(rect.left() + 8.0..=rect.left() + 26.0, y, line);
    }
    let inner = rect.shrink2(vec2(40.0, 2.0));
    let mut row = ui.new_child(egui::UiBuilder::new().max_rect(inner));
    row.horizontal_centered(|ui| {
        for (text, to) in [
            (words::EARLIER, index.checked_sub(1)),
            (words::LATER, Some(index + 1)),
        ] {
            let to = to.filter(|to| *to < ids.len());
            let button = ui.add_enabled(to.is_some(), Button::new(text));
            let button = button.accessible_name(words::move_step(&step.cylinder, text));
            if let (true, Some(to)) = (button.clicked(), to) {
                settle(editor, commands, moved(&ids, index, to));
            }
        }
        ui.label(RichText::new(format!("{}", index + 1)).strong());
        ui.label(RichText::new(&step.cylinder).size(18.0).strong());
        if let Some(deg) = step.heel_deg {
            ui.label(heel_words(deg));
        }
        let what = egui::Label::new(format!("{}; {}", step.where_to, step.then)).truncate();
        let rules: Vec<String> = step.broken.iter().map(BrokenRule::sentence).collect();
        if rules.is_empty() {
            ui.add(what);
            return;
        }
        let color = palette.signal(crate::checks::Signal::Danger);
        let text = RichText::new(rules.join(" ")).strong().color(color);
        ui.vertical(|ui| {
            // Both lines about the middle of the row.
            let line = ui.text_style_height(&egui::TextStyle::Body);
            ui.spacing_mut().item_spacing.y = 0.0;
            ui.add_space((0.5 * inner.height() - line).max(0.0));
            ui.add(what);
            ui.add(egui::Label::new(text).truncate());
        });
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_moves_and_the_others_close_up() {
        let order = ["a", "b", "c", "d"].map(str::to_owned);
        assert_eq!(moved(&order, 0, 2), ["b", "c", "a", "d"]);
        assert_eq!(moved(&order, 3, 0), ["d", "a", "b", "c"]);
        assert_eq!(moved(&order, 1, 9), order, "no such place");
        assert_eq!(place_at(Pos2::new(0.0, 100.0), 90.0, 4), 0);
        assert_eq!(place_at(Pos2::new(0.0, 90.0 + 2.5 * STEP_HIGH), 90.0, 4), 2);
        assert_eq!(place_at(Pos2::new(0.0, 9000.0), 90.0, 4), 3);
    }
}
