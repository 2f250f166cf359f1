//! What `brief` and `crew-sheet` share: the plan read, the trip chosen, the brief made.

use std::path::Path;

use super::args::LoadingOptions;
use super::cylinders::{no_such, trip_id};
use super::{Failure, create};
use crate::brief::{Brief, LoadingSettings};
use crate::layout::{Plan, Trip};
use crate::store;

/// Reads the plan and makes the brief that is asked for, with limit cards if they are wanted.
pub(super) fn read(options: &LoadingOptions, cards: bool) -> Result<(Plan, Brief), Failure> {
    let told = |error: &dyn std::fmt::Display| Failure::Told(error.to_string());
    let plan = store::read(&options.layout).map_err(|error| told(&error))?;
    let id = trip_id(&plan, options.trip.as_deref())?;
    let Some(trip) = plan.trip(&id) else {
        return Err(Failure::Told(format!("there is no trip {id:?}")));
    };
    let settings = settings(options, &plan, trip)?;
    let make = if cards { Brief::for_paper } else { Brief::of };
    let part = options.part.as_deref();
    let brief = make(&plan, trip, part, &settings).map_err(|error| told(&error))?;
    Ok((plan, brief))
}

/// Refuses to write over a file that nobody said to replace, and over the plan itself in any case.
pub(super) fn refuse_to_replace(options: &LoadingOptions, out: &Path) -> Result<(), Failure> {
    if !options.overwrite {
        return create::refuse_to_replace(out);
    }
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
    for place in [&options.hand_over, &options.set_down]
        .into_iter()
        .flatten()
    {
        if plan.boat.place(place).is_none() {
            let known = plan.boat.places.iter().map(|place| place.id.as_str());
            return Err(Failure::Told(no_such("place", place, known)));
        }
    }
    if let Some(part) = &options.part
        && trip.part(part).is_none()
    {
        let known = trip.parts.iter().map(|part| part.id.as_str());
        return Err(Failure::Told(no_such("part of the day", part, known)));
    }
    let mut settings = LoadingSettings::of(trip);
    if let Some(deg) = options.heel {
        settings.most_heel_deg = deg;
    }
    if options.hand_over.is_some() {
        settings.hand_over.clone_from(&options.hand_over);
    }
    if options.set_down.is_some() {
        settings.set_down.clone_from(&options.set_down);
    }
    Ok(settings)
}
