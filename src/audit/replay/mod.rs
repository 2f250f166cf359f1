//! A recorded or assumed motion, replayed over a stowage: the margin of every cylinder over time, what goes when, and
//! what it takes along.
//!
//! Everything streams: samples are put right for how the sensor was mounted, become attitudes, and are looked at some
//! thousands at a time; what is kept are buckets of time with the least and the most of each quantity.

mod assumed;
mod batch;
mod close_up;
pub mod curves;
mod from_start;
mod margins;
mod mounting;
mod report;
mod run;
mod told;
mod tracks;

#[cfg(test)]
mod stowed_tests;
#[cfg(test)]
mod tests;

pub use self::assumed::{Assumed, DrawnSea, NoSea, RATE_HZ, Steady};
pub use self::batch::{BATCH, Batch};
pub use self::close_up::close_up;
pub use self::from_start::FromStart;
pub use self::margins::{Margin, Margins};
pub use self::mounting::Mounting;
pub(super) use self::report::rounded;
pub use self::report::{
    CylinderReplay, ReplayEvent, ReplayReport, RockedNumbers, RockingNumbers, Tracks, Why,
};
pub use self::run::Replay;
pub use self::tracks::{Buckets, MOST_BUCKETS, Ranges};

/// Replays an assumed motion for so many seconds.
pub fn replay_assumed(
    assumed: &mut Assumed,
    lasts_s: f64,
    replay: &mut Replay<'_>,
    carries_on: &mut dyn FnMut(f64) -> bool,
) {
    const BLOCK: u64 = 1024;
    let mut block = Vec::new();
    let mut number = 0;
    let is_in_time = |number: &u64| *number as f64 / RATE_HZ <= lasts_s;
    while is_in_time(&number) {
        block.clear();
        let next = (number..number + BLOCK).take_while(is_in_time);
        block.extend(next.map(|number| assumed.sample(number)));
        number += BLOCK;
        replay.push(&block);
        if !carries_on(replay.time_s()) {
            break;
        }
    }
}
