//! What of the brief is saved in files.

use std::path::Path;

use super::super::Editor;
use super::super::files::{Dialog, has_ending};
use super::words;
use crate::brief::Table;
use crate::sheet::{self, Picture, crew};

/// Something to save.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(crate) enum Output {
    /// The sheet.
    Sheet,
    /// The pages in large letters.
    LargeType,
    /// The plan alone.
    Plan,
    /// The load list.
    LoadList,
    /// The lashing list.
    LashingList,
}

impl Output {
    /// All of them.
    pub(crate) const ALL: [Self; 5] = [
        Self::Sheet,
        Self::LargeType,
        Self::Plan,
        Self::LoadList,
        Self::LashingList,
    ];

    /// How the names of its files end, the usual one first.
    pub(crate) fn endings(self) -> &'static [&'static str] {
        match self {
            Self::Sheet | Self::LargeType => &["pdf", "svg"],
            Self::Plan => &["png", "svg", "pdf"],
            Self::LoadList | Self::LashingList => &["csv"],
        }
    }
}

impl Editor {
    /// Writes it; what was there was told in the question.
    pub(in super::super) fn write_briefing(&mut self, path: &Path, output: Output) {
        let written = self.bytes_of(path, output).and_then(|bytes| {
            crate::store::write_atomic(path, &bytes).map_err(|error| error.to_string())
        });
        self.dialog = match written {
            Ok(()) => {
                self.notice = Some(words::written(&path.display().to_string()));
                None
            }
            Err(why) => Some(Dialog::Trouble {
                title: words::NOT_WRITTEN.to_owned(),
                lines: vec![why],
            }),
        };
    }

    fn bytes_of(&self, path: &Path, output: Output) -> Result<Vec<u8>, String> {
        let briefing = self.briefing.as_ref();
        let (Some(briefing), Some(made)) = (briefing, briefing.and_then(|it| it.made.as_ref()))
        else {
            return Err(words::NO_BRIEF.to_owned());
        };
        let told = |error: &dyn std::fmt::Display| error.to_string();
        match output {
            Output::LoadList | Output::LashingList => {
                let table = if output == Output::LoadList {
                    Table::load_list(&made.brief)
                } else {
                    Table::lashing_list(&made.brief)
                };
                table
                    .to_csv()
                    .map(String::into_bytes)
                    .map_err(|error| told(&error))
            }
            Output::Sheet | Output::LargeType | Output::Plan => {
                let pages = briefing.pages(output);
                if has_ending(path, &["svg"]) {
                    return Ok(sheet::svg(&pages).into_bytes());
                }
                match pages.as_slice() {
                    [page] if has_ending(path, &["png"]) => {
                        let picture = Picture::of(page, crew::PIXELS_PER_MM);
                        picture.png().map_err(|error| told(&error))
                    }
                    _ => {
                        sheet::pdf(&pages, &crew::title(&made.brief)).map_err(|error| told(&error))
                    }
                }
            }
        }
    }
}
