//! The audit of a record: everything that is computed of it, ready to be printed.
//!
//! Nothing here reads a file or a clock. Every number is rounded to what is printed, so that the same build
//! and the same inputs give the same bytes, and every platform the same digits.

use schemars::JsonSchema;
use serde::Serialize;

use super::case::{Case, Told};
use super::compare::{Comparison, compare};
use super::findings::{CitedFinding, Conflict, cited_findings, conflicts};
use super::held::{Held, Question, held};
use super::log_told::LogTold;
use super::needed::{PlausibleRange, rounded};
use super::over_time::{HowSure, OverTime, how_sure, over_time};
use super::reach::{ReachRow, reach};
use super::remedy::pool;
use super::replay::Mounting;
use super::reverse::{Backwards, ReverseRow, reverse};
use super::trial::Trial;
use super::{Progress, summary};
use crate::checks::words;
use crate::engine::numbers::{MotionNumbers, PartNumbers};
use crate::layout::{Condition, Id, MotionSource};
use crate::mechanics::motion::GRAVITY;
use crate::record::{AuditRecord, Input};

/// Raised whenever a field of the result goes or changes its meaning; a new field does not raise it.
pub const AUDIT_VERSION: u32 = 1;

/// The program that made it, with its version.
pub const PROGRAM: &str = concat!("snugdown ", env!("CARGO_PKG_VERSION"));

/// What stands with every audit.
pub const AUDIT_CAUTIONS: [&str; 4] = [
    "It tells what the motion would have had to be, not what it was, and says nothing of blame.",
    "It speaks of the stowage, not the boat, and knows no breaking seas, no collisions, and only the wear \
     that the record states.",
    "Bodies are rigid and lashings pull in straight lines; a fall is followed in the plane, without loss of \
     energy.",
    "Local codes, the flag state, the makers of the gear and the licensed master decide.",
];

/// What one account says, thing by thing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct FoundRow {
    /// The thing.
    pub about: Id,

    /// How sure it is: `as found`, `reconstructed from photo F2`.
    pub state: String,

    /// What it rests on.
    pub rests_on: Vec<Id>,

    /// Anything else.
    pub remark: String,
}

/// The audit of one account.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct AccountAudit {
    /// The account.
    pub id: Id,

    /// Whose it is.
    pub by: String,

    /// When it was given.
    pub when: Option<String>,

    /// What it says otherwise than its layout.
    pub found: Vec<FoundRow>,

    /// What was made of the conditions of lashings.
    pub lashings: Vec<String>,

    /// Planned against found.
    pub comparison: Comparison,

    /// What each cylinder in question needed to go, the readiest first.
    pub reverse: Vec<ReverseRow>,

    /// Who could have reached the marked spot.
    pub reach: Vec<ReachRow>,

    /// What would have held.
    pub held: Held,

    /// Under the recorded motion; nothing without a log that can be read.
    pub over_time: Option<OverTime>,

    /// How far the limits of the cylinders in question hang on what is not known exactly.
    pub how_sure: Vec<HowSure>,

    /// What was taken for the ranges of that.
    pub ranges: Vec<String>,

    /// What the rules find, those alone that rest on a published clause.
    pub findings: Vec<CitedFinding>,
}

/// Something that only some accounts say.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Disputed {
    /// What.
    pub sentence: String,

    /// The accounts that say so.
    pub accounts: Vec<Id>,
}

/// The audit of a record.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(title = "Snugdown audit")]
pub struct Audit {
    /// Version of this format.
    pub version: u32,

    /// The program that made it, with its version.
    pub program: &'static str,

    /// Every file that went in, with its SHA-256 as recorded and as it is.
    pub inputs: Vec<Input>,

    /// In a few words.
    pub title: String,

    /// The boat.
    pub boat: String,

    /// The trip and the part of the day.
    pub moment: String,

    /// The motion of that part in the plan, in words.
    pub motion: String,

    /// What of that motion was assumed.
    pub assumed: Vec<String>,

    /// The audit in a few plain sentences.
    pub summary: Vec<String>,

    /// What was ticked off at the brief, in the order in which it was.
    pub ticks: Vec<String>,

    /// What was plausible.
    pub plausible: Vec<PlausibleRange>,

    /// What became of the motion log; nothing where the record names none.
    pub motion_log: Option<LogTold>,

    /// What all accounts have otherwise than the plan.
    pub agreed: Vec<String>,

    /// What only some of them have.
    pub disputed: Vec<Disputed>,

    /// Each account by itself.
    pub accounts: Vec<AccountAudit>,

    /// Where published rules do not agree.
    pub conflicts: Vec<Conflict>,

    /// What is not known: what the record says, and what the engine had to take as holding.
    pub not_known: Vec<String>,

    /// What the program does not do.
    pub cautions: Vec<&'static str>,

    /// The record as it was read, unchanged: statements, measurements, events, assumptions, signatures, comments.
    pub record: AuditRecord,
}

impl Audit {
    /// Audits a case; `None` where the plan has no part of the day.
    pub fn of(case: &Case) -> Option<Self> {
        Self::watched(case, &mut Progress::new(&mut |_| true))
    }

    /// The same, telling how far it is; `None` also where it is given up.
    pub fn watched(case: &Case, progress: &mut Progress<'_>) -> Option<Self> {
        let record = &case.opened.record;
        let planned = Trial::of(&case.planned)?;
        let numbers = planned.numbers()?.clone();
        let plausible: Vec<PlausibleRange> = record.plausible.iter().map(Into::into).collect();
        let (wanted_roll_deg, wanted_from) = wanted(record, &plausible, &numbers.motion);
        let ground = Ground {
            case,
            numbers: &numbers,
            plausible: &plausible,
            wanted_roll_deg,
            wanted_from: &wanted_from,
        };
        let mut accounts: Vec<AccountAudit> = Vec::new();
        let each = 1.0 / case.accounts.len().max(1) as f64;
        for (index, told) in case.accounts.iter().enumerate() {
            let from = index as f64 * each;
            accounts.push(ground.account(told, &mut progress.part(from, from + each))?);
        }
        let (agreed, disputed) = agreement(&accounts);
        let mut moments: Vec<&super::Moment> = vec![&case.planned];
        moments.extend(case.accounts.iter().map(|told| &told.moment));
        let trip = case.planned.trip()?;
        let motion_log = LogTold::of(
            record.motion_log.as_ref(),
            &case.opened.motion_log,
            &case.planned.plan.boat,
            accounts.iter().find_map(|it| it.over_time.as_ref()),
        );
        let mut audit = Self {
            version: AUDIT_VERSION,
            program: PROGRAM,
            inputs: case.opened.inputs.clone(),
            title: record.incident.title.clone(),
            boat: case.planned.plan.boat.name.clone(),
            moment: format!(
                "trip {}, {}, {}",
                trip.id,
                numbers.part,
                condition_words(numbers.condition)
            ),
            motion: motion_words(&numbers.motion),
            assumed: numbers.motion.assumed.clone(),
            summary: Vec::new(),
            ticks: ticks(case),
            plausible,
            agreed,
            disputed,
            conflicts: conflicts(&moments),
            not_known: not_known(record, motion_log.as_ref(), &accounts, &numbers),
            motion_log,
            accounts,
            cautions: AUDIT_CAUTIONS.to_vec(),
            record: record.clone(),
        };
        audit.summary = summary::of(&audit);
        Some(audit)
    }

    /// Is there anything to tell: a difference, a cylinder that goes, a file that is not as recorded?
    pub fn has_findings(&self) -> bool {
        let differs = |account: &AccountAudit| {
            !account.comparison.differences.is_empty() || !account.held.as_found.holds
        };
        let doubtful = self.doubtful().next().is_some();
        doubtful || self.accounts.iter().any(differs)
    }

    /// Each difference that any account has to the plan, and for each account whether it says so, in these words.
    pub fn side_by_side(&self, says_so: &str, says_nothing: &str) -> Vec<Vec<String>> {
        let everybody: Vec<Id> = self.accounts.iter().map(|it| it.id.clone()).collect();
        let agreed = self.agreed.iter().map(|it| (it, &everybody));
        let disputed = self.disputed.iter().map(|it| (&it.sentence, &it.accounts));
        let rows = agreed.chain(disputed).map(|(sentence, accounts)| {
            let says = everybody.iter().map(|id| {
                let says = if accounts.contains(id) {
                    says_so
                } else {
                    says_nothing
                };
                says.to_owned()
            });
            std::iter::once(sentence.clone()).chain(says).collect()
        });
        rows.collect()
    }

    /// Why the motion log, which is there, could not be read; nothing where it was, or is missing.
    pub fn unreadable_log(&self) -> Option<&str> {
        let log = self.motion_log.as_ref().filter(|log| log.is_unreadable)?;
        log.trouble.as_deref()
    }

    /// The start of the record's SHA-256, enough to tell two records apart by eye.
    pub fn record_hash(&self) -> &str {
        let hash = self
            .inputs
            .first()
            .and_then(|input| input.sha256.as_deref());
        hash.and_then(|hash| hash.get(..8)).unwrap_or_default()
    }

    /// Files that are missing or not as they were recorded.
    pub fn doubtful(&self) -> impl Iterator<Item = &Input> {
        use crate::record::FileState;
        let inputs = self.inputs.iter();
        inputs.filter(|it| matches!(it.state, FileState::Changed | FileState::Missing))
    }
}

/// What is the same for all accounts.
struct Ground<'a> {
    case: &'a Case,
    numbers: &'a PartNumbers,
    plausible: &'a [PlausibleRange],
    wanted_roll_deg: f64,
    wanted_from: &'a str,
}

impl Ground<'_> {
    fn account(&self, told: &Told, progress: &mut Progress<'_>) -> Option<AccountAudit> {
        let Told {
            account,
            moment,
            notes,
        } = told;
        let mut trial = Trial::of(moment)?;
        let found = trial.numbers()?.cylinders.clone();
        let comparison = compare(&self.case.planned, moment);
        progress.at(0.1)?;
        let reach = match &self.case.opened.record.marked_spot {
            Some(spot) => reach(moment, &spot.deck, spot.at),
            None => Vec::new(),
        };
        let cylinders: Vec<Id> = if self.case.opened.record.marked_spot.is_some() {
            // What is stopped on its way, as drawn, is told and not asked about further.
            let reaching = reach.iter().filter(|it| !it.is_stopped);
            reaching.map(|it| it.cylinder.clone()).collect()
        } else {
            found.iter().map(|it| it.cylinder.clone()).collect()
        };
        let (pool, left_out) = pool(&self.case.planned, moment, &comparison, &cylinders);
        progress.at(0.2)?;
        let sides = Backwards {
            planned: &self.case.planned,
            found: moment,
            planned_cylinders: &self.numbers.cylinders,
            found_cylinders: &found,
            plausible: self.plausible,
        };
        let reverse = reverse(&sides, &mut trial, &pool, &cylinders);
        progress.at(0.3)?;
        let question = Question {
            planned: &self.case.planned,
            found: moment,
            cylinders: &cylinders,
            wanted_roll_deg: self.wanted_roll_deg,
            wanted_from: self.wanted_from,
            left_out,
        };
        let sides = (self.numbers.cylinders.as_slice(), pool.as_slice());
        let held = held(&question, &mut trial, sides, &mut progress.part(0.3, 0.5))?;
        let over_time = match self.case.opened.motion_log.recorded() {
            None => None,
            Some(recorded) => {
                let part = &mut progress.part(0.5, 0.8);
                let record = &self.case.opened.record;
                let told = record.motion_log.as_ref();
                let told = told.and_then(|log| log.mounting.as_ref());
                let mounting = Mounting::of_told(told, &moment.plan.boat);
                let of = (moment, record);
                Some(over_time(of, recorded, mounting, &cylinders, part)?)
            }
        };
        let (how_sure, ranges) = how_sure(moment, &cylinders);
        progress.at(1.0)?;
        let rows = account.found.iter().map(|item| FoundRow {
            about: item.thing.id().clone(),
            state: item.state.words(),
            rests_on: item.rests_on.clone(),
            remark: item.remark.clone().unwrap_or_default(),
        });
        let worn = account.lashings.iter().map(|item| FoundRow {
            about: item.lashing.clone(),
            state: format!("{}, {}", item.condition.words(), item.state.words()),
            rests_on: item.photo.iter().cloned().collect(),
            remark: item.remark.clone().unwrap_or_default(),
        });
        Some(AccountAudit {
            id: account.id.clone(),
            by: account.by.clone(),
            when: account.when.clone(),
            found: rows.chain(worn).collect(),
            lashings: notes.iter().map(|note| note.sentence.clone()).collect(),
            comparison,
            reverse,
            reach,
            held,
            over_time,
            how_sure,
            ranges,
            findings: cited_findings(moment),
        })
    }
}

/// The roll that was to be held, with where it comes from.
fn wanted(
    record: &AuditRecord,
    plausible: &[PlausibleRange],
    motion: &MotionNumbers,
) -> (f64, String) {
    let margin = record.margin();
    let highest = plausible
        .iter()
        .max_by(|a, b| a.roll_deg[1].total_cmp(&b.roll_deg[1]));
    let (roll, from) = match highest {
        Some(range) => (
            range.roll_deg[1],
            format!("the most that {} makes plausible", range.id),
        ),
        None => (
            motion.roll_amplitude_deg,
            "the roll of this part of the day in the plan, as the record has no range".to_owned(),
        ),
    };
    let wanted = rounded(roll * (1.0 + margin), 1);
    let words = format!(
        "{} of roll: {from}, {}, and {} more",
        words::degrees(wanted),
        words::degrees(roll),
        words::percent(margin)
    );
    (wanted, words)
}

/// What all accounts have otherwise than the plan, and what only some have.
fn agreement(accounts: &[AccountAudit]) -> (Vec<String>, Vec<Disputed>) {
    let mut all: Vec<Disputed> = Vec::new();
    for account in accounts {
        for difference in &account.comparison.differences {
            match all.iter_mut().find(|it| it.sentence == difference.sentence) {
                Some(old) => old.accounts.push(account.id.clone()),
                None => all.push(Disputed {
                    sentence: difference.sentence.clone(),
                    accounts: vec![account.id.clone()],
                }),
            }
        }
    }
    let (agreed, disputed): (Vec<Disputed>, Vec<Disputed>) = all
        .into_iter()
        .partition(|it| it.accounts.len() == accounts.len());
    let agreed = agreed.into_iter().map(|it| it.sentence).collect();
    (agreed, disputed)
}

fn ticks(case: &Case) -> Vec<String> {
    let opened = &case.opened;
    let trip = case.planned.trip();
    let trip = trip.and_then(|trip| opened.planned.trip(&trip.id));
    let briefing = trip.and_then(|trip| trip.briefing.as_ref());
    let ticks = briefing.into_iter().flat_map(|briefing| &briefing.ticks);
    ticks
        .map(|tick| match &tick.skipped {
            Some(why) => format!(
                "{}: skipped by {} at {}: {why}",
                tick.cylinder, tick.by, tick.when
            ),
            None => format!(
                "{}: ticked off by {} at {}",
                tick.cylinder, tick.by, tick.when
            ),
        })
        .collect()
}

fn not_known(
    record: &AuditRecord,
    log: Option<&LogTold>,
    accounts: &[AccountAudit],
    planned: &PartNumbers,
) -> Vec<String> {
    let mut told = record.not_known.clone();
    let mut held_to_hold: Vec<&Id> = Vec::new();
    for row in accounts.iter().flat_map(|account| &account.reverse) {
        let unknown = row.as_found.if_unknowns_hold || row.as_planned.if_unknowns_hold;
        if unknown && !held_to_hold.contains(&&row.cylinder) {
            held_to_hold.push(&row.cylinder);
        }
    }
    if !held_to_hold.is_empty() {
        told.push(format!(
            "Something that holds {} has a strength that nobody knows; it was taken as holding.",
            words::list(&held_to_hold)
        ));
    }
    for text in &planned.motion.assumed {
        told.push(format!("Motion: {text}."));
    }
    match log {
        None => told.push("The boat's motion was not recorded.".to_owned()),
        Some(LogTold {
            trouble: Some(why), ..
        }) => told.push(format!(
            "What the motion log says of the boat's motion: {why}. Nothing was replayed."
        )),
        Some(_) => {}
    }
    told
}

/// What the boat was doing.
pub(super) fn condition_words(condition: Condition) -> &'static str {
    match condition {
        Condition::MadeFast => "made fast",
        Condition::AtAnchor => "at anchor",
        Condition::Drifting => "drifting",
        Condition::Running => "running",
    }
}

/// The motion of a part in words.
fn motion_words(motion: &MotionNumbers) -> String {
    let mut told = vec![format!(
        "roll {} each way every {:.1} s",
        words::degrees(motion.roll_amplitude_deg),
        motion.roll_period_s
    )];
    if motion.pitch_amplitude_deg > 0.0 {
        told.push(format!(
            "pitch {} every {:.1} s",
            words::degrees(motion.pitch_amplitude_deg),
            motion.pitch_period_s
        ));
    }
    if motion.vertical_m_s2 > 0.0 {
        told.push(format!(
            "up and down {:.2} g",
            motion.vertical_m_s2 / GRAVITY
        ));
    }
    if motion.heel_deg.abs() > 0.0 {
        let side = if motion.heel_deg > 0.0 {
            "starboard"
        } else {
            "port"
        };
        told.push(format!(
            "heeled {} to {side}",
            words::degrees(motion.heel_deg.abs())
        ));
    }
    let source = match motion.source {
        MotionSource::Recorded => "recorded",
        MotionSource::Stopwatch => "by stopwatch and eye",
        MotionSource::Estimate => "estimated from boat and sea",
        MotionSource::Wake => "estimated from a wake",
        MotionSource::Preset => "a preset",
        MotionSource::Assumed => "assumed",
    };
    format!("{} ({source})", told.join(", "))
}
