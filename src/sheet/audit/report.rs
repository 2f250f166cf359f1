//! The pages of the report, section by section.

use super::answers::{held, how_sure, over_time, reach, reverse};
use super::setting::{BEGIN_MM, part, points, put_plot, say};
use super::tables::{table, to_sign};
use super::{HEADING_PT, LIST_PT, TEXT_PT, TITLE_PT, plan_picture, roll_plot};
use crate::audit::{AccountAudit, Audit, Difference, Sight};
use crate::record::{AuditRecord, FileState};
use crate::sheet::flow::{Flow, MARGIN_MM};
use crate::sheet::{Page, Paper};

/// The greatest height of a plan, in millimetres.
const PLAN_MM: f64 = 100.0;

/// A heading and the line below it before a plan, in millimetres.
const BEFORE_PLAN_MM: f64 = 18.0;

/// The pages of the report. `sights` are the decks of each account, in the order of the accounts.
pub fn pages(audit: &Audit, sights: &[Vec<Sight>], paper: Paper) -> Vec<Page> {
    let mut flow = Flow::new(paper);
    head(&mut flow, audit);
    inputs(&mut flow, audit);
    accounts(&mut flow, audit);
    for (index, account) in audit.accounts.iter().enumerate() {
        let sights = sights.get(index).map_or(&[][..], Vec::as_slice);
        plan_against_found(&mut flow, account, sights);
    }
    reverse(&mut flow, audit);
    for account in &audit.accounts {
        reach(&mut flow, account);
    }
    for account in &audit.accounts {
        held(&mut flow, account);
    }
    side_by_side(&mut flow, audit);
    time_line(&mut flow, audit);
    for account in &audit.accounts {
        over_time(&mut flow, account);
    }
    if let Some(log) = (audit.motion_log.as_ref()).filter(|log| !log.not_known.is_empty()) {
        flow.room(BEGIN_MM);
        flow.heading(HEADING_PT, "What no replay knows");
        points(&mut flow, &log.not_known);
    }
    for (index, account) in audit.accounts.iter().enumerate() {
        let before = index.checked_sub(1).and_then(|it| audit.accounts.get(it));
        how_sure(&mut flow, account, before);
    }
    findings(&mut flow, audit);
    rests_on(&mut flow, &audit.record);
    assumptions(&mut flow, audit);
    not_known(&mut flow, audit);
    signatures(&mut flow, &audit.record);
    annex(&mut flow, &audit.record);
    flow.finish(&format!(
        "{}, {} · {} · record {} · planning aid, no approval",
        audit.boat,
        audit.title,
        audit.program,
        audit.record_hash()
    ))
}

fn head(flow: &mut Flow, audit: &Audit) {
    flow.title(TITLE_PT, &audit.title);
    let incident = &audit.record.incident;
    let mut lines = vec![format!("{}: {}", audit.boat, audit.moment)];
    let when = incident.when.iter().cloned();
    lines.extend(when.chain(incident.place.iter().cloned()));
    lines.push(format!("Motion of that part in the plan: {}", audit.motion));
    say(flow, TEXT_PT, &lines);
    flow.heading(HEADING_PT, "In plain words");
    say(flow, TEXT_PT, &audit.summary);
    let cautions: Vec<String> = audit.cautions.iter().map(|it| (*it).to_owned()).collect();
    flow.heading(HEADING_PT, "How to read this");
    points(flow, &cautions);
    let injured = &audit.record.injured;
    if !injured.is_empty() {
        let letters = injured.iter().map(|it| match &it.was {
            Some(was) => format!("{}: {was}", it.letter),
            None => it.letter.clone(),
        });
        let lines = vec![format!(
            "Who was hurt stands as a letter. {}.",
            letters.collect::<Vec<_>>().join("; ")
        )];
        points(flow, &lines);
    }
    if let Some(spot) = &audit.record.marked_spot {
        let [x, y] = spot.at;
        let side = if y >= 0.0 { "port" } else { "starboard" };
        let lines = vec![format!(
            "Marked spot: {} ({:.2} m from the transom, {:.2} m to {side}, {}; {}).",
            spot.what,
            x,
            y.abs(),
            spot.deck,
            spot.state.words()
        )];
        points(flow, &lines);
    }
}

fn inputs(flow: &mut Flow, audit: &Audit) {
    flow.heading(HEADING_PT, "Made from");
    let rows = audit
        .inputs
        .iter()
        .map(|input| {
            // A hash is one long word; halves of it fit a column.
            let halves = |hash: &str| {
                let (a, b) = hash.split_at(hash.len() / 2);
                format!("{a}\n{b}")
            };
            let hash = input.sha256.as_deref().map_or("–".to_owned(), halves);
            let state = match (input.state, &input.recorded_sha256) {
                (FileState::Changed, Some(recorded)) => {
                    format!("{}; recorded: {}", input.state.words(), halves(recorded))
                }
                _ => input.state.words().to_owned(),
            };
            vec![input.what.clone(), input.path.clone(), hash, state]
        })
        .collect();
    table(
        flow,
        &[
            ("what", 30.0),
            ("file", 40.0),
            ("SHA-256", 68.0),
            ("state", 42.0),
        ],
        rows,
    );
    if audit.ticks.is_empty() {
        say(
            flow,
            TEXT_PT,
            &["No ticks of a brief stand in the plan as issued.".to_owned()],
        );
    } else {
        part(flow, "Ticked off at the brief");
        say(flow, LIST_PT, &[audit.ticks.join(" · ")]);
    }
}

fn accounts(flow: &mut Flow, audit: &Audit) {
    flow.room(BEGIN_MM);
    flow.heading(HEADING_PT, "Accounts of the stowage as found");
    for account in &audit.accounts {
        let when = account.when.as_deref().unwrap_or("time not given");
        part(
            flow,
            &format!("Account {}: {} ({when})", account.id, account.by),
        );
        if account.found.is_empty() {
            say(flow, TEXT_PT, &["By a layout of its own.".to_owned()]);
        }
        let rows = account
            .found
            .iter()
            .map(|row| {
                vec![
                    row.about.clone(),
                    row.state.clone(),
                    row.rests_on.join(", "),
                    row.remark.clone(),
                ]
            })
            .collect();
        table(
            flow,
            &[
                ("thing", 30.0),
                ("how sure", 62.0),
                ("rests on", 26.0),
                ("remark", 62.0),
            ],
            rows,
        );
        points(flow, &account.lashings);
    }
}

fn plan_against_found(flow: &mut Flow, account: &AccountAudit, sights: &[Sight]) {
    let pieces: Vec<(&Sight, (f64, Page))> = sights
        .iter()
        .map(|sight| (sight, plan_picture(sight, (flow.width(), PLAN_MM))))
        .collect();
    // The heading stands with the first deck.
    let first = pieces.first();
    flow.room(first.map_or(0.0, |(_, (_, piece))| {
        piece.paper.height_mm() + BEFORE_PLAN_MM
    }));
    flow.heading(
        HEADING_PT,
        &format!("Planned against found, account {}", account.id),
    );
    for (sight, (scale, piece)) in &pieces {
        let (wide, high) = (piece.paper.width_mm(), piece.paper.height_mm());
        flow.room(high + 6.0);
        flow.line(
            LIST_PT,
            &format!(
                "{}, scale 1:{scale:.0}, as found by account {}",
                sight.name, account.id
            ),
        );
        let left = MARGIN_MM + 0.5 * (flow.width() - wide).max(0.0);
        let y = flow.y;
        flow.page().put(piece, (left, y));
        flow.gap(high + 1.0);
    }
    if account.comparison.differences.is_empty() {
        say(flow, TEXT_PT, &["Found as planned.".to_owned()]);
        return;
    }
    let mut last: Option<&Difference> = None;
    let mut rows = Vec::new();
    for difference in &account.comparison.differences {
        let same =
            last.is_some_and(|old| old.about == difference.about && old.thing == difference.thing);
        last = Some(difference);
        let alone = difference
            .limits
            .iter()
            .map(|it| format!("{} {}; with it: {}", it.cylinder, it.planned, it.with_it));
        let undone = difference.undone.iter().map(|it| {
            format!(
                "{} {}; without it: {}",
                it.cylinder, it.found, it.without_it
            )
        });
        let told = |list: Vec<String>| {
            if same {
                "with the row above".to_owned()
            } else if list.is_empty() {
                "changes no limit".to_owned()
            } else {
                list.join("\n")
            }
        };
        rows.push(vec![
            difference.kind.words().to_owned(),
            difference.sentence.clone(),
            told(alone.collect()),
            told(undone.collect()),
        ]);
    }
    table(
        flow,
        &[
            ("kind", 22.0),
            ("what", 60.0),
            ("the plan with it alone", 50.0),
            ("as found with it undone", 50.0),
        ],
        rows,
    );
}

fn side_by_side(flow: &mut Flow, audit: &Audit) {
    if audit.accounts.len() < 2 {
        return;
    }
    flow.heading(HEADING_PT, "The accounts side by side");
    let mut columns = vec![("difference to the plan".to_owned(), 110.0)];
    for account in &audit.accounts {
        columns.push((format!("account {}", account.id), 20.0));
    }
    table(flow, &columns, audit.side_by_side("says so", "–"));
}

fn time_line(flow: &mut Flow, audit: &Audit) {
    let events = &audit.record.events;
    if events.is_empty() && audit.motion_log.is_none() {
        return;
    }
    flow.room(BEGIN_MM);
    flow.heading(HEADING_PT, "Time line");
    if let Some(log) = &audit.motion_log {
        let trouble = log.trouble.iter();
        let trouble = trouble.map(|why| format!("The motion log was of no use: {why}."));
        points(flow, &trouble.collect::<Vec<_>>());
    }
    // The motion is the same for all accounts.
    let recorded = audit.accounts.iter().find_map(|it| it.over_time.as_ref());
    let wide = flow.width();
    let all = recorded.and_then(|it| roll_plot(&it.replay, &it.replay.tracks, events, wide));
    let near = recorded.and_then(|it| roll_plot(&it.replay, &it.closely, events, wide));
    for piece in all.iter().chain(&near) {
        put_plot(flow, piece);
    }
    let rows = events.iter().enumerate().map(|(index, event)| {
        vec![
            format!("{}", index + 1),
            event.when.clone(),
            event.at_s.map_or_else(String::new, |s| format!("{s:.0}")),
            event.what.clone(),
            event.says.join(", "),
            event.state.words(),
        ]
    });
    table(
        flow,
        &[
            ("no.", 9.0),
            ("when", 24.0),
            ("s", 10.0),
            ("what", 80.0),
            ("says", 20.0),
            ("how sure", 39.0),
        ],
        rows.collect(),
    );
    if let Some(log) = &audit.motion_log {
        points(flow, &log.read);
    }
}

fn findings(flow: &mut Flow, audit: &Audit) {
    flow.room(BEGIN_MM);
    flow.heading(HEADING_PT, "Findings that rest on a published clause");
    for account in &audit.accounts {
        part(flow, &format!("By account {}", account.id));
        if account.findings.is_empty() {
            say(flow, TEXT_PT, &["None.".to_owned()]);
        }
        let rows = account.findings.iter().map(|finding| {
            vec![
                format!("{}\n{}", finding.signal, finding.code),
                finding.sentence.clone(),
                finding.clauses.join("\n"),
            ]
        });
        table(
            flow,
            &[("finding", 20.0), ("what", 92.0), ("clause", 70.0)],
            rows.collect(),
        );
    }
    if audit.conflicts.is_empty() {
        return;
    }
    flow.heading(HEADING_PT, "Where published rules do not agree");
    for conflict in &audit.conflicts {
        let about = format!("On the question, {}", conflict.about);
        part(flow, &about);
        points(flow, &conflict.rules);
    }
}

/// Statements, measurements and files.
fn rests_on(flow: &mut Flow, record: &AuditRecord) {
    if record.statements.is_empty() && record.measurements.is_empty() && record.files.is_empty() {
        return;
    }
    flow.heading(HEADING_PT, "What the accounts rest on");
    let statements = record.statements.iter().map(|it| {
        vec![
            it.id.clone(),
            format!("{}\n{}", it.by, it.when),
            it.text.clone(),
        ]
    });
    table(
        flow,
        &[("said", 12.0), ("by, when", 40.0), ("text", 130.0)],
        statements.collect(),
    );
    let measurements = record.measurements.iter().map(|it| {
        vec![
            it.id.clone(),
            format!("{}\n{}", it.by, it.when),
            it.what.clone(),
            format!("{} {}", it.value, it.unit),
            it.state.words(),
        ]
    });
    table(
        flow,
        &[
            ("measured", 16.0),
            ("by, when", 40.0),
            ("what", 66.0),
            ("value", 22.0),
            ("how sure", 38.0),
        ],
        measurements.collect(),
    );
    let files = record.files.iter().map(|it| {
        let by = it.by.clone().unwrap_or_default();
        let when = it.when.clone().unwrap_or_default();
        vec![
            it.id.clone(),
            format!("{by}\n{when}").trim().to_owned(),
            it.what.clone(),
            it.path.clone(),
        ]
    });
    table(
        flow,
        &[
            ("file", 12.0),
            ("by, when", 40.0),
            ("shows", 80.0),
            ("path", 50.0),
        ],
        files.collect(),
    );
}

fn assumptions(flow: &mut Flow, audit: &Audit) {
    flow.heading(HEADING_PT, "Assumptions");
    let rows = audit.record.assumptions.iter().map(|it| {
        let unit = if it.unit.is_empty() {
            String::new()
        } else {
            format!(" {}", it.unit)
        };
        vec![
            it.what.clone(),
            format!("{} to {}{unit}", it.least, it.most),
            it.why.clone(),
        ]
    });
    let mut rows: Vec<Vec<String>> = rows.collect();
    for text in audit.accounts.iter().flat_map(|it| &it.lashings) {
        rows.push(vec![text.clone(), "as given".to_owned(), String::new()]);
    }
    for it in audit.motion_log.iter().flat_map(|log| &log.assumed) {
        rows.push(vec![it.what.clone(), "as given".to_owned(), it.why.clone()]);
    }
    for text in &audit.assumed {
        let from = "by the program, for the motion of that part".to_owned();
        rows.push(vec![text.clone(), "as given".to_owned(), from]);
    }
    if rows.is_empty() {
        say(flow, TEXT_PT, &["The record names none.".to_owned()]);
    }
    table(
        flow,
        &[("what", 78.0), ("range", 34.0), ("why", 70.0)],
        rows,
    );
}

fn not_known(flow: &mut Flow, audit: &Audit) {
    flow.heading(HEADING_PT, "What is not known");
    if audit.not_known.is_empty() {
        say(flow, TEXT_PT, &["Nothing is named.".to_owned()]);
    }
    points(flow, &audit.not_known);
}

fn signatures(flow: &mut Flow, record: &AuditRecord) {
    flow.heading(HEADING_PT, "Signed");
    let mut rows: Vec<Vec<String>> = record
        .signatures
        .iter()
        .map(|it| {
            vec![
                it.signed_as.words().to_owned(),
                it.name.clone().unwrap_or_default(),
                String::new(),
                it.when.clone().unwrap_or_default(),
            ]
        })
        .collect();
    if rows.is_empty() {
        for role in ["recorder", "master: received, not agreed", "surveyor"] {
            rows.push(vec![role.to_owned()]);
        }
    }
    to_sign(
        flow,
        &[
            ("as", 52.0),
            ("name", 50.0),
            ("signature", 50.0),
            ("when", 30.0),
        ],
        rows,
    );
}

/// Comments as they stand.
fn annex(flow: &mut Flow, record: &AuditRecord) {
    if record.comments.is_empty() {
        return;
    }
    flow.room(BEGIN_MM);
    flow.heading(HEADING_PT, "Annex: comments, as they were given");
    for comment in &record.comments {
        let when = comment.when.as_deref().unwrap_or("time not given");
        part(flow, &format!("{} ({when})", comment.by));
        say(flow, TEXT_PT, std::slice::from_ref(&comment.text));
    }
}
