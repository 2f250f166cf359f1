//! Lashings of one part of the day in SI: where they run, what they can take, how tight they are.

use std::collections::BTreeMap;

use super::hold::{newtons, position};
use crate::catalogue::Catalogue;
use crate::catalogue::materials::Material;
use crate::geometry::Elementary as _;
use crate::layout::{
    Boat, Cylinder, DayState, Id, Known, LashCondition, Lashing, LashingPoint, Placing, PointKind,
    Trip,
};
use crate::mechanics::lashing::leg::Leg;
use crate::mechanics::lashing::strength::{ANY_ANGLE, EYE_BOLT, calculation_strength_n};
use crate::mechanics::vector::{Vec3, vec3};

/// What a knot leaves of a rope or strap (a published table of rope knots: about a half).
const KNOTTED: f64 = 0.5;
/// What sun leaves of a bleached strap (common practice, no source).
const BLEACHED: f64 = 0.5;

/// A lashing point as a lashing sees it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct PointState {
    pub(super) id: Id,
    pub(super) kind: PointKind,
    /// Boat frame.
    pub(super) at: Vec3,
    /// Maximum securing load in a straight pull; `None` if not known.
    pub(super) msl_n: Option<f64>,
    /// The direction of a straight pull, if it has one.
    pub(super) axis: Option<Vec3>,
}

impl PointState {
    /// Maximum securing load for the pull of this leg.
    pub(super) fn strength_n(&self, leg: &Leg) -> Option<f64> {
        let curve = if self.axis.is_some() {
            EYE_BOLT
        } else {
            ANY_ANGLE
        };
        let angle = self.axis.map_or(0.0, |axis| leg.angle_to_fitting_rad(axis));
        self.msl_n.map(|msl| msl * curve.share(angle))
    }
}

/// A lashing in one part of the day.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct StrapState {
    pub(super) id: Id,
    pub(super) shut: bool,
    pub(super) condition: LashCondition,
    /// The cylinders it goes round that are still there.
    pub(super) round: Vec<Id>,
    /// Is one that it went round not there any more?
    pub(super) one_left: bool,
    pub(super) height_m: f64,
    pub(super) points: [PointState; 2],
    /// Maximum securing load of the strap itself, condition counted; `None` if not known.
    pub(super) msl_n: Option<f64>,
    /// Force for one metre of stretch of one metre of strap, in newtons; `None` if not known.
    pub(super) stiffness_n: Option<f64>,
    /// Given stiffness of the whole, in newtons for one metre.
    pub(super) whole_stiffness_n_per_m: Option<f64>,
    pub(super) is_cord: bool,
    /// `None`: nobody knows.
    pub(super) slack_m: Option<f64>,
    pub(super) pretension_n: Option<f64>,
}

impl StrapState {
    /// Does it hold anything at all? Round several it is one thing: when one of them leaves, it goes
    /// slack by the girth that left and holds none of the others.
    pub(super) fn counts(&self) -> bool {
        self.shut && self.condition != LashCondition::Cut && !self.one_left
    }

    /// Does somebody know the strength of the strap and of both its points?
    pub(super) fn is_known(&self) -> bool {
        self.msl_n.is_some() && self.points.iter().all(|point| point.msl_n.is_some())
    }

    /// Calculation strength of strap and points in a straight pull, in newtons; infinite where nobody
    /// knows.
    pub(super) fn least_capacity_n(&self) -> f64 {
        let all = [self.msl_n, self.points[0].msl_n, self.points[1].msl_n];
        calculation_strength_n(
            all.into_iter()
                .map(|msl| msl.unwrap_or(f64::INFINITY))
                .fold(f64::INFINITY, f64::min),
        )
    }
}

/// All lashings of one part of the day.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Straps {
    pub(super) all: Vec<StrapState>,
    /// The numbers of those round each body.
    round: BTreeMap<Id, Vec<usize>>,
}

impl Straps {
    /// The lashings that go round this body.
    pub(super) fn on(&self, body: &str) -> impl Iterator<Item = &StrapState> {
        let numbers = self.round.get(body).map_or(&[][..], Vec::as_slice);
        numbers.iter().map(|number| &self.all[*number])
    }

    /// Resolves the lashings of a part of the day.
    pub(super) fn of_day(boat: &Boat, trip: &Trip, day: &DayState) -> Self {
        let mut all: Vec<StrapState> = day
            .lashings
            .iter()
            .filter_map(|state| strap(boat, trip, day, &state.lashing))
            .collect();
        // Nothing depends on the order of the file.
        all.sort_by(|a, b| a.id.cmp(&b.id));
        let mut round: BTreeMap<Id, Vec<usize>> = BTreeMap::new();
        for (number, strap) in all.iter().enumerate() {
            for id in &strap.round {
                let numbers = round.entry(id.clone()).or_default();
                if numbers.last() != Some(&number) {
                    numbers.push(number);
                }
            }
        }
        Self { all, round }
    }
}

/// Is the cylinder where a strap can go round it: on deck and in nobody's hands?
fn is_in_place(cylinder: &Cylinder) -> bool {
    !matches!(
        cylinder.placing,
        Placing::InWater | Placing::Ashore | Placing::OnDiver { .. } | Placing::HeldByHand { .. }
    )
}

fn point_state(boat: &Boat, point: &LashingPoint) -> Option<PointState> {
    Some(PointState {
        id: point.id.clone(),
        kind: point.kind,
        at: position(boat, &point.deck, point.at, point.height_m)?,
        msl_n: newtons(point.strength_kn),
        axis: point.straight_pull.map(|pull| {
            let (sin_up, cos_up) = pull.up_deg.to_radians().sine_cosine();
            let (sin, cos) = pull.turn_deg.to_radians().sine_cosine();
            vec3(cos_up * cos, cos_up * sin, sin_up)
        }),
    })
}

/// Maximum securing load by the catalogue: nothing for shock cord, which secures nothing; `None` where
/// nobody knows.
fn catalogue_msl_n(material: Option<&Material>) -> Option<f64> {
    let material = material?;
    if material.is_elastic() {
        return Some(0.0);
    }
    material.msl_kn().map(|msl| 1000.0 * msl.value)
}

fn strap(boat: &Boat, trip: &Trip, day: &DayState, lashing: &Lashing) -> Option<StrapState> {
    let from = point_state(boat, boat.lashing_point(&lashing.from)?)?;
    let to = point_state(boat, boat.lashing_point(&lashing.to)?)?;
    let used = trip
        .materials
        .iter()
        .find(|item| item.id == lashing.material);
    let material = Catalogue::built_in().material(&lashing.material);
    let is_cord = material.is_some_and(Material::is_elastic);
    let new_msl_n = match lashing.strength_kn {
        // Whatever is written on it: shock cord gives until the cylinder has fallen.
        _ if is_cord => Some(0.0),
        Some(known) => newtons(known),
        None => match used {
            Some(used) => newtons(used.strength_kn),
            None => catalogue_msl_n(material),
        },
    };
    let left = match lashing.condition {
        LashCondition::Good => 1.0,
        LashCondition::Knotted => KNOTTED,
        LashCondition::Bleached => BLEACHED,
        LashCondition::Cut => 0.0,
    };
    let (slack_m, pretension_n) = match (lashing.slack_m, lashing.pretension_kn) {
        (Some(slack), _) => (slack.value(), None),
        (None, Some(pretension)) => {
            let pretension = newtons(pretension);
            (pretension.map(|_| 0.0), pretension)
        }
        (None, None) => (None, None),
    };
    let round: Vec<Id> = lashing
        .round
        .iter()
        .filter(|id| day.cylinder(id).is_some_and(is_in_place))
        .cloned()
        .collect();
    Some(StrapState {
        id: lashing.id.clone(),
        shut: lashing.shut,
        condition: lashing.condition,
        one_left: round.len() < lashing.round.len(),
        round,
        height_m: lashing.height_m,
        points: [from, to],
        msl_n: new_msl_n.map(|msl| msl * left),
        stiffness_n: match used {
            Some(used) => newtons(used.stiffness_kn),
            // The stiffest piece snatches hardest.
            None => material
                .and_then(|item| item.axial_stiffness_kn)
                .map(|stiffness| 1000.0 * stiffness.value.most),
        },
        whole_stiffness_n_per_m: lashing
            .stiffness_kn_per_m
            .and_then(Known::value)
            .map(|stiffness| 1000.0 * stiffness),
        is_cord,
        slack_m,
        pretension_n,
    })
}
