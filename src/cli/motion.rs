//! `snugdown motion`, `card` and `balance`: how the boat moves, how far the stowage is good, what weighs where.

use std::fmt::Write as _;

use schemars::JsonSchema;
use serde::Serialize;

use super::args::{BalanceOptions, CardOptions, Cures, Format, MotionOptions, PartOptions};
use super::check::CAUTIONS;
use super::choose;
use super::columns::{one_line, paragraph};
use super::create::save;
use super::motion_log::{self, Passed};
use super::{Console, Failure};
use crate::checks::{LimitCard, limit_cards, words};
use crate::engine::numbers::{
    BalanceNumbers, MotionNumbers, RollPeriodNumbers, SeaNumbers, WakeNumbers,
};
use crate::engine::{Assessor, balance, roll_period};
use crate::layout::{Edit, Part, Plan, Sea, Thing, Trip, Wake};
use crate::mechanics::balance::{turn_heel_rad, wind_heel_rad};
use crate::mechanics::seaway::states::KNOT_M_S;
use crate::store;

/// What each of the three prints as JSON.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Report<T> {
    /// The program and its version.
    program: &'static str,
    /// What this is and is not.
    cautions: [&'static str; 2],
    /// The boat's name.
    boat: String,
    /// The trip.
    trip: String,
    /// Roll period, GM and damping by every way there is; of `motion` only.
    #[serde(skip_serializing_if = "Option::is_none")]
    roll_period: Option<RollPeriodNumbers>,
    /// The parts of the day that were asked for, in their order.
    parts: Vec<T>,
}

/// What `motion` prints as JSON.
pub(super) type MotionReport = Report<MotionPart>;

/// What `card` prints as JSON.
pub(super) type CardReport = Report<LimitCard>;

/// What `balance` prints as JSON.
pub(super) type BalanceReport = Report<BalancePart>;

/// How the boat moves in a part of the day.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct MotionPart {
    /// The part.
    part: String,
    /// What the checks use.
    motion: MotionNumbers,
    /// The estimate from the sea, where one is given.
    sea: Option<SeaNumbers>,
    /// What a passing wake does, where one is given.
    wake: Option<WakeNumbers>,
    /// How often each cylinder's limit was passed in the log that was read.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    passed_in_log: Vec<Passed>,
}

/// What weighs where in a part of the day, and what comes of it.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct BalancePart {
    /// Masses, centres, heel and trim. They approve nothing.
    #[serde(flatten)]
    balance: BalanceNumbers,
    /// Steady heel away from the wind that was asked for, in degrees; `None` without one, or without GM.
    wind_heel_deg: Option<f64>,
    /// Steady heel outwards in the turn that was asked for, in degrees; `None` without one, or without GM.
    turn_heel_deg: Option<f64>,
}

/// The plan, and the ids of the trip and of the part, if one is wanted.
fn read(options: &PartOptions) -> Result<(Plan, String, Option<String>), Failure> {
    let file = &options.file;
    let plan = store::read(file).map_err(|error| Failure::Told(error.to_string()))?;
    let trip = choose::trip(file, &plan, options.trip.as_deref())?;
    let part = choose::part_id(file, trip, options.part.as_deref())?;
    let id = trip.id.clone();
    Ok((plan, id, part))
}

/// The ids of a trip and of the part of its day that is wanted.
type About<'a> = (&'a str, Option<&'a str>);

fn trip<'p>(plan: &'p Plan, id: &str) -> Result<&'p Trip, Failure> {
    plan.trip(id)
        .ok_or_else(|| Failure::Told(format!("there is no trip {id:?}")))
}

/// Writes the report as JSON, or the text for people with what stands with every answer.
fn tell<T: Serialize>(
    format: Format,
    report: &Report<T>,
    text: &str,
    console: &mut Console<'_>,
) -> Result<(), Failure> {
    match format {
        Format::Json => {
            serde_json::to_writer_pretty(&mut *console.out, report)
                .map_err(std::io::Error::from)?;
            writeln!(console.out)?;
        }
        Format::Table => {
            console.out.write_all(text.as_bytes())?;
            let width = console.terminal.columns();
            let cautions = paragraph("", 0, 0, &CAUTIONS.join(" "), width);
            write!(console.out, "\n{cautions}")?;
        }
    }
    Ok(())
}

fn report<T>(plan: &Plan, trip: &str, parts: Vec<T>) -> Report<T> {
    Report {
        program: concat!("snugdown ", env!("CARGO_PKG_VERSION")),
        cautions: CAUTIONS,
        boat: plan.boat.name.clone(),
        trip: trip.to_owned(),
        roll_period: None,
        parts,
    }
}

pub(super) fn motion(options: &MotionOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    let (mut plan, id, part) = read(&options.part)?;
    let about = (id.as_str(), part.as_deref());
    let mut recorded_part = None;
    if options.changes_something() {
        change(&mut plan, about, options)?;
    }
    let mut recorded = None;
    if options.log.is_some() {
        let mut part = the_part(&plan, about, options)?;
        recorded = motion_log::measure(options, part.motion.as_ref())?;
        part.motion = recorded.as_ref().map(|log| log.motion.clone());
        recorded_part = Some(part.id.clone());
        put(&mut plan, &id, part)?;
    }
    let mut assessor = Assessor::default();
    let trip = trip(&plan, &id)?;
    assessor.assess(&plan, trip);
    let wanted = |part: &str| about.1.is_none_or(|wanted| part == wanted);
    let mut parts: Vec<MotionPart> = (assessor.assessment().parts.iter())
        .filter(|numbers| wanted(&numbers.part))
        .map(|numbers| MotionPart {
            part: numbers.part.clone(),
            motion: numbers.motion.clone(),
            sea: numbers.sea.clone(),
            wake: numbers.wake.clone(),
            passed_in_log: Vec::new(),
        })
        .collect();
    if let Some(id) = &recorded_part
        && let Some(numbers) = assessor.assessment().parts.iter().find(|it| it.part == *id)
        && let Some(part) = parts.iter_mut().find(|part| part.part == *id)
    {
        part.passed_in_log = motion_log::passed(options, &plan.boat, numbers)?;
    }
    let mut report = report(&plan, &id, parts);
    let roll = roll_period(&plan.boat);
    let width = console.terminal.columns();
    let mut text = format!("{}\n", one_line(&plan.boat.name));
    for line in roll_words(&roll) {
        text.push_str(&paragraph("  ", 2, 4, &line, width));
    }
    for part in &report.parts {
        writeln!(text, "\n{}", one_line(&part.part)).ok();
        for line in motion_words(part) {
            text.push_str(&paragraph("  ", 2, 4, &line, width));
        }
    }
    if let Some(log) = &recorded {
        text.push('\n');
        for line in log.words() {
            text.push_str(&paragraph("  ", 2, 4, &line, width));
        }
    }
    report.roll_period = Some(roll);
    if options.write {
        let written = write_motion(&plan, about, options, &assessor)?;
        writeln!(text, "\n{written}").ok();
    }
    tell(options.part.format, &report, &text, console)
}

/// Puts the sea, the wake or the preset of the options into the part, in place of its motion.
fn change(plan: &mut Plan, about: About<'_>, options: &MotionOptions) -> Result<(), Failure> {
    let mut part = the_part(plan, about, options)?;
    part.motion = None;
    if options.height.is_some() || options.sea_state.is_some() || part.sea.is_some() {
        let sea = part.sea.get_or_insert_with(Sea::default);
        options.put_into(sea);
    } else if options.wake.is_none() {
        return Err(Failure::Told(
            "the part has no sea yet: add --height or --sea-state".to_owned(),
        ));
    }
    if let Some([height, period, waves]) = options.wake {
        part.wake = Some(Wake {
            wave_height_m: height,
            wave_period_s: period,
            waves: MotionOptions::wave_count(waves),
        });
    }
    put(plan, about.0, part)?;
    // What a file may not say, the command line may not either.
    store::parse(&store::to_text(plan), "the plan with these options")
        .map_err(|faults| Failure::Told(faults.to_string()))?;
    Ok(())
}

fn the_part(plan: &Plan, about: About<'_>, options: &MotionOptions) -> Result<Part, Failure> {
    choose::the_part(&options.part.file, trip(plan, about.0)?, about.1).cloned()
}

fn put(plan: &mut Plan, trip: &str, part: Part) -> Result<(), Failure> {
    plan.apply(&Edit::Put {
        trip: Some(trip.to_owned()),
        thing: Box::new(Thing::Part(part)),
    })
    .map_err(|error| Failure::Told(error.to_string()))
}

/// Writes what was estimated into the part as a motion that can be edited, and saves the plan.
fn write_motion(
    plan: &Plan,
    about: About<'_>,
    options: &MotionOptions,
    assessor: &Assessor,
) -> Result<String, Failure> {
    let mut part = the_part(plan, about, options)?;
    let index = trip(plan, about.0)?
        .part(&part.id)
        .map_or(0, |(index, _)| index);
    let motion = if options.log.is_some() {
        part.motion.as_ref()
    } else {
        assessor.estimated_motion(index)
    };
    let Some(motion) = motion else {
        return Err(Failure::Told(
            "there is nothing to write: the part has neither sea nor wake".to_owned(),
        ));
    };
    let motion = motion.clone();
    part.motion = Some(motion);
    let mut plan = plan.clone();
    let name = part.id.clone();
    put(&mut plan, about.0, part)?;
    save(&plan, &options.part.file)?;
    Ok(format!(
        "{}: the motion of {name} is written; every figure of it can be changed.",
        options.part.file.display()
    ))
}

fn roll_words(roll: &RollPeriodNumbers) -> Vec<String> {
    let [short, long] = roll.taken_s;
    let mut lines = vec![if short < long {
        format!("Roll period {short:.2} to {long:.2} s: {}", roll.taken_from)
    } else {
        format!("Roll period {short:.2} s: {}", roll.taken_from)
    }];
    if let Some(timed) = &roll.timed {
        lines.push(format!(
            "By stopwatch {:.2} s ({} swings, runs from {:.2} to {:.2} s){}",
            timed.period_s,
            timed.swings,
            timed.spread_s[0],
            timed.spread_s[1],
            if timed.by_the_code {
                ""
            } else {
                "; the published test wants three runs of five swings and more"
            }
        ));
    }
    match (roll.by_formula_s, &roll.formula_refused) {
        (Some(period), _) => lines.push(format!("By the IS Code's formula {period:.2} s")),
        (None, Some(why)) => lines.push(format!("The IS Code's formula gives none: {why}")),
        (None, None) => {}
    }
    match (roll.tested_gm_m, roll.tested_gm_band_m, &roll.test_refused) {
        (Some(gm), Some([low, high]), _) => lines.push(format!(
            "GM by the rolling-period test {gm:.2} m ({low:.2} to {high:.2} m)"
        )),
        (_, _, Some(why)) => lines.push(format!("The rolling-period test gives no GM: {why}")),
        _ => {}
    }
    if let Some(gm) = roll.given_gm_m {
        lines.push(format!("GM given {gm:.2} m"));
    }
    lines.extend(
        roll.disagreements
            .iter()
            .map(|line| format!("They disagree: {line}")),
    );
    let [low, taken, high] = roll.damping_ratio;
    lines.push(format!(
        "Roll damping {taken:.2} of the critical, {low:.2} to {high:.2} ({})",
        roll.damping_source
    ));
    lines
}

fn motion_words(part: &MotionPart) -> Vec<String> {
    let motion = &part.motion;
    let every = match motion.longest_roll_period_s {
        Some(longest) => format!("{:.2} to {longest:.2}", motion.roll_period_s),
        None => format!("{:.2}", motion.roll_period_s),
    };
    let mut lines = vec![format!(
        "Checked with roll {:.1}° every {every} s, pitch {:.1}° every {:.2} s, up and down {:.2} g ({})",
        motion.roll_amplitude_deg,
        motion.pitch_amplitude_deg,
        motion.pitch_period_s,
        motion.vertical_m_s2 / crate::mechanics::motion::GRAVITY,
        super::day::source(motion.source)
    )];
    lines.extend(
        motion
            .made_from
            .iter()
            .map(|made| format!("Made from {made}")),
    );
    lines.extend(motion.assumed.iter().map(|line| format!("Assumed: {line}")));
    if let Some(sea) = &part.sea {
        lines.extend(
            sea.steps
                .iter()
                .enumerate()
                .map(|(i, step)| format!("{}. {step}", i + 1)),
        );
        for crossing in sea
            .crossings
            .iter()
            .filter(|item| item.per_hour >= 0.01)
            .take(5)
        {
            lines.push(format!(
                "{} goes at {:.1}°: passed {:.2} times an hour",
                crossing.cylinder, crossing.limit_roll_deg, crossing.per_hour
            ));
        }
        lines.push(format!("Not known to it: {}", sea.limits.join("; ")));
    }
    for passed in part.passed_in_log.iter().filter(|item| item.times > 0) {
        lines.push(format!(
            "{}: its limit was passed {} times in the log",
            passed.cylinder, passed.times
        ));
    }
    if let Some(wake) = &part.wake {
        lines.push(format!(
            "Wake: {:.1}° seen, checked with {:.1}°; force along the deck {:.2} m/s² by roll, {:.2} m/s² by roll less the \
             wave's slope",
            wake.seen_roll_deg,
            wake.checked_roll_deg,
            wake.by_roll_m_s2,
            wake.by_roll_less_slope_m_s2
        ));
    }
    lines
}

pub(super) fn card(options: &CardOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    let (plan, id, part) = read(&options.part)?;
    let trip = trip(&plan, &id)?;
    let with_cures = options.cures == Cures::Each;
    let cards = limit_cards(&plan, trip, part.as_deref(), with_cures);
    let width = console.terminal.columns();
    let mut text = String::new();
    for card in &cards {
        text.push_str(&card_words(card, width));
    }
    tell(
        options.part.format,
        &report(&plan, &id, cards),
        &text,
        console,
    )
}

fn card_words(card: &LimitCard, width: usize) -> String {
    let mut text = format!("{}\n", one_line(&card.name));
    text.push_str(&paragraph("  ", 2, 2, &card.sea_sentence, width));
    text.push_str(&paragraph(
        "  ",
        2,
        2,
        &format!("In this part's own motion: {}", card.roll_sentence),
        width,
    ));
    for (index, best) in card.cures.iter().enumerate() {
        let what = format!(
            "{}. {}",
            best.cure.label.trim_end_matches('.'),
            best.sentence
        );
        text.push_str(&paragraph(&format!("  {}.", index + 1), 4, 5, &what, width));
    }
    if let Some(cured) = &card.with_cures {
        text.push_str(&paragraph("  ", 2, 2, &cured.sentence, width));
    }
    for sentence in &card.not_cured {
        text.push_str(&paragraph("  ", 2, 2, sentence, width));
    }
    if !card.margins.is_empty() {
        text.push_str("  wave height   holds to this share of the motion\n");
    }
    for margin in &card.margins {
        // A bar of at most 40 signs: 20 are the whole motion.
        let share = margin.share.unwrap_or(4.0);
        let signs = "=".repeat((0..40).take_while(|i| f64::from(*i) < 20.0 * share).count());
        let told = margin
            .share
            .map_or_else(|| "more than 4".to_owned(), |share| format!("{share:.2}"));
        writeln!(
            text,
            "  {:>6.2} m      {told:>11} {signs}",
            margin.wave_height_m
        )
        .ok();
    }
    if !card.limits.is_empty() {
        text.push_str(&paragraph(
            "  ",
            2,
            2,
            &format!("Not known to it: {}.", card.limits.join("; ")),
            width,
        ));
    }
    text.push('\n');
    text
}

pub(super) fn balance_of(
    options: &BalanceOptions,
    console: &mut Console<'_>,
) -> Result<(), Failure> {
    let (plan, id, part) = read(&options.part)?;
    let trip = trip(&plan, &id)?;
    let mut assessor = Assessor::default();
    assessor.assess(&plan, trip);
    let wanted = part.as_deref();
    let parts: Vec<BalancePart> = (assessor.days().iter().zip(&assessor.assessment().parts))
        .filter(|(_, numbers)| wanted.is_none_or(|wanted| numbers.part == wanted))
        .map(|(day, numbers)| {
            let balance = balance(&plan, day, numbers);
            let both = balance.displacement_kg.zip(balance.gm_m);
            let wind_heel_deg = both.and_then(|(displacement, gm)| {
                let [speed_kn, area_m2, lever_m] = options.wind?;
                Some(
                    wind_heel_rad(speed_kn * KNOT_M_S, area_m2, lever_m, displacement, gm)
                        .to_degrees(),
                )
            });
            let turn_heel_deg = balance.gm_m.and_then(|gm| {
                let [speed_kn, radius_m, lever_m] = options.turn?;
                Some(turn_heel_rad(speed_kn * KNOT_M_S, radius_m, lever_m, gm).to_degrees())
            });
            BalancePart {
                balance,
                wind_heel_deg,
                turn_heel_deg,
            }
        })
        .collect();
    let width = console.terminal.columns();
    let mut text = String::new();
    for part in &parts {
        writeln!(text, "{}", one_line(&part.balance.part)).ok();
        for line in balance_words(part) {
            text.push_str(&paragraph("  ", 2, 4, &line, width));
        }
        text.push('\n');
    }
    tell(
        options.part.format,
        &report(&plan, &id, parts),
        &text,
        console,
    )
}

fn balance_words(part: &BalancePart) -> Vec<String> {
    let b = &part.balance;
    let place = |centre: Option<[f64; 3]>| {
        centre.map_or_else(String::new, |[x, y, z]| {
            let side = if y < 0.0 { "starboard" } else { "port" };
            format!(
                ", centre {x:.2} m forward of the transom, {:.2} m to {side}, {z:.2} m above the water",
                y.abs()
            )
        })
    };
    let mut lines: Vec<String> = (b.groups.iter())
        .map(|group| {
            format!(
                "{}: {}, {:.0} kg{}",
                group.group,
                group.count,
                group.group_mass_kg,
                place(group.centre_m)
            )
        })
        .collect();
    lines.push(format!(
        "all: {:.0} kg{}",
        b.all_mass_kg,
        place(b.all_centre_m)
    ));
    let side = |deg: f64| if deg > 0.0 { "starboard" } else { "port" };
    let from = &b.gm_from;
    let gm = b.gm_m.map_or_else(String::new, |gm| format!(", {gm:.2} m"));
    match b.heel_caused_deg {
        Some(deg) => lines.push(format!(
            "heel it causes: {:.1}° to {} ({from}{gm})",
            deg.abs(),
            side(deg)
        )),
        None if b.gm_m.is_some() => {
            lines.push("heel: not known, the displacement is not given".to_owned());
        }
        None => lines.push(format!("heel: not known, {from}")),
    }
    if let Some([port, starboard]) = b.people_at_rail_heel_deg {
        lines.push(format!(
            "heel with everybody at the rail: {:.1}° to {}, {:.1}° to {} ({from}{gm})",
            port.abs(),
            side(port),
            starboard.abs(),
            side(starboard)
        ));
    }
    match b.trim_caused_deg {
        Some(deg) => lines.push(format!(
            "trim it causes: {:.2}° by the {}",
            deg.abs(),
            if deg > 0.0 { "bow" } else { "stern" }
        )),
        None => lines.push("trim: not known, no moment to trim is given".to_owned()),
    }
    lines.extend(
        part.wind_heel_deg
            .map(|deg| format!("steady heel from the wind: {deg:.1}° ({from}{gm})")),
    );
    lines.extend(
        part.turn_heel_deg
            .map(|deg| format!("steady heel outwards in the turn: {deg:.1}° ({from}{gm})")),
    );
    lines.push(format!(
        "Mp {:.0} kg·m: {}",
        b.passenger_moment_kg_m, b.passenger_moment_words
    ));
    for deck in &b.deck_shares {
        let limit = deck.load_limit_kg_per_m2.map_or_else(
            || "limit not known".to_owned(),
            |limit| format!("limit {limit:.0}"),
        );
        lines.push(format!(
            "deck {}: {} taken, greatest load {:.0} kg/m² ({limit})",
            deck.deck,
            words::percent(deck.share_taken),
            deck.greatest_load_kg_per_m2
        ));
    }
    lines.push(b.statement.to_owned());
    lines
}
