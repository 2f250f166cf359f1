use super::*;
use crate::sheet::Paper;
#[test]
fn a_name_takes_the_first_side_with_room_or_a_shorter_name_does() {
    let mut page = Page::new(Paper::Cut { wide: 60, high: 40 });
    let paper = Area {
        left: 0.0,
        top: 0.0,
        right: 60.0,
        bottom: 40.0,
    };
    let mut labels = Labels::new(paper);
    let names = ["P1 38001P".to_owned(), "P1".to_owned()];
    let named = |x: f64| Named {
        at: (x, 20.0),
        radius: 1.5,
        names: &names,
        size_pt: 8.0,
        over_lines: true,
    };
    let sides = [(Off::Right, 0.0), (Off::Left, 0.0)];
    assert_eq!(labels.beside(&mut page, &named(20.0), &sides), Some(0));
    assert_eq!(labels.beside(&mut page, &named(20.0), &sides), Some(0));
    assert_eq!(page.texts().collect::<Vec<_>>(), ["P1 38001P", "P1 38001P"]);
    assert_eq!(
        labels.beside(&mut page, &named(20.0), &sides),
        None,
        "both sides are taken"
    );
    let short = labels.beside(&mut page, &named(53.0), &sides[..1]);
    assert_eq!(short, Some(1));
    assert_eq!(
        page.texts().last(),
        Some("P1"),
        "the long name would be cut off"
    );
}

fn paper() -> Area {
    Area {
        left: 0.0,
        top: 0.0,
        right: 60.0,
        bottom: 40.0,
    }
}

#[test]
fn a_name_stands_clear_of_bodies_names_and_lines_or_is_led_to() {
    let mut page = Page::new(Paper::Cut { wide: 60, high: 40 });
    let mut labels = Labels::new(paper());
    let at = [(30.0, 20.0)];
    assert!(labels.near(&mut page, ("cord one", 6.0), (&at, 1.0), 30.0));
    assert_eq!(
        page.marks().len(),
        2,
        "close by, so no line leads to it: white and a name"
    );
    // All round it is taken: the name goes farther away, and a line leads to it.
    labels.take(Area::about((30.0, 20.0), (9.0, 7.0)));
    assert!(labels.near(&mut page, ("cord two", 6.0), (&at, 1.0), 30.0));
    assert_eq!(page.marks().len(), 5, "a line, white and a name");
    let second = labels.names[1];
    assert!(
        !second.meets(Area::about((30.0, 20.0), (9.0, 7.0))),
        "{second:?}"
    );
    // Where all of the paper is taken there is no room.
    labels.take(Area::about((30.0, 20.0), (30.0, 20.0)));
    assert!(!labels.near(&mut page, ("cord three", 6.0), (&at, 1.0), 30.0));
    assert!(page.texts().all(|text| text != "cord three"), "not written");
}

#[test]
fn names_keep_off_broad_lines() {
    let mut page = Page::new(Paper::Cut { wide: 60, high: 40 });
    let mut labels = Labels::new(paper());
    labels.keep_off(&[(0.0, 20.0), (60.0, 20.0)], Weight::Heavy);
    labels.keep_off(&[(30.0, 0.0), (30.0, 40.0)], Weight::Thin);
    assert!(labels.near(&mut page, ("strap", 6.0), (&[(30.0, 20.0)], 0.5), 30.0));
    assert!(
        labels.lines_through(labels.names[0]) < 1e-9,
        "{:?}",
        labels.names[0]
    );
}

#[test]
fn lines_run_through_areas_and_past_them() {
    let area = Area::about((10.0, 10.0), (2.0, 1.0));
    for (line, through) in [
        (((0.0, 10.0), (20.0, 10.0)), true),
        (((0.0, 8.0), (20.0, 8.0)), false),
        (((7.0, 8.0), (9.5, 10.5)), true),
        (((6.0, 10.5), (9.0, 13.5)), false),
        (((10.0, 0.0), (10.0, 8.9)), false),
    ] {
        assert_eq!(area.is_crossed(line), through, "{line:?}");
    }
}

/// In a grid of circles the name of one in the middle stands beyond none of its neighbours.
#[test]
fn no_name_stands_in_line_beyond_something_else() {
    let mut labels = Labels::new(paper());
    for x in [20.0, 24.0, 28.0] {
        labels.take_named(vec![Area::round((x, 20.0), 1.0)]);
    }
    let names = ["U10".to_owned()];
    let named = |at| Named {
        at,
        radius: 1.0,
        names: &names,
        size_pt: 7.0,
        over_lines: true,
    };
    let mut page = Page::new(Paper::Cut { wide: 60, high: 40 });
    let far = [(Off::Left, 6.0), (Off::Right, 6.0)];
    let of_middle = named((24.0, 20.0));
    assert_eq!(labels.beside(&mut page, &of_middle, &far), None);
    let up = [(Off::Left, 6.0), (Off::Up, 0.0)];
    assert_eq!(labels.beside(&mut page, &of_middle, &up), Some(0));
    assert!(labels.names[0].bottom < 19.0, "{:?}", labels.names[0]);
    // The outer ones have their names at the same distance, for nothing stands between.
    assert_eq!(
        labels.beside(&mut page, &named((20.0, 20.0)), &far),
        Some(0)
    );
}

/// A name without a line to it is clearly nearer to its own than to anything else with a name.
#[test]
fn a_name_halfway_between_two_is_of_neither() {
    let mut labels = Labels::new(paper());
    let at = [(20.0, 20.0), (32.6, 20.0)];
    for at in at {
        labels.take_named(vec![Area::round(at, 1.5)]);
    }
    // Between the circles there are 9.6 mm, of which the name takes all but 0.7 mm at each end.
    let names = ["C83 S083".to_owned()];
    let size_pt = 7.0 * 7.6 / width_mm(&names[0], 7.0);
    let named = Named {
        at: at[0],
        radius: 1.5,
        names: &names,
        size_pt,
        over_lines: true,
    };
    let mut page = Page::new(Paper::Cut { wide: 60, high: 40 });
    assert_eq!(labels.beside(&mut page, &named, &[(Off::Right, 0.0)]), None);
    assert!(labels.near(&mut page, (&names[0], size_pt), (&at[..1], 1.5), 15.0));
    let area = labels.names[0];
    let (own, other) = (labels.named[0][0].gap(area), labels.named[1][0].gap(area));
    assert!(own * NEARER_AT_LEAST <= other, "{own} and {other}");
}

const NEARER_AT_LEAST: f64 = 1.5;

/// What leads to a name runs through nothing that has a name of its own, and nothing is written over it.
#[test]
fn what_leads_to_a_name_runs_through_nothing_else() {
    let mut labels = Labels::new(paper());
    labels.take(Area::about((30.0, 20.0), (6.0, 3.0)));
    labels.take_named(vec![Area::about((30.0, 28.0), (25.0, 1.0))]);
    labels.take_named(vec![Area::about((30.0, 12.0), (25.0, 1.0))]);
    let mut page = Page::new(Paper::Cut { wide: 60, high: 40 });
    for name in ["eye", "strap", "track", "chain"] {
        if !labels.near(&mut page, (name, 7.0), (&[(30.0, 20.0)], 1.0), 40.0) {
            break;
        }
    }
    assert!(labels.leaders.len() >= 2, "{:?}", labels.leaders);
    for line in &labels.leaders {
        let through = labels
            .named
            .iter()
            .flatten()
            .any(|area| area.is_crossed(*line));
        assert!(!through, "{line:?}");
        let own = labels
            .names
            .iter()
            .filter(|area| area.grown(-0.05).is_crossed(*line));
        assert_eq!(own.count(), 0, "{line:?} runs through a name");
    }
}

/// Out of a lane whose mouth is shut no straight line leads to a name, a bent one does; it runs through nothing either.
#[test]
fn a_bent_line_leads_where_no_straight_one_does() {
    let mut labels = Labels::new(paper());
    let at = [(30.0, 20.0)];
    labels.take_named(vec![Area::round(at[0], 1.0)]);
    // A lane upwards between two blocks, and a block beyond its mouth.
    let block = |left, top, right, bottom| Area {
        left,
        top,
        right,
        bottom,
    };
    let blocks = [
        block(0.0, 10.0, 28.5, 40.0),
        block(31.5, 10.0, 60.0, 40.0),
        block(28.5, 22.0, 31.5, 40.0),
        block(26.0, 0.0, 34.0, 8.0),
    ];
    for block in blocks {
        labels.take_named(vec![block]);
    }
    let mut page = Page::new(Paper::Cut { wide: 60, high: 40 });
    let (name, here) = (("strap", 7.0), (&at[..], 1.0));
    assert!(!labels.near(&mut page, name, here, 45.0));
    assert!(labels.bent(&mut page, name, here, 45.0));
    assert_eq!(page.texts().collect::<Vec<_>>(), ["strap"]);
    assert_eq!(labels.leaders.len(), 2, "two legs");
    for line in &labels.leaders {
        assert!(
            !blocks.iter().any(|area| area.is_crossed(*line)),
            "{line:?}"
        );
    }
    assert_eq!(
        labels.leaders[0].1, labels.leaders[1].0,
        "from bend to bend"
    );
    let [name] = labels.names[..] else {
        panic!("one name")
    };
    assert!(!blocks.iter().any(|area| area.meets(name)), "{name:?}");
    // Shut in on all sides there is no room.
    labels.take_named(vec![block(28.5, 12.0, 31.5, 14.0)]);
    assert!(!labels.bent(&mut page, ("cord", 7.0), here, 45.0));
}
