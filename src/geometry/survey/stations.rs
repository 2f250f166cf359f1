use super::{arc_through, fair_curve};
use crate::geometry::tolerances::SAME_POINT_M;
use crate::geometry::{Outline, OutlineError, Vec2, vec2};

/// One station of the tape along the centreline: how far from the transom, and how far the edge of the
/// deck is from the centreline there.
#[derive(Copy, Clone, Debug, PartialEq)]
#[expect(clippy::struct_field_names, reason = "the unit stands in the name")]
pub struct Station {
    /// Distance forward of the transom, in metres.
    pub from_transom_m: f64,
    /// From the centreline to the port edge, in metres.
    pub port_m: f64,
    /// From the centreline to the starboard edge, in metres.
    pub starboard_m: f64,
}

impl Station {
    /// A station whose two sides are the same.
    pub const fn symmetric(from_transom_m: f64, half_width_m: f64) -> Self {
        Self {
            from_transom_m,
            port_m: half_width_m,
            starboard_m: half_width_m,
        }
    }

    /// Its point on the port edge.
    pub const fn port(&self) -> Vec2 {
        vec2(self.from_transom_m, self.port_m)
    }

    /// Its point on the starboard edge.
    pub const fn starboard(&self) -> Vec2 {
        vec2(self.from_transom_m, -self.starboard_m)
    }
}

/// How the deck ends forward of the last station.
#[derive(Copy, Clone, Debug, PartialEq)]
pub enum Bow {
    /// Square across the last station.
    Square,

    /// Straight from the last station to the stem.
    Straight {
        /// Distance of the stem from the transom, in metres.
        stem_m: f64,
    },

    /// The arc of a circle from edge to edge through the stem.
    Arc {
        /// Distance of the stem from the transom, in metres.
        stem_m: f64,
    },

    /// A fair curve through the stations from one on, and through the stem.
    Fair {
        /// Distance of the stem from the transom, in metres.
        stem_m: f64,
        /// The station, counted from 0 at the transom, from which on the edge is curved.
        from_station: usize,
    },
}

/// The outline of a deck from stations.
#[derive(Clone, Debug, PartialEq)]
pub struct StationOutline {
    /// The edge, from the starboard corner of the transom round the bow to the port one.
    pub outline: Outline,

    /// How far the curve of the bow lies from the straight pieces that stand for it, at most, in metres;
    /// 0 where there is no curve.
    pub deviation_m: f64,

    /// How much the two sides of a station differ at most, in metres.
    pub asymmetry_m: f64,
}

/// Why stations give no outline. Stations are counted from 1 at the transom, as on the sheet.
#[derive(Copy, Clone, Debug, PartialEq, thiserror::Error)]
pub enum StationError {
    /// Too few.
    #[error("an outline needs at least 2 stations, or 1 and the stem")]
    TooFew,

    /// A reading that is no length.
    #[error("station {station} has a reading below zero or none at all")]
    NotALength {
        /// Which.
        station: usize,
    },

    /// The stations go back.
    #[error("station {station} is not forward of the one before it")]
    NotForward {
        /// Which.
        station: usize,
    },

    /// The stem lies behind the last station.
    #[error("the stem, at {stem_m:.3} m, is not forward of the last station, at {last_m:.3} m")]
    StemBehind {
        /// Where the stem is.
        stem_m: f64,
        /// Where the last station is.
        last_m: f64,
    },

    /// A station without width that is not the last.
    #[error("station {station} has no width: only the last one may be the stem")]
    NoWidth {
        /// Which.
        station: usize,
    },

    /// The arc would be wider than the last station.
    #[error(
        "an arc of {ahead_m:.2} m ahead of a half-width of {half_width_m:.2} m would be wider than the last \
         station: add a station nearer to the stem or take the fair curve"
    )]
    ArcTooDeep {
        /// From the last station to the stem.
        ahead_m: f64,
        /// The half-width of the last station.
        half_width_m: f64,
    },

    /// The curve was to begin at a station that is not there.
    #[error("there is no station {station} from which the curve could begin")]
    NoSuchStation {
        /// Which.
        station: usize,
    },

    /// The edge crosses itself or encloses nothing.
    #[error("the stations give no outline: {0}")]
    Outline(#[from] OutlineError),
}

/// The outline of a deck from stations, aft to forward, and the bow.
///
/// Straight from station to station; the curve of the bow is cut into straight pieces that lie within
/// `deviation_m` of it. Port and starboard may differ.
///
/// # Assumptions
///
/// The centreline is the line along which the stations were measured; half-widths were held square to
/// it. A half-width held askew by *a* reads too long by `1/cos a`: 1.5 % at 10°.
///
/// # Accuracy
///
/// As exact as the readings, but for the stated deviation.
pub fn station_outline(
    stations: &[Station],
    bow: Bow,
    deviation_m: f64,
) -> Result<StationOutline, StationError> {
    check(stations, bow)?;
    let (starboard, port): (Vec<_>, Vec<_>) =
        stations.iter().map(|s| (s.starboard(), s.port())).unzip();
    let (last_starboard, last_port) = (starboard[starboard.len() - 1], port[port.len() - 1]);
    let (mut edge, mut deviation) = (starboard.clone(), 0.0);
    match bow {
        Bow::Square => edge.extend(port.iter().rev()),
        Bow::Straight { stem_m } => {
            edge.push(vec2(stem_m, 0.0));
            edge.extend(port.iter().rev());
        }
        Bow::Arc { stem_m } => {
            let arc = arc_through(last_starboard, vec2(stem_m, 0.0), last_port, deviation_m);
            let (corners, off) = arc.ok_or(StationError::StemBehind {
                stem_m,
                last_m: last_port.x,
            })?;
            deviation = off;
            edge.extend(&corners[1..]);
            edge.extend(port.iter().rev().skip(1));
        }
        Bow::Fair {
            stem_m,
            from_station,
        } => {
            let mut points = starboard[from_station..].to_vec();
            points.push(vec2(stem_m, 0.0));
            points.extend(port[from_station..].iter().rev());
            // A last station that is the stem itself stands for it.
            points.dedup_by(|a, b| a.distance(*b) < SAME_POINT_M);
            let (corners, off) = fair_curve(&points, deviation_m);
            deviation = off;
            edge.truncate(from_station);
            edge.extend(corners);
            edge.extend(port[..from_station].iter().rev());
        }
    }
    edge.dedup_by(|a, b| a.distance(*b) < SAME_POINT_M);
    let sides = stations.iter().map(|s| (s.port_m - s.starboard_m).abs());
    Ok(StationOutline {
        outline: Outline::new(edge)?,
        deviation_m: deviation,
        asymmetry_m: sides.fold(0.0, f64::max),
    })
}

fn check(stations: &[Station], bow: Bow) -> Result<(), StationError> {
    for (i, s) in stations.iter().enumerate() {
        let readings = [s.from_transom_m, s.port_m, s.starboard_m];
        if !readings.iter().all(|r| r.is_finite() && *r >= 0.0) {
            return Err(StationError::NotALength { station: i + 1 });
        }
        if i > 0 && s.from_transom_m < stations[i - 1].from_transom_m + SAME_POINT_M {
            return Err(StationError::NotForward { station: i + 1 });
        }
        if i + 1 < stations.len() && s.port_m + s.starboard_m < SAME_POINT_M {
            return Err(StationError::NoWidth { station: i + 1 });
        }
    }
    let stem_m = match bow {
        Bow::Square => None,
        Bow::Straight { stem_m } | Bow::Arc { stem_m } | Bow::Fair { stem_m, .. } => Some(stem_m),
    };
    let Some(last) = stations.last() else {
        return Err(StationError::TooFew);
    };
    let Some(stem_m) = stem_m else {
        let enough = stations.len() >= 2;
        return enough.then_some(()).ok_or(StationError::TooFew);
    };
    let width = last.port_m + last.starboard_m;
    let is_stem = width < SAME_POINT_M && (stem_m - last.from_transom_m).abs() < SAME_POINT_M;
    let is_ahead = stem_m > last.from_transom_m + SAME_POINT_M && stem_m.is_finite();
    // An arc needs two ends apart from the stem.
    let ends_there = is_stem && !matches!(bow, Bow::Arc { .. });
    if !is_ahead && !ends_there {
        return Err(StationError::StemBehind {
            stem_m,
            last_m: last.from_transom_m,
        });
    }
    match bow {
        Bow::Arc { .. } => {
            let ahead_m = stem_m - last.from_transom_m;
            let half_width_m = last.port_m.min(last.starboard_m);
            // Within a millimetre of half a circle it still counts as one.
            if ahead_m > half_width_m + 1e-3 {
                return Err(StationError::ArcTooDeep {
                    ahead_m,
                    half_width_m,
                });
            }
        }
        Bow::Fair { from_station, .. } if from_station >= stations.len() => {
            return Err(StationError::NoSuchStation {
                station: from_station + 1,
            });
        }
        _ => {}
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::test_support::cases;
    use proptest::prelude::*;
    use std::f64::consts::PI;

    fn symmetric(readings: &[(f64, f64)]) -> Vec<Station> {
        let stations = readings.iter().map(|(x, w)| Station::symmetric(*x, *w));
        stations.collect()
    }

    #[test]
    fn straight_stations_give_their_own_corners() {
        let stations = symmetric(&[(0.0, 1.2), (4.0, 1.3)]);
        let made = station_outline(&stations, Bow::Straight { stem_m: 6.0 }, 1e-3).unwrap();
        let corners = [(0.0, -1.2), (4.0, -1.3), (6.0, 0.0), (4.0, 1.3), (0.0, 1.2)];
        let expected: Vec<_> = corners.iter().map(|(x, y)| vec2(*x, *y)).collect();
        assert_eq!(made.outline.vertices(), expected);
        assert_eq!((made.deviation_m, made.asymmetry_m), (0.0, 0.0));
    }

    #[test]
    fn a_half_round_bow_encloses_half_a_disc() {
        let stations = symmetric(&[(0.0, 1.0), (3.0, 1.0)]);
        let made = station_outline(&stations, Bow::Arc { stem_m: 4.0 }, 1e-5).unwrap();
        // Straight pieces within 0.01 mm of a half circle 3.14 m long: at most 0.03 m² × 1e-3 less.
        assert!((made.outline.area() - (6.0 + PI / 2.0)).abs() < 3.2e-5);
        assert!(made.deviation_m <= 1e-5);
    }

    #[test]
    fn a_fair_bow_passes_through_every_station() {
        let stations = symmetric(&[(0.0, 1.2), (3.0, 1.3), (5.0, 1.1), (6.2, 0.6)]);
        let bow = Bow::Fair {
            stem_m: 6.8,
            from_station: 1,
        };
        let made = station_outline(&stations, bow, 2e-3).unwrap();
        for station in &stations {
            assert!(made.outline.vertices().contains(&station.port()));
            assert!(made.outline.vertices().contains(&station.starboard()));
        }
        assert!(made.deviation_m > 0.0 && made.deviation_m <= 2e-3);
    }

    #[test]
    fn a_slip_on_the_sheet_is_named_by_its_station() {
        let square = |readings: &[(f64, f64)]| {
            station_outline(&symmetric(readings), Bow::Square, 1e-3).unwrap_err()
        };
        assert_eq!(square(&[]), StationError::TooFew);
        assert_eq!(square(&[(0.0, 1.0)]), StationError::TooFew);
        let back = square(&[(0.0, 1.0), (3.0, 1.0), (2.0, 1.0)]);
        assert_eq!(back, StationError::NotForward { station: 3 });
        let none = square(&[(0.0, 1.0), (3.0, f64::NAN)]);
        assert_eq!(none, StationError::NotALength { station: 2 });
        let stations = symmetric(&[(0.0, 1.0), (3.0, 0.5)]);
        let deep = station_outline(&stations, Bow::Arc { stem_m: 5.0 }, 1e-3).unwrap_err();
        assert!(matches!(deep, StationError::ArcTooDeep { .. }), "{deep}");
        let behind = station_outline(&stations, Bow::Straight { stem_m: 2.0 }, 1e-3).unwrap_err();
        assert!(
            matches!(behind, StationError::StemBehind { .. }),
            "{behind}"
        );
    }

    proptest! {
        #![proptest_config(cases(60))]

        /// What is symmetric stays so, to the last bit, whatever the bow; nothing panics.
        #[test]
        fn symmetric_stations_give_a_symmetric_outline(
            steps in prop::collection::vec((0.2_f64..2.0, 0.3_f64..2.0), 1..7),
            ahead in 0.0_f64..1.5,
            kind in 0..4,
        ) {
            let mut at = 0.0;
            let stations: Vec<_> = steps.iter().map(|(step, half)| {
                let station = Station::symmetric(at, *half);
                at += step;
                station
            }).collect();
            let stem_m = stations[stations.len() - 1].from_transom_m + ahead;
            let bow = match kind {
                0 => Bow::Square,
                1 => Bow::Straight { stem_m },
                2 => Bow::Arc { stem_m },
                _ => Bow::Fair { stem_m, from_station: stations.len() / 2 },
            };
            if let Ok(made) = station_outline(&stations, bow, 1e-3) {
                let vertices = made.outline.vertices();
                for v in vertices {
                    let mirrored = v.mirrored_y();
                    let nearest = vertices.iter().map(|w| w.distance(mirrored)).fold(9.0, f64::min);
                    prop_assert!(nearest < 1e-9, "{v:?} has no mirror image");
                }
                prop_assert!(made.deviation_m <= 1e-3);
            }
        }
    }
}
