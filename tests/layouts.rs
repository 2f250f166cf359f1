//! The shipped layouts: sound, in the program's own form, and with what each of them must find.

mod support;

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use snugdown::checks::{self, Finding};
use snugdown::engine::Assessor;
use snugdown::engine::numbers::Way;
use snugdown::layout::{Changes, DayState, Id, ThingKind};
use snugdown::store;
use support::mirror::mirrored;
use support::shuffle::shuffled;
use support::{findings, open, shipped};

/// Set this in the environment to have the shipped layouts written in the program's own form.
const UPDATE: &str = "UPDATE_LAYOUTS";

/// Where each rule finds something: code, then parts of the day.
type Found = BTreeMap<&'static str, BTreeSet<Id>>;

fn found(findings: &[Finding]) -> Found {
    let mut found = Found::new();
    for finding in findings {
        let parts = found.entry(finding.code).or_default();
        parts.insert(finding.part.clone());
    }
    found
}

/// All sentences of a rule, for messages of failed assertions.
fn sentences(findings: &[Finding]) -> String {
    let lines = findings.iter().map(|finding| {
        let Finding {
            code,
            part,
            sentence,
            ..
        } = finding;
        format!("{code} [{part}] {sentence}")
    });
    lines.collect::<Vec<_>>().join("\n")
}

/// Asked of all slots at once or of one after the other, the same front serves each.
#[test]
fn the_front_of_a_slot_is_the_same_however_it_is_asked_for() {
    let mut asked = 0;
    for path in shipped() {
        let plan = store::read(&path).unwrap_or_else(|faults| panic!("{faults}"));
        for trip in &plan.trips {
            for day in DayState::of_trip(&plan, trip) {
                let fronts = day.fronts_by_slot();
                for rack in &plan.boat.racks {
                    for slot in rack.slots() {
                        let at_once = fronts.get(rack.id.as_str());
                        let at_once = at_once.and_then(|it| it.get(slot.name.as_str()).copied());
                        assert_eq!(at_once, day.front_of(&rack.id, &slot.name));
                        asked += usize::from(at_once.is_some());
                    }
                }
            }
        }
    }
    assert!(asked > 100, "{asked}");
}

/// Asserts that exactly these rules find something, each in exactly these parts.
fn assert_found(stem: &str, expected: &[(&str, &[&str])]) {
    let all = findings(&open(stem));
    let found = found(&all);
    for (code, parts) in &found {
        let listed = expected.iter().find(|(expected, _)| expected == code);
        let listed: BTreeSet<Id> = listed
            .iter()
            .flat_map(|(_, parts)| parts.iter().map(|part| (*part).to_owned()))
            .collect();
        assert_eq!(*parts, listed, "{stem}, {code}:\n{}", sentences(&all));
    }
    for (code, _) in expected {
        assert!(found.contains_key(code), "{stem}: {code} finds nothing");
    }
}

#[test]
fn shipped_layouts_are_in_the_programs_own_form() {
    let files = shipped();
    assert!(files.len() >= 4, "{files:?}");
    for path in files {
        let plan = store::read(&path).unwrap_or_else(|faults| panic!("{faults}"));
        let text = store::to_text(&plan);
        if std::env::var_os(UPDATE).is_some() {
            store::write_atomic(&path, text.as_bytes()).expect("a layout that can be written");
        }
        let bytes = fs::read_to_string(&path).expect("a layout that can be read");
        assert!(
            bytes == text,
            "{} is not as the program would save it; run with {UPDATE}=1",
            path.display()
        );
        assert_eq!(plan.schema.as_deref(), Some(store::SCHEMA_PATH));
    }
}

#[test]
fn the_well_stowed_day_boat_shows_an_empty_list() {
    let plan = open("day-boat");
    assert_eq!(plan.trips[0].cylinders.len(), 24);
    assert_eq!(plan.trips[0].parts.len(), 6);
    assert_found("day-boat", &[]);
}

/// Both day boats are the same boat, but for what was built in or worn out since.
#[test]
fn the_day_boats_are_one_boat() {
    let (well, badly) = (open("day-boat").boat, open("day-boat-badly-stowed").boat);
    assert_eq!(well.decks, badly.decks);
    assert_eq!(well.places, badly.places);
    assert_eq!(well.walkways, badly.walkways);
    for rack in &well.racks {
        let other = badly.rack(&rack.id).expect("the same racks");
        assert_eq!(rack.slots(), other.slots(), "{}", rack.id);
    }
}

#[test]
fn every_rule_of_the_core_finds_something_on_the_badly_stowed_day_boat() {
    let found = found(&findings(&open("day-boat-badly-stowed")));
    let silent: Vec<&str> = checks::ALL
        .iter()
        .map(|check| check.code)
        .filter(|code| code.starts_with(['U', 'T', 'R', 'L', 'Y', 'W', 'F']))
        .filter(|code| !found.contains_key(code))
        .collect();
    assert!(silent.is_empty(), "{silent:?} find nothing");
}

/// What the badly stowed day boat must find, rule by rule, and where the same rules must be silent.
#[test]
fn the_badly_stowed_day_boat_finds_what_was_hidden_in_it() {
    let all = findings(&open("day-boat-badly-stowed"));
    let about = |code: &str, id: &str| -> Vec<&str> {
        let mut parts: Vec<&str> = all
            .iter()
            .filter(|finding| finding.code == code)
            .filter(|finding| finding.about.iter().any(|subject| subject.id == id))
            .map(|finding| finding.part.as_str())
            .collect();
        parts.dedup();
        parts
    };
    for (code, id, must, must_not) in BADLY_STOWED {
        let parts = about(code, id);
        for part in *must {
            assert!(
                parts.contains(part),
                "{code} says nothing of {id} in {part}, only in {parts:?}:\n{}",
                sentences(&all)
            );
        }
        for part in *must_not {
            assert!(!parts.contains(part), "{code} speaks of {id} in {part}");
        }
    }
}

const ALONGSIDE: &str = "alongside";
const OUT: &str = "running out";
const DIVE_1: &str = "dive one";
const BETWEEN: &str = "between dives";
const DIVE_2: &str = "dive two";
const HOME: &str = "running home";

/// A rule, what it must speak of, the parts in which it must, and parts in which it must not.
type Hidden = (
    &'static str,
    &'static str,
    &'static [&'static str],
    &'static [&'static str],
);

const BADLY_STOWED: &[Hidden] = &[
    // Kitted up early, they stand free until they are used.
    ("U101", "P6", &[ALONGSIDE, OUT, DIVE_1, BETWEEN], &[DIVE_2]),
    ("U101", "P7", &[ALONGSIDE, OUT, DIVE_1, BETWEEN], &[DIVE_2]),
    ("F703", "P6", &[OUT, DIVE_1], &[DIVE_2]),
    // Its strap is round the valve.
    ("L407", "P8", &[OUT, DIVE_1], &[DIVE_2]),
    // Stood up without a boot while the others are handed round.
    ("U102", "S10", &[BETWEEN], &[ALONGSIDE, OUT, DIVE_2, HOME]),
    ("U103", "P2", &[BETWEEN], &[OUT, HOME]),
    ("U103", "P3", &[BETWEEN], &[OUT, HOME]),
    ("Y501", "P1", &[BETWEEN], &[OUT, HOME]),
    // One strap to one side, one far too steep.
    ("T201", "P5", &[OUT, DIVE_1], &[ALONGSIDE, DIVE_2]),
    ("L405", "strap S6", &[OUT], &[DIVE_2, HOME]),
    // One strap round three goes slack when two of them go diving.
    ("L408", "strap S7-S9", &[OUT, DIVE_1], &[DIVE_2, HOME]),
    ("U101", "S9", &[DIVE_2], &[OUT, HOME]),
    // A knotted rope round a storage cylinder, on an eye that is too small.
    ("L409", "rope B1", &[ALONGSIDE, OUT, HOME], &[]),
    ("L401", "rope B1", &[OUT, HOME], &[ALONGSIDE]),
    ("L402", "eye-P1", &[OUT, HOME], &[ALONGSIDE]),
    ("L403", "strap S12", &[OUT, DIVE_1], &[]),
    ("L404", "S11", &[OUT, DIVE_1], &[]),
    ("L406", "cord S11", &[ALONGSIDE, OUT], &[]),
    // The visiting club's own rack stands loose, with wide sockets that leave the foot free.
    ("R304", "C1", &[HOME], &[ALONGSIDE]),
    ("R305", "C1", &[ALONGSIDE, OUT], &[]),
    ("R307", "rack-C", &[ALONGSIDE, OUT, HOME], &[]),
    // On the foredeck, where she drops away under it.
    ("R301", "F1", &[HOME], &[ALONGSIDE, OUT, DIVE_1]),
    ("R303", "F1", &[HOME], &[ALONGSIDE, OUT, DIVE_1]),
    ("R308", "rack-F", &[HOME], &[ALONGSIDE, OUT, DIVE_1]),
    ("Y503", "A1", &[HOME], &[ALONGSIDE]),
    ("Y504", "A3", &[HOME], &[ALONGSIDE, DIVE_1]),
    ("T203", "A1", &[HOME], &[ALONGSIDE, OUT, DIVE_1]),
    // A lath at their feet that takes the push of one, not of both.
    ("T204", "foot-board", &[OUT, HOME], &[ALONGSIDE, BETWEEN]),
    // A fish crate with two of the guests' cylinders in it.
    ("R312", "rack-G", &[HOME], &[ALONGSIDE, BETWEEN]),
    // The starboard bench rack: its edge is low, its lip broken away, its shelf rotten.
    ("R302", "S1", &[OUT, HOME], &[DIVE_1]),
    ("R309", "rack-S", &[HOME], &[ALONGSIDE, OUT, DIVE_1]),
    // The port bench rack: cord, a strap left open, a strap that is too light.
    ("R306", "rack-P", &[OUT], &[]),
    ("R310", "rack-P", &[HOME], &[ALONGSIDE, OUT, DIVE_1]),
    ("R311", "rack-P", &[HOME], &[ALONGSIDE]),
    // Lying about.
    ("Y502", "S10", &[OUT, HOME], &[ALONGSIDE]),
    ("Y505", "S10", &[OUT], &[ALONGSIDE]),
    ("Y506", "S10", &[ALONGSIDE, OUT], &[]),
    ("T202", "T2", &[HOME], &[ALONGSIDE]),
    // In people's way.
    ("W601", "T1", &[OUT, DIVE_1], &[]),
    ("W602", "middle", &[OUT], &[]),
    ("W603", "mat", &[OUT], &[]),
    ("W604", "kit-crate", &[OUT], &[]),
    ("W605", "strap T1", &[OUT], &[]),
    ("W606", "hose", &[ALONGSIDE], &[OUT, HOME]),
    ("W607", "middle", &[ALONGSIDE], &[OUT]),
    ("W608", "side-S", &[ALONGSIDE], &[OUT]),
    ("F701", "P6", &[OUT], &[DIVE_1, DIVE_2]),
    ("F702", "P6", &[OUT, DIVE_1], &[DIVE_2]),
];

/// What F1 pushes the stop at its foot with, worked out by hand (docs/method.md, motion and held by a rack),
/// rolled to starboard and pitched bow down, heavy, turning to port, on the way out:
///
/// ```text
/// quartering: roll 8°/√2 = 0.09873 rad at 2π/2.8 s, P = 0.49716; pitch 4°/√2 = 0.04937 rad at 2π/2.6 s,
///     Q = 0.28829; g and 0.2 g of heave 11.76798; turning 0.15 g; r = (10.3 - 5.45, -0.15, 0.85 + 0.315)
/// f_x = 11.76798 sin 0.04937 + 0.28829 · 0.9951 · 1.165 - ...                =  0.911
/// f_y = -11.76798 sin 0.09873 cos 0.04937 - 0.49716 · 1.165 - 0.15 g - ...   = -3.347
/// a_h = 3.468, a_n = 13.162
/// leaning by atan(0.022/0.42): z = 0.3198, x = -0.0849; a_h z + a_n x = -0.008, with the body's own rotation
///     just above 0: the edge carries next to nothing, and the foot all of m a_h = 22.31 · 3.468 = 77.4 N
/// ```
///
/// A stop of 50 N would break there; the rack's is of 120 N, and 77.4 N are 0.64 of it, below the 0.67 from
/// which a stopwatch's motion warns.
#[test]
fn the_foot_stop_of_the_foredeck_rack_holds_on_the_way_out() {
    let plan = open("day-boat-badly-stowed");
    let mut assessor = Assessor::default();
    let numbers = assessor.assess(&plan, &plan.trips[0]);
    let foot_n = |part: &str| {
        let part = numbers.parts.iter().find(|numbers| numbers.part == part);
        let mut cylinders = part.expect("the part").cylinders.iter();
        let f1 = cylinders.find(|cylinder| cylinder.cylinder == "F1");
        let rack = f1.and_then(|f1| f1.rack.as_ref()).expect("F1 in its slot");
        (rack.foot_force_n, rack.edge_strength_n.expect("a strength"))
    };
    let (out_n, strength_n) = foot_n(OUT);
    assert!((out_n - 77.4).abs() < 1.0, "{out_n}");
    assert!(out_n > 50.0 && out_n < 0.67 * strength_n, "{strength_n}");
    // Running home she stops harder and pitches more: 22.31 kg at 5.315 m/s² are 118.6 N, less the edge's 7 N.
    let (home_n, _) = foot_n(HOME);
    assert!((home_n - 111.7).abs() < 1.0, "{home_n}");
    assert!(home_n > 0.67 * strength_n);
}

/// Everything lies strapped over the top, although nothing weighs anything for a moment.
#[test]
fn the_open_inflatable_is_stowed_for_speed() {
    let plan = open("open-inflatable");
    let stands: Vec<&str> = plan.trips[0]
        .cylinders
        .iter()
        .filter(|cylinder| cylinder.stands_by_itself())
        .map(|cylinder| cylinder.id.as_str())
        .collect();
    assert!(stands.is_empty(), "{stands:?} stand");
    let trip = &plan.trips[0];
    let mut fast = trip.parts.iter().filter_map(|part| part.motion.as_ref());
    assert!(fast.any(|motion| motion.vertical_g > 1.0));
    assert_found("open-inflatable", &[]);
}

#[test]
fn without_its_straps_the_inflatable_loses_everything() {
    let mut plan = open("open-inflatable");
    for lashing in &mut plan.trips[0].lashings {
        lashing.shut = false;
    }
    let all = findings(&plan);
    let lifts: BTreeSet<&str> = all
        .iter()
        .filter(|finding| finding.code == "T203" && finding.part == OUT)
        .flat_map(|finding| &finding.about)
        .filter(|subject| subject.kind == ThingKind::Cylinder)
        .map(|subject| subject.id.as_str())
        .collect();
    let lashed = plan.trips[0].lashings.len();
    assert_eq!(lifts.len(), lashed, "{}", sentences(&all));
}

#[test]
fn the_live_aboard_finds_what_nobody_knows() {
    let plan = open("live-aboard");
    assert!(plan.trips[0].cylinders.len() >= 80);
    let decks: BTreeSet<&str> = plan
        .boat
        .racks
        .iter()
        .map(|rack| rack.deck.as_str())
        .collect();
    assert!(decks.len() >= 2, "{decks:?}");
    assert!(plan.trips[0].parts.iter().any(|part| part.nobody_on_deck));
    assert_found("live-aboard", LIVE_ABOARD);
}

const EVERY_PART: &[&str] = &[
    "port",
    "night",
    "briefing",
    "dive",
    "filling",
    "second night",
];

const LIVE_ABOARD: &[(&str, &[&str])] = &[
    // A twin in front of the bridge with one strap, which nobody has pulled at.
    ("L403", EVERY_PART),
    ("L402", &["night"]),
    ("R304", &["night", "second night"]),
    ("F702", &["second night"]),
    // Nobody knows how the storage bank is bolted down.
    ("R308", EVERY_PART),
    // The bars are opened for those that dive, are filled and come back; their neighbours stand behind them.
    ("R313", &["dive", "filling", "second night"]),
    // The stage cradles are open at their ends.
    ("Y503", &["second night"]),
];

/// A finding without what a mirror changes: port and starboard in its sentence, and the sign of y.
fn seen_from_either_side(finding: &Finding, sign: f64) -> String {
    let mut about: Vec<&str> = finding.about.iter().map(|item| item.id.as_str()).collect();
    about.sort_unstable();
    let measure = finding.measure.as_ref().map(|measure| {
        // To six digits: the limit analysis promises no more.
        let value = measure.value.map(|value| format!("{value:.5e}"));
        format!("{} {value:?} of {:.6}", measure.what, measure.limit)
    });
    let at = finding.at.map(|[x, y]| [x, sign * y]);
    let at = at.map(|at| at.map(|value| (1e6 * value).round() + 0.0));
    format!(
        "{} {} [{}] {about:?} {measure:?} at {at:?}: {}",
        finding.code,
        finding.signal,
        finding.part,
        finding.sentence.replace("starboard", "port")
    )
}

#[test]
fn mirroring_a_boat_mirrors_what_is_found() {
    for path in shipped() {
        let plan = store::read(&path).unwrap_or_else(|faults| panic!("{faults}"));
        let seen = |findings: &[Finding], sign: f64| -> Vec<String> {
            let all = findings.iter();
            let mut all: Vec<String> = all.map(|item| seen_from_either_side(item, sign)).collect();
            all.sort();
            all
        };
        let straight = seen(&findings(&plan), 1.0);
        let mirrored = seen(&findings(&mirrored(&plan)), -1.0);
        for (one, other) in straight.iter().zip(&mirrored) {
            assert_eq!(one, other, "{}", path.display());
        }
        assert_eq!(straight.len(), mirrored.len(), "{}", path.display());
    }
}

#[test]
fn a_plan_mirrored_twice_is_the_same_plan() {
    for path in shipped() {
        let plan = store::read(&path).unwrap_or_else(|faults| panic!("{faults}"));
        let once = mirrored(&plan);
        assert_ne!(once, plan);
        let mut twice = mirrored(&once);
        for rack in &mut twice.boat.racks {
            rack.turn_deg = rack.turn_deg.rem_euclid(360.0);
        }
        let mut plan = plan;
        for rack in &mut plan.boat.racks {
            rack.turn_deg = rack.turn_deg.rem_euclid(360.0);
            rack.slot_names = rack.slots().into_iter().map(|slot| slot.name).collect();
        }
        assert_eq!(twice, plan, "{}", path.display());
    }
}

#[test]
fn no_finding_hangs_on_the_order_of_the_file() {
    for path in shipped() {
        let plan = store::read(&path).unwrap_or_else(|faults| panic!("{faults}"));
        let told = |findings: &[Finding]| -> Vec<String> {
            let all = findings.iter();
            all.map(|item| serde_json::to_string(item).expect("a finding as JSON"))
                .collect()
        };
        let straight = told(&findings(&plan));
        for seed in 1..=2 {
            let other = shuffled(&plan, seed);
            assert_ne!(other, plan);
            let shuffled = told(&findings(&other));
            for (one, other) in straight.iter().zip(&shuffled) {
                assert_eq!(one, other, "{}, seed {seed}", path.display());
            }
            assert_eq!(straight.len(), shuffled.len(), "{}", path.display());
        }
    }
}

/// S11 stands by itself with a shock cord that counts nothing: a hair more roll is a hair nearer to tipping.
#[test]
fn a_hair_more_roll_is_a_hair_nearer_to_tipping() {
    let mut plan = open("day-boat-badly-stowed");
    let trip = &mut plan.trips[0];
    trip.cylinders.retain(|cylinder| cylinder.id == "S11");
    trip.lashings.retain(|lashing| lashing.round == ["S11"]);
    trip.parts.retain(|part| part.id == DIVE_1);
    trip.parts[0].changes = Changes::default();
    let mut assessor = Assessor::default();
    let mut before: Option<f64> = None;
    for step in 0..200 {
        let roll = 10.52 + 0.0002 * f64::from(step);
        let part = &mut plan.trips[0].parts[0];
        part.motion.as_mut().expect("a motion").roll_amplitude_deg = roll;
        let numbers = assessor.assess(&plan, &plan.trips[0]);
        let tips = numbers.parts[0].cylinders[0].utilisation(Way::Tips);
        let share = tips.and_then(|tips| tips.value).unwrap_or(f64::INFINITY);
        if let Some(before) = before {
            assert!(
                share >= before && share < before + 1e-4,
                "at {roll}: {share}, {before} before"
            );
        }
        before = Some(share);
    }
    assert!(before.is_some_and(|share| share < 1.1), "{before:?}");
}

/// What the lists of the shipped boats name stands on their plans by the same names, all of it, and every cylinder with
/// its slot and number: where a deck is too full for its scale, on a larger plan of its part.
#[test]
fn the_plan_alone_names_what_the_lists_name() {
    use snugdown::brief::{Brief, LoadingSettings};
    use snugdown::sheet::{Paper, crew};
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts");
    let boats = [
        "day-boat.json",
        "day-boat-badly-stowed.json",
        "open-inflatable.json",
        "live-aboard.json",
    ];
    let papers = [Paper::A4, Paper::Letter];
    for (name, paper) in boats
        .iter()
        .flat_map(|name| papers.map(|paper| (name, paper)))
    {
        let plan = snugdown::store::read(&folder.join(name)).unwrap();
        let trip = &plan.trips[0];
        let brief = Brief::of(&plan, trip, None, &LoadingSettings::of(trip)).unwrap();
        let options = crew::Options {
            paper,
            facing: None,
            version: "0123abcd".to_owned(),
        };
        let alone = crew::plan_alone(&plan, &brief, &options);
        let pages = crew::pages(&plan, &brief, &options);
        let on_pages: Vec<&str> = pages
            .iter()
            .flat_map(snugdown::sheet::Page::texts)
            .collect();
        let rows = brief.lashing_list.iter();
        let of_rows = rows.flat_map(|row| [&row.lashing, &row.from, &row.to]);
        let shut = brief.front_list.iter().filter(|row| row.shut);
        let of_fronts = shut.flat_map(|row| [&row.front, &row.rack]);
        let wanted: Vec<&String> = of_rows.chain(of_fronts).collect();
        assert!(!wanted.is_empty(), "{name} has lists");
        let told: Vec<&str> = alone.texts().collect();
        for name_of_list in wanted {
            assert!(
                told.contains(&name_of_list.as_str()),
                "{name_of_list:?} is not on the plan of {name}"
            );
        }
        for words in told.iter().chain(&on_pages) {
            let is_short = ["without room", "found no room", "load list only"];
            assert!(
                !is_short.iter().any(|it| words.contains(it)),
                "{words:?} on {name}"
            );
        }
        for row in &brief.load_list {
            let mut parts: Vec<&str> = Vec::new();
            for part in [&row.slot, &row.cylinder, &row.number] {
                if !part.is_empty() && !parts.contains(&part.as_str()) {
                    parts.push(part);
                }
            }
            // In one line, or the number below the name.
            let full = parts.join(" ");
            let (last, first) = parts.split_last().unwrap();
            let two = [first.join(" "), (*last).to_owned()];
            for (words, place) in [(&told, "plan"), (&on_pages, "sheet")] {
                let is_told =
                    words.contains(&full.as_str()) || words.windows(2).any(|pair| pair == two);
                assert!(is_told, "{full:?} on the {place} of {name}");
            }
        }
    }
}
