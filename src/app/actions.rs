//! The table of actions: menus, buttons, shortcuts and the shortcuts page all read it.

mod table;

use egui::{Key, KeyboardShortcut, Modifiers};

use self::table::ROWS;

/// Something the user can do without pointing at the plan.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Action {
    /// See the table for what each of them does.
    New,
    Open,
    Save,
    SaveAs,
    Versions,
    CylinderList,
    BriefCrew,
    Motion,
    Balance,
    LimitCard,
    AuditIncident,
    Replay,
    Quit,
    Undo,
    Redo,
    Steps,
    Copy,
    Paste,
    Duplicate,
    Remove,
    SelectAll,
    NextThing,
    PreviousThing,
    AddNextThing,
    TurnToPort,
    TurnToStarboard,
    OtherSide,
    LayOrStand,
    FillRack,
    Lock,
    ToNextDeck,
    CopiesInRow,
    LineUpForeAndAft,
    LineUpAthwart,
    SpreadEvenly,
    Nudge(Way, Stride),
    TakeSelect,
    TakeLash,
    TakeTape,
    TakeShape,
    OneSide,
    RoundBow,
    DeckByTape,
    DeckFromDrawing,
    MeasuringSheet,
    ByTwoTapes,
    AnotherDeck,
    PhotoBeneath,
    NoPhoto,
    PutDown,
    SetPoint,
    Cancel,
    SearchStores,
    FindThing,
    ZoomIn,
    ZoomOut,
    Fit,
    FrameSelected,
    NextPart,
    PreviousPart,
    DeckWork,
    LayOutDay,
    SecureForNight,
    OpenForDiving,
    LowStrip,
    NextDeck,
    OtherDecks,
    Names,
    Walkways,
    Margins,
    Roll,
    LeanMore,
    LeanLess,
    NextFinding,
    PreviousFinding,
    Cure,
    Sum,
    TakeOn,
    SearchFindings,
    NextTheme,
    OtherUnits,
    TextLarger,
    TextSmaller,
    LargeTargets,
    BuiltInDialogs,
    Shortcuts,
}

/// A way on the deck.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Way {
    /// Towards the bow.
    Forward,
    /// Towards the stern.
    Aft,
    /// To the left.
    Port,
    /// To the right.
    Starboard,
}

/// How far a nudge goes.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Stride {
    /// One centimetre.
    Short,
    /// Ten centimetres.
    Long,
}

/// A menu, and a section of the shortcuts page.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Menu {
    /// Files.
    File,
    /// Undoing, copying, selecting, and what is in hand.
    Edit,
    /// Moving and turning what is selected, and filling racks.
    Arrange,
    /// The decks and what is built on, by tape, drawing and photo.
    Measure,
    /// Looking at the plan.
    Plan,
    /// The parts of the day.
    Day,
    /// How the window looks.
    Look,
    /// Help.
    Help,
}

/// One line of the table.
#[derive(Debug)]
pub(crate) struct Entry {
    /// What it is called; ends in `…` if it asks something first.
    pub(crate) text: &'static str,

    /// What it does, in a sentence.
    pub(crate) tooltip: &'static str,

    /// Its keys.
    pub(crate) keys: KeyboardShortcut,

    /// Where it stands.
    pub(crate) menu: Menu,
}

/// What decides whether actions can be done now.
#[derive(Clone, Debug, Default)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a fact of its own about the window"
)]
pub(crate) struct Facts {
    /// The step that can be undone.
    pub(crate) undo: Option<String>,
    /// The step that can be done again.
    pub(crate) redo: Option<String>,
    /// How many things are selected.
    pub(crate) selected: usize,
    /// How many of them are racks, cylinders.
    pub(crate) racks: usize,
    /// See above.
    pub(crate) cylinders: usize,
    /// How many things were copied.
    pub(crate) copied: usize,
    /// How many lines there are to put right.
    pub(crate) findings: usize,
    /// What the chosen line offers.
    pub(crate) offers: Offers,
    /// Is a line chosen?
    pub(crate) chosen: bool,
    /// How many decks, parts of the day.
    pub(crate) decks: usize,
    /// See above.
    pub(crate) parts: usize,
    /// Is there anything on the plan to select?
    pub(crate) things: usize,
    /// Does a photo lie beneath the deck shown?
    pub(crate) underlay: bool,
    /// Is another tool than the plain one in hand?
    pub(crate) tool: bool,
    /// Is it one that draws a line?
    pub(crate) line: bool,
}

/// What the chosen line of what must be put right offers.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Offers {
    /// A cure.
    pub(crate) cure: bool,
    /// A sum.
    pub(crate) sum: bool,
}

/// All of them, in the order of the menus.
pub(crate) fn all() -> impl Iterator<Item = Action> {
    ROWS.iter().map(|row| row.0)
}

impl Action {
    /// Its line of the table.
    pub(crate) fn entry(self) -> Entry {
        let row = ROWS.iter().find(|row| row.0 == self);
        debug_assert!(row.is_some(), "{self:?} is not in the table");
        let (_, menu, text, tooltip, modifiers, key) = *row.unwrap_or(&ROWS[0]);
        Entry {
            text,
            tooltip,
            keys: KeyboardShortcut::new(modifiers, key),
            menu,
        }
    }

    /// Can it be done now?
    pub(crate) fn is_enabled(self, facts: &Facts) -> bool {
        match self {
            Self::Undo => facts.undo.is_some(),
            Self::Redo => facts.redo.is_some(),
            Self::Steps => facts.undo.is_some() || facts.redo.is_some(),
            Self::Copy
            | Self::CopiesInRow
            | Self::Lock
            | Self::Duplicate
            | Self::Remove
            | Self::TurnToPort
            | Self::TurnToStarboard
            | Self::OtherSide
            | Self::FrameSelected => facts.selected > 0,
            Self::Nudge(..) => facts.selected > 0 || facts.line,
            Self::SetPoint => facts.line,
            Self::NoPhoto => facts.underlay,
            Self::ToNextDeck => facts.selected > 0 && facts.decks > 1,
            Self::Paste => facts.copied > 0,
            Self::LayOrStand => facts.cylinders > 0,
            Self::FillRack => facts.racks > 0,
            Self::LineUpForeAndAft | Self::LineUpAthwart => facts.selected > 1,
            Self::SpreadEvenly => facts.selected > 2,
            Self::TakeOn => facts.chosen,
            Self::SelectAll | Self::NextThing | Self::PreviousThing | Self::AddNextThing => {
                facts.things > 0
            }
            Self::PutDown => facts.tool,
            Self::NextPart | Self::PreviousPart => facts.parts > 1,
            Self::NextDeck | Self::OtherDecks => facts.decks > 1,
            Self::NextFinding | Self::PreviousFinding => facts.findings > 0,
            Self::Cure => facts.offers.cure,
            Self::Sum => facts.offers.sum,
            Self::New
            | Self::Open
            | Self::Save
            | Self::SaveAs
            | Self::Versions
            | Self::CylinderList
            | Self::BriefCrew
            | Self::Motion
            | Self::Balance
            | Self::LimitCard
            | Self::AuditIncident
            | Self::Replay
            | Self::Quit
            | Self::TakeSelect
            | Self::TakeLash
            | Self::TakeTape
            | Self::TakeShape
            | Self::OneSide
            | Self::RoundBow
            | Self::DeckByTape
            | Self::DeckFromDrawing
            | Self::MeasuringSheet
            | Self::ByTwoTapes
            | Self::AnotherDeck
            | Self::FindThing
            | Self::PhotoBeneath
            | Self::SearchFindings
            | Self::Margins
            | Self::Roll
            | Self::Cancel
            | Self::SearchStores
            | Self::ZoomIn
            | Self::ZoomOut
            | Self::Fit
            | Self::Names
            | Self::Walkways
            | Self::DeckWork
            | Self::LayOutDay
            | Self::SecureForNight
            | Self::OpenForDiving
            | Self::LowStrip
            | Self::LeanMore
            | Self::LeanLess
            | Self::NextTheme
            | Self::OtherUnits
            | Self::TextLarger
            | Self::TextSmaller
            | Self::LargeTargets
            | Self::BuiltInDialogs
            | Self::Shortcuts => true,
        }
    }

    /// What it is called now: undo and redo name their step.
    pub(crate) fn text_now(self, facts: &Facts) -> String {
        let text = self.entry().text;
        match self {
            Self::Undo => super::words::with_step(text, facts.undo.as_deref()),
            Self::Redo => super::words::with_step(text, facts.redo.as_deref()),
            _ => text.to_owned(),
        }
    }
}

/// The actions whose keys were pressed in this frame. Keys that a focused control uses itself are left
/// to it; `plan` is the name under which the deck plan has the focus.
pub(crate) fn pressed(ctx: &egui::Context, facts: &Facts, plan: egui::Id) -> Vec<Action> {
    let typing = ctx.text_edit_focused();
    let focused = ctx.memory(egui::Memory::focused);
    let elsewhere = focused.is_some_and(|id| id != plan);
    let wanted: Vec<(Action, KeyboardShortcut)> = all()
        .filter(|action| action.is_enabled(facts))
        .map(|action| (action, action.entry().keys))
        .filter(|(action, keys)| {
            let of_text = !keys.modifiers.command || belongs_to_text(*action);
            let of_control =
                used_by_controls(keys.logical_key) && keys.modifiers == Modifiers::NONE;
            !(typing && of_text || elsewhere && of_control)
        })
        .collect();
    let mut actions = Vec::new();
    ctx.input_mut(|input| {
        input.events.retain(|event| {
            let found = wanted
                .iter()
                .find(|(action, keys)| is_meant(event, *action, keys));
            actions.extend(found.map(|(action, _)| *action));
            found.is_none()
        });
    });
    actions
}

fn is_meant(event: &egui::Event, action: Action, keys: &KeyboardShortcut) -> bool {
    match event {
        egui::Event::Copy => action == Action::Copy,
        egui::Event::Paste(_) => action == Action::Paste,
        egui::Event::Key {
            key,
            pressed: true,
            modifiers,
            ..
        } => {
            // "+" is typed with shift on many keyboards, and stands beside "=" on others.
            let plus = keys.logical_key == Key::Plus && matches!(key, Key::Plus | Key::Equals);
            if plus {
                modifiers.cmd_ctrl_matches(keys.modifiers) && !modifiers.alt
            } else {
                *key == keys.logical_key && modifiers.matches_exact(keys.modifiers)
            }
        }
        _ => false,
    }
}

/// Is it something that a text field does with its own text?
fn belongs_to_text(action: Action) -> bool {
    matches!(
        action,
        Action::Copy | Action::Paste | Action::SelectAll | Action::Undo | Action::Redo
    )
}

/// Does a button, slider or list use this key itself?
fn used_by_controls(key: Key) -> bool {
    matches!(
        key,
        Key::Enter | Key::ArrowLeft | Key::ArrowRight | Key::ArrowUp | Key::ArrowDown
    )
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn no_shortcut_is_used_twice() {
        let mut seen = BTreeSet::new();
        for action in all() {
            let keys = format!("{:?}", action.entry().keys);
            assert!(
                seen.insert(keys.clone()),
                "{action:?} has the keys of another: {keys}"
            );
        }
        assert!(seen.len() > 50, "only {} actions", seen.len());
    }

    #[test]
    fn every_action_is_in_the_table_once_named_and_explained() {
        let actions: BTreeSet<Action> = all().collect();
        let names: BTreeSet<&str> = all().map(|action| action.entry().text).collect();
        assert_eq!(actions.len(), ROWS.len(), "an action has two rows");
        assert_eq!(names.len(), ROWS.len(), "two actions have one name");
        for action in all() {
            let entry = action.entry();
            let tooltip = entry.tooltip;
            assert!(tooltip.len() > 5 && !tooltip.ends_with('.'), "{action:?}");
            let asks = [
                Action::New,
                Action::Open,
                Action::SaveAs,
                Action::Shortcuts,
                Action::CopiesInRow,
                Action::DeckByTape,
                Action::DeckFromDrawing,
                Action::MeasuringSheet,
                Action::ByTwoTapes,
                Action::AnotherDeck,
                Action::FindThing,
                Action::PhotoBeneath,
                Action::TakeOn,
                Action::Versions,
                Action::CylinderList,
                Action::AuditIncident,
                Action::Steps,
                Action::DeckWork,
                Action::LayOutDay,
                Action::SecureForNight,
                Action::OpenForDiving,
            ];
            assert_eq!(
                entry.text.ends_with('…'),
                asks.contains(&action),
                "{action:?}"
            );
        }
    }

    #[test]
    fn nothing_can_be_done_to_nothing() {
        let facts = Facts::default();
        for action in [Action::Undo, Action::Remove, Action::Paste, Action::Cure] {
            assert!(!action.is_enabled(&facts), "{action:?}");
        }
        assert!(
            Action::Open.is_enabled(&facts),
            "a file can always be opened"
        );
    }
}
