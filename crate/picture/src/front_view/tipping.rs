//! A frame that tips to a side: where it stood in ink, the way it goes in pencil.

use super::frame::Frame;
use super::{Draft, FrontViewInput};
use crate::drawing::local::{Local, Place, table};
use crate::drawing::vec2::{P, along, length, sub};
use crate::{Edge, Lettering, Path, Role, Row, Seat, Tone};
use outlean_rig::Tip;
use outlean_rigfile::DEG;

/// The open head of the curved arrow: back from its tip, aside; px at k = 1.
const HEAD: [Place; 3] = table([(10.0, 5.0), (0.0, 0.0), (10.0, -5.0)]);

/// Draws three positions along the fall, as far as it has gone, and a curved arrow along it.
pub(super) fn fall(draft: &mut Draft, input: &FrontViewInput<'_>, frame: &Frame, tip: Tip, progress: f64) {
    let stage = draft.stage;
    let k = stage.k;
    let progress = if progress.is_finite() { progress.clamp(0.0, 1.0) } else { 1.0 };
    // Over the foot that stays.
    let (pivot, lifted, side) = match tip {
        Tip::Left => (frame.feet.left, frame.feet.right, -1.0),
        _ => (frame.feet.right, frame.feet.left, 1.0),
    };
    let turned = |at: P, turn: f64| {
        let from = sub(at, pivot);
        let (sine, cosine) = (libm::sin(turn), libm::cos(turn));
        (pivot.0 + from.0 * cosine - from.1 * sine, pivot.1 + from.0 * sine + from.1 * cosine)
    };
    // As far as the plate has room, and no farther than onto the ground.
    let mut turn = 66.0 * DEG;
    let inside = stage.inside().grown(-6.0 * k);
    for _ in 0..27 {
        let head = turned(frame.head, side * turn);
        if head.0 < inside.left || head.0 > inside.right || head.1 > pivot.1 - 10.0 * k {
            turn -= 2.0 * DEG;
        }
    }
    let turn = side * turn;
    let mut turns = Vec::new();
    for third in [1.0, 2.0, 3.0] {
        let share = third / 3.0;
        if share <= progress + 1e-9 {
            turns.push(turn * share);
        }
    }
    if progress < 1.0 && progress > 0.0 {
        turns.push(turn * progress);
    }
    for each in turns {
        let (head, foot) = (turned(frame.head, each), turned(lifted, each));
        draft.sheet.scene.part_path(Path::through(&[pivot, head, foot]), Role::Strobe, "fall");
        draft.sheet.keep_clear(pivot, head, 2.0 * k, true);
        draft.sheet.keep_clear(head, foot, 2.0 * k, true);
    }
    let out = sub(frame.head, pivot);
    let (radius, from) = (0.8 * length(out), libm::atan2(out.0, -out.1));
    let (start, end) = (from + side * 3.0 * DEG, from + turn * progress - side * 2.0 * DEG);
    if (end - start) * side > 4.0 * DEG {
        let mut path = Path::new();
        path.arc(pivot, radius, start, end, true);
        draft.sheet.scene.part_path(path, Role::PencilThin, "fall");
        let way = (libm::cos(end) * side, libm::sin(end) * side);
        let at = (pivot.0 + radius * libm::sin(end), pivot.1 - radius * libm::cos(end));
        Local::back_from(at, way, k).open(&mut draft.sheet.scene, &HEAD, Role::PencilThin, "fall");
        draft.sheet.keep_clear(at, along(at, way, -12.0 * k), 6.0 * k, false);
    }
    let words = if side < 0.0 { "fall.left" } else { "fall.right" };
    let rows = Row::alone(input.of.voice().say(words), Lettering::Lead, Tone::Ink);
    let mut seats = Vec::new();
    for share in [1.0, 2.0 / 3.0, 1.0 / 3.0] {
        let at = turned(frame.head, turn * share);
        for across in [Edge::Middle, if side < 0.0 { Edge::Near } else { Edge::Far }, Edge::Far, Edge::Near] {
            seats.push(Seat::at((at.0, at.1 - 8.0 * k), across, Edge::Far));
        }
    }
    // The lowest seats: on either side of the frame as it stood.
    for x in [stage.inside().right, stage.inside().left] {
        let across = if x > stage.width / 2.0 { Edge::Far } else { Edge::Near };
        for y in [frame.head.1, (frame.head.1 + pivot.1) / 2.0] {
            seats.push(Seat::at((x, y), across, Edge::Middle));
        }
    }
    draft.sheet.label(("tips", 0), 1, rows, seats);
}
