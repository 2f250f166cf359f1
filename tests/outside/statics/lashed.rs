//! Lashings and their points: what is cut, slack, shared or soft.

use super::{cylinder, judged, listed, not_known, told, worst};
use snugdown::checks::Signal;

const TWO_POINTS: &str = "point E1 1.5,0.6; point E2 1.5,-0.6";

/// A strap that is cut holds nothing, so the cylinder is neither racked, lashed nor held.
#[test]
fn a_cut_strap_secures_nothing() {
    let text = format!(
        "deck 3x2; running roll=2/8; stand P1 1.5,0; {TWO_POINTS}
         lash L1 E1 P1 E2 h=0.44 tight=0.2 is=cut"
    );
    told(&text, Signal::Danger, &["U101"], "P1");
}

/// A strap cannot run from a point under the cylinder.
#[test]
fn a_strap_that_cannot_run_secures_nothing() {
    let text = "deck 3x2; running roll=2/8; stand P1 1.5,0; point E1 1.5,0.02
                lash L1 E1 P1 E1 h=0.44 tight=0.2";
    told(text, Signal::Danger, &["U101"], "P1");
}

/// Shock cord counts nothing, whatever strength somebody wrote on it.
#[test]
fn shock_cord_adds_nothing_to_the_balance() {
    let bare = "deck 3x2 friction=0.5; running roll=10/4; stand P1 1.5,0; point E1 1.5,0.6";
    let cord = format!("{bare}; lash L1 E1 P1 E1 material=shock_cord_8 strength=3 slack=0 h=0.44");
    let (free, held) = (cylinder(bare, "P1"), cylinder(&cord, "P1"));
    let (free, held) = (worst(&free), worst(&held));
    assert!((free - held).abs() < 1e-6, "{free} {held}");
}

/// Two like straps to port and starboard meet like snatches: roll has two signs.
#[test]
fn snatches_are_alike_on_both_sides() {
    let text = format!(
        "deck 3x2 friction=0.5; running roll=25/4; stand P1 1.5,0; {TWO_POINTS}
         lash L1 E1 P1 E1 h=0.44 slack=0.04; lash L2 E2 P1 E2 h=0.44 slack=0.04"
    );
    let held = cylinder(&text, "P1").lashings;
    let pulls: Vec<f64> = held.iter().map(|item| item.snatch_n.unwrap()).collect();
    assert!(pulls[0] > 10.0, "{pulls:?}");
    assert!((pulls[0] - pulls[1]).abs() < 1e-6 * pulls[0], "{pulls:?}");
}

/// A strap between opposite points: falling along its line stretches one leg by 0.44 m for each radian,
/// so 0.2 m of slack is 26 degrees, and the cylinder tips from 14.6 on.
#[test]
fn slack_between_opposite_points_is_told() {
    let text = format!(
        "deck 3x2 friction=0.5; running roll=10/4; stand P1 1.5,0; {TWO_POINTS}
         lash L1 E1 P1 E2 h=0.44 slack=0.2"
    );
    let held = &cylinder(&text, "P1").lashings[0];
    assert!(held.lean_deg.unwrap() > 20.0, "{held:?}");
    told(&text, Signal::Danger, &["L403"], "P1");
}

/// Both legs of a loop pull at one point: each may have half of what the point takes.
#[test]
fn both_legs_of_a_loop_share_their_point() {
    let base = "deck 3x2 friction=0.6; running roll=20/4; stand P1 1.5,0";
    let loop_ =
        format!("{base}; point E1 1.5,0.6 strength=0.06; lash L1 E1 P1 E1 h=0.44 tight=0.02");
    let halves = format!(
        "{base}; point E1 1.5,0.6 strength=0.03; point E2 1.5,0.6 strength=0.03
         lash L1 E1 P1 E2 h=0.44 tight=0.02"
    );
    let (one, two) = (cylinder(&loop_, "P1"), cylinder(&halves, "P1"));
    let (one, two) = (worst(&one), worst(&two));
    assert!((one - two).abs() < 1e-6 * two, "{one} {two}");
}

/// Three cylinders tip to the same side at the same time, and pull together at the one point.
#[test]
fn an_unknown_point_needs_what_all_pull_at_it() {
    let one = "deck 3x3 friction=0.6; running roll=25/4; point E1 1.5,1 strength=?; stand P1 1.5,0
               lash L1 E1 P1 E1 h=0.44 tight=0.2; fixture B bench 1.2..1.8,0.1..0.3 h=0.5 backing=9";
    let three = format!(
        "{one}; stand P2 1.3,0; lash L2 E1 P2 E1 h=0.44 tight=0.2
         stand P3 1.7,0; lash L3 E1 P3 E1 h=0.44 tight=0.2"
    );
    let needed = |text: &str| {
        let (findings, _) = judged(text);
        let found = findings
            .iter()
            .find(|item| item.code == "L402" && item.not_known);
        let found = found.unwrap_or_else(|| panic!("{text}\n{}", listed(&findings)));
        found.measure.as_ref().unwrap().limit
    };
    let (one, three) = (needed(one), needed(&three));
    assert!(three > 2.5 * one, "{one} {three}");
}

/// m g = 17 kg times 9.8 is more than 0.1 kN / 1.5, and a swing adds to it.
#[test]
fn a_weak_point_that_something_hangs_from_is_told() {
    let text = "deck 3x2; running roll=10/4; point E1 1.5,0 h=1.8 strength=0.1; hang P1 E1 1.5,0";
    told(text, Signal::Danger, &["L402", "T203"], "E1");
    let text = "deck 3x2; running roll=10/4; point E1 1.5,0 h=1.8 strength=?; hang P1 E1 1.5,0";
    not_known(text, "E1");
}

/// A lashing stays where it was made fast when its cylinder is carried away.
#[test]
fn a_lashing_does_not_follow_its_cylinder() {
    let text = format!(
        "deck 6x2; {TWO_POINTS}; fast roll=1/8; stand P1 1.5,0; lash L1 E1 P1 E2 h=0.44 tight=0.2
         drifting roll=2/8; stand P1 4.5,0"
    );
    told(&text, Signal::Danger, &["U101"], "P1");
}

/// A round bottom has no tipping angle that a tight strap could be too slack for.
#[test]
fn a_tight_strap_round_a_round_bottom_is_not_slack() {
    let text = format!(
        "deck 3x2 friction=0.6; running roll=5/4; stand P1 1.5,0 kind=st-12l-long-232; {TWO_POINTS}
         lash L1 E1 P1 E1 h=0.44 tight=0.2; lash L2 E2 P1 E2 h=0.44 tight=0.2"
    );
    let (findings, _) = judged(&text);
    let slack = findings.iter().any(|item| item.code == "L403");
    assert!(!slack, "{}", listed(&findings));
}

/// Two like straps share alike, so sharing by stiffness finds what the simple sum finds; make one of them soft,
/// and the stiff one is at its strength while the soft one has hardly begun (T_i = k_i c_i theta).
#[test]
fn a_soft_strap_beside_a_stiff_one_counts_for_less() {
    let text = |soft: &str| {
        format!(
            "deck 6x4 friction=0.9; running roll=25/4; stand P1 3,0
             point A 3.5,0.5; point B 2.5,0.5; point C 3.5,-0.5; point D 2.5,-0.5
             lash L1 A P1 D h=0.44 stiffness=50 tight=0.1; lash L2 B P1 C h=0.44 stiffness={soft} tight=0.1"
        )
    };
    let alike = cylinder(&text("50"), "P1").tips_by_stiffness.unwrap();
    let uneven = cylinder(&text("0.5"), "P1").tips_by_stiffness.unwrap();
    assert!(alike > 0.0 && uneven > 1.05 * alike, "{alike} {uneven}");
    let one = "deck 6x4; running roll=25/4; stand P1 3,0; point A 3.5,0.5; lash L1 A P1 A h=0.44 stiffness=50";
    assert_eq!(cylinder(one, "P1").tips_by_stiffness, None);
}

/// What its condition leaves of a strap of 3 kN (securing load), over the factor 1.5 of CSS Code, annex 13, 7.2: a knot
/// about a half (a published table of rope knots, in the catalogue as ROPE), the sun a half (common practice, no
/// source), and of one that is cut nothing counts. The strap alone, and what each cylinder has of it.
#[test]
fn a_knot_or_the_sun_leaves_half_of_a_strap() {
    for (condition, expected_n) in [("good", 2000.0), ("knotted", 1000.0), ("bleached", 1000.0)] {
        let text = format!(
            "deck 3x2 friction=0.6; running roll=2/8; stand P1 1.5,0; {TWO_POINTS}
             lash L1 E1 P1 E2 h=0.44 tight=0.1 strength=3 is={condition}"
        );
        let (_, numbers) = judged(&text);
        let strap = numbers.lashings[0].capacity_n.unwrap();
        assert!((strap - expected_n).abs() < 1e-9, "{condition}: {strap}");
        let held = numbers.cylinders[0].lashings[0].capacity_n.unwrap();
        assert!(held <= expected_n + 1e-9, "{condition}: {held}");
    }
    let cut = format!(
        "deck 3x2; running roll=2/8; stand P1 1.5,0; {TWO_POINTS}
         lash L1 E1 P1 E2 h=0.44 tight=0.1 strength=3 is=cut"
    );
    assert!(!cylinder(&cut, "P1").lashings[0].counted);
}
