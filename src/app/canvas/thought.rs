//! What would be there after letting go of what is in hand.

use super::super::here::{Here, at};
use super::super::selection::Selection;
use super::super::things::reference;
use super::drawing::{Drawing, Form, Ink, Looks, Sign, Stress};
use super::hit;
use crate::layout::{Edit, Thing, ThingKind, ThingRef};

impl Drawing {
    /// What a thought adds: things that are new or elsewhere than they were.
    pub(crate) fn of_thought(
        now: &Here<'_>,
        thought: &Here<'_>,
        edits: &[Edit],
        touched: &[ThingRef],
    ) -> Self {
        let mut drawing = Self::default();
        let none = Selection::none();
        let looks = Looks {
            selection: &none,
            hovered: None,
            findings: &[],
            chosen: None,
            leaning: &[],
            other_decks: false,
            names: false,
            walkways: false,
            margins: false,
        };
        let Some(deck) = thought.deck_scene() else {
            return drawing;
        };
        for thing in deck
            .things
            .iter()
            .filter(|thing| touched.contains(&thing.thing))
        {
            drawing.body(thought, &looks, thing);
        }
        // Racks, points and places are drawn from the plan, in which new ones are not yet.
        let put = edits.iter().filter_map(|edit| match edit {
            Edit::Put { thing, .. } => Some(thing.as_ref()),
            _ => None,
        });
        for thing in put {
            match thing {
                Thing::Rack(rack) => {
                    let what = reference(ThingKind::Rack, &rack.id);
                    let body = deck.things.iter().find(|body| body.thing == what);
                    if let Some(body) = body {
                        drawing.rack(thought, &looks, rack, &body.shape, Stress::Thought);
                    }
                }
                Thing::LashingPoint(point) => drawing.sign(point.at, Sign::Point, Ink::Lashing),
                Thing::Place(place) => drawing.sign(place.at, Sign::Place, Ink::Walkway),
                _ => {}
            }
        }
        let lashings = thought.day.lashings.iter().map(|state| &state.lashing);
        for lashing in lashings.filter(|item| now.trip.lashing(&item.id).is_none()) {
            if let Some(points) = hit::lashing_line(thought, lashing) {
                let form = Form::Line {
                    points,
                    broken: false,
                };
                drawing.push(form, Ink::Lashing, Stress::Thought);
            }
        }
        for item in &mut drawing.items {
            item.stress = Stress::Thought;
        }
        drawing
    }

    fn sign(&mut self, point: [f64; 2], sign: Sign, ink: Ink) {
        let at = at(point);
        self.push(Form::Sign { at, sign }, ink, Stress::Thought);
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::app::live::Live;
    use crate::app::stores::StoreItem;
    use crate::app::tools::PlaceTool;
    use crate::geometry::vec2;
    use crate::layout::{Plan, PointKind, RackKind};

    #[test]
    fn what_is_in_hand_is_drawn_before_it_is_put_down() {
        let plan = Arc::new(Plan::new("Test", 10.0, 4.0));
        for (item, least) in [
            (StoreItem::Rack(RackKind::BenchRow), 5),
            (StoreItem::Point(PointKind::PadEye), 1),
            (StoreItem::Place(crate::layout::PlaceKind::Gate), 1),
        ] {
            let mut live = Live::default();
            live.refresh(&plan, "trip-1");
            let now = live.here(&plan, "trip-1", 0, "main").unwrap();
            let tool = super::super::super::tools::Tool::Place(PlaceTool::new(item.clone(), false));
            let preview = tool.preview(vec2(3.0, 0.5), &now).unwrap();
            live.think(&plan, "trip-1", 0, &preview);
            let now = live.here(&plan, "trip-1", 0, "main").unwrap();
            let thought = live.thought_here(&plan, "trip-1", 0, "main").unwrap();
            let drawing = Drawing::of_thought(&now, &thought, &preview.edits, &preview.touched());
            let count = drawing.items.len();
            assert!(count >= least, "{item:?}: {count} items");
        }
    }
}
