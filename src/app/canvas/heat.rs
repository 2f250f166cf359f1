//! How well the cylinders hold, as warmth of the deck round them.

use super::super::here::Here;
use super::super::outcome::{self, Tone};
use super::drawing::{Drawing, Form, Ink, Stress};
use crate::engine::SceneThing;
use crate::geometry::{Shape, Vec2};
use crate::layout::ThingKind;

/// Radii of the rings round a cylinder, in metres.
const RINGS_M: [f64; 3] = [0.6, 0.42, 0.26];

impl Drawing {
    /// Warms the deck round every cylinder by how well it holds, the worst on top: where the colour runs
    /// together is where to begin.
    pub(super) fn heat(&mut self, here: &Here<'_>, things: &[SceneThing]) {
        let Some(part) = here.numbers else { return };
        let cylinders = things
            .iter()
            .filter(|thing| thing.thing.kind == ThingKind::Cylinder);
        let spots = cylinders.filter_map(|thing| {
            let numbers = here.cylinder_numbers(&thing.thing.id)?;
            let tone = outcome::of_cylinder(numbers, &part.motion).tone;
            Some((tone, thing.shape.bounds().center()))
        });
        let mut spots: Vec<(Tone, Vec2)> = spots.collect();
        spots.sort_by_key(|(tone, _)| std::cmp::Reverse(*tone));
        for (tone, at) in spots {
            for radius in RINGS_M {
                let ring = Form::Area(Shape::disc(at, radius));
                self.push(ring, Ink::Heat(tone), Stress::Plain);
            }
        }
    }
}
