//! A part of the day resolved to bodies, what holds them, and every computed number.
