//! The place itself: what can be looked at on the left, what is looked at beside it.

use std::sync::Arc;

use egui::{
    Button, CentralPanel, Key, Label, Modifiers, Panel, ProgressBar, RichText, ScrollArea, Ui, vec2,
};

use super::super::Editor;
use super::super::actions::{Action, Facts};
use super::super::command::Command;
use super::super::over_time::{self, Looked, TimeCommand};
use super::super::words::audit as words;
use super::tables::{self, table_ui};
use super::{AuditCommand, AuditPlace, Look};
use crate::sheet::{Paper, audit as sheets};

/// The greatest size of a deck, in millimetres of paper: as wide as it is looked at.
const DECK_MM: (f64, f64) = (260.0, 150.0);

/// Takes the whole window while a record is worked on, with how far it is and a way to give it up.
pub(crate) fn audit_working_ui(ui: &mut Ui, editor: &Editor, commands: &mut Vec<Command>) {
    let Some(job) = &editor.audit_job else { return };
    CentralPanel::default().show(ui, |ui| {
        ui.add_space(24.0);
        ui.heading(words::TITLE);
        let name = job.path.file_name().unwrap_or_default().to_string_lossy();
        ui.label(words::working(&name));
        ui.add_space(8.0);
        let bar = ProgressBar::new(job.share())
            .desired_width(420.0)
            .show_percentage();
        ui.add(bar).accessible_name(words::PROGRESS);
        ui.add_space(8.0);
        let escape = ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape));
        let give_up = Button::new(words::GIVE_UP).min_size(vec2(180.0, 44.0));
        if ui.add(give_up).clicked() || escape {
            ask(commands, AuditCommand::GiveUp);
        }
    });
}

/// Takes the whole window while a record is looked at.
pub(crate) fn audit_ui(
    ui: &mut Ui,
    editor: &mut Editor,
    facts: &Facts,
    commands: &mut Vec<Command>,
) {
    let Some(mut place) = editor.audit.take() else {
        return;
    };
    if editor.dialog.is_none() {
        keys_ui(ui, &place, facts, commands);
    }
    Panel::left("audit").exact_size(270.0).show(ui, |ui| {
        ScrollArea::vertical().show(ui, |ui| side_ui(ui, editor, &place, commands));
    });
    if place.look == Look::OverTime {
        went_panel_ui(ui, editor, &place, commands);
    }
    CentralPanel::default().show(ui, |ui| {
        if place.look == Look::Report {
            report_ui(ui, &mut place, commands);
        } else if place.look == Look::OverTime {
            over_time_ui(ui, editor, &place, commands);
        } else {
            ScrollArea::vertical()
                .auto_shrink([false, false])
                .show(ui, |ui| look_ui(ui, &mut place));
        }
    });
    editor.audit = Some(place);
}

/// What the keys do here, beside the digits that choose what is looked at.
const KEYS: [Action; 3] = [
    Action::AuditIncident,
    Action::TextLarger,
    Action::TextSmaller,
];

const DIGITS: [Key; 8] = [
    Key::Num1,
    Key::Num2,
    Key::Num3,
    Key::Num4,
    Key::Num5,
    Key::Num6,
    Key::Num7,
    Key::Num8,
];

fn keys_ui(ui: &mut Ui, place: &AuditPlace, facts: &Facts, commands: &mut Vec<Command>) {
    for action in KEYS.into_iter().filter(|action| action.is_enabled(facts)) {
        let keys = action.entry().keys;
        if ui.input_mut(|input| input.consume_shortcut(&keys)) {
            commands.push(Command::Do(action));
        }
    }
    for (key, look) in DIGITS.into_iter().zip(Look::ALL) {
        if ui.input_mut(|input| input.consume_key(Modifiers::NONE, key)) {
            ask(commands, AuditCommand::Show(look));
        }
    }
    if place.look == Look::OverTime
        && let Some(found) = place.replay()
        && !ui.text_edit_focused()
    {
        let mut asked = Vec::new();
        over_time::keys_ui(ui, &place.view, found, &mut asked);
        ask_all(commands, asked);
    }
    // The next account, round and round.
    if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::A)) {
        let count = place.audit().accounts.len().max(1);
        let next = (place.account + 1) % count;
        ask(commands, AuditCommand::Account(next));
    }
    if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
        ask(commands, AuditCommand::Leave);
    }
}

fn ask(commands: &mut Vec<Command>, command: AuditCommand) {
    commands.push(Command::Audit(command));
}

fn ask_all(commands: &mut Vec<Command>, asked: Vec<TimeCommand>) {
    let asked = asked.into_iter().map(AuditCommand::Time);
    commands.extend(asked.map(Command::Audit));
}

fn side_ui(ui: &mut Ui, editor: &Editor, place: &AuditPlace, commands: &mut Vec<Command>) {
    // All of it in sight in a window of the usual size.
    ui.spacing_mut().item_spacing.y = 3.0;
    ui.add_space(4.0);
    let wide = vec2(245.0, 44.0);
    if ui.add_sized(wide, Button::new(words::LEAVE)).clicked() {
        ask(commands, AuditCommand::Leave);
    }
    ui.add_space(6.0);
    ui.heading(words::TITLE);
    ui.add(Label::new(&place.audit().title).wrap());
    if let Some(notice) = editor.told() {
        ui.add(Label::new(notice).wrap());
    }
    ui.add_space(6.0);
    for (index, look) in Look::ALL.into_iter().enumerate() {
        let text = format!("{}  {}", index + 1, words::look(look));
        let button = Button::selectable(place.look == look, RichText::new(text).size(16.0));
        if ui.add_sized(wide, button).clicked() {
            ask(commands, AuditCommand::Show(look));
        }
    }
    ui.add_space(8.0);
    ui.label(words::ACCOUNT);
    for (index, account) in place.audit().accounts.iter().enumerate() {
        let text = words::account(&account.id, &account.by);
        let button = Button::selectable(place.account == index, text).wrap();
        if ui.add_sized(wide, button).clicked() {
            ask(commands, AuditCommand::Account(index));
        }
    }
    ui.add_space(8.0);
    ui.label(words::PAPER);
    ui.horizontal(|ui| {
        for (paper, name) in [(Paper::A4, words::A4), (Paper::Letter, words::LETTER)] {
            let button = Button::selectable(place.paper == paper, name);
            if ui.add_sized([118.0, 44.0], button).clicked() {
                ask(commands, AuditCommand::Paper(paper));
            }
        }
    });
    if ui.add_sized(wide, Button::new(words::SAVE)).clicked() {
        ask(commands, AuditCommand::Save);
    }
    if ui.add_sized(wide, Button::new(words::ANOTHER)).clicked() {
        ask(commands, AuditCommand::Another);
    }
}

/// Everything but the report.
fn look_ui(ui: &mut Ui, place: &mut AuditPlace) {
    ui.add_space(4.0);
    ui.heading(words::look(place.look));
    ui.add_space(4.0);
    match place.look {
        Look::Words => words_ui(ui, place),
        Look::Found => found_ui(ui, place),
        Look::Needed => {
            ranges_ui(ui, place);
            let (headings, rows) = tables::needed(place.audit());
            table_ui(ui, &headings, &rows);
            ui.add_space(8.0);
            account_heading(ui, place);
            let (headings, rows) = tables::remedies(place.audit(), place.account);
            table_ui(ui, &headings, &rows);
            sure_ui(ui, place);
        }
        Look::Reach => reach_ui(ui, place),
        Look::Held => {
            account_heading(ui, place);
            let Some(account) = place.audit().accounts.get(place.account) else {
                return;
            };
            ui.add(Label::new(words::asked(&account.held.wanted_from)).wrap());
            let (headings, rows) = tables::held(&account.held);
            table_ui(ui, &headings, &rows);
            ui.add(Label::new(&account.held.searched).wrap());
        }
        Look::Accounts => {
            let (headings, rows) = tables::side_by_side(place.audit());
            if rows.is_empty() {
                ui.label(words::NO_DIFFERENCE);
            }
            table_ui(ui, &headings, &rows);
        }
        Look::OverTime | Look::Report => {}
    }
}

/// The recorded motion over the account that is looked at: plots with the cursor.
fn over_time_ui(ui: &mut Ui, editor: &Editor, place: &AuditPlace, commands: &mut Vec<Command>) {
    ui.add_space(4.0);
    ui.heading(words::look(place.look));
    account_heading(ui, place);
    let log = place.audit().motion_log.as_ref();
    let Some(found) = place.replay() else {
        let why = log.and_then(|log| log.trouble.as_deref());
        let text = why.map_or_else(|| words::NO_LOG.to_owned(), words::log_of_no_use);
        ui.add(Label::new(text).wrap());
        return;
    };
    let mut asked = Vec::new();
    over_time::transport_ui(ui, &place.view, found, &mut asked);
    let palette = editor.settings.theme.palette();
    let looked = Looked::new(found, place.account, &place.close);
    over_time::plots_ui(ui, &place.view, &looked, palette, &mut asked);
    ask_all(commands, asked);
}

/// The deck at the cursor, what the record says happened when, and what went.
fn went_panel_ui(ui: &mut Ui, editor: &Editor, place: &AuditPlace, commands: &mut Vec<Command>) {
    let Some(looked) = place.looked() else { return };
    let mut asked = Vec::new();
    Panel::right("audit went").exact_size(340.0).show(ui, |ui| {
        if let Some(stand) = place.seen.stands.get(place.account) {
            let palette = editor.settings.theme.palette();
            over_time::plan_ui(ui, &place.view, &looked, stand, palette);
        }
        ScrollArea::vertical()
            .auto_shrink([false, false])
            .show(ui, |ui| {
                events_ui(ui, place, &mut asked);
                over_time::went_ui(ui, &place.view, looked.found, &mut asked);
                ui.add_space(6.0);
                assumed_ui(ui, place);
            });
    });
    ask_all(commands, asked);
}

/// The record's own time line; what has a time puts the cursor there.
fn events_ui(ui: &mut Ui, place: &AuditPlace, asked: &mut Vec<TimeCommand>) {
    let events = &place.audit().record.events;
    if events.is_empty() {
        return;
    }
    ui.heading(words::TIME_LINE);
    for event in events {
        let text = words::event(&event.when, event.at_s, &event.what);
        let is_past = event.at_s.is_some_and(|at_s| at_s <= place.view.cursor_s);
        let mut text = RichText::new(text);
        if is_past {
            text = text.strong();
        }
        match event.at_s {
            None => {
                ui.add(Label::new(text).wrap());
            }
            Some(at_s) => {
                let button = Button::new(text).wrap().min_size(vec2(310.0, 44.0));
                if ui.add(button).clicked() {
                    asked.push(TimeCommand::Cursor(at_s));
                }
            }
        }
    }
    ui.add_space(6.0);
}

/// What was put right or assumed of the log.
fn assumed_ui(ui: &mut Ui, place: &AuditPlace) {
    let Some(log) = &place.audit().motion_log else {
        return;
    };
    ui.heading(words::LOG_ASSUMED);
    for it in &log.assumed {
        let text = words::assumed(&it.what, &it.why);
        ui.add(Label::new(text).wrap());
    }
    for line in &log.read {
        ui.add(Label::new(RichText::new(line).weak()).wrap());
    }
    for what in &log.not_known {
        let text = RichText::new(words::not_known_to_it(what)).weak();
        ui.add(Label::new(text).wrap());
    }
}

/// How sure the limits of the account are, and what it did under the recorded motion.
fn sure_ui(ui: &mut Ui, place: &AuditPlace) {
    let Some(account) = place.audit().accounts.get(place.account) else {
        return;
    };
    if !account.how_sure.is_empty() {
        ui.strong(words::HOW_SURE);
    }
    for band in &account.how_sure {
        ui.add(Label::new(&band.sentence).wrap());
    }
    let Some(over_time) = &account.over_time else {
        return;
    };
    ui.add_space(6.0);
    ui.strong(words::RECORDED);
    if over_time.went.is_empty() {
        ui.label(words::NOTHING_WENT);
    }
    for went in &over_time.went {
        let text = words::went(went.time_s, &went.cylinder, &went.sentence);
        ui.add(Label::new(text).wrap());
    }
}

fn account_heading(ui: &mut Ui, place: &AuditPlace) {
    if let Some(account) = place.audit().accounts.get(place.account) {
        ui.strong(words::account(&account.id, &account.by));
        ui.add_space(2.0);
    }
}

fn words_ui(ui: &mut Ui, place: &AuditPlace) {
    ui.label(format!("{}: {}", place.audit().boat, place.audit().moment));
    ui.add(Label::new(&place.audit().motion).wrap());
    ui.add_space(6.0);
    for sentence in &place.audit().summary {
        ui.add(Label::new(RichText::new(sentence).size(17.0)).wrap());
        ui.add_space(5.0);
    }
    ui.add_space(6.0);
    for input in place.audit().doubtful() {
        ui.strong(format!(
            "{}: {}, {}",
            input.what,
            input.path,
            input.state.words()
        ));
    }
    let not_known = &place.audit().not_known;
    if !not_known.is_empty() {
        ui.add_space(6.0);
        ui.strong(words::NOT_KNOWN);
    }
    for sentence in not_known {
        ui.add(Label::new(words::point(sentence)).wrap());
    }
    ui.add_space(6.0);
    for caution in &place.audit().cautions {
        ui.add(Label::new(RichText::new(*caution).weak()).wrap());
    }
}

fn found_ui(ui: &mut Ui, place: &mut AuditPlace) {
    account_heading(ui, place);
    let seen = Arc::clone(&place.seen);
    let sights = seen
        .sights
        .get(place.account)
        .map_or(&[][..], Vec::as_slice);
    for (index, sight) in sights.iter().enumerate() {
        let (account, seen) = (place.account, &seen);
        let name = format!("deck {account} {}", sight.deck);
        let deck = || {
            let seen = Arc::clone(seen);
            move || sheets::plan_picture(&seen.sights[account][index], DECK_MM).1
        };
        let told = words::deck(&sight.name);
        place.drawn.show(ui, (&name, 0), (&told, 1000.0), deck);
    }
    let Some(account) = place.audit().accounts.get(place.account) else {
        return;
    };
    if account.comparison.differences.is_empty() {
        ui.label(words::AS_PLANNED);
    }
    let (headings, rows) = tables::differences(&account.comparison);
    table_ui(ui, &headings, &rows);
    for note in &account.lashings {
        ui.add(Label::new(note).wrap());
    }
}

fn ranges_ui(ui: &mut Ui, place: &AuditPlace) {
    for range in &place.audit().plausible {
        let [low, high] = range.roll_deg;
        let text = words::range(&range.id, range.source.words(), low, high, &range.from);
        ui.add(Label::new(text).wrap());
    }
    ui.add_space(6.0);
}

fn reach_ui(ui: &mut Ui, place: &mut AuditPlace) {
    account_heading(ui, place);
    let rows = place
        .audit()
        .accounts
        .get(place.account)
        .map(|account| account.reach.clone())
        .unwrap_or_default();
    if place.audit().record.marked_spot.is_none() {
        ui.label(words::NO_SPOT);
    } else if rows.is_empty() {
        ui.label(words::NOBODY);
    }
    for row in &rows {
        let name = format!("fall {} {}", place.account, row.cylinder);
        let picture = || {
            let row = row.clone();
            move || sheets::fall_picture(&row)
        };
        let told = words::fall(&row.cylinder);
        place.drawn.show(ui, (&name, 0), (&told, 620.0), picture);
        ui.add(Label::new(words::point(&row.how_words())).wrap());
        ui.add_space(8.0);
    }
}

/// The pages of the report, one at a time, as they will be printed.
fn report_ui(ui: &mut Ui, place: &mut AuditPlace, commands: &mut Vec<Command>) {
    let ctx = ui.ctx().clone();
    let Some(pages) = place.pages(&ctx) else {
        ui.add_space(20.0);
        ui.spinner();
        ui.label(words::PAGES_MADE);
        return;
    };
    let index = place.page.min(pages.len().saturating_sub(1));
    ui.horizontal(|ui| {
        let size = [140.0, 44.0];
        let before = ui.add_enabled_ui(index > 0, |ui| {
            ui.add_sized(size, Button::new(words::PAGE_BEFORE))
        });
        if before.inner.clicked() {
            ask(commands, AuditCommand::Page(index - 1));
        }
        ui.label(words::page_of(index + 1, pages.len()));
        let next = ui.add_enabled_ui(index + 1 < pages.len(), |ui| {
            ui.add_sized(size, Button::new(words::NEXT_PAGE))
        });
        if next.inner.clicked() {
            ask(commands, AuditCommand::Page(index + 1));
        }
    });
    let told = words::look(Look::Report);
    (place.drawn).show_page(ui, (&pages, index), ("report", 0), told);
}
