//! What hands must know of a cylinder that lies: where its valve points, and what keeps it from rolling.

use crate::checks::words;
use crate::layout::{Chocks, Placing, Plan, RackKind};

/// Where the valve of what lies points, in words: `valve ahead`; nothing of what stands.
pub(super) fn valve(plan: &Plan, placing: &Placing) -> Option<String> {
    let towards_deg = match placing {
        Placing::Lying {
            valve_towards_deg, ..
        }
        | Placing::InCrate {
            valve_towards_deg, ..
        } => *valve_towards_deg,
        // In cradles all lie the same way, across the row.
        Placing::InSlot { rack, .. } => {
            let rack = plan.boat.rack(rack)?;
            let lies = matches!(
                rack.kind,
                RackKind::Cradles | RackKind::Crate | RackKind::Net
            );
            lies.then_some(rack.turn_deg + 90.0)?
        }
        _ => return None,
    };
    Some(format!("valve {}", words::towards(towards_deg)))
}

/// What lies beside it: `fixed chocks 60 mm high`.
pub(super) fn chocks(chocks: &Chocks) -> String {
    let fixed = |fixed: bool| if fixed { "fixed" } else { "loose" };
    let mm = |m: f64| 1000.0 * m;
    match chocks {
        Chocks::Blocks {
            height_m,
            fixed: is_fixed,
            ..
        } => format!("{} chocks {:.0} mm high", fixed(*is_fixed), mm(*height_m)),
        Chocks::Wedges {
            height_m,
            slope_deg,
            fixed: is_fixed,
        } => format!(
            "{} wedges {:.0} mm high, {slope_deg:.0}° steep",
            fixed(*is_fixed),
            mm(*height_m)
        ),
        Chocks::Saddle { .. } => "a saddle".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture;

    /// Degrees count from the bow towards port.
    #[test]
    fn valves_and_chocks_are_told_in_words() {
        let plan =
            fixture::plan("deck 9x4; running; lie L1 6,0.5 towards=90; stand P1 2,0").unwrap();
        let placing = |id: &str| &plan.trips[0].cylinder(id).unwrap().placing;
        assert_eq!(valve(&plan, placing("L1")).unwrap(), "valve to port");
        assert_eq!(valve(&plan, placing("P1")), None);
        let blocks = Chocks::Blocks {
            height_m: 0.06,
            gap_m: 0.0,
            fixed: true,
        };
        assert_eq!(chocks(&blocks), "fixed chocks 60 mm high");
        let wedges = Chocks::Wedges {
            height_m: 0.05,
            slope_deg: 35.0,
            fixed: false,
        };
        assert_eq!(chocks(&wedges), "loose wedges 50 mm high, 35° steep");
    }
}
