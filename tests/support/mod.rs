//! Shipped layouts, and the same layouts mirrored or with their lists in another order.

pub(crate) mod mirror;
pub(crate) mod shuffle;

use std::fs;
use std::path::{Path, PathBuf};

use snugdown::checks::{self, Finding};
use snugdown::engine::Assessor;
use snugdown::layout::Plan;
use snugdown::store;

/// The shipped layout files, in the order of their names.
pub(crate) fn shipped() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts");
    let mut files: Vec<PathBuf> = fs::read_dir(folder)
        .expect("the folder of shipped layouts")
        .map(|entry| entry.expect("an entry of it").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .collect();
    files.sort();
    files
}

/// A shipped layout by the stem of its file.
pub(crate) fn open(stem: &str) -> Plan {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("layouts")
        .join(format!("{stem}.json"));
    store::read(&path).unwrap_or_else(|faults| panic!("{faults}"))
}

/// Everything to put right in all trips of a plan.
pub(crate) fn findings(plan: &Plan) -> Vec<Finding> {
    let mut assessor = Assessor::default();
    plan.trips
        .iter()
        .flat_map(|trip| checks::run(&mut assessor, plan, trip))
        .collect()
}
