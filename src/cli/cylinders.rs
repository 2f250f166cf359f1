//! `snugdown cylinders`: a list from a spreadsheet into a trip.

use super::args::CylindersOptions;
use super::create::{refuse_to_replace, save};
use super::{Console, Failure, choose};
use crate::layout::{Edit, Placing, Thing};
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
    if out.is_some() {
        refuse_to_replace(target, *overwrite)?;
    }
    let mut plan = store::read(layout).map_err(|error| Failure::Told(error.to_string()))?;
    let trip = choose::trip(layout, &plan, trip.as_deref())?;
    let id = trip.id.clone();
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
