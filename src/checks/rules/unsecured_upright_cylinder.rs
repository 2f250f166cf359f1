//! `U101`: an upright cylinder is neither racked, lashed nor held.

use super::{cylinder_goes, racked};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::security::{self, Security, Why};
use crate::checks::{CheckContext, Finding, Signal, figures, girth, words};
use crate::engine::numbers::{CylinderNumbers, Way};
use crate::layout::{Condition, LashCondition, ThingKind};

declare_check! {
    /// ## What it checks
    /// That every cylinder that stands upright on a deck is in a closed slot of a rack, or has a lashing on
    /// its straight shell that is made fast, or is held by hand properly (or minded while it is filled).
    /// Whatever the numbers say, one that is not is DANGER in every condition but made fast, where it is
    /// WARNING, because a wake of a passing boat is enough. The finding keeps the roll at which it goes.
    ///
    /// A lashing round several that one has left holds none of the others: it went slack by the girth that left,
    /// which is how much longer it ran round all of them than round the others. The finding gives that slack, and
    /// how far the cylinder leans before the lashing bites again.
    ///
    /// ## Why it matters
    /// An upright diving cylinder tips at a sideways push of less than 0.3 g, which a small boat reaches in
    /// a wake. It then falls on feet, breaks its valve, or rolls about the deck.
    ///
    /// ## Source
    /// 46 CFR 197.338 (cylinders are kept from falling) and Cal/OSHA Title 8, 4650(e); that the numbers do
    /// not excuse it: common practice, no source.
    pub static UNSECURED_UPRIGHT_CYLINDER = {
        code: "U101",
        name: "unsecured-upright-cylinder",
        summary: "an upright cylinder is neither racked, lashed nor held",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=5/4; stand P1 1.5,0",
            "deck 3x2; running roll=5/4; stand P1 1.5,0
             point E1 1.5,0.6; point E2 1.5,-0.6; lash L1 E1 P1 E1 h=0.44 tight=0.2
             lash L2 E2 P1 E2 h=0.44 tight=0.2",
        ],
        run: unsecured_upright_cylinder,
        cures: propose::secure,
    }
}

fn unsecured_upright_cylinder(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for cylinder in &ctx.numbers.cylinders {
        let Security::Unsecured(why) = security::of(ctx, cylinder) else {
            continue;
        };
        // Whoever holds it badly has a rule of their own.
        if !matches!(why, Why::BadlyHeld(_)) {
            findings.push(finding(ctx, cylinder, why));
        }
    }
}

fn finding(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers, why: &Why) -> Finding {
    let id = &cylinder.cylinder;
    let signal = if ctx.under_way() || security::goes(cylinder) {
        Signal::Danger
    } else {
        Signal::Warning
    };
    let wakes = if signal == Signal::Warning {
        "; a wake is enough when made fast"
    } else {
        ""
    };
    let sentence = format!(
        "{}: {}{}{wakes}",
        stands(ctx, id, why),
        words::goes_at(&cylinder.limit, &ctx.numbers.motion),
        words::leaning_slowly(cylinder),
    );
    let mut about = vec![ctx.subject(ThingKind::Cylinder, id)];
    let mut fold = "U101/secure".to_owned();
    match why {
        Why::SlotOpen { rack, front } => {
            about.push(ctx.subject(ThingKind::Rack, rack));
            fold = super::slot_not_closed::fold(rack, front.as_deref());
        }
        Why::LashingOpen { lashing, .. } => {
            about.push(ctx.subject(ThingKind::Lashing, lashing));
            fold = format!("shut/{lashing}");
        }
        Why::OffShell(lashing) => {
            about.push(ctx.subject(ThingKind::Lashing, lashing));
            fold = super::strap_off_straight_shell::fold(lashing);
        }
        Why::Free | Why::OnlyBacked | Why::BadlyHeld(_) | Why::AloneOnWhip => {}
    }
    let worst = [Way::Tips, Way::Slides, Way::Lifts, Way::FootKicksOut]
        .iter()
        .filter_map(|way| cylinder.utilisation(*way))
        .max_by(|a, b| cylinder_goes::share(a).total_cmp(&cylinder_goes::share(b)));
    let mut finding = Finding::new(&UNSECURED_UPRIGHT_CYLINDER, ctx, signal, about, sentence)
        .at_cylinder(cylinder)
        .fold_as(fold);
    if let Some(worst) = worst {
        finding = finding
            .measured(
                "share of what keeps it up that is used",
                cylinder_goes::share(worst),
                1.0,
                "",
            )
            .governed_by(worst);
    }
    finding
}

/// How it stands, as the start of a sentence.
fn stands(ctx: &CheckContext<'_>, id: &str, why: &Why) -> String {
    match why {
        Why::Free | Why::BadlyHeld(_) => {
            format!("{id} stands free, neither racked, lashed nor held")
        }
        Why::OnlyBacked => {
            format!("{id} only leans on what is beside it, with nothing round it")
        }
        Why::AloneOnWhip if ctx.part.condition == Condition::Running => format!(
            "{id} stands on the filling whip while the boat is running, when nobody can mind it"
        ),
        Why::AloneOnWhip => format!(
            "{id} stands on the filling whip with nobody within {}",
            figures::metres(security::ARM_M)
        ),
        Why::OffShell(lashing) => format!(
            "{id} has only {} round it, and not on its straight shell, where it would hold",
            ctx.name(ThingKind::Lashing, lashing)
        ),
        Why::SlotOpen { rack, front } => {
            let id_of_rack = rack;
            let rack = ctx.name(ThingKind::Rack, rack);
            match front {
                Some(front) if racked::is_shut(ctx, id_of_rack, front) => format!(
                    "{id} stands in {rack} behind {}, which {}",
                    ctx.front(id_of_rack, front),
                    super::slot_not_closed::PASSES_ABOVE
                ),
                Some(front) => format!(
                    "{id} stands in {rack} behind {}, which is open",
                    ctx.front(id_of_rack, front)
                ),
                None => format!("{id} stands in {rack} with nothing across the front"),
            }
        }
        Why::LashingOpen {
            lashing,
            others,
            left,
        } => {
            let what = ctx.trip.lashing(lashing);
            let cut = what.is_some_and(|what| what.condition == LashCondition::Cut);
            let cannot_run = what.is_some_and(|what| !security::runs(ctx, what));
            let lashing = ctx.name(ThingKind::Lashing, lashing);
            let also = if others.is_empty() {
                String::new()
            } else {
                format!(", as for {}", words::list_in_order(others))
            };
            if left.is_empty() {
                let is = match (cut, cannot_run) {
                    (true, _) => "is cut",
                    (_, true) => "cannot run from its points round it",
                    _ => "is open",
                };
                format!("{id} stands free: {lashing} round it {is}{also}")
            } else {
                let left = words::list_in_order(left);
                let slack = what.and_then(|what| girth::left_slack(ctx, what));
                let by = slack
                    .as_ref()
                    .map_or_else(String::new, girth::LeftSlack::by);
                let bites = slack.and_then(|slack| slack.bites(id));
                let bites = bites.map_or_else(String::new, |bites| format!(", {bites}"));
                format!(
                    "{id} stands free: {lashing} went slack{by} when {left} left it{also}{bites}"
                )
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    const POINTS: &str = "deck 6x3; point E1 3,0.6; point E2 3,-0.6";

    #[test]
    fn standing_free_under_way_is_danger_whatever_the_roll() {
        fires("deck 6x3; running roll=1/8; stand P1 3,0", "DANGER U101 P1");
        fires(
            "deck 6x3; anchored roll=1/8; stand P1 3,0",
            "DANGER U101 P1",
        );
    }

    #[test]
    fn made_fast_it_is_a_warning_for_wakes() {
        fires("deck 6x3; fast roll=1/8; stand P1 3,0", "WARNING U101 P1");
    }

    #[test]
    fn made_fast_it_is_danger_where_the_motion_given_is_enough() {
        fires("deck 6x3; fast roll=25/4; stand P1 3,0", "DANGER U101 P1");
    }

    #[test]
    fn it_keeps_the_roll_and_the_lean_at_which_it_tips() {
        says(
            "deck 6x3; running roll=15/4; stand P1 3,0",
            "U101",
            "of roll",
        );
        says(
            "deck 6x3; running roll=15/4; stand P1 3,0",
            "U101",
            "leaning slowly it tips at 1",
        );
    }

    #[test]
    fn a_lashing_made_fast_on_the_shell_secures() {
        silent(
            &format!("{POINTS}; running roll=3/6; stand P1 3,0; lash L1 E1 P1 E2 h=0.44 tight=0.2"),
            "U101",
        );
    }

    #[test]
    fn an_open_lashing_names_the_neighbours() {
        let text = format!(
            "{POINTS}; stand P1 3,0; stand P2 3.19,0; lash L1 E1 P1+P2 E2 h=0.44 tight=0.2
             fast; drifting; open L1"
        );
        says(&text, "U101", "L1 round it is open, as for P2");
    }

    #[test]
    fn when_one_leaves_a_common_lashing_the_others_are_unsecured() {
        let text = format!(
            "{POINTS}; stand P1 3,0; stand P2 3.19,0; lash L1 E1 P1+P2 E2 h=0.44 tight=0.2
             fast roll=1/8; drifting roll=1/8; water P2"
        );
        // P2 took along 0.19 m each way, less what the legs are now longer by.
        says(&text, "U101", "L1 went slack by 0.");
        says(
            &text,
            "U101",
            " when P2 left it, and bites again only when P1 leans",
        );
    }

    /// Two in a row, with both points far off to one side: the girth of the farther is twice the pitch (by hand), and
    /// the lean is slack over the lever, which is the height for each of two legs: 26°.
    #[test]
    fn the_girth_that_left_is_what_the_lashing_is_slack_by() {
        let row = "deck 60x6; point E1 1,0 h=0.44; stand P1 40,0; stand P2 40.2,0
             lash L1 E1 P1+P2 E1 h=0.44 tight=0.2; fast roll=1/8; drifting roll=1/8";
        let text = format!("{row}; water P2");
        says(&text, "U101", "L1 went slack by 0.40 m when P2 left it");
        says(
            &text,
            "U101",
            "P1 leans 26°, when it has tipped from 14.6° on",
        );
        // What it was slack by before is added.
        let slack = text.replace("tight=0.2", "slack=0.05");
        says(&slack, "U101", "L1 went slack by 0.45 m when P2 left it");
        // It counts as it was last shut round both: moved while it was open, P2 takes along what it took then.
        let opened =
            format!("{row}; open L1; stand P2 40.1,0.2; anchored roll=1/8; water P2; shut L1");
        says(&opened, "U101", "L1 went slack by 0.40 m when P2 left it");
        // Who stands nearer leaves nothing to slip through: the strap runs as before.
        says(
            &format!("{row}; water P1"),
            "U101",
            "L1 went slack when P1 left it: it ",
        );
    }

    #[test]
    fn a_little_girth_bites_before_it_tips() {
        let text = "deck 6x6; point E1 3,2.5; point E2 3.3,2.5; stand P1 3,0; stand P2 3.19,0.15
             lash L1 E1 P1+P2 E2 h=0.44 slack=0.01 stiffness=40; fast roll=1/8; drifting roll=1/8; water P2";
        says(text, "U101", "L1 went slack by");
        says(text, "U101", "and bites again when P1 leans");
    }

    #[test]
    fn minded_on_the_whip_it_is_not_unsecured() {
        let whip = "deck 6x3; fast roll=1/8; whip P1 3,0";
        fires(whip, "WARNING U101 P1");
        silent(&format!("{whip}; person Ann crew 3.5,0"), "U101");
        fires(&format!("{whip}; person Ann crew 4.5,0"), "WARNING U101 P1");
    }

    #[test]
    fn an_open_bench_row_leaves_it_unsecured() {
        let rack =
            "deck 6x3; running roll=2/8; rack R1 bench 3,1 columns=2; front R1 F1 strap tied";
        silent(&format!("{rack}; slot P1 R1/1"), "U101");
        fires(&format!("{rack} open; slot P1 R1/1"), "DANGER U101 P1");
        fires(
            "deck 6x3; running roll=2/8; rack R1 bench 3,1 columns=2; slot P1 R1/1",
            "DANGER U101 P1",
        );
    }

    #[test]
    fn leaning_on_a_bulwark_is_not_secured() {
        let text = "deck 6x3; running roll=2/8; fixture B bulwark 0..6,1.4..1.5 h=0.6 backing=5
                    stand P1 3,1.3";
        says(text, "U101", "only leans");
    }
}
