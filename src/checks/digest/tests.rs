use super::*;
use crate::checks::{fixture, run};
use crate::engine::Assessor;

fn digest(text: &str) -> (Plan, Vec<Finding>, Digest) {
    let plan = fixture::plan(text).unwrap();
    let mut assessor = Assessor::default();
    let findings = run(&mut assessor, &plan, &plan.trips[0]);
    let digest = Digest::of(&plan, &plan.trips[0], &findings, assessor.assessment());
    (plan, findings, digest)
}

#[test]
fn findings_with_one_cause_and_one_cure_are_one_line() {
    let (_, findings, digest) = digest(
        "deck 6x4; stand P1 1,0; stand P2 3,1; stand P3 5,-1
         running out roll=15/4; drifting there roll=15/4",
    );
    let unsecured: Vec<_> = findings.iter().filter(|item| item.code == "U101").collect();
    assert_eq!(unsecured.len(), 6, "three cylinders in two parts");
    let lines: Vec<_> = digest
        .lines
        .iter()
        .filter(|line| line.code == "U101")
        .collect();
    assert_eq!(lines.len(), 1);
    assert_eq!(lines[0].count, 3);
    assert_eq!(lines[0].parts, ["out", "there"]);
    assert!(
        lines[0].sentence.contains("; likewise"),
        "{}",
        lines[0].sentence
    );
}

/// Two that stand free in both parts, one more in the second alone: the sentence tells the worst of the first with its
/// part, and the others with what holds of them.
#[test]
fn a_line_is_true_of_every_one_and_every_part_that_it_names() {
    let (_, findings, digest) = digest(
        "deck 6x4; stand P1 3,0; stand P2 3,0.5; lie P10 3,1 chock=0.1
         running out roll=15/4; drifting there roll=25/4; stand P10 3,-1.5",
    );
    let line = digest
        .lines
        .iter()
        .find(|line| line.code == "U101")
        .unwrap();
    let lead = &findings[line.findings[0]];
    assert_eq!(lead.part, "there", "{line:?}");
    let sentence = line.sentence.as_str();
    assert!(sentence.starts_with(lead.sentence.as_str()), "{sentence}");
    assert_eq!(line.parts, ["out", "there"]);
    let of_lead: Vec<_> = (findings.iter())
        .filter(|item| item.code == "U101" && item.about[0] == lead.about[0])
        .map(|item| item.part.as_str())
        .collect();
    assert_eq!(line.lead_parts, of_lead);
    let told = |name: &str| {
        let mut clauses = sentence[lead.sentence.len()..].split("; ");
        let clauses = clauses.find(|it| it.contains(name));
        clauses
            .unwrap_or_else(|| panic!("{name} in {sentence}"))
            .to_owned()
    };
    let names: Vec<_> = line.things.iter().map(|it| it.name.as_str()).collect();
    assert_eq!(names, ["P1", "P2", "P10"], "as people count");
    for name in names.iter().filter(|name| **name != lead.about[0].name) {
        let stands_in: Vec<_> = (findings.iter())
            .filter(|item| item.code == "U101" && item.about[0].name == **name)
            .collect();
        let clause = told(name);
        let other_parts = stands_in.len() != of_lead.len();
        assert_eq!(
            clause.contains("(there)"),
            other_parts && stands_in.len() == 1,
            "{clause}"
        );
        assert!(clause.contains("with other figures"), "{clause}");
    }
}

/// A crate that shuts a way in one part of the day and only stands in it in the other: nothing of either is left out.
#[test]
fn parts_of_the_day_with_another_rule_of_the_same_cause_are_told() {
    let (_, findings, digest) = digest(
        "deck 6x2; running a roll=2/8; drifting b roll=2/8; place A gate 0.4,0; place B helm 5.6,0
         way W A B width=0.7; gear G crate 3,0 size=0.6x1.3 h=0.8",
    );
    let line = digest
        .lines
        .iter()
        .find(|line| line.code == "W601")
        .unwrap();
    assert_eq!(line.lead_parts, ["a", "b"]);
    assert!(!line.sentence.contains("besides"), "{}", line.sentence);
    // The same with the blocked way in the first part alone.
    let trip = &fixture::plan("deck 6x2; running a; drifting b")
        .unwrap()
        .trips[0];
    let kept: Vec<Finding> = (findings.into_iter())
        .filter(|it| it.part == "a" || it.code != "W601")
        .collect();
    let lines = Digest::lines_of(trip, &kept, None);
    let line = lines.iter().find(|line| line.code == "W601").unwrap();
    assert_eq!(
        (line.parts.len(), line.lead_parts.as_slice()),
        (2, &["a".to_owned()][..])
    );
    let other = kept
        .iter()
        .find(|it| it.part == "b" && it.code == "W604")
        .unwrap();
    let besides = format!("; besides (b): {}", other.sentence);
    assert!(line.sentence.ends_with(&besides), "{}", line.sentence);
}

/// Who is said to do the same has the same sentence but for the name.
#[test]
fn likewise_without_more_is_word_for_word() {
    let (_, findings, digest) =
        digest("deck 6x4; fast roll=3/5; stand P1 1,0; stand P2 3,0; stand P3 5,0");
    let line = digest
        .lines
        .iter()
        .find(|line| line.code == "U101")
        .unwrap();
    let sentences: Vec<_> = (findings.iter())
        .filter(|item| item.code == "U101")
        .map(|item| item.sentence.replace(&item.about[0].name, "_"))
        .collect();
    let alike = sentences.iter().all(|it| *it == sentences[0]);
    assert_eq!(
        !line.sentence.contains("other figures"),
        alike,
        "{}",
        line.sentence
    );
}

#[test]
fn an_open_front_and_those_behind_it_are_one_line() {
    let (_, _, digest) = digest(
        "deck 6x4; running roll=5/6; rack R1 bench 3,0 columns=3 foot; front R1 F1 strap tied open
         slot P1 R1/1; slot P2 R1/2",
    );
    let codes: Vec<_> = digest.lines.iter().map(|line| line.code).collect();
    assert_eq!(codes, ["R310"], "the unsecured cylinders are in its fold");
    assert_eq!(digest.lines[0].findings.len(), 3);
}

#[test]
fn the_headline_says_how_far_the_stowage_is_good() {
    let (_, _, digest) =
        digest("deck 6x4 friction=0.9; drifting roll=4/6; stand P1 3,0; stand P2 3,1");
    let sentence = &digest.parts[0].sentence;
    assert!(
        sentence.starts_with("The stowage, not the boat: good to "),
        "{sentence}"
    );
    assert!(
        sentence.contains("then P2 tips"),
        "the outer one goes first: {sentence}"
    );
}

#[test]
fn without_roll_it_says_so_instead_of_nought() {
    let (_, _, digest) = digest("deck 6x4 friction=0.9; running roll=4/6 stop=0.6; stand P1 3,0");
    let sentence = &digest.parts[0].sentence;
    assert!(
        sentence.contains("pitch, heave, pushes or steady heel alone"),
        "{sentence}"
    );
    assert!(!sentence.contains("0.0°"), "{sentence}");
}

#[test]
fn what_nobody_knows_makes_it_conditional() {
    let (_, _, digest) = digest(
        "deck 6x4 friction=0.9; running roll=30/4; stand P1 3,0
         point E1 3,0.6 strength=?; point E2 3,-0.6
         lash L1 E1 P1 E1 h=0.44 tight=0.2; lash L2 E2 P1 E2 h=0.44 tight=0.2",
    );
    let part = &digest.parts[0];
    assert!(
        part.sentence
            .ends_with("only if what nobody knows is good enough: how strong E1 is."),
        "{}",
        part.sentence
    );
    assert_eq!(part.hangs_on, ["E1"]);
    let (_, _, gentle) = self::digest(
        "deck 6x4 friction=0.9; running roll=2/5; stand P1 3,0
         point E1 3,0.6; point E2 3,-0.6
         lash L1 E1 P1 E1 h=0.44 tight=0.2 strength=?; lash L2 E2 P1 E2 h=0.44 tight=0.2",
    );
    let part = &gentle.parts[0];
    assert_eq!(NotKnown::told(&part.not_known), "how strong L1 is");
    assert_eq!(
        part.hangs_on,
        ["L1"],
        "even where this motion asks nothing of it"
    );
}

/// Of a strap whose slack nobody knows it is not its strength that is to be found out, and of one at a point of which
/// nobody knows what it takes it is the point, also where this motion asks nothing of it.
#[test]
fn strength_and_tightness_are_told_apart() {
    let (_, _, digest) = digest(
        "deck 6x4 friction=0.9; running roll=2/5; stand P1 3,0
         point E1 3,0.6 strength=?; point E2 3,-0.6
         lash L1 E1 P1 E1 h=0.44 slack=?; lash L2 E2 P1 E2 h=0.44 tight=0.2",
    );
    let told = NotKnown::told(&digest.parts[0].not_known);
    assert_eq!(told, "how strong E1 is; how tight L1 is");
}

#[test]
fn an_empty_deck_says_so() {
    let (_, _, digest) = digest("deck 6x4; running roll=12/5");
    assert_eq!(digest.parts[0].sentence, "No cylinder is on deck.");
    assert!(digest.gravest().is_none());
}

#[test]
fn what_was_taken_on_stays_but_does_not_count() {
    let text = "deck 6x4; fast roll=1/8; stand P1 3,0";
    let mut plan = fixture::plan(text).unwrap();
    plan.trips[0].taken_on.push(crate::layout::TakenOn {
        code: "U101".into(),
        about: vec!["P1".into()],
        part: None,
        by: "Ann".into(),
        reason: "stands by the filling station".into(),
        when: None,
    });
    let mut assessor = Assessor::default();
    let findings = run(&mut assessor, &plan, &plan.trips[0]);
    let digest = Digest::of(&plan, &plan.trips[0], &findings, assessor.assessment());
    assert_eq!(digest.lines.len(), 1);
    assert_eq!(digest.lines[0].taken_on.as_ref().unwrap().by, "Ann");
    assert_eq!(digest.count(Signal::Warning), 0);
    assert_eq!(digest.parts[0].to_put_right, 0);
}

#[test]
fn the_best_cures_raise_the_limit_one_after_the_other() {
    let (plan, findings, mut digest) = digest(
        "deck 6x4; drifting roll=12/5; stand P1 3,0; stand P2 3,1
         rack R1 sockets 1,0 columns=2 foot strength=9",
    );
    digest.fill_cures(&plan, &plan.trips[0], &findings);
    let cures = &digest.parts[0].cures;
    assert_eq!(cures.len(), 2, "{cures:#?}");
    assert!(
        cures[0].cure.label.contains("P2 in slot"),
        "{}",
        cures[0].cure.label
    );
    assert!(
        cures[0].sentence.contains("then P1"),
        "{}",
        cures[0].sentence
    );
    let line = &digest.lines[0];
    let cure = line.cure.as_ref().unwrap();
    assert!(cure.clears, "{}", cure.label);
    assert!(
        cure.label.contains("P1 in slot") && cure.label.contains("P2 in slot"),
        "{}",
        cure.label
    );
}

/// Six parts with six needs are one line, and it tells the greatest and where.
#[test]
fn what_nobody_knows_is_told_once_with_the_greatest_need() {
    let (_, findings, digest) = digest(
        "deck 6x4; rack R1 sockets 3,0 columns=2 foot fixings=?; slot P1 R1/1; slot P2 R1/2
         fast port roll=2/6; running out roll=20/4; drifting there roll=8/5",
    );
    let told = |item: &&Finding| item.code == "R308";
    let needs: Vec<f64> = (findings.iter().filter(told))
        .filter_map(|item| item.measure.as_ref()?.value)
        .collect();
    assert_eq!(needs.len(), 3, "{needs:?}");
    assert!(needs[0] < needs[2] && needs[2] < needs[1], "{needs:?}");
    let lines: Vec<_> = (digest.lines.iter())
        .filter(|line| line.code == "R308")
        .collect();
    assert_eq!(lines.len(), 1);
    let greatest = findings
        .iter()
        .filter(told)
        .find(|item| item.part == "out")
        .unwrap();
    assert!(
        lines[0].sentence.starts_with(greatest.sentence.as_str()),
        "{}",
        lines[0].sentence
    );
    assert!(
        lines[0].sentence.ends_with("; most in out"),
        "{}",
        lines[0].sentence
    );
    assert_eq!(lines[0].parts, ["port", "out", "there"]);
}

/// A thin mat that two walkways pass is one step with one bevel, and no wall besides.
#[test]
fn a_thin_mat_is_told_once() {
    let (_, _, digest) = digest(
        "deck 6x2; running roll=2/8; place A gate 0.4,0; place B helm 5.6,0; place C seat 5.6,0.6
         way W A B width=0.7; way V A C width=0.7; gear M mat 2,0 size=0.5x2 h=0.012",
    );
    let told: Vec<_> = (digest.lines.iter())
        .map(|line| format!("{} {}", line.code, line.sentence))
        .filter(|line| line.contains('M'))
        .collect();
    assert_eq!(told.len(), 1, "{told:#?}");
    assert!(
        told[0].starts_with("W603 M makes a step of 12 mm"),
        "{told:?}"
    );
}

/// Counted without making them there are as many of each signal word as lines that are not taken on.
#[test]
fn counted_signals_are_those_of_the_lines() {
    let (mut plan, findings, _) = digest(
        "deck 6x4; stand P1 1,0; stand P2 3,1; stand P3 5,-1; gear G crate 3,0 size=0.4x0.3 h=0.3
         rack R1 bench 3,-1.5 columns=3 foot; front R1 F1 strap open; slot P4 R1/1; slot P5 R1/2
         point E1 5,0.6 strength=?; lash L1 E1 P3 E1 h=0.44
         fast roll=2/4; running out roll=15/4; drifting there roll=15/4; water P4",
    );
    let first = findings.iter().find(|item| item.code == "U101").unwrap();
    plan.trips[0].taken_on.push(crate::layout::TakenOn {
        code: first.code.into(),
        about: first.about.iter().map(|item| item.id.clone()).collect(),
        part: None,
        by: "Ann".into(),
        reason: "to see that it is not counted".into(),
        when: None,
    });
    let trip = &plan.trips[0];
    let findings = run(&mut Assessor::default(), &plan, trip);
    assert!(findings.iter().any(|finding| finding.taken_on.is_some()));
    for part in [None, Some("fast"), Some("out"), Some("there")] {
        let lines = Digest::lines_of(trip, &findings, part).into_iter();
        let lines = lines.filter(|line| line.taken_on.is_none());
        let mut of_lines: Vec<_> = lines.map(|line| line.signal).collect();
        let mut counted: Vec<_> = Digest::signals_of(&findings, part).collect();
        of_lines.sort();
        counted.sort();
        assert!(counted.len() > 2, "{part:?}: {counted:?}");
        assert_eq!(counted, of_lines, "{part:?}");
    }
}
