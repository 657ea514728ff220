//! *National Design Specification*, 2018, 3.7, columns: what is *from memory* of it beside the formulas: sawn timber and round
//! poles, tapered poles, how slender a column may be.

use super::{near, solved};
use outlean_rig::strength::timber::{Grade, Pole, Section, nds};
use outlean_rig::{Guy, Leg, Pair, Part, Point, Rig, Side, State, checks};

/// 3.7.1: `c` 0.8 of sawn lumber, 0.85 of round poles and piles (0.9, of glued laminated timber, is not offered).
#[test]
fn sawn_and_round() {
    near(nds::SAWN, 0.8, 0.0);
    near(nds::ROUND, 0.85, 0.0);
}

/// 3.7.3: a round column is the square one of its area, 0.886 of its diameter. 3.7.2: a tapered one is judged a third of the
/// way up from its small end.
#[test]
fn round_and_tapered() {
    let round = Section::Round(1.0);
    near(round.side(), 0.886, 5e-4);
    near(round.side() * round.side(), round.area(), 1e-12);
    for (tip, butt) in [(0.1, 0.1), (0.1, 0.13), (0.08, 0.16)] {
        let pole = Pole { tip_diameter: Some(tip), butt_diameter: Some(butt), ..Pole::default() };
        let section = pole.section().unwrap();
        near(section.thickness(), tip + (butt - tip) / 3.0, 1e-15);
    }
}

/// 3.7.1.4: at most 50 times as long as thick (75, while building, is not offered).
#[test]
fn slender_columns() {
    for (side, state) in [(0.0801, State::Assessed), (0.0799, State::NotAssessed)] {
        let mut rig = Rig::new(4.0, 1.2, 0.3, 100.0);
        let pole = Pole { breadth: Some(side), ..Pole::default() };
        rig.legs = Pair::both(Leg { pole, ..Leg::weightless(4.0) });
        rig.gear.timber.grade = Some(Grade::HemFir2);
        rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
        let leg = checks(&rig, &solved(&rig)).into_iter().find(|check| check.part == Part::Leg(Side::Left));
        assert_eq!(leg.unwrap().state, state, "{side} m");
    }
}
