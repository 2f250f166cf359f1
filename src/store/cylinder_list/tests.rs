use serde_json::json;

use super::*;
use crate::layout::{Fill, Placing};
use proptest::prelude::*;

fn boat() -> Boat {
    let mut boat = Boat::new("Ida", 11.0, 4.6);
    for (id, columns, names) in [("P", 3, ["P1", "P2", "7"]), ("S", 3, ["S1", "S2", "7"])] {
        boat.racks.push(
            serde_json::from_value(json!({
                "id": id, "deck": "main", "kind": "sockets", "at": [2.0, 1.0], "columns": columns,
                "pitch_m": 0.25, "slot_names": names, "edge_height_m": 0.5, "mass_kg": 9.0,
                "fixings": { "kind": "unfixed" },
            }))
            .unwrap(),
        );
    }
    boat
}

fn read(text: &str) -> Result<Vec<Cylinder>, String> {
    cylinder_list(text.as_bytes(), "list.csv", &boat(), &[]).map_err(|faults| faults.to_string())
}

#[test]
fn a_list_is_read_whatever_the_order_of_its_columns() {
    let cylinders = read(
        "Slot,Number,Pressure (bar),gas,Kind,fill,boot,Stamped tare (kg)\r\n\
         P1,12,\"200\",nitrox 32,st-12l-long-232,,yes,14.3\r\n\
         \r\n\
         ,13,3000 psi,,\"Aluminium 80 cu ft, 207 bar (11.1 L)\",part used,,\r\n\
         ashore,\"B \"\"4\"\"\",,air,al-80cf,empty,no,\"14,5 kg\"\r\n",
    )
    .unwrap();
    let [first, second, third] = cylinders.as_slice() else {
        panic!("{cylinders:?}");
    };
    assert_eq!(
        (first.id.as_str(), first.number.as_deref()),
        ("12", Some("12"))
    );
    assert_eq!(first.kind, "st-12l-long-232");
    assert_eq!(first.gas, "nitrox 32");
    assert_eq!(first.pressure_bar, Some(200.0));
    assert_eq!(first.stamped_tare_kg, Some(14.3));
    assert!(first.boot);
    let slot = Placing::InSlot {
        rack: "P".to_owned(),
        slot: "P1".to_owned(),
    };
    assert_eq!(first.placing, slot);
    assert_eq!(second.kind, "al-80cf", "by its name for people");
    // 3000 psi = 20684.27 kPa (NIST SP 811, appendix B.8).
    assert_eq!(second.pressure_bar, Some(206.8));
    assert_eq!(second.fill, Fill::PartUsed);
    assert_eq!(second.placing, Placing::Ashore);
    assert_eq!((third.id.as_str(), third.fill), ("B \"4\"", Fill::Empty));
    assert_eq!(third.stamped_tare_kg, Some(14.5));
}

#[test]
fn semicolons_and_tabs_separate_too() {
    for separator in [";", "\t"] {
        let text = "number,kind,pressure_psi\n1,al-80cf,3000\n".replace(',', separator);
        let cylinders = read(&text).unwrap();
        assert_eq!(cylinders[0].pressure_bar, Some(206.8), "{separator:?}");
    }
    let cylinders = read("number;kind;pressure_bar\n1;al-80cf;199,5\n").unwrap();
    assert_eq!(cylinders[0].pressure_bar, Some(199.5));
}

#[test]
fn slips_are_told_with_line_and_column() {
    for (text, message) in [
        ("", "list.csv:1:1: the list is empty\n"),
        (
            "number,kid\n",
            "list.csv:1:1: a heading \"kind\" is missing\n  help: name the columns in the first line\n\
             list.csv:1:8: unknown heading \"kid\"; did you mean \"kind\"?\n  help: the headings are \"id\", ",
        ),
        (
            "number,kind,slot,place\n",
            "list.csv:1:18: the heading \"place\" says the same as one before it\n",
        ),
        (
            "number,kind\n1, al-8cf\n2,\n,al-80cf\n1,al-80cf,x\n",
            "list.csv:2:4: kind: there is no kind of cylinder called \"al-8cf\"\n  help: did you mean \
             \"al-80cf\"?\n\
             list.csv:3:1: kind: the cylinder has no kind\n  help: write a name of the catalogue, or one of \
             the boat's own kinds\n\
             list.csv:4:1: number: the cylinder has no number\n  help: write the number stamped or painted \
             on it\n\
             list.csv:5:1: number: the number \"1\" stands in line 2 too\n  help: give each cylinder a \
             number of its own\n\
             list.csv:5:11: the value \"x\" stands under no heading\n  help: put a value that holds a \
             separator in double quotes",
        ),
        (
            "number,kind,pressure_bar\n1,al-80cf,3000\n2,al-80cf,20 MPa\n3,al-80cf,abc\n4,al-80cf,1e999",
            "list.csv:2:11: pressure_bar: 3000 bar is out of range (0 to 350)\n  help: is it psi? 3000 psi = \
             207 bar\n\
             list.csv:3:11: pressure_bar: unknown unit \"MPa\"\n  help: write the pressure in bar, or with \
             its unit: 200 bar, 3000 psi\n\
             list.csv:4:11: pressure_bar: unknown unit \"abc\"\n",
        ),
        (
            "kind,number,slot,rack\nal-80cf,1,7,\nal-80cf,2,7,P\nal-80cf,3,7,P\nal-80cf,4,P9,\n\
             al-80cf,5,S1,P\nal-80cf,6,S1,R\nal-80cf,7,,S\n",
            "list.csv:2:11: slot: more than one rack has a slot \"7\": \"P\" or \"S\"\n  help: name the rack \
             in a column \"rack\"\n\
             list.csv:4:11: slot: the slot \"7\" of \"P\" is taken already, by \"2\"\n  help: give the \
             cylinder another slot\n\
             list.csv:5:11: slot: no rack has a slot \"P9\"\n",
        ),
        (
            "number,kind,gas,fill,boot\n\"1\n2\",al-80cf,nitrix 32,half,perhaps\n",
            "list.csv:3:12: gas: \"nitrix 32\" is no gas known here; write one as in \"nitrox 32\"\n",
        ),
    ] {
        let told = read(text).unwrap_err();
        assert!(told.starts_with(message), "{text}\n{told}\n\n{message}");
    }
}

#[test]
fn what_is_no_text_is_refused() {
    let faults = cylinder_list(b"number,kind\n1,\xe5", "list.csv", &boat(), &[]).unwrap_err();
    assert_eq!((faults.list[0].line, faults.list[0].column), (2, 3));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    /// Quotes, separators and line ends in any order: an answer, and faults within the text.
    #[test]
    fn any_text_gives_cylinders_or_faults(
        body in prop::collection::vec(prop_oneof![
            Just("\""), Just(","), Just(";"), Just("\n"), Just("\r\n"), Just("al-80cf"), Just("1"),
            Just(" "), Just("å"), Just("\t"), Just("P1"), Just("3000 psi"),
        ], 0..30)
    ) {
        let text = format!("number,kind,pressure,slot\n{}", body.concat());
        if let Err(faults) = cylinder_list(text.as_bytes(), "list.csv", &boat(), &[]) {
            prop_assert!(!faults.list.is_empty());
            let lines = text.split('\n').count();
            for fault in faults.list {
                prop_assert!(fault.line <= lines, "{fault}");
            }
        }
    }

    /// The cell that is told of starts where it is said to start.
    #[test]
    fn columns_point_at_their_cell(before in "[a-z \"å,]{0,8}", blanks in " {0,2}") {
        let quoted = format!("\"{}\"", before.replace('"', "\"\""));
        let text = format!("number,kind,diver,fill\n1,al-80cf,{quoted},{blanks}brim\n");
        let told = read(&text).unwrap_err();
        let column = "1,al-80cf,".len() + quoted.chars().count() + 1 + blanks.len() + 1;
        prop_assert!(
            told.starts_with(&format!("list.csv:2:{column}: fill: unknown word \"brim\"")),
            "{told}"
        );
    }
}
