//! What a rig's gear makes of its checks.

use outlean_rig::strength::timber::{Code, Duration, Grade, Moisture, Pole, Timber, eurocode, nds};
use outlean_rig::strength::{
    Basis, CheckRule, Cordage, Hardware, HardwareClass, Holdfast, HoldfastKind, Knot, RopeClass, Sling, Soil,
    Symbol,
};
use outlean_rig::{
    Change, Check, Edge, Guy, Leg, Limit, Line, Pair, Part, Path, Point, Rig, Scatter, SecondLine, Side,
    State, checks, scattered, solve, worked, working_range,
};
use proptest::prelude::*;

fn rig(lean: f64, mass: f64) -> Rig {
    let mut rig = Rig::new(4.0, 1.3, lean.to_radians(), mass);
    rig.legs = Pair::both(Leg::of(4.4, 0.4, 45.0));
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig.guys.push(Guy::to(Point::new(5.0, 0.0, 0.0)));
    rig
}

fn check(rig: &Rig, part: Part) -> Option<Check> {
    let solution = solve(rig).unwrap();
    checks(rig, &solution).into_iter().find(|check| check.part == part)
}

fn step(rig: &Rig, part: Part, symbol: Symbol) -> f64 {
    let solution = solve(rig).unwrap();
    let steps = worked(rig, &solution, part);
    steps.iter().find(|value| value.symbol == symbol).unwrap().value
}

fn near(found: f64, wanted: f64, tolerance: f64) {
    assert!((found - wanted).abs() <= tolerance, "{found}, not {wanted}");
}

const LEFT: Part = Part::Leg(Side::Left);

#[test]
fn of_a_rig_that_says_nothing_nothing_is_assessed() {
    let rig = rig(20.0, 200.0);
    let all = checks(&rig, &solve(&rig).unwrap());
    assert_eq!(all.len(), 9, "two guys, two legs, line, sling, lashing");
    for check in &all {
        assert_eq!((check.strength, check.ratio, check.multiple, check.source), (None, None, None, None));
        assert!(matches!(check.state, State::NotAssessed | State::ConfirmOnSite), "{check:?}");
    }
}

#[test]
fn ropes_that_share_a_holdfast_pull_together() {
    let mut rig = rig(20.0, 200.0);
    let to = Point::new(-6.0, 0.0, 0.0);
    rig.line = Line::along(Path::RedirectedAtFoot { foot: Side::Left, to });
    rig.guys[0].holdfast =
        Holdfast { kind: Some(HoldfastKind::Pickets321), soil: Some(Soil::Loam), ..Holdfast::default() };
    rig.gear.haul = rig.guys[0].holdfast;
    let solution = solve(&rig).unwrap();
    let tension = solution.forces().unwrap().guys[0].tension;
    let along = |from: Point| (from - to) / (from - to).length();
    let pull = along(solution.layout.head) * tension + along(rig.feet.at.left) * solution.line.after_redirect;
    let guy = check(&rig, Part::GuyHoldfast(0)).unwrap();
    near(guy.demand, pull.length(), 1e-9);
    assert!(guy.demand > 1.2 * tension);
    near(check(&rig, Part::HaulHoldfast).unwrap().demand, guy.demand, 1e-9);
    near(step(&rig, Part::GuyHoldfast(0), Symbol::Lift), pull.z, 1e-9);
    assert_eq!((guy.state, guy.basis, guy.multiple), (State::Assumed, Basis::Unknown, None));

    // Further off each pulls alone.
    rig.line = Line::along(Path::RedirectedAtFoot { foot: Side::Left, to: Point::new(-6.0, 0.1, 0.0) });
    let guy = check(&rig, Part::GuyHoldfast(0)).unwrap();
    near(guy.demand, solve(&rig).unwrap().forces().unwrap().guys[0].tension, 1e-12);
    near(check(&rig, Part::HaulHoldfast).unwrap().demand, solution.line.after_redirect, 1e-9);
}

/// Two guys and the haul line at one holdfast: each of them pulls on it with all of them.
#[test]
fn three_ropes_that_share_a_holdfast_pull_together() {
    let mut rig = rig(20.0, 200.0);
    let to = Point::new(-6.0, 0.0, 0.0);
    rig.line = Line::along(Path::RedirectedMidBase { to });
    rig.guys[1] = Guy { pretension: 150.0, ..Guy::to(Point::new(-6.0, 0.02, 0.0)) };
    rig.guys[0].holdfast_allowable = Some(9_000.0);
    rig.gear.haul_allowable = Some(9_000.0);
    let solution = solve(&rig).unwrap();
    let guys = solution.forces().unwrap().guys.clone();
    assert!(guys.iter().all(|guy| guy.tension > 100.0), "{guys:?}");
    // All but level: the guys together, and the line along the ground.
    let along = |from: Point, end: Point| (from - end) / (from - end).length();
    let pull = along(solution.layout.head, to) * guys[0].tension
        + along(solution.layout.head, rig.guys[1].anchor) * guys[1].tension
        + along(solution.layout.mid_base, to) * solution.line.after_redirect;
    // The second guy alone, 2 cm off, would pull harder by a hair.
    for part in [Part::GuyHoldfast(0), Part::GuyHoldfast(1), Part::HaulHoldfast] {
        near(check(&rig, part).unwrap().demand, pull.length(), 2e-3);
        near(step(&rig, part, Symbol::Pull), pull.length(), 2e-3);
        near(step(&rig, part, Symbol::Lift), pull.z, 2e-3);
    }
}

/// With all the guys there may be, a second line, and something said of everything, no part is left out.
#[test]
fn every_part_has_its_row() {
    let mut rig = rig(20.0, 200.0);
    for y in [-3.0, -1.0, 1.0, 3.0] {
        rig.guys.push(Guy::to(Point::new(-7.0, y, 0.0)));
    }
    rig.line = Line::along(Path::RedirectedMidBase { to: Point::new(-9.0, 1.0, 0.0) });
    let line = Line::along(Path::RedirectedMidBase { to: Point::new(-9.0, -1.0, 0.0) });
    rig.second = Some(SecondLine { line, share: 0.5, peak_factor: None });
    let hardware = Hardware { breaking: Some(30_000.0), class: None };
    (rig.gear.pulley, rig.gear.connector, rig.gear.redirect) = (hardware, hardware, hardware);
    (rig.gear.haul_allowable, rig.gear.second_haul_allowable) = (Some(4_000.0), Some(4_000.0));
    (rig.feet.bearing_allowable, rig.edge) = (Some(100_000.0), Some(Edge::at(0.9)));
    let all = checks(&rig, &solve(&rig).unwrap());
    assert_eq!((rig.guys.len(), all.len()), (6, 30));
    assert_eq!(all.last().unwrap().part, Part::Edge);
}

/// The second line's hardware is like the main line's, its holdfast is its own.
#[test]
fn a_second_line_is_assessed_like_the_main_line() {
    let mut rig = rig(20.0, 200.0);
    let (to, beside) = (Point::new(-9.0, 1.0, 0.0), Point::new(-9.0, 1.04, 0.0));
    rig.line = Line::along(Path::RedirectedMidBase { to });
    let own = [Part::SecondPulley, Part::SecondConnector, Part::SecondRedirect, Part::SecondHoldfast];
    let second = |to| SecondLine {
        line: Line::along(Path::RedirectedAtFoot { foot: Side::Left, to }),
        share: 0.4,
        peak_factor: None,
    };
    let rows = |rig: &Rig| own.map(|part| check(rig, part));
    let pickets =
        Holdfast { kind: Some(HoldfastKind::Pickets321), soil: Some(Soil::Loam), ..Holdfast::default() };
    let named = |rig: &mut Rig| {
        let hardware = |breaking| Hardware { breaking: Some(breaking), class: None };
        (rig.gear.pulley, rig.gear.connector, rig.gear.redirect) =
            (hardware(36_000.0), hardware(40_000.0), hardware(22_000.0));
        (rig.gear.haul, rig.gear.factor) = (pickets, Some(5.0));
    };
    named(&mut rig);
    assert_eq!(rows(&rig), [None; 4], "no second line");
    rig.second = Some(second(Point::new(-7.0, -2.0, 0.0)));
    let solution = solve(&rig).unwrap();
    let line = solution.second.unwrap();
    let [pulley, connector, redirect, holdfast] = rows(&rig).map(Option::unwrap);
    for (check, demand, breaking) in [
        (pulley, line.on_head().size(), 36_000.0),
        (connector, line.on_head().size(), 40_000.0),
        (redirect, line.redirect.unwrap().size(), 22_000.0),
    ] {
        near(check.demand, demand, 1e-9);
        near(check.allowable.unwrap(), breaking / 5.0, 1e-9);
        assert_eq!(check.state, State::Assessed);
    }
    // Its holdfast is not named.
    near(holdfast.demand, line.after_redirect, 1e-9);
    assert_eq!((holdfast.state, holdfast.allowable), (State::NotAssessed, None));
    rig.gear.second_haul_allowable = Some(900.0);
    let holdfast = check(&rig, Part::SecondHoldfast).unwrap();
    near(holdfast.ratio.unwrap(), line.after_redirect / 900.0, 1e-9);
    // Tied where the main line ends, it is that holdfast's: both pull there together.
    rig.gear.second_haul_allowable = None;
    rig.second = Some(second(beside));
    assert_eq!(check(&rig, Part::SecondHoldfast), None);
    let alone = solution.line.after_redirect;
    assert!(check(&rig, Part::HaulHoldfast).unwrap().demand > alone + 0.3 * rig.load.tension());
    // Of a rig that says nothing nothing is asked.
    rig.gear = Default::default();
    rig.second = Some(second(Point::new(-7.0, -2.0, 0.0)));
    assert_eq!(rows(&rig), [None; 4]);
    rig.gear.second_haul = pickets;
    assert_eq!(check(&rig, Part::SecondHoldfast).unwrap().state, State::Assumed);
}

#[test]
fn sling_pulley_and_connector_take_the_resultant() {
    let mut rig = rig(20.0, 200.0);
    rig.line = Line::along(Path::RedirectedMidBase { to: Point::new(-9.0, 1.0, 0.0) });
    let class = Some(HardwareClass::PulleyGeneral);
    (rig.gear.pulley, rig.gear.redirect) =
        (Hardware { class, breaking: None }, Hardware { class, breaking: None });
    rig.gear.connector = Hardware { class: Some(HardwareClass::ConnectorGeneral), breaking: None };
    let cordage =
        Cordage { class: Some(RopeClass::WebbingOne), knot_efficiency: Some(0.6), ..Cordage::default() };
    rig.gear.sling = Sling { cordage, parts: Some(2.0), angle: Some(f64::to_radians(60.0)) };
    let solution = solve(&rig).unwrap();
    let on_head = solution.line.on_head().size();
    for part in [Part::Sling, Part::HeadPulley, Part::Connector] {
        let unasked = check(&rig, part).unwrap();
        near(unasked.demand, on_head, 1e-9);
        // No factor is asked for: what it breaks at is known, what it may carry is not.
        assert_eq!((unasked.state, unasked.allowable), (State::NotAssessed, None));
        near(unasked.multiple.unwrap(), unasked.strength.unwrap() / on_head, 1e-9);
    }
    near(check(&rig, Part::RedirectPulley).unwrap().demand, solution.line.redirect.unwrap().size(), 1e-9);
    rig.gear.factor = Some(5.0);
    let sling = check(&rig, Part::Sling).unwrap();
    let strength = RopeClass::WebbingOne.breaking().0 * 0.6 * 2.0 * libm::sin(f64::to_radians(60.0));
    near(sling.strength.unwrap(), strength, 1e-6);
    near(sling.allowable.unwrap(), strength / 5.0, 1e-6);
    assert_eq!((sling.state, sling.rule), (State::Assessed, Some(CheckRule::Sling)));
    near(check(&rig, Part::HeadPulley).unwrap().allowable.unwrap(), 7200.0, 1e-9);
    near(check(&rig, Part::Connector).unwrap().allowable.unwrap(), 8000.0, 1e-9);
}

#[test]
fn the_lesser_of_what_was_stated_and_what_is_worked_out() {
    let mut rig = rig(20.0, 200.0);
    rig.gear.factor = Some(10.0);
    rig.guys[0].cordage =
        Cordage { breaking: Some(30_000.0), knot: Some(Knot::Bowline), ..Cordage::default() };
    for (stated, allowable, rule, state) in [
        (None, 1_800.0, CheckRule::Cordage, State::Assessed),
        (Some(1_700.0), 1_700.0, CheckRule::Stated, State::Assumed),
        (Some(1_900.0), 1_800.0, CheckRule::Cordage, State::Assessed),
    ] {
        rig.guys[0].rope_allowable = stated;
        let rope = check(&rig, Part::GuyRope(0)).unwrap();
        near(rope.allowable.unwrap(), allowable, 1e-9);
        assert_eq!((rope.rule, rope.state), (Some(rule), state));
    }
    // A rope without a known knot is not assessed.
    rig.guys[0].rope_allowable = None;
    rig.guys[0].cordage.knot = None;
    assert_eq!(check(&rig, Part::GuyRope(0)).unwrap().state, State::NotAssessed);
}

#[test]
fn ground_and_edge() {
    let mut rig = rig(20.0, 200.0);
    assert!(check(&rig, Part::Edge).is_none() && check(&rig, Part::Bearing(Side::Left)).is_none());
    rig.feet.bearing_allowable = Some(100_000.0);
    assert_eq!(check(&rig, Part::Bearing(Side::Left)).unwrap().state, State::NotAssessed);
    rig.feet.bearing_area = Some(0.03);
    let ground = check(&rig, Part::Bearing(Side::Left)).unwrap();
    near(ground.allowable.unwrap(), 3_000.0, 1e-9);
    assert_eq!(
        (ground.state, ground.basis, ground.rule),
        (State::Assumed, Basis::Unknown, Some(CheckRule::Bearing))
    );
    near(ground.demand, solve(&rig).unwrap().forces().unwrap().footing.feet.left.bearing, 1e-9);
    rig.edge = Some(Edge::at(0.9));
    let edge = check(&rig, Part::Edge).unwrap();
    assert_eq!((edge.state, edge.rule), (State::ConfirmOnSite, Some(CheckRule::EdgeOnSite)));
    near(step(&rig, Part::Edge, Symbol::EdgeDistance), 0.9, 0.0);
}

fn pole(diameter: f64) -> Pole {
    Pole { butt_diameter: Some(diameter), ..Pole::default() }
}

#[test]
fn what_is_not_known_of_a_leg_is_not_assessed() {
    let mut rig = rig(20.0, 200.0);
    rig.gear.timber.grade = Some(Grade::DouglasFirLarch2);
    assert_eq!(check(&rig, LEFT).unwrap().state, State::NotAssessed, "no section");
    rig.legs = Pair::both(Leg { pole: pole(0.12), ..rig.legs.left });
    let leg = check(&rig, LEFT).unwrap();
    assert_eq!(
        (leg.state, leg.rule, leg.basis),
        (State::Assessed, Some(CheckRule::NdsColumn), Basis::Design)
    );
    near(step(&rig, LEFT, Symbol::Eccentricity), 0.06, 0.0);
    near(step(&rig, LEFT, Symbol::StressEccentric), 4.0 * step(&rig, LEFT, Symbol::StressC), 1e-6);
    // 4 m over the side of the square of the same area: past 50 below 90 mm.
    rig.legs = Pair::both(Leg { pole: pole(0.0902), ..rig.legs.left });
    assert_eq!(check(&rig, LEFT).unwrap().state, State::NotAssessed, "too slender for the formula");
    assert!(step(&rig, LEFT, Symbol::Slenderness) > nds::MOST_SLENDER);
    rig.legs = Pair::both(Leg { pole: pole(0.0904), ..rig.legs.left });
    assert_eq!(check(&rig, LEFT).unwrap().state, State::Assessed);
    // A sawn leg of just 50 is not past it.
    let sawn = Pole { breadth: Some(0.08), depth: Some(0.1), ..Pole::default() };
    let just = Rig { legs: Pair::both(Leg { pole: sawn, ..rig.legs.left }), ..rig.clone() };
    near(step(&just, LEFT, Symbol::Slenderness), nds::MOST_SLENDER, 0.0);
    assert_eq!(check(&just, LEFT).unwrap().state, State::Assessed);
    rig.gear.timber.grade = Some(Grade::Ungraded);
    assert_eq!(check(&rig, LEFT).unwrap().state, State::Assumed);
    // Stated by halves, then whole.
    rig.gear.timber = Timber { grade: Some(Grade::StatedNds), compression: Some(7e6), ..Timber::default() };
    assert_eq!(check(&rig, LEFT).unwrap().state, State::NotAssessed);
    (rig.gear.timber.bending, rig.gear.timber.stiffness) = (Some(6e6), Some(3.5e9));
    assert_eq!(check(&rig, LEFT).unwrap().state, State::Assumed);
    // A leg that pulls on a foot held down.
    rig.gear.timber = Timber { grade: Some(Grade::C24), ..Timber::default() };
    rig.load.side_angle = 0.9;
    let pulled = check(&rig, Part::Leg(Side::Right)).unwrap();
    assert!(pulled.demand < 0.0);
    assert_eq!((pulled.state, pulled.ratio), (State::NotAssessed, None));
}

/// The factors of the code, each put on the value that it belongs to, for every grade of the NDS, section, moisture and
/// duration; the steps are what the result was made of.
#[test]
fn a_column_is_what_the_factors_of_the_code_make_of_its_grade() {
    for grade in Grade::ALL.into_iter().filter(|grade| grade.code() == Code::Nds && grade.values().is_some())
    {
        for sawn in [None, Some((0.089, 0.089)), Some((0.09, 0.14)), Some((0.14, 0.19))] {
            for (moisture, duration) in [
                (Moisture::Dry, Duration::Short),
                (Moisture::Wet, Duration::Long),
                (Moisture::Wet, Duration::Permanent),
            ] {
                let mut rig = rig(20.0, 100.0);
                rig.gear.timber = Timber { grade: Some(grade), moisture, duration, ..Timber::default() };
                let shape = match sawn {
                    Some((breadth, depth)) => {
                        Pole { breadth: Some(breadth), depth: Some(depth), ..Pole::default() }
                    }
                    None => pole(0.13),
                };
                rig.legs = Pair::both(Leg {
                    pole: Pole { crook: Some(0.01), eccentricity: Some(0.03), ..shape },
                    ..rig.legs.left
                });
                let (side, area, modulus, c) = match sawn {
                    Some((b, d)) => (b, b * d, d * b * b / 6.0, nds::SAWN),
                    None => {
                        let area = core::f64::consts::PI * 0.13 * 0.13 / 4.0;
                        (libm::sqrt(area), area, area * 0.13 / 8.0, nds::ROUND)
                    }
                };
                let values = grade.values().unwrap();
                let (on_c, on_b) = match sawn {
                    Some((b, d)) if grade.sized() => nds::size_factors(b, d),
                    _ => (1.0, 1.0),
                };
                let (f_c, f_b) = (values.compression * on_c, values.bending * on_b);
                let [wet_c, wet_b, wet_e] = nds::wet_service(moisture, f_c, f_b);
                let lasting = nds::load_duration(duration);
                let f_ce = nds::critical_buckling(values.stiffness * wet_e, 4.0 / side);
                let full = f_c * lasting * wet_c;
                let fc_prime = full * nds::column_stability(f_ce / full, c);
                let moment = solve(&rig).unwrap().forces().unwrap().leg_moment.left;
                let column = nds::Column {
                    fc_prime,
                    fb_prime: f_b * lasting * wet_b,
                    f_ce,
                    f_b: moment / modulus,
                    crook: 0.01 * area / modulus,
                    eccentric: 0.03 * area / modulus,
                };
                let found = check(&rig, LEFT).unwrap();
                near(found.strength.unwrap() / (fc_prime * area), 1.0, 1e-12);
                near(found.allowable.unwrap() / (column.greatest_compression() * area), 1.0, 1e-9);
                assert_eq!(found.source, Some(values.source));
                let stress = found.demand / area;
                for (symbol, wanted) in [
                    (Symbol::StressC, stress),
                    (Symbol::StressWeight, column.f_b + stress * column.crook),
                    (Symbol::StressEccentric, stress * column.eccentric),
                    (Symbol::Interaction, column.interaction(stress)),
                ] {
                    near(step(&rig, LEFT, symbol) / wanted, 1.0, 1e-9);
                }
            }
        }
    }
}

/// By EN 1995-1-1 (6.23, 6.24) of C24, its stresses with the partial factors of EN 1990 on load and weight.
#[test]
fn a_column_by_the_european_code_is_what_its_factors_make_of_its_class() {
    let mut rig = rig(20.0, 100.0);
    rig.gear.timber.grade = Some(Grade::C24);
    rig.legs = Pair::both(Leg {
        pole: Pole { crook: Some(0.01), eccentricity: Some(0.03), ..pole(0.13) },
        ..rig.legs.left
    });
    let values = Grade::C24.values().unwrap();
    let area = core::f64::consts::PI * 0.13 * 0.13 / 4.0;
    let modulus = area * 0.13 / 8.0;
    let k_mod = eurocode::modification(rig.gear.timber.moisture, rig.gear.timber.duration);
    let (f_cd, f_md) = (values.compression * k_mod / 1.3, values.bending * k_mod / 1.3);
    // A quarter of the diameter is the radius of gyration.
    let relative = eurocode::relative_slenderness(4.0 / (0.13 / 4.0), values.compression, values.stiffness);
    let k_c = eurocode::buckling(relative);
    let found = check(&rig, LEFT).unwrap();
    let moment = solve(&rig).unwrap().forces().unwrap().leg_moment.left;
    let unity = |compression: f64| {
        let axial = 1.5 * compression / area;
        axial / (k_c * f_cd) + (1.35 * moment + 1.5 * compression * 0.04) / modulus / f_md
    };
    near(unity(found.allowable.unwrap()), 1.0, 1e-9);
    near(step(&rig, LEFT, Symbol::Unity), unity(found.demand), 1e-9);
    let bare = found.strength.unwrap();
    let broken = bare / area / (k_c * values.compression) + (moment + bare * 0.04) / modulus / values.bending;
    near(broken, 1.0, 1e-9);
    assert_eq!((found.source, found.rule), (Some(values.source), Some(CheckRule::En1995Column)));
}

#[test]
fn a_working_range_ends_where_a_leg_carries_all_it_may() {
    let mut rig = rig(20.0, 320.0);
    let free = working_range(&rig).unwrap();
    rig.gear.timber.grade = Some(Grade::Ungraded);
    rig.legs = Pair::both(Leg { pole: pole(0.11), ..rig.legs.left });
    let range = working_range(&rig).unwrap();
    let (Some(wide), Some(narrow)) = (free.intervals.last(), range.intervals.last()) else {
        panic!("both stand somewhere")
    };
    assert!(narrow.to < wide.to);
    assert_eq!(narrow.to_limit, Limit::Part(LEFT));
    rig.lean = narrow.to;
    near(check(&rig, LEFT).unwrap().ratio.unwrap(), 1.0, 0.01);
}

#[test]
fn a_doubled_guy_carries_half_and_soil_is_uncertain() {
    let mut rig = rig(20.0, 200.0);
    rig.gear.factor = Some(10.0);
    rig.guys[0].cordage =
        Cordage { class: Some(RopeClass::En1891A), knot: Some(Knot::Bowline), ..Cordage::default() };
    rig.guys[0].holdfast =
        Holdfast { kind: Some(HoldfastKind::Pickets111), soil: Some(Soil::Loam), ..Holdfast::default() };
    let ratio = |rig: &Rig, part| check(rig, part).unwrap().ratio.unwrap();
    let mut doubled = rig.clone();
    Change::DoubleGuy(0).apply(&mut doubled);
    for part in [Part::GuyRope(0), Part::GuyHoldfast(0)] {
        near(ratio(&doubled, part), ratio(&rig, part) / 2.0, 1e-12);
    }
    let soil = Scatter { length: 0.0, angle: 0.0, load: 0.0, soil: 0.3 };
    let drawn: Vec<f64> =
        (0..200).map(|number| ratio(&scattered(&rig, &soil, 7, number), Part::GuyHoldfast(0))).collect();
    let (least, most) = drawn.iter().fold((9.0, 0.0), |(l, m), x| (x.min(l), x.max(m)));
    let middle = ratio(&rig, Part::GuyHoldfast(0));
    assert!(least > middle / 1.3001 && least < middle / 1.25, "{least} of {middle}");
    assert!(most < middle / 0.6999 && most > middle / 0.75, "{most} of {middle}");
}

proptest! {
    /// Where a leg carries just what it may, its rule's sum is 1, by either code, for any pole that can be assessed.
    #[test]
    fn a_leg_at_its_allowable_is_at_the_limit_of_its_rule(
        grade in 0..Grade::ALL.len() - 2,
        diameter in 0.09..0.3_f64,
        taper in 0.0..0.03_f64,
        sawn in any::<bool>(),
        crook in 0.0..0.06_f64,
        eccentricity in prop::option::of(0.0..0.15_f64),
        dry in any::<bool>(),
        lean in 5.0..40.0_f64,
    ) {
        let mut rig = rig(lean, 100.0);
        let grade = Grade::ALL[grade];
        rig.gear.timber = Timber {
            grade: Some(grade),
            moisture: if dry { Moisture::Dry } else { Moisture::Wet },
            duration: if dry { Duration::Short } else { Duration::Long },
            ..Timber::default()
        };
        let pole = if sawn {
            Pole { breadth: Some(diameter), depth: Some(diameter + taper), ..Pole::default() }
        } else {
            Pole { tip_diameter: Some(diameter), butt_diameter: Some(diameter + taper), ..Pole::default() }
        };
        rig.legs = Pair::both(Leg { pole: Pole { crook: Some(crook), eccentricity, ..pole }, ..rig.legs.left });
        let Some(Check { allowable: Some(allowable), demand, strength, ratio, .. }) = check(&rig, LEFT) else {
            return Ok(());
        };
        prop_assert!((ratio.unwrap() - demand / allowable).abs() < 1e-9 * ratio.unwrap());
        prop_assert!(allowable <= strength.unwrap() * (1.0 + 1e-12));
        // Only the load grows: the legs' weight, which bends them, stays.
        let light = Rig { load: outlean_rig::Load::hanging(0.0), ..rig.clone() };
        let at_none = check(&light, LEFT).unwrap().demand;
        rig.load.mass = 100.0 * (allowable - at_none) / (demand - at_none);
        prop_assume!(rig.load.mass > 0.0 && rig.load.mass < 20_000.0);
        let symbol = if grade.code() == Code::Nds { Symbol::Interaction } else { Symbol::Unity };
        prop_assert!((step(&rig, LEFT, symbol) - 1.0).abs() < 1e-6, "{}", step(&rig, LEFT, symbol));
    }

    /// The wetter, the longer, the more crooked, the longer loaded: the less.
    #[test]
    fn a_worse_pole_carries_less(diameter in 0.1..0.25_f64, crook in 0.0..0.03_f64) {
        for grade in [Grade::DouglasFirLarch2, Grade::C24] {
            let mut rig = rig(20.0, 150.0);
            rig.gear.timber.grade = Some(grade);
            let mut allowed = |pole: Pole, moisture, duration| {
                rig.gear.timber.moisture = moisture;
                rig.gear.timber.duration = duration;
                rig.legs = Pair::both(Leg { pole, ..rig.legs.left });
                check(&rig, LEFT).unwrap().allowable.unwrap()
            };
            let whole = Pole { crook: Some(crook), ..pole(diameter) };
            let best = allowed(whole, Moisture::Dry, Duration::Short);
            prop_assert!(allowed(whole, Moisture::Wet, Duration::Short) < best);
            prop_assert!(allowed(whole, Moisture::Dry, Duration::Long) < best);
            let bent = Pole { crook: Some(crook + 0.01), ..whole };
            prop_assert!(allowed(bent, Moisture::Dry, Duration::Short) < best);
            let tapered = Pole { tip_diameter: Some(diameter * 0.9), ..whole };
            prop_assert!(allowed(tapered, Moisture::Dry, Duration::Short) < best);
            let centred = Pole { eccentricity: Some(0.0), ..whole };
            prop_assert!(allowed(centred, Moisture::Dry, Duration::Short) > best);
        }
        prop_assert!(eurocode::buckling(diameter * 10.0) <= 1.0);
    }
}
