//! Pages as PDF or SVG.

use std::fmt::Write as _;

use krilla::color::luma;
use krilla::geom::{PathBuilder, Point, Size, Transform};
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::paint::{Fill, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, TextDirection};

use super::font;
use super::page::{Align, BOLD_EM, DASHES_MM, Line, Mark, Page, Path, level};

/// Why pages did not become a PDF.
#[derive(Debug, thiserror::Error)]
pub enum PdfError {
    /// There are none.
    #[error("there is no page to print")]
    NoPages,

    /// A page could not be drawn: a mistake of this program.
    #[error("page {page} cannot be drawn: {reason}")]
    Page {
        /// Which, counted from 1.
        page: usize,
        /// What the library says.
        reason: String,
    },

    /// The document could not be put together: a mistake of this program.
    #[error("the PDF cannot be written: {0}")]
    Document(String),
}

/// The pages as a PDF, with this title. Equal pages give equal bytes.
pub fn pdf(pages: &[Page], title: &str) -> Result<Vec<u8>, PdfError> {
    if pages.is_empty() {
        return Err(PdfError::NoPages);
    }
    let font = Font::new(font::DATA.to_vec().into(), 0)
        .ok_or_else(|| PdfError::Document("the font cannot be read".to_owned()))?;
    let mut document = krilla::Document::new();
    document.set_metadata(
        Metadata::new()
            .title(title.to_owned())
            .creator("Snugdown".to_owned())
            .language("en".to_owned()),
    );
    for (i, page) in pages.iter().enumerate() {
        let (width, height) = (
            points(page.paper.width_mm()),
            points(page.paper.height_mm()),
        );
        let size = Size::from_wh(width, height).ok_or_else(|| PdfError::Page {
            page: i + 1,
            reason: "it has no size".to_owned(),
        })?;
        let mut sheet = document.start_page_with(PageSettings::new(size));
        let mut surface = sheet.surface();
        for mark in page.marks() {
            match mark {
                Mark::Text(line) => draw_line(&mut surface, &font, line),
                Mark::Path(path) => draw_path(&mut surface, path),
            }
        }
        surface.finish();
        sheet.finish();
    }
    document
        .finish()
        .map_err(|error| PdfError::Document(format!("{error:?}")))
}

/// Millimetres as points of the printer's, which a PDF counts in.
#[expect(
    clippy::cast_possible_truncation,
    reason = "seven digits are more than a printer has"
)]
fn points(mm: f64) -> f32 {
    (mm / font::POINT_MM) as f32
}

fn paint(grey: f64) -> krilla::paint::Paint {
    luma::Color::new(level(grey)).into()
}

fn stroke(grey: f64, width_mm: f64) -> Stroke {
    Stroke {
        paint: paint(grey),
        width: points(width_mm),
        line_join: krilla::paint::LineJoin::Round,
        ..Stroke::default()
    }
}

fn fill(grey: f64) -> Fill {
    Fill {
        paint: paint(grey),
        ..Fill::default()
    }
}

fn draw_line(surface: &mut Surface<'_>, font: &Font, line: &Line) {
    let width = font::width_mm(&line.text, line.size_pt);
    let back = match line.align {
        Align::Left => 0.0,
        Align::Middle => 0.5 * width,
        Align::Right => width,
    };
    let (x, y) = (points(line.at.0), points(line.at.1));
    let is_turned = line.turn_deg != 0.0;
    if is_turned {
        #[expect(clippy::cast_possible_truncation, reason = "an angle in degrees")]
        let turn = line.turn_deg as f32;
        surface.push_transform(&Transform::from_rotate_at(turn, x, y));
    }
    surface.set_fill(Some(fill(line.grey)));
    let thick = BOLD_EM * line.size_pt * font::POINT_MM;
    surface.set_stroke(line.bold.then(|| stroke(line.grey, thick)));
    let size = points(line.size_pt * font::POINT_MM);
    let at = Point::from_xy(x - points(back), y);
    let words = line.text.as_str();
    surface.draw_text(at, font.clone(), size, words, false, TextDirection::Auto);
    if is_turned {
        surface.pop();
    }
}

fn draw_path(surface: &mut Surface<'_>, path: &Path) {
    let mut builder = PathBuilder::new();
    for (i, (x, y)) in path.points.iter().enumerate() {
        let (x, y) = (points(*x), points(*y));
        if i == 0 {
            builder.move_to(x, y);
        } else {
            builder.line_to(x, y);
        }
    }
    if path.closed {
        builder.close();
    }
    let Some(made) = builder.finish() else { return };
    surface.set_fill(path.fill.map(fill));
    surface.set_stroke(path.pen.map(|pen| Stroke {
        dash: pen.dashed.then(|| StrokeDash {
            array: DASHES_MM.iter().map(|mm| points(*mm)).collect(),
            offset: 0.0,
        }),
        ..stroke(pen.grey, pen.width_mm)
    }));
    if path.fill.is_some() || path.pen.is_some() {
        surface.draw_path(&made);
    }
}

/// The pages below each other as one SVG. Letters are outlines, so that they look the same where the font is not
/// there; the words lie over them unseen, to be found and copied.
pub fn svg(pages: &[Page]) -> String {
    let width = pages.iter().map(|page| page.paper.width_mm());
    let width = width.fold(0.0, f64::max);
    let height: f64 = pages.iter().map(|page| page.paper.height_mm()).sum();
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\"{width:.3}mm\" height=\"{height:.3}mm\" \
         viewBox=\"0 0 {width:.3} {height:.3}\" font-family=\"{}\" font-weight=\"{}\">\n",
        font::FAMILY,
        font::WEIGHT
    );
    out.push_str(&super::glyphs::definitions(pages));
    let mut top = 0.0;
    for page in pages {
        let (w, h) = (page.paper.width_mm(), page.paper.height_mm());
        write!(
            out,
            "<g transform=\"translate(0 {top:.3})\">\n<rect width=\"{w:.3}\" height=\"{h:.3}\" fill=\"#fff\"/>\n{}</g>\n",
            page.body()
        )
        .ok();
        top += h;
    }
    out.push_str("</svg>\n");
    out
}

#[cfg(test)]
mod tests {
    use super::super::{Align, Paper, Pen};
    use super::*;

    fn page() -> Page {
        let mut page = Page::new(Paper::A4);
        page.text((20.0, 20.0), 12.0, Align::Left, "Half-width ± 5 mm");
        page.line(&[(20.0, 30.0), (80.0, 30.0)], false, Pen::dashed(0.2));
        page
    }

    #[test]
    fn a_pdf_has_its_pages_its_font_and_its_size() {
        let made = pdf(&[page(), page()], "Two pages").unwrap();
        assert!(made.starts_with(b"%PDF-"));
        let text = String::from_utf8_lossy(&made);
        assert_eq!(
            text.matches("/Type /Page\n").count() + text.matches("/Type/Page/").count(),
            2
        );
        assert!(text.contains("Ubuntu-Light"), "the font is named");
        assert!(
            text.contains("FontFile2") || text.contains("FontFile3"),
            "and embedded"
        );
        assert!(text.contains("ToUnicode"), "and the text can be searched");
        assert!(
            text.contains("595.27") || text.contains("595.28"),
            "210 mm in points"
        );
        assert_eq!(
            made,
            pdf(&[page(), page()], "Two pages").unwrap(),
            "equal bytes"
        );
    }

    #[test]
    fn no_pages_are_no_pdf() {
        assert!(matches!(pdf(&[], ""), Err(PdfError::NoPages)));
    }

    #[test]
    fn an_svg_holds_all_pages_below_each_other() {
        let made = svg(&[page(), page()]);
        assert!(made.contains("viewBox=\"0 0 210.000 594.000\""), "{made}");
        assert_eq!(made.matches("Half-width ± 5 mm").count(), 2);
        usvg::Tree::from_str(&made, &usvg::Options::default()).unwrap();
    }

    /// Without any font the letters are there, as wide as they are measured.
    #[test]
    fn an_svg_shows_its_letters_without_the_font() {
        let tree = usvg::Tree::from_str(&svg(&[page()]), &usvg::Options::default()).unwrap();
        let mut paths = Vec::new();
        collect(tree.root(), &mut paths);
        // The tree counts in pixels, 96 to the inch.
        let mm = tree.size().width() / 210.0;
        let letters: Vec<_> = paths.iter().filter(|area| area.top() < 25.0 * mm).collect();
        let words = "Half-width±5mm";
        assert_eq!(letters.len(), words.chars().count() + 1, "and the page");
        let right = letters.iter().filter(|area| area.width() < 100.0 * mm);
        let right = right.map(|area| area.right() / mm).fold(0.0, f32::max);
        let wanted = 20.0 + font::width_mm("Half-width ± 5 mm", 12.0);
        assert!(
            (f64::from(right) - wanted).abs() < 0.6,
            "{right} for {wanted}"
        );
    }

    fn collect(group: &usvg::Group, found: &mut Vec<usvg::Rect>) {
        for node in group.children() {
            match node {
                usvg::Node::Group(group) => collect(group, found),
                usvg::Node::Path(path) => found.push(path.abs_bounding_box()),
                usvg::Node::Image(_) | usvg::Node::Text(_) => {}
            }
        }
    }
}
