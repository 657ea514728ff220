//! What stays as it is: ground, edge, holdfasts, someone for scale.

use super::stage::Stage;
use super::{Draft, SideViewInput};
use crate::drawing::ground::{ground, picket};
use crate::drawing::local::{Place, table};
use crate::drawing::person::{STANDING, person};
use crate::drawing::rope::sleeve;
use crate::drawing::vec2::P;
use crate::{Area, Edge, Lettering, Row, Seat, Tone};
use outlean_rig::{Part, Path as LinePath, Point, Side};

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

/// Draws the ground, the drop, the holdfasts, and ground under what stands off the line of the ground.
pub(super) fn scenery(draft: &mut Draft, input: &SideViewInput<'_>) {
    let stage = draft.stage;
    let line = profile(&stage);
    piece(draft, line, -1.0);
    for side in Side::BOTH {
        let (x, z) = stage.view.flat(*input.of.rig.feet.at.on(side));
        bench(draft, x, z, 0.4);
    }
    for (number, guy) in (0_u8..).zip(&input.of.rig.guys) {
        if guy.rigged {
            holdfast(draft, guy.anchor, input.of.is_over(Part::GuyHoldfast(number)));
        }
    }
    let second = input.of.rig.second.map(|second| second.line);
    for (line, part) in [(Some(input.of.rig.line), Part::HaulHoldfast), (second, Part::SecondHoldfast)] {
        if let Some(LinePath::StraightBack { to } | LinePath::TackleAtHead { to, .. }) =
            line.map(|line| line.path)
        {
            holdfast(draft, to, input.of.is_over(part));
        }
    }
    if input.of.rig.edge.is_some() {
        let at = stage.view.p(stage.edge);
        let clear = 0.14 * stage.view.scale + 8.0 * stage.k;
        let mut seats = Vec::new();
        for (x, y, across) in [(clear, 2.0, Edge::Near), (-8.0 * stage.k, 14.0, Edge::Far)] {
            for down in [0.0, 16.0, 34.0, -20.0, 52.0, -38.0] {
                let seat = Seat::at((at.0 + x, at.1 + (y + down) * stage.k), across, Edge::Near);
                seats.push(if down.abs() < 20.0 { seat } else { seat.led_to(at) });
            }
        }
        let rows = Row::alone(input.of.voice().say("edge"), Lettering::Note, Tone::Quiet);
        draft.sheet.label(("edge", 0), 26, rows, seats);
        draft.sheet.timid();
    }
}

/// Someone for scale, where they stand in no rope and no leg, unless the frame `tips`.
pub(super) fn onlooker(draft: &mut Draft, input: &SideViewInput<'_>, tips: bool) {
    let stage = draft.stage;
    // Under the fall of a frame stands nobody; on a small plate a person is clutter.
    if !input.show.people || tips || stage.view.scale <= 40.0 * stage.k.min(1.0) {
        return;
    }
    for share in [0.48, 0.36, 0.6, 0.72, 0.28, 0.85, 1.0] {
        let x = -share * input.of.solution.layout.slant_height;
        let Some(ground) = stage.ground(x) else { continue };
        let (left, top) = stage.view.p((x - 0.2, ground + 1.76));
        let (right, bottom) = stage.view.p((x + 0.32, ground + 0.14));
        if draft.sheet.cover(Area { left, top, right, bottom }, stage.plate()) == Some(0.0) {
            person(&mut draft.sheet.scene, stage.view.p((x, ground)), &STANDING, 1.0, stage.view.scale);
            let (low, high) = (stage.view.p((x, ground + 0.1)), stage.view.p((x, ground + 1.6)));
            draft.sheet.keep_clear(low, high, 0.2 * stage.view.scale, true);
            return;
        }
    }
}

/// Ground along a line, px.
fn piece(draft: &mut Draft, line: Vec<P>, earth: f64) {
    ground(&mut draft.sheet.scene, &line, earth, "ground");
    draft.sheet.keep_clear_along(&line, 2.0 * draft.stage.k, true);
}

/// A little ground under what stands above or below the line of the ground, `half` m either way.
fn bench(draft: &mut Draft, x: f64, z: f64, half: f64) {
    if draft.stage.ground(x).is_none_or(|ground| (ground - z).abs() > 0.1) {
        piece(draft, draft.stage.line(vec![(x - half, z), (x + half, z)]), -1.0);
    }
}

/// The line of the ground, over the edge and down the face, px.
fn profile(stage: &Stage) -> Vec<P> {
    let left = -stage.view.origin.0 / stage.view.scale;
    // Ground is never quite level: a centimetre or two, and none at the feet.
    let mut line: Vec<P> = Vec::new();
    let mut x = left;
    let mut n = 0.0;
    while x < stage.bends().min(-0.6) && line.len() < 60 {
        let far = ((-x - 0.6) / 2.0).min(1.0);
        line.push((x, 0.014 * far * libm::sin(2.3 * n + 0.7)));
        n += 1.0;
        x += 1.15;
    }
    line.push((stage.bends().min(-0.6), 0.0));
    line.push((stage.bends(), 0.0));
    let bottom = -(stage.height - stage.view.origin.1) / stage.view.scale - 0.1;
    let deep = bottom.max(stage.edge.1.min(0.0) - (stage.depth + 0.05));
    let mut last = stage.edge;
    for (ahead, down) in FACE {
        let (x, z) = (stage.edge.0 + f64::from(ahead) / 1000.0, stage.edge.1 + f64::from(down) / 1000.0);
        if z < deep {
            line.push((last.0, deep));
            break;
        }
        last = (x, z);
        line.push(last);
    }
    stage.line(line)
}

/// A picket where a rope is tied to the ground, and ground under it where it stands beyond the drop.
fn holdfast(draft: &mut Draft, at: Point, over: bool) {
    let stage = draft.stage;
    let (x, z) = stage.view.flat(at);
    let place = stage.view.p((x, z));
    let plate = stage.plate().grown(-6.0 * stage.k);
    if place.0 < plate.left || place.0 > plate.right || place.1 < plate.top || place.1 > plate.bottom {
        return;
    }
    if x > stage.edge.0 + 0.2 {
        far_side(draft, x, z);
    } else {
        bench(draft, x, z, 0.6);
    }
    let away = if x < 0.0 { -1.0 } else { 1.0 };
    if over {
        // Along the picket, which leans away from the pull.
        let from = (place.0 + away * 0.15 * stage.view.scale, place.1 - 0.56 * stage.view.scale);
        let to = (place.0 - away * 0.22 * stage.view.scale, place.1 + 0.82 * stage.view.scale);
        sleeve(&mut draft.sheet.scene, from, to, (0.2 * stage.view.scale).max(9.0 * stage.k), "holdfast");
    }
    picket(&mut draft.sheet.scene, place, away, stage.view.scale, "holdfast");
    let top = (place.0 + away * 0.12 * stage.view.scale, place.1 - 0.45 * stage.view.scale);
    draft.sheet.keep_clear(place, top, 4.0 * stage.k, true);
}

/// Ground beyond the drop, with a face of its own.
fn far_side(draft: &mut Draft, x: f64, z: f64) {
    let stage = draft.stage;
    let right = (stage.width - stage.view.origin.0) / stage.view.scale;
    let rim = x - 0.5;
    let line =
        vec![(rim + 0.03, z - 1.1), (rim - 0.04, z - 0.6), (rim, z - 0.08), (rim + 0.08, z), (right, z)];
    // Several ropes may end on the same ledge.
    let rim = stage.view.p((rim, z));
    if draft.sheet.cover(Area { left: rim.0, top: rim.1, right: rim.0, bottom: rim.1 }, stage.plate())
        == Some(0.0)
    {
        piece(draft, stage.line(line), 1.0);
    } else {
        bench(draft, x, z, 0.6);
    }
}
