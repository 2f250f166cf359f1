//! How one cylinder could have come to the marked spot, seen from the side: where it stood, the arc of its
//! valve, the height of the valve at the spot, the energy, and the roll that it needed.

use super::{LIST_PT, SMALL_PT};
use crate::audit::{Arrival, Hinders, ReachRow};
use crate::geometry::Elementary as _;
use crate::sheet::{Align, Page, Paper, Pen, wrap};

/// Size of a picture in millimetres.
const WIDE_MM: f64 = 92.0;
const HIGH_MM: f64 = 62.0;

/// The deck line, in millimetres from the top.
const DECK_MM: f64 = 48.0;

/// Left of the axis, in millimetres.
const LEFT_MM: f64 = 14.0;

/// What the drawing may take, in millimetres: along the deck and above it.
const ROOM_MM: (f64, f64) = (70.0, 36.0);

/// The picture of one cylinder.
pub fn picture(row: &ReachRow) -> Page {
    let mut page = Page::new(Paper::Cut { wide: 92, high: 62 });
    let title = format!(
        "{}, stood {:.2} m from the transom, {}",
        row.cylinder,
        row.at[0],
        side(row.at[1])
    );
    page.bold((0.5, 4.0), LIST_PT, Align::Left, &title);
    let far = (row.edge_m + row.height_m).max(row.distance_m) + 0.1;
    let high = (row.floor_m + row.height_m).max(0.3);
    let mm_per_m = (ROOM_MM.0 / far).min(ROOM_MM.1 / high);
    let at = |out: f64, up: f64| (LEFT_MM + mm_per_m * out, DECK_MM - mm_per_m * up);
    page.line(
        &[(1.0, DECK_MM), (WIDE_MM - 1.0, DECK_MM)],
        false,
        Pen::solid(0.4),
    );
    in_between(&mut page, row, high, &at);
    let spot = at(row.distance_m, 0.0);
    let text = match row.how {
        Arrival::RollsThere | Arrival::FallsAndRolls => rolling(&mut page, row, &at),
        Arrival::FallsThere | Arrival::LongEnough => falling(&mut page, row, &at),
    };
    page.line(
        &[
            (spot.0 - 1.6, spot.1 + 1.2),
            spot,
            (spot.0 + 1.6, spot.1 + 1.2),
        ],
        false,
        Pen::solid(0.5),
    );
    let align = if spot.0 > WIDE_MM - 24.0 {
        Align::Right
    } else {
        Align::Middle
    };
    let words = format!("marked spot, {:.2} m off", row.distance_m);
    page.text(
        (spot.0.max(LEFT_MM), DECK_MM + 4.4),
        SMALL_PT,
        align,
        &words,
    );
    for (index, line) in wrap(&text, SMALL_PT, WIDE_MM - 2.0)
        .iter()
        .take(2)
        .enumerate()
    {
        let y = HIGH_MM - 5.2 + 3.0 * index as f64;
        page.text((0.5, y), SMALL_PT, Align::Left, line);
    }
    page
}

/// What it stood on, and what stands between it and the spot, cut by the plane; names above.
fn in_between(page: &mut Page, row: &ReachRow, high: f64, at: &dyn Fn(f64, f64) -> (f64, f64)) {
    if row.floor_m > 0.01 {
        let wide = row.radius_m.max(row.edge_m);
        let corners = [
            at(-wide, 0.0),
            at(wide, 0.0),
            at(wide, row.floor_m),
            at(-wide, row.floor_m),
        ];
        page.line(&corners, true, Pen::grey(0.3));
    }
    for it in &row.between {
        let top = it.height_m.min(high);
        // A pane is drawn no thinner than it can be seen.
        let far = it.off_m + it.deep_m.max(0.02);
        let corners = [
            at(it.off_m, 0.0),
            at(far, 0.0),
            at(far, top),
            at(it.off_m, top),
        ];
        let grey = if it.hinders == Hinders::StopsShort {
            0.7
        } else {
            0.93
        };
        page.fill(&corners, grey, Some(Pen::solid(0.25)));
        // At its foot, where no falling body is drawn.
        let (x, y) = at(0.5 * (it.off_m + far), 0.0);
        page.text((x, y - 1.0), SMALL_PT, Align::Middle, &it.thing);
    }
}

fn side(y: f64) -> String {
    if y >= 0.0 {
        format!("{y:.2} m to port")
    } else {
        format!("{:.2} m to starboard", -y)
    }
}

/// A corner of the body leaned over its edge: `behind` the edge and `up` along its axis, in metres.
fn leaned(row: &ReachRow, lean: f64, behind: f64, up: f64) -> (f64, f64) {
    let (sin, cos) = lean.sine_cosine();
    (
        row.edge_m + up * sin - behind * cos,
        row.floor_m + up * cos + behind * sin,
    )
}

fn body(row: &ReachRow, lean: f64, at: &dyn Fn(f64, f64) -> (f64, f64)) -> Vec<(f64, f64)> {
    let wide = 2.0 * row.edge_m;
    let (high, neck) = (row.height_m, 0.86 * row.height_m);
    let half = 0.35 * wide;
    [
        (0.0, 0.0),
        (wide, 0.0),
        (wide, neck),
        (0.5 * wide + 0.5 * half, high),
        (0.5 * wide - 0.5 * half, high),
        (0.0, neck),
    ]
    .into_iter()
    .map(|(behind, up)| {
        let (out, up) = leaned(row, lean, behind, up);
        at(out, up)
    })
    .collect()
}

/// The lean at which the middle of its top is over the spot.
fn lean_at_spot(row: &ReachRow) -> f64 {
    let length = row.height_m.hypotenuse(row.edge_m);
    let sine = ((row.distance_m - row.edge_m) / length).clamp(-1.0, 1.0);
    (sine.arc_sine() + row.edge_m.arc_tangent_over(row.height_m))
        .clamp(0.0, std::f64::consts::FRAC_PI_2)
}

fn falling(page: &mut Page, row: &ReachRow, at: &dyn Fn(f64, f64) -> (f64, f64)) -> String {
    page.fill(&body(row, 0.0, at), 0.9, Some(Pen::solid(0.35)));
    if row.is_stopped {
        return stopped(page, row, at);
    }
    let lean = lean_at_spot(row);
    page.line(&body(row, lean, at), true, Pen::dashed(0.35));
    let steps = 40;
    let arc: Vec<(f64, f64)> = (0..=steps)
        .map(|step| {
            let lean = f64::from(step) / f64::from(steps) * std::f64::consts::FRAC_PI_2;
            let (out, up) = leaned(row, lean, row.edge_m, row.height_m);
            at(out, up)
        })
        .collect();
    page.line(&arc, false, Pen::grey(0.4));
    let (out, up) = leaned(row, lean, row.edge_m, row.height_m);
    let (valve, foot) = (at(out, up), at(out, 0.0));
    page.line(&[valve, foot], false, Pen::dashed(0.25));
    if let Some(height) = row.valve_height_m {
        let words = format!("valve {height:.2} m high");
        let align = if valve.0 > WIDE_MM - 26.0 {
            Align::Right
        } else {
            Align::Left
        };
        let x = if align == Align::Right {
            valve.0 - 1.2
        } else {
            valve.0 + 1.2
        };
        page.text((x, valve.1 - 1.2), SMALL_PT, align, &words);
    }
    let how = row.how.words(false);
    let energy = row
        .energy_j
        .map_or_else(String::new, |joules| format!(", {joules:.0} J by then"));
    format!("{how}{energy}; it {}", row.needed.words)
}

/// How far it comes before something in between stops it.
fn stopped(page: &mut Page, row: &ReachRow, at: &dyn Fn(f64, f64) -> (f64, f64)) -> String {
    let lean = row.stopped_at_deg.unwrap_or(0.0).to_radians();
    page.line(&body(row, lean, at), true, Pen::dashed(0.35));
    let things = row.between.iter();
    let names: Vec<&str> = things
        .filter(|it| it.hinders == Hinders::StopsShort)
        .map(|it| it.thing.as_str())
        .collect();
    format!(
        "stopped by {} at {:.0}° of lean, as drawn; it {}",
        names.join(", "),
        lean.to_degrees(),
        row.needed.words
    )
}

fn rolling(page: &mut Page, row: &ReachRow, at: &dyn Fn(f64, f64) -> (f64, f64)) -> String {
    let radius = row.radius_m.max(0.04);
    let ring = |out: f64| -> Vec<(f64, f64)> {
        let steps = (0..40).map(|step| f64::from(step) * std::f64::consts::TAU / 40.0);
        steps
            .map(|turn| at(out + radius * turn.cosine(), radius + radius * turn.sine()))
            .collect()
    };
    if row.how == Arrival::FallsAndRolls {
        page.fill(&body(row, 0.0, at), 0.9, Some(Pen::solid(0.35)));
    } else {
        page.fill(&ring(0.0), 0.9, Some(Pen::solid(0.35)));
    }
    page.line(&ring(row.distance_m), true, Pen::dashed(0.35));
    super::plan::arrow(
        page,
        at(radius, radius),
        at(row.distance_m - radius, radius),
    );
    let how = row.how.words(row.is_stopped);
    format!("{how}; it {}", row.needed.words)
}
