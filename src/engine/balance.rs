//! Masses and centres of what is aboard in a part of the day, and the heel and trim that they cause.

use super::numbers::{BalanceNumbers, DeckShare, MassGroup, MassItem, PartNumbers, Stance};
use super::rolling;
use crate::layout::{Boat, DayState, GearShape, Id, Person, Plan, Posture, Role};
use crate::mechanics::balance::{
    DIVING_GEAR_KG, PERSON_CENTRE_M, PERSON_KG, heel_rad, passenger_moment_kg_m, trim_rad,
};

/// How far from the edge of the deck somebody at the rail stands, in metres. Common practice, no source.
const FROM_RAIL_M: f64 = 0.25;

/// Said beside every number.
const STATEMENT: &str = "A check of the stowage. It approves nothing: no freeboard, no stability at large angles, no \
                         flooding. The stability booklet, the flag state and a naval architect decide.";

#[derive(Copy, Clone, Debug)]
struct Mass<'a> {
    of: &'a Id,
    kg: f64,
    at: [f64; 3],
}

/// Works out the balance of one part of the day from its state and numbers.
pub fn balance(plan: &Plan, day: &DayState, numbers: &PartNumbers) -> BalanceNumbers {
    let boat = &plan.boat;
    let cylinders: Vec<Mass<'_>> = (numbers.cylinders.iter())
        .map(|item| Mass {
            of: &item.cylinder,
            kg: item.mass_kg,
            at: [item.at[0], item.at[1], item.cg_above_waterline_m],
        })
        .collect();
    let racks: Vec<Mass<'_>> = (boat.racks.iter())
        .map(|rack| Mass {
            of: &rack.id,
            kg: rack.mass_kg,
            at: [
                rack.at[0],
                rack.at[1],
                deck_height_m(boat, &rack.deck) + 0.5 * rack.edge_height_m,
            ],
        })
        .collect();
    let gear: Vec<Mass<'_>> = (day.gear.iter())
        .map(|state| {
            let [x, y] = middle(&state.gear.floor);
            let deck = deck_height_m(boat, &state.gear.deck);
            Mass {
                of: &state.gear.id,
                kg: state.gear.mass_kg,
                at: [x, y, deck + 0.5 * state.gear.height_m],
            }
        })
        .collect();
    let aboard: Vec<&Person> = (day.people.iter())
        .map(|state| &state.person)
        .filter(|person| !matches!(person.posture, Posture::InWater | Posture::Ashore))
        .collect();
    let people: Vec<Mass<'_>> = aboard.iter().map(|person| mass_of(boat, person)).collect();
    let all: Vec<Mass<'_>> = [&cylinders, &racks, &gear, &people]
        .into_iter()
        .flatten()
        .copied()
        .collect();
    let (gm_m, gm_from) = gm(boat);
    let heel = |moment: f64| Some(heel_rad(moment, boat.displacement_kg?, gm_m?).to_degrees());
    let athwart = |masses: &[Mass<'_>]| masses.iter().map(|mass| mass.kg * mass.at[1]).sum::<f64>();
    let moment = athwart(&all);
    let at_rail = |side: f64| {
        let shift: f64 = (aboard.iter())
            .map(|person| mass_kg(person) * (side * rail_m(boat, &person.deck) - person.at[1]))
            .sum();
        heel(moment + shift)
    };
    let length_m = boat.waterline_length_m.unwrap_or(boat.length_overall_m);
    let along: f64 = (all.iter())
        .map(|mass| mass.kg * (mass.at[0] - boat.pitch_axis_x()))
        .sum();
    let divers = aboard.iter().filter(|p| p.role == Role::Diver).count();
    let breadth_m = 2.0
        * (boat.decks.iter())
            .map(|deck| rail_of(&deck.outline))
            .fold(0.0, f64::max);
    BalanceNumbers {
        part: numbers.part.clone(),
        groups: vec![
            group("cylinders", &cylinders),
            group("racks", &racks),
            group("gear", &gear),
            group("people", &people),
        ],
        items: items([&cylinders, &racks, &gear, &people]),
        all_mass_kg: all.iter().map(|mass| mass.kg).sum(),
        all_centre_m: centre(&all),
        displacement_kg: boat.displacement_kg,
        gm_m,
        gm_from,
        heel_caused_deg: heel(moment),
        trim_caused_deg: boat
            .moment_to_trim_1_cm_kg_m
            .map(|to_trim| trim_rad(along, to_trim, length_m).to_degrees()),
        people_at_rail_heel_deg: at_rail(1.0).zip(at_rail(-1.0)).map(|(a, b)| [a, b]),
        passenger_moment_kg_m: passenger_moment_kg_m(aboard.len(), divers, breadth_m),
        passenger_moment_words: passenger_words(aboard.len(), divers, breadth_m, numbers),
        deck_shares: deck_shares(numbers),
        statement: STATEMENT,
    }
}

fn deck_shares(numbers: &PartNumbers) -> Vec<DeckShare> {
    (numbers.decks.iter())
        .map(|deck| DeckShare {
            deck: deck.deck.clone(),
            share_taken: if deck.area_m2 > 0.0 {
                deck.stowed_area_m2 / deck.area_m2
            } else {
                0.0
            },
            greatest_load_kg_per_m2: deck.greatest_load_kg_per_m2,
            load_limit_kg_per_m2: deck.load_limit_kg_per_m2,
        })
        .collect()
}

fn passenger_words(persons: usize, divers: usize, breadth_m: f64, numbers: &PartNumbers) -> String {
    let own = |item: &&super::numbers::CylinderNumbers| item.stance != Stance::OnDiver;
    let bottles_kg: f64 = (numbers.cylinders.iter())
        .filter(own)
        .map(|item| item.mass_kg)
        .sum();
    format!(
        "Mp = W Bp / 6 of 46 CFR 178.330, for information: {persons} aboard at {PERSON_KG} kg, {DIVING_GEAR_KG} kg of gear \
         for each of {divers} divers aboard, Bp {breadth_m:.2} m. The gear is counted once: the {bottles_kg:.0} kg of \
         cylinders on deck are not added to it"
    )
}

/// GM and where it comes from.
fn gm(boat: &Boat) -> (Option<f64>, String) {
    if let Some(gm) = boat.gm_m {
        return (Some(gm), "GM as given for the boat".to_owned());
    }
    let tested = rolling::roll_period(boat);
    match (tested.tested_gm_m, tested.tested_gm_band_m) {
        (Some(gm), Some([low, high])) => (
            Some(gm),
            format!("GM by the rolling-period test, {low:.2} to {high:.2} m"),
        ),
        _ => (
            None,
            "no GM is known, so no heel: give it, or do a rolling-period test of a single displacement hull"
                .to_owned(),
        ),
    }
}

fn mass_kg(person: &Person) -> f64 {
    person.mass_kg.unwrap_or(PERSON_KG)
}

fn mass_of<'a>(boat: &Boat, person: &'a Person) -> Mass<'a> {
    Mass {
        of: &person.id,
        kg: mass_kg(person),
        at: [
            person.at[0],
            person.at[1],
            deck_height_m(boat, &person.deck) + PERSON_CENTRE_M,
        ],
    }
}

fn deck_height_m(boat: &Boat, deck: &str) -> f64 {
    boat.deck(deck)
        .map_or(0.0, |deck| deck.height_above_waterline_m)
}

/// Half the greatest breadth of an outline.
fn rail_of(outline: &[[f64; 2]]) -> f64 {
    outline
        .iter()
        .map(|point| point[1].abs())
        .fold(0.0, f64::max)
}

/// Where somebody at the rail of a deck stands.
fn rail_m(boat: &Boat, deck: &str) -> f64 {
    let half = boat
        .deck(deck)
        .map_or(0.5 * boat.beam_m, |deck| rail_of(&deck.outline));
    (half - FROM_RAIL_M).max(0.0)
}

fn middle(floor: &GearShape) -> [f64; 2] {
    match floor {
        GearShape::Round { at, .. } | GearShape::Box { at, .. } => *at,
        GearShape::Line { points, .. } => {
            let n = points.len().max(1) as f64;
            let sum = |i: usize| points.iter().map(|point| point[i]).sum::<f64>();
            [sum(0) / n, sum(1) / n]
        }
    }
}

fn group(name: &'static str, masses: &[Mass<'_>]) -> MassGroup {
    MassGroup {
        group: name,
        count: masses.len(),
        group_mass_kg: masses.iter().map(|mass| mass.kg).sum(),
        centre_m: centre(masses),
    }
}

fn items(groups: [&[Mass<'_>]; 4]) -> Vec<MassItem> {
    let mut items = Vec::new();
    for masses in groups {
        let mut group: Vec<MassItem> = (masses.iter())
            .map(|mass| MassItem {
                thing: mass.of.clone(),
                thing_mass_kg: mass.kg,
                thing_centre_m: mass.at,
            })
            .collect();
        group.sort_by(|a, b| a.thing.cmp(&b.thing));
        items.extend(group);
    }
    items
}

fn centre(masses: &[Mass<'_>]) -> Option<[f64; 3]> {
    let all: f64 = masses.iter().map(|mass| mass.kg).sum();
    (all > 0.0).then(|| {
        [0, 1, 2].map(|i| masses.iter().map(|mass| mass.kg * mass.at[i]).sum::<f64>() / all)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::Assessor;
    use crate::layout::Plan;

    fn person(id: &str, role: Role, y: f64) -> Person {
        Person {
            id: id.into(),
            role,
            mass_kg: Some(100.0),
            deck: "main".into(),
            at: [3.0, y],
            posture: Posture::Standing,
            faces_deg: 0.0,
            fins: false,
        }
    }

    fn of(plan: &Plan) -> BalanceNumbers {
        let mut assessor = Assessor::default();
        assessor.assess(plan, &plan.trips[0]);
        balance(plan, &assessor.days()[0], &assessor.assessment().parts[0])
    }

    #[test]
    fn two_to_port_by_hand() {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        plan.boat.displacement_kg = Some(15_000.0);
        let deck = plan.boat.decks[0].id.clone();
        for (id, role) in [("a", Role::Diver), ("b", Role::Crew)] {
            let mut person = person(id, role, 1.5);
            person.deck.clone_from(&deck);
            plan.trips[0].people.push(person);
        }
        let without = of(&plan);
        assert_eq!(without.heel_caused_deg, None, "nothing without GM");
        assert!(without.gm_from.contains("no GM"));
        plan.boat.gm_m = Some(0.9);
        let with = of(&plan);
        // 200 kg at 1.5 m to port.
        assert!((with.heel_caused_deg.unwrap() + 1.27303).abs() < 1e-4);
        assert!((with.all_mass_kg - 200.0).abs() < 1e-9);
        let names: Vec<&str> = with.items.iter().map(|item| item.thing.as_str()).collect();
        assert_eq!(names, ["a", "b"]);
        assert!((with.items[1].thing_centre_m[1] - 1.5).abs() < 1e-12);
        let [port, starboard] = with.people_at_rail_heel_deg.unwrap();
        assert!(
            port < 0.0 && (port + starboard).abs() < 1e-9,
            "both rails alike"
        );
        let breadth = 2.0 * rail_of(&plan.boat.decks[0].outline);
        let by_hand = (2.0 * PERSON_KG + DIVING_GEAR_KG) * breadth / 6.0;
        assert!((with.passenger_moment_kg_m - by_hand).abs() < 1e-9);
    }

    #[test]
    fn who_is_in_the_water_is_not_aboard() {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        let mut swimmer = person("a", Role::Diver, 0.0);
        swimmer.posture = Posture::InWater;
        plan.trips[0].people.push(swimmer);
        let numbers = of(&plan);
        assert_eq!(numbers.groups[3].count, 0);
        assert!(numbers.all_centre_m.is_none());
    }
}
