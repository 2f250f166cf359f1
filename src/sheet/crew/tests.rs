use super::plan::decks_to_draw;
use super::still_open::folded;
use super::*;
use crate::brief::LoadingSettings;
use crate::checks::fixture;
use crate::geometry::Elementary as _;
use crate::layout::{Cylinder, Placing};
use crate::sheet::page::Mark;
use crate::sheet::{pdf, svg};

pub(in crate::sheet::crew) fn many(count: usize) -> Plan {
    let mut plan =
        fixture::plan("deck 30x8; running night; place G gate 1,3.5; place A seat 29,0; way W G A")
            .unwrap();
    for index in 0..count {
        let (column, row) = (index % 30, index / 30);
        let at = [1.0 + 0.9 * column as f64, -3.0 + 0.9 * row as f64];
        let placing = Placing::Standing {
            deck: plan.boat.decks[0].id.clone(),
            at,
            on: None,
        };
        let mut cylinder = Cylinder::new(&format!("C{index}"), "al-80cf", placing);
        cylinder.number = Some(format!("SN-{index:04}"));
        plan.trips[0].cylinders.push(cylinder);
    }
    plan
}

pub(in crate::sheet::crew) fn options(paper: Paper) -> Options {
    Options {
        paper,
        facing: None,
        version: "0123abcd".to_owned(),
    }
}

pub(in crate::sheet::crew) fn brief_of(plan: &Plan) -> Brief {
    Brief::of(plan, &plan.trips[0], None, &LoadingSettings::default()).unwrap()
}

fn sheet_of(count: usize, paper: Paper) -> (Brief, Vec<Page>) {
    let plan = many(count);
    let brief = brief_of(&plan);
    let options = options(paper);
    let pages = pages(&plan, &brief, &options);
    (brief, pages)
}

/// Left, top, right and bottom of every text on a page, and the text.
pub(in crate::sheet::crew) fn texts(page: &Page) -> Vec<([f64; 4], String)> {
    let lines = page.marks().iter().filter_map(|mark| match mark {
        Mark::Text(line) => Some(line),
        Mark::Path(_) => None,
    });
    let placed = lines.map(|line| {
        let width = crate::sheet::width_mm(&line.text, line.size_pt);
        let shift = match line.align {
            Align::Left => 0.0,
            Align::Middle => 0.5,
            Align::Right => 1.0,
        } * width;
        let (x, y) = line.at;
        let high = 0.7 * line.size_pt * 25.4 / 72.0;
        let area = if line.turn_deg == 0.0 {
            [x - shift, y - high, x - shift + width, y]
        } else {
            assert!((line.turn_deg + 90.0).abs() < 1e-9, "turned to the left");
            [x - high, y + shift - width, x, y + shift]
        };
        (area, line.text.clone())
    });
    placed.collect()
}

#[test]
fn everything_is_on_the_sheet_and_inside_the_paper() {
    for (count, paper) in [(4, Paper::A4), (24, Paper::Letter), (120, Paper::A4)] {
        let (brief, pages) = sheet_of(count, paper);
        let mut seen = Vec::new();
        for page in &pages {
            for ([left, top, right, bottom], words) in texts(page) {
                assert!(
                    left >= 0.0 && right <= paper.width_mm() + 0.1,
                    "{words:?} from {left} to {right} is cut off"
                );
                assert!(
                    top > 0.0 && bottom < paper.height_mm(),
                    "{words:?} from {top} to {bottom} is cut off"
                );
                seen.push(words);
            }
        }
        for row in &brief.load_list {
            assert!(seen.contains(&row.cylinder), "{} is missing", row.cylinder);
            assert!(seen.contains(&row.number), "{} is missing", row.number);
        }
        let heads = seen.iter().filter(|words| *words == "hooked").count();
        assert!(
            heads >= if count == 120 { 3 } else { 1 },
            "{heads} headings of the load list"
        );
        assert!(seen.contains(&format!("page {0} of {0}", pages.len())));
    }
}

#[test]
fn letters_are_large_enough_to_read() {
    let (_, pages) = sheet_of(24, Paper::A4);
    for line in pages
        .iter()
        .flat_map(Page::marks)
        .filter_map(|mark| match mark {
            Mark::Text(line) => Some(line),
            Mark::Path(_) => None,
        })
    {
        let least = if line.text.starts_with("SN-") {
            8.5
        } else {
            7.0
        };
        assert!(
            line.size_pt >= least,
            "{} in {} pt",
            line.text,
            line.size_pt
        );
    }
    const { assert!(LIST_PT >= 8.5 && TEXT_PT >= 10.0, "tables and texts") };
    const { assert!(CLOSE.open_pt >= LIST_PT, "what is open, set close") };
}

/// A last page that would be all but empty is saved where that can be, and nothing is lost by it.
#[test]
fn a_sheet_is_set_closer_rather_than_begin_a_page_for_little() {
    let plan = many(32);
    let whole = brief_of(&plan);
    let options = options(Paper::A4);
    let rooms = plan_rooms(Paper::A4, facing_of(&plan, &whole, &options));
    let drawn = drawn(&plan, &whole, &options, rooms);
    let mut saved = 0;
    for count in 16..=32 {
        let mut brief = whole.clone();
        brief.loading.steps.truncate(count);
        brief.load_list.retain(|row| {
            let mut steps = brief.loading.steps.iter();
            steps.any(|step| step.cylinder == row.cylinder)
        });
        let [roomy, close] = [ROOMY, CLOSE].map(|setting| set(&brief, &options, &drawn, setting));
        let (wide, narrow) = (roomy.page_count(), close.page_count());
        let is_sparse = roomy.y < SPARSE * roomy.bottom();
        let pages = set_best(&brief, &options, &drawn).finish("");
        let is_saved = is_sparse && narrow < wide;
        assert_eq!(pages.len(), if is_saved { narrow } else { wide }, "{count}");
        saved += usize::from(is_saved);
        let seen: Vec<&str> = pages.iter().flat_map(Page::texts).collect();
        for row in &brief.load_list {
            assert!(seen.contains(&row.number.as_str()), "{}", row.number);
        }
    }
    assert!(saved > 0, "no page was saved");
}

#[test]
fn a_normal_boat_takes_two_pages_at_most_and_a_full_one_more() {
    for paper in [Paper::A4, Paper::Letter] {
        assert!(sheet_of(4, paper).1.len() <= 2, "four cylinders");
        assert!(
            sheet_of(24, paper).1.len() <= 4,
            "24 loose cylinders, each with a finding"
        );
    }
    let many = sheet_of(120, Paper::A4).1.len();
    assert!((4..=10).contains(&many), "{many} pages for 120 cylinders");
}

/// Many points of one rule are told as one; whatever each of them is about is named all the same.
#[test]
fn what_is_open_is_folded_and_names_everything() {
    let point = |word: &str, name: &str| crate::brief::OpenPoint {
        word: word.to_owned(),
        rule: "falls on walkway or gear".to_owned(),
        sentence: format!("{name} falls on the way."),
        about: vec![name.to_owned()],
        when: String::new(),
        finding: None,
    };
    let names = ["C1", "C2", "C3", "C4", "C5"];
    let mut points: Vec<_> = names.map(|name| point("WARNING F702", name)).to_vec();
    points.insert(2, point("DANGER U101", "C9"));
    let told = folded(&points, &[]);
    assert_eq!(
        told,
        [
            "WARNING F702: C1 falls on the way. Of the same rule, 4 more with other figures: C2-C5.",
            "DANGER U101: C9 falls on the way.",
        ]
    );
    // Few are told one by one.
    assert_eq!(folded(&points[..3], &[]).len(), 3);
    // Those that stand in other parts of the day have these behind them.
    for (index, when) in ["all day", "all day", "", "Dive", "all day", "Dive"]
        .iter()
        .enumerate()
    {
        points[index].when = (*when).to_owned();
    }
    assert_eq!(
        folded(&points, &[])[0],
        "WARNING F702 (all day): C1 falls on the way. Of the same rule, 4 more with other figures: C2, C4; C3, C5 \
         (Dive)."
    );
    // What is said on the quay is not told in full again.
    points[2].finding = Some(7);
    let said = crate::brief::TalkPoint {
        say: format!("All day: {}", points[2].sentence),
        from: "U101".to_owned(),
        finding: Some(7),
        things: Vec::new(),
    };
    let told = folded(&points, &[said]);
    assert_eq!(told[1], "DANGER U101: C9: as said in point 1");
    // On the sheet every rule that is open stands.
    let (brief, pages) = sheet_of(120, Paper::A4);
    let all = pages
        .iter()
        .flat_map(Page::texts)
        .collect::<Vec<_>>()
        .join(" ");
    for point in &brief.open_points {
        assert!(all.contains(&point.word), "{} is missing", point.word);
    }
}

/// The middles of the round things on a page that are as wide as a cylinder at this scale.
pub(in crate::sheet::crew) fn discs(page: &Page, diameter_mm: f64) -> Vec<(f64, f64)> {
    let paths = page.marks().iter().filter_map(|mark| match mark {
        Mark::Path(path) if path.closed && path.points.len() > 20 && path.fill == Some(1.0) => {
            Some(&path.points)
        }
        _ => None,
    });
    let middles = paths.filter_map(|points| {
        let span = |of: fn(&(f64, f64)) -> f64| {
            let along = points.iter().map(of);
            along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
                (low.min(value), high.max(value))
            })
        };
        let (x, y) = (span(|p| p.0), span(|p| p.1));
        let is_round = |(low, high): (f64, f64)| (high - low - diameter_mm).abs() < 0.1;
        (is_round(x) && is_round(y)).then_some((0.5 * (x.0 + x.1), 0.5 * (y.0 + y.1)))
    });
    middles.collect()
}

#[test]
fn drawn_distances_are_those_of_the_layout() {
    for facing in [
        Facing::Port,
        Facing::Starboard,
        Facing::Ahead,
        Facing::Astern,
    ] {
        let plan = many(24);
        let brief = brief_of(&plan);
        let deck = decks_to_draw(&brief)[0];
        let of = plan::Of {
            plan: &plan,
            brief: &brief,
            facing,
        };
        let plan::Piece { scale, page, .. } = plan::piece(
            of,
            deck,
            plan::Room::of((400.0, 400.0)),
            &plan::Extent::default(),
            None,
        );
        // Aluminium 80 cu ft: 184 mm in the catalogue.
        let discs = discs(&page, 184.2 / scale);
        assert_eq!(discs.len(), 24, "{facing:?} at 1:{scale}");
        let mut drawn = Vec::new();
        for (i, a) in discs.iter().enumerate() {
            for b in &discs[i + 1..] {
                drawn.push((a.0 - b.0).hypotenuse(a.1 - b.1) * scale / 1000.0);
            }
        }
        let at: Vec<[f64; 2]> = brief.loading.steps.iter().map(|step| step.at).collect();
        let mut real = Vec::new();
        for (i, a) in at.iter().enumerate() {
            for b in &at[i + 1..] {
                real.push((a[0] - b[0]).hypotenuse(a[1] - b[1]));
            }
        }
        drawn.sort_by(f64::total_cmp);
        real.sort_by(f64::total_cmp);
        for (drawn, real) in drawn.iter().zip(&real) {
            assert!(
                (drawn - real).abs() < 0.02,
                "{drawn} m for {real} m, {facing:?}"
            );
        }
    }
}

#[test]
fn the_reader_looks_inboard_from_where_they_stand() {
    let facing = |gate: &str| {
        let text = format!("deck 10x4; running; place G gate {gate}; stand P1 5,0");
        let plan = fixture::plan(&text).unwrap();
        let brief = brief_of(&plan);
        plan::facing(&plan, &brief)
    };
    assert_eq!(facing("5,1.9"), Facing::Starboard);
    assert_eq!(facing("5,-1.9"), Facing::Port);
    assert_eq!(facing("0.1,0.2"), Facing::Ahead);
    assert_eq!(facing("9.9,0.2"), Facing::Astern);
}

#[test]
fn the_plan_alone_has_every_name_and_number_and_is_a_picture() {
    let plan = many(24);
    let brief = brief_of(&plan);
    let options = options(Paper::A4);
    let page = plan_alone(&plan, &brief, &options);
    let words: Vec<&str> = page.texts().collect();
    for row in &brief.load_list {
        let full = format!("{} {}", row.cylinder, row.number);
        assert!(words.contains(&full.as_str()), "{full} in {words:?}");
    }
    assert!(words.contains(&"you stand here"));
    usvg::Tree::from_str(&svg(std::slice::from_ref(&page)), &usvg::Options::default()).unwrap();
    let picture = crate::sheet::Picture::of(&page, 2.0);
    assert!(picture.grey.contains(&0) && picture.grey.contains(&255));
}

/// Printed, the plan stands on the paper that was asked for, with every name; as a picture nothing of it is cut off.
#[test]
fn the_plan_alone_fits_its_paper() {
    let plan = many(60);
    let brief = brief_of(&plan);
    for paper in [Paper::A4, Paper::Letter] {
        let options = options(paper);
        let pages = plan_pages(&plan, &brief, &options);
        assert!(pages.iter().all(|page| page.paper == paper), "{paper:?}");
        let told: Vec<&str> = pages.iter().flat_map(Page::texts).collect();
        let told = told.join(" ");
        for row in &brief.load_list {
            assert!(told.contains(&row.number), "{} is missing", row.number);
        }
        let alone = plan_alone(&plan, &brief, &options);
        for page in pages.iter().chain([&alone]) {
            for ([left, top, right, bottom], words) in texts(page) {
                let (wide, high) = (page.paper.width_mm(), page.paper.height_mm());
                let is_inside = left >= 0.0 && top >= 0.0 && right <= wide && bottom <= high;
                assert!(is_inside, "{words:?} is cut off");
            }
        }
    }
    // A narrow boat with a long line below its name.
    let mut plan = fixture::plan("deck 3x1; running; place G gate 1.5,0.4; stand P1 1,0").unwrap();
    plan.trips[0].id = "a trip with a name as long as people give them in spring".to_owned();
    let brief = brief_of(&plan);
    let options = options(Paper::A4);
    let page = plan_alone(&plan, &brief, &options);
    for ([_, _, right, bottom], words) in texts(&page) {
        let is_inside = right <= page.paper.width_mm() && bottom <= page.paper.height_mm();
        assert!(is_inside, "{words:?} is cut off");
    }
    assert!(
        page.texts().any(|words| words.contains("0123abcd")),
        "the version"
    );
}

/// What hands need comes before what the master accepts, and only those things are drawn that hands do.
#[test]
fn lists_stand_before_what_is_open() {
    let (_, pages) = sheet_of(24, Paper::A4);
    let told: Vec<&str> = pages.iter().flat_map(Page::texts).collect();
    let at = |words: &str| {
        let found = told.iter().position(|it| it.starts_with(words));
        found.unwrap_or_else(|| panic!("{words:?} is missing"))
    };
    assert!(at("To say on the quay") < at("Load list"));
    assert!(at("Load list") < at("Still open"));
    assert!(at("Still open") < at("signed"));
    assert!(
        told.contains(&"push") && !told.contains(&"hook cord"),
        "{told:?}"
    );
}

#[test]
fn every_action_has_a_picture_of_its_own() {
    let mut seen: Vec<crate::sheet::Picture> = Vec::new();
    for action in HandAction::ALL {
        let picture = crate::sheet::Picture::of(&action_picture(action), 6.0);
        let dark = picture.grey.iter().filter(|grey| **grey < 128).count();
        assert!(
            dark * 50 > picture.grey.len(),
            "{action:?} is all but white"
        );
        assert!(!seen.contains(&picture), "{action:?} looks like another");
        seen.push(picture);
    }
}

#[test]
fn equal_sheets_are_equal_bytes() {
    let bytes = || pdf(&sheet_of(4, Paper::A4).1, "sheet").unwrap();
    let first = bytes();
    assert!(first.starts_with(b"%PDF-"), "a PDF");
    assert_eq!(first, bytes());
}

#[test]
fn a_slate_has_six_lines_and_the_whole_order() {
    let (brief, _) = sheet_of(4, Paper::A4);
    let lines = slate(&brief);
    assert_eq!(lines[2], "order C0-C3", "{lines:?}");
    assert_eq!(
        lines[4], "open: unsecured upright cylinder: C0-C3",
        "{lines:?}"
    );
    // What the plan has not is filled in by hand, and so is when it was pushed.
    assert!(lines[1].contains("set down at ____"), "{lines:?}");
    assert!(lines[5].contains("night ____"), "{lines:?}");
    let options = options(Paper::A4);
    let size = |page: &Page| {
        let sizes = page.marks().iter().filter_map(|mark| match mark {
            Mark::Text(line) => Some(line.size_pt),
            Mark::Path(_) => None,
        });
        sizes.fold(0.0, f64::max)
    };
    assert!(
        size(&slate_page(&brief, &options)[0]) >= 30.0,
        "as large as it fits"
    );
    // As a page each of them stands in a field of its own, also where the order is long.
    for count in [4, 120] {
        let mut plan = many(count);
        // Odd ones first: nothing counts up.
        let names = (0..count)
            .filter(|it| it % 2 == 1)
            .chain((0..count).filter(|it| it % 2 == 0));
        let order = names.map(|it| format!("C{it}")).collect();
        plan.trips[0].briefing = Some(crate::layout::Briefing {
            order,
            ..Default::default()
        });
        let trip = &plan.trips[0];
        let brief = Brief::of(&plan, trip, None, &LoadingSettings::of(trip)).unwrap();
        let options = Options {
            paper: Paper::Letter,
            facing: None,
            version: "0123abcd".to_owned(),
        };
        let pages = slate_page(&brief, &options);
        let words: Vec<&str> = pages.iter().flat_map(Page::texts).collect();
        let words = words.join(" ");
        for step in &brief.loading.steps {
            assert!(words.contains(&format!(" {}", step.cylinder)), "{words}");
        }
        assert!(words.contains("pushed by ____"), "{words}");
        assert!(count > 4 || pages.len() == 1, "{} pages", pages.len());
        for page in &pages {
            for ([left, top, right, bottom], words) in texts(page) {
                let inside = left >= 0.0 && right <= 216.0 && top > 0.0 && bottom < 279.4;
                assert!(inside, "{words:?} is cut off");
            }
        }
    }
}

#[test]
fn large_type_flows_over_pages() {
    let (brief, _) = sheet_of(24, Paper::A4);
    let options = options(Paper::A4);
    let pages = large_type(&brief, &options);
    assert!(pages.len() > 1);
    let all: Vec<String> = pages
        .iter()
        .flat_map(texts)
        .map(|(_, words)| words)
        .collect();
    assert!(all.contains(&"24".to_owned()), "the last step is there");
}

/// Whatever people write: nothing runs over its neighbour or off the paper, and letters that are missing are told.
#[test]
fn long_and_foreign_names_stay_in_their_places() {
    let mut plan = many(4);
    plan.boat.name =
        "A boat with a name that goes on and on, as owners of boats think of them in winter"
            .to_owned();
    plan.trips[0].name = Some(
        "A trip of which everybody tells in many words, eighty letters long at least".to_owned(),
    );
    for (index, (name, number)) in [
        ("Maximilian", "AL80-2019-0034"),
        ("Wilhelmina", "1234567890123"),
    ]
    .into_iter()
    .enumerate()
    {
        plan.trips[0].cylinders[index].diver = Some(name.to_owned());
        plan.trips[0].cylinders[index].number = Some(number.to_owned());
    }
    let brief = brief_of(&plan);
    let options = options(Paper::A4);
    let foreign = |pages: &[Page]| {
        pages
            .iter()
            .flat_map(Page::texts)
            .any(|it| it.contains("cannot be printed"))
    };
    for pages in [
        pages(&plan, &brief, &options),
        large_type(&brief, &options),
        slate_page(&brief, &options),
        plan_pages(&plan, &brief, &options),
        vec![plan_alone(&plan, &brief, &options)],
    ] {
        assert!(!foreign(&pages));
        for page in &pages {
            let all = texts(page);
            for ([left, _, right, _], words) in &all {
                assert!(
                    *left >= 0.0 && *right <= page.paper.width_mm() - 5.0,
                    "{words:?}"
                );
            }
            // In one line no text runs over the next.
            for (a, one) in &all {
                for (b, other) in &all {
                    let is_level = (a[3] - b[3]).abs() < 0.3 && (a[1] - b[1]).abs() < 0.5;
                    let is_over = a[0] < b[0] && a[2] > b[0] + 0.1;
                    assert!(!(is_level && is_over), "{one:?} runs over {other:?}");
                }
            }
        }
        let told: Vec<&str> = pages.iter().flat_map(Page::texts).collect();
        assert!(told.iter().any(|it| it.contains("0123abcd")), "the version");
    }
    plan.trips[0].cylinders[0].diver = Some("海鸥".to_owned());
    let brief = brief_of(&plan);
    assert!(foreign(&pages(&plan, &brief, &options)));
    assert!(foreign(&[plan_alone(&plan, &brief, &options)]));
}
