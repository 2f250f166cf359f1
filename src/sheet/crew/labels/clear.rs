//! Where a name may stand without being taken for the name of something else, and what may lead to it.

use super::{Area, LED_MM, Labels, Off, Segment, Weight};
use crate::geometry::Elementary as _;

/// A line that is so near a name or a mark touches it, in millimetres.
const TOUCH_MM: f64 = 0.25;

/// Names stand so far apart at least, in millimetres.
const BETWEEN_MM: f64 = 0.15;

/// A name that is so near a mark is taken for its name, in millimetres.
const MISREAD_MM: f64 = 1.0;

/// A name without a line to it is farther from everything else that has a name by this factor, and by so many
/// millimetres at least; what is farther than the last is never too near.
const NEARER: f64 = 1.5;
const APART_FROM_OTHERS_MM: (f64, f64) = (0.9, 2.5);

/// The same from marks that have names of their own, as a factor.
const FROM_MARK: f64 = 2.5;

/// A name that a line leads to, and one that names no single body, stands so far from bodies with names of their own,
/// in millimetres; up to the second it does so only if it must.
const LED_APART_MM: (f64, f64) = (0.4, 1.5);

/// What a place costs that is a millimetre nearer to another body than it should be, in millimetres farther away.
const NEAR_OTHER: f64 = 5.0;

/// The bodies and marks that a name is not of.
pub(super) struct Others {
    /// By their places in the list of bodies with names.
    named: Vec<usize>,
    /// Their own bodies.
    own: Vec<usize>,
    /// By their places in the list of marks.
    marks: Vec<usize>,
    /// Is what is named a body with a name, or a mark?
    is_single: bool,
}

impl Labels {
    /// All that a name of what is at these points is not of.
    pub(super) fn others(&self, points: &[(f64, f64)]) -> Others {
        let is_there = |area: &Area| points.iter().any(|at| area.contains(*at));
        let (own, named): (Vec<usize>, Vec<usize>) =
            (0..self.named.len()).partition(|index| self.named[*index].iter().any(is_there));
        let (own_marks, marks): (Vec<usize>, Vec<usize>) =
            (0..self.marks.len()).partition(|index| is_there(&self.marks[*index]));
        Others {
            is_single: !own.is_empty() || !own_marks.is_empty(),
            named,
            own,
            marks,
        }
    }

    /// Is there neither a body nor a name, and is it on the paper?
    pub(in super::super) fn is_free(&self, area: Area) -> bool {
        self.paper.holds(area) && self.is_clear(area)
    }

    /// Is there neither a body nor a name nor what leads to one, wherever it is?
    pub(in super::super) fn is_clear(&self, area: Area) -> bool {
        let mut taken = self.bodies.iter().chain(&self.marks);
        let mut named = self.named.iter().flatten();
        let round = area.grown(BETWEEN_MM);
        !taken.any(|other| other.meets(area))
            && !named.any(|other| other.meets(area))
            && !self.names.iter().any(|other| other.meets(round))
            && !self.leaders.iter().any(|line| round.is_crossed(*line))
    }

    /// Does a line run through a name?
    pub(in super::super) fn strikes_name(&self, line: Segment) -> bool {
        self.names.iter().any(|area| area.is_crossed(line))
    }

    /// Does it stand off from every body that has a name of its own?
    pub(super) fn is_apart(&self, area: Area) -> bool {
        let round = area.grown(LED_APART_MM.1);
        !self.named.iter().flatten().any(|other| other.meets(round))
    }

    /// How far an area is from a body with a name.
    fn gap_to_named(&self, index: usize, area: Area) -> f64 {
        let areas = self.named[index].iter();
        areas
            .map(|other| other.gap(area))
            .fold(f64::INFINITY, f64::min)
    }

    /// What leads from something round to a name and what that costs; nothing if the name stands close. `None` where the
    /// name would be taken for that of something else, or where nothing can lead to it.
    pub(super) fn led_from(
        &self,
        (at, radius): ((f64, f64), f64),
        area: Area,
        others: &Others,
    ) -> Option<(f64, Option<Segment>)> {
        let nearest = area.nearest(at);
        let gap = (nearest.0 - at.0).hypotenuse(nearest.1 - at.1) - radius;
        if gap <= LED_MM {
            return self.is_nearest(area, gap, others).then_some((0.0, None));
        }
        let (leads, line) = self.led_on((at, radius), area, others)?;
        Some((leads, Some(line)))
    }

    /// The line that leads from something round to a name and what that costs; `None` where the name would be taken for
    /// that of something else, or where no line can lead to it.
    pub(super) fn led_on(
        &self,
        (at, radius): ((f64, f64), f64),
        area: Area,
        others: &Others,
    ) -> Option<(f64, Segment)> {
        let nearest = area.nearest(at);
        let gap = (nearest.0 - at.0).hypotenuse(nearest.1 - at.1) - radius;
        let beside = self.beside_others(area, others)?;
        let (low, high) = (area.left.min(area.right), area.left.max(area.right));
        let middle = 0.5 * (area.top + area.bottom);
        let ends = [nearest, (low, middle), (high, middle)];
        ends.into_iter()
            .filter_map(|end| {
                let far = (end.0 - at.0).hypotenuse(end.1 - at.1).max(1e-9);
                let share = (radius / far).min(1.0);
                let start = (at.0 + share * (end.0 - at.0), at.1 + share * (end.1 - at.1));
                let line = (start, end);
                // Into the name from the side where it begins, never along it.
                let short = (
                    end.0 + 1e-3 * (start.0 - end.0),
                    end.1 + 1e-3 * (start.1 - end.1),
                );
                let longer = far - radius - gap;
                (!area.contains(short)).then_some(())?;
                let leads = self.leading(line, area, others)?;
                Some((beside + longer + leads, line))
            })
            .min_by(|a, b| a.0.total_cmp(&b.0))
    }

    /// Is what it names clearly the nearest to a name without a line to it?
    fn is_nearest(&self, area: Area, gap: f64, others: &Others) -> bool {
        let (least, most) = APART_FROM_OTHERS_MM;
        let apart = if others.is_single {
            (NEARER * gap).clamp(least, most)
        } else {
            LED_APART_MM.0
        };
        let mut named = others.named.iter();
        let mut marks = others.marks.iter();
        // Between two marks it must be plain of which it is.
        let near_mark = |index: &usize| self.marks[*index].gap(area) < FROM_MARK * gap.max(0.4);
        let is_near = named.any(|index| self.gap_to_named(*index, area) < apart)
            || (others.is_single && marks.any(near_mark));
        !is_near
    }

    /// What it costs that a name with a line to it stands beside other bodies and marks; `None` where it is too near.
    fn beside_others(&self, area: Area, others: &Others) -> Option<f64> {
        let (least, most) = LED_APART_MM;
        let mut cost = 0.0;
        for index in &others.named {
            let gap = self.gap_to_named(*index, area);
            if gap < least {
                return None;
            }
            cost += NEAR_OTHER * (most - gap).max(0.0);
        }
        // Beside another mark it would be taken for the name of that.
        let mut marks = others.marks.iter();
        let misread = marks.any(|index| self.marks[*index].gap(area) < MISREAD_MM);
        Some(cost + if misread { 12.0 } else { 0.0 })
    }

    /// What a line costs that leads from a point to a name; `None` if it would run through another name, a body or a
    /// mark that is not its own, or across another such line.
    pub(super) fn leading(&self, line: Segment, name: Area, others: &Others) -> Option<f64> {
        let strikes = self.names.iter().any(|area| area.is_crossed(line))
            || self.leaders.iter().any(|other| cross(*other, line));
        let mut named = others.named.iter().flat_map(|index| &self.named[*index]);
        let mut marks = others.marks.iter().map(|index| self.marks[*index]);
        if strikes
            || named.any(|area| area.is_crossed(line))
            || marks.any(|area| area.grown(TOUCH_MM).is_crossed(line))
        {
            return None;
        }
        let touches = |area: &&Area| **area != name && area.grown(TOUCH_MM).is_crossed(line);
        let touched = self.names.iter().filter(touches).count();
        let bodies = self.bodies.iter();
        let over = bodies.filter(|area| !area.contains(line.0) && area.is_crossed(line));
        let crossed = self
            .lines
            .iter()
            .filter(|(other, weight)| *weight == Weight::Heavy && cross(*other, line));
        Some(6.0 * touched as f64 + 8.0 * over.count() as f64 + 3.0 * crossed.count() as f64)
    }

    /// Does a name stand in line with what it names, with nothing between that has a name, and beside nothing else?
    pub(super) fn is_in_line(
        &self,
        (x, y): (f64, f64),
        area: Area,
        off: Off,
        others: &Others,
    ) -> bool {
        let between = match off {
            Off::Right => Area {
                left: x,
                right: area.left,
                ..area
            },
            Off::Left => Area {
                left: area.right,
                right: x,
                ..area
            },
            Off::Down => Area {
                top: y,
                bottom: area.top,
                ..area
            },
            Off::Up => Area {
                top: area.bottom,
                bottom: y,
                ..area
            },
        };
        if self.names.iter().any(|name| name.meets(between)) {
            return false;
        }
        let own = others
            .own
            .iter()
            .map(|index| self.gap_to_named(*index, area));
        let gap = own.fold(f64::INFINITY, f64::min);
        let (least, most) = APART_FROM_OTHERS_MM;
        let apart = (NEARER * gap).clamp(least, most);
        let mut named = others.named.iter().flat_map(|index| &self.named[*index]);
        named.all(|other| {
            // Those of the same row have their own names in line with them.
            let is_of_row = match off {
                Off::Right => other.right <= area.left,
                Off::Left => other.left >= area.right,
                Off::Down => other.bottom <= area.top,
                Off::Up => other.top >= area.bottom,
            };
            !other.meets(between) && (is_of_row || other.gap(area) >= apart)
        })
    }
}

/// Do two lines cross?
fn cross((a, b): Segment, (c, d): Segment) -> bool {
    let side = |p: (f64, f64), q: (f64, f64), r: (f64, f64)| {
        (q.0 - p.0) * (r.1 - p.1) - (q.1 - p.1) * (r.0 - p.0)
    };
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}
