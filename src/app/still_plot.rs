//! A drawing of curves that stays as it is: no zoom, no drag, what is pointed at told in words.

use std::fmt::Debug;
use std::hash::Hash;

use egui_plot::{AxisHints, Corner, HoverPosition, Legend, Plot};

use super::theme::Palette;

/// Room for the numbers and the words along an axis, in points.
const AXIS_ROOM: f32 = 42.0;

/// What stands along the axes.
#[derive(Copy, Clone, Debug)]
pub(crate) struct Axes {
    pub(crate) across: &'static str,
    pub(crate) up: &'static str,
}

/// The drawing, so many points high; `point` says what is at a place of it.
pub(crate) fn still_plot<'a>(
    id: impl Hash + Debug,
    height: f32,
    axes: Axes,
    palette: &Palette,
    point: impl Fn(f64, f64) -> String + 'a,
) -> Plot<'a> {
    held_still(Plot::new(id))
        .height(height)
        .custom_x_axes(vec![
            AxisHints::new_x()
                .label(axes.across)
                .label_spacing(26.0..=44.0)
                .min_thickness(AXIS_ROOM),
        ])
        .custom_y_axes(vec![
            AxisHints::new_y().label(axes.up).min_thickness(AXIS_ROOM),
        ])
        .include_y(0.0)
        .grid_color(palette.control_line)
        .legend(legend(Corner::RightTop))
        .label_formatter(told_at(point))
}

/// The same plot, which the pointer neither moves nor makes larger.
pub(crate) fn held_still(plot: Plot<'_>) -> Plot<'_> {
    plot.allow_zoom(false)
        .allow_drag(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_axis_zoom_drag(false)
        .allow_double_click_reset(false)
}

/// What stands beside the pointer, whether or not a point of a curve is near.
pub(crate) fn told_at<'a>(
    point: impl Fn(f64, f64) -> String + 'a,
) -> impl Fn(&HoverPosition<'_>) -> Option<String> + 'a {
    move |at| {
        let position = match at {
            HoverPosition::NearDataPoint { position, .. }
            | HoverPosition::Elsewhere { position } => position,
        };
        Some(point(position.x, position.y))
    }
}

/// What the lines are called, in a corner, with the drawing showing through a little.
pub(crate) fn legend(corner: Corner) -> Legend {
    Legend::default().position(corner).background_alpha(0.85)
}
