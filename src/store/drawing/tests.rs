use std::fmt::Write as _;

use super::*;
use crate::geometry::Elementary as _;
use proptest::prelude::*;

/// A drawing from group codes and values, with its unit.
fn drawing(units: Option<u8>, entities: &[&str]) -> String {
    with_blocks(units, &[], entities)
}

/// The same with blocks, in the same way from BLOCK to ENDBLK.
fn with_blocks(units: Option<u8>, blocks: &[&str], entities: &[&str]) -> String {
    let mut text = String::from("  0\nSECTION\n  2\nHEADER\n  9\n$ACADVER\n  1\nAC1015\n");
    if let Some(units) = units {
        write!(text, "  9\n$INSUNITS\n 70\n{units}\n").unwrap();
    }
    text.push_str("  0\nENDSEC\n");
    if !blocks.is_empty() {
        text.push_str("  0\nSECTION\n  2\nBLOCKS\n");
        lines(&mut text, blocks);
        text.push_str("  0\nENDSEC\n");
    }
    text.push_str("  0\nSECTION\n  2\nENTITIES\n");
    lines(&mut text, entities);
    text.push_str("  0\nENDSEC\n  0\nEOF\n");
    text
}

fn lines(text: &mut String, entities: &[&str]) {
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
fn reading_is_watched_and_can_be_given_up() {
    let many: Vec<String> = (0..3000)
        .map(|i| format!("LINE 5={i:X} 8=D 10={i} 20=0 11={i} 21=1"))
        .collect();
    let many: Vec<&str> = many.iter().map(String::as_str).collect();
    let text = drawing(Some(6), &many);
    let watch = crate::store::Watch::default();
    let read = open_watched(text.as_bytes(), &watch).unwrap();
    assert_eq!(read, open(text.as_bytes()).unwrap(), "as without a watch");
    assert!(watch.share() > 0.99, "{}", watch.share());
    let watch = crate::store::Watch::default();
    watch.give_up();
    assert_eq!(
        open_watched(text.as_bytes(), &watch),
        Err(DrawingError::GivenUp)
    );
    assert!(watch.share() < 0.01, "at once: {}", watch.share());
}

/// Half axes a and b enclose πab.
#[test]
fn an_ellipse_is_read_turned_or_in_part() {
    let text = drawing(
        Some(6),
        &[
            "ELLIPSE 5=E 8=WHOLE 100=AcDbEntity 100=AcDbEllipse 10=3 20=1 11=3 21=4 40=0.4 41=0 42=6.283185307179586",
            "ELLIPSE 5=F 8=HALF 100=AcDbEntity 100=AcDbEllipse 10=0 20=0 11=2 21=0 40=0.5 41=0 42=3.141592653589793",
            "LINE 5=10 8=HALF 10=-2 20=0 11=2 21=0",
        ],
    );
    let pi = std::f64::consts::PI;
    for (layer, area) in [("WHOLE", pi * 5.0 * 2.0), ("HALF", 0.5 * pi * 2.0)] {
        let found = found(&text, layer, DrawingUnit::Metre);
        assert!(found.faults.is_empty(), "{:?}", found.faults);
        let read = found.outlines[0].outline.area();
        assert!(
            (read - area).abs() < 1e-3 * area,
            "{layer}: {read} not {area}"
        );
        assert!(found.outlines[0].deviation_m <= 2e-3);
    }
    let whole = found(&text, "WHOLE", DrawingUnit::Metre);
    let bounds = whole.outlines[0].outline.bounds();
    // Half the height of an ellipse turned so: √((4)² + (0.4 · 3)²).
    let half = (16.0_f64 + 1.44).sqrt();
    assert!((bounds.max.y - (1.0 + half)).abs() < 2e-3, "{bounds:?}");
}

/// The circle as a rational B-spline of nine points (Piegl and Tiller, The NURBS Book, 2nd edition, 7.5).
fn circle_as_spline(layer: &str) -> String {
    let mut text =
        format!("SPLINE 5=B 8={layer} 100=AcDbEntity 100=AcDbSpline 70=4 71=2 72=12 73=9 74=0");
    for knot in [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4] {
        write!(text, " 40={knot}").unwrap();
    }
    for i in 0..9 {
        let weight = if i % 2 == 0 {
            1.0
        } else {
            std::f64::consts::FRAC_1_SQRT_2
        };
        write!(text, " 41={weight:.17}").unwrap();
    }
    for (x, y) in [
        (1, 0),
        (1, 1),
        (0, 1),
        (-1, 1),
        (-1, 0),
        (-1, -1),
        (0, -1),
        (1, -1),
        (1, 0),
    ] {
        write!(text, " 10={x} 20={y} 30=0").unwrap();
    }
    text
}

#[test]
fn a_spline_with_weights_is_the_circle_that_it_stands_for() {
    let text = drawing(Some(6), &[&circle_as_spline("DECK")]);
    let found = found(&text, "DECK", DrawingUnit::Metre);
    assert!(found.faults.is_empty(), "{:?}", found.faults);
    let outline = &found.outlines[0].outline;
    for corner in outline.vertices() {
        assert!((corner.length() - 1.0).abs() < 1e-12, "{corner:?}");
    }
    assert!((outline.area() - std::f64::consts::PI).abs() < 2e-3);
}

/// Through twelve points of a circle of 2 m: the area of the circle, within what the doubt says and the straight
/// pieces take.
#[test]
fn a_spline_by_its_fit_points_alone_is_read() {
    let mut spline = "SPLINE 5=B 8=D 100=AcDbEntity 100=AcDbSpline 70=1 71=3 74=12".to_owned();
    for i in 0..12 {
        let (sin, cos) = (f64::from(i) * std::f64::consts::TAU / 12.0).sine_cosine();
        write!(spline, " 11={} 21={} 31=0", 3.0 + 2.0 * cos, 2.0 * sin).unwrap();
    }
    let text = drawing(Some(6), &[&spline]);
    let found = found(&text, "D", DrawingUnit::Metre);
    assert!(found.faults.is_empty(), "{:?}", found.faults);
    let round = &found.outlines[0];
    let circle = 4.0 * std::f64::consts::PI;
    assert!(
        (round.outline.area() - circle).abs() < 2e-3 * circle,
        "{}",
        round.outline.area()
    );
    for corner in round.outline.vertices() {
        assert!(
            (corner.distance(vec2(3.0, 0.0)) - 2.0).abs() < 3e-3,
            "{corner:?}"
        );
    }
    // An open one through uneven points, closed by a line: the doubt is told.
    let open = "SPLINE 5=C 8=E 100=AcDbEntity 100=AcDbSpline 70=8 71=3 74=4 11=0 21=0 31=0 11=0.2 21=0.5 31=0 \
                11=3 21=1 31=0 11=4 21=0 31=0";
    let text = drawing(Some(6), &[open, "LINE 5=F 8=E 10=4 20=0 11=0 21=0"]);
    let found = self::found(&text, "E", DrawingUnit::Metre);
    assert!(found.faults.is_empty(), "{:?}", found.faults);
    assert!(
        found.outlines[0].deviation_m > 0.01,
        "{}",
        found.outlines[0].deviation_m
    );
}

#[test]
fn a_straight_spline_through_cubic_points_keeps_its_ends() {
    // A Bézier curve of degree 3: at the middle (p0 + 3 p1 + 3 p2 + p3) / 8.
    let spline = "SPLINE 5=B 8=D 100=AcDbEntity 100=AcDbSpline 70=8 71=3 72=8 73=4 74=0 40=0 40=0 40=0 40=0 \
                  40=1 40=1 40=1 40=1 10=0 20=0 30=0 10=0 20=4 30=0 10=8 20=4 30=0 10=8 20=0 30=0";
    let text = drawing(Some(6), &[spline, "LINE 5=C 8=D 10=8 20=0 11=0 21=0"]);
    let found = found(&text, "D", DrawingUnit::Metre);
    assert!(found.faults.is_empty(), "{:?}", found.faults);
    let bounds = found.outlines[0].outline.bounds();
    assert!((bounds.max.y - 3.0).abs() < 2e-3, "{bounds:?}");
    assert!((bounds.min.x, bounds.max.x) == (0.0, 8.0), "{bounds:?}");
}

#[test]
fn blocks_come_to_lie_where_they_are_put() {
    let blocks = [
        "BLOCK 8=0 2=HATCH 70=0 10=1 20=1",
        "LWPOLYLINE 5=21 8=0 100=AcDbEntity 100=AcDbPolyline 90=4 70=1 10=1 20=1 10=3 20=1 10=3 20=2 10=1 20=2",
        "ENDBLK",
        "BLOCK 8=0 2=BOTH 70=0 10=0 20=0",
        "INSERT 5=22 8=0 2=HATCH 10=0 20=0",
        "ENDBLK",
    ];
    let inserts = [
        // Turned a quarter and twice as large; then two side by side; then a block in a block, mirrored.
        "INSERT 5=31 8=TURNED 2=HATCH 10=10 20=0 41=2 42=2 50=90",
        "INSERT 5=32 8=ROW 2=HATCH 10=0 20=0 70=2 44=5",
        "INSERT 5=33 8=DEEP 2=BOTH 10=0 20=0 41=-1",
        "INSERT 5=34 8=GONE 2=NOWHERE 10=0 20=0",
        "LINE 5=35 8=GONE 10=0 20=0 11=1 21=0",
    ];
    let text = with_blocks(Some(6), &blocks, &inserts);
    let bounds = |layer: &str| {
        let found = found(&text, layer, DrawingUnit::Metre);
        assert!(found.faults.is_empty(), "{layer}: {:?}", found.faults);
        let all = found.outlines.iter().map(|item| item.outline.bounds());
        let all: Vec<[f64; 4]> = all.map(|b| [b.min.x, b.max.x, b.min.y, b.max.y]).collect();
        all
    };
    let close = |found: &[[f64; 4]], wanted: &[[f64; 4]]| {
        assert_eq!(found.len(), wanted.len(), "{found:?}");
        for (a, b) in found.iter().flatten().zip(wanted.iter().flatten()) {
            assert!((a - b).abs() < 1e-9, "{found:?} not {wanted:?}");
        }
    };
    close(&bounds("TURNED"), &[[8.0, 10.0, 0.0, 4.0]]);
    close(
        &bounds("ROW"),
        &[[0.0, 2.0, 0.0, 1.0], [5.0, 7.0, 0.0, 1.0]],
    );
    close(&bounds("DEEP"), &[[-2.0, 0.0, 0.0, 1.0]]);
    let gone = found(&text, "GONE", DrawingUnit::Metre);
    assert!(gone.faults[0].entity.contains("INSERT 34"), "{gone:?}");
    assert!(gone.faults[0].message.contains("NOWHERE"), "{gone:?}");
}

#[test]
fn an_arc_in_a_stretched_block_is_no_circle_any_more() {
    let blocks = [
        "BLOCK 8=0 2=DISC 70=0 10=0 20=0",
        "CIRCLE 5=41 8=0 10=0 20=0 40=1",
        "ENDBLK",
    ];
    let text = with_blocks(
        Some(6),
        &blocks,
        &["INSERT 5=42 8=D 2=DISC 10=0 20=0 41=3 42=1"],
    );
    let found = found(&text, "D", DrawingUnit::Metre);
    let area = found.outlines[0].outline.area();
    assert!((area - 3.0 * std::f64::consts::PI).abs() < 1e-2, "{area}");
    assert_eq!(found.outlines[0].entities, ["CIRCLE number 1 in INSERT 42"]);
}

#[test]
fn a_round_bow_in_a_mirrored_block_still_bulges_outwards() {
    let round = ROUND.replace("8=DECK", "8=0");
    let blocks = ["BLOCK 8=0 2=BOAT 70=0 10=0 20=0", round.as_str(), "ENDBLK"];
    for (insert, bow) in [
        (
            "INSERT 5=42 8=D 2=BOAT 10=0 20=0 41=-1 42=1",
            BowTowards::Left,
        ),
        (
            "INSERT 5=42 8=D 2=BOAT 10=0 20=0 41=1 42=-1",
            BowTowards::Right,
        ),
    ] {
        let text = with_blocks(Some(4), &blocks, &[insert]);
        let found = found(&text, "D", DrawingUnit::Millimetre);
        assert!(found.faults.is_empty(), "{:?}", found.faults);
        let outline = &found.outlines[0].outline;
        let area = 10.0 + std::f64::consts::FRAC_PI_2;
        assert!((outline.area() - area).abs() < 1e-2, "{}", outline.area());
        let placed = in_boat_frame(outline, bow);
        assert!(placed.contains(&[6.0, 0.0]), "{placed:?}");
    }
}

#[test]
fn a_block_in_itself_is_told_and_ends() {
    let blocks = [
        "BLOCK 8=0 2=LOOP 70=0 10=0 20=0",
        "INSERT 5=51 8=0 2=LOOP 10=1 20=0 70=30000 71=30000",
        "ENDBLK",
    ];
    let text = with_blocks(
        Some(6),
        &blocks,
        &[
            "INSERT 5=52 8=D 2=LOOP 10=0 20=0",
            "LINE 5=53 8=D 10=0 20=0 11=1 21=0",
        ],
    );
    let found = found(&text, "D", DrawingUnit::Metre);
    assert!(found.outlines.is_empty());
    assert!(!found.faults.is_empty());
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
        let block = ["BLOCK 8=0 2=HATCH 70=0 10=1 20=1", "LINE 5=1 8=0 10=0 20=-1 11=5 21=-1", "ENDBLK"];
        let mut bytes = with_blocks(Some(4), &block, &[
            ROUND,
            "LINE 5=1 8=DECK 10=0 20=-1 11=5 21=-1",
            "ARC 5=3 8=DECK 10=5 20=0 40=1 50=270 51=90",
            "POLYLINE 8=DECK 66=1 70=1", "VERTEX 8=DECK 10=0 20=0", "VERTEX 8=DECK 10=2 20=0",
            "VERTEX 8=DECK 10=2 20=2 42=0.5", "SEQEND 8=DECK",
            "CIRCLE 5=9 8=DECK 10=2 20=1 40=0.3",
            &circle_as_spline("DECK"),
            "ELLIPSE 5=E 8=DECK 100=AcDbEntity 100=AcDbEllipse 10=3 20=1 11=3 21=4 40=0.4 41=0 42=3",
            "INSERT 5=31 8=DECK 2=HATCH 10=10 20=0 41=2 42=2 50=90 70=2 44=5",
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
