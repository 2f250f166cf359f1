//! The state of a body that rocks, carried on in time.

use super::{Drive, Impact, LONGEST_STEP_S, OVER_RAD, REST_RAD, Rocker, Side};

/// Impacts that one step may hold; beyond them what is left is below anything that is told.
const MOST_IMPACTS: u32 = 16;

/// A share of a step below which nothing is left of it.
const NOTHING: f64 = 1e-9;

/// How far a body has come in its plane.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Swing {
    /// Positive towards `d`, rad; its sign is that of the side, or it is zero.
    pub lean_rad: f64,

    /// rad/s.
    pub rate_rad_s: f64,

    /// The edge on which it stands; `None` while it stands on its whole foot.
    pub on: Option<Side>,
}

/// How it ended, if it did.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Ended {
    /// It went over, this way.
    Over(Side),
    /// Nothing pressed it down any more.
    LiftedOff,
}

impl Swing {
    /// Upright, at rest.
    pub const REST: Self = Self {
        lean_rad: 0.0,
        rate_rad_s: 0.0,
        on: None,
    };

    /// Let go at a lean.
    pub fn released(lean_rad: f64) -> Self {
        Self {
            lean_rad,
            rate_rad_s: 0.0,
            on: Some(if lean_rad < 0.0 {
                Side::Away
            } else {
                Side::Towards
            }),
        }
    }

    /// Carries the swing on by `step_s`, over which the drive runs straight from the one to the other.
    ///
    /// Where it ended it says so, and the share of the step at which it did, to the length of a step of the
    /// integration.
    pub fn advance(
        &mut self,
        body: &Rocker,
        (from, to): (&Drive, &Drive),
        step_s: f64,
        impact: Impact,
    ) -> Option<(Ended, f64)> {
        let parts = (step_s / LONGEST_STEP_S).ceil().clamp(1.0, 1e6);
        let mut done = 0.0;
        while done < parts {
            let (start, end) = (done / parts, (done + 1.0) / parts);
            let ends = (&from.towards(to, start), &from.towards(to, end));
            if let Some(ended) = self.one_step(body, ends, step_s / parts, impact) {
                return Some((ended, end));
            }
            done += 1.0;
        }
        None
    }

    fn one_step(
        &mut self,
        body: &Rocker,
        (from, to): (&Drive, &Drive),
        step_s: f64,
        impact: Impact,
    ) -> Option<Ended> {
        if to.onto <= 0.0 {
            return Some(Ended::LiftedOff);
        }
        let (mut from, mut left_s) = (*from, step_s);
        for _ in 0..MOST_IMPACTS {
            let Some(side) = self.on else {
                let (side, share) = lifts_at(body, &from, to)?;
                from = from.towards(to, share);
                left_s *= 1.0 - share;
                *self = Self {
                    on: Some(side),
                    ..Self::REST
                };
                if left_s <= NOTHING * step_s {
                    return None;
                }
                continue;
            };
            let stepped = self.stepped(body, side, (&from, to), left_s, 1.0);
            if side.sign() * stepped.lean_rad >= 0.0 {
                *self = stepped;
                let over = self.lean_rad.abs() > OVER_RAD;
                return over.then_some(Ended::Over(side));
            }
            let (at_impact, share) = self.until_impact(body, side, (&from, to), left_s, &stepped);
            from = from.towards(to, share);
            left_s *= 1.0 - share;
            *self = at_impact.after_impact(body, side, &from, impact);
            if left_s <= NOTHING * step_s {
                return None;
            }
        }
        // So many impacts within a step: it only trembles.
        *self = Self::REST;
        None
    }

    /// Runge and Kutta's step of the fourth order over a share of the time.
    fn stepped(
        &self,
        body: &Rocker,
        side: Side,
        (from, to): (&Drive, &Drive),
        whole_s: f64,
        share: f64,
    ) -> Self {
        let h = whole_s * share;
        let middle = from.towards(to, 0.5 * share);
        let end = from.towards(to, share);
        let (x, v) = (self.lean_rad, self.rate_rad_s);
        let acceleration = |lean: f64, drive: &Drive| body.acceleration(side, lean, drive);
        let a1 = acceleration(x, from);
        let v2 = v + 0.5 * h * a1;
        let a2 = acceleration(x + 0.5 * h * v, &middle);
        let v3 = v + 0.5 * h * a2;
        let a3 = acceleration(x + 0.5 * h * v2, &middle);
        let v4 = v + h * a3;
        let a4 = acceleration(x + h * v3, &end);
        Self {
            lean_rad: x + h / 6.0 * (v + 2.0 * v2 + 2.0 * v3 + v4),
            rate_rad_s: v + h / 6.0 * (a1 + 2.0 * a2 + 2.0 * a3 + a4),
            on: Some(side),
        }
    }

    /// The state at the impact within a step, and the share of the step at which it is.
    fn until_impact(
        &self,
        body: &Rocker,
        side: Side,
        ends: (&Drive, &Drive),
        whole_s: f64,
        stepped: &Self,
    ) -> (Self, f64) {
        let s = side.sign();
        // It still stands on its edge at `low` and is beyond the impact at `high`.
        let (mut low, mut high) = (0.0, 1.0);
        let mut share = {
            let (a, b) = (s * self.lean_rad, s * stepped.lean_rad);
            a / (a - b)
        };
        let mut state = *stepped;
        for _ in 0..24 {
            share = if share > low && share < high {
                share
            } else {
                0.5 * (low + high)
            };
            state = self.stepped(body, side, ends, whole_s, share);
            let lean = s * state.lean_rad;
            if lean >= 0.0 {
                low = share;
            } else {
                high = share;
            }
            let change = state.lean_rad / (state.rate_rad_s * whole_s);
            if lean.abs() < 1e-13 || high - low < 1e-14 || change.abs() < 1e-14 {
                break;
            }
            share -= change;
        }
        (state, share)
    }

    /// Goes over to the other edge, or to rest.
    fn after_impact(&self, body: &Rocker, from: Side, drive: &Drive, impact: Impact) -> Self {
        let onto = from.other();
        let rate_rad_s = self.rate_rad_s * body.speed_kept(onto, impact);
        // What rights it on the new edge.
        let righting = -onto.sign() * body.acceleration(onto, 0.0, drive);
        let towards_edge = onto.sign() * rate_rad_s;
        let rests = righting > 0.0 && towards_edge * towards_edge <= 2.0 * righting * REST_RAD;
        if rests || towards_edge <= 0.0 && righting >= 0.0 {
            return Self::REST;
        }
        Self {
            lean_rad: 0.0,
            rate_rad_s,
            on: Some(onto),
        }
    }
}

/// The edge over which a body at rest lifts between two drives, and the share of the way at which it does.
fn lifts_at(body: &Rocker, from: &Drive, to: &Drive) -> Option<(Side, f64)> {
    let share = |side: Side| {
        let (a, b) = (body.excess(side, from), body.excess(side, to));
        if a > 0.0 {
            Some(0.0)
        } else if b > 0.0 {
            Some(a / (a - b))
        } else {
            None
        }
    };
    match (share(Side::Towards), share(Side::Away)) {
        (Some(a), Some(b)) if b < a => Some((Side::Away, b)),
        (Some(a), _) => Some((Side::Towards, a)),
        (None, Some(b)) => Some((Side::Away, b)),
        (None, None) => None,
    }
}
