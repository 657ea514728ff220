//! Ropes: straight if they work, hollow and hanging if they do not.

use super::local::{Local, Place, table};
use super::sheet::Sheet;
use super::vec2::{P, add, between, left_of, length, sub, times, unit};
use crate::{Area, Path, Role, Scene};

/// How far above the ground a rope is tied to its picket, m.
pub(crate) const TIED: f64 = 0.04;

/// Draws a working rope: dead straight, with lay marks.
#[inline(never)]
pub(crate) fn working(sheet: &mut Sheet, from: P, to: P, part: &'static str) {
    sheet.scene.line(from, to, Role::Rope, part);
    sheet.scene.line(from, to, Role::Lay, part);
    sheet.keep_clear(from, to, 2.0 * sheet.scene.k, true);
}

/// Draws a slack rope through points: hollow.
pub(crate) fn slack(sheet: &mut Sheet, points: &[P], part: &'static str) {
    sheet.scene.part_path(Path::through(points), Role::SlackRope, part);
    sheet.scene.part_path(Path::through(points), Role::Core, part);
    sheet.keep_clear_along(points, 2.0 * sheet.scene.k, true);
}

/// Draws the sleeve of a rope or leg past its allowable, `half` px on either side. Goes under it.
pub(crate) fn sleeve(scene: &mut Scene, from: P, to: P, half: f64, part: &'static str) {
    let aside = times(left_of(unit(sub(to, from), (1.0, 0.0))), half);
    let corners = [add(from, aside), add(to, aside), sub(to, aside), sub(from, aside)];
    scene.part_path(Path::polygon(&corners), Role::Sleeve, part);
}

/// How a slack rope of `rope` metres hangs from `from` to `to` (metres, y up): at least 1/14 of the chord below
/// it at mid-span, and never below `floor`, on which it lies.
pub(crate) fn hang(from: P, to: P, rope: f64, floor: impl Fn(f64) -> f64) -> Vec<P> {
    const PIECES: u32 = 28;
    let chord = length(sub(to, from));
    // A shallow parabola is longer than its chord by 8/3 of sag² over chord.
    let spare = (rope - chord).max(0.0);
    let sag = libm::sqrt(0.375 * spare * chord).max(chord / 14.0);
    let mut curve = Vec::new();
    for i in 0..=PIECES {
        let t = f64::from(i) / f64::from(PIECES);
        let (x, y) = between(from, to, t);
        curve.push((x, (y - 4.0 * sag * t * (1.0 - t)).max(floor(x))));
    }
    curve
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

/// The paper in a broken line, and the strokes on its edges: back from where it ends, aside; px at k = 1. They
/// lean, as a draughtsman breaks a line.
const PAPER: [Place; 4] = table([(15.1, -6.0), (10.9, 6.0), (6.9, 6.0), (11.1, -6.0)]);
const EDGES: [Place; 4] = table([(15.1, -6.0), (10.9, 6.0), (11.1, -6.0), (6.9, 6.0)]);

/// Draws the mark of a line that goes on beyond the plate: two strokes across it with paper between, a little
/// short of `end`.
pub(crate) fn broken(scene: &mut Scene, end: P, way: P) {
    let local = Local::back_from(end, way, scene.k);
    local.closed(scene, &PAPER, Role::Break, "");
    local.strokes(scene, &EDGES, Role::Leader, "");
}

/// The open tip of a line.
const TIP: [Place; 3] = table([(9.0, 4.5), (0.0, 0.0), (9.0, -4.5)]);

/// Draws the open tip of a line that leads away to where it is hauled.
pub(crate) fn leads_away(scene: &mut Scene, end: P, way: P, part: &'static str) {
    Local::back_from(end, way, scene.k).open(scene, &TIP, Role::Cord, part);
}
