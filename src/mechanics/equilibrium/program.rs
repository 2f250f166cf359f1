//! The linear program of a held body, with its rows made as they are needed.
//!
//! The ground carries every wrench inside a cone: moments inside the feet times the weight, shears
//! inside the circle of friction. A cone is the limit of infinitely many rows, one for each direction.
//! The program starts with none; at each optimum the direction that is missed by most is found in
//! closed form and its row added (Kelley's cutting planes). So no fixed fan of directions decides how
//! exact the answer is.

use super::dual_simplex::{DualSimplex, Failure};
use super::feet::{Excess, Feet};
use super::{Bight, Body, Foot, Holding, Load, Restraint};
use crate::geometry::Vec2;

/// By how much a direction may be missed at the end, relative to the terms of its row.
const MISSED: f64 = 1e-9;

/// A row that is still missed after so many rounds by less than [`MISSED_AT_WORST`] is left.
const MOST_ROUNDS: usize = 80;
const MISSED_AT_WORST: f64 = 1e-6;

/// What one unit of a variable does to the body, in scaled units.
#[derive(Copy, Clone, Debug, Default)]
pub(super) struct Wrench {
    /// Overturning moment about the point below the centre of gravity, pointing the way it tips.
    pub(super) moment: Vec2,
    /// Force that presses it down.
    pub(super) weight: f64,
    /// Force along the deck.
    pub(super) shear: Vec2,
    /// The same with only what counts against sliding.
    pub(super) counted_weight: f64,
    pub(super) counted_shear: Vec2,
}

impl Wrench {
    fn add(&mut self, other: &Self, times: f64) {
        self.moment += times * other.moment;
        self.weight += times * other.weight;
        self.shear += times * other.shear;
        self.counted_weight += times * other.counted_weight;
        self.counted_shear += times * other.counted_shear;
    }
}

/// What a row stands for.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(super) enum Row {
    /// It must not tip that way.
    Tip(Vec2),
    /// Its foot must not slide that way.
    Slide(Vec2),
    /// The same with only what counts against sliding.
    SlideCounted(Vec2),
    /// It must not lift.
    Lift,
    /// A shared point, a bight, an unknown strength.
    Link,
}

/// What a wrench is divided by.
#[derive(Copy, Clone, Debug)]
pub(super) struct Scale {
    pub(super) force_n: f64,
    pub(super) length_m: f64,
}

impl Scale {
    /// About the body's own weight, and about the height of a cylinder's centre of gravity.
    fn of(body: &Body<'_>) -> Self {
        Self {
            force_n: body.mass_kg * 10.0,
            length_m: 0.3,
        }
    }

    fn load(&self, body: &Body<'_>, tipping: Vec2, along: Vec2, normal: f64) -> Wrench {
        let force = body.mass_kg / self.force_n;
        let moment = force / self.length_m;
        let shear = force * along;
        Wrench {
            moment: moment * tipping,
            weight: normal * force,
            shear,
            counted_weight: normal * force,
            counted_shear: shear,
        }
    }

    /// One scaled unit of the part of a pull that counts against sliding, where that is bounded.
    fn counted_part(restraint: &Restraint) -> Wrench {
        Wrench {
            counted_weight: -restraint.pull.z,
            counted_shear: restraint.pull.horizontal(),
            ..Wrench::default()
        }
    }

    /// One scaled unit of pull.
    fn restraint(&self, restraint: &Restraint) -> Wrench {
        let (u, down) = (restraint.pull.horizontal(), -restraint.pull.z);
        let (a, s) = (restraint.attachment, restraint.height_m);
        let counted = sign(restraint.sliding_capacity_n.is_infinite());
        Wrench {
            moment: (s * u + down * a) / self.length_m,
            weight: down,
            shear: u,
            counted_weight: counted * down,
            counted_shear: counted * u,
        }
    }
}

/// The program: the wrenches of its variables, what must balance them, and the simplex that grows.
#[derive(Debug)]
pub(super) struct Program<'a> {
    feet: Feet<'a>,
    friction: Option<f64>,
    has_bounded: bool,
    scale: Scale,
    constant: Wrench,
    columns: Vec<Wrench>,
    simplex: DualSimplex,
    pub(super) rows: Vec<Row>,
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
        let scale = Scale::of(body);
        let nothing = Vec2::ZERO;
        // A load that pulls the body off the deck is part of what must be held: it grows with the share.
        let resisting = load.normal.max(0.0);
        let lifting = load.normal.min(0.0);
        let mut constant = scale.load(body, nothing, nothing, resisting);
        let demand = scale.load(body, load.tipping, load.along_deck, lifting);
        let restraints = holding.restraints;
        let bounded = || restraints.iter().enumerate().filter(|(_, r)| is_bounded(r));
        let mut columns: Vec<Wrench> = Vec::with_capacity(restraints.len() + 1);
        columns.extend(
            restraints
                .iter()
                .map(|restraint| scale.restraint(restraint)),
        );
        columns.extend(bounded().map(|(_, restraint)| Scale::counted_part(restraint)));
        let last = match aim {
            Aim::Balance => {
                constant.add(&demand, 1.0);
                None
            }
            Aim::Share(most) => {
                columns.push(demand);
                Some((most, 1.0))
            }
            Aim::Strength => {
                constant.add(&demand, 1.0);
                columns.push(Wrench::default());
                Some((f64::INFINITY, -1.0))
            }
        };
        let bounds = restraints
            .iter()
            .map(|restraint| restraint.capacity_n)
            .chain(bounded().map(|(_, restraint)| restraint.sliding_capacity_n))
            .map(|capacity_n| (capacity_n.max(0.0) / scale.force_n, 0.0))
            .chain(last);
        let simplex = DualSimplex::new(bounds, columns.len());
        let mut program = Self {
            feet: body.feet,
            friction: match body.foot {
                Foot::Free => Some(body.friction.max(0.0)),
                Foot::Stopped => None,
            },
            has_bounded: restraints.iter().any(is_bounded),
            scale,
            constant,
            columns,
            simplex,
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

    fn add_missed(&mut self, tolerance: f64) -> usize {
        let wrench = self.wrench();
        let before = self.rows.len();
        let missed = |amount: f64, size: f64| amount > tolerance * (1.0 + size);
        if missed(-wrench.weight, 0.0) {
            self.add_cut(Row::Lift);
        }
        // A body that lifts presses nowhere; its feet and friction then carry nothing.
        let weight = wrench.weight.max(0.0);
        if let Some(tip) = self.feet_scaled(wrench.moment, weight)
            && missed(tip.amount, wrench.moment.length())
        {
            self.add_cut(Row::Tip(tip.direction));
        }
        if let Some(friction) = self.friction {
            if let Some(slide) = slide(wrench.shear, friction * weight)
                && missed(slide.amount, wrench.shear.length())
            {
                self.add_cut(Row::Slide(slide.direction));
            }
            let counted = friction * wrench.counted_weight.max(0.0);
            if self.has_bounded
                && let Some(slide) = slide(wrench.counted_shear, counted)
                && missed(slide.amount, wrench.counted_shear.length())
            {
                self.add_cut(Row::SlideCounted(slide.direction));
            }
        }
        self.rows.len() - before
    }

    /// The excess of a scaled moment: the feet are in metres, the moment in scaled lengths.
    fn feet_scaled(&self, moment: Vec2, weight: f64) -> Option<Excess> {
        self.feet.excess(moment, weight / self.scale.length_m)
    }

    fn add_cut(&mut self, row: Row) {
        let rho = match row {
            Row::Tip(e) => self.feet.support_distance(e) / self.scale.length_m,
            _ => 0.0,
        };
        let friction = self.friction.unwrap_or(0.0);
        let demand = |w: &Wrench| match row {
            Row::Tip(e) => e.dot(w.moment) - rho * w.weight,
            Row::Slide(e) => e.dot(w.shear) - friction * w.weight,
            Row::SlideCounted(e) => e.dot(w.counted_shear) - friction * w.counted_weight,
            Row::Lift => -w.weight,
            Row::Link => 0.0,
        };
        self.simplex
            .add_row(self.columns.iter().map(demand), -demand(&self.constant));
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

fn slide(shear: Vec2, held: f64) -> Option<Excess> {
    Some(Excess {
        direction: shear.normalized()?,
        amount: shear.length() - held,
    })
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
