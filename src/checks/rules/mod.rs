//! One file per check.
