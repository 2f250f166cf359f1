use std::fmt::Write as _;

use super::*;
use proptest::prelude::*;

/// A drawing from group codes and values, with its unit.
fn drawing(units: Option<u8>, entities: &[&str]) -> String {
    let mut text = String::from("  0\nSECTION\n  2\nHEADER\n  9\n$ACADVER\n  1\nAC1015\n");
    if let Some(units) = units {
        write!(text, "  9\n$INSUNITS\n 70\n{units}\n").unwrap();
    }
    text.push_str("  0\nENDSEC\n  0\nSECTION\n  2\nENTITIES\n");
    for entity in entities {
        for (i, word) in entity.split_whitespace().enumerate() {
            if i == 0 {
                write!(text, "  0\n{word}\n").unwrap();
            } else {
                let (code, value) = word.split_once('=').unwrap();
                write!(text, "{code}\n{value}\n").unwrap();
            }
        }
    }
    text.push_str("  0\nENDSEC\n  0\nEOF\n");
    text
}

/// 6 m by 2 m in millimetres, its forward end a half round of 1 m.
const ROUND: &str = "LWPOLYLINE 5=2A 8=DECK 100=AcDbEntity 100=AcDbPolyline 90=4 70=1 \
                     10=0 20=-1000 10=5000 20=-1000 42=1 10=5000 20=1000 10=0 20=1000";

fn found(text: &str, layer: &str, unit: DrawingUnit) -> FoundOutlines {
    let drawing = open(text.as_bytes()).unwrap();
    drawing.outlines(layer, OutlineOptions::new(unit))
}

#[test]
fn a_polyline_with_an_arc_is_a_deck_with_a_round_bow() {
    let text = drawing(Some(4), &[ROUND]);
    let opened = open(text.as_bytes()).unwrap();
    assert_eq!(opened.unit, Some(DrawingUnit::Millimetre));
    assert_eq!(opened.layers.len(), 1);
    let found = found(&text, "DECK", DrawingUnit::Millimetre);
    assert!(found.faults.is_empty(), "{:?}", found.faults);
    let [deck] = &found.outlines[..] else {
        panic!("{found:?}")
    };
    // A half disc of 1 m before 10 m²; pieces within 2 mm of an arc 3.14 m long lose at most that strip.
    let expected = 10.0 + std::f64::consts::FRAC_PI_2;
    assert!(deck.outline.area() < expected && deck.outline.area() > expected - 6.3e-3);
    assert!(deck.deviation_m > 0.0 && deck.deviation_m <= 0.002);
    assert_eq!(deck.entities, ["LWPOLYLINE 2A"]);
    let placed = in_boat_frame(&deck.outline, BowTowards::Right);
    let forward = placed.iter().map(|p| p[0]).fold(0.0, f64::max);
    assert!((forward - 6.0).abs() < 1e-9, "{forward}");
}

#[test]
fn lines_and_an_arc_are_joined_within_the_tolerance() {
    let text = drawing(
        None,
        &[
            "LINE 5=1 8=EDGE 10=0 20=-1 11=5 21=-1",
            "LINE 5=2 8=EDGE 10=0 20=1 11=5 21=1.003",
            "ARC 5=3 8=EDGE 10=5 20=0 40=1 50=270 51=90",
            "LINE 5=4 8=EDGE 10=0 20=1 11=0 21=-1",
            "TEXT 5=5 8=EDGE 10=0 20=0 40=1 1=deck",
        ],
    );
    let opened = open(text.as_bytes()).unwrap();
    assert_eq!(opened.unit, None, "the drawing does not say");
    let found = found(&text, "EDGE", DrawingUnit::Metre);
    assert!(found.faults.is_empty(), "{:?}", found.faults);
    assert_eq!(found.outlines.len(), 1);
    assert!((found.outlines[0].gap_m - 0.003).abs() < 1e-9);
    assert_eq!(found.outlines[0].entities.len(), 4);
}

#[test]
fn what_is_no_outline_is_told_with_its_entity() {
    let text = drawing(
        Some(6),
        &[
            "LINE 5=7 8=0 10=0 20=0 11=4 21=0",
            "LINE 5=8 8=0 10=4 20=0.02 11=4 21=2",
            "CIRCLE 5=9 8=0 10=2 20=1 40=0.3",
            "LWPOLYLINE 5=A 8=0 100=AcDbEntity 100=AcDbPolyline 90=4 70=1 10=0 20=0 10=2 20=2 10=2 20=0 10=0 20=2",
            "SPLINE 5=B 8=0 100=AcDbEntity 100=AcDbSpline 70=8 71=3",
        ],
    );
    let found = found(&text, "0", DrawingUnit::Metre);
    let told: Vec<_> = found.faults.iter().map(|f| f.entity.as_str()).collect();
    assert_eq!(told, ["SPLINE B", "LINE 7", "LINE 8", "LWPOLYLINE A"]);
    assert!(
        found
            .faults
            .iter()
            .all(|f| !f.help.is_empty() && !f.message.is_empty())
    );
    assert_eq!(found.outlines.len(), 1, "the circle");
    let disc = found.outlines[0].outline.area();
    assert!((disc - 0.09 * std::f64::consts::PI).abs() < 4e-3, "{disc}");
}

#[test]
fn an_old_polyline_and_one_seen_from_below() {
    let text = drawing(
        Some(2),
        &[
            "POLYLINE 8=HULL 66=1 70=1",
            "VERTEX 8=HULL 10=0 20=-4",
            "VERTEX 8=HULL 10=20 20=-4",
            "VERTEX 8=HULL 10=24 20=0",
            "VERTEX 8=HULL 10=20 20=4",
            "VERTEX 8=HULL 10=0 20=4",
            "SEQEND 8=HULL",
            "LWPOLYLINE 5=C 8=BELOW 100=AcDbEntity 100=AcDbPolyline 90=3 70=1 10=-3 20=0 10=-9 20=0 10=-9 20=2 \
             210=0 220=0 230=-1",
        ],
    );
    let hull = found(&text, "HULL", DrawingUnit::Foot);
    let area_m2 = (160.0 + 16.0) * 0.3048 * 0.3048;
    assert!(
        (hull.outlines[0].outline.area() - area_m2).abs() < 1e-9,
        "{hull:?}"
    );
    let below = found(&text, "BELOW", DrawingUnit::Metre);
    let bounds = below.outlines[0].outline.bounds();
    assert!((bounds.min.x - 3.0).abs() < 1e-12 && (bounds.max.x - 9.0).abs() < 1e-12);
}

#[test]
fn bows_in_any_direction_come_to_point_forward() {
    let kite = Outline::new(vec![vec2(0.0, -1.0), vec2(4.0, 0.0), vec2(0.0, 1.0)]).unwrap();
    for (bow, turn) in [
        (BowTowards::Right, 0.0),
        (BowTowards::Up, 90.0_f64),
        (BowTowards::Left, 180.0),
        (BowTowards::Down, 270.0),
    ] {
        let turned = kite
            .vertices()
            .iter()
            .map(|p| p.rotated(turn.to_radians()) + vec2(7.0, -3.0));
        let placed = in_boat_frame(&Outline::new(turned.collect()).unwrap(), bow);
        assert!(placed.contains(&[4.0, 0.0]), "{bow:?}: {placed:?}");
    }
}

#[test]
fn files_that_are_no_drawings_are_told() {
    for bytes in [
        &b""[..],
        b"{\"version\": 1}",
        b"\x00\xff\x00",
        b"AutoCAD DXB 1.0\r\n\x1a\x00",
    ] {
        assert!(open(bytes).is_err(), "{bytes:?}");
    }
    assert_eq!(
        open(drawing(None, &[]).as_bytes()),
        Err(DrawingError::Empty)
    );
}

/// One change of a text: a line lost, doubled, or swapped for another; bytes overwritten; cut short.
fn mutate(text: &str, kind: u8, at: usize, byte: u8) -> Vec<u8> {
    let mut lines: Vec<&str> = text.lines().collect();
    let line = at % lines.len();
    match kind {
        0 => {
            lines.remove(line);
        }
        1 => lines.insert(line, lines[line]),
        2 => {
            lines[line] =
                ["-1", "1e999", "NaN", "99999999999", "SECTION", ""][usize::from(byte) % 6];
        }
        3 => lines.swap(line, (at / 7) % text.lines().count()),
        4 => return text.as_bytes()[..at % text.len()].to_vec(),
        _ => {
            let mut bytes = text.as_bytes().to_vec();
            let at = at % bytes.len();
            bytes[at] = byte;
            return bytes;
        }
    }
    lines.join("\n").into_bytes()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    /// A broken drawing is read or told, and never ends the program.
    #[test]
    fn broken_drawings_never_panic(
        changes in prop::collection::vec((0_u8..6, any::<usize>(), any::<u8>()), 1..4),
    ) {
        let mut bytes = drawing(Some(4), &[
            ROUND,
            "LINE 5=1 8=DECK 10=0 20=-1 11=5 21=-1",
            "ARC 5=3 8=DECK 10=5 20=0 40=1 50=270 51=90",
            "POLYLINE 8=DECK 66=1 70=1", "VERTEX 8=DECK 10=0 20=0", "VERTEX 8=DECK 10=2 20=0",
            "VERTEX 8=DECK 10=2 20=2 42=0.5", "SEQEND 8=DECK",
            "CIRCLE 5=9 8=DECK 10=2 20=1 40=0.3",
        ]).into_bytes();
        for (kind, at, byte) in changes {
            let text = String::from_utf8_lossy(&bytes).into_owned();
            if !text.is_empty() {
                bytes = mutate(&text, kind, at, byte);
            }
        }
        if let Ok(opened) = open(&bytes) {
            for layer in &opened.layers {
                for unit in DrawingUnit::ALL {
                    let found = opened.outlines(&layer.name, OutlineOptions::new(unit));
                    for outline in &found.outlines {
                        in_boat_frame(&outline.outline, BowTowards::Up);
                    }
                }
            }
        }
    }
}
