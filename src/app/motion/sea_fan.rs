//! Where the sea comes from, seen from above as on the plan (bow to the right): a ray for each direction, as long
//! as its share of the sea.

use egui::{Label, Pos2, Rect, Sense, Shape, Stroke, Ui, vec2};

use super::super::Editor;
use super::super::theme::Palette;
use super::super::words::sea as words;
use crate::engine::numbers::SeaNumbers;
use crate::engine::{SeaDirection, sea_directions};
use crate::layout::Sea;

/// Side of the drawing, in points.
const SIDE: f32 = 116.0;

/// Half the boat's length and half her beam, in points.
const BOAT: [f32; 2] = [20.0, 8.0];

/// From the middle to where the rays end, and how long the longest is, in points.
const RAYS: [f32; 2] = [24.0, 32.0];

/// The energy that is told comes from within so many degrees of the main direction.
pub(super) const NEAR_DEG: f64 = 30.0;

pub(super) fn fan_ui(ui: &mut Ui, editor: &Editor, sea: &Sea, numbers: &SeaNumbers) {
    let directions = sea_directions(sea, numbers);
    let near = share_near(&directions, numbers.rolls_most_from_deg);
    let told = words::comes_from(numbers.rolls_most_from_deg, directions.len() > 1, near);
    ui.horizontal_top(|ui| {
        let (rect, response) = ui.allocate_exact_size(vec2(SIDE, SIDE), Sense::hover());
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &told));
        if ui.is_rect_visible(rect) {
            paint(ui, editor.settings.theme.palette(), rect, &directions);
        }
        ui.add(Label::new(&told).wrap());
    });
}

/// The share of the sea from within [`NEAR_DEG`] of its main direction.
fn share_near(directions: &[SeaDirection], from_deg: f64) -> f64 {
    let near = directions.iter().filter(|item| {
        let off = (item.from_deg - from_deg + 180.0).rem_euclid(360.0) - 180.0;
        off.abs() < NEAR_DEG
    });
    near.map(|item| item.share).sum()
}

fn paint(ui: &Ui, palette: &Palette, rect: Rect, directions: &[SeaDirection]) {
    let painter = ui.painter();
    let middle = rect.center();
    let [long, wide] = BOAT;
    let outline: Vec<Pos2> = [
        (-long, -wide),
        (0.3 * long, -wide),
        (long, 0.0),
        (0.3 * long, wide),
        (-long, wide),
    ]
    .map(|(x, y)| middle + vec2(x, y))
    .to_vec();
    let edge = Stroke::new(1.5 * palette.line_scale, palette.deck_edge);
    painter.add(Shape::convex_polygon(outline, palette.deck, edge));
    let most = directions.iter().map(|item| item.share).fold(0.0, f64::max);
    let line = Stroke::new(2.0 * palette.line_scale, palette.place);
    for direction in directions {
        #[expect(clippy::cast_possible_truncation, reason = "a place on the screen")]
        let (from, share) = (
            direction.from_deg.to_radians() as f32,
            (direction.share / most) as f32,
        );
        // Port is up, as on the plan.
        let outwards = vec2(from.cos(), -from.sin());
        let [inner, longest] = RAYS;
        let tip = middle + inner * outwards;
        painter.line_segment([tip + share * longest * outwards, tip], line);
        if share > 0.2 {
            let across = outwards.rot90();
            for side in [-1.0, 1.0] {
                let barb = tip + 5.0 * outwards + 3.0 * side * across;
                painter.line_segment([barb, tip], line);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::Assessor;
    use crate::layout::{Plan, SpreadingKind};

    /// Mean of cos² over half a circle within 30° either side: (π/3 + sin 60°) / π, in steps of 10°.
    #[test]
    fn a_confused_sea_comes_mostly_from_near_its_direction() {
        let mut plan = Plan::new("Test", 11.0, 3.6);
        let share = |plan: &Plan| {
            let mut assessor = Assessor::default();
            assessor.assess(plan, &plan.trips[0]);
            let numbers = assessor.assessment().parts[0].sea.clone().unwrap();
            let sea = plan.trips[0].parts[0].sea.as_ref().unwrap();
            let directions = sea_directions(sea, &numbers);
            let all: f64 = directions.iter().map(|item| item.share).sum();
            assert!((all - 1.0).abs() < 1e-12);
            share_near(&directions, numbers.rolls_most_from_deg)
        };
        plan.trips[0].parts[0].sea = Some(Sea {
            wave_height_m: Some(0.5),
            spreading: SpreadingKind::Cosine2,
            ..Sea::default()
        });
        let closed = (60.0_f64.to_radians() + 60.0_f64.to_radians().sin()) / std::f64::consts::PI;
        let found = share(&plan);
        assert!((found - closed).abs() < 0.01, "{found} for {closed}");
        plan.trips[0].parts[0].sea.as_mut().unwrap().spreading = SpreadingKind::LongCrested;
        assert!((share(&plan) - 1.0).abs() < 1e-12);
    }
}
