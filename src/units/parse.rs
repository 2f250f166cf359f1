use super::{Quantity, System, table};

/// Why a text is no quantity.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ParseError {
    /// There is no number in it.
    #[error("{0:?} is no number")]
    NoNumber(String),

    /// One of several parts has no unit: `2 ft 6` could be anything.
    #[error("{0:?}: each part needs its unit, as in 2 ft 6 in")]
    PartWithoutUnit(String),

    /// The unit is not one of this quantity.
    #[error("{unit:?} is no unit here; write {wanted}")]
    WrongUnit {
        /// What was written.
        unit: String,
        /// What could be written.
        wanted: String,
    },
}

/// Reads a quantity, in its base unit.
///
/// A number alone is in the unit that `system` shows. Parts add up (`2 ft 6 in`), each with its unit, the
/// first one's sign counting for all; a comma may stand for the point; halves may be written `6 1/2 in`.
pub fn parse(text: &str, quantity: Quantity, system: System) -> Result<f64, ParseError> {
    let no_number = || ParseError::NoNumber(text.trim().to_owned());
    let mut rest = text.trim();
    let negative = rest.starts_with(['-', '−']);
    rest = rest.trim_start_matches(['-', '−', '+']).trim_start();
    if rest.is_empty() {
        return Err(no_number());
    }
    let mut total = 0.0;
    let (mut parts, mut bare_parts) = (0, 0);
    while !rest.is_empty() {
        let (value, after) = number(rest).ok_or_else(no_number)?;
        let end = after
            .char_indices()
            .find(|(i, c)| c.is_ascii_digit() && !is_exponent(after, *i))
            .map_or(after.len(), |(i, _)| i);
        let (word, next) = after.split_at(end);
        total += value * in_base(word.trim(), quantity, system)?;
        parts += 1;
        bare_parts += usize::from(word.trim().is_empty());
        rest = next.trim();
    }
    if parts > 1 && bare_parts > 0 {
        return Err(ParseError::PartWithoutUnit(text.trim().to_owned()));
    }
    if total.is_finite() {
        Ok(if negative { -total } else { total })
    } else {
        Err(no_number())
    }
}

/// Is this digit part of a unit, as in `kg/m2`?
fn is_exponent(text: &str, index: usize) -> bool {
    let before = text[..index].chars().next_back();
    before.is_some_and(char::is_alphabetic)
}

fn in_base(word: &str, quantity: Quantity, system: System) -> Result<f64, ParseError> {
    if word.is_empty() {
        return Ok(table::shown(quantity, system).in_base);
    }
    let lower = word.to_lowercase();
    let units = table::units(quantity);
    let found = units
        .iter()
        .find(|unit| unit.spellings.contains(&lower.as_str()));
    found.map(|unit| unit.in_base).ok_or_else(|| {
        let symbols: Vec<&str> = units.iter().map(|unit| unit.symbol).collect();
        ParseError::WrongUnit {
            unit: word.to_owned(),
            wanted: symbols.join(", "),
        }
    })
}

/// A number at the start of the text, with a fraction behind it if there is one, and what follows.
fn number(text: &str) -> Option<(f64, &str)> {
    let (first, after) = plain(text)?;
    if let Some(below) = after.strip_prefix('/') {
        let (second, after) = plain(below)?;
        return Some((first / second, after));
    }
    // "6 1/2": a whole number and a fraction.
    if let Some(next) = after.strip_prefix(' ')
        && let Some((above, tail)) = plain(next.trim_start())
        && let Some(below) = tail.strip_prefix('/')
        && let Some((below, tail)) = plain(below)
    {
        return Some((first + above / below, tail));
    }
    Some((first, after))
}

fn plain(text: &str) -> Option<(f64, &str)> {
    let end = text
        .find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',')
        .unwrap_or(text.len());
    let (digits, rest) = text.split_at(end);
    let value = digits.replace(',', ".").parse().ok()?;
    Some((value, rest))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_people_write_is_understood() {
        use Quantity::{Force, Length, Mass, Pressure, SmallLength};
        let cases = [
            ("0.58", Length, System::Metric, 0.58),
            ("0,58 m", Length, System::Us, 0.58),
            ("58 cm", Length, System::Metric, 0.58),
            ("2 ft 6 in", Length, System::Metric, 0.762),
            ("2' 6 1/2\"", Length, System::Metric, 0.7747),
            ("-1/2 in", Length, System::Metric, -0.0127),
            ("3000 psi", Pressure, System::Metric, 206.843),
            ("200", Pressure, System::Metric, 200.0),
            ("3000", Pressure, System::Us, 206.843),
            ("7.25 in", SmallLength, System::Metric, 0.18415),
            ("31.3 lb", Mass, System::Metric, 14.197),
            ("120 kg", Force, System::Metric, 1.1768),
            ("1.2 kN", Force, System::Us, 1.2),
            ("300 kg/m2", Quantity::AreaLoad, System::Metric, 300.0),
        ];
        for (text, quantity, system, expected) in cases {
            let value = parse(text, quantity, system).unwrap();
            assert!((value - expected).abs() < 6e-4, "{text}: {value}");
        }
    }

    #[test]
    fn what_is_no_quantity_is_refused() {
        for text in ["", "-", "abc", "m 5", "1..2", "5 /", "2 ft 6", "5 6"] {
            assert!(
                parse(text, Quantity::Length, System::Metric).is_err(),
                "{text}"
            );
        }
        let err = parse("5 bar", Quantity::Length, System::Metric).unwrap_err();
        assert_eq!(
            err.to_string(),
            "\"bar\" is no unit here; write m, ft, in, mm, cm"
        );
    }
}
