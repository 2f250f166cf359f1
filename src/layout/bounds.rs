//! The sane range of every number in a layout file, by field name: one table that gives the check,
//! the message and the hint where the unit looks wrong.
//!
//! The bounds are wide on purpose: they catch slips of the pen and of the unit, not bad stowage. All
//! are common sense, no source.

/// Another unit that a value may have been written in by mistake.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Lookalike {
    /// The other unit.
    pub unit: &'static str,

    /// What a value in that unit is multiplied by to give the field's unit.
    pub factor: f64,
}

/// The sane range of a field.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Bound {
    /// The least value, in the field's unit.
    pub min: f64,

    /// The greatest value, in the field's unit.
    pub max: f64,

    /// The field's unit as people write it.
    pub unit: &'static str,

    /// Units that it may be mistaken for, likeliest first.
    pub lookalikes: &'static [Lookalike],
}

const MM_IN_FT: &[Lookalike] = &[
    Lookalike {
        unit: "mm",
        factor: 0.001,
    },
    Lookalike {
        unit: "cm",
        factor: 0.01,
    },
    Lookalike {
        unit: "in",
        factor: 0.0254,
    },
    Lookalike {
        unit: "ft",
        factor: 0.3048,
    },
];
const FT: &[Lookalike] = &[
    Lookalike {
        unit: "ft",
        factor: 0.3048,
    },
    Lookalike {
        unit: "cm",
        factor: 0.01,
    },
    Lookalike {
        unit: "mm",
        factor: 0.001,
    },
];
const M_IN: &[Lookalike] = &[
    Lookalike {
        unit: "m",
        factor: 1000.0,
    },
    Lookalike {
        unit: "in",
        factor: 25.4,
    },
    Lookalike {
        unit: "cm",
        factor: 10.0,
    },
];
const PSI: &[Lookalike] = &[Lookalike {
    unit: "psi",
    factor: 0.068_947_6,
}];
const NEWTON: &[Lookalike] = &[
    Lookalike {
        unit: "N",
        factor: 0.001,
    },
    Lookalike {
        unit: "daN",
        factor: 0.01,
    },
    Lookalike {
        unit: "kg of pull",
        factor: 0.009_806_65,
    },
];
const G: &[Lookalike] = &[Lookalike {
    unit: "m/s²",
    factor: 0.101_971_6,
}];
const LB: &[Lookalike] = &[
    Lookalike {
        unit: "lb",
        factor: 0.453_592_37,
    },
    Lookalike {
        unit: "g",
        factor: 0.001,
    },
    Lookalike {
        unit: "t",
        factor: 1000.0,
    },
];
const CUFT: &[Lookalike] = &[Lookalike {
    unit: "cu in",
    factor: 0.016_387,
}];
const PER_CENT: &[Lookalike] = &[Lookalike {
    unit: "per cent",
    factor: 0.01,
}];
const NONE: &[Lookalike] = &[];

const fn bound(min: f64, max: f64, unit: &'static str, lookalikes: &'static [Lookalike]) -> Bound {
    Bound {
        min,
        max,
        unit,
        lookalikes,
    }
}

/// Fields with a range of their own.
const BY_NAME: &[(&str, Bound)] = &[
    ("at_s", bound(0.0, 1_000_000.0, "s", NONE)),
    ("beam_m", bound(0.5, 30.0, "m", FT)),
    ("bore_m", bound(0.03, 1.0, "m", MM_IN_FT)),
    ("cage_height_m", bound(0.0, 1.0, "m", MM_IN_FT)),
    ("cage_radius_m", bound(0.01, 1.0, "m", MM_IN_FT)),
    ("clear_floor_m", bound(0.0, 10.0, "m", MM_IN_FT)),
    ("clear_of_deck_m", bound(0.0, 5.0, "m", MM_IN_FT)),
    ("clear_width_m", bound(0.1, 5.0, "m", MM_IN_FT)),
    ("click_error_px", bound(0.0, 200.0, "px", NONE)),
    ("displacement_kg", bound(50.0, 2_000_000.0, "kg", LB)),
    ("draught_m", bound(0.05, 10.0, "m", FT)),
    ("duration_h", bound(0.0, 72.0, "h", NONE)),
    ("edge_height_m", bound(0.0, 3.0, "m", MM_IN_FT)),
    ("empty_mass_without_valve_kg", bound(0.2, 200.0, "kg", LB)),
    ("floor_m", bound(0.05, 30.0, "m", MM_IN_FT)),
    ("friction", bound(0.0, 1.5, "", PER_CENT)),
    ("gap_m", bound(0.0, 0.5, "m", MM_IN_FT)),
    ("gap_to_quay_m", bound(0.0, 3.0, "m", MM_IN_FT)),
    ("gm_m", bound(0.05, 15.0, "m", FT)),
    ("half_angle_deg", bound(1.0, 90.0, "°", NONE)),
    ("headroom_m", bound(0.5, 5.0, "m", MM_IN_FT)),
    ("heel_deg", bound(-45.0, 45.0, "°", NONE)),
    ("height_above_waterline_m", bound(-5.0, 20.0, "m", MM_IN_FT)),
    ("height_m", bound(0.0, 20.0, "m", MM_IN_FT)),
    ("length_m", bound(0.01, 60.0, "m", MM_IN_FT)),
    ("length_overall_m", bound(2.0, 120.0, "m", FT)),
    ("length_without_valve_mm", bound(100.0, 2500.0, "mm", M_IN)),
    ("load_limit_kg_per_m2", bound(10.0, 20_000.0, "kg/m²", NONE)),
    ("loading_heel_deg", bound(0.1, 15.0, "°", NONE)),
    ("mass_kg", bound(0.0, 20_000.0, "kg", LB)),
    (
        "moment_to_trim_1_cm_kg_m",
        bound(1.0, 1_000_000.0, "kg·m", NONE),
    ),
    ("outside_diameter_mm", bound(40.0, 500.0, "mm", M_IN)),
    ("pitch_amplitude_deg", bound(0.0, 45.0, "°", NONE)),
    ("pitch_m", bound(0.05, 3.0, "m", MM_IN_FT)),
    ("pitch_period_s", bound(0.5, 30.0, "s", NONE)),
    ("pixel", bound(0.0, 100_000.0, "px", NONE)),
    ("point_error_m", bound(0.0, 1.0, "m", MM_IN_FT)),
    ("pressure_bar", bound(0.0, 350.0, "bar", PSI)),
    ("radius_m", bound(0.005, 10.0, "m", MM_IN_FT)),
    ("roll_amplitude_deg", bound(0.0, 60.0, "°", NONE)),
    ("roll_bertin_n", bound(0.0, 0.1, "", NONE)),
    ("roll_damping_ratio", bound(0.005, 0.6, "", PER_CENT)),
    ("roll_period_range_s", bound(0.5, 30.0, "s", NONE)),
    ("roll_period_s", bound(0.5, 30.0, "s", NONE)),
    ("row_pitch_m", bound(0.05, 3.0, "m", MM_IN_FT)),
    ("saddle_half_angle_deg", bound(1.0, 90.0, "°", NONE)),
    ("shelf_height_m", bound(0.0, 5.0, "m", MM_IN_FT)),
    ("size_m", bound(0.05, 30.0, "m", MM_IN_FT)),
    ("slack_m", bound(0.0, 1.0, "m", MM_IN_FT)),
    ("slope_deg", bound(1.0, 89.0, "°", NONE)),
    ("speed_kn", bound(0.0, 60.0, "kn", NONE)),
    ("stamped_tare_kg", bound(0.2, 200.0, "kg", LB)),
    ("stiffness_kn_per_m", bound(0.01, 10_000.0, "kN/m", NONE)),
    ("thickness_m", bound(0.001, 0.5, "m", MM_IN_FT)),
    ("total_s", bound(0.5, 3600.0, "s", NONE)),
    ("trim_deg", bound(-45.0, 45.0, "°", NONE)),
    ("underside_m", bound(0.0, 20.0, "m", MM_IN_FT)),
    ("up_deg", bound(-90.0, 90.0, "°", NONE)),
    ("water_capacity_l", bound(0.2, 150.0, "L", CUFT)),
    ("waterline_length_m", bound(1.5, 120.0, "m", FT)),
    ("wave_height_m", bound(0.0, 14.0, "m", FT)),
    ("wave_period_s", bound(0.5, 25.0, "s", NONE)),
    ("waves_from_deg", bound(0.0, 180.0, "°", NONE)),
    ("width_m", bound(0.01, 30.0, "m", MM_IN_FT)),
    ("working_pressure_bar", bound(10.0, 350.0, "bar", PSI)),
];

/// Ranges by the unit at the end of a field's name, for all other fields.
const BY_UNIT: &[(&str, Bound)] = &[
    ("_deg", bound(-720.0, 720.0, "°", NONE)),
    ("_g", bound(0.0, 5.0, "g", G)),
    ("_h", bound(0.0, 1000.0, "h", NONE)),
    ("_kg", bound(0.0, 20_000.0, "kg", LB)),
    ("_kn", bound(0.0, 500.0, "kN", NEWTON)),
    ("_m", bound(-20.0, 60.0, "m", MM_IN_FT)),
    ("_mm", bound(0.0, 5000.0, "mm", M_IN)),
    ("_s", bound(0.0, 1000.0, "s", NONE)),
];

/// Points on the deck plan: `at`, `outline`, `holes`, `line`, `points`, `opens_over`.
pub const POINT: Bound = bound(-20.0, 130.0, "m", MM_IN_FT);

/// Fields whose numbers are points on the deck plan.
const POINT_FIELDS: &[&str] = &["at", "holes", "line", "opens_over", "outline", "points"];

/// The sane range of a field by its name; `None` where any finite number will do.
pub fn for_field(name: &str) -> Option<&'static Bound> {
    if POINT_FIELDS.contains(&name) {
        return Some(&POINT);
    }
    if let Ok(index) = BY_NAME.binary_search_by(|(field, _)| (*field).cmp(name)) {
        return Some(&BY_NAME[index].1);
    }
    // Longest ending first, so that `_mm` is not read as `_m`.
    BY_UNIT
        .iter()
        .filter(|(ending, _)| name.ends_with(ending))
        .max_by_key(|(ending, _)| ending.len())
        .map(|(_, bound)| bound)
}

impl Bound {
    /// Is the value within the range?
    pub fn holds(&self, value: f64) -> bool {
        value.is_finite() && (self.min..=self.max).contains(&value)
    }

    /// What the value would be if it had been written in another unit by mistake: that unit and the
    /// value in the field's unit.
    pub fn mistaken_unit(&self, value: f64) -> Option<(&'static str, f64)> {
        self.mistaken_units(value).next()
    }

    /// The same for every unit in which it would be in range, likeliest first: 11500 may be 115 m in
    /// centimetres and 11.5 m in millimetres, and only who wrote it knows.
    pub fn mistaken_units(&self, value: f64) -> impl Iterator<Item = (&'static str, f64)> {
        let units = self.lookalikes.iter();
        units
            .map(move |lookalike| (lookalike.unit, value * lookalike.factor))
            .filter(|(_, converted)| *converted > 0.0 && self.holds(*converted))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_sorted_for_searching() {
        assert!(BY_NAME.is_sorted_by(|a, b| a.0 < b.0));
    }

    #[test]
    fn psi_in_a_bar_field_is_recognised() {
        let bound = for_field("pressure_bar").unwrap();
        assert!(!bound.holds(3000.0));
        let (unit, bar) = bound.mistaken_unit(3000.0).unwrap();
        assert_eq!(unit, "psi");
        // 1 psi = 6894.757 Pa (NIST SP 811, appendix B).
        assert!((bar - 206.843).abs() < 0.001, "{bar}");
    }

    #[test]
    fn endings_are_matched_by_the_longest() {
        assert_eq!(for_field("twin_spacing_mm").unwrap().unit, "mm");
        assert_eq!(for_field("edge_height_m").unwrap().unit, "m");
        assert_eq!(for_field("push_port_g").unwrap().unit, "g");
        assert!(for_field("columns").is_none());
    }
}
