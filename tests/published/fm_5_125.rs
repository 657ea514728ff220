//! US Army, FM 5-125, *Rigging Techniques, Procedures, and Applications*, 1995. *From memory*: bands, until a person
//! opens the pages. The formula for the guy is the balance of moments about the foot, so that its examples are exact
//! arithmetic whatever the page says.

use super::{FT, LBF, guy, mass_of, near, solved};
use outlean_rig::strength::timber::{Section, nds};
use outlean_rig::strength::{Cordage, Holdfast, HoldfastKind, RopeClass, Seen, Soil};
use outlean_rig::{Guy, Pair, Point, Rig, Rule, findings};

/// Table 4-1.
#[test]
fn pickets() {
    let pounds = |kind, ground| {
        let capacity = Holdfast { kind: Some(kind), soil: Some(ground), ..Holdfast::default() }.capacity();
        let capacity = capacity.unwrap();
        assert!(capacity.assumed && capacity.source.seen == Seen::Memory);
        capacity.strength / LBF
    };
    let band = |found: f64, remembered: f64| near(found, remembered, 0.1 * remembered);
    band(pounds(HoldfastKind::Pickets11, Soil::Loam), 1400.0);
    band(pounds(HoldfastKind::Pickets21, Soil::Loam), 2000.0);
    band(pounds(HoldfastKind::Pickets111, Soil::WetClayGravel), 1620.0);
    band(pounds(HoldfastKind::Pickets111, Soil::WetClaySand), 900.0);
}

/// A frame whose head is `drift` ahead of its feet and whose aft guy has an arm of `arm` about them, ft, under `load`
/// and legs of `each`, lbf. Narrow, so that its slant height is its legs' length.
fn guy_tension(load: f64, each: f64, drift: f64, arm: f64) -> f64 {
    let height = 40.0;
    let (d, h, y) = (drift, height, arm);
    // The setback at which the guy passes the foot line at that distance.
    let (a, b, c) = (h * h - y * y, -2.0 * y * y * d, -y * y * (d * d + h * h));
    let setback = (-b + libm::sqrt(b * b - 4.0 * a * c)) / (2.0 * a);
    let length = libm::hypot(drift, height) * FT;
    let mut rig = Rig::new(length, 0.06, libm::atan2(drift, height), mass_of(load * LBF));
    rig.legs = Pair::both(outlean_rig::Leg::of(length, 0.0, each * LBF / length));
    rig.guys.push(Guy::to(Point::new(-setback * FT, 0.0, 0.0)));
    guy(&solved(&rig), 0) / LBF
}

/// Chapter 4, section II: T = (`W_L` + `W_S`/2)·D/Y. A gin pole of 800 lb with 2,400 lb, 20 ft of drift and 28 ft from the
/// guy to the base; shears of two such spars.
#[test]
fn guys_of_a_gin_pole_and_of_shears() {
    near(guy_tension(2400.0, 400.0, 20.0, 28.0), 2000.0, 0.5);
    near(guy_tension(2400.0, 800.0, 20.0, 28.0), 2285.7, 0.5);
}

/// Table 5-1, spruce gin poles: what buckles them at a modulus of 1.3 million psi is 2.8 to 5.7 times what the table
/// lets them carry.
#[test]
fn gin_poles() {
    let round: [(f64, &[(f64, f64)]); 4] = [
        (6.0, &[(20.0, 5000.0), (25.0, 3000.0), (30.0, 2000.0)]),
        (8.0, &[(20.0, 11000.0), (25.0, 8000.0), (30.0, 5000.0), (40.0, 3000.0)]),
        (10.0, &[(20.0, 31000.0), (25.0, 24000.0), (30.0, 16000.0), (40.0, 9000.0), (50.0, 6000.0)]),
        (12.0, &[(30.0, 31000.0), (40.0, 19000.0), (50.0, 12000.0), (60.0, 9000.0)]),
    ];
    let square: [(f64, &[(f64, f64)]); 4] = [
        (6.0, &[(20.0, 6000.0), (25.0, 4000.0), (30.0, 3000.0)]),
        (8.0, &[(20.0, 14000.0), (25.0, 10000.0), (30.0, 6000.0), (40.0, 4000.0)]),
        (10.0, &[(20.0, 40000.0), (25.0, 30000.0), (30.0, 20000.0), (40.0, 12000.0), (50.0, 8000.0)]),
        (12.0, &[(30.0, 40000.0), (40.0, 24000.0), (50.0, 16000.0), (60.0, 12000.0)]),
    ];
    let held = |section: Section, rows: &[(f64, f64)]| {
        for (length, pounds) in rows {
            let stress = nds::critical_buckling(1.3e6, length * 12.0 / section.side());
            let times = stress * section.area() / pounds;
            assert!((2.8..5.7).contains(&times), "{section:?} {length} ft: {times}");
        }
    };
    for (diameter, rows) in round {
        held(Section::Round(diameter), rows);
    }
    for (side, rows) in square {
        held(Section::Sawn(side, side), rows);
    }
}

/// Table 1-2, manila: 2,650, 4,400, 5,400 and 9,000 lb. The table that is used allows a tenth less.
#[test]
fn manila() {
    for (class, breaking) in [
        (RopeClass::ManilaHalf, 2650.0),
        (RopeClass::ManilaFiveEighths, 4400.0),
        (RopeClass::ManilaThreeQuarters, 5400.0),
        (RopeClass::ManilaOne, 9000.0),
    ] {
        near(class.breaking().0 / LBF, 0.9 * breaking, 0.5);
    }
}

/// Chapter 5, shears: feet about half the height apart, guys anchored at least one and a half times the height away, drift at
/// most 45°. Feet so far apart are past the third of other manuals.
#[test]
fn shears_set_up() {
    for (heights, drift, far, within) in [(1.49, 44.9, false, true), (1.51, 45.1, true, false)] {
        let mut rig = Rig::new(6.0, 2.91, f64::to_radians(drift), 100.0);
        let height = solved(&Rig { lean: 0.0, ..rig.clone() }).layout.slant_height;
        near(rig.feet.at.left.y() - rig.feet.at.right.y(), 0.5 * height, 0.01);
        rig.guys.push(Guy::to(Point::new(-heights * height, 0.0, 0.0)));
        let met =
            |rule| findings(&rig).unwrap().into_iter().find(|finding| finding.rule == rule).unwrap().met;
        assert_eq!((met(Rule::SetbackPreferred(0)), met(Rule::LeanLoadedMost)), (far, within));
        assert!(!met(Rule::SpreadMost));
    }
}

/// Chapter 1: as many short tons as the square of the inches are safe. That is a quarter of the makers' strength at 1 in, and
/// up to three tenths less than that of thinner rope.
#[test]
fn manila_by_the_square_of_its_thickness() {
    for (class, inches) in [
        (RopeClass::ManilaHalf, 0.5),
        (RopeClass::ManilaFiveEighths, 0.625),
        (RopeClass::ManilaThreeQuarters, 0.75),
        (RopeClass::ManilaOne, 1.0),
    ] {
        let rope = Cordage { class: Some(class), knot_efficiency: Some(1.0), ..Cordage::default() };
        let quarter = rope.capacity(Some(4.0)).unwrap().allowable.unwrap() / LBF;
        let by_rule = 2000.0 * inches * inches;
        assert!((1.0..1.3).contains(&(quarter / by_rule)), "{inches} in: {quarter}");
    }
}
