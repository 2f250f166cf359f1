//! Small decks against hand calculation: what goes by statics must be told, and what nobody knows must
//! not pass.
//!
//! Each test names its balance, or the rule of common practice that it holds the program to.

#![expect(clippy::doc_markdown, reason = "formulas in plain text")]

use snugdown::checks::{self, Finding, Signal, fixture};
use snugdown::engine::Assessor;
use snugdown::engine::numbers::{CylinderNumbers, NeedKind, PartNumbers, Way};

const G: f64 = 9.80665;

/// Findings and numbers of the last part of a tiny deck.
#[track_caller]
fn judged(text: &str) -> (Vec<Finding>, PartNumbers) {
    let plan = match fixture::plan(text) {
        Ok(plan) => plan,
        Err(trouble) => panic!("{trouble}"),
    };
    let mut assessor = Assessor::default();
    let findings = checks::run(&mut assessor, &plan, &plan.trips[0]);
    let part = assessor.assessment().parts.last().unwrap().clone();
    let of_part = findings.into_iter().filter(|item| item.part == part.part);
    (of_part.collect(), part)
}

#[track_caller]
fn cylinder(text: &str, id: &str) -> CylinderNumbers {
    let (_, part) = judged(text);
    let found = part.cylinders.iter().find(|item| item.cylinder == id);
    found.unwrap().clone()
}

fn used(cylinder: &CylinderNumbers, way: Way) -> f64 {
    let item = cylinder.utilisation(way).unwrap();
    item.value.unwrap_or(f64::INFINITY)
}

/// The worst of all ways.
fn worst(cylinder: &CylinderNumbers) -> f64 {
    let values = cylinder.utilisations.iter();
    values
        .map(|item| item.value.unwrap_or(f64::INFINITY))
        .fold(0.0, f64::max)
}

fn listed(findings: &[Finding]) -> String {
    let lines = findings.iter().map(|item| {
        let about: Vec<&str> = item.about.iter().map(|about| about.id.as_str()).collect();
        format!("{} {} {about:?} {}", item.signal, item.code, item.sentence)
    });
    lines.collect::<Vec<_>>().join("\n")
}

/// Is something told with at least this signal word, one of these codes, about this thing?
#[track_caller]
fn told(text: &str, least: Signal, codes: &[&str], about: &str) {
    let (findings, _) = judged(text);
    let found = findings.iter().any(|item| {
        item.signal >= least
            && codes.contains(&item.code)
            && item.about.iter().any(|subject| subject.id == about)
    });
    assert!(
        found,
        "{text}\nexpected one of {codes:?} about {about}, found:\n{}",
        listed(&findings)
    );
}

/// Is it told that nobody knows something about this thing?
#[track_caller]
fn not_known(text: &str, about: &str) {
    let (findings, _) = judged(text);
    let found = findings
        .iter()
        .any(|item| item.not_known && item.about.iter().any(|subject| subject.id == about));
    assert!(
        found,
        "{text}\nnothing not known about {about}:\n{}",
        listed(&findings)
    );
}

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

/// m g = 17 kg times 9.8 is more than 0.1 kN / 1.5, and a swing adds to it.
#[test]
fn a_weak_point_that_something_hangs_from_is_told() {
    let text = "deck 3x2; running roll=10/4; point E1 1.5,0 h=1.8 strength=0.1; hang P1 E1 1.5,0";
    told(text, Signal::Danger, &["L402", "T203"], "E1");
    let text = "deck 3x2; running roll=10/4; point E1 1.5,0 h=1.8 strength=?; hang P1 E1 1.5,0";
    not_known(text, "E1");
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

/// A crate that stands loose on a deck of unknown friction may slide.
#[test]
fn a_loose_crate_on_unknown_friction_is_told() {
    let text = "deck 3x2 friction=?; running roll=10/4; rack R1 crate 1.5,0 size=1x1 loose
                crate P1 R1 1.5,0 cap";
    not_known(text, "R1");
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

const BENCH: &str =
    "deck 3x2 friction=0.5; running roll=10/4; rack R1 bench 1.5,0 foot; slot P1 R1/1";

/// A strap above the shoulder slips over the valve, as a lashing there would.
#[test]
fn a_front_above_the_shoulder_closes_nothing() {
    let text = format!("{BENCH}; front R1 F1 strap tied height=0.75");
    told(&text, Signal::Danger, &["U101", "R310"], "P1");
}

/// 0.2 m of slack at 0.44 m lets it lean atan(0.2/0.44) = 24 degrees; it tips from 14.6 on.
#[test]
fn a_slack_front_is_told() {
    let text = format!("{BENCH}; front R1 F1 strap tied slack=0.2");
    told(&text, Signal::Danger, &["R311"], "P1");
    let text = format!("{BENCH}; front R1 F1 strap tied slack=?");
    let (findings, _) = judged(&text);
    let found = findings
        .iter()
        .any(|item| item.code == "R311" && item.not_known);
    assert!(found, "{}", listed(&findings));
}

/// Held at the foot of its shell only: the front counts like the edge.
#[test]
fn a_front_below_the_centre_is_told() {
    let text = "deck 3x2 friction=0.5; running roll=10/4; rack R1 bench 1.5,0; slot P1 R1/1
                front R1 F1 strap tied height=0.15";
    told(text, Signal::Caution, &["R302"], "P1");
}

/// F = m (a_h z + a_n x + spin) / r with r no higher than the shell reaches: an edge of 0.9 m round a
/// cylinder of 0.65 m touches its shoulder.
#[test]
fn an_edge_above_the_cylinder_holds_at_its_shoulder() {
    let at = |edge: &str| {
        let text = format!(
            "deck 3x2 friction=0.5; running roll=25/4; rack R1 sockets 1.5,0 foot edge={edge}; slot P1 R1/1"
        );
        let numbers = cylinder(&text, "P1");
        (
            numbers.rack.unwrap().edge_force_n,
            numbers.straight_shell_m[1],
        )
    };
    let (high, shoulder) = at("0.9");
    let (low, _) = at(&shoulder.to_string());
    assert!(low > 1.0 && (high - low).abs() < 1e-6 * low, "{high} {low}");
}

/// Two straps across one slot, one of them open: the other holds, whichever comes first.
#[test]
fn fronts_do_not_depend_on_the_order_of_the_file() {
    let a = "front R1 A strap tied height=0.44";
    let b = "front R1 B strap tied height=0.3 open";
    let code = |text: String| {
        let (findings, _) = judged(&text);
        let mut codes: Vec<&str> = findings.iter().map(|item| item.code).collect();
        codes.sort_unstable();
        codes
    };
    let one = code(format!("{BENCH}; {a}; {b}"));
    let two = code(format!("{BENCH}; {b}; {a}"));
    assert_eq!(one, two);
}

/// An open slot: a back rail holds no foot, which friction must. U of the foot is
/// a_h (r - h) / (a_n (b + mu r)), at r = 0.53, h = 0.32, b = 0.083 and 30 degrees 0.58 * 0.21 / 0.094 = 1.3.
#[test]
fn a_back_rail_alone_does_not_hold_the_foot() {
    let text =
        "deck 3x2; running heel=30 roll=0/4; rack R1 bench 1.5,0 turn=180 edge=0.55 friction=0.02
                slot P1 R1/1";
    let numbers = cylinder(text, "P1");
    assert!(numbers.limit.goes_at_rest, "{:?}", numbers.utilisations);
}

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

/// A lashing stays where it was made fast when its cylinder is carried away.
#[test]
fn a_lashing_does_not_follow_its_cylinder() {
    let text = format!(
        "deck 6x2; {TWO_POINTS}; fast roll=1/8; stand P1 1.5,0; lash L1 E1 P1 E2 h=0.44 tight=0.2
         drifting roll=2/8; stand P1 4.5,0"
    );
    told(&text, Signal::Danger, &["U101"], "P1");
}

/// Load on a shelf: m max(a_n), and on the low side roll adds P y to g cos(phi).
#[test]
fn a_shelf_off_the_centreline_bears_more() {
    let text = "deck 3x6; drifting roll=20/2.5; fixture B bench 1..2,1.5..2.5 h=0.45 shelf load=1
                stand P1 1.5,2 on=B";
    let (findings, part) = judged(text);
    let told = findings.iter().find(|item| item.code == "R309").unwrap();
    let load = told.measure.as_ref().unwrap().value.unwrap();
    let omega = std::f64::consts::TAU / 2.5;
    let roll = 20.0_f64.to_radians();
    let a_n = G * roll.cos() + omega * omega * roll * 2.0;
    let by_hand = part.cylinders[0].mass_kg * a_n;
    assert!((load - by_hand).abs() < 1e-3 * by_hand, "{load} {by_hand}");
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

/// U of an unfixed rack with its one cylinder: both masses at their own heights about the edge.
#[test]
fn a_loose_rack_with_one_cylinder_tips() {
    let text = "deck 3x2 friction=0.9; running roll=25/4
                rack R1 sockets 1.5,0 foot floor loose mass=2; slot P1 R1/1";
    told(text, Signal::Danger, &["R307"], "R1");
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

/// The sideways push on a bench's front by hand: m max(a_h (h) - a_n b, 0)/r with the foot held, at heel
/// alone so that no rotation adds.
#[test]
fn the_pull_on_a_front_by_hand() {
    let text = "deck 3x2 friction=0.5; running roll=0/4 heel=30; rack R1 bench 1.5,0 foot turn=180
                front R1 F1 strap tied height=0.44; slot P1 R1/1";
    let turned = text.replace("turn=180", "turn=0");
    let by = |text: &str| {
        let numbers = cylinder(text, "P1");
        let hold = numbers.rack.clone().unwrap();
        let (a_h, a_n) = (G * 0.5, G * 30.0_f64.to_radians().cos());
        let by_hand =
            numbers.mass_kg * (a_h * numbers.cg_height_m - a_n * numbers.base_radius_m) / 0.44;
        (hold.front_force_n.unwrap(), hold.edge_force_n, by_hand)
    };
    let ((front_a, edge_a, by_hand), (front_b, edge_b, _)) = (by(text), by(&turned));
    assert!(
        (front_a + front_b - by_hand).abs() < 1e-6 * by_hand,
        "{front_a} {front_b}"
    );
    assert!(
        (edge_a + edge_b - by_hand).abs() < 1e-6 * by_hand,
        "{edge_a} {edge_b}"
    );
}

/// A strap across a row that is fastened at its ends only, by hand: T = sum F / (2 sin eps) with F of each
/// from its own moments, eps = atan(0.286) (4 % of stretch: sqrt(1.04^2 - 1)). Every cylinder behind it and
/// the front itself have the same pull; an empty slot pushes nothing.
#[test]
fn a_strap_across_a_row_carries_the_sum() {
    let text = "deck 4x2 friction=0.5; running roll=0/4 heel=30; rack R1 bench 1.5,0 foot columns=4
                front R1 F1 strap strength=2 height=0.44
                slot P1 R1/1; slot P2 R1/2 kind=st-15l-232 boot; slot P3 R1/4";
    let (_, part) = judged(text);
    let (a_h, a_n) = (G * 0.5, G * 30.0_f64.to_radians().cos());
    let push = |id: &str| {
        let one = part
            .cylinders
            .iter()
            .find(|item| item.cylinder == id)
            .unwrap();
        // Slack or stretch lets it out by 0.286 of half the row before it holds.
        let lean = (0.286 * 0.5 * 4.0 * 0.25 / 0.44_f64).atan();
        let (h, b) = (one.cg_height_m, one.base_radius_m);
        let (z, x) = (
            h * lean.cos() + b * lean.sin(),
            h * lean.sin() - b * lean.cos(),
        );
        one.mass_kg * (a_h * z + a_n * x) / 0.44
    };
    let sum = push("P1") + push("P2") + push("P3");
    assert!(push("P2") > 1.05 * push("P1"), "another kind");
    let sin = 0.286_f64.atan().sin();
    let by_hand = sum / (2.0 * sin);
    let front = &part.racks[0].fronts[0];
    assert!(
        (front.pull_n - by_hand).abs() < 1e-6 * by_hand,
        "{} {by_hand}",
        front.pull_n
    );
    for one in &part.cylinders {
        let share = used(one, Way::RackGives);
        assert!(
            (share - by_hand / 2000.0).abs() < 1e-6 * share,
            "{}: {share}",
            one.cylinder
        );
    }
}

/// While the boat swings each of a row feels another force; whichever of them is asked, the pull in the strap
/// before them is one.
#[test]
fn a_row_agrees_on_its_strap_while_the_boat_swings() {
    let text = "deck 8x4 friction=0.5; running roll=20/4 pitch=8/3.2; rack R1 bench 5,1.2 foot columns=6 pitch=0.4 turn=30
                front R1 F1 strap strength=2 height=0.44
                slot P1 R1/1; slot P2 R1/3; slot P3 R1/6";
    let (_, part) = judged(text);
    let pull_n = part.racks[0].fronts[0].pull_n;
    assert!(pull_n > 300.0, "{pull_n}");
    for one in &part.cylinders {
        let share = used(one, Way::RackGives);
        assert!(
            (share - pull_n / 2000.0).abs() < 1e-9 * share,
            "{}: {share} {pull_n}",
            one.cylinder
        );
    }
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

/// A cylinder on a mat stands higher in its rack: the edge is lower above its foot, and its force grows as
/// 1 / r (statics).
#[test]
fn a_mat_in_a_socket_lowers_its_edge() {
    let text =
        "deck 4x2; running roll=0/4 heel=25; rack R1 sockets 1.5,0 foot edge=0.3; slot P1 R1/1";
    let force = |text: &str| cylinder(text, "P1").rack.unwrap().edge_force_n;
    let matted = force(&format!("{text}; gear M mat 1.5,0 size=0.4x0.4 h=0.06"));
    let ratio = matted / force(text);
    assert!((ratio - 0.3 / 0.24).abs() < 1e-9, "{ratio}");
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

/// Held above its centre a cylinder pushes harder at its foot, S = m a_h - F (balance of forces): the stop there
/// is as strong as the slot, and what gives first is what is shown.
#[test]
fn the_foot_stop_gives_like_the_edge() {
    let text =
        "deck 6x3; running roll=20/4; rack R1 sockets 3,0 edge=0.6 foot strength=0.1; slot P1 R1/1";
    let one = cylinder(text, "P1");
    let hold = one.rack.clone().unwrap();
    assert!(hold.foot_force_n > hold.edge_force_n, "{hold:?}");
    let share = used(&one, Way::RackGives);
    assert!(
        (share - hold.foot_force_n / 100.0).abs() < 1e-9,
        "{share} {hold:?}"
    );
    let unknown = cylinder(&text.replace("strength=0.1", "strength=?"), "P1");
    let need = unknown
        .needs
        .iter()
        .find(|need| need.what == NeedKind::SlotStrength)
        .unwrap();
    assert!(
        (1000.0 * need.at_least - hold.foot_force_n).abs() < 1e-6,
        "{need:?}"
    );
}

/// In a closed slot the slot alone counts; a lashing round it as well is said not to.
#[test]
fn a_lashing_round_what_a_slot_holds_is_not_counted() {
    let text = "deck 4x2; running roll=20/4; rack R1 sockets 1.5,0 foot strength=2; slot P1 R1/1";
    let lashed = format!("{text}; point E1 1.5,0.6; lash L1 E1 P1 E1 h=0.4 tight=0.2");
    let (bare, both) = (cylinder(text, "P1"), cylinder(&lashed, "P1"));
    assert_eq!(bare.limit, both.limit);
    assert!(!both.lashings[0].counted);
    let gives = both.utilisation(Way::RackGives).unwrap();
    assert!(
        gives
            .sum
            .iter()
            .any(|line| line.contains("L1 round it is not counted"))
    );
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
