//! The same questions answered without any thought: the baseline beside each bench.

use snugdown::engine::numbers::PartNumbers;
use snugdown::engine::{DeckScene, Scene};
use snugdown::geometry::{Segment, Shape, Vec2, separation, vec2};

/// The side of a grid cell in metres. A finer grid would only take longer.
const GRID_M: f64 = 0.1;

/// Every pair of things, looked at: how many overlap.
pub(crate) fn overlaps(scene: &Scene) -> usize {
    let mut count = 0;
    for deck in &scene.decks {
        for (i, thing) in deck.things.iter().enumerate() {
            for other in &deck.things[..i] {
                count += usize::from(separation(&thing.shape, &other.shape).depth_m > 0.002);
            }
        }
    }
    count
}

/// Clear widths of the walkways between these ends, to the size of a grid cell: the room at every
/// point of a grid by a look at every wall, then the route whose tightest point is widest.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a deck has a positive size and few grid cells"
)]
pub(crate) fn clear_widths(deck: &DeckScene, ends: &[[Vec2; 2]]) -> Vec<f64> {
    let Some(floor) = &deck.floor else {
        return Vec::new();
    };
    let walls: Vec<(Segment, f64)> = (floor.boundary_edges().map(|edge| (edge, 0.0)))
        .chain(
            deck.things
                .iter()
                .filter(|t| t.to_m > 0.5)
                .flat_map(|t| pieces(&t.shape)),
        )
        .collect();
    let bounds = floor.bounds();
    let size = bounds.size();
    let (columns, rows) = (
        (size.x / GRID_M) as usize + 1,
        (size.y / GRID_M) as usize + 1,
    );
    let room: Vec<f64> = (0..columns * rows)
        .map(|cell| {
            let offset = vec2((cell % columns) as f64, (cell / columns) as f64);
            let p = bounds.min + GRID_M * offset;
            let inside = |t: &snugdown::engine::SceneThing| t.to_m > 0.5 && t.shape.contains(p);
            if !floor.contains(p) || deck.things.iter().any(inside) {
                return 0.0;
            }
            (walls.iter())
                .map(|(edge, radius)| edge.distance(p) - radius)
                .fold(f64::INFINITY, f64::min)
        })
        .collect();
    let mut order: Vec<usize> = (0..room.len()).collect();
    order.sort_by(|a, b| room[*b].total_cmp(&room[*a]));
    ends.iter()
        .map(|ends| {
            let near = |end: Vec2| -> Vec<usize> {
                (0..room.len())
                    .filter(|cell| {
                        let offset = vec2((cell % columns) as f64, (cell / columns) as f64);
                        (bounds.min + GRID_M * offset).distance(end) <= 0.45
                    })
                    .collect()
            };
            let (from, to) = (near(ends[0]), near(ends[1]));
            // Cells are opened from the roomiest on until the ends hang together.
            let mut group: Vec<usize> = (0..room.len()).collect();
            let mut open = vec![false; room.len()];
            for &cell in &order {
                open[cell] = true;
                let (x, y) = (cell % columns, cell / columns);
                let beside = [
                    (x > 0).then(|| cell - 1),
                    (x + 1 < columns).then(|| cell + 1),
                    (y > 0).then(|| cell - columns),
                    (y + 1 < rows).then(|| cell + columns),
                ];
                for next in beside.into_iter().flatten().filter(|next| open[*next]) {
                    let (a, b) = (root(&mut group, cell), root(&mut group, next));
                    group[a] = b;
                }
                let roots: Vec<usize> = (from.iter().filter(|cell| open[**cell]))
                    .map(|cell| root(&mut group, *cell))
                    .collect();
                let joined = (to.iter().filter(|cell| open[**cell]))
                    .any(|cell| roots.contains(&root(&mut group, *cell)));
                if joined {
                    return 2.0 * room[cell];
                }
            }
            0.0
        })
        .collect()
}

fn root(group: &mut [usize], mut cell: usize) -> usize {
    while group[cell] != cell {
        group[cell] = group[group[cell]];
        cell = group[cell];
    }
    cell
}

fn pieces(shape: &Shape) -> Vec<(Segment, f64)> {
    match shape {
        Shape::Disc { center, radius } => vec![(Segment::new(*center, *center), *radius)],
        Shape::Stadium { from, to, radius } => vec![(Segment::new(*from, *to), *radius)],
        Shape::Polygon(outline) => outline.edges().map(|edge| (edge, 0.0)).collect(),
    }
}

/// What lies within reach of every cylinder, by a look at every pair.
pub(crate) fn within_reach(numbers: &PartNumbers, scene: &Scene) -> usize {
    let things: Vec<_> = scene.decks.iter().flat_map(|deck| &deck.things).collect();
    (numbers.cylinders.iter())
        .map(|cylinder| {
            let reach = Shape::disc(cylinder.at.into(), cylinder.height_m + 0.1);
            (things.iter())
                .filter(|thing| separation(&reach, &thing.shape).gap_m <= 0.0)
                .count()
        })
        .sum()
}
