//! The window: the deck plan to scale, the stores, what must be put right, and the card of what is
//! selected. The only user of egui.
//!
//! Each frame reads the input, collects `command::Command`s, draws from an unchanging plan, and
//! runs the commands at its end: no function that draws changes the plan. Tools know no screen: they
//! turn the pointer, in metres, into edits. What to draw is decided as plain data (`canvas`) and
//! only then painted.
//!
//! Selection, zoom, tool and theme live here; they are neither saved with the plan nor undone.

mod actions;
mod audit;
mod balance;
mod beside;
mod briefing;
mod by_two_tapes;
mod canvas;
mod command;
mod cures;
mod curve;
mod day;
mod decks;
mod demo;
mod drawn;
mod editor;
mod file_dialogs;
mod files;
mod frame;
mod here;
mod keeping;
mod limit_card;
mod lines;
mod live;
mod motion;
mod moving;
mod naming;
mod outcome;
mod over_time;
mod page_pictures;
mod panels;
mod perform;
mod reading;
mod renewed;
mod replay;
mod rows;
mod run;
mod search;
mod selection;
mod settings;
mod several;
mod still_plot;
mod stores;
mod survey;
mod theme;
mod things;
mod together;
mod tools;
mod trips;
mod underlay;
mod versions;
mod words;
mod writing;

pub use self::editor::Editor;
pub use self::file_dialogs::{FileAnswer, FileChooser, FileQuestion, TellAnswer};
pub use self::run::{prepare, run};
pub use self::theme::Theme;
