//! The frame itself: poles, lashing, pulleys.

use super::local::Local;
use super::vec2::{P, add, left_of, sub, times, unit};
use crate::{Path, Role, Scene};

/// Diameter of a leg at its butt and at its tip, m.
const BUTT: f64 = 0.115;
const TIP: f64 = 0.085;

/// Widths of a leg at its butt and at its tip, px, at a scale of px to the metre.
pub(crate) fn leg_widths(scale: f64, k: f64) -> (f64, f64) {
    ((BUTT * scale).max(5.0 * k), (TIP * scale).max(4.0 * k))
}

/// Draws a pole from its butt to its tip.
pub(crate) fn pole(scene: &mut Scene, butt: P, tip: P, widths: (f64, f64), part: &'static str) {
    let aside = left_of(unit(sub(tip, butt), (0.0, -1.0)));
    let (a, b) = (times(aside, widths.0 / 2.0), times(aside, widths.1 / 2.0));
    let outline = Path::polygon(&[add(butt, a), add(tip, b), sub(tip, b), sub(butt, a)]);
    scene.part_path(outline, Role::Timber, part);
}

/// How many turns are drawn.
const TURNS: u32 = 7;

/// Half the length of the lashing along the legs, px.
pub(crate) fn lashing_half(scale: f64, k: f64) -> f64 {
    f64::from(TURNS) * (0.042 * scale).max(2.6 * k) / 2.0
}

/// Draws the lashing: a block of turns square to the unit step `up`, `across` px wide.
pub(crate) fn lashing(scene: &mut Scene, centre: P, up: P, across: f64, scale: f64) {
    let half = lashing_half(scale, scene.k);
    let local = Local::onward(centre, up, 1.0);
    let side = across / 2.0;
    let (low, high) = (local.at(-half, -side), local.at(half, -side));
    let block = Path::polygon(&[low, high, local.at(half, side), local.at(-half, side)]);
    scene.part_path(block, Role::Wrap, "lashing");
    let mut turns = Path::new();
    for turn in 1..TURNS {
        let along = -half + 2.0 * half * f64::from(turn) / f64::from(TURNS);
        turns.add_line(local.at(along, -side), local.at(along, side));
    }
    scene.part_path(turns, Role::Turn, "lashing");
}

/// Radius of a pulley, px: 0.07 m, never under 4.5 px.
pub(crate) fn pulley_radius(scale: f64, k: f64) -> f64 {
    (0.07 * scale).max(4.5 * k)
}

/// Draws a pulley.
pub(crate) fn pulley(scene: &mut Scene, at: P, radius: f64, part: &'static str) {
    scene.circle(at, radius, Role::Sheave, part);
    scene.circle(at, 0.3 * radius, Role::Pin, part);
}

/// Draws a ring.
pub(crate) fn ring(scene: &mut Scene, at: P, radius: f64, part: &'static str) {
    scene.circle(at, radius, Role::Sheave, part);
}
