use crate::checks::fixture;
use crate::layout::{LashCondition, Plan};
use crate::record::FoundCondition::{Bleached, Cut, Knotted, Open, RoundTheValve};
use crate::record::{
    Account, FoundCondition, FoundItem, FoundThing, LashingFound, Provenance, StowageError,
    stowage_of,
};

fn plan() -> Plan {
    let text = "deck 10x4; running roll=15/4
point E1 4,1.6 h=0.3 strength=9; point E2 4.6,1.6 h=0.3 strength=9
stand P1 4.3,1.3; stand P2 7,1.3; lash L1 E1 P1+P2 E2 h=0.44 strength=8; stand P3 2,0";
    fixture::plan(text).unwrap()
}

fn account(found: Vec<FoundThing>, lashings: Vec<LashingFound>) -> Account {
    let items = found.into_iter().map(|thing| FoundItem {
        thing,
        state: Provenance::AsFound,
        rests_on: Vec::new(),
        remark: None,
    });
    Account {
        id: "A".to_owned(),
        by: "mate".to_owned(),
        when: None,
        layout: None,
        found: items.collect(),
        lashings,
    }
}

fn worn(condition: FoundCondition, factor: Option<f64>) -> LashingFound {
    LashingFound {
        lashing: "L1".to_owned(),
        condition,
        factor,
        photo: None,
        state: Provenance::AsFound,
        remark: None,
    }
}

#[test]
fn an_account_takes_the_place_of_things_by_name() {
    let plan = plan();
    let mut moved = plan.trips[0].cylinders[2].clone();
    *moved.placing.at_mut().unwrap() = [3.0, 0.5];
    let account = account(
        vec![
            FoundThing::Cylinder { cylinder: moved },
            FoundThing::NoCylinder {
                cylinder: "P2".to_owned(),
            },
        ],
        Vec::new(),
    );
    let (found, notes) = stowage_of(&plan, &account).unwrap();
    let trip = &found.trips[0];
    assert_eq!(trip.cylinder("P3").unwrap().placing.at(), Some([3.0, 0.5]));
    assert_eq!(trip.cylinder("P2"), None);
    // The lashing that went round two goes round the one that is left, and that is told.
    assert_eq!(trip.lashing("L1").unwrap().round, ["P1"]);
    assert_eq!(notes.len(), 1);
    assert_eq!(plan, self::plan(), "the plan stays as it was");
}

#[test]
fn what_is_not_there_is_told() {
    let gone = FoundThing::NoLashing {
        lashing: "L7".to_owned(),
    };
    let error = stowage_of(&plan(), &account(vec![gone], Vec::new())).unwrap_err();
    assert!(error.to_string().contains("L7"), "{error}");
    let far = {
        let mut cylinder = plan().trips[0].cylinders[2].clone();
        *cylinder.placing.at_mut().unwrap() = [90.0, 0.0];
        FoundThing::Cylinder { cylinder }
    };
    let error = stowage_of(&plan(), &account(vec![far], Vec::new())).unwrap_err();
    assert!(matches!(error, StowageError::Unsound { .. }), "{error}");
}

/// The factor of the record counts alone; without one the condition's usual share does.
#[test]
fn a_condition_leaves_a_share_of_the_strength() {
    let of = |condition, factor| {
        let account = account(Vec::new(), vec![worn(condition, factor)]);
        let (found, notes) = stowage_of(&plan(), &account).unwrap();
        assert_eq!(notes.len(), 1);
        let lashing = found.trips[0].lashing("L1").unwrap().clone();
        let counts = lashing.shut && lashing.condition != LashCondition::Cut;
        (
            counts,
            lashing.strength_kn.unwrap().value().unwrap(),
            lashing.condition,
        )
    };
    assert_eq!(of(Knotted, None), (true, 4.0, LashCondition::Good));
    assert_eq!(of(Knotted, Some(0.25)), (true, 2.0, LashCondition::Good));
    assert_eq!(of(Bleached, None), (true, 4.0, LashCondition::Good));
    for condition in [Cut, Open, RoundTheValve] {
        assert!(!of(condition, None).0, "{condition:?}");
        assert_eq!(of(condition, Some(0.5)), (true, 4.0, LashCondition::Good));
    }
}

/// The strength that a knot leaves is the one that the engine takes for a knotted lashing.
#[test]
fn a_knot_costs_as_much_as_in_the_engine() {
    use crate::engine::Assessor;
    let capacity = |plan: &Plan| {
        let mut assessor = Assessor::default();
        let numbers = assessor.assess(plan, &plan.trips[0]);
        numbers.parts[0].lashings[0].clone()
    };
    let account = account(Vec::new(), vec![worn(FoundCondition::Knotted, None)]);
    let (by_record, _) = stowage_of(&plan(), &account).unwrap();
    let mut by_layout = plan();
    by_layout.trips[0].lashings[0].condition = LashCondition::Knotted;
    assert_eq!(capacity(&by_record), capacity(&by_layout));
    assert_ne!(capacity(&by_record), capacity(&plan()));
}
