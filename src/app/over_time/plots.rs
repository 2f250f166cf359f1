//! Roll, pitch and margins over time, with the cursor.

use egui::{Color32, Ui};
use egui_plot::{
    AxisHints, HLine, HoverPosition, Line, LineStyle, Plot, PlotPoints, PlotResponse, VLine,
};

use super::super::theme::Palette;
use super::super::words::replay as words;
use super::{TimeCommand, TimeView};
use crate::audit::replay::ReplayReport;

/// Room for the numbers along an axis, in points.
const AXIS_ROOM: f32 = 46.0;

/// Points in which margins are drawn: with all of it shown each is wider than a swing, so that the least of each makes
/// a quiet line; closer, swings are seen.
const DRAWN: usize = 160;

/// Margins are drawn no lower than this, in percent: then it goes anyway.
const LEAST_PERCENT: f64 = -40.0;

/// So many points of scrolling are one step closer.
const SCROLL: f32 = 120.0;

/// A range as the line from its least to its most, bucket by bucket; a gap ends a line.
fn runs(times: &[f64], ranges: &[Option<[f64; 2]>]) -> Vec<Vec<[f64; 2]>> {
    let mut runs: Vec<Vec<[f64; 2]>> = vec![Vec::new()];
    for (time_s, range) in times.iter().zip(ranges) {
        let Some([least, most]) = *range else {
            if runs.last().is_some_and(|run| !run.is_empty()) {
                runs.push(Vec::new());
            }
            continue;
        };
        if let Some(run) = runs.last_mut() {
            run.push([*time_s, least]);
            if most > least {
                run.push([*time_s, most]);
            }
        }
    }
    runs
}

/// The buckets that are shown, and one to either side, so that lines run to the edges.
fn shown(times: &[f64], [from_s, to_s]: [f64; 2]) -> std::ops::Range<usize> {
    let from = times.partition_point(|time_s| *time_s < from_s);
    let to = times.partition_point(|time_s| *time_s <= to_s);
    from.saturating_sub(1)..(to + 1).min(times.len()).max(from.min(times.len()))
}

fn plot(name: &str, height: f32, up: &str, palette: &Palette) -> Plot<'static> {
    let unit = up.to_owned();
    Plot::new(("over time", name.to_owned()))
        .height(height)
        .custom_x_axes(vec![AxisHints::new_x().label(words::SECONDS)])
        .custom_y_axes(vec![
            AxisHints::new_y()
                .label(up.to_owned())
                .min_thickness(AXIS_ROOM),
        ])
        .allow_zoom(false)
        .allow_drag(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_axis_zoom_drag(false)
        .allow_double_click_reset(false)
        .grid_color(palette.control_line)
        .label_formatter(move |at| {
            let position = match at {
                HoverPosition::NearDataPoint { position, .. }
                | HoverPosition::Elsewhere { position } => position,
            };
            Some(words::point(position.x, position.y, &unit))
        })
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
    found: &ReplayReport,
    palette: &Palette,
    asked: &mut Vec<TimeCommand>,
) {
    let tracks = &found.tracks;
    let width = 1.3 * palette.line_scale;
    let [from_s, to_s] = view.shown_s(found);
    let range = shown(&tracks.time_s, [from_s, to_s]);
    let [port, starboard] = found.largest_roll_deg;
    let [up, down] = found.largest_pitch_deg;
    let most = [port, starboard, up, down].into_iter().fold(10.0, f64::max);
    let shown = plot("motion", 150.0, words::DEGREES, palette).show(ui, |plot| {
        plot.set_plot_bounds_x(from_s..=to_s);
        plot.set_plot_bounds_y(-1.05 * most..=1.05 * most);
        let both = [
            (words::PITCH, &tracks.pitch_deg, palette.text_faint),
            (words::ROLL, &tracks.roll_deg, palette.notice),
        ];
        for (name, ranges, color) in both {
            let ranges = ranges.get(range.clone()).unwrap_or_default();
            for run in runs(&tracks.time_s[range.clone()], ranges) {
                plot.line(
                    Line::new(name, PlotPoints::from(run))
                        .color(color)
                        .width(width),
                );
            }
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
    found: &ReplayReport,
    palette: &Palette,
    asked: &mut Vec<TimeCommand>,
) {
    let tracks = &found.tracks;
    let height = (ui.available_height() - 8.0).max(160.0);
    let [from_s, to_s] = view.shown_s(found);
    let range = shown(&tracks.time_s, [from_s, to_s]);
    let shown = plot("margins", height, words::PERCENT, palette).show(ui, |plot| {
        plot.set_plot_bounds_x(from_s..=to_s);
        plot.set_plot_bounds_y(LEAST_PERCENT..=105.0);
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
            let (times, least) = least_of(&tracks.time_s[range.clone()], margins);
            for run in runs(&times, &least) {
                let name = cylinder.cylinder.clone();
                plot.line(
                    Line::new(name, PlotPoints::from(run))
                        .color(color)
                        .width(width),
                );
            }
        }
        plot.vline(cursor(view, palette));
    });
    follow_pointer(&shown, &words::margins_told(found), asked);
}

/// The least of every few buckets: what counts.
fn least_of(times: &[f64], ranges: &[Option<[f64; 2]>]) -> (Vec<f64>, Vec<Option<[f64; 2]>>) {
    let each = times.len().div_ceil(DRAWN).max(1);
    let middles = times.chunks(each).map(|run| run[run.len() / 2]).collect();
    let least = |run: &[Option<[f64; 2]>]| {
        let least = run.iter().flatten().map(|range| range[0]);
        least.reduce(f64::min).map(|least| [percent(least); 2])
    };
    (middles, ranges.chunks(each).map(least).collect())
}

fn percent(margin: f64) -> f64 {
    (100.0 * margin).max(LEAST_PERCENT)
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
    fn a_gap_ends_a_line() {
        let ranges = [Some([1.0, 2.0]), None, None, Some([3.0, 3.0])];
        let runs = runs(&[0.0, 1.0, 2.0, 3.0], &ranges);
        assert_eq!(runs, [vec![[0.0, 1.0], [0.0, 2.0]], vec![[3.0, 3.0]]]);
    }

    #[test]
    fn a_stretch_reaches_one_point_over_either_edge() {
        let times: Vec<f64> = (0..10).map(f64::from).collect();
        assert_eq!(shown(&times, [3.0, 5.0]), 2..7);
        assert_eq!(shown(&times, [0.0, 9.0]), 0..10);
        assert_eq!(shown(&times, [20.0, 30.0]), 9..10);
        assert_eq!(shown(&[], [0.0, 1.0]), 0..0);
    }

    /// Closer, each drawn point stands for fewer buckets, and a dip between is not lost.
    #[test]
    fn the_least_is_drawn() {
        let times: Vec<f64> = (0..1600).map(f64::from).collect();
        let margin = |i: usize| Some([if i == 803 { 0.1 } else { 0.5 }, 0.9]);
        let ranges: Vec<_> = (0..1600).map(margin).collect();
        for range in [0..1600, 700..900, 803..804] {
            let (middles, least) = least_of(&times[range.clone()], &ranges[range]);
            assert!(middles.len() <= DRAWN && middles.len() == least.len());
            let lowest = least.iter().flatten().map(|it| it[0]).fold(100.0, f64::min);
            assert!((lowest - 10.0).abs() < 1e-9, "{lowest}");
        }
    }
}
