//! Racks: fronts, edges, foot stops, shelves, and racks that stand loose.

use super::{G, cylinder, judged, listed, told, used};
use snugdown::checks::Signal;
use snugdown::engine::numbers::{NeedKind, Way};

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

/// U of an unfixed rack with its one cylinder: both masses at their own heights about the edge.
#[test]
fn a_loose_rack_with_one_cylinder_tips() {
    let text = "deck 3x2 friction=0.9; running roll=25/4
                rack R1 sockets 1.5,0 foot floor loose mass=2; slot P1 R1/1";
    told(text, Signal::Danger, &["R307"], "R1");
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
            .lines()
            .iter()
            .any(|line| line.contains("L1 round it is not counted"))
    );
}
