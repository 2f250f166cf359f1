use super::*;
use crate::checks::fixture;

const TWO_ROWS: &str = "deck 10x4; fast
place G gate 0.4,0; place A seat 9,0; way W G A width=0.6
rack R1 bench 5,1.4 columns=3 pitch=0.25 edge=0.44 strength=9 fixings=9; front R1 F1 strap strength=9
slot P1 R1/1; slot P2 R1/2; slot P3 R1/3
point E1 4,-1.8 h=0.3 strength=9; point E2 4.6,-1.8 h=0.3 strength=9
stand S1 4.3,-1.6; stand S2 4.3,-1.2; lash L1 E1 S1+S2 E2 h=0.44 strength=9";

fn brief(text: &str) -> Brief {
    let plan = fixture::plan(text).unwrap();
    Brief::of(&plan, &plan.trips[0], None, &LoadingSettings::default()).unwrap()
}

#[test]
fn every_cylinder_stands_once_in_the_list_and_in_the_order() {
    let brief = brief(TWO_ROWS);
    let listed: Vec<&str> = brief
        .load_list
        .iter()
        .map(|row| row.cylinder.as_str())
        .collect();
    assert_eq!(listed, ["P1", "P2", "P3", "S1", "S2"]);
    let mut ordered: Vec<&str> = brief
        .loading
        .steps
        .iter()
        .map(|step| step.cylinder.as_str())
        .collect();
    ordered.sort_unstable();
    assert_eq!(ordered, listed);
}

#[test]
fn the_one_at_the_side_comes_before_the_one_in_its_way() {
    let brief = brief(TWO_ROWS);
    let place = |name: &str| {
        let steps = &brief.loading.steps;
        steps.iter().position(|step| step.cylinder == name).unwrap()
    };
    assert!(
        place("S1") < place("S2"),
        "S2 stands between S1 and the walkway"
    );
}

#[test]
fn a_shared_strap_is_shut_again_for_each_and_says_whom_it_holds() {
    let brief = brief(TWO_ROWS);
    let step = brief
        .loading
        .steps
        .iter()
        .find(|step| step.cylinder == "P2");
    assert_eq!(
        step.unwrap().securing,
        Securing::Front {
            front: "F1".to_owned(),
            shared: true
        }
    );
    assert_eq!(
        brief.front_list[0].opened,
        "opened for one, open for P1, P2 and P3"
    );
    assert_eq!(
        brief.lashing_list[0].opened,
        "opened for one, open for S1 and S2"
    );
    assert!(
        brief
            .talk_points
            .iter()
            .any(|point| point.say.contains("shut F1 and L1 again")),
        "{:?}",
        brief.talk_points
    );
}

#[test]
fn heel_is_told_with_gm_and_displacement_only() {
    let bare = brief(TWO_ROWS);
    assert_eq!(bare.loading.greatest_heel_deg, None);
    assert!(
        bare.loading
            .remarks
            .iter()
            .any(|remark| remark.starts_with("GM or"))
    );

    let mut plan = fixture::plan(TWO_ROWS).unwrap();
    plan.boat.gm_m = Some(1.0);
    plan.boat.displacement_kg = Some(8000.0);
    let measured = Brief::of(&plan, &plan.trips[0], None, &LoadingSettings::default()).unwrap();
    let last = measured.loading.steps.last().unwrap();
    // By hand: the moment of all over displacement and GM; more weight to port puts port down.
    let moment: f64 = measured
        .loading
        .steps
        .iter()
        .map(|step| step.mass_kg * step.at[1])
        .sum();
    assert!((last.moment_kg_m - moment).abs() < 1e-9);
    let by_hand = -(moment / 8000.0).atan().to_degrees();
    assert!((last.heel_deg.unwrap() - by_hand).abs() < 1e-9);
    assert!(measured.loading.greatest_heel_deg.unwrap() <= 2.0);
}

#[test]
fn what_nothing_holds_is_said_in_its_step() {
    let brief = brief("deck 10x4; fast; stand P1 5,0");
    assert_eq!(brief.loading.steps[0].securing, Securing::Nothing);
    assert!(
        brief.loading.steps[0]
            .sentence
            .contains("nothing holds it there")
    );
    assert!(brief.still_open.iter().any(|line| line.contains("P1")));
}

#[test]
fn an_unknown_part_is_told_with_those_there_are() {
    let plan = fixture::plan("deck 10x4; fast early; stand P1 5,0; running late").unwrap();
    let error = Brief::of(
        &plan,
        &plan.trips[0],
        Some("noon"),
        &LoadingSettings::default(),
    )
    .unwrap_err()
    .to_string();
    assert!(
        error.contains("noon") && error.contains("early and late"),
        "{error}"
    );
}

#[test]
fn tables_are_read_back_as_written() {
    let mut brief = brief(TWO_ROWS);
    brief.load_list[0].diver = "=1+1, \"Ann\"".to_owned();
    let table = Table::load_list(&brief);
    let text = table.to_csv().unwrap();
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    assert_eq!(reader.headers().unwrap().len(), table.headings.len());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 5);
    assert_eq!(
        &rows[0][5], " =1+1, \"Ann\"",
        "no spreadsheet takes it for a formula"
    );
}
