//! One cell of the strip: a part of the day in six short lines.

use egui::text::{LayoutJob, TextFormat, TextWrapping};
use egui::{Color32, FontId, Pos2, Rect, Response, Sense, Stroke, StrokeKind, TextStyle, Ui, vec2};

use super::super::canvas::glyph;
use super::super::theme::Palette;
use super::super::words::day as words;
use crate::checks::Signal;
use crate::day::{PartCell, SignalCount};

/// How wide a cell is, at the normal text size.
const WIDE: f32 = 230.0;

/// Room inside its edge.
const PAD: f32 = 6.0;

/// Half a sign.
const SIGN: f32 = 6.0;

/// What a cell is drawn with.
pub(super) struct Look<'a> {
    pub(super) palette: &'a Palette,
    /// Is it the part that plan and cards show?
    pub(super) shown: bool,
    /// Only its name and what is to put right.
    pub(super) low: bool,
    /// The least height of a control.
    pub(super) target: f32,
    pub(super) text_scale: f32,
}

/// How high a cell is.
pub(super) fn height(ui: &Ui, look: &Look<'_>) -> f32 {
    let name = ui.text_style_height(&TextStyle::Button);
    let line = ui.text_style_height(&TextStyle::Small);
    let lines = if look.low { 0.0 } else { 6.0 * (line + 1.0) };
    (name + lines + 2.0 * PAD).max(look.target)
}

/// The cell; a press shows its part.
pub(super) fn cell_ui(ui: &mut Ui, cell: &PartCell, look: &Look<'_>) -> Response {
    let Look { palette, .. } = look;
    let size = vec2(WIDE * look.text_scale, height(ui, look));
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let name = super::super::words::part(&cell.name, cell.to_put_right.gravest());
    response
        .widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, look.shown, &name));
    if !ui.is_rect_visible(rect) {
        return told_when_pointed_at(response, cell);
    }
    let edge = if look.shown || response.has_focus() {
        Stroke::new(2.0 * palette.line_scale, palette.selected)
    } else {
        Stroke::new(palette.line_scale, palette.control_line)
    };
    let ground = match (look.shown, response.hovered()) {
        (true, _) => palette.field,
        (false, true) => palette.control_hovered,
        (false, false) => palette.control,
    };
    ui.painter()
        .rect(rect.shrink(1.0), 3.0, ground, edge, StrokeKind::Inside);
    if look.shown {
        // A bar besides the edge: which part is shown does not hang on colour.
        let bar = Rect::from_min_size(rect.left_bottom() - vec2(0.0, 5.0), vec2(size.x, 5.0));
        ui.painter()
            .rect_filled(bar.shrink2(vec2(4.0, 0.0)), 2.0, palette.selected);
    }
    let button = TextStyle::Button.resolve(ui.style());
    let small = TextStyle::Small.resolve(ui.style());
    let left = rect.left() + PAD + 2.0;
    let mut y = rect.top() + PAD;
    let right = signs(
        ui,
        look,
        &cell.to_put_right,
        pos(rect.right() - PAD, y),
        &small,
    );
    line(
        ui,
        &cell.name,
        button.clone(),
        palette.text,
        pos(left, y),
        right - 4.0,
    );
    if look.low {
        return told_when_pointed_at(response, cell);
    }
    y += ui.fonts_mut(|fonts| fonts.row_height(&button)) + 1.0;
    let row = ui.fonts_mut(|fonts| fonts.row_height(&small)) + 1.0;
    let end = rect.right() - PAD;
    let goes = cell.first.as_ref().is_some_and(|first| first.goes);
    for (text, color) in [
        (words::condition_and_time(cell), palette.text),
        (words::motion(cell), palette.text),
        (
            words::first(cell),
            if goes { palette.danger } else { palette.text },
        ),
        (words::people(cell), palette.text_faint),
        (words::cylinders(cell), palette.text_faint),
        (words::changed(cell), palette.text_faint),
    ] {
        line(ui, &text, small.clone(), color, pos(left, y), end);
        y += row;
    }
    told_when_pointed_at(response, cell)
}

/// All of the cell in words, made only when somebody points at it.
fn told_when_pointed_at(response: Response, cell: &PartCell) -> Response {
    response.on_hover_ui(|ui| {
        ui.label(words::told(cell));
    })
}

fn pos(x: f32, y: f32) -> Pos2 {
    Pos2::new(x, y)
}

/// One line, cut with dots where it is too long.
fn line(ui: &Ui, text: &str, font: FontId, color: Color32, at: Pos2, right: f32) {
    let mut job = LayoutJob::single_section(
        text.to_owned(),
        TextFormat {
            font_id: font,
            color,
            ..TextFormat::default()
        },
    );
    job.wrap = TextWrapping {
        max_rows: 1,
        break_anywhere: true,
        ..TextWrapping::from_wrap_mode_and_width(egui::TextWrapMode::Truncate, right - at.x)
    };
    let galley = ui.fonts_mut(|fonts| fonts.layout_job(job));
    ui.painter().galley(at, galley, color);
}

/// How much there is to put right, sign and number, from the right; tells where the signs begin.
pub(super) fn signs(
    ui: &Ui,
    look: &Look<'_>,
    count: &SignalCount,
    right_top: Pos2,
    font: &FontId,
) -> f32 {
    let mut x = right_top.x;
    let middle = right_top.y + SIGN + 2.0;
    let all = [
        Signal::Notice,
        Signal::Caution,
        Signal::Warning,
        Signal::Danger,
    ];
    for signal in all {
        let number = count.of(signal);
        if number == 0 {
            continue;
        }
        let color = look.palette.text;
        let galley = ui
            .painter()
            .layout_no_wrap(number.to_string(), font.clone(), color);
        x -= galley.size().x;
        let top = middle - 0.5 * galley.size().y;
        ui.painter().galley(pos(x, top), galley, color);
        x -= SIGN + 3.0;
        glyph::signal(ui.painter(), look.palette, pos(x, middle), signal, SIGN);
        x -= SIGN + 5.0;
    }
    x
}
