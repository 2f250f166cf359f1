//! What is measured by two tapes, with a live preview.

use egui::{Align2, ComboBox, FontId, Sense, Shape, Stroke, TextEdit, Ui, vec2};

use super::super::Editor;
use super::super::by_two_tapes::{Fixed, Measured, TwoTapes, known_corners};
use super::super::canvas::View;
use super::super::command::Command;
use super::super::files::Dialog;
use super::super::here::at;
use super::super::survey::around;
use super::super::theme::{PLAN_TEXT, Palette};
use super::super::words::by_two_tapes as words;
use super::super::words::dialogs as all;
use super::dialogs::show;
use super::survey::{PREVIEW_HEIGHT, PREVIEW_MARGIN};
use crate::geometry::Vec2;
use crate::layout::Point;

/// Something built on, or single things, by two tapes to each spot.
pub(super) fn two_tapes_ui(
    ui: &mut Ui,
    editor: &Editor,
    tapes: &TwoTapes,
    commands: &mut Vec<Command>,
) {
    let system = editor.settings.units;
    let deck = editor.plan().boat.deck(&editor.deck);
    let outline = deck.map_or(&[][..], |deck| &deck.outline);
    ui.heading(words::TITLE);
    ui.label(words::HELP);
    let mut typed = tapes.clone();
    ui.horizontal(|ui| {
        let label = ui.label(words::WHAT);
        ComboBox::from_id_salt("measured")
            .width(280.0)
            .selected_text(words::measured(&typed.what))
            .show_ui(ui, |ui| {
                for what in Measured::all() {
                    let is_this = typed.what == what;
                    if ui
                        .selectable_label(is_this, words::measured(&what))
                        .clicked()
                    {
                        typed = typed.clone().of(what, system);
                    }
                }
            })
            .response
            .labelled_by(label.id);
    });
    ui.weak(words::help(&typed.what));
    ui.columns(2, |columns| {
        let [left, right] = columns else { return };
        left.add(
            TextEdit::multiline(&mut typed.corners)
                .desired_rows(5)
                .desired_width(f32::INFINITY),
        )
        .accessible_name(words::CORNERS);
        fields_ui(right, &mut typed);
    });
    let found = typed.worked(outline, system);
    corners_ui(ui, editor.settings.theme.palette(), outline, &found);
    for trouble in &found.troubles {
        ui.label(trouble);
    }
    for (i, corner) in found.corners.iter().enumerate() {
        ui.label(corner.told(i + 1, system));
    }
    let selected = typed.what != Measured::Selected || editor.selection.primary().is_some();
    if !selected {
        ui.label(words::NOTHING_SELECTED);
    }
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let enough = selected && found.is_enough(&typed.what);
        let build = ui.add_enabled(enough, egui::Button::new(words::BUILD_IT));
        if build.clicked() {
            commands.push(Command::BuildByTapes(Box::new(typed.clone())));
        } else if ui.button(all::GO_BACK).clicked() {
            show(commands, None);
        } else if typed != *tapes {
            show(commands, Some(Dialog::ByTwoTapes(Box::new(typed.clone()))));
        }
    });
}

/// What else is asked of what was measured.
fn fields_ui(ui: &mut Ui, typed: &mut TwoTapes) {
    let is_built = typed.what == Measured::BuiltOn;
    let height = if is_built {
        words::HEIGHT
    } else {
        words::POINT_HEIGHT
    };
    let asked = [
        (
            words::NAME,
            typed.what != Measured::Selected,
            &mut typed.name,
        ),
        (words::DEPTH, is_built, &mut typed.depth),
        (
            height,
            typed.what.usual_height_m().is_some(),
            &mut typed.height,
        ),
        (words::ACCURACY, true, &mut typed.accuracy),
    ];
    for (name, _, value) in asked.into_iter().filter(|(_, asked, _)| *asked) {
        ui.horizontal(|ui| {
            let label = ui.label(name);
            ui.add(TextEdit::singleline(value).desired_width(f32::INFINITY))
                .labelled_by(label.id);
        });
    }
}

/// The deck with the names of its corners, the tapes, and what they give.
fn corners_ui(ui: &mut Ui, palette: &Palette, deck: &[Point], found: &Fixed) {
    let size = vec2(ui.available_width(), PREVIEW_HEIGHT);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let name = words::PREVIEW;
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, name));
    let painter = ui.painter_at(rect);
    painter.rect_filled(rect, 3.0, palette.water);
    let edge: Vec<Vec2> = deck.iter().map(|p| at(*p)).collect();
    let view = View::fitting(rect, &around(&edge), PREVIEW_MARGIN);
    let on_screen = |p: Vec2| view.screen_from_world(p);
    let line = |width: f32| Stroke::new(width * palette.line_scale, palette.deck_edge);
    let closed = edge.iter().chain(edge.first());
    painter.add(Shape::line(
        closed.map(|p| on_screen(*p)).collect(),
        line(1.2),
    ));
    for (name, corner) in known_corners(deck).iter().take(12) {
        let font = FontId::proportional(PLAN_TEXT);
        let place = on_screen(*corner);
        painter.circle_filled(place, 2.0, palette.deck_edge);
        painter.text(place, Align2::RIGHT_BOTTOM, name, font, palette.text);
    }
    for corner in &found.corners {
        for known in corner.from {
            let ends = [on_screen(known), on_screen(corner.fix.at)];
            let stroke = Stroke::new(palette.line_scale, palette.text_faint);
            painter.extend(Shape::dashed_line(&ends, stroke, 5.0, 4.0));
        }
        painter.circle_filled(on_screen(corner.fix.at), 3.0, palette.text);
    }
    if let Some(outline) = &found.outline {
        let closed = outline.iter().chain(outline.first());
        painter.add(Shape::line(
            closed.map(|p| on_screen(at(*p))).collect(),
            line(2.0),
        ));
    }
}
