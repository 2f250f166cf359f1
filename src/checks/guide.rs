//! The checks as a document, and the tiny decks of each as pictures.

use std::fmt::Write as _;

use super::{ALL, Check};
use crate::engine::numbers::ThingSort;
use crate::engine::{Assessor, Scene};
use crate::geometry::{Shape, Vec2};
use crate::layout::Plan;

/// Points on paper for a metre on deck.
const SCALE: f64 = 60.0;

/// Margin round a deck, in metres.
const MARGIN_M: f64 = 0.2;

/// Angle of the steps in which round things are drawn.
const STEP_RAD: f64 = 0.2;

/// `docs/checks.md`: every check with what it looks at, why, and where that comes from.
pub fn markdown() -> String {
    let mut text = String::from(
        "# Checks\n\nEvery check of the program, generated from the code; `snugdown explain CODE` tells the \
         same. Each has two tiny decks: one where it just speaks, and one where it is just silent.\n\n\
         | code | up to | what is wrong |\n| --- | --- | --- |\n",
    );
    for check in ALL {
        let Check {
            code,
            name,
            summary,
            signal,
            ..
        } = check;
        writeln!(
            text,
            "| [{code}](#{}-{name}) | {signal} | {summary} |",
            code.to_lowercase()
        )
        .ok();
    }
    for check in ALL {
        writeln!(text, "\n## {} {}\n", check.code, check.name).ok();
        writeln!(text, "{}: up to {}.\n", check.summary, check.signal).ok();
        for line in check.docs.lines() {
            let line = line.strip_prefix(' ').unwrap_or(line).trim_end();
            // One level deeper than in the code, where the check is the page.
            match line.strip_prefix("## ") {
                Some(heading) => writeln!(text, "### {heading}"),
                None => writeln!(text, "{line}"),
            }
            .ok();
        }
        writeln!(
            text,
            "\n| it speaks | it is silent |\n| --- | --- |\n| ![]({0}) | ![]({1}) |",
            picture_path(check, 0),
            picture_path(check, 1)
        )
        .ok();
    }
    text
}

/// Where the picture of a tiny deck lies, seen from `docs/`: 0 where the check speaks, 1 where it is silent.
pub fn picture_path(check: &Check, which: usize) -> String {
    let what = if which == 0 { "speaks" } else { "silent" };
    format!("checks/{}-{what}.svg", check.code.to_lowercase())
}

/// The deck plan of the first part of the day as a drawing.
pub fn picture(plan: &Plan) -> String {
    let mut assessor = Assessor::default();
    if let Some(trip) = plan.trips.first() {
        assessor.assess(plan, trip);
    }
    assessor.scenes().first().map(drawing).unwrap_or_default()
}

fn drawing(scene: &Scene) -> String {
    let Some(deck) = scene.decks.first() else {
        return String::new();
    };
    let Some(floor) = &deck.floor else {
        return String::new();
    };
    let bounds = floor.bounds().grown(MARGIN_M);
    let size = SCALE * bounds.size();
    // Bow right, port up: the paper's y runs down.
    let on_paper = |point: Vec2| {
        let at = point - bounds.min;
        (SCALE * at.x, size.y - SCALE * at.y)
    };
    let points = |points: &[Vec2]| -> String {
        let each = points.iter().map(|point| {
            let (x, y) = on_paper(*point);
            format!("{x:.1},{y:.1}")
        });
        each.collect::<Vec<_>>().join(" ")
    };
    let mut text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{:.0}\" height=\"{:.0}\" \
         font-family=\"sans-serif\" font-size=\"10\">\n",
        size.x, size.y
    );
    writeln!(
        text,
        "<polygon points=\"{}\" fill=\"#f8f5ea\" stroke=\"#333\" stroke-width=\"2\"/>",
        points(floor.outline().vertices())
    )
    .ok();
    for thing in &deck.things {
        let fill = match thing.sort {
            ThingSort::Edge | ThingSort::Fixture | ThingSort::Place => "#d8cdbb",
            ThingSort::Rack => "#eeeeee",
            ThingSort::Cylinder => "#f4c542",
            ThingSort::Gear | ThingSort::Lashing => "#b9c49a",
            ThingSort::Person => "#7fb2c4",
        };
        let (x, y) = on_paper(thing.shape.centroid());
        match &thing.shape {
            Shape::Disc { radius, .. } => writeln!(
                text,
                "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"{:.1}\" fill=\"{fill}\" stroke=\"#333\"/>",
                SCALE * radius
            ),
            shape => writeln!(
                text,
                "<polygon points=\"{}\" fill=\"{fill}\" fill-opacity=\"0.8\" stroke=\"#333\"/>",
                points(&shape.to_polygon(STEP_RAD).unwrap_or_default())
            ),
        }
        .ok();
        writeln!(
            text,
            "<text x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"middle\" dominant-baseline=\"middle\">{}</text>",
            escaped(&thing.name)
        )
        .ok();
    }
    text.push_str("</svg>\n");
    text
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;")
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;

    /// `docs/checks.md` and its pictures are those of the code; `UPDATE_DOCS=1` renews them.
    #[test]
    fn the_document_is_current() {
        let docs = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs");
        let mut files = vec![("checks.md".to_owned(), markdown())];
        for check in ALL {
            let plans = check.picture_plans();
            for (which, plan) in plans.iter().enumerate() {
                files.push((picture_path(check, which), picture(plan)));
            }
        }
        for (name, text) in files {
            let path = docs.join(name);
            if std::env::var_os("UPDATE_DOCS").is_some() {
                std::fs::create_dir_all(docs.join("checks")).unwrap();
                #[expect(clippy::disallowed_methods, reason = "a generated document")]
                std::fs::write(&path, &text).unwrap();
            }
            let there = std::fs::read_to_string(&path).unwrap_or_default();
            assert!(
                there == text,
                "run `UPDATE_DOCS=1 cargo test` to renew {}",
                path.display()
            );
            assert!(text.len() > 100, "{}", path.display());
        }
    }
}
