//! The limit card of a part of the day: how far the stowage (not the boat) is good, in roll and in wave
//! height, what goes first, and what would raise it.

use schemars::JsonSchema;
use serde::Serialize;

use super::digest::{BestCure, Digest, PartDigest, only_if};
use super::{Finding, run, words};
use crate::engine::Assessor;
use crate::engine::numbers::{LimitNumbers, PartNumbers};
use crate::layout::{Condition, DayState, Id, Part, Plan, Sea, Trip, WatersKind};

/// The highest sea that is tried, in metres.
const HIGHEST_M: f64 = 4.0;

/// Above this roll, in degrees, linear theory means nothing: the search ends there. Our judgement.
const LARGEST_ROLL_DEG: f64 = 45.0;

/// Steps in which wave heights are tried, in metres; the first that fails is bisected.
const STEP_M: f64 = 0.25;

/// Halvings of the step: to a centimetre.
const HALVINGS: u32 = 5;

/// How many cures the card counts in: what a crew does before casting off.
const CURES_COUNTED: usize = 2;

/// How far the stowage is good in a sea after the first cures.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct CuredLimit {
    /// How many of the card's cures are counted in.
    pub cures_counted: usize,

    /// How far, in one sentence.
    pub sentence: String,

    /// See [`LimitCard::good_to_wave_height_m`].
    pub good_to_wave_height_m: Option<f64>,

    /// What goes first then.
    pub first: Option<Id>,

    /// The margin against wave height then.
    pub margins: Vec<MarginAt>,
}

/// The margin at one wave height.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct MarginAt {
    /// Significant wave height, in metres.
    pub wave_height_m: f64,

    /// The share of that sea's motion at which the first goes: 1 and more holds; `None` where nothing goes
    /// up to four times the motion.
    pub share: Option<f64>,

    /// Does the stowage hold?
    pub holds: bool,
}

/// How far the stowage of a part of the day is good.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct LimitCard {
    /// The part.
    pub part: Id,

    /// What the crew call it.
    pub name: String,

    /// In wave height, in one sentence; empty where no sea was tried.
    pub sea_sentence: String,

    /// In roll, for the part's own motion, in one sentence.
    pub roll_sentence: String,

    /// The significant wave height up to which it holds, in metres; `None` where it is not limited by what was
    /// tried, or no estimate is given.
    pub good_to_wave_height_m: Option<f64>,

    /// What goes first in a sea a little higher.
    pub first: Option<Id>,

    /// The margin against wave height.
    pub margins: Vec<MarginAt>,

    /// The cures that raise the limit most, one after the other.
    pub cures: Vec<BestCure>,

    /// How far it is good with the first of them; `None` where no cure was tried or found.
    pub with_cures: Option<CuredLimit>,

    /// A sentence for each cylinder that goes and that no cure that was tried keeps.
    pub not_cured: Vec<String>,

    /// What the estimate does not know.
    pub limits: Vec<String>,
}

/// The cards of a trip; of one part, if one is named. Cures are tried on copies of the plan where wanted.
pub fn limit_cards(
    plan: &Plan,
    trip: &Trip,
    part: Option<&str>,
    with_cures: bool,
) -> Vec<LimitCard> {
    let mut assessor = Assessor::default();
    let findings = run(&mut assessor, plan, trip);
    let mut digest = Digest::of(plan, trip, &findings, assessor.assessment());
    digest
        .parts
        .retain(|item| part.is_none_or(|part| item.part == part));
    if with_cures {
        digest.lines.clear();
        digest.fill_best(plan, trip, &findings);
    }
    let days = assessor.days();
    let wanted = |item: &&Part| part.is_none_or(|part| item.id == part);
    let parts = trip.parts.iter().zip(days).filter(|(item, _)| wanted(item));
    parts
        .zip(digest.parts)
        .map(|((part, day), digest)| {
            let found = search(&alone(plan, trip, part, day));
            let with_cures = cured(plan, trip, part, &digest.cures);
            LimitCard::of(part, digest, Some(found), with_cures)
        })
        .collect()
}

/// The cards of a whole trip for paper, from what is assessed and found already.
///
/// Cures are tried only for the parts in which something goes in their own motion, and a sea only where the boat
/// lies in one: where a sea is given, at anchor, or drifting. Elsewhere the estimate would be of a boat that lies
/// still in the open, which she does not; such a card has no sentence on the sea. `go_on` is told how much is done,
/// from 0 to 1, and says whether to go on; without that there are no cards.
pub fn limit_cards_for_paper(
    plan: &Plan,
    trip: &Trip,
    (assessor, findings): (&Assessor, &[Finding]),
    go_on: &mut dyn FnMut(f64) -> bool,
) -> Vec<LimitCard> {
    let mut digest = Digest::of(plan, trip, findings, assessor.assessment());
    if !go_on(0.0) {
        return Vec::new();
    }
    let goes = |item: &PartDigest| !item.holds && item.first.is_some();
    let (going, holding): (Vec<_>, Vec<_>) = digest.parts.into_iter().partition(goes);
    (digest.parts, digest.lines) = (going, Vec::new());
    if !digest.parts.is_empty() {
        digest.fill_best(plan, trip, findings);
    }
    let mut told: Vec<PartDigest> = digest.parts.into_iter().chain(holding).collect();
    let mut cards = Vec::new();
    // Parts in which everything is alike are searched once.
    let mut searched: Vec<(Plan, Found)> = Vec::new();
    for (index, (part, day)) in trip.parts.iter().zip(assessor.days()).enumerate() {
        let Some(place) = told.iter().position(|item| item.part == part.id) else {
            continue;
        };
        if !go_on(0.3 + 0.7 * index as f64 / trip.parts.len().max(1) as f64) {
            return Vec::new();
        }
        let digest = told.swap_remove(place);
        let numbers = assessor.assessment().parts.get(index);
        let is_empty = numbers.is_none_or(|numbers| numbers.cylinders.is_empty());
        let found = (lies_in_a_sea(part) && !is_empty).then(|| {
            let mut alone = alone(plan, trip, part, day);
            for part in alone.trips.iter_mut().flat_map(|trip| &mut trip.parts) {
                (part.id, part.name) = (String::new(), None);
            }
            if let Some((_, found)) = searched.iter().find(|(old, _)| *old == alone) {
                return found.clone();
            }
            let found = search(&alone);
            searched.push((alone, found.clone()));
            found
        });
        let with_cures = match &found {
            Some(_) => cured(plan, trip, part, &digest.cures),
            None => None,
        };
        cards.push(LimitCard::of(part, digest, found, with_cures));
    }
    cards
}

/// Does the boat lie in a sea in this part, so that an estimate from a sea says something of it?
fn lies_in_a_sea(part: &Part) -> bool {
    part.sea.is_some() || matches!(part.condition, Condition::AtAnchor | Condition::Drifting)
}

impl LimitCard {
    fn of(
        part: &Part,
        digest: PartDigest,
        found: Option<Found>,
        with_cures: Option<CuredLimit>,
    ) -> Self {
        let mut sea_sentence = found
            .as_ref()
            .map_or_else(String::new, |found| sentence(part, found));
        if found.is_some() {
            sea_sentence.push_str(&only_if(&digest.not_known));
        }
        let found = found.unwrap_or_default();
        Self {
            part: part.id.clone(),
            name: digest.name,
            sea_sentence,
            roll_sentence: digest.sentence,
            good_to_wave_height_m: found.good_to_m,
            first: found.first,
            margins: found.margins,
            with_cures,
            cures: digest.cures,
            not_cured: digest.not_cured,
            limits: found.limits,
        }
    }
}

/// The search again with the first cures done, one after the other.
fn cured(plan: &Plan, trip: &Trip, part: &Part, cures: &[BestCure]) -> Option<CuredLimit> {
    let counted = &cures[..cures.len().min(CURES_COUNTED)];
    if counted.is_empty() {
        return None;
    }
    let mut plan = plan.clone();
    for best in counted {
        plan = plan.with(&best.cure.edits).ok()?;
    }
    let trip = plan.trip(&trip.id)?;
    let (index, part) = trip.part(&part.id)?;
    let days = DayState::of_trip(&plan, trip);
    let found = search(&alone(&plan, trip, part, days.get(index)?));
    Some(CuredLimit {
        cures_counted: counted.len(),
        sentence: format!("With {}: {}", these(counted.len()), reach(part, &found)),
        good_to_wave_height_m: found.good_to_m,
        first: found.first,
        margins: found.margins,
    })
}

fn these(cures: usize) -> &'static str {
    match cures {
        1 => "this cure",
        _ => "these two cures",
    }
}

/// The plan with this part of the day alone, as things are in it.
fn alone(plan: &Plan, trip: &Trip, part: &Part, day: &DayState) -> Plan {
    let mut plan = plan.clone();
    for state in &day.fronts {
        let rack = plan
            .boat
            .racks
            .iter_mut()
            .find(|rack| rack.id == state.rack);
        let fronts = rack.into_iter().flat_map(|rack| &mut rack.fronts);
        for front in fronts.filter(|front| front.id == state.front.id) {
            *front = state.front.clone();
        }
    }
    let mut trip = trip.clone();
    trip.cylinders = day
        .cylinders
        .iter()
        .map(|state| state.cylinder.clone())
        .collect();
    trip.lashings = day
        .lashings
        .iter()
        .map(|state| state.lashing.clone())
        .collect();
    trip.gear = day.gear.iter().map(|state| state.gear.clone()).collect();
    trip.people = day
        .people
        .iter()
        .map(|state| state.person.clone())
        .collect();
    let mut part = part.clone();
    part.changes = crate::layout::Changes::default();
    part.motion = None;
    part.wake = None;
    trip.parts = vec![part];
    plan.trips = vec![trip];
    plan
}

/// What the search found.
#[derive(Clone, Default)]
struct Found {
    good_to_m: Option<f64>,
    first: Option<Id>,
    /// What it does when it goes.
    does: Option<&'static str>,
    refused: Option<String>,
    /// Up to this wave height it holds, and above the estimate rolls her too far to mean anything.
    holds_to_m: Option<f64>,
    roll_deg: f64,
    margins: Vec<MarginAt>,
    limits: Vec<String>,
}

impl Found {
    /// Who goes first, and how.
    fn goes(&mut self, numbers: &PartNumbers) {
        self.first = numbers.limit.order.first().cloned();
        let limit = numbers.limit.first.as_ref();
        self.does = limit.and_then(|limit| limit.way).map(words::way);
    }
}

/// Tries seas in steps; bisects in the first step that fails.
fn search(plan: &Plan) -> Found {
    let mut plan = plan.clone();
    let mut assessor = Assessor::default();
    let mut found = Found::default();
    let mut at = |height_m: f64| -> Option<(MarginAt, PartNumbers)> {
        let trip = plan.trips.first_mut()?;
        let part = trip.parts.first_mut()?;
        let sea = part.sea.get_or_insert_with(Sea::default);
        sea.wave_height_m = Some(height_m);
        sea.sea_state = None;
        sea.wave_period_s = None;
        let numbers = assessor.assess(&plan, plan.trips.first()?).parts.first()?;
        let first = numbers.limit.first.as_ref();
        let margin = MarginAt {
            wave_height_m: height_m,
            share: first.and_then(|limit| limit.share),
            holds: first.is_none_or(holds),
        };
        Some((margin, numbers.clone()))
    };
    let mut below = 0.0;
    let mut steps = 0.0;
    while steps * STEP_M <= HIGHEST_M {
        let height_m = steps * STEP_M;
        let Some((margin, numbers)) = at(height_m) else {
            break;
        };
        if let Some(sea) = &numbers.sea {
            found.limits.clone_from(&sea.limits);
            if sea.refused.is_some() {
                found.refused.clone_from(&sea.refused);
                break;
            }
            if sea.checked_roll_deg > LARGEST_ROLL_DEG {
                found.holds_to_m = found.good_to_m.is_none().then_some(below);
                break;
            }
        }
        let failed = !margin.holds && found.good_to_m.is_none();
        found.margins.push(margin);
        if failed {
            let (mut good, mut bad) = (below, height_m);
            found.goes(&numbers);
            for _ in 0..HALVINGS {
                let middle = 0.5 * (good + bad);
                let Some((margin, numbers)) = at(middle) else {
                    break;
                };
                found.margins.push(margin.clone());
                if margin.holds {
                    good = middle;
                    found.roll_deg = numbers.motion.roll_amplitude_deg;
                } else {
                    bad = middle;
                    found.goes(&numbers);
                }
            }
            found.good_to_m = Some(good);
        } else if found.good_to_m.is_none() {
            below = height_m;
            found.roll_deg = numbers.motion.roll_amplitude_deg;
        }
        steps += 1.0;
    }
    let heights = |a: &MarginAt, b: &MarginAt| a.wave_height_m.total_cmp(&b.wave_height_m);
    found.margins.sort_by(heights);
    found
}

/// Does it hold within the whole motion?
fn holds(limit: &LimitNumbers) -> bool {
    !limit.goes_at_rest && !limit.goes_without_roll && limit.share.is_none_or(|share| share > 1.0)
}

/// How far it is good in a sea.
fn sentence(part: &Part, found: &Found) -> String {
    format!("The stowage, not the boat: {}", reach(part, found))
}

/// "good to 0.8 m of coastal sea, 14° of roll; then P6 tips."
fn reach(part: &Part, found: &Found) -> String {
    if let Some(refused) = &found.refused {
        return format!("no wave height is given; {refused}.");
    }
    let waters = match part.sea.as_ref().map(|sea| sea.waters) {
        Some(WatersKind::Ocean) => "ocean swell",
        _ => "coastal sea",
    };
    let does = found.does.unwrap_or("goes");
    match (found.good_to_m, &found.first) {
        (Some(good), Some(first)) if good <= 0.0 => {
            format!("{first} {does} in a flat {waters} already.")
        }
        (Some(good), Some(first)) => format!(
            "good to {} m of {waters}, {:.0}° of roll; then {first} {does}.",
            rounded_down(good),
            found.roll_deg
        ),
        _ => match found.holds_to_m {
            Some(height_m) => format!(
                "holds up to {} m of {waters}, {:.0}° of roll; no estimate above that, where it would roll her \
                 past {LARGEST_ROLL_DEG:.0}°.",
                rounded_down(height_m),
                found.roll_deg
            ),
            None => format!("holds up to {HIGHEST_M:.0} m of {waters}."),
        },
    }
}

/// To 10 cm, below a metre to 5 cm; never up.
fn rounded_down(height_m: f64) -> String {
    if height_m < 1.0 {
        format!("{:.2}", (20.0 * height_m).floor() / 20.0)
    } else {
        format!("{:.1}", (10.0 * height_m).floor() / 10.0)
    }
}

#[cfg(test)]
mod tests;
