//! What is no part of the boat: where the reader stands, what is lit, bow and stern, the scale.

use super::super::labels::{Area, Weight, centred_turned};
use super::super::{LIST_PT, centred};
use super::drawing::round;
use super::naming::THING_PT;
use super::parts::part_name;
use super::{Picture, STEP_RAD, hand_over, vec};
use crate::engine::numbers::ThingSort;
use crate::geometry::Vec2;
use crate::layout::Id;
use crate::sheet::{Align, Pen, width_mm};

/// From the edge of a deck to the bracket beside a part of it that is drawn larger, in millimetres.
const BRACKET_MM: f64 = 2.4;

/// Half of the mark for the set-down spot, in millimetres.
const SET_DOWN_MM: f64 = 2.0;

impl Picture<'_> {
    /// A ring round a cylinder that is black itself.
    pub(super) fn light(&mut self, lit: &Id) {
        let found = self
            .of_sort(ThingSort::Cylinder)
            .find(|thing| thing.thing.id == *lit)
            .map(|thing| {
                (
                    thing.shape.centroid(),
                    self.radius_mm(thing),
                    thing.shape.clone(),
                )
            });
        let Some((middle, radius, shape)) = found else {
            return;
        };
        let at = self.paper.at(middle);
        for (further, width) in [(2.2, 1.2), (4.8, 0.6)] {
            self.page
                .line(&round(at, radius + further), true, Pen::solid(width));
        }
        if let Some(outline) = shape.to_polygon(STEP_RAD) {
            self.page
                .fill(&self.paper.all(&outline), 0.0, Some(Pen::solid(0.8)));
        }
        self.labels.take(Area::round(at, radius + 4.0));
    }

    /// Where the reader stands, told below the plan, where it covers no name if that can be.
    pub(super) fn reader(&mut self) {
        let place = hand_over(self.plan, self.brief);
        let Some(place) = place.filter(|place| place.deck == self.deck.deck) else {
            return;
        };
        let (x, y) = self.paper.at(vec(&place.at));
        if !self.is_shown((x, y)) {
            return;
        }
        let wide = self.page.paper.width_mm();
        // By the name that the lists have, where that is another than the place's id.
        let named = (place.name.as_ref()).map(|name| format!("you stand here: {name}"));
        let named = named.filter(|words| width_mm(words, LIST_PT) + 2.4 < wide);
        let words = named.as_deref().unwrap_or("you stand here");
        let width = width_mm(words, LIST_PT) + 2.4;
        let low = self.page.paper.height_mm() - 4.4;
        // Names stand below what stands near the lower edge.
        let down = -self.paper.up;
        let near_edge = self.of_sort(ThingSort::Cylinder).filter(|thing| {
            let middle = thing.shape.centroid();
            let far = self.extent(thing);
            self.beyond_edge(middle, down, far.1) > 0.0
        });
        let named: Vec<f64> = near_edge
            .map(|thing| self.paper.at(thing.shape.centroid()).0)
            .collect();
        let most = (wide - width).max(0.0);
        let beneath_it = (x - 0.5 * width).clamp(0.0, most);
        let steps = (0_u32..=400)
            .map(f64::from)
            .take_while(|left| *left <= most);
        let lefts = std::iter::once(beneath_it).chain(steps);
        let covers = |left: f64| {
            let beneath = |at: &&f64| **at > left - 1.6 && **at < left + width + 1.6;
            let area = Area {
                left,
                right: left + width,
                top: low,
                bottom: low + 4.2,
            };
            // Over the word for an end of the boat it must not stand at all.
            let is_taken = !self.labels.is_free(area);
            let aside = (left - beneath_it).abs();
            let end = (x.clamp(left, left + width), low);
            let is_taken = is_taken || self.labels.strikes_name(((x, y), end));
            (is_taken, named.iter().filter(beneath).count(), aside)
        };
        let left = lefts.min_by(|a, b| {
            let (a, b) = (covers(*a), covers(*b));
            (a.0, a.1).cmp(&(b.0, b.1)).then(a.2.total_cmp(&b.2))
        });
        let left = left.unwrap_or(beneath_it);
        // To the box below, slanting where something else stands below the place.
        let end = (x.clamp(left, left + width), low);
        self.page.line(&[(x, y), end], false, Pen::solid(0.25));
        self.page.fill(
            &[(x - 2.0, y + 2.2), (x, y - 2.2), (x + 2.0, y + 2.2)],
            0.0,
            Some(Pen::solid(0.2)),
        );
        self.page
            .rectangle((left, low), (width, 4.2), 1.0, Some(Pen::solid(0.3)));
        centred(self.page, (left + 0.5 * width, low + 2.1), LIST_PT, words);
        self.labels.take_name(Area {
            left,
            right: left + width,
            top: low,
            bottom: low + 4.2,
        });
        self.labels.take(Area::round((x, y), 2.4));
        self.labels.keep_off(&[(x, y), end], Weight::Heavy);
    }

    /// Where cylinders are laid down if the chain stalls: on paper, if it is on this piece.
    fn set_down_at(&self) -> Option<(f64, f64)> {
        let id = self.brief.loading.set_down_place.as_ref()?;
        let place = self.plan.boat.place(id)?;
        let at = self.paper.at(vec(&place.at));
        (place.deck == self.deck.deck && self.is_shown(at)).then_some(at)
    }

    /// Its mark, which hides nothing and which no name hides.
    pub(super) fn set_down(&mut self) {
        let Some((x, y)) = self.set_down_at() else {
            return;
        };
        let side = SET_DOWN_MM;
        let corners = [(-side, -side), (side, -side), (side, side), (-side, side)];
        let corners = corners.map(|(across, down)| (x + across, y + down));
        self.page.line(&corners, true, Pen::dashed(0.4));
        self.labels.take(Area::round((x, y), side));
    }

    /// Its name.
    pub(super) fn set_down_name(&mut self) {
        let Some(at) = self.set_down_at() else {
            return;
        };
        self.name_near("set down here", (&[at], SET_DOWN_MM), 30.0);
    }
}

/// From the end of a deck to the middle of the word for it, in millimetres: up and down the page, and across it, where
/// an arrow stands before it.
const END_MM: f64 = 5.5;
const END_ACROSS_MM: f64 = 8.0;

/// How long the arrow is before the word for an end that is not on the piece, in millimetres.
const ARROW_MM: f64 = 3.0;

/// Bow and stern, so that nobody turns the sheet round, the parts that are drawn larger, and the scale.
impl Picture<'_> {
    pub(super) fn ends(&mut self) {
        let ahead = self.outline.iter().max_by(|a, b| a.x.total_cmp(&b.x));
        let astern = self.outline.iter().min_by(|a, b| a.x.total_cmp(&b.x));
        for (end, words, sign) in [(ahead, "bow", 1.0), (astern, "stern", -1.0)] {
            let Some(end) = end else { continue };
            if self.is_shown(self.paper.at(Vec2 { x: end.x, y: 0.0 })) {
                self.end(end.x, (words, sign));
            } else {
                self.way_to_end(words, sign);
            }
        }
    }

    /// The word beyond the end of a deck.
    fn end(&mut self, x: f64, (words, sign): (&str, f64)) {
        let at = self.paper.at(Vec2 {
            x: x + sign * END_MM / self.paper.mm_per_m,
            y: 0.0,
        });
        let half = 0.5 * width_mm(words, LIST_PT) + 0.3;
        // Beside the line that runs down from the reader.
        let reader = hand_over(self.plan, self.brief);
        let reader = reader.filter(|place| place.deck == self.deck.deck);
        let reader = reader.map(|place| self.paper.at(vec(&place.at)));
        let over = reader.filter(|it| it.1 < at.1 && (it.0 - at.0).abs() < half + 1.0);
        let at = over.map_or(at, |it| {
            let aside = (half + 1.0).copysign(at.0 - it.0);
            (it.0 + aside, at.1)
        });
        centred(self.page, at, LIST_PT, words);
        self.labels.take_name(Area::about(at, (half, 1.4)));
    }

    /// Beyond the end of a stretch, an arrow towards the end of the deck with the word for that.
    fn way_to_end(&mut self, words: &str, sign: f64) {
        let Area {
            left,
            top,
            right,
            bottom,
        } = self.window;
        let ahead = self.paper.at(Vec2 { x: sign, y: 0.0 });
        let origin = self.paper.at(Vec2 { x: 0.0, y: 0.0 });
        let is_across = (ahead.0 - origin.0).abs() > (ahead.1 - origin.1).abs();
        let (way, from) = match (is_across, ahead.0 > origin.0, ahead.1 > origin.1) {
            (true, true, _) => ((1.0, 0.0), (right, origin.1)),
            (true, false, _) => ((-1.0, 0.0), (left, origin.1)),
            (false, _, true) => ((0.0, 1.0), (origin.0, bottom)),
            (false, _, false) => ((0.0, -1.0), (origin.0, top)),
        };
        let along = |mm: f64, aside: f64| {
            (
                from.0 + mm * way.0 - aside * way.1,
                from.1 + mm * way.1 + aside * way.0,
            )
        };
        let neck = ARROW_MM - 1.0;
        self.page
            .line(&[along(0.5, 0.0), along(neck, 0.0)], false, Pen::solid(0.3));
        let head = [along(ARROW_MM, 0.0), along(neck, 0.8), along(neck, -0.8)];
        self.page.fill(&head, 0.0, None);
        let at = along(if is_across { END_ACROSS_MM } else { END_MM }, 0.0);
        let half = 0.5 * width_mm(words, LIST_PT) + 0.3;
        centred(self.page, at, LIST_PT, words);
        self.labels.take_name(Area::about(at, (half, 1.4)));
        self.labels
            .take(Area::about(along(0.5 * ARROW_MM, 0.0), (1.2, 1.2)));
    }

    /// On the whole deck, brackets beside the parts that are drawn larger elsewhere, with their numbers.
    pub(super) fn parts_drawn_larger(&mut self) {
        let corners = self.paper.all(self.outline);
        let low = |of: fn(&(f64, f64)) -> f64| corners.iter().map(of).fold(f64::INFINITY, f64::min);
        let (left, top) = (low(|at| at.0), low(|at| at.1));
        let is_along = self.paper.right.x.abs() < 0.5;
        for (index, (from_m, to_m)) in self.extent.larger.iter().enumerate() {
            let ends = [*from_m, *to_m].map(|x| self.paper.at(Vec2 { x, y: 0.0 }));
            let words = part_name(index);
            let half = 0.5 * width_mm(&words, THING_PT) + 0.3;
            let corner = |along: (f64, f64), mm: f64| {
                if is_along {
                    (left - mm, along.1)
                } else {
                    (along.0, top - mm)
                }
            };
            let (near, far) = (BRACKET_MM - 1.0, BRACKET_MM);
            let [a, b] = ends;
            let bracket = [
                corner(a, near),
                corner(a, far),
                corner(b, far),
                corner(b, near),
            ];
            self.page.line(&bracket, false, Pen::solid(0.3));
            self.labels.keep_off(&bracket, Weight::Heavy);
            let middle = (0.5 * (a.0 + b.0), 0.5 * (a.1 + b.1));
            let at = corner(middle, far + 1.5);
            let reach = if is_along { (1.2, half) } else { (half, 1.2) };
            centred_turned(self.page, at, (&words, THING_PT), !is_along);
            self.labels.take_name(Area::about(at, reach));
        }
    }

    /// A metre to scale, below the deck where nothing else stands.
    pub(super) fn scale_bar(&mut self) {
        let corners = self.paper.all(self.outline);
        let low = corners.iter().map(|(_, y)| *y).fold(0.0, f64::max);
        // Of a part that lies along the page, its lower end.
        let low = low.min(self.window.bottom);
        let long = self.paper.mm_per_m;
        let wide = long + 2.0 + width_mm("1 m", LIST_PT);
        let right = self.page.paper.width_mm() - wide - 1.0;
        let area = |x: f64, y: f64| Area {
            left: x,
            right: x + wide,
            top: y - 2.4,
            bottom: y + 0.6,
        };
        let rows = [low + 6.0, low + 3.2, low + 10.0, low + 12.6];
        // As near the deck's left edge as there is room.
        let steps = (0_u32..40).map(|step| self.paper.left_mm + 5.0 * f64::from(step));
        let across: Vec<f64> = steps
            .take_while(|x| *x < right)
            .chain([right, 1.0])
            .collect();
        let spots = rows
            .into_iter()
            .flat_map(|y| across.iter().map(move |x| (*x, y)));
        let spots: Vec<(f64, f64)> = spots.collect();
        let is_free = |(x, y): &&(f64, f64)| {
            // Below the end of a stretch nothing but marks stands.
            if self.is_part {
                self.labels.is_clear(area(*x, *y))
            } else {
                self.labels.is_free(area(*x, *y))
            }
        };
        let is_clear = |(x, y): &&(f64, f64)| self.labels.lines_through(area(*x, *y)) <= 0.0;
        let clear = spots.iter().filter(is_free).find(is_clear);
        let free = clear.or_else(|| spots.iter().find(is_free));
        let (x, y) = free.copied().unwrap_or(spots[0]);
        let bar = [(x, y - 1.0), (x, y), (x + long, y), (x + long, y - 1.0)];
        self.page.line(&bar, false, Pen::solid(0.3));
        self.page
            .text((x + long + 1.0, y), LIST_PT, Align::Left, "1 m");
        self.labels.take_name(area(x, y));
    }
}
