//! `R310`: the front of slots with cylinders in them is open or missing.

use std::collections::BTreeMap;

use super::racked;
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::security::{self, Security, Why};
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::engine::numbers::CylinderNumbers;
use crate::layout::{DayState, Id, Placing, ThingKind};

declare_check! {
    /// ## What it checks
    /// That the strap, chain, cord or bar across the front of a bench row is there and shut wherever
    /// cylinders stand behind it. It is one thing: opened for one cylinder it is open for all of them, from
    /// that moment until it is shut again; the finding names the neighbours and which goes first.
    ///
    /// ## Why it matters
    /// During a swap of cylinders the front is open, the boat drifts beam on, and those that nobody handles
    /// stand unsecured behind everybody's back.
    ///
    /// ## Source
    /// 46 CFR 197.338 (cylinders are kept from falling); opened for one, open for all: plain fact of one
    /// strap.
    pub static SLOT_NOT_CLOSED = {
        code: "R310",
        name: "slot-not-closed",
        summary: "the front of slots with cylinders in them is open or missing",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=5/6; rack R1 bench 1.5,0 columns=3; front R1 F1 strap tied open
             slot P1 R1/1; slot P2 R1/2",
            "deck 3x2; running roll=5/6; rack R1 bench 1.5,0 columns=3 foot; front R1 F1 strap tied
             slot P1 R1/1; slot P2 R1/2",
        ],
        run: slot_not_closed,
        cures: propose::shut_front,
    }
}

/// What is wrong with a front that is shut and closes nothing.
pub(super) const PASSES_ABOVE: &str = "passes above the shoulder and slips over the valve";

/// The key of all that is cured by shutting this front.
pub(super) fn fold(rack: &str, front: Option<&str>) -> String {
    match front {
        Some(front) => format!("shut/{rack}/{front}"),
        None => format!("R310/no front/{rack}"),
    }
}

fn slot_not_closed(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    let mut open: BTreeMap<(&Id, Option<&Id>), Vec<&CylinderNumbers>> = BTreeMap::new();
    for cylinder in &ctx.numbers.cylinders {
        if let Security::Unsecured(Why::SlotOpen { rack, front }) = security::of(ctx, cylinder) {
            let behind = open.entry((rack, front.as_ref())).or_default();
            behind.push(cylinder);
        }
    }
    for ((rack, front), behind) in open {
        findings.extend(finding(ctx, (rack, front), &behind));
    }
}

fn finding(
    ctx: &CheckContext<'_>,
    (rack, front): (&Id, Option<&Id>),
    behind: &[&CylinderNumbers],
) -> Option<Finding> {
    let rack = ctx.plan.boat.rack(rack)?;
    let mut ids: Vec<Id> = behind.iter().map(|item| item.cylinder.clone()).collect();
    ids.sort();
    let first = first_to_go(behind)?;
    let goes = ctx.under_way() || behind.iter().any(|item| security::goes(item));
    let signal = if goes {
        Signal::Danger
    } else {
        Signal::Warning
    };
    let rack_name = ctx.name(ThingKind::Rack, &rack.id);
    let (start, rest) = match front {
        Some(front) => {
            let called = ctx.front(&rack.id, front);
            let for_whom = opened_for(ctx, &rack.id, front);
            let for_whom = if for_whom.is_empty() {
                String::new()
            } else {
                format!(" (for {})", words::list_in_order(&for_whom))
            };
            if racked::is_shut(ctx, &rack.id, front) {
                (format!("{called} across {rack_name} {PASSES_ABOVE}"), "")
            } else {
                (
                    format!("{called} across {rack_name} is open{for_whom}"),
                    " until it is shut again",
                )
            }
        }
        None => (format!("{rack_name} has nothing across the front"), ""),
    };
    let stand = if ids.len() == 1 { "stands" } else { "stand" };
    let which = if ids.len() == 1 {
        String::new()
    } else {
        format!("{} goes first, ", first.cylinder)
    };
    let sentence = format!(
        "{start}: {} {stand} unsecured behind it{rest}; {which}{}",
        words::list_in_order(&ids),
        words::goes_at(&first.limit, &ctx.numbers.motion),
    );
    let mut finding = racked::finding_of_rack(&SLOT_NOT_CLOSED, ctx, signal, rack, sentence);
    finding
        .about
        .extend(ctx.subjects(ThingKind::Cylinder, &ids));
    let roll = ctx.numbers.motion.roll_amplitude_deg;
    Some(
        finding
            .measured(
                "roll at which the first goes",
                first.limit.roll_deg,
                roll,
                "deg",
            )
            .fold_as(fold(&rack.id, front.map(String::as_str))),
    )
}

/// The one that goes at the least motion; ties by name.
fn first_to_go<'a>(behind: &[&'a CylinderNumbers]) -> Option<&'a CylinderNumbers> {
    let key = |item: &CylinderNumbers| {
        let limit = &item.limit;
        let roll = if limit.goes_at_rest || limit.goes_without_roll {
            0.0
        } else {
            limit.roll_deg.unwrap_or(f64::INFINITY)
        };
        (roll, limit.share.unwrap_or(f64::INFINITY))
    };
    behind.iter().copied().min_by(|a, b| {
        let ((roll_a, share_a), (roll_b, share_b)) = (key(a), key(b));
        roll_a
            .total_cmp(&roll_b)
            .then(share_a.total_cmp(&share_b))
            .then_with(|| a.cylinder.cmp(&b.cylinder))
    })
}

/// Who was taken out of or put into the slots of a front at the start of this part, in the order of the
/// names: for them it was opened.
fn opened_for(ctx: &CheckContext<'_>, rack: &str, front: &str) -> Vec<Id> {
    if ctx.part_index == 0 {
        return Vec::new();
    }
    let days = DayState::of_trip(ctx.plan, ctx.trip);
    let Some(before) = days.get(ctx.part_index - 1) else {
        return Vec::new();
    };
    let served = ctx.plan.boat.rack(rack).into_iter().flat_map(|rack| {
        let front = rack.fronts.iter().find(|item| item.id == front);
        front
            .map(|front| front.slots.as_slice())
            .unwrap_or_default()
    });
    let served: Vec<&String> = served.collect();
    let is_behind = |placing: &Placing| match placing {
        Placing::InSlot { rack: of, slot } => of == rack && served.contains(&slot),
        _ => false,
    };
    let mut moved: Vec<Id> = ctx
        .day
        .cylinders
        .iter()
        .filter(|state| state.moved)
        .filter(|state| {
            let was = before.cylinder(&state.cylinder.id).map(|old| &old.placing);
            is_behind(&state.cylinder.placing) || was.is_some_and(is_behind)
        })
        .map(|state| state.cylinder.id.clone())
        .collect();
    moved.sort();
    moved
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    const ROW: &str = "deck 6x3; rack R1 bench 3,0 columns=3 foot";

    #[test]
    fn open_or_missing_under_way() {
        let slots = "running roll=2/8; slot P1 R1/1; slot P2 R1/2";
        fires(
            &format!("{ROW}; front R1 F1 strap tied open; {slots}"),
            "DANGER R310 R1 P1 P2",
        );
        fires(&format!("{ROW}; {slots}"), "DANGER R310 R1 P1 P2");
        silent(&format!("{ROW}; front R1 F1 strap tied; {slots}"), "R310");
    }

    #[test]
    fn made_fast_it_is_a_warning() {
        fires(
            &format!("{ROW}; front R1 F1 strap tied open; fast roll=1/8; slot P1 R1/1"),
            "WARNING R310 R1 P1",
        );
    }

    #[test]
    fn only_the_slots_it_serves() {
        let text = format!(
            "{ROW}; front R1 F1 strap tied slots=1 open; front R1 F2 strap tied slots=2+3
             running roll=2/8; slot P1 R1/1; slot P2 R1/2"
        );
        fires(&text, "DANGER R310 R1 P1");
    }

    #[test]
    fn opened_for_one_it_names_the_neighbours() {
        let text = format!(
            "{ROW}; front R1 F1 strap tied; slot P1 R1/1; slot P2 R1/2; slot P3 R1/3
             running roll=2/8; drifting roll=15/4; open R1/F1; water P3"
        );
        says(
            &text,
            "R310",
            "F1 across R1 is open (for P3): P1 and P2 stand unsecured",
        );
        says(&text, "R310", "P1 goes first");
    }

    #[test]
    fn a_row_whose_cylinder_has_a_strap_of_its_own_is_closed_for_it() {
        let text = format!(
            "{ROW}; front R1 F1 strap tied open; running roll=2/8; slot P1 R1/1
             point E1 2.5,0.4; point E2 2.5,-0.4; lash L1 E1 P1 E2 h=0.44 tight=0.2"
        );
        silent(&text, "R310");
    }
}
