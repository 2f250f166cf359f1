//! The work on deck from part to part as the crew has it in hand, and when everything is pushed again.

use schemars::JsonSchema;
use serde::Serialize;

use super::securing::every;
use crate::checks::{natural, runs};
use crate::day::{DeckStep, PartWork, StepKind};
use crate::layout::{Condition, DayState, Id, Part, Placing, Trip};

/// When every cylinder is pushed by hand again. Common practice, no source.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PushAgain {
    /// As soon as what was opened is shut again.
    WhenShut,
    /// After a quarter of an hour's running.
    AfterRunning,
    /// After a dive, when all that came back is stowed.
    AfterDive,
    /// Before nobody is on deck any more.
    BeforeNight,
}

impl PushAgain {
    /// In a few words.
    pub fn words(self) -> &'static str {
        match self {
            Self::WhenShut => "once shut again",
            Self::AfterRunning => "after 15 min of running",
            Self::AfterDive => "after the dive, when all is stowed",
            Self::BeforeNight => "before the deck is left for the night",
        }
    }
}

/// What is done on deck as a part of the day begins.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct DeckWork {
    /// The part.
    pub part: Id,

    /// What the crew call it.
    pub name: String,

    /// What is done, in its order; what is done alike to several by the same hands is one line.
    pub lines: Vec<WorkLine>,

    /// When everything is pushed again in this part.
    pub push_again: Vec<PushAgain>,
}

/// One line of the work on deck.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct WorkLine {
    /// What is done.
    pub kind: StepKind,

    /// What is done, in one sentence without its stop.
    pub sentence: String,

    /// Who does it; `None` where nobody has a hand free on deck, or whoever is named does.
    pub by: Option<Id>,

    /// Who stands unsecured meanwhile, by name.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub unsecured_meanwhile: Vec<Id>,
}

impl WorkLine {
    /// The line with whoever does it and who stands unsecured, for a list on paper.
    pub fn told(&self) -> String {
        let mut told = self.sentence.clone();
        let mut behind: Vec<String> = Vec::new();
        let by = self.by.iter().filter(|by| !told.starts_with(*by));
        behind.extend(by.map(|by| format!("by {by}")));
        if !self.unsecured_meanwhile.is_empty() {
            let verb = if self.unsecured_meanwhile.len() == 1 {
                "stands"
            } else {
                "stand"
            };
            behind.push(format!(
                "meanwhile {} {verb} unsecured",
                every(&self.unsecured_meanwhile)
            ));
        }
        if !behind.is_empty() {
            told = format!("{told} ({})", behind.join("; "));
        }
        told
    }
}

/// The work of every part of a trip, with its days as they are after each.
pub(super) fn rows(trip: &Trip, days: &[DayState], work: &[PartWork]) -> Vec<DeckWork> {
    let parts = trip.parts.iter().enumerate();
    parts
        .filter_map(|(index, part)| {
            let work = work.iter().find(|work| work.part == part.id)?;
            let before = index.checked_sub(1).and_then(|last| days.get(last));
            Some(DeckWork {
                part: part.id.clone(),
                name: work.name.clone(),
                lines: folded(&work.steps),
                push_again: push_again(part, before, days.get(index)?, work),
            })
        })
        .collect()
}

fn push_again(
    part: &Part,
    before: Option<&DayState>,
    now: &DayState,
    work: &PartWork,
) -> Vec<PushAgain> {
    let mut when = Vec::new();
    if work.count(StepKind::Shut) > 0 {
        when.push(PushAgain::WhenShut);
    }
    if part.condition == Condition::Running {
        when.push(PushAgain::AfterRunning);
    }
    let is_away = |placing: &Placing| matches!(placing, Placing::InWater | Placing::OnDiver { .. });
    let came_back = before.is_some_and(|before| {
        let mut were = before.cylinders.iter().map(|state| &state.cylinder);
        were.any(|was| {
            let is = now.cylinder(&was.id);
            is_away(&was.placing)
                && is.is_some_and(|is| is.placing.is_aboard() && !is_away(&is.placing))
        })
    });
    if came_back {
        when.push(PushAgain::AfterDive);
    }
    if part.nobody_on_deck {
        when.push(PushAgain::BeforeNight);
    }
    when
}

/// Steps one after the other that do the same, as one line.
fn folded(steps: &[DeckStep]) -> Vec<WorkLine> {
    let mut lines: Vec<WorkLine> = Vec::new();
    let mut at = 0;
    while let Some(step) = steps.get(at) {
        let others = steps[at + 1..].iter();
        let alike: Vec<&DeckStep> = std::iter::once(step)
            .chain(others.take_while(|other| is_alike(step, other)))
            .collect();
        at += alike.len();
        let is_same_hand = alike.iter().all(|other| other.by == step.by);
        let left = alike.iter().flat_map(|step| &step.unsecured_meanwhile);
        let mut unsecured: Vec<Id> = left.map(|left| left.cylinder.clone()).collect();
        unsecured.sort_by_key(|id| natural(id));
        unsecured.dedup();
        lines.push(WorkLine {
            kind: step.kind,
            sentence: match opened_or_shut(&alike) {
                Some(sentence) => sentence,
                None => sentence(&alike, is_same_hand),
            },
            by: step.by.clone().filter(|_| is_same_hand),
            unsecured_meanwhile: unsecured,
        });
    }
    lines
}

/// Stands for the name of the one cylinder that a step is about.
const GAP: &str = "\u{0}";

/// The sentence of a step about one cylinder, with gaps where its name stands; a slot that is painted with that
/// name is a gap too, and says without its rack where it is.
fn pattern(step: &DeckStep) -> Option<String> {
    let [name] = step.things.as_slice() else {
        return None;
    };
    let is_of_one = matches!(
        step.kind,
        StepKind::LayDown | StepKind::Away | StepKind::IntoSlot | StepKind::Move
    );
    let words = step.sentence.split(' ');
    let words = words.map(|word| match word.strip_prefix(name.as_str()) {
        Some(rest @ ("" | ",")) => format!("{GAP}{rest}"),
        _ => word.to_owned(),
    });
    let whole = words.collect::<Vec<_>>().join(" ");
    let own = format!("slot {GAP} of ");
    let pattern = match whole.split_once(&own) {
        Some((before, _)) if step.kind == StepKind::IntoSlot => format!("{before}slot {GAP}"),
        _ => whole,
    };
    is_of_one.then_some(pattern)
}

fn is_alike(step: &DeckStep, other: &DeckStep) -> bool {
    if matches!(step.kind, StepKind::Open | StepKind::Shut) {
        return step.kind == other.kind && step.by == other.by;
    }
    let (Some(one), Some(two)) = (pattern(step), pattern(other)) else {
        return false;
    };
    // Whoever dives takes their own along: there each has a name behind it.
    let hands = step.by == other.by || step.kind == StepKind::Away;
    one == two && step.kind == other.kind && hands
}

/// What is opened or shut one after the other, by the names that are on the plan: for whom stands in what follows.
fn opened_or_shut(alike: &[&DeckStep]) -> Option<String> {
    let [first, ..] = alike else { return None };
    let verb = match first.kind {
        StepKind::Open => "Open ",
        StepKind::Shut => "Shut ",
        _ => return None,
    };
    let told = alike.iter().map(|step| {
        let told = step.sentence.strip_prefix(verb).unwrap_or(&step.sentence);
        let id = step.things.first().map_or("", String::as_str);
        // A front is told with its rack.
        match told.split_once(" across ") {
            Some((front, _)) if front.ends_with(id) => front.to_owned(),
            _ => told.split(" for ").next().unwrap_or(told).to_owned(),
        }
    });
    let names: Vec<String> = told.collect();
    let is_told_apart = |name: &String| names.iter().filter(|it| *it == name).count() == 1;
    if names.iter().all(is_told_apart) {
        return Some(format!("{verb}{}", every(&names)));
    }
    let whole = alike.iter().map(|step| step.sentence.strip_prefix(verb));
    let whole: Vec<&str> = whole.flatten().collect();
    Some(format!("{verb}{}", whole.join("; ")))
}

/// One sentence for steps that are alike; behind each name whoever does it, if they are not the same.
fn sentence(alike: &[&DeckStep], is_same_hand: bool) -> String {
    let [first, _, ..] = alike else {
        return alike
            .first()
            .map_or_else(String::new, |step| step.sentence.clone());
    };
    let mut names: Vec<(Id, Option<&Id>)> = alike
        .iter()
        .map(|step| {
            (
                step.things.first().cloned().unwrap_or_default(),
                step.by.as_ref(),
            )
        })
        .collect();
    names.sort_by_key(|(name, _)| natural(name));
    let names: Vec<String> = if is_same_hand {
        let names: Vec<Id> = names.into_iter().map(|(name, _)| name).collect();
        runs(&names)
    } else {
        let with_hand = names.into_iter().map(|(name, by)| match by {
            Some(by) => format!("{name} (by {by})"),
            None => name,
        });
        with_hand.collect()
    };
    let pattern = pattern(first).unwrap_or_default();
    let pattern = pattern.replace(&format!("slot {GAP}"), "their own slots");
    let plural = pattern.split(' ').map(|word| match word {
        "it" => "them",
        "goes" => "go",
        word => word,
    });
    let plural = plural.collect::<Vec<_>>().join(" ");
    plural.replace(GAP, &every(&names))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(kind: StepKind, name: &str, sentence: &str, by: &str) -> DeckStep {
        DeckStep {
            number: 1,
            kind,
            things: vec![name.to_owned()],
            sentence: sentence.to_owned(),
            by: (!by.is_empty()).then(|| by.to_owned()),
            placing: None,
            unsecured_meanwhile: Vec::new(),
        }
    }

    #[test]
    fn what_is_done_alike_is_one_line() {
        let into = |name: &str, by: &str| {
            let text = format!("Put {name}, empty, into slot {name} of Bench rack");
            step(StepKind::IntoSlot, name, &text, by)
        };
        let wet = |name: &str, by: &str| {
            step(
                StepKind::Away,
                name,
                &format!("{name} goes into the water"),
                by,
            )
        };
        let lines = folded(&[
            wet("P1", "Ann"),
            wet("P2", "Bo"),
            into("P1", "Kim"),
            into("P10", "Kim"),
            into("P3", "Lee"),
        ]);
        let told: Vec<String> = lines.iter().map(WorkLine::told).collect();
        assert_eq!(
            told,
            [
                "P1 (by Ann) and P2 (by Bo) go into the water",
                "Put P1 and P10, empty, into their own slots (by Kim)",
                "Put P3, empty, into slot P3 of Bench rack (by Lee)",
            ]
        );
    }

    #[test]
    fn slots_with_other_names_are_told_one_by_one() {
        let into = |name: &str, slot: &str| {
            let text = format!("Put {name} into slot {slot} of Bench rack");
            step(StepKind::IntoSlot, name, &text, "Kim")
        };
        let lines = folded(&[into("C1", "P1"), into("C2", "P2")]);
        assert_eq!(lines.len(), 2, "{lines:?}");
        assert!(lines[0].sentence.contains("slot P1"), "{lines:?}");
    }

    #[test]
    fn what_is_opened_together_is_one_line_with_all_who_stand_unsecured() {
        let open = |front: &str, rack: &str, left: &[&str]| DeckStep {
            unsecured_meanwhile: left
                .iter()
                .map(|id| crate::checks::LeftStanding {
                    cylinder: (*id).to_owned(),
                    limit_roll_deg: None,
                    limit_share: None,
                    goes: false,
                    sentence: String::new(),
                })
                .collect(),
            ..step(
                StepKind::Open,
                front,
                &format!("Open {front} across {rack} for P1 and P2"),
                "Kim",
            )
        };
        let lines = folded(&[
            open("bar P1-P4", "Side rack", &["P10", "P3"]),
            open("bar S1-S4", "Side rack", &[]),
        ]);
        assert_eq!(lines.len(), 1);
        assert_eq!(
            lines[0].told(),
            "Open bar P1-P4 and bar S1-S4 (by Kim; meanwhile P3 and P10 stand unsecured)"
        );
        // Two of the same name are told with their racks.
        let lines = folded(&[open("F1", "Port rack", &[]), open("F1", "Other rack", &[])]);
        assert!(
            lines[0].sentence.contains("F1 across Port rack"),
            "{lines:?}"
        );
        assert!(
            lines[0].sentence.contains("F1 across Other rack"),
            "{lines:?}"
        );
        let shut = step(StepKind::Shut, "L1", "Shut long strap", "Kim");
        assert_eq!(folded(&[shut])[0].told(), "Shut long strap (by Kim)");
    }

    #[test]
    fn laid_down_together_are_them() {
        let lie = |name: &str| {
            let text = format!(
                "Take {name} out of slot {name} of Bench rack and lay it down and chock it on both sides"
            );
            step(StepKind::LayDown, name, &text, "Kim")
        };
        let lines = folded(&[lie("S1"), lie("S2")]);
        assert_eq!(
            lines[0].sentence,
            "Take S1 and S2 out of their own slots of Bench rack and lay them down and chock them on both sides"
        );
    }
}
