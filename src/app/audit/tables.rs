//! What stands in the tables, and how they are drawn.

use egui::{Align, Color32, Frame, Label, Layout, RichText, Ui, vec2};

use super::super::words::audit as words;
use crate::audit::{Audit, Comparison, Difference, Held, Outcome};

/// Headings with the share of the width that each column takes.
pub(super) type Headings = Vec<(String, f32)>;

/// Rows of cells.
pub(super) type Rows = Vec<Vec<String>>;

/// Between two columns, in points.
const GUTTER: f32 = 12.0;

/// Draws a table over the whole width; nothing without rows.
pub(super) fn table_ui(ui: &mut Ui, headings: &Headings, rows: &Rows) {
    if rows.is_empty() {
        return;
    }
    let all: f32 = headings.iter().map(|(_, share)| share).sum();
    let room = ui.available_width() - GUTTER * (headings.len() + 1) as f32;
    let widths: Vec<f32> = headings
        .iter()
        .map(|(_, share)| (share / all * room).max(40.0))
        .collect();
    ui.spacing_mut().item_spacing.y = 2.0;
    let names = headings
        .iter()
        .map(|(name, _)| RichText::new(name).strong());
    row_ui(ui, &widths, names, false);
    for (index, row) in rows.iter().enumerate() {
        row_ui(ui, &widths, row.iter().map(RichText::new), index % 2 == 0);
    }
    ui.add_space(8.0);
}

/// One row, as high as its highest cell.
fn row_ui(ui: &mut Ui, widths: &[f32], cells: impl Iterator<Item = RichText>, is_shaded: bool) {
    let fill = if is_shaded {
        ui.visuals().faint_bg_color
    } else {
        Color32::TRANSPARENT
    };
    Frame::new().fill(fill).inner_margin(4.0).show(ui, |ui| {
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = GUTTER;
            for (width, text) in widths.iter().zip(cells) {
                let layout = Layout::top_down(Align::Min);
                ui.allocate_ui_with_layout(vec2(*width, 0.0), layout, |ui| {
                    ui.set_width(*width);
                    ui.add(Label::new(text).wrap());
                });
            }
        });
    });
}

fn headings(of: &[(&str, f32)]) -> Headings {
    of.iter()
        .map(|(text, share)| ((*text).to_owned(), *share))
        .collect()
}

/// Every cylinder in question, as planned and by each account.
pub(super) fn needed(audit: &Audit) -> (Headings, Rows) {
    let mut columns = headings(&[(words::CYLINDER, 1.0), (words::PLANNED, 2.0)]);
    let mut names: Vec<&String> = Vec::new();
    for account in &audit.accounts {
        columns.push((words::by_account(&account.id), 2.0));
        for row in &account.reverse {
            if !names.contains(&&row.cylinder) {
                names.push(&row.cylinder);
            }
        }
    }
    // With a spot only those are asked about who could have come there.
    let none = if audit.record.marked_spot.is_some() {
        words::OUT_OF_REACH
    } else {
        words::NOT_ABOARD
    };
    let rows = names.into_iter().map(|name| {
        let of = |index: usize| {
            let account = audit.accounts.get(index)?;
            account.reverse.iter().find(|row| row.cylinder == *name)
        };
        let mut places = 0..audit.accounts.len();
        let planned = places.find_map(of);
        let planned = planned.map_or_else(String::new, |row| row.as_planned.words.clone());
        let mut cells = vec![name.clone(), planned];
        cells.extend((0..audit.accounts.len()).map(|index| {
            of(index).map_or_else(|| none.to_owned(), |row| row.as_found.words.clone())
        }));
        cells
    });
    (columns, rows.collect())
}

/// What was plausible beside one account, and what one thing otherwise does.
pub(super) fn remedies(audit: &Audit, account: usize) -> (Headings, Rows) {
    let mut columns = headings(&[(words::CYLINDER, 1.0)]);
    for range in &audit.plausible {
        let [low, high] = range.roll_deg;
        columns.push((format!("{}: {low:.0}° to {high:.0}°", range.id), 1.4));
    }
    columns.push((words::ONE_THING.to_owned(), 4.0));
    let rows = audit
        .accounts
        .get(account)
        .map_or(&[][..], |account| account.reverse.as_slice());
    let rows = rows.iter().map(|row| {
        let mut cells = vec![row.cylinder.clone()];
        cells.extend(row.beside.iter().map(|it| it.as_found.words().to_owned()));
        let with = row.remedy_lines();
        cells.push(if with.is_empty() {
            words::NOTHING_CHANGES_IT.to_owned()
        } else {
            with.join("\n")
        });
        cells
    });
    (columns, rows.collect())
}

/// Planned against found.
pub(super) fn differences(comparison: &Comparison) -> (Headings, Rows) {
    let columns = headings(&[
        (words::KIND, 1.0),
        (words::WHAT, 3.0),
        (words::ALONE, 2.6),
        (words::UNDONE, 2.6),
    ]);
    let mut last: Option<&Difference> = None;
    let mut rows = Vec::new();
    for difference in &comparison.differences {
        let same =
            last.is_some_and(|old| old.about == difference.about && old.thing == difference.thing);
        last = Some(difference);
        let told = |list: Vec<String>| {
            if same {
                words::WITH_ABOVE.to_owned()
            } else if list.is_empty() {
                words::NO_LIMIT.to_owned()
            } else {
                list.join("\n")
            }
        };
        let alone = difference
            .limits
            .iter()
            .map(|it| format!("{}: {} → {}", it.cylinder, it.planned, it.with_it));
        let undone = difference
            .undone
            .iter()
            .map(|it| format!("{}: {} → {}", it.cylinder, it.found, it.without_it));
        rows.push(vec![
            difference.kind.words().to_owned(),
            difference.sentence.clone(),
            told(alone.collect()),
            told(undone.collect()),
        ]);
    }
    (columns, rows)
}

/// What would have held.
pub(super) fn held(held: &Held) -> (Headings, Rows) {
    let columns = headings(&[
        (words::STOWAGE, 3.0),
        (words::VERDICT, 0.8),
        (words::FIRST, 2.6),
    ]);
    let row = |what: String, outcome: &Outcome| {
        let verdict = words::verdict(outcome.holds).to_owned();
        vec![what, verdict, outcome.first_words()]
    };
    let mut rows = vec![
        row(words::FOUND.to_owned(), &held.as_found),
        row(words::AS_ISSUED.to_owned(), &held.as_planned),
    ];
    let singles = held.singles.iter();
    rows.extend(singles.map(|it| row(it.labels.join("; "), &it.outcome)));
    if let Some(set) = &held.smallest {
        rows.push(row(words::smallest(&set.labels.join("; ")), &set.outcome));
    }
    (columns, rows)
}

/// What each account says.
pub(super) fn side_by_side(audit: &Audit) -> (Headings, Rows) {
    let mut columns = headings(&[(words::TO_THE_PLAN, 5.0)]);
    columns.extend(
        audit
            .accounts
            .iter()
            .map(|account| (words::by_account(&account.id), 1.0)),
    );
    let rows = audit.side_by_side(words::SAYS_SO, words::SAYS_NOTHING);
    (columns, rows)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::audit::Case;

    /// The demonstration incident.
    fn audit() -> Audit {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/layouts/incident/record.json");
        let opened = crate::store::open_record(std::path::Path::new(path)).unwrap();
        Audit::of(&Case::of(opened).unwrap()).unwrap()
    }

    /// Each account in its own column, with its own numbers.
    #[test]
    fn accounts_stand_beside_each_other() {
        let audit = audit();
        let (columns, rows) = needed(&audit);
        let names: Vec<&str> = columns.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!(names, ["cylinder", "as planned", "account A", "account B"]);
        let p4 = rows.iter().find(|row| row[0] == "P4").unwrap();
        let by = |account: usize| {
            let rows = &audit.accounts[account].reverse;
            rows.iter().find(|row| row.cylinder == "P4").unwrap()
        };
        assert_eq!(p4[1], by(0).as_planned.words);
        assert_eq!(
            [&p4[2], &p4[3]],
            [&by(0).as_found.words, &by(1).as_found.words]
        );
        assert_ne!(p4[2], p4[3], "the accounts differ there");
    }

    /// Who says what, and who does not.
    #[test]
    fn what_only_one_account_says_stands_in_its_column() {
        let (_, rows) = side_by_side(&audit());
        let row = |part: &str| {
            let found = rows.iter().find(|row| row[0].contains(part)).unwrap();
            [found[1].as_str(), found[2].as_str()]
        };
        assert_eq!(row("kit bag"), [words::SAYS_NOTHING, words::SAYS_SO]);
        assert_eq!(
            row("P4 was to be in slot P4"),
            [words::SAYS_SO, words::SAYS_NOTHING]
        );
        assert_eq!(
            row("strap P4-P6 of rack-P was to be shut"),
            [words::SAYS_SO; 2]
        );
    }
}
