//! Tools: small state machines that turn the pointer, in metres, into commands. They know no screen.

mod dropping;
mod lash;
mod line;
mod place;
mod select;
mod shape;
mod snapping;
mod tape;

pub(crate) use self::dropping::{dropped, free_slot, local};
pub(crate) use self::lash::LashTool;
pub(crate) use self::line::{LineTool, LineWhat};
pub(crate) use self::place::PlaceTool;
pub(crate) use self::select::SelectTool;
pub(crate) use self::shape::{ShapeTool, bow_rounded};
pub(crate) use self::tape::TapeTool;

use super::canvas::drawing::{Drawing, Form, Ink, Item, Stress};
use super::command::Command;
use super::here::{Here, at};
use super::selection::Selection;
use crate::geometry::{Vec2, rectangle, vec2};
use crate::layout::{Edit, Id, Placing, ThingKind, ThingRef};

/// Half of the cross that is the pen of the keyboard, in metres.
const PEN_M: f64 = 0.15;

/// What the pointer did.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(crate) enum Phase {
    /// It moved with nothing pressed.
    Hovered,
    /// It was pressed here, and has since moved far enough to be a drag.
    DragStarted,
    /// It is held and now here.
    Dragged,
    /// It was let go here, after a drag.
    Dropped,
    /// It was pressed and let go here.
    Clicked,
    /// Twice.
    DoubleClicked,
}

/// What the pointer did, in metres on the plan: all that a tool may know of it.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(crate) struct Pointer {
    /// What.
    pub(crate) phase: Phase,

    /// Where.
    pub(crate) at: Vec2,

    /// Is it to be added to what is selected (shift)?
    pub(crate) add: bool,

    /// Are snaps suspended (alt)?
    pub(crate) free: bool,

    /// How near counts as met, in metres.
    pub(crate) reach_m: f64,
}

/// What would happen on letting go: tried on a copy of the plan, and told under the cursor.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Preview {
    /// What would be done.
    pub(crate) edits: Vec<Edit>,

    /// The cylinder whose outcome is told.
    pub(crate) cylinder: Option<Id>,

    /// What is told if there is no cylinder, or above its outcome.
    pub(crate) text: Option<String>,
}

impl Preview {
    /// The things that it adds or moves.
    pub(crate) fn touched(&self) -> Vec<ThingRef> {
        let touched = self.edits.iter().filter_map(|edit| match edit {
            Edit::Put { thing, .. } => Some(thing.to_ref()),
            Edit::Place { cylinder, .. } => Some(ThingRef {
                kind: ThingKind::Cylinder,
                id: cylinder.clone(),
            }),
            _ => None,
        });
        touched.collect()
    }
}

/// The tool in hand.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Tool {
    /// Selects and moves.
    Select(SelectTool),
    /// Places a thing from the stores.
    Place(PlaceTool),
    /// Draws a lashing.
    Lash(LashTool),
    /// Draws a walkway, a hose or an outline.
    Line(LineTool),
    /// Measures.
    Tape(TapeTool),
    /// Reshapes by corners.
    Shape(ShapeTool),
}

impl Default for Tool {
    fn default() -> Self {
        Self::Select(SelectTool::default())
    }
}

impl Tool {
    /// Takes one event; returns whether the tool wants it (if not, a drag shifts the plan).
    pub(crate) fn update(
        &mut self,
        pointer: &Pointer,
        here: &Here<'_>,
        selection: &Selection,
        commands: &mut Vec<Command>,
    ) -> bool {
        match self {
            Self::Select(tool) => tool.update(pointer, here, selection, commands),
            Self::Place(tool) => tool.update(pointer, here, commands),
            Self::Lash(tool) => tool.update(pointer, here, commands),
            Self::Line(tool) => tool.update(pointer, here, commands),
            Self::Tape(tool) => tool.update(pointer),
            Self::Shape(tool) => tool.update(pointer, here, selection, commands),
        }
    }

    /// Escape: gives up what is under way; returns false if nothing was, so that the tool itself
    /// may be put down.
    pub(crate) fn cancel(&mut self, commands: &mut Vec<Command>) -> bool {
        match self {
            Self::Select(tool) => tool.cancel(commands),
            Self::Place(_) => false,
            Self::Lash(tool) => tool.cancel(),
            Self::Line(tool) => tool.cancel(),
            Self::Tape(tool) => tool.cancel(),
            Self::Shape(tool) => tool.cancel(commands),
        }
    }

    /// Enter: ends what has no natural end, as a walkway.
    pub(crate) fn finish(&mut self, here: &Here<'_>, commands: &mut Vec<Command>) {
        if let Self::Line(tool) = self {
            tool.finish(here, commands);
        }
    }

    /// What would happen at this place.
    pub(crate) fn preview(&self, at: Vec2, here: &Here<'_>) -> Option<Preview> {
        match self {
            Self::Select(_) | Self::Tape(_) | Self::Shape(_) => None,
            Self::Place(tool) => tool.preview(at, here),
            Self::Lash(tool) => Some(tool.preview(at, here)),
            Self::Line(tool) => Some(tool.preview()),
        }
    }

    /// What the tool shows of itself: its line so far, its band.
    pub(crate) fn guide(
        &self,
        pointer: Option<Vec2>,
        here: &Here<'_>,
        selection: &Selection,
    ) -> Drawing {
        let item = |form| Item {
            form,
            ink: Ink::Guide,
            stress: Stress::Plain,
        };
        let line = |mut points: Vec<Vec2>| {
            points.extend(pointer);
            let form = Form::Line {
                points,
                broken: true,
            };
            Drawing::plain(vec![item(form)])
        };
        match self {
            Self::Select(tool) if tool.is_moving() => {
                let lines = tool.guides().iter().map(|guide| {
                    item(Form::Line {
                        points: vec![guide.from, guide.to],
                        broken: true,
                    })
                });
                Drawing::plain(lines.collect())
            }
            Self::Select(tool) => {
                let band = tool.band().and_then(|band| {
                    let half = 0.5 * band.size();
                    rectangle(band.center(), half.x, half.y, 0.0).ok()
                });
                Drawing::plain(
                    band.into_iter()
                        .map(|band| item(Form::Area(band)))
                        .collect(),
                )
            }
            Self::Lash(tool) => {
                let run = tool.run(here);
                if run.is_empty() {
                    Drawing::default()
                } else {
                    line(run)
                }
            }
            Self::Line(tool) if tool.pen.is_some() => {
                let mut points: Vec<Vec2> = tool.points.iter().map(|p| at(*p)).collect();
                points.extend(tool.pen);
                let pen = tool.pen.unwrap_or(Vec2::ZERO);
                let arm = |x, y| Form::Line {
                    points: vec![pen - vec2(x, y), pen + vec2(x, y)],
                    broken: false,
                };
                let drawn = Form::Line {
                    points,
                    broken: true,
                };
                let forms = [drawn, arm(PEN_M, 0.0), arm(0.0, PEN_M)];
                Drawing::plain(forms.into_iter().map(item).collect())
            }
            Self::Line(tool) if !tool.points.is_empty() => {
                line(tool.points.iter().map(|p| at(*p)).collect())
            }
            Self::Shape(_) => ShapeTool::guide(here, selection),
            Self::Place(_) | Self::Line(_) | Self::Tape(_) => Drawing::default(),
        }
    }

    /// Is a drag under way that changes the plan?
    pub(crate) fn is_dragging(&self) -> bool {
        match self {
            Self::Select(tool) => tool.is_moving(),
            Self::Shape(tool) => tool.is_holding(),
            Self::Place(_) | Self::Lash(_) | Self::Line(_) | Self::Tape(_) => false,
        }
    }

    /// Is it the plain one?
    pub(crate) fn is_select(&self) -> bool {
        matches!(self, Self::Select(_))
    }
}

/// Where a cylinder may be: shorthand used by several tools.
pub(crate) fn standing(deck: &str, at: [f64; 2]) -> Placing {
    Placing::Standing {
        deck: deck.to_owned(),
        at,
        on: None,
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn tools_and_drawings_know_no_screen() {
        let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/app");
        let mut seen = 0;
        for folder in ["tools", "canvas"] {
            for entry in std::fs::read_dir(root.join(folder)).unwrap() {
                let path = entry.unwrap().path();
                let name = path.file_name().unwrap().to_str().unwrap();
                let draws = [
                    "mod.rs",
                    "view.rs",
                    "paint.rs",
                    "labels.rs",
                    "rulers.rs",
                    "glyph.rs",
                ];
                if folder == "canvas" && draws.contains(&name) {
                    continue;
                }
                let text = std::fs::read_to_string(&path).unwrap();
                let named = concat!("eg", "ui");
                assert!(!text.contains(named), "{folder}/{name} names {named}");
                seen += 1;
            }
        }
        assert!(seen >= 8, "only {seen} files were looked at");
    }
}
