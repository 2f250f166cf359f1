//! How a sensor was mounted, and its readings put right.

use crate::geometry::Elementary as _;
use crate::layout::Boat;
use crate::mechanics::attitude::Attitude;
use crate::mechanics::motion_log::Sample;
use crate::record::SensorMounting;

/// How a sensor was mounted. What is not known of it is left at rest.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Mounting {
    /// Does it tell roll to port as positive?
    pub roll_reversed: bool,

    /// Does it tell bow up as positive?
    pub pitch_reversed: bool,

    /// Does it tell a fall as positive?
    pub vertical_reversed: bool,

    /// Its own fore-and-aft, from the boat's bow towards port, rad: a quarter turn where it lies athwartships.
    pub turned_rad: f64,

    /// What it tells as roll while the boat is upright, rad.
    pub roll_offset_rad: f64,

    /// What it tells as pitch while the boat is level, rad.
    pub pitch_offset_rad: f64,

    /// Where it was: forward of the pitch axis, to port, above the roll axis, m. Its vertical acceleration is that of
    /// there.
    pub place_m: [f64; 3],
}

impl Mounting {
    /// As it is told of a sensor on this boat.
    pub fn of(told: &SensorMounting, boat: &Boat) -> Self {
        Self {
            roll_reversed: told.roll_to_port_positive,
            pitch_reversed: told.bow_up_positive,
            vertical_reversed: told.fall_positive,
            turned_rad: told.turned_deg.to_radians(),
            roll_offset_rad: told.roll_offset_deg.to_radians(),
            pitch_offset_rad: told.pitch_offset_deg.to_radians(),
            place_m: told.at.map_or([0.0; 3], |[x, y, z]| {
                [x - boat.pitch_axis_x(), y, z - boat.roll_axis_height()]
            }),
        }
    }

    /// The same where nothing may be told of it: level, in the axes of the boat.
    pub fn of_told(told: Option<&SensorMounting>, boat: &Boat) -> Self {
        told.map_or_else(Self::default, |told| Self::of(told, boat))
    }

    /// The angles of the boat from those of the sensor: signs first, then offsets, then its turn. Exact for small
    /// angles; at 20 degrees of each a quarter turn is 1 degree off.
    pub fn put_right(&self, sample: &Sample) -> Sample {
        let signed = |value: f64, reversed: bool| if reversed { -value } else { value };
        let roll = signed(sample.roll_rad, self.roll_reversed) - self.roll_offset_rad;
        let pitch = signed(sample.pitch_rad, self.pitch_reversed) - self.pitch_offset_rad;
        let (sin, cos) = self.turned_rad.sine_cosine();
        Sample {
            time_s: sample.time_s,
            roll_rad: roll * cos - pitch * sin,
            pitch_rad: roll * sin + pitch * cos,
            vertical: signed(sample.vertical, self.vertical_reversed),
        }
    }

    /// The vertical acceleration at the axes from that at the sensor: what roll and pitch make of its place is taken
    /// off.
    pub fn at_the_axes(&self, at: Attitude, has_vertical: bool) -> Attitude {
        if !has_vertical {
            return at;
        }
        let [x, y, z] = self.place_m;
        let by_turning = at.roll_acceleration * y
            - at.pitch_acceleration * x
            - (at.roll_rate * at.roll_rate + at.pitch_rate * at.pitch_rate) * z;
        Attitude {
            vertical: at.vertical - by_turning,
            ..at
        }
    }

    /// What was put right, in words; none for a sensor that needs nothing.
    pub fn words(&self) -> Vec<String> {
        let mut words = Vec::new();
        let mut say = |applies: bool, what: String| {
            if applies {
                words.push(what);
            }
        };
        say(self.roll_reversed, "the sign of roll turned".to_owned());
        say(self.pitch_reversed, "the sign of pitch turned".to_owned());
        say(
            self.vertical_reversed,
            "the sign of the vertical acceleration turned".to_owned(),
        );
        say(
            self.turned_rad != 0.0,
            format!(
                "sensor turned {:.1}° from the bow towards port",
                self.turned_rad.to_degrees()
            ),
        );
        let (roll, pitch) = (self.roll_offset_rad, self.pitch_offset_rad);
        say(
            roll != 0.0 || pitch != 0.0,
            format!(
                "{:.2}° taken off roll, {:.2}° off pitch",
                roll.to_degrees(),
                pitch.to_degrees()
            ),
        );
        let [x, y, z] = self.place_m;
        say(
            [x, y, z].iter().any(|m| m.abs() > 0.0),
            format!(
                "vertical acceleration taken from {x:.2} m forward, {y:.2} m to port, {z:.2} m above the axes to them"
            ),
        );
        words
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sensor_athwartships_tells_pitch_as_roll() {
        // Its x points to port, its y aft: a roll to starboard is a pitch, bow up, for it.
        let mounting = Mounting {
            turned_rad: std::f64::consts::FRAC_PI_2,
            ..Mounting::default()
        };
        let told = Sample {
            time_s: 3.0,
            roll_rad: 0.05,
            pitch_rad: -0.2,
            vertical: 0.0,
        };
        let right = mounting.put_right(&told);
        assert!((right.roll_rad - 0.2).abs() < 1e-12 && (right.pitch_rad - 0.05).abs() < 1e-12);
    }

    #[test]
    fn signs_come_before_offsets() {
        let mounting = Mounting {
            roll_reversed: true,
            vertical_reversed: true,
            roll_offset_rad: 0.01,
            ..Mounting::default()
        };
        let told = Sample {
            roll_rad: -0.11,
            vertical: 0.3,
            ..Sample::default()
        };
        let right = mounting.put_right(&told);
        assert!((right.roll_rad - 0.10).abs() < 1e-12 && (right.vertical + 0.3).abs() < 1e-12);
        assert_eq!(mounting.words().len(), 3);
    }

    /// Degrees and places of the boat become radians and places from her axes.
    #[test]
    fn what_is_told_of_a_sensor_is_taken_from_the_axes() {
        let mut boat = Boat::new("Otter", 10.0, 3.0);
        boat.pitch_axis_x_m = Some(4.0);
        boat.roll_axis_height_m = Some(0.3);
        let told = SensorMounting {
            bow_up_positive: true,
            turned_deg: 90.0,
            roll_offset_deg: -2.0,
            pitch_offset_deg: 1.0,
            at: Some([5.5, -0.6, 1.1]),
            ..SensorMounting::default()
        };
        let mounting = Mounting::of(&told, &boat);
        assert!(mounting.pitch_reversed && !mounting.roll_reversed && !mounting.vertical_reversed);
        assert!((mounting.turned_rad - std::f64::consts::FRAC_PI_2).abs() < 1e-12);
        assert!((mounting.roll_offset_rad + 2.0_f64.to_radians()).abs() < 1e-12);
        assert!((mounting.pitch_offset_rad - 1.0_f64.to_radians()).abs() < 1e-12);
        let [x, y, z] = mounting.place_m;
        assert!((x - 1.5).abs() < 1e-12 && (y + 0.6).abs() < 1e-12 && (z - 0.8).abs() < 1e-12);
        let nothing = Mounting::of(&SensorMounting::default(), &boat);
        assert_eq!(nothing, Mounting::default());
    }

    /// A boat that only rolls: a sensor at the rail tells a vertical acceleration, the axes have none.
    #[test]
    fn what_rolling_makes_of_the_place_is_taken_off() {
        let mounting = Mounting {
            place_m: [3.0, 1.5, 2.0],
            ..Mounting::default()
        };
        let at = Attitude {
            roll_rate: 0.4,
            roll_acceleration: 0.6,
            // Up at the port rail while it rolls to starboard ever faster, less what the turning takes inwards.
            vertical: 0.6 * 1.5 - 0.4 * 0.4 * 2.0,
            ..Attitude::default()
        };
        assert!(mounting.at_the_axes(at, true).vertical.abs() < 1e-12);
        assert_eq!(mounting.at_the_axes(at, false), at);
    }
}
