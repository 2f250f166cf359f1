//! Where the sea has its energy, where the boat answers, and what comes of it, over the period of the waves.

use egui::Ui;
use egui_plot::{
    AxisHints, Corner, HoverPosition, Legend, Line, LineStyle, Plot, PlotPoints, VLine,
};

use super::super::Editor;
use super::super::words::sea as words;
use crate::engine::numbers::SeaNumbers;
use crate::engine::{SeaPoint, sea_curves};

/// Height of the drawing, in points.
const HEIGHT: f32 = 210.0;

/// Room for the numbers and the words along an axis, in points.
const AXIS_ROOM: f32 = 42.0;

/// The longest waves that are drawn, in seconds.
const LONGEST_S: f64 = 12.0;

/// What a line is called, what it shows, and how.
type Curve = (&'static str, fn(&SeaPoint) -> f64, egui::Color32, LineStyle);

pub(super) fn plot_ui(ui: &mut Ui, editor: &Editor, numbers: &SeaNumbers) {
    let part = editor.trip().and_then(|trip| trip.parts.get(editor.part));
    let Some(sea) = part.and_then(|part| part.sea.as_ref()) else {
        return;
    };
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
    let plot = Plot::new("the sea and the boat")
        .height(HEIGHT)
        .custom_x_axes(vec![
            AxisHints::new_x()
                .label(words::ACROSS)
                .label_spacing(26.0..=44.0)
                .min_thickness(AXIS_ROOM),
        ])
        .custom_y_axes(vec![
            AxisHints::new_y().label(words::UP).min_thickness(AXIS_ROOM),
        ])
        .allow_zoom(false)
        .allow_drag(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_axis_zoom_drag(false)
        .allow_double_click_reset(false)
        .include_y(0.0)
        .include_y(118.0)
        .include_x(0.5)
        .include_x(longest_s)
        .grid_color(palette.control_line)
        .legend(
            Legend::default()
                .position(Corner::RightTop)
                .background_alpha(0.85),
        )
        .label_formatter(|at| {
            let position = match at {
                HoverPosition::NearDataPoint { position, .. }
                | HoverPosition::Elsewhere { position } => position,
            };
            Some(words::point(position.x, position.y))
        });
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
