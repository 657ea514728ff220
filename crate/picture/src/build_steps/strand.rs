//! Rope as thick as it is: a strip with two edges and the slant of its lay, laid over what was drawn before.

use crate::drawing::vec2::{P, along, between, left_of, length, sub, times, unit};
use crate::{Path, Role, Scene};

/// A smooth line through these places: Catmull and Rom's curve, in short pieces.
pub(super) fn smooth(places: &[P]) -> Vec<P> {
    const PIECES: u32 = 7;
    let mut line = Vec::new();
    for (i, pair) in places.windows(2).enumerate() {
        let [b, c] = *pair else { continue };
        let a = i.checked_sub(1).and_then(|i| places.get(i)).copied().unwrap_or(b);
        let d = places.get(i + 2).copied().unwrap_or(c);
        for piece in 0..PIECES {
            let t = f64::from(piece) / f64::from(PIECES);
            let at = |a: f64, b: f64, c: f64, d: f64| {
                0.5 * (2.0 * b
                    + (c - a) * t
                    + (2.0 * a - 5.0 * b + 4.0 * c - d) * t * t
                    + (3.0 * b - a - 3.0 * c + d) * t * t * t)
            };
            line.push((at(a.0, b.0, c.0, d.0), at(a.1, b.1, c.1, d.1)));
        }
    }
    line.extend(places.last());
    line
}

/// The edge of a line, `off` px to its left.
fn edge(line: &[P], off: f64) -> Vec<P> {
    let mut edge = Vec::with_capacity(line.len());
    for i in 0..line.len() {
        let (Some(here), Some(before), Some(after)) =
            (line.get(i), line.get(i.saturating_sub(1)), line.get((i + 1).min(line.len() - 1)))
        else {
            continue;
        };
        edge.push(along(*here, left_of(unit(sub(*after, *before), (1.0, 0.0))), off));
    }
    edge
}

/// Draws a rope `half` px to either side of a line, its ends round where it goes on out of sight.
pub(super) fn strand(scene: &mut Scene, line: &[P], half: f64, part: &'static str) {
    strip(scene, line, half, part);
    // The lay: short strokes that slant across it.
    let mut lay = Path::new();
    let (step, slant) = (2.3 * half, 0.9 * half);
    let mut due = step / 2.0;
    for pair in line.windows(2) {
        let [a, b] = *pair else { continue };
        let long = length(sub(b, a));
        while due <= long && long > 0.0 {
            let at = between(a, b, due / long);
            let way = unit(sub(b, a), (1.0, 0.0));
            let aside = times(left_of(way), 0.8 * half);
            let (back, on) = (along(at, way, -slant), along(at, way, slant));
            lay.add_line((back.0 + aside.0, back.1 + aside.1), (on.0 - aside.0, on.1 - aside.1));
            due += step;
        }
        due -= long;
    }
    scene.part_path(lay, Role::Turn, part);
}

/// Draws webbing `half` px to either side of a line: two edges and a stitched middle.
pub(super) fn webbing(scene: &mut Scene, line: &[P], half: f64, part: &'static str) {
    strip(scene, line, half, part);
    for off in [-0.55 * half, 0.55 * half] {
        scene.part_path(Path::through(&edge(line, off)), Role::Turn, part);
    }
}

fn strip(scene: &mut Scene, line: &[P], half: f64, part: &'static str) {
    let mut outline = edge(line, half);
    if let [.., before, last] = line {
        cap(&mut outline, *last, unit(sub(*last, *before), (1.0, 0.0)), half);
    }
    let mut other = edge(line, -half);
    other.reverse();
    outline.append(&mut other);
    if let [first, next, ..] = line {
        cap(&mut outline, *first, unit(sub(*first, *next), (1.0, 0.0)), half);
    }
    scene.part_path(Path::polygon(&outline), Role::Wrap, part);
}

/// Adds a round end: from the left of `way` to its right.
fn cap(outline: &mut Vec<P>, end: P, way: P, half: f64) {
    for share in [0.25, 0.5, 0.75] {
        let angle = core::f64::consts::PI * share;
        let (sine, cosine) = (libm::sin(angle) * half, libm::cos(angle) * half);
        let left = left_of(way);
        outline.push((
            end.0 + left.0 * cosine + way.0 * sine * 0.7,
            end.1 + left.1 * cosine + way.1 * sine * 0.7,
        ));
    }
}
