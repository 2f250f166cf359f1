//! The regions round the plan. Each takes the editor as it is and appends what the user asks for.

mod bottom;
mod card;
mod decks;
mod dialogs;
pub(super) mod fields;
mod menu;
mod past;
mod photo;
mod put_right;
mod questions;
mod right;
mod stores;
mod survey;
mod top;
mod tour;
mod two_tapes;

pub(super) use self::bottom::bottom_ui;
pub(super) use self::card::{hull_ui, motion_given_ui};
pub(super) use self::dialogs::{dialogs_ui, show as show_dialog};
pub(super) use self::menu::{action_button, action_button_short, plan_menu};
pub(super) use self::right::right_ui;
pub(super) use self::stores::{StoresState, stores_ui};
pub(super) use self::top::top_ui;
pub(super) use self::tour::tour_ui;
