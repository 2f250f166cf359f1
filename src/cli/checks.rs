//! `snugdown checks` and `snugdown explain`.

use super::columns::{Align, table};
use super::{Console, Failure};
use crate::checks::{self, Check};
use crate::layout::nearest::nearest;

pub(super) fn list(console: &mut Console<'_>) -> Result<(), Failure> {
    let row = |check: &&Check| {
        let Check {
            code,
            name,
            summary,
            signal,
            ..
        } = check;
        vec![
            (*code).to_owned(),
            signal.to_string(),
            (*name).to_owned(),
            (*summary).to_owned(),
        ]
    };
    let rows: Vec<_> = checks::ALL.iter().map(row).collect();
    let headings = ["code", "up to", "name", "what is wrong"].map(|heading| (heading, Align::Left));
    console.out.write_all(table(&headings, &rows).as_bytes())?;
    Ok(())
}

pub(super) fn explain(code: &str, console: &mut Console<'_>) -> Result<(), Failure> {
    let is_it = |check: &&&Check| {
        check.code.eq_ignore_ascii_case(code) || check.name.eq_ignore_ascii_case(code)
    };
    let Some(check) = checks::ALL.iter().find(is_it) else {
        let names = checks::ALL
            .iter()
            .flat_map(|check| [check.code, check.name]);
        let meant = nearest(code, names);
        let meant = meant.map_or_else(String::new, |meant| format!("did you mean {meant}? "));
        return Err(Failure::Told(format!(
            "there is no check {code:?}; {meant}`snugdown checks` lists them all"
        )));
    };
    writeln!(
        console.out,
        "{} {}: {}\nSignal word up to {}.\n",
        check.code, check.name, check.summary, check.signal
    )?;
    for line in check.docs.lines() {
        let line = line.strip_prefix(' ').unwrap_or(line).trim_end();
        writeln!(console.out, "{line}")?;
    }
    Ok(())
}
