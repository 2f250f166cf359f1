//! Heel and trim that weights, wind and a turn give a boat, for small angles.
//!
//! ```text
//! heel of weights    tan phi = -sum(m y) / (D GM)          y to port, phi > 0 starboard down
//! trim of weights    tan theta = sum(m (x - x_f)) / (100 MCT) / L   bow down > 0, MCT in kg m for each cm
//! wind               tan phi = p A h / (g D GM),  p = 504 Pa (v / 26 m/s)^2
//! turn               tan phi = v^2 h / (g R GM)            outwards
//! ```
//!
//! It is a check of a stowage, not a stability approval.
//!
//! # References
//!
//! Statics of small angles (textbook). Steady wind pressure: 2008 IS Code, part A, 2.3, 504 Pa; that this is at
//! 26 m/s is a value from memory. Moment of passengers: [`passenger_moment_kg_m`].

use super::motion::GRAVITY;
use crate::geometry::Elementary as _;

/// Assumed mass of a person: 185 lb (46 CFR 170.090).
pub const PERSON_KG: f64 = 83.9;

/// Diving gear that the simplified stability test counts for each diver: 80 lb (46 CFR 178.330).
pub const DIVING_GEAR_KG: f64 = 36.0;

/// Least height of the centre of persons above their deck in that test (46 CFR 178.330).
pub const PERSON_CENTRE_M: f64 = 0.76;

/// Heel in radians, starboard down above 0, of a moment of weights (kg m, port above 0).
pub fn heel_rad(moment_kg_m: f64, displacement_kg: f64, gm_m: f64) -> f64 {
    -(moment_kg_m / (displacement_kg * gm_m)).arc_tangent()
}

/// Trim in radians, bow down above 0, of a moment of weights about the middle of the waterline (kg m, ahead
/// above 0).
pub fn trim_rad(moment_kg_m: f64, moment_to_trim_1_cm_kg_m: f64, length_m: f64) -> f64 {
    (0.01 * moment_kg_m / moment_to_trim_1_cm_kg_m / length_m).arc_tangent()
}

/// Pressure of a steady wind, Pa.
pub fn wind_pressure_pa(speed_m_s: f64) -> f64 {
    504.0 * (speed_m_s / 26.0).whole_power(2)
}

/// Heel away from a steady wind on an area, radians; `lever_m` from half the draught to the middle of the area.
pub fn wind_heel_rad(
    speed_m_s: f64,
    area_m2: f64,
    lever_m: f64,
    displacement_kg: f64,
    gm_m: f64,
) -> f64 {
    let moment = wind_pressure_pa(speed_m_s) * area_m2 * lever_m;
    (moment / (GRAVITY * displacement_kg * gm_m)).arc_tangent()
}

/// Heel outwards in a steady turn, radians; `lever_m` from half the draught to the boat's centre of gravity.
pub fn turn_heel_rad(speed_m_s: f64, radius_m: f64, lever_m: f64, gm_m: f64) -> f64 {
    (speed_m_s * speed_m_s * lever_m / (GRAVITY * radius_m * gm_m)).arc_tangent()
}

/// `Mp = W Bp / 6` of the simplified stability test (46 CFR 178.330), kg m: `W` the mass of all persons with
/// 36 kg of gear for each diver, `Bp` the greatest breadth open to them.
pub fn passenger_moment_kg_m(persons: usize, divers: usize, breadth_m: f64) -> f64 {
    let mass_kg = persons as f64 * PERSON_KG + divers as f64 * DIVING_GEAR_KG;
    mass_kg * breadth_m / 6.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::property::assert_close;

    /// `docs/method.md`, "Balance": 200 kg at 1.5 m to port, 15 t, GM 0.9 m: 1.27303 degrees, port down.
    #[test]
    fn weight_to_port_puts_port_down() {
        let heel = heel_rad(300.0, 15_000.0, 0.9).to_degrees();
        assert_close(heel, -1.27303, 1e-5);
        assert_close(heel_rad(-300.0, 15_000.0, 0.9).to_degrees(), 1.27303, 1e-5);
    }

    #[test]
    fn trim_wind_and_turn_by_hand() {
        // 500 kg m at 50 kg m for each cm: 10 cm over 10 m.
        assert_close(trim_rad(500.0, 50.0, 10.0), 0.01, 1e-6);
        assert_close(wind_pressure_pa(26.0), 504.0, 1e-9);
        let wind = wind_heel_rad(26.0, 20.0, 1.5, 10_000.0, 1.0);
        assert_close(wind.tangent(), 504.0 * 30.0 / (GRAVITY * 10_000.0), 1e-12);
        let turn = turn_heel_rad(5.0, 25.0, 0.8, 1.0);
        assert_close(turn.tangent(), 0.8 / GRAVITY, 1e-12);
    }

    /// 20 persons at 185 lb, 3.6 m: Mp 1006.98 kg m with the exact pound; 20 divers add 720 kg.
    #[test]
    fn the_moment_of_passengers_as_worked() {
        assert_close(passenger_moment_kg_m(20, 0, 3.6), 1006.98, 0.2);
        let gear = passenger_moment_kg_m(20, 20, 3.6) - passenger_moment_kg_m(20, 0, 3.6);
        assert_close(gear, 720.0 * 0.6, 1e-9);
    }
}
