//! Pages for paper: what is drawn on them, and how they become PDF or SVG.
//!
//! A [`Page`] is drawn in millimetres from the upper left corner with the one font that the window uses
//! too, so that a text is as wide on paper as it was measured here. [`pdf`] writes pages as a PDF whose text can
//! be searched and copied and whose font is embedded; [`svg`] writes them below each other. Equal pages
//! give equal bytes. Nothing here knows files or the clock: who writes a date gives it.

mod font;
mod glyphs;
pub use self::font::{width_mm, wrap};

mod page;
pub use self::page::{Align, Page, Paper, Pen};

mod output;
pub use self::output::{PdfError, pdf, svg};

mod raster;
pub use self::raster::{Picture, PngError};

mod table;
pub use self::table::{Column, Table, TableStyle};

mod flow;
mod texts;

pub mod audit;
pub mod crew;
pub mod measuring;
