//! Names as they are written.

use super::super::centred;
use super::{APART_MM, Area, HALF_HIGH, LINES, Labels, Named, Off};
use crate::sheet::font::POINT_MM;
use crate::sheet::{Align, Page, width_mm};

/// From the middle of a line of letters down to their foot, as a share of their size.
const DROP: f64 = 0.35;

impl Labels {
    /// White beneath a name, over lines and over grey that a printer without greys makes of dots.
    pub(in super::super) fn whiten(page: &mut Page, area: Area) {
        let size = (area.right - area.left, area.bottom - area.top);
        page.rectangle((area.left, area.top), size, 1.0, None);
    }

    /// Writes a name level into an area that is free, on white.
    pub(in super::super) fn write_level(
        &mut self,
        page: &mut Page,
        area: Area,
        (name, size_pt): (&str, f64),
    ) {
        Self::whiten(page, area);
        let middle = (
            0.5 * (area.left + area.right),
            0.5 * (area.top + area.bottom),
        );
        let lines: Vec<&str> = name.lines().collect();
        let step = LINES * size_pt * POINT_MM;
        let first = middle.1 - 0.5 * step * (lines.len().max(1) - 1) as f64;
        for (index, line) in lines.iter().enumerate() {
            centred(page, (middle.0, first + step * index as f64), size_pt, line);
        }
        self.take_name(area);
    }
}

/// Half of what a name takes that is written level and may have several lines: to each side, and up and down.
pub(super) fn half_of((name, size_pt): (&str, f64)) -> (f64, f64) {
    let more = name.lines().count().max(1) - 1;
    (
        0.5 * widest(name, size_pt) + 0.3,
        (HALF_HIGH + 0.5 * LINES * more as f64) * size_pt * POINT_MM,
    )
}

/// How wide a name is that may have several lines.
fn widest(name: &str, size_pt: f64) -> f64 {
    let lines = name.lines().map(|line| width_mm(line, size_pt));
    lines.fold(0.0, f64::max)
}

fn length_mm(named: &Named<'_>, name: &str) -> f64 {
    // Bold letters are a little wider than the plain ones that are measured.
    width_mm(name, named.size_pt) + 0.6
}

/// What a name takes on one side of what it names.
pub(super) fn area_of(named: &Named<'_>, name: &str, off: Off, beyond: f64) -> Area {
    let (x, y) = named.at;
    let (near, half) = (
        named.radius.max(beyond) + APART_MM,
        HALF_HIGH * named.size_pt * POINT_MM,
    );
    let far = near + length_mm(named, name);
    match off {
        Off::Right => Area {
            left: x + near,
            right: x + far,
            top: y - half,
            bottom: y + half,
        },
        Off::Left => Area {
            left: x - far,
            right: x - near,
            top: y - half,
            bottom: y + half,
        },
        Off::Down => Area {
            left: x - half,
            right: x + half,
            top: y + near,
            bottom: y + far,
        },
        Off::Up => Area {
            left: x - half,
            right: x + half,
            top: y - far,
            bottom: y - near,
        },
    }
}

/// Writes it there.
pub(super) fn write(page: &mut Page, named: &Named<'_>, name: &str, (off, beyond): (Off, f64)) {
    let (x, y) = named.at;
    let near = named.radius.max(beyond) + APART_MM;
    let drop = DROP * named.size_pt * POINT_MM;
    match off {
        Off::Right => page.text((x + near, y + drop), named.size_pt, Align::Left, name),
        Off::Left => page.text((x - near, y + drop), named.size_pt, Align::Right, name),
        // Turned names are read from the right of the sheet.
        Off::Down => {
            page.text_turned(
                (x + drop, y + near),
                named.size_pt,
                Align::Right,
                -90.0,
                name,
            );
        }
        Off::Up => {
            page.text_turned(
                (x + drop, y - near),
                named.size_pt,
                Align::Left,
                -90.0,
                name,
            );
        }
    }
}

/// A text in the middle of a point, level or turned.
pub(in super::super) fn centred_turned(
    page: &mut Page,
    middle: (f64, f64),
    (name, size_pt): (&str, f64),
    is_level: bool,
) {
    if is_level {
        centred(page, middle, size_pt, name);
    } else {
        let at = (middle.0 + DROP * size_pt * POINT_MM, middle.1);
        page.text_turned(at, size_pt, Align::Middle, -90.0, name);
    }
}

/// Writes a name in a round thing if it fits there in letters of this size; tells whether it did.
pub(in super::super) fn inside(
    page: &mut Page,
    at: (f64, f64),
    radius: f64,
    (name, size_pt): (&str, f64),
) -> bool {
    let fits = width_mm(name, size_pt) <= 1.75 * radius;
    if fits {
        centred(page, at, size_pt, name);
    }
    fits
}
