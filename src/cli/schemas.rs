//! The JSON Schemas that the program prints and that lie in `docs/`.

use clap::ValueEnum as _;
use schemars::JsonSchema;

use super::args::SchemaOf;
use super::{check, day, motion, replay, stowage, uncertainty};
use crate::audit::fleet::FleetRow;
use crate::audit::{Audit, Comparison, ReachRow};
use crate::brief::Brief;
use crate::store;

/// Every schema by its name, which `snugdown schema` takes; `docs/NAME.schema.json` holds it.
pub fn schemas() -> Vec<(String, String)> {
    let all = SchemaOf::value_variants().iter();
    let named = all.filter_map(|of| {
        let name = of.to_possible_value()?.get_name().to_owned();
        Some((name, of.text()))
    });
    named.collect()
}

impl SchemaOf {
    /// The schema as text.
    pub(super) fn text(self) -> String {
        match self {
            Self::Layout => store::schema(),
            Self::Check => text_of::<check::report::Report>(),
            Self::AuditRecord => store::record_schema_text(),
            Self::Audit => text_of::<Audit>(),
            Self::Day => text_of::<day::DayReport>(),
            Self::MakeReady => text_of::<day::ReadyReport>(),
            Self::Motion => text_of::<motion::MotionReport>(),
            Self::Card => text_of::<motion::CardReport>(),
            Self::Balance => text_of::<motion::BalanceReport>(),
            Self::Compare => text_of::<Comparison>(),
            Self::Reach => text_of::<Vec<ReachRow>>(),
            Self::Replay => text_of::<stowage::Told<replay::Replayed>>(),
            Self::Uncertainty => text_of::<stowage::Told<uncertainty::Sure>>(),
            Self::Fleet => text_of::<Vec<FleetRow>>(),
            Self::Brief => text_of::<Brief>(),
        }
    }
}

/// The schema of a type, as text that ends its last line.
fn text_of<T: JsonSchema>() -> String {
    let schema = schemars::schema_for!(T);
    let mut text = serde_json::to_string_pretty(&schema).unwrap_or_default();
    text.push('\n');
    text
}
