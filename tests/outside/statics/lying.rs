//! What lies: straps over it, walls beside it, rows and tiers.

use super::{cylinder, told, used};
use snugdown::checks::Signal;
use snugdown::engine::numbers::{CylinderNumbers, Way};

/// A strap with slack over a chocked cylinder bites only when it is out of its chocks.
#[test]
fn a_slack_strap_over_chocks_keeps_nothing_from_rolling() {
    let base = "deck 3x2 friction=0.6; running roll=20/4; lie P1 1.5,0 chock=0.01 cap
                point E1 1.5,0.6; point E2 1.5,-0.6";
    let slack = format!("{base}; lash L1 E1 P1 E2 slack=0.05");
    let (bare, slack) = (cylinder(base, "P1"), cylinder(&slack, "P1"));
    let (bare, slack) = (used(&bare, Way::RollsAway), used(&slack, Way::RollsAway));
    assert!((bare - slack).abs() < 1e-9, "{bare} {slack}");
}

/// A twin lying flat does not roll, but it slides: U = a_across / (mu a_n).
#[test]
fn a_flat_twin_slides_across() {
    let text =
        "deck 3x2 friction=0.05; running roll=15/4; lie P1 1.5,0 kind=twin-st-12l-long-232 cap";
    told(text, Signal::Danger, &["T202"], "P1");
}

/// Two fixtures on the same side of a lying cylinder: which is first in the file says nothing.
#[test]
fn walls_do_not_depend_on_the_order_of_the_file() {
    let base = "deck 3x2 friction=0.6; running roll=15/4; lie P1 1.5,0 cap
                fixture C bench 1..2,-0.4..-0.1 h=0.5 backing=9";
    let weak = "fixture A bench 1..1.5,0.1..0.4 h=0.5 backing=0.01";
    let strong = "fixture B bench 1.5..2,0.1..0.4 h=0.5 backing=9";
    let one = cylinder(&format!("{base}; {weak}; {strong}"), "P1");
    let two = cylinder(&format!("{base}; {strong}; {weak}"), "P1");
    let (one, two) = (used(&one, Way::RollsAway), used(&two, Way::RollsAway));
    assert!((one - two).abs() < 1e-9, "{one} {two}");
}

/// A shelf overhead is no wall.
#[test]
fn nothing_overhead_stops_a_rolling_cylinder() {
    let text = "deck 3x2 friction=0.6; running roll=15/4; lie P1 1.5,0 cap
                fixture A bench 1..2,0.1..0.4 h=2 under=1.8 backing=9
                fixture B bench 1..2,-0.4..-0.1 h=2 under=1.8 backing=9";
    told(text, Signal::Danger, &["Y501"], "P1");
}

/// An upper tier pushes the end one of the lower row out of its saddle (both at rest in their saddles:
/// tan gamma must be at least 0.5 tan 30 / 1.5 = 0.19).
#[test]
fn an_upper_tier_weighs_on_the_saddles_below() {
    let lower = "lie P2 1.5,0.0921 saddle=20; lie P3 1.5,-0.0921 saddle=20";
    let base = "deck 3x2 friction=0.9; running roll=8/8";
    let alone = cylinder(&format!("{base}; {lower}"), "P2");
    let under = cylinder(&format!("{base}; {lower}; lie P1 1.5,0 upon=P2+P3"), "P2");
    let (alone, under) = (used(&alone, Way::RollsAway), used(&under, Way::RollsAway));
    assert!(under > 1.2 * alone, "{alone} {under}");
}

/// n touching cylinders against one end chock hold while n a_across / a_n < tan gamma (linear program and a
/// rigid-body engine agree, docs/method.md, lying); one that lies apart asks only for itself.
#[test]
fn a_row_of_lying_cylinders_by_hand() {
    let row = |y: f64| {
        format!(
            "deck 6x3; running roll=0/4 heel=5; lie P1 3,{y} towards=0 chock=0.05
             lie P2 3,0 towards=180; lie P3 3,-0.19 towards=0 chock=0.05"
        )
    };
    let one = cylinder(&row(0.19), "P3");
    let tan_gamma = |numbers: &CylinderNumbers| {
        let radius = numbers.body_radius_m;
        (1.0 - 0.05 / radius).acos().tan()
    };
    let x = 5.0_f64.to_radians().tan();
    for id in ["P1", "P2", "P3"] {
        let numbers = cylinder(&row(0.19), id);
        let by_hand = 3.0 * x / tan_gamma(&one);
        let found = used(&numbers, Way::RollsAway);
        assert!((found - by_hand).abs() < 1e-6, "{id}: {found} {by_hand}");
        assert_eq!(numbers.row, ["P1", "P2", "P3"]);
    }
    let apart = cylinder(&row(0.4), "P1");
    assert!((used(&apart, Way::RollsAway) - x / tan_gamma(&apart)).abs() < 1e-6);
    assert!(apart.row.is_empty());
}

/// A touching lower row of two with end chocks under one upper: (3 x + tan nu) / 2 < tan gamma (1.5 + x / (2
/// tan nu)) for small x, and at rest it spreads where tan gamma < tan nu / 3 (docs/method.md, lying; held there
/// against a linear program: 10.9 degrees).
#[test]
fn a_tier_on_a_row_by_hand() {
    let text = |chock: f64| {
        format!(
            "deck 6x3; running roll=0/4 heel=1; lie P1 3,0.092 towards=0 chock={chock}
             lie P2 3,-0.092 towards=0 chock={chock}; lie P3 3,0 towards=0 upon=P1+P2"
        )
    };
    let one = cylinder(&text(0.002), "P1");
    let tan_nu = (0.184 / (4.0 * one.body_radius_m)).asin().tan();
    let tan_gamma = (1.0 - 0.002 / one.body_radius_m).acos().tan();
    let limit = (1.5 * tan_gamma - 0.5 * tan_nu) / (1.5 - 0.5 * tan_gamma / tan_nu);
    assert!(limit > 0.0 && limit < tan_nu / 3.0, "{limit}");
    let by_hand = 1.0_f64.to_radians().tan() / limit;
    for id in ["P1", "P2"] {
        let found = used(&cylinder(&text(0.002), id), Way::RollsAway);
        assert!(
            (found - by_hand).abs() < 1e-6 * by_hand,
            "{id}: {found} {by_hand}"
        );
    }
    let spreads = used(&cylinder(&text(0.0015), "P1"), Way::RollsAway);
    assert!(spreads.is_infinite(), "{spreads}");
}
