//! Numbers with a unit in what findings say, to be put in by `format!`: they stay numbers, so that the
//! sentence can be read in metric or in US units (see [`crate::units::Said`]).

pub(super) use crate::units::Figure;

/// A length, in metres.
pub(super) fn metres(m: f64) -> Figure {
    Figure::Length(m)
}

/// A mass, in kilograms.
pub(super) fn kilograms(kg: f64) -> Figure {
    Figure::Mass(kg)
}

/// A force that pulls, in newtons.
pub(super) fn pull(newtons: f64) -> Figure {
    Figure::Pull(newtons)
}

/// A force that presses or weighs, in newtons.
pub(super) fn weight(newtons: f64) -> Figure {
    Figure::Weight(newtons)
}

/// A shift over the deck: `0.12 m to port`; both parts where both matter. Rounded up, so that doing it is
/// enough.
pub(super) fn shift([x, y]: [f64; 2]) -> String {
    /// Less than this along one axis is not worth saying, in metres.
    const LEAST_M: f64 = 0.005;
    let along = Figure::LengthUp(x);
    let across = Figure::LengthUp(y);
    let fore = if x > 0.0 { "ahead" } else { "astern" };
    let side = if y > 0.0 { "to port" } else { "to starboard" };
    match (x.abs() >= LEAST_M, y.abs() >= LEAST_M) {
        (true, true) => format!("{along} {fore} and {across} {side}"),
        (true, false) => format!("{along} {fore}"),
        _ => format!("{across} {side}"),
    }
}
