//! `snugdown limits`: the table of published limits.

use super::columns::paragraph;
use super::{Console, Failure};
use crate::catalogue::published::{Figure, Limit, limits};

pub(super) fn run(text: Option<&str>, console: &mut Console<'_>) -> Result<(), Failure> {
    let sought = text.unwrap_or_default().to_lowercase();
    let fits = |limit: &&Limit| {
        let fields = [limit.id, limit.says, limit.clause, limit.edition];
        fields
            .iter()
            .any(|field| field.to_lowercase().contains(&sought))
    };
    let found: Vec<&Limit> = limits().filter(fits).collect();
    if found.is_empty() {
        return Err(Failure::Told(format!("no limit has {sought:?} in it")));
    }
    let width = console.terminal.columns();
    for limit in found {
        writeln!(console.out, "{}", limit.id)?;
        let mut line = |label: &str, text: &str| {
            let text = paragraph(&format!("  {label}"), 2 + label.len(), 11, text, width);
            console.out.write_all(text.as_bytes())
        };
        line("says", limit.says)?;
        for figure in limit.figures {
            line("figure", &figure_words(figure))?;
        }
        line("source", &limit.citation())?;
        if !limit.address.is_empty() {
            line("read at", limit.address)?;
        }
    }
    Ok(())
}

/// `aisle width: 0.61 m`.
fn figure_words(figure: &Figure) -> String {
    let Figure { what, value, unit } = figure;
    format!("{what}: {value} {unit}").trim_end().to_owned()
}
