use super::*;

use std::collections::BTreeSet;

use super::cylinder::{Fitted, SidePlace};
use super::fingerprint::Fingerprint;
use super::kinds::KindData;
use super::provenance::Provenance;
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
    for kind in catalogue.kinds() {
        for source in &kind.sources {
            assert!(listed.contains(source.as_str()), "{}: {source}", kind.id);
        }
    }
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
    for data in [KINDS, TWINS, ACCESSORIES] {
        fingerprint.add(data);
    }
    assert_eq!(
        (VERSION, fingerprint.text().as_str()),
        ("1", "0b7a940f9432")
    );
}

#[test]
fn own_measurements_stand_over_computed_ones() {
    let catalogue = Catalogue::built_in();
    let data = catalogue.kind("al-80cf").unwrap().data();
    let computed = data.shell().unwrap();
    let measured = KindData {
        measured_cg_height_mm: Some(310.0),
        measured_inertia_kg_m2: Some(0.62),
        ..data.clone()
    };
    let shell = measured.shell().unwrap();
    assert!((shell.centre_m - 0.310).abs() < 1e-12);
    assert!((shell.inertia_tip_kg_m2 - 0.62).abs() < 1e-12);
    assert!((shell.wall_m - computed.wall_m).abs() < 1e-12);

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
    let place = SidePlace {
        bearing_rad: std::f64::consts::FRAC_PI_2,
        bottom_m: 0.10,
    };
    let alone = catalogue.assemble(&fitted, None).unwrap();
    let both = catalogue
        .assemble(&fitted, Some((&Fitted::full_of_air(&small), place)))
        .unwrap();
    assert!(both.mass_kg > alone.mass_kg + 5.0);
    assert!(both.cg_left_m > 0.02 && both.cg_offset_m.abs() < 1e-9);
    assert_eq!(both.base, alone.base);
}

/// A twin in boots stands on two feet; without boots its round bottoms give no width fore and aft.
#[test]
fn a_twin_stands_on_its_boots() {
    let catalogue = Catalogue::built_in();
    let set = catalogue.twin("twin-st-12l-short-232").unwrap();
    let data = catalogue.kind(&set.single).unwrap().data();
    let mut fitted = Fitted::full_of_air(&data);
    let bare = catalogue.assemble_twin(set, &fitted).unwrap();
    assert!(bare.base.least_diameter_m().abs() < f64::EPSILON);
    fitted.boot = true;
    fitted.kit = Some(Kit {
        jacket_kg: 4.5,
        ballast_kg: 0.0,
        first_stage_kg: 1.6,
        hoses_kg: 1.4,
    });
    let booted = catalogue.assemble_twin(set, &fitted).unwrap();
    assert!(matches!(booted.base, Base::Twin { .. }));
    assert!(booted.cg_offset_m > 0.01);
}
