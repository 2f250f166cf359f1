//! What comes aboard: one row for each cylinder.

use schemars::JsonSchema;
use serde::Serialize;

use super::lying;
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

    /// Where the valve of what lies points: `valve ahead`; empty for what does not lie.
    pub valve: String,

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

/// Cylinders of the trip that stay ashore: `C3 (SN0003)`.
pub(super) fn ashore(day: &DayState) -> Vec<String> {
    let cylinders = day.cylinders.iter().map(|state| &state.cylinder);
    let mut ashore: Vec<&Cylinder> = cylinders
        .filter(|cylinder| cylinder.placing == Placing::Ashore)
        .collect();
    ashore.sort_by_key(|cylinder| natural(&cylinder.id));
    let named = ashore.into_iter().map(|cylinder| match &cylinder.number {
        Some(number) if *number != cylinder.id => format!("{} ({number})", cylinder.id),
        _ => cylinder.id.clone(),
    });
    named.collect()
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
        valve: lying::valve(plan, &cylinder.placing).unwrap_or_default(),
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
        let catalogue = Catalogue::built_in();
        // A pair is filled as one of its cylinders is.
        let single = catalogue.twin(&cylinder.kind).map(|twin| &*twin.single);
        let kind = catalogue.kind(single.unwrap_or(&cylinder.kind));
        kind.map(|kind| kind.data().working_pressure_bar)
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
        Placing::Hanging { from, .. } => format!("hanging from {}", point_name(plan, from)),
        Placing::InWater => "in the water".to_owned(),
        Placing::Ashore => "ashore".to_owned(),
        placing => {
            let deck = placing.deck().unwrap_or_default();
            let deck = match placing {
                Placing::Lying { upon, .. } if !upon.is_empty() => every(upon),
                _ => plan
                    .boat
                    .deck(deck)
                    .and_then(|deck| deck.name.clone())
                    .unwrap_or_else(|| deck.to_owned()),
            };
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

fn point_name(plan: &Plan, id: &str) -> String {
    let mut points = plan.boat.lashing_points.iter();
    let point = points.find(|point| point.id == id);
    let name = point.and_then(|point| point.name.clone());
    name.unwrap_or_else(|| id.to_owned())
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
            chocks: Some(chocks),
            ..
        } => holds.push(lying::chocks(chocks)),
        Placing::Lying { on_kit: true, .. } => holds.push("its kit under it".to_owned()),
        Placing::Lying { upon, .. } if !upon.is_empty() => {
            holds.push(format!("the groove of {}", every(upon)));
        }
        Placing::InCrate { rack, .. } => holds.push(rack_name(plan, rack)),
        Placing::HeldByHand { by, .. } => holds.push(format!("{by}'s hands")),
        Placing::OnDiver { by } => holds.push(format!("{by}, who wears it")),
        Placing::Hanging { from, .. } => holds.push(point_name(plan, from)),
        _ => {}
    }
    if holds.is_empty() {
        "nothing".to_owned()
    } else {
        every(&holds)
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Brief, LoadingSettings, Table};
    use crate::checks::fixture;
    use crate::layout::{Briefing, LoadingTick};

    fn brief(text: &str) -> Brief {
        let plan = fixture::plan(text).unwrap();
        Brief::of(&plan, &plan.trips[0], None, &LoadingSettings::default()).unwrap()
    }

    /// The bottle that was forgotten is the one that nobody sees.
    #[test]
    fn what_stays_ashore_is_told() {
        let told = brief("deck 8x4; running; stand P1 2,0; ashore P2; ashore P3");
        assert_eq!(told.ashore, ["P2", "P3"]);
        assert_eq!(told.load_list.len(), 1);
        let remarks: Vec<&str> = told.loading.must_be_told().collect();
        assert_eq!(
            remarks,
            [
                "Ashore in the plan: P2 and P3. Give them places aboard in the plan, or leave them there."
            ]
        );
        let none = brief("deck 8x4; running; stand P1 2,0");
        assert!(none.ashore.is_empty() && none.loading.must_be_told().next().is_none());
    }

    #[test]
    fn who_wears_it_holds_it_and_so_does_what_it_hangs_from() {
        let told = brief(
            "deck 8x4; point E1 2,0 h=1.5 strength=4; running; person Ann diver 3,0; diver P1 by=Ann; hang P2 E1 2,0",
        );
        let by = |id: &str| told.row(id).unwrap().secured_by.clone();
        assert_eq!(by("P1"), "Ann, who wears it");
        assert_eq!(by("P2"), "E1");
    }

    /// The working pressure of a pair is that of each of its cylinders: 232 bar.
    #[test]
    fn pairs_are_filled_as_one_of_them_is() {
        let told = brief("deck 8x4; running; stand T1 2,0 kind=twin-st-12l-short-232");
        assert_eq!(told.load_list[0].pressure, "full (232 bar)");
    }

    #[test]
    fn what_lies_upon_others_lies_on_no_deck() {
        let told = brief(
            "deck 8x4; running; lie A1 3,0 towards=90 chock=0.05; lie A2 3.2,0 towards=90 chock=0.05; lie A3 3.1,0 towards=90 upon=A1+A2",
        );
        let row = told.row("A3").unwrap();
        assert!(
            row.where_to.starts_with("on A1 and A2, "),
            "{}",
            row.where_to
        );
        assert_eq!(row.valve, "valve to port");
        let first = told.row("A1").unwrap();
        assert_eq!(first.secured_by, "fixed chocks 50 mm high");
    }

    #[test]
    fn what_is_ticked_stands_in_the_table_with_the_reason_of_a_skip() {
        let mut plan = fixture::plan("deck 8x4; running; stand P1 2,0; stand P2 3,0").unwrap();
        plan.trips[0].briefing = Some(Briefing {
            ticks: vec![LoadingTick {
                cylinder: "P1".to_owned(),
                by: "Ann".to_owned(),
                when: "2026-05-01 06:10".to_owned(),
                skipped: Some("valve leaks".to_owned()),
            }],
            ..Briefing::default()
        });
        let settings = LoadingSettings::default();
        let told = Brief::of(&plan, &plan.trips[0], None, &settings).unwrap();
        let table = Table::load_list(&told);
        let last = |row: &[String]| row[row.len() - 5..].to_vec();
        assert_eq!(
            last(&table.rows[0]),
            [
                "skipped",
                "skipped",
                "Ann",
                "2026-05-01 06:10",
                "valve leaks"
            ]
        );
        assert_eq!(last(&table.rows[1]), [""; 5]);
        assert_eq!(table.rows[0].len(), table.headings.len());
    }
}
