//! What is doubtful about a loading order, in whole sentences.

use super::loading::LoadingOrder;
use super::securing::every;
use super::sequence::Verdict;
use crate::layout::DayState;

impl LoadingOrder {
    /// Those remarks that hands must know of, also where there is little room: what stays ashore, and a heel that
    /// cannot be kept.
    pub fn must_be_told(&self) -> impl Iterator<Item = &str> {
        let remarks = self.remarks.iter().map(String::as_str);
        remarks.filter(|it| {
            [STAYS_ASHORE, NO_ORDER]
                .iter()
                .any(|start| it.starts_with(start))
        })
    }

    /// Does the boat lean further on the way than was wanted?
    pub fn passes_heel(&self) -> bool {
        let greatest = self.greatest_heel_deg;
        greatest.is_some_and(|deg| deg > self.most_heel_deg + 1e-9)
    }
}

/// How remarks begin that hands must know of.
const STAYS_ASHORE: &str = "Ashore in the plan:";
const NO_ORDER: &str = "No order";

/// What to say of cylinders of the trip that have no place aboard; nothing where all have.
pub(super) fn ashore(day: &DayState) -> Option<String> {
    let ashore = super::load_list::ashore(day);
    (!ashore.is_empty()).then(|| {
        let it = if ashore.len() == 1 { "it" } else { "them" };
        let places = if ashore.len() == 1 {
            "a place"
        } else {
            "places"
        };
        format!(
            "{STAYS_ASHORE} {}. Give {it} {places} aboard in the plan, or leave {it} there.",
            every(&ashore)
        )
    })
}

/// What to say where the heel that was wanted is passed.
pub(super) fn heel(verdict: Verdict, most_heel_deg: f64) -> Option<String> {
    match verdict {
        Verdict::Within => None,
        Verdict::NoneExists => Some(format!(
            "{NO_ORDER} keeps the heel below {most_heel_deg:.1}°: one cylinder alone leans the boat further, \
             or the sides cannot be balanced."
        )),
        Verdict::GaveUp => Some(format!(
            "{NO_ORDER} with less than {most_heel_deg:.1}° of heel was found in the time allowed; there may \
             be one."
        )),
    }
}
