//! What stays as it is: ground, edge, holdfasts, someone for scale.

use super::stage::{EDGE, Stage};
use super::{Draft, SideViewInput};
use crate::drawing::ground::{ground, picket};
use crate::drawing::local::{Place, table};
use crate::drawing::person::{STANDING, person};
use crate::drawing::rope::sleeve;
use crate::drawing::vec2::P;
use outlean_rig::{Part, Path as LinePath, Point};

/// The face of the drop, from the edge down: metres ahead of the edge, metres below it.
const FACE: [Place; 10] = table([
    (0.0, 0.0),
    (0.08, -0.04),
    (0.12, -0.2),
    (0.08, -0.62),
    (0.0, -1.0),
    (0.05, -1.45),
    (-0.01, -1.9),
    (0.04, -2.4),
    (0.0, -3.0),
    (0.05, -4.2),
]);

/// Draws the ground, the drop and the holdfasts.
pub(super) fn scenery(draft: &mut Draft, input: &SideViewInput<'_>) {
    let stage = draft.stage;
    let line = profile(&stage);
    ground(&mut draft.sheet.scene, &line, -1.0, "ground");
    draft.sheet.keep_clear_along(&line, 2.0 * stage.k, true);
    for (number, guy) in (0_u8..).zip(&input.rig.guys) {
        if guy.rigged {
            holdfast(draft, guy.anchor, input.is_over(Part::GuyHoldfast(number)));
        }
    }
    if let LinePath::StraightBack { to } | LinePath::TackleAtHead { to, .. } = input.rig.line.path {
        holdfast(draft, to, false);
    }
}

/// Someone for scale, in front of the ropes, unless the frame `tips`.
pub(super) fn onlooker(draft: &mut Draft, input: &SideViewInput<'_>, tips: bool) {
    let stage = draft.stage;
    // Under the fall of a frame stands nobody; on a small plate a person is clutter.
    if input.show.people && !tips && stage.scale > 40.0 * stage.k.min(1.0) {
        let x = -0.48 * input.solution.layout.slant_height;
        person(&mut draft.sheet.scene, stage.p((x, 0.0)), &STANDING, 1.0, stage.scale);
        let (low, high) = (stage.p((x, 0.1)), stage.p((x, 1.6)));
        draft.sheet.keep_clear(low, high, 0.2 * stage.scale, true);
    }
}

/// The line of the ground, over the edge and down the face, px.
fn profile(stage: &Stage) -> Vec<P> {
    let left = -stage.foot.0 / stage.scale;
    // Ground is never quite level: a centimetre or two, and none at the feet.
    let mut line: Vec<P> = Vec::new();
    let mut x = left;
    let mut n = 0.0;
    while x < -0.6 && line.len() < 60 {
        let far = ((-x - 0.6) / 2.0).min(1.0);
        line.push((x, 0.014 * far * libm::sin(2.3 * n + 0.7)));
        n += 1.0;
        x += 1.15;
    }
    line.push((-0.6, 0.0));
    let bottom = -(stage.height - stage.foot.1) / stage.scale - 0.1;
    let deep = bottom.max(-(stage.depth + 0.05));
    let mut last = (0.0, 0.0);
    for (ahead, down) in FACE {
        let (ahead, down) = (f64::from(ahead) / 1000.0, f64::from(down) / 1000.0);
        if down >= deep {
            line.push((EDGE + ahead, down));
            last = (EDGE + ahead, down);
        } else {
            line.push((last.0, deep));
            break;
        }
    }
    stage.line(line)
}

/// A picket where a rope is tied to the ground, and ground under it where it stands beyond the drop.
fn holdfast(draft: &mut Draft, at: Point, over: bool) {
    let stage = draft.stage;
    let (x, z) = stage.flat(at);
    let place = stage.p((x, z));
    let plate = stage.plate().grown(-6.0 * stage.k);
    if place.0 < plate.left || place.0 > plate.right || place.1 < plate.top || place.1 > plate.bottom {
        return;
    }
    if x > EDGE + 0.2 {
        far_side(draft, x, z);
    }
    let away = if x < 0.0 { -1.0 } else { 1.0 };
    if over {
        // Along the picket, which leans away from the pull.
        let from = (place.0 + away * 0.15 * stage.scale, place.1 - 0.56 * stage.scale);
        let to = (place.0 - away * 0.22 * stage.scale, place.1 + 0.82 * stage.scale);
        sleeve(&mut draft.sheet.scene, from, to, (0.2 * stage.scale).max(9.0 * stage.k), "holdfast");
    }
    picket(&mut draft.sheet.scene, place, away, stage.scale, "holdfast");
    let top = (place.0 + away * 0.12 * stage.scale, place.1 - 0.45 * stage.scale);
    draft.sheet.keep_clear(place, top, 4.0 * stage.k, true);
}

/// Ground beyond the drop, with a face of its own.
fn far_side(draft: &mut Draft, x: f64, z: f64) {
    let stage = draft.stage;
    let right = (stage.width - stage.foot.0) / stage.scale;
    let rim = x - 0.5;
    let line =
        vec![(rim + 0.03, z - 1.1), (rim - 0.04, z - 0.6), (rim, z - 0.08), (rim + 0.08, z), (right, z)];
    let line = stage.line(line);
    ground(&mut draft.sheet.scene, &line, 1.0, "far side");
    draft.sheet.keep_clear_along(&line, 2.0 * stage.k, true);
}
