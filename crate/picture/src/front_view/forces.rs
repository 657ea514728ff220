//! Forces of the legs and of the ground: each arrow lies on its part.

use super::frame::Frame;
use super::guys::margin;
use super::{Draft, FrontViewInput};
use crate::drawing::frame::lashing_half;
use crate::drawing::length::Length;
use crate::drawing::vec2::{along, between, times};
use crate::naming::part_name;
use crate::side_view::seats::{On, of_arrow};
use crate::{Kind, Lettering, PROJECTOR, Row, Tone};
use outlean_rig::{Dimension, Part, Side};

/// Which side of the way up a leg is the outer one, and the number of its label.
const fn outer(side: Side) -> (f64, u8) {
    match side {
        Side::Left => (1.0, 0),
        Side::Right => (-1.0, 1),
    }
}

/// The compression of each leg.
pub(super) fn legs(draft: &mut Draft, input: &FrontViewInput<'_>, frame: &Frame) {
    let stage = draft.stage;
    let k = stage.k;
    let Some(forces) = input.of.solution.forces() else {
        leg_names(draft, input, frame);
        return;
    };
    let below = (0.3 * stage.view.scale).max(lashing_half(stage.view.scale, k) + 6.0 * k);
    for side in Side::BOTH {
        let (way, newtons) = (*frame.way.on(side), *forces.compression.on(side));
        let full = newtons.abs() * frame.share.on(side) * draft.px_per_newton;
        let room = *frame.long.on(side) - below - 6.0 * k;
        let top = along(frame.head, way, -below);
        // A leg that pulls on a foot held down pulls the head down: its tail is then at the head.
        let (tail, way) = if newtons >= 0.0 {
            (along(top, way, -full.min(room.max(12.0 * k))), way)
        } else {
            (top, times(way, -1.0))
        };
        let ends = Length { kind: Kind::Push, tail, way, full, room, part: "leg" }.draw(&mut draft.sheet);
        let (open, number) = outer(side);
        let name = part_name(input.of.words, input.of.rig, &input.of.solution.layout, Part::Leg(side));
        let mut rows = input.of.voice().force(name, newtons.abs(), Kind::Push);
        if newtons < 0.0 {
            rows.push(Row::new(input.of.voice().say("leg.pulls"), Lettering::Note, Tone::Quiet));
        }
        let past = input.of.is_over(Part::Leg(side));
        if let (true, Some(first)) = (past, rows.first_mut()) {
            first.past = true;
        }
        let (open, free) = if newtons >= 0.0 { (open, 0.0) } else { (-open, 1.0) };
        let on = On { half: frame.widths.0 / 2.0, goes_on: true };
        let seats = of_arrow(ends, open, free, on, &margin(&stage, frame), k);
        draft.sheet.label(("leg", number), if past { 3 } else { 5 }, rows, seats);
    }
}

/// The names of the legs, where their forces are not shown.
pub(super) fn leg_names(draft: &mut Draft, input: &FrontViewInput<'_>, frame: &Frame) {
    let stage = draft.stage;
    for side in Side::BOTH {
        let name = part_name(input.of.words, input.of.rig, &input.of.solution.layout, Part::Leg(side));
        let rows = Row::alone(name, Lettering::Name, Tone::Ink);
        let (open, number) = outer(side);
        let (foot, head) = (*frame.feet.on(side), frame.head);
        let on = On { half: frame.widths.0 / 2.0, goes_on: true };
        let stretch = (between(foot, head, 0.35), between(foot, head, 0.75));
        let seats = of_arrow(stretch, open, 0.0, on, &margin(&stage, frame), stage.k);
        draft.sheet.label(("leg", number), 5, rows, seats);
    }
}

/// What the ground gives to each foot, and how hard the foot wants to the side.
pub(super) fn ground(draft: &mut Draft, input: &FrontViewInput<'_>, frame: &Frame) {
    let Some(forces) = input.of.solution.forces() else { return };
    let stage = draft.stage;
    let k = stage.k;
    if k >= PROJECTOR {
        return;
    }
    for side in Side::BOTH {
        let given = forces.footing.ground(side, &input.of.solution.layout);
        let (way, size) = stage.view.way_of(given, (0.0, -1.0));
        if size <= 0.0 {
            continue;
        }
        let (open, number) = outer(side);
        let foot = along(*frame.butts.on(side), *frame.way.on(side), -4.0 * k);
        // The arrow points at the foot from below; ground that holds a foot down pulls it from above its sign.
        let down = way.1 > 0.0;
        let room = (stage.lowest() + stage.room_below - foot.1).max(0.0) / way.1.abs().max(0.2);
        let full = size * draft.px_per_newton;
        let tail = if down { foot } else { along(foot, way, -full.min(room.max(12.0 * k))) };
        let ends =
            Length { kind: Kind::Ground, tail, way, full, room, part: "ground" }.draw(&mut draft.sheet);
        let key = if side == Side::Left { "ground.foot.left" } else { "ground.foot.right" };
        let voice = input.of.voice();
        let mut rows = voice.force(voice.say(key), given.size(), Kind::Ground);
        // The ground holds against what the foot does.
        let outward = open * stage.view.flat_force(given).0;
        // What is nil within rounding is not said, and on a small plate there is no room for it.
        if outward.abs() > 2e-3 * size && k >= 1.0 {
            let key = if outward >= 0.0 { "foot.outward" } else { "foot.inward" };
            let text = voice.fill(key, "force", outward.abs(), Dimension::Force);
            rows.push(Row::new(text, Lettering::Note, Tone::Quiet));
        }
        let on = On { half: 2.0, goes_on: false };
        let open = if down { -open } else { open };
        let seats = of_arrow(ends, open, if down { 1.0 } else { 0.0 }, on, &margin(&stage, frame), k);
        draft.sheet.label(("ground", number), 9, rows, seats);
    }
}
