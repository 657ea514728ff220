//! A frame that tips: where it stood in ink, the way it goes in pencil.

use super::{Draft, SideViewInput};
use crate::drawing::vec2::P;
use crate::naming::tip_key;
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
        arrow_head(draft, stage.on_arc(end, radius), end, way);
    }
    let row = Row::new(input.words.say(tip_key(tip)), Lettering::Lead, Tone::Ink);
    let at = |lean: f64, share: f64| stage.on_arc(lean, share * radius);
    let across = if way < 0.0 { Edge::Far } else { Edge::Near };
    let seats =
        [(1.0, 1.12), (0.85, 1.12), (0.7, 1.12), (1.0, 0.85), (0.6, 0.8), (0.4, 1.1), (0.3, 0.7)].map(
            |(share, r)| Seat { at: at(from + turn * share, r), across, upright: Edge::Middle, leader: None },
        );
    draft.labels.push(Label {
        key: ("tips", 0),
        rows: vec![row],
        seats: seats.to_vec(),
        rank: 0,
        timid: false,
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
