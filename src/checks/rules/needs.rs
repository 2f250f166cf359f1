//! What nobody knows, how good it would have to be, and how somebody finds out by hand.

use std::collections::BTreeMap;

use crate::checks::figures::Figure;
use crate::checks::{Check, CheckContext, Finding, Signal, Subject, figures, words};
use crate::engine::numbers::NeedKind;
use crate::layout::{Id, ThingKind};
use crate::mechanics::lashing::hand_test::HAND_PUSH_N;
use crate::mechanics::motion::GRAVITY;

/// What one person leaning back on a rope pulls, and what one hanging from it does, in kilograms (value
/// from memory).
const LEANING_KG: f64 = 40.0;
const HANGING_KG: f64 = 75.0;

/// The test by hand of something that must take a pull, in newtons.
pub(super) fn pull_test(newtons: f64) -> String {
    let kg = newtons / GRAVITY;
    let needed = figures::kilograms(kg);
    if kg <= LEANING_KG {
        format!(
            "tie a rope to it and lean back on it with your weight, pulling the way the load would, \
             with a luggage scale between that shows {needed}: nothing may give, crack or bend"
        )
    } else if kg <= HANGING_KG {
        format!(
            "tie a rope to it and hang from it with your whole weight, pulling the way the load would \
             ({needed} are needed): nothing may give, crack or bend"
        )
    } else {
        format!(
            "{needed} are more than one person pulls: look for a marking, ask the builder, or pull it \
             with a tackle and a scale while nobody stands in line"
        )
    }
}

/// The test by hand of friction underfoot.
pub(super) fn friction_test(needed: f64) -> String {
    format!(
        "stand a full cylinder on a board with the same surface, wet as on deck, steady its top, and \
         raise one end: it must not slide before the board rises {} along the floor",
        Figure::Rise(needed)
    )
}

/// The test by hand of a lashing's tightness: how far the top may move.
pub(super) fn slack_test(push_test_m: Option<f64>) -> String {
    let far = push_test_m.map_or_else(
        || "it must hardly move".to_owned(),
        |m| format!("it must move less than {}", figures::metres(m)),
    );
    format!(
        "push the top at the valve with {}, each way in turn: {far}, then be tight",
        Figure::Mass(HAND_PUSH_N / GRAVITY)
    )
}

/// A strength that nobody knows: whose it is, the most that is needed of it in newtons, and by whom.
#[derive(Debug)]
pub(super) struct Needed {
    pub(super) of: Id,
    pub(super) newtons: f64,
    pub(super) by: Vec<Id>,
}

/// Every strength of this kind that nobody knows, in the order of the names.
pub(super) fn strengths(ctx: &CheckContext<'_>, kind: NeedKind) -> Vec<Needed> {
    let mut all: BTreeMap<&Id, Needed> = BTreeMap::new();
    for (cylinder, need) in ctx.needs().filter(|(_, need)| need.what == kind) {
        let entry = all.entry(&need.of).or_insert_with(|| Needed {
            of: need.of.clone(),
            newtons: 0.0,
            by: Vec::new(),
        });
        entry.newtons = entry.newtons.max(1000.0 * need.at_least);
        if !entry.by.contains(&cylinder.cylinder) {
            entry.by.push(cylinder.cylinder.clone());
        }
    }
    let mut all: Vec<Needed> = all.into_values().collect();
    for needed in &mut all {
        needed.by.sort();
    }
    all
}

/// The finding that a strength is not known: `what` is the start of the sentence's object, like
/// `the pad eye E1`.
pub(super) fn strength_not_known(
    check: &'static Check,
    ctx: &CheckContext<'_>,
    about: Subject,
    what: &str,
    (newtons, by): (f64, &[Id]),
) -> Finding {
    let sentence = format!(
        "Nobody knows what {what} can take: it needs at least {} for {}; find out",
        figures::pull(newtons),
        words::list_in_order(by),
    );
    let fold = format!("{}/not known/{}", check.code, about.id);
    let mut all = vec![about];
    all.extend(ctx.subjects(ThingKind::Cylinder, by));
    let kn = newtons / 1000.0;
    Finding::new(check, ctx, Signal::Caution, all, sentence)
        .measured("strength needed", kn, kn, "kN")
        .unknown(pull_test(newtons))
        .fold_as(fold)
}
