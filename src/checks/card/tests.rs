use super::*;
use crate::checks::fixture;

fn cards(text: &str) -> Vec<LimitCard> {
    let plan = fixture::plan(text).unwrap();
    limit_cards(&plan, &plan.trips[0], None, false)
}

#[test]
fn the_card_names_a_height_and_who_goes() {
    let cards = cards("deck 6x4 friction=0.9; drifting roll=4/4; stand P1 3,0; stand P2 3,1");
    let card = &cards[0];
    let good = card.good_to_wave_height_m.unwrap();
    assert!(good > 0.02 && good < 1.5, "{good}");
    assert_eq!(
        card.first.as_deref(),
        Some("P2"),
        "the outer one goes first"
    );
    assert!(
        card.sea_sentence.contains("coastal sea"),
        "{}",
        card.sea_sentence
    );
    for margin in &card.margins {
        if margin.wave_height_m <= good {
            assert!(margin.holds, "{margin:?} below {good}");
        }
    }
    assert!(
        card.sea_sentence.ends_with("then P2 tips."),
        "{}",
        card.sea_sentence
    );
    let first_bad = card.margins.iter().find(|margin| !margin.holds).unwrap();
    assert!(first_bad.wave_height_m > good && first_bad.wave_height_m <= good + STEP_M + 1e-9);
}

/// A card may promise less than was found, never more: in steps of 5 cm below a metre, of 10 cm above.
#[test]
fn the_height_is_rounded_down_and_never_up() {
    for (found_m, told) in [
        (0.0, "0.00"),
        (0.049, "0.00"),
        (0.05, "0.05"),
        (0.789, "0.75"),
        (0.999, "0.95"),
        (1.0, "1.0"),
        (1.099, "1.0"),
        (1.96, "1.9"),
        (3.99, "3.9"),
    ] {
        assert_eq!(rounded_down(found_m), told, "{found_m}");
    }
    for millimetre in 0..4000_u32 {
        let found_m = f64::from(millimetre) / 1000.0;
        let told: f64 = rounded_down(found_m).parse().unwrap();
        let step = if found_m < 1.0 { 0.05 } else { 0.1 };
        assert!(
            told <= found_m + 1e-9 && told > found_m - step - 1e-9,
            "{found_m}: {told}"
        );
    }
}

#[test]
fn an_empty_deck_holds_in_all_that_is_tried() {
    let cards = cards("deck 6x4; drifting roll=4/4");
    assert_eq!(cards[0].good_to_wave_height_m, None);
    let sentence = &cards[0].sea_sentence;
    assert!(sentence.contains("holds up to "), "{sentence}");
    // Linear theory would roll her over long before 4 m of sea: nothing is promised there.
    assert!(sentence.contains("no estimate above that"), "{sentence}");
    let highest = cards[0].margins.last().unwrap().wave_height_m;
    assert!(highest < 0.5 * HIGHEST_M, "{highest}");
}

#[test]
fn cures_raise_the_sea_that_it_is_good_to() {
    let text = "deck 6x3; point E1 2.8,0 h=0.03 strength=4; point E2 3.2,0 h=0.03 strength=4; \
                point E3 2.8,-0.3 h=0.03 strength=4; point E4 3.2,-0.3 h=0.03 strength=4; \
                aboard S strap 2; stand P1 3,0; drifting out roll=15/4";
    let plan = fixture::plan(text).unwrap();
    let without = &limit_cards(&plan, &plan.trips[0], None, false)[0];
    assert!(without.with_cures.is_none(), "none was tried");
    let card = &limit_cards(&plan, &plan.trips[0], None, true)[0];
    let cured = card.with_cures.as_ref().unwrap();
    assert!(cured.cures_counted >= 1 && cured.cures_counted <= CURES_COUNTED);
    assert!(cured.sentence.starts_with("With th"), "{}", cured.sentence);
    let before = card.good_to_wave_height_m.unwrap();
    let after = cured.good_to_wave_height_m.unwrap_or(HIGHEST_M);
    assert!(after > before + 0.1, "{before} to {after}: {cured:?}");
}

/// A part in which nothing goes, one in which something does, and one made fast.
const THREE_PARTS: &str = "deck 6x3; point E1 2.8,0 h=0.03 strength=4; point E2 3.2,0 h=0.03 strength=4; \
     point E3 2.8,-0.3 h=0.03 strength=4; point E4 3.2,-0.3 h=0.03 strength=4; aboard S strap 2; stand P1 3,0; \
     drifting calm roll=2/4; drifting out roll=15/4; fast home roll=1/4";

fn on_paper(text: &str, go_on: &mut dyn FnMut(f64) -> bool) -> Vec<LimitCard> {
    let plan = fixture::plan(text).unwrap();
    let trip = &plan.trips[0];
    let mut assessor = Assessor::default();
    let findings = run(&mut assessor, &plan, trip);
    limit_cards_for_paper(&plan, trip, (&assessor, &findings), go_on)
}

#[test]
fn on_paper_cures_stand_where_something_goes_and_a_sea_where_the_boat_lies_in_one() {
    let paper = on_paper(THREE_PARTS, &mut |_| true);
    let names: Vec<&str> = paper.iter().map(|card| card.part.as_str()).collect();
    assert_eq!(names, ["calm", "out", "home"], "in the order of the day");
    let [calm, out, home] = paper.as_slice() else {
        panic!("{names:?}")
    };
    assert!(calm.cures.is_empty() && calm.with_cures.is_none());
    assert!(!out.cures.is_empty() && out.with_cures.is_some());
    assert!(home.sea_sentence.is_empty() && home.margins.is_empty());
    assert!(!home.roll_sentence.is_empty());
    // What is tried comes to the same as on the card in the window.
    let window = cards(THREE_PARTS);
    for (paper, window) in paper[..2].iter().zip(&window) {
        assert_eq!(paper.sea_sentence, window.sea_sentence);
        assert_eq!(paper.margins, window.margins);
        assert_eq!(paper.roll_sentence, window.roll_sentence);
    }
}

#[test]
fn on_paper_it_is_told_how_far_it_is_and_can_be_given_up() {
    let mut told = Vec::new();
    on_paper(THREE_PARTS, &mut |share| {
        told.push(share);
        true
    });
    assert!(told.len() >= 3 && told.is_sorted(), "{told:?}");
    assert!(
        told.iter().all(|share| (0.0..=1.0).contains(share)),
        "{told:?}"
    );
    let mut asked = 0;
    let cards = on_paper(THREE_PARTS, &mut |_| {
        asked += 1;
        asked < 2
    });
    assert!(cards.is_empty() && asked == 2, "{asked}");
}
