//! Shapes, distances and clear widths on plain numbers; knows no boats.
