//! The font of the pages, and how wide a text is in it.

use std::sync::OnceLock;

use ttf_parser::Face;

/// The family as the font names itself; a viewer that lacks it takes any without serifs.
pub(super) const FAMILY: &str = "Ubuntu, sans-serif";

/// The font's only weight.
pub(super) const WEIGHT: &str = "300";

/// Ubuntu Light, Ubuntu Font Licence 1.0, which allows embedding in documents.
pub(super) const DATA: &[u8] = epaint_default_fonts::UBUNTU_LIGHT;

/// A point of the printer's, in millimetres: 1/72 inch.
pub(super) const POINT_MM: f64 = 25.4 / 72.0;

/// Half the height of the square in which a letter is drawn: about its mean width. For characters that the
/// font does not have.
const UNKNOWN_EM: f64 = 0.5;

/// The font, ready to be measured and drawn; `None` never happens.
pub(super) fn face() -> Option<&'static Face<'static>> {
    static FACE: OnceLock<Option<Face<'static>>> = OnceLock::new();
    FACE.get_or_init(|| Face::parse(DATA, 0).ok()).as_ref()
}

/// How wide a line of text is, in millimetres, at a size in points. Without kerning: at most a few per cent
/// too wide.
pub fn width_mm(text: &str, size_pt: f64) -> f64 {
    let em: f64 = text.chars().map(advance_em).sum();
    em * size_pt * POINT_MM
}

fn advance_em(c: char) -> f64 {
    let advance = face().and_then(|face| {
        let advance = face.glyph_hor_advance(face.glyph_index(c)?)?;
        Some(f64::from(advance) / f64::from(face.units_per_em()))
    });
    advance.unwrap_or(UNKNOWN_EM)
}

/// Can the font draw every character of the text?
#[cfg(test)]
pub(super) fn has(text: &str) -> bool {
    text.chars().all(has_letter)
}

fn has_letter(c: char) -> bool {
    face().is_some_and(|face| face.glyph_index(c).is_some())
}

/// What stands for a letter that the font does not have.
const NO_LETTER: char = '?';

/// Does the text have letters for which a question mark is drawn?
pub(super) fn lacks(text: &str) -> bool {
    let mut pairs = text
        .chars()
        .zip(printable(text).chars().collect::<Vec<_>>());
    pairs.any(|(c, drawn)| drawn == NO_LETTER && c != NO_LETTER)
}

/// The text as it can be drawn: a question mark for each letter that the font does not have, so that what is missing is
/// seen and can be searched for; blanks and what steers a terminal or a printer are blanks.
pub(super) fn printable(text: &str) -> String {
    let drawn = |c: char| match c {
        c if c.is_control() || c == '\u{fffe}' || c == '\u{ffff}' => ' ',
        c if has_letter(c) => c,
        c if c.is_whitespace() => ' ',
        _ => NO_LETTER,
    };
    text.chars().map(drawn).collect()
}

/// A space at which no line is broken.
pub(super) const NO_BREAK: char = '\u{a0}';

/// The lines of a text, none wider than this: a word that is wider is broken, if it can be behind a hyphen or a stroke.
/// A no-break space becomes a plain one.
pub fn wrap(text: &str, size_pt: f64, most_mm: f64) -> Vec<String> {
    let lines = wrap_words(text, size_pt, most_mm).into_iter();
    lines
        .flat_map(|line| broken(line, size_pt, most_mm))
        .collect()
}

/// Behind these a word that is too wide is broken rather than elsewhere.
pub(super) const STROKES: [char; 3] = ['-', '/', '_'];

/// A line in pieces that are at most so wide, each of one letter at least.
fn broken(line: String, size_pt: f64, most_mm: f64) -> Vec<String> {
    let mut pieces = Vec::new();
    let mut left = line;
    while width_mm(&left, size_pt) > most_mm {
        let mut wide = 0.0;
        let mut fit = 0;
        let mut gap = 0;
        for (at, c) in left.char_indices() {
            wide += width_mm(c.encode_utf8(&mut [0; 4]), size_pt);
            if wide > most_mm && at > 0 {
                break;
            }
            fit = at + c.len_utf8();
            if STROKES.contains(&c) {
                gap = fit;
            }
        }
        // Behind a stroke, unless little would stand before it.
        let at = if 3 * gap > fit { gap } else { fit };
        if at >= left.len() {
            break;
        }
        let rest = left.split_off(at);
        pieces.push(std::mem::replace(&mut left, rest));
    }
    pieces.push(left);
    pieces
}

/// The lines of a text that is at most so wide; a word that is wider stands alone. A no-break space becomes a plain one.
pub(super) fn wrap_words(text: &str, size_pt: f64, most_mm: f64) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    let words = text.split(|c: char| c.is_whitespace() && c != NO_BREAK);
    for word in words.filter(|word| !word.is_empty()) {
        let longer = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        if line.is_empty() || width_mm(&longer, size_pt) <= most_mm {
            line = longer;
        } else {
            lines.push(std::mem::replace(&mut line, word.to_owned()));
        }
    }
    lines.push(line);
    for line in &mut lines {
        if line.contains(NO_BREAK) {
            *line = line.replace(NO_BREAK, " ");
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_as_wide_as_allowed() {
        let text = "Hold the tape level and pull it straight before you read it";
        let lines = wrap(text, 10.0, 40.0);
        assert!(lines.len() > 2, "{lines:?}");
        assert_eq!(lines.join(" "), text);
        assert!(lines.iter().all(|line| width_mm(line, 10.0) <= 40.0));
        assert_eq!(wrap("", 10.0, 40.0), [""]);
        // A blank stays with its word.
        assert_eq!(
            wrap("after the dive\u{a0}____", 10.0, 25.0),
            ["after the", "dive ____"]
        );
    }

    /// A word that is too wide is broken and nothing of it is lost; behind a stroke where there is one.
    #[test]
    fn wide_words_are_broken() {
        for (text, most) in [
            ("Maximilian", 10.0),
            ("AL80-2019-0034", 16.0),
            ("two Zurrgurt-Steuerbord-Achtern-1 words", 20.0),
            ("ij", 0.1),
        ] {
            let lines = wrap(text, 8.5, most);
            assert!(lines.len() > 1, "{lines:?}");
            let fits = |line: &String| width_mm(line, 8.5) <= most || line.chars().count() == 1;
            assert!(lines.iter().all(fits), "{lines:?}");
            assert_eq!(lines.concat(), text.replace(' ', ""), "{lines:?}");
        }
        assert_eq!(wrap("AL80-2019-0034", 8.5, 16.0), ["AL80-2019-", "0034"]);
        // Names on plans stay whole.
        assert_eq!(wrap_words("Maximilian", 8.5, 10.0), ["Maximilian"]);
    }

    #[test]
    fn what_the_font_has_not_is_seen() {
        assert_eq!(printable("海鸥 P1\u{a0}m²"), "?? P1\u{a0}m²");
        assert_eq!(printable("red\u{1b}[31m\tend"), "red [31m end");
        assert!(has(&printable("Việt")) && lacks("Việt"));
        assert!(
            !lacks("who? P1\n21"),
            "a question mark of its own, and a new line"
        );
    }

    #[test]
    fn the_font_has_what_the_trade_writes() {
        assert!(has("±²°×–Øåäö½"));
        assert!(width_mm("iii", 10.0) < width_mm("mmm", 10.0));
    }
}
