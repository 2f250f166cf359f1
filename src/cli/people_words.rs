//! Ways of going, as a crew would say them.

use crate::engine::numbers::Way;

/// `its lashing gave`, after the name of a cylinder.
pub(super) fn goes(way: Way) -> &'static str {
    match way {
        Way::Tips => "tipped over",
        Way::Slides => "slid",
        Way::Lifts => "was lifted off",
        Way::FootKicksOut => "slid out from under itself at the foot",
        Way::RackGives => "went: its rack or the front of it gave",
        Way::LashingGives => "went: its lashing or the point of it gave",
        Way::RollsAway => "rolled away",
        Way::SlidesAlong => "slid along its axis",
        Way::LeavesGroove => "rolled out of its groove",
    }
}
