//! The table itself, one row per action, in the order of the menus.

use egui::{Key, Modifiers};

use super::{Action, Menu, Stride, Way};

const CTRL: Modifiers = Modifiers::COMMAND;
const NONE: Modifiers = Modifiers::NONE;
const SHIFT: Modifiers = Modifiers::SHIFT;
const CTRL_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);

/// Action, menu, what it is called (with `…` if it asks something first), what it does, and its keys.
pub(super) type Row = (Action, Menu, &'static str, &'static str, Modifiers, Key);

#[rustfmt::skip]
pub(super) const ROWS: &[Row] = &[
    (Action::New, Menu::File, "New boat…", "Begin a new deck plan from name, length and beam", CTRL, Key::N),
    (Action::Open, Menu::File, "Open…", "Open a deck plan", CTRL, Key::O),
    (Action::Save, Menu::File, "Save", "Save the deck plan in its file", CTRL, Key::S),
    (Action::SaveAs, Menu::File, "Save as…", "Save the deck plan in another file", CTRL_SHIFT, Key::S),
    (Action::Versions, Menu::File, "Versions kept…", "Keep the plan as it is now under a name, or go back to one that was kept", CTRL_SHIFT, Key::K),
    (Action::CylinderList, Menu::File, "Cylinder list…", "Put cylinders aboard from a spreadsheet, pasted or from a file", CTRL_SHIFT, Key::I),
    (Action::Quit, Menu::File, "Close the window", "Close; unsaved changes are asked for", CTRL, Key::Q),
    (Action::Undo, Menu::Edit, "Undo", "Take the last step back", CTRL, Key::Z),
    (Action::Redo, Menu::Edit, "Redo", "Do the step again", CTRL, Key::Y),
    (Action::Steps, Menu::Edit, "Steps…", "List the steps done, and go back or forward to any of them", CTRL, Key::H),
    (Action::Copy, Menu::Edit, "Copy", "Copy what is selected", CTRL, Key::C),
    (Action::Paste, Menu::Edit, "Paste", "Put what was copied beside where it was", CTRL, Key::V),
    (Action::Duplicate, Menu::Edit, "Duplicate", "Put a copy of what is selected beside it", CTRL, Key::D),
    (Action::Remove, Menu::Edit, "Take away", "Take what is selected off the plan", NONE, Key::Delete),
    (Action::SelectAll, Menu::Edit, "Select all", "Select everything that can be moved on this deck", CTRL, Key::A),
    (Action::NextThing, Menu::Edit, "Select the next thing", "Go to the next thing on this deck", NONE, Key::Period),
    (Action::PreviousThing, Menu::Edit, "Select the thing before", "Go to the thing before on this deck", NONE, Key::Comma),
    (Action::TurnToPort, Menu::Edit, "Turn 15° to port", "Turn what is selected from the bow towards port", NONE, Key::R),
    (Action::TurnToStarboard, Menu::Edit, "Turn 15° to starboard", "Turn what is selected from the bow towards starboard", SHIFT, Key::R),
    (Action::OtherSide, Menu::Edit, "Move to the other side", "Mirror what is selected about the centreline", NONE, Key::M),
    (Action::LayOrStand, Menu::Edit, "Lay down or stand up", "Lay the selected cylinders down, or stand them up", NONE, Key::L),
    (Action::FillRack, Menu::Edit, "Fill the whole rack", "Put cylinders of the kind in hand, or last used, into every free slot, kit facing inboard", NONE, Key::F),
    (Action::CopiesInRow, Menu::Edit, "Copies in a row…", "Put copies of what is selected in a row or a grid", CTRL_SHIFT, Key::D),
    (Action::LineUpForeAndAft, Menu::Edit, "Line up fore and aft", "Put what is selected in one line fore and aft, that of the last one", CTRL_SHIFT, Key::L),
    (Action::LineUpAthwart, Menu::Edit, "Line up athwartships", "Put what is selected in one line athwartships, that of the last one", CTRL_SHIFT, Key::T),
    (Action::SpreadEvenly, Menu::Edit, "Spread evenly", "Give what is selected equal spaces between the outermost ones", CTRL_SHIFT, Key::E),
    (Action::Nudge(Way::Forward, Stride::Short), Menu::Edit, "Move 1 cm forward", "Move what is selected by a small step", NONE, Key::ArrowRight),
    (Action::Nudge(Way::Aft, Stride::Short), Menu::Edit, "Move 1 cm aft", "Move what is selected by a small step", NONE, Key::ArrowLeft),
    (Action::Nudge(Way::Port, Stride::Short), Menu::Edit, "Move 1 cm to port", "Move what is selected by a small step", NONE, Key::ArrowUp),
    (Action::Nudge(Way::Starboard, Stride::Short), Menu::Edit, "Move 1 cm to starboard", "Move what is selected by a small step", NONE, Key::ArrowDown),
    (Action::Nudge(Way::Forward, Stride::Long), Menu::Edit, "Move 10 cm forward", "Move what is selected by a larger step", SHIFT, Key::ArrowRight),
    (Action::Nudge(Way::Aft, Stride::Long), Menu::Edit, "Move 10 cm aft", "Move what is selected by a larger step", SHIFT, Key::ArrowLeft),
    (Action::Nudge(Way::Port, Stride::Long), Menu::Edit, "Move 10 cm to port", "Move what is selected by a larger step", SHIFT, Key::ArrowUp),
    (Action::Nudge(Way::Starboard, Stride::Long), Menu::Edit, "Move 10 cm to starboard", "Move what is selected by a larger step", SHIFT, Key::ArrowDown),
    (Action::TakeSelect, Menu::Edit, "Hand", "Select and move things", NONE, Key::S),
    (Action::TakeLash, Menu::Edit, "Draw a lashing", "From a lashing point round cylinders to a lashing point", NONE, Key::K),
    (Action::TakeTape, Menu::Edit, "Measuring tape", "Measure a distance on the plan", NONE, Key::T),
    (Action::TakeShape, Menu::Edit, "Corners", "Move the corners of the deck or of what is selected; double click adds one, shift and click takes one away", NONE, Key::C),
    (Action::DeckByTape, Menu::Edit, "Deck by tape…", "Type the deck as distances from the stern with half-widths", CTRL_SHIFT, Key::O),
    (Action::DeckFromDrawing, Menu::Edit, "Deck from a drawing…", "Take the outline of the deck from a DXF drawing", CTRL_SHIFT, Key::J),
    (Action::ByTwoTapes, Menu::Edit, "Built on, by two tapes…", "Put a box or a bench onto the deck by tapes from two corners of the deck", CTRL_SHIFT, Key::G),
    (Action::PhotoBeneath, Menu::Edit, "Photo beneath the plan…", "Lay a photo or a scan beneath the deck, to scale", CTRL_SHIFT, Key::P),
    (Action::NoPhoto, Menu::Edit, "Take the photo away", "Take away the photo that lies beneath the deck", CTRL_SHIFT, Key::B),
    (Action::PutDown, Menu::Edit, "Put down", "Put what is in hand into the middle of the plan, or end the line", NONE, Key::Enter),
    (Action::Cancel, Menu::Edit, "Give up", "Give up what is under way, put the tool down, select nothing", NONE, Key::Escape),
    (Action::SearchStores, Menu::Edit, "Search the stores", "Type what is looked for in the stores", CTRL, Key::F),
    (Action::ZoomIn, Menu::Plan, "Nearer", "Show the plan larger", NONE, Key::Plus),
    (Action::ZoomOut, Menu::Plan, "Farther", "Show the plan smaller", NONE, Key::Minus),
    (Action::Fit, Menu::Plan, "Show the whole deck", "Show the whole deck", NONE, Key::Home),
    (Action::FrameSelected, Menu::Plan, "Show what is selected", "Bring what is selected into the middle", NONE, Key::Z),
    (Action::NextPart, Menu::Plan, "Next part of the day", "Show the next part of the day", NONE, Key::PageDown),
    (Action::PreviousPart, Menu::Plan, "Part of the day before", "Show the part of the day before", NONE, Key::PageUp),
    (Action::NextDeck, Menu::Plan, "Next deck", "Show the next deck", NONE, Key::D),
    (Action::OtherDecks, Menu::Plan, "Other decks show through", "Show the other decks faintly", NONE, Key::O),
    (Action::Names, Menu::Plan, "Names", "Show names on the plan", NONE, Key::N),
    (Action::Walkways, Menu::Plan, "Walkways", "Show walkways on the plan", NONE, Key::W),
    (Action::Margins, Menu::Plan, "How well each holds", "Colour and number the cylinders by how much of what holds them is used up", NONE, Key::H),
    (Action::Roll, Menu::Plan, "Roll the boat", "Show the selected cylinder from the side while the boat rolls at its period", NONE, Key::G),
    (Action::LeanMore, Menu::Plan, "Lean 1° more", "Lean the boat slowly, one degree more", NONE, Key::CloseBracket),
    (Action::LeanLess, Menu::Plan, "Lean 1° less", "Lean the boat slowly, one degree less", NONE, Key::OpenBracket),
    (Action::NextFinding, Menu::Plan, "Next to put right", "Go to the next line of what must be put right", NONE, Key::F8),
    (Action::PreviousFinding, Menu::Plan, "To put right before", "Go to the line before", SHIFT, Key::F8),
    (Action::Cure, Menu::Edit, "Put it right", "Apply the cure of the chosen line as one step", CTRL, Key::Enter),
    (Action::Sum, Menu::Plan, "Show the sum", "Show how the number was made", NONE, Key::E),
    (Action::TakeOn, Menu::Edit, "Take on…", "Take the chosen line on, with name and reason; it stays in sight", CTRL_SHIFT, Key::A),
    (Action::SearchFindings, Menu::Plan, "Search what must be put right", "Type what is looked for among what must be put right", CTRL_SHIFT, Key::F),
    (Action::NextTheme, Menu::Look, "Next light", "Light, dark, or for a screen in the sun", NONE, Key::F6),
    (Action::OtherUnits, Menu::Look, "Metric or US units", "Show quantities in the other units", NONE, Key::U),
    (Action::TextLarger, Menu::Look, "Larger text", "Make the text larger", CTRL, Key::Plus),
    (Action::TextSmaller, Menu::Look, "Smaller text", "Make the text smaller", CTRL, Key::Minus),
    (Action::LargeTargets, Menu::Look, "Large controls", "Controls of 44 points, for a wet finger", NONE, Key::F7),
    (Action::Shortcuts, Menu::Help, "Keys…", "Show the keys for every action", NONE, Key::F1),
];
