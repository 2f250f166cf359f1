//! The known word that was most likely meant, for messages about words and names.

use std::fmt::Write as _;

/// The known word nearest to what was written, if any is near enough to be a slip of it.
pub(crate) fn nearest<'k>(
    written: &str,
    known: impl IntoIterator<Item = &'k str>,
) -> Option<&'k str> {
    let written = plain(written);
    let mut best: Option<(f64, &str)> = None;
    for word in known.into_iter().take(MOST_COMPARED) {
        let likeness = likeness(&written, &plain(word));
        // Ties go to the word that comes first, so that the answer does not depend on chance.
        if likeness >= NEAR && best.is_none_or(|(best, _)| likeness > best) {
            best = Some((likeness, word));
        }
    }
    best.map(|(_, word)| word)
}

/// Words that are looked at, at most: nobody has so many, except to make the program slow.
const MOST_COMPARED: usize = 5000;

/// Share of letters that must agree. `mas_kg` to `mass_kg` is 0.86, `draft` to `draught` 0.57,
/// `beam` to `team` 0.75; unrelated field names of equal length share up to about a half by chance.
const NEAR: f64 = 0.55;

fn likeness(written: &str, word: &str) -> f64 {
    if written == word {
        return 1.0;
    }
    // The unit left out, put in, or another one: `mass`, `mass_lb` for `mass_kg`.
    let (stem, known_stem) = (stem(written), stem(word));
    if !known_stem.is_empty() && (stem == known_stem || written == known_stem || stem == word) {
        return 0.95;
    }
    strsim::normalized_damerau_levenshtein(written, word)
}

fn stem(name: &str) -> &str {
    name.rsplit_once('_').map_or(name, |(stem, _)| stem)
}

/// Without what people write differently: case, hyphens, spaces, `camelCase`.
fn plain(name: &str) -> String {
    let mut plain = String::with_capacity(name.len());
    let mut after_small = false;
    for c in name.chars().take(64) {
        if c.is_uppercase() && after_small {
            plain.push('_');
        }
        after_small = c.is_lowercase() || c.is_numeric();
        if matches!(c, '-' | ' ') {
            plain.push('_');
        } else {
            plain.extend(c.to_lowercase());
        }
    }
    plain
}

/// `"a", "b" or "c"`; a long list is cut and says so.
pub(crate) fn either<'w>(words: impl IntoIterator<Item = &'w str>) -> String {
    let words: Vec<&str> = words.into_iter().collect();
    let shown = words.len().min(MOST_LISTED);
    let mut text = String::new();
    for (i, word) in words.iter().take(shown).enumerate() {
        let join = match i {
            0 => "",
            _ if i + 1 == words.len() => " or ",
            _ => ", ",
        };
        // Writing to a `String` cannot fail.
        write!(text, "{join}{word:?}").ok();
    }
    if words.len() > shown {
        write!(text, ", … ({} more)", words.len() - shown).ok();
    }
    text
}

const MOST_LISTED: usize = 40;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_find_their_word() {
        let known = ["mass_kg", "beam_m", "draught_m", "name", "roll_period_s"];
        for (written, meant) in [
            ("mas_kg", Some("mass_kg")),
            ("mass", Some("mass_kg")),
            ("mass_lb", Some("mass_kg")),
            ("massKg", Some("mass_kg")),
            ("Beam-M", Some("beam_m")),
            ("draft_m", Some("draught_m")),
            ("roll period s", Some("roll_period_s")),
            ("colour", None),
            ("zzz", None),
            ("", None),
        ] {
            assert_eq!(nearest(written, known), meant, "{written}");
        }
    }

    #[test]
    fn a_list_reads_as_a_sentence() {
        assert_eq!(either([]), "");
        assert_eq!(either(["a"]), "\"a\"");
        assert_eq!(either(["a", "b", "c"]), "\"a\", \"b\" or \"c\"");
        let many: Vec<String> = (0..45).map(|i| i.to_string()).collect();
        assert!(either(many.iter().map(String::as_str)).ends_with("\"39\", … (5 more)"));
    }
}
