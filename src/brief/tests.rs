use super::*;
use crate::checks::fixture;
use crate::geometry::Elementary as _;
use crate::layout::Placing;

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
    assert_eq!(brief.front_list[0].opened, "opened for one, open for P1-P3");
    assert_eq!(
        brief.lashing_list[0].opened,
        "opened for one, open for S1 and S2"
    );
    assert!(
        brief
            .talk_points
            .iter()
            .any(|point| point.say.contains("shut L1 and strap F1 again")),
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
    let by_hand = -(moment / 8000.0).arc_tangent().to_degrees();
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

#[test]
fn an_order_by_hand_is_kept_and_says_what_it_breaks() {
    let mut plan = fixture::plan(TWO_ROWS).unwrap();
    plan.boat.gm_m = Some(0.5);
    plan.boat.displacement_kg = Some(2000.0);
    plan.trips[0].briefing = Some(crate::layout::Briefing {
        loading_heel_deg: Some(3.0),
        order: ["S2", "S1", "P3"].map(str::to_owned).to_vec(),
        ..Default::default()
    });
    let trip = &plan.trips[0];
    let brief = Brief::of(&plan, trip, None, &LoadingSettings::of(trip)).unwrap();
    let names: Vec<&str> = brief
        .loading
        .steps
        .iter()
        .map(|step| step.cylinder.as_str())
        .collect();
    assert_eq!(names[..3], ["S2", "S1", "P3"]);
    assert_eq!(names.len(), 5, "who is not named follows");
    assert!(brief.loading.by_hand);
    assert!((brief.loading.most_heel_deg - 3.0).abs() < 1e-12);
    // S2 stands between S1 and the walkway.
    let s1 = &brief.loading.steps[1];
    let shut_in = BrokenRule::ShutIn {
        by: vec!["S2".to_owned()],
    };
    assert!(s1.broken.contains(&shut_in), "{:?}", s1.broken);
    // By hand: both at about 1.4 m to starboard, over 2000 kg and 0.5 m.
    let moment: f64 = brief.loading.steps[..2]
        .iter()
        .map(|step| step.mass_kg * step.at[1])
        .sum();
    let all: f64 = brief.loading.steps.iter().map(|step| step.mass_kg).sum();
    let before = 2000.0 - all;
    let aboard: f64 = brief.loading.steps[..2]
        .iter()
        .map(|step| step.mass_kg)
        .sum();
    let heel = -(moment / ((before + aboard) * 0.5))
        .arc_tangent()
        .to_degrees();
    assert!((s1.heel_deg.unwrap() - heel).abs() < 1e-9);
    let leans = |step: &LoadingStep| {
        let mut rules = step.broken.iter();
        rules.any(|rule| matches!(rule, BrokenRule::TooMuchHeel { .. }))
    };
    for step in &brief.loading.steps {
        assert_eq!(leans(step), step.heel_deg.unwrap().abs() > 3.0, "{step:?}");
    }
}

#[test]
fn the_computed_order_breaks_no_rule() {
    let mut plan = fixture::plan(TWO_ROWS).unwrap();
    plan.boat.gm_m = Some(1.0);
    plan.boat.displacement_kg = Some(8000.0);
    let brief = Brief::of(&plan, &plan.trips[0], None, &LoadingSettings::default()).unwrap();
    assert!(!brief.loading.by_hand);
    for step in &brief.loading.steps {
        assert_eq!(step.broken, [], "{}", step.sentence);
    }
}

#[test]
fn hands_do_what_the_plan_has() {
    use HandAction::{HookCord, KeepClear, Push, StandInSlot, StrapAtHeight};
    let brief = brief(TWO_ROWS);
    let actions = |name: &str| {
        let mut steps = brief.loading.steps.iter();
        steps
            .find(|step| step.cylinder == name)
            .unwrap()
            .actions
            .clone()
    };
    assert_eq!(actions("P1"), [StandInSlot, StrapAtHeight, Push]);
    assert_eq!(actions("S1"), [StrapAtHeight, Push]);
    let with_cord = TWO_ROWS.replace("F1 strap strength=9", "F1 cord strength=9");
    let cord = super::Brief::of(
        &fixture::plan(&with_cord).unwrap(),
        &fixture::plan(&with_cord).unwrap().trips[0],
        None,
        &LoadingSettings::default(),
    )
    .unwrap();
    let p1 = cord.loading.steps.iter().find(|step| step.cylinder == "P1");
    assert_eq!(p1.unwrap().actions, [StandInSlot, HookCord, Push]);
    let free = self::brief("deck 10x4; fast; stand P1 5,0");
    assert_eq!(free.loading.steps[0].actions, [KeepClear]);
}

#[test]
fn there_are_three_to_seven_things_to_say_each_tied_to_something() {
    for text in [
        "deck 10x4; fast; stand P1 5,0",
        TWO_ROWS,
        "deck 10x4; running; place G gate 0.4,0; place A seat 9,0; way W G A; stand P1 5,0; stand P2 6,1; \
         lie P3 7,1",
    ] {
        let brief = brief(text);
        let count = brief.talk_points.len();
        assert!((3..=7).contains(&count), "{count}: {:?}", brief.talk_points);
        for point in &brief.talk_points {
            assert!(!point.say.is_empty() && !point.from.is_empty(), "{point:?}");
        }
    }
    let loose = brief("deck 10x4; fast; stand P1 5,0");
    let plan = fixture::plan("deck 10x4; fast; stand P1 5,0").unwrap();
    let findings = checks::run(&mut Assessor::default(), &plan, &plan.trips[0]);
    let first = &loose.talk_points[0];
    let found = &findings[first.finding.unwrap()];
    assert_eq!(
        found.code, first.from,
        "the talk point leads to its finding"
    );
}

#[test]
fn a_slack_lashing_says_how_far_it_may_move_and_what_was_taken_on_stands_apart() {
    let plan = fixture::plan(TWO_ROWS).unwrap();
    let mut slack = plan.clone();
    slack.trips[0].lashings[0].slack_m = Some(crate::layout::Known::Value(0.02));
    slack.trips[0].lashings[0].pretension_kn = None;
    let trip = &slack.trips[0];
    let brief = Brief::of(&slack, trip, None, &LoadingSettings::default()).unwrap();
    let row = &brief.lashing_list[0];
    // The slack lets it lean about its foot: 20 mm at 0.44 m is at least 20 mm at the valve.
    assert!(row.push_test_mm.unwrap() >= 20.0, "{row:?}");
    assert!(
        row.push_test
            .contains(&format!("{:.0} mm", row.push_test_mm.unwrap()))
    );
    let before = brief.still_open.len();
    let findings = checks::run(&mut Assessor::default(), &slack, trip);
    let finding = &findings[0];
    let mut taken = slack.clone();
    let about = finding.about.iter().map(|subject| subject.id.clone());
    taken.trips[0].taken_on.push(crate::layout::TakenOn {
        code: finding.code.to_owned(),
        about: about.collect(),
        part: None,
        by: "Ann".to_owned(),
        reason: "watched".to_owned(),
        when: None,
    });
    let brief = Brief::of(&taken, &taken.trips[0], None, &LoadingSettings::default()).unwrap();
    assert!(brief.still_open.len() < before, "{:?}", brief.still_open);
    assert!(
        brief.taken_on[0].contains("Taken on by Ann: watched"),
        "{:?}",
        brief.taken_on
    );
}

/// Two dives with running before and after, the deck left at night: when to push again, and who does what.
#[test]
fn the_work_on_deck_says_when_to_push_again() {
    use PushAgain::{AfterDive, AfterRunning, BeforeNight, WhenShut};
    let mut plan = fixture::plan(
        "deck 10x4; rack R1 bench 5,1.4 columns=3 pitch=0.25 edge=0.44 strength=9 fixings=9; front R1 F1 strap strength=9
         person Kim crew 6,0; slot P1 R1/1; slot P2 R1/2; fast quay; running out; drifting dive; water P1; anchored back; slot P1 R1/1; running night",
    )
    .unwrap();
    plan.trips[0].parts[4].nobody_on_deck = true;
    let trip = &plan.trips[0];
    let brief = Brief::of(&plan, trip, None, &LoadingSettings::default()).unwrap();
    let of = |part: &str| {
        brief
            .deck_work
            .iter()
            .find(|work| work.part == part)
            .unwrap()
    };
    assert_eq!(of("quay").push_again, []);
    assert_eq!(of("out").push_again, [AfterRunning]);
    assert!(
        !of("dive").push_again.contains(&AfterDive),
        "they are in the water still"
    );
    assert!(
        of("back").push_again.contains(&AfterDive),
        "{:?}",
        of("back")
    );
    assert!(
        of("back").push_again.contains(&WhenShut),
        "{:?}",
        of("back")
    );
    assert_eq!(of("night").push_again, [AfterRunning, BeforeNight]);
    let told: Vec<String> = of("back").lines.iter().map(WorkLine::told).collect();
    assert!(
        told.iter().any(|line| line.starts_with("Open strap F1")),
        "{told:?}"
    );
    assert!(
        told.iter()
            .any(|line| line.contains("P1") && line.contains("slot")),
        "{told:?}"
    );
}

/// A wide gap to the quay is told and talked about; a narrow one only told.
#[test]
fn a_gap_to_the_quay_is_talked_about_where_somebody_must_reach_out() {
    let mut plan = fixture::plan(TWO_ROWS).unwrap();
    for (gap_m, is_said) in [(0.1, false), (0.4, true)] {
        plan.trips[0].briefing = Some(crate::layout::Briefing {
            gap_to_quay_m: Some(gap_m),
            ..Default::default()
        });
        let trip = &plan.trips[0];
        let brief = Brief::of(&plan, trip, None, &LoadingSettings::of(trip)).unwrap();
        assert_eq!(brief.loading.gap_to_quay_m, Some(gap_m));
        let mut points = brief.talk_points.iter();
        assert_eq!(points.any(|point| point.from == "gap to the quay"), is_said);
    }
}

/// Two on their sides with a third in the groove between them, the third heavier and further inboard.
fn pile() -> Plan {
    let mut plan = fixture::plan(
        "deck 10x4; fast; place G gate 0.4,1.9; place A seat 9,1.9; way W G A
         lie L1 4,0.50; lie L2 4.2,0.3; lie L3 4.1,0.4",
    )
    .unwrap();
    plan.trips[0].cylinders[2].kind = "st-15l-232".to_owned();
    if let Placing::Lying { upon, .. } = &mut plan.trips[0].cylinders[2].placing {
        *upon = vec!["L1".to_owned(), "L2".to_owned()];
    }
    plan
}

#[test]
fn what_lies_upon_others_comes_after_them() {
    let mut plan = pile();
    let names = |brief: &Brief| -> Vec<Id> {
        let steps = brief.loading.steps.iter();
        steps.map(|step| step.cylinder.clone()).collect()
    };
    let brief = Brief::of(&plan, &plan.trips[0], None, &LoadingSettings::default()).unwrap();
    assert_eq!(names(&brief).last().unwrap(), "L3", "{:?}", names(&brief));
    for step in &brief.loading.steps {
        let mut rules = step.broken.iter();
        let is_of_pile = |rule: &BrokenRule| {
            matches!(
                rule,
                BrokenRule::NothingBeneath { .. } | BrokenRule::ShutIn { .. }
            )
        };
        assert!(!rules.any(is_of_pile), "{:?}", step.broken);
    }
    let third = brief.row("L3").unwrap();
    assert_eq!(third.secured_by, "the groove of L1 and L2");
    assert!(
        brief.loading.steps[2]
            .sentence
            .ends_with("lay it in the groove of L1 and L2."),
        "{}",
        brief.loading.steps[2].sentence
    );
    // By hand in between: then one is missing beneath it.
    plan.trips[0].briefing = Some(crate::layout::Briefing {
        order: ["L1", "L3", "L2"].map(str::to_owned).to_vec(),
        ..Default::default()
    });
    let trip = &plan.trips[0];
    let brief = Brief::of(&plan, trip, None, &LoadingSettings::of(trip)).unwrap();
    assert_eq!(names(&brief), ["L1", "L3", "L2"]);
    let missing = BrokenRule::NothingBeneath {
        missing: vec!["L2".to_owned()],
    };
    let steps = &brief.loading.steps;
    assert!(steps[1].broken.contains(&missing), "{:?}", steps[1].broken);
    assert_eq!(
        missing.sentence(),
        "It lies on L2, which is not aboard yet."
    );
    assert!(!steps[2].broken.contains(&BrokenRule::ShutIn {
        by: vec!["L3".to_owned()]
    }));
}

/// In a crate it is the crate that holds, by the name that the crew has for it.
#[test]
fn a_crate_is_called_by_its_name() {
    let mut plan = fixture::plan("deck 10x4; fast; rack R1 crate 4,0; lie L1 4,0").unwrap();
    plan.boat.racks[0].name = Some("Fish crate".to_owned());
    plan.trips[0].cylinders[0].placing = Placing::InCrate {
        rack: "R1".to_owned(),
        at: [4.0, 0.0],
        valve_towards_deg: 0.0,
    };
    let brief = Brief::of(&plan, &plan.trips[0], None, &LoadingSettings::default()).unwrap();
    assert_eq!(brief.load_list[0].secured_by, "Fish crate");
    let sentence = &brief.loading.steps[0].sentence;
    assert!(
        sentence.ends_with("in Fish crate, valve ahead; lay it in."),
        "{sentence}"
    );
}

/// Open and taken-on points and what is said of them name the parts of the day in which they stand.
#[test]
fn what_is_open_says_in_which_part_of_the_day() {
    let text = "deck 10x4; fast early; stand P1 5,0; lash L1 E1 P1 E2 h=0.44 strength=9; running late; stand P1 5,0.3";
    let text = text.replace(
        "; stand P1 5,0;",
        "; point E1 4.5,0 h=0.3 strength=9; point E2 5.5,0 h=0.3 strength=9; stand P1 5,0;",
    );
    let mut plan = fixture::plan(&text).unwrap();
    plan.trips[0].parts[1].name = Some("Late in the day".to_owned());
    let brief = Brief::of(&plan, &plan.trips[0], None, &LoadingSettings::default()).unwrap();
    let late: Vec<&OpenPoint> = (brief.open_points.iter())
        .filter(|point| point.when == "Late in the day")
        .collect();
    assert!(!late.is_empty(), "{:?}", brief.open_points);
    for point in late {
        let told = format!("{} (Late in the day): {}", point.word, point.sentence);
        assert!(brief.still_open.contains(&told), "{told}");
    }
    let said = brief.talk_points.iter();
    let mut said = said.filter(|point| point.say.starts_with("Late in the day: "));
    assert!(said.next().is_some(), "{:?}", brief.talk_points);
    // A day of one part has no other.
    let brief = self::brief("deck 10x4; fast; stand P1 5,0");
    assert!(brief.open_points.iter().all(|point| point.when.is_empty()));
}

/// A cord that lets a push of one hand tip its cylinder is no lashing without play.
#[test]
fn a_cord_that_stops_no_push_says_so() {
    let mut plan = fixture::plan(
        "deck 10x4; fast; point E1 4.5,0 h=0.3 strength=9; point E2 5.5,0 h=0.3 strength=9
         stand P1 5,0; lash L1 E1 P1 E2 h=0.44 strength=9",
    )
    .unwrap();
    plan.trips[0].lashings[0].material = "shock_cord_8".to_owned();
    plan.trips[0].lashings[0].slack_m = Some(crate::layout::Known::Value(0.03));
    plan.trips[0].lashings[0].pretension_kn = None;
    let brief = Brief::of(&plan, &plan.trips[0], None, &LoadingSettings::default()).unwrap();
    let row = &brief.lashing_list[0];
    assert!(row.gives_way && row.push_test_mm.is_none(), "{row:?}");
    assert!(row.push_test.starts_with("gives way"), "{}", row.push_test);
}

/// Nobody knows how strong the fixings of the rack are, and the check of them says so: then it stands here too.
#[test]
fn fixings_that_nobody_knows_are_told() {
    let name = "the fastening of R1";
    let has = |fixings: &str| {
        let told = brief(&format!(
            "deck 3x2; running roll=20/4; rack R1 sockets 1.5,0 columns=2 foot fixings={fixings}
             slot P1 R1/1; slot P2 R1/2"
        ));
        told.not_known.iter().any(|it| it.name == name)
    };
    assert!(!has("9"));
    assert!(has("?"));
}
