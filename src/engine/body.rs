//! A cylinder in one part of the day as a body: where it is, what it weighs, what it stands on.

use std::sync::{Arc, LazyLock};

use super::assembled::Assemblies;
use super::friction::{Bottom, Friction};
use super::mats::{Contact, Mats};
use super::numbers::Stance;
use crate::geometry::Elementary as _;
use crate::geometry::{Shape, Vec2, vec2};
use crate::layout::{Boat, Chocks, Cylinder, Id, Known, Placing, Rack, RackKind, Surface};
use crate::mechanics::assembly::{self, Assembled};
use crate::mechanics::standing;
use crate::mechanics::support::{Base, Offset};
use crate::mechanics::vector::{Vec3, vec3};

/// What a lying body is kept from rolling by.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Rest {
    /// Nothing.
    Free,
    /// Its kit, or being a twin: it lies flat.
    Flat,
    /// Chocks or wedges.
    Chocks(Chocks),
    /// A saddle that grips over this half angle, in radians.
    Saddle(f64),
    /// The groove between two others.
    Groove(Vec<Id>),
    /// The sides of a crate, or a net.
    Crate,
}

/// How a body lies.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Lying {
    /// Where its valve points, in radians.
    pub(super) axis_rad: f64,
    /// Length with valve, in metres.
    pub(super) length_m: f64,
    /// What keeps it from rolling.
    pub(super) rest: Rest,
}

/// A cylinder in one part of the day.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Body {
    pub(super) id: Id,
    pub(super) deck: Id,
    /// Height of its deck above the waterline.
    pub(super) deck_height_m: f64,
    /// The middle of its base, or of its length when lying.
    pub(super) at: Vec2,
    /// Height of what it stands or lies on above its deck.
    pub(super) floor_m: f64,
    /// How much of that are mats.
    pub(super) mats_m: f64,
    pub(super) stance: Stance,
    pub(super) assembled: Arc<Assembled>,
    /// Where its kit, or the front of a twin, faces; `None` if nobody knows.
    pub(super) heading_rad: Option<f64>,
    pub(super) mass_kg: f64,
    /// Height of the centre of gravity above what it stands or lies on.
    pub(super) cg_height_m: f64,
    /// The centre of gravity in the boat frame.
    pub(super) cg: Vec3,
    /// Inertia over mass about a level axis through the centre, the larger of the two.
    pub(super) kappa2_m2: f64,
    pub(super) base: Base,
    pub(super) friction: Friction,
    pub(super) radius_m: f64,
    pub(super) lying: Option<Lying>,
    /// The rack and slot it is in.
    pub(super) slot: Option<(Id, String)>,
    /// The lashing point it hangs from.
    pub(super) hangs_from: Option<Id>,
    /// Who holds or wears it.
    pub(super) by: Option<Id>,
    /// Has it a boot?
    pub(super) boot: bool,
}

impl Body {
    /// Mass and centre for the balances of upright bodies.
    pub(super) fn upright(&self) -> standing::Body {
        standing::Body {
            mass_kg: self.mass_kg,
            centre_height_m: self.cg_height_m,
            kappa2_m2: self.kappa2_m2,
        }
    }

    /// Height over all as it stands, or its thickness when lying, in metres.
    pub(super) fn top_m(&self) -> f64 {
        match (&self.lying, self.stance) {
            (Some(_), _) => 2.0 * self.radius_m,
            (None, Stance::UpsideDown) => self.cg_height_m + self.assembled.cg_height_m,
            (None, _) => self.assembled.height_overall_m,
        }
    }

    /// The least distance from the centre of gravity to the edge it stands on, in metres.
    pub(super) fn least_base_m(&self) -> f64 {
        if self.lying.is_some() {
            return 0.0;
        }
        ALL_ROUND
            .iter()
            .map(|direction| self.base.ray(*direction))
            .fold(f64::INFINITY, f64::min)
            .max(0.0)
    }

    /// The floor it takes, seen from above, kit and all.
    pub(super) fn shape(&self) -> Shape {
        self.outline(self.assembled.kit_reach_m)
    }

    /// The floor its shell takes, seen from above, without soft kit.
    pub(super) fn shell_shape(&self) -> Shape {
        self.outline(0.0)
    }

    fn outline(&self, reach: f64) -> Shape {
        let spread = 0.5 * self.assembled.base.pair_spacing_m().unwrap_or(0.0);
        if let Some(lying) = &self.lying {
            let along =
                (0.5 * lying.length_m - self.radius_m).max(0.0) * Vec2::from_angle(lying.axis_rad);
            let radius = self.radius_m + spread;
            return Shape::Stadium {
                from: self.at - along,
                to: self.at + along,
                radius,
            };
        }
        match self.heading_rad {
            Some(heading) if spread > 0.0 => {
                let side = spread * Vec2::from_angle(heading).perp();
                Shape::Stadium {
                    from: self.at - side,
                    to: self.at + side,
                    radius: self.radius_m.max(reach),
                }
            }
            Some(heading) if reach > self.radius_m => Shape::Stadium {
                from: self.at,
                to: self.at + (reach - self.radius_m) * Vec2::from_angle(heading),
                radius: self.radius_m,
            },
            _ => Shape::disc(self.at, (self.radius_m + spread).max(reach)),
        }
    }
}

/// The body with this name, among bodies in the order of their names.
pub(super) fn find<'a>(bodies: &'a [Body], id: &str) -> Option<&'a Body> {
    let found = bodies.binary_search_by(|body| body.id.as_str().cmp(id));
    found.ok().map(|number| &bodies[number])
}

/// Unit vectors all round, evenly spaced, axes among them.
pub(super) fn directions(count: u32) -> impl Iterator<Item = Vec2> {
    (0..count)
        .map(move |k| Vec2::from_angle(std::f64::consts::TAU * f64::from(k) / f64::from(count)))
}

/// Two dozen of them: every body is asked in all of these.
static ALL_ROUND: LazyLock<Vec<Vec2>> = LazyLock::new(|| directions(24).collect());

/// What a placing says of where a body is.
struct Spot<'a> {
    deck: &'a str,
    at: Vec2,
    floor_m: f64,
    surface: Option<&'a Surface>,
    stance: Stance,
    axis_deg: Option<f64>,
    rest: Rest,
    slot: Option<(Id, String)>,
    hangs_from: Option<Id>,
    by: Option<Id>,
    /// Radius of what it stands on, where it is not its own foot.
    foot_radius_m: Option<f64>,
    /// Lift of an upside-down shell by its cage.
    cage_m: f64,
}

fn point([x, y]: [f64; 2]) -> Vec2 {
    vec2(x, y)
}

/// The top of the fixture that something stands on: height and surface.
fn top_of<'a>(boat: &'a Boat, on: Option<&Id>) -> (f64, Option<&'a Surface>) {
    let fixture = on.and_then(|id| boat.fixture(id));
    fixture.map_or((0.0, None), |fixture| {
        (
            fixture.height_m,
            fixture.shelf.as_ref().map(|shelf| &shelf.surface),
        )
    })
}

fn in_slot<'a>(boat: &'a Boat, rack_id: &str, slot_name: &str) -> Option<Spot<'a>> {
    let rack = boat.rack(rack_id)?;
    let slot = rack.slot(slot_name)?;
    let (stance, axis_deg, rest) = match rack.kind {
        RackKind::Cradles => (
            Stance::InCradle,
            Some(rack.turn_deg + 90.0),
            rack.saddle_half_angle_deg
                .map_or(Rest::Free, |angle| Rest::Saddle(angle.to_radians())),
        ),
        RackKind::Crate | RackKind::Net => {
            (Stance::InCrate, Some(rack.turn_deg + 90.0), Rest::Crate)
        }
        RackKind::Sockets | RackKind::BenchRow => (Stance::InRack, None, Rest::Free),
    };
    Some(Spot {
        axis_deg,
        rest,
        slot: Some((rack.id.clone(), slot.name)),
        ..upright(&rack.deck, point(slot.at), rack_floor(rack), stance)
    })
}

fn rack_floor(rack: &Rack) -> (f64, Option<&Surface>) {
    (rack.shelf_height_m, rack.surface.as_ref())
}

fn upright<'a>(
    deck: &'a str,
    at: Vec2,
    (floor_m, surface): (f64, Option<&'a Surface>),
    stance: Stance,
) -> Spot<'a> {
    Spot {
        deck,
        at,
        floor_m,
        surface,
        stance,
        axis_deg: None,
        rest: Rest::Free,
        slot: None,
        hangs_from: None,
        by: None,
        foot_radius_m: None,
        cage_m: 0.0,
    }
}

fn spot<'a>(boat: &'a Boat, placing: &'a Placing) -> Option<Spot<'a>> {
    let on_deck = (0.0, None);
    Some(match placing {
        Placing::Standing { deck, at, on } => upright(
            deck,
            point(*at),
            top_of(boat, on.as_ref()),
            Stance::StandsFree,
        ),
        Placing::InSlot { rack, slot } => in_slot(boat, rack, slot)?,
        Placing::Lying {
            deck,
            at,
            valve_towards_deg,
            on,
            on_kit,
            chocks,
            upon,
        } => {
            let rest = match (chocks, on_kit) {
                _ if !upon.is_empty() => Rest::Groove(upon.clone()),
                (Some(Chocks::Saddle { half_angle_deg }), _) => {
                    Rest::Saddle(half_angle_deg.to_radians())
                }
                (Some(chocks), _) => Rest::Chocks(*chocks),
                (None, true) => Rest::Flat,
                (None, false) => Rest::Free,
            };
            Spot {
                axis_deg: Some(*valve_towards_deg),
                rest,
                ..upright(deck, point(*at), top_of(boat, on.as_ref()), Stance::Lying)
            }
        }
        Placing::InCrate {
            rack,
            at,
            valve_towards_deg,
        } => {
            let rack = boat.rack(rack)?;
            Spot {
                axis_deg: Some(*valve_towards_deg),
                rest: Rest::Crate,
                slot: Some((rack.id.clone(), String::new())),
                ..upright(&rack.deck, point(*at), rack_floor(rack), Stance::InCrate)
            }
        }
        Placing::UpsideDown {
            deck,
            at,
            cage_radius_m,
            cage_height_m,
        } => Spot {
            foot_radius_m: Some(*cage_radius_m),
            cage_m: *cage_height_m,
            ..upright(deck, point(*at), on_deck, Stance::UpsideDown)
        },
        Placing::Hanging {
            from,
            at,
            clear_of_deck_m,
        } => {
            let lashing_point = boat.lashing_point(from)?;
            Spot {
                hangs_from: Some(from.clone()),
                ..upright(
                    &lashing_point.deck,
                    point(*at),
                    (*clear_of_deck_m, None),
                    Stance::Hanging,
                )
            }
        }
        Placing::HeldByHand { deck, at, by } => Spot {
            by: Some(by.clone()),
            ..upright(deck, point(*at), on_deck, Stance::HeldByHand)
        },
        Placing::Filling { deck, at } => upright(deck, point(*at), on_deck, Stance::OnWhip),
        Placing::OnDiver { .. } | Placing::InWater | Placing::Ashore => return None,
    })
}

/// Where the body touches the deck, if it stands or lies on the deck itself, so that a mat can be under it.
fn contact(
    spot: &Spot<'_>,
    base: &Base,
    lying: Option<(&Lying, f64)>,
    cg_over: Vec2,
) -> Option<Contact> {
    let on_deck = spot.surface.is_none() && spot.floor_m <= 0.0;
    if !on_deck || matches!(spot.stance, Stance::Hanging | Stance::InCradle) {
        return None;
    }
    if let Some((lying, radius_m)) = lying {
        if matches!(lying.rest, Rest::Saddle(_) | Rest::Groove(_)) {
            return None;
        }
        let half = (0.5 * lying.length_m - radius_m).max(0.0);
        let axis = Vec2::from_angle(lying.axis_rad);
        let marks = (-8..=8).map(|step| spot.at + half * f64::from(step) / 8.0 * axis);
        return Some(marks.map(|at| (at, 0.0)).collect());
    }
    Some(match base {
        Base::None => vec![(spot.at, 0.0)],
        Base::Disc { radius_m, .. } => vec![(spot.at, *radius_m)],
        Base::Twin {
            foot_radius_m,
            spacing_m,
            axis_rad,
            ..
        } => {
            let aside = 0.5 * *spacing_m * Vec2::from_angle(*axis_rad).perp();
            vec![
                (spot.at - aside, *foot_radius_m),
                (spot.at + aside, *foot_radius_m),
            ]
        }
        Base::Hull(corners) => corners
            .iter()
            .map(|corner| (cg_over + *corner, 0.0))
            .collect(),
    })
}

/// The cylinder as a body; `None` if it is on nobody's deck or its kind is not known.
pub(super) fn body(
    boat: &Boat,
    mats: &Mats,
    assemblies: &mut Assemblies,
    cylinder: &Cylinder,
) -> Option<Body> {
    let spot = spot(boat, &cylinder.placing)?;
    let deck = boat.deck(spot.deck)?;
    let assembled = assemblies.get(cylinder)?;
    let is_twin = assembled.base.pair_spacing_m().is_some();
    let heading_rad = match cylinder.kit_faces_deg {
        Some(Known::Value(degrees)) => Some(degrees.to_radians()),
        _ => None,
    };
    let radius_m = assembled.body_radius_m;
    let mut floor_m = spot.floor_m;
    let lying = spot.axis_deg.map(|degrees| Lying {
        axis_rad: degrees.to_radians(),
        length_m: assembled.height_overall_m,
        rest: match &spot.rest {
            Rest::Free if is_twin => Rest::Flat,
            rest => rest.clone(),
        },
    });
    if let Some(Lying {
        rest: Rest::Groove(_),
        ..
    }) = &lying
    {
        // Equal shells that touch: the upper centre lies sqrt(3) radii above the lower ones.
        floor_m += 3.0_f64.sqrt() * radius_m;
    }
    let (base, feet_offset) = base_of(&assembled, heading_rad, spot.foot_radius_m);
    let cg_height_m = match (&lying, spot.stance) {
        (Some(_), _) => radius_m,
        (None, Stance::UpsideDown) => {
            spot.cage_m + (assembled.neck_m - assembled.cg_height_m).max(0.0)
        }
        (None, _) => assembled.cg_height_m,
    };
    let mut plan = spot.at;
    if lying.is_none()
        && let Offset::Known(offset) = feet_offset
    {
        plan += offset;
    }
    let bottom = if lying.is_some() || !cylinder.boot {
        Bottom::Bare
    } else {
        Bottom::Boot
    };
    let surface = spot.surface.unwrap_or(&deck.surface);
    let on_mat = contact(
        &spot,
        &base,
        lying.as_ref().map(|lying| (lying, radius_m)),
        plan,
    )
    .and_then(|contact| mats.under(&deck.id, &contact, surface, bottom));
    let mats_m = on_mat.as_ref().map_or(0.0, |on| on.raised_m);
    floor_m += mats_m;
    let kappa2_m2 = assembled
        .kappa2_m2(0.0)
        .max(assembled.kappa2_m2(std::f64::consts::FRAC_PI_2));
    Some(Body {
        id: cylinder.id.clone(),
        deck: deck.id.clone(),
        deck_height_m: deck.height_above_waterline_m,
        at: spot.at,
        floor_m,
        mats_m,
        stance: spot.stance,
        heading_rad,
        mass_kg: assembled.mass_kg,
        cg_height_m,
        cg: vec3(
            plan.x,
            plan.y,
            deck.height_above_waterline_m + floor_m + cg_height_m,
        ),
        kappa2_m2,
        base,
        friction: on_mat.map_or_else(|| Friction::of(surface, bottom), |on| on.friction),
        radius_m,
        lying,
        slot: spot.slot,
        hangs_from: spot.hangs_from,
        by: spot.by,
        boot: cylinder.boot,
        assembled,
    })
}

/// What the body stands on in the boat frame, and where its centre of gravity is over it.
fn base_of(
    assembled: &Assembled,
    heading_rad: Option<f64>,
    foot_radius_m: Option<f64>,
) -> (Base, Offset) {
    let eccentricity = assembled.cg_offset_m.hypotenuse(assembled.cg_left_m);
    let offset = match heading_rad {
        Some(heading) => {
            let ahead = Vec2::from_angle(heading);
            Offset::Known(assembled.cg_offset_m * ahead + assembled.cg_left_m * ahead.perp())
        }
        None if eccentricity > 0.0 => Offset::UnknownHeading(eccentricity),
        None => Offset::NONE,
    };
    if let Some(radius_m) = foot_radius_m {
        return (Base::Disc { radius_m, offset }, offset);
    }
    let base = match assembled.base {
        assembly::Base::Disc { radius_m } if radius_m > 0.0 => Base::Disc { radius_m, offset },
        assembly::Base::Disc { .. } => Base::None,
        assembly::Base::Twin {
            foot_radius_m,
            spacing_m,
        } => match heading_rad {
            _ if foot_radius_m <= 0.0 => Base::None,
            Some(axis_rad) => Base::Twin {
                foot_radius_m,
                spacing_m,
                axis_rad,
                offset,
            },
            // Nobody knows which way the pair stands: the narrow way counts everywhere.
            None => Base::Disc {
                radius_m: foot_radius_m,
                offset,
            },
        },
        assembly::Base::Rectangle { depth_m, width_m } => match heading_rad {
            Some(heading) => rectangle_base(heading, depth_m, width_m, offset),
            None => Base::Disc {
                radius_m: 0.5 * depth_m.min(width_m),
                offset,
            },
        },
    };
    (base, offset)
}

fn rectangle_base(heading: f64, depth_m: f64, width_m: f64, offset: Offset) -> Base {
    let ahead = 0.5 * depth_m * Vec2::from_angle(heading);
    let left = 0.5 * width_m * Vec2::from_angle(heading).perp();
    let centre = match offset {
        Offset::Known(offset) => offset,
        Offset::UnknownHeading(_) => Vec2::ZERO,
    };
    let corners = [-ahead - left, ahead - left, ahead + left, left - ahead];
    Base::Hull(corners.map(|corner| corner - centre).to_vec())
}
