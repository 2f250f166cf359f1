//! The lists of the sheet as tables, and the lines for signatures.

use super::{HEADING_PT, LIST_PT, ROOMY, Setting, TEXT_PT};
use crate::brief::{
    Brief, BrokenRule, LoadRow, LoadingStep, NO_PULL_N, at_set_down, heel_words, natural, runs,
    without_measures,
};
use crate::checks::words;
use crate::mechanics::motion::GRAVITY;
use crate::sheet::flow::Flow;
use crate::sheet::texts::Texts;
use crate::sheet::{Column, Table, TableStyle};

/// Room for a wet hand that ticks, in millimetres.
const ROW_MM: f64 = 7.5;

/// The least height of a row that nobody writes in, in millimetres.
const LINE_MM: f64 = 4.4;

/// The load list begins where so much is left of the page: its heading, what stands below it and three rows,
/// in millimetres.
const BEGIN_MM: f64 = 52.0;

/// Room for a signature, in millimetres.
const SIGNED_MM: f64 = 6.4;

/// What the load list says of what nothing secures.
const NOTHING: &str = "nothing";

/// A table whose columns take these shares of the page.
pub(super) fn table(
    flow: &Flow,
    columns: &[(&str, f64)],
    rows: Vec<Vec<String>>,
    (row_mm, Setting { pad_mm, .. }): (f64, Setting),
) -> Table {
    let all: f64 = columns.iter().map(|(_, share)| share).sum();
    let width = flow.width();
    Table {
        columns: columns
            .iter()
            .map(|(heading, share)| Column {
                heading: (*heading).to_owned(),
                width_mm: share / all * width,
            })
            .collect(),
        rows,
        style: TableStyle {
            size_pt: LIST_PT,
            row_mm,
            pad_mm,
            ruled: true,
        },
    }
    .with_room_for_words()
}

/// What comes aboard in the order in which it does; what is not in the order stands below.
pub(super) fn load_list(flow: &mut Flow, brief: &Brief, setting: Setting) {
    flow.room(BEGIN_MM);
    flow.heading(HEADING_PT, "Load list, in the loading order");
    order_words(flow, brief);
    let columns = [
        ("step", 7.5),
        ("name,\nnumber", 16.0),
        ("kind", 28.0),
        ("gas,\npressure", 19.7),
        ("diver", 12.0),
        ("analysed\nby, when", 15.5),
        ("where, how", 31.6),
        ("secured by", 18.4),
        ("hooked", 12.4),
        ("pushed", 12.4),
        ("by", 8.0),
        ("at", 8.5),
    ];
    let steps = &brief.loading.steps;
    let in_order = steps.iter().enumerate();
    let mut rows: Vec<Vec<String>> = in_order
        .filter_map(|(index, step)| {
            let row = brief.row(&step.cylinder)?;
            Some(load_row(brief, row, &format!("{}", index + 1), Some(step)))
        })
        .collect();
    let is_step = |row: &LoadRow| steps.iter().any(|step| step.cylinder == row.cylinder);
    let others = brief.load_list.iter().filter(|row| !is_step(row));
    rows.extend(others.map(|row| load_row(brief, row, "–", None)));
    if rows.is_empty() {
        flow.line(TEXT_PT, "No cylinders aboard in this plan.");
        return;
    }
    let table = table(flow, &columns, rows, (ROW_MM, setting));
    flow.table(&table);
}

fn load_row(
    brief: &Brief,
    row: &LoadRow,
    step: &str,
    loading: Option<&LoadingStep>,
) -> Vec<String> {
    let below = |first: &str, second: &str| {
        if second.is_empty() || first == second {
            first.to_owned()
        } else {
            format!("{first}\n{second}")
        }
    };
    // A slot stands with its posture on one line, its rack on the next.
    let mut how = match row.where_to.split_once(" of ") {
        Some((slot, rack)) if !row.slot.is_empty() => {
            format!("{slot}, {}\n{rack}", row.posture)
        }
        _ => on_deck(row),
    };
    for more in [&row.valve, &row.kit] {
        if !more.is_empty() {
            how = format!("{how}, {}", more.replace("valve ", "valve\u{a0}"));
        }
    }
    let held_by = row
        .secured_by
        .strip_prefix(&format!("slot {} and ", row.slot));
    let mut secured = held_by.unwrap_or(&row.secured_by).to_owned();
    let rules = loading.map_or(&[][..], |step| &step.broken);
    // That nothing secures it stands there already.
    let others = rules
        .iter()
        .filter(|rule| secured != NOTHING || **rule != BrokenRule::NotSecured);
    let others: Vec<String> = others.map(BrokenRule::sentence).collect();
    if secured == NOTHING {
        secured = format!("{NOTHING}: put right first");
    }
    for sentence in others {
        secured = format!("{secured}. {sentence}");
    }
    let tick = brief.tick(&row.cylinder);
    if let Some(reason) = tick.and_then(|tick| tick.skipped.as_ref()) {
        secured = format!("{secured}. Skipped: {reason}");
    }
    let mut cells = vec![
        step.to_owned(),
        below(&row.cylinder, &row.number),
        without_measures(&row.kind).to_owned(),
        below(&row.gas, &row.pressure),
        row.diver.clone(),
        row.analysed.clone(),
        how,
        secured,
    ];
    if let Some(tick) = tick {
        let done = if tick.skipped.is_some() {
            "skipped"
        } else {
            "yes"
        };
        cells.extend([
            done.to_owned(),
            done.to_owned(),
            tick.by.clone(),
            time_of(&tick.when).to_owned(),
        ]);
    }
    cells
}

/// Where something is that is in no slot: how and on what on one line, its distances on a line each.
fn on_deck(row: &LoadRow) -> String {
    let mut words = row.where_to.rsplitn(3, ", ");
    match (words.next(), words.next(), words.next()) {
        (Some(across), Some(along), Some(deck)) if along.ends_with(FROM_TRANSOM) => {
            let along = along.trim_end_matches(FROM_TRANSOM);
            format!("{} {deck}\n{along} from transom\n{across}", row.posture)
        }
        _ => format!("{}, {}", row.where_to, row.posture),
    }
}

/// How the load list tells a distance along the boat.
const FROM_TRANSOM: &str = " from the transom";

/// The time of day in a date with a time.
fn time_of(when: &str) -> &str {
    let mut words = when.split_whitespace();
    words.find(|word| word.contains(':')).unwrap_or(when)
}

/// Hand-over, set-down spot, the greatest heel on the way, and what is doubtful.
fn order_words(flow: &mut Flow, brief: &Brief) {
    let loading = &brief.loading;
    let named =
        |name: &Option<String>| name.clone().unwrap_or_else(|| "not in the plan".to_owned());
    let heel = loading.greatest_heel_deg.map_or_else(
        || "How far she leans is not known".to_owned(),
        |deg| {
            format!(
                "The greatest heel on the way {deg:.1}°, not to pass {:.1}°",
                loading.most_heel_deg
            )
        },
    );
    let at_end = loading.steps.last().and_then(|step| step.heel_deg);
    let at_end = at_end.map_or_else(String::new, |deg| {
        format!(", {} with all aboard", heel_words(deg))
    });
    let by_hand = if loading.by_hand {
        " The order is as the crew set it."
    } else {
        ""
    };
    let gap = loading.gap_to_quay_m.map_or_else(String::new, |gap_m| {
        format!(", over a gap of {gap_m:.2} m to the quay")
    });
    let loose = loading.steps.iter();
    let loose = loose.filter(|step| step.broken.contains(&BrokenRule::NotSecured));
    let mut loose: Vec<&str> = loose.map(|step| step.cylinder.as_str()).collect();
    loose.sort_by_key(|name| natural(name));
    let each = if loose.is_empty() {
        "Each one is secured before the next is handed over"
    } else {
        "Each other one is secured before the next is handed over"
    };
    let mut texts = Texts::new(flow.width());
    texts.paragraph(
        TEXT_PT,
        &format!(
            "Handed aboard at: {}{gap}. If passing stops, lay them down {}. {heel}{at_end}. {each}.{by_hand}",
            named(&loading.hand_over),
            (loading.set_down.as_deref()).map_or_else(|| "where it was agreed".to_owned(), at_set_down),
        ),
    );
    if !loose.is_empty() {
        let them = runs(&loose).join(", ");
        let text =
            format!("Do not load {them} before something holds them: in the plan nothing does.");
        texts.point(TEXT_PT, "–", &text);
    }
    // What is not in the plan stands above already.
    let told = [
        "The plan has no set-down",
        "GM or displacement is not known",
    ];
    let remarks = loading.remarks.iter();
    for remark in remarks.filter(|remark| !told.iter().any(|it| remark.starts_with(it))) {
        texts.point(TEXT_PT, "–", remark);
    }
    texts.gap(1.0);
    flow.texts(&texts);
}

/// Which strap, from what round what to which point, at what height, how tight, and what it takes.
pub(super) fn lashing_list(flow: &mut Flow, brief: &Brief, setting: Setting) {
    const HEADING: &str = "Lashing list";
    let mut rows: Vec<Vec<String>> = brief
        .lashing_list
        .iter()
        .map(|row| {
            vec![
                row.lashing.clone(),
                format!("{} to {}; {}", row.from, row.to, material(&row.material)),
                row.round_words.clone(),
                format!(
                    "{:.2} m{}",
                    row.height_m,
                    if row.along { " along it" } else { "" }
                ),
                row.how_tight.clone(),
                if row.gives_way {
                    "gives way: put that right".to_owned()
                } else {
                    push_test(row.push_test_mm, &row.how_tight)
                },
                pull(row.pull_n, &row.cannot_hold),
                row.opened.clone(),
            ]
        })
        .collect();
    rows.extend(brief.front_list.iter().map(|row| {
        let is_used = !row.push_test.is_empty();
        vec![
            row.front.clone(),
            format!("across {}", row.rack),
            row.slots_words.clone(),
            format!("{:.2} m", row.height_m),
            if row.shut { "shut" } else { "open" }.to_owned(),
            if is_used {
                push_test(row.push_test_mm, "not known")
            } else {
                "–".to_owned()
            },
            pull(row.pull_n, &row.cannot_hold),
            row.opened.clone(),
        ]
    }));
    if rows.is_empty() {
        flow.heading(HEADING_PT, HEADING);
        flow.line(TEXT_PT, "No lashings and no fronts in this plan.");
        return;
    }
    let mut columns = vec![
        ("lashing", 21.0),
        ("from, to; what it is", 36.0),
        ("round", 29.0),
        ("height\nabove foot", 15.0),
        ("how tight", 22.0),
        ("push test, top", 23.0),
        ("greatest pull it\nneeds to hold", 25.0),
        ("opened", 30.0),
    ];
    if rows.iter().all(|row| row[7].is_empty()) {
        columns.truncate(7);
    }
    let table = table(flow, &columns, rows, (LINE_MM, setting));
    flow.heading_over(HEADING_PT, HEADING, table.begin_mm());
    flow.table(&table);
}

/// How far the top may move under one hand; nothing at all where the lashing is tight or lies over something.
fn push_test(mm: Option<f64>, how_tight: &str) -> String {
    match mm {
        Some(mm) => format!("up to {mm:.0} mm"),
        None if how_tight.starts_with("not known") => "not known: must not move".to_owned(),
        None => "no play".to_owned(),
    }
}

/// `ratchet strap, 25 mm`: materials are named with their width or thickness.
fn material(id: &str) -> String {
    let words = id.replace('_', " ");
    match words.rsplit_once(' ') {
        // The figure stays with its unit.
        Some((what, mm)) if mm.parse::<u32>().is_ok() => format!("{what}, {mm}\u{a0}mm"),
        _ => words,
    }
}

/// Kilograms of pull first, kilonewtons behind; where it cannot hold, when.
fn pull(newtons: Option<f64>, cannot_hold: &str) -> String {
    newtons.map_or_else(
        || format!("cannot hold it: {cannot_hold}"),
        |newtons| {
            if newtons < NO_PULL_N {
                return "none".to_owned();
            }
            let kg = words::kilograms(newtons / GRAVITY);
            format!("{kg} ({:.2} kN)", newtons / 1000.0)
        },
    )
}

/// Between the load list and the lines for signatures, in millimetres.
const SIGNATURES_GAP_MM: f64 = 2.0;

/// Who signs, by role.
pub(super) fn signatures(flow: &mut Flow) {
    let table = signature_table(flow);
    flow.gap(SIGNATURES_GAP_MM);
    flow.room(table.high_mm());
    flow.table(&table);
}

fn signature_table(flow: &Flow) -> Table {
    let columns = [
        ("signed", 25.0),
        ("Loaded and pushed", 55.0),
        ("Checked", 55.0),
        ("Master accepts the open points", 55.0),
    ];
    let rows = ["name, time", "signature"].map(|what| vec![what.to_owned()]);
    table(flow, &columns, rows.to_vec(), (SIGNED_MM, ROOMY))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 98.0665 N are 10 kg of pull by the standard gravity of 9.80665 m/s² (CGPM 1901).
    #[test]
    fn pulls_are_told_in_kilograms_with_kilonewtons_behind() {
        assert_eq!(pull(Some(98.0665), ""), "10 kg (0.10 kN)");
        assert_eq!(pull(Some(0.0), ""), "none");
        assert_eq!(pull(None, "Night"), "cannot hold it: Night");
    }

    #[test]
    fn a_push_test_says_how_far_or_that_nothing_may_move() {
        assert_eq!(push_test(Some(43.0), "20 mm of slack"), "up to 43 mm");
        assert_eq!(push_test(None, "hand tight, no slack"), "no play");
        assert_eq!(
            push_test(None, "not known: pull it tight"),
            "not known: must not move"
        );
    }

    #[test]
    fn a_width_is_in_millimetres() {
        assert_eq!(material("ratchet_strap_25"), "ratchet strap, 25\u{a0}mm");
        assert_eq!(material("own_rope"), "own rope");
    }
}
