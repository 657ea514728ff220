//! Ropes: straight if they work, hollow and hanging if they do not.

use super::vec2::{P, add, between, left_of, length, sub, times, unit};
use crate::{Area, Obstacle, Path, Role, Scene};

/// Draws a working rope: dead straight, with lay marks.
pub(crate) fn working(scene: &mut Scene, from: P, to: P, part: &'static str) -> Vec<Obstacle> {
    scene.part_path(Path::line(from, to), Role::Rope, part);
    scene.part_path(Path::line(from, to), Role::Lay, part);
    vec![Obstacle { from, to, half: 2.0 * scene.k, soft: true }]
}

/// Draws a slack rope through points: hollow.
pub(crate) fn slack(scene: &mut Scene, points: &[P], part: &'static str) -> Vec<Obstacle> {
    let path = Path::through(points.iter().copied());
    scene.part_path(path.clone(), Role::SlackRope, part);
    scene.part_path(path, Role::Core, part);
    let half = 2.0 * scene.k;
    points
        .iter()
        .zip(points.iter().skip(1))
        .map(|(from, to)| Obstacle { from: *from, to: *to, half, soft: true })
        .collect()
}

/// Draws the sleeve of a rope or leg past its allowable, `half` px on either side. Goes under it.
pub(crate) fn sleeve(scene: &mut Scene, from: P, to: P, half: f64, part: &'static str) {
    let aside = times(left_of(unit(sub(to, from), (1.0, 0.0))), half);
    let corners = [add(from, aside), add(to, aside), sub(to, aside), sub(from, aside)];
    scene.part_path(Path::polygon(corners), Role::Sleeve, part);
}

/// How a slack rope of `rope` metres hangs from `from` to `to` (metres, y up): at least 1/14 of the chord below
/// it at mid-span, and never below `floor`, on which it lies.
pub(crate) fn hang(from: P, to: P, rope: f64, floor: impl Fn(f64) -> f64) -> Vec<P> {
    const PIECES: u32 = 28;
    let chord = length(sub(to, from));
    // A shallow parabola is longer than its chord by 8/3 of sag² over chord.
    let spare = (rope - chord).max(0.0);
    let sag = libm::sqrt(0.375 * spare * chord).max(chord / 14.0);
    (0..=PIECES)
        .map(|i| {
            let t = f64::from(i) / f64::from(PIECES);
            let (x, y) = between(from, to, t);
            (x, (y - 4.0 * sag * t * (1.0 - t)).max(floor(x)))
        })
        .collect()
}

/// The part of a line from `from` that lies in `plate`, and whether it is cut. `from` should lie inside.
pub(crate) fn cut(from: P, to: P, plate: Area) -> (P, bool) {
    let way = sub(to, from);
    let mut share = 1.0_f64;
    for (at, step, least, most) in
        [(from.0, way.0, plate.left, plate.right), (from.1, way.1, plate.top, plate.bottom)]
    {
        if step > 1e-9 {
            share = share.min((most - at) / step);
        } else if step < -1e-9 {
            share = share.min((least - at) / step);
        }
    }
    let share = share.clamp(0.0, 1.0);
    (between(from, to, share), share < 1.0)
}

/// Draws the mark of a line that goes on beyond the plate: two strokes across it with paper between, a little
/// short of `end`.
pub(crate) fn broken(scene: &mut Scene, end: P, way: P) {
    let k = scene.k;
    let at = |back: f64, aside: f64| {
        // Leaning strokes, as a draughtsman breaks a line.
        let lean = aside * 0.35;
        add(sub(end, times(way, (back - lean) * k)), times(left_of(way), aside * k))
    };
    let patch = Path::polygon([at(13.0, -6.0), at(13.0, 6.0), at(9.0, 6.0), at(9.0, -6.0)]);
    scene.path(patch, Role::Break);
    let mut strokes = Path::line(at(13.0, -6.0), at(13.0, 6.0));
    strokes.add_line(at(9.0, -6.0), at(9.0, 6.0));
    scene.path(strokes, Role::Leader);
}

/// Draws the open tip of a line that leads away to where it is hauled.
pub(crate) fn leads_away(scene: &mut Scene, end: P, way: P, part: &'static str) {
    let k = scene.k;
    let at = |back: f64, aside: f64| add(sub(end, times(way, back * k)), times(left_of(way), aside * k));
    scene.part_path(Path::through([at(9.0, 4.5), end, at(9.0, -4.5)]), Role::Cord, part);
}
