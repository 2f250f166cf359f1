//! What must be put right in the part of the day shown, in the lines in which the command line tells it too.

use std::sync::Arc;

use super::Editor;
pub(crate) use crate::checks::digest::Line;

impl Editor {
    /// The lines of the part of the day shown, the gravest first.
    pub(super) fn lines(&self) -> Arc<Vec<Line>> {
        let Some(trip) = self.trip() else {
            return Arc::default();
        };
        let part = trip.parts.get(self.part).filter(|_| !self.sought.whole_day);
        self.live.lines(trip, part.map(|part| &part.id))
    }

    /// Has the line all words of the search in it, in its text or in the names of what it is about?
    pub(super) fn is_looked_for(&self, line: &Line) -> bool {
        if self.sought.only.is_some_and(|only| only != line.signal) {
            return false;
        }
        if self.sought.text.trim().is_empty() {
            return true;
        }
        let shown = line.sentence.show(self.settings.units);
        let mut text = format!("{shown} {}", line.signal).to_lowercase();
        for index in &line.findings {
            if let Some(finding) = self.live.findings().get(*index) {
                for subject in &finding.about {
                    text.push(' ');
                    text.push_str(&subject.name.to_lowercase());
                }
                text.push(' ');
                text.push_str(&finding.code.to_lowercase());
            }
        }
        let search = self.sought.text.to_lowercase();
        search.split_whitespace().all(|word| text.contains(word))
    }
}
