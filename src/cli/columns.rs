//! Text in columns: wrapped paragraphs and tables.

/// Breaks text into lines of at most `width` characters, at spaces; a longer word stands alone.
pub(super) fn wrap(text: &str, width: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    let mut used = 0;
    for word in text.split_whitespace() {
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
    let mut widths: Vec<usize> = headings
        .iter()
        .map(|(name, _)| name.chars().count())
        .collect();
    for row in rows {
        for (width, cell) in widths.iter_mut().zip(row) {
            *width = (*width).max(cell.chars().count());
        }
    }
    let mut text = String::new();
    let mut line = |cells: &mut dyn Iterator<Item = &str>| {
        let mut written = String::new();
        for ((cell, width), (_, align)) in cells.zip(&widths).zip(headings) {
            if !written.is_empty() {
                written.push_str("  ");
            }
            let gap = " ".repeat(width.saturating_sub(cell.chars().count()));
            match align {
                Align::Left => written.extend([cell, gap.as_str()]),
                Align::Right => written.extend([gap.as_str(), cell]),
            }
        }
        text.push_str(written.trim_end());
        text.push('\n');
    };
    line(&mut headings.iter().map(|(name, _)| *name));
    for row in rows {
        line(&mut row.iter().map(String::as_str));
    }
    text
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
}
