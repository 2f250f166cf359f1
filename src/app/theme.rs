//! Every colour and size of the window.
//!
//! The signal colours are of different lightness as well as hue, and never stand alone: a shape and
//! a word go with each. The hues keep apart for colour-blind eyes (after Okabe and Ito, "Color
//! universal design", 2008).

use egui::{Color32, CornerRadius, FontFamily, FontId, Stroke, TextStyle, Visuals, vec2};

use super::outcome::Tone;
use crate::checks::Signal;

/// How the window looks.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// For indoors by day.
    #[default]
    Light,
    /// For the wheelhouse at night.
    Dark,
    /// Black on white with strong lines, for a screen in the sun.
    Sunlight,
}

impl Theme {
    /// All of them, in the order of the menu.
    pub const ALL: [Self; 3] = [Self::Light, Self::Dark, Self::Sunlight];

    /// The colours of the plan.
    pub(crate) fn palette(self) -> &'static Palette {
        match self {
            Self::Light => &LIGHT,
            Self::Dark => &DARK,
            Self::Sunlight => &SUNLIGHT,
        }
    }
}

/// Smallest text size against the normal one.
pub(crate) const TEXT_SCALE_MIN: f32 = 0.8;
/// Largest text size against the normal one.
pub(crate) const TEXT_SCALE_MAX: f32 = 2.0;
/// One step of the text size.
pub(crate) const TEXT_SCALE_STEP: f32 = 0.1;

/// Height of a control in points.
pub(crate) const TARGET: f32 = 24.0;
/// Height of a control for a wet finger, in points.
pub(crate) const TARGET_LARGE: f32 = 44.0;

/// Width of the stores in points.
pub(crate) const STORES_WIDTH: f32 = 226.0;
/// Width of the right side in points.
pub(crate) const RIGHT_WIDTH: f32 = 350.0;
/// Width of the rulers in points.
pub(crate) const RULER: f32 = 20.0;
/// Text on the plan, in points.
pub(crate) const PLAN_TEXT: f32 = 11.5;
/// Small text on the plan, in points.
pub(crate) const PLAN_TEXT_SMALL: f32 = 9.0;
/// Text of the outcome under the cursor, in points.
pub(crate) const OUTCOME_TEXT: f32 = 13.5;
/// Half the size of a mark on the plan, in points.
pub(crate) const MARK: f32 = 7.0;
/// Half the size of a signal mark on the plan, in points.
pub(crate) const SIGNAL_MARK: f32 = 10.0;
/// How near the pointer must be to a line or mark to meet it, in points.
pub(crate) const REACH: f32 = 7.0;
/// Free room round a plan that was fitted, in points.
pub(crate) const FIT_MARGIN: f32 = 44.0;

/// The colours of the plan and of signal words.
#[derive(Debug)]
pub(crate) struct Palette {
    /// Is the background dark?
    pub(crate) dark: bool,
    /// Thin lines are drawn this much thicker.
    pub(crate) line_scale: f32,
    /// Panels.
    pub(crate) panel: Color32,
    /// Fields that text is typed into.
    pub(crate) field: Color32,
    /// Controls.
    pub(crate) control: Color32,
    /// Controls under the pointer.
    pub(crate) control_hovered: Color32,
    /// Round controls, and between regions.
    pub(crate) control_line: Color32,
    /// Text.
    pub(crate) text: Color32,
    /// Lesser text.
    pub(crate) text_faint: Color32,
    /// Round about the deck.
    pub(crate) water: Color32,
    /// The floor.
    pub(crate) deck: Color32,
    /// The edge of the floor.
    pub(crate) deck_edge: Color32,
    /// The metre grid.
    pub(crate) grid: Color32,
    /// Benches, boxes and so on.
    pub(crate) fixture: Color32,
    /// Racks.
    pub(crate) rack: Color32,
    /// Cylinders.
    pub(crate) cylinder: Color32,
    /// Kit on a cylinder.
    pub(crate) kit: Color32,
    /// Lashings.
    pub(crate) lashing: Color32,
    /// Lashing points.
    pub(crate) point: Color32,
    /// Places.
    pub(crate) place: Color32,
    /// Walkways.
    pub(crate) walkway: Color32,
    /// People.
    pub(crate) person: Color32,
    /// Loose gear.
    pub(crate) gear: Color32,
    /// Outlines of things.
    pub(crate) line: Color32,
    /// What is selected.
    pub(crate) selected: Color32,
    /// What goes.
    pub(crate) danger: Color32,
    /// What is near its limit.
    pub(crate) warning: Color32,
    /// What may go wrong.
    pub(crate) caution: Color32,
    /// Advice.
    pub(crate) notice: Color32,
    /// What holds.
    pub(crate) good: Color32,
}

const fn rgb(r: u8, g: u8, b: u8) -> Color32 {
    Color32::from_rgb(r, g, b)
}

static LIGHT: Palette = Palette {
    dark: false,
    line_scale: 1.0,
    panel: rgb(247, 248, 249),
    field: rgb(255, 255, 255),
    control: rgb(228, 232, 236),
    control_hovered: rgb(211, 219, 227),
    control_line: rgb(196, 206, 216),
    text: rgb(24, 32, 40),
    text_faint: rgb(92, 103, 114),
    water: rgb(206, 222, 232),
    deck: rgb(250, 247, 240),
    deck_edge: rgb(60, 72, 84),
    grid: Color32::from_rgba_premultiplied(28, 38, 48, 54),
    fixture: rgb(219, 209, 192),
    rack: rgb(226, 232, 236),
    cylinder: rgb(250, 214, 110),
    kit: rgb(70, 92, 116),
    lashing: rgb(126, 62, 132),
    point: rgb(98, 40, 104),
    place: rgb(0, 98, 138),
    walkway: Color32::from_rgba_premultiplied(14, 42, 54, 56),
    person: rgb(140, 190, 206),
    gear: rgb(190, 196, 160),
    line: rgb(58, 66, 76),
    selected: rgb(0, 96, 214),
    danger: rgb(190, 20, 20),
    warning: rgb(206, 88, 0),
    caution: rgb(150, 112, 0),
    notice: rgb(0, 98, 148),
    good: rgb(0, 110, 84),
};

static DARK: Palette = Palette {
    dark: true,
    line_scale: 1.0,
    panel: rgb(27, 32, 38),
    field: rgb(16, 20, 25),
    control: rgb(50, 58, 67),
    control_hovered: rgb(68, 79, 91),
    control_line: rgb(80, 92, 105),
    text: rgb(228, 233, 238),
    text_faint: rgb(158, 168, 178),
    water: rgb(18, 28, 38),
    deck: rgb(47, 52, 57),
    deck_edge: rgb(176, 186, 196),
    grid: Color32::from_rgba_premultiplied(40, 44, 48, 48),
    fixture: rgb(86, 80, 70),
    rack: rgb(66, 74, 82),
    cylinder: rgb(204, 164, 58),
    kit: rgb(22, 36, 52),
    lashing: rgb(214, 146, 222),
    point: rgb(226, 166, 232),
    place: rgb(108, 190, 230),
    walkway: Color32::from_rgba_premultiplied(20, 52, 66, 66),
    person: rgb(74, 124, 142),
    gear: rgb(112, 118, 84),
    line: rgb(196, 204, 212),
    selected: rgb(96, 172, 255),
    danger: rgb(255, 106, 96),
    warning: rgb(255, 156, 60),
    caution: rgb(240, 206, 84),
    notice: rgb(112, 190, 236),
    good: rgb(82, 200, 164),
};

static SUNLIGHT: Palette = Palette {
    dark: false,
    line_scale: 1.8,
    panel: rgb(255, 255, 255),
    field: rgb(255, 255, 255),
    control: rgb(232, 232, 232),
    control_hovered: rgb(255, 232, 120),
    control_line: rgb(0, 0, 0),
    text: rgb(0, 0, 0),
    text_faint: rgb(40, 40, 40),
    water: rgb(220, 232, 242),
    deck: rgb(255, 255, 255),
    deck_edge: rgb(0, 0, 0),
    grid: Color32::from_rgba_premultiplied(40, 40, 40, 60),
    fixture: rgb(208, 208, 208),
    rack: rgb(236, 236, 236),
    cylinder: rgb(255, 222, 60),
    kit: rgb(0, 0, 0),
    lashing: rgb(96, 0, 110),
    point: rgb(96, 0, 110),
    place: rgb(0, 60, 120),
    walkway: Color32::from_rgba_premultiplied(0, 50, 76, 76),
    person: rgb(120, 200, 230),
    gear: rgb(200, 206, 140),
    line: rgb(0, 0, 0),
    selected: rgb(0, 70, 220),
    danger: rgb(176, 0, 0),
    warning: rgb(168, 62, 0),
    caution: rgb(104, 78, 0),
    notice: rgb(0, 66, 118),
    good: rgb(0, 84, 60),
};

impl Palette {
    /// The colour of a signal word.
    pub(crate) fn signal(&self, signal: Signal) -> Color32 {
        match signal {
            Signal::Danger => self.danger,
            Signal::Warning => self.warning,
            Signal::Caution => self.caution,
            Signal::Notice => self.notice,
        }
    }

    /// The colour of how well something holds.
    pub(crate) fn tone(&self, tone: Tone) -> Color32 {
        match tone {
            Tone::Bad => self.danger,
            Tone::Doubtful => self.caution,
            Tone::Good => self.good,
        }
    }

    /// Text or a sign on a ground of a signal colour.
    pub(crate) fn on_signal(&self) -> Color32 {
        if self.dark {
            rgb(12, 14, 18)
        } else {
            Color32::WHITE
        }
    }

    /// A ground under text on the plan, nearly opaque.
    pub(crate) fn label_ground(&self) -> Color32 {
        let [r, g, b, _] = self.panel.to_array();
        Color32::from_rgba_unmultiplied(r, g, b, 236)
    }

    /// The colour, so faint that the plan shows through.
    pub(crate) fn faint(&self, color: Color32) -> Color32 {
        color.gamma_multiply(if self.dark { 0.40 } else { 0.34 })
    }
}

/// Fonts: the proportional one lacks arrows and circles, which the fixed-width one has.
pub(crate) fn fonts() -> egui::FontDefinitions {
    let mut fonts = egui::FontDefinitions::default();
    if let Some(proportional) = fonts.families.get_mut(&FontFamily::Proportional) {
        proportional.push("Hack".to_owned());
    }
    fonts
}

/// Makes the window look so.
pub(crate) fn apply(ctx: &egui::Context, theme: Theme, text_scale: f32, large_targets: bool) {
    let palette = theme.palette();
    let base = if palette.dark {
        egui::Theme::Dark
    } else {
        egui::Theme::Light
    };
    ctx.set_theme(base);
    ctx.style_mut_of(base, |style| {
        style.visuals = visuals(palette);
        let size = |points: f32| points * text_scale;
        style.text_styles = [
            (TextStyle::Small, FontId::proportional(size(11.5))),
            (TextStyle::Body, FontId::proportional(size(13.5))),
            (TextStyle::Button, FontId::proportional(size(13.5))),
            (TextStyle::Heading, FontId::proportional(size(17.0))),
            (TextStyle::Monospace, FontId::monospace(size(12.0))),
        ]
        .into();
        let target = if large_targets { TARGET_LARGE } else { TARGET };
        style.spacing.interact_size = vec2(target * 1.6, target.max(size(20.0)));
        style.spacing.item_spacing = if large_targets {
            vec2(8.0, 8.0)
        } else {
            vec2(6.0, 5.0)
        };
        style.spacing.button_padding = if large_targets {
            vec2(12.0, 8.0)
        } else {
            vec2(7.0, 3.0)
        };
        style.spacing.icon_width = if large_targets { 24.0 } else { 16.0 };
        style.spacing.icon_width_inner = if large_targets { 14.0 } else { 9.0 };
        style.animation_time = 0.0;
    });
}

fn visuals(palette: &Palette) -> Visuals {
    let mut visuals = if palette.dark {
        Visuals::dark()
    } else {
        Visuals::light()
    };
    let line = Stroke::new(palette.line_scale, palette.control_line);
    visuals.panel_fill = palette.panel;
    visuals.window_fill = palette.panel;
    visuals.window_stroke = Stroke::new(palette.line_scale, palette.text_faint);
    visuals.extreme_bg_color = palette.field;
    visuals.faint_bg_color = palette.control;
    visuals.override_text_color = Some(palette.text);
    visuals.weak_text_color = Some(palette.text_faint);
    visuals.hyperlink_color = palette.selected;
    visuals.selection.bg_fill = palette.selected.gamma_multiply(0.32);
    visuals.selection.stroke = Stroke::new(1.5 * palette.line_scale, palette.selected);
    let radius = CornerRadius::same(3);
    let widgets = &mut visuals.widgets;
    for (widget, fill) in [
        (&mut widgets.noninteractive, palette.panel),
        (&mut widgets.inactive, palette.control),
        (&mut widgets.hovered, palette.control_hovered),
        (&mut widgets.active, palette.control_hovered),
        (&mut widgets.open, palette.control_hovered),
    ] {
        widget.bg_fill = fill;
        widget.weak_bg_fill = fill;
        widget.corner_radius = radius;
        widget.bg_stroke = line;
        widget.fg_stroke = Stroke::new(palette.line_scale.max(1.0), palette.text);
        widget.expansion = 0.0;
    }
    let focus = Stroke::new(2.0, palette.selected);
    widgets.hovered.bg_stroke = Stroke::new(palette.line_scale, palette.text_faint);
    widgets.active.bg_stroke = focus;
    visuals
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Contrast ratio of WCAG 2.2, "contrast ratio" and "relative luminance".
    fn contrast(a: Color32, b: Color32) -> f64 {
        let luminance = |color: Color32| {
            let [r, g, b, _] = color.to_array().map(|channel| {
                let share = f64::from(channel) / 255.0;
                if share <= 0.04045 {
                    share / 12.92
                } else {
                    ((share + 0.055) / 1.055).powf(2.4)
                }
            });
            0.2126 * r + 0.7152 * g + 0.0722 * b
        };
        let (high, low) = (
            luminance(a).max(luminance(b)),
            luminance(a).min(luminance(b)),
        );
        (high + 0.05) / (low + 0.05)
    }

    #[test]
    fn text_and_signal_words_can_be_read() {
        for theme in Theme::ALL {
            let palette = theme.palette();
            // WCAG 2.2, success criterion 1.4.3 (AA): 4.5 to 1; 1.4.6 (AAA): 7 to 1.
            let least = if theme == Theme::Sunlight { 7.0 } else { 4.5 };
            for (name, color) in [
                ("text", palette.text),
                ("faint text", palette.text_faint),
                ("danger", palette.danger),
                ("notice", palette.notice),
                ("good", palette.good),
            ] {
                let ratio = contrast(color, palette.panel);
                assert!(ratio >= least, "{theme:?}: {name} {ratio:.2}");
            }
            // Large and bold signs, WCAG 2.2, 1.4.11: 3 to 1.
            for signal in [Signal::Warning, Signal::Caution] {
                let ratio = contrast(palette.signal(signal), palette.panel);
                assert!(ratio >= 3.0, "{theme:?}: {signal} {ratio:.2}");
                let ratio = contrast(palette.signal(signal), palette.on_signal());
                assert!(ratio >= 3.0, "{theme:?}: on {signal} {ratio:.2}");
            }
        }
    }
}
