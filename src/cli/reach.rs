//! `snugdown reach`: who could have reached a spot on deck.

use super::args::{CompareFormat, ReachOptions};
use super::check::CAUTIONS;
use super::choose::{Called, in_file, which};
use super::columns::{Align, paragraph, table};
use super::stowage::moment;
use super::{Console, Failure};
use crate::audit::{ReachRow, reach};

pub(super) fn run(options: &ReachOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    let moment = moment(&options.stowage)?;
    let plan = &moment.plan;
    let decks = plan.boat.decks.iter().map(|deck| Called {
        id: &deck.id,
        name: deck.name.as_deref(),
    });
    let decks: Vec<Called<'_>> = decks.collect();
    let deck = match &options.deck {
        Some(deck) => {
            which("deck", deck, &decks).map_err(|what| in_file(&options.stowage.layout, &what))?
        }
        None => decks.first().map_or("", |deck| deck.id),
    };
    let deck = deck.to_owned();
    let found = reach(&moment, &deck, options.spot);
    match options.stowage.format {
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

fn for_people(found: &[ReachRow], width: usize) -> String {
    if found.is_empty() {
        return "No cylinder could have reached it.\n".to_owned();
    }
    rows(found, width)
}

/// Who could have come there and how, then what stands in between.
pub(super) fn rows(found: &[ReachRow], width: usize) -> String {
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
    let cells: Vec<Vec<String>> = found
        .iter()
        .map(|row| {
            vec![
                row.cylinder.clone(),
                row.how.words(row.is_stopped).to_owned(),
                format!("{:.2}", row.distance_m),
                number(row.valve_height_m, 2),
                number(row.energy_j, 0),
                row.needed.words.clone(),
            ]
        })
        .collect();
    let mut text = table(&headings, &cells);
    for row in found {
        for it in &row.between {
            let line = format!("{}: {}.", row.cylinder, it.words());
            text.push_str(&paragraph("-", 1, 2, &line, width));
        }
    }
    text
}
