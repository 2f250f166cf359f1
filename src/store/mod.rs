//! Deck plans on disk: strict reading with located mistakes, atomic writing.

mod document;
mod fault;
mod field_path;
mod json;
mod print;
mod shape;
mod write;

pub use fault::{Fault, Faults, ReadError};
pub use write::{WriteError, write_atomic};
