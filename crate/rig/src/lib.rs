//! The calculation core of Outlean: what a leaning two-legged timber frame carries.
//!
//! A *frame* is two legs lashed near their tips, leaning forward over an edge, held by guys, with a line
//! running over a pulley at its head. Given a [`Rig`] this crate says where its points are ([`Layout`]),
//! what every part carries ([`solve`]), how that compares with what the part may carry ([`checks`]) and at
//! which leans all of it holds ([`working_range`]).
//!
//! # Conventions
//!
//! * SI throughout: metres, newtons, radians, kilograms. No other unit enters or leaves this crate.
//! * Axes: **x** forward, toward the edge and the load; **y** to the left when facing the edge; **z** up.
//!   The origin is on the ground midway between the feet unless the feet say otherwise.
//! * Lean is the angle of the frame's plane from the vertical, forward positive.
//! * Leg *compression* is positive when the leg pushes; guy *tension* is positive, never negative.
//! * Results are data. There are no sentences here, no files, no pictures and no web.
//! * Only `libm` is used for functions that std leaves to the platform, so that a result is equal bit for
//!   bit natively and in wasm.
//!
//! ```
//! use outlean_rig::{Balance, Guy, Point, Rig, solve};
//!
//! // Legs of 4 m to the lashing, feet 1.2 m apart, 250 kg hung at 20 degrees, one aft guy 6 m back.
//! let mut rig = Rig::new(4.0, 1.2, 20f64.to_radians(), 250.0);
//! rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
//! let solution = solve(&rig)?;
//! let Balance::Stands(forces) = &solution.balance else { panic!("it stands") };
//! assert!((forces.guys[0].tension - 1225.23).abs() < 0.01);
//! assert!((forces.compression.left - 1616.87).abs() < 0.01);
//! # Ok::<(), outlean_rig::Fault>(())
//! ```
#![deny(missing_docs)]

mod angle;
mod balance_lean;
mod bands;
mod case;
mod check;
mod crew;
mod edge;
mod fault;
mod feet;
mod followed;
mod force;
mod generator;
mod ground;
mod guy;
mod holdfast_pull;
mod layout;
mod lean;
mod leg;
mod lever;
mod limit;
mod line;
mod load;
mod luffing;
mod materials;
mod numeric;
mod operation;
mod path;
mod point;
mod proposal;
mod quantity;
mod range;
mod reaching;
mod resolve;
mod rest;
mod resultant;
mod rig;
mod scatter;
mod second;
mod side;
mod slide;
mod solve;
mod splay;
mod stage;
mod standby;
mod stiffness;
pub mod strength;
mod stretch;
mod sweep;
mod trade;

pub use balance_lean::balance_leans;
pub use bands::{BAND_DRAWS, BAND_PLACES, BAND_SEED, Bands};
pub use case::{Case, MAX_CASES, Scenario};
pub use check::{Check, Part, State, checks, worked};
pub use crew::{Haul, Raising, simple_advantage};
pub use edge::{Clearance, Edge};
pub use fault::{Allowed, Dimension, Fault, Field};
pub use feet::{Connection, Feet, Foothold, Footing};
pub use force::Force;
pub use generator::Generator;
pub use ground::Ground;
pub use guy::{Guy, GuyForce, MAX_GUYS, Role, Station};
pub use holdfast_pull::{HoldfastPull, holdfast_pulls, one_holdfast};
pub use layout::Layout;
pub use lean::Lean;
pub use leg::Leg;
pub use lever::Lever;
pub use limit::{Governing, Limit, MAX_LIMITS, governing, holds, limits_at};
pub use line::{Line, LineForces, LineName};
pub use load::{G, Load};
pub use luffing::Luffing;
pub use materials::{GuyMaterials, HoldfastMaterials, KNOT, Materials, materials};
pub use operation::Operation;
pub use path::Path;
pub use point::Point;
pub use proposal::{Change, Proposal, proposals};
pub use quantity::{Quantity, leans_where};
pub use range::{FARTHEST_BACK, FARTHEST_OUT, Interval, WorkingRange, range_within, working_range};
pub use reaching::Reaching;
pub use resolve::resolve;
pub use resultant::Resultant;
pub use rig::{Limits, Rig};
pub use scatter::{Band, Draws, Scatter, Uncertainty, scattered, uncertainty};
pub use second::SecondLine;
pub use side::{Pair, Side};
pub use slide::{Slide, slide, slide_worked};
pub use solve::{Balance, Forces, Solution, Tip, solve, solve_at};
pub use stage::{Stage, Swing};
pub use standby::{each_other, stands_by};
pub use strength::Basis;
pub use stretch::{
    Cure, DataSheet, EXTRA_LEAN, FARTHEST_JUMP, GREATEST_MULTIPLE, LeanIs, MOST_ROPES, Margin, Outcome,
    Remedy, Rope, STIFF_LEG, Shared, Stretch, StretchCheck, StretchChecked, Stretched, WANTED_MARGIN,
    least_share, margin, remedies, shared, stretch_checks, stretched,
};
pub use sweep::{Swept, sweep};
pub use trade::{Finding, MAX_FINDINGS, Rule, findings};

/// A direction or a lever arm: a plain vector, neither a place nor a force.
pub use glam::DVec3 as Vector;
