//! Text in columns: wrapped paragraphs and tables, with nothing in it that commands a terminal.

/// Text for people with every character that would do something to a terminal replaced: what only parts words by a
/// blank, anything else, as what begins a command to it or turns the direction of writing, by the sign for "no
/// such letter". Line breaks stay.
pub(super) fn harmless(text: &str) -> String {
    let shown = |c: char| match c {
        '\n' => c,
        '\u{2028}' | '\u{2029}' => ' ',
        '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => char::REPLACEMENT_CHARACTER,
        c if c.is_control() && c.is_whitespace() => ' ',
        c if c.is_control() => char::REPLACEMENT_CHARACTER,
        c => c,
    };
    text.chars().map(shown).collect()
}

/// The same in one line: as a name or a cell stands in a line of others.
pub(super) fn one_line(text: &str) -> String {
    harmless(text).replace('\n', " ")
}

/// Breaks text into lines of at most `width` characters, at spaces; a longer word stands alone.
pub(super) fn wrap(text: &str, width: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    let mut used = 0;
    for word in harmless(text).split_whitespace() {
        let length = word.chars().count();
        if used > 0 && used + 1 + length > width {
            lines.push(String::new());
            used = 0;
        }
        let Some(line) = lines.last_mut() else { break };
        if used > 0 {
            line.push(' ');
            used += 1;
        }
        line.push_str(word);
        used += length;
    }
    lines
}

/// Wraps a paragraph behind a label: the label stands on the first line, all lines are indented by
/// `indent`. `label` may carry colour; its visible part must not be longer than `indent`.
pub(super) fn paragraph(
    label: &str,
    visible: usize,
    indent: usize,
    text: &str,
    width: usize,
) -> String {
    let mut paragraph = String::new();
    for (index, line) in wrap(text, width.saturating_sub(indent).max(20))
        .iter()
        .enumerate()
    {
        if index == 0 {
            paragraph.push_str(label);
            paragraph.push_str(&" ".repeat(indent.saturating_sub(visible)));
        } else {
            paragraph.push_str(&" ".repeat(indent));
        }
        paragraph.push_str(line);
        paragraph.push('\n');
    }
    paragraph
}

/// Which way a column is pushed.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(super) enum Align {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// A table with a heading over each column, two spaces between columns, none at the ends of lines.
pub(super) fn table(headings: &[(&str, Align)], rows: &[Vec<String>]) -> String {
    table_within(headings, rows, usize::MAX)
}

/// Columns of words are not made narrower than this, nor than their longest word.
const NARROW: usize = 10;

/// The same in at most `width` columns, as far as that goes: the widest columns of words are made narrower, and
/// what is longer goes on in the next line.
pub(super) fn table_within(
    headings: &[(&str, Align)],
    rows: &[Vec<String>],
    width: usize,
) -> String {
    let rows: Vec<Vec<String>> = rows
        .iter()
        .map(|row| row.iter().map(|cell| one_line(cell)).collect())
        .collect();
    let mut widths: Vec<usize> = headings
        .iter()
        .map(|(name, _)| name.chars().count())
        .collect();
    for row in &rows {
        for (width, cell) in widths.iter_mut().zip(row) {
            *width = (*width).max(cell.chars().count());
        }
    }
    let least: Vec<usize> = headings
        .iter()
        .enumerate()
        .map(|(index, (name, _))| {
            let cells = rows.iter().filter_map(|row| row.get(index));
            let words = cells.flat_map(|cell| cell.split_whitespace());
            let longest = words.map(|word| word.chars().count()).max();
            longest
                .unwrap_or_default()
                .max(name.chars().count())
                .max(NARROW)
        })
        .collect();
    narrow(&mut widths, &least, headings, width);
    let mut text = String::new();
    let mut line = |cells: &mut dyn Iterator<Item = &str>| {
        let mut written = String::new();
        for ((index, cell), (_, align)) in cells.enumerate().zip(headings) {
            if index > 0 {
                written.push_str("  ");
            }
            let length = cell.chars().count();
            let gap = " ".repeat(
                widths
                    .get(index)
                    .map_or(0, |width| width.saturating_sub(length)),
            );
            match align {
                Align::Left => written.extend([cell, gap.as_str()]),
                Align::Right => written.extend([gap.as_str(), cell]),
            }
        }
        text.push_str(written.trim_end());
        text.push('\n');
    };
    line(&mut headings.iter().map(|(name, _)| *name));
    for row in &rows {
        let cells: Vec<Vec<String>> = row
            .iter()
            .zip(&widths)
            .map(|(cell, width)| {
                if cell.chars().count() > *width {
                    wrap(cell, *width)
                } else {
                    vec![cell.clone()]
                }
            })
            .collect();
        let high = cells.iter().map(Vec::len).max().unwrap_or_default();
        for index in 0..high {
            let of_line = |cell: &Vec<String>| cell.get(index).cloned().unwrap_or_default();
            let of_line: Vec<String> = cells.iter().map(of_line).collect();
            line(&mut of_line.iter().map(String::as_str));
        }
    }
    text
}

/// Makes the widest columns of words narrower until all fit, or until none can be.
fn narrow(widths: &mut [usize], least: &[usize], headings: &[(&str, Align)], width: usize) {
    let gaps = 2 * headings.len().saturating_sub(1);
    while widths.iter().sum::<usize>() + gaps > width {
        let columns = widths.iter_mut().zip(least).zip(headings);
        let words = columns
            .filter(|((width, least), (_, align))| *align == Align::Left && **width > **least);
        let Some(((widest, _), _)) = words.max_by_key(|((width, _), _)| **width) else {
            return;
        };
        *widest -= 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_break_at_spaces_and_long_words_stand_alone() {
        assert_eq!(wrap("one two three", 7), ["one two", "three"]);
        assert_eq!(wrap("a overlong b", 4), ["a", "overlong", "b"]);
        assert_eq!(wrap("", 4), [""]);
    }

    #[test]
    fn a_paragraph_hangs_behind_its_label() {
        assert_eq!(
            paragraph("cure:", 5, 7, "strap it to the bench port", 27),
            "cure:  strap it to the\n       bench port\n"
        );
    }

    #[test]
    fn numbers_stand_right_and_lines_have_no_tail() {
        let rows = [vec!["AL".to_owned(), "5.5".to_owned(), "x".to_owned()]];
        let headings = [
            ("kind", Align::Left),
            ("L", Align::Right),
            ("note", Align::Left),
        ];
        assert_eq!(table(&headings, &rows), "kind    L  note\nAL    5.5  x\n");
    }

    #[test]
    fn a_wide_table_wraps_its_widest_words() {
        let rows = [
            vec![
                "P1".to_owned(),
                "in the long rack port side".to_owned(),
                "3".to_owned(),
            ],
            vec!["P2".to_owned(), "on deck".to_owned(), "4".to_owned()],
        ];
        let headings = [
            ("id", Align::Left),
            ("where", Align::Left),
            ("kg", Align::Right),
        ];
        assert_eq!(
            table_within(&headings, &rows, 24),
            "id  where             kg\nP1  in the long rack   3\n    port side\nP2  on deck            4\n"
        );
        assert_eq!(table(&headings, &rows).lines().count(), 3);
    }

    #[test]
    fn nothing_in_a_name_commands_the_terminal() {
        assert_eq!(harmless("a\u{1b}[31m\tb\nc"), "a\u{fffd}[31m b\nc");
        assert_eq!(one_line("a\r\nb\u{7}\u{202e}"), "a  b\u{fffd}\u{fffd}");
        assert_eq!(wrap("one\u{9b}1m two", 80), ["one\u{fffd}1m two"]);
        let table = table(&[("name", Align::Left)], &[vec!["a\nb\u{1b}".to_owned()]]);
        assert_eq!(table, "name\na b\u{fffd}\n");
    }
}
