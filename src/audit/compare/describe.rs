//! What differs about one thing that both sides have, in sentences.

use super::{DifferenceKind, SAME_DEG, SAME_M};
use crate::checks::words;
use crate::engine::numbers::PartNumbers;
use crate::layout::{Cylinder, Fill, Kit, Known, Lashing, Placing};

/// What differs about one cylinder that both sides have aboard.
pub(super) fn one_cylinder(
    was: &Cylinder,
    is: &Cylinder,
    before: &PartNumbers,
    after: &PartNumbers,
) -> Vec<(DifferenceKind, String)> {
    let id = &was.id;
    let mut told = Vec::new();
    let same_way = std::mem::discriminant(&was.placing) == std::mem::discriminant(&is.placing);
    if !same_way || !same_holder(&was.placing, &is.placing) {
        told.push((
            DifferenceKind::PlacedOtherwise,
            format!(
                "{id} was to be {}, and was found {}",
                posture(&was.placing),
                posture(&is.placing)
            ),
        ));
    }
    let at = |numbers: &PartNumbers| {
        let body = numbers.cylinders.iter().find(|body| body.cylinder == *id)?;
        Some(body.at)
    };
    if let (Some(from), Some(to)) = (at(before), at(after)) {
        let by = [to[0] - from[0], to[1] - from[1]];
        if by[0].hypot(by[1]) >= SAME_M {
            told.push((
                DifferenceKind::Moved,
                format!(
                    "{id} was found {} of where it was planned",
                    words::shift(by)
                ),
            ));
        }
    }
    if let (
        Placing::Lying {
            valve_towards_deg: a,
            ..
        },
        Placing::Lying {
            valve_towards_deg: b,
            ..
        },
    ) = (&was.placing, &is.placing)
        && turned(*a, *b)
    {
        told.push((
            DifferenceKind::Turned,
            format!(
                "{id} was to lie with its valve {}, and it points {}",
                words::towards(*a),
                words::towards(*b)
            ),
        ));
    }
    if let (Some(Known::Value(a)), Some(Known::Value(b))) = (was.kit_faces_deg, is.kit_faces_deg)
        && turned(a, b)
    {
        told.push((
            DifferenceKind::Turned,
            format!(
                "the kit on {id} was to face {}, and faces {}",
                words::towards(a),
                words::towards(b)
            ),
        ));
    }
    if was.kind != is.kind {
        told.push((
            DifferenceKind::OtherKind,
            format!("{id} was to be {}, and is {}", was.kind, is.kind),
        ));
    }
    let state = state_words(was, is);
    if !state.is_empty() {
        told.push((
            DifferenceKind::OtherState,
            format!("{id}: {}", state.join("; ")),
        ));
    }
    told
}

fn turned(a: f64, b: f64) -> bool {
    let apart = (a - b).rem_euclid(360.0);
    apart.min(360.0 - apart) >= SAME_DEG
}

/// What holds or carries it is the same on both sides.
fn same_holder(was: &Placing, is: &Placing) -> bool {
    match (was, is) {
        (Placing::InSlot { rack: a, slot: s }, Placing::InSlot { rack: b, slot: t }) => {
            a == b && s == t
        }
        (Placing::Standing { deck: a, on: s, .. }, Placing::Standing { deck: b, on: t, .. }) => {
            a == b && s == t
        }
        (
            Placing::Lying {
                deck: a,
                on: s,
                on_kit: k,
                chocks: c,
                ..
            },
            Placing::Lying {
                deck: b,
                on: t,
                on_kit: l,
                chocks: d,
                ..
            },
        ) => a == b && s == t && k == l && c == d,
        (Placing::InCrate { rack: a, .. }, Placing::InCrate { rack: b, .. })
        | (Placing::HeldByHand { by: a, .. }, Placing::HeldByHand { by: b, .. })
        | (Placing::Hanging { from: a, .. }, Placing::Hanging { from: b, .. })
        | (Placing::OnDiver { by: a }, Placing::OnDiver { by: b }) => a == b,
        _ => true,
    }
}

/// How it is placed, in words.
fn posture(placing: &Placing) -> String {
    match placing {
        Placing::Standing { on: Some(on), .. } => format!("standing on {on}"),
        Placing::Standing { .. } => "standing on deck".to_owned(),
        Placing::InSlot { rack, slot } => format!("in slot {slot} of {rack}"),
        Placing::Lying { on_kit: true, .. } => "lying on its kit".to_owned(),
        Placing::Lying {
            chocks: Some(_), ..
        } => "lying with chocks".to_owned(),
        Placing::Lying { .. } => "lying without chocks".to_owned(),
        Placing::InCrate { rack, .. } => format!("in {rack}"),
        Placing::UpsideDown { .. } => "upside down in its cage".to_owned(),
        Placing::Hanging { from, .. } => format!("hanging from {from}"),
        Placing::HeldByHand { by, .. } => format!("held by {by}"),
        Placing::OnDiver { by } => format!("on {by}'s back"),
        Placing::Filling { .. } => "on the filling whip".to_owned(),
        Placing::InWater => "in the water".to_owned(),
        Placing::Ashore => "ashore".to_owned(),
    }
}

/// Gas, pressure, kit and boot where they differ.
fn state_words(was: &Cylinder, is: &Cylinder) -> Vec<String> {
    let mut told = Vec::new();
    if was.gas != is.gas {
        told.push(format!("was to hold {}, holds {}", was.gas, is.gas));
    }
    let pressure = |cylinder: &Cylinder| match cylinder.pressure_bar {
        Some(bar) => format!("{bar:.0} bar"),
        None => match cylinder.fill {
            Fill::Full => "full".to_owned(),
            Fill::PartUsed => "part used".to_owned(),
            Fill::Empty => "empty".to_owned(),
        },
    };
    if pressure(was) != pressure(is) {
        told.push(format!("was to be {}, was {}", pressure(was), pressure(is)));
    }
    if was.kit != is.kit {
        let kit = |cylinder: &Cylinder| match cylinder.kit {
            Kit::On => "kit on",
            Kit::Off => "kit off",
        };
        told.push(format!("was to have {}, had {}", kit(was), kit(is)));
    }
    if was.boot != is.boot {
        told.push(
            if was.boot {
                "its boot is missing"
            } else {
                "it has a boot"
            }
            .to_owned(),
        );
    }
    told
}

/// What differs about one lashing that both sides have.
pub(super) fn one_lashing(was: &Lashing, is: &Lashing) -> Vec<(DifferenceKind, String)> {
    let id = &was.id;
    let mut told = Vec::new();
    if was.shut && !is.shut {
        told.push((DifferenceKind::Opened, format!("{id} was found open")));
    }
    if !was.shut && is.shut {
        told.push((
            DifferenceKind::LashingChanged,
            format!("{id} was found made fast"),
        ));
    }
    let slack = |lashing: &Lashing| match lashing.slack_m {
        Some(Known::Value(metres)) => Some(metres),
        Some(Known::NotKnown) => None,
        None => Some(0.0),
    };
    match (slack(was), slack(is)) {
        (Some(a), Some(b)) if (a - b).abs() >= SAME_M => {
            let kind = if b > a {
                DifferenceKind::Slacker
            } else {
                DifferenceKind::LashingChanged
            };
            told.push((
                kind,
                format!(
                    "{id} was planned with {}, found with {} of slack",
                    words::metres(a),
                    words::metres(b)
                ),
            ));
        }
        (Some(_), None) => told.push((
            DifferenceKind::Slacker,
            format!("how slack {id} was is not known"),
        )),
        _ => {}
    }
    let mut changes = Vec::new();
    if was.round != is.round {
        changes.push(format!(
            "goes round {} instead of {}",
            words::list(&is.round),
            words::list(&was.round)
        ));
    }
    if (&was.from, &was.to) != (&is.from, &is.to) {
        changes.push(format!(
            "runs from {} to {} instead of {} to {}",
            is.from, is.to, was.from, was.to
        ));
    }
    if (was.height_m - is.height_m).abs() >= SAME_M {
        changes.push(format!(
            "stands {} high instead of {}",
            words::metres(is.height_m),
            words::metres(was.height_m)
        ));
    }
    if was.material != is.material {
        changes.push(format!("is {} instead of {}", is.material, was.material));
    }
    if was.condition != is.condition {
        changes.push("is in another condition".to_owned());
    }
    if was.strength_kn != is.strength_kn || was.pretension_kn != is.pretension_kn {
        changes.push("has another strength or tension".to_owned());
    }
    if !changes.is_empty() {
        told.push((
            DifferenceKind::LashingChanged,
            format!("{id} {}", changes.join(", ")),
        ));
    }
    told
}
