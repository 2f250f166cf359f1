//! Colour and width of what is written for people.

use anstyle::{AnsiColor, Style};

use crate::checks::Signal;

/// What is known of where the result goes.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub struct Terminal {
    /// May colour be used, unless the user says otherwise?
    pub colour: bool,

    /// How many columns it has; `None` where it is no terminal.
    pub columns: Option<usize>,
}

impl Terminal {
    /// Columns used where nobody knows better, as in a file.
    const USUAL_COLUMNS: usize = 100;

    /// The columns that text is wrapped to: wide lines are hard to read, very narrow ones break tables.
    pub(super) fn columns(self) -> usize {
        self.columns.unwrap_or(Self::USUAL_COLUMNS).clamp(60, 120)
    }
}

/// Puts colour into text, or does not.
#[derive(Copy, Clone, Debug)]
pub(super) struct Paint {
    pub(super) colour: bool,
}

impl Paint {
    pub(super) fn signal(self, signal: Signal, text: &str) -> String {
        // The safety colours of ISO 3864-1: red, orange, yellow, blue; a terminal has no orange.
        let style = match signal {
            Signal::Danger => Style::new()
                .bold()
                .fg_color(Some(AnsiColor::BrightRed.into())),
            Signal::Warning => Style::new()
                .bold()
                .fg_color(Some(AnsiColor::BrightYellow.into())),
            Signal::Caution => Style::new().fg_color(Some(AnsiColor::Yellow.into())),
            Signal::Notice => Style::new().fg_color(Some(AnsiColor::BrightBlue.into())),
        };
        self.with(style, text)
    }

    pub(super) fn bold(self, text: &str) -> String {
        self.with(Style::new().bold(), text)
    }

    pub(super) fn faint(self, text: &str) -> String {
        self.with(Style::new().dimmed(), text)
    }

    fn with(self, style: Style, text: &str) -> String {
        if self.colour {
            format!("{style}{text}{style:#}")
        } else {
            text.to_owned()
        }
    }
}
