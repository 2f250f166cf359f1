//! `snugdown new`.

use std::fmt::Write as _;
use std::path::{Path, is_separator};

use super::args::NewOptions;
use super::choose::{Called, which};
use super::{Console, Failure};
use crate::layout::{Plan, Point};
use crate::store::drawing::{self, DrawingFault, DrawingUnit, OutlineOptions};
use crate::store::{self, Fault, SaveError};

pub(super) fn run(options: &NewOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    let (file, name) = (&options.file, &options.name);
    refuse_to_replace(file, options.overwrite)?;
    let drawn = match &options.outline {
        Some(drawing) => Some(outline(drawing, options)?),
        None => None,
    };
    let reach = |axis: usize| {
        let along = drawn
            .iter()
            .flat_map(|drawn| &drawn.points)
            .map(|p| p[axis]);
        let (low, high) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
            (low.min(v), high.max(v))
        });
        high - low
    };
    let length = options.length.unwrap_or_else(|| reach(0));
    let beam = options.beam.unwrap_or_else(|| reach(1));
    let mut plan = Plan::new(name, length, beam);
    let shown = file.display();
    let Some(drawn) = drawn else {
        save(&plan, file)?;
        writeln!(
            console.out,
            "{shown}: {name}, {length:.2} m by {beam:.2} m, one deck drawn from these two. Put tape readings in \
             their place: `snugdown {shown}`"
        )?;
        return Ok(());
    };
    for deck in &mut plan.boat.decks {
        deck.outline.clone_from(&drawn.points);
    }
    save(&plan, file)?;
    writeln!(
        console.out,
        "{shown}: {name}, {length:.2} m by {beam:.2} m, one deck with {} corners from the drawing. {}",
        drawn.points.len(),
        drawn.told
    )?;
    Ok(())
}

/// A deck's outline from a drawing.
struct Drawn {
    points: Vec<Point>,
    told: String,
}

fn outline(path: &Path, options: &NewOptions) -> Result<Drawn, Failure> {
    let failed = |what: String| Failure::Told(format!("{}: {what}", path.display()));
    let opened = drawing::open_file(path).map_err(|error| failed(error.to_string()))?;
    let Some(unit) = options.unit.map(DrawingUnit::from).or(opened.unit) else {
        let help = "the drawing does not say its unit; add --unit mm, cm, m, in or ft";
        return Err(failed(help.to_owned()));
    };
    let make = OutlineOptions::new(unit);
    let names = || opened.layers.iter().map(|layer| layer.name.as_str());
    let layer = if let Some(layer) = &options.layer {
        let known: Vec<Called<'_>> = names().map(Called::by_id).collect();
        which("layer", layer, &known).map_err(failed)?
    } else {
        let with: Vec<_> = names()
            .filter(|name| !opened.outlines(name, make).outlines.is_empty())
            .collect();
        match with[..] {
            [one] => one,
            [] => names().next().unwrap_or_default(),
            _ => {
                let list = with.join("\", \"");
                return Err(failed(format!(
                    "several layers have an outline; add --layer with one of \"{list}\""
                )));
            }
        }
    };
    let found = opened.outlines(layer, make);
    let Some(deck) = found.outlines.first() else {
        let mut told = format!("there is no closed outline on layer {layer:?}");
        for fault in &found.faults {
            let DrawingFault {
                entity,
                message,
                help,
            } = fault;
            write!(told, "\n  {entity} {message}\n    help: {help}").ok();
        }
        return Err(failed(told));
    };
    let mut told = format!(
        "Drawn in {}; arcs within {:.1} mm, gaps of up to {:.1} mm closed.",
        unit.symbol(),
        deck.deviation_m * 1e3,
        deck.gap_m * 1e3
    );
    let others = found.outlines.len() - 1 + found.faults.len();
    if others > 0 {
        write!(told, " Left out on layer {layer:?}: {others} more.").ok();
    }
    let points = drawing::in_boat_frame(&deck.outline, options.bow.into());
    Ok(Drawn { points, told })
}

/// Fails if no file can be written there, or if one is there that nobody said to replace.
pub(super) fn refuse_to_replace(file: &Path, overwrite: bool) -> Result<(), Failure> {
    let shown = file.display();
    let ends_as_folder = file.as_os_str().to_string_lossy().ends_with(is_separator);
    let why = if ends_as_folder || file.is_dir() {
        let inside = file.join("NAME");
        format!(
            "{shown} is a folder; add the name of the file that is written in it: {}",
            inside.display()
        )
    } else if file.exists() && !file.is_file() {
        format!("{shown} is no ordinary file; name one that can be written")
    } else if !overwrite && file.symlink_metadata().is_ok() {
        format!("{shown} is there already; add --overwrite to replace it")
    } else {
        return Ok(());
    };
    Err(Failure::Told(why))
}

/// Saves a plan that the command made; faults are told by field, since the file has no lines yet.
pub(super) fn save(plan: &Plan, file: &Path) -> Result<(), Failure> {
    store::save(plan, file).map_err(|error| match error {
        SaveError::Write(error) => Failure::Told(error.to_string()),
        SaveError::Faults(faults) => {
            let mut told = format!("{} was not saved:", file.display());
            // The outline was drawn from length and beam: what is wrong with it is wrong with them.
            let is_drawn = |fault: &&Fault| fault.field.starts_with("boat.decks");
            let (drawn, given): (Vec<_>, Vec<_>) = faults.list.iter().partition(is_drawn);
            for fault in if given.is_empty() { drawn } else { given } {
                write!(told, "\n  {}: {}", fault.field, fault.message).ok();
                if !fault.help.is_empty() {
                    write!(told, "\n    help: {}", fault.help).ok();
                }
            }
            Failure::Told(told)
        }
    })
}
