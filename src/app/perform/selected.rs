//! What is done to the selected things.

use super::super::actions::{Action, Stride, Way};
use super::super::canvas::hit;
use super::super::files::{Dialog, RowOfCopies};
use super::super::here::{at, whole_turn};
use super::super::moving::Grabbed;
use super::super::selection::Selection;
use super::super::tools::Tool;
use super::super::{Editor, rows, words};
use super::beside;
use crate::geometry::{Bounds, Vec2, vec2};
use crate::layout::{Edit, ThingKind};
use crate::units::Quantity;

/// How far the pen goes at a press of an arrow, alone and with Shift, in metres.
const PEN_STEP_M: f64 = 0.1;
const PEN_STRIDE_M: f64 = 0.5;

/// One step of turning, in degrees.
const TURN_DEG: f64 = 15.0;

impl Editor {
    pub(super) fn act_on_selected(&mut self, ui: &egui::Ui, action: Action) {
        if let Action::Nudge(way, stride) = action
            && self.move_pen(way, stride)
        {
            return;
        }
        let Some(here) = self.here() else { return };
        let names = self.selected_names();
        let (label, edits, select) = match action {
            Action::Remove => {
                let edits = rows::removed(&here, self.selection.things());
                (words::step_remove(&names), edits, Some(Selection::none()))
            }
            Action::Nudge(way, stride) => {
                (words::step_move(&names), self.nudged(way, stride), None)
            }
            Action::TurnToPort | Action::TurnToStarboard => {
                let deg = if action == Action::TurnToPort {
                    TURN_DEG
                } else {
                    -TURN_DEG
                };
                if let Tool::Place(place) = &mut self.tool {
                    place.turn_deg = whole_turn(place.turn_deg + deg);
                    return;
                }
                (words::step_turn(&names), self.turned(deg), None)
            }
            Action::OtherSide => {
                let held = self.held();
                let edits = held.iter().flat_map(|item| item.mirrored(&here)).collect();
                (words::step_mirror(&names), edits, None)
            }
            Action::LineUpForeAndAft => {
                let edits = rows::lined_up(&here, &self.held(), rows::Line::ForeAndAft);
                (words::step_align(&names), edits, None)
            }
            Action::LineUpAthwart => {
                let edits = rows::lined_up(&here, &self.held(), rows::Line::Athwart);
                (words::step_align(&names), edits, None)
            }
            Action::SpreadEvenly => {
                let edits = rows::spread(&here, &self.held());
                (words::step_align(&names), edits, None)
            }
            Action::Lock => {
                let Some((edits, lock)) = rows::locked_or_freed(&here, self.selection.things())
                else {
                    self.notice = Some(words::NOTHING_TO_LOCK.to_owned());
                    return;
                };
                (words::step_lock(&names, lock), edits, None)
            }
            Action::ToNextDeck => return self.move_to_next_deck(),
            Action::CopiesInRow => {
                let row = RowOfCopies::of(self.settings.units);
                self.dialog = Some(Dialog::Row(row));
                return;
            }
            Action::LayOrStand => {
                let (edits, laid) = rows::laid_or_stood(&here, self.selection.things());
                let label = if laid {
                    words::step_lay_down(&names)
                } else {
                    words::step_stand_up(&names)
                };
                (label, edits, None)
            }
            Action::FillRack => {
                let kind = self.kind_in_hand();
                let racks = self.selection.things().iter();
                let racks = racks.filter(|what| what.kind == ThingKind::Rack);
                let edits = rows::filled(&here, racks.map(|what| what.id.as_str()), &kind);
                if edits.is_empty() {
                    self.notice = Some(words::RACK_IS_FULL.to_owned());
                    return;
                }
                (words::step_fill(&names.join(", ")), edits, None)
            }
            Action::Copy => {
                let things = self.selection.things().iter();
                self.copied = things.filter_map(|what| self.thing_now(what)).collect();
                ui.copy_text(names.join(", "));
                self.notice = Some(words::copied(&names));
                return;
            }
            Action::Paste => {
                let (edits, new) = rows::copies(&here, &self.copied);
                (
                    words::step_paste(new.len()),
                    edits,
                    Some(Selection::of(new)),
                )
            }
            Action::Duplicate => {
                let things = self.selection.things().iter();
                let things: Vec<_> = things.filter_map(|what| self.thing_now(what)).collect();
                let (edits, new) = rows::copies(&here, &things);
                (
                    words::step_duplicate(&names),
                    edits,
                    Some(Selection::of(new)),
                )
            }
            Action::SelectAll => {
                let everywhere = Bounds::of([vec2(-1e6, -1e6), vec2(1e6, 1e6)]);
                self.selection = Selection::of(hit::inside(&here, &everywhere));
                return;
            }
            Action::NextThing => return self.select_beside(1, false),
            Action::PreviousThing => return self.select_beside(-1, false),
            Action::AddNextThing => return self.select_beside(1, true),
            Action::FrameSelected => return self.frame_selected(),
            _ => return,
        };
        if edits.is_empty() && self.is_any_locked() {
            self.notice = Some(words::LOCKED.to_owned());
            return;
        }
        let edits = self.kept_together(edits);
        self.step(label, &edits, select);
    }

    /// Brings what is selected into the middle.
    fn frame_selected(&mut self) {
        let Some(here) = self.here() else { return };
        let things = self.selection.things().iter();
        let all = things.filter_map(|what| hit::bounds(&here, what));
        let all = all.fold(Bounds::EMPTY, |all, one| all.union(&one));
        self.plan_view.frame(all);
    }

    /// Is something that is selected locked in its place?
    fn is_any_locked(&self) -> bool {
        let mut things = self.selection.things().iter();
        self.here()
            .is_some_and(|here| things.any(|what| here.is_locked(what)))
    }

    /// What is selected and can be moved.
    pub(super) fn held(&self) -> Vec<Grabbed> {
        let Some(here) = self.here() else {
            return Vec::new();
        };
        let things = self.selection.things().iter();
        things
            .filter_map(|what| Grabbed::take(&here, what))
            .collect()
    }

    fn nudged(&self, way: Way, stride: Stride) -> Vec<Edit> {
        let by = match stride {
            Stride::Short => 0.01 * towards(way),
            Stride::Long => 0.1 * towards(way),
        };
        let held = self.held();
        let Some(here) = self.here() else {
            return Vec::new();
        };
        held.iter().flat_map(|item| item.moved(&here, by)).collect()
    }

    /// Moves the pen with which the keyboard draws a line; tells whether one is in hand.
    fn move_pen(&mut self, way: Way, stride: Stride) -> bool {
        let beginning = self.pen_begins();
        let Tool::Line(line) = &mut self.tool else {
            return false;
        };
        let step = match stride {
            Stride::Short => PEN_STEP_M,
            Stride::Long => PEN_STRIDE_M,
        };
        let pen = line.move_pen(step * towards(way), beginning);
        self.tell_pen(pen);
        true
    }

    /// Sets a point of the line in hand where the pen is.
    pub(super) fn set_point(&mut self) {
        let beginning = self.pen_begins();
        if let Tool::Line(line) = &mut self.tool {
            line.set_point(beginning);
            let pen = line.pen.unwrap_or(beginning);
            self.tell_pen(pen);
        }
    }

    /// Where the pen begins: at the place that is selected, or in the middle of what is shown.
    fn pen_begins(&self) -> Vec2 {
        let selected = self.selection.primary();
        let place = selected.and_then(|what| self.plan().boat.place(&what.id));
        let place = place.filter(|place| place.deck == self.deck);
        place.map_or_else(|| self.plan_view.middle(), |place| at(place.at))
    }

    fn tell_pen(&mut self, pen: Vec2) {
        let show = |value: f64| Quantity::Length.show(value, self.settings.units);
        self.notice = Some(words::pen(&show(pen.x), &show(pen.y)));
    }

    /// Turned about the middle of all that is selected.
    fn turned(&self, deg: f64) -> Vec<Edit> {
        let held = self.held();
        let Some(here) = self.here() else {
            return Vec::new();
        };
        let middle = match held.as_slice() {
            [one] if one.what().kind != ThingKind::Fixture => one.anchor(here.plan),
            more => {
                let all = more
                    .iter()
                    .filter_map(|item| hit::bounds(&here, &item.what()));
                Some(all.fold(Bounds::EMPTY, |all, one| all.union(&one)).center())
            }
        };
        let Some(middle) = middle.filter(|middle| middle.is_finite()) else {
            return Vec::new();
        };
        held.iter()
            .flat_map(|item| item.turned(&here, middle, deg))
            .collect()
    }

    fn select_beside(&mut self, step: isize, add: bool) {
        let Some(here) = self.here() else { return };
        let everywhere = Bounds::of([vec2(-1e6, -1e6), vec2(1e6, 1e6)]);
        let all = hit::inside(&here, &everywhere);
        let Some(next) = beside(&all, self.selection.primary(), step) else {
            return;
        };
        let bounds = hit::bounds(&here, &next);
        let kept = self.selection.things().iter().filter(|_| add).cloned();
        self.selection = Selection::of(kept.chain([next]));
        if let (Some(bounds), Some(view)) = (bounds, self.plan_view.view())
            && !view.visible().contains(bounds.center())
        {
            self.plan_view.frame(bounds);
        }
    }

    /// Puts copies of what is selected in a row or a grid.
    pub(super) fn copies_in_grid(&mut self, grid: rows::Grid) {
        let names = self.selected_names();
        let Some(here) = self.here() else { return };
        let things = self.selection.things().iter();
        let things: Vec<_> = things.filter_map(|what| self.thing_now(what)).collect();
        let (edits, new) = rows::grid(&here, &things, grid);
        let select = Selection::of(self.selection.things().iter().cloned().chain(new));
        self.dialog = None;
        self.step(words::step_duplicate(&names), &edits, Some(select));
    }
}

/// A way on the deck plan.
fn towards(way: Way) -> Vec2 {
    match way {
        Way::Forward => vec2(1.0, 0.0),
        Way::Aft => vec2(-1.0, 0.0),
        Way::Port => vec2(0.0, 1.0),
        Way::Starboard => vec2(0.0, -1.0),
    }
}
