//! Paints a drawing; decides nothing but colours and line widths.

use egui::epaint::PathStroke;
use egui::{Color32, Mesh, Painter, Pos2, Shape as Painted, Stroke, pos2, vec2 as screen};
use geo::TriangulateEarcut as _;

use super::super::theme::{MARK, PLAN_TEXT, Palette};
use super::super::underlay::Lying;
use super::drawing::{Drawing, Form, Ink, Item, Sign, Stress};
use super::view::View;
use crate::geometry::{Outline, Region, Shape, Vec2};

/// Arcs are cut into chords of so many radians.
const ARC_STEP_RAD: f64 = 0.2;

/// Paints all items, from back to front.
pub(super) fn items(painter: &Painter, view: &View, palette: &Palette, drawing: &Drawing) {
    for item in &drawing.items {
        one(painter, view, palette, item);
    }
}

/// Paints a photo where it lies, so that the plan stays readable over it.
pub(super) fn photo(painter: &Painter, view: &View, lying: &Lying) {
    let corners = [lying.bounds.min, lying.bounds.max].map(|p| view.screen_from_world(p));
    let rect = egui::Rect::from_two_pos(corners[0], corners[1]);
    let whole = egui::Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
    let tint = Color32::from_white_alpha(170);
    painter.image(lying.texture.id(), rect, whole, tint);
}

fn one(painter: &Painter, view: &View, palette: &Palette, item: &Item) {
    let (fill, stroke) = colors(palette, item);
    match &item.form {
        Form::Area(shape) => area(painter, view, shape, fill, stroke),
        Form::Floor(region) => floor(painter, view, region, fill, stroke),
        Form::Line { points, broken } => {
            let points: Vec<Pos2> = points.iter().map(|p| view.screen_from_world(*p)).collect();
            if *broken {
                let dash = 4.0 * palette.line_scale;
                painter.extend(Painted::dashed_line(&points, stroke, dash, dash));
            } else {
                painter.add(Painted::line(points, PathStroke::from(stroke)));
            }
        }
        Form::Strip { points, width_m } => {
            if let Ok(outline) = Outline::new(strip(points, *width_m)) {
                triangles(painter, view, &outline, &[], fill);
            }
            let middle: Vec<Pos2> = points.iter().map(|p| view.screen_from_world(*p)).collect();
            painter.extend(Painted::dashed_line(&middle, stroke, 6.0, 5.0));
        }
        Form::Sign { at, sign } => {
            let at = view.screen_from_world(*at);
            paint_sign(painter, palette, at, *sign, item);
        }
        Form::Width { from, to } => {
            let ends = [*from, *to].map(|p| view.screen_from_world(p));
            width(
                painter,
                ends,
                Stroke::new(2.0 * palette.line_scale, palette.warning),
            );
        }
    }
}

/// Fill and line of an item.
fn colors(palette: &Palette, item: &Item) -> (Color32, Stroke) {
    let fill = match item.ink {
        Ink::Deck => palette.deck,
        Ink::Fixture => palette.fixture,
        Ink::Overhead | Ink::Slot => Color32::TRANSPARENT,
        Ink::Rack => palette.rack,
        Ink::Cylinder => palette.cylinder,
        Ink::Leaning => palette.danger.gamma_multiply(0.75),
        Ink::Held(tone) => palette.tone(tone).gamma_multiply(0.55),
        Ink::Heat(tone) => palette.tone(tone).gamma_multiply(0.13),
        Ink::Kit => palette.kit,
        Ink::Person => palette.person,
        Ink::Gear => palette.gear,
        Ink::Lashing => palette.lashing,
        Ink::Walkway => palette.walkway,
        Ink::Sweep => palette.danger.gamma_multiply(0.16),
        Ink::Guide => palette.selected.gamma_multiply(0.10),
    };
    let (width, color) = match item.ink {
        Ink::Deck => (2.0, palette.deck_edge),
        Ink::Lashing => (2.4, palette.lashing),
        Ink::Walkway => (1.0, palette.place),
        Ink::Slot => (0.8, palette.text_faint),
        Ink::Sweep => (1.0, palette.danger),
        Ink::Guide => (1.2, palette.selected),
        Ink::Leaning => (2.0, palette.danger),
        Ink::Rack => (1.6, palette.line),
        Ink::Heat(_) => (0.0, Color32::TRANSPARENT),
        _ => (1.1, palette.line),
    };
    let width = width * palette.line_scale;
    match item.stress {
        Stress::Plain => (fill, Stroke::new(width, color)),
        Stress::Hovered => (fill, Stroke::new(width + 1.2, palette.selected)),
        Stress::Selected => (fill, Stroke::new(width + 2.0, palette.selected)),
        Stress::Thought => (
            palette.faint(fill),
            Stroke::new(width + 0.6, palette.selected),
        ),
        Stress::Faint => (
            palette.faint(fill).gamma_multiply(0.4),
            Stroke::new(0.7, palette.faint(color)),
        ),
    }
}

fn area(painter: &Painter, view: &View, shape: &Shape, fill: Color32, stroke: Stroke) {
    match shape {
        Shape::Disc { center, radius } => {
            let center = view.screen_from_world(*center);
            painter.circle(center, view.points(*radius), fill, stroke);
        }
        Shape::Stadium { from, to, radius } if *radius <= 0.0 => {
            let ends = [*from, *to].map(|p| view.screen_from_world(p));
            painter.line_segment(ends, stroke);
        }
        Shape::Stadium { .. } => {
            let points = shape.to_polygon(ARC_STEP_RAD).unwrap_or_default();
            let points = points.iter().map(|p| view.screen_from_world(*p)).collect();
            painter.add(Painted::convex_polygon(points, fill, stroke));
        }
        Shape::Polygon(outline) => {
            let points: Vec<Pos2> = on_screen(view, outline);
            if outline.is_convex() {
                painter.add(Painted::convex_polygon(points, fill, stroke));
            } else {
                triangles(painter, view, outline, &[], fill);
                painter.add(Painted::closed_line(points, PathStroke::from(stroke)));
            }
        }
    }
}

fn floor(painter: &Painter, view: &View, region: &Region, fill: Color32, stroke: Stroke) {
    triangles(painter, view, region.outline(), region.holes(), fill);
    for ring in std::iter::once(region.outline()).chain(region.holes()) {
        let points = on_screen(view, ring);
        painter.add(Painted::closed_line(points, PathStroke::from(stroke)));
    }
}

fn on_screen(view: &View, outline: &Outline) -> Vec<Pos2> {
    let vertices = outline.vertices().iter();
    vertices.map(|p| view.screen_from_world(*p)).collect()
}

/// Fills what is not convex, or has holes.
fn triangles(painter: &Painter, view: &View, outline: &Outline, holes: &[Outline], fill: Color32) {
    if fill == Color32::TRANSPARENT {
        return;
    }
    let ring = |outline: &Outline| {
        let points = outline.vertices().iter().map(|p| (p.x, p.y));
        points.collect::<geo::LineString>()
    };
    let polygon = geo::Polygon::new(ring(outline), holes.iter().map(ring).collect());
    let mut mesh = Mesh::default();
    for triangle in polygon.earcut_triangles() {
        let first = u32::try_from(mesh.vertices.len()).unwrap_or(u32::MAX);
        for corner in triangle.to_array() {
            let at = view.screen_from_world(Vec2 {
                x: corner.x,
                y: corner.y,
            });
            mesh.colored_vertex(at, fill);
        }
        mesh.add_triangle(first, first + 1, first + 2);
    }
    painter.add(Painted::mesh(mesh));
}

/// The outline of a strip along a line: down its right side and back up its left, with pointed bends.
fn strip(points: &[Vec2], width_m: f64) -> Vec<Vec2> {
    let half = 0.5 * width_m;
    let along: Vec<Vec2> = points
        .windows(2)
        .map(|pair| (pair[1] - pair[0]).normalized().unwrap_or(Vec2::ZERO))
        .collect();
    let (Some(first), Some(last)) = (along.first(), along.last()) else {
        return Vec::new();
    };
    let shift = |index: usize| {
        let before = if index == 0 { first } else { &along[index - 1] };
        let after = along.get(index).unwrap_or(last);
        let across = (*before + *after).normalized().unwrap_or(*after).perp();
        // The bend reaches farther out than the sides, but not without end.
        let stretch = 1.0 / across.dot(after.perp()).max(0.5);
        half * stretch * across
    };
    let right = (0..points.len()).map(|i| points[i] - shift(i));
    let left = (0..points.len()).rev().map(|i| points[i] + shift(i));
    right.chain(left).collect()
}

fn paint_sign(painter: &Painter, palette: &Palette, at: Pos2, sign: Sign, item: &Item) {
    let stands_out = matches!(item.stress, Stress::Selected | Stress::Hovered);
    let edge = if stands_out {
        Stroke::new(2.5 * palette.line_scale, palette.selected)
    } else {
        Stroke::new(1.2 * palette.line_scale, palette.panel)
    };
    match sign {
        Sign::Point => {
            painter.circle(at, 0.72 * MARK, palette.point, edge);
            painter.circle_filled(at, 0.28 * MARK, palette.panel);
        }
        Sign::Place => {
            let points = vec![
                at + screen(0.0, -MARK),
                at + screen(0.8 * MARK, 0.0),
                at + screen(0.0, MARK),
                at + screen(-0.8 * MARK, 0.0),
            ];
            painter.add(Painted::convex_polygon(points, palette.place, edge));
        }
        Sign::Corner => {
            let rect = egui::Rect::from_center_size(at, screen(1.3 * MARK, 1.3 * MARK));
            let edge = Stroke::new(2.0 * palette.line_scale, palette.selected);
            painter.rect(rect, 1.0, palette.panel, edge, egui::StrokeKind::Middle);
        }
        Sign::Locked => padlock(painter, palette, at),
        Sign::Facing(rad) => {
            let angle = View::screen_angle(rad);
            let tip = at + 1.6 * MARK * egui::Vec2::angled(angle);
            let stroke = Stroke::new(2.0 * palette.line_scale, palette.line);
            painter.line_segment([at, tip], stroke);
            painter.circle_filled(at, 0.45 * MARK, palette.line);
        }
    }
}

/// A small padlock.
fn padlock(painter: &Painter, palette: &Palette, at: Pos2) {
    let line = Stroke::new(1.6 * palette.line_scale, palette.text);
    let half = 0.62 * MARK;
    painter.circle_stroke(at - screen(0.0, 0.5 * half), 0.6 * half, line);
    let body = egui::Rect::from_min_max(at + screen(-half, -0.4 * half), at + screen(half, half));
    painter.rect(
        body,
        1.5,
        palette.text,
        Stroke::new(1.0, palette.panel),
        egui::StrokeKind::Outside,
    );
}

/// A line with a head at each end.
fn width(painter: &Painter, [a, b]: [Pos2; 2], stroke: Stroke) {
    painter.line_segment([a, b], stroke);
    let along = (b - a).normalized();
    let across = along.rot90();
    for (end, inwards) in [(a, along), (b, -along)] {
        for side in [across, -across] {
            painter.line_segment([end, end + 5.0 * inwards + 3.5 * side], stroke);
        }
    }
}

/// The tape: a line with its length.
pub(super) fn tape(
    painter: &Painter,
    palette: &Palette,
    ends: [Pos2; 2],
    text: &str,
    color: Color32,
) {
    width(painter, ends, Stroke::new(2.0 * palette.line_scale, color));
    let middle = ends[0] + 0.5 * (ends[1] - ends[0]);
    tag(
        painter,
        palette,
        middle + screen(0.0, -14.0),
        text,
        palette.text,
        PLAN_TEXT + 1.0,
    );
}

/// A line of text on a ground of its own, centred.
pub(super) fn tag(
    painter: &Painter,
    palette: &Palette,
    center: Pos2,
    text: &str,
    color: Color32,
    size: f32,
) {
    let galley = painter.layout_no_wrap(text.to_owned(), egui::FontId::proportional(size), color);
    let rect = egui::Rect::from_center_size(center, galley.size()).expand2(screen(5.0, 2.0));
    painter.rect(
        rect,
        3.0,
        palette.label_ground(),
        Stroke::new(palette.line_scale, color),
        egui::StrokeKind::Middle,
    );
    painter.galley(rect.min + screen(5.0, 2.0), galley, color);
}

/// What would happen, beside the pointer: within the plan, and clear of the pointer.
pub(super) fn outcome(
    painter: &Painter,
    palette: &Palette,
    pointer: Pos2,
    lines: &[(String, Color32)],
    size: f32,
) {
    let font = egui::FontId::proportional(size);
    let galleys: Vec<_> = lines
        .iter()
        .map(|(text, color)| painter.layout(text.clone(), font.clone(), *color, 320.0))
        .collect();
    let width = galleys
        .iter()
        .map(|galley| galley.size().x)
        .fold(0.0, f32::max);
    let height: f32 = galleys.iter().map(|galley| galley.size().y).sum();
    let size = screen(width + 14.0, height + 8.0);
    let clip = painter.clip_rect();
    let mut corner = pointer + screen(18.0, 16.0);
    if corner.x + size.x > clip.max.x {
        corner.x = pointer.x - 18.0 - size.x;
    }
    if corner.y + size.y > clip.max.y {
        corner.y = pointer.y - 16.0 - size.y;
    }
    let edge = lines.first().map_or(palette.text, |(_, color)| *color);
    painter.rect(
        egui::Rect::from_min_size(corner, size),
        4.0,
        palette.label_ground(),
        Stroke::new(1.6 * palette.line_scale, edge),
        egui::StrokeKind::Middle,
    );
    let mut at = pos2(corner.x + 7.0, corner.y + 4.0);
    for galley in galleys {
        let step = galley.size().y;
        painter.galley(at, galley, palette.text);
        at.y += step;
    }
}
