//! One lashing round several bodies: one body that demands at least what all of them do together.

/// One of the bodies inside a strap.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Member {
    /// Its mass.
    pub mass_kg: f64,

    /// Height of its centre of gravity above its foot.
    pub cg_height_m: f64,

    /// `I_cg / m`, m².
    pub kappa2_m2: f64,

    /// The least support distance of its foot, m.
    pub foot_radius_m: f64,

    /// Friction coefficient of its foot.
    pub friction: f64,
}

/// One body in place of `members`; `None` if there are none or one has no height.
///
/// ```text
/// demand of member k towards e   D_k = m_k [ h_k f.e + kappa2_k w.e - a_n rho_k ]
/// sum of max(0, D_k)  <=  m [ h f.e + kappa2 w.e - a_n rho ]     while one of them is positive
/// m = sum m_k,  h = sum m_k h_k / m,  kappa2 = h max(kappa2_k / h_k),
/// rho = min( h min(rho_k / h_k), min rho_k )
/// ```
///
/// A member that stands by itself gives nothing to the others. The least friction counts. Like bodies
/// make the sum exact. Apply the load of the member that feels most, and the legs with their own
/// attachments.
///
/// # Assumptions
///
/// `f.e` and `w.e` have the same sign: what turns the bodies with the deck adds to the fall to the low
/// side. Neighbours touch at the height of the strap.
pub fn group(members: &[Member]) -> Option<Member> {
    let standing = |member: &Member| member.cg_height_m > 0.0 && member.mass_kg > 0.0;
    if members.is_empty() || !members.iter().all(standing) {
        return None;
    }
    let least = |of: fn(&Member) -> f64| members.iter().map(of).fold(f64::INFINITY, f64::min);
    let mass_kg: f64 = members.iter().map(|member| member.mass_kg).sum();
    let moment: f64 = members
        .iter()
        .map(|member| member.mass_kg * member.cg_height_m)
        .sum();
    let cg_height_m = moment / mass_kg;
    let slimmest = least(|member| member.foot_radius_m / member.cg_height_m);
    let most_inertia = members
        .iter()
        .map(|member| member.kappa2_m2 / member.cg_height_m)
        .fold(0.0, f64::max);
    Some(Member {
        mass_kg,
        cg_height_m,
        kappa2_m2: cg_height_m * most_inertia,
        foot_radius_m: (cg_height_m * slimmest).min(least(|member| member.foot_radius_m)),
        friction: least(|member| member.friction),
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::leg::{Shell, strap_round};
    use super::*;
    use crate::geometry::{Vec2, vec2};
    use crate::mechanics::equilibrium::{
        Body, Feet, Foot, Holding, Load, Mode, Restraint, utilisation,
    };
    use crate::mechanics::property::{assert_close, cases};
    use crate::mechanics::vector::vec3;

    const AL80: Member = Member {
        mass_kg: 17.8,
        cg_height_m: 0.319,
        kappa2_m2: 0.0446,
        foot_radius_m: 0.0829,
        friction: 0.0,
    };

    /// A strap along a row, its end legs at an angle eps to the row: `T = sum F / (2 sin eps)`
    /// (`docs/method.md`, "Held by a rack").
    #[test]
    fn a_strap_along_a_row() {
        let row: Vec<Shell> = (0..4_u8)
            .map(|k| {
                let axis = vec2(0.19 * f64::from(k), 0.0);
                Shell {
                    axis,
                    radius_m: 0.0921,
                    centre_of_gravity: axis,
                    foot_height_m: 0.0,
                }
            })
            .collect();
        let height = AL80.cg_height_m;
        let points = [vec3(-0.4, -0.1, height), vec3(0.97, -0.1, height)];
        let strap = strap_round(&row, height, points).unwrap();
        let eps = strap.legs.map(|leg| (-leg.pull.y).asin());
        assert_close(eps[0], eps[1], 1e-12);

        let whole = group(&[AL80; 4]).unwrap();
        let body = Body {
            mass_kg: whole.mass_kg,
            friction: whole.friction,
            foot: Foot::Free,
            feet: Feet {
                centres: &[Vec2::ZERO],
                radius_m: whole.foot_radius_m,
            },
        };
        let restraints: Vec<Restraint> = strap
            .legs
            .iter()
            .map(|leg| leg.restraint(600.0, None, None))
            .collect();
        let holding = Holding {
            restraints: &restraints,
            ..Holding::default()
        };
        let load = Load::at_height(vec2(0.0, 5.0), 9.0, whole.cg_height_m);
        let found = utilisation(&body, &holding, &load);
        let pull = 4.0 * 17.8 * 5.0 / (2.0 * eps[0].sin());
        assert_close(found.utilisation, pull / 600.0, 1e-6);
        assert_eq!(
            found.failure.map(|failure| failure.mode),
            Some(Mode::Slides)
        );
    }

    #[test]
    fn a_group_of_one_is_that_one() {
        let alone = group(&[AL80]).unwrap();
        assert_close(alone.foot_radius_m, AL80.foot_radius_m, 1e-12);
        assert_close(alone.cg_height_m, AL80.cg_height_m, 1e-12);
        assert_close(alone.kappa2_m2, AL80.kappa2_m2, 1e-12);
        assert_eq!(group(&[]), None);
    }

    prop_compose! {
        fn any_member()(
            mass_kg in 5.0..80.0_f64, cg_height_m in 0.2..0.8_f64, kappa2_m2 in 0.0..0.3_f64,
            foot_radius_m in 0.0..0.15_f64, friction in 0.0..0.6_f64,
        ) -> Member {
            Member { mass_kg, cg_height_m, kappa2_m2, foot_radius_m, friction }
        }
    }

    proptest! {
        #![proptest_config(cases(256))]

        #[test]
        fn a_group_demands_no_less_than_its_members(
            members in prop::collection::vec(any_member(), 1..6),
            f in 0.0..12.0_f64, w in 0.0..2.0_f64, normal in 0.5..14.0_f64,
        ) {
            let demand = |m: &Member| {
                m.mass_kg * (m.cg_height_m * f + m.kappa2_m2 * w - normal * m.foot_radius_m)
            };
            let sum: f64 = members.iter().map(|member| demand(member).max(0.0)).sum();
            let whole = demand(&group(&members).unwrap());
            prop_assert!(sum <= 0.0 || whole >= sum * (1.0 - 1e-12), "{whole} {sum}");
        }
    }
}
