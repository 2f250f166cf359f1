//! The selected cylinder from the side, to scale: what it stands on, its centre of gravity, the force it
//! feels in the governing case, the edge it tips over, and at which heights something holds it.

use egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Sense, Stroke, Ui, pos2, vec2};

use super::super::super::theme::{PLAN_TEXT, Palette};
use super::super::super::words::elevation as words;
use super::super::super::{Editor, outcome};
use crate::engine::numbers::CylinderNumbers;
use crate::layout::Cylinder;
use crate::units::Quantity;

/// Height of the drawing in points.
const HEIGHT: f32 = 190.0;

/// All that is drawn, in metres from the middle of the foot: to the right is the side to which it goes.
struct Side<'a> {
    painter: &'a Painter,
    palette: &'a Palette,
    origin: Pos2,
    scale: f64,

    /// How far the boat is rolled, in radians, to the right positive.
    roll: f64,
}

impl Side<'_> {
    fn at(&self, x: f64, z: f64) -> Pos2 {
        let (sin, cos) = self.roll.sin_cos();
        let (x, z) = (x * cos + z * sin, z * cos - x * sin);
        self.origin + vec2(narrow(x * self.scale), -narrow(z * self.scale))
    }

    fn line(&self, from: [f64; 2], to: [f64; 2], width: f32, color: Color32) {
        let stroke = Stroke::new(width * self.palette.line_scale, color);
        let ends = [self.at(from[0], from[1]), self.at(to[0], to[1])];
        self.painter.line_segment(ends, stroke);
    }

    fn note(&self, at: Pos2, align: Align2, text: &str, color: Color32) {
        let font = FontId::proportional(PLAN_TEXT);
        self.painter.text(at, align, text, font, color);
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a card is small enough for f32"
)]
fn narrow(value: f64) -> f32 {
    value as f32
}

/// The drawing, for a cylinder that stands upright.
pub(super) fn elevation_ui(
    ui: &mut Ui,
    editor: &Editor,
    cylinder: &Cylinder,
    numbers: &CylinderNumbers,
) {
    if !numbers.stance.is_upright() {
        return;
    }
    let width = ui.available_width();
    let (rect, response) = ui.allocate_exact_size(vec2(width, HEIGHT), Sense::hover());
    let label = words::from_the_side(&cylinder.id);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &label));
    let painter = ui.painter_at(rect);
    let palette = editor.settings.theme.palette();
    painter.rect_filled(rect, 3.0, palette.field);
    let room = f64::from(rect.height()) - 44.0;
    let tallest = numbers.height_m.max(numbers.cg_height_m + 0.1).max(0.2);
    let side = Side {
        painter: &painter,
        palette,
        origin: pos2(rect.center().x - 30.0, rect.bottom() - 22.0),
        scale: room / tallest,
        roll: roll_now(ui, editor),
    };
    body(&side, numbers);
    if !editor.rolling {
        holds(&side, editor, numbers, rect);
        force(&side, numbers);
    }
    told(&side, editor, numbers, rect);
}

/// How far the boat is rolled at this moment, in radians: at the part's own period and to its own angle
/// about its steady heel, or not at all.
fn roll_now(ui: &Ui, editor: &Editor) -> f64 {
    let part = editor.live.assessor().assessment().parts.get(editor.part);
    let Some(motion) = part.map(|part| &part.motion).filter(|_| editor.rolling) else {
        return 0.0;
    };
    ui.request_repaint();
    let time = ui.input(|input| input.time);
    let swing = (std::f64::consts::TAU * time / motion.roll_period_s.max(0.1)).sin();
    (motion.heel_deg + motion.roll_amplitude_deg * swing).to_radians()
}

/// The cylinder, what it stands on, its centre of gravity and the edge it tips over.
fn body(side: &Side<'_>, numbers: &CylinderNumbers) {
    let Palette {
        cylinder,
        line,
        text,
        danger,
        ..
    } = *side.palette;
    let (radius, height) = (numbers.body_radius_m, numbers.height_m);
    side.line([-0.5, 0.0], [0.5, 0.0], 1.5, line);
    let shoulder = (height - 1.1 * radius).max(0.5 * height);
    let stroke = Stroke::new(1.2 * side.palette.line_scale, line);
    for [half, low, high] in [[radius, 0.0, shoulder], [0.25 * radius, shoulder, height]] {
        let corners = [[-half, low], [half, low], [half, high], [-half, high]];
        let corners = corners.map(|[x, z]| side.at(x, z)).to_vec();
        let shape = egui::Shape::convex_polygon(corners, cylinder, stroke);
        side.painter.add(shape);
    }
    let edge = numbers.base_radius_m;
    side.painter.circle_filled(side.at(edge, 0.0), 4.0, danger);
    let centre = side.at(0.0, numbers.cg_height_m);
    side.painter.circle_filled(centre, 4.5, text);
    // From the edge through the centre: leaning farther than this line from upright, it tips.
    side.line([edge, 0.0], [0.0, numbers.cg_height_m], 1.0, text);
}

/// Height of a line of notes, in points.
const NOTE_LINE: f32 = 16.0;

/// What holds it, at its height.
fn holds(side: &Side<'_>, editor: &Editor, numbers: &CylinderNumbers, rect: Rect) {
    let left = rect.left() + 6.0;
    // Notes that would stand on each other are stacked upwards.
    let mut noted: Vec<f32> = Vec::new();
    let mut mark = |height: f64, text: &str| {
        let at = side.at(-numbers.body_radius_m, height);
        let stroke = Stroke::new(3.0 * side.palette.line_scale, side.palette.lashing);
        side.painter.line_segment([pos2(left, at.y), at], stroke);
        let mut note_y = at.y - 2.0;
        while noted.iter().any(|other| (other - note_y).abs() < NOTE_LINE) {
            note_y -= NOTE_LINE;
        }
        noted.push(note_y);
        side.note(
            pos2(left, note_y),
            Align2::LEFT_BOTTOM,
            text,
            side.palette.lashing,
        );
    };
    let units = editor.settings.units;
    if let Some(rack) = &numbers.rack {
        let force = crate::units::pull(rack.edge_force_n, units);
        let share = rack.edge_strength_n.filter(|most| *most > 0.0);
        let share = share.map(|most| outcome::percent(rack.edge_force_n / most));
        mark(rack.edge_height_m, &words::edge(&force, share.as_deref()));
    }
    for hold in &numbers.lashings {
        let lashing = editor.trip().and_then(|trip| trip.lashing(&hold.lashing));
        if let Some(lashing) = lashing {
            let force = crate::units::pull(hold.pull_n, units);
            let share = hold.capacity_n.filter(|most| *most > 0.0);
            let share = share.map(|most| outcome::percent(hold.pull_n / most));
            let text = words::lashing(&lashing.id, &force, share.as_deref());
            mark(lashing.height_m, &text);
        }
    }
}

/// The force that it feels in the governing case, from its centre of gravity.
fn force(side: &Side<'_>, numbers: &CylinderNumbers) {
    let governing = numbers
        .utilisations
        .iter()
        .find_map(|item| item.governing.as_ref());
    let Some(governing) = governing else { return };
    // One g is drawn as long as half the height.
    let per_g = 0.5 * numbers.height_m / 9.806_65;
    let from = side.at(0.0, numbers.cg_height_m);
    let to = side.at(
        governing.a_h_m_s2 * per_g,
        numbers.cg_height_m - governing.a_n_m_s2 * per_g,
    );
    let stroke = Stroke::new(2.2 * side.palette.line_scale, side.palette.danger);
    side.painter.arrow(from, to - from, stroke);
    // Where the line of the force meets the floor: beyond the edge, it goes.
    if governing.a_n_m_s2 > 0.0 {
        let meets = numbers.cg_height_m * governing.a_h_m_s2 / governing.a_n_m_s2;
        if meets.abs() < 0.6 {
            side.line(
                [0.0, numbers.cg_height_m],
                [meets, 0.0],
                0.8,
                side.palette.danger,
            );
        }
    }
}

fn told(side: &Side<'_>, editor: &Editor, numbers: &CylinderNumbers, rect: Rect) {
    let units = editor.settings.units;
    let right = pos2(rect.right() - 6.0, rect.top() + 6.0);
    let centre = Quantity::SmallLength.show(numbers.cg_height_m, units);
    let text = words::centre_at(&centre);
    side.note(right, Align2::RIGHT_TOP, &text, side.palette.text);
    let edge = Quantity::SmallLength.show(numbers.base_radius_m, units);
    let below = right + vec2(0.0, 16.0);
    let text = words::edge_at(&edge);
    side.note(below, Align2::RIGHT_TOP, &text, side.palette.danger);
    if let Some(angle) = numbers.static_tip_angle_deg {
        let text = words::tips_at(&outcome::degrees(angle));
        let below = right + vec2(0.0, 32.0);
        side.note(below, Align2::RIGHT_TOP, &text, side.palette.text);
    }
    let foot = pos2(rect.center().x, rect.bottom() - 3.0);
    let case = numbers
        .utilisations
        .iter()
        .find_map(|item| item.governing.as_ref());
    if let Some(case) = case {
        side.note(
            foot,
            Align2::CENTER_BOTTOM,
            &case.case_in_words(),
            side.palette.text_faint,
        );
    }
}
