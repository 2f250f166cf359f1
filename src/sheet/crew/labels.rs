//! Names beside what they name, where there is room.

use super::centred;
use crate::sheet::font::POINT_MM;
use crate::sheet::{Align, Page, width_mm};

/// Between a name and what it stands beside, in millimetres.
const APART_MM: f64 = 0.7;

/// A rectangle on paper: left, top, right, bottom, in millimetres.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(in crate::sheet) struct Area {
    pub(in crate::sheet) left: f64,
    pub(in crate::sheet) top: f64,
    pub(in crate::sheet) right: f64,
    pub(in crate::sheet) bottom: f64,
}

impl Area {
    pub(in crate::sheet) fn round((x, y): (f64, f64), radius: f64) -> Self {
        Self {
            left: x - radius,
            top: y - radius,
            right: x + radius,
            bottom: y + radius,
        }
    }

    fn meets(self, other: Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    fn holds(self, other: Self) -> bool {
        self.left <= other.left
            && self.top <= other.top
            && self.right >= other.right
            && self.bottom >= other.bottom
    }
}

/// Which way a name stands off from what it names, on paper.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(in crate::sheet) enum Off {
    Left,
    Right,
    Up,
    Down,
}

/// The areas of a picture that are taken.
#[derive(Clone, Debug)]
pub(in crate::sheet) struct Labels {
    paper: Area,
    taken: Vec<Area>,
}

/// What is to be named.
#[derive(Copy, Clone, Debug)]
pub(in crate::sheet) struct Named<'a> {
    /// Its middle on paper.
    pub(in crate::sheet) at: (f64, f64),
    /// How far it reaches from there, in millimetres.
    pub(in crate::sheet) radius: f64,
    /// The name, from the longest that says all to the shortest that will do.
    pub(in crate::sheet) names: &'a [String],
    pub(in crate::sheet) size_pt: f64,
}

impl Labels {
    pub(in crate::sheet) fn new(paper: Area) -> Self {
        Self {
            paper,
            taken: Vec::new(),
        }
    }

    pub(in crate::sheet) fn take(&mut self, area: Area) {
        self.taken.push(area);
    }

    fn is_free(&self, area: Area) -> bool {
        self.paper.holds(area) && !self.taken.iter().any(|other| other.meets(area))
    }

    /// Writes the longest name that has room on one of these sides, the first sides first; tells whether one had.
    pub(in crate::sheet) fn beside(
        &mut self,
        page: &mut Page,
        named: &Named<'_>,
        sides: &[(Off, f64)],
    ) -> bool {
        for name in named.names {
            for (off, beyond) in sides {
                let area = area_of(named, name, *off, *beyond);
                if self.is_free(area) {
                    self.take(area);
                    write(page, named, name, (*off, *beyond));
                    return true;
                }
            }
        }
        false
    }

    /// Writes a name along a line, on one side of it or the other; tells whether there was room.
    pub(in crate::sheet) fn along(
        &mut self,
        page: &mut Page,
        (x, y): (f64, f64),
        (name, size_pt): (&str, f64),
        is_level: bool,
    ) -> bool {
        let (half, thick) = (
            0.5 * width_mm(name, size_pt) + 0.3,
            0.42 * size_pt * POINT_MM,
        );
        for sign in [-1.0, 1.0] {
            let off = sign * (thick + 0.5);
            let (middle, reach) = if is_level {
                ((x, y + off), (half, thick))
            } else {
                ((x + off, y), (thick, half))
            };
            let area = Area {
                left: middle.0 - reach.0,
                right: middle.0 + reach.0,
                top: middle.1 - reach.1,
                bottom: middle.1 + reach.1,
            };
            if self.is_free(area) {
                self.take(area);
                let drop = 0.35 * size_pt * POINT_MM;
                if is_level {
                    page.text((middle.0, middle.1 + drop), size_pt, Align::Middle, name);
                } else {
                    let at = (middle.0 + drop, middle.1);
                    page.text_turned(at, size_pt, Align::Middle, -90.0, name);
                }
                return true;
            }
        }
        false
    }
}

fn length_mm(named: &Named<'_>, name: &str) -> f64 {
    // Bold letters are a little wider than the plain ones that are measured.
    width_mm(name, named.size_pt) + 0.6
}

fn area_of(named: &Named<'_>, name: &str, off: Off, beyond: f64) -> Area {
    let (x, y) = named.at;
    let (near, half) = (
        named.radius.max(beyond) + APART_MM,
        0.42 * named.size_pt * POINT_MM,
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

fn write(page: &mut Page, named: &Named<'_>, name: &str, (off, beyond): (Off, f64)) {
    let (x, y) = named.at;
    let near = named.radius.max(beyond) + APART_MM;
    let drop = 0.35 * named.size_pt * POINT_MM;
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

/// Writes a name in a round thing, as large as it fits.
pub(in crate::sheet) fn inside(
    page: &mut Page,
    at: (f64, f64),
    radius: f64,
    name: &str,
    most_pt: f64,
) {
    let at_one_pt = width_mm(name, 1.0).max(1e-9);
    let size = (1.75 * radius / at_one_pt).min(most_pt).max(4.0);
    centred(page, at, size, name);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::Paper;

    #[test]
    fn a_name_takes_the_first_side_with_room_or_a_shorter_name_does() {
        let mut page = Page::new(Paper::Cut { wide: 60, high: 40 });
        let paper = Area {
            left: 0.0,
            top: 0.0,
            right: 60.0,
            bottom: 40.0,
        };
        let mut labels = Labels::new(paper);
        let names = ["P1 38001P".to_owned(), "P1".to_owned()];
        let named = |x: f64| Named {
            at: (x, 20.0),
            radius: 1.5,
            names: &names,
            size_pt: 8.0,
        };
        let sides = [(Off::Right, 0.0), (Off::Left, 0.0)];
        assert!(labels.beside(&mut page, &named(20.0), &sides));
        assert!(labels.beside(&mut page, &named(20.0), &sides));
        assert_eq!(page.texts().collect::<Vec<_>>(), ["P1 38001P", "P1 38001P"]);
        assert!(
            !labels.beside(&mut page, &named(20.0), &sides),
            "both sides are taken"
        );
        assert!(labels.beside(&mut page, &named(53.0), &sides[..1]));
        assert_eq!(
            page.texts().last(),
            Some("P1"),
            "the long name would be cut off"
        );
    }
}
