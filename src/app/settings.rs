//! What the user chose about the window; kept from one start to the next, apart from any plan.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use super::theme::{TEXT_SCALE_MAX, TEXT_SCALE_MIN, Theme};
use crate::units::System;

/// The most files that are remembered.
const MOST_RECENT: usize = 8;

/// How a step of the walk through the loading order is ticked.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum TickBy {
    /// A field that is held for most of a second.
    #[default]
    Hold,
    /// Two fields far apart, one after the other.
    TwoZones,
}

impl TickBy {
    /// Both of them.
    pub(crate) const ALL: [Self; 2] = [Self::Hold, Self::TwoZones];

    /// As the settings write it.
    fn text(self) -> &'static str {
        match self {
            Self::Hold => "hold",
            Self::TwoZones => "two_zones",
        }
    }
}

/// Which file dialogs are used.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum FileDialogs {
    /// The desktop's own where it has them, else the built-in one.
    #[default]
    Desktop,
    /// The built-in one.
    BuiltIn,
}

impl FileDialogs {
    /// As the settings write it.
    fn text(self) -> &'static str {
        match self {
            Self::Desktop => "desktop",
            Self::BuiltIn => "built_in",
        }
    }
}

/// See the module.
#[derive(Clone, Debug, PartialEq)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a switch of its own in a menu"
)]
pub(crate) struct Settings {
    /// How it looks.
    pub(crate) theme: Theme,

    /// Text size against the normal one.
    pub(crate) text_scale: f32,

    /// Are controls large enough for a wet finger?
    pub(crate) large_targets: bool,

    /// Metric or US.
    pub(crate) units: System,

    /// Do other decks show through faintly?
    pub(crate) other_decks: bool,

    /// Are names shown on the plan?
    pub(crate) names: bool,

    /// Are walkways shown?
    pub(crate) walkways: bool,

    /// Are cylinders coloured by how well they hold?
    pub(crate) margins: bool,

    /// Are corners of one side of a deck moved alone?
    pub(crate) one_side: bool,

    /// Is the strip of the day low, with names and signs alone?
    pub(crate) low_strip: bool,

    /// Was the first round through the window seen or skipped?
    pub(crate) toured: bool,

    /// How a step of the walk is ticked.
    pub(crate) tick_by: TickBy,

    /// Does the walk fill the whole screen?
    pub(crate) walk_fills_screen: bool,

    /// Which file dialogs are used.
    pub(crate) file_dialogs: FileDialogs,

    /// The files opened last, the latest first.
    pub(crate) recent: Vec<PathBuf>,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            theme: Theme::default(),
            text_scale: 1.0,
            large_targets: false,
            units: System::Metric,
            other_decks: true,
            names: true,
            walkways: true,
            margins: false,
            one_side: false,
            low_strip: false,
            toured: true,
            tick_by: TickBy::default(),
            walk_fills_screen: true,
            file_dialogs: FileDialogs::default(),
            recent: Vec::new(),
        }
    }
}

impl Settings {
    /// For somebody who starts the program for the first time.
    pub(crate) fn first_start() -> Self {
        Self {
            toured: false,
            ..Self::default()
        }
    }

    /// Puts a file at the head of those opened last.
    pub(crate) fn remember(&mut self, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.recent.retain(|old| *old != path);
        self.recent.insert(0, path);
        self.recent.truncate(MOST_RECENT);
    }

    /// One line per setting: its name, `=`, its value.
    pub(crate) fn to_text(&self) -> String {
        let yes = |flag: bool| if flag { "yes" } else { "no" };
        let theme = match self.theme {
            Theme::Light => "light",
            Theme::Dark => "dark",
            Theme::Sunlight => "sunlight",
        };
        let units = match self.units {
            System::Metric => "metric",
            System::Us => "us",
        };
        let mut text = format!(
            "theme={theme}\nunits={units}\ntext_scale={:.1}\nlarge_targets={}\nother_decks={}\nnames={}\nwalkways={}\nmargins={}\none_side={}\nlow_strip={}\ntoured={}\ntick_by={}\nwalk_fills_screen={}\nfile_dialogs={}\n",
            self.text_scale,
            yes(self.large_targets),
            yes(self.other_decks),
            yes(self.names),
            yes(self.walkways),
            yes(self.margins),
            yes(self.one_side),
            yes(self.low_strip),
            yes(self.toured),
            self.tick_by.text(),
            yes(self.walk_fills_screen),
            self.file_dialogs.text(),
        );
        for path in &self.recent {
            // A name with a line break would be read as two; it is left out.
            let path = path.to_string_lossy();
            if !path.contains('\n') {
                writeln!(text, "recent={path}").ok();
            }
        }
        text
    }

    /// Reads what [`Settings::to_text`] wrote; what is not understood stays as it is by default.
    pub(crate) fn from_text(text: &str) -> Self {
        let mut settings = Self::default();
        for (name, value) in text.lines().filter_map(|line| line.split_once('=')) {
            let yes = value == "yes";
            match name {
                "theme" => {
                    settings.theme = match value {
                        "dark" => Theme::Dark,
                        "sunlight" => Theme::Sunlight,
                        _ => Theme::Light,
                    };
                }
                "units" => {
                    settings.units = if value == "us" {
                        System::Us
                    } else {
                        System::Metric
                    };
                }
                "text_scale" => {
                    let scale: f32 = value.parse().unwrap_or(1.0);
                    let scale = if scale.is_finite() { scale } else { 1.0 };
                    settings.text_scale = scale.clamp(TEXT_SCALE_MIN, TEXT_SCALE_MAX);
                }
                "large_targets" => settings.large_targets = yes,
                "other_decks" => settings.other_decks = yes,
                "names" => settings.names = yes,
                "walkways" => settings.walkways = yes,
                "margins" => settings.margins = yes,
                "one_side" => settings.one_side = yes,
                "low_strip" => settings.low_strip = yes,
                "toured" => settings.toured = yes,
                "walk_fills_screen" => settings.walk_fills_screen = yes,
                "tick_by" => {
                    let of = |way: &TickBy| way.text() == value;
                    settings.tick_by = TickBy::ALL.into_iter().find(of).unwrap_or_default();
                }
                "file_dialogs" if value == FileDialogs::BuiltIn.text() => {
                    settings.file_dialogs = FileDialogs::BuiltIn;
                }
                "recent" if settings.recent.len() < MOST_RECENT => {
                    settings.recent.push(PathBuf::from(value));
                }
                _ => {}
            }
        }
        settings
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read() {
        let mut settings = Settings {
            theme: Theme::Sunlight,
            text_scale: 1.3,
            units: System::Us,
            names: false,
            tick_by: TickBy::TwoZones,
            walk_fills_screen: false,
            file_dialogs: FileDialogs::BuiltIn,
            ..Settings::first_start()
        };
        settings.remember(Path::new("/boats/a=b.json"));
        settings.remember(Path::new("/boats/c.json"));
        settings.remember(Path::new("/boats/a=b.json"));
        assert_eq!(settings.recent.len(), 2, "each file once");
        assert_eq!(Settings::from_text(&settings.to_text()), settings);
    }

    #[test]
    fn nonsense_changes_nothing() {
        let nonsense = "theme=plaid\ntext_scale=NaN\nfoo\n=\nnames";
        let read = Settings::from_text(nonsense);
        assert_eq!(read, Settings::default());
    }
}
