//! The linear program of a held body, with its rows made as they are needed.
//!
//! The ground carries every wrench inside a cone: moments inside the feet times the weight, shears
//! inside the circle of friction. A cone is the limit of infinitely many rows, one for each direction.
//! The program starts with none; at each optimum the direction that is missed by most is found in
//! closed form and its row added (Kelley's cutting planes). So no fixed fan of directions decides how
//! exact the answer is.

use super::dual_simplex::{DualSimplex, Failure};
use super::ground::{Ground, MISSED, Row};
use super::wrench::{Scale, Wrench};
use super::{Bight, Body, Holding, Load, NO_SHARE, Restraint};
use crate::geometry::Vec2;

/// A row that is still missed after so many rounds by less than [`MISSED_AT_WORST`] is left.
const MOST_ROUNDS: usize = 80;
const MISSED_AT_WORST: f64 = 1e-6;

/// The most of a pull in the second attempt, in scaled units: about the weight.
const MOST_PULL: f64 = 100.0;

/// A strength below this share of the weight is none.
const NO_STRENGTH: f64 = 1e-9;

/// Pulls that keep a body have at least this to spare, relative to the terms of a row.
const MARGIN: f64 = 1e-7;

/// So many rows hold an optimum at most: one for each way in which a body moves.
const MOST_KEPT: usize = 6;

/// The program: the wrenches of its variables, what must balance them, and the simplex that grows.
#[derive(Debug)]
pub(super) struct Program<'a> {
    body: Body<'a>,
    ground: Ground<'a>,
    scale: Scale,
    aim: Aim,
    constant: Wrench,
    columns: Vec<Wrench>,
    /// The simplex with nothing but the links, and how many these are.
    start: Option<(DualSimplex, usize)>,
    simplex: DualSimplex,
    is_solved: bool,
    pub(super) rows: Vec<Row>,
}

/// One way of going, as a bound on every load: the body goes wherever what drives this motion is more
/// than what holds against it.
///
/// By duality: the prices of the rows at an optimum bound the share of any other load as well, because
/// the restraints and their strengths do not depend on the load.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Mechanism {
    tipping: Vec2,
    along_deck: Vec2,
    normal: f64,
    held: f64,
}

impl Mechanism {
    /// By how much a load drives it more than is held: positive where the body goes for certain.
    pub fn excess(&self, load: &Load) -> f64 {
        self.tipping.dot(load.tipping) + self.along_deck.dot(load.along_deck)
            - self.normal * load.normal
            - self.held
    }
}

/// The variable beside the tensions.
#[derive(Copy, Clone, Debug)]
pub(super) enum Aim {
    /// No such variable: is there any balance under the load?
    Balance,
    /// Maximise the share of the load, up to this bound.
    Share(f64),
    /// Minimise one strength, given a load that acts in full.
    Strength,
}

impl<'a> Program<'a> {
    /// The pulls of all restraints, the parts that count against sliding, the variable of the aim.
    pub(super) fn new(body: &Body<'a>, holding: &Holding<'_>, load: &Load, aim: Aim) -> Self {
        let mut program = Self::unloaded(body, holding, aim);
        program.load(load);
        program
    }

    /// The same before any load is known.
    pub(super) fn unloaded(body: &Body<'a>, holding: &Holding<'_>, aim: Aim) -> Self {
        Self::with_pulls_up_to(f64::INFINITY, body, holding, aim)
    }

    /// As [`Program::unloaded`] for a share, with no pull above a hundred times the weight. Where nothing
    /// bounds a strength the pulls may run away, and rounding keeps the program from an end; with less
    /// strength than there is the share is never too large.
    pub(super) fn bounded(body: &Body<'a>, holding: &Holding<'_>, aim: Aim) -> Self {
        Self::with_pulls_up_to(MOST_PULL, body, holding, aim)
    }

    /// The same with nothing that holds it but its feet: never more than what it can stand, and never without
    /// an answer where it stands at rest.
    pub(super) fn of_feet(body: &Body<'a>, holding: &Holding<'_>, aim: Aim) -> Self {
        Self::with_pulls_up_to(0.0, body, holding, aim)
    }

    fn with_pulls_up_to(most_pull: f64, body: &Body<'a>, holding: &Holding<'_>, aim: Aim) -> Self {
        let scale = Scale::of(body);
        let restraints = holding.restraints;
        let bounded = || restraints.iter().enumerate().filter(|(_, r)| is_bounded(r));
        let pulls = pulling(holding, NO_STRENGTH * scale.force_n, most_pull > 0.0);
        let mut columns: Vec<Wrench> = Vec::with_capacity(restraints.len() + 1);
        let all = restraints.iter().zip(&pulls);
        columns.extend(all.map(|(restraint, pulls)| {
            if *pulls {
                scale.restraint(restraint)
            } else {
                Wrench::default()
            }
        }));
        columns.extend(bounded().map(|(index, restraint)| {
            if pulls[index] {
                Scale::counted_part(restraint)
            } else {
                Wrench::default()
            }
        }));
        let last = match aim {
            Aim::Balance => None,
            Aim::Share(most) => Some((most, 1.0)),
            Aim::Strength => Some((f64::INFINITY, -1.0)),
        };
        columns.extend(last.map(|_| Wrench::default()));
        let bounds = restraints
            .iter()
            .map(|restraint| restraint.capacity_n)
            .chain(bounded().map(|(_, restraint)| restraint.sliding_capacity_n))
            .map(|capacity_n| ((capacity_n.max(0.0) / scale.force_n).min(most_pull), 0.0))
            .chain(last);
        let simplex = DualSimplex::new(bounds, columns.len());
        let mut program = Self {
            body: *body,
            ground: Ground::of(body, restraints.iter().any(is_bounded)),
            scale,
            aim,
            constant: Wrench::default(),
            columns,
            start: None,
            simplex,
            is_solved: false,
            rows: Vec::with_capacity(16),
        };
        for (part, (whole, _)) in bounded().enumerate() {
            let part = restraints.len() + part;
            program.add_link(|i| sign(i == part) - sign(i == whole), 0.0);
        }
        program.link_points(holding);
        for bight in holding.bights {
            program.link_bight(bight);
        }
        program
    }

    /// Puts a load on, in place of the one before; of the rows that were made for that one those stay that held
    /// its optimum. What the ground can carry does not depend on the load, and they are likely to hold the next.
    pub(super) fn load(&mut self, load: &Load) {
        let mut held_by = [None; MOST_KEPT];
        if self.is_solved {
            let cuts = self.tight().filter(|(row, _)| *row != Row::Link);
            for (place, (row, _)) in held_by.iter_mut().zip(cuts) {
                *place = Some(row);
            }
        }
        self.is_solved = false;
        let [constant, demand] = self.scale.load(&self.body, load);
        self.constant = constant;
        match (self.aim, self.columns.last_mut()) {
            (Aim::Share(_), Some(last)) => *last = demand,
            _ => self.constant.add(&demand, 1.0),
        }
        match &self.start {
            Some((start, links)) => {
                self.simplex.restart(start);
                self.rows.truncate(*links);
            }
            None => self.start = Some((self.simplex.clone(), self.rows.len())),
        }
        for row in held_by.into_iter().flatten() {
            self.add_cut(row);
        }
    }

    fn link_points(&mut self, holding: &Holding<'_>) {
        for (point, &capacity) in holding.point_capacities_n.iter().enumerate() {
            if capacity.is_finite() {
                let limit = capacity.max(0.0) / self.scale.force_n;
                self.add_link(|i| share_of_point(holding, point, i), limit);
            }
        }
    }

    fn link_bight(&mut self, bight: &Bight) {
        for (tighter, slacker) in [bight.legs, (bight.legs.1, bight.legs.0)] {
            if bight.tension_ratio.is_finite() {
                self.add_link(
                    |i| match i {
                        _ if i == tighter => 1.0,
                        _ if i == slacker => -bight.tension_ratio.max(1.0),
                        _ => 0.0,
                    },
                    0.0,
                );
            }
        }
    }

    /// The pull of restraint `i` stays below the sought strength.
    pub(super) fn seek_restraint(&mut self, restraint: usize) {
        let sought = self.columns.len() - 1;
        self.add_link(|i| sign(i == restraint) - sign(i == sought), 0.0);
    }

    /// The pulls on a shared point stay together below the sought strength.
    pub(super) fn seek_point(&mut self, holding: &Holding<'_>, point: usize) {
        let sought = self.columns.len() - 1;
        self.add_link(
            |i| share_of_point(holding, point, i) - sign(i == sought),
            0.0,
        );
    }

    fn add_link(&mut self, coefficient: impl Fn(usize) -> f64, limit: f64) {
        let coefficients = (0..self.columns.len()).map(coefficient);
        self.simplex.add_row(coefficients, limit);
        self.rows.push(Row::Link);
    }

    /// Solves, and adds the rows that are missed, until none is.
    pub(super) fn solve(&mut self) -> Result<(), Failure> {
        let end = self.run();
        self.is_solved = end.is_ok();
        end
    }

    fn run(&mut self) -> Result<(), Failure> {
        for _ in 0..MOST_ROUNDS {
            self.simplex.solve()?;
            if self.add_missed(MISSED) == 0 {
                return Ok(());
            }
        }
        self.simplex.solve()?;
        if self.add_missed(MISSED_AT_WORST) == 0 {
            Ok(())
        } else {
            Err(Failure::Stalled)
        }
    }

    /// The share of the load, if it was solved and any of the load can be stood.
    pub(super) fn share_found(&self) -> Option<f64> {
        Some(self.share()).filter(|share| self.is_solved && *share > NO_SHARE)
    }

    fn add_missed(&mut self, tolerance: f64) -> usize {
        let before = self.rows.len();
        for row in self
            .ground
            .missed(&self.wrench(), tolerance)
            .into_iter()
            .flatten()
        {
            self.add_cut(row);
        }
        self.rows.len() - before
    }

    fn add_cut(&mut self, row: Row) {
        let demand = self.ground.demand_of(row);
        self.simplex
            .add_row(self.columns.iter().map(&demand), -demand(&self.constant));
        self.rows.push(row);
    }

    /// All that acts on the body but the ground, at the present point.
    fn wrench(&self) -> Wrench {
        let mut sum = self.constant;
        for (variable, column) in self.columns.iter().enumerate() {
            let value = self.simplex.value(variable);
            if value.abs() > 0.0 {
                sum.add(column, value);
            }
        }
        sum
    }

    /// The present pulls, scaled.
    pub(super) fn pulls(&self) -> impl Iterator<Item = f64> + '_ {
        (0..self.pull_count()).map(|variable| self.simplex.value(variable))
    }

    fn pull_count(&self) -> usize {
        self.columns.len() - usize::from(!matches!(self.aim, Aim::Balance))
    }

    /// Do these pulls keep the body where it is under the whole load, with a margin that is far above
    /// rounding?
    pub(super) fn is_kept_by(&self, pulls: &[f64], load: &Load) -> bool {
        let [mut wrench, demand] = self.scale.load(&self.body, load);
        wrench.add(&demand, 1.0);
        for (column, pull) in self.columns.iter().zip(pulls) {
            wrench.add(column, *pull);
        }
        self.ground
            .missed(&wrench, -MARGIN)
            .iter()
            .all(Option::is_none)
    }

    /// The mechanism by which the body goes at the present optimum of a share.
    pub(super) fn mechanism(&self) -> Mechanism {
        let mut mechanism = Mechanism::default();
        let mut held = 0.0;
        let mut resisting = 0.0;
        let demand = self.columns[self.columns.len() - 1];
        for (row, price) in self.tight() {
            let asked = self.ground.demand_of(row);
            held += price * (asked(&self.constant) + self.share() * asked(&demand));
            match row {
                Row::Tip(e) => mechanism.tipping += price * e,
                Row::Slide(e) | Row::SlideCounted(e) => mechanism.along_deck += price * e,
                Row::Lift | Row::Link => {}
            }
            let pressed = Wrench {
                weight: 1.0,
                counted_weight: 1.0,
                ..Wrench::default()
            };
            resisting -= price * asked(&pressed);
        }
        let force = self.body.mass_kg / self.scale.force_n;
        Mechanism {
            tipping: force / self.scale.length_m * mechanism.tipping,
            along_deck: force * mechanism.along_deck,
            normal: force * resisting,
            held,
        }
    }

    /// The last variable: the share of the load, or the strength in newtons.
    pub(super) fn share(&self) -> f64 {
        self.simplex.value(self.columns.len() - 1)
    }

    /// The sought strength, N.
    pub(super) fn strength_n(&self) -> f64 {
        self.share().max(0.0) * self.scale.force_n
    }

    /// The pull in restraint `i`, N.
    pub(super) fn tension_n(&self, i: usize) -> f64 {
        self.simplex.value(i).max(0.0) * self.scale.force_n
    }

    /// The rows that hold the optimum, with their prices.
    pub(super) fn tight(&self) -> impl Iterator<Item = (Row, f64)> + '_ {
        let priced = self.rows.iter().enumerate();
        priced
            .map(|(number, &row)| (row, self.simplex.multiplier(number)))
            .filter(|&(_, price)| price > 0.0)
    }

    /// Size of the tipping and of the sliding demand of the whole load, scaled like the rows.
    pub(super) fn demand_sizes(&self) -> (f64, f64) {
        let demand = self.columns[self.columns.len() - 1];
        (demand.moment.length(), demand.shear.length())
    }
}

/// Which restraints can pull at all. One of no strength, or made fast to a point of none, or the other leg of such
/// a one, has no column: a variable that has no room between its bounds gains nothing, and the rounding of a
/// pivot on it can look like a contradiction.
fn pulling(holding: &Holding<'_>, least_n: f64, any: bool) -> Vec<bool> {
    let of_point = |restraint: &Restraint| {
        let point = restraint
            .point
            .and_then(|point| holding.point_capacities_n.get(point));
        point.copied().unwrap_or(f64::INFINITY)
    };
    let mut pulls: Vec<bool> = (holding.restraints.iter())
        .map(|restraint| any && restraint.capacity_n.min(of_point(restraint)) > least_n)
        .collect();
    for bight in holding
        .bights
        .iter()
        .filter(|bight| bight.tension_ratio.is_finite())
    {
        let (one, other) = bight.legs;
        if one < pulls.len() && other < pulls.len() {
            let both = pulls[one] && pulls[other];
            (pulls[one], pulls[other]) = (both, both);
        }
    }
    pulls
}

fn is_bounded(restraint: &Restraint) -> bool {
    restraint.sliding_capacity_n.is_finite()
}

fn share_of_point(holding: &Holding<'_>, point: usize, i: usize) -> f64 {
    let restraint = holding.restraints.get(i);
    sign(restraint.is_some_and(|restraint| restraint.point == Some(point)))
}

fn sign(holds: bool) -> f64 {
    f64::from(u8::from(holds))
}
