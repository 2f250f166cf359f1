//! Names of breathing gases as crews write them.

use crate::mechanics::gas::{Gas, Mixture};

/// Ways in which a gas can be written, for messages.
pub const EXAMPLES: [&str; 7] = [
    "air",
    "oxygen",
    "nitrox 32",
    "trimix 18/45",
    "heliox 20/80",
    "helium",
    "argon",
];

/// Why a text is no gas.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum GasTextError {
    /// The name is not known.
    #[error("{text:?} is no gas known here; write one as in \"{nearest}\"")]
    Unknown {
        /// What was written.
        text: String,
        /// The most similar example.
        nearest: &'static str,
    },
    /// The figures cannot be a mixture.
    #[error("{text:?}: {why}")]
    Parts {
        /// What was written.
        text: String,
        /// What is wrong with the figures.
        why: &'static str,
    },
}

/// Reads a gas: `air`, `oxygen`, `nitrox 32`, `EAN36`, `trimix 18/45`, `18/45`, `heliox 20/80`,
/// `helium`, `nitrogen`, `argon`; capitals, spaces and a percent sign do not matter.
///
/// In a mixture the first figure is oxygen, the second helium, both in percent.
pub fn parse(text: &str) -> Result<Gas, GasTextError> {
    let plain: String = text
        .to_lowercase()
        .chars()
        .filter(|c| !c.is_whitespace() && !matches!(c, '%' | '-' | '_'))
        .collect();
    match plain.as_str() {
        "air" => return Ok(Gas::Air),
        "oxygen" | "o2" => return Ok(Gas::OXYGEN),
        "nitrogen" | "n2" => return pure(text, [0.0, 1.0, 0.0, 0.0]),
        "helium" | "he" => return pure(text, [0.0, 0.0, 1.0, 0.0]),
        "argon" | "ar" => return pure(text, [0.0, 0.0, 0.0, 1.0]),
        _ => {}
    }
    for prefix in ["nitrox", "eanx", "ean"] {
        if let Some(figure) = plain.strip_prefix(prefix) {
            return nitrox(text, figure);
        }
    }
    let heliox = plain.strip_prefix("heliox");
    let figures = heliox
        .or_else(|| plain.strip_prefix("trimix"))
        .unwrap_or(&plain);
    if let Some((oxygen, helium)) = figures.split_once('/') {
        return with_helium(text, oxygen, helium, heliox.is_some());
    }
    Err(unknown(text))
}

fn nitrox(text: &str, figure: &str) -> Result<Gas, GasTextError> {
    let oxygen = percent(text, figure)?;
    if oxygen < 0.21 {
        return Err(parts(text, "nitrox holds at least 21 % oxygen"));
    }
    mixture(text, oxygen, 0.0)
}

fn with_helium(text: &str, oxygen: &str, helium: &str, heliox: bool) -> Result<Gas, GasTextError> {
    let (oxygen, helium) = (percent(text, oxygen)?, percent(text, helium)?);
    // Figures are whole percent: half a percent is rounding, more is a slip.
    if heliox && (oxygen + helium - 1.0).abs() > 0.005 {
        return Err(parts(text, "oxygen and helium of heliox add up to 100"));
    }
    mixture(text, oxygen, helium)
}

fn mixture(text: &str, oxygen: f64, helium: f64) -> Result<Gas, GasTextError> {
    Mixture::with_rest_nitrogen(oxygen, helium)
        .map(Gas::Mixture)
        .map_err(|_not_a_mixture| parts(text, "oxygen and helium add up to more than 100"))
}

fn pure(text: &str, [oxygen, nitrogen, helium, argon]: [f64; 4]) -> Result<Gas, GasTextError> {
    Mixture::new(oxygen, nitrogen, helium, argon)
        .map(Gas::Mixture)
        .map_err(|_not_a_mixture| unknown(text))
}

fn percent(text: &str, figure: &str) -> Result<f64, GasTextError> {
    let value: f64 = figure
        .parse()
        .map_err(|_not_a_number| parts(text, "a figure in percent is missing"))?;
    if (0.0..=100.0).contains(&value) {
        Ok(value / 100.0)
    } else {
        Err(parts(text, "a figure must lie between 0 and 100"))
    }
}

fn parts(text: &str, why: &'static str) -> GasTextError {
    GasTextError::Parts {
        text: text.to_owned(),
        why,
    }
}

fn unknown(text: &str) -> GasTextError {
    let lower = text.to_lowercase();
    let mut nearest = (EXAMPLES[0], 0.0);
    for example in EXAMPLES {
        let similarity = strsim::jaro_winkler(&lower, example);
        if similarity > nearest.1 {
            nearest = (example, similarity);
        }
    }
    GasTextError::Unknown {
        text: text.to_owned(),
        nearest: nearest.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fractions(text: &str) -> (f64, f64) {
        match parse(text).unwrap() {
            Gas::Air => (0.21, 0.0),
            Gas::Mixture(mixture) => (mixture.oxygen(), mixture.helium()),
        }
    }

    #[test]
    fn gases_are_read_as_crews_write_them() {
        assert_eq!(parse("Air"), Ok(Gas::Air));
        assert_eq!(parse(" OXYGEN "), Ok(Gas::OXYGEN));
        for text in ["nitrox 32", "Nitrox32", "EAN 32", "EANx32%", "nitrox-32"] {
            let (oxygen, helium) = fractions(text);
            assert!((oxygen - 0.32).abs() < 1e-12 && helium == 0.0, "{text}");
        }
        for text in ["trimix 18/45", "18/45", "TRIMIX18/45", "trimix 18 / 45 %"] {
            let (oxygen, helium) = fractions(text);
            assert!((oxygen - 0.18).abs() < 1e-12, "{text}");
            assert!((helium - 0.45).abs() < 1e-12, "{text}");
        }
        let (oxygen, helium) = fractions("heliox 20/80");
        assert!((oxygen - 0.2).abs() < 1e-12 && (helium - 0.8).abs() < 1e-12);
    }

    #[test]
    fn what_is_no_gas_is_told() {
        let message = |text: &str| parse(text).unwrap_err().to_string();
        assert!(
            message("oxigen").contains("\"oxygen\""),
            "{}",
            message("oxigen")
        );
        assert!(
            message("trimx 18").contains("trimix"),
            "{}",
            message("trimx 18")
        );
        assert!(message("nitrox").contains("missing"));
        assert!(message("nitrox 320").contains("between 0 and 100"));
        assert!(message("nitrox 18").contains("at least 21"));
        assert!(message("trimix 60/50").contains("more than 100"));
        assert!(message("heliox 20/70").contains("add up to 100"));
        assert!(message("nitrox nan").contains("between 0 and 100"));
        assert!(message("").contains("no gas"));
    }
}
