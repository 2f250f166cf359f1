//! The crew's sheet as others read it: text, places and pixels by poppler's `pdftotext` and `pdftoppm`.
//!
//! A machine without them skips this with a sentence; where `SNUGDOWN_NEEDS_POPPLER` is set, as in `.ci/run`, it
//! fails instead.

use std::path::Path;
use std::process::Command;

use snugdown::brief::{Brief, LoadingSettings};
use snugdown::layout::{Cylinder, Known, Lashing, Place, PlaceKind, Placing, Plan, Walkway};
use snugdown::sheet::{Page, Paper, Picture, crew, pdf};

/// Is poppler there? Says so if not.
#[expect(clippy::print_stderr, reason = "a skipped test must say that it was")]
pub(crate) fn has_poppler() -> bool {
    let answers = |tool: &str| Command::new(tool).arg("-v").output().is_ok();
    let there = answers("pdftotext") && answers("pdftoppm");
    assert!(
        there || std::env::var_os("SNUGDOWN_NEEDS_POPPLER").is_none(),
        "pdftotext and pdftoppm are missing: install poppler-utils"
    );
    if !there {
        eprintln!("skipped: pdftotext and pdftoppm are not installed (poppler-utils)");
    }
    there
}

/// What one of the tools prints for a PDF.
pub(crate) fn printed(tool: &str, before: &[&str], bytes: &[u8], after: &[&str]) -> Vec<u8> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.pdf");
    snugdown::store::write_atomic(&path, bytes).unwrap();
    let output = Command::new(tool)
        .args(before)
        .arg(&path)
        .args(after)
        .output()
        .unwrap();
    assert!(
        output.status.success(),
        "{tool}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    output.stdout
}

pub(crate) fn text_of(bytes: &[u8]) -> String {
    String::from_utf8(printed("pdftotext", &["-layout"], bytes, &["-"])).unwrap()
}

/// A boat with a gate, a walkway, a lashing and this many cylinders.
fn boat_with(count: usize) -> Plan {
    let mut plan = Plan::new("Guillemot & Son", 30.0, 8.0);
    let deck = plan.boat.decks[0].id.clone();
    let place = |id: &str, kind: PlaceKind, at: [f64; 2]| Place {
        id: id.to_owned(),
        name: None,
        deck: deck.clone(),
        at,
        kind,
        floor_m: None,
    };
    plan.boat.places = vec![
        place("gate", PlaceKind::Gate, [0.5, 3.4]),
        place("set-down", PlaceKind::SetDown, [1.0, 1.0]),
        place("helm", PlaceKind::Helm, [20.0, 0.0]),
    ];
    plan.boat.walkways = vec![Walkway {
        id: "along the middle".to_owned(),
        name: None,
        deck: deck.clone(),
        from: "gate".to_owned(),
        to: "helm".to_owned(),
        line: vec![[0.5, 3.4], [0.5, 0.0], [20.0, 0.0]],
        clear_width_m: None,
        headroom_m: None,
    }];
    for (id, x) in [("eye 1", 1.0), ("eye 2", 3.0)] {
        let point = format!(
            r#"{{"id": "{id}", "deck": "{deck}", "at": [{x}, -3.2], "height_m": 0.3, "kind": "pad_eye", "strength_kn": 9.0}}"#
        );
        plan.boat
            .lashing_points
            .push(serde_json::from_str(&point).unwrap());
    }
    for index in 0..count {
        let (column, row) = (index % 24, index / 24);
        let placing = Placing::Standing {
            deck: deck.clone(),
            at: [2.0 + 0.7 * column as f64, -2.8 + 0.7 * row as f64],
            on: None,
        };
        let mut cylinder = Cylinder::new(&format!("C{index}"), "al-80cf", placing);
        cylinder.number = Some(format!("SN{index:04}"));
        ["air", "nitrox 32", "oxygen"][index % 3].clone_into(&mut cylinder.gas);
        cylinder.diver = Some(format!("Diver{}", index % 7));
        cylinder.analysed = Some("Ann 06:10".to_owned());
        plan.trips[0].cylinders.push(cylinder);
    }
    plan.trips[0].lashings.push(Lashing {
        id: "strap one".to_owned(),
        name: None,
        material: "ratchet_strap_25".to_owned(),
        strength_kn: None,
        stiffness_kn_per_m: None,
        condition: snugdown::layout::LashCondition::Good,
        from: "eye 1".to_owned(),
        round: vec!["C0".to_owned()],
        to: "eye 2".to_owned(),
        height_m: 0.4,
        slack_m: Some(Known::Value(0.02)),
        pretension_kn: None,
        shut: true,
    });
    plan
}

fn sheet_of(plan: &Plan, paper: Paper) -> (Brief, Vec<Page>, Vec<u8>) {
    let settings = LoadingSettings::of(&plan.trips[0]);
    let brief = Brief::of(plan, &plan.trips[0], None, &settings).unwrap();
    let (pages, bytes) = on_paper(plan, &brief, paper);
    (brief, pages, bytes)
}

/// As the crew get it: with limit cards.
fn sheet_with_cards(plan: &Plan, paper: Paper) -> (Brief, Vec<Page>, Vec<u8>) {
    let settings = LoadingSettings::of(&plan.trips[0]);
    let brief = Brief::for_paper(plan, &plan.trips[0], None, &settings).unwrap();
    let (pages, bytes) = on_paper(plan, &brief, paper);
    (brief, pages, bytes)
}

/// The pages of a brief, and their PDF.
fn on_paper(plan: &Plan, brief: &Brief, paper: Paper) -> (Vec<Page>, Vec<u8>) {
    let pages = crew::pages(plan, brief, &options(paper));
    let bytes = pdf(&pages, &crew::title(brief)).unwrap();
    (pages, bytes)
}

fn options(paper: Paper) -> crew::Options {
    crew::Options {
        paper,
        facing: None,
        version: "0123abcd".to_owned(),
    }
}

/// The row of the load list that begins with this step.
fn is_row_of(line: &str, step: usize, name: &str) -> bool {
    let mut words = line.split_whitespace();
    words.next() == Some(&step.to_string()) && words.next() == Some(name)
}

#[test]
fn the_text_of_the_sheet_is_that_of_the_plan() {
    if !has_poppler() {
        return;
    }
    for (count, least, most) in [(4, 1, 2), (24, 2, 4), (120, 5, 20)] {
        let plan = boat_with(count);
        let (brief, pages, bytes) = sheet_of(&plan, Paper::A4);
        assert!(
            (least..=most).contains(&pages.len()),
            "{} pages for {count}",
            pages.len()
        );
        let text = text_of(&bytes);
        let lines: Vec<&str> = text.lines().collect();
        let list = lines
            .iter()
            .position(|line| line.contains("Load list, in the"));
        let list = list.unwrap_or_else(|| panic!("no load list in\n{text}"));
        for (index, step) in brief.loading.steps.iter().enumerate() {
            let cylinder = plan.trips[0].cylinder(&step.cylinder).unwrap();
            let mut rows = lines.iter().skip(list);
            let row = rows.position(|line| is_row_of(line, index + 1, &cylinder.id));
            let row = row.unwrap_or_else(|| panic!("no row for step {} in\n{text}", index + 1));
            let row = row + list;
            // The row and what stands on its second line.
            let both = format!("{} {}", lines[row], lines.get(row + 1).unwrap_or(&""));
            for wanted in [
                cylinder.number.as_deref().unwrap(),
                &cylinder.gas,
                cylinder.diver.as_deref().unwrap(),
                "Ann 06:10",
                "Aluminium 80 cu ft",
            ] {
                assert!(
                    both.contains(wanted),
                    "{wanted} of {} in {both:?}",
                    cylinder.id
                );
            }
        }
        // The plan names it too.
        let lashings = lines.iter().position(|line| line.contains("Lashing list"));
        let lashings = lashings.unwrap_or_else(|| panic!("no lashing list in\n{text}"));
        let strap =
            (lines.iter().skip(lashings)).find(|line| line.trim_start().starts_with("strap one"));
        let strap = strap.unwrap_or_else(|| panic!("no strap in\n{text}"));
        for wanted in ["eye 1 to eye 2", "C0", "0.40 m", "20 mm of slack", "up to"] {
            assert!(strap.contains(wanted), "{wanted} in {strap:?}");
        }
        for wanted in [
            "Guillemot & Son",
            "version 0123abcd",
            "To say on the quay",
            "along the middle",
            "you stand here",
            "lay them down at the set-down",
            "Push test",
            "15 min",
            "Still open",
            "How far the stowage is good",
            "Loaded and pushed",
            "Checked",
            "Master accepts the open points",
            "decide.",
        ] {
            assert!(text.contains(wanted), "{wanted} in\n{text}");
        }
        for page in 1..=pages.len() {
            let foot = format!("page {page} of {}", pages.len());
            assert_eq!(text.matches(&foot).count(), 1, "{foot}");
        }
        let of_list = |page: &&str| page.contains("Aluminium 80 cu ft");
        // Where the load list goes on, its headings stand again.
        for page in text.split('\u{c}').filter(of_list) {
            assert!(
                page.contains("hooked") && page.contains("secured by"),
                "{page}"
            );
        }
    }
}

#[test]
fn the_shipped_boat_takes_two_pages_on_both_papers() {
    if !has_poppler() {
        return;
    }
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts/day-boat.json");
    let plan = snugdown::store::read(&path).unwrap();
    for paper in [Paper::A4, Paper::Letter] {
        let (brief, pages, bytes) = sheet_with_cards(&plan, paper);
        assert_eq!((brief.load_list.len(), pages.len()), (24, 2), "{paper:?}");
        let text = text_of(&bytes);
        for row in &brief.load_list {
            assert!(
                text.matches(row.number.as_str()).count() >= 2,
                "{} on plan and list",
                row.number
            );
        }
        for front in &brief.front_list {
            assert!(text.contains(front.front.as_str()), "{}", front.front);
        }
        // The work on deck of each part in which there is some, and the limit cards of all.
        for wanted in [
            "Work on deck, part by part (by whom)",
            "1 Open strap P1-P4",
            "Push again",
            "Limit card: the stowage, not the boat",
            "In a sea:",
        ] {
            assert!(text.contains(wanted), "{wanted} in\n{text}");
        }
    }
}

/// The numbers of an attribute-like field in `pdftotext -bbox`.
fn number(line: &str, name: &str) -> f64 {
    let start = line.find(&format!(" {name}=\"")).unwrap() + name.len() + 3;
    line[start..].split('"').next().unwrap().parse().unwrap()
}

#[test]
fn nothing_is_cut_off() {
    if !has_poppler() {
        return;
    }
    for (count, paper) in [
        (4, Paper::A4),
        (24, Paper::Letter),
        (120, Paper::A4),
        (120, Paper::Letter),
    ] {
        let (_, pages, bytes) = sheet_of(&boat_with(count), paper);
        let boxes = printed("pdftotext", &["-bbox"], &bytes, &["-"]);
        let boxes = String::from_utf8(boxes).unwrap();
        let (mut width, mut height, mut words) = (0.0, 0.0, 0);
        for line in boxes.lines() {
            if line.contains("<page ") {
                (width, height) = (number(line, "width"), number(line, "height"));
                // Points to millimetres.
                assert!(
                    (width * 25.4 / 72.0 - paper.width_mm()).abs() < 0.05,
                    "{line}"
                );
                assert!(
                    (height * 25.4 / 72.0 - paper.height_mm()).abs() < 0.05,
                    "{line}"
                );
            } else if line.contains("<word ") {
                words += 1;
                let inside = number(line, "xMin") >= 0.0
                    && number(line, "yMin") >= 0.0
                    && number(line, "xMax") <= width
                    && number(line, "yMax") <= height;
                assert!(inside, "off the page: {line}");
            }
        }
        assert!(
            words > 40 * pages.len(),
            "{words} words on {} pages",
            pages.len()
        );
    }
}

#[test]
fn fonts_are_embedded() {
    if !has_poppler() {
        return;
    }
    let (_, _, bytes) = sheet_of(&boat_with(4), Paper::A4);
    let told = String::from_utf8(printed("pdffonts", &[], &bytes, &[])).unwrap();
    let fonts: Vec<&str> = told.lines().skip(2).collect();
    assert!(!fonts.is_empty(), "{told}");
    for font in fonts {
        // Columns: name, type, encoding, emb, sub, uni, object.
        let yes = font
            .split_whitespace()
            .filter(|word| *word == "yes")
            .count();
        assert!(
            font.contains("Ubuntu") && yes == 3,
            "embedded, a subset, with Unicode: {font}"
        );
    }
}

/// Pixels to a side of the squares that are compared.
const BLOCK: usize = 10;

/// Our pixels beside poppler's of the same page.
#[test]
fn the_picture_of_a_page_is_as_poppler_draws_it() {
    if !has_poppler() {
        return;
    }
    let (_, pages, bytes) = sheet_of(&boat_with(24), Paper::A4);
    // 127 pixels to the inch are 5 to the millimetre.
    let made = printed(
        "pdftoppm",
        &["-png", "-gray", "-r", "127", "-f", "1", "-l", "1"],
        &bytes,
        &[],
    );
    let theirs = image::load_from_memory(&made).unwrap().to_luma8();
    let ours = Picture::of(&pages[0], 5.0);
    let theirs_wide = usize::try_from(theirs.width()).unwrap();
    assert!(theirs_wide.abs_diff(ours.width) <= 1, "{theirs_wide}");
    // The ink of each square of two millimetres: edges are softened in other ways, and letters are kerned.
    let ink = |of: &dyn Fn(usize, usize) -> u8| {
        let (across, down) = (ours.width / BLOCK, ours.height / BLOCK);
        let block = |index: usize| {
            let (left, top) = (index % across * BLOCK, index / across * BLOCK);
            let pixels = (0..BLOCK * BLOCK).map(|i| of(left + i % BLOCK, top + i / BLOCK));
            pixels.map(|grey| 255.0 - f64::from(grey)).sum::<f64>()
        };
        (0..across * down).map(block).collect::<Vec<f64>>()
    };
    let a = ink(&|x, y| ours.grey[y * ours.width + x]);
    let b = ink(&|x, y| {
        let (x, y) = (u32::try_from(x).unwrap(), u32::try_from(y).unwrap());
        let inside = x < theirs.width() && y < theirs.height();
        if inside {
            theirs.get_pixel(x, y).0[0]
        } else {
            255
        }
    });
    let dark: f64 = b.iter().sum();
    let apart: f64 = a.iter().zip(&b).map(|(a, b)| (a - b).abs()).sum();
    assert!(dark > 1e6, "there is something on the page: {dark}");
    assert!(
        apart < 0.15 * dark,
        "{} of the ink lies elsewhere",
        apart / dark
    );
}
