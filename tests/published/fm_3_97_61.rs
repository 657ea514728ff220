//! US Army, FM 3-97.61, *Military Mountaineering*, chapter 7, the A-frame of a vertical hauling line, and the US Marine Corps'
//! mountain course (both second hand): two poles at least 3 in thick and 9 to 12 ft long, three to five sling ropes of 14 ft;
//! six to eight wraps and two more, 4 to 6 frapping turns, tails of 18 in; the Marines lean it 30° from the vertical.

use super::{FT, solved};
use outlean_rig::strength::timber::{Grade, Pole, Timber, nds};
use outlean_rig::strength::{Lashing, Symbol};
use outlean_rig::{
    Connection, Guy, Leg, Pair, Part, Point, Rig, Rule, Side, State, checks, findings, materials, worked,
};

/// A frame of poles 3 in thick throughout, lashed a foot below their tips.
fn of_poles(length: f64) -> Rig {
    let pole = Pole { tip_diameter: Some(0.25 * FT), ..Pole::default() };
    let mut rig = Rig::new((length - 1.0) * FT, length / 3.0 * FT, 20f64.to_radians(), 100.0);
    rig.legs = Pair::both(Leg { pole, ..Leg::of(length * FT, FT, 0.0) });
    rig.guys.push(Guy::to(Point::new(-1.5 * length * FT, 0.0, 0.0)));
    rig.gear.timber = Timber { grade: Some(Grade::DouglasFirLarch2), ..Timber::default() };
    rig
}

/// The longest of them is at the end of what the column formula is valid for; no pole is past the manuals' slenderness.
#[test]
fn poles_of_three_inches_may_be_twelve_feet_long() {
    for (length, slender, state) in [
        (9.0, false, State::Assessed),
        (12.0, false, State::Assessed),
        (13.0, false, State::NotAssessed),
        (16.0, true, State::NotAssessed),
    ] {
        let rig = of_poles(length);
        let rule = Rule::Slenderness(Side::Left);
        let found = findings(&rig).unwrap().into_iter().find(|finding| finding.rule == rule).unwrap();
        assert_eq!(!found.met, slender, "{length} ft");
        let solution = solved(&rig);
        let leg =
            checks(&rig, &solution).into_iter().find(|check| check.part == Part::Leg(Side::Left)).unwrap();
        assert_eq!(leg.state, state, "{length} ft");
        let steps = worked(&rig, &solution, Part::Leg(Side::Left));
        let found = steps.iter().find(|value| value.symbol == Symbol::Slenderness).unwrap().value;
        assert_eq!(found > nds::MOST_SLENDER, state == State::NotAssessed);
    }
}

/// *Derived*: head and hobble of such poles take three to five of the sling ropes. Banded: what is spared and how it is laid
/// is not said.
#[test]
fn poles_of_three_inches_take_three_to_five_sling_ropes() {
    let mut rig = of_poles(12.0);
    rig.feet.connection = Connection::Hobble;
    for (turns, frapping) in [(8.0, 4.0), (10.0, 6.0)] {
        let (rope, tail) = (Some(0.011), Some(1.5 * FT));
        rig.gear.lashing =
            Lashing { rope, tail, turns: Some(turns), frapping: Some(frapping), ..Lashing::default() };
        let found = materials(&rig).unwrap();
        let all = (found.lashing.unwrap().total() + found.hobble.unwrap()) / FT;
        assert!((2.0 * 14.0..5.0 * 14.0).contains(&all), "{all} ft");
    }
}

/// Within what the Army allows it loaded, past what it asks for before loading.
#[test]
fn thirty_degrees_from_the_vertical() {
    let rig = Rig { lean: 30f64.to_radians(), ..of_poles(12.0) };
    let met = |rule| findings(&rig).unwrap().into_iter().find(|finding| finding.rule == rule).unwrap().met;
    assert!(met(Rule::LeanLoadedMost) && met(Rule::LeanLeast) && !met(Rule::LeanUnloadedMost));
}
