//! The report of an audit as others read it: by poppler's `pdftotext`, `pdfinfo`'s sizes and `pdffonts`.

use std::path::Path;

use snugdown::audit::{Audit, Case, sights};
use snugdown::sheet::{Paper, audit as sheets, pdf};
use snugdown::store;

use crate::sheet_pdf::{has_poppler, printed, text_of};

fn report(paper: Paper) -> (Vec<u8>, usize) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts/incident/record.json");
    let case = Case::of(store::open_record(&path).unwrap()).unwrap();
    let audit = Audit::of(&case).unwrap();
    let sights: Vec<_> = audit.accounts.iter().map(|it| sights(&case, it)).collect();
    let pages = sheets::pages(&audit, &sights, paper);
    let bytes = pdf(&pages, &sheets::title(&audit)).unwrap();
    (bytes, pages.len())
}

/// Everything can be searched for: sections, sentences, the hash, the letter, the annex.
#[test]
fn the_report_can_be_searched() {
    if !has_poppler() {
        return;
    }
    let (bytes, count) = report(Paper::A4);
    let text = text_of(&bytes);
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for wanted in [
        "A cylinder went over between two dives",
        "In plain words",
        "What would have held, account A",
        "received, not agreed",
        "Annex: comments, as they were given",
        "We do not agree that anything stood on deck.",
        "46 CFR 197.338",
        "reconstructed from S1 and S2, which agree to 0.1 m",
        &format!("page {count} of {count}"),
    ] {
        assert!(words.contains(wanted), "{wanted} is not in\n{text}");
    }
}

/// Page sizes in points: 210 × 297 mm (ISO 216) and 8.5 × 11 in.
#[test]
fn the_report_is_on_the_paper_that_was_asked_for_with_its_fonts_embedded() {
    if !has_poppler() {
        return;
    }
    for (paper, size) in [(Paper::A4, [595, 842]), (Paper::Letter, [612, 792])] {
        let (bytes, count) = report(paper);
        let info = String::from_utf8(printed("pdfinfo", &[], &bytes, &[])).unwrap();
        assert!(
            info.contains(&format!("Pages:           {count}")),
            "{info}"
        );
        let line = info
            .lines()
            .find(|line| line.starts_with("Page size:"))
            .unwrap();
        let points: Vec<i64> = line
            .split_whitespace()
            .filter_map(|word| word.parse::<f64>().ok())
            .map(|points| format!("{points:.0}").parse().unwrap())
            .collect();
        assert_eq!(points, size, "{line}");
        let fonts = String::from_utf8(printed("pdffonts", &[], &bytes, &[])).unwrap();
        let font = fonts.lines().nth(2).unwrap();
        let yes = font
            .split_whitespace()
            .filter(|word| *word == "yes")
            .count();
        assert!(yes == 3, "embedded, a subset, with Unicode: {font}");
    }
}
