//! Masses, heel and trim of a part of the day.

pub(crate) const NOTHING: &str = "There is no part of the day to weigh.";
pub(crate) const ALL_TOGETHER: &str = "all together";
pub(crate) const MASSES: [&str; 6] = [
    "",
    "how many",
    "mass",
    "centre forward of the stern",
    "from the middle",
    "above the water",
];
pub(crate) const EACH: &str = "Each of them";
pub(crate) const DECKS: &str = "What the decks carry";
pub(crate) const PASSENGERS: &str = "Everybody to one side (46 CFR 178.330, for information)";
pub(crate) const NO_DISPLACEMENT: &str =
    "Heel: not known, as nobody said how much she weighs with all aboard.";
pub(crate) const NO_TRIM: &str = "Trim: not known, as no moment to trim by 1 cm is given.";
pub(crate) const STEADY: &str = "A steady wind or turn";
pub(crate) const WIND: &str = "Wind on the beam";
pub(crate) const AREA: &str = "Area above the water";
pub(crate) const WIND_LEVER: &str = "Its middle above half the draught";
pub(crate) const SPEED: &str = "Speed in the turn";
pub(crate) const TURN_RADIUS: &str = "Radius of the turn";
pub(crate) const TURN_LEVER: &str = "Her centre of gravity above half the draught";
pub(crate) const SMALL_ANGLES: &str = "For small angles. The wind presses with 504 Pa at 26 m/s (2008 IS Code, part A, 2.3; \
                                       the speed is from memory). What is typed here is not kept in the plan: put a \
                                       steady heel into the part's motion.";

pub(crate) fn group(name: &str) -> String {
    let mut letters = name.chars();
    let first = letters.next().map(char::to_uppercase);
    first.into_iter().flatten().chain(letters).collect()
}

pub(crate) fn aside(y: f64, shown: &str) -> String {
    if y > 0.005 {
        format!("{shown} to port")
    } else if y < -0.005 {
        format!("{shown} to starboard")
    } else {
        "amidships".to_owned()
    }
}

pub(crate) fn gm(gm_m: Option<f64>, from: &str) -> String {
    gm_m.map_or_else(|| from.to_owned(), |gm| format!("{from}, {gm:.2} m"))
}

fn side(deg: f64) -> &'static str {
    if deg > 0.0 { "starboard" } else { "port" }
}

pub(crate) fn heel(deg: f64, from: &str) -> String {
    format!(
        "Heel it causes: {:.1}° to {} ({from})",
        deg.abs(),
        side(deg)
    )
}

pub(crate) fn at_rail(port: f64, starboard: f64, from: &str) -> String {
    format!(
        "With everybody at the rail: {:.1}° to {}, or {:.1}° to {} ({from})",
        port.abs(),
        side(port),
        starboard.abs(),
        side(starboard)
    )
}

pub(crate) fn no_heel(from: &str) -> String {
    format!("Heel: not known, {from}")
}

pub(crate) fn trim(deg: f64) -> String {
    let end = if deg > 0.0 { "bow" } else { "stern" };
    format!("Trim it causes: {:.2}° by the {end}", deg.abs())
}

pub(crate) fn passenger_moment(kg_m: f64) -> String {
    format!("Mp {kg_m:.0} kg·m")
}

pub(crate) fn deck(name: &str, share: f64, load: &str, limit: Option<&str>) -> String {
    let limit = limit.map_or_else(
        || "nobody said what it may carry".to_owned(),
        |limit| format!("it may carry {limit}"),
    );
    format!(
        "Deck {name}: {:.0} % of the floor taken, at most {load} below one rack or group; {limit}",
        100.0 * share.abs()
    )
}

pub(crate) fn wind(deg: f64, from: &str) -> String {
    format!("Steady heel from this wind: {deg:.1}° ({from})")
}

pub(crate) fn no_wind(has_gm: bool, from: &str) -> String {
    if has_gm {
        NO_DISPLACEMENT.to_owned()
    } else {
        no_heel(from)
    }
}

pub(crate) fn turn(deg: f64, from: &str) -> String {
    format!("Steady heel outwards in this turn: {deg:.1}° ({from})")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sides_are_the_crews() {
        assert!(heel(2.0, "GM").contains("2.0° to starboard (GM)"));
        assert_eq!(aside(0.4, "0.40 m"), "0.40 m to port");
        assert_eq!(aside(-0.001, "0.00 m"), "amidships");
        assert_eq!(trim(-0.5), "Trim it causes: 0.50° by the stern");
    }
}
