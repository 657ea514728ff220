//! What hangs on the load line.

use super::frame::ring;
use super::local::{Local, Place, table};
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

/// The cords of a weight, metres to the right of its ring and up from it.
const CORDS: [Place; 3] = table([(0.0, -0.02), (-0.2, -0.2), (0.2, -0.2)]);
const BLOCK: [Place; 6] =
    table([(-0.27, -0.2), (0.27, -0.2), (0.34, -0.38), (0.34, -0.86), (-0.34, -0.86), (-0.34, -0.38)]);
const SHOULDER: [Place; 2] = table([(-0.34, -0.38), (0.34, -0.38)]);

/// Draws a weight whose ring is at `at`.
pub(crate) fn weight(scene: &mut Scene, at: P, scale: f64) {
    let local = Local::upright(at, scale);
    local.closed(scene, &CORDS, Role::Cord, "load");
    local.closed(scene, &BLOCK, Role::Basket, "load");
    local.open(scene, &SHOULDER, Role::Rib, "load");
    ring(scene, at, (0.05 * scale).max(3.2 * scene.k), "load");
}

/// Where the four cords of the bridle meet the litter, metres to the right of the middle of its rail and up from it.
const BRIDLE: [Place; 4] = table([(-0.29, 0.0), (0.29, 0.0), (-0.22, 0.03), (0.22, 0.03)]);
/// The blanket: a point, then two curves of three points each.
const BLANKET: [Place; 7] = table([
    (-0.27, -0.02),
    (-0.25, 0.16),
    (-0.12, 0.2),
    (0.0, 0.17),
    (0.12, 0.2),
    (0.25, 0.16),
    (0.27, -0.02),
]);
/// The basket: a point, a curve, a line, a curve.
const BASKET: [Place; 8] = table([
    (-0.31, 0.0),
    (-0.31, -0.18),
    (-0.24, -0.27),
    (-0.1, -0.27),
    (0.1, -0.27),
    (0.24, -0.27),
    (0.31, -0.18),
    (0.31, 0.0),
]);
const RIBS: [Place; 4] = table([(-0.12, 0.0), (-0.09, -0.27), (0.12, 0.0), (0.09, -0.27)]);
const RAIL: [Place; 2] = table([(-0.33, 0.0), (0.33, 0.0)]);

/// Draws a litter with a patient, seen end on from its foot, its ring at `at`, someone hanging on the outer side
/// with their feet toward the face.
pub(crate) fn litter(scene: &mut Scene, at: P, scale: f64) {
    let local = Local::upright((at.0, at.1 + LITTER.bridle * scale), scale);
    // The attendant hangs by a cord of their own, behind the litter.
    scene.line(at, local.at(0.5, 0.0), Role::Cord, "load");
    person(scene, local.at(0.42, 0.04), &HANGING, -1.0, scale);
    let mut bridle = Path::new();
    for end in local.points(&BRIDLE) {
        bridle.add_line(at, end);
    }
    scene.part_path(bridle, Role::Cord, "load");
    // Under a blanket: feet toward us, the helmet beyond them.
    helmet(scene, local.at(0.0, 0.13), 0.0, scale * 0.9);
    if let [a, b, c, d, e, f, g] = *local.points(&BLANKET) {
        let mut blanket = Path::new();
        blanket.move_to(a);
        blanket.cubic_to(b, c, d);
        blanket.cubic_to(e, f, g);
        blanket.close();
        scene.part_path(blanket, Role::Blanket, "load");
    }
    if let [a, b, c, d, e, f, g, h] = *local.points(&BASKET) {
        let mut basket = Path::new();
        basket.move_to(a);
        basket.cubic_to(b, c, d);
        basket.line_to(e);
        basket.cubic_to(f, g, h);
        basket.close();
        scene.part_path(basket, Role::Basket, "load");
    }
    local.strokes(scene, &RIBS, Role::Rib, "load");
    local.open(scene, &RAIL, Role::Rail, "load");
    ring(scene, at, (0.045 * scale).max(3.2 * scene.k), "load");
}
