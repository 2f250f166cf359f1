//! The answer as lines for people.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;

use super::super::columns::paragraph;
use super::super::style::Paint;
use super::{CAUTIONS, CheckedTrip};
use crate::checks::{Finding, Signal};
use crate::engine::numbers::{MotionNumbers, PartNumbers};
use crate::layout::{Boat, Condition, MotionSource, Part, Plan, Point, Trip};

/// How the lines look.
pub(super) struct Page {
    pub(super) paint: Paint,
    pub(super) width: usize,
}

/// Columns before the text of a finding: `  CAUTION  U101  `.
const INDENT: usize = 17;

/// The signal words, gravest first.
const SIGNALS: [Signal; 4] = [
    Signal::Danger,
    Signal::Warning,
    Signal::Caution,
    Signal::Notice,
];

impl Page {
    /// Everything of one file.
    pub(super) fn file(&self, path: &Path, plan: &Plan, trips: &[CheckedTrip]) -> String {
        let mut text = String::new();
        for checked in trips {
            let trip = &plan.trips[checked.index];
            let title = format!(
                "{}: {}, {}",
                path.display(),
                plan.boat.name,
                trip_name(trip)
            );
            writeln!(text, "{}", self.paint.bold(&title)).ok();
            for numbers in &checked.numbers.parts {
                if let Some((_, part)) = trip.part(&numbers.part) {
                    text.push_str(&self.part(&plan.boat, part, numbers, &checked.findings));
                }
            }
            text.push('\n');
        }
        text
    }

    fn part(
        &self,
        boat: &Boat,
        part: &Part,
        numbers: &PartNumbers,
        findings: &[Finding],
    ) -> String {
        let name = part.name.as_deref().unwrap_or(&part.id);
        let mut text = format!(
            "\n{} {}\n",
            self.paint.bold(name),
            self.paint.faint(&format!(
                "({}; {})",
                condition_words(part.condition),
                motion_words(&numbers.motion)
            ))
        );
        let of_part: Vec<&Finding> = findings
            .iter()
            .filter(|finding| finding.part == part.id)
            .collect();
        if of_part.is_empty() {
            text.push_str("  Nothing to put right.\n");
            return text;
        }
        for group in folded(&of_part) {
            text.push_str(&self.group(boat, &group));
        }
        let count = |signal: Signal| of_part.iter().filter(|f| f.signal == signal).count();
        let counts = SIGNALS.map(|signal| (count(signal), signal));
        let counts = counts.iter().filter(|(count, _)| *count > 0);
        let counts: Vec<String> = counts
            .map(|(count, signal)| format!("{count} {signal}"))
            .collect();
        writeln!(text, "  {}", counts.join(", ")).ok();
        text
    }

    /// Findings with the same cause and cure.
    fn group(&self, boat: &Boat, group: &[&Finding]) -> String {
        let Some(first) = group.first() else {
            return String::new();
        };
        let word = self
            .paint
            .signal(first.signal, &format!("{:<7}", first.signal.to_string()));
        let label = format!("  {word}  {:<4}", first.code);
        let mut text = paragraph(&label, INDENT - 2, INDENT, &first.sentence, self.width);
        let mut line = |name: &str, what: &str| {
            let label = format!("{}{}", " ".repeat(INDENT), self.paint.faint(name));
            let visible = INDENT + name.chars().count();
            text.push_str(&paragraph(&label, visible, INDENT + 7, what, self.width));
        };
        if let [_, others @ ..] = group
            && !others.is_empty()
        {
            let names: Vec<&str> = others
                .iter()
                .filter_map(|finding| finding.about.first())
                .map(|subject| subject.name.as_str())
                .collect();
            line(
                "also",
                &format!("{} ({} in all)", names.join(", "), group.len()),
            );
        }
        for cure in &first.cures {
            let mut what = cure.label.clone();
            if !cure.moves_trouble_to.is_empty() {
                what.push_str("; but then: ");
                what.push_str(&cure.moves_trouble_to.join("; "));
            }
            line("cure", &what);
        }
        if let Some(test) = &first.hand_test {
            line("test", test);
        }
        if let Some(at) = first.at {
            line("where", &place(boat, first.deck.as_deref(), at));
        }
        if let Some(taken) = &first.taken_on {
            line("taken", &format!("on by {}: {}", taken.by, taken.reason));
        }
        text
    }

    /// What the program does not do.
    pub(super) fn cautions(&self) -> String {
        let text = paragraph("", 0, 0, &CAUTIONS.join(" "), self.width);
        let lines: Vec<String> = text.lines().map(|line| self.paint.faint(line)).collect();
        format!("{}\n", lines.join("\n"))
    }
}

/// Findings by cause and cure, in the order in which the first of each stands.
fn folded<'f>(findings: &[&'f Finding]) -> Vec<Vec<&'f Finding>> {
    let mut places: BTreeMap<(Signal, &str, &str, bool), usize> = BTreeMap::new();
    let mut groups: Vec<Vec<&Finding>> = Vec::new();
    for finding in findings.iter().copied() {
        let key = (
            finding.signal,
            finding.code,
            finding.fold.as_str(),
            finding.taken_on.is_some(),
        );
        let place = *places.entry(key).or_insert_with(|| {
            groups.push(Vec::new());
            groups.len() - 1
        });
        groups[place].push(finding);
    }
    groups
}

fn trip_name(trip: &Trip) -> String {
    let name = trip.name.as_deref().unwrap_or(&trip.id);
    match &trip.date {
        Some(date) => format!("{name}, {date}"),
        None => name.to_owned(),
    }
}

fn condition_words(condition: Condition) -> &'static str {
    match condition {
        Condition::MadeFast => "made fast",
        Condition::AtAnchor => "at anchor",
        Condition::Drifting => "drifting",
        Condition::Running => "running",
    }
}

/// `roll 15° every 3.2 s, pitch 4° every 2.5 s, up and down 0.10 g, by stopwatch`.
fn motion_words(motion: &MotionNumbers) -> String {
    let mut words = Vec::new();
    let mut swing = |what: &str, amplitude_deg: f64, period_s: f64| {
        if amplitude_deg > 0.0 {
            words.push(format!("{what} {amplitude_deg:.0}° every {period_s:.1} s"));
        }
    };
    swing("roll", motion.roll_amplitude_deg, motion.roll_period_s);
    swing("pitch", motion.pitch_amplitude_deg, motion.pitch_period_s);
    if motion.vertical_m_s2 > 0.0 {
        let in_g = motion.vertical_m_s2 / crate::mechanics::motion::GRAVITY;
        words.push(format!("up and down {in_g:.2} g"));
    }
    if motion.heel_deg.abs() > 0.0 {
        let side = if motion.heel_deg > 0.0 {
            "starboard"
        } else {
            "port"
        };
        words.push(format!("heeled {:.0}° to {side}", motion.heel_deg.abs()));
    }
    words.push(
        match motion.source {
            MotionSource::Recorded => "from a recorded log",
            MotionSource::Stopwatch => "by stopwatch and an angle seen",
            MotionSource::Estimate => "estimated from boat and sea",
            MotionSource::Assumed => "assumed",
        }
        .to_owned(),
    );
    words.join(", ")
}

/// `Main deck, 3.20 m forward of the transom, 1.10 m to port`.
fn place(boat: &Boat, deck: Option<&str>, [x, y]: Point) -> String {
    let mut words = Vec::new();
    if let Some(id) = deck {
        let name = boat.deck(id).and_then(|deck| deck.name.as_deref());
        words.push(name.unwrap_or(id).to_owned());
    }
    words.push(format!(
        "{:.2} m {} the transom",
        x.abs(),
        if x < 0.0 { "aft of" } else { "forward of" }
    ));
    words.push(if y.abs() < 0.005 {
        "on the centreline".to_owned()
    } else {
        format!(
            "{:.2} m to {}",
            y.abs(),
            if y > 0.0 { "port" } else { "starboard" }
        )
    });
    words.join(", ")
}
