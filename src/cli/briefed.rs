//! What `brief` and `crew-sheet` share: the plan read, the trip chosen, the brief made.

use std::path::Path;

use super::args::LoadingOptions;
use super::{Failure, choose, create};
use crate::brief::{Brief, LoadingSettings};
use crate::layout::{Plan, Trip};
use crate::store;

/// Reads the plan and makes the brief that is asked for, with limit cards if they are wanted.
pub(super) fn read(options: &LoadingOptions, cards: bool) -> Result<(Plan, Brief), Failure> {
    let told = |error: &dyn std::fmt::Display| Failure::Told(error.to_string());
    let plan = store::read(&options.layout).map_err(|error| told(&error))?;
    let file = &options.layout;
    let trip = choose::trip(file, &plan, options.trip.as_deref())?;
    let settings = settings(options, &plan, trip)?;
    let make = if cards { Brief::for_paper } else { Brief::of };
    let part = choose::part_id(file, trip, options.part.as_deref())?;
    let brief = make(&plan, trip, part.as_deref(), &settings)
        .map_err(|error| choose::in_file(file, &error))?;
    Ok((plan, brief))
}

/// Refuses to write over a file that nobody said to replace, and over the plan itself in any case.
pub(super) fn refuse_to_replace(options: &LoadingOptions, out: &Path) -> Result<(), Failure> {
    create::refuse_to_replace(out, options.overwrite)?;
    let real = |path: &Path| path.canonicalize().ok();
    match (real(out), real(&options.layout)) {
        (Some(out_real), Some(plan)) if out_real == plan => Err(Failure::Told(format!(
            "{} is the deck plan itself: name another file",
            out.display()
        ))),
        _ => Ok(()),
    }
}

/// What was settled in the plan, and what the options say instead.
fn settings(
    options: &LoadingOptions,
    plan: &Plan,
    trip: &Trip,
) -> Result<LoadingSettings, Failure> {
    let mut settings = LoadingSettings::of(trip);
    if let Some(deg) = options.heel {
        settings.most_heel_deg = deg;
    }
    let place = |wanted: &str| choose::place(&options.layout, plan, wanted);
    if let Some(wanted) = &options.hand_over {
        settings.hand_over = Some(place(wanted)?);
    }
    if let Some(wanted) = &options.set_down {
        settings.set_down = Some(place(wanted)?);
    }
    Ok(settings)
}
