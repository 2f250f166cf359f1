//! The deck by tape and the deck from a drawing, each with a live preview.

use egui::{Align2, ComboBox, DragValue, FontId, Sense, Shape, Stroke, TextEdit, Ui, vec2};

use super::super::Editor;
use super::super::canvas::View;
use super::super::command::Command;
use super::super::drawn::DrawingChoice;
use super::super::files::Dialog;
use super::super::here::at;
use super::super::perform::FileCommand;
use super::super::survey::{BowTyped, DeckSurvey, Diagonal, Worked, around};
use super::super::theme::{PLAN_TEXT, Palette};
use super::super::words::dialogs as all;
use super::super::words::survey as words;
use super::dialogs::show;
use crate::geometry::Vec2;
use crate::geometry::survey::Judgement;
use crate::layout::Point;
use crate::store::drawing::{BowTowards, DrawingUnit};
use crate::units::{Quantity, System};

/// Height of the preview, in points.
pub(super) const PREVIEW_HEIGHT: f32 = 150.0;

/// Round the deck in the preview, in points.
pub(super) const PREVIEW_MARGIN: f32 = 22.0;

/// The deck as tape readings.
pub(super) fn deck_by_tape_ui(
    ui: &mut Ui,
    editor: &Editor,
    survey: &DeckSurvey,
    commands: &mut Vec<Command>,
) {
    let system = editor.settings.units;
    ui.heading(all::DECK_BY_TAPE);
    ui.label(all::DECK_BY_TAPE_HELP);
    let mut typed = survey.clone();
    ui.columns(2, |columns| {
        let [left, right] = columns else { return };
        left.add(
            TextEdit::multiline(&mut typed.stations)
                .desired_rows(8)
                .desired_width(f32::INFINITY),
        )
        .accessible_name(words::STATIONS);
        right.label(words::DIAGONALS_HELP);
        right
            .add(
                TextEdit::multiline(&mut typed.diagonals)
                    .desired_rows(4)
                    .desired_width(f32::INFINITY),
            )
            .accessible_name(words::DIAGONALS);
        right.horizontal(|ui| {
            let label = ui.label(words::ACCURACY);
            ui.add(TextEdit::singleline(&mut typed.accuracy).desired_width(70.0))
                .labelled_by(label.id);
        });
    });
    ui.horizontal(|ui| {
        let label = ui.label(words::BOW);
        ComboBox::from_id_salt("bow")
            .selected_text(words::bow(typed.bow))
            .show_ui(ui, |ui| {
                for bow in BowTyped::ALL {
                    ui.selectable_value(&mut typed.bow, bow, words::bow(bow));
                }
            })
            .response
            .labelled_by(label.id);
        if typed.bow == BowTyped::Fair {
            let label = ui.label(words::FAIR_FROM);
            ui.add(
                DragValue::new(&mut typed.fair_from)
                    .range(1..=99)
                    .speed(0.1),
            )
            .labelled_by(label.id);
        }
    });
    let worked = typed.worked(system);
    let points = worked.points();
    preview_ui(
        ui,
        editor.settings.theme.palette(),
        words::PREVIEW,
        points.as_deref(),
        &worked.diagonals,
    );
    told_ui(ui, &worked);
    ui.add_space(8.0);
    buttons_ui(ui, points, commands, |commands| {
        if typed != *survey {
            show(commands, Some(Dialog::DeckByTape(Box::new(typed.clone()))));
        }
    });
}

fn told_ui(ui: &mut Ui, worked: &Worked) {
    match &worked.made {
        Err(why) => {
            ui.label(why);
        }
        Ok(made) => {
            if made.deviation_m > 0.0 {
                ui.weak(words::curve_within(made.deviation_m * 1e3));
            }
            if made.asymmetry_m > 0.0 {
                ui.weak(words::sides_differ(made.asymmetry_m * 1e3));
            }
        }
    }
    for trouble in &worked.troubles {
        ui.label(trouble);
    }
    for diagonal in &worked.diagonals {
        let found = diagonal.misclosure;
        let verdict = match found.judgement {
            Judgement::Agrees => words::AGREES,
            Judgement::Doubtful => words::READ_AGAIN,
            Judgement::Wrong => words::A_READING_IS_WRONG,
        };
        // Two standard errors: what 95 readings in 100 keep within.
        let allowed_mm = 2.0 * found.expected_m * 1e3;
        ui.label(words::misclosure(
            &diagonal.name,
            found.off_m * 1e3,
            allowed_mm,
            verdict,
        ));
    }
    if let Some(suspect) = &worked.suspect {
        ui.strong(suspect);
    }
}

/// Draw it, or go back, or go on typing.
fn buttons_ui(
    ui: &mut Ui,
    points: Option<Vec<Point>>,
    commands: &mut Vec<Command>,
    otherwise: impl FnOnce(&mut Vec<Command>),
) {
    ui.horizontal(|ui| {
        let draw = ui.add_enabled(points.is_some(), egui::Button::new(all::DRAW_DECK));
        match points {
            Some(points) if draw.clicked() => commands.push(Command::DeckOutline(points)),
            _ if ui.button(all::GO_BACK).clicked() => show(commands, None),
            _ => otherwise(commands),
        }
    });
}

fn preview_ui(
    ui: &mut Ui,
    palette: &Palette,
    name: &str,
    points: Option<&[Point]>,
    diagonals: &[Diagonal],
) {
    let size = vec2(ui.available_width(), PREVIEW_HEIGHT);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, name));
    let painter = ui.painter_at(rect);
    painter.rect_filled(rect, 3.0, palette.water);
    let Some(points) = points else { return };
    let corners: Vec<Vec2> = points.iter().map(|p| at(*p)).collect();
    let view = View::fitting(rect, &around(&corners), PREVIEW_MARGIN);
    let on_screen = |p: Vec2| view.screen_from_world(p);
    let edge = Stroke::new(1.6 * palette.line_scale, palette.deck_edge);
    let closed = corners.iter().chain(corners.first());
    painter.add(Shape::line(closed.map(|p| on_screen(*p)).collect(), edge));
    for corner in &corners {
        painter.circle_filled(on_screen(*corner), 1.8, palette.deck_edge);
    }
    for diagonal in diagonals {
        let ends = [on_screen(diagonal.from), on_screen(diagonal.to)];
        let width = if diagonal.agrees() { 1.0 } else { 2.4 };
        let stroke = Stroke::new(width * palette.line_scale, palette.text);
        if diagonal.agrees() {
            painter.extend(Shape::dashed_line(&ends, stroke, 5.0, 4.0));
        } else {
            painter.line_segment(ends, stroke);
            let font = FontId::proportional(PLAN_TEXT);
            let middle = ends[0].lerp(ends[1], 0.5);
            painter.text(
                middle,
                Align2::LEFT_BOTTOM,
                &diagonal.name,
                font,
                palette.text,
            );
        }
    }
}

/// The deck from a drawing.
pub(super) fn deck_from_drawing_ui(
    ui: &mut Ui,
    editor: &Editor,
    choice: &DrawingChoice,
    commands: &mut Vec<Command>,
) {
    let system = editor.settings.units;
    ui.heading(words::FROM_DRAWING);
    let name = choice.path.file_name().unwrap_or_default();
    ui.label(name.to_string_lossy());
    let mut chosen = choice.clone();
    ui.horizontal_wrapped(|ui| chooser_ui(ui, choice, &mut chosen));
    if chosen.unit.is_none() {
        ui.label(words::CHOOSE_UNIT);
    }
    let points = choice.points();
    preview_ui(
        ui,
        editor.settings.theme.palette(),
        words::DRAWING_PREVIEW,
        points.as_deref(),
        &[],
    );
    match (choice.unit, choice.found.outlines.first(), &points) {
        (Some(_), Some(found), Some(points)) => {
            ui.label(size(points, system));
            let (off, gap) = (found.deviation_m * 1e3, found.gap_m * 1e3);
            ui.weak(words::outline_found(points.len(), off, gap));
        }
        (Some(_), _, _) => {
            ui.label(words::NOTHING_CLOSED);
        }
        (None, _, _) => {}
    }
    let faults = &choice.found.faults;
    let others = choice.found.outlines.len().saturating_sub(1) + faults.len();
    if choice.unit.is_some() && others > 0 {
        ui.label(words::left_out(others));
        egui::ScrollArea::vertical()
            .max_height(90.0)
            .show(ui, |ui| {
                for fault in faults.iter().take(50) {
                    ui.weak(words::drawing_fault(
                        &fault.entity,
                        &fault.message,
                        &fault.help,
                    ));
                }
            });
    }
    ui.add_space(8.0);
    buttons_ui(ui, points, commands, |commands| {
        if (&chosen.layer, chosen.unit, chosen.bow) != (&choice.layer, choice.unit, choice.bow) {
            commands.push(Command::File(FileCommand::LookUpDrawing(Box::new(chosen))));
        }
    });
}

fn chooser_ui(ui: &mut Ui, choice: &DrawingChoice, chosen: &mut DrawingChoice) {
    let label = ui.label(words::LAYER);
    ComboBox::from_id_salt("layer")
        .selected_text(&chosen.layer)
        .show_ui(ui, |ui| {
            for layer in &choice.drawing.layers {
                ui.selectable_value(&mut chosen.layer, layer.name.clone(), &layer.name);
            }
        })
        .response
        .labelled_by(label.id);
    let label = ui.label(words::DRAWN_IN);
    let unit = chosen.unit.map_or(words::NOT_CHOSEN, DrawingUnit::symbol);
    ComboBox::from_id_salt("unit")
        .selected_text(unit)
        .show_ui(ui, |ui| {
            for unit in DrawingUnit::ALL {
                ui.selectable_value(&mut chosen.unit, Some(unit), unit.symbol());
            }
        })
        .response
        .labelled_by(label.id);
    let label = ui.label(words::BOW_POINTS);
    ComboBox::from_id_salt("bow points")
        .selected_text(words::towards(chosen.bow))
        .show_ui(ui, |ui| {
            for bow in [
                BowTowards::Right,
                BowTowards::Up,
                BowTowards::Left,
                BowTowards::Down,
            ] {
                ui.selectable_value(&mut chosen.bow, bow, words::towards(bow));
            }
        })
        .response
        .labelled_by(label.id);
}

fn size(points: &[Point], system: System) -> String {
    let corners: Vec<Vec2> = points.iter().map(|p| at(*p)).collect();
    let size = crate::geometry::Bounds::of(corners).size();
    let [length, beam] = [size.x, size.y].map(|value| Quantity::Length.show(value, system));
    words::size(&length, &beam)
}
