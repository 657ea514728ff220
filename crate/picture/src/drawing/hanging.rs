//! What hangs on the load line.

use super::frame::ring;
use super::person::{HANGING, helmet, person};
use super::vec2::P;
use crate::{Path, Role, Scene};

/// How far a load reaches from its plumb line, m: toward the face, below its top, and its top's own height below
/// the ring that it hangs by.
#[derive(Clone, Copy)]
pub(crate) struct Reach {
    pub toward_face: f64,
    pub outward: f64,
    pub below: f64,
    pub bridle: f64,
}

/// A block of weight.
pub(crate) const WEIGHT: Reach = Reach { toward_face: 0.34, outward: 0.34, below: 0.66, bridle: 0.2 };
/// A litter seen end on, with someone beside it.
pub(crate) const LITTER: Reach = Reach { toward_face: 0.32, outward: 0.75, below: 0.85, bridle: 0.98 };

/// Draws a weight whose ring is at `at`.
pub(crate) fn weight(scene: &mut Scene, at: P, scale: f64) {
    let q = |u: f64, v: f64| (at.0 + u * scale, at.1 - v * scale);
    let block = [(-0.27, -0.2), (0.27, -0.2), (0.34, -0.38), (0.34, -0.86), (-0.34, -0.86), (-0.34, -0.38)];
    scene.part_path(Path::polygon([q(0.0, -0.02), q(-0.2, -0.2), q(0.2, -0.2)]), Role::Cord, "load");
    scene.part_path(Path::polygon(block.map(|(u, v)| q(u, v))), Role::Basket, "load");
    scene.part_path(Path::line(q(-0.34, -0.38), q(0.34, -0.38)), Role::Rib, "load");
    ring(scene, at, (0.05 * scale).max(3.2 * scene.k), "load");
}

/// Draws a litter with a patient, seen end on from its foot, its ring at `at`, someone hanging on the outer side
/// with their feet toward the face.
pub(crate) fn litter(scene: &mut Scene, at: P, scale: f64) {
    let rail = at.1 + LITTER.bridle * scale;
    let q = |u: f64, v: f64| (at.0 + u * scale, rail - v * scale);
    // The attendant hangs by a cord of their own, behind the litter.
    scene.part_path(Path::line(at, q(0.5, 0.0)), Role::Cord, "load");
    person(scene, q(0.42, 0.04), &HANGING, -1.0, scale);
    let mut bridle = Path::line(at, q(-0.29, 0.0));
    bridle.add_line(at, q(0.29, 0.0));
    bridle.add_line(at, q(-0.22, 0.03));
    bridle.add_line(at, q(0.22, 0.03));
    scene.part_path(bridle, Role::Cord, "load");
    // Under a blanket: feet toward us, the helmet beyond them.
    helmet(scene, q(0.0, 0.13), 0.0, scale * 0.9);
    let mut blanket = Path::new();
    blanket.move_to(q(-0.27, -0.02));
    blanket.cubic_to(q(-0.25, 0.16), q(-0.12, 0.2), q(0.0, 0.17));
    blanket.cubic_to(q(0.12, 0.2), q(0.25, 0.16), q(0.27, -0.02));
    blanket.close();
    scene.part_path(blanket, Role::Blanket, "load");
    let mut basket = Path::new();
    basket.move_to(q(-0.31, 0.0));
    basket.cubic_to(q(-0.31, -0.18), q(-0.24, -0.27), q(-0.1, -0.27));
    basket.line_to(q(0.1, -0.27));
    basket.cubic_to(q(0.24, -0.27), q(0.31, -0.18), q(0.31, 0.0));
    basket.close();
    scene.part_path(basket, Role::Basket, "load");
    let mut ribs = Path::line(q(-0.12, 0.0), q(-0.09, -0.27));
    ribs.add_line(q(0.12, 0.0), q(0.09, -0.27));
    scene.part_path(ribs, Role::Rib, "load");
    scene.part_path(Path::line(q(-0.33, 0.0), q(0.33, 0.0)), Role::Rail, "load");
    ring(scene, at, (0.045 * scale).max(3.2 * scene.k), "load");
}
