//! `snugdown measuring-sheet`.

use super::support::{Folder, empty_boat};

#[test]
fn a_sheet_is_written_as_pdf_or_svg_and_never_over_another_file() {
    let folder = Folder::new().with_json("boat.json", &empty_boat());
    let ran = folder.run(&["measuring-sheet", "boat.json", "-o", "sheet.svg"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let sheet = folder.read("sheet.svg");
    assert!(
        sheet.starts_with("<svg") && sheet.contains("Otter"),
        "{sheet}"
    );
    assert!(sheet.contains("width=\"210.000mm\""));

    let again = folder.run(&["measuring-sheet", "-o", "sheet.svg"]);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("--overwrite"), "{}", again.err);
    assert_eq!(
        folder.read("sheet.svg"),
        sheet,
        "the old sheet is as it was"
    );

    let letter = [
        "measuring-sheet",
        "-o",
        "sheet.svg",
        "--overwrite",
        "--paper",
        "letter",
    ];
    assert_eq!(folder.run(&letter).code, 0);
    assert!(folder.read("sheet.svg").contains("width=\"215.900mm\""));

    let pdf = folder.run(&["measuring-sheet", "-o", "sheet.pdf", "--units", "us"]);
    assert_eq!((pdf.code, pdf.err.as_str()), (0, ""));
    let bytes = std::fs::read(folder.path().join("sheet.pdf")).unwrap();
    assert!(bytes.starts_with(b"%PDF-"));

    let odd = folder.run(&["measuring-sheet", "-o", "sheet.docx"]);
    assert_eq!(odd.code, 2);
    assert!(odd.err.contains(".pdf or .svg"), "{}", odd.err);
}
