//! One mechanical model per file, each with its source: plain numbers in, numbers out.

pub mod assembly;
pub mod gas;
pub mod shell;
