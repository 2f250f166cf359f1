//! The units of each quantity.

use super::{Quantity, System};

/// One unit of a quantity.
#[derive(Debug)]
pub(super) struct Unit {
    /// How it is shown.
    pub(super) symbol: &'static str,

    /// How else people write it, in small letters.
    pub(super) spellings: &'static [&'static str],

    /// So many base units make one.
    pub(super) in_base: f64,

    /// Digits behind the point when shown.
    pub(super) decimals: usize,

    /// One step of the number shown.
    pub(super) step: f64,
}

const fn unit(
    symbol: &'static str,
    spellings: &'static [&'static str],
    in_base: f64,
    decimals: usize,
    step: f64,
) -> Unit {
    Unit {
        symbol,
        spellings,
        in_base,
        decimals,
        step,
    }
}

/// One pound in kilograms, exact.
const LB: f64 = 0.453_592_37;
/// One kilogram of pull in kilonewtons: standard gravity, exact (CGPM 1901).
const KGF_KN: f64 = 0.009_806_65;
/// One foot in metres, exact.
const FT: f64 = 0.3048;
/// One pound per square inch in bar.
const PSI: f64 = 0.068_947_572_93;

const M: Unit = unit(
    "m",
    &["m", "metre", "metres", "meter", "meters"],
    1.0,
    2,
    0.01,
);
const FEET: Unit = unit("ft", &["ft", "'", "′", "foot", "feet"], FT, 2, 0.05);
const INCH: Unit = unit("in", &["in", "\"", "″", "inch", "inches"], 0.0254, 2, 0.25);
const MM: Unit = unit("mm", &["mm"], 0.001, 0, 1.0);
const CM: Unit = unit("cm", &["cm"], 0.01, 1, 1.0);

static LENGTH: [Unit; 5] = [M, FEET, INCH, MM, CM];
static SMALL: [Unit; 5] = [MM, INCH, CM, M, FEET];
static MASS: [Unit; 4] = [
    unit("kg", &["kg"], 1.0, 1, 0.1),
    unit("lb", &["lb", "lbs", "pound", "pounds"], LB, 1, 0.5),
    unit("g", &["g"], 0.001, 0, 10.0),
    unit("t", &["t"], 1000.0, 3, 0.01),
];
static FORCE: [Unit; 5] = [
    unit(
        "kg of pull",
        &["kg of pull", "kg", "kgf", "kp"],
        KGF_KN,
        0,
        5.0,
    ),
    unit(
        "lb of pull",
        &["lb of pull", "lb", "lbs", "lbf"],
        LB * KGF_KN,
        0,
        10.0,
    ),
    unit("kN", &["kn"], 1.0, 2, 0.05),
    unit("daN", &["dan"], 0.01, 0, 5.0),
    unit("N", &["n"], 0.001, 0, 50.0),
];
static PRESSURE: [Unit; 4] = [
    unit("bar", &["bar"], 1.0, 0, 1.0),
    unit("psi", &["psi"], PSI, 0, 50.0),
    unit("MPa", &["mpa"], 10.0, 1, 0.1),
    unit("kPa", &["kpa"], 0.01, 0, 100.0),
];
static ANGLE: [Unit; 1] = [unit("°", &["°", "deg", "degrees"], 1.0, 1, 1.0)];
static TIME: [Unit; 2] = [
    unit("s", &["s", "sec", "second", "seconds"], 1.0, 1, 0.1),
    unit("min", &["min"], 60.0, 1, 0.1),
];
static HOURS: [Unit; 2] = [
    unit("h", &["h", "hour", "hours"], 1.0, 1, 0.1),
    unit("min", &["min"], 1.0 / 60.0, 0, 5.0),
];
static VOLUME: [Unit; 3] = [
    unit(
        "L",
        &["l", "litre", "litres", "liter", "liters"],
        1.0,
        1,
        0.1,
    ),
    unit("cu in", &["cu in", "in³", "in3"], 0.016_387_064, 0, 5.0),
    unit("cu ft", &["cu ft", "ft³", "ft3"], 28.316_846_592, 3, 0.01),
];
static AREA_LOAD: [Unit; 3] = [
    unit("kg/m²", &["kg/m²", "kg/m2"], 1.0, 0, 10.0),
    unit(
        "lb/ft²",
        &["lb/ft²", "lb/ft2", "psf"],
        LB / (FT * FT),
        0,
        2.0,
    ),
    unit("kN/m²", &["kn/m²", "kn/m2", "kpa"], 1.0 / KGF_KN, 2, 0.1),
];
static ENERGY: [Unit; 2] = [
    unit("J", &["j"], 1.0, 0, 1.0),
    unit(
        "ft·lb",
        &["ft·lb", "ft lb", "ft-lb", "ft lbf"],
        1.355_817_948,
        0,
        1.0,
    ),
];
static GRAVITY: [Unit; 2] = [
    unit("g", &["g"], 1.0, 2, 0.01),
    unit("m/s²", &["m/s²", "m/s2"], 1.0 / 9.806_65, 2, 0.1),
];
static STIFFNESS: [Unit; 2] = [
    unit("kN/m", &["kn/m"], 1.0, 1, 1.0),
    unit("lb/in", &["lb/in", "lbf/in"], LB * KGF_KN / 0.0254, 0, 5.0),
];
static PLAIN: [Unit; 1] = [unit("", &[], 1.0, 2, 0.01)];

/// Every quantity.
#[cfg(test)]
pub(super) const ALL: [Quantity; 14] = [
    Quantity::Length,
    Quantity::SmallLength,
    Quantity::Mass,
    Quantity::Force,
    Quantity::Pressure,
    Quantity::Angle,
    Quantity::Time,
    Quantity::Hours,
    Quantity::Volume,
    Quantity::AreaLoad,
    Quantity::Energy,
    Quantity::Gravity,
    Quantity::Stiffness,
    Quantity::Plain,
];

/// All units of a quantity; the first is the metric one that is shown, the second the US one, where
/// there is one.
pub(super) fn units(quantity: Quantity) -> &'static [Unit] {
    match quantity {
        Quantity::Length => &LENGTH,
        Quantity::SmallLength => &SMALL,
        Quantity::Mass => &MASS,
        Quantity::Force => &FORCE,
        Quantity::Pressure => &PRESSURE,
        Quantity::Angle => &ANGLE,
        Quantity::Time => &TIME,
        Quantity::Hours => &HOURS,
        Quantity::Volume => &VOLUME,
        Quantity::AreaLoad => &AREA_LOAD,
        Quantity::Energy => &ENERGY,
        Quantity::Gravity => &GRAVITY,
        Quantity::Stiffness => &STIFFNESS,
        Quantity::Plain => &PLAIN,
    }
}

/// The unit in which a quantity is shown. Seconds, hours and shares of gravity are the same in both
/// systems.
pub(super) fn shown(quantity: Quantity, system: System) -> &'static Unit {
    let units = units(quantity);
    let same = matches!(
        quantity,
        Quantity::Angle | Quantity::Time | Quantity::Hours | Quantity::Gravity | Quantity::Plain
    );
    match system {
        System::Us if !same => &units[1],
        System::Us | System::Metric => &units[0],
    }
}
