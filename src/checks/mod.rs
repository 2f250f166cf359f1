//! Rules from numbers to what must be put right: one rule, one file.
