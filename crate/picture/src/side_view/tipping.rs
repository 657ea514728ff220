//! A frame that tips: where it stood in ink, the way it goes in pencil.

use super::{Draft, SideViewInput};
use crate::drawing::local::{Local, Place, table};
use crate::{Edge, Lettering, Path, Role, Row, Seat, Tone};
use outlean_rig::Tip;
use outlean_rigfile::DEG;

/// Draws three positions along the fall, as far as it has gone, and a curved arrow along it.
pub(super) fn fall(draft: &mut Draft, input: &SideViewInput<'_>, tip: Tip, progress: f64) {
    let stage = draft.stage;
    let k = stage.k;
    let progress = if progress.is_finite() { progress.clamp(0.0, 1.0) } else { 1.0 };
    let from = input.of.solution.layout.lean;
    let turn = match tip {
        Tip::Forward => (100.0 * DEG - from).clamp(20.0 * DEG, 66.0 * DEG),
        Tip::Back => -(from + 80.0 * DEG).clamp(20.0 * DEG, 66.0 * DEG),
        Tip::Left | Tip::Right => return,
    };
    let gone = turn * progress;
    let mut leans = Vec::new();
    for third in [1.0, 2.0, 3.0] {
        let share = third / 3.0;
        if share <= progress + 1e-9 {
            leans.push(from + turn * share);
        }
    }
    if progress < 1.0 && progress > 0.0 {
        leans.push(from + gone);
    }
    let long = stage.tip * stage.view.scale;
    for lean in leans {
        let high = stage.on_arc(lean, long);
        draft.sheet.scene.line(stage.on_arc(lean, 0.06 * stage.view.scale), high, Role::Strobe, "fall");
        draft.sheet.keep_clear(stage.on_arc(lean, 0.0), high, 2.0 * k, true);
    }
    // The arrow runs along the fall between the positions.
    let radius = 0.66 * stage.tip * stage.view.scale;
    let way = turn.signum();
    let (start, end) = (from + way * 4.0 * DEG, from + gone - way * 3.0 * DEG);
    if (end - start) * way > 4.0 * DEG {
        let mut path = Path::new();
        path.arc(stage.view.origin, radius, start, end, true);
        draft.sheet.scene.part_path(path, Role::PencilThin, "fall");
        draft.sheet.keep_clear_along(&stage.along_arc(start, end, radius, 8), 3.0 * k, false);
        let along = (libm::cos(end) * way, libm::sin(end) * way);
        let head = Local::back_from(stage.on_arc(end, radius), along, k);
        head.open(&mut draft.sheet.scene, &HEAD, Role::PencilThin, "fall");
    }
    let words = if tip == Tip::Back { "fall.back" } else { "fall.forward" };
    let rows = Row::alone(input.of.voice().say(words), Lettering::Lead, Tone::Ink);
    let across = if way < 0.0 { Edge::Far } else { Edge::Near };
    // Over the ends of the pencil positions, the last first, else along the arrow.
    let mut seats = Vec::new();
    for share in [1.0, 2.0 / 3.0, 1.0 / 3.0] {
        let top = stage.on_arc(from + turn * share, long + 8.0 * k);
        seats.push(Seat::at(top, Edge::Middle, Edge::Far));
        seats.push(Seat::at(top, across, Edge::Far));
        seats.push(Seat::at(top, across, Edge::Middle));
    }
    for (share, r) in ALONG {
        let at = stage.on_arc(from + turn * share, r * radius);
        seats.push(Seat::at(at, Edge::Middle, Edge::Middle));
    }
    // Anywhere on the side to which it falls.
    for up in [0.2, 0.4, 0.6, 0.8, 1.0, 0.05] {
        for aside in [30.0, 70.0, 110.0, 160.0] {
            let at = (stage.view.origin.0 + way * aside * k, stage.view.origin.1 - up * long);
            seats.push(Seat::at(at, across, Edge::Middle));
        }
    }
    draft.sheet.label(("tips", 0), 0, rows, seats);
}

/// Seats along the arrow: share of the fall, and of the radius of the arrow.
const ALONG: [(f64, f64); 9] = [
    (0.5, 1.31),
    (0.83, 1.31),
    (0.5, 1.22),
    (0.83, 1.22),
    (0.85, 1.12),
    (0.5, 0.85),
    (0.8, 0.8),
    (0.5, 0.6),
    (0.3, 0.4),
];
/// The open head of the curved arrow: back from its tip, aside; px at k = 1.
const HEAD: [Place; 3] = table([(10.0, 5.0), (0.0, 0.0), (10.0, -5.0)]);
