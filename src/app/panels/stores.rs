use egui::{Panel, RichText, ScrollArea, Sense, TextEdit, Ui};

use super::super::command::Command;
use super::super::stores::{Section, StoreItem};
use super::super::theme::STORES_WIDTH;
use super::super::tools::{LineWhat, Tool};
use super::super::words::stores as names;
use super::super::{Editor, words};

/// What the stores remember between frames.
#[derive(Clone, Debug, Default)]
pub(in super::super) struct StoresState {
    search: String,
    focus: bool,
}

impl StoresState {
    /// The keyboard goes to the search in the next frame.
    pub(in super::super) fn focus_search(&mut self) {
        self.focus = true;
    }
}

/// Things to place.
pub(in super::super) fn stores_ui(ui: &mut Ui, editor: &mut Editor, commands: &mut Vec<Command>) {
    Panel::left("stores")
        .default_size(STORES_WIDTH)
        .size_range(150.0..=420.0)
        .show(ui, |ui| {
            ui.take_available_width();
            ui.add_space(4.0);
            ui.heading(words::STORES);
            ui.label(RichText::new(words::STORES_HELP).small());
            let state = &mut editor.stores;
            let search = TextEdit::singleline(&mut state.search)
                .hint_text(words::SEARCH)
                .desired_width(f32::INFINITY);
            let response = ui.add(search).accessible_name(words::SEARCH);
            if std::mem::take(&mut state.focus) {
                response.request_focus();
            }
            ui.add_space(2.0);
            let kinds = editor.trip().map(|trip| trip.kinds.iter());
            let own: Vec<String> = kinds
                .map(|kinds| kinds.map(|kind| kind.id.clone()).collect())
                .unwrap_or_default();
            let search = &editor.stores.search;
            let in_hand = in_hand(&editor.tool);
            ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
                let mut any = false;
                for section in Section::ALL {
                    let items = section.items(&own);
                    any |= section_ui(ui, section, &items, search, in_hand.as_ref(), commands);
                }
                if !any {
                    ui.label(words::NOTHING_FOUND);
                }
            });
        });
}

/// One shelf; returns whether anything on it was shown.
fn section_ui(
    ui: &mut Ui,
    section: Section,
    items: &[StoreItem],
    search: &str,
    in_hand: Option<&StoreItem>,
    commands: &mut Vec<Command>,
) -> bool {
    let found: Vec<&StoreItem> = items.iter().filter(|item| item.matches(search)).collect();
    if found.is_empty() {
        return false;
    }
    let searching = !search.trim().is_empty();
    let first = matches!(section, Section::Racks | Section::Points);
    egui::CollapsingHeader::new(names::section(section))
        .default_open(first)
        .open(searching.then_some(true))
        .show(ui, |ui| {
            for item in found {
                item_ui(ui, item, in_hand == Some(item), commands);
            }
        });
    true
}

fn item_ui(ui: &mut Ui, item: &StoreItem, in_hand: bool, commands: &mut Vec<Command>) {
    let name = item.name();
    let button = egui::Button::selectable(in_hand, name.as_str())
        .wrap_mode(egui::TextWrapMode::Truncate)
        .min_size(egui::vec2(ui.available_width(), 0.0))
        .sense(Sense::click_and_drag());
    let response = ui.add(button).on_hover_text(name);
    if response.drag_started() {
        commands.push(Command::Use(Editor::tool_for(item.clone(), true)));
    } else if response.clicked() {
        let tool = if in_hand {
            Tool::default()
        } else {
            Editor::tool_for(item.clone(), false)
        };
        commands.push(Command::Use(tool));
    }
}

/// What of the stores is in hand.
fn in_hand(tool: &Tool) -> Option<StoreItem> {
    match tool {
        Tool::Place(place) => Some(place.item.clone()),
        Tool::Lash(lash) => Some(StoreItem::Lashing(lash.material.clone())),
        Tool::Line(line) => Some(match line.what {
            LineWhat::Walkway => StoreItem::Walkway,
            LineWhat::Gear(kind) => StoreItem::Gear(kind),
        }),
        Tool::Select(_) | Tool::Tape(_) | Tool::Shape(_) => None,
    }
}
