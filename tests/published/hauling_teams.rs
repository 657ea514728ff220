//! What people pull: a training note of rope rescuers, 50 lbf usual, studies nearer 30 (second hand); Mital et al., one
//! hand of a man about 15 kgf (read); US Marine Corps mountain course, a team of six over a ground anchor pulley, led off at
//! about 90° (second hand). *From memory*: US Army, 100 lbf a man down a fall, about 60 along the level.

use super::{FT, LBF, guy, legs, mass_of, near, solved};
use outlean_rig::{Guy, Haul, Line, Path, Point, Rig};

/// A frame on 12 ft poles with one person of 290 lb on a line down to a pulley between its feet and back along the ground.
fn one_person() -> Rig {
    let mut rig = Rig::new(11.0 * FT, 4.0 * FT, 20f64.to_radians(), mass_of(290.0 * LBF));
    rig.guys.push(Guy::to(Point::new(-18.0 * FT, 0.0, 0.0)));
    rig.line = Line::along(Path::RedirectedMidBase { to: Point::new(-30.0 * FT, 0.0, 0.0) });
    rig
}

#[test]
fn six_raise_one_person() {
    let line = solved(&one_person()).line;
    let team = |pounds: f64| Haul::of(&line, 1, 1.0, pounds * LBF).unwrap().people;
    assert_eq!((team(50.0), team(30.0)), (6, 10));
    // By one hand each, and from memory.
    assert_eq!(Haul::of(&line, 1, 1.0, 15.0 * outlean_rig::G).unwrap().people, 9);
    assert_eq!((team(100.0), team(60.0)), (3, 5));
    // A line led off at 90° pulls its pulley with 1.41 of itself; here the head leans out over it, and less is turned.
    let pull = line.redirect.unwrap();
    let turned = |lean: f64| libm::sqrt(2.0 * (1.0 - libm::sin(lean)));
    near(turned(0.0), 1.41, 0.005);
    near(pull.size() / line.haul_tension, turned(20f64.to_radians()), 1e-9);
}

/// Down to the feet and away, the line presses on the legs and asks nothing more of the guy.
#[test]
fn a_line_to_the_ground_between_the_feet_asks_nothing_of_the_guy() {
    let hauled = solved(&one_person());
    let hung = solved(&Rig { line: Line::hung(), ..one_person() });
    near(guy(&hauled, 0), guy(&hung, 0), 1e-9);
    assert!(legs(&hauled).left > legs(&hung).left + 0.5 * hauled.line.haul_tension);
}
