//! Checks against published values and general-purpose libraries; the source stands beside each.

#![expect(
    clippy::unwrap_used,
    reason = "helpers of a test may panic; the lint's exemption covers test functions only"
)]

mod annex13;
mod assembled;
mod audit_pdf;
mod box_hull;
mod gas;
mod geometry_clear_width;
mod geometry_lies;
mod geometry_scene;
mod hostile_logs;
mod lashing_annex13;
mod lashing_bends;
mod rigid_body;
mod rocking;
mod seaway;
mod sheet_pdf;
mod shell;
mod statics;
mod survey;
