//! At which share of the motion, or at which roll, does the first utilisation reach 1?
//!
//! A [`Scale`] grows the motion in one of two ways: all of it together, or the roll amplitude alone
//! with everything else held. [`Scale::scan`] looks in small steps and bisects in the first step
//! that goes: it needs no monotony. [`Scale::descend`] is for measures that only grow, case by case,
//! once they are below 1 at the start: free-standing, racked and lying bodies (held by a test on
//! random cases); it follows the governing case down and touches few motions.
//!
//! # References
//!
//! Derived in `docs/method.md`, "The roll limit". False position with the rule of N. Anderson, Å. Björck
//! (1973), BIT 13, 253-264, and halving, as in M. Dowell, P. Jarratt (1971), BIT 11, 168-174, where it fails.

mod held;

use super::motion::{Cases, Extremes, Force, LoadCase, Motion, force_at};
use super::vector::Vec3;

/// Where a body goes first.
#[derive(Copy, Clone, Debug, PartialEq)]
pub enum Limit {
    /// It goes with none of what is scaled: at rest, or in pitch, heave or a push alone.
    AtOnce,

    /// It goes at this share, or at this roll amplitude in radians.
    At(f64),

    /// It stays up to the end of the range.
    NotWithin(f64),
}

impl Limit {
    /// The limit as a number for sorting: 0 at once, infinite when not within the range.
    pub fn value(self) -> f64 {
        match self {
            Self::AtOnce => 0.0,
            Self::At(value) => value,
            Self::NotWithin(_) => f64::INFINITY,
        }
    }
}

/// Half a degree: a step of the scan over roll amplitudes.
pub const ROLL_STEP_RAD: f64 = 0.5 * std::f64::consts::PI / 180.0;

/// The limit is found to this share of the range: far below what any input is known to, far above
/// rounding.
const RESOLUTION: f64 = 1e-7;

/// Less than 1 by more than rounding: what is at most so much used holds.
pub const SURELY_HOLDS: f64 = 1.0 - 1e-9;

/// A utilisation of 1 goes; one that is not a number is not trusted to hold.
fn goes(utilisation: f64) -> bool {
    utilisation >= 1.0 || utilisation.is_nan()
}

/// Smallest `x` in 0..=`range` at which `utilisation` reaches 1, seen in steps of `step`.
///
/// Going and holding again within one step may be missed.
pub fn scan(range: f64, step: f64, mut utilisation: impl FnMut(f64) -> f64) -> Limit {
    if goes(utilisation(0.0)) {
        return Limit::AtOnce;
    }
    let mut below = 0.0;
    let mut steps = 0.0;
    while below < range {
        steps += 1.0;
        let x = (steps * step).min(range);
        if goes(utilisation(x)) {
            return Limit::At(bisect_between(below, x, RESOLUTION * range, utilisation));
        }
        // A step that is too small to move would never end.
        if x <= below {
            break;
        }
        below = x;
    }
    Limit::NotWithin(range)
}

/// Smallest `x` in 0..=`range` at which a `utilisation` that never falls reaches 1.
pub fn bisect(range: f64, mut utilisation: impl FnMut(f64) -> f64) -> Limit {
    if goes(utilisation(0.0)) {
        Limit::AtOnce
    } else if goes(utilisation(range)) {
        Limit::At(bisect_between(0.0, range, RESOLUTION * range, utilisation))
    } else {
        Limit::NotWithin(range)
    }
}

/// The end that still holds, so that a limit is never over-stated.
fn bisect_between(
    mut holds: f64,
    mut fails: f64,
    resolution: f64,
    mut utilisation: impl FnMut(f64) -> f64,
) -> f64 {
    while fails - holds > resolution {
        let middle = 0.5 * (holds + fails);
        if middle <= holds || middle >= fails {
            break;
        }
        if goes(utilisation(middle)) {
            fails = middle;
        } else {
            holds = middle;
        }
    }
    holds
}

/// What is scaled.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
enum Grown {
    Whole,
    Roll,
}

/// A motion that grows, with its largest state prepared: make one per part of the day and ask it for
/// every body.
#[derive(Copy, Clone, Debug)]
pub struct Scale {
    motion: Motion,
    grown: Grown,
    range: f64,
    largest: Cases,
}

impl Scale {
    /// The whole motion, from none of it to `most_share` times it.
    pub fn whole(motion: &Motion, most_share: f64) -> Self {
        Self::new(motion, Grown::Whole, most_share)
    }

    /// The roll amplitude alone, from none to `most_rad`, at the period of the motion.
    pub fn roll(motion: &Motion, most_rad: f64) -> Self {
        Self::new(motion, Grown::Roll, most_rad)
    }

    fn new(motion: &Motion, grown: Grown, range: f64) -> Self {
        let mut scale = Self {
            motion: *motion,
            grown,
            range,
            largest: Cases::new(motion),
        };
        scale.largest = Cases::new(&scale.motion_at(range));
        scale
    }

    /// The motion at a share, or at a roll amplitude.
    pub fn motion_at(&self, x: f64) -> Motion {
        match self.grown {
            Grown::Whole => self.motion.scaled(x),
            Grown::Roll => self.motion.with_roll(x),
        }
    }

    /// Between what a body feels at the largest motion.
    pub fn extremes(&self, position: Vec3) -> Extremes {
        self.largest.extremes(position)
    }

    /// What is told of a body that holds even at the largest motion.
    pub fn not_within(&self) -> Limit {
        Limit::NotWithin(self.range)
    }

    /// Finds the limit of a body in steps, then by bisection; asks every load case at every step.
    ///
    /// `step` is a share, or radians of roll such as [`ROLL_STEP_RAD`].
    pub fn scan(
        &self,
        step: f64,
        position: Vec3,
        mut measure: impl FnMut(&LoadCase, &Force) -> f64,
    ) -> Limit {
        scan(self.range, step, |x| {
            Cases::new(&self.motion_at(x))
                .governing(position, &mut measure)
                .value
        })
    }

    /// Finds the limit of a body whose measure only grows in each load case, and the load case that
    /// governs there.
    ///
    /// Starting from the largest motion, the governing case is followed down to where it holds; where
    /// another case still goes there, that one is followed next. A case that is `likely` to govern is
    /// followed first, which spares looking at all of them at the largest motion.
    pub fn descend(
        &self,
        position: Vec3,
        likely: Option<LoadCase>,
        measure: impl FnMut(&LoadCase, &Force) -> f64,
    ) -> (Limit, LoadCase) {
        self.descend_within(position, likely, measure, None::<fn(&Extremes) -> f64>)
    }

    /// The same where more than the measure, in all load cases together, can be said from the extremes of what the
    /// body feels: most bodies hold by far, and then no load case is looked at by itself.
    pub fn descend_within(
        &self,
        position: Vec3,
        likely: Option<LoadCase>,
        mut measure: impl FnMut(&LoadCase, &Force) -> f64,
        at_most: Option<impl FnOnce(&Extremes) -> f64>,
    ) -> (Limit, LoadCase) {
        let at = |x: f64, case: &LoadCase| force_at(&self.motion_at(x), case, position);
        // The case that is followed, and what is known of it at `x`: none of it is asked for twice.
        let likely = likely.map(|case| (case, measure(&case, &at(self.range, &case))));
        let (mut case, mut value) = if let Some(likely) = likely.filter(|(_, value)| goes(*value)) {
            likely
        } else {
            if let (Some((case, _)), Some(at_most)) = (likely, at_most)
                && at_most(&self.largest.extremes(position)) < SURELY_HOLDS
            {
                return (Limit::NotWithin(self.range), case);
            }
            let governing = self.largest.governing(position, &mut measure);
            if !goes(governing.value) {
                return (Limit::NotWithin(self.range), governing.case);
            }
            (governing.case, governing.value)
        };
        let mut x = self.range;
        loop {
            let mut single = |x: f64| measure(&case, &at(x, &case));
            let at_start = single(0.0);
            if goes(at_start) {
                return (Limit::AtOnce, case);
            }
            let ends = [height(at_start), height(value)];
            let holds = false_position(x, ends, RESOLUTION * self.range, |x| height(single(x)));
            if holds >= x {
                return (Limit::At(x), case);
            }
            x = holds;
            let governing = Cases::new(&self.motion_at(x)).governing(position, &mut measure);
            if !goes(governing.value) {
                return (Limit::At(x), case);
            }
            (case, value) = (governing.case, governing.value);
        }
    }
}

/// Rises with the utilisation, is 0 at 1 and finite for an infinite one.
fn height(utilisation: f64) -> f64 {
    if utilisation.is_nan() || utilisation.is_infinite() {
        1.0
    } else {
        (utilisation - 1.0) / (utilisation + 1.0)
    }
}

/// Between 0, where it holds, and `fails`, where it goes: the largest `x` found that still holds, which
/// is where `height` is negative. `ends` are the heights at both.
fn false_position(
    mut fails: f64,
    [mut low, mut high]: [f64; 2],
    resolution: f64,
    mut height: impl FnMut(f64) -> f64,
) -> f64 {
    let mut holds = 0.0;
    let mut last_held = None;
    // It converges in six to eight steps; a bad shape falls back on halving.
    for step in 0..120 {
        if fails - holds <= resolution {
            break;
        }
        let share = if step % 8 == 7 {
            0.5
        } else {
            (low / (low - high)).clamp(0.0, 1.0)
        };
        // Step over the crossing by half the resolution, so that both ends close in.
        let nudge = 0.45 * resolution / (fails - holds);
        let middle = holds + (fails - holds) * share.clamp(nudge, 1.0 - nudge);
        if middle <= holds || middle >= fails {
            break;
        }
        let at = height(middle);
        let held = at < 0.0;
        if held {
            if last_held == Some(true) {
                high *= eased(at, low);
            }
            (holds, low) = (middle, at);
        } else {
            if last_held == Some(false) {
                low *= eased(at, high);
            }
            (fails, high) = (middle, at);
        }
        last_held = Some(held);
    }
    holds
}

/// By how much the height of the end that stays is lessened when the other end moves twice: the slope there, after
/// Anderson and Björck; half where that would turn it over.
fn eased(now: f64, before: f64) -> f64 {
    let share = 1.0 - now / before;
    if share > 0.0 { share } else { 0.5 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Elementary as _;
    use crate::mechanics::motion::{Axes, GRAVITY, StraightPushes};
    use crate::mechanics::standing::{slide, tip};
    use crate::mechanics::support::Base;
    use crate::mechanics::testing::{AL80, AL80_BASE_M, assert_close};
    use crate::mechanics::vector::vec3;
    use proptest::prelude::*;

    #[test]
    fn a_straight_line_is_found() {
        for limit in [bisect(2.0, |x| x / 0.7), scan(2.0, 0.13, |x| x / 0.7)] {
            assert_close(limit.value(), 0.7, 1e-6);
        }
        assert_eq!(bisect(2.0, |x| 0.4 * x), Limit::NotWithin(2.0));
        assert_eq!(scan(2.0, 0.1, |x| 0.4 * x), Limit::NotWithin(2.0));
        assert_eq!(bisect(2.0, |x| 1.0 + x), Limit::AtOnce);
        assert_eq!(scan(2.0, 0.1, |_| f64::NAN), Limit::AtOnce);
    }

    #[test]
    fn a_scan_sees_a_hump_that_bisection_misses() {
        let hump = |x: f64| 1.2 - 4.0 * (x - 0.5).whole_power(2);
        assert_eq!(bisect(2.0, hump), Limit::NotWithin(2.0));
        assert_close(scan(2.0, 0.05, hump).value(), 0.5 - 0.05_f64.sqrt(), 1e-6);
    }

    #[test]
    fn a_scan_without_steps_ends() {
        assert_eq!(scan(2.0, 0.0, |_| 0.0), Limit::NotWithin(2.0));
        assert_eq!(scan(0.0, 0.1, |_| 0.0), Limit::NotWithin(0.0));
    }

    fn rolling() -> Motion {
        Motion {
            roll_amplitude_rad: 10.0_f64.to_radians(),
            roll_period_s: 4.0,
            vertical_amplitude: 0.1 * GRAVITY,
            ..Motion::default()
        }
    }

    #[test]
    fn a_free_cylinder_goes_before_its_whole_motion() {
        let base = Base::disc(AL80_BASE_M);
        let scale = Scale::whole(&rolling(), 3.0);
        let (limit, case) = scale.descend(vec3(0.0, 1.0, 1.8), None, |_, f| tip(f, &AL80, &base));
        // U is 1.10298 at the whole motion, so the limit lies a little above 1 / 1.10298.
        let share = limit.value();
        assert!(share > 0.90 && share < 0.93, "{share}");
        assert_eq!((case.roll_sign, case.vertical_sign), (1, -1));
    }

    #[test]
    fn pitch_alone_is_told() {
        let motion = Motion {
            pitch_amplitude_rad: 20.0_f64.to_radians(),
            pitch_period_s: 4.0,
            ..rolling()
        };
        let base = Base::disc(AL80_BASE_M);
        let at = vec3(0.0, 1.0, 1.8);
        let (limit, _) = Scale::roll(&motion, 1.0).descend(at, None, |_, f| tip(f, &AL80, &base));
        assert_eq!(limit, Limit::AtOnce);
        let (limit, _) = Scale::whole(&motion, 1.0).descend(at, None, |_, f| tip(f, &AL80, &base));
        assert!(matches!(limit, Limit::At(_)), "{limit:?}");
    }

    pub(super) fn motions() -> impl Strategy<Value = (Motion, Vec3)> {
        (
            (0.0..0.5_f64, 2.2..8.0_f64, 0.0..0.25_f64, 2.2..6.0_f64),
            (0.0..3.0_f64, -0.1..0.1_f64, -0.03..0.03_f64),
            (0.0..3.0_f64, 0.0..2.0_f64),
            (-3.0..12.0_f64, -3.5..3.5_f64, 0.3..4.0_f64),
        )
            .prop_map(|(swing, steady, push, at)| {
                let motion = Motion {
                    roll_amplitude_rad: swing.0,
                    roll_period_s: swing.1,
                    longest_roll_period_s: None,
                    pitch_amplitude_rad: swing.2,
                    pitch_period_s: swing.3,
                    vertical_amplitude: steady.0,
                    heel_rad: steady.1,
                    trim_rad: steady.2,
                    push: StraightPushes {
                        aft: push.0,
                        to_port: push.1,
                        ..StraightPushes::default()
                    },
                    axes: Axes {
                        roll_height_m: 0.0,
                        pitch_x_m: 5.0,
                        pitch_height_m: 0.0,
                    },
                };
                (motion, vec3(at.0, at.1, at.2))
            })
    }

    proptest! {
        #![proptest_config(crate::mechanics::property::cases(64))]

        #[test]
        fn all_searches_agree_on_free_bodies((motion, at) in motions()) {
            let base = Base::disc(AL80_BASE_M);
            let measure = |_: &LoadCase, f: &Force| tip(f, &AL80, &base).max(slide(f, 0.35));
            for scale in [Scale::whole(&motion, 1.5), Scale::roll(&motion, 0.7)] {
                let stepped = scale.scan(0.01, at, measure);
                let (fast, _) = scale.descend(at, None, measure);
                let whole = bisect(scale.range, |x| {
                    Cases::new(&scale.motion_at(x)).governing(at, measure).value
                });
                // Whichever case is followed first, the end is the same.
                for likely in super::super::motion::load_cases(&motion) {
                    let (led, _) = scale.descend(at, Some(likely), measure);
                    match (led, fast) {
                        (Limit::At(a), Limit::At(b)) => prop_assert!((a - b).abs() < 1e-6, "{a}, {b}"),
                        (a, b) => prop_assert_eq!(a, b),
                    }
                }
                match (stepped, fast, whole) {
                    (Limit::At(a), Limit::At(b), Limit::At(c)) => {
                        prop_assert!((a - b).abs() < 1e-5, "scan {a}, descend {b}");
                        prop_assert!((a - c).abs() < 1e-5, "scan {a}, bisect {c}");
                    }
                    (a, b, c) => {
                        prop_assert_eq!(a, b);
                        prop_assert_eq!(a, c);
                    }
                }
            }
        }

        #[test]
        fn the_utilisation_of_a_free_body_never_falls_much((motion, at) in motions()) {
            // A dip of 0.0036 in a_h / a_n was the largest of 40 000 random cases
            // (`docs/method.md`, "The roll limit"), all of it below the roll axis.
            let ratio = |x: f64| {
                Cases::new(&motion.with_roll(x))
                    .governing(at, |_, f| if f.a_n() > 0.0 { f.a_h() / f.a_n() } else { f64::INFINITY })
                    .value
            };
            let mut highest = 0.0_f64;
            for step in 0..=35 {
                let now = ratio(f64::from(step) * 0.02);
                prop_assert!(now >= highest - 0.0036, "{now} after {highest}");
                highest = highest.max(now);
            }
        }

        #[test]
        fn a_mirrored_boat_has_the_same_limit((motion, at) in motions()) {
            let mirrored = Motion {
                heel_rad: -motion.heel_rad,
                push: StraightPushes {
                    to_port: motion.push.to_starboard,
                    to_starboard: motion.push.to_port,
                    ..motion.push
                },
                ..motion
            };
            let base = Base::disc(AL80_BASE_M);
            let limit = |motion: &Motion, y: f64| {
                Scale::whole(motion, 1.5)
                    .descend(vec3(at.x, y, at.z), None, |_, f| tip(f, &AL80, &base))
                    .0
            };
            match (limit(&motion, at.y), limit(&mirrored, -at.y)) {
                (Limit::At(a), Limit::At(b)) => prop_assert!((a - b).abs() < 1e-6),
                (a, b) => prop_assert_eq!(a, b),
            }
        }
    }
}
