//! A frame that tips: where it stood in ink, the way it goes in pencil.

use super::{Draft, SideViewInput};
use crate::drawing::vec2::P;
use crate::{Edge, Label, Lettering, Obstacle, Path, Role, Row, Seat, Tone};
use outlean_rig::Tip;
use outlean_rigfile::DEG;

/// Draws three positions along the fall, as far as it has gone, and a curved arrow along it.
pub(super) fn fall(draft: &mut Draft, input: &SideViewInput<'_>, tip: Tip, progress: f64) {
    let stage = draft.stage;
    let k = stage.k;
    let progress = if progress.is_finite() { progress.clamp(0.0, 1.0) } else { 1.0 };
    let from = input.solution.layout.lean;
    let turn = match tip {
        Tip::Forward => (100.0 * DEG - from).clamp(20.0 * DEG, 66.0 * DEG),
        Tip::Back => -(from + 80.0 * DEG).clamp(20.0 * DEG, 66.0 * DEG),
        Tip::Left | Tip::Right => return,
    };
    let gone = turn * progress;
    let position = |draft: &mut Draft, lean: f64| {
        let line =
            Path::line(stage.on_arc(lean, 0.06 * stage.scale), stage.on_arc(lean, stage.tip * stage.scale));
        draft.scene.part_path(line, Role::Strobe, "fall");
        let (low, high) = (stage.on_arc(lean, 0.0), stage.on_arc(lean, stage.tip * stage.scale));
        draft.obstacles.push(Obstacle { from: low, to: high, half: 2.0 * k, soft: true });
    };
    for third in [1.0, 2.0, 3.0] {
        let share = third / 3.0;
        if share <= progress + 1e-9 {
            position(draft, from + turn * share);
        }
    }
    if progress < 1.0 && progress > 0.0 {
        position(draft, from + gone);
    }
    // The arrow runs along the fall between the positions.
    let radius = 0.66 * stage.tip * stage.scale;
    let way = turn.signum();
    let (start, end) = (from + way * 4.0 * DEG, from + gone - way * 3.0 * DEG);
    if (end - start) * way > 4.0 * DEG {
        let mut path = Path::new();
        path.arc(stage.foot, radius, start, end, true);
        draft.scene.part_path(path, Role::PencilThin, "fall");
        let at = |i: i32| stage.on_arc(start + (end - start) * f64::from(i) / 8.0, radius);
        for i in 0..8 {
            draft.obstacles.push(Obstacle { from: at(i), to: at(i + 1), half: 3.0 * k, soft: false });
        }
        arrow_head(draft, stage.on_arc(end, radius), end, way);
    }
    let words = if tip == Tip::Back { "fall.back" } else { "fall.forward" };
    let row = Row::new(input.words.say(words), Lettering::Lead, Tone::Ink);
    let across = if way < 0.0 { Edge::Far } else { Edge::Near };
    let seat = |at: P, across, upright| Seat { at, across, upright, leader: None };
    let top = |share: f64| stage.on_arc(from + turn * share, stage.tip * stage.scale + 8.0 * k);
    let on = |share: f64, r: f64| stage.on_arc(from + turn * share, r * radius);
    // Over the ends of the pencil positions, the last first, else along the arrow.
    let mut seats = Vec::new();
    for share in [1.0, 2.0 / 3.0, 1.0 / 3.0] {
        seats.push(seat(top(share), Edge::Middle, Edge::Far));
        seats.push(seat(top(share), across, Edge::Far));
        seats.push(seat(top(share), across, Edge::Middle));
    }
    let inner = [(0.85, 1.12), (0.5, 0.85), (0.8, 0.8), (0.5, 0.6), (0.3, 0.4)];
    for (share, r) in [(0.5, 1.31), (0.83, 1.31), (0.5, 1.22), (0.83, 1.22)].into_iter().chain(inner) {
        seats.push(seat(on(share, r), Edge::Middle, Edge::Middle));
    }
    draft.labels.push(Label {
        key: ("tips", 0),
        rows: vec![row],
        seats,
        rank: 0,
        timid: false,
        in_line: false,
    });
}

/// The open head of the curved arrow.
fn arrow_head(draft: &mut Draft, tip: P, lean: f64, way: f64) {
    let along = (libm::cos(lean) * way, libm::sin(lean) * way);
    let k = draft.stage.k;
    let left = (along.1, -along.0);
    let at = |back: f64, aside: f64| {
        (tip.0 - along.0 * back * k + left.0 * aside * k, tip.1 - along.1 * back * k + left.1 * aside * k)
    };
    draft.scene.part_path(Path::through([at(10.0, 5.0), tip, at(10.0, -5.0)]), Role::PencilThin, "fall");
}
