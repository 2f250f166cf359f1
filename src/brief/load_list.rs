//! What comes aboard: one row for each cylinder.

use schemars::JsonSchema;
use serde::Serialize;

use super::securing::every;
use crate::catalogue::Catalogue;
use crate::checks::natural;
use crate::checks::words;
use crate::engine::numbers::PartNumbers;
use crate::layout::{Cylinder, DayState, Fill, Id, Kit, Known, Placing, Plan, Trip};

/// One cylinder of the load list.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LoadRow {
    /// What the crew call it.
    pub cylinder: Id,

    /// The number stamped or painted on it.
    pub number: String,

    /// Its kind in words.
    pub kind: String,

    /// What is in it.
    pub gas: String,

    /// What the gauge should show, in words.
    pub pressure: String,

    /// Who dives with it.
    pub diver: String,

    /// By whom and when its gas was analysed; empty if nobody said.
    pub analysed: String,

    /// Where it goes.
    pub where_to: String,

    /// The slot as painted; empty where it is in none.
    pub slot: String,

    /// The rack of that slot, by its name in the plan.
    #[serde(skip)]
    pub rack: Id,

    /// Standing, lying, hanging.
    pub posture: String,

    /// Which way its kit faces, in words; empty without kit.
    pub kit: String,

    /// What holds it there.
    pub secured_by: String,

    /// Its mass in kilograms; `None` where it is not on deck.
    pub mass_kg: Option<f64>,
}

pub(super) fn rows(
    plan: &Plan,
    trip: &Trip,
    day: &DayState,
    numbers: &PartNumbers,
) -> Vec<LoadRow> {
    let mut rows: Vec<LoadRow> = day
        .cylinders
        .iter()
        .map(|state| &state.cylinder)
        .filter(|cylinder| cylinder.placing.is_aboard())
        .map(|cylinder| row(plan, trip, day, numbers, cylinder))
        .collect();
    rows.sort_by_key(|row| natural(&row.cylinder));
    rows
}

fn row(
    plan: &Plan,
    trip: &Trip,
    day: &DayState,
    numbers: &PartNumbers,
    cylinder: &Cylinder,
) -> LoadRow {
    let body = numbers
        .cylinders
        .iter()
        .find(|body| body.cylinder == cylinder.id);
    LoadRow {
        cylinder: cylinder.id.clone(),
        number: cylinder.number.clone().unwrap_or_default(),
        kind: kind_name(trip, &cylinder.kind),
        gas: cylinder.gas.clone(),
        pressure: pressure(trip, cylinder),
        diver: cylinder.diver.clone().unwrap_or_default(),
        analysed: cylinder.analysed.clone().unwrap_or_default(),
        where_to: where_it_goes(plan, cylinder),
        slot: slot(&cylinder.placing).1.to_owned(),
        rack: slot(&cylinder.placing).0.to_owned(),
        posture: posture(plan, &cylinder.placing).to_owned(),
        kit: kit(cylinder),
        secured_by: secured_by(plan, day, cylinder),
        mass_kg: body.map(|body| body.mass_kg),
    }
}

/// `Aluminium 80 cu ft with air, kit on`: without volume and working pressure, by which nobody tells them apart.
pub(super) fn what_it_is(trip: &Trip, cylinder: &Cylinder) -> String {
    let kit = match cylinder.kit {
        Kit::On => ", kit on",
        Kit::Off => "",
    };
    format!(
        "{} with {}{kit}",
        without_measures(&kind_name(trip, &cylinder.kind)),
        cylinder.gas
    )
}

/// A kind without its working pressure and volume.
pub(crate) fn without_measures(kind: &str) -> &str {
    let short = kind.split_once(", ").map_or(kind, |(short, _)| short);
    if short.is_empty() { kind } else { short }
}

fn kind_name(trip: &Trip, id: &str) -> String {
    let own = trip.kinds.iter().find(|kind| kind.id == id);
    if let Some(own) = own {
        return own.name.clone();
    }
    let catalogue = Catalogue::built_in();
    let name = catalogue.kind(id).map(|kind| kind.name.clone());
    let twin = catalogue.twin(id).map(|twin| twin.name.clone());
    name.or(twin).unwrap_or_else(|| id.to_owned())
}

fn pressure(trip: &Trip, cylinder: &Cylinder) -> String {
    if let Some(bar) = cylinder.pressure_bar {
        return format!("{bar:.0} bar");
    }
    let own = trip.kinds.iter().find(|kind| kind.id == cylinder.kind);
    let working = own.map(|kind| kind.working_pressure_bar).or_else(|| {
        Catalogue::built_in()
            .kind(&cylinder.kind)
            .map(|kind| kind.data().working_pressure_bar)
    });
    match (cylinder.fill, working) {
        (Fill::Full, Some(bar)) => format!("full ({bar:.0} bar)"),
        (Fill::Full, None) => "full".to_owned(),
        (Fill::PartUsed, _) => "part used".to_owned(),
        (Fill::Empty, _) => "empty".to_owned(),
    }
}

/// `slot P6 of Bench port`, `on Main deck, 1.20 m from the transom, 0.85 m to port`.
pub(super) fn where_it_goes(plan: &Plan, cylinder: &Cylinder) -> String {
    match &cylinder.placing {
        Placing::InSlot { rack, slot } => format!("slot {slot} of {}", rack_name(plan, rack)),
        Placing::InCrate { rack, .. } => format!("in {}", rack_name(plan, rack)),
        Placing::OnDiver { by } => format!("on {by}'s back"),
        Placing::Hanging { from, .. } => format!("hanging from {from}"),
        Placing::InWater => "in the water".to_owned(),
        Placing::Ashore => "ashore".to_owned(),
        placing => {
            let deck = placing.deck().unwrap_or_default();
            let deck = plan
                .boat
                .deck(deck)
                .and_then(|deck| deck.name.clone())
                .unwrap_or_else(|| deck.to_owned());
            let [x, y] = placing.at().unwrap_or_default();
            let side = if y.abs() < 0.005 {
                "on the centreline".to_owned()
            } else if y > 0.0 {
                format!("{y:.2} m to port")
            } else {
                format!("{:.2} m to starboard", -y)
            };
            format!("on {deck}, {x:.2} m from the transom, {side}")
        }
    }
}

fn rack_name(plan: &Plan, id: &str) -> String {
    let name = plan.boat.rack(id).and_then(|rack| rack.name.clone());
    name.unwrap_or_else(|| id.to_owned())
}

/// The rack and the slot; empty where it is in none.
fn slot(placing: &Placing) -> (&str, &str) {
    match placing {
        Placing::InSlot { rack, slot } => (rack, slot),
        _ => ("", ""),
    }
}

fn posture(plan: &Plan, placing: &Placing) -> &'static str {
    use crate::layout::RackKind::{BenchRow, Cradles, Crate, Net, Sockets};
    match placing {
        Placing::Standing { .. } | Placing::HeldByHand { .. } | Placing::Filling { .. } => {
            "standing"
        }
        Placing::InSlot { rack, .. } => match plan.boat.rack(rack).map(|rack| rack.kind) {
            Some(Cradles | Net) => "lying",
            Some(Sockets | BenchRow | Crate) | None => "standing",
        },
        Placing::Lying { .. } | Placing::InCrate { .. } => "lying",
        Placing::UpsideDown { .. } => "upside down in its cage",
        Placing::Hanging { .. } => "hanging",
        Placing::OnDiver { .. } => "worn",
        Placing::InWater | Placing::Ashore => "not aboard",
    }
}

fn kit(cylinder: &Cylinder) -> String {
    match (cylinder.kit, cylinder.kit_faces_deg.and_then(Known::value)) {
        (Kit::Off, _) => String::new(),
        (Kit::On, Some(deg)) => format!("kit faces {}", words::towards(deg)),
        (Kit::On, None) => "kit on".to_owned(),
    }
}

fn secured_by(plan: &Plan, day: &DayState, cylinder: &Cylinder) -> String {
    let mut holds: Vec<String> = day
        .lashings
        .iter()
        .map(|state| &state.lashing)
        .filter(|lashing| lashing.shut && lashing.round.contains(&cylinder.id))
        .map(|lashing| lashing.name.clone().unwrap_or_else(|| lashing.id.clone()))
        .collect();
    match &cylinder.placing {
        Placing::InSlot { rack, slot } => {
            holds.insert(0, format!("slot {slot}"));
            if let Some(front) = day.front_of(rack, slot).filter(|front| front.shut) {
                holds.push(front.called());
            }
        }
        Placing::Lying {
            chocks: Some(_), ..
        } => holds.push("chocks".to_owned()),
        Placing::Lying { on_kit: true, .. } => holds.push("its kit under it".to_owned()),
        Placing::Lying { upon, .. } if !upon.is_empty() => {
            holds.push(format!("the groove of {}", every(upon)));
        }
        Placing::InCrate { rack, .. } => holds.push(rack_name(plan, rack)),
        Placing::HeldByHand { by, .. } => holds.push(format!("{by}'s hands")),
        _ => {}
    }
    if holds.is_empty() {
        "nothing".to_owned()
    } else {
        every(&holds)
    }
}
