//! What was asked for during a frame; it is run at the frame's end.

use super::actions::Action;
use super::audit::AuditCommand;
use super::briefing::BriefCommand;
use super::by_two_tapes::TwoTapes;
use super::curve::Along;
use super::decks::AnotherDeck;
use super::editor::Sought;
use super::motion::MotionCommand;
use super::perform::FileCommand;
use super::replay::ReplayCommand;
use super::rows::Grid;
use super::selection::Selection;
use super::theme::Theme;
use super::tools::Tool;
use crate::layout::{Edit, Id, Point, ThingRef, Underlay};
use crate::units::System;

/// See the module.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Command {
    /// Opens an undo step.
    Begin(String),

    /// Makes the open step consist of these edits alone.
    Drag(Vec<Edit>),

    /// Closes the open step.
    Commit,

    /// Drops the open step.
    Abort,

    /// A whole step at once.
    Run {
        /// What it is called in the menu.
        label: String,
        /// Its edits.
        edits: Vec<Edit>,
        /// What is selected afterwards, if that changes.
        select: Option<Selection>,
    },

    /// A change on the card: those of one field in a row are one step.
    Alter {
        /// Which field.
        field: String,
        /// What the step is called in the menu.
        label: String,
        /// Its edits, on top of what the field changed before.
        edits: Vec<Edit>,
    },

    /// Selects.
    Select(Selection),

    /// Takes a tool in hand.
    Use(Tool),

    /// Does something from the table of actions.
    Do(Action),

    /// Gives up a file that is being made, by its place in the list.
    GiveWritingUp(usize),

    /// Tells the user something in one line.
    Tell(String),

    /// Shows another trip.
    ShowTrip(Id),

    /// Shows another part of the day.
    ShowPart(usize),

    /// Shows another deck.
    ShowDeck(Id),

    /// Adds a deck and shows it.
    AddDeck(Box<AnotherDeck>),

    /// Takes the deck shown away with all that is on it.
    RemoveDeck,

    /// Selects a thing, shows its deck and brings it into the middle.
    GoTo {
        /// Where to.
        what: ThingRef,
        /// Is it selected beside what is selected already?
        add: bool,
    },

    /// Chooses what must be put right, by its place in the list; none to unfold nothing.
    ChooseFinding(Option<usize>),

    /// Applies a cure.
    Cure {
        /// Of which line, by its first finding.
        line: usize,
        /// Which, by its place among them.
        which: usize,
    },

    /// Applies the first so many of the cures that raise the limit most.
    RaiseLimit(usize),

    /// Shows how a number was made.
    ShowSum(bool),

    /// Looks so.
    SetTheme(Theme),

    /// Shows quantities so.
    SetUnits(System),

    /// Leans the boat slowly, in degrees.
    Lean(f64),

    /// Puts text where it can be pasted elsewhere.
    Copy(String),

    /// Something about files.
    File(FileCommand),

    /// Something of the record that is looked at.
    Audit(AuditCommand),

    /// Something where the crew is briefed.
    Brief(BriefCommand),

    /// Something where motion, balance and limits are looked at.
    Motion(MotionCommand),

    /// Something where a motion is replayed.
    Replay(ReplayCommand),

    /// Puts copies of what is selected in a row or a grid.
    CopiesInGrid(Grid),

    /// Lays a photo under the deck shown, or takes it away.
    LayUnder(Option<Box<Underlay>>),

    /// Puts something onto the deck shown that was measured by two tapes.
    BuildByTapes(Box<TwoTapes>),

    /// Gives the deck shown this outline.
    DeckOutline(Vec<Point>),

    /// Takes something on that must be put right.
    TakeOn {
        /// Which, by its place in the list.
        finding: usize,
        /// Who.
        by: String,
        /// Why.
        reason: String,
    },

    /// Has the curves of this part of the day worked out.
    FollowCurve,

    /// Shows another curve.
    ShowCurve(Along),

    /// Goes back or forward to where so many steps are done.
    GoToStep(usize),

    /// Lists only this of what must be put right.
    Seek(Sought),

    /// The first round through the window was seen or skipped.
    Toured,
}
