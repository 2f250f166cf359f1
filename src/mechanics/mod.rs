//! One mechanical model per file, each with its source: plain numbers in, numbers out.
