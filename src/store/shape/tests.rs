//! A small type with everything in it that the file format uses, and what a user reads about slips
//! in its files.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::layout::Mistake;
use crate::store::document::{Format, from_bytes};

/// A boat.
#[derive(Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Boat {
    /// Its name.
    name: String,
    #[schemars(range(min = 0.5, max = 60.0))]
    beam_m: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    draught_m: Option<f64>,
    hull: Hull,
    #[serde(default)]
    decks: Vec<Deck>,
    #[serde(default)]
    things: Vec<Thing>,
    #[serde(default)]
    strength_kn: Known,
    #[serde(default)]
    #[schemars(range(min = 0.0, max = 350.0))]
    pressure_bar: f64,
    #[serde(default)]
    crew: u8,
    #[serde(default)]
    round: bool,
    #[serde(default)]
    next: Option<Box<Self>>,
}

/// The kind of hull.
#[derive(Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[expect(clippy::enum_variant_names, reason = "a twin hull is a hull")]
enum Hull {
    /// One hull.
    Monohull,
    /// Two.
    TwinHull,
    /// Tubes.
    Inflatable,
}

#[derive(Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Deck {
    #[serde(default)]
    height_m: f64,
    outline: Vec<[f64; 2]>,
}

#[derive(Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
enum Thing {
    /// A box.
    Crate {
        #[schemars(range(min = 0.0))]
        mass_kg: f64,
        /// Where.
        at: [f64; 3],
    },
    /// In a slot.
    InSlot(Slot),
    Gone,
}

#[derive(Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Slot {
    slot: String,
}

/// A number, or the words "not known".
#[derive(Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
enum Known {
    Number(#[schemars(range(min = 0.0, max = 100.0))] f64),
    Word(NotKnown),
}

#[derive(Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
enum NotKnown {
    #[serde(rename = "not known")]
    NotKnown,
}

impl Default for Known {
    fn default() -> Self {
        Self::Word(NotKnown::NotKnown)
    }
}

fn read(text: &str) -> Result<Boat, String> {
    let format = Format::new(schemars::schema_for!(Boat).as_value(), 1, &["crew"]);
    let validate = |boat: &Boat| {
        let mut mistakes = Vec::new();
        for (i, deck) in boat.decks.iter().enumerate() {
            if deck.outline.len() < 3 {
                mistakes.push(Mistake {
                    field: format!("decks[{i}].outline"),
                    message: format!("{} corners enclose nothing", deck.outline.len()),
                    help: "give three or more".to_owned(),
                });
            }
        }
        mistakes
    };
    from_bytes(&format, text.as_bytes(), "x", validate).map_err(|faults| faults.to_string())
}

const GOOD: &str = r#"{
  "name": "Ida",
  "beam_m": 4.6,
  "draught_m": null,
  "hull": "twin_hull",
  "decks": [
    { "outline": [[0, 0], [4, 0], [4, 2]] }
  ],
  "things": [
    { "kind": "crate", "mass_kg": 12, "at": [1, 2, 0.5] },
    { "kind": "in_slot", "slot": "P3" },
    { "kind": "gone" }
  ],
  "strength_kn": "not known",
  "pressure_bar": 200,
  "crew": 2,
  "round": false
}"#;

/// Reads the good text with one piece replaced.
fn told(old: &str, new: &str) -> String {
    assert!(GOOD.contains(old), "{old}");
    read(&GOOD.replacen(old, new, 1)).unwrap_err()
}

#[test]
fn a_good_file_is_read() {
    let boat = read(GOOD).unwrap();
    assert_eq!(boat.things.len(), 3);
    assert_eq!(boat.strength_kn, Known::default());
    assert_eq!(
        read(&GOOD.replacen("\"not known\"", "9.5", 1))
            .unwrap()
            .strength_kn,
        Known::Number(9.5)
    );
    assert!(read(&format!("\u{feff}{GOOD}")).is_ok());
}

#[test]
fn slips_are_told_with_place_field_and_help() {
    for (old, new, message) in [
        (
            r#""name": "Ida""#,
            r#""nam": "Ida""#,
            "x:2:3: nam: unknown field \"nam\"; did you mean \"name\"?\n  help: the fields here are \
             \"name\", \"beam_m\", \"draught_m\", \"hull\", \"decks\", \"things\", \"strength_kn\", \
             \"pressure_bar\", \"crew\", \"round\" or \"next\"",
        ),
        (
            r#"  "name": "Ida","#,
            "",
            "x:1:1: name: the field \"name\" is missing\n  help: add \"name\": a text in double quotes",
        ),
        (
            "4.6",
            "460",
            "x:3:13: beam_m: 460 m is out of range (0.5 to 60)\n  help: is it cm? 460 cm = 4.6 m",
        ),
        (
            "4.6",
            "-2",
            "x:3:13: beam_m: -2 m is out of range (0.5 to 60)\n  help: give a value from 0.5 to 60 m",
        ),
        (
            "4.6",
            "1e999",
            "x:3:13: beam_m: 1e999 is larger than any number that can be reckoned with\n  help: look \
             for a digit or an exponent too many",
        ),
        (
            "4.6",
            "\"4.6 m\"",
            "x:3:13: beam_m: the text \"4.6 m\" where a number should be\n  help: write the number \
             alone, without quotes and unit: 4.6",
        ),
        (
            "4.6",
            "null",
            "x:3:13: beam_m: null where a number should be\n  help: write a number",
        ),
        (
            "\"twin_hull\"",
            "\"twin hul\"",
            "x:5:11: hull: unknown word \"twin hul\"; did you mean \"twin_hull\"?\n  help: write \
             \"monohull\", \"twin_hull\" or \"inflatable\"",
        ),
        (
            "[4, 0]",
            "[4, 0, 1]",
            "x:7:27: decks[0].outline[1]: the list has 3 values, not 2\n  help: write a point as [x, y]",
        ),
        (
            "[4, 0]",
            "[4, \"0\"]",
            "x:7:31: decks[0].outline[1][1]: the text \"0\" where a number should be\n  help: write the \
             number alone, without quotes and unit: 0",
        ),
        (
            "\"crew\": 2",
            "\"crew\": 2.0",
            "x:16:11: crew: 2.0 is not a whole number\n  help: write it without a decimal point or \
             exponent",
        ),
        (
            "\"crew\": 2",
            "\"crew\": 300",
            "x:16:11: crew: 300 is out of range (0 to 255)\n  help: give a value from 0 to 255",
        ),
        (
            "\"crew\": 2",
            "\"crew\": 2, \"crew\": 3",
            "x:16:14: crew: the field \"crew\" is given twice\n  help: keep one of the two",
        ),
    ] {
        assert_eq!(told(old, new), message);
    }
}

#[test]
fn slips_in_tagged_and_mixed_values_are_told() {
    for (old, new, message) in [
        (
            "\"kind\": \"crate\"",
            "\"kind\": \"create\"",
            "x:10:15: things[0].kind: unknown word \"create\"; did you mean \"crate\"?\n  help: write \
             \"crate\", \"in_slot\" or \"gone\"",
        ),
        (
            "\"kind\": \"gone\"",
            "",
            "x:12:5: things[2].kind: the field \"kind\" is missing\n  help: add \"kind\": \"crate\", \
             \"in_slot\" or \"gone\"",
        ),
        (
            "\"slot\": \"P3\"",
            "\"slot\": \"P3\", \"mass_kg\": 3",
            "x:11:40: things[1].mass_kg: unknown field \"mass_kg\"\n  help: the fields here are \
             \"kind\" or \"slot\"",
        ),
        (
            "\"mass_kg\": 12",
            "\"mass_lb\": 12",
            "x:10:24: things[0].mass_lb: unknown field \"mass_lb\"; did you mean \"mass_kg\"?\n  help: \
             the fields here are \"kind\", \"mass_kg\" or \"at\"",
        ),
        (
            "\"not known\"",
            "\"unknown\"",
            "x:14:18: strength_kn: unknown word \"unknown\"; did you mean \"not known\"?\n  help: write \
             \"not known\"",
        ),
        (
            "\"not known\"",
            "900",
            "x:14:18: strength_kn: 900 kN is out of range (0 to 100)\n  help: is it N? 900 N = 0.9 kN",
        ),
        (
            "\"not known\"",
            "[]",
            "x:14:18: strength_kn: a list [ … ] where a number or \"not known\" should be\n  help: write \
             a number or \"not known\"",
        ),
        (
            "200",
            "3000",
            "x:15:19: pressure_bar: 3000 bar is out of range (0 to 350)\n  help: is it psi? 3000 psi = 207 bar",
        ),
    ] {
        assert_eq!(told(old, new), message);
    }
}

/// The fields of which something is told.
fn fields(told: &str) -> Vec<&str> {
    let lines = told.lines().filter_map(|line| line.strip_prefix("x:"));
    lines.filter_map(|line| line.split(": ").nth(1)).collect()
}

#[test]
fn all_faults_of_a_file_are_told_at_once_in_its_order() {
    let text = GOOD
        .replacen("4.6", "46000", 1)
        .replacen("\"hull\"", "\"hul\"", 1)
        .replacen("[[0, 0], [4, 0], [4, 2]]", "[[0, 0]]", 1)
        .replacen("\"mass_kg\": 12", "\"mass_kg\": \"12\"", 1)
        .replacen("\"slot\": \"P3\"", "\"slot\": \"P3\", \"x\": 1", 1)
        .replacen("\"round\": false", "\"round\": 0, \"pressure_bar\": 3", 1);
    let told = read(&text).unwrap_err();
    // The outline has its two corners too few in spite of the misspelt `hull` and the wrong kinds.
    assert_eq!(
        fields(&told),
        [
            "beam_m",
            "hul",
            "decks[0].outline",
            "things[0].mass_kg",
            "things[1].x",
            "round",
            "pressure_bar"
        ],
        "{told}"
    );
}

#[test]
fn nothing_is_told_on_the_strength_of_a_stand_in() {
    let few = GOOD.replacen("[[0, 0], [4, 0], [4, 2]]", "[[0, 0]]", 1);
    // Something in the same element is wrong: what else is wrong with it waits.
    let text = few.replacen("[[0, 0]]", "[[0, 0]], \"height_m\": \"x\"", 1);
    assert_eq!(fields(&read(&text).unwrap_err()), ["decks[0].height_m"]);
    // A point is wrong, or something on which more depends: so does everything.
    for (old, new, field) in [
        ("[[0, 0]]", "[[0, null]]", "decks[0].outline[0][1]"),
        ("\"crew\": 2", "\"crew\": 2.5", "crew"),
        ("\"name\": \"Ida\"", "\"name\": 7", "name"),
    ] {
        let text = few.replacen(old, new, 1);
        assert_ne!(text, few);
        assert_eq!(fields(&read(&text).unwrap_err()), [field]);
    }
}

#[test]
fn a_type_inside_itself_is_walked() {
    let text = GOOD.replacen("\"crew\": 2", &format!("\"next\": {GOOD}, \"crew\": 2"), 1);
    assert!(read(&text).unwrap().next.is_some());
}

#[test]
fn a_flood_of_faults_ends_soon() {
    let points = vec!["[\"a\"]"; 200_000].join(",");
    let told = told("[[0, 0], [4, 0], [4, 2]]", &format!("[{points}]"));
    assert!(told.contains("more faults from here on"));
}
