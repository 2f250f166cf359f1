//! Names on the plan: all that the lists name, and none over another.

use super::super::tests::{brief_of, many, texts};
use super::again::drawn_until_named;
use super::parts::part_name;
use super::*;
use crate::checks::fixture;
use crate::geometry::Elementary as _;
use crate::layout::Cylinder;
use crate::sheet::Pen;
use crate::sheet::page::Mark;

fn of<'a>(plan: &'a Plan, brief: &'a Brief, facing: Facing) -> Of<'a> {
    Of {
        plan,
        brief,
        facing,
    }
}

/// A deck with a lashing between two named points, a free slot and a crowd about them.
fn lashed() -> Plan {
    let mut plan = fixture::plan(
        "deck 8x4; running; place G gate 1,1.9; place H helm 7,0; way W G H
         rack R1 sockets 2,-1 columns=6; slot P9 R1/1; stand P1 4,1.2; stand P2 4.3,1.2; stand P3 4.6,1.2
         point E1 3.6,1.2 h=0.2 strength=4; point E2 5.0,1.2 h=0.2 strength=4; lash L1 E1 P1+P2+P3 E2 h=0.44 strength=2.5",
    )
    .unwrap();
    plan.boat.racks[0].name = Some("Socket board starboard".to_owned());
    plan.boat.lashing_points[0].name = Some("eye by the bench, aft".to_owned());
    plan.boat.lashing_points[1].name = Some("eye by the bench, forward".to_owned());
    plan.trips[0].lashings[0].name = Some("long strap".to_owned());
    plan
}

/// Racks at both sides with straps across their fronts, benches before them, and bottles on their sides beneath straps.
fn racked() -> Plan {
    let mut plan = fixture::plan(
        "deck 9x4; running; place G gate 4,1.9; place H helm 8,0; way W G H
         fixture B1 bench 2..5,1.3..1.6 h=0.45; fixture B2 bench 2..5,-1.6..-1.3 h=0.45
         rack R1 bench 3.5,1.8 columns=8 pitch=0.25 edge=0.44 strength=2 fixings=9; front R1 F1 strap
         rack R2 bench 3.5,-1.8 columns=8 pitch=0.25 edge=0.44 strength=2 fixings=9; front R2 F2 strap
         slot P1 R1/1; slot P2 R1/2; slot P3 R1/5; slot S1 R2/1; slot S2 R2/4
         lie L1 6,0.5 towards=0; lie L2 6,-0.5 towards=0
         point E1 6,0.9 h=0.1 strength=4; point E2 6,0.1 h=0.1 strength=4
         point E3 6,-0.1 h=0.1 strength=4; point E4 6,-0.9 h=0.1 strength=4
         lash K1 E1 L1 E2 h=0.1 strength=2.5; lash K2 E3 L2 E4 h=0.1 strength=2.5",
    )
    .unwrap();
    for (rack, name) in plan
        .boat
        .racks
        .iter_mut()
        .zip(["Bench rack port", "Bench rack starboard"])
    {
        rack.name = Some(name.to_owned());
    }
    let points = plan.boat.lashing_points.iter_mut();
    for (point, side) in points.zip(["port, out", "port, in", "starboard, in", "starboard, out"]) {
        point.name = Some(format!("track {side}"));
    }
    plan
}

/// Names that stand over each other, by their places on the page.
fn overlaps(page: &Page) -> Vec<(String, String)> {
    let texts = texts(page);
    let mut found = Vec::new();
    for (i, (a, one)) in texts.iter().enumerate() {
        for (b, other) in &texts[i + 1..] {
            // Half a tenth of a millimetre is rounding.
            let apart = a[2] <= b[0] + 0.05
                || b[2] <= a[0] + 0.05
                || a[3] <= b[1] + 0.05
                || b[3] <= a[1] + 0.05;
            if !apart {
                found.push((one.clone(), other.clone()));
            }
        }
    }
    found
}

const FACINGS: [Facing; 4] = [
    Facing::Ahead,
    Facing::Astern,
    Facing::Port,
    Facing::Starboard,
];

#[test]
fn no_name_stands_over_another() {
    let boats = [
        ("lashed", lashed()),
        ("racked", racked()),
        ("24 loose", many(24)),
        ("120 loose", many(120)),
    ];
    for (name, plan) in &boats {
        let brief = brief_of(plan);
        for deck in decks_to_draw(&brief) {
            for facing in FACINGS {
                for room in [(92.0, 175.0), (190.0, 105.0), (200.0, 200.0)] {
                    let piece = piece(
                        of(plan, &brief, facing),
                        deck,
                        Room::of(room),
                        &Extent::default(),
                        None,
                    );
                    let over = overlaps(&piece.page);
                    assert!(
                        over.is_empty(),
                        "{name}, {}, {facing:?}: {over:?}",
                        deck.name
                    );
                }
            }
        }
    }
}

/// What the lists name stands on the plan by the same names; what found no room is told.
#[test]
fn what_the_lists_name_is_named_on_the_plan() {
    for plan in [lashed(), racked()] {
        let brief = brief_of(&plan);
        for facing in FACINGS {
            let pieces = decks_to_draw(&brief).into_iter();
            let pieces = pieces.map(|deck| {
                piece(
                    of(&plan, &brief, facing),
                    deck,
                    Room::of((200.0, 200.0)),
                    &Extent::default(),
                    None,
                )
            });
            let pieces: Vec<Piece> = pieces.collect();
            let told: Vec<&str> = pieces.iter().flat_map(|piece| piece.page.texts()).collect();
            let mut wanted: Vec<String> = Vec::new();
            for row in &brief.lashing_list {
                wanted.extend([row.lashing.clone(), row.from.clone(), row.to.clone()]);
            }
            for row in brief.front_list.iter().filter(|row| row.shut) {
                wanted.extend([row.front.clone(), row.rack.clone()]);
            }
            for name in &wanted {
                let is_unnamed = pieces
                    .iter()
                    .any(|piece| piece.unnamed.iter().any(|it| it.name == *name));
                assert!(
                    told.contains(&name.as_str()) || is_unnamed,
                    "{name:?} of {}, {facing:?}",
                    brief.boat
                );
            }
            // As the crew gets it alone nothing is missing.
            if facing == super::facing(&plan, &brief) {
                for piece in &pieces {
                    assert_eq!(piece.unnamed, Vec::new(), "{}", brief.boat);
                }
            }
        }
    }
    let brief = brief_of(&lashed());
    assert_eq!(brief.lashing_list.len(), 1, "the strap is of the list");
}

/// What is named on the pieces of a deck: every text on them.
fn named(pieces: &[Drawn]) -> Vec<&str> {
    pieces.iter().flat_map(|it| it.page.texts()).collect()
}

/// Does it stand there, in one line or in two?
fn is_told(told: &[&str], name: &str, number: &str) -> bool {
    let full = format!("{name} {number}");
    told.contains(&full.as_str()) || told.windows(2).any(|pair| pair == [name, number])
}

/// Names that find no room on the deck stand on larger plans of its parts, each with its number, and the caption tells
/// how many.
#[test]
fn what_has_no_room_stands_on_a_larger_part() {
    let plan = many(60);
    let brief = brief_of(&plan);
    let deck = decks_to_draw(&brief)[0];
    for facing in [Facing::Ahead, Facing::Starboard] {
        let of = of(&plan, &brief, facing);
        let room = (120.0, 120.0);
        let whole = piece(of, deck, Room::of(room), &Extent::default(), None);
        let count = whole.unnamed.len();
        assert!(count > 10, "{count} of 60 names on twelve centimetres");
        let drawn = deck_and_parts(of, deck, [room, (190.0, 112.0)], 0.0);
        assert!(drawn.len() > 1, "{facing:?}");
        let told = named(&drawn);
        for row in &brief.load_list {
            let is_told = is_told(&told, &row.cylinder, &row.number);
            assert!(is_told, "{}, {facing:?}", row.cylinder);
        }
        let caption = &drawn[0].caption;
        let parts = drawn.len() - 1;
        let told = if parts == 1 {
            "part 1 is drawn larger".to_owned()
        } else {
            format!("parts 1 to {parts} are drawn larger")
        };
        assert!(caption.contains(&told), "{caption}");
        // On the small plan none of them is named, and brackets tell which part is which.
        let small: Vec<&str> = drawn[0].page.texts().collect();
        assert!(
            small.iter().all(|words| !words.starts_with('C')),
            "{small:?}"
        );
        for index in 0..parts {
            assert!(small.contains(&part_name(index).as_str()), "{small:?}");
        }
        for part in &drawn[1..] {
            let over = overlaps(&part.page);
            assert!(over.is_empty(), "{facing:?}: {over:?}");
            assert!(
                part.caption.contains("from the transom, scale 1:"),
                "{}",
                part.caption
            );
            inside(&part.page);
        }
    }
}

/// In the middle of a block names find room when their turn is first or where a line leads to them; no line runs over
/// a cylinder or through a name.
#[test]
fn what_stands_in_the_middle_of_a_block_is_named_at_last() {
    let mut plan = many(0);
    for index in 0..20_u32 {
        let (along, across) = (f64::from(index / 4), f64::from(index % 4));
        let placing = crate::layout::Placing::Standing {
            deck: plan.boat.decks[0].id.clone(),
            at: [4.0 + 0.3 * along, 0.3 * across],
            on: None,
        };
        let mut cylinder = Cylinder::new(&format!("U{index}"), "al-80cf", placing);
        cylinder.number = Some(format!("SPARE {index:02}"));
        plan.trips[0].cylinders.push(cylinder);
    }
    let brief = brief_of(&plan);
    let deck = decks_to_draw(&brief)[0];
    let of = of(&plan, &brief, Facing::Ahead);
    let (room, extent) = (Room::of((190.0, 112.0)), Extent::part((3.0, 6.5)));
    let first = piece(of, deck, room, &extent, None);
    let without = first.unnamed.len();
    assert!(without > 2, "{without} names have no room at first");
    let last = drawn_until_named(of, deck, room, &extent, first);
    assert_eq!(last.unnamed, Vec::new());
    let told: Vec<&str> = last.page.texts().collect();
    for row in &brief.load_list {
        assert!(is_told(&told, &row.cylinder, &row.number), "{}", row.number);
    }
    assert!(overlaps(&last.page).is_empty());
    let radius = 0.5 * 184.2 / last.scale;
    let discs = super::super::tests::discs(&last.page, 2.0 * radius);
    assert_eq!(discs.len(), 20);
    let legs = last.page.marks().iter().filter_map(|mark| match mark {
        Mark::Path(path) if path.pen == Some(Pen::solid(0.12)) && !path.closed => Some(path),
        _ => None,
    });
    let legs: Vec<[(f64, f64); 2]> = legs
        .flat_map(|path| path.points.windows(2).map(|pair| [pair[0], pair[1]]))
        .collect();
    assert!(!legs.is_empty(), "lines lead to some");
    for [a, b] in legs {
        let far = |from: (f64, f64), to: (f64, f64)| (to.0 - from.0).hypotenuse(to.1 - from.1);
        for middle in &discs {
            let long = far(a, b);
            let along = ((middle.0 - a.0) * (b.0 - a.0) + (middle.1 - a.1) * (b.1 - a.1)) / long;
            let share = (along / long).clamp(0.0, 1.0);
            let nearest = (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1));
            assert!(far(nearest, *middle) > radius - 0.05, "{a:?} to {b:?}");
        }
        for ([left, top, right, bottom], words) in texts(&last.page) {
            let name = super::Area {
                left: left + 0.1,
                top: top + 0.1,
                right: right - 0.1,
                bottom: bottom - 0.1,
            };
            assert!(!name.is_crossed((a, b)), "{a:?} to {b:?} through {words}");
        }
    }
}

/// Nothing on a page reaches beyond its paper.
fn inside(page: &Page) {
    let (wide, high) = (page.paper.width_mm(), page.paper.height_mm());
    for (area, words) in texts(page) {
        let [left, top, right, bottom] = area;
        let is_inside = left >= -0.1 && top >= -0.1 && right <= wide + 0.1 && bottom <= high + 0.1;
        assert!(is_inside, "{words:?} at {area:?}");
    }
    for mark in page.marks() {
        let crate::sheet::page::Mark::Path(path) = mark else {
            continue;
        };
        for (x, y) in &path.points {
            let is_inside = *x >= -0.1 && *y >= -0.1 && *x <= wide + 0.1 && *y <= high + 0.1;
            assert!(is_inside, "a line at {x}, {y}");
        }
    }
}

/// A part of a deck is to scale, and drawn nowhere but between its ends.
#[test]
fn a_part_of_a_deck_is_to_scale_and_ends_where_it_says() {
    let plan = many(24);
    let brief = brief_of(&plan);
    let deck = decks_to_draw(&brief)[0];
    for facing in FACINGS {
        let of = of(&plan, &brief, facing);
        let part = piece(
            of,
            deck,
            Room::of((190.0, 112.0)),
            &Extent::part((0.0, 6.0)),
            None,
        );
        let whole = piece(of, deck, Room::of((190.0, 112.0)), &Extent::default(), None);
        assert!(part.scale < whole.scale, "{facing:?}");
        assert_eq!(part.unnamed, Vec::new(), "{facing:?}");
        // From C0 at 1.0 m to C5 at 5.5 m; C6 stands at 6.4 m.
        let words: Vec<&str> = part.page.texts().collect();
        assert!(
            words.contains(&"C5 SN-0005") && !words.contains(&"C6 SN-0006"),
            "{words:?}"
        );
        // Both ends of the boat are told, also the one that is not drawn.
        assert!(
            words.contains(&"bow") && words.contains(&"stern"),
            "{words:?}"
        );
        inside(&part.page);
        let discs = super::super::tests::discs(&part.page, 184.2 / part.scale);
        assert_eq!(discs.len(), 6, "{facing:?}");
        let far = |a: &(f64, f64), b: &(f64, f64)| (a.0 - b.0).hypotenuse(a.1 - b.1);
        let most = discs
            .iter()
            .flat_map(|a| discs.iter().map(move |b| far(a, b)));
        let most = most.fold(0.0, f64::max) * part.scale / 1000.0;
        assert!(
            (most - 4.5).abs() < 0.02,
            "{most} m from the first to the last, {facing:?}"
        );
    }
}

/// Where there is no room even then it is told how many names are missing.
#[test]
fn what_has_no_room_is_told() {
    let plan = many(120);
    let brief = brief_of(&plan);
    let deck = decks_to_draw(&brief)[0];
    let drawn = deck_and_parts(
        of(&plan, &brief, Facing::Port),
        deck,
        [(60.0, 40.0); 2],
        0.0,
    );
    let caption = &drawn[0].caption;
    assert!(
        caption.contains("names found no room and stand in the lists"),
        "{caption}"
    );
    // On a deck with room nothing of the kind is said.
    let plan = many(4);
    let brief = brief_of(&plan);
    let deck = decks_to_draw(&brief)[0];
    let drawn = deck_and_parts(
        of(&plan, &brief, Facing::Port),
        deck,
        [(190.0, 105.0); 2],
        0.0,
    );
    assert_eq!(drawn.len(), 1);
    assert!(!drawn[0].caption.contains("name"), "{}", drawn[0].caption);
}

/// The mark of the set-down spot hides nothing that stands there, and no name lies over it.
#[test]
fn the_set_down_spot_hides_nothing() {
    let plan = fixture::plan(
        "deck 8x4; running; place G gate 1,1.9; place D set_down 4,1.0; stand P1 4.1,1.0; stand P2 3.7,1.0",
    )
    .unwrap();
    let brief = brief_of(&plan);
    let deck = decks_to_draw(&brief)[0];
    for facing in FACINGS {
        let of = of(&plan, &brief, facing);
        let piece = piece(of, deck, Room::of((190.0, 105.0)), &Extent::default(), None);
        let square = piece.page.marks().iter().find_map(|mark| match mark {
            crate::sheet::page::Mark::Path(path) => {
                let is_mark = path.closed && path.points.len() == 4;
                let dashed = path.pen.is_some_and(|pen| pen.dashed);
                (is_mark && dashed).then_some(path)
            }
            crate::sheet::page::Mark::Text(_) => None,
        });
        let square = square.unwrap();
        assert_eq!(square.fill, None, "{facing:?}");
        let (low, high) = (square.points[0], square.points[2]);
        for (area, words) in texts(&piece.page) {
            let apart =
                area[2] <= low.0 || high.0 <= area[0] || area[3] <= low.1 || high.1 <= area[1];
            assert!(apart, "{words:?} over the set-down spot, {facing:?}");
        }
    }
}

/// What leads from the reader to the words for it strikes no name through.
#[test]
fn the_line_to_the_reader_runs_through_no_name() {
    // The gate stands beside the middle of the stern, whose word is below it.
    let plan = fixture::plan("deck 20x5; fast; place G gate 0.2,0.3; stand P1 5,0").unwrap();
    let brief = brief_of(&plan);
    let deck = decks_to_draw(&brief)[0];
    let of = of(&plan, &brief, Facing::Ahead);
    let piece = piece(of, deck, Room::of((92.0, 175.0)), &Extent::default(), None);
    let stern = texts(&piece.page)
        .into_iter()
        .find(|(_, words)| words == "stern");
    let [left, top, right, bottom] = stern.unwrap().0;
    let line = piece.page.marks().iter().find_map(|mark| match mark {
        crate::sheet::page::Mark::Path(path) => {
            let is_line = !path.closed && path.points.len() == 2;
            (is_line && path.pen == Some(crate::sheet::Pen::solid(0.25))).then_some(&path.points)
        }
        crate::sheet::page::Mark::Text(_) => None,
    });
    let (from, to) = (line.unwrap()[0], line.unwrap()[1]);
    for step in 0..=200 {
        let share = f64::from(step) / 200.0;
        let (x, y) = (
            from.0 + share * (to.0 - from.0),
            from.1 + share * (to.1 - from.1),
        );
        let inside = left < x && x < right && top < y && y < bottom;
        assert!(!inside, "through \"stern\" at {x}, {y}");
    }
}

/// The ends of a stretch cut no cylinder.
#[test]
fn a_stretch_ends_between_cylinders() {
    let cylinders = [(0.9, 1.1), (1.05, 1.25), (3.95, 4.15)];
    let (from, to) = super::parts::between_cylinders((1.0, 4.0), &cylinders);
    assert!(from < 0.9 && from > 0.8, "{from}");
    assert!(to > 4.15 && to < 4.25, "{to}");
    // Nor one that begins just beyond them.
    let (_, to) = super::parts::between_cylinders((1.0, 4.0), &[(4.01, 4.19)]);
    assert!(to > 4.19 && to < 4.25, "{to}");
    // What is well clear of them stays out.
    let (from, to) = super::parts::between_cylinders((1.0, 4.0), &[(0.5, 0.7), (4.1, 4.3)]);
    assert!(
        (from - 1.0).abs() < 1e-9 && (to - 4.0).abs() < 1e-9,
        "{from} to {to}"
    );
}

/// What is looked for in need has its name however small it is drawn, and the box for the reader names the gate.
#[test]
fn what_is_for_need_and_the_gate_are_named() {
    let mut plan = fixture::plan(
        "deck 8x4; running; place G gate 1,1.9; place H helm 7,0; way W G H; stand P1 4,1.2
         fixture O oxygen_kit 6..6.15,0..0.15 h=0.3; fixture X extinguisher 5..5.1,-1..-0.9 h=0.4",
    )
    .unwrap();
    plan.boat.fixtures[0].name = Some("Oxygen kit".to_owned());
    plan.boat.fixtures[1].name = Some("Extinguisher aft".to_owned());
    plan.boat.places[0].name = Some("Side gate".to_owned());
    let brief = brief_of(&plan);
    let deck = decks_to_draw(&brief)[0];
    for facing in FACINGS {
        let of = of(&plan, &brief, facing);
        let piece = piece(of, deck, Room::of((190.0, 105.0)), &Extent::default(), None);
        let words: Vec<&str> = piece.page.texts().collect();
        let all = words.join(" ");
        for wanted in [
            "Oxygen kit",
            "Extinguisher aft",
            "you stand here: Side gate",
        ] {
            assert!(all.contains(wanted), "{wanted}, {facing:?}: {words:?}");
        }
    }
}

/// What lies is black at its valve; what stands is not, with kit or without.
#[test]
fn what_lies_and_what_stands_are_told_apart() {
    let plan = fixture::plan(
        "deck 8x4; running; place G gate 1,1.9; lie L1 3,0 towards=0; stand P1 5,0; stand P2 6,0 kit=90",
    )
    .unwrap();
    let brief = brief_of(&plan);
    let deck = decks_to_draw(&brief)[0];
    let of = of(&plan, &brief, Facing::Port);
    let page = piece(of, deck, Room::of((190.0, 105.0)), &Extent::default(), None).page;
    let caps = page.marks().iter().filter_map(|mark| match mark {
        crate::sheet::page::Mark::Path(path) => {
            let is_cap = path.fill == Some(0.0) && path.points.len() > 6;
            is_cap.then_some(&path.points)
        }
        crate::sheet::page::Mark::Text(_) => None,
    });
    let caps: Vec<_> = caps.collect();
    assert_eq!(caps.len(), 1, "one lies");
    // Facing to port the bow is at the right, and so is the valve.
    let lying = deck
        .things
        .iter()
        .find(|thing| thing.thing.id == "L1")
        .unwrap();
    let middle = lying.shape.centroid().x;
    let whole = discs_and_all(&page);
    let right = caps[0].iter().map(|at| at.0).fold(0.0, f64::max);
    assert!(
        right > whole.0 + (whole.1 - whole.0) * middle / 8.0,
        "{right}"
    );
}

/// From the left end of the deck to its right.
fn discs_and_all(page: &Page) -> (f64, f64) {
    let deck = page.marks().iter().find_map(|mark| match mark {
        crate::sheet::page::Mark::Path(path) => Some(&path.points),
        crate::sheet::page::Mark::Text(_) => None,
    });
    let across = deck.unwrap().iter().map(|at| at.0);
    across.fold((f64::INFINITY, 0.0), |(low, high), x| {
        (low.min(x), x.max(high))
    })
}
