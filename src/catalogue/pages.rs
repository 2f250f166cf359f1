//! The catalogue and the published limits as pages in Markdown, for `docs/` and the command line.

use std::fmt::Write as _;

use super::Catalogue;
use super::kinds::Kind;
use super::provenance::{Bounds, Provenance, Source, Sourced, Spread};
use super::published::{Figure, Limit, limits};
use crate::geometry::Elementary as _;
use crate::mechanics::assembly::BARE_FOOT_SHARE;
use crate::mechanics::shell::BaseForm;

/// A table row; a bar inside a cell would end it.
fn row(page: &mut String, cells: &[String]) {
    page.push('|');
    for cell in cells {
        page.push(' ');
        page.push_str(&cell.replace('|', "\\|"));
        page.push_str(" |");
    }
    page.push('\n');
}

fn head(page: &mut String, titles: &[&str]) {
    let cells: Vec<String> = titles.iter().map(|&title| title.to_owned()).collect();
    row(page, &cells);
    page.push('|');
    page.push_str(&"---|".repeat(titles.len()));
    page.push('\n');
}

/// One letter behind a value: where it comes from.
fn mark(provenance: Provenance) -> &'static str {
    match provenance {
        Provenance::Own => "o",
        Provenance::DataTable => "t",
        Provenance::Computed => "c",
        Provenance::Memory => "m",
        Provenance::Assumed => "a",
    }
}

fn value(sourced: Sourced<f64>) -> String {
    format!("{} {}", sourced.value, mark(sourced.provenance))
}

fn bounds(sourced: Option<Sourced<Bounds>>) -> String {
    sourced.map_or_else(
        || "not known".to_owned(),
        |s| {
            let mark = mark(s.provenance);
            let Bounds { least, most } = s.value;
            if least < most {
                format!("{least} to {most} {mark}")
            } else {
                format!("{least} {mark}")
            }
        },
    )
}

fn spread(sourced: Sourced<Spread>) -> String {
    let Spread {
        least,
        typical,
        most,
    } = sourced.value;
    format!("{typical} ({least} to {most}) {}", mark(sourced.provenance))
}

const MARKS: &str = "Behind each value: **t** from a data table, **m** from memory (weigh or measure \
                     yours), **c** computed, **a** assumed.\n";

/// `docs/catalogue.md`: kinds, twins, accessories, materials, lashing points, surfaces, sources.
pub fn catalogue_page(catalogue: &Catalogue) -> String {
    let mut page = format!(
        "# The catalogue\n\nVersion {}. Generated from `src/catalogue/data/`; \
         run `UPDATE_DOCS=1 cargo test` to renew it.\n\n{MARKS}",
        catalogue.version()
    );
    kinds(&mut page, catalogue);
    twins(&mut page, catalogue);
    accessories(&mut page, catalogue);
    lashings(&mut page, catalogue);
    points(&mut page, catalogue);
    surfaces(&mut page, catalogue);
    sources(&mut page, catalogue.sources());
    page
}

fn kinds(page: &mut String, catalogue: &Catalogue) {
    page.push_str(
        "\n## Cylinder kinds\n\nLength and mass are without valve. \"Full\" adds the usual valve and \
         real gas at the working pressure and 15 °C; the centre of gravity of the full cylinder is \
         above the lowest point of the bare shell. A flat base stands on 0.9 of its radius; a round \
         one needs a boot, and its tip angle is that in a boot.\n\n",
    );
    head(
        page,
        &[
            "id",
            "kind",
            "water L",
            "bar",
            "diameter mm",
            "length mm",
            "empty kg",
            "base",
            "full kg",
            "centre mm",
            "tips at",
            "sources",
        ],
    );
    for kind in catalogue.kinds() {
        let (mass, centre, tip) = computed(catalogue, kind);
        let base = match kind.base_form.value {
            BaseForm::Flat => "flat",
            BaseForm::Round => "round",
        };
        row(
            page,
            &[
                format!("`{}`", kind.id),
                kind.name.clone(),
                value(kind.water_capacity_l),
                value(kind.working_pressure_bar),
                value(kind.outside_diameter_mm),
                value(kind.length_without_valve_mm),
                value(kind.empty_mass_without_valve_kg),
                format!("{base} {}", mark(kind.base_form.provenance)),
                mass,
                centre,
                tip,
                kind.sources.join(" "),
            ],
        );
    }
    page.push_str("\nWhat else is known of them:\n\n");
    for kind in catalogue.kinds() {
        if let Some(note) = &kind.note {
            let _ = writeln!(page, "- `{}`: {note}.", kind.id);
        }
    }
}

/// Full mass, height of its centre and static tip angle, as printed.
fn computed(catalogue: &Catalogue, kind: &Kind) -> (String, String, String) {
    let data = kind.data();
    let full = |boot: bool| {
        let mut fitted = super::cylinder::Fitted::full_of_air(&data);
        fitted.gas = catalogue.gas(&kind.filled_with).ok()?;
        fitted.valve = kind.valve;
        fitted.boot = boot;
        catalogue.assemble(&fitted, None).ok()
    };
    let bare = full(false);
    let standing = full(kind.base_form.value == BaseForm::Round);
    let number = |text: Option<String>| text.unwrap_or_else(|| "none".to_owned());
    (
        number(bare.as_ref().map(|b| format!("{:.1}", b.mass_kg))),
        number(bare.map(|b| format!("{:.0}", b.cg_height_m * 1000.0))),
        number(standing.map(|b| {
            let foot = b.base.least_diameter_m() / 2.0;
            format!("{:.1}°", (foot / b.cg_height_m).arc_tangent().to_degrees())
        })),
    )
}

fn twins(page: &mut String, catalogue: &Catalogue) {
    page.push_str("\n## Twin sets\n\n");
    head(
        page,
        &[
            "id",
            "set",
            "of",
            "spacing mm",
            "manifold with valves kg",
            "bands kg",
        ],
    );
    for twin in catalogue.twins() {
        row(
            page,
            &[
                format!("`{}`", twin.id),
                twin.name.clone(),
                format!("`{}`", twin.single),
                value(twin.centre_spacing_mm),
                value(twin.manifold_with_two_valves_kg),
                value(twin.bands_kg),
            ],
        );
    }
}

fn accessories(page: &mut String, catalogue: &Catalogue) {
    let all = catalogue.accessories();
    page.push_str(
        "\n## Valves, boots, kit\n\nUsual value first, from least to most behind it.\n\n",
    );
    head(page, &["part", "mass kg", "height mm", "other"]);
    for valve in &all.valves {
        row(
            page,
            &[
                valve.name.clone(),
                spread(valve.mass_kg),
                spread(valve.top_above_neck_mm),
                format!(
                    "centre {} mm above the neck",
                    value(valve.centre_above_neck_mm)
                ),
            ],
        );
    }
    for boot in &all.boots {
        row(
            page,
            &[
                format!("boot for shells up to {} mm", boot.fits_diameter_to_mm),
                spread(boot.mass_kg),
                spread(boot.height_mm),
                format!("raises the shell by {} mm", spread(boot.raises_shell_mm)),
            ],
        );
    }
    let kit = &all.kit;
    for (part, mass) in [
        ("net", all.net_kg),
        ("handle", all.handle_kg),
        ("manifold with two valves", all.manifold_with_two_valves_kg),
        ("bands of a twin", all.bands_kg),
        ("buoyancy jacket", kit.jacket_kg),
        ("steel plate and wing", kit.plate_and_wing_kg),
        ("ballast in pockets", kit.ballast_kg),
        ("first stage", kit.first_stage_kg),
        ("hoses and second stages", kit.hoses_kg),
        ("gauge", kit.gauge_kg),
    ] {
        row(
            page,
            &[part.to_owned(), spread(mass), String::new(), String::new()],
        );
    }
    let _ = writeln!(
        page,
        "\nA bare flat base stands on {BARE_FOOT_SHARE} of its radius, a boot on the shell's radius \
         (from memory)."
    );
}

fn lashings(page: &mut String, catalogue: &Catalogue) {
    page.push_str(
        "\n## Straps, ropes, chains, cords\n\nMSL is the maximum securing load of the weakest piece \
         in good condition. Stiffness is pull over relative stretch.\n\n",
    );
    head(
        page,
        &[
            "id",
            "material",
            "breaks at kN",
            "MSL share",
            "MSL kN",
            "stiffness kN",
            "note",
            "sources",
        ],
    );
    for material in catalogue.materials() {
        row(
            page,
            &[
                format!("`{}`", material.id),
                material.name.clone(),
                bounds(material.breaking_strength_kn),
                material.msl_share.map_or_else(|| "none".to_owned(), value),
                material.msl_kn().map_or_else(
                    || "none".to_owned(),
                    |msl| format!("{:.2} {}", msl.value, mark(msl.provenance)),
                ),
                bounds(material.axial_stiffness_kn),
                material.note.clone().unwrap_or_default(),
                material.sources.join(" "),
            ],
        );
    }
    page.push_str("\nWhat wear leaves of the strength:\n\n");
    head(page, &["id", "condition", "share left", "note"]);
    for condition in catalogue.conditions() {
        row(
            page,
            &[
                format!("`{}`", condition.id),
                condition.name.clone(),
                value(condition.share_left),
                condition.note.clone().unwrap_or_default(),
            ],
        );
    }
}

fn points(page: &mut String, catalogue: &Catalogue) {
    page.push_str(
        "\n## Lashing points\n\nFor information only: the strength of a point aboard is not known \
         until its maker says it or somebody tries it.\n\n",
    );
    head(
        page,
        &[
            "id",
            "point",
            "usually breaks at kN",
            "pulled aside it keeps",
            "note",
            "sources",
        ],
    );
    for point in catalogue.point_kinds() {
        let aside = point.share_by_angle.as_ref().map_or_else(
            || "not known".to_owned(),
            |table| {
                let steps = table.value.iter();
                let steps: Vec<String> = steps
                    .map(|(angle, share)| format!("{share} at {angle}°"))
                    .collect();
                format!("{} {}", steps.join(", "), mark(table.provenance))
            },
        );
        row(
            page,
            &[
                format!("`{}`", point.id),
                point.name.clone(),
                bounds(point.usual_breaking_kn),
                aside,
                point.note.clone().unwrap_or_default(),
                point.sources.join(" "),
            ],
        );
    }
}

fn surfaces(page: &mut String, catalogue: &Catalogue) {
    page.push_str("\n## Deck surfaces\n\nStatic friction coefficients.\n\n");
    head(
        page,
        &[
            "id",
            "surface",
            "hard, dry",
            "hard, wet",
            "rubber, dry",
            "rubber, wet",
            "note",
            "sources",
        ],
    );
    for surface in catalogue.surfaces() {
        row(
            page,
            &[
                format!("`{}`", surface.id),
                surface.name.clone(),
                value(surface.hard_dry),
                value(surface.hard_wet),
                value(surface.rubber_dry),
                value(surface.rubber_wet),
                surface.note.clone().unwrap_or_default(),
                surface.sources.join(" "),
            ],
        );
    }
}

fn sources(page: &mut String, sources: &[Source]) {
    page.push_str("\n## Sources\n\n");
    for source in sources {
        let _ = write!(page, "- **{}**: {}", source.id, source.title);
        match &source.address {
            Some(address) => {
                let _ = writeln!(page, ". <{address}>");
            }
            None => page.push_str(".\n"),
        }
    }
}

/// `docs/limits.md`: every published limit.
pub fn limits_page() -> String {
    let mut page = "# Published limits\n\nGenerated from `src/catalogue/published/`; run \
                    `UPDATE_DOCS=1 cargo test` to renew it. Rules are retold: the document decides.\n\n"
        .to_owned();
    head(
        &mut page,
        &["id", "says", "figures", "clause", "edition", "status"],
    );
    for limit in limits() {
        let figures: Vec<String> = limit.figures.iter().map(figure).collect();
        row(
            &mut page,
            &[
                format!("`{}`", limit.id),
                limit.says.to_owned(),
                figures.join("; "),
                clause(limit),
                limit.edition.to_owned(),
                limit.status.words().to_owned(),
            ],
        );
    }
    page
}

fn figure(figure: &Figure) -> String {
    // Three digits behind the point are a millimetre; the shares of the table need no more.
    let number = format!("{:.4}", figure.value);
    let number = number.trim_end_matches('0').trim_end_matches('.');
    format!("{}: {number} {}", figure.what, figure.unit)
        .trim_end()
        .to_owned()
}

fn clause(limit: &Limit) -> String {
    if limit.address.is_empty() {
        limit.clause.to_owned()
    } else {
        format!("[{}]({})", limit.clause, limit.address)
    }
}
