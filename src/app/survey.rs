//! The deck as tape readings, as typed, and what they give.

use super::words::survey as words;
use crate::geometry::survey::{
    Bow, Covariance, Judgement, Located, Misclosure, Network, Reading, ReadingKind, Station,
    StationError, StationOutline, misclosure, station_outline,
};
use crate::geometry::{Vec2, vec2};
use crate::layout::Point;
use crate::units::{self, Quantity, System};

/// How far the curve of a bow may lie from the straight pieces that stand for it: less than a tape tells.
const DEVIATION_M: f64 = 0.002;

/// How the deck ends forward.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum BowTyped {
    /// Straight from reading to reading.
    #[default]
    Straight,
    /// The arc of a circle through the stem.
    Round,
    /// A fair curve through the readings.
    Fair,
}

impl BowTyped {
    /// All of them.
    pub(crate) const ALL: [Self; 3] = [Self::Straight, Self::Round, Self::Fair];
}

/// What is asked of a deck by tape, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct DeckSurvey {
    /// Stations, one per line: distance from the stern; half-width.
    pub(crate) stations: String,
    /// How the deck ends forward.
    pub(crate) bow: BowTyped,
    /// The station, counted from 1, from which on a fair curve runs.
    pub(crate) fair_from: usize,
    /// Diagonals, one per line: `1P 3S 4.52 m`.
    pub(crate) diagonals: String,
    /// How far off a reading may be, twice its standard error.
    pub(crate) accuracy: String,
}

impl DeckSurvey {
    /// Begins with the stations of a deck as it is.
    pub(crate) fn of(outline: &[Point], system: System) -> Self {
        let mut stations: Vec<Point> = outline.iter().filter(|[_, y]| *y >= 0.0).copied().collect();
        stations.sort_by(|a, b| a[0].total_cmp(&b[0]).then(b[1].total_cmp(&a[1])));
        let show = |value: f64| Quantity::Length.show(value, system);
        let lines = stations
            .iter()
            .map(|[x, half]| format!("{}; {}", show(*x), show(*half)));
        Self {
            stations: lines.collect::<Vec<_>>().join("\n"),
            fair_from: 2,
            accuracy: Quantity::SmallLength.show(0.01, system),
            ..Self::default()
        }
    }

    /// What the readings give.
    pub(crate) fn worked(&self, system: System) -> Worked {
        let stations = match stations(&self.stations, system) {
            Ok(stations) => stations,
            Err(why) => return Worked::nothing(why),
        };
        let accuracy_m = match units::parse(&self.accuracy, Quantity::SmallLength, system) {
            Ok(accuracy_m) if accuracy_m > 0.0 => accuracy_m,
            Ok(_) => return Worked::nothing(words::NO_ACCURACY.to_owned()),
            Err(why) => return Worked::nothing(why.to_string()),
        };
        let made = self.outline(&stations);
        let (diagonals, troubles) = self.diagonals(&stations, 0.5 * accuracy_m, system);
        let suspect = suspect(&stations, &diagonals, 0.5 * accuracy_m);
        Worked {
            made,
            diagonals,
            troubles,
            suspect,
        }
    }

    fn outline(&self, stations: &[Station]) -> Result<StationOutline, String> {
        let told = |error| match error {
            StationError::Outline(_) => words::NO_OUTLINE_YET.to_owned(),
            other => other.to_string(),
        };
        if self.bow == BowTyped::Straight {
            return station_outline(stations, Bow::Square, DEVIATION_M).map_err(told);
        }
        let (stem, aft) = match stations.split_last() {
            Some((last, aft)) if last.port_m == 0.0 && !aft.is_empty() => (last, aft),
            _ => return Err(words::NO_STEM.to_owned()),
        };
        let stem_m = stem.from_transom_m;
        let bow = if self.bow == BowTyped::Round {
            Bow::Arc { stem_m }
        } else {
            let from_station = self.fair_from.saturating_sub(1).min(aft.len() - 1);
            Bow::Fair {
                stem_m,
                from_station,
            }
        };
        station_outline(aft, bow, DEVIATION_M).map_err(told)
    }

    fn diagonals(
        &self,
        stations: &[Station],
        standard_error_m: f64,
        system: System,
    ) -> (Vec<Diagonal>, Vec<String>) {
        let (mut found, mut troubles) = (Vec::new(), Vec::new());
        for (i, line) in self.diagonals.lines().enumerate() {
            if line.trim().is_empty() {
                continue;
            }
            match diagonal(line, stations, standard_error_m, system) {
                Ok(diagonal) => found.push(diagonal),
                Err(why) => troubles.push(words::in_diagonal(i + 1, &why)),
            }
        }
        (found, troubles)
    }
}

/// What readings give.
#[derive(Clone, Debug)]
pub(crate) struct Worked {
    /// The outline, or why there is none.
    pub(crate) made: Result<StationOutline, String>,
    /// The diagonals that were understood.
    pub(crate) diagonals: Vec<Diagonal>,
    /// What was not understood.
    pub(crate) troubles: Vec<String>,
    /// Which reading is most likely wrong, in a sentence.
    pub(crate) suspect: Option<String>,
}

impl Worked {
    fn nothing(why: String) -> Self {
        Self {
            made: Err(why),
            diagonals: Vec::new(),
            troubles: Vec::new(),
            suspect: None,
        }
    }

    /// The corners of the outline, to the tenth of a millimetre: feet and inches as typed stay what they are.
    pub(crate) fn points(&self) -> Option<Vec<Point>> {
        let made = self.made.as_ref().ok()?;
        let vertices = made.outline.vertices().iter();
        let tenth = |value: f64| (value * 10_000.0).round() / 10_000.0 + 0.0;
        Some(vertices.map(|p| [tenth(p.x), tenth(p.y)]).collect())
    }
}

/// A diagonal and what it says.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Diagonal {
    /// Its ends as the readings call them: `1 P – 3 S`.
    pub(crate) name: String,
    /// Its ends, by station and side.
    ends: [End; 2],
    /// Where they are.
    pub(crate) from: Vec2,
    /// See above.
    pub(crate) to: Vec2,
    /// What was read, in metres.
    reading_m: f64,
    /// How far it is off.
    pub(crate) misclosure: Misclosure,
}

impl Diagonal {
    /// Does it agree with the stations?
    pub(crate) fn agrees(&self) -> bool {
        self.misclosure.judgement == Judgement::Agrees
    }
}

/// A point on the edge: a station, counted from 0, and a side.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(crate) struct End {
    /// See above.
    pub(crate) station: usize,
    /// To port?
    pub(crate) port: bool,
}

impl End {
    fn at(self, stations: &[Station]) -> Option<Vec2> {
        let station = stations.get(self.station)?;
        Some(if self.port {
            station.port()
        } else {
            station.starboard()
        })
    }

    /// `1 P`.
    pub(crate) fn name(self) -> String {
        words::end(self.station + 1, self.port)
    }
}

/// One reading per line: distance from the stern, then half-width, parted by a semicolon or, where each is
/// one word, by a space. A third reading is the half-width to starboard where that is another.
pub(crate) fn stations(text: &str, system: System) -> Result<Vec<Station>, String> {
    let mut readings = Vec::new();
    for (index, line) in text.lines().enumerate() {
        let line = line.trim();
        if line.is_empty() {
            continue;
        }
        let parts: Vec<&str> = if line.contains(';') {
            line.split(';').collect()
        } else {
            line.split_whitespace().collect()
        };
        let read = |text: &str| {
            units::parse(text, Quantity::Length, system)
                .map_err(|err| super::words::dialogs::in_line(index + 1, &err.to_string()))
        };
        let (from_transom_m, port_m, starboard_m) = match parts[..] {
            [along, half] => (read(along)?, read(half)?, read(half)?),
            [along, port, starboard] => (read(along)?, read(port)?, read(starboard)?),
            _ => return Err(super::words::dialogs::two_readings(index + 1)),
        };
        readings.push(Station {
            from_transom_m,
            port_m,
            starboard_m,
        });
    }
    Ok(readings)
}

/// `1P 3S 4.52 m`.
fn diagonal(
    line: &str,
    stations: &[Station],
    standard_error_m: f64,
    system: System,
) -> Result<Diagonal, String> {
    let (first, rest) = end(line).ok_or(words::DIAGONAL_FORM)?;
    let (second, rest) = end(rest).ok_or(words::DIAGONAL_FORM)?;
    let reading_m = units::parse(rest.trim_start_matches(';'), Quantity::Length, system)
        .map_err(|err| err.to_string())?;
    let place = |end: End| {
        end.at(stations)
            .ok_or_else(|| words::no_station(end.station + 1))
    };
    let (from, to) = (place(first)?, place(second)?);
    if first == second || from == to {
        return Err(words::SAME_ENDS.to_owned());
    }
    let located = |at: Vec2| Located {
        at,
        covariance: Covariance::round(standard_error_m),
    };
    Ok(Diagonal {
        name: format!("{} – {}", first.name(), second.name()),
        ends: [first, second],
        from,
        to,
        reading_m,
        misclosure: misclosure(located(from), located(to), reading_m, standard_error_m),
    })
}

/// A point at the beginning of a text, and the rest of it.
pub(crate) fn end(text: &str) -> Option<(End, &str)> {
    let text = text.trim_start_matches([' ', '\t', '-', '–', ';', ',']);
    let digits = text.find(|c: char| !c.is_ascii_digit())?;
    let number: usize = text[..digits].parse().ok()?;
    let rest = text[digits..].trim_start();
    let mut letters = rest.chars();
    let port = match letters.next()?.to_ascii_uppercase() {
        'P' => true,
        'S' => false,
        _ => return None,
    };
    let station = number.checked_sub(1)?;
    Some((End { station, port }, letters.as_str()))
}

/// The reading that is most likely wrong, by all of them together: stations and diagonals, every point free
/// to move.
fn suspect(stations: &[Station], diagonals: &[Diagonal], standard_error_m: f64) -> Option<String> {
    if diagonals.is_empty() {
        return None;
    }
    let mut network = Network::default();
    let mut names = Vec::new();
    let mut add = |kind, value_m, name: String| {
        network.readings.push(Reading {
            kind,
            value_m,
            standard_error_m,
        });
        names.push(name);
    };
    let sides = [true, false];
    for (station, read) in stations.iter().enumerate() {
        for (side, port) in sides.into_iter().enumerate() {
            let end = End { station, port };
            let point = 2 * station + side;
            let across = if port { read.port_m } else { -read.starboard_m };
            let along = read.from_transom_m;
            add(
                ReadingKind::Along { point },
                along,
                words::along(station + 1),
            );
            add(
                ReadingKind::Across { point },
                across,
                words::half_width(&end.name()),
            );
        }
    }
    let point = |end: End| 2 * end.station + usize::from(!end.port);
    for diagonal in diagonals {
        let [from, to] = diagonal.ends.map(point);
        let kind = ReadingKind::Distance { from, to };
        add(kind, diagonal.reading_m, words::diagonal(&diagonal.name));
    }
    for read in stations {
        network.points.push((read.port(), false));
        network.points.push((read.starboard(), false));
    }
    let adjusted = network.adjust().ok()?;
    // Diagonals stand last and are read again most easily: they are named first.
    let mut suspects = adjusted.suspects;
    suspects.sort_unstable_by(|a, b| b.cmp(a));
    let suspects = suspects.into_iter().filter_map(|i| names.get(i));
    let suspects: Vec<&str> = suspects.map(String::as_str).collect();
    (!suspects.is_empty()).then(|| words::likely_wrong(&suspects))
}

/// The part of the plan round an outline.
pub(crate) fn around(points: &[Vec2]) -> crate::geometry::Bounds {
    let corners = points.iter().copied().chain([vec2(0.0, 0.0)]);
    crate::geometry::Bounds::of(corners)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn survey(stations: &str, diagonals: &str) -> DeckSurvey {
        DeckSurvey {
            stations: stations.to_owned(),
            diagonals: diagonals.to_owned(),
            accuracy: "10 mm".to_owned(),
            fair_from: 2,
            ..DeckSurvey::default()
        }
    }

    #[test]
    fn tape_readings_are_read_line_by_line() {
        let text = "0 2.1\n6 m; 2,1 m; 2,0 m\n\n38 ft ; 0";
        let readings = stations(text, System::Metric).unwrap();
        assert_eq!(readings.len(), 3);
        assert!((readings[1].starboard_m - 2.0).abs() < 1e-12);
        assert!(
            (readings[2].from_transom_m - 11.5824).abs() < 1e-9,
            "{readings:?}"
        );
        let err = stations("0 2\n5", System::Metric).unwrap_err();
        assert!(err.contains('2'), "names the line: {err}");
        let err = stations("0 2\n5 x", System::Metric).unwrap_err();
        assert!(err.contains("no number"), "{err}");
    }

    #[test]
    fn a_deck_is_made_of_them_with_any_bow() {
        let mut survey = survey("0 1.2\n4 1.3\n6 0.9\n6.8 0", "");
        let straight = survey.worked(System::Metric).points().unwrap();
        assert_eq!(straight.len(), 7, "the stem is one corner: {straight:?}");
        survey.bow = BowTyped::Round;
        let round = survey.worked(System::Metric).made.unwrap();
        assert!(round.deviation_m > 0.0 && round.deviation_m <= DEVIATION_M);
        survey.bow = BowTyped::Fair;
        assert!(survey.worked(System::Metric).points().unwrap().len() > 12);
        survey.stations = "0 1.2\n4 1.3".to_owned();
        assert_eq!(
            survey.worked(System::Metric).made.unwrap_err(),
            words::NO_STEM
        );
    }

    #[test]
    fn the_station_that_was_misread_is_named() {
        // A box of 4 by 2 m; the half-width of station 2 to port reads 1.10 m for 1.00.
        let diagonal = 20.0_f64.sqrt();
        let lines =
            format!("1P 2S {diagonal}\n1 S – 2 P {diagonal}\n2p 2s 2 m\n1P 1S 2 m\n1P 2P 4");
        let found = survey("0 1\n4; 1.1; 1", &lines).worked(System::Metric);
        assert!(found.troubles.is_empty(), "{:?}", found.troubles);
        assert_eq!(
            found.suspect.unwrap(),
            words::likely_wrong(&[&words::half_width("2 P")])
        );
        // One diagonal alone cannot tell whether it is wrong itself or a reading at its ends.
        let single = survey("0 1\n4 1", "1P 2S 4.6").worked(System::Metric);
        assert!(single.suspect.unwrap().starts_with("One of these is wrong"));
        assert!(found.diagonals[0].agrees());
        assert!(!found.diagonals[2].agrees());
        let off = found.diagonals[2].misclosure.off_m;
        assert!((off + 0.1).abs() < 1e-12, "{off}");
    }

    #[test]
    fn what_is_no_diagonal_is_told_by_its_line() {
        let found =
            survey("0 1\n4 1", "1P 2S 4.4\n7P 1S 3\nfoo\n1P 1P 2\n0P 1S 2").worked(System::Metric);
        assert_eq!((found.diagonals.len(), found.troubles.len()), (1, 4));
        assert!(found.troubles[0].contains("line 2") && found.troubles[0].contains('7'));
    }
}
