//! Quantities at the edges: metric and US, parsing and printing.
