//! Quantities at the edges: how a number is shown in metric or US units, and how what a person types
//! is understood (`3000 psi`, `2 ft 6 in`, `0,58`).
//!
//! Inside the program nothing is in US units. Each [`Quantity`] has one base unit, the one that the
//! layout file uses; conversions are those of NIST Special Publication 811 (2008), appendix B.

mod parse;
mod said;
mod table;

pub use self::parse::{ParseError, parse};
pub use self::said::{Figure, Said};

use self::table::Unit;

/// Which units are shown.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub enum System {
    /// Metres, kilograms, bar.
    #[default]
    Metric,
    /// Feet and inches, pounds, psi.
    Us,
}

/// What a number is of, with its base unit.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// A length on deck, in metres.
    Length,
    /// A length of a thing that is measured with a rule, in metres; shown in mm or inches.
    SmallLength,
    /// A mass, in kilograms.
    Mass,
    /// A force, in kilonewtons; shown as the mass that pulls as hard.
    Force,
    /// A pressure on the gauge, in bar.
    Pressure,
    /// An angle, in degrees.
    Angle,
    /// A short time, in seconds.
    Time,
    /// A long time, in hours.
    Hours,
    /// Water capacity, in litres.
    Volume,
    /// A load on an area, in kilograms per square metre.
    AreaLoad,
    /// Energy, in joules.
    Energy,
    /// An acceleration, as a share of gravity.
    Gravity,
    /// How much force a length of stretch takes, in kilonewtons per metre.
    Stiffness,
    /// A number without a unit.
    Plain,
}

impl Quantity {
    /// The unit in which it is shown and in which a bare number is understood.
    fn unit(self, system: System) -> &'static Unit {
        table::shown(self, system)
    }

    /// The symbol of the unit in which it is shown.
    pub fn symbol(self, system: System) -> &'static str {
        self.unit(system).symbol
    }

    /// With its unit: `0.58 m`, `1 ft 11 in`, `120 kg of pull`.
    pub fn show(self, value: f64, system: System) -> String {
        if !value.is_finite() {
            return "∞".to_owned();
        }
        if self == Self::Length && system == System::Us {
            return feet_and_inches(value);
        }
        let unit = self.unit(system);
        let number = self.number(value, system);
        match unit.symbol {
            "" => number,
            "°" => format!("{number}°"),
            symbol => format!("{number} {symbol}"),
        }
    }

    /// The bare number in the unit in which it is shown.
    pub fn number(self, value: f64, system: System) -> String {
        let unit = self.unit(system);
        let shown = value / unit.in_base;
        let text = format!("{shown:.*}", unit.decimals);
        // "-0.00" would be read as something other than nothing.
        if text.trim_start_matches(['-', '0', '.']).is_empty() {
            text.trim_start_matches('-').to_owned()
        } else {
            text
        }
    }

    /// One step of the number shown, in the base unit: for dragging and arrow keys.
    pub fn step(self, system: System) -> f64 {
        let unit = self.unit(system);
        unit.in_base * unit.step
    }
}

/// A force in newtons, in kg of pull first and kN behind; a force without end is more than any.
pub fn pull(newtons: f64, system: System) -> String {
    let kn = newtons / 1000.0;
    if !kn.is_finite() {
        return "more than any".to_owned();
    }
    format!(
        "{} ({})",
        Quantity::Force.show(kn, system),
        said::kn(newtons)
    )
}

/// `2 ft 6 1/2 in` to the half inch; an inch is 25.4 mm and 12 make a foot.
fn feet_and_inches(metres: f64) -> String {
    let half_inches = (metres.abs() / 0.0254 * 2.0).round();
    let feet = (half_inches / 24.0).floor();
    let rest = half_inches - 24.0 * feet;
    let inches = (rest / 2.0).floor();
    let half = if rest - 2.0 * inches > 0.5 {
        " 1/2"
    } else {
        ""
    };
    let sign = if metres < 0.0 && half_inches > 0.0 {
        "-"
    } else {
        ""
    };
    let inches = match (inches > 0.0, half) {
        (false, "") => "0 in".to_owned(),
        (false, _) => "1/2 in".to_owned(),
        (true, half) => format!("{inches:.0}{half} in"),
    };
    if feet > 0.0 {
        format!("{sign}{feet:.0} ft {inches}")
    } else {
        format!("{sign}{inches}")
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn numbers_are_shown_in_the_trades_units() {
        use Quantity::{Angle, Force, Length, Mass, Pressure, SmallLength};
        let cases = [
            (Length, 0.58, "0.58 m", "1 ft 11 in"),
            (Length, -0.762, "-0.76 m", "-2 ft 6 in"),
            (SmallLength, 0.1842, "184 mm", "7.25 in"),
            (Mass, 14.2, "14.2 kg", "31.3 lb"),
            (Force, 1.1768, "120 kg of pull", "265 lb of pull"),
            (Pressure, 206.84, "207 bar", "3000 psi"),
            (Angle, 8.35, "8.3°", "8.3°"),
            (Length, -0.0001, "0.00 m", "0 in"),
        ];
        for (quantity, value, metric, us) in cases {
            assert_eq!(quantity.show(value, System::Metric), metric);
            assert_eq!(quantity.show(value, System::Us), us);
        }
    }

    #[test]
    fn forces_have_kilonewtons_behind() {
        assert_eq!(pull(1176.8, System::Metric), "120 kg of pull (1.18 kN)");
        assert_eq!(pull(f64::INFINITY, System::Metric), "more than any");
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]
        #[test]
        fn what_is_shown_can_be_typed(value in -500.0..500.0_f64, us in any::<bool>(), index in 0..14_usize) {
            let quantity = table::ALL[index];
            let system = if us { System::Us } else { System::Metric };
            let text = quantity.show(value, system);
            let back = parse(&text, quantity, system).unwrap();
            let unit = quantity.unit(system);
            // Half of the last digit shown; US lengths are shown to the half inch.
            let last = if quantity == Quantity::Length && us {
                0.0127
            } else {
                (0..unit.decimals).fold(unit.in_base, |size, _| size / 10.0)
            };
            prop_assert!((back - value).abs() <= 0.5001 * last, "{text} gave {back}, not {value}");
        }
    }
}
