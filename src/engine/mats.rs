//! Loose mats on a deck, and what one under a cylinder does: it changes the friction and raises it.

use super::friction::{Bottom, Friction};
use crate::geometry::{Vec2, vec2};
use crate::layout::{DayState, Gear, GearKind, GearShape, Id, Surface};

/// A mat that lies on a deck.
#[derive(Clone, Debug)]
struct Mat {
    id: Id,
    deck: Id,
    floor: GearShape,
    thickness_m: f64,
    friction: Option<f64>,
}

/// All mats on the floor in one part of the day.
#[derive(Clone, Debug, Default)]
pub(super) struct Mats {
    all: Vec<Mat>,
}

/// Where a body touches the deck: discs that together lie in what it stands or lies on.
pub(super) type Contact = Vec<(Vec2, f64)>;

/// What the mats under a body do to it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct OnMat {
    /// How much higher it stands or lies, in metres.
    pub(super) raised_m: f64,
    /// Its friction on the mat, and of the mat on the deck: the less of the two.
    pub(super) friction: Friction,
}

impl Mats {
    /// The mats of a part of the day, by name.
    pub(super) fn of_day(day: &DayState) -> Self {
        let gear = day.gear.iter().map(|state| &state.gear);
        let mut all: Vec<Mat> = gear
            .filter(|gear| gear.kind == GearKind::Mat && !gear.stowed)
            .map(|gear: &Gear| Mat {
                id: gear.id.clone(),
                deck: gear.deck.clone(),
                floor: gear.floor.clone(),
                thickness_m: gear.height_m,
                friction: gear.friction,
            })
            .collect();
        all.sort_by(|a, b| a.id.cmp(&b.id));
        Self { all }
    }

    /// What they do to a body that touches this deck there; `None` where none lies under it.
    ///
    /// On several, one over the other, it stands as high as all of them and grips as the worst. Where it
    /// stands only partly on a mat it has the less of both grips, and the full height: it leans on the edge.
    pub(super) fn under(
        &self,
        deck: &str,
        contact: &[(Vec2, f64)],
        surface: &Surface,
        bottom: Bottom,
    ) -> Option<OnMat> {
        let mut found: Option<OnMat> = None;
        let here = self.all.iter().filter(|mat| mat.deck == deck);
        for mat in here {
            let touched = contact.iter().any(|(at, radius)| mat.inside(*at) > -radius);
            if !touched {
                continue;
            }
            let wholly = contact
                .iter()
                .all(|(at, radius)| mat.inside(*at) >= *radius);
            let mut friction = Friction::on_mat(&mat.id, mat.friction, surface, bottom);
            if !wholly {
                friction = friction.less(Friction::of(surface, bottom));
            }
            found = Some(match found {
                None => OnMat {
                    raised_m: mat.thickness_m,
                    friction,
                },
                Some(below) => OnMat {
                    raised_m: below.raised_m + mat.thickness_m,
                    friction: below.friction.less(friction),
                },
            });
        }
        found
    }
}

impl Mat {
    /// How far inside its edge a point lies; negative outside.
    fn inside(&self, at: Vec2) -> f64 {
        match &self.floor {
            GearShape::Round {
                at: [x, y],
                radius_m,
            } => radius_m - at.distance(vec2(*x, *y)),
            GearShape::Box {
                at: [x, y],
                length_m,
                width_m,
                turn_deg,
            } => {
                let along = Vec2::from_angle(turn_deg.to_radians());
                let from = at - vec2(*x, *y);
                let out = vec2(
                    from.dot(along).abs() - 0.5 * length_m,
                    along.cross(from).abs() - 0.5 * width_m,
                );
                if out.x > 0.0 && out.y > 0.0 {
                    -out.length()
                } else {
                    -out.x.max(out.y)
                }
            }
            GearShape::Line { .. } => f64::NEG_INFINITY,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mats(floor: GearShape, friction: Option<f64>) -> Mats {
        Mats {
            all: vec![Mat {
                id: "M".into(),
                deck: "main".into(),
                floor,
                thickness_m: 0.01,
                friction,
            }],
        }
    }

    fn square() -> GearShape {
        GearShape::Box {
            at: [2.0, 1.0],
            length_m: 0.4,
            width_m: 0.3,
            turn_deg: 90.0,
        }
    }

    fn painted(friction: Option<f64>) -> Surface {
        Surface {
            friction: friction.map(crate::layout::Known::Value),
            ..Surface::default()
        }
    }

    fn under(mats: &Mats, at: Vec2, radius: f64) -> Option<OnMat> {
        mats.under("main", &[(at, radius)], &painted(None), Bottom::Bare)
    }

    /// Turned by a quarter it is 0.3 m long and 0.4 m wide.
    #[test]
    fn what_stands_on_it_wholly_is_raised_and_grips() {
        let on = under(&mats(square(), Some(0.6)), vec2(2.0, 1.1), 0.08).unwrap();
        assert_eq!((on.raised_m, on.friction.value), (0.01, Some(0.6)));
        assert!(on.friction.measured);
        assert_eq!(under(&mats(square(), None), vec2(2.3, 1.0), 0.08), None);
        let other_deck = mats(square(), None).under(
            "upper",
            &[(vec2(2.0, 1.0), 0.08)],
            &painted(None),
            Bottom::Bare,
        );
        assert_eq!(other_deck, None);
    }

    /// Painted deck 0.2 for a bare shell, wet rubber 0.4 on top of the mat, 0.3 under it (the catalogue's
    /// surfaces): the mat slides on the paint before the cylinder does on the mat.
    #[test]
    fn a_loose_mat_slides_on_the_deck_itself() {
        let on = under(&mats(square(), None), vec2(2.0, 1.0), 0.08).unwrap();
        assert_eq!(on.friction.value, Some(0.3));
        assert!(!on.friction.measured);
        let partly = under(&mats(square(), None), vec2(2.1, 1.0), 0.08).unwrap();
        assert_eq!(partly.friction.value, Some(0.2), "half on bare paint");
    }

    #[test]
    fn a_grippy_deck_lends_its_grip() {
        let grippy = painted(Some(0.8));
        let on =
            mats(square(), None).under("main", &[(vec2(2.0, 1.0), 0.08)], &grippy, Bottom::Bare);
        assert_eq!(
            on.unwrap().friction.value,
            Some(0.4),
            "as much as wet rubber has"
        );
        let mut unknown = painted(None);
        unknown.friction = Some(crate::layout::Known::NotKnown);
        let on =
            mats(square(), None).under("main", &[(vec2(2.0, 1.0), 0.08)], &unknown, Bottom::Bare);
        assert_eq!(
            on.unwrap().friction.value,
            None,
            "nobody knows what is below"
        );
    }

    #[test]
    fn a_round_mat_and_two_mats() {
        let round = GearShape::Round {
            at: [0.0, 0.0],
            radius_m: 0.2,
        };
        let mut two = mats(round, Some(0.5));
        two.all.push(Mat {
            id: "N".into(),
            friction: Some(0.45),
            thickness_m: 0.004,
            ..two.all[0].clone()
        });
        let on = under(&two, vec2(0.05, 0.05), 0.1).unwrap();
        assert_eq!(on.friction.value, Some(0.45));
        assert!((on.raised_m - 0.014).abs() < 1e-12);
    }
}
