//! `snugdown kinds`: the catalogue's cylinders.

use super::columns::{Align, paragraph, table};
use super::{Console, Failure};
use crate::catalogue::Catalogue;
use crate::catalogue::cylinder::Fitted;
use crate::catalogue::kinds::{Kind, KindData, TwinSet};
use crate::catalogue::provenance::Provenance;
use crate::layout::nearest::nearest;
use crate::mechanics::assembly::Assembled;
use crate::mechanics::shell::BaseForm;
use crate::mechanics::standing::static_tip_angle_rad;
use crate::units::{Quantity, System};

pub(super) fn run(
    text: Option<&str>,
    system: System,
    console: &mut Console<'_>,
) -> Result<(), Failure> {
    let catalogue = Catalogue::built_in();
    let sought = text.unwrap_or_default().to_lowercase();
    let fits = |id: &str, name: &str| {
        id.to_lowercase().contains(&sought) || name.to_lowercase().contains(&sought)
    };
    let mut kinds: Vec<_> = (catalogue.kinds().iter())
        .filter(|kind| fits(&kind.id, &kind.name))
        .collect();
    let mut twins: Vec<_> = (catalogue.twins().iter())
        .filter(|twin| fits(&twin.id, &twin.name))
        .collect();
    // An id in full means that one, though others have it in theirs.
    if kinds.iter().any(|kind| kind.id == sought) {
        kinds.retain(|kind| kind.id == sought);
        twins.clear();
    }
    let text = match (kinds.as_slice(), twins.as_slice()) {
        ([], []) => {
            let ids = catalogue.kinds().iter().map(|kind| kind.id.as_str());
            let ids = ids.chain(catalogue.twins().iter().map(|twin| twin.id.as_str()));
            let meant = catalogue
                .nearest_kind_name(&sought)
                .or_else(|| nearest(&sought, ids));
            let meant = meant.map_or_else(String::new, |meant| format!("; did you mean {meant}?"));
            return Err(Failure::Told(format!(
                "no kind has {sought:?} in its name{meant}"
            )));
        }
        ([kind], []) => one_kind(kind, system, console.terminal.columns()),
        ([], [twin]) => one_twin(twin, system, console.terminal.columns()),
        _ => list(&kinds, &twins, system),
    };
    console.out.write_all(text.as_bytes())?;
    Ok(())
}

const BASES: [(BaseForm, &str); 2] = [
    (BaseForm::Flat, "flat"),
    (BaseForm::Round, "round: needs a boot to stand"),
];

fn base_words(base: BaseForm) -> &'static str {
    BASES
        .iter()
        .find(|(form, _)| *form == base)
        .map_or("", |(_, words)| words)
}

/// The number of a measure: as the catalogue has it in metric, rounded when it is converted.
fn number(quantity: Quantity, value: f64, in_base: f64, system: System) -> String {
    match system {
        System::Metric => value.to_string(),
        System::Us => quantity.number(value * in_base, system),
    }
}

/// As [`number`], with its unit.
fn show(quantity: Quantity, value: f64, in_base: f64, system: System) -> String {
    format!(
        "{} {}",
        number(quantity, value, in_base, system),
        quantity.symbol(system)
    )
}

/// Millimetres in the base unit of lengths.
const MM: f64 = 0.001;

/// The table of many kinds and twin sets.
fn list(kinds: &[&Kind], twins: &[&TwinSet], system: System) -> String {
    let small = |mm: f64| number(Quantity::SmallLength, mm, MM, system);
    let mut text = String::new();
    if !kinds.is_empty() {
        let row = |kind: &&Kind| {
            vec![
                kind.id.clone(),
                kind.name.clone(),
                number(Quantity::Volume, kind.water_capacity_l.value, 1.0, system),
                number(
                    Quantity::Pressure,
                    kind.working_pressure_bar.value,
                    1.0,
                    system,
                ),
                small(kind.outside_diameter_mm.value),
                small(kind.length_without_valve_mm.value),
                number(
                    Quantity::Mass,
                    kind.empty_mass_without_valve_kg.value,
                    1.0,
                    system,
                ),
                base_words(kind.base_form.value)
                    .chars()
                    .take_while(|c| *c != ':')
                    .collect(),
                kind.provenance().words_for_measure().to_owned(),
            ]
        };
        let unit = |what: &str, quantity: Quantity| format!("{what} {}", quantity.symbol(system));
        let water = unit("water", Quantity::Volume);
        let pressure = Quantity::Pressure.symbol(system);
        let diameter = unit("diameter", Quantity::SmallLength);
        let length = unit("length", Quantity::SmallLength);
        let empty = unit("empty", Quantity::Mass);
        let headings = [
            ("id", Align::Left),
            ("name", Align::Left),
            (water.as_str(), Align::Right),
            (pressure, Align::Right),
            (diameter.as_str(), Align::Right),
            (length.as_str(), Align::Right),
            (empty.as_str(), Align::Right),
            ("base", Align::Left),
            ("measures", Align::Left),
        ];
        text.push_str(&table(
            &headings,
            &kinds.iter().map(row).collect::<Vec<_>>(),
        ));
    }
    if !twins.is_empty() {
        let row = |twin: &&TwinSet| {
            vec![
                twin.id.clone(),
                twin.name.clone(),
                twin.single.clone(),
                small(twin.centre_spacing_mm.value),
                twin.centre_spacing_mm
                    .provenance
                    .words_for_measure()
                    .to_owned(),
            ]
        };
        let spacing = format!("spacing {}", Quantity::SmallLength.symbol(system));
        let headings = [
            ("twin set", Align::Left),
            ("name", Align::Left),
            ("of", Align::Left),
            (spacing.as_str(), Align::Right),
            ("measures", Align::Left),
        ];
        if !text.is_empty() {
            text.push('\n');
        }
        text.push_str(&table(
            &headings,
            &twins.iter().map(row).collect::<Vec<_>>(),
        ));
    }
    text.push_str(
        "\nLengths and masses are without valve. `snugdown kinds ID` shows one in full.\n",
    );
    text
}

type Line = (&'static str, String, String);

/// One measure with where it comes from.
fn measure(what: &'static str, shown: String, provenance: Provenance) -> Line {
    (what, shown, provenance.words_for_measure().to_owned())
}

fn lines(lines: &[Line], width: usize) -> String {
    let mut text = String::new();
    for (what, shown, from) in lines {
        let line = format!("{shown}  ({from})");
        text.push_str(&paragraph(
            &format!("  {what}"),
            2 + what.chars().count(),
            30,
            &line,
            width,
        ));
    }
    text
}

fn one_kind(kind: &Kind, system: System, width: usize) -> String {
    let small = |mm: f64| show(Quantity::SmallLength, mm, MM, system);
    let mass = kind.empty_mass_without_valve_kg;
    let mut text = format!("{}: {}\n", kind.id, kind.name);
    text.push_str(&lines(
        &[
            measure(
                "water capacity",
                show(Quantity::Volume, kind.water_capacity_l.value, 1.0, system),
                kind.water_capacity_l.provenance,
            ),
            measure(
                "working pressure",
                show(
                    Quantity::Pressure,
                    kind.working_pressure_bar.value,
                    1.0,
                    system,
                ),
                kind.working_pressure_bar.provenance,
            ),
            measure(
                "outside diameter",
                small(kind.outside_diameter_mm.value),
                kind.outside_diameter_mm.provenance,
            ),
            measure(
                "length without valve",
                small(kind.length_without_valve_mm.value),
                kind.length_without_valve_mm.provenance,
            ),
            measure(
                "empty, without valve",
                show(Quantity::Mass, mass.value, 1.0, system),
                mass.provenance,
            ),
            measure(
                "base",
                base_words(kind.base_form.value).to_owned(),
                kind.base_form.provenance,
            ),
        ],
        width,
    ));
    let data = kind.data();
    text.push_str(&computed(&data, kind.valve, None, system, width));
    for (label, note) in [("note", &kind.note), ("content", &kind.nominal_content)] {
        if let Some(note) = note {
            text.push_str(&paragraph(
                &format!("  {label}"),
                2 + label.len(),
                30,
                note,
                width,
            ));
        }
    }
    text.push_str(&sources(&kind.sources, width));
    text
}

fn one_twin(twin: &TwinSet, system: System, width: usize) -> String {
    let catalogue = Catalogue::built_in();
    let mut text = format!("{}: {}\n", twin.id, twin.name);
    text.push_str(&lines(
        &[
            (
                "two of",
                twin.single.clone(),
                "see `snugdown kinds` with that id".to_owned(),
            ),
            measure(
                "between the two axes",
                Quantity::SmallLength.show(twin.centre_spacing_mm.value / 1000.0, system),
                twin.centre_spacing_mm.provenance,
            ),
            measure(
                "manifold with two valves",
                Quantity::Mass.show(twin.manifold_with_two_valves_kg.value, system),
                twin.manifold_with_two_valves_kg.provenance,
            ),
            measure(
                "bands",
                Quantity::Mass.show(twin.bands_kg.value, system),
                twin.bands_kg.provenance,
            ),
        ],
        width,
    ));
    if let Some(single) = catalogue.kind(&twin.single) {
        text.push_str(&computed(
            &single.data(),
            single.valve,
            Some(twin),
            system,
            width,
        ));
    }
    text
}

/// What follows from the measures: full of air, without kit, in a boot where the base is round.
fn computed(
    data: &KindData,
    valve: crate::catalogue::accessories::ValveKind,
    twin: Option<&TwinSet>,
    system: System,
    width: usize,
) -> String {
    let catalogue = Catalogue::built_in();
    let round = data.base_form == BaseForm::Round;
    let fitted = Fitted {
        valve,
        boot: round,
        ..Fitted::full_of_air(data)
    };
    let assembled = match twin {
        Some(twin) => catalogue.assemble_twin(&twin.measures(), &fitted),
        None => catalogue.assemble(&fitted, None),
    };
    let how = if round {
        "computed: full of air, in a boot"
    } else {
        "computed: full of air"
    };
    match assembled {
        Ok(body) => lines(&computed_lines(&body, how, system), width),
        Err(error) => lines(
            &[("mass", "not computed".to_owned(), error.to_string())],
            width,
        ),
    }
}

fn computed_lines(body: &Assembled, how: &str, system: System) -> Vec<Line> {
    let least_radius_m = 0.5 * body.base.least_diameter_m();
    let tip_deg = static_tip_angle_rad(least_radius_m, body.cg_height_m).to_degrees();
    let line = |what: &'static str, shown: String| (what, shown, how.to_owned());
    vec![
        line("mass with valve", Quantity::Mass.show(body.mass_kg, system)),
        line(
            "height over all",
            Quantity::SmallLength.show(body.height_overall_m, system),
        ),
        line(
            "centre of gravity at",
            Quantity::SmallLength.show(body.cg_height_m, system),
        ),
        line(
            "height to base",
            format!("{:.1} to 1", body.height_to_base()),
        ),
        line(
            "tips, leaning slowly, at",
            Quantity::Angle.show(tip_deg, system),
        ),
    ]
}

fn sources(ids: &[String], width: usize) -> String {
    let mut text = String::new();
    for id in ids {
        let source = Catalogue::built_in()
            .sources()
            .iter()
            .find(|source| source.id == *id);
        let title = source.map_or(id.as_str(), |source| source.title.as_str());
        text.push_str(&paragraph("  source", 8, 30, title, width));
    }
    text
}
