use super::*;
use crate::brief::LoadingSettings;
use crate::checks::fixture;
use crate::layout::{Cylinder, Placing};
use crate::sheet::{pdf, svg};

fn many(count: usize) -> Plan {
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

fn sheet_of(count: usize, paper: Paper) -> (Brief, Vec<Page>) {
    let plan = many(count);
    let brief = Brief::of(&plan, &plan.trips[0], None, &LoadingSettings::default()).unwrap();
    let options = Options {
        paper,
        facing: None,
        version: "0123abcd".to_owned(),
    };
    let pages = pages(&plan, &brief, &options);
    (brief, pages)
}

/// The coordinates and widths of every text on a page.
fn texts(page: &Page) -> Vec<(f64, f64, f64, String)> {
    let text = svg(std::slice::from_ref(page));
    let field = |tag: &str, name: &str| -> f64 {
        let start = tag.find(&format!("{name}=\"")).unwrap() + name.len() + 2;
        tag[start..].split('"').next().unwrap().parse().unwrap()
    };
    let pieces: Vec<&str> = text.split("<text ").collect();
    pieces
        .windows(2)
        .map(|pair| {
            let (before, tag) = (pair[0], pair[1]);
            let words = tag.split('>').nth(1).unwrap().split('<').next().unwrap();
            let size_pt = field(tag, "font-size") / (25.4 / 72.0);
            let is_turned = before.trim_end().ends_with(")\">");
            let width = if is_turned {
                0.0
            } else {
                crate::sheet::width_mm(&words.replace("&amp;", "&"), size_pt)
            };
            let shift = if tag.contains("\"middle\"") {
                0.5
            } else if tag.contains("\"end\"") {
                1.0
            } else {
                0.0
            };
            (
                field(tag, "x") - shift * width,
                field(tag, "y"),
                width,
                words.to_owned(),
            )
        })
        .collect()
}

#[test]
fn everything_is_on_the_sheet_and_inside_the_paper() {
    for (count, paper) in [(4, Paper::A4), (24, Paper::Letter), (120, Paper::A4)] {
        let (brief, pages) = sheet_of(count, paper);
        let mut seen = Vec::new();
        for page in &pages {
            for (x, y, width, words) in texts(page) {
                assert!(
                    x >= 0.0 && x + width <= paper.width_mm() + 0.1,
                    "{words:?} at {x} is cut off"
                );
                assert!(
                    y > 0.0 && y < paper.height_mm(),
                    "{words:?} at {y} is cut off"
                );
                seen.push(words);
            }
        }
        for row in &brief.load_list {
            assert!(seen.contains(&row.cylinder), "{} is missing", row.cylinder);
            assert!(seen.contains(&row.number), "{} is missing", row.number);
        }
        let heads = seen.iter().filter(|words| *words == "hooked").count();
        assert!(heads >= 1, "the load list has its headings");
        assert!(seen.contains(&format!("page {0} of {0}", pages.len())));
    }
}

#[test]
fn a_normal_boat_takes_few_pages_and_a_full_one_more() {
    let few = sheet_of(4, Paper::A4).1.len();
    let many = sheet_of(120, Paper::A4).1.len();
    assert!(few <= 2, "{few} pages for four cylinders");
    assert!(many > few, "{many}");
}

#[test]
fn drawn_distances_are_those_of_the_layout() {
    let (_, pages) = sheet_of(24, Paper::A4);
    let texts = texts(&pages[0]);
    let place = |name: &str| {
        let found = texts.iter().find(|(_, _, _, words)| words == name).unwrap();
        (found.0 + 0.5 * found.2, found.1)
    };
    let title = texts
        .iter()
        .find(|(_, _, _, words)| words.contains("scale 1:"))
        .unwrap();
    let scale: f64 = title
        .3
        .split("1:")
        .nth(1)
        .unwrap()
        .split(',')
        .next()
        .unwrap()
        .parse()
        .unwrap();
    let (a, b) = (place("C0"), place("C23"));
    let drawn_m = (a.0 - b.0).hypot(a.1 - b.1) * scale / 1000.0;
    assert!(
        (drawn_m - 23.0 * 0.9).abs() < 0.01,
        "{drawn_m} m at 1:{scale}"
    );
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
    for step in &brief.loading.steps {
        assert!(lines[2].contains(&step.cylinder), "{lines:?}");
    }
    assert!(lines[4].contains("U101"), "{lines:?}");
}

#[test]
fn large_type_flows_over_pages() {
    let (brief, _) = sheet_of(24, Paper::A4);
    let options = Options {
        paper: Paper::A4,
        facing: None,
        version: "0123abcd".to_owned(),
    };
    let pages = large_type(&brief, &options);
    assert!(pages.len() > 1);
    let all: Vec<String> = pages
        .iter()
        .flat_map(texts)
        .map(|(_, _, _, words)| words)
        .collect();
    assert!(all.contains(&"24".to_owned()), "the last step is there");
}
