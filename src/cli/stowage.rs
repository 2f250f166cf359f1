//! One part of the day of a plan, as `replay` and `uncertainty` ask about it, and how the answer is told.

use schemars::JsonSchema;
use serde::Serialize;

use super::args::{CompareFormat, StowageOptions};
use super::check::CAUTIONS;
use super::columns::paragraph;
use super::{Console, Failure, choose};
use crate::audit::Moment;
use crate::engine::Stowed;
use crate::layout::{Part, Plan, Trip};

/// What is asked about.
pub(super) struct Asked<'a> {
    pub(super) plan: &'a Plan,
    pub(super) trip: &'a Trip,
    pub(super) part: &'a Part,
    pub(super) stowed: Stowed<'a>,
}

/// An answer, with what it is about.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "{T}")]
pub(super) struct Told<T> {
    /// The program and its version.
    program: &'static str,
    /// What this is and is not.
    cautions: [&'static str; 2],
    /// The boat's name.
    boat: String,
    /// The trip.
    trip: String,
    /// The part of the day.
    pub(super) part: String,
    /// The answer itself.
    #[serde(flatten)]
    pub(super) answer: T,
}

pub(super) fn nothing_there() -> Failure {
    Failure::Told("there is no such part of the day".to_owned())
}

/// The moment that is asked about.
pub(super) fn moment(options: &StowageOptions) -> Result<Moment, Failure> {
    let (trip, part) = (options.trip.as_deref(), options.part.as_deref());
    Ok(choose::moment(&options.layout, trip, part)?.moment)
}

/// What is asked about in it.
pub(super) fn asked(moment: &Moment) -> Result<Asked<'_>, Failure> {
    let plan = &moment.plan;
    let trip = plan.trips.first().ok_or_else(nothing_there)?;
    let part = trip.parts.first().ok_or_else(nothing_there)?;
    let stowed = Stowed::of(plan, trip, 0).ok_or_else(nothing_there)?;
    Ok(Asked {
        plan,
        trip,
        part,
        stowed,
    })
}

impl<T: Serialize> Told<T> {
    pub(super) fn new(about: &Asked<'_>, answer: T) -> Self {
        Self {
            program: concat!("snugdown ", env!("CARGO_PKG_VERSION")),
            cautions: CAUTIONS,
            boat: about.plan.boat.name.clone(),
            trip: about.trip.id.clone(),
            part: about.part.id.clone(),
            answer,
        }
    }

    /// Prints it for people, who get the cautions at its end, or for machines.
    pub(super) fn tell(
        &self,
        format: CompareFormat,
        console: &mut Console<'_>,
        for_people: impl FnOnce(&Self, usize) -> String,
    ) -> Result<(), Failure> {
        match format {
            CompareFormat::Json => {
                serde_json::to_writer_pretty(&mut *console.out, self)
                    .map_err(std::io::Error::from)?;
                writeln!(console.out)?;
            }
            CompareFormat::Text => {
                let width = console.terminal.columns();
                let mut text = for_people(self, width);
                text.push('\n');
                for caution in CAUTIONS {
                    text.push_str(&paragraph("", 0, 0, caution, width));
                }
                console.out.write_all(text.as_bytes())?;
            }
        }
        Ok(())
    }
}
