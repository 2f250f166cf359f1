//! What stands on its foot, leans on something or is held by hand, and where it falls.

use super::{G, cylinder, judged, listed, told, used};
use snugdown::checks::Signal;
use snugdown::engine::numbers::Way;

/// Somebody must be there to mind a cylinder that is filled, and nobody does so while running.
#[test]
fn a_cylinder_on_the_whip_is_minded_by_somebody_on_deck() {
    for part in ["drifting nobody roll=3/6", "running roll=3/6"] {
        let text = format!("deck 3x2; {part}; person A crew 1.9,0; whip P1 1.5,0");
        told(&text, Signal::Danger, &["U101"], "P1");
    }
}

/// On ice the foot slides away under the hand: m (a_h - mu a_n) at 15 degrees and 4 s is over 50 N at
/// mu = 0.02, and 32 kg of twin need more than a person keeps up.
#[test]
fn a_hand_also_holds_what_friction_does_not() {
    let text = "deck 3x2 friction=0.02; drifting roll=12/4; person A crew 1.9,0
                hold P1 1.5,0 by=A kind=twin-st-12l-long-232 boot faces=90";
    let numbers = cylinder(text, "P1");
    let force = numbers.hand_force_n.unwrap();
    let slide = numbers.utilisation(Way::Slides).unwrap();
    let governing = slide.governing.as_ref().unwrap();
    let least = numbers.mass_kg * (governing.a_h_m_s2 - 0.02 * governing.a_n_m_s2);
    assert!(force >= least - 1e-9, "{force} {least}");
}

/// A heel of 16 degrees alone is more than atan(b/h) = 14.6 of a free cylinder of 80 cu ft.
#[test]
fn a_steady_heel_alone_tips() {
    let text = "deck 3x2 friction=0.9; drifting roll=0/4 heel=16; stand P1 1.5,0";
    let numbers = cylinder(text, "P1");
    assert!(numbers.limit.goes_at_rest);
    told(text, Signal::Danger, &["U101"], "P1");
}

/// A stop of 0.3 g alone: 0.3 h = 0.096 is more than b = 0.083.
#[test]
fn a_push_alone_tips() {
    let text = "deck 3x2 friction=0.9; drifting roll=0/4 stop=0.3; stand P1 1.5,0";
    let numbers = cylinder(text, "P1");
    let by_hand = 0.3 * numbers.cg_height_m / numbers.base_radius_m;
    assert!((used(&numbers, Way::Tips) - by_hand).abs() < 1e-9);
}

/// With 1.2 g up and down everything that is not held down leaves the deck, however it stands or lies.
#[test]
fn whatever_is_not_held_down_lifts() {
    for what in [
        "stand P1 1.5,0",
        "lie P1 1.5,0 saddle=60 cap",
        "lie P1 1.5,0 onkit kit=0 cap",
        "lie P1 1.5,0 kind=twin-st-12l-long-232 cap",
        "lie P1 1.5,0 chock=0.06 cap; point E1 1.5,0.6; point E2 1.5,-0.6; lash L1 E1 P1 E2 open",
        "cage P1 1.5,0",
        "person A crew 1.9,0; hold P1 1.5,0 by=A",
        "person A crew 1.9,0; whip P1 1.5,0",
        "rack R1 sockets 1.5,0 foot; slot P1 R1/1",
        "rack R1 bench 1.5,0 foot; front R1 F1 strap tied; slot P1 R1/1",
        "rack R1 cradles 1.5,0 saddle=60; slot P1 R1/1 cap",
        "rack R1 crate 1.5,0 size=1x1; crate P1 R1 1.5,0 cap",
        "rack R1 net 1.5,0 size=1x1; crate P1 R1 1.5,0 cap",
        "lie P2 1.5,0.1 saddle=60; lie P3 1.5,-0.1 saddle=60; lie P1 1.5,0 upon=P2+P3 cap",
    ] {
        let text = format!("deck 3x2 friction=0.9; drifting roll=3/6 up=1.2; {what}");
        let codes = ["T203", "R303", "U101", "U103"];
        told(&text, Signal::Danger, &codes, "P1");
        let numbers = cylinder(&text, "P1");
        assert!(used(&numbers, Way::Lifts) >= 1.0, "{what}");
    }
}

/// No friction holds nothing that rests on friction alone.
#[test]
fn measured_ice_holds_nothing() {
    for what in [
        "lie P1 1.5,0 saddle=60 towards=90 cap",
        "lie P1 1.5,0 onkit kit=0 cap",
        "rack R1 sockets 1.5,0 edge=0.6; slot P1 R1/1",
        "point E1 1.5,0.6; stand P1 1.5,0; lash L1 E1 P1 E1 h=0.44 tight=0.2",
    ] {
        let text = format!("deck 3x2 friction=0; running roll=25/4; {what}");
        let codes = ["Y503", "T202", "T201", "R304"];
        told(&text, Signal::Danger, &codes, "P1");
    }
}

/// What falls next to a seated diver, on glass, or on its neighbour is told.
#[test]
fn falls_are_told() {
    let base = "deck 4x3 friction=0.9; running roll=20/4; stand P1 1.5,0";
    let diver = format!("{base}; person D diver 1.5,0.6 is=seated_kitted faces=90 fins");
    told(&diver, Signal::Warning, &["F701"], "P1");
    let glass = format!("{base}; fixture W glass 1.2..1.8,0.4..0.45 h=1");
    told(&glass, Signal::Caution, &["F702"], "P1");
    let second = format!("{base}; stand P2 1.5,0.3");
    told(&second, Signal::Caution, &["F703"], "P1");
}

/// A mat under a cylinder changes the friction and raises it by its thickness: what slid at a_h = mu a_n
/// now tips at a_h h = a_n b (balances by hand, at steady heel alone).
#[test]
fn a_mat_stops_the_slide_and_starts_the_tip() {
    let text = "deck 4x2; running roll=12/60; stand P1 1.5,0";
    let bare = cylinder(text, "P1");
    assert_eq!(bare.friction, Some(0.2), "wet paint, by the catalogue");
    assert_eq!(bare.limit.way, Some(Way::Slides));
    let matted = cylinder(
        &format!("{text}; gear M mat 1.5,0 size=0.4x0.4 h=0.01 friction=0.7"),
        "P1",
    );
    assert_eq!(matted.friction, Some(0.7));
    assert_eq!(matted.limit.way, Some(Way::Tips));
    let raised = matted.cg_above_waterline_m - bare.cg_above_waterline_m;
    assert!((raised - 0.01).abs() < 1e-12, "{raised}");
    let share = used(&matted, Way::Slides) / used(&bare, Way::Slides);
    assert!((share - 0.2 / 0.7).abs() < 1e-3, "{share}");
    let (tan_bare, tan_matted) = (bare.limit.roll_deg, matted.limit.roll_deg);
    let tan = |degrees: Option<f64>| degrees.unwrap().to_radians().tan();
    // 60 s: the swing itself adds 1 % of g at most.
    assert!((tan(tan_bare) - 0.2).abs() < 0.01, "{tan_bare:?}");
    let by_hand = matted.base_radius_m / matted.cg_height_m;
    assert!(
        (tan(tan_matted) - by_hand).abs() < 0.02 * by_hand,
        "{tan_matted:?} {by_hand}"
    );
    // Beside it, stowed away, or under something else it does nothing.
    for gear in [
        "M mat 1.5,0.6 size=0.4x0.4 h=0.01",
        "M mat 1.5,0 size=0.4x0.4 h=0.01 stowed",
    ] {
        let beside = cylinder(&format!("{text}; gear {gear}"), "P1");
        assert_eq!(beside.friction, Some(0.2), "{gear}");
    }
}

/// Three lying cylinders on one bulwark push it together with 3 m g sin(heel); two that stand against it with
/// twice m (a_h h - a_n b) / height of the contact (moments about the edge of the foot).
#[test]
fn what_leans_on_one_fixture_adds_up() {
    let side = "deck 6x3 friction=0.9; running roll=0/4 heel=25
                fixture B bulwark 1..5,-1.1..-1 h=0.4 backing=?";
    let lying = format!(
        "{side}; lie P1 1.6,-0.9 towards=0 onkit; lie P2 2.7,-0.9 towards=0 onkit; lie P3 3.8,-0.9 towards=0 onkit"
    );
    let (findings, part) = judged(&lying);
    let backing = &part.backings[0];
    let mass: f64 = part.cylinders.iter().map(|item| item.mass_kg).sum();
    let by_hand = mass * G * 25.0_f64.to_radians().sin();
    assert!(
        (backing.push_n - by_hand).abs() < 1e-6 * by_hand,
        "{backing:?}"
    );
    assert_eq!(backing.behind, ["P1", "P2", "P3"]);
    let told = findings.iter().find(|item| item.code == "T204").unwrap();
    assert!(told.not_known, "{}", listed(&findings));
    let standing = format!("{side}; stand P1 1.6,-0.9; stand P2 2.7,-0.9");
    let (_, part) = judged(&standing);
    let one = &part.cylinders[0];
    let (sin, cos) = 25.0_f64.to_radians().sin_cos();
    let push = one.mass_kg * G * (sin * one.cg_height_m - cos * one.base_radius_m) / 0.4;
    let found = part.backings[0].push_n;
    assert!((found - 2.0 * push).abs() < 5e-3 * found, "{found} {push}");
}

/// Kit whose heading nobody knows is not better than the worst heading.
#[test]
fn an_unknown_heading_is_the_worst() {
    let base = "deck 3x2 friction=0.9; drifting roll=6/5; stand P1 1.5,0";
    let unknown = used(&cylinder(&format!("{base} kit=?"), "P1"), Way::Tips);
    for heading in [0, 45, 90, 180, 270] {
        let known = used(&cylinder(&format!("{base} kit={heading}"), "P1"), Way::Tips);
        assert!(unknown >= known - 1e-3, "{heading}: {unknown} {known}");
    }
}

fn tips(text: &str, id: &str) -> f64 {
    used(&cylinder(text, id), Way::Tips)
}

/// Two on one side of a fixture have half of it each: what one alone has of a fixture of half the strength. One
/// on the other side changes nothing.
#[test]
fn two_on_one_fixture_have_half_of_it_each() {
    let deck = |backing: f64, more: &str| {
        format!(
            "deck 6x3 friction=0.9; running roll=0/4 heel=25; stand P1 2,-0.9 {more}
             fixture B bulwark 1..5,-1.1..-1 h=0.4 backing={backing}"
        )
    };
    let alone = tips(&deck(0.05, ""), "P1");
    let both = deck(0.1, "; stand P2 4,-0.9");
    assert!((tips(&both, "P1") - alone).abs() < 1e-9, "{alone}");
    assert!((tips(&both, "P2") - alone).abs() < 1e-9, "{alone}");
    let whole = tips(&deck(0.1, ""), "P1");
    assert!(whole < 0.8 * alone, "{whole} {alone}");
    let behind = tips(&deck(0.1, "; stand P2 4,-1.2"), "P1");
    assert!((behind - whole).abs() < 1e-9, "{behind} {whole}");
}

/// 17 kg beside 22 kg have 17/39 and 22/39 of it: each of two that lie alike goes when both together do,
/// (m1 + m2) g sin(heel) = strength.
#[test]
fn the_heavier_on_a_fixture_has_the_greater_part() {
    let text = "deck 6x3 friction=0.9; running roll=0/4 heel=25
                fixture B bulwark 1..5,-1.1..-1 h=0.4 backing=0.15
                lie P1 1.6,-0.9 towards=0 onkit; lie P2 2.7,-0.9 towards=0 onkit kind=st-15l-232";
    let both = [cylinder(text, "P1"), cylinder(text, "P2")];
    let sum_kg: f64 = both.iter().map(|one| one.mass_kg).sum();
    let together = sum_kg * G * 25.0_f64.to_radians().sin() / 150.0;
    assert!(both[1].mass_kg > 1.2 * both[0].mass_kg);
    for one in &both {
        let found = used(one, Way::RollsAway);
        assert!((found - together).abs() < 1e-9, "{found} {together}");
    }
}
