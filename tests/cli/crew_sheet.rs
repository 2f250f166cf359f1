//! `snugdown crew-sheet`: to PDF and SVG, and the slate to the terminal.

use crate::support::{Folder, boat_with_loose_cylinder, flat};

fn folder() -> Folder {
    Folder::new().with_json("otter.json", &boat_with_loose_cylinder())
}

#[test]
fn the_sheet_goes_to_a_file_and_replaces_none() {
    let folder = folder();
    for name in ["sheet.pdf", "sheet.svg"] {
        let args = ["crew-sheet", "otter.json", "--out", name];
        let ran = folder.run(&args);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
        assert!(ran.out.contains("page"), "{}", ran.out);
        let again = folder.run(&args);
        assert_eq!(again.code, 2, "{again:?}");
        assert!(again.err.contains("--overwrite"), "{}", again.err);
    }
}

#[test]
fn without_a_file_the_slate_is_printed() {
    let ran = folder().run(&["crew-sheet", "otter.json"]);
    assert_eq!((ran.code, ran.out.lines().count()), (0, 6), "{ran:?}");
}

#[test]
fn the_slate_is_a_page_too_and_stands_for_itself() {
    let folder = folder();
    let args = ["crew-sheet", "otter.json", "--slate", "--out", "slate.svg"];
    let ran = folder.run(&args);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    let drawn = folder.read("slate.svg");
    assert!(
        drawn.contains("For a slate") && drawn.contains("pushed by"),
        "{drawn}"
    );
    let both = folder.run(&["crew-sheet", "otter.json", "--slate", "--plan"]);
    assert_eq!(both.code, 2, "{both:?}");
}

#[test]
fn another_ending_is_told() {
    let ran = folder().run(&["crew-sheet", "otter.json", "--out", "sheet.doc"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains(".pdf or .svg"), "{}", ran.err);
}

#[test]
fn the_plan_alone_is_a_drawing_or_a_picture_and_replaces_none() {
    let folder = folder();
    for (name, begins) in [("plan.png", &b"\x89PNG"[..]), ("plan.svg", &b"<svg "[..])] {
        let args = ["crew-sheet", "otter.json", "--plan", "--out", name];
        let ran = folder.run(&args);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
        assert!(ran.out.contains("1 page"), "{}", ran.out);
        let bytes = std::fs::read(folder.path().join(name)).unwrap();
        assert!(bytes.starts_with(begins), "{name}");
        let again = folder.run(&args);
        assert_eq!(again.code, 2, "{again:?}");
        let mut over = args.to_vec();
        over.push("--overwrite");
        assert_eq!(folder.run(&over).code, 0, "told to replace it");
    }
}

#[test]
fn a_png_holds_no_sheet_of_several_pages() {
    let ran = folder().run(&[
        "crew-sheet",
        "otter.json",
        "--large-type",
        "--out",
        "sheet.png",
    ]);
    if ran.code == 2 {
        assert!(ran.err.contains("--plan"), "{}", ran.err);
    } else {
        assert!(
            ran.out.contains("1 page"),
            "one page is one picture: {ran:?}"
        );
    }
    let ran = folder().run(&["crew-sheet", "otter.json", "--plan", "--large-type"]);
    assert_eq!(ran.code, 2, "one or the other: {ran:?}");
}

#[test]
fn what_needs_a_file_is_refused_without_one() {
    for asked in [
        &["--plan"][..],
        &["--large-type"],
        &["--paper", "letter"],
        &["--facing", "port"],
        &["--overwrite"],
    ] {
        let mut args = vec!["crew-sheet", "otter.json"];
        args.extend(asked);
        let ran = folder().run(&args);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{ran:?}");
        let words = format!("{} needs --out FILE", asked[0]);
        assert!(ran.err.contains(&words), "{}", ran.err);
    }
    let slate = folder().run(&["crew-sheet", "otter.json", "--slate"]);
    assert_eq!((slate.code, slate.out.lines().count()), (0, 6), "{slate:?}");
}

#[test]
fn what_changes_nothing_on_the_page_is_refused() {
    for (asked, words) in [
        (
            &["--slate", "--facing", "port", "--out", "x.pdf"][..],
            "--facing has no effect with --slate",
        ),
        (
            &["--large-type", "--facing", "port", "--out", "x.pdf"],
            "--facing has no effect with --large-type",
        ),
        (
            &["--plan", "--paper", "a4", "--out", "x.png"],
            "--paper has no effect on the plan alone",
        ),
    ] {
        let folder = folder();
        let mut args = vec!["crew-sheet", "otter.json"];
        args.extend(asked);
        let ran = folder.run(&args);
        assert_eq!(ran.code, 2, "{ran:?}");
        assert!(ran.err.contains(words), "{}", ran.err);
        assert!(!folder.path().join(args[args.len() - 1]).exists());
    }
    let args = "crew-sheet otter.json --plan --paper A4 --facing port --out x.pdf";
    let args: Vec<&str> = args.split(' ').collect();
    let ran = folder().run(&args);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
}

#[test]
fn one_page_is_a_picture_and_several_are_told() {
    let folder = folder();
    let slate = "crew-sheet otter.json --slate --out slate.PNG";
    let ran = folder.run(&slate.split(' ').collect::<Vec<_>>());
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    let bytes = std::fs::read(folder.path().join("slate.PNG")).unwrap();
    assert!(bytes.starts_with(b"\x89PNG"));
    let help = flat(&folder.run(&["crew-sheet", "--help"]).out);
    assert!(help.contains("in .png where it is one page"), "{help}");
    let layouts = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts");
    std::fs::copy(
        layouts.join("day-boat.json"),
        folder.path().join("day.json"),
    )
    .unwrap();
    let large = "crew-sheet day.json --large-type --out large.png";
    let ran = folder.run(&large.split(' ').collect::<Vec<_>>());
    assert_eq!(ran.code, 2, "{ran:?}");
    assert!(ran.err.contains("a PNG holds one page"), "{}", ran.err);
}

#[test]
fn whoever_wants_the_lists_is_told_where_they_are() {
    for asked in [
        &["--csv"][..],
        &["--format", "csv"],
        &["--format=csv"],
        &["--json"],
        &["--out", "x.csv"],
    ] {
        let mut args = vec!["crew-sheet", "otter.json"];
        args.extend(asked);
        let ran = folder().run(&args);
        assert_eq!(ran.code, 2, "{ran:?}");
        assert!(
            ran.err
                .contains("snugdown brief FILE --page load-list --format csv"),
            "{}",
            ran.err
        );
    }
}
