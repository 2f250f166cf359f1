use super::*;

fn account() -> Account {
    Account {
        id: "A".to_owned(),
        by: "mate".to_owned(),
        when: None,
        layout: None,
        found: Vec::new(),
        lashings: Vec::new(),
    }
}

fn worn(condition: FoundCondition) -> LashingFound {
    LashingFound {
        lashing: "L1".to_owned(),
        condition,
        factor: None,
        photo: None,
        state: Provenance::AsFound,
        remark: None,
    }
}

fn record() -> AuditRecord {
    let file = LayoutFile {
        path: "plan.json".to_owned(),
        sha256: "0".repeat(64),
        trip: None,
        part: None,
    };
    AuditRecord::new("Test", file, account())
}

fn wrong(change: impl FnOnce(&mut AuditRecord)) -> Vec<String> {
    let mut record = record();
    change(&mut record);
    let mistakes = validate(&record).into_iter();
    mistakes.map(|mistake| mistake.field).collect()
}

#[test]
fn what_no_schema_can_say_is_told() {
    assert_eq!(wrong(|_| {}), [""; 0]);
    let field = wrong(|it| it.planned.sha256 = "ABC".to_owned());
    assert_eq!(field, ["planned.sha256"]);
    let statement = |id: &str| Statement {
        id: id.to_owned(),
        by: "mate".to_owned(),
        when: "noon".to_owned(),
        text: "it fell".to_owned(),
    };
    // The account is called A already.
    let field = wrong(|it| it.statements = vec![statement("S1"), statement("A")]);
    assert_eq!(field, ["statements[1].id"]);
    let field = wrong(|it| {
        let mut lashing = worn(FoundCondition::Cut);
        lashing.photo = Some("F9".to_owned());
        it.accounts[0].lashings.push(lashing);
    });
    assert_eq!(field, ["accounts[0].lashings[0].photo"]);
    let field = wrong(|it| {
        it.plausible.push(Plausible {
            id: "R1".to_owned(),
            source: PlausibleSource::Witness,
            from: "mate".to_owned(),
            roll_amplitude_deg: [12.0, 8.0],
        });
    });
    assert_eq!(field, ["plausible[0].roll_amplitude_deg"]);
    let field = wrong(|it| {
        it.injured.push(Injured {
            letter: "Ann".to_owned(),
            was: None,
        });
    });
    assert_eq!(field, ["injured[0].letter"]);
}
