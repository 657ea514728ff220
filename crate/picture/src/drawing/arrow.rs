//! Force arrows: five kinds, told apart without colour.

use super::local::{Local, Place, table};
use super::sheet::Sheet;
use super::vec2::{P, length, sub, unit};
use crate::{Kind, Role};

/// Under this length, px at k = 1, only the head is drawn.
pub(crate) const LEAST: f64 = 14.0;
/// Length of a head, px at k = 1.
const HEAD: f64 = 12.0;

/// An open head: back from the tip, aside; px at k = 1.
const OPEN: [Place; 3] = table([(HEAD, 6.0), (0.0, 0.0), (HEAD, -6.0)]);
/// A closed head.
const CLOSED: [Place; 3] = table([(HEAD, 5.0), (0.0, 0.0), (HEAD, -5.0)]);
/// The head of a sum.
const WIDE: [Place; 3] = table([(HEAD, 6.5), (0.0, 0.0), (HEAD, -6.5)]);
/// A sum from its head on to where its shaft begins.
const SUM: [Place; 5] = table([(HEAD, 2.6), (HEAD, 6.5), (0.0, 0.0), (HEAD, -6.5), (HEAD, -2.6)]);
/// The bar of the sign of the ground: ahead of the tail, aside.
const BAR: [Place; 2] = table([(0.0, -7.0), (0.0, 7.0)]);
/// The strokes under it.
const STROKES: [Place; 6] =
    table([(0.0, -4.5), (-5.0, -7.5), (0.0, 0.0), (-5.0, -3.0), (0.0, 4.5), (-5.0, 1.5)]);

/// Draws a force from `tail` to `tip`; one too short for its head is drawn as its head alone, at the tail and
/// along `along` (a unit step).
pub(crate) fn force(sheet: &mut Sheet, kind: Kind, tail: P, tip: P, along: P, part: &'static str) {
    let k = sheet.scene.k;
    let long = length(sub(tip, tail));
    let way = unit(sub(tip, tail), along);
    let tip = if long < LEAST * k { super::vec2::along(tail, way, HEAD * k) } else { tip };
    let head = Local::back_from(tip, way, k);
    let scene = &mut sheet.scene;
    let (role, open) = (Role::Head(kind), kind == Kind::Pull);
    if long >= LEAST * k {
        let end = Local { scale: 1.0, ..head }.at(if open { k } else { HEAD * k - 1.0 }, 0.0);
        scene.line(tail, end, Role::Shaft(kind), part);
    }
    if open {
        head.open(scene, &OPEN, role, part);
    } else {
        head.closed(scene, &CLOSED, role, part);
    }
    match kind {
        Kind::Load => scene.circle(tail, 3.6 * k, role, part),
        // The sign of the ground across the tail: a bar and three strokes under it.
        Kind::Ground if long >= LEAST * k => {
            let sign = Local::onward(tail, way, k);
            sign.open(scene, &BAR, Role::Shaft(Kind::Ground), part);
            sign.strokes(scene, &STROKES, Role::GroundSign, part);
            sheet.keep_clear(tail, sign.at(-4.0, 0.0), 8.0 * k, false);
        }
        _ => {}
    }
    sheet.keep_clear(tail, tip, 5.0 * k, false);
}

/// Draws a force whose ends must be where they are however short it is: a head as small as the force.
pub(crate) fn short(sheet: &mut Sheet, kind: Kind, tail: P, tip: P, along: P, part: &'static str) {
    let long = length(sub(tip, tail));
    let head = Local::back_from(tip, along, long / HEAD);
    if kind == Kind::Pull {
        sheet.scene.line(tail, tip, Role::Shaft(kind), part);
        head.open(&mut sheet.scene, &OPEN, Role::Head(kind), part);
    } else {
        head.closed(&mut sheet.scene, &CLOSED, Role::Head(kind), part);
    }
    sheet.keep_clear(tail, tip, 5.0 * sheet.scene.k, false);
}

/// Draws a sum of forces: an outline.
pub(crate) fn sum(sheet: &mut Sheet, tail: P, tip: P, part: &'static str) {
    let k = sheet.scene.k;
    let long = length(sub(tip, tail));
    if long < 1e-6 {
        return;
    }
    let way = unit(sub(tip, tail), (0.0, 1.0));
    let head = Local::back_from(tip, way, k);
    if long < HEAD * k * 1.2 {
        head.closed(&mut sheet.scene, &WIDE, Role::Sum, part);
    } else {
        let foot = Local { origin: tail, ..head };
        let mut corners = vec![foot.at(0.0, 2.6)];
        corners.extend_from_slice(&head.points(&SUM));
        corners.push(foot.at(0.0, -2.6));
        sheet.scene.part_path(crate::Path::polygon(&corners), Role::Sum, part);
    }
    sheet.keep_clear(tail, tip, 6.0 * k, false);
}

/// Draws an arrow in pencil: where something would go.
pub(crate) fn pencil(sheet: &mut Sheet, tail: P, tip: P, along: P, part: &'static str) {
    let k = sheet.scene.k;
    let head = Local::back_from(tip, unit(sub(tip, tail), along), k);
    if length(sub(tip, tail)) > k {
        sheet.scene.line(tail, head.at(1.0, 0.0), Role::Pencil, part);
    }
    head.open(&mut sheet.scene, &OPEN, Role::PencilSolid, part);
    sheet.keep_clear(tail, tip, 6.0 * k, false);
}
