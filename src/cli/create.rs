//! `snugdown new`.

use std::fmt::Write as _;
use std::path::Path;

use super::args::NewOptions;
use super::{Console, Failure};
use crate::layout::Plan;
use crate::store::{self, Fault, SaveError};

pub(super) fn run(options: &NewOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    let NewOptions {
        file,
        name,
        length,
        beam,
        overwrite,
    } = options;
    if !overwrite {
        refuse_to_replace(file)?;
    }
    save(&Plan::new(name, *length, *beam), file)?;
    writeln!(
        console.out,
        "{}: {name}, {length:.2} m by {beam:.2} m, one deck drawn from these two. Put tape readings in their \
         place: `snugdown {}`",
        file.display(),
        file.display()
    )?;
    Ok(())
}

/// Fails if the file is there.
pub(super) fn refuse_to_replace(file: &Path) -> Result<(), Failure> {
    match file.symlink_metadata() {
        Ok(_) => Err(Failure::Told(format!(
            "{} is there already; add --overwrite to replace it",
            file.display()
        ))),
        Err(_) => Ok(()),
    }
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
