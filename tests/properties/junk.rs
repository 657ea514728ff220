//! Whatever stands in a rig, the core answers with finite numbers or with a fault; it never panics.

use super::cases;
use outlean_rig::{
    Fault, Field, Pair, Quantity, Rig, Side, Solution, balance_leans, checks, findings, governing,
    leans_where, solve, working_range,
};
use outlean_tests::finite::{MAY_LACK, nulls};
use outlean_tests::geared::geared_rig;
use outlean_tests::numbers::each_number;
use proptest::num::f64::ANY;
use proptest::prelude::*;

fn count(rig: &mut Rig) -> usize {
    let mut count = 0;
    each_number(rig, &mut |_| count += 1);
    count
}

fn set(rig: &mut Rig, number: usize, value: f64) {
    let mut place = 0;
    each_number(rig, &mut |here| {
        if place == number {
            *here = value;
        }
        place += 1;
    });
}

fn finite(solution: &Solution) {
    assert_eq!(nulls(solution, &MAY_LACK), [""; 0]);
    let lacking = |number: Option<f64>| number.is_none_or(f64::is_finite);
    assert!(lacking(solution.resultant.ahead_of_feet));
    for side in Side::BOTH {
        let Some(forces) = solution.forces() else { return };
        let foot = forces.footing.feet.on(side);
        for number in [foot.pressure, foot.friction_alone, foot.friction_evened, foot.friction_needed] {
            assert!(lacking(number), "{foot:?}");
            assert!(number.is_none_or(|number| number >= 0.0), "{foot:?}");
        }
    }
}

/// Solves; a solution is finite, a fault names a value that is out of what it says is allowed.
fn answers(rig: &Rig) -> bool {
    let fits = |fault: Fault| {
        assert!(
            !(fault.allowed.least <= fault.value && fault.value <= fault.allowed.most),
            "a fault that is none: {fault}"
        );
        assert!(fault.allowed.least.is_finite() && fault.allowed.most.is_finite());
        assert!(!fault.to_string().is_empty());
    };
    match solve(rig) {
        Ok(solution) => {
            finite(&solution);
            assert!(checks(rig, &solution).iter().all(|check| check.demand.is_finite()));
            assert!(findings(rig).is_ok());
            assert!(governing(rig, rig.lean).is_ok_and(|governing| governing.ratio >= 0.0));
            true
        }
        Err(fault) => {
            fits(fault);
            let _ = findings(rig).map_err(fits);
            let _ = governing(rig, rig.lean).map_err(fits);
            false
        }
    }
}

/// As `answers`, and looks along all leans.
fn answers_along(rig: &Rig) {
    if answers(rig) {
        let range = working_range(rig).unwrap();
        assert_eq!(nulls(&range, &[".best_ratio"]), [""; 0]);
        assert!(range.best_ratio >= 0.0);
        for lean in balance_leans(rig).unwrap() {
            assert!(lean.is_finite());
        }
        for lean in leans_where(rig, Quantity::GuyTension(0), 500.0).unwrap() {
            assert!(lean.is_finite());
        }
    } else {
        assert!(working_range(rig).is_err());
        assert!(leans_where(rig, Quantity::Reach, 1.0).is_err());
    }
}

const ODD: [f64; 24] = [
    f64::NAN,
    f64::INFINITY,
    f64::NEG_INFINITY,
    f64::MAX,
    f64::MIN,
    f64::MIN_POSITIVE,
    5e-324,
    -5e-324,
    0.0,
    -0.0,
    1.0,
    -1.0,
    0.5,
    0.05,
    1e-9,
    -1e-9,
    1e9,
    40.0,
    1000.0,
    -1000.0,
    1e154,
    -1e200,
    1.553_343_034_274_953_4,
    core::f64::consts::FRAC_PI_2,
];

/// Every odd value in every field of rigs with every path.
#[test]
fn odd_values_one_at_a_time() {
    let (mut solved, mut faults) = (0, 0);
    for seed in 0..40 {
        let mut rig = geared_rig(seed);
        for number in 0..count(&mut rig) {
            for value in ODD {
                let mut copy = rig.clone();
                set(&mut copy, number, value);
                if answers(&copy) {
                    solved += 1
                } else {
                    faults += 1
                }
                if !value.is_finite() {
                    assert!(solve(&copy).is_err(), "{value} in number {number}");
                }
            }
        }
    }
    assert!(solved > 5000 && faults > 20_000, "{solved} solved, {faults} faults");
}

/// At both ends of every range at once, and close by.
#[test]
fn the_ends_of_every_range_in_every_field() {
    let fields = [
        (Field::LegLength(Side::Left), 0),
        (Field::LashingBelowTip(Side::Left), 1),
        (Field::LegWeight(Side::Left), 2),
    ];
    for (field, number) in fields {
        let allowed = field.allowed();
        for value in [allowed.least, allowed.most] {
            let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
            rig.legs = Pair::both(outlean_rig::Leg::of(10.0, 0.5, 10.0));
            set(&mut rig, number, value);
            if let Err(fault) = solve(&rig) {
                assert_ne!(fault.field, field, "{fault}");
            }
        }
        for value in [allowed.least - 1e-9, allowed.most + 1e-9] {
            let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
            set(&mut rig, number, value);
            assert_eq!(solve(&rig).unwrap_err().field, field);
        }
    }
}

proptest! {
    #![proptest_config(cases(3000))]

    #[test]
    fn any_numbers_anywhere(seed: u64, values in prop::collection::vec((any::<prop::sample::Index>(), ANY), 1..6)) {
        let mut rig = geared_rig(seed);
        let many = count(&mut rig);
        for (place, value) in values {
            set(&mut rig, place.index(many), value);
        }
        answers(&rig);
    }

    /// Numbers within sense but at their ends, several at once.
    #[test]
    fn odd_numbers_anywhere(
        seed: u64,
        values in prop::collection::vec((any::<prop::sample::Index>(), prop::sample::select(&ODD[..])), 1..8),
    ) {
        let mut rig = geared_rig(seed);
        let many = count(&mut rig);
        for (place, value) in values {
            set(&mut rig, place.index(many), value);
        }
        answers(&rig);
    }
}

proptest! {
    #![proptest_config(cases(40))]

    #[test]
    fn odd_numbers_along_all_leans(
        seed: u64,
        place: prop::sample::Index,
        value in prop::sample::select(&[0.0, -0.0, 1e-300, 1.0, 0.05, 40.0, 1000.0, -1000.0, 1e-9][..]),
    ) {
        let mut rig = geared_rig(seed);
        let many = count(&mut rig);
        set(&mut rig, place.index(many), value);
        answers_along(&rig);
    }
}
