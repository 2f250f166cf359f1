//! Text to a tree that knows where each value stands. Strict JSON, and the first fault in plain
//! words.

use std::ops::ControlFlow;

use jsonc_parser::ast::Value;
use jsonc_parser::errors::{ParseError, ParseErrorKind};
use jsonc_parser::{CollectOptions, ParseOptions, ParseStringErrorKind, parse_to_ast};

use super::fault::RawFault;

/// The largest file that is read. A plan with 5,000 cylinders has about 2 MB.
pub(super) const MOST_BYTES: usize = 8 << 20;

/// How deep brackets may stand in each other. A plan needs about ten; the limit keeps a hostile
/// file from running the stack out, and lies below that of `serde_json` (128).
pub(super) const MOST_DEPTH: usize = 64;

/// Turns bytes into text, with a leading byte order mark taken off.
pub(super) fn decode(bytes: &[u8]) -> Result<&str, RawFault> {
    if bytes.len() > MOST_BYTES {
        return Err(RawFault::of_text(
            0,
            format!("the file is larger than {} MB", MOST_BYTES >> 20),
            "look whether it is the right file",
        ));
    }
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err(RawFault::of_text(
            0,
            "the text is in UTF-16",
            "save it as UTF-8",
        ));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let offset = error.valid_up_to();
        RawFault::of_text(
            offset,
            format!(
                "byte {offset} (0x{:02x}) is not UTF-8 text",
                bytes.get(offset).copied().unwrap_or_default()
            ),
            "save the file as UTF-8; if it was cut short or damaged, take an older copy",
        )
    })?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(text))
}

/// Parses strict JSON (RFC 8259).
pub(super) fn parse(text: &str) -> Result<Value<'_>, RawFault> {
    guard(text)?;
    let options = ParseOptions {
        allow_comments: false,
        allow_loose_object_property_names: false,
        allow_trailing_commas: false,
        allow_missing_commas: false,
        allow_single_quoted_strings: false,
        allow_hexadecimal_numbers: false,
        allow_unary_plus_numbers: false,
        allow_bare_decimal_point_numbers: false,
        allow_non_finite_numbers: false,
        allow_extended_string_escapes: false,
    };
    let parsed = parse_to_ast(text, &CollectOptions::default(), &options)
        .map_err(|error| explain(text, &error))?;
    parsed.value.ok_or_else(|| {
        RawFault::of_text(
            0,
            "the file is empty",
            "start a new plan from the boat's length and beam",
        )
    })
}

/// What must hold before a recursive parser may see the text, and what ours would let pass: depth,
/// control characters in strings, white space that JSON does not know.
fn guard(text: &str) -> Result<(), RawFault> {
    let mut depth = 0_usize;
    let mut in_string = false;
    let mut escaped = false;
    let mut flow = |(offset, c): (usize, char)| {
        let broken = if in_string {
            match c {
                _ if escaped => escaped = false,
                '\\' => escaped = true,
                '"' => in_string = false,
                _ => {}
            }
            (c < ' ').then(|| control_character(offset, c))
        } else {
            match c {
                '"' => in_string = true,
                '[' | '{' => depth += 1,
                ']' | '}' => depth = depth.saturating_sub(1),
                _ => {}
            }
            if depth > MOST_DEPTH {
                Some(RawFault::of_text(
                    offset,
                    format!("brackets stand more than {MOST_DEPTH} deep in each other"),
                    "a deck plan needs far fewer; look whether it is the right file",
                ))
            } else {
                stray_space(offset, c)
            }
        };
        broken.map_or(ControlFlow::Continue(()), ControlFlow::Break)
    };
    match text.char_indices().try_for_each(&mut flow) {
        ControlFlow::Continue(()) => Ok(()),
        ControlFlow::Break(fault) => Err(fault),
    }
}

fn control_character(offset: usize, c: char) -> RawFault {
    match c {
        '\n' | '\r' => RawFault::of_text(
            offset,
            "a text runs over the end of the line",
            "close it with \" on its own line, or write a line break in it as \\n",
        ),
        _ => RawFault::of_text(
            offset,
            format!("a text holds the control character U+{:04X}", u32::from(c)),
            "take it out, or write a tab as \\t",
        ),
    }
}

fn stray_space(offset: usize, c: char) -> Option<RawFault> {
    let stray = (c.is_whitespace() && !matches!(c, ' ' | '\t' | '\n' | '\r'))
        || matches!(c, '\u{feff}' | '\u{200b}');
    stray.then(|| {
        RawFault::of_text(
            offset,
            format!(
                "an invisible character (U+{:04X}) stands between the values",
                u32::from(c)
            ),
            "replace it with a space; it often comes from copying out of a web page",
        )
    })
}

fn explain(text: &str, error: &ParseError) -> RawFault {
    let range = error.range();
    let mut offset = range.start.min(text.len());
    let seen = text.get(offset..).unwrap_or_default();
    let found = excerpt(seen);
    let (message, help) = match error.kind() {
        ParseErrorKind::TrailingCommasNotAllowed => (
            "a comma after the last value".to_owned(),
            "take the comma out",
        ),
        ParseErrorKind::ExpectedComma => (
            "a comma is missing here".to_owned(),
            "put a comma between two values",
        ),
        ParseErrorKind::CommentsNotAllowed | ParseErrorKind::UnterminatedCommentBlock => (
            "comments are not part of the file format".to_owned(),
            "take the comment out; use a \"note\" field where there is one",
        ),
        ParseErrorKind::SingleQuotedStringsNotAllowed => (
            "a text in single quotes".to_owned(),
            "use double quotes: \"…\"",
        ),
        ParseErrorKind::ExpectedStringObjectProperty => (
            format!("the field name {found} is not in quotes"),
            "put it in double quotes: \"…\"",
        ),
        ParseErrorKind::ExpectedColonAfterObjectKey => (
            "a colon is missing between a field's name and its value".to_owned(),
            "write \"name\": value",
        ),
        ParseErrorKind::ExpectedObjectValue
        | ParseErrorKind::UnterminatedArray
        | ParseErrorKind::UnterminatedObject => {
            offset = text.len();
            (
                "the file ends too early".to_owned(),
                "a closing bracket is missing, or the file was cut short: take an older copy",
            )
        }
        ParseErrorKind::MultipleRootJsonValues => (
            format!("{found} stands after the end of the plan"),
            "take it out; or a closing bracket above is one too many",
        ),
        ParseErrorKind::String(kind) => explain_string(kind),
        ParseErrorKind::NonFiniteNumbersNotAllowed => not_a_number(&found),
        ParseErrorKind::UnexpectedWord | ParseErrorKind::UnexpectedToken => match seen.get(..3) {
            Some("NaN" | "nan" | "Inf" | "inf") => not_a_number(&found),
            Some("Tru" | "Fal" | "TRU" | "FAL" | "Non" | "Nul" | "NUL") => (
                format!("{found} is not known here"),
                "write true, false or null in small letters",
            ),
            _ => (
                format!("{found} is not known here"),
                "put words in double quotes: \"…\"",
            ),
        },
        ParseErrorKind::UnaryPlusNumbersNotAllowed => (
            format!("{found} starts with a plus"),
            "write the number without the plus",
        ),
        ParseErrorKind::BareDecimalPointNumbersNotAllowed => (
            format!("{found} lacks a digit beside its decimal point"),
            "write 0.5 or 5.0, not .5 or 5.",
        ),
        ParseErrorKind::HexadecimalNumbersNotAllowed => (
            format!("{found} is not a decimal number"),
            "write the number in decimal",
        ),
        ParseErrorKind::ExpectedDigit
        | ParseErrorKind::ExpectedDigitFollowingNegativeSign
        | ParseErrorKind::ExpectedPlusMinusOrDigitInNumberLiteral => (
            "a digit is missing in a number".to_owned(),
            "write numbers as 12, -0.5 or 1e3",
        ),
        ParseErrorKind::UnexpectedComma => (
            "a comma where a value should be".to_owned(),
            "take it out, or put the missing value before it",
        ),
        ParseErrorKind::UnexpectedColon => (
            "a colon where a value should be".to_owned(),
            "only fields in braces { } have names: \"name\": value",
        ),
        ParseErrorKind::UnexpectedCloseBrace | ParseErrorKind::UnexpectedCloseBracket => (
            format!("{found} where a value should be"),
            "a value is missing before it, or another bracket belongs here",
        ),
        ParseErrorKind::UnexpectedTokenInObject => (
            format!("{found} where the name of a field should be"),
            "in braces { } write \"name\": value, with commas between",
        ),
        ParseErrorKind::NestingDepthExceeded => (
            "brackets stand too deep in each other".to_owned(),
            "look whether it is the right file",
        ),
    };
    RawFault::of_text(offset, message, help)
}

fn not_a_number(found: &str) -> (String, &'static str) {
    (
        format!("{found} is not a number that can be reckoned with"),
        "give a finite number; where \"not known\" is allowed, write that",
    )
}

fn explain_string(kind: &ParseStringErrorKind) -> (String, &'static str) {
    match kind {
        ParseStringErrorKind::UnterminatedStringLiteral => (
            "a text that starts here is never closed".to_owned(),
            "close it with \"",
        ),
        ParseStringErrorKind::InvalidUnicodeEscapeSequence(_)
        | ParseStringErrorKind::ExpectedFourHexDigits
        | ParseStringErrorKind::ExpectedTwoHexDigits => (
            "a \\u in a text does not name a character".to_owned(),
            "write the character itself",
        ),
        ParseStringErrorKind::InvalidEscape
        | ParseStringErrorKind::InvalidEscapeInSingleQuoteString
        | ParseStringErrorKind::InvalidEscapeInDoubleQuoteString => (
            "a backslash in a text before a character that needs none".to_owned(),
            "write a backslash itself as \\\\",
        ),
    }
}

/// The word or the character at the start of a text, in quotes, cut to a readable length.
fn excerpt(text: &str) -> String {
    let is_word = |c: char| c.is_alphanumeric() || matches!(c, '_' | '-' | '+' | '.');
    let word: String = text.chars().take_while(|c| is_word(*c)).take(24).collect();
    let shown = match text.chars().next() {
        Some(first) if word.is_empty() => first.to_string(),
        Some(_) => word,
        None => return "the end of the file".to_owned(),
    };
    format!("{shown:?}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::fault::locate;
    use proptest::prelude::*;

    fn told(text: &str) -> String {
        match parse(text) {
            Ok(value) => format!("read {value:?}"),
            Err(fault) => locate(text, vec![fault])[0].to_string(),
        }
    }

    #[test]
    fn what_is_not_json_is_explained() {
        for (text, start, help) in [
            ("", "1:1: the file is empty", "new plan"),
            ("{\"a\": 1,\n}", "1:8: a comma after the last", "take"),
            ("[1, 2,]", "1:6: a comma after the last", "take"),
            ("{\"a\": 1\n \"b\": 2}", "1:8: a comma is missing", "put"),
            ("[1 2]", "1:3: a comma is missing", "put"),
            ("[0123]", "1:3: a comma is missing", "put"),
            ("{\"a\": NaN}", "1:7: \"NaN\" is not a number", "finite"),
            ("[-Infinity]", "1:2: \"-Infinity\" is not a num", "finite"),
            ("[1, // x\n 2]", "1:5: comments", "note"),
            ("{'a': 1}", "1:2: a text in single quotes", "double"),
            ("{a: 1}", "1:2: the field name \"a\" is not in", "quotes"),
            ("{\"a\" 1}", "1:6: a colon is missing", "write"),
            ("{\"a\": 1", "1:8: the file ends too early", "cut short"),
            ("[1, [2", "1:7: the file ends too early", "cut short"),
            ("{\"a\":", "1:6: the file ends too early", "cut short"),
            ("{} 1", "1:4: \"1\" stands after the end", "take it out"),
            ("[\"ab", "1:2: a text that starts here is never", "close"),
            ("[\"a\nb\"]", "1:4: a text runs over the end", "\\n"),
            ("[\"a\tb\"]", "1:4: a text holds the control", "\\t"),
            ("[\"\\x\"]", "1:3: a backslash in a text", "\\\\"),
            ("[\"\\ud800\"]", "1:3: a \\u in a text", "character"),
            ("[True]", "1:2: \"True\" is not known here", "small"),
            ("[strong]", "1:2: \"strong\" is not known here", "quotes"),
            ("[+1]", "1:2: \"+1\" starts with a plus", "without"),
            ("[.5]", "1:2: \".5\" lacks a digit", "0.5"),
            ("[5.]", "1:2: \"5.\" lacks a digit", "0.5"),
            ("[0x10]", "1:2: \"0x10\" is not a decimal", "decimal"),
            ("[1e]", "1:4: a digit is missing", "1e3"),
            ("[,1]", "1:2: a comma where a value", "take it out"),
            ("[1, :]", "1:5: a colon where a value", "only fields"),
            ("[1 }", "1:4: \"}\" where a value", "bracket"),
            ("{\"a\": }", "1:7: \"}\" where a value", "missing"),
            ("{1: 2}", "1:2: the field name \"1\" is", "quotes"),
            ("{[: 2}", "1:2: \"[\" where the name", "braces"),
            (
                "[1,\u{a0}2]",
                "1:4: an invisible character (U+00A0)",
                "space",
            ),
        ] {
            let told = told(text);
            assert!(told.starts_with(start), "{text:?}: {told}");
            let told_help = told.split_once("\n  help: ").unwrap().1;
            assert!(told_help.contains(help), "{text:?}: {told}");
        }
    }

    #[test]
    fn bytes_that_are_not_text_are_refused_with_their_place() {
        let fault = decode(b"{\"a\": \"b\xe5r\"}").unwrap_err();
        assert_eq!(fault.offset, 8);
        assert!(fault.message.contains("byte 8 (0xe5)"), "{fault:?}");
        let fault = decode(b"\xff\xfe{\0}\0").unwrap_err();
        assert!(fault.message.contains("UTF-16"), "{fault:?}");
        assert_eq!(decode(b"\xef\xbb\xbf{}"), Ok("{}"));
        let fault = decode(&vec![b' '; MOST_BYTES + 1]).unwrap_err();
        assert!(fault.message.contains("larger than 8 MB"), "{fault:?}");
    }

    #[test]
    fn depth_is_bounded_and_ends_soon() {
        for open in ["[", "{\"a\":"] {
            assert!(parse(&open.repeat(1_000_000)).is_err());
        }
        let nested = |n: usize| format!("{}{}", "[".repeat(n), "]".repeat(n));
        assert!(parse(&nested(MOST_DEPTH)).is_ok());
        let fault = parse(&nested(MOST_DEPTH + 1)).unwrap_err();
        assert_eq!(fault.offset, MOST_DEPTH);
        // Brackets in a text do not count.
        assert!(parse(&format!("[\"{}\"]", "[".repeat(100))).is_ok());
    }

    /// Text that is nearly JSON, which random characters hardly ever are.
    fn nearly_json() -> impl Strategy<Value = String> {
        let piece = prop_oneof![
            Just("{"),
            Just("}"),
            Just("["),
            Just("]"),
            Just(","),
            Just(":"),
            Just("\""),
            Just("\"a\""),
            Just("\\"),
            Just("\\u00e5"),
            Just("\\ud83d\\ude00"),
            Just("-"),
            Just("0"),
            Just("1.5"),
            Just("1e9"),
            Just("1e999"),
            Just("true"),
            Just("null"),
            Just("x"),
            Just(" "),
            Just("\n"),
            Just("å"),
            Just("/"),
            Just("'"),
            Just("."),
            Just("NaN"),
        ];
        prop::collection::vec(piece, 0..14).prop_map(|pieces| pieces.concat())
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(3000))]

        /// `serde_json` is the outside judge of what is JSON, read into a tree: what it skips it
        /// does not look into, and would let half a surrogate pair through. Numbers that no
        /// `f64` can hold are left to the walk over our own tree.
        #[test]
        fn what_passes_is_what_serde_json_takes(text in nearly_json()) {
            let ours = parse(&text);
            match serde_json::from_str::<serde_json::Value>(&text) {
                Ok(_) => prop_assert!(ours.is_ok(), "{:?}", ours),
                Err(error) if error.to_string().starts_with("number out of range") => {}
                Err(error) => prop_assert!(ours.is_err(), "{error}"),
            }
        }
    }
}
