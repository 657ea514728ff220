//! Published values, held against the frame itself where the source has a frame, else against the kernel.
//!
//! One file a source; the source is named at its head with edition and table or problem. Where a rule has no
//! single source the file says *common practice*; what was worked out from stated inputs rather than printed says
//! *derived*.
//!
//! Left out: Meriam & Kraige, *Statics* 8th ed., problem 3/76: its boom is a rigid body whose forces do not meet in
//! one point, which neither the frame nor the kernel is made for.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "so a test fails"
)]

mod aghayere_vigil;
mod awc_examples;
mod baker_haynes;
mod balance;
mod beer_johnston;
mod block_tables;
mod building_codes;
mod cargo_straps;
mod cargo_work;
mod common_practice;
mod cordage_institute;
mod design_factors;
mod disaster_rescue;
mod editions;
mod en_1891;
mod en_338;
mod field_engineering;
mod field_frames;
mod fm_3_97_61;
mod fm_5_125;
mod foot_redirect;
mod friction;
mod geometry_rules;
mod hauling_teams;
mod hibbeler;
mod hud_guide;
mod kibble_berkshire;
mod knots;
mod lashings;
mod navy_pickets;
mod navy_shears;
mod nds;
mod nds_supplement;
mod nfpa_1983;
mod osha_2268;
mod pile_table;
mod pulley_test;
mod rescue_loads;
mod rope_tables;
mod sea_cadets;
mod seamanship;
mod side_swing;
mod sling;
mod sling_angles;
mod stretch;
mod timber_derived;
mod usace_pins;
mod war_office;

use outlean_rig::{Force, Pair, Point, Rig, Solution, Vector, resolve, solve};

/// Newtons in a pound-force: exact by definition.
const LBF: f64 = 4.448_221_615_260_5;
/// Metres in a foot: exact by definition.
const FT: f64 = 0.304_8;

/// Asserts that `found` is within `tolerance` of what was printed. Says what it held: `tests/evidence.mjs` makes a table of it.
#[track_caller]
fn near(found: f64, printed: f64, tolerance: f64) {
    println!("held {found:e} {printed:e} {tolerance:e}");
    assert!((found - printed).abs() <= tolerance, "found {found}, printed {printed} ± {tolerance}");
}

/// Forces in three members that run from `joint` to `ends`, under `force` on the joint: compression positive.
fn members(joint: [f64; 3], ends: [[f64; 3]; 3], force: [f64; 3]) -> [f64; 3] {
    let joint = Vector::from_array(joint);
    let along = ends.map(|end| (Vector::from_array(end) - joint).normalize());
    resolve(along, Force::new(force[0], force[1], force[2])).expect("three directions well apart")
}

/// The solution of a rig that can be computed.
fn solved(rig: &Rig) -> Solution {
    solve(rig).unwrap_or_else(|fault| panic!("{fault}"))
}

/// The mass (kg) whose weight is `newtons`.
fn mass_of(newtons: f64) -> f64 {
    newtons / outlean_rig::G
}

/// Legs' compressions of a rig that stands.
fn legs(solution: &Solution) -> Pair<f64> {
    solution.forces().expect("it stands").compression
}

/// Tension of a guy of a rig that stands.
fn guy(solution: &Solution, number: usize) -> f64 {
    solution.forces().expect("it stands").guys[number].tension
}

/// A point in feet.
fn feet(x: f64, y: f64, z: f64) -> Point {
    Point::new(x * FT, y * FT, z * FT)
}
