//! Entry point; everything else lives in the library.

fn main() {}
