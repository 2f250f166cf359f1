//! Fronts, slots, straps from the gear aboard, boots, laying down.

use super::Case;
use crate::checks::Signal;

const FREE: &str = "deck 6x3; drifting roll=15/4; stand P1 3,0";
const POINTS: &str = "point E1 3,0.6; point E2 3,-0.6";

#[test]
fn a_strap_from_the_gear_aboard_at_two_thirds_of_the_height() {
    let case = Case::new(&format!("{FREE}; {POINTS}; aboard S strap 2"));
    // An 80 cu ft aluminium cylinder is 0.72 m high with its valve: two thirds are 0.48 m.
    let after = case.cured_by("U101", "P1", "Strap P1 at 0.48 m twice");
    let lashings = &after.plan.trips[0].lashings;
    assert_eq!(lashings.len(), 2);
    assert!(
        lashings
            .iter()
            .all(|lashing| (lashing.height_m - 0.48).abs() < 1e-9)
    );
    let cures = case.cures("U101", "P1");
    assert_eq!(cures[0].gear.as_deref(), Some("S"));
}

#[test]
fn no_more_straps_than_are_aboard() {
    Case::new(&format!("{FREE}; {POINTS}")).not_cured_by("U101", "P1", "Strap");
    let one = Case::new(&format!("{FREE}; {POINTS}; aboard S strap 1"));
    one.not_cured_by("U101", "P1", "twice");
    let used = "stand P2 5,0; point E3 5,0.6; point E4 5,-0.6
                lash L1 E3 P2 E3 h=0.47 tight=0.2; lash L2 E4 P2 E4 h=0.47 tight=0.2";
    let case = Case::new(&format!("{FREE}; {POINTS}; {used}; aboard S strap 2"));
    case.not_cured_by("U101", "P1", "Strap");
    let case = Case::new(&format!("{FREE}; {POINTS}; {used}; aboard S strap 4"));
    case.cured_by("U101", "P1", "Strap P1 at 0.48 m twice");
}

#[test]
fn two_entries_of_one_material_are_one_stock() {
    let used = "stand P2 5,0; point E3 5,0.6; point E4 5,-0.6
                lash L1 E3 P2 E3 h=0.47 tight=0.2; lash L2 E4 P2 E4 h=0.47 tight=0.2";
    // The usual strap by its name, and by no name.
    let aboard = "aboard A strap 1; aboard B strap 1 material=ratchet_strap_25";
    let case = Case::new(&format!("{FREE}; {POINTS}; {used}; {aboard}"));
    case.not_cured_by("U101", "P1", "Strap");
}

#[test]
fn a_strap_that_is_too_short_is_passed_over() {
    let short = format!("{FREE}; {POINTS}; aboard S strap 2 length=1.5");
    Case::new(&short).not_cured_by("U101", "P1", "Strap");
    let long = format!("{short}; aboard Z strap 2 length=4 material=ratchet_strap_25 strength=3");
    let case = Case::new(&long);
    case.cured_by("U101", "P1", "(Z, hand-tight)");
}

#[test]
fn shock_cord_aboard_is_no_strap() {
    let text = format!("{FREE}; {POINTS}; aboard S cord 4; aboard T strap 2 material=shock_cord_8");
    Case::new(&text).not_cured_by("U101", "P1", "Strap");
}

#[test]
fn a_strap_is_made_fast_only_while_the_cylinder_is_there() {
    let text = format!(
        "deck 6x3; {POINTS}; aboard S strap 2; stand P1 3,0; drifting out roll=15/4
         drifting dive roll=15/4; water P1"
    );
    let after = Case::new(&text).cured_by("U101", "P1", "Strap P1");
    let shut = |part: usize| {
        let changes = &after.plan.trips[0].parts[part].changes.lashings;
        changes.iter().all(|change| change.shut == Some(false)) && changes.len() == 2
    };
    assert!(shut(1), "{:#?}", after.plan.trips[0].parts[1]);
}

#[test]
fn an_open_front_is_shut() {
    let text = "deck 6x3; running roll=2/8; rack R1 bench 3,0 columns=2 foot
                front R1 F1 strap tied open; slot P1 R1/1";
    let after = Case::new(text).cured_by("R310", "R1", "Shut F1 across R1");
    assert!(after.findings.is_empty(), "{:#?}", after.findings);
    let none = "deck 6x3; running roll=2/8; rack R1 bench 3,0 columns=2 foot; slot P1 R1/1";
    Case::new(none).not_cured_by("R310", "R1", "Shut");
}

#[test]
fn an_open_lashing_is_shut() {
    let text = "deck 6x3; drifting roll=2/6; stand P1 3,0; point E1 3,0.6; point E2 3,-0.6
                lash L1 E1 P1 E2 h=0.47 tight=0.2 open";
    let after = Case::new(text).cured_by("U101", "P1", "Shut L1");
    assert!(after.plan.trips[0].lashings[0].shut);
}

#[test]
fn a_front_is_tied_between_the_slots() {
    let row = "deck 6x3; running roll=20/4; rack R1 bench 3,0 columns=3 foot
               slot P1 R1/1; slot P2 R1/2; slot P3 R1/3; front R1 F1 strap";
    let after = Case::new(&format!("{row} strength=0.15")).cured_by(
        "R311",
        "R1",
        "Tie strap F1 across R1 between every two slots",
    );
    assert!(after.plan.boat.racks[0].fronts[0].tied_between_slots);
    // Far too weak, tied it is too weak still.
    let weak = Case::new(&format!("{row} strength=0.001"));
    let cures = weak.cures("R311", "R1");
    assert!(cures.iter().all(|cure| !cure.clears), "{cures:#?}");
    // It is tied already.
    Case::new(&format!("{row} tied strength=0.01")).not_cured_by("R311", "R1", "Tie");
}

#[test]
fn a_slack_front_is_pulled_tight() {
    let text = "deck 6x3; running roll=2/8; rack R1 bench 3,0 columns=2 foot
                front R1 F1 strap tied slack=0.15; slot P1 R1/1";
    let after = Case::new(text).cured_by("R311", "R1", "Pull strap F1 across R1 tight");
    assert_eq!(after.plan.boat.racks[0].fronts[0].slack_m, None);
}

#[test]
fn a_boot_from_the_gear_aboard() {
    let text = "deck 6x3; fast roll=0.1/8; stand S1 3,0 kind=st-10l-232";
    let case = Case::new(&format!("{text}; aboard B boot 1"));
    let after = case.cured_by("U102", "S1", "Put a boot on S1 (B)");
    assert!(after.plan.trips[0].cylinders[0].boot);
    Case::new(text).not_cured_by("U102", "S1", "boot");
    let used = "stand S2 5,0 kind=st-10l-232 boot; aboard B boot 1";
    Case::new(&format!("{text}; {used}")).not_cured_by("U102", "S1", "boot");
}

#[test]
fn another_slot_that_fits() {
    let text = "deck 6x3; running roll=2/8; rack R1 sockets 2,0 foot bore=0.3 pitch=0.35
                rack R2 sockets 4,0 foot bore=0.19 pitch=0.25; slot P1 R1/1";
    let after = Case::new(text).cured_by("R305", "P1", "Put P1 in slot 1 of R2");
    assert!(after.finding("R305", "P1").is_none());
    let taken = format!("{text}; slot P2 R2/1");
    Case::new(&taken).not_cured_by("R305", "P1", "of R2");
}

#[test]
fn laid_down_on_free_floor_with_chocks_from_aboard() {
    let case = Case::new(&format!("{FREE} cap; aboard C chock 2 height=0.06"));
    let after = case.cured_by("U101", "P1", "Lay P1 down");
    assert!(after.finding("Y501", "P1").is_none());
    // Without chocks it would only roll away.
    Case::new(&format!("{FREE} cap")).not_cured_by("U101", "P1", "Lay P1 down");
    // Nor with those that lie beside another one.
    let used = "lie P2 5,0 chock=0.06; aboard C chock 2 height=0.06";
    Case::new(&format!("{FREE} cap; {used}")).not_cured_by("U101", "P1", "Lay P1 down");
    // A deck that is too small for it has no free floor.
    let small =
        "deck 0.5x0.5; drifting roll=15/4; stand P1 0.25,0 cap; aboard C chock 2 height=0.06";
    Case::new(small).not_cured_by("U101", "P1", "Lay P1 down");
}

#[test]
fn laid_down_on_its_kit_without_chocks() {
    let case = Case::new("deck 6x3 friction=0.8; drifting roll=6/5; stand P1 3,0 kit=0 cap");
    case.cured_by("U101", "P1", "on its kit");
}

/// On wet paint the foot slides at tan = 0.2; on a mat (0.3) it stands, and the lashing at its foot does not
/// keep it from tipping.
#[test]
fn a_mat_stops_the_slide_and_says_that_it_tips_then() {
    let text = "deck 6x3; running roll=15/4; stand P1 3,0; point E1 3,0.6 strength=0.1
                lash L1 E1 P1 E1 h=0.2 tight=0.02";
    let case = Case::new(&format!("{text}; aboard M mat 1"));
    let tips = |case: &Case| {
        let tips = case.finding("T201", "P1").unwrap();
        (tips.signal, tips.sentence.clone())
    };
    assert_eq!(case.finding("T202", "P1").unwrap().signal, Signal::Danger);
    assert_eq!(tips(&case).0, Signal::Warning, "it slides before it tips");
    let cures = case.cures("T202", "P1");
    let mat = cures
        .iter()
        .find(|cure| cure.label == "Lay a non-slip mat under P1 (M)");
    let mat = mat.unwrap_or_else(|| panic!("{cures:#?}"));
    assert!(mat.clears, "{mat:#?}");
    assert_eq!(mat.gear.as_deref(), Some("M"));
    let after = case.after(mat);
    assert!(
        after.finding("T202", "P1").is_none(),
        "{:#?}",
        after.findings
    );
    let (signal, sentence) = tips(&after);
    assert_eq!(signal, Signal::Danger);
    assert_eq!(mat.moves_trouble_to, [sentence], "and nothing else");
    // It is no cure of what tips already.
    case.not_cured_by("T201", "P1", "mat");
    Case::new(text).not_cured_by("T202", "P1", "mat");
}

#[test]
fn a_mat_that_only_stops_the_slide_moves_nothing() {
    let text = "deck 6x3; drifting roll=6/8; person Ann crew 3,0.5; whip P1 3,0; aboard M mat 1";
    let case = Case::new(text);
    let cures = case.cures("T202", "P1");
    assert!(cures[0].moves_trouble_to.is_empty(), "{cures:#?}");
    let after = case.cured_by("T202", "P1", "Lay a non-slip mat under P1 (M)");
    assert!(after.findings.is_empty(), "{:#?}", after.findings);
}
