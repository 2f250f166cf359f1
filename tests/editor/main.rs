//! The window, driven as a person drives it: by clicks, drags and keys, found by the names that a screen
//! reader reads out. No display and no graphics card are needed.
#![expect(
    clippy::unwrap_used,
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_sign_loss,
    clippy::iter_over_hash_type,
    clippy::float_cmp,
    reason = "helpers of a test may panic, pictures are small, egui hands textures out in a hash map, and places are whole centimetres"
)]

mod arranging;
mod audit;
mod briefing;
mod cpu_renderer;
mod day;
mod desk;
mod files;
mod keeping;
mod looks;
mod motion;
mod moving;
mod pictures;
mod placing;
mod put_right;
mod replay;
mod steps;
mod support;
mod survey;
mod survey_pictures;
