use egui::{Pos2, Rect};

use crate::geometry::{Bounds, Vec2, vec2};

/// The fewest and the most screen points per metre.
const SCALE_RANGE: std::ops::RangeInclusive<f64> = 4.0..=4000.0;

/// Where the plan is on the screen. The only place that knows that the screen's y points down and
/// that egui counts in `f32`.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(crate) struct View {
    /// The part of the screen that shows the plan.
    rect: Rect,

    /// The point of the plan in the middle of it.
    center: Vec2,

    /// Screen points per metre.
    points_per_metre: f64,
}

impl View {
    /// Shows all of the bounds, with a margin in screen points.
    pub(crate) fn fitting(rect: Rect, bounds: &Bounds, margin: f32) -> Self {
        let size = bounds.size();
        let room = |points: f32| f64::from((points - 2.0 * margin).max(20.0));
        let scale =
            (room(rect.width()) / size.x.max(0.5)).min(room(rect.height()) / size.y.max(0.5));
        let usable = bounds.center().is_finite() && scale.is_finite();
        Self {
            rect,
            center: if usable { bounds.center() } else { Vec2::ZERO },
            points_per_metre: if usable {
                scale.clamp(*SCALE_RANGE.start(), *SCALE_RANGE.end())
            } else {
                50.0
            },
        }
    }

    /// The same view in a window of another size.
    pub(crate) fn set_rect(&mut self, rect: Rect) {
        self.rect = rect;
    }

    /// The part of the screen that shows the plan.
    pub(crate) fn rect(&self) -> Rect {
        self.rect
    }

    /// Screen points per metre.
    pub(crate) fn points_per_metre(&self) -> f64 {
        self.points_per_metre
    }

    /// A point of the plan on the screen.
    pub(crate) fn screen_from_world(&self, world: Vec2) -> Pos2 {
        let from_center = self.points_per_metre * (world - self.center);
        self.rect.center() + egui::vec2(narrow(from_center.x), -narrow(from_center.y))
    }

    /// A point of the screen on the plan.
    pub(crate) fn world_from_screen(&self, screen: Pos2) -> Vec2 {
        let from_center = screen - self.rect.center();
        self.center
            + vec2(f64::from(from_center.x), -f64::from(from_center.y)) / self.points_per_metre
    }

    /// A length on the screen, in points.
    pub(crate) fn points(&self, length_m: f64) -> f32 {
        narrow(length_m * self.points_per_metre)
    }

    /// A length on the plan, in metres.
    pub(crate) fn metres(&self, points: f32) -> f64 {
        f64::from(points) / self.points_per_metre
    }

    /// A direction on the plan, as an angle on the screen (clockwise, as its y points down).
    pub(crate) fn screen_angle(rad: f64) -> f32 {
        -narrow(rad)
    }

    /// The part of the plan that is in sight.
    pub(crate) fn visible(&self) -> Bounds {
        Bounds::of([
            self.world_from_screen(self.rect.min),
            self.world_from_screen(self.rect.max),
        ])
    }

    /// Shifts the plan with the pointer.
    pub(crate) fn pan(&mut self, by: egui::Vec2) {
        let shift = vec2(-f64::from(by.x), f64::from(by.y)) / self.points_per_metre;
        self.center += shift;
    }

    /// Enlarges, so that what is under the pointer stays there.
    pub(crate) fn zoom_at(&mut self, pointer: Pos2, factor: f64) {
        let fixed = self.world_from_screen(pointer);
        let scale = self.points_per_metre * factor;
        if !scale.is_finite() {
            return;
        }
        self.points_per_metre = scale.clamp(*SCALE_RANGE.start(), *SCALE_RANGE.end());
        let moved = self.world_from_screen(pointer);
        self.center += fixed - moved;
    }

    /// Brings a part of the plan into the middle, enlarged to at least a readable scale.
    pub(crate) fn frame(&mut self, bounds: &Bounds, margin: f32) {
        let fitted = Self::fitting(self.rect, bounds, margin);
        self.center = fitted.center;
        // Not nearer than needed to read labels, not farther than the plan is shown now.
        let near = fitted.points_per_metre.min(180.0);
        self.points_per_metre = self.points_per_metre.max(90.0).min(near.max(90.0));
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a screen is small enough for f32"
)]
fn narrow(value: f64) -> f32 {
    value as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    fn view() -> View {
        let rect = Rect::from_min_size(egui::pos2(200.0, 40.0), egui::vec2(800.0, 500.0));
        let deck = Bounds::of([vec2(0.0, -2.0), vec2(10.0, 2.0)]);
        View::fitting(rect, &deck, 0.0)
    }

    #[test]
    fn the_bow_is_right_and_port_is_up() {
        let view = view();
        let middle = view.screen_from_world(vec2(5.0, 0.0));
        assert_eq!(middle, view.rect().center());
        assert!(view.screen_from_world(vec2(6.0, 0.0)).x > middle.x, "bow");
        assert!(view.screen_from_world(vec2(5.0, 1.0)).y < middle.y, "port");
        assert!((view.points(10.0) - 800.0).abs() < 0.01, "fits the length");
    }

    #[test]
    fn what_is_under_the_pointer_stays_there() {
        let mut view = view();
        let pointer = egui::pos2(333.0, 444.0);
        let before = view.world_from_screen(pointer);
        view.zoom_at(pointer, 3.0);
        assert!(
            view.world_from_screen(pointer).distance(before) < 1e-9,
            "zoom"
        );
        view.pan(egui::vec2(10.0, 20.0));
        let after = view.world_from_screen(pointer + egui::vec2(10.0, 20.0));
        assert!(after.distance(before) < 1e-9, "pan");
    }

    #[test]
    fn nothing_to_show_is_shown_somehow() {
        let rect = Rect::from_min_size(Pos2::ZERO, egui::vec2(100.0, 100.0));
        let view = View::fitting(rect, &Bounds::EMPTY, 10.0);
        assert!(view.world_from_screen(rect.min).is_finite(), "{view:?}");
    }
}
