//! `snugdown reach`: who could have reached a spot on deck.

use super::args::{CompareFormat, ReachOptions};
use super::check::CAUTIONS;
use super::columns::{Align, paragraph, table};
use super::cylinders::no_such;
use super::{Console, Failure};
use crate::audit::{Candidate, Moment, reach};
use crate::store;

pub(super) fn run(options: &ReachOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    let plan = store::read(&options.layout).map_err(|error| Failure::Told(error.to_string()))?;
    let moment = Moment::of(&plan, options.trip.as_deref(), options.part.as_deref())
        .map_err(|error| Failure::Told(error.to_string()))?;
    let decks = plan.boat.decks.iter().map(|deck| deck.id.as_str());
    let deck = match &options.deck {
        Some(deck) if plan.boat.deck(deck).is_some() => deck.clone(),
        Some(deck) => return Err(Failure::Told(no_such("deck", deck, decks))),
        None => decks.clone().next().unwrap_or_default().to_owned(),
    };
    let found = reach(&moment, &deck, options.spot);
    match options.format {
        CompareFormat::Json => {
            serde_json::to_writer_pretty(&mut *console.out, &found)
                .map_err(std::io::Error::from)?;
            writeln!(console.out)?;
        }
        CompareFormat::Text => {
            let [x, y] = options.spot;
            writeln!(
                console.out,
                "{x:.2} m from the transom, {} on {deck}",
                if y >= 0.0 {
                    format!("{y:.2} m to port")
                } else {
                    format!("{:.2} m to starboard", -y)
                }
            )?;
            let text = for_people(&found, console.terminal.columns());
            console.out.write_all(text.as_bytes())?;
            writeln!(console.out)?;
            for caution in CAUTIONS {
                let text = paragraph("", 0, 0, caution, console.terminal.columns());
                console.out.write_all(text.as_bytes())?;
            }
        }
    }
    Ok(())
}

fn for_people(found: &[Candidate], width: usize) -> String {
    if found.is_empty() {
        return "No cylinder could have reached it.\n".to_owned();
    }
    let headings = [
        ("cylinder", Align::Left),
        ("how", Align::Left),
        ("stood m off", Align::Right),
        ("valve m high", Align::Right),
        ("joules", Align::Right),
        ("needed", Align::Left),
    ];
    let number = |value: Option<f64>, decimals: usize| {
        value.map_or_else(String::new, |value| format!("{value:.decimals$}"))
    };
    let rows: Vec<Vec<String>> = found
        .iter()
        .map(|item| {
            vec![
                item.cylinder.clone(),
                item.how.words(item.is_stopped).to_owned(),
                format!("{:.2}", item.distance_m),
                number(item.valve_height_m, 2),
                number(item.energy_j, 0),
                item.needed.clone(),
            ]
        })
        .collect();
    let mut text = table(&headings, &rows);
    for item in found {
        for it in &item.between {
            let line = format!("{}: {}.", item.cylinder, it.words());
            text.push_str(&paragraph("-", 1, 2, &line, width));
        }
    }
    text
}
