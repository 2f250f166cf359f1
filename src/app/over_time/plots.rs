//! Roll, pitch and margins over time, with the cursor.

use egui::{Color32, Ui};
use egui_plot::{AxisHints, HLine, Line, LineStyle, Plot, PlotPoints, PlotResponse, PlotUi, VLine};

use super::super::still_plot::{held_still, told_at};
use super::super::theme::Palette;
use super::super::words::replay as words;
use super::{Looked, TimeCommand, TimeView};
use crate::audit::replay::ReplayReport;
use crate::audit::replay::curves::{least_of, runs};

/// Room for the numbers along an axis, in points.
const AXIS_ROOM: f32 = 54.0;

/// Points in which margins are drawn: with all of it shown each is wider than a swing, so that the least of each makes
/// a quiet line; closer, swings are seen.
const DRAWN: usize = 160;

/// Margins are drawn no lower than this, in percent: then it goes anyway.
const LEAST_PERCENT: f64 = -40.0;

/// So many points of scrolling are one step closer.
const SCROLL: f32 = 120.0;

/// The buckets that are shown, and one to either side, so that lines run to the edges.
fn shown(times: &[f64], [from_s, to_s]: [f64; 2]) -> std::ops::Range<usize> {
    let from = times.partition_point(|time_s| *time_s < from_s);
    let to = times.partition_point(|time_s| *time_s <= to_s);
    from.saturating_sub(1)..(to + 1).min(times.len()).max(from.min(times.len()))
}

/// A drawing over the time that is shown, from `low` to `high`; `up` is what stands along its side.
fn plot_over_time<'a>(
    (name, height, up): (&str, f32, &'static str),
    view: &TimeView,
    found: &ReplayReport,
    palette: &Palette,
    [low, high]: [f64; 2],
) -> (Plot<'a>, impl Fn(&mut PlotUi<'_>)) {
    let plot = held_still(Plot::new(("over time", name.to_owned())))
        .height(height)
        .custom_x_axes(vec![AxisHints::new_x().label(words::SECONDS)])
        .custom_y_axes(vec![AxisHints::new_y().label(up).min_thickness(AXIS_ROOM)])
        .grid_color(palette.control_line)
        .label_formatter(told_at(move |x, y| words::point(x, y, up)));
    let [from_s, to_s] = view.shown_s(found);
    let bounds = move |plot: &mut PlotUi<'_>| {
        plot.set_plot_bounds_x(from_s..=to_s);
        plot.set_plot_bounds_y(low..=high);
    };
    (plot, bounds)
}

/// Ranges as lines of one look, without those of gaps.
fn lines(
    plot: &mut PlotUi<'_>,
    name: &str,
    (times, ranges): (&[f64], &[Option<[f64; 2]>]),
    (color, width): (Color32, f32),
) {
    for run in runs(times, ranges) {
        plot.line(
            Line::new(name, PlotPoints::from(run))
                .color(color)
                .width(width),
        );
    }
}

/// Where it was clicked or dragged to, the cursor goes; scrolling over it goes closer about the pointer, sideways along.
fn follow_pointer<T>(shown: &PlotResponse<T>, told: &str, asked: &mut Vec<TimeCommand>) {
    let response = &shown.response;
    let at_s = |pointer: egui::Pos2| shown.transform.value_from_position(pointer).x;
    if (response.clicked() || response.dragged())
        && let Some(pointer) = response.interact_pointer_pos()
    {
        asked.push(TimeCommand::Cursor(at_s(pointer)));
    }
    if let Some(pointer) = response.hover_pos() {
        let (scrolled, pinched) =
            (response.ctx).input(|input| (input.smooth_scroll_delta(), input.zoom_delta()));
        if (pinched - 1.0).abs() > 1e-6 {
            asked.push(TimeCommand::Closer(f64::from(pinched), Some(at_s(pointer))));
        } else if scrolled.y.abs() > 0.0 {
            let by = f64::from(scrolled.y / SCROLL).exp2();
            asked.push(TimeCommand::Closer(by, Some(at_s(pointer))));
        }
        if scrolled.x.abs() > 0.0 {
            let share = -scrolled.x / response.rect.width().max(1.0);
            asked.push(TimeCommand::Along(f64::from(share)));
        }
    }
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, told));
}

/// Roll and pitch.
pub(super) fn motion_ui(
    ui: &mut Ui,
    view: &TimeView,
    looked: &Looked<'_>,
    palette: &Palette,
    asked: &mut Vec<TimeCommand>,
) {
    let (found, tracks) = (looked.found, looked.tracks(view));
    let range = shown(&tracks.time_s, view.shown_s(found));
    let times = &tracks.time_s[range.clone()];
    let [port, starboard] = found.largest_roll_deg;
    let [up, down] = found.largest_pitch_deg;
    let most = [port, starboard, up, down].into_iter().fold(10.0, f64::max);
    let about = ("motion", 150.0, words::DEGREES);
    let (plot, bounds) = plot_over_time(about, view, found, palette, [-1.05 * most, 1.05 * most]);
    let shown = plot.show(ui, |plot| {
        bounds(plot);
        let width = 1.3 * palette.line_scale;
        for (name, ranges, color) in [
            (words::PITCH, &tracks.pitch_deg, palette.text_faint),
            (words::ROLL, &tracks.roll_deg, palette.notice),
        ] {
            let ranges = ranges.get(range.clone()).unwrap_or_default();
            lines(plot, name, (times, ranges), (color, width));
        }
        plot.vline(cursor(view, palette));
    });
    follow_pointer(&shown, &words::motion_told(found), asked);
}

fn cursor(view: &TimeView, palette: &Palette) -> VLine {
    VLine::new(words::CURSOR, view.cursor_s)
        .color(palette.selected)
        .width(2.0 * palette.line_scale)
}

/// The margin of every cylinder.
pub(super) fn margins_ui(
    ui: &mut Ui,
    view: &TimeView,
    looked: &Looked<'_>,
    palette: &Palette,
    asked: &mut Vec<TimeCommand>,
) {
    let (found, tracks) = (looked.found, looked.tracks(view));
    let range = shown(&tracks.time_s, view.shown_s(found));
    let times = &tracks.time_s[range.clone()];
    let height = (ui.available_height() - 8.0).max(160.0);
    let about = ("margins", height, words::PERCENT);
    let (plot, bounds) = plot_over_time(about, view, found, palette, [LEAST_PERCENT, 105.0]);
    let shown = plot.show(ui, |plot| {
        bounds(plot);
        plot.hline(
            HLine::new(words::GOES_HERE, 0.0)
                .color(palette.danger)
                .style(LineStyle::dashed_loose())
                .width(1.5 * palette.line_scale),
        );
        // The one that is picked last, over the others.
        let mut order: Vec<usize> = (0..found.cylinders.len()).collect();
        order.sort_by_key(|number| is_picked(view, found, *number));
        for number in order {
            let cylinder = &found.cylinders[number];
            let picked = is_picked(view, found, number);
            let color = color_of(cylinder.least_margin, picked, palette);
            let width = palette.line_scale * if picked { 2.6 } else { 1.0 };
            let margins = tracks.margins.get(number).map_or(&[][..], Vec::as_slice);
            let margins = margins.get(range.clone()).unwrap_or_default();
            let (times, least) = least_of(times, margins, DRAWN, LEAST_PERCENT);
            lines(plot, &cylinder.cylinder, (&times, &least), (color, width));
        }
        plot.vline(cursor(view, palette));
    });
    follow_pointer(&shown, &words::margins_told(found), asked);
}

fn is_picked(view: &TimeView, found: &ReplayReport, number: usize) -> bool {
    view.picked.as_ref() == Some(&found.cylinders[number].cylinder)
}

/// By what is left at the worst.
pub(super) fn color_of(margin: Option<f64>, picked: bool, palette: &Palette) -> Color32 {
    if picked {
        return palette.selected;
    }
    match margin {
        Some(left) if left <= 0.0 => palette.danger,
        Some(left) if left < 0.25 => palette.warning,
        Some(_) => palette.good,
        None => palette.text_faint,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stretch_reaches_one_point_over_either_edge() {
        let times: Vec<f64> = (0..10).map(f64::from).collect();
        assert_eq!(shown(&times, [3.0, 5.0]), 2..7);
        assert_eq!(shown(&times, [0.0, 9.0]), 0..10);
        assert_eq!(shown(&times, [20.0, 30.0]), 9..10);
        assert_eq!(shown(&[], [0.0, 1.0]), 0..0);
    }
}
