//! The balances of forces and moments of the IMO CSS Code, annex 13.
//!
//! They are the published form of what the rest of this layer derives, and here to be held against
//! it and against the code's own worked examples. Only the **balances** serve small boats: the
//! code's accelerations are for ships of 50 m and more, its length factor turns over near 30 m and
//! is negative below about 14 m, so asking for them below 50 m is refused.
//!
//! Newtons, kilograms and metres; the code counts in kilonewtons and tonnes.
//!
//! # References
//!
//! IMO resolution A.714(17), CSS Code, annex 13, as amended; replaced as a whole by MSC.1/Circ.1623
//! (2020). Sections 7.1 (external forces), 7.2 (balance), 7.3 (alternative balance), 4 (maximum
//! securing load). The length factor, the B/GM table and the friction-dependent `fz` other than 0.8
//! are values from memory; the length factor reproduces both published examples, `tests/outside`.

use thiserror::Error;

use super::motion::GRAVITY;
use crate::geometry::Elementary as _;

/// Safety divisor from MSL to calculation strength in the basic balance (7.2).
pub const BASIC_DIVISOR: f64 = 1.5;

/// The same in the alternative balance (7.3).
pub const ALTERNATIVE_DIVISOR: f64 = 1.35;

/// Shortest ship for which the code's accelerations are given.
pub const LEAST_LENGTH_M: f64 = 50.0;

/// Why the code's accelerations are refused.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum Annex13Error {
    /// The length factor is for larger ships.
    #[error("annex 13 gives accelerations for ships of 50 m and more, not for {length_m} m")]
    TooShort {
        /// Length that was asked for.
        length_m: f64,
    },

    /// The table of B/GM starts at 7.
    #[error("annex 13 corrects for B/GM of 7 and more, not for {ratio}")]
    TooStiff {
        /// B/GM that was asked for.
        ratio: f64,
    },

    /// The tables run from a tenth to nine tenths of the length.
    #[error("annex 13 gives accelerations from 1 to 9 tenths of the length, not at {tenths}")]
    OffTheTable {
        /// Tenths of the length from aft that were asked for.
        tenths: usize,
    },

    /// The weather factor is for significant wave heights below 12 m.
    #[error("the weather factor is for waves from 0 to 12 m, not for {height_m} m")]
    WaveHeight {
        /// Significant wave height that was asked for.
        height_m: f64,
    },
}

/// Where the cargo is stowed.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Stowage {
    /// On deck, high.
    DeckHigh,
    /// On deck, low.
    DeckLow,
    /// Between decks.
    TweenDeck,
    /// Lower hold.
    LowerHold,
}

/// Accelerations, m/s²: transverse with the part of gravity along the deck, vertical without the
/// static weight.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Accelerations {
    /// Longitudinal.
    pub longitudinal: f64,
    /// Transverse.
    pub transverse: f64,
    /// Vertical.
    pub vertical: f64,
}

/// Basic transverse accelerations at 0.1 to 0.9 of the length, table 2 of the code.
const fn transverse_row(stowage: Stowage) -> [f64; 9] {
    match stowage {
        Stowage::DeckHigh => [7.1, 6.9, 6.8, 6.7, 6.7, 6.8, 6.9, 7.1, 7.4],
        // The stored copy drops one of the 6.1; it is from memory.
        Stowage::DeckLow => [6.5, 6.3, 6.1, 6.1, 6.1, 6.1, 6.3, 6.5, 6.7],
        Stowage::TweenDeck => [5.9, 5.6, 5.5, 5.4, 5.4, 5.5, 5.6, 5.9, 6.2],
        Stowage::LowerHold => [5.5, 5.3, 5.1, 5.0, 5.0, 5.1, 5.3, 5.5, 5.9],
    }
}

const VERTICAL_ROW: [f64; 9] = [7.6, 6.2, 5.0, 4.3, 4.3, 5.0, 6.2, 7.6, 9.2];

/// Correction for B/GM of 7 to 13 (value from memory).
const fn stiffness_row(stowage: Stowage) -> [f64; 7] {
    match stowage {
        Stowage::DeckHigh => [1.56, 1.40, 1.27, 1.19, 1.11, 1.05, 1.00],
        Stowage::DeckLow => [1.42, 1.30, 1.21, 1.14, 1.09, 1.04, 1.00],
        Stowage::TweenDeck => [1.26, 1.19, 1.14, 1.09, 1.06, 1.03, 1.00],
        Stowage::LowerHold => [1.15, 1.12, 1.09, 1.06, 1.04, 1.02, 1.00],
    }
}

/// A ship, as far as the corrections ask.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Ship {
    /// Length.
    pub length_m: f64,
    /// Beam.
    pub beam_m: f64,
    /// Metacentric height.
    pub gm_m: f64,
    /// Service speed, knots.
    pub speed_kn: f64,
}

/// Basic accelerations at so many tenths of the length from aft, before any correction.
pub fn basic_accelerations(stowage: Stowage, tenths: usize) -> Result<Accelerations, Annex13Error> {
    let off = Annex13Error::OffTheTable { tenths };
    let column = tenths.checked_sub(1).ok_or(off)?;
    let longitudinal = match stowage {
        Stowage::DeckHigh => 3.8,
        Stowage::DeckLow => 2.9,
        Stowage::TweenDeck => 2.0,
        // The stored copy prints 4.5; 1.5 is from memory.
        Stowage::LowerHold => 1.5,
    };
    Ok(Accelerations {
        longitudinal,
        transverse: *transverse_row(stowage).get(column).ok_or(off)?,
        vertical: *VERTICAL_ROW.get(column).ok_or(off)?,
    })
}

/// Correction for length and speed: `0.345 v / sqrt(L) + (58.62 L - 1034.5) / L^2`.
pub fn length_speed_factor(length_m: f64, speed_kn: f64) -> Result<f64, Annex13Error> {
    if length_m >= LEAST_LENGTH_M {
        Ok(
            0.345 * speed_kn / length_m.sqrt()
                + (58.62 * length_m - 1034.5) / (length_m * length_m),
        )
    } else {
        Err(Annex13Error::TooShort { length_m })
    }
}

/// Correction of transverse accelerations for B/GM, between the columns of the table by proportion.
pub fn stiffness_factor(stowage: Stowage, beam_over_gm: f64) -> Result<f64, Annex13Error> {
    if beam_over_gm >= 13.0 {
        return Ok(1.0);
    }
    let row = stiffness_row(stowage);
    let mut left = 7.0;
    for pair in row.windows(2) {
        if let [low, high] = pair
            && beam_over_gm >= left
            && beam_over_gm <= left + 1.0
        {
            return Ok(low + (beam_over_gm - left) * (high - low));
        }
        left += 1.0;
    }
    Err(Annex13Error::TooStiff {
        ratio: beam_over_gm,
    })
}

/// Accelerations of cargo on a ship; refused below 50 m.
pub fn accelerations(
    ship: &Ship,
    stowage: Stowage,
    tenths: usize,
) -> Result<Accelerations, Annex13Error> {
    let factor = length_speed_factor(ship.length_m, ship.speed_kn)?;
    let basic = basic_accelerations(stowage, tenths)?;
    let stiff = stiffness_factor(stowage, ship.beam_m / ship.gm_m)?;
    Ok(Accelerations {
        longitudinal: factor * basic.longitudinal,
        transverse: factor * stiff * basic.transverse,
        vertical: factor * basic.vertical,
    })
}

/// Reduction for a forecast significant wave height: `1 - (H_s - 13)^2 / 240`.
pub fn weather_factor(height_m: f64) -> Result<f64, Annex13Error> {
    if (0.0..12.0).contains(&height_m) {
        Ok(1.0 - (height_m - 13.0).whole_power(2) / 240.0)
    } else {
        Err(Annex13Error::WaveHeight { height_m })
    }
}

/// Largest significant wave height for an acceleration that is this share of the full one, m.
pub fn wave_height_limit_m(share: f64) -> f64 {
    13.0 - (240.0 * (1.0 - share)).max(0.0).sqrt()
}

/// External force of one direction: `m a + F_wind + F_sea`, N.
pub fn external_force_n(mass_kg: f64, acceleration: f64, wind_n: f64, sea_n: f64) -> f64 {
    mass_kg * acceleration + wind_n + sea_n
}

/// Maximum securing load of devices in series: the smallest of them, N.
pub fn series_msl_n(devices_n: impl IntoIterator<Item = f64>) -> f64 {
    devices_n.into_iter().fold(f64::INFINITY, f64::min)
}

/// One lashing of a balance.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Lashing {
    /// CS: MSL over [`BASIC_DIVISOR`] or [`ALTERNATIVE_DIVISOR`], N.
    pub calculation_strength_n: f64,

    /// `alpha`: from the deck up to the lashing, rad.
    pub vertical_angle_rad: f64,

    /// `beta`: on plan, from athwartships, rad.
    pub horizontal_angle_rad: f64,

    /// Lever about the tipping edge, m.
    pub lever_m: f64,
}

/// `f = cos(alpha) + mu sin(alpha)`: what a lashing athwartships is worth against sliding.
pub fn f_value(vertical_angle_rad: f64, friction: f64) -> f64 {
    vertical_angle_rad.cosine() + friction * vertical_angle_rad.sine()
}

/// `f_y = mu sin(alpha) + cos(alpha) cos(beta)`, `beta` from athwartships.
pub fn f_y_value(lashing: &Lashing, friction: f64) -> f64 {
    friction * lashing.vertical_angle_rad.sine()
        + lashing.vertical_angle_rad.cosine() * lashing.horizontal_angle_rad.cosine()
}

/// `f_x = mu sin(alpha) + cos(alpha) sin(beta)`, `beta` from athwartships.
pub fn f_x_value(lashing: &Lashing, friction: f64) -> f64 {
    friction * lashing.vertical_angle_rad.sine()
        + lashing.vertical_angle_rad.cosine() * lashing.horizontal_angle_rad.sine()
}

/// Transverse sliding, basic balance: `mu m g + sum f CS`, N, with the lashings of one side.
pub fn transverse_capacity_n(mass_kg: f64, friction: f64, side: &[Lashing]) -> f64 {
    let lashings: f64 = side
        .iter()
        .map(|lashing| {
            lashing.calculation_strength_n * f_value(lashing.vertical_angle_rad, friction)
        })
        .sum();
    friction * mass_kg * GRAVITY + lashings
}

/// Longitudinal sliding, alternative balance: `mu (m g - f_z F_z) + sum f_x CS`, N.
pub fn longitudinal_capacity_n(
    mass_kg: f64,
    friction: f64,
    reduced_vertical_n: f64,
    lashings: &[Lashing],
) -> f64 {
    let sum: f64 = lashings
        .iter()
        .map(|lashing| lashing.calculation_strength_n * f_x_value(lashing, friction))
        .sum();
    friction * (mass_kg * GRAVITY - reduced_vertical_n) + sum
}

/// Transverse tipping: `b m g + sum c CS`, N m; held against the force times its lever.
pub fn tipping_capacity_nm(mass_kg: f64, stable_lever_m: f64, side: &[Lashing]) -> f64 {
    let lashings: f64 = side
        .iter()
        .map(|lashing| lashing.calculation_strength_n * lashing.lever_m)
        .sum();
    stable_lever_m * mass_kg * GRAVITY + lashings
}

/// Largest transverse acceleration that friction alone holds, m/s².
pub fn friction_only_acceleration(mass_kg: f64, friction: f64, wind_and_sea_n: f64) -> f64 {
    friction * GRAVITY - wind_and_sea_n / mass_kg
}

/// `f_z`: share of the vertical force in the longitudinal balance, by friction (table of 7.3; all
/// but the 0.8 at 0.3 are values from memory), between the columns by proportion.
pub fn vertical_share(friction: f64) -> f64 {
    const TABLE: [(f64, f64); 6] = [
        (0.0, 0.20),
        (0.1, 0.50),
        (0.2, 0.70),
        (0.3, 0.80),
        (0.4, 0.85),
        (0.6, 0.90),
    ];
    let mut last = TABLE[0];
    for next in TABLE {
        if friction <= next.0 {
            let width = next.0 - last.0;
            let share = if width > 0.0 {
                ((friction - last.0) / width).max(0.0)
            } else {
                0.0
            };
            return last.1 + share * (next.1 - last.1);
        }
        last = next;
    }
    last.1
}
