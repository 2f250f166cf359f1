//! `snugdown cylinders`: a list from a spreadsheet into a trip.

use super::args::CylindersOptions;
use super::create::{refuse_to_replace, save};
use super::{Console, Failure};
use crate::layout::nearest::nearest;
use crate::layout::{Edit, Placing, Plan, Thing};
use crate::store::{self, cylinder_list};

pub(super) fn run(options: &CylindersOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    let CylindersOptions {
        layout,
        list,
        trip,
        out,
        overwrite,
    } = options;
    let target = out.as_ref().unwrap_or(layout);
    if out.is_some() && !overwrite {
        refuse_to_replace(target)?;
    }
    let mut plan = store::read(layout).map_err(|error| Failure::Told(error.to_string()))?;
    let id = trip_id(&plan, trip.as_deref())?;
    let Some(trip) = plan.trip(&id) else {
        return Err(Failure::Told(format!("there is no trip {id:?}")));
    };
    let cylinders = cylinder_list::read_cylinder_list(list, &plan.boat, &trip.kinds)
        .map_err(|error| Failure::Told(error.to_string()))?;

    let (mut added, mut replaced, mut ashore) = (0, 0, 0);
    for cylinder in cylinders {
        match plan.trip(&id).and_then(|trip| trip.cylinder(&cylinder.id)) {
            Some(_) => replaced += 1,
            None => added += 1,
        }
        if cylinder.placing == Placing::Ashore {
            ashore += 1;
        }
        let thing = Box::new(Thing::Cylinder(cylinder));
        plan.apply(&Edit::Put {
            trip: Some(id.clone()),
            thing,
        })
        .map_err(|error| Failure::Told(error.to_string()))?;
    }
    save(&plan, target)?;
    writeln!(
        console.out,
        "{}, trip {id}: {added} added, {replaced} replaced; {ashore} of them ashore until placed",
        target.display()
    )?;
    Ok(())
}

/// The trip that is meant.
pub(super) fn trip_id(plan: &Plan, wanted: Option<&str>) -> Result<String, Failure> {
    let ids = || plan.trips.iter().map(|trip| trip.id.as_str());
    match wanted {
        Some(wanted) if plan.trip(wanted).is_some() => Ok(wanted.to_owned()),
        Some(wanted) => Err(Failure::Told(no_such("trip", wanted, ids()))),
        None => match plan.trips.as_slice() {
            [only] => Ok(only.id.clone()),
            [] => Err(Failure::Told("the plan has no trip".to_owned())),
            _ => Err(Failure::Told(format!(
                "the plan has several trips; add --trip with one of: {}",
                ids().collect::<Vec<_>>().join(", ")
            ))),
        },
    }
}

/// What to say of a name that is not there.
pub(super) fn no_such<'n>(
    what: &str,
    wanted: &str,
    known: impl Iterator<Item = &'n str> + Clone,
) -> String {
    if let Some(meant) = nearest(wanted, known.clone()) {
        return format!("there is no {what} {wanted:?}; did you mean {meant:?}?");
    }
    let known: Vec<_> = known.collect();
    format!(
        "there is no {what} {wanted:?}; there is: {}",
        known.join(", ")
    )
}
