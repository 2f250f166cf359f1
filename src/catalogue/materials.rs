//! What lashings are made of, how worn they are, and what they are made fast to.

use serde::Deserialize;

use super::provenance::{Bounds, Sourced};

/// The form of a lashing material.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MaterialForm {
    /// Webbing.
    Strap,
    /// Fibre rope.
    Rope,
    /// Chain.
    Chain,
    /// Wire rope.
    WireRope,
    /// Elastic cord.
    ShockCord,
    /// Net.
    Net,
}

/// A lashing material in one size.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Material {
    /// Short name by which deck plans refer to it.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// What it is.
    pub form: MaterialForm,
    /// Breaking strength from piece to piece, kN; none if only its maker knows.
    pub breaking_strength_kn: Option<Sourced<Bounds>>,
    /// Maximum securing load as a share of the breaking strength; none for what secures nothing.
    pub msl_share: Option<Sourced<f64>>,
    /// Pull over relative stretch (EA), kN: softest and stiffest.
    pub axial_stiffness_kn: Option<Sourced<Bounds>>,
    /// Pretension that a hand gives it, kN.
    pub hand_tension_kn: Option<Sourced<Bounds>>,
    /// Stretch at which it becomes hard, as a share of its length; shock cord only.
    pub full_stretch_share: Option<Sourced<Bounds>>,
    /// What else is known.
    pub note: Option<String>,
    /// Ids of the sources.
    pub sources: Vec<String>,
}

impl Material {
    /// Maximum securing load of the weakest piece in good condition, kN.
    ///
    /// None for shock cord, which secures nothing, and where the breaking strength is not known. The
    /// provenance is the weaker one of strength and share.
    pub fn msl_kn(&self) -> Option<Sourced<f64>> {
        let (strength, share) = (self.breaking_strength_kn?, self.msl_share?);
        Some(Sourced::new(
            strength.value.least * share.value,
            strength.provenance.max(share.provenance),
        ))
    }

    /// Whether it gives way so much that it counts nothing beside a strap.
    pub fn is_elastic(&self) -> bool {
        self.form == MaterialForm::ShockCord
    }

    /// Pull per stretch of a piece of this length, kN/m: softest and stiffest.
    ///
    /// The softest leans farthest, the stiffest snatches hardest; use each where it is the worse.
    pub fn stiffness_kn_per_m(&self, length_m: f64) -> Option<Sourced<Bounds>> {
        let stiffness = self.axial_stiffness_kn?;
        (length_m > 0.0).then(|| {
            Sourced::new(
                Bounds {
                    least: stiffness.value.least / length_m,
                    most: stiffness.value.most / length_m,
                },
                stiffness.provenance,
            )
        })
    }
}

/// How worn a lashing is.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WearCondition {
    /// Short name by which deck plans refer to it.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// What is left of its strength.
    pub share_left: Sourced<f64>,
    /// What else is known.
    pub note: Option<String>,
    /// Ids of the sources.
    pub sources: Vec<String>,
}

/// The direction in which a lashing point is meant to be pulled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StrongDirection {
    /// Square off the surface it is fixed to.
    OutOfSurface,
    /// Along the surface.
    AlongSurface,
    /// Every direction.
    Any,
    /// Nobody knows.
    NotKnown,
}

/// A kind of lashing point. Its strength on a given boat is not known until somebody finds out; what
/// stands here is what is usual, for information only.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PointKind {
    /// Short name, as in deck plans.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Part of the guard rails, to which nothing may be lashed (49 CFR 176.74(a)).
    #[serde(default)]
    pub guard_rail: bool,
    /// Direction in which it is strongest.
    pub strong_direction: StrongDirection,
    /// Share of the strength that is left, by the angle off the strong direction in degrees, rising.
    pub share_by_angle: Option<Sourced<Vec<(f64, f64)>>>,
    /// Usual breaking strength, kN.
    pub usual_breaking_kn: Option<Sourced<Bounds>>,
    /// Usual working load limit, kN.
    pub usual_working_kn: Option<Sourced<Bounds>>,
    /// What else is known.
    pub note: Option<String>,
    /// Ids of the sources.
    pub sources: Vec<String>,
}

impl PointKind {
    /// Share of the strength that is left for a pull at an angle off the strong direction.
    ///
    /// Straight lines between the listed angles. None beyond the last: not known.
    pub fn share_at(&self, angle_deg: f64) -> Option<f64> {
        if self.strong_direction == StrongDirection::Any {
            return Some(1.0);
        }
        let table = &self.share_by_angle.as_ref()?.value;
        let after = table.iter().position(|&(angle, _)| angle >= angle_deg)?;
        let (upper_angle, upper_share) = *table.get(after)?;
        let (lower_angle, lower_share) = *table.get(after.saturating_sub(1))?;
        if upper_angle <= lower_angle {
            return Some(upper_share);
        }
        let t = (angle_deg - lower_angle) / (upper_angle - lower_angle);
        Some(lower_share + t * (upper_share - lower_share))
    }
}
