//! What differs about one thing that both sides have, in sentences.

use super::{DifferenceKind, SAME_DEG, SAME_M};
use crate::checks::words;
use crate::geometry::Elementary as _;
use crate::layout::{Cylinder, Fill, Front, Kit, Known, Lashing, Placing, Point};

/// From where to where, to the centimetre: `0.10 m astern and 0.32 m to port`; `None` for less than anybody
/// measures.
pub(super) fn shift(from: Point, to: Point) -> Option<String> {
    let [x, y] = [to[0] - from[0], to[1] - from[1]];
    if x.hypotenuse(y) < SAME_M {
        return None;
    }
    let along = |value: f64, [plus, minus]: [&str; 2]| {
        let side = if value >= 0.0 { plus } else { minus };
        (value.abs() >= SAME_M).then(|| format!("{:.2} m {side}", value.abs()))
    };
    let parts = [
        along(x, ["ahead", "astern"]),
        along(y, ["to port", "to starboard"]),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    if parts.is_empty() {
        // Less than the least in each of both directions, and more across.
        return Some("a few millimetres aside".to_owned());
    }
    Some(parts.join(" and "))
}

/// What differs about one cylinder that both sides have aboard.
pub(super) fn one_cylinder(
    was: &Cylinder,
    is: &Cylinder,
    from: Option<Point>,
    to: Option<Point>,
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
    if let (Some(from), Some(to)) = (from, to)
        && let Some(by) = shift(from, to)
    {
        told.push((
            DifferenceKind::Moved,
            format!("{id} was found {by} of where it was planned"),
        ));
    }
    if let (Some(a), Some(b)) = (valve(&was.placing), valve(&is.placing))
        && turned(a, b)
    {
        told.push((
            DifferenceKind::Turned,
            format!(
                "{id} was to lie with its valve {}, and it points {}",
                words::towards(a),
                words::towards(b)
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

/// Where the valve of a lying one points.
fn valve(placing: &Placing) -> Option<f64> {
    match placing {
        Placing::Lying {
            valve_towards_deg, ..
        }
        | Placing::InCrate {
            valve_towards_deg, ..
        } => Some(*valve_towards_deg),
        _ => None,
    }
}

fn turned(a: f64, b: f64) -> bool {
    let apart = (a - b).rem_euclid(360.0);
    apart.min(360.0 - apart) >= SAME_DEG
}

/// What holds or carries it is the same on both sides: all of a placing but where it is and where it points.
fn same_holder(was: &Placing, is: &Placing) -> bool {
    let bare = |placing: &Placing| {
        let mut placing = placing.clone();
        if let Some(at) = placing.at_mut() {
            *at = [0.0, 0.0];
        }
        if let Placing::Lying {
            valve_towards_deg, ..
        }
        | Placing::InCrate {
            valve_towards_deg, ..
        } = &mut placing
        {
            *valve_towards_deg = 0.0;
        }
        placing
    };
    bare(was) == bare(is)
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
    match (was.kit_faces_deg, is.kit_faces_deg) {
        (Some(Known::Value(_)), Some(Known::Value(_))) => {}
        (a, b) if a == b => {}
        _ => told.push("which way its kit faces is known on one side only".to_owned()),
    }
    if was.net != is.net {
        told.push(
            if was.net {
                "its net is missing"
            } else {
                "it has a net"
            }
            .to_owned(),
        );
    }
    if was.valve_protected != is.valve_protected {
        told.push(
            if was.valve_protected {
                "its valve is not protected"
            } else {
                "its valve is protected"
            }
            .to_owned(),
        );
    }
    if was.number != is.number {
        let number = |cylinder: &Cylinder| {
            cylinder
                .number
                .clone()
                .unwrap_or_else(|| "no number".to_owned())
        };
        told.push(format!("was to be {}, is {}", number(was), number(is)));
    }
    if was.stamped_tare_kg != is.stamped_tare_kg || was.kit_mass_kg != is.kit_mass_kg {
        told.push("has another mass".to_owned());
    }
    if was.diver != is.diver || was.analysed != is.analysed {
        told.push("diver or analysis are written otherwise".to_owned());
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
        (None, Some(metres)) => told.push((
            DifferenceKind::LashingChanged,
            format!(
                "how slack {id} would be was not planned; it was found with {}",
                words::metres(metres)
            ),
        )),
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
    if was.strength_kn != is.strength_kn {
        let kn = |lashing: &Lashing| match lashing.strength_kn {
            None => "its kind's usual strength".to_owned(),
            Some(Known::NotKnown) => "a strength nobody knows".to_owned(),
            Some(Known::Value(kn)) => format!("{kn:.2} kN"),
        };
        changes.push(format!("takes {} instead of {}", kn(is), kn(was)));
    }
    // Where slack was found, the tension is gone with it.
    if was.pretension_kn != is.pretension_kn && (is.slack_m.is_none() || was.slack_m.is_some()) {
        changes.push("is drawn tight with another force".to_owned());
    }
    if was.stiffness_kn_per_m != is.stiffness_kn_per_m {
        changes.push("stretches otherwise".to_owned());
    }
    if !changes.is_empty() {
        told.push((
            DifferenceKind::LashingChanged,
            format!("{id} {}", changes.join(", ")),
        ));
    }
    told
}

/// What differs about the front of a rack.
pub(super) fn one_front(of: &str, was: &Front, is: &Front) -> Vec<(DifferenceKind, String)> {
    let mut told = Vec::new();
    let state = |front: &Front| if front.shut { "shut" } else { "open" };
    if was.shut != is.shut {
        let kind = if is.shut {
            DifferenceKind::LashingChanged
        } else {
            DifferenceKind::Opened
        };
        let (was, is) = (state(was), state(is));
        told.push((kind, format!("{of} was to be {was}, and was found {is}")));
    }
    let same = Front {
        shut: was.shut,
        ..is.clone()
    };
    if same != *was {
        told.push((
            DifferenceKind::LashingChanged,
            format!("{of} is made or reaches otherwise"),
        ));
    }
    told
}
