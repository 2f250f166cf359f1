//! The deck at the moment of the cursor: what stands, coloured by its margin, and where what has gone lies and rolls.

use egui::Ui;
use egui_plot::{Line, LineStyle, Plot, PlotPoint, PlotPoints, Points, Polygon, Text};

use super::plots::color_of;
use super::{Looked, TimeView};
use crate::app::still_plot::held_still;
use crate::app::theme::Palette;
use crate::app::words::replay as words;
use crate::audit::replay::{ReplayEvent, ReplayReport};
use crate::audit::{SeenThing, seen_things};
use crate::engine::Scene;
use crate::engine::numbers::ThingSort;
use crate::layout::Point;

/// What stands on all decks, to be looked at.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Stand {
    outlines: Vec<(String, Vec<Point>)>,
    things: Vec<SeenThing>,
    spot: Option<Point>,
}

impl Stand {
    /// Of one part of the day; `spot` is a marked one.
    pub(crate) fn of(scene: &Scene, spot: Option<Point>) -> Self {
        let outline = |deck: &crate::engine::DeckScene| {
            let floor = deck.floor.as_ref()?;
            let corners = floor.outline().vertices().iter();
            let corners: Vec<Point> = corners.map(|corner| (*corner).into()).collect();
            Some((deck.deck.clone(), corners))
        };
        Self {
            outlines: scene.decks.iter().filter_map(outline).collect(),
            things: scene.decks.iter().flat_map(seen_things).collect(),
            spot,
        }
    }
}

fn closed(outline: &[Point]) -> Vec<Point> {
    let mut closed = outline.to_vec();
    closed.extend(outline.first().copied());
    closed
}

/// The middle and the top of an outline, for its name.
fn above(outline: &[Point]) -> PlotPoint {
    let count = outline.len().max(1) as f64;
    let x = outline.iter().map(|point| point[0]).sum::<f64>() / count;
    let top = outline
        .iter()
        .map(|point| point[1])
        .fold(f64::NEG_INFINITY, f64::max);
    PlotPoint::new(x, top + 0.12)
}

/// Room for a name, in metres of a boat of the usual size.
const NAME_M: [f64; 2] = [0.75, 0.42];

/// A place for a name above those that stand there already.
fn free_of(named: &[[f64; 2]], mut at: PlotPoint) -> PlotPoint {
    let is_on = |at: &PlotPoint| {
        (named.iter())
            .any(|[x, y]| (x - at.x).abs() < NAME_M[0] && (y - at.y).abs() < NAME_M[1] - 1e-9)
    };
    // No more names than cylinders: it ends.
    while is_on(&at) {
        at.y += NAME_M[1];
    }
    at
}

/// Has it gone by then?
fn is_gone(found: &ReplayReport, id: &str, at_s: f64) -> bool {
    let cylinder = found.cylinders.iter().find(|it| it.cylinder == id);
    (cylinder.and_then(|it| it.went_s)).is_some_and(|went_s| went_s <= at_s)
}

/// Draws it; bow to the right, port at the top, as the deck plan.
pub(crate) fn plan_ui(
    ui: &mut Ui,
    view: &TimeView,
    looked: &Looked<'_>,
    stand: &Stand,
    palette: &Palette,
) {
    let (found, tracks) = (looked.found, looked.tracks(view));
    let bucket = view.bucket(tracks);
    let number = |id: &str| found.cylinders.iter().position(|it| it.cylinder == id);
    let gone = |id: &str| is_gone(found, id, view.cursor_s);
    let margin_now = |id: &str| {
        let range = *tracks.margins.get(number(id)?)?.get(bucket?)?;
        range.map(|[least, _]| least)
    };
    let shown = held_still(Plot::new("plan over time"))
        .height(190.0)
        .data_aspect(1.0)
        .show_axes(false)
        .show_grid(false)
        .show_x(false)
        .show_y(false)
        .show(ui, |plot| {
            for (deck, outline) in &stand.outlines {
                plot.line(
                    Line::new(deck.clone(), PlotPoints::from(closed(outline)))
                        .color(palette.deck_edge)
                        .width(1.5 * palette.line_scale),
                );
            }
            let others = |thing: &&SeenThing| thing.sort != ThingSort::Cylinder;
            for thing in stand.things.iter().filter(others) {
                plot.line(
                    Line::new(thing.id.clone(), PlotPoints::from(closed(&thing.outline)))
                        .color(palette.text_faint)
                        .width(palette.line_scale),
                );
            }
            let past = |event: &&ReplayEvent| event.time_s <= view.cursor_s;
            for event in found.events.iter().filter(past) {
                fallen(plot, event, palette);
            }
            let mut named: Vec<[f64; 2]> = Vec::new();
            let cylinders = |thing: &&SeenThing| thing.sort == ThingSort::Cylinder;
            for thing in stand.things.iter().filter(cylinders) {
                let id = &thing.id;
                let picked = view.picked.as_ref() == Some(id);
                if gone(id) {
                    // Only where it stood.
                    plot.line(
                        Line::new(id.clone(), PlotPoints::from(closed(&thing.outline)))
                            .color(palette.danger)
                            .style(LineStyle::dotted_dense())
                            .width(1.5 * palette.line_scale),
                    );
                } else {
                    let color = color_of(margin_now(id), picked, palette);
                    plot.polygon(
                        Polygon::new(id.clone(), PlotPoints::from(thing.outline.clone()))
                            .fill_color(color)
                            .stroke((palette.line_scale, palette.text)),
                    );
                }
                if picked || gone(id) {
                    let name = egui::RichText::new(id).color(palette.text).strong();
                    let at = free_of(&named, above(&thing.outline));
                    named.push([at.x, at.y]);
                    plot.text(Text::new(id.clone(), at, name));
                }
            }
            if let Some(spot) = stand.spot {
                plot.points(
                    Points::new(words::SPOT, PlotPoints::from(vec![spot]))
                        .shape(egui_plot::MarkerShape::Cross)
                        .radius(6.0 * palette.line_scale)
                        .color(palette.text),
                );
            }
        });
    let told = words::plan_told(found, view.cursor_s);
    let response = shown.response;
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &told));
}

/// The floor that it sweeps, and where it rolls from there.
fn fallen(plot: &mut egui_plot::PlotUi<'_>, event: &ReplayEvent, palette: &Palette) {
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
    if let Some(rolls) = &event.rolls {
        plot.line(
            Line::new(
                words::rolls(&event.cylinder),
                PlotPoints::from(vec![rolls.from, rolls.to]),
            )
            .color(palette.danger)
            .style(LineStyle::dashed_loose())
            .width(1.5 * palette.line_scale),
        );
        plot.points(
            Points::new(event.cylinder.clone(), PlotPoints::from(vec![rolls.to]))
                .shape(egui_plot::MarkerShape::Square)
                .radius(3.0 * palette.line_scale)
                .color(palette.danger),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::audit::replay::CylinderReplay;

    #[test]
    fn one_is_gone_from_its_moment_on() {
        let cylinder = |id: &str, went_s| CylinderReplay {
            cylinder: id.to_owned(),
            least_margin: None,
            least_margin_s: None,
            passed: 0,
            went_s,
            rocking: None,
        };
        let found = ReplayReport {
            cylinders: vec![cylinder("A", Some(5.0)), cylinder("B", None)],
            ..ReplayReport::default()
        };
        assert!(!is_gone(&found, "A", 4.9) && is_gone(&found, "A", 5.0));
        assert!(!is_gone(&found, "B", 99.0) && !is_gone(&found, "C", 99.0));
    }

    #[test]
    fn names_stand_above_each_other() {
        let first = free_of(&[], PlotPoint::new(2.0, 1.0));
        let second = free_of(&[[first.x, first.y]], PlotPoint::new(2.3, 1.0));
        assert!((first.y - 1.0).abs() < 1e-12 && (second.y - 1.42).abs() < 1e-12);
        let beside = free_of(&[[first.x, first.y]], PlotPoint::new(3.0, 1.0));
        assert!((beside.y - 1.0).abs() < 1e-12);
    }
}
