use std::borrow::Cow;
use std::collections::BTreeMap;
use std::fmt;
use std::sync::LazyLock;

use schemars::JsonSchema;
use serde::Serialize;

use super::fixture;
use super::index::Index;
use crate::engine::Scene;
use crate::engine::numbers::{PartNumbers, Sum};
use crate::layout::{DayState, Edit, Id, Part, Plan, Point, TakenOn, ThingKind, Trip};
use crate::units::Said;

/// How much something matters, in the signal words of ISO 3864-2 / ANSI Z535.4.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "UPPERCASE")]
pub enum Signal {
    /// Advice, and what is the boat's own.
    Notice,
    /// It can hurt or break something if more goes wrong, or nobody knows whether it holds.
    Caution,
    /// It is near its limit, or a way is blocked.
    Warning,
    /// It goes within the motion of this part of the day.
    Danger,
}

/// A rule. All of its metadata is here, so that the guide, the command line and the window agree.
#[derive(Debug)]
pub struct Check {
    /// Stable; appears in reports and in what is taken on. Never reused.
    pub code: &'static str,

    /// Says what is wrong, in kebab case.
    pub name: &'static str,

    /// One line for tables.
    pub summary: &'static str,

    /// The gravest signal word that it uses.
    pub signal: Signal,

    /// Markdown, from the doc comment of the declaration.
    pub docs: &'static str,

    /// Where it is declared.
    pub file: &'static str,

    /// A tiny deck where it fires, and one where it just does not, in the words of
    /// [`crate::checks::fixture`].
    pub pictures: [&'static str; 2],

    /// Appends what it finds in one part of the day.
    pub run: fn(&CheckContext<'_>, &mut Vec<Finding>),

    /// What may be tried against one of its findings, most likely first; nothing is tried yet. Only
    /// asked for when somebody wants cures, as it looks for free floor, straps and slots.
    pub cures: fn(&CheckContext<'_>, &Finding) -> Vec<Proposal>,
}

impl Check {
    /// The plans of the two pictures.
    pub fn picture_plans(&self) -> [Plan; 2] {
        self.pictures
            .map(|text| fixture::plan(text).unwrap_or_else(|_| Plan::new(self.name, 1.0, 1.0)))
    }

    /// Where the rule comes from: the section of that name in its docs, on one line.
    pub fn source(&self) -> Cow<'static, str> {
        // Every finding says it.
        static OF_ALL: LazyLock<BTreeMap<&'static str, String>> = LazyLock::new(|| {
            let all = super::ALL.iter();
            all.map(|check| (check.code, check.section("## Source")))
                .collect()
        });
        let known = OF_ALL.get(self.code);
        known.map_or_else(
            || Cow::Owned(self.section("## Source")),
            |source| Cow::Borrowed(source.as_str()),
        )
    }

    /// One section of the docs, on one line.
    pub fn section(&self, heading: &str) -> String {
        let lines = self.docs.lines().map(str::trim);
        let mut lines = lines.skip_while(|line| *line != heading).skip(1);
        let mut text = String::new();
        for line in lines.by_ref().take_while(|line| !line.starts_with("## ")) {
            if !text.is_empty() && !line.is_empty() {
                text.push(' ');
            }
            text.push_str(line);
        }
        text
    }
}

/// No cure is known: only the crew can decide.
pub(crate) fn no_cure(_: &CheckContext<'_>, _: &Finding) -> Vec<Proposal> {
    Vec::new()
}

/// What a check may look at: one part of the day.
#[derive(Copy, Clone, Debug)]
pub struct CheckContext<'a> {
    /// The plan.
    pub plan: &'a Plan,

    /// The trip.
    pub trip: &'a Trip,

    /// The part's place in the day.
    pub part_index: usize,

    /// The part.
    pub part: &'a Part,

    /// Everything as it is in this part.
    pub day: &'a DayState,

    /// The same of every part, in the order of the day.
    pub days: &'a [DayState],

    /// Where everything is, as shapes.
    pub scene: &'a Scene,

    /// Every computed number of this part.
    pub numbers: &'a PartNumbers,

    /// Where to find a thing by its name.
    pub index: &'a Index<'a>,
}

/// One thing that a finding is about.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
pub struct Subject {
    /// What sort of thing.
    #[serde(serialize_with = "as_words")]
    #[schemars(with = "String")]
    pub kind: ThingKind,

    /// Its name in the plan.
    pub id: Id,

    /// What the crew call it.
    pub name: String,
}

fn as_words<S: serde::Serializer>(kind: &ThingKind, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_str(kind)
}

/// A number with the limit it is held against.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Measure {
    /// What it is: "clear width", "force on the edge".
    pub what: &'static str,

    /// The number; `None` if infinite.
    pub value: Option<f64>,

    /// The limit.
    pub limit: f64,

    /// The unit of both.
    pub unit: &'static str,
}

/// A way of putting it right, before it was tried.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// What to do, in the imperative: "Strap P6 at 0.44 m to E3 and E4".
    pub label: Said,

    /// The edits that do it.
    pub edits: Vec<Edit>,

    /// The gear aboard that it uses.
    pub gear: Option<Id>,
}

/// A way of putting it right that was applied to a copy of the plan and checked again.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Cure {
    /// What to do, in the imperative.
    pub label: Said,

    /// The edits that do it.
    #[serde(skip)]
    pub edits: Vec<Edit>,

    /// The gear aboard that it uses.
    pub gear: Option<Id>,

    /// Is it gone afterwards: the finding in its part of the day, or, of a line, every finding of it?
    pub clears: bool,

    /// What it brings about instead: findings that were not there before, as sentences.
    pub moves_trouble_to: Vec<Said>,

    /// The share of the motion at which the stowage goes afterwards; `None` where it holds as far as is
    /// searched.
    pub limit_share_after: Option<f64>,

    /// The roll at which the stowage goes afterwards, in degrees, where roll decides.
    pub limit_roll_after_deg: Option<f64>,
}

/// Something to put right.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Finding {
    /// The rule's code.
    pub code: &'static str,

    /// The rule's name.
    pub name: &'static str,

    /// How much it matters.
    pub signal: Signal,

    /// What it is about; the first is the one to put right.
    pub about: Vec<Subject>,

    /// The deck, where it is on one.
    pub deck: Option<Id>,

    /// Where, in metres.
    pub at: Option<Point>,

    /// The part of the day.
    pub part: Id,

    /// The load case in words, where one governs.
    pub case: Option<String>,

    /// The number and its limit.
    pub measure: Option<Measure>,

    /// Why, in one plain sentence.
    pub sentence: Said,

    /// Does the verdict wait for something that nobody knows?
    pub not_known: bool,

    /// The test by hand that would show it.
    pub hand_test: Option<Said>,

    /// Where the rule comes from.
    pub source: Cow<'static, str>,

    /// The formula with its figures put in.
    pub sum: Sum,

    /// What was tried and found to help.
    pub cures: Vec<Cure>,

    /// Findings with the same key have the same cause and the same cure, and fold into one.
    #[serde(skip)]
    pub fold: String,

    /// Who took it on, and why.
    pub taken_on: Option<TakenOn>,
}

impl fmt::Display for Signal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Notice => "NOTICE",
            Self::Caution => "CAUTION",
            Self::Warning => "WARNING",
            Self::Danger => "DANGER",
        })
    }
}

/// Declares a [`Check`]; its doc comment becomes [`Check::docs`].
macro_rules! declare_check {
    (
        $(#[doc = $doc:expr])+
        $vis:vis static $ident:ident = { $($key:ident: $value:expr),+ $(,)? }
    ) => {
        $(#[doc = $doc])+
        $vis static $ident: $crate::checks::Check = $crate::checks::Check {
            docs: concat!($($doc, "\n"),+),
            file: file!(),
            $($key: $value),+
        };
    };
}

pub(crate) use declare_check;
