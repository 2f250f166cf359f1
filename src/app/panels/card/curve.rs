//! The roll at which the selected cylinder goes, against the roll period: a quick roll is another boat.

use egui::{Align2, FontId, Pos2, Rect, Sense, Stroke, Ui, pos2, vec2};

use super::super::super::Editor;
use super::super::super::command::Command;
use super::super::super::theme::PLAN_TEXT_SMALL;
use super::super::super::words::elevation as words;
use crate::engine::numbers::PartNumbers;
use crate::layout::Cylinder;

/// Height of the drawing, in points.
const HEIGHT: f32 = 150.0;

/// The curve, worked out beside the window from the first time it is looked at.
pub(super) fn curve_ui(
    ui: &mut Ui,
    editor: &Editor,
    cylinder: &Cylinder,
    part: &PartNumbers,
    commands: &mut Vec<Command>,
) {
    let plan = editor.history.plan();
    let is_known = editor.curve.is_of(plan, &editor.trip, editor.part);
    if !is_known && !editor.history.is_open() {
        commands.push(Command::FollowCurve);
    }
    if !is_known || editor.curve.is_busy() {
        ui.weak(words::CURVE_TRYING);
    }
    let points = if is_known {
        editor.curve.of(&cylinder.id)
    } else {
        Vec::new()
    };
    if points.is_empty() {
        if is_known && !editor.curve.is_busy() {
            ui.label(words::CURVE_NONE);
        }
        return;
    }
    let size = vec2(ui.available_width(), HEIGHT);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let told = words::curve(&points);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &told));
    let palette = editor.settings.theme.palette();
    let painter = ui.painter_at(rect);
    painter.rect_filled(rect, 3.0, palette.field);
    let motion = &part.motion;
    let axes = Axes::round(
        &points,
        motion.roll_period_s,
        motion.roll_amplitude_deg,
        rect,
    );
    let font = || FontId::proportional(PLAN_TEXT_SMALL);
    let thin = Stroke::new(palette.line_scale, palette.line);
    painter.line_segment([axes.at(0.0, 0.0), axes.at(axes.most_s, 0.0)], thin);
    painter.line_segment([axes.at(0.0, 0.0), axes.at(0.0, axes.most_deg)], thin);
    let mark = |at: Pos2, align, text: String| {
        painter.text(at, align, text, font(), palette.text);
    };
    for step in 1..=4_u8 {
        let share = f64::from(step) / 4.0;
        let (s, deg) = (share * axes.most_s, share * axes.most_deg);
        let below = axes.at(s, 0.0) + vec2(0.0, 2.0);
        mark(below, Align2::CENTER_TOP, format!("{s:.0}"));
        let beside = axes.at(0.0, deg) - vec2(4.0, 0.0);
        mark(beside, Align2::RIGHT_CENTER, format!("{deg:.0}"));
    }
    mark(
        rect.right_bottom() - vec2(4.0, 2.0),
        Align2::RIGHT_BOTTOM,
        words::CURVE_SLOW.to_owned(),
    );
    mark(
        rect.left_top() + vec2(4.0, 2.0),
        Align2::LEFT_TOP,
        words::CURVE_DEG.to_owned(),
    );
    let line: Vec<Pos2> = points.iter().map(|(s, deg)| axes.at(*s, *deg)).collect();
    for point in &line {
        painter.circle_filled(*point, 2.5, palette.lashing);
    }
    painter.line(line, Stroke::new(2.0 * palette.line_scale, palette.lashing));
    // Where this part of the day is: below the curve it holds, above it goes.
    let here = axes.at(motion.roll_period_s, motion.roll_amplitude_deg);
    painter.circle_filled(here, 4.5, palette.danger);
    ui.label(&told);
    ui.weak(words::CURVE_HERE);
}

/// Where periods and angles are on the screen.
struct Axes {
    rect: Rect,
    most_s: f64,
    most_deg: f64,
}

impl Axes {
    /// Axes that hold all of it, up to whole numbers that four steps divide.
    fn round(points: &[(f64, f64)], period_s: f64, roll_deg: f64, rect: Rect) -> Self {
        let most = |values: &mut dyn Iterator<Item = f64>, step: f64| {
            let most = values.fold(0.0, f64::max);
            (most / step).ceil().max(1.0) * step
        };
        let mut periods = points.iter().map(|p| p.0).chain([period_s]);
        let mut angles = points.iter().map(|p| p.1).chain([roll_deg]);
        let mut room = rect.shrink(6.0);
        room.min += vec2(22.0, 14.0);
        room.max -= vec2(8.0, 28.0);
        Self {
            rect: room,
            most_s: most(&mut periods, 4.0),
            most_deg: most(&mut angles, 8.0),
        }
    }

    #[expect(clippy::cast_possible_truncation, reason = "shares of a small drawing")]
    fn at(&self, period_s: f64, deg: f64) -> Pos2 {
        let [x, y] = [period_s / self.most_s, deg / self.most_deg].map(|share| share as f32);
        pos2(
            self.rect.left() + x * self.rect.width(),
            self.rect.bottom() - y * self.rect.height(),
        )
    }
}
