//! Pages as PDF or SVG.

use std::fmt::Write as _;

use krilla::geom::Size;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla_svg::{SurfaceExt as _, SvgSettings};

use super::font;
use super::page::Page;

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
    let mut options = usvg::Options {
        // One unit of the drawing is one point of the PDF.
        dpi: 72.0,
        ..usvg::Options::default()
    };
    options.fontdb_mut().load_font_data(font::DATA.to_vec());
    let mut document = krilla::Document::new();
    document.set_metadata(
        Metadata::new()
            .title(title.to_owned())
            .creator("Snugdown".to_owned())
            .language("en".to_owned()),
    );
    for (i, page) in pages.iter().enumerate() {
        let failed = |reason: String| PdfError::Page {
            page: i + 1,
            reason,
        };
        let tree = usvg::Tree::from_str(&page.svg(), &options)
            .map_err(|error| failed(error.to_string()))?;
        let size = Size::from_wh(tree.size().width(), tree.size().height())
            .ok_or_else(|| failed("it has no size".to_owned()))?;
        let mut sheet = document.start_page_with(PageSettings::new(size));
        let mut surface = sheet.surface();
        surface
            .draw_svg(&tree, size, SvgSettings::default())
            .ok_or_else(|| failed("the drawing was refused".to_owned()))?;
        surface.finish();
        sheet.finish();
    }
    document
        .finish()
        .map_err(|error| PdfError::Document(format!("{error:?}")))
}

/// The pages below each other as one SVG. Texts name their font and do not carry it.
pub fn svg(pages: &[Page]) -> String {
    let width = pages.iter().map(|page| page.paper.width_mm());
    let width = width.fold(0.0, f64::max);
    let height: f64 = pages.iter().map(|page| page.paper.height_mm()).sum();
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.3}mm\" height=\"{height:.3}mm\" \
         viewBox=\"0 0 {width:.3} {height:.3}\" font-family=\"{}\" font-weight=\"{}\">\n",
        font::FAMILY,
        font::WEIGHT
    );
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
}
