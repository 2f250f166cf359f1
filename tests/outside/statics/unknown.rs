//! What nobody knows is told, and never passes.

use super::{cylinder, not_known};
use snugdown::engine::numbers::NeedKind;

/// Not known is no strength: what a cylinder leans or lies against must be found out.
#[test]
fn unknown_backing_is_told() {
    let lying = "deck 3x2 friction=0.6; running roll=15/4; lie P1 1.5,0 towards=0 cap
                 fixture B bench 1..2,0.1..0.4 h=0.5 backing=?; fixture C bench 1..2,-0.4..-0.1 h=0.5 backing=9";
    not_known(lying, "B");
    let lashed = "deck 3x2 friction=0.6; running roll=20/4; stand P1 1.5,0; point E1 1.5,0.6
                  lash L1 E1 P1 E1 h=0.44 tight=0.2
                  fixture B bench 1..2,0.1..0.4 h=0.5 backing=?";
    not_known(lashed, "B");
}

/// A net whose hold-down nobody knows does not hold down what flies.
#[test]
fn an_unknown_hold_down_is_told() {
    for what in [
        "rack R1 net 1.5,0 size=1x1 hold=?; crate P1 R1 1.5,0 cap",
        "rack R1 crate 1.5,0 size=1x1 hold=?; crate P1 R1 1.5,0 cap",
        "rack R1 cradles 1.5,0 saddle=60 hold=?; slot P1 R1/1 cap",
        "rack R1 sockets 1.5,0 foot hold=?; slot P1 R1/1",
    ] {
        let text = format!("deck 3x2 friction=0.9; drifting roll=3/6 up=1.2; {what}");
        not_known(&text, "R1");
    }
}

/// A strap over a lying cylinder is as strong as its points, and nobody knows them.
#[test]
fn unknown_points_of_a_strap_over_a_lying_cylinder_are_told() {
    let text = "deck 3x2 friction=0.9; drifting roll=3/6 up=1.3; lie P1 1.5,0 saddle=60 cap
                point E1 1.5,0.6 strength=?; point E2 1.5,-0.6 strength=?; lash L1 E1 P1 E2 tight=0.2";
    not_known(text, "E1");
    let text = "deck 3x2 friction=0.9; drifting roll=3/6 up=1.3; lie P1 1.5,0 saddle=60 cap
                point E1 1.5,0.6; point E2 1.5,-0.6; lash L1 E1 P1 E2 tight=0.2 strength=?";
    not_known(text, "L1");
}

/// A crate that stands loose on a deck of unknown friction may slide.
#[test]
fn a_loose_crate_on_unknown_friction_is_told() {
    let text = "deck 3x2 friction=?; running roll=10/4; rack R1 crate 1.5,0 size=1x1 loose
                crate P1 R1 1.5,0 cap";
    not_known(text, "R1");
}

/// Friction that nobody knows does not pass where friction decides.
#[test]
fn unknown_friction_is_told_where_it_decides() {
    for what in [
        "lie P1 1.5,0 saddle=60 towards=90 cap",
        "lie P1 1.5,0 onkit kit=0 cap",
        "lie P1 1.5,0 kind=twin-st-12l-long-232 cap",
    ] {
        let text = format!("deck 3x2 friction=?; running roll=10/4; {what}");
        not_known(&text, "P1");
    }
}

/// The need for friction of a body that lies on its kit is a_h / a_n.
#[test]
fn the_need_for_friction_by_hand() {
    let text = "deck 3x2 friction=?; drifting roll=0/4 heel=20; lie P1 1.5,0 onkit kit=0 cap";
    let numbers = cylinder(text, "P1");
    let need = numbers
        .needs
        .iter()
        .find(|need| need.what == NeedKind::Friction);
    let by_hand = 20.0_f64.to_radians().tan();
    assert!((need.unwrap().at_least - by_hand).abs() < 1e-9);
}
