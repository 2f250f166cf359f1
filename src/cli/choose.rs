//! Which trip, part of the day or place is meant: by its id or by what the crew call it.
//!
//! An id goes before a name, and a name counts where exactly one thing has it. What is refused is told with the
//! file, with what there is, and with what to do.

use std::fmt::Display;
use std::path::Path;

use super::Failure;
use crate::audit::Moment;
use crate::layout::nearest::nearest;
use crate::layout::{Part, Plan, Trip};
use crate::store;

/// Something that can be asked for.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(super) struct Called<'p> {
    pub(super) id: &'p str,
    pub(super) name: Option<&'p str>,
}

impl<'p> Called<'p> {
    /// What has no name besides its id.
    pub(super) fn by_id(id: &'p str) -> Self {
        Self { id, name: None }
    }

    /// `"port-gate" ("Side gate port")`.
    fn told(self) -> String {
        match self.name {
            Some(name) if name != self.id => format!("{:?} ({name:?})", self.id),
            _ => format!("{:?}", self.id),
        }
    }
}

/// The id of what is meant, `None` if nothing is called so; trouble where several have that name.
pub(super) fn find<'p>(wanted: &str, known: &[Called<'p>]) -> Result<Option<&'p str>, String> {
    if let Some(same) = known.iter().find(|it| it.id == wanted) {
        return Ok(Some(same.id));
    }
    let named = known.iter().filter(|it| it.name == Some(wanted));
    let named: Vec<Called<'p>> = named.copied().collect();
    match named[..] {
        [] => Ok(None),
        [only] => Ok(Some(only.id)),
        _ => Err(format!(
            "several are called {wanted:?}; give the id of the one that is meant: {}",
            list(&named)
        )),
    }
}

/// The same where something must be found.
pub(super) fn which<'p>(what: &str, wanted: &str, known: &[Called<'p>]) -> Result<&'p str, String> {
    find(wanted, known)?.ok_or_else(|| no_such(what, wanted, known))
}

/// What to say of something that is not there.
pub(super) fn no_such(what: &str, wanted: &str, known: &[Called<'_>]) -> String {
    let words = known.iter().flat_map(|it| [Some(it.id), it.name]);
    let meant = nearest(wanted, words.flatten()).and_then(|word| {
        known
            .iter()
            .find(|it| it.id == word || it.name == Some(word))
    });
    match meant {
        Some(meant) => format!(
            "there is no {what} {wanted:?}; did you mean {}?",
            meant.told()
        ),
        None if known.is_empty() => format!("there is no {what} {wanted:?}, nor any other"),
        None => format!("there is no {what} {wanted:?}; there is: {}", list(known)),
    }
}

fn list(known: &[Called<'_>]) -> String {
    let told: Vec<String> = known.iter().map(|it| it.told()).collect();
    told.join(", ")
}

/// What the trips of a plan are called.
pub(super) fn trips(plan: &Plan) -> Vec<Called<'_>> {
    let trips = plan.trips.iter().map(|trip| Called {
        id: &trip.id,
        name: trip.name.as_deref(),
    });
    trips.collect()
}

/// What the parts of a trip are called.
pub(super) fn parts(trip: &Trip) -> Vec<Called<'_>> {
    let parts = trip.parts.iter().map(|part| Called {
        id: &part.id,
        name: part.name.as_deref(),
    });
    parts.collect()
}

/// What is wrong, with the file that it is about.
pub(super) fn in_file(file: &Path, what: &dyn Display) -> Failure {
    Failure::Told(format!("{}: {what}", file.display()))
}

/// The trip that is meant; the only one unless one is wanted.
pub(super) fn trip<'p>(
    file: &Path,
    plan: &'p Plan,
    wanted: Option<&str>,
) -> Result<&'p Trip, Failure> {
    let failed = |what: String| in_file(file, &what);
    let id = match (wanted, plan.trips.as_slice()) {
        (_, []) => {
            return Err(failed(format!(
                "the plan has no trip; open it in the window (`snugdown {}`), which gives it one, and save it",
                file.display()
            )));
        }
        (None, [only]) => return Ok(only),
        (None, _) => {
            return Err(failed(format!(
                "the plan has several trips; add --trip with one of: {}",
                list(&trips(plan))
            )));
        }
        (Some(wanted), _) => which("trip", wanted, &trips(plan)).map_err(failed)?,
    };
    plan.trip(id)
        .ok_or_else(|| failed(no_such("trip", id, &trips(plan))))
}

/// The part of the day that is meant, with its place in the day.
pub(super) fn part<'p>(
    file: &Path,
    trip: &'p Trip,
    wanted: &str,
) -> Result<(usize, &'p Part), Failure> {
    let failed = |what: String| in_file(file, &what);
    let known = parts(trip);
    let id = which("part of the day", wanted, &known).map_err(failed)?;
    trip.part(id)
        .ok_or_else(|| failed(no_such("part of the day", id, &known)))
}

/// The id of the part of the day that is meant, if one is wanted.
pub(super) fn part_id(
    file: &Path,
    trip: &Trip,
    wanted: Option<&str>,
) -> Result<Option<String>, Failure> {
    let part = wanted.map(|wanted| part(file, trip, wanted)).transpose()?;
    Ok(part.map(|(_, part)| part.id.clone()))
}

/// The part of the day that is meant, where it must be one.
pub(super) fn the_part<'p>(
    file: &Path,
    trip: &'p Trip,
    wanted: Option<&str>,
) -> Result<&'p Part, Failure> {
    match (wanted, trip.parts.as_slice()) {
        (None, [only]) => Ok(only),
        (None, _) => Err(in_file(
            file,
            &format_args!(
                "the day has several parts; add --part with the one that this is for: {}",
                list(&parts(trip))
            ),
        )),
        (Some(wanted), _) => Ok(part(file, trip, wanted)?.1),
    }
}

/// The id of the place aboard that is meant.
pub(super) fn place(file: &Path, plan: &Plan, wanted: &str) -> Result<String, Failure> {
    let places = plan.boat.places.iter().map(|place| Called {
        id: &place.id,
        name: place.name.as_deref(),
    });
    let known: Vec<Called<'_>> = places.collect();
    let id = which("place", wanted, &known).map_err(|what| in_file(file, &what))?;
    Ok(id.to_owned())
}

/// A moment of a plan, with the ids of trip and part as far as they were wanted.
pub(super) struct Asked {
    pub(super) moment: Moment,
    pub(super) trip: Option<String>,
    pub(super) part: Option<String>,
}

/// Reads a plan and takes from it the moment that is meant.
pub(super) fn moment(
    file: &Path,
    trip: Option<&str>,
    part: Option<&str>,
) -> Result<Asked, Failure> {
    let plan = store::read(file).map_err(|error| Failure::Told(error.to_string()))?;
    let chosen = self::trip(file, &plan, trip)?;
    let part = part_id(file, chosen, part)?;
    let moment = Moment::of(&plan, Some(&chosen.id), part.as_deref())
        .map_err(|error| in_file(file, &error))?;
    Ok(Asked {
        moment,
        trip: trip.map(|_| chosen.id.clone()),
        part,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const GATES: [Called<'static>; 4] = [
        Called {
            id: "port-gate",
            name: Some("Side gate port"),
        },
        Called {
            id: "step",
            name: Some("Swim step"),
        },
        Called {
            id: "Swim step",
            name: Some("Spare"),
        },
        Called {
            id: "locker 2",
            name: Some("Spare"),
        },
    ];

    #[test]
    fn an_id_goes_before_a_name_and_a_name_counts_where_one_has_it() {
        assert_eq!(find("port-gate", &GATES), Ok(Some("port-gate")));
        assert_eq!(find("Side gate port", &GATES), Ok(Some("port-gate")));
        assert_eq!(find("Swim step", &GATES), Ok(Some("Swim step")));
        assert_eq!(find("bow", &GATES), Ok(None));
        let several = find("Spare", &GATES).unwrap_err();
        assert!(
            several.ends_with("\"Swim step\" (\"Spare\"), \"locker 2\" (\"Spare\")"),
            "{several}"
        );
    }

    #[test]
    fn what_is_not_there_is_told_with_what_is() {
        assert_eq!(
            no_such("place", "Side gate prot", &GATES),
            "there is no place \"Side gate prot\"; did you mean \"port-gate\" (\"Side gate port\")?"
        );
        let all = no_such("place", "moon", &GATES);
        assert!(
            all.contains("there is: \"port-gate\" (\"Side gate port\"), "),
            "{all}"
        );
        assert_eq!(
            no_such("place", "moon", &[]),
            "there is no place \"moon\", nor any other"
        );
        assert_eq!(
            no_such("deck", "moon", &[Called::by_id("main")]),
            "there is no deck \"moon\"; there is: \"main\""
        );
    }
}
