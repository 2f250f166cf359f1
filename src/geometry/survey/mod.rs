//! From tape readings and photos to points on a plan, with the error to expect.
//!
//! A deck is measured with a tape by people who stand on it: stations along the centreline with
//! half-widths, corners by two tapes from known corners, diagonals as a check. Here these become
//! points; what the readings say of each other is told as residuals; and every point carries how far it
//! may be off. Knows no boats and no files.
//!
//! Errors are *standard errors* (one standard deviation of a normal distribution), independent from
//! reading to reading. Whoever speaks of "± 5 mm" to a crew means two of them.

mod linear;

mod covariance;
pub use self::covariance::{Covariance, ErrorEllipse};

mod curve;
pub use self::curve::{arc, arc_through, fair_curve};

mod stations;
pub use self::stations::{Bow, Station, StationError, StationOutline, station_outline};

mod tapes;
pub use self::tapes::{
    Conditioning, Judgement, Located, Misclosure, TapeError, TapeFix, TapeSide, fix_by_two_tapes,
    misclosure,
};

mod network;
pub use self::network::{
    Adjusted, Adjustment, Network, NetworkError, Reading, ReadingKind, SUSPECT_FROM,
};

mod warp;
pub use self::warp::Raster;

mod straighten;
pub use self::straighten::{Fit, Pair, PlanFromImage, StraightenError};
