//! Curves of the selected cylinder: the roll at which it goes against the roll period (a quick roll is
//! another boat), and what is to spare against steady heel and against roll.

use egui::Ui;
use egui_plot::{Corner, HLine, Line, LineStyle, PlotPoints, Points, uniform_grid_spacer};

use super::super::super::Editor;
use super::super::super::command::Command;
use super::super::super::curve::Along;
use super::super::super::still_plot::{Axes, legend, still_plot};
use super::super::super::words::curves as words;
use crate::engine::numbers::{CylinderNumbers, PartNumbers};

/// Height of the drawing, in points.
const HEIGHT: f32 = 210.0;

/// What is to spare is drawn no lower than this, in percent: then it goes anyway.
const LEAST_PERCENT: f64 = -100.0;

/// The curves, worked out beside the window from the first time they are looked at.
pub(super) fn curve_ui(
    ui: &mut Ui,
    editor: &Editor,
    part: &PartNumbers,
    numbers: &CylinderNumbers,
    commands: &mut Vec<Command>,
) {
    let plan = editor.history.plan();
    let is_known = editor.curve.is_of(plan, &editor.trip, editor.part);
    if !is_known && !editor.history.is_open() {
        commands.push(Command::FollowCurve);
    }
    let along = editor.curve.shown;
    ui.horizontal_wrapped(|ui| {
        for other in Along::ALL {
            if ui
                .selectable_label(other == along, words::title(other))
                .clicked()
            {
                commands.push(Command::ShowCurve(other));
            }
        }
    });
    let busy = !is_known || editor.curve.is_busy();
    if busy {
        ui.weak(words::TRYING);
    }
    let mut points = if is_known {
        editor.curve.of(&numbers.cylinder, along)
    } else {
        Vec::new()
    };
    if points.is_empty() {
        if !busy {
            ui.label(words::none(along));
        }
        return;
    }
    for point in &mut points {
        point[1] = point[1].max(LEAST_PERCENT);
    }
    let told = words::curve(along, &points);
    plot_ui(ui, editor, part, numbers, points, &told);
    ui.label(&told);
    ui.weak(words::here(along));
}

/// Where the curve is not: it rises with the period, is highest upright, and falls with the roll.
fn corner(along: Along) -> Corner {
    match along {
        Along::Period => Corner::LeftTop,
        Along::Heel => Corner::RightBottom,
        Along::Roll => Corner::LeftBottom,
    }
}

fn plot_ui(
    ui: &mut Ui,
    editor: &Editor,
    part: &PartNumbers,
    numbers: &CylinderNumbers,
    points: Vec<[f64; 2]>,
    told: &str,
) {
    let along = editor.curve.shown;
    let palette = editor.settings.theme.palette();
    let width = 2.0 * palette.line_scale;
    // Where this part of the day is: for the period, how far she rolls; else, what is to spare.
    let now = along.of(&part.motion);
    let level = match along {
        Along::Period => Some(part.motion.roll_amplitude_deg),
        Along::Heel | Along::Roll => along.told(numbers).map(|spare| spare.max(LEAST_PERCENT)),
    };
    let axes = Axes {
        across: words::across(along),
        up: words::up(along),
    };
    let id = ("curve", words::title(along));
    let point = move |across, up| words::point(along, across, up);
    let plot = still_plot(id, HEIGHT, axes, palette, point).legend(legend(corner(along)));
    // What is to spare is told against all of it, so that a flat curve stands where it is.
    let plot = match along {
        Along::Period => plot,
        Along::Heel | Along::Roll => plot
            .include_y(100.0)
            .y_grid_spacer(uniform_grid_spacer(|_| [100.0, 50.0, 25.0])),
    };
    let dots = points.clone();
    let shown = plot.show(ui, |plot| {
        plot.line(
            Line::new(words::line(along), PlotPoints::from(points))
                .color(palette.lashing)
                .width(width),
        );
        plot.points(
            Points::new(words::line(along), PlotPoints::from(dots))
                .color(palette.lashing)
                .radius(1.3 * width),
        );
        if along != Along::Period {
            plot.hline(
                HLine::new(words::GOES_BELOW, 0.0)
                    .color(palette.danger)
                    .style(LineStyle::dashed_loose()),
            );
        }
        if let Some(level) = level {
            plot.points(
                Points::new(words::THIS_PART, PlotPoints::from(vec![[now, level]]))
                    .color(palette.danger)
                    .radius(2.5 * width),
            );
        }
    });
    let response = shown.response;
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, told));
}
