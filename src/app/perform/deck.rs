//! The outline of the deck shown: by tape, or from a drawing.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::super::files::{Dialog, FileList, Purpose, has_ending};
use super::super::here::at;
use super::super::survey::DeckSurvey;
use super::super::underlay::Opened;
use super::super::words::survey as survey_words;
use super::super::words::underlay as underlay_words;
use super::super::writing::Made;
use super::super::{Editor, words};
use crate::geometry::{Bounds, Outline};
use crate::layout::{Edit, Point, Thing, Underlay};
use crate::sheet::{self, Paper, measuring};
use crate::units::System;

impl Editor {
    /// Asks for the deck shown as tape readings, beginning with those of the deck as it is.
    pub(super) fn ask_for_stations(&mut self) {
        let deck = self.history.plan().boat.deck(&self.deck);
        let outline = deck.map_or(&[][..], |deck| &deck.outline);
        let survey = DeckSurvey::of(outline, self.settings.units);
        self.dialog = Some(Dialog::DeckByTape(Box::new(survey)));
    }

    /// Asks for a drawing of the deck shown.
    pub(super) fn ask_for_drawing(&mut self) {
        let list = FileList::of(Purpose::Drawing, &self.folder(), "", None);
        self.ask_for_file(list);
    }

    /// Asks where to save a measuring sheet.
    pub(super) fn ask_for_sheet(&mut self) {
        let name = survey_words::SHEET_NAME;
        let list = FileList::of(Purpose::Sheet, &self.folder(), name, None);
        self.ask_for_file(list);
    }

    /// Writes a measuring sheet with the names of this boat, beside the window: on Letter paper for those who measure
    /// in feet.
    pub(super) fn write_sheet(&mut self, ctx: &egui::Context, path: &Path) {
        let plan = Arc::clone(self.history.plan());
        let units = self.settings.units;
        let to = path.to_owned();
        let not_saved = survey_words::SHEET_NOT_SAVED;
        self.write_beside(ctx, path, not_saved, move |watch| {
            let paper = match units {
                System::Metric => Paper::A4,
                System::Us => Paper::Letter,
            };
            let pages = measuring::pages(Some(&plan), measuring::Options { paper, units });
            watch.set(0.5);
            let bytes = if has_ending(&to, &["svg"]) {
                sheet::svg(&pages).into_bytes()
            } else {
                let title = measuring::title(Some(&plan));
                sheet::pdf(&pages, &title).map_err(|error| error.to_string())?
            };
            watch.set(0.9);
            let shown = to.display().to_string();
            Ok(Made {
                bytes,
                told: survey_words::sheet_saved(&shown, pages.len()),
            })
        });
    }

    /// Asks for a photo to lie beneath the plan.
    pub(super) fn ask_for_photo(&mut self) {
        if self.file.path().is_none() {
            self.notice = Some(underlay_words::SAVE_PLAN_FIRST.to_owned());
            return;
        }
        let list = FileList::of(Purpose::Photo, &self.folder(), "", None);
        self.ask_for_file(list);
    }

    /// Reads a photo whose points are to be clicked.
    pub(super) fn open_photo(&mut self, ui: &egui::Ui, path: PathBuf) {
        if self.file.path().is_none() {
            self.notice = Some(underlay_words::SAVE_PLAN_FIRST.to_owned());
            return;
        }
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        self.dialog = Some(Dialog::Reading(name.into_owned()));
        let folder = self.folder();
        self.underlays.open(ui.ctx(), path, folder);
    }

    /// Shows a photo that was read, or why it was not.
    pub(in super::super) fn photo_opened(&mut self, opened: Opened) {
        self.notice = None;
        self.dialog = Some(match opened {
            Ok(choice) => Dialog::Photo(Box::new(choice)),
            Err(why) => Dialog::Trouble {
                title: underlay_words::PHOTO_NOT_READ.to_owned(),
                lines: vec![why],
            },
        });
    }

    /// Lays a photo under the deck shown, or takes it away.
    pub(super) fn lay_under(&mut self, underlay: Option<Underlay>) {
        let label = match underlay {
            Some(_) => underlay_words::STEP_LAY_UNDER,
            None => underlay_words::STEP_NO_PHOTO,
        };
        let deck = self.history.plan().boat.deck(&self.deck).cloned();
        let Some(mut deck) = deck else { return };
        deck.underlay = underlay;
        self.dialog = None;
        let edit = Edit::Put {
            trip: None,
            thing: Box::new(Thing::Deck(deck)),
        };
        self.step(label.to_owned(), &[edit], None);
    }

    /// Gives the deck shown another outline; the boat grows with it where it reaches beyond.
    pub(super) fn deck_outline(&mut self, outline: Vec<Point>) {
        let bounds = Bounds::of(outline.iter().map(|p| at(*p)));
        let sound = Outline::new(outline.iter().map(|p| at(*p)).collect()).is_ok();
        let deck = self.history.plan().boat.deck(&self.deck).cloned();
        let (Some(mut deck), true) = (deck, sound) else {
            self.notice = Some(words::NO_OUTLINE.to_owned());
            return;
        };
        deck.outline = outline;
        self.dialog = None;
        let label = words::step_reshape(&deck.id);
        let mut edits = Vec::new();
        let boat = &self.history.plan().boat;
        let length_m = boat.length_overall_m.max(bounds.max.x);
        let beam_m = boat.beam_m.max(bounds.size().y);
        if length_m > boat.length_overall_m || beam_m > boat.beam_m {
            let mut grown = boat.clone();
            (grown.length_overall_m, grown.beam_m) = (length_m, beam_m);
            edits.push(Edit::SetBoat(Box::new(grown)));
        }
        edits.push(Edit::Put {
            trip: None,
            thing: Box::new(Thing::Deck(deck)),
        });
        self.step(label, &edits, None);
        self.plan_view.fit();
    }
}
