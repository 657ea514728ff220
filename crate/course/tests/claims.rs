//! Claims: read from sentences, held against rigs whose answer is known some other way.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "tests stop"
)]

mod common;

use common::kinds::{claim, rig};
use outlean_course::{BadGap, Claim, Comparison, Misread, Operand, Term, Text, Unclear, Why, shown};
use outlean_rig::{Dimension, Quantity, Rig, Side, Station, solve, working_range};
use outlean_rigfile::{DEG, Units};
use proptest::prelude::*;

fn leg(side: Side) -> Operand {
    Operand::Quantity(Quantity::LegCompression(side))
}

#[test]
fn every_form_is_read() {
    let term = |factor, of| Term { factor, of };
    let compare = |left, is, right| Claim::Compare { left, is, right };
    assert_eq!(
        claim("compression of the left leg > compression of the right leg"),
        compare(term(1.0, leg(Side::Left)), Comparison::More, term(1.0, leg(Side::Right)))
    );
    let kilonewtons = Operand::Number(1500.0, Dimension::Force);
    for words in [
        "tension of the first guy <= 1.5 kN",
        "the tension of the first guy ≤ 1,5 kN",
        "tension of the first guy is at most 1500 N",
    ] {
        let guy = term(1.0, Operand::Quantity(Quantity::GuyTension(0)));
        assert_eq!(claim(words), compare(guy, Comparison::AtMost, term(1.0, kilonewtons.clone())), "{words}");
    }
    for words in ["1.5 × height of the head <= aft.setback", "1.5 x the height of the head<=aft.setback"] {
        assert_eq!(
            claim(words),
            compare(
                term(1.5, Operand::Quantity(Quantity::HeadHeight)),
                Comparison::AtMost,
                term(1.0, Operand::Field("aft.setback".into()))
            )
        );
    }
    assert_eq!(
        claim("3 m > reach of the pulley"),
        compare(
            term(1.0, Operand::Number(3.0, Dimension::Length)),
            Comparison::More,
            term(1.0, Operand::Quantity(Quantity::PulleyReach))
        )
    );
    for (station, at) in [("aft", Station::Aft), ("fore", Station::Fore)] {
        assert_eq!(claim(&format!("the {station} guy works")), Claim::Works(at, true));
        assert_eq!(claim(&format!("the {station} guy does not work")), Claim::Works(at, false));
    }
    assert_eq!(claim("the side guy works"), Claim::Works(Station::Side, true));
    let no_form = Claim::read("the side guy does not work").map_err(|misread| misread.why);
    assert!(matches!(no_form, Err(Why::NoForm { .. })), "{no_form:?}");
}

#[test]
fn what_is_no_claim_says_where_and_why() {
    let wrong = |words: &str| {
        let Misread { at, why } = Claim::read(words).expect_err(words);
        (words[at].to_owned(), why)
    };
    let unknown = |near: &str| Why::Unknown { nearest: Some(near.into()) };
    assert_eq!(wrong("  ").1, Why::Empty);
    assert_eq!(
        wrong("compression of the lefty leg > 1 kN"),
        ("compression of the lefty leg".into(), unknown("compression of the left leg"))
    );
    assert_eq!(wrong("aft.setbak > 3 m"), ("aft.setbak".into(), unknown("aft.setback")));
    assert!(matches!(wrong("reach > 3 kN"), (at, Why::Number(_, Dimension::Length)) if at == "3 kN"));
    assert!(matches!(wrong("reach > 3"), (at, Why::Number(_, Dimension::Length)) if at == "3"));
    assert_eq!(
        wrong("reach > the weight of the load"),
        ("the weight of the load".into(), Why::Dimensions(Dimension::Length, Dimension::Force))
    );
    assert_eq!(wrong("1 m < reach < 2 m"), ("<".into(), Why::TwoSigns));
    assert_eq!(wrong("reach >").1, Why::NoSide);
    assert_eq!(wrong("1 m < 2 m").1, Why::OnlyNumbers);
    assert_eq!(wrong("two × reach > 2 m"), ("two ".into(), Why::Factor));
    assert_eq!(wrong("0 × reach > 2 m").1, Why::Factor);
    assert_eq!(
        wrong("within the working rnge"),
        ("within the working rnge".into(), Why::NoForm { nearest: Some("within the working range") })
    );
    assert_eq!(
        wrong("the aft holdfst governs"),
        ("aft holdfst".into(), Why::NoSuchPart { nearest: Some("aft holdfast") })
    );
    assert_eq!(wrong("reach rises with leen"), ("leen".into(), Why::NoField { nearest: Some("lean") }));
    assert_eq!(wrong("lean rises with lean").1, Why::Unknown { nearest: None }, "a field is no reading");
}

/// A claim on this rig at this lean, degrees.
fn at(words: &str, lean: f64) -> Result<bool, Unclear> {
    claim(words).holds(&Rig { lean: lean * DEG, ..rig() })
}

#[test]
fn comparisons_are_what_the_solution_says() {
    let solution = solve(&rig()).unwrap();
    let force = |quantity: Quantity| quantity.of(&solution).unwrap();
    let left = force(Quantity::LegCompression(Side::Left));
    let right = force(Quantity::LegCompression(Side::Right));
    assert!(left > 1.1 * right, "the line runs down the left leg");
    assert_eq!(claim("compression of the left leg > compression of the right leg").holds(&rig()), Ok(true));
    assert_eq!(claim("compression of the left leg < compression of the right leg").holds(&rig()), Ok(false));
    assert_eq!(claim("compression of the left leg = compression of the right leg").holds(&rig()), Ok(false));
    let haul = "tension of the haul line = weight of the load";
    assert_eq!(claim(haul).holds(&rig()), Ok(true), "held, the haul line pulls as hard as the load hangs");
    let near = |share: f64| format!("compression of the left leg < {} N", left * share);
    assert_eq!(claim(&near(1.03)).holds(&rig()), Ok(true));
    assert_eq!(claim(&near(0.97)).holds(&rig()), Ok(false));
    for share in [1.019, 0.981] {
        assert_eq!(claim(&near(share)).holds(&rig()), Err(Unclear::KnifeEdge), "{share}");
    }
    let factor =
        format!("{} × compression of the right leg > compression of the left leg", 1.1 * left / right);
    assert_eq!(claim(&factor).holds(&rig()), Ok(true));
    assert_eq!(claim(&factor.replace('>', "<")).holds(&rig()), Ok(false));
}

#[test]
fn what_follows_from_statics_holds() {
    for lean in [20.0, 30.0, 40.0] {
        assert_eq!(at("reach rises with lean", lean), Ok(true));
        assert_eq!(at("height of the head falls with lean", lean), Ok(true));
        assert_eq!(at("tension of the aft guy rises with load.mass", lean), Ok(true));
        assert_eq!(at("reach stays with load.mass", lean), Ok(true));
        assert_eq!(at("tension of the aft guy falls with aft.setback", lean), Ok(true));
        assert_eq!(at("the aft guy works", lean), Ok(true));
        assert_eq!(at("the fore guy works", lean), Ok(false));
        assert_eq!(at("the fore guy does not work", lean), Ok(true));
        assert_eq!(at("the frame stands", lean), Ok(true));
    }
    // Anchored a hand's breadth aside, the guy pulls a ten-thousandth harder: nobody can say that it rises.
    assert_eq!(at("tension of the aft guy rises with aft.offset", 30.0), Err(Unclear::KnifeEdge));
    let mut free = rig();
    free.guys.clear();
    assert_eq!(claim("the frame tips").holds(&free), Ok(true));
    assert!(matches!(claim("compression of the left leg > 1 N").holds(&free), Err(Unclear::Tips(_))));
    assert_eq!(claim("the aft guy works").holds(&free), Err(Unclear::NoSuchGuy));
    assert!(matches!(claim("aft.setback > 1 m").holds(&free), Err(Unclear::Absent(_))));
    let upright = Rig { lean: 0.0, ..free };
    assert_eq!(claim("the frame tips").holds(&upright), Err(Unclear::KnifeEdge), "balanced on its feet");
}

#[test]
fn the_working_range_and_what_ends_it() {
    let range = working_range(&rig()).unwrap();
    let stretch = range.intervals[0];
    let (from, to) = (stretch.from / DEG, stretch.to / DEG);
    let inside = "within the working range";
    assert_eq!(at(inside, 0.5 * (from + to)), Ok(true));
    assert_eq!(at("outside the working range", 0.5 * (from + to)), Ok(false));
    assert_eq!(at(inside, to + 1.0), Ok(false));
    assert_eq!(at(inside, to - 0.2), Err(Unclear::KnifeEdge));
    assert_eq!(at(inside, to + 0.2), Err(Unclear::KnifeEdge));
    for tenth in 0..500 {
        let lean = 0.1 * f64::from(tenth);
        if let Ok(holds) = at(inside, lean) {
            assert_eq!(holds, range.around(lean * DEG).is_some(), "at {lean}°");
        } else {
            assert!((lean - from).abs() < 0.52 || (lean - to).abs() < 0.52, "clear at {lean}°");
        }
    }
    let governs = |words: &str| at(words, 0.5 * (from + to));
    // Of the two only the holdfast is weaker than what pulls on both.
    assert_eq!(governs("the aft holdfast governs"), Ok(true));
    assert_eq!(governs("the rope of the aft guy governs"), Ok(false));
    assert_eq!(governs("the upright stop governs leaning back"), Ok(true));
    assert_eq!(at("the aft holdfast governs", to + 1.0), Err(Unclear::NoRange));
    let mut equal = rig();
    equal.guys[0].rope_allowable = equal.guys[0].holdfast_allowable;
    assert_eq!(claim("the aft holdfast governs").holds(&equal), Err(Unclear::KnifeEdge));
}

#[test]
fn gaps_are_filled_from_the_rig() {
    let text = Text::read("{lean}, {line.path}, {tension of the haul line}: so.").unwrap();
    let filled = text.filled(&rig()).unwrap();
    let word = |key: &str, word: &'static str| format!("{key} is {word}");
    let metric = shown(&filled, Units::Metric, &word);
    assert_eq!(metric, "25°, line.path is redirected at left foot, 2.26\u{2009}kN: so.");
    assert_eq!(
        Text::read("It leans {leen}."),
        Err(BadGap { at: 10..14, nearest: Some("lean".into()), closed: true })
    );
    assert_eq!(Text::read("It {leans"), Err(BadGap { at: 3..9, nearest: None, closed: false }));
}

proptest! {
    /// However a claim and its opposite are put: never both, never neither, and neither on a knife edge.
    #[test]
    fn a_claim_and_its_opposite_never_agree(
        lean in 5.0..60.0f64, mass in 100.0..400.0f64, setback in 3.0..12.0f64,
        limit in 0.2..8.0f64, pair in 0..5usize,
    ) {
        let mut rig = Rig { lean: lean * DEG, ..rig() };
        rig.load.mass = mass;
        rig.guys[0].anchor = outlean_rig::Point::new(-setback, 0.0, 0.0);
        let quantities = ["tension of the aft guy", "compression of the left leg", "pull on the head sling"];
        let (one, other) = match pair {
            3 => ("within the working range".to_owned(), "outside the working range".to_owned()),
            4 => ("the aft guy works".to_owned(), "the aft guy does not work".to_owned()),
            pair => {
                let of = quantities[pair];
                (format!("{of} > {limit} kN"), format!("{of} <= {limit} kN"))
            }
        };
        let (one, other) = (claim(&one).holds(&rig), claim(&other).holds(&rig));
        match (one, other) {
            (Ok(one), Ok(other)) => prop_assert!(one != other),
            (Err(one), Err(other)) => prop_assert_eq!(one, other),
            (one, other) => prop_assert!(false, "{one:?} and {other:?}"),
        }
    }

    /// Any text at all is a claim or is not, and where it is not the place is in the text.
    #[test]
    fn no_text_is_too_odd_for_a_claim(text in "\\PC{0,60}", glued in "(reach|1.5 ?×|lean|<=?|>| rises with | governs|the |2 kN|\\{|\\}| ){0,8}") {
        for text in [text, glued] {
            if let Err(Misread { at, .. }) = Claim::read(&text) {
                prop_assert!(text.get(at).is_some());
            }
            if let Err(BadGap { at, .. }) = Text::read(&text) {
                prop_assert!(text.get(at).is_some());
            }
        }
    }

    /// A claim is data: JSON and back it is the same claim.
    #[test]
    fn a_claim_survives_its_json(number in 1..900u32) {
        for words in [
            format!("2 × compression of the left leg >= {number} kN"),
            format!("{number} m < aft.setback"),
            "the upright stop governs leaning back".to_owned(),
            "pull on the head sling stays with lean".to_owned(),
            "the side guy works".to_owned(),
        ] {
            let claim = claim(&words);
            let json = serde_json::to_string(&claim).unwrap();
            prop_assert_eq!(serde_json::from_str::<Claim>(&json).unwrap(), claim);
        }
    }
}
