//! Roll, pitch and margins over time, with the cursor.

use egui::{Color32, Ui};
use egui_plot::{
    AxisHints, HLine, HoverPosition, Line, LineStyle, Plot, PlotPoints, PlotResponse, VLine,
};

use super::super::theme::Palette;
use super::super::words::replay as words;
use super::place::ask;
use super::{ReplayCommand, ReplayPlace};
use crate::app::command::Command;
use crate::audit::replay::ReplayReport;

/// Room for the numbers along an axis, in points.
const AXIS_ROOM: f32 = 46.0;

/// Buckets in which margins are drawn: wider than a swing, so that the least of each makes a quiet line.
const DRAWN: usize = 160;

/// Margins are drawn no lower than this, in percent: then it goes anyway.
const LEAST_PERCENT: f64 = -40.0;

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

fn plot(name: &str, height: f32, up: &str, palette: &Palette) -> Plot<'static> {
    let unit = up.to_owned();
    Plot::new(("replay", name.to_owned()))
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

/// Where it was clicked or dragged to, the cursor goes.
fn follow_pointer<T>(shown: &PlotResponse<T>, told: &str, commands: &mut Vec<Command>) {
    let response = &shown.response;
    if (response.clicked() || response.dragged())
        && let Some(pointer) = response.interact_pointer_pos()
    {
        let at = shown.transform.value_from_position(pointer);
        ask(commands, ReplayCommand::Cursor(at.x));
    }
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, told));
}

/// Roll and pitch.
pub(super) fn motion_ui(
    ui: &mut Ui,
    place: &ReplayPlace,
    found: &ReplayReport,
    palette: &Palette,
    commands: &mut Vec<Command>,
) {
    let tracks = &found.tracks;
    let width = 1.3 * palette.line_scale;
    let shown = plot("motion", 150.0, words::DEGREES, palette)
        .include_y(-10.0)
        .include_y(10.0)
        .show(ui, |plot| {
            let both = [
                (words::PITCH, &tracks.pitch_deg, palette.text_faint),
                (words::ROLL, &tracks.roll_deg, palette.notice),
            ];
            for (name, ranges, color) in both {
                for run in runs(&tracks.time_s, ranges) {
                    plot.line(
                        Line::new(name, PlotPoints::from(run))
                            .color(color)
                            .width(width),
                    );
                }
            }
            plot.vline(cursor(place, palette));
        });
    follow_pointer(&shown, &words::motion_told(found), commands);
}

fn cursor(place: &ReplayPlace, palette: &Palette) -> VLine {
    VLine::new(words::CURSOR, place.cursor_s)
        .color(palette.selected)
        .width(2.0 * palette.line_scale)
}

/// The margin of every cylinder.
pub(super) fn margins_ui(
    ui: &mut Ui,
    place: &ReplayPlace,
    found: &ReplayReport,
    palette: &Palette,
    commands: &mut Vec<Command>,
) {
    let tracks = &found.tracks;
    let height = (ui.available_height() - 8.0).max(160.0);
    let shown = plot("margins", height, words::PERCENT, palette)
        .include_y(LEAST_PERCENT)
        .include_y(100.0)
        .show(ui, |plot| {
            plot.hline(
                HLine::new(words::GOES_HERE, 0.0)
                    .color(palette.danger)
                    .style(LineStyle::dashed_loose())
                    .width(1.5 * palette.line_scale),
            );
            // The one that is picked last, over the others.
            let mut order: Vec<usize> = (0..found.cylinders.len()).collect();
            order.sort_by_key(|number| is_picked(place, found, *number));
            for number in order {
                let cylinder = &found.cylinders[number];
                let picked = is_picked(place, found, number);
                let color = color_of(cylinder.least_margin, picked, palette);
                let width = palette.line_scale * if picked { 2.6 } else { 1.0 };
                let (times, least) = least_of(&tracks.time_s, &tracks.margins[number]);
                for run in runs(&times, &least) {
                    let name = cylinder.cylinder.clone();
                    plot.line(
                        Line::new(name, PlotPoints::from(run))
                            .color(color)
                            .width(width),
                    );
                }
            }
            plot.vline(cursor(place, palette));
        });
    follow_pointer(&shown, &words::margins_told(found), commands);
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

fn is_picked(place: &ReplayPlace, found: &ReplayReport, number: usize) -> bool {
    place.picked.as_ref() == Some(&found.cylinders[number].cylinder)
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
}
