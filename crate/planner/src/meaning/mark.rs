//! Mark: what is measured, on a sketch: a dimension line with its value, an angle, a ring.

use super::Measure;
use super::sketch::{Sketch, Spot};
use outlean_picture::{Anchor, Face, Lettering, Path, Role, Tone, width};

/// How far a dimension line stands off what it measures, px at k = 1.
const OFF: f64 = 18.0;
/// Heads of a dimension line: their length and half their width, px at k = 1.
const HEAD: (f64, f64) = (9.0, 3.2);
/// From one end of a dimension line to the other there is room for its heads, px at k = 1.
const ROOM: f64 = 24.0;
/// Radius of the ring round a spot, px at k = 1.
const RING: f64 = 11.0;
/// Radius of the arc of an angle, px at k = 1.
const ARC: f64 = 64.0;

/// Room that a mark and its number take below what is measured, px.
pub fn below(k: f64) -> f64 {
    (OFF + 12.0) * k + size(k)
}

/// Marks what is measured by its value.
pub fn marked(sketch: &mut Sketch, measure: Measure, value: &str) {
    match measure {
        Measure::Tape(from, to) => tape(sketch, sketch.at(from), sketch.at(to), value),
        Measure::Spot(at) => ring(sketch, sketch.at(at), value),
        Measure::Angle(at, from, to) => {
            let centre = sketch.at(at);
            let [from, to] = [from, to].map(|way| {
                let end = sketch.at(at + way);
                libm::atan2(end.0 - centre.0, centre.1 - end.1)
            });
            angle(sketch, centre, (from, to), value);
        }
    }
}

fn tape(sketch: &mut Sketch, from: Spot, to: Spot, value: &str) {
    let k = sketch.scene.k;
    let (x, y) = (to.0 - from.0, to.1 - from.1);
    let length = libm::hypot(x, y);
    if length < 1.0 {
        return ring(sketch, from, value);
    }
    let along = (x / length, y / length);
    // Below what is level, to the right of what is upright.
    let upright = y.abs() > x.abs();
    let turned = (-along.1, along.0);
    let aside =
        if (if upright { turned.0 } else { turned.1 }) < 0.0 { (-turned.0, -turned.1) } else { turned };
    let off = |at: Spot, by: f64| (at.0 + aside.0 * by * k, at.1 + aside.1 * by * k);
    for at in [from, to] {
        sketch.scene.line(off(at, 3.0), off(at, OFF + 5.0), Role::Dimension, "measured");
    }
    let (start, end) = (off(from, OFF), off(to, OFF));
    let inside = length > ROOM * k;
    let mut path = Path::new();
    for (at, way) in [(start, 1.0), (end, -1.0)] {
        // Where there is no room between its ends, heads point at them from outside.
        let way = if inside { way } else { -way };
        let back = (at.0 + along.0 * way * HEAD.0 * k, at.1 + along.1 * way * HEAD.0 * k);
        let half = |side: f64| (back.0 + aside.0 * side * HEAD.1 * k, back.1 + aside.1 * side * HEAD.1 * k);
        path.add_through(&[half(1.0), at, half(-1.0)]);
        if !inside {
            path.add_line(
                at,
                (at.0 + along.0 * way * 2.0 * HEAD.0 * k, at.1 + along.1 * way * 2.0 * HEAD.0 * k),
            );
        }
    }
    if inside {
        path.add_line(start, end);
    }
    sketch.scene.part_path(path, Role::Bar, "measured");
    let middle = ((start.0 + end.0) / 2.0, (start.1 + end.1) / 2.0);
    let at = (middle.0 + aside.0 * 8.0 * k, middle.1 + aside.1 * 8.0 * k);
    // Capitals are seven tenths as high as their type.
    let high = 0.7 * size(k);
    if upright {
        number(sketch, (at.0, at.1 + 0.5 * high), Anchor::Start, value);
    } else {
        number(sketch, (at.0, at.1 + high), Anchor::Middle, value);
    }
}

fn ring(sketch: &mut Sketch, at: Spot, value: &str) {
    let k = sketch.scene.k;
    let mut path = Path::new();
    path.arc(at, RING * k, 0.0, core::f64::consts::TAU, true);
    sketch.scene.part_path(path, Role::Bar, "measured");
    number(sketch, (at.0 + (RING + 6.0) * k, at.1 + 0.35 * size(k)), Anchor::Start, value);
}

/// An angle between two directions, rad from straight up, clockwise.
fn angle(sketch: &mut Sketch, centre: Spot, (from, to): (f64, f64), value: &str) {
    use core::f64::consts::{PI, TAU};
    let k = sketch.scene.k;
    // The short way round.
    let mut turn = libm::fmod(to - from, TAU);
    if turn > PI {
        turn -= TAU;
    } else if turn < -PI {
        turn += TAU;
    }
    let at = |way: f64, far: f64| (centre.0 + libm::sin(way) * far * k, centre.1 - libm::cos(way) * far * k);
    sketch.scene.line(centre, at(from, ARC + 14.0), Role::Dimension, "measured");
    sketch.scene.line(centre, at(from + turn, ARC + 14.0), Role::Bar, "measured");
    let mut path = Path::new();
    path.arc(centre, ARC * k, from, from + turn, true);
    sketch.scene.part_path(path, Role::Bar, "measured");
    // Beside the direction that it is measured from, clear of the other.
    let (x, y) = at(from, ARC);
    let (off, anchor) = if at(from + turn, ARC).0 >= x { (-8.0, Anchor::End) } else { (8.0, Anchor::Start) };
    number(sketch, (x + off * k, y), anchor, value);
}

/// The size of a number's type, px.
fn size(k: f64) -> f64 {
    Lettering::Value.style(Tone::Ink, k).size
}

/// A number by its mark, all of it on the plate.
fn number(sketch: &mut Sketch, (x, y): Spot, anchor: Anchor, value: &str) {
    let k = sketch.scene.k;
    let high = size(k);
    let long = width(value, Face::Value, high);
    let before = match anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => long / 2.0,
        Anchor::End => long,
    };
    let edge = 4.0 * k;
    let most = (sketch.scene.width - edge - (long - before)).max(edge + before);
    let place = (x.max(edge + before).min(most), y.max(edge + high).min(sketch.scene.height - edge));
    sketch.scene.text(place, value.to_owned(), anchor, Role::Text(Lettering::Value, Tone::Ink));
}
