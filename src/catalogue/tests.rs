use super::*;

use std::collections::BTreeSet;

use super::cylinder::{Fitted, Side};
use super::fingerprint::Fingerprint;
use super::kinds::KindData;
use super::provenance::Provenance;
use super::surfaces::Foot;
use crate::mechanics::assembly::{Base, Kit};
use crate::mechanics::shell::BaseForm;

#[test]
fn the_catalogue_is_complete() {
    let catalogue = Catalogue::built_in();
    assert_eq!(catalogue.kinds().len(), 43);
    assert_eq!(catalogue.twins().len(), 6);
    let mut ids: BTreeSet<&str> = catalogue
        .kinds()
        .iter()
        .map(|kind| kind.id.as_str())
        .collect();
    ids.extend(catalogue.twins().iter().map(|twin| twin.id.as_str()));
    assert_eq!(ids.len(), 43 + 6, "an id stands twice");
    for twin in catalogue.twins() {
        assert!(catalogue.kind(&twin.single).is_some(), "{}", twin.id);
    }
    let all_read = |kind: &&Kind| kind.provenance() == Provenance::DataTable;
    assert_eq!(catalogue.kinds().iter().filter(all_read).count(), 11);
}

#[test]
fn every_source_named_is_listed_and_every_listed_source_is_named_once() {
    let catalogue = Catalogue::built_in();
    let listed: BTreeSet<&str> = catalogue.sources().iter().map(|s| s.id.as_str()).collect();
    assert_eq!(
        listed.len(),
        catalogue.sources().len(),
        "a source stands twice"
    );
    let mut named: Vec<(&str, &[String])> = Vec::new();
    named.extend(catalogue.kinds().iter().map(|k| (&*k.id, &*k.sources)));
    named.extend(catalogue.materials().iter().map(|m| (&*m.id, &*m.sources)));
    named.extend(catalogue.conditions().iter().map(|c| (&*c.id, &*c.sources)));
    named.extend(
        catalogue
            .point_kinds()
            .iter()
            .map(|p| (&*p.id, &*p.sources)),
    );
    named.extend(catalogue.surfaces().iter().map(|s| (&*s.id, &*s.sources)));
    named.push(("kit", &catalogue.accessories().kit.sources));
    let mut unused = listed.clone();
    for (id, sources) in named {
        assert!(!sources.is_empty(), "{id} names no source");
        for source in sources {
            assert!(listed.contains(source.as_str()), "{id}: {source}");
            unused.remove(source.as_str());
        }
    }
    assert!(unused.is_empty(), "listed but never named: {unused:?}");
}

fn ids<'a>(ids: impl Iterator<Item = &'a String>) -> Vec<&'a str> {
    ids.map(String::as_str).collect()
}

#[test]
fn ids_are_unique_in_each_table() {
    let catalogue = Catalogue::built_in();
    for table in [
        ids(catalogue.materials().iter().map(|m| &m.id)),
        ids(catalogue.conditions().iter().map(|c| &c.id)),
        ids(catalogue.point_kinds().iter().map(|p| &p.id)),
        ids(catalogue.surfaces().iter().map(|s| &s.id)),
    ] {
        let unique: BTreeSet<&str> = table.iter().copied().collect();
        assert_eq!(unique.len(), table.len(), "{table:?}");
    }
}

/// CSS Code Annex 13 table 1 applied to published strengths: 33 % of 8.3 kN is 2.7 kN, knotted 1.4 kN.
#[test]
fn the_securing_load_of_a_rope() {
    let catalogue = Catalogue::built_in();
    let rope = catalogue.material("polyester_rope_8").unwrap();
    let msl = rope.msl_kn().unwrap();
    assert!((msl.value - 2.7).abs() < 0.05, "{msl:?}");
    assert_eq!(msl.provenance, Provenance::DataTable);
    let knotted = catalogue.condition("knotted").unwrap().share_left.value;
    assert!((msl.value * knotted - 1.4).abs() < 0.05);
    // A 25 mm strap with LC 400 daN.
    let strap = catalogue
        .material("ratchet_strap_25")
        .unwrap()
        .msl_kn()
        .unwrap();
    assert!((strap.value - 4.0).abs() < 1e-12);
    assert_eq!(strap.provenance, Provenance::Memory);
}

#[test]
fn shock_cord_and_unrated_nets_secure_nothing() {
    let catalogue = Catalogue::built_in();
    for id in ["shock_cord_8", "shock_cord_10", "net"] {
        assert_eq!(catalogue.material(id).unwrap().msl_kn(), None, "{id}");
    }
    let cord = catalogue.material("shock_cord_8").unwrap();
    assert!(cord.is_elastic());
    let strap = catalogue.material("cam_strap_25").unwrap();
    let cord_stiffest = cord.stiffness_kn_per_m(1.0).unwrap().value.most;
    let strap_softest = strap.stiffness_kn_per_m(1.0).unwrap().value.least;
    assert!(strap_softest > 3.0 * cord_stiffest);
    assert_eq!(strap.stiffness_kn_per_m(0.0), None);
}

/// Machinery eye bolts: M8 carries 4.94 kN straight and 1.24 kN at 45 degrees, a quarter.
#[test]
fn a_point_keeps_less_of_its_strength_aside() {
    let catalogue = Catalogue::built_in();
    let eye = catalogue.point_kind("eye_bolt").unwrap();
    assert!((eye.share_at(45.0).unwrap() - 1.24 / 4.94).abs() < 0.002);
    assert!((eye.share_at(0.0).unwrap() - 1.0).abs() < 1e-12);
    assert!((eye.share_at(22.5).unwrap() - 0.625).abs() < 1e-12);
    assert_eq!(eye.share_at(46.0), None);
    assert_eq!(catalogue.point_kind("cleat").unwrap().share_at(0.0), None);
    let rail = catalogue.point_kind("lashing_rail").unwrap();
    assert_eq!(rail.share_at(90.0), Some(1.0));
    for id in ["stanchion", "guard_rail"] {
        assert!(catalogue.point_kind(id).unwrap().guard_rail);
    }
}

/// Nothing is assumed better wet than dry, and every friction lies between 0 and 0.6.
#[test]
fn surfaces_are_never_better_wet() {
    for surface in Catalogue::built_in().surfaces() {
        for foot in [Foot::Hard, Foot::Rubber] {
            let dry = surface.friction(foot, false).value;
            let wet = surface.friction(foot, true).value;
            assert!(wet <= dry && (0.0..=0.6).contains(&dry), "{}", surface.id);
            assert!(wet >= 0.0);
        }
    }
    // The policy: 0.2 for a hard bottom on a painted or gelcoat deck, 0.3 for rubber.
    let painted = Catalogue::built_in().surface("painted").unwrap();
    let wet = painted.friction(Foot::Hard, true);
    assert!((wet.value - 0.2).abs() < 1e-12);
    assert_eq!(wet.provenance, Provenance::Assumed);
}

/// Only one kind fails the volume check by more than 5 %: a bank cylinder with a concave base.
#[test]
fn kinds_pass_the_volume_check() {
    let mut doubtful = Vec::new();
    for kind in Catalogue::built_in().kinds() {
        if kind.data().closure().unwrap().is_doubtful() {
            doubtful.push(kind.id.as_str());
        }
    }
    assert_eq!(doubtful, ["bank-244cf"]);
}

#[test]
fn every_kind_has_a_gas_a_valve_and_a_body() {
    let catalogue = Catalogue::built_in();
    for kind in catalogue.kinds() {
        let data = kind.data();
        let mut fitted = Fitted::full_of_air(&data);
        fitted.gas = catalogue.gas(&kind.filled_with).unwrap();
        fitted.valve = kind.valve;
        assert!(catalogue.accessories().valve(kind.valve).is_some());
        let bare = catalogue.assemble(&fitted, None).unwrap();
        let can_stand = bare.base.least_diameter_m() > 0.0;
        assert_eq!(can_stand, data.base_form == BaseForm::Flat, "{}", kind.id);
        fitted.boot = true;
        let booted = catalogue.assemble(&fitted, None).unwrap();
        assert!(booted.base.least_diameter_m() > 0.0, "{}", kind.id);
        assert!(booted.strap_from_m < booted.strap_to_m, "{}", kind.id);
        assert!(booted.strap_to_m < booted.neck_m && booted.neck_m < booted.height_overall_m);
    }
}

#[test]
fn names_nearly_right_are_proposed() {
    let catalogue = Catalogue::built_in();
    assert_eq!(catalogue.nearest_kind_name("al80cf"), Some("al-80cf"));
    assert_eq!(catalogue.nearest_kind_name("st-15-232"), Some("st-15l-232"));
    assert_eq!(
        catalogue.nearest_kind_name("Steel 12 L short 232 bar"),
        Some("st-12l-short-232")
    );
    assert_eq!(
        catalogue.nearest_kind_name("twin-st-12l-shrt-232"),
        Some("twin-st-12l-short-232")
    );
    assert_eq!(catalogue.nearest_kind_name("?"), None);
}

#[test]
fn a_fingerprint_follows_every_value_but_the_name() {
    let data = Catalogue::built_in().kind("al-80cf").unwrap().data();
    let plain = data.fingerprint();
    let renamed = KindData {
        name: "S80".to_owned(),
        ..data.clone()
    };
    assert_eq!(renamed.fingerprint(), plain);
    let mut seen = BTreeSet::from([plain]);
    let changes: [fn(&mut KindData); 8] = [
        |k| k.water_capacity_l += 0.1,
        |k| k.working_pressure_bar += 1.0,
        |k| k.outside_diameter_mm += 0.1,
        |k| k.length_without_valve_mm += 1.0,
        |k| k.empty_mass_without_valve_kg += 0.01,
        |k| k.base_form = BaseForm::Round,
        |k| k.measured_cg_height_mm = Some(300.0),
        |k| k.measured_inertia_kg_m2 = Some(300.0),
    ];
    for change in changes {
        let mut changed = data.clone();
        change(&mut changed);
        assert!(seen.insert(changed.fingerprint()), "{changed:?}");
    }
}

/// What was changed in the data is told to trips by the version: raise it, then put the new hash here.
#[test]
fn a_change_of_the_data_raises_the_version() {
    let mut fingerprint = Fingerprint::default();
    for data in [
        KINDS,
        TWINS,
        ACCESSORIES,
        MATERIALS,
        CONDITIONS,
        POINTS,
        SURFACES,
    ] {
        fingerprint.add(data);
    }
    assert_eq!(
        (VERSION, fingerprint.text().as_str()),
        ("1", "00c3f86d5ff6")
    );
}

#[test]
fn own_measurements_stand_over_computed_ones() {
    let catalogue = Catalogue::built_in();
    let data = catalogue.kind("al-80cf").unwrap().data();
    let measured = KindData {
        measured_cg_height_mm: Some(310.0),
        measured_inertia_kg_m2: Some(0.62),
        ..data.clone()
    };
    assert!((measured.shell().unwrap().inertia_tip_kg_m2 - 0.62).abs() < 1e-12);
    let mut fitted = Fitted::full_of_air(&measured);
    let full = catalogue.assemble(&fitted, None).unwrap();
    assert!((full.cg_height_m - 0.310).abs() < 1e-12);
    fitted.boot = true;
    let booted = catalogue.assemble(&fitted, None).unwrap();
    assert!(booted.cg_height_m > 0.310 && booted.cg_height_m < 0.320);

    let mut fitted = Fitted::full_of_air(&data);
    let usual = catalogue.assemble(&fitted, None).unwrap();
    fitted.stamped_mass_kg = Some(15.1);
    let stamped = catalogue.assemble(&fitted, None).unwrap();
    assert!((stamped.mass_kg - usual.mass_kg - 0.75).abs() < 1e-9);
    assert!(stamped.inertia_fore_aft_kg_m2 > usual.inertia_fore_aft_kg_m2);
}

#[test]
fn a_side_cylinder_shows_in_mass_and_offset() {
    let catalogue = Catalogue::built_in();
    let large = catalogue.kind("st-15l-232").unwrap().data();
    let small = catalogue.kind("st-3l-232").unwrap().data();
    let mut fitted = Fitted::full_of_air(&large);
    fitted.boot = true;
    let mut side = Side {
        small: Fitted::full_of_air(&small),
        mass_kg: None,
        bearing_rad: std::f64::consts::FRAC_PI_2,
        bottom_m: 0.10,
    };
    let alone = catalogue.assemble(&fitted, None).unwrap();
    let both = catalogue.assemble(&fitted, Some(&side)).unwrap();
    assert!(both.mass_kg > alone.mass_kg + 5.0);
    assert!(both.cg_left_m > 0.02 && both.cg_offset_m.abs() < 1e-9);
    assert_eq!(both.base, alone.base);
    side.mass_kg = Some(8.0);
    let by_mass = catalogue.assemble(&fitted, Some(&side)).unwrap();
    assert!((by_mass.mass_kg - alone.mass_kg - 8.5).abs() < 1e-9);
}

#[test]
fn a_kit_known_by_its_mass_weighs_that() {
    let accessories = Catalogue::built_in().accessories();
    for mass in [0.0, 1.0, 2.2, 6.2, 14.0] {
        let kit = accessories.kit_of_mass(mass);
        let sum = kit.jacket_kg + kit.ballast_kg + kit.first_stage_kg + kit.hoses_kg;
        assert!((sum - mass).abs() < 1e-12, "{mass}: {kit:?}");
    }
}

/// A twin in boots stands on two feet; without boots its round bottoms give no width fore and aft.
#[test]
fn a_twin_stands_on_its_boots() {
    let catalogue = Catalogue::built_in();
    let set = catalogue.twin("twin-st-12l-short-232").unwrap();
    let data = catalogue.kind(&set.single).unwrap().data();
    let mut fitted = Fitted::full_of_air(&data);
    let measures = set.measures();
    let bare = catalogue.assemble_twin(&measures, &fitted).unwrap();
    assert!(bare.base.least_diameter_m().abs() < f64::EPSILON);
    fitted.boot = true;
    fitted.kit = Some(Kit {
        jacket_kg: 4.5,
        ballast_kg: 0.0,
        first_stage_kg: 1.6,
        hoses_kg: 1.4,
    });
    let booted = catalogue.assemble_twin(&measures, &fitted).unwrap();
    assert!(matches!(booted.base, Base::Twin { .. }));
    assert!(booted.cg_offset_m > 0.01);
}

/// `docs/catalogue.md` and `docs/limits.md` say what this program holds; `UPDATE_DOCS=1` renews them.
#[test]
fn the_pages_are_current() {
    let docs = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("docs");
    for (name, page) in [
        ("catalogue.md", pages::catalogue_page(Catalogue::built_in())),
        ("limits.md", pages::limits_page()),
    ] {
        let path = docs.join(name);
        if std::env::var_os("UPDATE_DOCS").is_some() {
            #[expect(
                clippy::disallowed_methods,
                reason = "a page is generated, not a user's work"
            )]
            std::fs::write(&path, &page).unwrap();
        }
        let committed = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(
            committed == page,
            "run `UPDATE_DOCS=1 cargo test` to renew docs/{name}"
        );
    }
}
