//! Runs the program as a stranger would: wrong paths, broken files, wrong units, pipes that close.

#![expect(clippy::unwrap_used, reason = "helpers of a test may panic")]

mod audit;
mod brief;
mod check;
mod choosing;
mod commands;
mod compare;
mod crew_sheet;
mod day;
mod files;
mod findings;
mod fleet;
mod measuring_sheet;
mod motion;
mod printed_json;
mod replay;
mod report;
#[cfg(all(target_os = "linux", target_env = "gnu"))]
mod same_digits;
mod schema_walk;
mod strangers;
mod support;
