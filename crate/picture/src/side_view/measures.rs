//! The two lever arms, on one line below the ground: setback and reach.

use super::{Draft, SideViewInput};
use crate::drawing::rope::broken;
use crate::{Edge, Label, Lettering, Obstacle, Path, Role, Row, Seat, Tone};
use outlean_rig::{Dimension, Station};
use outlean_rigfile::show;

/// The height of the dimension line below the feet, px.
fn level(draft: &Draft) -> f64 {
    let stage = draft.stage;
    stage.foot.1 + (0.42 * stage.scale).max(23.0 * stage.k)
}

/// The setback of the first rigged aft guy.
pub(super) fn setback(draft: &mut Draft, input: &SideViewInput<'_>) {
    let layout = &input.solution.layout;
    let aft = |anchor| Station::of(anchor, layout) == Station::Aft;
    let Some(guy) = input.rig.guys.iter().find(|guy| guy.rigged && aft(guy.anchor)) else { return };
    let back = layout.setback(guy.anchor);
    let text = show(back, Dimension::Length, input.units).to_string();
    let text = input.words.fill("setback", &[("length", &text)]);
    let from = draft.stage.foot.0 - back * draft.stage.scale;
    dimension(draft, from, draft.stage.foot.0, text, ("setback", 0), true);
}

/// The reach of the head.
pub(super) fn reach(draft: &mut Draft, input: &SideViewInput<'_>) {
    let reach = input.solution.layout.reach();
    let text = show(reach, Dimension::Length, input.units).to_string();
    let text = input.words.fill("reach", &[("length", &text)]);
    let to = draft.stage.foot.0 + reach * draft.stage.scale;
    dimension(draft, draft.stage.foot.0, to, text, ("reach", 0), false);
}

/// A dimension line between two places, its text in the line where it fits, else at its right end.
fn dimension(draft: &mut Draft, a: f64, b: f64, text: String, key: crate::LabelKey, aft: bool) {
    let (stage, y) = (draft.stage, level(draft));
    let k = stage.k;
    let (from, to) = (a.min(b), a.max(b));
    let beyond = from < 2.0 * k;
    let start = if beyond { 0.0 } else { from };
    if to - start < 1.0 {
        return;
    }
    let row = Row::new(text, Lettering::Name, Tone::Ink);
    let wide = row.width(k);
    // In the line where there is room for it, clear of the face of the drop.
    let clear = if aft { 28.0 * k } else { 2.0 * (0.52 * stage.scale + 10.0 * k) };
    let fits = to - start > wide + clear;
    let mut path = Path::new();
    for (at, shown) in [(from, !beyond), (to, true)] {
        if shown {
            path.add_line((at, y - 6.0 * k), (at, y + 6.0 * k));
        }
    }
    let middle = (start + to) / 2.0;
    let gap = if fits { wide / 2.0 + 6.0 * k } else { 0.0 };
    path.add_line((start, y), (to, y));
    let room = (to - start) / 2.0;
    for (at, way, shown) in [(from, 1.0, !beyond), (to, -1.0, true)] {
        let head = (8.0 * k).min(0.8 * room);
        if shown {
            path.add_through([(at + way * head, y - 2.6 * k), (at, y), (at + way * head, y + 2.6 * k)]);
        }
    }
    draft.scene.part_path(path, Role::Dimension, key.0);
    if beyond {
        broken(&mut draft.scene, (2.0 * k, y), (-1.0, 0.0));
    }
    let line = |from: f64, to: f64| Obstacle { from: (from, y), to: (to, y), half: 2.0 * k, soft: true };
    if fits {
        draft.obstacles.extend([line(start, middle - gap - 3.0 * k), line(middle + gap + 3.0 * k, to)]);
    } else {
        draft.obstacles.push(line(start, to));
    }
    let seat = |at, across, upright| Seat { at, across, upright, leader: None };
    let mut seats = Vec::new();
    if fits {
        seats.push(seat((middle, y), Edge::Middle, Edge::Middle));
    }
    seats.extend([
        seat((to + 9.0 * k, y), Edge::Near, Edge::Middle),
        seat((middle, y + 8.0 * k), Edge::Middle, Edge::Near),
        seat((to, y + 8.0 * k), Edge::Far, Edge::Near),
        seat((start.max(4.0 * k), y + 8.0 * k), Edge::Near, Edge::Near),
        seat((to + 9.0 * k, y + 12.0 * k), Edge::Near, Edge::Middle),
        seat((to + 9.0 * k, y - 12.0 * k), Edge::Near, Edge::Middle),
    ]);
    draft.labels.push(Label { key, rows: vec![row], seats, rank: 15, timid: false, in_line: fits });
}
