use super::*;
use crate::audit::replay::{CylinderReplay, ReplayReport, Tracks};
use crate::audit::{Case, Sight, sights};
use crate::checks::fixture;
use crate::geometry::Elementary as _;
use crate::mechanics::motion_log::Sample;
use crate::mechanics::recorded::{LogPiece, Recorded};
use crate::record::testing::{log_file, rolling};
use crate::record::{
    Account, AuditRecord, Comment, FileState, FoundItem, FoundThing, Input, LayoutFile, MarkedSpot,
    MotionLog, Opened, Plausible, PlausibleSource, Provenance, SensorMounting, TimedEvent,
};
use crate::sheet::Paper;
use std::collections::BTreeMap;

const DECK: &str = "deck 8x4; drifting roll=12/3.4
point E1 4,1.6 h=0.3 strength=9; point E2 4.6,1.6 h=0.3 strength=9
stand P1 4.3,1.3; lash L1 E1 P1 E2 h=0.44 strength=9 tight=0.2; stand P2 4.3,0.2; lie P3 6,1 towards=0";

fn case() -> Case {
    let planned = fixture::plan(DECK).unwrap();
    let file = LayoutFile {
        path: "plan.json".to_owned(),
        sha256: "0".repeat(64),
        trip: None,
        part: None,
    };
    let item = |thing| FoundItem {
        thing,
        state: Provenance::Reconstructed {
            from: "a photo".to_owned(),
        },
        rests_on: Vec::new(),
        remark: None,
    };
    let mut moved = planned.trips[0].cylinders[1].clone();
    *moved.placing.at_mut().unwrap() = [4.0, 0.4];
    let account = Account {
        id: "A".to_owned(),
        by: "mate".to_owned(),
        when: None,
        layout: None,
        found: vec![
            item(FoundThing::NoLashing {
                lashing: "L1".to_owned(),
            }),
            item(FoundThing::Cylinder { cylinder: moved }),
        ],
        lashings: Vec::new(),
    };
    let mut record = AuditRecord::new("Somebody was struck", file, account);
    record.marked_spot = Some(MarkedSpot {
        deck: planned.boat.decks[0].id.clone(),
        at: [4.3, 0.8],
        what: "a mark".to_owned(),
        state: Provenance::AsFound,
    });
    record.plausible.push(Plausible {
        id: "R1".to_owned(),
        source: PlausibleSource::Wake,
        from: "by estimate".to_owned(),
        roll_amplitude_deg: [6.0, 14.0],
    });
    record.events.push(TimedEvent {
        when: "10:42".to_owned(),
        at_s: Some(5.0),
        what: "it fell".to_owned(),
        says: Vec::new(),
        state: Provenance::AsFound,
    });
    record.comments.push(Comment {
        by: "operator".to_owned(),
        when: None,
        text: "We see it otherwise.".to_owned(),
    });
    let opened = Opened {
        record,
        planned,
        layouts: BTreeMap::new(),
        inputs: vec![Input {
            what: "record".to_owned(),
            path: "record.json".to_owned(),
            recorded_sha256: None,
            sha256: Some("abcd1234".repeat(8)),
            state: FileState::Itself,
        }],
        motion_log: recorded(),
    };
    Case::of(opened).unwrap()
}

fn audited() -> (Audit, Vec<Vec<Sight>>) {
    let case = case();
    let audit = Audit::of(&case).unwrap();
    let sights = audit.accounts.iter().map(|it| sights(&case, it)).collect();
    (audit, sights)
}

/// Twenty seconds of roll as the record's log.
fn recorded() -> MotionLog {
    rolling(400, 0.0, |time_s| {
        0.16 * (time_s / 6.0).min(1.0) * (1.8 * time_s).sine()
    })
}

fn texts(pages: &[crate::sheet::Page]) -> String {
    let texts = pages.iter().flat_map(crate::sheet::Page::texts);
    texts.collect::<Vec<_>>().join(" ")
}

#[test]
fn every_section_is_there_and_every_page_has_its_number() {
    let (audit, sights) = audited();
    for paper in [Paper::A4, Paper::Letter] {
        let pages = pages(&audit, &sights, paper);
        let all = texts(&pages);
        for heading in [
            "In plain words",
            "Made from",
            "Planned against found, account A",
            "What each cylinder needed to go",
            "Who could have reached the marked spot, account A",
            "What would have held, account A",
            "Time line",
            "Findings that rest on a published clause",
            "Assumptions",
            "What is not known",
            "Signed",
            "Annex: comments, as they were given",
        ] {
            assert!(all.contains(heading), "{heading} is missing");
        }
        assert!(all.contains("master: received, not agreed"));
        assert!(all.contains("reconstructed from a photo"));
        let count = pages.len();
        for (index, page) in pages.iter().enumerate() {
            let number = format!("page {} of {count}", index + 1);
            assert!(page.texts().any(|text| text == number), "{number}");
        }
    }
}

#[test]
fn nothing_stands_outside_the_paper() {
    let (audit, sights) = audited();
    for page in pages(&audit, &sights, Paper::Letter) {
        for mark in page.marks() {
            let points = match mark {
                crate::sheet::page::Mark::Text(line) => vec![line.at],
                crate::sheet::page::Mark::Path(path) => path.points.clone(),
            };
            for (x, y) in points {
                let inside = (0.0..=215.9).contains(&x) && (0.0..=279.4).contains(&y);
                assert!(inside, "{x} {y}");
            }
        }
    }
}

#[test]
fn ghosts_arrows_and_the_spot_are_on_the_plan() {
    let (_, sights) = audited();
    let sight = &sights[0][0];
    assert_eq!(sight.spot, Some([4.3, 0.8]));
    assert_eq!(sight.arrows, [[[4.3, 0.2], [4.0, 0.4]]]);
    assert!(sight.ghosts.iter().any(|ghost| ghost.id == "P2"));
    // The strap that was left off is drawn as one that does not hold.
    let strap = sight.lines.iter().find(|line| line.id == "L1").unwrap();
    assert!(!strap.holds && strap.line.len() == 3, "{strap:?}");
    let (scale, page) = plan_picture(sight, (190.0, 100.0));
    assert!(scale >= 10.0 && page.paper.width_mm() <= 190.0);
    let names: Vec<&str> = page.texts().collect();
    for name in ["P1", "P2", "marked spot", "bow", "stern"] {
        assert!(names.contains(&name), "{name} in {names:?}");
    }
}

/// The drawn valve is as high over the spot as the number beside it says.
#[test]
fn the_picture_of_a_fall_says_what_the_table_says() {
    let (audit, _) = audited();
    let rows = &audit.accounts[0].reach;
    let row = rows.iter().find(|row| row.cylinder == "P2").unwrap();
    let page = fall_picture(row);
    let all: Vec<&str> = page.texts().collect();
    let valve = format!("valve {:.2} m high", row.valve_height_m.unwrap());
    assert!(all.contains(&valve.as_str()), "{all:?}");
    let joules = format!("{:.0} J by then", row.energy_j.unwrap());
    assert!(all.iter().any(|text| text.contains(&joules)), "{all:?}");
}

#[test]
fn without_a_log_there_is_no_plot() {
    let mut case = case();
    let events = case.opened.record.events.clone();
    let audit = Audit::of(&case).unwrap();
    let replay = audit.accounts[0].over_time.clone().unwrap().replay;
    let page = roll_plot(&replay, &replay.tracks, &events, 190.0).unwrap();
    assert!(page.texts().any(|text| text == "1"), "the event's number");
    case.opened.motion_log = MotionLog::Unreadable("line 1: what is this".to_owned());
    let audit = Audit::of(&case).unwrap();
    let sights: Vec<_> = audit.accounts.iter().map(|it| sights(&case, it)).collect();
    let all = texts(&pages(&audit, &sights, Paper::A4));
    assert!(!all.contains("starboard down upwards"), "{all}");
    assert!(roll_plot(&ReplayReport::default(), &Tracks::default(), &events, 190.0).is_none());
}

/// Those in question stand with their names, what is left of them ends at 0 % where one went.
#[test]
fn margins_are_drawn_for_those_in_question() {
    let audit = Audit::of(&case()).unwrap();
    let over_time = audit.accounts[0].over_time.clone().unwrap();
    let in_question: Vec<_> = over_time
        .nearest
        .iter()
        .map(|it| it.cylinder.clone())
        .collect();
    let (page, left_out) = margins_plot(
        &over_time.replay,
        &over_time.replay.tracks,
        &in_question,
        190.0,
    )
    .unwrap();
    assert_eq!(left_out, 0);
    let names: Vec<&str> = page.texts().collect();
    for id in &in_question {
        // Those that went in the same moment stand under one name.
        let is_named = names
            .iter()
            .any(|text| text.split(", ").any(|name| name == id));
        assert!(is_named, "{id} in {names:?}");
    }
    assert!(
        margins_plot(
            &ReplayReport::default(),
            &Tracks::default(),
            &in_question,
            190.0
        )
        .is_none()
    );
}

/// Where not all can be drawn, those in question go before those that only went, and how many are left out is told.
#[test]
fn those_in_question_are_drawn_before_others() {
    let times: Vec<f64> = (0..20).map(f64::from).collect();
    let cylinder = |number: u32| CylinderReplay {
        cylinder: format!("C{number}"),
        least_margin: Some(0.4),
        least_margin_s: Some(3.0),
        passed: 0,
        went_s: (number < 8).then(|| 3.0 + f64::from(number)),
        rocking: None,
    };
    let replay = ReplayReport {
        cylinders: (0..9).map(cylinder).collect(),
        tracks: Tracks {
            margins: vec![vec![Some([0.4, 0.6]); times.len()]; 9],
            roll_deg: vec![Some([-3.0, 3.0]); times.len()],
            time_s: times,
            ..Tracks::default()
        },
        ..ReplayReport::default()
    };
    let (page, left_out) =
        margins_plot(&replay, &replay.tracks, &["C8".to_owned()], 190.0).unwrap();
    let names: Vec<&str> = page.texts().collect();
    assert!(names.contains(&"C8") && names.contains(&"C0"), "{names:?}");
    assert!(
        !names.contains(&"C7") && left_out == 3,
        "{left_out} {names:?}"
    );
}

/// How the sensor was mounted stands among the assumptions, with who says so.
#[test]
fn the_mounting_of_the_sensor_stands_among_the_assumptions() {
    let mut case = case();
    let mounting = SensorMounting {
        roll_to_port_positive: true,
        from: Some("sketch F3".to_owned()),
        ..SensorMounting::default()
    };
    case.opened.record.motion_log = Some(log_file(Some(mounting)));
    let audit = Audit::of(&case).unwrap();
    let all = texts(&pages(&audit, &[], Paper::A4));
    assert!(all.contains("the sign of roll turned"), "{all}");
    assert!(all.contains("sketch F3; as found"), "{all}");
    assert!(all.contains("400 rows were read."), "{all}");
}

/// Of a long log the report draws the stretch in which it happened too, with the times of its ends, and the events that
/// fall into it; those who were gone before have no name in it.
#[test]
fn the_stretch_in_which_it_happened_is_drawn_closely() {
    let mut case = case();
    let mut samples: Vec<Sample> = Vec::new();
    for step in 0..20_000_u32 {
        let time_s = f64::from(step) / 10.0;
        let near = (-((time_s - 1200.0) / 8.0) * ((time_s - 1200.0) / 8.0)).exponential();
        samples.push(Sample {
            time_s,
            roll_rad: (0.002 + 0.3 * near) * (1.8 * time_s).sine(),
            ..Sample::default()
        });
    }
    let mut log = Recorded::default();
    log.take(LogPiece::Samples(&samples));
    case.opened.motion_log = MotionLog::Read(log);
    // She left long before: that is too far off to be drawn with it.
    let mut left = case.opened.record.events[0].clone();
    left.at_s = Some(1.0);
    case.opened.record.events[0].at_s = Some(1200.0);
    case.opened.record.events.push(left);
    let audit = Audit::of(&case).unwrap();
    let over_time = audit.accounts[0].over_time.clone().unwrap();
    let [from, to] = over_time.closely_s.unwrap();
    assert!(
        from < 1200.0 && 1200.0 < to && to - from < 200.0,
        "{from} {to}"
    );
    let first = over_time.went.first().unwrap().time_s;
    assert!((from..to).contains(&first), "{first}");
    let near = &over_time.closely.time_s;
    assert!(near[1] - near[0] < 0.3, "finer than all of it");
    let events = &case.opened.record.events;
    let page = roll_plot(&over_time.replay, &over_time.closely, events, 190.0).unwrap();
    let ends = [near[0], near[near.len() - 1]].map(|s| format!("{s:.0} s"));
    for text in ends.iter().map(String::as_str).chain(["1"]) {
        assert!(page.texts().any(|it| it == text), "{text}");
    }
    let all = texts(&pages(&audit, &[], Paper::A4));
    assert!(all.contains("Looked at closely: "), "{all}");
    // Another stretch, behind it: who had gone has no line there.
    let gone = over_time.went[0].cylinder.clone();
    case.opened.record.motion_log = Some(log_file(None));
    case.opened.record.motion_log.as_mut().unwrap().closely_s = Some([1500.0, 1600.0]);
    let audit = Audit::of(&case).unwrap();
    let over_time = audit.accounts[0].over_time.clone().unwrap();
    assert_eq!(over_time.closely_s, Some([1500.0, 1600.0]));
    let drawn = margins_plot(
        &over_time.replay,
        &over_time.closely,
        std::slice::from_ref(&gone),
        190.0,
    );
    assert!(drawn.is_none_or(|(page, _)| page.texts().all(|text| !text.contains(&gone))));
}
