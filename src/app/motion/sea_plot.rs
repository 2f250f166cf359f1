//! Where the sea has its energy, where the boat answers, and what comes of it, over the period of the waves; of a
//! spread sea what comes from all its directions together.

use egui::Ui;
use egui_plot::{Line, LineStyle, PlotPoints, VLine};

use super::super::Editor;
use super::super::still_plot::{Axes, still_plot};
use super::super::words::sea as words;
use super::sea_fan::fan_ui;
use crate::engine::numbers::SeaNumbers;
use crate::engine::{SeaPoint, sea_curves};

/// Height of the drawing, in points.
const HEIGHT: f32 = 210.0;

/// The longest waves that are drawn, in seconds.
const LONGEST_S: f64 = 12.0;

/// What a line is called, what it shows, and how.
type Curve = (&'static str, fn(&SeaPoint) -> f64, egui::Color32, LineStyle);

pub(super) fn plot_ui(ui: &mut Ui, editor: &Editor, numbers: &SeaNumbers) {
    let part = editor.trip().and_then(|trip| trip.parts.get(editor.part));
    let Some(sea) = part.and_then(|part| part.sea.as_ref()) else {
        return;
    };
    fan_ui(ui, editor, sea, numbers);
    let points = sea_curves(&editor.plan().boat, sea, numbers);
    let palette = editor.settings.theme.palette();
    let width = 1.8 * palette.line_scale;
    let most = numbers.wave_period_s.max(numbers.natural_roll_period_s);
    let longest_s = (2.2 * most).clamp(6.0, LONGEST_S);
    let curves: [Curve; 3] = [
        (
            words::CURVE_SEA,
            |point| point.sea_m2_per_s,
            palette.place,
            LineStyle::Solid,
        ),
        (
            words::CURVE_ROLL,
            |point| point.roll_deg2_per_s,
            palette.lashing,
            LineStyle::dashed_loose(),
        ),
        (
            words::CURVE_FORCE,
            |point| point.force_deg2_per_s,
            palette.warning,
            LineStyle::dotted_dense(),
        ),
    ];
    let told = words::plot(numbers.wave_period_s, numbers.natural_roll_period_s);
    let axes = Axes {
        across: words::ACROSS,
        up: words::UP,
    };
    let id = "the sea and the boat";
    let plot = still_plot(id, HEIGHT, axes, palette, words::point)
        .include_y(118.0)
        .include_x(0.5)
        .include_x(longest_s);
    let shown = plot.show(ui, |plot| {
        for (name, of, color, style) in curves {
            let greatest = points.iter().map(of).fold(0.0, f64::max);
            if greatest <= 0.0 {
                continue;
            }
            let drawn = points
                .iter()
                .filter(|point| point.wave_period_s <= longest_s);
            let drawn: Vec<[f64; 2]> = drawn
                .map(|point| [point.wave_period_s, 100.0 * of(point) / greatest])
                .collect();
            plot.line(
                Line::new(name, PlotPoints::from(drawn))
                    .color(color)
                    .style(style)
                    .width(width),
            );
        }
        // Where she meets waves as often as she rolls by herself.
        let nearest = points.iter().min_by(|a, b| {
            let off = |point: &SeaPoint| (point.met_every_s - numbers.natural_roll_period_s).abs();
            off(a).total_cmp(&off(b))
        });
        if let Some(nearest) = nearest {
            plot.vline(
                VLine::new(words::CURVE_OWN, nearest.wave_period_s)
                    .color(palette.text_faint)
                    .width(palette.line_scale),
            );
        }
    });
    let response = shown.response;
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &told));
}
