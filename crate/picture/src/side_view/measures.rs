//! The two lever arms, on one line below the ground: setback and reach.

use super::{Draft, SideViewInput};
use crate::drawing::rope::broken;
use crate::{Edge, Lettering, Path, Role, Row, Seat, Tone};
use outlean_rig::{Dimension, Station};

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
    let text = input.fill("setback", "length", back, Dimension::Length);
    let from = draft.stage.foot.0 - back * draft.stage.scale;
    dimension(draft, from, draft.stage.foot.0, text, ("setback", 0), true);
}

/// The reach of the head.
pub(super) fn reach(draft: &mut Draft, input: &SideViewInput<'_>) {
    let reach = input.solution.layout.reach();
    let text = input.fill("reach", "length", reach, Dimension::Length);
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
    let middle = (start + to) / 2.0;
    let gap = if fits { wide / 2.0 + 6.0 * k } else { 0.0 };
    let head = (8.0 * k).min(0.8 * ((to - start) / 2.0));
    let ends = [(from, head, !beyond), (to, -head, true)];
    let mut path = Path::new();
    for (at, _, shown) in ends {
        if shown {
            path.add_line((at, y - 6.0 * k), (at, y + 6.0 * k));
        }
    }
    path.add_line((start, y), (to, y));
    for (at, head, shown) in ends {
        if shown {
            path.add_through(&[(at + head, y - 2.6 * k), (at, y), (at + head, y + 2.6 * k)]);
        }
    }
    let sheet = &mut draft.sheet;
    sheet.scene.part_path(path, Role::Dimension, key.0);
    if beyond {
        broken(&mut sheet.scene, (2.0 * k, y), (-1.0, 0.0));
    }
    let mut seats = Vec::new();
    if fits {
        sheet.keep_clear((start, y), (middle - gap - 3.0 * k, y), 2.0 * k, true);
        sheet.keep_clear((middle + gap + 3.0 * k, y), (to, y), 2.0 * k, true);
        seats.push(Seat::at((middle, y), Edge::Middle, Edge::Middle));
    } else {
        sheet.keep_clear((start, y), (to, y), 2.0 * k, true);
    }
    for (x, down, across, upright) in [
        (to + 9.0 * k, 0.0, Edge::Near, Edge::Middle),
        (middle, 8.0, Edge::Middle, Edge::Near),
        (to, 8.0, Edge::Far, Edge::Near),
        (start.max(4.0 * k), 8.0, Edge::Near, Edge::Near),
        (to + 9.0 * k, 12.0, Edge::Near, Edge::Middle),
        (to + 9.0 * k, -12.0, Edge::Near, Edge::Middle),
    ] {
        seats.push(Seat::at((x, y + down * k), across, upright));
    }
    sheet.label(key, 15, vec![row], seats);
    if let Some(label) = sheet.labels.last_mut() {
        label.in_line = fits;
    }
}
