//! The deck plan: the pointer goes to the tool in hand, [`drawing`] decides what is drawn, and `paint`
//! paints it. Only [`view`] knows where that is on the screen.

mod bodies;
mod clearance;
pub(crate) mod drawing;
pub(crate) mod glyph;
mod heat;
pub(crate) mod hit;
mod labels;
mod locks;
pub(crate) mod marks;
mod paint;
mod rulers;
mod thought;
mod view;

use egui::{CursorIcon, PointerButton, Response, Sense, Ui};

pub(crate) use self::view::View;

use super::command::Command;
use super::here::Here;
use super::outcome::Outcome;
use super::selection::Selection;
use super::settings::Settings;
use super::theme::{FIT_MARGIN, OUTCOME_TEXT, Palette, REACH, SIGNAL_MARK};
use super::tools::{Phase, Pointer, Preview, Tool};
use super::underlay::Lying;
use super::words;
use crate::checks::Finding;
use crate::geometry::{Bounds, Vec2};
use crate::layout::ThingRef;
use crate::units::Quantity;
use drawing::{Drawing, Looks};

/// The plan's room has changed by more than lines of text that come and go, in points.
const REFIT: f32 = 60.0;

/// What the plan remembers between frames.
#[derive(Debug, Default)]
pub(crate) struct PlanView {
    /// Where the plan is on the screen; fitted when first shown.
    view: Option<View>,

    /// Show the whole deck in the next frame.
    fit: bool,

    /// Show this part in the next frame.
    frame: Option<Bounds>,

    /// What the pointer is on.
    hovered: Option<ThingRef>,

    /// Where the pointer is, in metres.
    pointer: Option<Vec2>,

    /// A drag shifts the plan.
    panning: bool,

    /// Is the whole deck shown, as fitted, with nothing shifted or enlarged since?
    whole: bool,
}

/// What is shown beside the plan itself.
#[derive(Debug)]
pub(crate) struct Shown<'a> {
    /// What is selected.
    pub(crate) selection: &'a Selection,
    /// What must be put right in this part of the day, with its place in the list.
    pub(crate) findings: &'a [(usize, &'a Finding)],
    /// The one that is chosen.
    pub(crate) chosen: Option<usize>,
    /// The cylinders that go at the lean shown.
    pub(crate) leaning: &'a [String],
    /// What is in hand.
    pub(crate) preview: Option<&'a Preview>,
    /// What would come of it.
    pub(crate) outcome: Option<&'a Outcome>,
    /// Where everything would be.
    pub(crate) thought: Option<&'a Here<'a>>,
    /// How the window looks.
    pub(crate) settings: &'a Settings,
    /// The photo beneath the plan.
    pub(crate) lying: Option<&'a Lying>,
}

/// The name under which the plan takes the keyboard.
pub(crate) fn plan_id() -> egui::Id {
    egui::Id::unique("deck plan")
}

impl PlanView {
    /// Shows the whole deck in the next frame.
    pub(crate) fn fit(&mut self) {
        self.fit = true;
    }

    /// Brings a part of the plan into the middle in the next frame.
    pub(crate) fn frame(&mut self, bounds: Bounds) {
        self.frame = Some(bounds);
    }

    /// Shows the plan larger or smaller about its middle.
    pub(crate) fn zoom(&mut self, factor: f64) {
        if let Some(view) = &mut self.view {
            let middle = view.rect().center();
            view.zoom_at(middle, factor);
            self.whole = false;
        }
    }

    /// Where the pointer is on the plan.
    pub(crate) fn pointer(&self) -> Option<Vec2> {
        self.pointer
    }

    /// The middle of what is shown.
    pub(crate) fn middle(&self) -> Vec2 {
        self.view.map_or(Vec2::ZERO, |view| view.visible().center())
    }

    /// The view, once it has been shown.
    pub(crate) fn view(&self) -> Option<&View> {
        self.view.as_ref()
    }

    /// Takes the room for the plan and the pointer's doings; the plan itself is painted by
    /// [`PlanView::paint`], when it is known what comes of them.
    pub(crate) fn interact(
        &mut self,
        ui: &mut Ui,
        here: &Here<'_>,
        tool: &mut Tool,
        selection: &Selection,
        commands: &mut Vec<Command>,
    ) -> Response {
        let rect = ui.available_rect_before_wrap();
        ui.advance_cursor_after_rect(rect);
        let response = ui.interact(rect, plan_id(), Sense::click_and_drag());
        response
            .widget_info(|| egui::WidgetInfo::labeled(egui::Role::Canvas, true, words::DECK_PLAN));
        if response.has_focus() {
            let keep = egui::EventFilter {
                tab: false,
                horizontal_arrows: true,
                vertical_arrows: true,
                escape: true,
            };
            ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, keep));
        }
        if response.clicked() || response.drag_started() {
            response.request_focus();
        }
        let mut view = self.placed(rect, here);
        self.navigate(ui, &response, &mut view);
        let events = pointer_events(ui, &response, &view, tool);
        self.pointer = response
            .hover_pos()
            .or_else(|| dragged_out(ui, tool, &view))
            .map(|p| view.world_from_screen(p));
        for event in events {
            let taken = !self.panning && tool.update(&event, here, selection, commands);
            if event.phase == Phase::DragStarted && !taken && !self.panning {
                self.panning = true;
                self.whole = false;
                view.pan(response.drag_delta());
            }
        }
        if response.drag_stopped() {
            self.panning = false;
        }
        self.hovered = self.pointer.and_then(|at| {
            let reach = view.metres(REACH);
            let quiet = !tool.is_dragging() && !self.panning;
            quiet.then(|| hit::all(here, at, reach).into_iter().next())?
        });
        self.view = Some(view);
        self.cursor(ui, &response, tool);
        response
    }

    /// The view in this frame's room: fitted when first shown or when asked for.
    fn placed(&mut self, rect: egui::Rect, here: &Here<'_>) -> View {
        let deck = here.deck_scene().and_then(|deck| deck.floor.as_ref());
        let bounds = deck.map_or(Bounds::EMPTY, crate::geometry::Region::bounds);
        // A whole deck stays whole when the window becomes another one; a line more of text below it is no
        // reason to draw it anew.
        let grown = (self.view).is_some_and(|view| {
            let by = view.rect().size() - rect.size();
            by.x.abs().max(by.y.abs()) > REFIT
        });
        let mut view = match self.view {
            Some(view) if !(self.fit || self.whole && grown) => view,
            _ => {
                self.whole = true;
                View::fitting(rect, &bounds, FIT_MARGIN)
            }
        };
        self.fit = false;
        view.set_rect(rect);
        if let Some(bounds) = self.frame.take() {
            self.whole = false;
            view.frame(&bounds, 2.0 * FIT_MARGIN);
        }
        view
    }

    fn navigate(&mut self, ui: &Ui, response: &Response, view: &mut View) {
        let space = ui.input(|input| input.key_down(egui::Key::Space));
        let middle = response.dragged_by(PointerButton::Middle);
        let by_space = space && response.dragged_by(PointerButton::Primary);
        if self.panning || middle || by_space {
            self.panning |= by_space;
            self.whole = false;
            view.pan(response.drag_delta());
        }
        if let Some(pointer) = response.hover_pos() {
            let (scroll, pinch) =
                ui.input(|input| (input.smooth_scroll_delta(), input.zoom_delta()));
            self.whole &= (pinch - 1.0).abs() <= 1e-6 && scroll.y == 0.0;
            if (pinch - 1.0).abs() > 1e-6 {
                view.zoom_at(pointer, f64::from(pinch));
            } else if scroll.y.abs() > 0.0 {
                view.zoom_at(pointer, (f64::from(scroll.y) * 0.004).exp());
            }
        }
    }

    fn cursor(&self, ui: &Ui, response: &Response, tool: &Tool) {
        if !response.hovered() && !response.dragged() {
            return;
        }
        let icon = match tool {
            _ if self.panning => CursorIcon::Grabbing,
            Tool::Select(_) if tool.is_dragging() => CursorIcon::Grabbing,
            Tool::Select(_) if self.hovered.is_some() => CursorIcon::Grab,
            Tool::Select(_) => CursorIcon::Default,
            Tool::Place(_) | Tool::Lash(_) | Tool::Line(_) | Tool::Tape(_) | Tool::Shape(_) => {
                CursorIcon::Crosshair
            }
        };
        ui.set_cursor_icon(icon);
    }

    /// Paints the plan and what lies over it.
    pub(crate) fn paint(&self, ui: &Ui, here: &Here<'_>, tool: &Tool, shown: &Shown<'_>) {
        let Some(view) = &self.view else { return };
        let palette = shown.settings.theme.palette();
        let units = shown.settings.units;
        let painter = ui.painter_at(view.rect());
        painter.rect_filled(view.rect(), 0.0, palette.water);
        let looks = Looks {
            selection: shown.selection,
            hovered: self.hovered.as_ref(),
            findings: shown.findings,
            chosen: shown.chosen,
            leaning: shown.leaning,
            other_decks: shown.settings.other_decks,
            names: shown.settings.names,
            walkways: shown.settings.walkways,
            margins: shown.settings.margins,
        };
        let drawing = Drawing::of(here, &looks);
        let (floor, things) = drawing.split();
        paint::items(&painter, view, palette, &floor);
        if let Some(lying) = shown.lying {
            paint::photo(&painter, view, lying);
        }
        rulers::grid(&painter, view, palette, units);
        paint::items(&painter, view, palette, &things);
        labels::paint(&painter, view, palette, &drawing);
        if let (Some(thought), Some(preview)) = (shown.thought, shown.preview) {
            let drawing = Drawing::of_thought(here, thought, &preview.edits, &preview.touched());
            paint::items(&painter, view, palette, &drawing);
        }
        for mark in &drawing.marks {
            let at = view.screen_from_world(mark.at) + egui::vec2(SIGNAL_MARK, -SIGNAL_MARK);
            if mark.chosen {
                glyph::ring(&painter, palette, at, SIGNAL_MARK);
            }
            glyph::signal(&painter, palette, at, mark.signal, 0.8 * SIGNAL_MARK);
        }
        self.tool_marks(&painter, view, here, tool, shown);
        rulers::rulers(&painter, view, palette, units);
        rulers::scale_bar(&painter, view, palette, units);
        self.told(&painter, view, palette, tool, shown);
        empty_state(&painter, view, palette, here);
    }

    /// What the tool itself shows: its line so far, the band, the tape.
    fn tool_marks(
        &self,
        painter: &egui::Painter,
        view: &View,
        here: &Here<'_>,
        tool: &Tool,
        shown: &Shown<'_>,
    ) {
        let palette = shown.settings.theme.palette();
        let guide = tool.guide(self.pointer, here, shown.selection);
        paint::items(painter, view, palette, &guide);
        let moved = shown.selection.primary().filter(|_| tool.is_dragging());
        for gap in moved.map_or_else(Vec::new, |what| clearance::of(here, what, 2)) {
            let ends = [gap.from, gap.to].map(|p| view.screen_from_world(p));
            let wanted = gap
                .wanted_m
                .map(|m| Quantity::Length.show(m, shown.settings.units));
            let length = distance(shown, gap.from, gap.to, gap.gap_m);
            let text = words::gap_to(&length, &gap.name, wanted.as_deref());
            let color = if gap.is_short() {
                palette.danger
            } else {
                palette.selected
            };
            paint::tape(painter, palette, ends, &text, color);
        }
        if let Tool::Tape(tape) = tool
            && let Some(ends) = tape.ends(self.pointer)
        {
            let text = distance(shown, ends[0], ends[1], ends[0].distance(ends[1]));
            let ends = ends.map(|p| view.screen_from_world(p));
            paint::tape(painter, palette, ends, &text, palette.selected);
        }
    }

    /// The outcome, under the cursor.
    fn told(
        &self,
        painter: &egui::Painter,
        view: &View,
        palette: &Palette,
        tool: &Tool,
        shown: &Shown<'_>,
    ) {
        let Some(pointer) = self.pointer else { return };
        let mut lines = Vec::new();
        if let Some(text) = shown.preview.and_then(|preview| preview.text.clone()) {
            lines.push((text, palette.text));
        }
        if let Some(outcome) = shown.outcome {
            let color = palette.tone(outcome.tone);
            lines.push((outcome.text.clone(), color));
        }
        if lines.is_empty() || self.panning && !tool.is_dragging() {
            return;
        }
        let at = view.screen_from_world(pointer);
        paint::outcome(painter, palette, at, &lines, OUTCOME_TEXT);
    }
}

/// A distance between two points, with how far off it may be where a photo lies beneath the plan.
fn distance(shown: &Shown<'_>, from: Vec2, to: Vec2, length_m: f64) -> String {
    let units = shown.settings.units;
    let text = Quantity::Length.show(length_m, units);
    let lying = shown.lying;
    match lying.and_then(|lying| lying.distance_error_m(from, to)) {
        Some(error_m) => {
            let error = Quantity::SmallLength.show(error_m, units);
            words::underlay::by_photo(&text, &error)
        }
        None => text,
    }
}

/// What the pointer did in this frame, for the tool.
fn pointer_events(ui: &Ui, response: &Response, view: &View, tool: &Tool) -> Vec<Pointer> {
    let modifiers = ui.input(|input| input.modifiers);
    let event = |phase, at| Pointer {
        phase,
        at: view.world_from_screen(at),
        add: modifiers.shift,
        free: modifiers.alt,
        reach_m: view.metres(REACH),
    };
    let mut events = Vec::new();
    let primary = PointerButton::Primary;
    if response.drag_started_by(primary)
        && let Some(origin) = ui.input(|input| input.pointer.press_origin())
    {
        events.push(event(Phase::DragStarted, origin));
    }
    let at = response.interact_pointer_pos();
    if let Some(at) = at {
        if response.drag_stopped_by(primary) {
            events.push(event(Phase::Dropped, at));
        } else if response.dragged_by(primary) {
            events.push(event(Phase::Dragged, at));
        } else if response.double_clicked_by(primary) {
            events.push(event(Phase::DoubleClicked, at));
        } else if response.clicked_by(primary) {
            events.push(event(Phase::Clicked, at));
        }
    }
    if events.is_empty() {
        if let Some(at) = response.hover_pos() {
            events.push(event(Phase::Hovered, at));
        }
        let released = ui.input(|input| input.pointer.primary_released());
        if released && let Some(at) = dragged_out(ui, tool, view) {
            events.push(event(Phase::Clicked, at));
        }
    }
    events
}

/// Where the pointer is with something dragged out of the stores, if it is over the plan.
fn dragged_out(ui: &Ui, tool: &Tool, view: &View) -> Option<egui::Pos2> {
    let dragging = matches!(tool, Tool::Place(place) if place.dragged_out);
    let at = ui.input(|input| input.pointer.interact_pos())?;
    (dragging && view.rect().contains(at)).then_some(at)
}

/// What to do first, on a deck where nothing stands yet.
fn empty_state(painter: &egui::Painter, view: &View, palette: &Palette, here: &Here<'_>) {
    let boat = &here.plan.boat;
    let nothing =
        here.trip.cylinders.is_empty() && boat.racks.is_empty() && boat.fixtures.is_empty();
    if !nothing {
        return;
    }
    let mut at = view.rect().center_bottom() - egui::vec2(0.0, 118.0);
    for (index, line) in words::EMPTY_DECK.iter().enumerate() {
        let size = if index == 0 { 17.0 } else { 13.5 };
        paint::tag(painter, palette, at, line, palette.text, size);
        at.y += 25.0;
    }
}
