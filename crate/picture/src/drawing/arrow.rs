//! Force arrows: five kinds, told apart without colour.

use super::vec2::{P, add, left_of, length, sub, times, unit};
use crate::{Kind, Obstacle, Path, Role, Scene};

/// Under this length, px at k = 1, only the head is drawn.
const LEAST: f64 = 14.0;
/// Length of a head, px at k = 1.
const HEAD: f64 = 12.0;
/// Half its width: closed, open.
const HALF: (f64, f64) = (5.0, 6.0);

/// Draws a force from `tail` to `tip`; one too short for its head is drawn as its head alone, at the tail and
/// along `along` (a unit step).
pub(crate) fn force(
    scene: &mut Scene,
    kind: Kind,
    tail: P,
    tip: P,
    along: P,
    part: &'static str,
) -> Vec<Obstacle> {
    let k = scene.k;
    let long = length(sub(tip, tail));
    let way = unit(sub(tip, tail), along);
    let tip = if long < LEAST * k { add(tail, times(way, HEAD * k)) } else { tip };
    let at = |back: f64, aside: f64| add(sub(tip, times(way, back)), times(left_of(way), aside));
    let head = HEAD * k;
    let open = kind == Kind::Pull;
    if long >= LEAST * k {
        let end = if open { at(k, 0.0) } else { at(head - 1.0, 0.0) };
        scene.part_path(Path::line(tail, end), Role::Shaft(kind), part);
    }
    if open {
        let half = HALF.1 * k;
        scene.part_path(Path::through([at(head, half), tip, at(head, -half)]), Role::Head(kind), part);
    } else {
        let half = HALF.0 * k;
        scene.part_path(Path::polygon([at(head, half), tip, at(head, -half)]), Role::Head(kind), part);
    }
    match kind {
        Kind::Load => scene.circle(tail, 3.6 * k, Role::Head(kind), part),
        Kind::Ground if long >= LEAST * k => ground_sign(scene, tail, way, part),
        _ => {}
    }
    vec![Obstacle { from: tail, to: tip, half: 5.0 * k, soft: false }]
}

/// The sign of the ground across the tail: a bar and three strokes under it.
fn ground_sign(scene: &mut Scene, tail: P, way: P, part: &'static str) {
    let k = scene.k;
    let at = |aside: f64, ahead: f64| add(add(tail, times(left_of(way), aside * k)), times(way, ahead * k));
    scene.part_path(Path::line(at(-7.0, 0.0), at(7.0, 0.0)), Role::Shaft(Kind::Ground), part);
    let mut strokes = Path::new();
    for aside in [-4.5, 0.0, 4.5] {
        strokes.add_line(at(aside, 0.0), at(aside - 3.0, -5.0));
    }
    scene.part_path(strokes, Role::GroundSign, part);
}

/// Draws a sum of forces: an outline.
pub(crate) fn sum(scene: &mut Scene, tail: P, tip: P, part: &'static str) -> Vec<Obstacle> {
    let k = scene.k;
    let long = length(sub(tip, tail));
    if long < 1e-6 {
        return Vec::new();
    }
    let way = unit(sub(tip, tail), (0.0, 1.0));
    let head = HEAD * k;
    let half = (HALF.0 + 1.5) * k;
    let shaft = 2.6 * k;
    let from_tip = |back: f64, aside: f64| add(sub(tip, times(way, back)), times(left_of(way), aside));
    let from_tail = |aside: f64| add(tail, times(left_of(way), aside));
    let path = if long < head * 1.2 {
        Path::polygon([from_tip(head, half), tip, from_tip(head, -half)])
    } else {
        Path::polygon([
            from_tail(shaft),
            from_tip(head, shaft),
            from_tip(head, half),
            tip,
            from_tip(head, -half),
            from_tip(head, -shaft),
            from_tail(-shaft),
        ])
    };
    scene.part_path(path, Role::Sum, part);
    vec![Obstacle { from: tail, to: tip, half: 6.0 * k, soft: false }]
}

/// Draws a pencil arrow with the grip by which it is stretched, at its tip.
pub(crate) fn pencil(scene: &mut Scene, tail: P, tip: P, along: P, part: &'static str) -> Vec<Obstacle> {
    let k = scene.k;
    let way = unit(sub(tip, tail), along);
    let at = |back: f64, aside: f64| add(sub(tip, times(way, back)), times(left_of(way), aside));
    let (head, half) = (HEAD * k, HALF.1 * k);
    if length(sub(tip, tail)) > k {
        scene.part_path(Path::line(tail, at(k, 0.0)), Role::Pencil, part);
    }
    scene.part_path(Path::through([at(head, half), tip, at(head, -half)]), Role::PencilSolid, part);
    vec![Obstacle { from: tail, to: tip, half: 6.0 * k, soft: false }]
}
