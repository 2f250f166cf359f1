//! The answer as lines for people.

use std::fmt::Write as _;
use std::path::Path;

use super::super::columns::{one_line, paragraph};
use super::super::style::Paint;
use super::{CAUTIONS, CheckedTrip};
use crate::checks::digest::{Line, PartDigest};
use crate::checks::{Cure, Digest, Finding, Signal};
use crate::engine::numbers::{MotionNumbers, PartNumbers};
use crate::layout::{Boat, Condition, MotionSource, Plan, Point, Trip};
use crate::units::Said;

/// How the lines look.
pub(super) struct Page {
    pub(super) paint: Paint,
    pub(super) width: usize,
}

/// Columns before the text of a finding: `CAUTION  U101  `.
const INDENT: usize = 15;

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
            writeln!(text, "{}", self.paint.bold(&one_line(&title))).ok();
            for (digest, numbers) in checked.digest.parts.iter().zip(&checked.numbers.parts) {
                text.push_str(&self.part(digest, numbers));
            }
            text.push('\n');
            for line in &checked.digest.lines {
                text.push_str(&self.line(plan, trip, line, &checked.findings));
            }
            writeln!(text, "{}\n", counts(&checked.digest)).ok();
        }
        text
    }

    /// How far the stowage is good in one part of the day, and what raises that most.
    fn part(&self, digest: &PartDigest, numbers: &PartNumbers) -> String {
        let mut text = format!("\n{}\n", self.paint.bold(&one_line(&digest.name)));
        let how = format!(
            "{}; {}",
            condition_words(numbers.condition),
            motion_words(&numbers.motion)
        );
        let how = paragraph("  ", 2, 2, &how, self.width);
        writeln!(text, "{}", self.paint.faint(how.trim_end())).ok();
        text.push_str(&paragraph("  ", 2, 2, &digest.sentence, self.width));
        for (index, best) in digest.cures.iter().enumerate() {
            let label = format!("  {}.", index + 1);
            let what = format!(
                "{}. {}",
                best.cure.label.trim_end_matches('.'),
                best.sentence
            );
            text.push_str(&paragraph(&label, 4, 5, &what, self.width));
        }
        for sentence in &digest.not_cured {
            text.push_str(&paragraph("  ", 2, 2, sentence, self.width));
        }
        text
    }

    /// One thing to put right.
    fn line(&self, plan: &Plan, trip: &Trip, line: &Line, findings: &[Finding]) -> String {
        let word = self
            .paint
            .signal(line.signal, &format!("{:<7}", line.signal.to_string()));
        let label = format!("{word}  {:<4}", line.code);
        let mut text = paragraph(&label, INDENT - 2, INDENT, &line.sentence, self.width);
        let mut more = |name: &str, what: &str| {
            let label = format!("{}{}", " ".repeat(INDENT), self.paint.faint(name));
            let visible = INDENT + name.chars().count();
            text.push_str(&paragraph(&label, visible, INDENT + 7, what, self.width));
        };
        if let Some(cure) = &line.cure {
            more("cure", &cure_words(cure));
        }
        if let Some(test) = &line.hand_test {
            more("test", test);
        }
        let lead = line.findings.first().and_then(|index| findings.get(*index));
        if let Some((lead, at)) = lead.and_then(|lead| Some((lead, lead.at?))) {
            more("where", &place(&plan.boat, lead.deck.as_deref(), at));
        }
        more("when", &parts_words(trip, &line.lead_parts));
        if let Some(taken) = &line.taken_on {
            more("taken", &format!("on by {}: {}", taken.by, taken.reason));
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

/// `2 DANGER, 1 CAUTION to put right; 1 taken on`.
fn counts(digest: &Digest) -> String {
    let counts = SIGNALS.map(|signal| (digest.count(signal), signal));
    let counts = counts.iter().filter(|(count, _)| *count > 0);
    let counts: Vec<String> = counts
        .map(|(count, signal)| format!("{count} {signal}"))
        .collect();
    let mut text = if counts.is_empty() {
        "Nothing to put right".to_owned()
    } else {
        format!("To put right: {}", counts.join(", "))
    };
    let taken = digest
        .lines
        .iter()
        .filter(|line| line.taken_on.is_some())
        .count();
    if taken > 0 {
        write!(text, "; {taken} taken on").ok();
    }
    text.push('.');
    text
}

/// What to do, and what comes of it.
fn cure_words(cure: &Cure) -> String {
    let mut words = cure.label.to_string();
    if !cure.clears {
        words.push_str("; it helps, but not all the way");
    }
    if !cure.moves_trouble_to.is_empty() {
        write!(
            words,
            "; but then: {}",
            Said::joined(&cure.moves_trouble_to, "; ")
        )
        .ok();
    }
    words
}

/// The names of parts of the day, or that it is all of them.
fn parts_words(trip: &Trip, parts: &[String]) -> String {
    if parts.len() == trip.parts.len() && parts.len() > 1 {
        return "in every part of the day".to_owned();
    }
    let name = |id: &String| {
        let part = trip.part(id).map(|(_, part)| part);
        part.and_then(|part| part.name.clone())
            .unwrap_or_else(|| id.clone())
    };
    parts.iter().map(name).collect::<Vec<_>>().join(", ")
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
    let mut swing = |what: &str, amplitude_deg: f64, period: &str| {
        if amplitude_deg > 0.0 {
            words.push(format!("{what} {amplitude_deg:.0}° every {period} s"));
        }
    };
    let period = match motion.longest_roll_period_s {
        Some(longest) => format!("{:.1} to {longest:.1}", motion.roll_period_s),
        None => format!("{:.1}", motion.roll_period_s),
    };
    swing("roll", motion.roll_amplitude_deg, &period);
    let period = format!("{:.1}", motion.pitch_period_s);
    swing("pitch", motion.pitch_amplitude_deg, &period);
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
            MotionSource::Wake => "estimated from a passing wake",
            MotionSource::Preset => "preset for a boat that runs, common practice, no source",
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
