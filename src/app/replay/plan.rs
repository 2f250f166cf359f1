//! The deck at the moment of the cursor: what stands, coloured by its margin, and where what has gone lies.

use egui::Ui;
use egui_plot::{Line, LineStyle, Plot, PlotPoint, PlotPoints, Polygon, Text};

use super::super::Editor;
use super::super::words::replay as words;
use super::ReplayPlace;
use super::plots::color_of;
use crate::audit::replay::ReplayReport;
use crate::geometry::Vec2;

/// Corners of a circle.
const CORNERS: u32 = 20;

fn circle([x, y]: [f64; 2], radius_m: f64) -> Vec<[f64; 2]> {
    (0..CORNERS)
        .map(|corner| {
            let angle = std::f64::consts::TAU * f64::from(corner) / f64::from(CORNERS);
            let at = radius_m * Vec2::from_angle(angle);
            [x + at.x, y + at.y]
        })
        .collect()
}

/// Draws it; bow to the right, port at the top, as the deck plan.
pub(super) fn plan_ui(ui: &mut Ui, editor: &Editor, place: &ReplayPlace, found: &ReplayReport) {
    let palette = editor.settings.theme.palette();
    let boat = &editor.plan().boat;
    let numbers = editor.live.assessor().assessment().parts.get(editor.part);
    let Some(numbers) = numbers else { return };
    let bucket = place.bucket();
    let gone = |id: &str| {
        let cylinder = found.cylinders.iter().find(|it| it.cylinder == id);
        (cylinder.and_then(|it| it.went_s)).is_some_and(|went_s| went_s <= place.cursor_s)
    };
    let margin_now = |id: &str| {
        let number = found.cylinders.iter().position(|it| it.cylinder == id)?;
        let range = *found.tracks.margins.get(number)?.get(bucket?)?;
        range.map(|[least, _]| least)
    };
    let shown = Plot::new("replay plan")
        .height(190.0)
        .data_aspect(1.0)
        .show_axes(false)
        .show_grid(false)
        .allow_zoom(false)
        .allow_drag(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_axis_zoom_drag(false)
        .allow_double_click_reset(false)
        .show_x(false)
        .show_y(false)
        .show(ui, |plot| {
            for deck in &boat.decks {
                let mut outline = deck.outline.clone();
                outline.extend(deck.outline.first().copied());
                plot.line(
                    Line::new(deck.id.clone(), PlotPoints::from(outline))
                        .color(palette.deck_edge)
                        .width(1.5 * palette.line_scale),
                );
            }
            for event in found.events.iter().filter(|it| it.time_s <= place.cursor_s) {
                if event.sweep.len() > 2 {
                    plot.polygon(
                        Polygon::new(
                            event.cylinder.clone(),
                            PlotPoints::from(event.sweep.clone()),
                        )
                        .fill_color(palette.danger.gamma_multiply(0.18))
                        .stroke((palette.line_scale, palette.danger)),
                    );
                }
            }
            for cylinder in &numbers.cylinders {
                let id = &cylinder.cylinder;
                let ring = circle(cylinder.at, cylinder.body_radius_m);
                let picked = place.picked.as_ref() == Some(id);
                if gone(id) {
                    let mut ring = ring;
                    ring.extend(ring.first().copied());
                    // Only where it stood.
                    plot.line(
                        Line::new(id.clone(), PlotPoints::from(ring))
                            .color(palette.danger)
                            .style(LineStyle::dotted_dense())
                            .width(1.5 * palette.line_scale),
                    );
                } else {
                    let color = color_of(margin_now(id), picked, palette);
                    plot.polygon(
                        Polygon::new(id.clone(), PlotPoints::from(ring))
                            .fill_color(color)
                            .stroke((palette.line_scale, palette.text)),
                    );
                }
                if picked || gone(id) {
                    let [x, y] = cylinder.at;
                    let at = PlotPoint::new(x, y + 2.2 * cylinder.body_radius_m);
                    let name = egui::RichText::new(id).color(palette.text).strong();
                    plot.text(Text::new(id.clone(), at, name));
                }
            }
        });
    let told = words::plan_told(found, place.cursor_s);
    let response = shown.response;
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &told));
}
