//! The stowage of an account: the layout that it starts from, with what was found put in.

use super::account::{Account, FoundCondition, FoundThing, LashingFound};
use crate::catalogue::Catalogue;
use crate::layout::{Id, Known, LashCondition, Lashing, Plan, Trip, validate};

/// What was made of a lashing's condition, for the table of assumptions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AppliedNote {
    /// The lashing.
    pub lashing: Id,

    /// What was made of it, in a sentence.
    pub sentence: String,
}

/// Why an account makes no stowage.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StowageError {
    /// Something it names is not there.
    #[error("account {account}: there is no {what} {id:?} in the layout that it starts from")]
    NoSuch {
        /// The account.
        account: Id,
        /// What sort of thing.
        what: &'static str,
        /// Its name.
        id: Id,
    },

    /// What was found does not fit the layout.
    #[error("account {account}: {field}: {message}")]
    Unsound {
        /// The account.
        account: Id,
        /// The field of the layout.
        field: String,
        /// What is wrong with it.
        message: String,
    },
}

/// The stowage of one account in a plan of one moment: `moment` is a plan whose only trip has only the
/// part of the day in question. Tells what was made of the conditions of lashings.
pub fn stowage_of(
    moment: &Plan,
    account: &Account,
) -> Result<(Plan, Vec<AppliedNote>), StowageError> {
    let mut plan = moment.clone();
    let before = validate(&plan);
    let mut notes = Vec::new();
    for item in &account.found {
        put(&mut plan, account, &item.thing, &mut notes)?;
    }
    for found in &account.lashings {
        let trip = plan.trips.first_mut();
        let base = trip.as_ref().map(|trip| strength_kn(trip, &found.lashing));
        let lashing =
            trip.and_then(|trip| trip.lashings.iter_mut().find(|it| it.id == found.lashing));
        let Some(lashing) = lashing else {
            return Err(no_such(account, "lashing", &found.lashing));
        };
        let sentence = wear(lashing, found, base.flatten());
        notes.push(AppliedNote {
            lashing: found.lashing.clone(),
            sentence,
        });
    }
    let is_old = |message: &String| before.iter().any(|old| old.message == *message);
    let wrong = validate(&plan)
        .into_iter()
        .find(|mistake| !is_old(&mistake.message));
    match wrong {
        None => Ok((plan, notes)),
        Some(mistake) => Err(StowageError::Unsound {
            account: account.id.clone(),
            field: mistake.field,
            message: mistake.message,
        }),
    }
}

fn no_such(account: &Account, what: &'static str, id: &str) -> StowageError {
    StowageError::NoSuch {
        account: account.id.clone(),
        what,
        id: id.to_owned(),
    }
}

fn put(
    plan: &mut Plan,
    account: &Account,
    thing: &FoundThing,
    notes: &mut Vec<AppliedNote>,
) -> Result<(), StowageError> {
    if let FoundThing::Front { rack, front, shut } = thing {
        let racks = &mut plan.boat.racks;
        let found = racks
            .iter_mut()
            .find(|item| item.id == *rack)
            .and_then(|rack| rack.fronts.iter_mut().find(|item| item.id == *front));
        let found = found.ok_or_else(|| no_such(account, "front", front))?;
        found.shut = *shut;
        return Ok(());
    }
    let Some(trip) = plan.trips.first_mut() else {
        return Err(no_such(account, "trip", "any"));
    };
    match thing {
        FoundThing::Cylinder { cylinder } => {
            put_into(&mut trip.cylinders, cylinder, |item| &item.id);
        }
        FoundThing::Lashing { lashing } => put_into(&mut trip.lashings, lashing, |item| &item.id),
        FoundThing::Gear { gear } => put_into(&mut trip.gear, gear, |item| &item.id),
        FoundThing::NoCylinder { cylinder } => {
            if !take_out(&mut trip.cylinders, |item| item.id == *cylinder) {
                return Err(no_such(account, "cylinder", cylinder));
            }
            // A lashing that went round it alone holds nobody; round several it goes round the others.
            for lashing in &mut trip.lashings {
                let before = lashing.round.len();
                lashing.round.retain(|id| id != cylinder);
                if !lashing.round.is_empty() && lashing.round.len() < before {
                    notes.push(AppliedNote {
                        lashing: lashing.id.clone(),
                        sentence: format!(
                            "{} went round {cylinder} too; without it, it is taken as made fast round those left",
                            lashing.id
                        ),
                    });
                }
            }
            trip.lashings.retain(|lashing| !lashing.round.is_empty());
        }
        FoundThing::NoLashing { lashing } => {
            if !take_out(&mut trip.lashings, |item| item.id == *lashing) {
                return Err(no_such(account, "lashing", lashing));
            }
        }
        FoundThing::NoGear { gear } => {
            if !take_out(&mut trip.gear, |item| item.id == *gear) {
                return Err(no_such(account, "gear", gear));
            }
        }
        FoundThing::Front { .. } => {}
    }
    Ok(())
}

fn put_into<T: Clone>(list: &mut Vec<T>, new: &T, id: fn(&T) -> &Id) {
    match list.iter_mut().find(|old| id(old) == id(new)) {
        Some(old) => old.clone_from(new),
        None => list.push(new.clone()),
    }
}

fn take_out<T>(list: &mut Vec<T>, is_it: impl Fn(&T) -> bool) -> bool {
    let before = list.len();
    list.retain(|item| !is_it(item));
    list.len() < before
}

/// The strength of a lashing as new, in kilonewtons, as the engine takes it.
fn strength_kn(trip: &Trip, lashing: &str) -> Option<f64> {
    let lashing = trip.lashing(lashing)?;
    if let Some(known) = lashing.strength_kn {
        return known.value();
    }
    let used = trip
        .materials
        .iter()
        .find(|item| item.id == lashing.material);
    if let Some(used) = used {
        return used.strength_kn.value();
    }
    let material = Catalogue::built_in().material(&lashing.material)?;
    material.msl_kn().map(|msl| msl.value)
}

/// Puts a condition into a lashing; tells what was made of it.
fn wear(lashing: &mut Lashing, found: &LashingFound, strength_kn: Option<f64>) -> String {
    let id = &lashing.id;
    let left = found.left();
    let words = found.condition.words();
    let why = match found.factor {
        Some(_) => "the record's factor",
        None => found.condition.usual_factor().1,
    };
    if left <= 0.0 {
        match found.condition {
            FoundCondition::Cut => lashing.condition = LashCondition::Cut,
            _ => lashing.shut = false,
        }
        return format!("{id} was found {words}: none of its strength counts ({why})");
    }
    let percent = (100.0 * left).round();
    let Some(strength_kn) = strength_kn else {
        // Nobody knows what it could take new; the condition stays to be read.
        lashing.condition = condition_of(found.condition);
        return format!("{id} was found {words}; its strength is not known");
    };
    // The engine takes its own half off for a knot or the sun; here the factor alone counts.
    lashing.condition = LashCondition::Good;
    lashing.strength_kn = Some(Known::Value(strength_kn * left));
    format!("{id} was found {words}: {percent:.0} % of its strength counts ({why})")
}

fn condition_of(found: FoundCondition) -> LashCondition {
    match found {
        FoundCondition::Knotted => LashCondition::Knotted,
        FoundCondition::Bleached => LashCondition::Bleached,
        FoundCondition::Cut => LashCondition::Cut,
        FoundCondition::Open | FoundCondition::RoundTheValve => LashCondition::Good,
    }
}
