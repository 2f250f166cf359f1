//! The words of the curves of a cylinder.

use crate::app::curve::Along;

pub(crate) const TITLE: &str = "Curves";
pub(crate) const TRYING: &str = "Working it out…";
pub(crate) const THIS_PART: &str = "this part of the day";
pub(crate) const GOES_BELOW: &str = "goes below this";

/// What a curve is called.
pub(crate) fn title(along: Along) -> &'static str {
    match along {
        Along::Period => "Limit and roll period",
        Along::Heel => "Margin and heel",
        Along::Roll => "Margin and roll",
    }
}

/// What stands below it.
pub(crate) fn across(along: Along) -> &'static str {
    match along {
        Along::Period => "s from roll to roll",
        Along::Heel => "° of steady heel, to starboard +",
        Along::Roll => "° of roll to each side",
    }
}

/// What stands beside it.
pub(crate) fn up(along: Along) -> &'static str {
    match along {
        Along::Period => "goes at, °",
        Along::Heel | Along::Roll => "to spare, %",
    }
}

/// What the line is.
pub(crate) fn line(along: Along) -> &'static str {
    match along {
        Along::Period => "goes at",
        Along::Heel | Along::Roll => "to spare",
    }
}

/// What is told of a place in it.
pub(crate) fn point(along: Along, x: f64, y: f64) -> String {
    match along {
        Along::Period => format!("every {x:.1} s: {y:.1}° of roll"),
        Along::Heel => format!("{}: {y:.0} % to spare", heeled(x)),
        Along::Roll => format!("{x:.1}° of roll: {y:.0} % to spare"),
    }
}

fn heeled(deg: f64) -> String {
    if deg > 0.05 {
        format!("{deg:.1}° to starboard")
    } else if deg < -0.05 {
        format!("{:.1}° to port", -deg)
    } else {
        "upright".to_owned()
    }
}

/// How to read it.
pub(crate) fn here(along: Along) -> &'static str {
    match along {
        Along::Period => "The dot is this part of the day: below the line it holds, above it goes.",
        Along::Heel | Along::Roll => "The dot is this part of the day; below nothing, it goes.",
    }
}

/// Where there is no curve.
pub(crate) fn none(along: Along) -> &'static str {
    match along {
        Along::Period => "It goes at none of these periods as far as is searched.",
        Along::Heel | Along::Roll => "Nothing holds it, so nothing is to spare.",
    }
}

/// The curve in words: at its ends.
pub(crate) fn curve(along: Along, points: &[[f64; 2]]) -> String {
    match points {
        [] => none(along).to_owned(),
        [[x, y]] => point(along, *x, *y),
        [[x, y], .., [last_x, last_y]] => format!(
            "{}; {}",
            point(along, *x, *y),
            point(along, *last_x, *last_y)
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_told_with_its_units() {
        assert_eq!(
            point(Along::Period, 2.5, 11.04),
            "every 2.5 s: 11.0° of roll"
        );
        assert_eq!(
            point(Along::Heel, -5.0, 31.4),
            "5.0° to port: 31 % to spare"
        );
        assert_eq!(point(Along::Heel, 0.0, 60.0), "upright: 60 % to spare");
        assert_eq!(
            point(Along::Roll, 12.0, -8.0),
            "12.0° of roll: -8 % to spare"
        );
        let points = [[1.5, 4.0], [2.0, 6.0], [10.0, 14.0]];
        let told = curve(Along::Period, &points);
        assert_eq!(
            told,
            "every 1.5 s: 4.0° of roll; every 10.0 s: 14.0° of roll"
        );
    }
}
