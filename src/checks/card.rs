//! The limit card of a part of the day: how far the stowage (not the boat) is good, in roll and in wave
//! height, what goes first, and what would raise it.

use schemars::JsonSchema;
use serde::Serialize;

use super::digest::{BestCure, Digest};
use super::{run, words};
use crate::engine::Assessor;
use crate::engine::numbers::{LimitNumbers, PartNumbers};
use crate::layout::{DayState, Id, Part, Plan, Sea, Trip, WatersKind};

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

    /// In wave height, in one sentence.
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
    let mut digest = Digest::of(trip, &findings, assessor.assessment());
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
            let mut sea_sentence = sentence(part, &found);
            if !digest.hangs_on.is_empty() {
                let them = words::list(&digest.hangs_on);
                sea_sentence.push_str(" But only if what nobody knows is good enough: ");
                sea_sentence.push_str(&them);
                sea_sentence.push('.');
            }
            LimitCard {
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
        })
        .collect()
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
#[derive(Default)]
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
                "holds up to {} m of {waters}, {:.0}° of roll; above that the estimate rolls her past \
                 {LARGEST_ROLL_DEG:.0}°, where it means nothing.",
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
mod tests {
    use super::*;
    use crate::checks::fixture;

    fn cards(text: &str) -> Vec<LimitCard> {
        let plan = fixture::plan(text).unwrap();
        limit_cards(&plan, &plan.trips[0], None, false)
    }

    #[test]
    fn the_card_names_a_height_and_who_goes() {
        let cards = cards("deck 6x4 friction=0.9; drifting roll=4/4; stand P1 3,0; stand P2 3,1");
        let card = &cards[0];
        let good = card.good_to_wave_height_m.unwrap();
        assert!(good > 0.02 && good < 1.5, "{good}");
        assert_eq!(
            card.first.as_deref(),
            Some("P2"),
            "the outer one goes first"
        );
        assert!(
            card.sea_sentence.contains("coastal sea"),
            "{}",
            card.sea_sentence
        );
        for margin in &card.margins {
            if margin.wave_height_m <= good {
                assert!(margin.holds, "{margin:?} below {good}");
            }
        }
        assert!(
            card.sea_sentence.ends_with("then P2 tips."),
            "{}",
            card.sea_sentence
        );
        let first_bad = card.margins.iter().find(|margin| !margin.holds).unwrap();
        assert!(first_bad.wave_height_m > good && first_bad.wave_height_m <= good + STEP_M + 1e-9);
    }

    /// A card may promise less than was found, never more: in steps of 5 cm below a metre, of 10 cm above.
    #[test]
    fn the_height_is_rounded_down_and_never_up() {
        for (found_m, told) in [
            (0.0, "0.00"),
            (0.049, "0.00"),
            (0.05, "0.05"),
            (0.789, "0.75"),
            (0.999, "0.95"),
            (1.0, "1.0"),
            (1.099, "1.0"),
            (1.96, "1.9"),
            (3.99, "3.9"),
        ] {
            assert_eq!(rounded_down(found_m), told, "{found_m}");
        }
        for millimetre in 0..4000_u32 {
            let found_m = f64::from(millimetre) / 1000.0;
            let told: f64 = rounded_down(found_m).parse().unwrap();
            let step = if found_m < 1.0 { 0.05 } else { 0.1 };
            assert!(
                told <= found_m + 1e-9 && told > found_m - step - 1e-9,
                "{found_m}: {told}"
            );
        }
    }

    #[test]
    fn an_empty_deck_holds_in_all_that_is_tried() {
        let cards = cards("deck 6x4; drifting roll=4/4");
        assert_eq!(cards[0].good_to_wave_height_m, None);
        let sentence = &cards[0].sea_sentence;
        assert!(sentence.contains("holds up to "), "{sentence}");
        // Linear theory would roll her over long before 4 m of sea: nothing is promised there.
        assert!(sentence.contains("where it means nothing"), "{sentence}");
        let highest = cards[0].margins.last().unwrap().wave_height_m;
        assert!(highest < 0.5 * HIGHEST_M, "{highest}");
    }

    #[test]
    fn cures_raise_the_sea_that_it_is_good_to() {
        let text = "deck 6x3; point E1 2.8,0 h=0.03 strength=4; point E2 3.2,0 h=0.03 strength=4; \
                    point E3 2.8,-0.3 h=0.03 strength=4; point E4 3.2,-0.3 h=0.03 strength=4; \
                    aboard S strap 2; stand P1 3,0; drifting out roll=15/4";
        let plan = fixture::plan(text).unwrap();
        let without = &limit_cards(&plan, &plan.trips[0], None, false)[0];
        assert!(without.with_cures.is_none(), "none was tried");
        let card = &limit_cards(&plan, &plan.trips[0], None, true)[0];
        let cured = card.with_cures.as_ref().unwrap();
        assert!(cured.cures_counted >= 1 && cured.cures_counted <= CURES_COUNTED);
        assert!(cured.sentence.starts_with("With th"), "{}", cured.sentence);
        let before = card.good_to_wave_height_m.unwrap();
        let after = cured.good_to_wave_height_m.unwrap_or(HIGHEST_M);
        assert!(after > before + 0.1, "{before} to {after}: {cured:?}");
    }
}
