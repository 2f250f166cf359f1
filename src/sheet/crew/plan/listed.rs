//! Names of the lists on the deck plan: lashings, fronts, racks, points, walkways.

use super::super::labels::Area;
use super::naming::{LISTED_MM, POINT_MM, THING_PT};
use super::{Picture, STEP_RAD, vec};
use crate::brief::{natural, runs};
use crate::engine::numbers::ThingSort;
use crate::layout::{Point, Rack};

/// Where along a lashing its name or what leads to that may begin, as shares of its length.
const LEG_SHARES: [f64; 9] = [0.5, 0.3, 0.7, 0.4, 0.6, 0.1, 0.9, 0.2, 0.8];

/// How far from a front another's name would be read as its own, in millimetres.
const OF_FRONT_MM: f64 = 3.0;

/// The area beside a line in which a name is read as that of the line.
fn beside_line([a, b]: [(f64, f64); 2]) -> Area {
    let middle = (0.5 * (a.0 + b.0), 0.5 * (a.1 + b.1));
    let half = |along: f64| (0.5 * along.abs()).max(OF_FRONT_MM);
    Area::about(middle, (half(b.0 - a.0), half(b.1 - a.1)))
}

impl Picture<'_> {
    /// What holds: each lashing once, at the leg that has most room, and each front that is shut.
    pub(super) fn lashings_and_fronts(&mut self) {
        let mut lashings: Vec<(String, Vec<[(f64, f64); 2]>)> = Vec::new();
        for (name, ends) in self.leg_lines() {
            match lashings.iter_mut().find(|(other, _)| *other == name) {
                Some((_, legs)) => legs.push(ends),
                None => lashings.push((name, vec![ends])),
            }
        }
        let fronts = self.front_lines();
        let areas: Vec<(String, Area)> = fronts
            .iter()
            .map(|(row, line)| (row.front.clone(), beside_line(*line)))
            .collect();
        lashings.extend(
            fronts
                .into_iter()
                .map(|(row, line)| (row.front, vec![line])),
        );
        for (name, lines) in lashings {
            // Below another front it would be read as the name of that.
            let others = areas.iter().filter(|(front, _)| *front != name);
            (self.labels).keep_out_of(others.map(|(_, area)| *area).collect());
            let along = |[a, b]: &[(f64, f64); 2]| {
                LEG_SHARES.map(|share| (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1)))
            };
            let points = lines.iter().flat_map(along);
            let points: Vec<(f64, f64)> = points.filter(|at| !self.is_at_a_part(*at)).collect();
            self.name_near(&name, (&points, 0.35), LISTED_MM);
        }
        self.labels.keep_out_of(Vec::new());
    }

    /// Racks by the names that the load list has, at one of their edges.
    pub(super) fn racks_by_name(&mut self) {
        let named: Vec<(String, Vec<(f64, f64)>)> = self
            .racks()
            .into_iter()
            .filter_map(|rack| {
                let mut things = self.of_sort(ThingSort::Rack);
                let thing = things.find(|thing| thing.thing.id == rack.id)?;
                let corners = self.paper.all(&thing.shape.to_polygon(STEP_RAD)?);
                let next = corners.iter().cycle().skip(1);
                let edges = corners.iter().zip(next);
                let points = edges.flat_map(|(a, b)| {
                    [0.5, 0.2, 0.8]
                        .map(|share| (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1)))
                });
                let points: Vec<(f64, f64)> = points.collect();
                let name = rack.name.clone().unwrap_or_else(|| rack.id.clone());
                let told = self.with_slots_on_a_part(rack, name.clone());
                // Where it names some of the slots, by those.
                let by_them = points.iter().copied().filter(|at| self.is_at_a_part(*at));
                let by_them: Vec<(f64, f64)> = by_them.collect();
                let is_by_them = told != name && !by_them.is_empty();
                Some((told, if is_by_them { by_them } else { points }))
            })
            .collect();
        for (name, points) in named {
            self.name_near(&name, (&points, 0.0), LISTED_MM);
        }
    }

    /// The name of a rack with the slots whose cylinders are named in a larger plan only.
    fn with_slots_on_a_part(&self, rack: &Rack, name: String) -> String {
        let rows = self
            .brief
            .load_list
            .iter()
            .filter(|row| row.rack == rack.id);
        let rows = rows.filter(|row| {
            let slot = rack.slot(&row.slot);
            slot.is_some_and(|slot| self.is_on_a_part(slot.at[0]))
        });
        let mut slots: Vec<&str> = rows.map(|row| row.slot.as_str()).collect();
        if slots.is_empty() {
            return name;
        }
        slots.sort_by_key(|slot| natural(slot));
        format!("{name}\n{}", runs(&slots).join(" "))
    }

    /// The lashing points of the deck: name, place on paper, and whether a lashing of the list goes to it.
    pub(super) fn points_here(&self) -> Vec<(String, (f64, f64), bool)> {
        let points = self.plan.boat.lashing_points.iter();
        let is_listed = |name: &str| {
            let mut rows = self.brief.lashing_list.iter();
            rows.any(|row| row.from == name || row.to == name)
        };
        points
            .filter(|point| point.deck == self.deck.deck)
            .map(|point| {
                let name = point.name.clone().unwrap_or_else(|| point.id.clone());
                let listed = is_listed(&name);
                (name, self.paper.at(vec(&point.at)), listed)
            })
            .filter(|(_, at, _)| self.is_shown(*at))
            .collect()
    }

    /// Those that a lashing of the list goes to; the others are marks without a name.
    pub(super) fn points(&mut self) {
        let points = self.points_here().into_iter();
        for (name, at, _) in points.filter(|(_, _, is_listed)| *is_listed) {
            if !self.is_at_a_part(at) {
                self.name_near(&name, (&[at], POINT_MM), LISTED_MM);
            }
        }
    }

    /// The name of each walkway over the middle of its longest leg.
    pub(super) fn walkways_by_name(&mut self) {
        let ways = self.plan.boat.walkways.iter();
        for way in ways.filter(|way| way.deck == self.deck.deck) {
            let length = |leg: &&[Point]| (vec(&leg[1]) - vec(&leg[0])).length();
            let legs = way.line.windows(2);
            let Some(leg) = legs.max_by(|a, b| length(a).total_cmp(&length(b))) else {
                continue;
            };
            let (a, b) = (self.paper.at(vec(&leg[0])), self.paper.at(vec(&leg[1])));
            let name = way.name.as_deref().unwrap_or(&way.id);
            let is_level = (b.0 - a.0).abs() >= (b.1 - a.1).abs();
            let on_leg = |share: f64| (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1));
            let shares = [0.5, 0.3, 0.7, 0.15, 0.85];
            let shown = shares
                .into_iter()
                .filter(|share| self.is_shown(on_leg(*share)));
            let shown: Vec<f64> = shown.collect();
            if !self.has_turn(name, on_leg(0.5)) {
                continue;
            }
            let is_named = shown.into_iter().any(|share| {
                let what = (name, THING_PT);
                self.labels.along(self.page, on_leg(share), what, is_level)
            });
            if !is_named {
                self.name_near(name, (&[on_leg(0.5)], 0.3), LISTED_MM);
            }
        }
    }
}
