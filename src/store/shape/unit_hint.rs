//! Which unit a number was probably meant in, when it cannot be in the one it stands in.

/// The units that field names end in, longest first where one ends in the other.
const UNITS: &[(&str, &str)] = &[
    ("_kg_per_m2", "kg/m²"),
    ("_kn_per_m", "kN/m"),
    ("_kg_m2", "kg·m²"),
    ("_m_per_s2", "m/s²"),
    ("_m_per_s", "m/s"),
    ("_rad", "rad"),
    ("_bar", "bar"),
    ("_deg", "°"),
    ("_min", "min"),
    ("_kmh", "km/h"),
    ("_m2", "m²"),
    ("_m3", "m³"),
    ("_mm", "mm"),
    ("_kg", "kg"),
    ("_kn", "kN"),
    ("_hz", "Hz"),
    ("_n", "N"),
    ("_j", "J"),
    ("_m", "m"),
    ("_s", "s"),
    ("_h", "h"),
    ("_l", "L"),
    ("_g", "g"),
    ("_t", "t"),
    ("_c", "°C"),
];

/// The unit that a field's name ends in.
pub(super) fn unit_of(field: &str) -> Option<&'static str> {
    let ending = UNITS.iter().find(|(ending, _)| field.ends_with(ending));
    ending.map(|(_, unit)| *unit)
}

/// What else a number in a field of some unit may have been measured in, and how many of the
/// field's unit go into one of it, the likeliest first. Exact by definition (ISO 80000, NIST SP
/// 811 appendix B) unless rounded as shown.
fn others(unit: &str) -> &'static [(&'static str, f64)] {
    const FOOT: f64 = 0.3048;
    const POUND: f64 = 0.45359237;
    const GRAVITY: f64 = 9.80665;
    const PSI_IN_BAR: f64 = 0.06894757;
    match unit {
        "bar" => &[
            ("psi", PSI_IN_BAR),
            ("kPa", 0.01),
            ("MPa", 10.0),
            ("hPa", 0.001),
        ],
        "m" => &[
            ("mm", 0.001),
            ("cm", 0.01),
            ("ft", FOOT),
            ("in", FOOT / 12.0),
        ],
        "mm" => &[("m", 1000.0), ("cm", 10.0), ("in", 25.4)],
        "kg" => &[("g", 0.001), ("t", 1000.0), ("lb", POUND)],
        "t" => &[("kg", 0.001)],
        "kN" => &[
            ("kg of pull", GRAVITY / 1000.0),
            ("N", 0.001),
            ("daN", 0.01),
            ("lbf", POUND * GRAVITY / 1000.0),
        ],
        "N" => &[("kN", 1000.0), ("kg of pull", GRAVITY)],
        "L" => &[("mL", 0.001), ("m³", 1000.0)],
        "s" => &[("ms", 0.001), ("min", 60.0)],
        "g" => &[("m/s²", 1.0 / GRAVITY)],
        "kg/m²" => &[("kN/m²", 1000.0 / GRAVITY), ("lb/ft²", POUND / FOOT / FOOT)],
        "m/s" => &[("kn", 1852.0 / 3600.0), ("km/h", 1.0 / 3.6)],
        // A share, a friction coefficient: no unit at all.
        "" => &[("per cent", 0.01)],
        _ => &[],
    }
}

/// `is it psi? 3000 psi = 207 bar`, for a number that does not fit its field but would, had it
/// been measured in another unit.
pub(super) fn other_unit(
    written: &str,
    value: f64,
    unit: &str,
    fits: impl Fn(f64) -> bool,
) -> Option<String> {
    if value == 0.0 {
        return None;
    }
    let (other, factor) = others(unit)
        .iter()
        .find(|(_, factor)| fits(value * factor))?;
    let converted = three_digits(value * factor);
    let gap = if unit.is_empty() || unit == "°" {
        ""
    } else {
        " "
    };
    Some(format!(
        "is it {other}? {written} {other} = {converted}{gap}{unit}"
    ))
}

/// A number to three significant digits, without an exponent.
fn three_digits(value: f64) -> String {
    let rounded: f64 = format!("{value:.2e}").parse().unwrap_or(value);
    format!("{rounded}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_unit_is_read_from_the_name() {
        for (field, unit) in [
            ("mass_kg", Some("kg")),
            ("load_limit_kg_per_m2", Some("kg/m²")),
            ("fill_bar", Some("bar")),
            ("bore_mm", Some("mm")),
            ("beam_m", Some("m")),
            ("heave_g", Some("g")),
            ("roll_amplitude_deg", Some("°")),
            ("speed_m_per_s", Some("m/s")),
            ("friction", None),
            ("number", None),
            ("m", None),
        ] {
            assert_eq!(unit_of(field), unit, "{field}");
        }
    }

    /// The conversions are those of NIST SP 811 (2008), appendix B.8, to three digits.
    #[test]
    fn a_number_in_another_unit_is_recognised() {
        for (written, unit, least, most, hint) in [
            ("3000", "bar", 0.0, 350.0, "is it psi? 3000 psi = 207 bar"),
            ("20000", "bar", 0.0, 350.0, "is it kPa? 20000 kPa = 200 bar"),
            ("184", "m", 0.0, 2.0, "is it mm? 184 mm = 0.184 m"),
            ("460", "m", 0.5, 60.0, "is it cm? 460 cm = 4.6 m"),
            ("38", "m", 0.5, 30.0, "is it ft? 38 ft = 11.6 m"),
            ("0.7", "mm", 10.0, 3000.0, "is it m? 0.7 m = 700 mm"),
            ("14500", "kg", 0.0, 500.0, "is it g? 14500 g = 14.5 kg"),
            ("9", "kg", 500.0, 1e6, "is it t? 9 t = 9000 kg"),
            (
                "900",
                "kN",
                0.0,
                100.0,
                "is it kg of pull? 900 kg of pull = 8.83 kN",
            ),
            ("35", "", 0.0, 2.0, "is it per cent? 35 per cent = 0.35"),
            ("3.5", "g", 0.0, 2.0, "is it m/s²? 3.5 m/s² = 0.357 g"),
        ] {
            let value: f64 = written.parse().unwrap();
            let told = other_unit(written, value, unit, |v| (least..=most).contains(&v));
            assert_eq!(told.as_deref(), Some(hint), "{written} {unit}");
        }
    }

    #[test]
    fn nothing_is_guessed_where_nothing_fits() {
        assert_eq!(other_unit("-5", -5.0, "kg", |v| v >= 0.0), None);
        assert_eq!(other_unit("0", 0.0, "m", |v| v >= 0.5), None);
        assert_eq!(other_unit("5", 5.0, "Hz", |_| true), None);
        assert_eq!(three_digits(206.8427), "207");
        assert_eq!(three_digits(0.00012345), "0.000123");
    }
}
