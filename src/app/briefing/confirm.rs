//! How a step of the walk is ticked, so that a drop of water, a sleeve or a wet finger that slips does not.

use egui::{Align2, FontId, Id, Rect, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, vec2};

use super::super::settings::TickBy;
use super::words;

/// How long a finger must stay to tick, in seconds: a drop of water or a brush of a sleeve does not.
const HOLD_S: f64 = 0.8;

/// Height of what is pressed, in points: a gloved hand.
pub(super) const CONFIRM_HIGH: f32 = 110.0;

/// Each of the two fields takes this share of the width: what lies between is too far for one slip.
const ZONE_SHARE: f32 = 0.36;

/// The second field must be pressed within so many seconds of the first.
const ZONES_S: f64 = 8.0;

/// Offers to tick a step, in the way that was chosen; told once, when it is confirmed.
pub(super) fn confirmed_ui(ui: &mut Ui, by: TickBy, cylinder: &str, enabled: bool) -> bool {
    match by {
        TickBy::Hold => held_ui(ui, cylinder, enabled),
        TickBy::TwoZones => two_zones_ui(ui, cylinder, enabled),
    }
}

/// A broad field that ticks when it was held long enough; told once per press.
fn held_ui(ui: &mut Ui, cylinder: &str, enabled: bool) -> bool {
    let (rect, response) = ui.allocate_exact_size(
        vec2(ui.available_width(), CONFIRM_HIGH),
        Sense::click_and_drag(),
    );
    let id = Id::unique("held since");
    let spent = Id::unique("held enough");
    let (now, down) = ui.input(|input| (input.time, input.pointer.any_down()));
    let is_held = enabled && response.is_pointer_button_down_on();
    if !down {
        ui.data_mut(|data| data.remove::<bool>(spent));
    }
    if is_held {
        // What the keys of the device do is no longer meant for the name.
        ui.memory_mut(egui::Memory::stop_text_input);
    }
    if !is_held {
        ui.data_mut(|data| data.remove::<f64>(id));
    }
    let done = ui.data(|data| data.get_temp::<bool>(spent).unwrap_or(false));
    let since = if is_held && !done {
        ui.data_mut(|data| *data.get_temp_mut_or(id, now))
    } else {
        now
    };
    let share = ((now - since) / HOLD_S).clamp(0.0, 1.0);
    let visuals = ui.visuals();
    let (ground, ink) = (visuals.extreme_bg_color, visuals.strong_text_color());
    let painter = ui.painter();
    painter.rect_filled(rect, 8.0, ground);
    let mut filled = rect;
    #[expect(clippy::cast_possible_truncation, reason = "a share from 0 to 1")]
    let wide = rect.width() * share as f32;
    filled.set_width(wide);
    painter.rect_filled(filled, 8.0, visuals.selection.bg_fill);
    painter.rect_stroke(rect, 8.0, Stroke::new(3.0, ink), StrokeKind::Inside);
    painter.text(
        rect.center(),
        Align2::CENTER_CENTER,
        if enabled {
            words::HOLD
        } else {
            words::NAME_FIRST
        },
        FontId::proportional(30.0),
        ink,
    );
    response.accessible_name(words::hold(cylinder));
    if is_held && !done {
        ui.request_repaint();
    }
    let ticked = is_held && !done && share >= 1.0;
    if ticked {
        ui.data_mut(|data| {
            data.insert_temp(spent, true);
            data.remove::<f64>(id);
        });
    }
    ticked
}

/// A field at the left, then one at the right: the first says that it is secured, the second that it was pushed.
/// Neither alone ticks, nor the same one twice, nor a finger drawn from one to the other.
fn two_zones_ui(ui: &mut Ui, cylinder: &str, enabled: bool) -> bool {
    let size = vec2(ui.available_width(), CONFIRM_HIGH);
    let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
    let wide = ZONE_SHARE * rect.width();
    let zone =
        |left: f32| Rect::from_min_size(egui::pos2(left, rect.top()), vec2(wide, rect.height()));
    let (first, second) = (zone(rect.left()), zone(rect.right() - wide));
    // Only for the cylinder whose first field it was.
    let id = Id::unique(("first of two", cylinder));
    let now = ui.input(|input| input.time);
    let since = ui.data(|data| data.get_temp::<f64>(id));
    let is_armed = enabled && since.is_some_and(|since| now - since <= ZONES_S);
    let sense = if enabled {
        Sense::click()
    } else {
        Sense::hover()
    };
    let press = |ui: &mut Ui, zone: Rect, name: String| {
        let response = ui.interact(zone, Id::unique(&name), sense);
        if response.clicked() {
            // What the keys of the device do is no longer meant for the name.
            ui.memory_mut(egui::Memory::stop_text_input);
        }
        response.widget_info(|| WidgetInfo::labeled(Role::Button, enabled, &name));
        response.clicked()
    };
    let first_pressed = press(ui, first, words::zone_secured(cylinder));
    let second_pressed = press(ui, second, words::zone_pushed(cylinder));
    let ticked = is_armed && second_pressed && !first_pressed;
    if first_pressed {
        ui.data_mut(|data| data.insert_temp(id, now));
    }
    if ticked {
        ui.data_mut(|data| data.remove::<f64>(id));
    }
    let is_first = enabled && !is_armed;
    let of_first = match (is_first, is_armed) {
        (true, _) => Turn::Next,
        (_, true) => Turn::Done,
        _ => Turn::Later,
    };
    paint(ui, first, words::ZONE_SECURED, of_first);
    let of_second = if is_armed { Turn::Next } else { Turn::Later };
    paint(ui, second, words::ZONE_PUSHED, of_second);
    let between = if enabled {
        words::ZONES
    } else {
        words::NAME_FIRST_SHORT
    };
    let ink = ui.visuals().strong_text_color();
    let room = rect.width() - 2.0 * wide - 16.0;
    let galley = ui
        .painter()
        .layout(between.to_owned(), FontId::proportional(20.0), ink, room);
    let at = rect.center() - 0.5 * galley.size();
    ui.painter().galley(at, galley, ink);
    if is_armed {
        // It goes out by itself.
        ui.request_repaint_after(std::time::Duration::from_millis(250));
    }
    ticked
}

/// Whose turn it is of the two fields.
#[derive(Copy, Clone, PartialEq, Eq)]
enum Turn {
    /// It is to be pressed now.
    Next,
    /// It was pressed.
    Done,
    /// Not yet.
    Later,
}

/// A field of the two: the one to be pressed has a broad edge, what was pressed is filled.
fn paint(ui: &Ui, rect: Rect, text: &str, turn: Turn) {
    let visuals = ui.visuals();
    let ink = visuals.strong_text_color();
    let ground = if turn == Turn::Done {
        visuals.selection.bg_fill
    } else {
        visuals.extreme_bg_color
    };
    let width = if turn == Turn::Next { 4.0 } else { 1.5 };
    let painter = ui.painter();
    painter.rect_filled(rect, 8.0, ground);
    painter.rect_stroke(rect, 8.0, Stroke::new(width, ink), StrokeKind::Inside);
    painter.text(
        rect.center(),
        Align2::CENTER_CENTER,
        text,
        FontId::proportional(28.0),
        ink,
    );
}
