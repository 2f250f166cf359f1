//! Sentences whose numbers are still numbers: they can be read in metric or in US units.
//!
//! Whoever writes a sentence puts a [`Figure`] into it by `format!`, as if it were text. In the string it
//! is a short mark with the exact value; [`Said::from`] takes the marks out and remembers where the numbers
//! stand. A [`Said`] reads in metric wherever it is used as text, and [`Said::show`] gives it in the units
//! that the reader has chosen.

use std::borrow::Cow;
use std::cmp::Ordering;
use std::fmt;
use std::ops::{Deref, Range};

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Serialize, Serializer};

use super::{System, feet_and_inches};

/// Begin and end of a mark: characters for private use, which no name of a thing has.
const BEGIN: char = '\u{F8D0}';
const END: char = '\u{F8D1}';

/// One inch and one pound, exact (NIST Special Publication 811, appendix B.8).
const INCH_M: f64 = 0.0254;
const POUND_KG: f64 = 0.453_592_37;
/// Standard gravity, exact (CGPM 1901).
const GRAVITY: f64 = 9.806_65;
/// One foot-pound force in joules (NIST Special Publication 811, appendix B.8).
const FOOT_POUND_J: f64 = 1.355_817_948;

/// A number in a sentence, with what it is of.
#[derive(Copy, Clone, Debug, PartialEq)]
pub enum Figure {
    /// A length in metres: `0.44 m`, `42 mm`; `1 ft 5 1/2 in`, `1.7 in`.
    Length(f64),
    /// A length in metres rounded up, so that doing it is enough.
    LengthUp(f64),
    /// A small length in metres, always in `mm` or `in`.
    Thickness(f64),
    /// A mass in kilograms: `42 kg`; `93 lb`.
    Mass(f64),
    /// A force in newtons that pulls: `42 kg of pull (0.41 kN)`; `93 lb of pull (0.41 kN)`.
    Pull(f64),
    /// A force in newtons that presses or weighs: `42 kg (0.41 kN)`; `93 lb (0.41 kN)`.
    Weight(f64),
    /// An area in square metres: `1.4 m²`; `15 sq ft`.
    Area(f64),
    /// A load on an area, in kilograms per square metre: `300 kg/m²`; `61 lb/ft²`.
    AreaLoad(f64),
    /// An energy in joules: `85 J`; `63 ft·lb`.
    Energy(f64),
    /// A rise as a share of the length along the floor: `35 cm over one metre`; `4.2 in over one foot`.
    Rise(f64),
}

impl Figure {
    /// As it is read in these units.
    pub fn show(self, system: System) -> String {
        match system {
            System::Metric => self.metric(),
            System::Us => self.us(),
        }
    }

    fn metric(self) -> String {
        match self {
            Self::Length(m) if m.abs() < 0.0995 => format!("{:.0} mm", m * 1000.0),
            Self::Length(m) => format!("{m:.2} m"),
            Self::LengthUp(m) => format!("{:.2} m", (m.abs() * 100.0 - 1e-6).ceil() / 100.0),
            Self::Thickness(m) => format!("{:.0} mm", m * 1000.0),
            Self::Mass(kg) => mass(kg, "kg"),
            Self::Pull(newtons) => {
                format!(
                    "{} of pull ({})",
                    mass(newtons / GRAVITY, "kg"),
                    kn(newtons)
                )
            }
            Self::Weight(newtons) => format!("{} ({})", mass(newtons / GRAVITY, "kg"), kn(newtons)),
            Self::Area(m2) => format!("{m2:.1} m²"),
            Self::AreaLoad(load) => format!("{load:.0} kg/m²"),
            Self::Energy(joules) => format!("{joules:.0} J"),
            Self::Rise(share) => format!("{:.0} cm over one metre", (share * 100.0).ceil()),
        }
    }

    fn us(self) -> String {
        let pounds = |kg: f64| mass(kg / POUND_KG, "lb");
        match self {
            Self::Length(m) if m.abs() < 12.0 * INCH_M => format!("{:.1} in", m / INCH_M),
            Self::Length(m) => feet_and_inches(m),
            Self::LengthUp(m) => {
                let half_inches = (m.abs() / INCH_M * 2.0 - 1e-6).ceil();
                feet_and_inches(half_inches * INCH_M / 2.0)
            }
            Self::Thickness(m) => format!("{:.2} in", m / INCH_M),
            Self::Mass(kg) => pounds(kg),
            Self::Pull(newtons) => {
                format!("{} of pull ({})", pounds(newtons / GRAVITY), kn(newtons))
            }
            Self::Weight(newtons) => format!("{} ({})", pounds(newtons / GRAVITY), kn(newtons)),
            Self::Area(m2) => format!("{:.0} sq ft", m2 / (144.0 * INCH_M * INCH_M)),
            Self::AreaLoad(load) => {
                format!("{:.0} lb/ft²", load / POUND_KG * 144.0 * INCH_M * INCH_M)
            }
            Self::Energy(joules) => format!("{:.0} ft·lb", joules / FOOT_POUND_J),
            Self::Rise(share) => format!("{:.1} in over one foot", (share * 120.0).ceil() / 10.0),
        }
    }

    fn letter_and_value(self) -> (char, f64) {
        match self {
            Self::Length(v) => ('l', v),
            Self::LengthUp(v) => ('u', v),
            Self::Thickness(v) => ('t', v),
            Self::Mass(v) => ('m', v),
            Self::Pull(v) => ('p', v),
            Self::Weight(v) => ('w', v),
            Self::Area(v) => ('a', v),
            Self::AreaLoad(v) => ('d', v),
            Self::Energy(v) => ('e', v),
            Self::Rise(v) => ('r', v),
        }
    }

    /// The figure of the inside of a mark.
    fn of_mark(inside: &str) -> Option<Self> {
        let mut chars = inside.chars();
        let letter = chars.next()?;
        let value = f64::from_bits(u64::from_str_radix(chars.as_str(), 16).ok()?);
        let make = match letter {
            'l' => Self::Length,
            'u' => Self::LengthUp,
            't' => Self::Thickness,
            'm' => Self::Mass,
            'p' => Self::Pull,
            'w' => Self::Weight,
            'a' => Self::Area,
            'd' => Self::AreaLoad,
            'e' => Self::Energy,
            'r' => Self::Rise,
            _ => return None,
        };
        Some(make(value))
    }
}

/// The mark that [`Said::from`] understands.
impl fmt::Display for Figure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (letter, value) = self.letter_and_value();
        write!(f, "{BEGIN}{letter}{:x}{END}", value.to_bits())
    }
}

/// `42 kg`; one decimal below ten.
fn mass(value: f64, unit: &str) -> String {
    if value.abs() < 9.95 {
        format!("{value:.1} {unit}")
    } else {
        format!("{value:.0} {unit}")
    }
}

/// `0.41 kN`.
/// A force of next to nothing is no force of nothing.
pub(super) fn kn(newtons: f64) -> String {
    if newtons > 0.0 && newtons < 5.0 {
        "less than 0.01 kN".to_owned()
    } else {
        format!("{:.2} kN", newtons / 1000.0)
    }
}

/// A sentence whose numbers are still numbers. As text it is metric; two are equal if their texts are.
#[derive(Clone, Default)]
pub struct Said {
    text: String,
    figures: Vec<(Range<usize>, Figure)>,
}

impl Said {
    /// In metric units.
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// In these units.
    pub fn show(&self, system: System) -> Cow<'_, str> {
        if system == System::Metric {
            return Cow::Borrowed(&self.text);
        }
        let mut shown = String::with_capacity(self.text.len());
        let mut from = 0;
        for (place, figure) in &self.figures {
            shown.push_str(&self.text[from..place.start]);
            shown.push_str(&figure.show(system));
            from = place.end;
        }
        shown.push_str(&self.text[from..]);
        Cow::Owned(shown)
    }

    /// With this behind it, whose numbers stay numbers too.
    #[must_use]
    pub fn with(mut self, more: impl Into<Self>) -> Self {
        let more = more.into();
        let shift = self.text.len();
        self.text.push_str(&more.text);
        let shifted = more.figures.into_iter();
        let shifted =
            shifted.map(|(place, figure)| (place.start + shift..place.end + shift, figure));
        self.figures.extend(shifted);
        self
    }

    /// All of them in a row, with this between them.
    pub fn joined<'a>(all: impl IntoIterator<Item = &'a Self>, between: &str) -> Self {
        let mut joined: Option<Self> = None;
        for one in all {
            joined = Some(match joined {
                Some(joined) => joined.with(between).with(one.clone()),
                None => one.clone(),
            });
        }
        joined.unwrap_or_default()
    }
}

impl From<String> for Said {
    fn from(marked: String) -> Self {
        if !marked.contains(BEGIN) {
            return Self {
                text: marked,
                figures: Vec::new(),
            };
        }
        let mut said = Self::default();
        let mut rest = marked.as_str();
        while let Some((before, after)) = rest.split_once(BEGIN) {
            said.text.push_str(before);
            let found = after
                .split_once(END)
                .and_then(|(inside, behind)| Some((Figure::of_mark(inside)?, behind)));
            if let Some((figure, behind)) = found {
                let from = said.text.len();
                said.text.push_str(&figure.metric());
                said.figures.push((from..said.text.len(), figure));
                rest = behind;
            } else {
                // Somebody's own text, left as it is.
                said.text.push(BEGIN);
                rest = after;
            }
        }
        said.text.push_str(rest);
        said
    }
}

impl From<&str> for Said {
    fn from(marked: &str) -> Self {
        Self::from(marked.to_owned())
    }
}

impl Deref for Said {
    type Target = str;

    fn deref(&self) -> &str {
        &self.text
    }
}

impl AsRef<str> for Said {
    fn as_ref(&self) -> &str {
        &self.text
    }
}

impl fmt::Display for Said {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.text)
    }
}

impl fmt::Debug for Said {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&self.text, f)
    }
}

impl PartialEq for Said {
    fn eq(&self, other: &Self) -> bool {
        self.text == other.text
    }
}

impl Eq for Said {}

impl PartialOrd for Said {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Said {
    fn cmp(&self, other: &Self) -> Ordering {
        self.text.cmp(&other.text)
    }
}

impl PartialEq<str> for Said {
    fn eq(&self, other: &str) -> bool {
        self.text == other
    }
}

impl PartialEq<&str> for Said {
    fn eq(&self, other: &&str) -> bool {
        self.text == *other
    }
}

impl Serialize for Said {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

impl JsonSchema for Said {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Said".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        String::json_schema(generator)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_sentence_reads_in_both_units() {
        let said = Said::from(format!(
            "only {} wide where {} are wanted; it pulls with {}",
            Figure::Length(0.52),
            Figure::Length(0.61),
            Figure::Pull(411.9),
        ));
        let metric =
            "only 0.52 m wide where 0.61 m are wanted; it pulls with 42 kg of pull (0.41 kN)";
        assert_eq!(said, metric);
        assert_eq!(said.show(System::Metric), metric);
        assert_eq!(
            said.show(System::Us),
            "only 1 ft 8 1/2 in wide where 2 ft 0 in are wanted; it pulls with 93 lb of pull (0.41 kN)"
        );
    }

    /// Factors of NIST Special Publication 811 (2008), appendix B.8, applied by hand.
    #[test]
    fn each_figure_in_both_units() {
        let cases = [
            (Figure::Length(0.042), "42 mm", "1.7 in"),
            (Figure::Length(0.44), "0.44 m", "1 ft 5 1/2 in"),
            (Figure::LengthUp(0.1201), "0.13 m", "5 in"),
            (Figure::LengthUp(-0.127), "0.13 m", "5 in"),
            (Figure::Thickness(0.012), "12 mm", "0.47 in"),
            (Figure::Mass(14.2), "14 kg", "31 lb"),
            (Figure::Weight(49.03), "5.0 kg (0.05 kN)", "11 lb (0.05 kN)"),
            (
                Figure::Pull(3.9),
                "0.4 kg of pull (less than 0.01 kN)",
                "0.9 lb of pull (less than 0.01 kN)",
            ),
            (Figure::Weight(0.0), "0.0 kg (0.00 kN)", "0.0 lb (0.00 kN)"),
            (Figure::Area(1.4), "1.4 m²", "15 sq ft"),
            (Figure::AreaLoad(300.0), "300 kg/m²", "61 lb/ft²"),
            (Figure::Energy(85.0), "85 J", "63 ft·lb"),
            (
                Figure::Rise(0.346),
                "35 cm over one metre",
                "4.2 in over one foot",
            ),
        ];
        for (figure, metric, us) in cases {
            assert_eq!(figure.show(System::Metric), metric);
            assert_eq!(figure.show(System::Us), us);
            assert_eq!(Said::from(figure.to_string()), metric);
        }
    }

    #[test]
    fn sentences_are_put_together_without_losing_their_numbers() {
        let first = Said::from(format!("Chock of {}", Figure::Thickness(0.05)));
        let both = Said::joined([&first, &first.clone().with("; then push")], ", ");
        assert_eq!(both, "Chock of 50 mm, Chock of 50 mm; then push");
        assert_eq!(
            both.show(System::Us),
            "Chock of 1.97 in, Chock of 1.97 in; then push"
        );
    }

    #[test]
    fn a_mark_that_is_none_stays_as_it_is() {
        for text in [
            "\u{F8D0}",
            "a\u{F8D0}lzz\u{F8D1}b",
            "\u{F8D0}q0\u{F8D1}",
            "\u{F8D1}\u{F8D0}",
        ] {
            let said = Said::from(text);
            assert_eq!(said, text);
            assert_eq!(said.show(System::Us), text);
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]
        #[test]
        fn whatever_stands_round_a_number_stays(before in "\\PC{0,12}", after in "\\PC{0,12}", m in -40.0..40.0_f64) {
            let figure = Figure::Length(m);
            let said = Said::from(format!("{before}{figure}{after}"));
            for system in [System::Metric, System::Us] {
                let wanted = format!("{before}{}{after}", figure.show(system));
                prop_assert_eq!(said.show(system), wanted);
            }
        }
    }
}
