//! `snugdown crew-sheet`: to PDF and SVG, and the slate to the terminal.

use crate::support::{Folder, boat_with_loose_cylinder};

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
