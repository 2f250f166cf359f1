//! Cylinder kinds, materials, surfaces and published limits, each value with its provenance.
