use super::theme::Theme;
use crate::units::System;

/// What the user chose about the window; not part of the plan.
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
        }
    }
}
