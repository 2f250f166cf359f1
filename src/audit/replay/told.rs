//! What went and what rocked, as a crew would say it.

use std::fmt::Write as _;

use super::report::{ReplayEvent, RockingNumbers, Why};
use crate::engine::numbers::Way;

/// After the name of a cylinder whose limit was passed.
fn went(way: Way) -> &'static str {
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

impl ReplayEvent {
    /// What it did and what came of it, after its name: `tipped over (roll 9.2° to starboard); it landed with 42 J`.
    pub fn sentence(&self) -> String {
        let mut text = match self.why {
            Why::WentOver => "stood free, rocked and went over".to_owned(),
            Why::Slid => "stood free and slid".to_owned(),
            Why::LiftedOff => "stood free and was lifted off the deck".to_owned(),
            Why::ThrownOver => format!(
                "was thrown over by {}",
                self.by.as_deref().unwrap_or("another")
            ),
            Why::LimitPassed => went(self.way).to_owned(),
        };
        let side = if self.roll_deg < 0.0 {
            "port"
        } else {
            "starboard"
        };
        write!(text, " (roll {:.1}° to {side})", self.roll_deg.abs()).ok();
        if let Some(energy) = self.energy_j {
            write!(text, "; it landed with {energy:.0} J").ok();
        }
        let struck: Vec<&str> = (self.struck.iter())
            .map(|struck| struck.thing.as_str())
            .collect();
        if !struck.is_empty() {
            write!(text, "; in its way: {}", struck.join(", ")).ok();
        }
        if let Some(rolls) = &self.rolls {
            let stop = rolls.stopped_by.as_deref().unwrap_or("the deck's edge");
            if rolls.far_m < 0.05 {
                write!(text, "; it lies at {stop}").ok();
            } else {
                write!(text, "; it may roll {:.1} m on, to {stop}", rolls.far_m).ok();
            }
        }
        if !self.left_slack.is_empty() {
            let lost = self.left_slack.join(", ");
            write!(text, "; holds others no more: {lost}").ok();
        }
        text
    }
}

impl RockingNumbers {
    /// The verdict, with how far it leaned under both views of its impacts where it came back.
    pub fn sentence(&self) -> String {
        let came_back = self.lossless.over_s.is_none() && self.housner.over_s.is_none();
        if !came_back || self.lossless.uplifts == 0 {
            return self.verdict.to_owned();
        }
        format!(
            "{} ({:.1}° with nothing lost at impacts, {:.1}° with Housner's losses)",
            self.verdict, self.lossless.largest_lean_deg, self.housner.largest_lean_deg
        )
    }
}

#[cfg(test)]
mod tests {
    use super::super::report::RockedNumbers;
    use super::*;
    use crate::engine::Rolls;
    use crate::mechanics::attitude::Attitude;

    #[test]
    fn what_falls_takes_along_and_leaves_slack_is_told() {
        let at = Attitude {
            roll_rad: -0.2,
            ..Attitude::default()
        };
        let name = "A".to_owned();
        let mut event = ReplayEvent::taken_along((&name, 3.0), &"B".to_owned(), &at);
        assert_eq!(
            event.sentence(),
            "was thrown over by B (roll 11.5° to port)"
        );
        event.why = Why::LimitPassed;
        event.way = Way::LashingGives;
        event.energy_j = Some(41.6);
        event.left_slack = vec!["S1".to_owned()];
        event.rolls = Some(Rolls {
            from: [0.0; 2],
            to: [0.0, 1.0],
            far_m: 1.0,
            stopped_by: None,
        });
        let told = "went: its lashing or the point of it gave (roll 11.5° to port); it landed with 42 J; it may roll 1.0 m \
                    on, to the deck's edge; holds others no more: S1";
        assert_eq!(event.sentence(), told);
    }

    /// Both views of the impacts are told of one that came back.
    #[test]
    fn losses_at_impacts_are_told_beside_none() {
        let leaned = |deg| RockedNumbers {
            uplifts: 3,
            first_uplift_s: Some(1.0),
            largest_lean_deg: deg,
            over_s: None,
        };
        let mut rocking = RockingNumbers {
            lossless: leaned(2.04),
            housner: leaned(1.5),
            verdict: "rocked and came back",
        };
        let told =
            "rocked and came back (2.0° with nothing lost at impacts, 1.5° with Housner's losses)";
        assert_eq!(rocking.sentence(), told);
        rocking.lossless.over_s = Some(4.0);
        assert_eq!(rocking.sentence(), "rocked and came back");
    }
}
