//! The photo beneath the plan: its points are clicked here.

use egui::{Button, Color32, Sense, Stroke, TextEdit, TextureHandle, Ui, pos2, vec2};

use super::super::Editor;
use super::super::command::Command;
use super::super::files::Dialog;
use super::super::underlay::PhotoChoice;
use super::super::words::dialogs as all;
use super::super::words::underlay as words;
use super::dialogs::show;

/// Greatest height of the photo, in points.
const PHOTO_HEIGHT: f32 = 340.0;

/// See the module.
pub(super) fn photo_ui(
    ui: &mut Ui,
    editor: &Editor,
    choice: &PhotoChoice,
    commands: &mut Vec<Command>,
) {
    let system = editor.settings.units;
    ui.heading(words::PHOTO);
    ui.label(words::PHOTO_HELP);
    let mut typed = choice.clone();
    ui.horizontal(|ui| {
        ui.radio_value(&mut typed.four, true, words::FOUR_CORNERS);
        ui.radio_value(&mut typed.four, false, words::TWO_POINTS);
    });
    if typed.four != choice.four {
        typed.clicks.clear();
    }
    picture_ui(ui, &mut typed);
    let names = if typed.four {
        [words::LENGTH_AND_WIDTH, words::AFT_SIDE]
    } else {
        [words::FIRST_POINT, words::SECOND_POINT]
    };
    egui::Grid::new("photo").num_columns(2).show(ui, |ui| {
        for (name, value) in names.into_iter().zip(&mut typed.typed) {
            let label = ui.label(name);
            ui.add(TextEdit::singleline(value).desired_width(160.0))
                .labelled_by(label.id);
            ui.end_row();
        }
    });
    let underlay = typed.underlay(system);
    match &underlay {
        Err(why) => {
            ui.label(why);
        }
        Ok(underlay) => {
            if let Some((error_m, pixel_m)) = PhotoChoice::accuracy_m(underlay) {
                ui.label(words::accuracy(error_m * 1e3, pixel_m * 1e3));
            }
        }
    }
    if typed.clicks.len() >= typed.wanted() {
        ui.weak(words::CLICK_ANEW);
    }
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let lay = ui.add_enabled(underlay.is_ok(), Button::new(words::LAY_IT_UNDER));
        match underlay {
            Ok(underlay) if lay.clicked() => {
                commands.push(Command::LayUnder(Some(Box::new(underlay))));
            }
            _ if ui.button(all::GO_BACK).clicked() => show(commands, None),
            _ if typed != *choice => show(commands, Some(Dialog::Photo(Box::new(typed)))),
            _ => {}
        }
    });
}

fn picture_ui(ui: &mut Ui, typed: &mut PhotoChoice) {
    let texture = texture(ui, typed);
    let size = texture.size_vec2();
    let room = vec2(ui.available_width(), PHOTO_HEIGHT);
    let scale = (room.x / size.x).min(room.y / size.y);
    let (rect, response) = ui.allocate_exact_size(size * scale, Sense::click());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, words::CLICK_HERE));
    let painter = ui.painter_at(rect);
    let whole = egui::Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
    painter.image(texture.id(), rect, whole, Color32::WHITE);
    if let Some(at) = response
        .interact_pointer_pos()
        .filter(|_| response.clicked())
    {
        let share = (at - rect.min) / rect.size();
        typed.click(f64::from(share.x), f64::from(share.y));
    }
    for (i, click) in typed.clicks.iter().enumerate() {
        let [across, down] = typed.shares(*click).map(narrow);
        let at = rect.min + vec2(across, down) * rect.size();
        painter.circle_stroke(at, 6.0, Stroke::new(3.0, Color32::BLACK));
        painter.circle_stroke(at, 6.0, Stroke::new(1.5, Color32::YELLOW));
        let font = egui::FontId::proportional(15.0);
        let beside = at + vec2(9.0, -9.0);
        painter.text(
            beside,
            egui::Align2::LEFT_BOTTOM,
            (i + 1).to_string(),
            font,
            Color32::YELLOW,
        );
    }
}

/// The texture of the smaller photo, made once.
fn texture(ui: &Ui, choice: &PhotoChoice) -> TextureHandle {
    let id = egui::Id::unique(("photo", &choice.file));
    let known = ui.data(|data| data.get_temp::<TextureHandle>(id));
    known.unwrap_or_else(|| {
        let image = (*choice.small).clone();
        let made = ui
            .ctx()
            .load_texture("photo", image, egui::TextureOptions::LINEAR);
        ui.data_mut(|data| data.insert_temp(id, made.clone()));
        made
    })
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a share of a picture is small enough for f32"
)]
fn narrow(value: f64) -> f32 {
    value as f32
}
