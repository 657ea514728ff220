//! What stays as it is: ground, edge, holdfasts, someone for scale.

use super::stage::{EDGE, Stage};
use super::{Draft, SideViewInput};
use crate::Obstacle;
use crate::drawing::ground::{ground, picket};
use crate::drawing::person::{STANDING, person};
use crate::drawing::rope::sleeve;
use crate::drawing::vec2::P;
use outlean_rig::{Part, Path as LinePath, Point};

/// The face of the drop, from the edge down: metres ahead of the edge, metres below it.
const FACE: [P; 10] = [
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
];

/// Draws the ground, the drop and the holdfasts.
pub(super) fn scenery(draft: &mut Draft, input: &SideViewInput<'_>) {
    let stage = draft.stage;
    let line = profile(&stage);
    ground(&mut draft.scene, &line, -1.0, "ground");
    let half = 2.0 * stage.k;
    for (from, to) in line.iter().zip(line.iter().skip(1)) {
        draft.obstacles.push(Obstacle { from: *from, to: *to, half, soft: true });
    }
    for (number, guy) in (0_u8..).zip(&input.rig.guys).filter(|(_, guy)| guy.rigged) {
        let over = input.over.contains(&Part::GuyHoldfast(number));
        holdfast(draft, guy.anchor, over);
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
        person(&mut draft.scene, stage.p((x, 0.0)), &STANDING, 1.0, stage.scale);
        let (low, high) = (stage.p((x, 0.1)), stage.p((x, 1.6)));
        draft.obstacles.push(Obstacle { from: low, to: high, half: 0.2 * stage.scale, soft: true });
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
        if down >= deep {
            line.push((EDGE + ahead, down));
            last = (EDGE + ahead, down);
        } else {
            line.push((last.0, deep));
            break;
        }
    }
    line.into_iter().map(|at| stage.p(at)).collect()
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
        sleeve(&mut draft.scene, from, to, (0.2 * stage.scale).max(9.0 * stage.k), "holdfast");
    }
    picket(&mut draft.scene, place, away, stage.scale, "holdfast");
    let top = (place.0 + away * 0.12 * stage.scale, place.1 - 0.45 * stage.scale);
    draft.obstacles.push(Obstacle { from: place, to: top, half: 4.0 * stage.k, soft: true });
}

/// Ground beyond the drop, with a face of its own.
fn far_side(draft: &mut Draft, x: f64, z: f64) {
    let stage = draft.stage;
    let right = (stage.width - stage.foot.0) / stage.scale;
    let rim = x - 0.5;
    let line = [(rim + 0.03, z - 1.1), (rim - 0.04, z - 0.6), (rim, z - 0.08), (rim + 0.08, z), (right, z)];
    let line: Vec<P> = line.into_iter().map(|at| stage.p(at)).collect();
    ground(&mut draft.scene, &line, 1.0, "far side");
    for (from, to) in line.iter().zip(line.iter().skip(1)) {
        draft.obstacles.push(Obstacle { from: *from, to: *to, half: 2.0 * stage.k, soft: true });
    }
}
