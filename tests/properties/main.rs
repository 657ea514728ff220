//! Properties that hold of every rig: what the numbers must do, whatever they are.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "so a test fails"
)]

mod bands;
mod carried;
mod edge;
mod equilibrium;
mod frame;
mod ground;
mod junk;
mod limits;
mod line;
mod materials;
mod mirror;
mod pairs;
mod parts;
mod plan;
mod pretension;
mod range;
mod readings;
mod refused;
mod scale;
mod slide;
mod splay;
mod strength;
mod stretch;
mod the_job;
mod two_lines;
mod what_if;

use outlean_rig::{Rig, Solution, solve};
use outlean_tests::random::random_rig;
use proptest::test_runner::Config;

/// So many random rigs; a failing seed is printed.
fn cases(cases: u32) -> Config {
    Config { cases, failure_persistence: None, ..Config::default() }
}

/// The rig of a seed and its solution, where it has one.
fn solvable(seed: u64) -> Option<(Rig, Solution)> {
    let rig = random_rig(seed);
    let solution = solve(&rig).ok()?;
    Some((rig, solution))
}

/// A size of force to hold differences against: the greatest that the head knows, at least a newton.
fn force_scale(rig: &Rig, solution: &Solution) -> f64 {
    let mut scale = rig.load.tension().max(solution.resultant.force.size()).max(1.0);
    if let Some(forces) = solution.forces() {
        scale = scale.max(forces.compression.left.abs()).max(forces.compression.right.abs());
        scale = forces.guys.iter().fold(scale, |scale, guy| scale.max(guy.tension));
    }
    scale
}
