//! Solving asks the allocator for nothing.

use allocation_counter::measure;
use outlean_rig::{
    LeanIs, Lever, Outcome, Rig, Rope, STIFF_LEG, Stretch, checks, governing, margin, solve, stretched,
    sweep, working_range,
};
use outlean_tests::geared::geared_rig;
use std::hint::black_box;

/// Does something for some rigs that can be solved, gear and all, and says of how many.
fn each_rig(mut with: impl FnMut(u64, &Rig)) -> u32 {
    let mut solved = 0;
    for seed in 0..400 {
        let rig = geared_rig(seed);
        if solve(&rig).is_ok() {
            solved += 1;
            with(seed, &rig);
        }
    }
    solved
}

/// Holds something to no allocation.
fn no_allocation<T>(what: &str, seed: u64, of: impl Fn() -> T) -> T {
    let asked = measure(|| {
        black_box(of());
    });
    assert_eq!(asked.count_total, 0, "seed {seed}: {what} asked for {} bytes", asked.bytes_total);
    of()
}

#[test]
fn the_counter_counts() {
    assert_eq!(measure(|| drop(black_box(vec![1_u8]))).count_total, 1);
}

/// With feet, checks of every part and what governs in every case.
#[test]
fn a_rigid_solve_does_not_allocate() {
    let mut stand = 0;
    let solved = each_rig(|seed, rig| {
        let solution = no_allocation("solve", seed, || solve(black_box(rig))).unwrap();
        stand += u32::from(solution.forces().is_some());
        no_allocation("checks", seed, || checks(rig, &solution));
        no_allocation("governing", seed, || governing(black_box(rig), rig.lean)).unwrap();
        if seed % 40 == 0 {
            no_allocation("working range", seed, || working_range(black_box(rig))).unwrap();
        }
    });
    assert!(solved > 200 && stand > 150, "{stand} of {solved} stand");
}

/// At one go and along the whole path to its limit point.
#[test]
fn a_stretched_solve_does_not_allocate() {
    let (mut stand, mut go) = (0, 0);
    each_rig(|seed, rig| {
        let ropes = rig.guys.iter().map(|_| Rope { stiffness: 40_000.0, give: 0.01 }).collect();
        for lean_is in [LeanIs::SetBefore, LeanIs::UnderLoad, LeanIs::Cut] {
            let stretch = Stretch { leg_stiffness: STIFF_LEG, ropes: Clone::clone(&ropes), lean_is };
            match no_allocation("stretched", seed, || stretched(rig, &stretch)) {
                Ok(Outcome::Stands(_)) => stand += 1,
                Ok(Outcome::RunsAway(_)) => go += 1,
                _ => {}
            }
            let _ = no_allocation("margin", seed, || margin(rig, &stretch));
        }
    });
    assert!(stand > 200 && go > 20, "{stand} stand, {go} run away");
}

#[test]
fn a_sweep_does_not_allocate() {
    let solved = each_rig(|seed, rig| {
        let values = [20e3, 60e3];
        let swept =
            || sweep(black_box(rig), Lever::GuyStiffness, values).filter(|at| at.outcome.is_ok()).count();
        no_allocation("sweep", seed, swept);
    });
    assert!(solved > 200, "{solved}");
}
