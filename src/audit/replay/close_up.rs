use super::{FromStart, Mounting, Replay, Tracks};
use crate::audit::Moment;
use crate::engine::Stowed;
use crate::mechanics::recorded::LogPiece;

/// A stretch of a recorded motion over a stowage, in seconds from the start of the log, with points as fine as there
/// is room for; nothing where nothing is stowed.
///
/// The log is read from its start, as who is gone by then is gone: `read` hands it on piece by piece. Memory does not
/// grow with its length.
pub fn close_up<E>(
    moment: &Moment,
    mounting: Mounting,
    stretch_s: [f64; 2],
    read: impl FnOnce(&mut dyn FnMut(LogPiece<'_>)) -> Result<(), E>,
) -> Result<Tracks, E> {
    let trip = moment.plan.trips.first();
    let Some(stowed) = trip.and_then(|trip| Stowed::of(&moment.plan, trip, 0)) else {
        return Ok(Tracks::default());
    };
    let mut replay = Replay::new(&stowed, stowed.takes(), mounting).closely(stretch_s);
    let mut from_start = FromStart::default();
    read(&mut |piece| {
        // What comes later changes nothing in it.
        if replay.time_s() <= stretch_s[1] {
            from_start.hand(piece, &mut replay);
        }
    })?;
    Ok(replay.finish(String::new()).tracks)
}
