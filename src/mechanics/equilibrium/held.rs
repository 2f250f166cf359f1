//! One held body that is asked at many loads.
//!
//! What holds it does not depend on the load, so the program is built once. Pulls that once kept it
//! are tried first, all of them less by the same share where the load is less: if they still do, there is
//! nothing to solve. (At rest no pulls are needed, and what is balanced between two loads by pulls between
//! theirs is balanced: loads and pulls that hold make a convex set.)

use super::program::{Aim, Mechanism, Program};
use super::{
    Body, Failure, Holding, Load, MOST_SHARE, NO_SHARE, Sought, can_hold_down, failure,
    goes_at_once_as,
};
use crate::geometry::Vec2;

/// More pulls than this are not remembered. Few differ: two or three for each side.
const MOST_PULLS: usize = 10;

/// From this share on nothing is loaded.
const NOTHING_LOADS_IT: f64 = MOST_SHARE * (1.0 - NO_SHARE);

/// A held body, prepared for any number of loads.
#[derive(Debug)]
pub struct Held<'a> {
    body: Body<'a>,
    holding: Holding<'a>,
    program: Program<'a>,
    /// For loads with which the program comes to no end.
    bounded: Option<Program<'a>>,
    /// The same where even that comes to none: its feet alone.
    feet: Option<Program<'a>>,
    /// The one that was of use last in front.
    pulls: Vec<KnownPulls>,
    /// Those that are tried, less by a share.
    tried: Vec<f64>,
    /// Can remembered pulls decide: is the centre of gravity over the feet?
    stands_at_rest: bool,
}

/// Pulls that once kept a body.
#[derive(Debug)]
struct KnownPulls {
    /// Scaled, within all strengths.
    pulls: Vec<f64>,
    /// What tipped it then.
    tipping: Vec2,
}

impl KnownPulls {
    /// The share of them that a load asks for: as much as it tips in the direction in which they were
    /// needed. `None` where it tips the other way; never more than all of them.
    fn share_for(&self, load: &Load) -> Option<f64> {
        let square = self.tipping.length_squared();
        if square <= 0.0 {
            return Some(1.0);
        }
        let share = load.tipping.dot(self.tipping) / square;
        (share > 0.0).then(|| share.min(1.0))
    }
}

/// How much of what a held body can stand a load uses up.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Used {
    /// At 1 it goes.
    pub utilisation: f64,

    /// How it would go, unless nothing loads it.
    pub failure: Option<Failure>,

    /// The same as a bound on every load; not given where no share of the load can be stood, or nothing
    /// loads it.
    pub mechanism: Option<Mechanism>,
}

/// Whether a body stays under a load.
#[derive(Copy, Clone, Debug, PartialEq)]
pub enum Outcome {
    /// Its utilisation is below 1.
    Stays,

    /// Its utilisation is 1 or more. The mechanism is not given where no share of the load can be
    /// stood.
    Goes(Option<Mechanism>),
}

impl<'a> Held<'a> {
    /// A body and what holds it.
    pub fn new(body: Body<'a>, holding: Holding<'a>) -> Self {
        let program = Program::unloaded(&body, &holding, Aim::Share(MOST_SHARE));
        let outside = body.feet.excess(Vec2::ZERO, 1.0);
        Self {
            program,
            bounded: None,
            feet: None,
            pulls: vec![KnownPulls {
                pulls: vec![0.0; holding.restraints.len()],
                tipping: Vec2::ZERO,
            }],
            tried: Vec::new(),
            stands_at_rest: outside.is_none_or(|excess| excess.amount <= 0.0),
            body,
            holding,
        }
    }

    /// As [`super::utilisation`], without the pulls, and with the mechanism.
    pub fn utilisation(&mut self, load: &Load) -> Used {
        let infinite = |failure| Used {
            utilisation: f64::INFINITY,
            failure: Some(failure),
            mechanism: None,
        };
        if let Some(failure) = self.goes_at_once(load) {
            return infinite(failure);
        }
        let program = self.solved(load);
        let failure = failure(program);
        let Some(share) = program.share_found() else {
            return infinite(goes_at_once_as(failure, load));
        };
        if share >= NOTHING_LOADS_IT {
            return Used::default();
        }
        let mechanism = Some(program.mechanism());
        let pulls = program.pulls().collect();
        self.remember(pulls, share * load.tipping);
        Used {
            utilisation: 1.0 / share,
            failure,
            mechanism,
        }
    }

    /// Is the utilisation for certain below this one, which is above zero? The pulls that are remembered tell,
    /// without anything to solve.
    pub fn uses_less_than(&mut self, load: &Load, utilisation: f64) -> bool {
        let grown = 1.0 / utilisation;
        self.is_kept(&Load {
            tipping: grown * load.tipping,
            along_deck: grown * load.along_deck,
            normal: load.normal * if load.normal < 0.0 { grown } else { 1.0 },
        })
    }

    /// Does the body stay under this load?
    pub fn outcome(&mut self, load: &Load) -> Outcome {
        if self.is_kept(load) {
            return Outcome::Stays;
        }
        if self.goes_at_once(load).is_some() {
            return Outcome::Goes(None);
        }
        let program = self.solved(load);
        match program.share_found() {
            None => Outcome::Goes(None),
            Some(share) if 1.0 / share >= 1.0 => Outcome::Goes(Some(program.mechanism())),
            Some(share) => {
                let pulls = program.pulls().collect();
                self.remember(pulls, share * load.tipping);
                Outcome::Stays
            }
        }
    }

    /// A program with this load, solved if it can be.
    fn solved(&mut self, load: &Load) -> &Program<'a> {
        self.program.load(load);
        if self.program.solve().is_ok() {
            return &self.program;
        }
        let bounded = self.bounded.get_or_insert_with(|| {
            Program::bounded(&self.body, &self.holding, Aim::Share(MOST_SHARE))
        });
        bounded.load(load);
        if bounded.solve().is_ok() {
            return bounded;
        }
        let feet = self.feet.get_or_insert_with(|| {
            Program::of_feet(&self.body, &self.holding, Aim::Share(MOST_SHARE))
        });
        feet.load(load);
        // Whether it was is asked of the program.
        feet.solve().ok();
        feet
    }

    /// Do pulls that are remembered keep it?
    fn is_kept(&mut self, load: &Load) -> bool {
        if !self.stands_at_rest {
            return false;
        }
        let (program, tried) = (&self.program, &mut self.tried);
        let known = self.pulls.iter().position(|known| {
            known.share_for(load).is_some_and(|share| {
                tried.clear();
                tried.extend(known.pulls.iter().map(|pull| share * pull));
                program.is_kept_by(tried, load)
            })
        });
        if let Some(number) = known {
            self.pulls[..=number].rotate_right(1);
        }
        known.is_some()
    }

    fn remember(&mut self, pulls: Vec<f64>, tipping: Vec2) {
        self.pulls.truncate(MOST_PULLS - 1);
        self.pulls.insert(0, KnownPulls { pulls, tipping });
    }

    fn goes_at_once(&self, load: &Load) -> Option<Failure> {
        super::goes_without_load(&self.body, &self.holding, load)
    }
}

/// The least strength that what is sought must have, asked at many loads: the greatest of all.
#[derive(Debug)]
pub struct LeastCapacity<'a> {
    body: Body<'a>,
    program: Program<'a>,
    can_hold_down: bool,
    least_n: f64,
    /// The scaled pulls at the load that asked for most.
    pulls: Vec<f64>,
}

impl<'a> LeastCapacity<'a> {
    /// As [`super::least_capacity`].
    pub fn new(body: Body<'a>, holding: &Holding<'_>, sought: &Sought<'_>) -> Self {
        let mut program = Program::unloaded(&body, holding, Aim::Strength);
        for &restraint in sought.restraints {
            program.seek_restraint(restraint);
        }
        for &point in sought.points {
            program.seek_point(holding, point);
        }
        Self {
            program,
            can_hold_down: can_hold_down(holding),
            least_n: 0.0,
            pulls: Vec::new(),
            body,
        }
    }

    /// One more load under which the body must stay. `None` if no strength is enough.
    pub fn add(&mut self, load: &Load) -> Option<()> {
        if super::holds(&self.body, &Holding::default(), load) {
            return Some(());
        }
        if load.normal <= 0.0 && !self.can_hold_down {
            return None;
        }
        if !self.pulls.is_empty() && self.program.is_kept_by(&self.pulls, load) {
            return Some(());
        }
        self.program.load(load);
        self.program.solve().ok()?;
        let needed_n = self.program.strength_n();
        if needed_n > self.least_n || self.pulls.is_empty() {
            self.least_n = self.least_n.max(needed_n);
            self.pulls = self.program.pulls().collect();
        }
        Some(())
    }

    /// The least strength for all loads so far, in newtons.
    pub fn least_n(&self) -> f64 {
        self.least_n
    }
}
