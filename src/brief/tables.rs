//! The lists as tables of text: for the screen, and as CSV for a spreadsheet.

use super::{Brief, BrokenRule, LoadingStep};
use crate::checks::words;

/// A list with its headings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// What stands above each column.
    pub headings: Vec<&'static str>,

    /// The rows.
    pub rows: Vec<Vec<String>>,
}

/// Why a table is not written.
#[derive(Debug, thiserror::Error)]
pub enum TableError {
    /// The writer of CSV refused.
    #[error("the table cannot be written as CSV: {0}")]
    Csv(#[from] csv::Error),

    /// What was written is not text.
    #[error("the table cannot be written as CSV: {0}")]
    Text(#[from] std::string::FromUtf8Error),

    /// The writer of CSV could not finish.
    #[error("the table cannot be written as CSV: {0}")]
    Finish(String),
}

/// Hooked, pushed, by whom, at what time, and why it was skipped if it was.
fn ticked(brief: &Brief, cylinder: &str) -> [String; 5] {
    let Some(tick) = brief.tick(cylinder) else {
        return Default::default();
    };
    let done = if tick.skipped.is_some() {
        "skipped"
    } else {
        "yes"
    };
    [
        done.to_owned(),
        done.to_owned(),
        tick.by.clone(),
        tick.when.clone(),
        tick.skipped.clone().unwrap_or_default(),
    ]
}

impl Table {
    /// What comes aboard, with columns for whoever ticks it off: blank, or with what is ticked off already.
    pub fn load_list(brief: &Brief) -> Self {
        Self {
            headings: vec![
                "cylinder",
                "number",
                "kind",
                "gas",
                "pressure",
                "diver",
                "analysed",
                "where",
                "how",
                "kit",
                "secured by",
                "mass kg",
                "hooked",
                "pushed",
                "by",
                "at",
                "skipped because",
            ],
            rows: brief
                .load_list
                .iter()
                .map(|row| {
                    let mass = row
                        .mass_kg
                        .map_or_else(String::new, |kg| format!("{kg:.1}"));
                    let mut cells = vec![
                        row.cylinder.clone(),
                        row.number.clone(),
                        row.kind.clone(),
                        row.gas.clone(),
                        row.pressure.clone(),
                        row.diver.clone(),
                        row.analysed.clone(),
                        row.where_to.clone(),
                        if row.valve.is_empty() {
                            row.posture.clone()
                        } else {
                            format!("{}, {}", row.posture, row.valve)
                        },
                        row.kit.clone(),
                        row.secured_by.clone(),
                        mass,
                    ];
                    cells.extend(ticked(brief, &row.cylinder));
                    cells
                })
                .collect(),
        }
    }

    /// What is made fast: lashings first, then what closes the fronts of racks.
    pub fn lashing_list(brief: &Brief) -> Self {
        let lashings = brief.lashing_list.iter().map(|row| {
            vec![
                row.lashing.clone(),
                row.material.clone(),
                row.from.clone(),
                row.round_words.clone(),
                row.to.clone(),
                format!("{:.2}", row.height_m),
                row.how_tight.clone(),
                row.push_test.clone(),
                row.pull.clone(),
                row.opened.clone(),
            ]
        });
        let fronts = brief.front_list.iter().map(|row| {
            let state = if row.shut { "shut" } else { "open" };
            vec![
                row.front.clone(),
                String::new(),
                row.rack.clone(),
                row.slots_words.clone(),
                String::new(),
                format!("{:.2}", row.height_m),
                state.to_owned(),
                row.push_test.clone(),
                row.pull.clone(),
                row.opened.clone(),
            ]
        });
        Self {
            headings: vec![
                "lashing",
                "of",
                "from",
                "round",
                "to",
                "height m",
                "how tight",
                "push test",
                "greatest pull",
                "opened",
            ],
            rows: lashings.chain(fronts).collect(),
        }
    }

    /// The order in which to load.
    pub fn loading_order(brief: &Brief) -> Self {
        Self {
            headings: vec![
                "step",
                "cylinder",
                "what to do",
                "mass kg",
                "heel then",
                "against the rules",
            ],
            rows: brief
                .loading
                .steps
                .iter()
                .enumerate()
                .map(|(index, step)| {
                    vec![
                        (index + 1).to_string(),
                        step.cylinder.clone(),
                        step.sentence.clone(),
                        format!("{:.1}", step.mass_kg),
                        step.heel_deg.map_or_else(|| "not known".to_owned(), heel),
                        broken(step),
                    ]
                })
                .collect(),
        }
    }

    /// As CSV (RFC 4180). A text that a spreadsheet would take for a formula gets a blank before it.
    pub fn to_csv(&self) -> Result<String, TableError> {
        let mut writer = csv::WriterBuilder::new()
            .terminator(csv::Terminator::CRLF)
            .from_writer(Vec::new());
        writer.write_record(&self.headings)?;
        for row in &self.rows {
            writer.write_record(row.iter().map(|cell| harmless(cell)))?;
        }
        let bytes = writer
            .into_inner()
            .map_err(|error| TableError::Finish(error.to_string()))?;
        Ok(String::from_utf8(bytes)?)
    }
}

fn harmless(cell: &str) -> String {
    if cell.starts_with(['=', '+', '-', '@']) {
        format!(" {cell}")
    } else {
        cell.to_owned()
    }
}

/// What a step breaks, sentence after sentence.
fn broken(step: &LoadingStep) -> String {
    let rules: Vec<String> = step.broken.iter().map(BrokenRule::sentence).collect();
    rules.join(" ")
}

/// `0.4° to starboard`.
pub fn heel(deg: f64) -> String {
    if deg.abs() < 0.05 {
        "upright".to_owned()
    } else if deg > 0.0 {
        format!("{} to starboard", words::degrees(deg))
    } else {
        format!("{} to port", words::degrees(-deg))
    }
}
