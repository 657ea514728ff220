//! The leans at which a reading takes a value.

use super::{cases, solvable};
use outlean_rig::{Guy, Leg, Pair, Point, Quantity, Rig, Side, leans_where, solve_at};
use proptest::prelude::*;

const ALL: [Quantity; 10] = [
    Quantity::LegCompression(Side::Left),
    Quantity::LegCompression(Side::Right),
    Quantity::GuyTension(0),
    Quantity::GuyTension(1),
    Quantity::HaulTension,
    Quantity::OnHead,
    Quantity::Reach,
    Quantity::PulleyReach,
    Quantity::HeadHeight,
    Quantity::TippingMoment,
];

proptest! {
    #![proptest_config(cases(60))]

    /// Asked for the value at some lean, that lean is among the answers, and the value is met at every one of them.
    #[test]
    fn a_value_is_met_and_its_lean_found(seed: u64, which in 0..ALL.len(), at in -0.5..1.3_f64) {
        let Some((rig, _)) = solvable(seed) else { return Ok(()) };
        let Ok(solution) = solve_at(&rig, at) else { return Ok(()) };
        let Some(value) = ALL[which].of(&solution) else { return Ok(()) };
        let leans = leans_where(&rig, ALL[which], value).unwrap();
        let of = |lean: f64| ALL[which].of(&solve_at(&rig, lean).ok()?);
        for &lean in &leans {
            let met = of(lean).unwrap();
            prop_assert!((met - value).abs() < 1e-5 * (1.0 + value.abs()), "{met} for {value} at {lean}");
        }
        prop_assert!(leans.windows(2).all(|pair| pair[0] < pair[1]));
        // Found, where it crosses at all within a grid step and does not fold back within one.
        let step = 0.25_f64.to_radians();
        let around: Vec<_> = (-4..=4).map(|i| of(at + step * f64::from(i) / 2.0)).collect();
        let Some(around) = around.into_iter().collect::<Option<Vec<f64>>>() else { return Ok(()) };
        let rises = around.windows(2).all(|pair| pair[0] < pair[1]);
        let falls = around.windows(2).all(|pair| pair[0] > pair[1]);
        let slope = (around[8] - around[0]).abs();
        if (rises || falls) && slope > 1e-6 * value.abs() && leans.len() < 8 {
            prop_assert!(leans.iter().any(|lean| (lean - at).abs() < 1e-7), "{at} not in {leans:?}");
        }
    }

    #[test]
    fn a_value_never_taken_has_no_leans(seed: u64) {
        let Some((rig, _)) = solvable(seed) else { return Ok(()) };
        prop_assert!(leans_where(&rig, Quantity::HeadHeight, 1e4).unwrap().is_empty());
        prop_assert!(leans_where(&rig, Quantity::GuyTension(9), 1.0).unwrap().is_empty());
        prop_assert!(leans_where(&rig, Quantity::GuyTension(0), -5.0).unwrap().is_empty());
        for nonsense in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            prop_assert!(leans_where(&rig, Quantity::OnHead, nonsense).unwrap().is_empty());
        }
    }
}

/// Where a guy's arm dwindles to nothing its tension grows past all bounds, and beyond it another guy works and it
/// hangs slack: between the two it takes no value, though it jumps past every one.
#[test]
fn a_jump_is_not_a_crossing() {
    let mut rig = Rig::new(4.0, 1.2, -0.45, 100.0);
    // Up a bank: behind the frame's plane, and ahead of it where the frame leans back 21.8° or more.
    rig.guys.push(Guy::to(Point::new(-1.0, 0.0, 2.5)));
    rig.guys.push(Guy::to(Point::new(6.0, 0.0, 0.0)));
    for value in [1000.0, 3000.0, 50_000.0] {
        for lean in leans_where(&rig, Quantity::GuyTension(0), value).unwrap() {
            let met = Quantity::GuyTension(0).of(&solve_at(&rig, lean).unwrap()).unwrap();
            assert!((met - value).abs() < 1e-3 * value, "{met} for {value} at {}°", lean.to_degrees());
        }
    }
    assert!(!leans_where(&rig, Quantity::GuyTension(0), 1000.0).unwrap().is_empty());
}

#[test]
fn a_frame_that_lies_back_is_looked_at_where_it_lies() {
    let mut rig = Rig::new(3.25, 1.05, -59f64.to_radians(), 0.0);
    rig.legs = Pair::both(Leg::of(3.6, 0.35, 62.0));
    rig.guys.push(Guy::to(Point::new(5.2, 0.0, -0.8)));
    let fore = Quantity::GuyTension(0);
    // Half way up, far behind where frames that stand are looked at.
    let wanted = -45f64.to_radians();
    let there = fore.of(&solve_at(&rig, wanted).unwrap()).unwrap();
    let leans = leans_where(&rig, fore, there).unwrap();
    assert!(leans.iter().any(|lean| (lean - wanted).abs() < 1e-6), "{leans:?}");
}

/// A pulley on half a metre of sling hangs along the pull of a load that swings outward: so much farther ahead.
#[test]
fn a_pulley_on_a_sling_hangs_ahead_of_the_head() {
    let mut rig = Rig::new(4.0, 1.2, 0.3, 200.0);
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig.line.sling = 0.5;
    rig.load.outward_angle = 0.2;
    let solution = solve_at(&rig, 0.3).unwrap();
    let [head, pulley] = [Quantity::Reach, Quantity::PulleyReach].map(|of| of.of(&solution).unwrap());
    assert!((pulley - head - 0.5 * libm::sin(0.2)).abs() < 1e-12, "{head} {pulley}");
}
