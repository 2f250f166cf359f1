//! One walkway to be measured, and its width on certain walls.

use std::collections::BTreeSet;

use super::ends::{Shut, reach};
use super::tags::Tagged;
use super::{SAME_WIDTH_M, wanted};
use crate::engine::numbers::{SpotShift, ThingSort, TightSpot};
use crate::engine::{DeckScene, SceneThing};
use crate::geometry::clear_width::{ClearWidth, End, Limit};
use crate::geometry::{Strip, Tag, Vec2, Walls, middle_of_nearest, separation};
use crate::layout::{Boat, Walkway};

/// One walkway to be measured.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Ask {
    pub(super) walkway: Walkway,
    pub(super) ends: [Vec2; 2],
    pub(super) wanted_m: f64,
    pub(super) wanted_source: String,
    pub(super) length_m: f64,
    /// `None` if its line is no line.
    pub(super) strip: Option<Strip>,
}

/// A clear width and what makes it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Width {
    pub(super) clear_m: f64,
    pub(super) spot: Option<TightSpot>,
}

/// The walkways of a deck, in the order of their names.
pub(super) fn asks(boat: &Boat, deck: &str) -> Vec<Ask> {
    let place = |id: &str| boat.place(id).filter(|place| place.deck == deck);
    let mut asks: Vec<_> = (boat.walkways.iter())
        .filter(|walkway| walkway.deck == deck)
        .filter_map(|walkway| {
            let line: Vec<Vec2> = walkway.line.iter().map(|p| Vec2::from(*p)).collect();
            // A place on another deck is reached from where the line ends.
            let end = |id: &str, drawn: Option<&Vec2>| {
                place(id).map_or(drawn.copied(), |place| Some(place.at.into()))
            };
            let ends = [
                end(&walkway.from, line.first())?,
                end(&walkway.to, line.last())?,
            ];
            let length_m = line.windows(2).map(|pair| pair[0].distance(pair[1])).sum();
            let (wanted_m, wanted_source) = wanted(walkway, length_m);
            Some(Ask {
                walkway: walkway.clone(),
                ends,
                wanted_m,
                wanted_source,
                length_m,
                strip: Strip::new(line, wanted_m).ok(),
            })
        })
        .collect();
    asks.sort_by(|a, b| a.walkway.id.cmp(&b.walkway.id));
    asks
}

/// The points of a tight spot. Between parallel faces it is equally tight all along: those in the middle are
/// shown, if the two things are whole and it is they that make it.
fn middle_of_spot(
    tagged: &[Tagged<'_>],
    spot: &crate::geometry::TightSpot,
    width_m: f64,
) -> [Vec2; 2] {
    let shape = |tag: Tag| {
        let mut with_tag = tagged.iter().filter(|thing| thing.tag == tag);
        let thing = with_tag.next()?;
        with_tag.next().is_none().then_some(&*thing.shape)
    };
    if let (Some(a), Some(b)) = (shape(spot.a), shape(spot.b))
        && (separation(a, b).gap_m - width_m).abs() < SAME_WIDTH_M
    {
        return [middle_of_nearest(a, b), middle_of_nearest(b, a)];
    }
    [spot.at_a, spot.at_b]
}

impl Ask {
    fn place_id(&self, end: End) -> (&str, Vec2) {
        match end {
            End::From => (&self.walkway.from, self.ends[0]),
            End::To => (&self.walkway.to, self.ends[1]),
        }
    }

    /// The clear width between the two places on these walls.
    pub(super) fn width(&self, deck: &DeckScene, walls: &Walls, tagged: &[Tagged<'_>]) -> Width {
        let at = |end: End| reach(walls, tagged, self.place_id(end).1, end);
        let named = |tag: Tag| -> (String, ThingSort) {
            (tagged.iter().find(|thing| thing.tag == tag)).map_or_else(
                || (format!("edge of {}", deck.deck), ThingSort::Edge),
                |thing| (thing.id.to_owned(), thing.sort),
            )
        };
        let at_place = |tag: Tag, wall: Vec2, end: End| {
            let (place, middle) = self.place_id(end);
            let (wall_id, sort) = named(tag);
            TightSpot {
                between: [wall_id, place.to_owned()],
                kinds: [sort, ThingSort::Place],
                at: [wall.into(), middle.into()],
                of_boat: true,
                shift: None,
            }
        };
        let shut = |shut: Shut, end: End| Width {
            clear_m: 0.0,
            spot: Some(at_place(shut.by, shut.at, end)),
        };
        let from = match at(End::From) {
            Ok(place) => place,
            Err(by) => return shut(by, End::From),
        };
        let to = match at(End::To) {
            Ok(place) => place,
            Err(by) => return shut(by, End::To),
        };
        let ClearWidth { width_m, limit } = walls.clear_width_between(&from, &to);
        let spot = match limit {
            Limit::Widest => None,
            Limit::End { end, tag, at } => Some(at_place(tag, at, end)),
            Limit::TightSpot(spot) => {
                let [a, b] = [spot.a, spot.b].map(named);
                let [at_a, at_b] = middle_of_spot(tagged, &spot, width_m);
                Some(TightSpot {
                    between: [a.0, b.0],
                    kinds: [a.1, b.1],
                    at: [at_a.into(), at_b.into()],
                    of_boat: true,
                    shift: None,
                })
            }
        };
        Width {
            clear_m: width_m,
            spot,
        }
    }
}

/// The smallest shift of something movable that opens a tight spot to the wanted width. It only
/// looks at this spot.
pub(super) fn shift_of_spot(
    ask: &Ask,
    clear_m: f64,
    spot: &TightSpot,
    tagged: &[Tagged<'_>],
) -> Option<SpotShift> {
    let missing_m = ask.wanted_m - clear_m;
    if missing_m <= 0.0 {
        return None;
    }
    let find = |side: usize| {
        tagged
            .iter()
            .find(|thing| thing.sort == spot.kinds[side] && thing.id == spot.between[side])
    };
    let is_movable = |thing: &&Tagged<'_>| !thing.of_boat && thing.sort != ThingSort::Lashing;
    // The second has the higher tag: a cylinder rather than a rack.
    let (side, thing) = [1, 0]
        .into_iter()
        .find_map(|side| Some((side, find(side).filter(is_movable)?)))?;
    let [here, there] = [spot.at[side], spot.at[1 - side]].map(Vec2::from);
    let away = (here - there).normalized().or_else(|| {
        let other = find(1 - side)?;
        Some(separation(&thing.shape, &other.shape).away)
    })?;
    let (kind, id) = thing.moves_with.unwrap_or((thing.sort, thing.id));
    Some(SpotShift {
        thing: id.to_owned(),
        kind,
        by_m: (missing_m * away).into(),
    })
}

/// Who stands or sits at an end of the walkway, and the cylinder on their back: they use it, they do
/// not block it.
pub(super) fn at_ends(deck: &DeckScene, ask: &Ask) -> BTreeSet<usize> {
    let people = |thing: &SceneThing| thing.sort == ThingSort::Person;
    let covers_end = |thing: &SceneThing| ask.ends.iter().any(|end| thing.shape.contains(*end));
    let at_ends: Vec<_> = (deck.things.iter().enumerate())
        .filter(|(_, thing)| people(thing) && covers_end(thing))
        .collect();
    if at_ends.is_empty() {
        return BTreeSet::new();
    }
    let worn = (deck.things.iter().enumerate()).filter(|(_, thing)| {
        thing.sort == ThingSort::Cylinder
            && (at_ends.iter()).any(|(_, person)| person.shape.contains(thing.shape.centroid()))
    });
    (at_ends.iter().map(|(index, _)| *index))
        .chain(worn.map(|(index, _)| index))
        .collect()
}
