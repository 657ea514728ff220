//! Ground and rock: a line with short strokes on the earth side.

use super::local::Local;
use super::vec2::{P, between, length, sub};
use crate::{Path, Role, Scene};

/// Draws ground along a line, with earth below it and to its left (`earth` −1) or right (1).
pub(crate) fn ground(scene: &mut Scene, line: &[P], earth: f64, part: &'static str) {
    const LENGTHS: [f64; 3] = [1.0, 0.62, 0.82];
    let (reach, step) = (11.0 * scene.k, 7.0 * scene.k);
    let mut strokes = Path::new();
    let mut due = step;
    let mut lengths = LENGTHS.iter().cycle();
    for piece in line.windows(2) {
        let [a, b] = piece else { continue };
        let long = length(sub(*b, *a));
        if !(long > 0.0 && long < 1e5) {
            continue;
        }
        while due <= long {
            let at = between(*a, *b, due / long);
            let stroke = reach * lengths.next().unwrap_or(&1.0) * core::f64::consts::FRAC_1_SQRT_2;
            strokes.add_line(at, (at.0 + earth * stroke, at.1 + stroke));
            due += step;
        }
        due -= long;
    }
    scene.part_path(strokes, Role::GroundStroke, part);
    scene.part_path(Path::through(line), Role::GroundLine, part);
}

/// Draws a picket driven in at `at`, its top leaning along `lean` (−1 to the left, 1 to the right), `scale` px
/// to a metre.
pub(crate) fn picket(scene: &mut Scene, at: P, lean: f64, scale: f64, part: &'static str) {
    // 1.4 m long, 0.45 m of it out of the ground, 15 degrees away from the pull.
    const UP: f64 = 0.45;
    const DOWN: f64 = 0.95;
    let (across, up) = (0.2588 * lean, 0.9659);
    let (up_px, half) = ((UP * scale).max(13.0 * scene.k), (0.0375 * scale).max(2.0 * scene.k));
    let local = Local { origin: at, along: (across, -up), aside: (up, across), scale: 1.0 };
    scene.line(local.at(0.0, 0.0), local.at(-DOWN * scale, 0.0), Role::Hidden, part);
    let foot = -0.02 * scale;
    let (low, high) = (local.at(foot, -half), local.at(up_px, -half));
    let body = Path::polygon(&[low, high, local.at(up_px, half), local.at(foot, half)]);
    scene.part_path(body, Role::Timber, part);
}
