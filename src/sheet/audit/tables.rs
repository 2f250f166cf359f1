//! Tables of the report.

use super::LIST_PT;
use crate::sheet::flow::Flow;
use crate::sheet::{Column, Table, TableStyle};

/// The least height of a row, in millimetres.
const LINE_MM: f64 = 4.6;

/// Room for a signature, in millimetres.
const SIGNED_MM: f64 = 9.0;

/// Between a text and the lines round it, in millimetres.
const PAD_MM: f64 = 0.8;

/// Draws a table whose columns take these shares of the page; nothing where there are no rows.
pub(super) fn table<H: AsRef<str>>(flow: &mut Flow, columns: &[(H, f64)], rows: Vec<Vec<String>>) {
    draw(flow, columns, rows, LINE_MM);
}

/// The same with room for a hand that signs.
pub(super) fn to_sign<H: AsRef<str>>(
    flow: &mut Flow,
    columns: &[(H, f64)],
    rows: Vec<Vec<String>>,
) {
    flow.room((rows.len() as f64 + 1.0) * SIGNED_MM);
    draw(flow, columns, rows, SIGNED_MM);
}

fn draw<H: AsRef<str>>(flow: &mut Flow, columns: &[(H, f64)], rows: Vec<Vec<String>>, row_mm: f64) {
    if rows.is_empty() {
        return;
    }
    let all: f64 = columns.iter().map(|(_, share)| share).sum();
    let width = flow.width();
    let table = Table {
        columns: columns
            .iter()
            .map(|(heading, share)| Column {
                heading: heading.as_ref().to_owned(),
                width_mm: share / all * width,
            })
            .collect(),
        rows,
        style: TableStyle {
            size_pt: LIST_PT,
            row_mm,
            pad_mm: PAD_MM,
            ruled: true,
        },
    };
    flow.table(&table);
    flow.gap(1.5);
}
