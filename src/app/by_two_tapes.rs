//! Something built onto the deck by its corners, or single points, places and racks, each by two tapes from
//! corners of the deck, as typed.

use super::here::mm;
use super::stores::{PLACES, POINTS, RACKS, StoreItem, point_height_m};
use super::survey::{End, end};
use super::words::by_two_tapes as words;
use crate::geometry::survey::{
    Conditioning, Covariance, Located, TapeFix, TapeSide, fix_by_two_tapes,
};
use crate::geometry::{Outline, Vec2, vec2};
use crate::layout::{Fixture, FixtureKind, Point};
use crate::units::{self, Quantity, System};

/// A corner of the deck to port has its image to starboard within this, in metres.
const TWIN_M: f64 = 0.02;

/// What was measured.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) enum Measured {
    /// The corners of one thing that is built on.
    #[default]
    BuiltOn,
    /// One thing from the stores at each spot: a lashing point, a place, the middle of a rack.
    Each(StoreItem),
    /// Where the thing that is selected is.
    Selected,
}

impl Measured {
    /// All that can be chosen, in the order in which it is shown.
    pub(crate) fn all() -> Vec<Self> {
        let each = POINTS.map(StoreItem::Point).into_iter();
        let each = each.chain(PLACES.map(StoreItem::Place));
        let each = each.chain(RACKS.map(StoreItem::Rack));
        [Self::BuiltOn, Self::Selected]
            .into_iter()
            .chain(each.map(Self::Each))
            .collect()
    }

    /// How high it is above the deck unless somebody says so; nothing where that is not asked.
    pub(crate) fn usual_height_m(&self) -> Option<f64> {
        match self {
            Self::BuiltOn => Some(0.45),
            Self::Each(StoreItem::Point(kind)) => Some(point_height_m(*kind)),
            Self::Each(_) | Self::Selected => None,
        }
    }
}

/// What is asked, as typed.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct TwoTapes {
    /// What was measured.
    pub(crate) what: Measured,

    /// What it is called.
    pub(crate) name: String,
    /// Its corners, one per line: `1P 2.31; 1S 3.02`.
    pub(crate) corners: String,
    /// How far it reaches beyond two corners, away from the tapes.
    pub(crate) depth: String,
    /// How high its top is.
    pub(crate) height: String,
    /// How far off a reading may be, twice its standard error.
    pub(crate) accuracy: String,
}

/// A corner that was fixed, with the points that it was measured from.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Corner {
    /// Where it is, and how well.
    pub(crate) fix: TapeFix,
    /// The two known corners.
    pub(crate) from: [Vec2; 2],
}

/// What the readings give.
#[derive(Clone, Debug, Default)]
pub(crate) struct Fixed {
    /// The corners that were understood.
    pub(crate) corners: Vec<Corner>,
    /// What was not understood, or cannot be.
    pub(crate) troubles: Vec<String>,
    /// The outline that they make.
    pub(crate) outline: Option<Vec<Point>>,
}

impl TwoTapes {
    /// Begins with usual values.
    pub(crate) fn new(system: System) -> Self {
        Self {
            height: shown(Measured::default().usual_height_m(), system),
            accuracy: Quantity::SmallLength.show(0.01, system),
            ..Self::default()
        }
    }

    /// The same for something else, at its usual height.
    pub(crate) fn of(mut self, what: Measured, system: System) -> Self {
        self.height = shown(what.usual_height_m(), system);
        self.what = what;
        self
    }

    /// What the readings give on a deck.
    pub(crate) fn worked(&self, deck: &[Point], system: System) -> Fixed {
        let mut found = Fixed::default();
        let accuracy = units::parse(&self.accuracy, Quantity::SmallLength, system);
        let accuracy_m = match accuracy {
            Ok(value) if value > 0.0 => value,
            _ => {
                found.troubles.push(words::NO_ACCURACY.to_owned());
                return found;
            }
        };
        for (i, line) in self.corners.lines().enumerate() {
            if line.trim().is_empty() {
                continue;
            }
            match corner(line, deck, 0.5 * accuracy_m, system) {
                Ok(corner) => found.corners.push(corner),
                Err(why) => found.troubles.push(words::in_line(i + 1, &why)),
            }
        }
        if found.troubles.is_empty() && self.what == Measured::BuiltOn {
            match self.outline(&found.corners, system) {
                Ok(outline) => found.outline = outline,
                Err(why) => found.troubles.push(why),
            }
        }
        found
    }

    /// The outline; none yet while there are fewer than two corners.
    fn outline(&self, corners: &[Corner], system: System) -> Result<Option<Vec<Point>>, String> {
        let mut points: Vec<Vec2> = corners.iter().map(|corner| corner.fix.at).collect();
        if let ([first, second], [a, b]) = (corners, &points[..]) {
            let (a, b) = (*a, *b);
            let depth = units::parse(&self.depth, Quantity::Length, system);
            let depth_m = depth.ok().ok_or(words::DEPTH_WANTED)?;
            let side = (b - a).normalized().ok_or(words::NO_SHAPE)?.perp();
            let known = first.from.iter().chain(&second.from);
            let known = known.fold(Vec2::ZERO, |sum, p| sum + *p) / 4.0;
            // Away from where the tapes were held.
            let away = if side.dot(known - a) > 0.0 {
                -side
            } else {
                side
            };
            points.extend([b + depth_m * away, a + depth_m * away]);
        }
        if points.len() < 3 {
            return Ok(None);
        }
        let rounded: Vec<Point> = points.iter().map(|p| [mm(p.x), mm(p.y)]).collect();
        let checked = Outline::new(rounded.iter().map(|p| vec2(p[0], p[1])).collect());
        let sound = checked.is_ok().then_some(rounded);
        sound.map(Some).ok_or_else(|| words::NO_SHAPE.to_owned())
    }

    /// The fixture with that outline.
    pub(crate) fn fixture(
        &self,
        id: String,
        deck: &str,
        outline: Vec<Point>,
        system: System,
    ) -> Result<Fixture, String> {
        let height = units::parse(&self.height, Quantity::Length, system);
        let name = self.name.trim();
        Ok(Fixture {
            id,
            name: (!name.is_empty()).then(|| name.to_owned()),
            deck: deck.to_owned(),
            kind: FixtureKind::Other,
            outline,
            height_m: height.map_err(|error| error.to_string())?,
            underside_m: 0.0,
            walked_on: false,
            clear_floor_m: None,
            front_deg: None,
            must_stay_open: Vec::new(),
            opens_over: Vec::new(),
            backing_kn: None,
            shelf: None,
        })
    }
}

impl Fixed {
    /// The spots, to the millimetre.
    pub(crate) fn spots(&self) -> Vec<Point> {
        let spots = self.corners.iter().map(|corner| corner.fix.at);
        spots.map(|at| [mm(at.x), mm(at.y)]).collect()
    }

    /// Is it enough for what was measured?
    pub(crate) fn is_enough(&self, what: &Measured) -> bool {
        self.troubles.is_empty()
            && match what {
                Measured::BuiltOn => self.outline.is_some(),
                Measured::Each(_) => !self.corners.is_empty(),
                Measured::Selected => self.corners.len() == 1,
            }
    }
}

fn shown(height_m: Option<f64>, system: System) -> String {
    height_m.map_or_else(String::new, |m| Quantity::Length.show(m, system))
}

/// The corners of a deck by the numbers of the deck by tape: from the stern forward, P and S.
pub(crate) fn known_corners(deck: &[Point]) -> Vec<(String, Vec2)> {
    let mut port: Vec<Point> = deck.iter().filter(|[_, y]| *y >= 0.0).copied().collect();
    port.sort_by(|a, b| a[0].total_cmp(&b[0]).then(b[1].total_cmp(&a[1])));
    let mut known = Vec::new();
    for (station, [x, y]) in port.into_iter().enumerate() {
        let at = vec2(x, y);
        known.push((
            End {
                station,
                port: true,
            }
            .name(),
            at,
        ));
        let twin = deck.iter().map(|p| vec2(p[0], p[1]));
        let mut twin = twin.filter(|p| y > 0.0 && p.distance(at.mirrored_y()) < TWIN_M);
        if let Some(twin) = twin.next() {
            known.push((
                End {
                    station,
                    port: false,
                }
                .name(),
                twin,
            ));
        }
    }
    known
}

/// `1P 2.31; 1S 3.02`, with `forward`, `aft`, `port` or `starboard` behind it where both crossings of the
/// tapes lie on the deck.
fn corner(
    line: &str,
    deck: &[Point],
    standard_error_m: f64,
    system: System,
) -> Result<Corner, String> {
    let (first, second) = line.split_once(';').ok_or(words::CORNER_FORM)?;
    let (a, first) = end(first).ok_or(words::CORNER_FORM)?;
    let (b, second) = end(second).ok_or(words::CORNER_FORM)?;
    let second = second.trim_end();
    let (second, way) = match second.rsplit_once(char::is_whitespace) {
        Some((length, word)) if way(word).is_some() => (length, way(word)),
        _ => (second, None),
    };
    let length = |text: &str| {
        units::parse(text, Quantity::Length, system).map_err(|error| error.to_string())
    };
    let (first_m, second_m) = (length(first)?, length(second)?);
    let known = known_corners(deck);
    let place = |end: End| {
        let found = known.iter().find(|(name, _)| *name == end.name());
        found
            .map(|(_, at)| *at)
            .ok_or_else(|| words::no_corner(&end.name()))
    };
    let from = [place(a)?, place(b)?];
    let [near, far] = from.map(|at| Located {
        at,
        covariance: Covariance::round(standard_error_m),
    });
    let both = [TapeSide::Left, TapeSide::Right]
        .map(|side| fix_by_two_tapes(near, first_m, far, second_m, side, standard_error_m));
    let [left, right] = both;
    let (left, right) = (left.map_err(told)?, right.map_err(told)?);
    let fix = if let Some(way) = way {
        if way.dot(left.at - right.at) > 0.0 {
            left
        } else {
            right
        }
    } else {
        let floor = Outline::new(deck.iter().map(|p| vec2(p[0], p[1])).collect()).ok();
        let on_deck = |fix: &TapeFix| floor.as_ref().is_some_and(|floor| floor.contains(fix.at));
        match (on_deck(&left), on_deck(&right)) {
            (true, false) => left,
            (false, true) => right,
            (true, true) => return Err(words::WHICH_SIDE.to_owned()),
            (false, false) => return Err(words::OFF_THE_DECK.to_owned()),
        }
    };
    Ok(Corner { fix, from })
}

fn told(error: crate::geometry::survey::TapeError) -> String {
    error.to_string()
}

fn way(word: &str) -> Option<Vec2> {
    match word.to_lowercase().as_str() {
        "forward" | "f" => Some(vec2(1.0, 0.0)),
        "aft" | "a" => Some(vec2(-1.0, 0.0)),
        "port" | "p" => Some(vec2(0.0, 1.0)),
        "starboard" | "s" => Some(vec2(0.0, -1.0)),
        _ => None,
    }
}

impl Corner {
    /// What is told of it.
    pub(crate) fn told(&self, number: usize, system: System) -> String {
        let [x, y] = [self.fix.at.x, self.fix.at.y].map(|v| Quantity::Length.show(v, system));
        // Two standard errors in the worst direction.
        let worst_mm = 2.0 * self.fix.ellipse.major_m * 1e3;
        let angle_deg = self.fix.meeting_angle_rad.to_degrees();
        let flat = self.fix.conditioning == Conditioning::Flat;
        words::corner(number, [&x, &y], worst_mm, angle_deg, flat)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const DECK: [Point; 5] = [[0.0, -1.2], [4.0, -1.2], [6.0, 0.0], [4.0, 1.2], [0.0, 1.2]];

    fn typed(corners: &str, depth: &str) -> TwoTapes {
        TwoTapes {
            corners: corners.to_owned(),
            depth: depth.to_owned(),
            ..TwoTapes::new(System::Metric)
        }
    }

    #[test]
    fn a_box_by_two_corners_and_its_depth() {
        // (1.0, 0.2) and (1.0, 0.8), from (0, 1.2) and (0, −1.2).
        let length = |x: f64, y: f64| vec2(x, y).length();
        let lines = format!(
            "1P {:.6}; 1S {:.6}\n1P {:.6}; 1S {:.6}",
            length(1.0, 1.0),
            length(1.0, 1.4),
            length(1.0, 0.4),
            length(1.0, 2.0)
        );
        let found = typed(&lines, "0.5").worked(&DECK, System::Metric);
        assert!(found.troubles.is_empty(), "{:?}", found.troubles);
        let outline = found.outline.unwrap();
        assert_eq!(outline, [[1.0, 0.2], [1.0, 0.8], [1.5, 0.8], [1.5, 0.2]]);
        let asks = typed(&lines, "").worked(&DECK, System::Metric);
        assert_eq!(asks.troubles, [words::DEPTH_WANTED]);
    }

    #[test]
    fn the_side_is_asked_for_where_both_lie_on_the_deck() {
        // From the port edge both crossings lie fore and aft of each other on a line across.
        let line = "1P 2.4; 2S 2.6";
        let asked = typed(line, "").worked(&DECK, System::Metric);
        assert_eq!(asked.troubles, [words::in_line(1, words::WHICH_SIDE)]);
        let aft = typed(&format!("{line} aft"), "").worked(&DECK, System::Metric);
        let forward = typed(&format!("{line} forward"), "").worked(&DECK, System::Metric);
        assert!(aft.corners[0].fix.at.x < forward.corners[0].fix.at.x);
    }

    #[test]
    fn single_spots_need_no_outline() {
        let lines = "1P 1.41421; 1S 1.72047\n1P 1.41421; 1S 1.72047";
        let points = Measured::Each(StoreItem::Point(crate::layout::PointKind::PadEye));
        let typed = typed(lines, "").of(points.clone(), System::Metric);
        assert_eq!(typed.height, "0.05 m");
        let found = typed.worked(&DECK, System::Metric);
        assert!(found.troubles.is_empty(), "{:?}", found.troubles);
        assert_eq!(found.outline, None);
        assert_eq!(found.spots(), [[1.0, 0.2], [1.0, 0.2]]);
        assert!(found.is_enough(&points));
        assert!(
            !found.is_enough(&Measured::Selected),
            "one spot for one thing"
        );
        assert!(!found.is_enough(&Measured::BuiltOn));
    }

    #[test]
    fn a_slip_is_told_by_its_line() {
        let found = typed("1P 0.2; 1S 0.3\nfoo\n9P 1; 1S 1\n1P 1 m; 1S 1.5 x", "0.5");
        let found = found.worked(&DECK, System::Metric);
        assert_eq!(found.troubles.len(), 4, "{:?}", found.troubles);
        assert!(found.troubles[0].contains("Line 1") && found.troubles[0].contains("1900 mm"));
        assert!(found.outline.is_none());
    }
}
