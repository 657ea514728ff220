//! The two lever arms, on one line below the ground: setback and reach.

use super::{Draft, SideViewInput};
use crate::drawing::pointer;
use crate::drawing::rope::broken;
use crate::drawing::vec2::P;
use crate::label_layout::COVER;
use crate::{Edge, Label, LabelKey, Lettering, Path, Role, Row, Seat, Tone};
use outlean_rig::{Dimension, Guy, Station};

/// The height of the dimension line below the feet, px.
fn level(draft: &Draft) -> f64 {
    let stage = draft.stage;
    stage.view.origin.1 + (0.42 * stage.view.scale).max(28.0 * stage.k)
}

/// The first rigged aft guy.
fn aft_guy<'a>(input: &SideViewInput<'a>) -> Option<&'a Guy> {
    let aft = |anchor| Station::of(anchor, &input.of.solution.layout) == Station::Aft;
    input.of.rig.guys.iter().find(|guy| guy.rigged && aft(guy.anchor))
}

/// The handle under the holdfast of the first rigged aft guy. Gives its middle; `None` where that guy leaves the plate.
pub(super) fn anchor(draft: &mut Draft, input: &SideViewInput<'_>) -> Option<P> {
    let stage = draft.stage;
    let (x, y) = stage.view.p(stage.view.flat(aft_guy(input)?.anchor));
    let room = (pointer::HALF + 6.0) * stage.k;
    if x < room || x > stage.width - room || y + (pointer::LENGTH + 6.0) * stage.k > stage.height {
        return None;
    }
    let tip = (x, y + 2.0 * stage.k);
    let middle = pointer::pointer(&mut draft.sheet.scene, tip, (0.0, -1.0), input.anchor?, "pointer");
    draft.sheet.keep_clear(
        tip,
        (tip.0, tip.1 + pointer::LENGTH * stage.k),
        (pointer::HALF + 6.0) * stage.k,
        false,
    );
    Some(middle)
}

/// The setback of the first rigged aft guy, and the reach of the head. To be drawn after all that they must keep
/// clear of.
pub(super) fn measures(draft: &mut Draft, input: &SideViewInput<'_>) {
    let layout = &input.of.solution.layout;
    let foot = draft.stage.view.origin.0;
    if let Some(guy) = aft_guy(input) {
        let back = layout.setback(guy.anchor);
        let text = input.of.voice().fill("setback", "length", back, Dimension::Length);
        dimension(draft, (foot - back * draft.stage.view.scale, foot), 0.0, text, ("setback", 0));
    }
    let reach = layout.reach();
    let to = foot + reach * draft.stage.view.scale;
    // A head behind the feet is measured on a line of its own.
    let lower = if reach < 0.0 { 24.0 * draft.stage.k } else { 0.0 };
    let text = input.of.voice().fill("reach", "length", reach, Dimension::Length);
    dimension(draft, (foot.min(to), foot.max(to)), lower, text, ("reach", 0));
}

/// A dimension line between two places, its text in the line where it fits, else past its right end or under it. One
/// whose text has no room is not drawn at all.
fn dimension(draft: &mut Draft, (from, to): (f64, f64), lower: f64, text: String, key: LabelKey) {
    let (stage, y) = (draft.stage, level(draft) + lower);
    let k = stage.k;
    let beyond = from < 2.0 * k;
    let start = if beyond { 0.0 } else { from };
    if to - start < 1.0 {
        return;
    }
    let rows = vec![Row::new(text, Lettering::Name, Tone::Ink)];
    let mut label = Label { key, rows, seats: Vec::new(), rank: 0, timid: false, in_line: false };
    let size = label.size(k);
    let half = size.0 / 2.0 + 6.0 * k;
    let mut best: Option<(f64, Seat, f64)> = None;
    let mut take = |seat: Seat, gap: f64| {
        let cost = draft.sheet.cover(seat.bounds(size), stage.inside());
        if let Some(cost) = cost.filter(|cost| *cost <= COVER * k * k)
            && best.as_ref().is_none_or(|(least, ..)| cost < *least)
        {
            best = Some((cost, seat, gap));
        }
    };
    for share in [0.5, 0.35, 0.65, 0.2, 0.8] {
        let middle = start + share * (to - start);
        if middle - half - 14.0 * k > start && middle + half + 14.0 * k < to {
            take(Seat::at((middle, y), Edge::Middle, Edge::Middle), middle);
        }
    }
    let under = y + 12.0 * k;
    take(Seat::at((to + 9.0 * k, y), Edge::Near, Edge::Middle), f64::INFINITY);
    take(Seat::at(((start + to) / 2.0, under), Edge::Middle, Edge::Near), f64::INFINITY);
    take(Seat::at((to, under), Edge::Far, Edge::Near), f64::INFINITY);
    take(Seat::at((start.max(26.0 * k), under), Edge::Near, Edge::Near), f64::INFINITY);
    let Some((_, seat, gap)) = best else { return };
    let room = 6.0 * k;
    if draft.sheet.taken().any(|other| other.grown(room).meets_line((start, y), (to, y))) {
        return;
    }
    label.seats.push(seat);
    let sheet = &mut draft.sheet;
    // It is seated first: it has this one place.
    sheet.labels.insert(0, label);

    let mut path = Path::new();
    let head = (8.0 * k).min(0.4 * (to - start));
    for (at, head, shown) in [(from, head, !beyond), (to, -head, true)] {
        if shown {
            path.add_line((at, y - 6.0 * k), (at, y + 6.0 * k));
            path.add_through(&[(at + head, y - 2.6 * k), (at, y), (at + head, y + 2.6 * k)]);
            sheet.keep_clear((at, y - 6.0 * k), (at, y + 6.0 * k), 0.5 * k, false);
        }
    }
    for (a, b) in [(start, to.min(gap - half)), ((gap + half).min(to), to)] {
        if b > a {
            path.add_line((a, y), (b, y));
            sheet.keep_clear((a, y), (b, y), k, false);
        }
    }
    sheet.scene.part_path(path, Role::Dimension, key.0);
    if beyond {
        broken(&mut sheet.scene, (2.0 * k, y), (-1.0, 0.0));
        sheet.keep_clear((9.0 * k, y), (17.0 * k, y), 6.0 * k, false);
    }
}
