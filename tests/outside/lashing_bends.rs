//! A lashing that runs through a thing (`L410`): the legs of the program clipped against boxes by the method of Liang
//! and Barsky (1984, "A new concept and method for line clipping"), written here anew.

use snugdown::checks::{self, fixture};
use snugdown::engine::Assessor;

/// The share of a segment, from and to, that lies within a box; `None` where it misses it.
fn clipped(ends: [[f64; 3]; 2], least: [f64; 3], most: [f64; 3]) -> Option<[f64; 2]> {
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    for axis in 0..3 {
        let (from, by) = (ends[0][axis], ends[1][axis] - ends[0][axis]);
        if by.abs() < 1e-12 {
            if from < least[axis] || from > most[axis] {
                return None;
            }
            continue;
        }
        let (a, b) = ((least[axis] - from) / by, (most[axis] - from) / by);
        enters = enters.max(a.min(b));
        leaves = leaves.min(a.max(b));
    }
    (enters < leaves).then_some([enters, leaves])
}

fn grown(least: [f64; 3], most: [f64; 3], by: f64) -> ([f64; 3], [f64; 3]) {
    (least.map(|at| at - by), most.map(|at| at + by))
}

/// Boxes of all sizes beside, below and in the way of one strap. Within two hand's breadths of its ends, and where it
/// only grazes an edge by 2 cm, either answer is right.
#[test]
fn a_lashing_is_told_to_bend_where_clipping_says_that_it_runs_through() {
    let (mut through, mut past) = (0, 0);
    for number in 0..240_u32 {
        // Low-discrepancy numbers: they fill all that is to be tried evenly.
        let of = |step: f64| (f64::from(number) * step).fract();
        let (x, y) = (2.6 + 1.6 * of(0.618_034), -0.9 + 1.8 * of(0.754_878));
        let (wide, deep) = (0.15 + 0.5 * of(0.569_840), 0.15 + 0.5 * of(0.430_160));
        let high = 0.05 + 0.7 * of(0.324_718);
        let (to_y, to_h) = (-0.8 + 1.6 * of(0.245_122), 0.02 + 0.8 * of(0.183_928));
        let text = format!(
            "deck 8x5; running roll=2/8; stand P1 2,0; point E1 5,{to_y} h={to_h}
             lash L1 E1 P1 E1 h=0.44 tight=0.2
             fixture B1 locker {x}..{},{y}..{} h={high}",
            x + wide,
            y + deep
        );
        let plan = fixture::plan(&text).unwrap();
        let mut assessor = Assessor::default();
        let findings = checks::run(&mut assessor, &plan, &plan.trips[0]);
        let told = findings.iter().any(|finding| finding.code == "L410");
        let deck_m = plan.boat.decks[0].height_above_waterline_m;
        let (least, most) = ([x, y, deck_m], [x + wide, y + deep, deck_m + high]);
        let legs = &assessor.assessment().parts[0].lashings[0].legs;
        assert_eq!(legs.len(), 2, "{text}");
        let within = |by: f64| -> f64 {
            let (least, most) = grown(least, most, by);
            let lengths = legs.iter().filter_map(|leg| {
                let [enters, leaves] = clipped(*leg, least, most)?;
                let length = (0..3)
                    .map(|axis| (leg[1][axis] - leg[0][axis]).powi(2))
                    .sum::<f64>()
                    .sqrt();
                // What lies near the ends is of the knot and of the shell.
                let near = 0.16 / length;
                Some(length * (leaves.min(1.0 - near) - enters.max(near)))
            });
            lengths.fold(0.0, f64::max)
        };
        if within(-0.02) > 0.15 {
            assert!(told, "it runs through and is not told: {text}");
            through += 1;
        } else if within(0.002) <= 0.0 {
            let anywhere = legs.iter().any(|leg| {
                clipped(
                    *leg,
                    grown(least, most, 0.002).0,
                    grown(least, most, 0.002).1,
                )
                .is_some()
            });
            if !anywhere {
                assert!(!told, "it runs past and is told: {text}");
                past += 1;
            }
        }
    }
    assert!(through > 15 && past > 80, "{through} through, {past} past");
}
