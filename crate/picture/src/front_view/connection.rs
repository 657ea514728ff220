//! What runs between the feet: a hobble or a ledger.

use super::frame::Frame;
use super::stage::Stage;
use super::{Draft, FrontViewInput};
use crate::drawing::frame::pole;
use crate::drawing::length::Length;
use crate::drawing::local::Local;
use crate::drawing::rope::{slack, working};
use crate::drawing::vec2::{P, along, between, left_of, length, sub, times, unit};
use crate::side_view::seats;
use crate::{Kind, Lettering, PROJECTOR, Path, Role, Row, Seat, Tone};
use outlean_rig::{Connection, Pair, Side};

/// Where it meets the legs, px.
fn ends(stage: &Stage, input: &FrontViewInput<'_>, frame: &Frame) -> Pair<P> {
    Pair::from_fn(|side| frame.above_foot(stage, side, input.of.rig.feet.connection_height))
}

/// Its middle, px.
pub(super) fn middle(stage: &Stage, input: &FrontViewInput<'_>, frame: &Frame) -> P {
    let Pair { left, right } = ends(stage, input, frame);
    between(left, right, 0.5)
}

/// The force in it, N, where it is known: pull positive.
fn force(input: &FrontViewInput<'_>) -> Option<f64> {
    input.of.solution.forces().map(|forces| forces.footing.connection)
}

/// Draws a hobble, behind the legs: straight where it works and where forces are held back, hanging where it does not, a turn of
/// it round each leg.
pub(super) fn hobble(draft: &mut Draft, input: &FrontViewInput<'_>, frame: &Frame) {
    if input.of.rig.feet.connection != Connection::Hobble {
        return;
    }
    let stage = draft.stage;
    let Pair { left, right } = ends(&stage, input, frame);
    if !input.show.forces || force(input).is_some_and(|force| force > 0.0) {
        working(&mut draft.sheet, left, right, "hobble");
        return;
    }
    let sag = (length(sub(right, left)) / 14.0).max(4.0 * stage.k);
    let mut curve = Vec::new();
    for i in 0..=12 {
        let t = f64::from(i) / 12.0;
        let at = between(left, right, t);
        let low = at.1 + 4.0 * sag * t * (1.0 - t);
        curve.push((at.0, low.min(stage.ground_px(at.0) - 1.5 * stage.k).max(at.1.min(low))));
    }
    slack(&mut draft.sheet, &curve, "hobble");
    if force(input).is_some() {
        let text = input.of.words.fill("slack", &[("part", input.of.words.say("hobble"))]);
        let rows = Row::alone(text, Lettering::Note, Tone::Quiet);
        let seats = seats::along(&curve, false, stage.k);
        draft.sheet.label(("connection", 0), 21, rows, seats);
    }
}

/// Draws a ledger over the legs with its lashings, or the turns of a hobble round them.
pub(super) fn ledger(draft: &mut Draft, input: &FrontViewInput<'_>, frame: &Frame) {
    let stage = draft.stage;
    let k = stage.k;
    let ends = ends(&stage, input, frame);
    let connection = input.of.rig.feet.connection;
    if connection == Connection::None {
        return;
    }
    let way = unit(sub(ends.right, ends.left), (1.0, 0.0));
    if connection == Connection::Ledger {
        let past = (0.22 * stage.view.scale).max(9.0 * k);
        let (butt, tip) = (along(ends.left, way, -past), along(ends.right, way, past));
        let wide = (0.08 * stage.view.scale).max(4.0 * k);
        pole(&mut draft.sheet.scene, butt, tip, (wide, wide), "ledger");
        draft.sheet.keep_clear(butt, tip, wide / 2.0, true);
    }
    for side in Side::BOTH {
        let local = Local::onward(*ends.on(side), *frame.way.on(side), 1.0);
        let across = frame.widths.0 / 2.0 + 1.0 * k;
        let mut turns = Path::new();
        if connection == Connection::Ledger {
            // A square lashing: a small block, its turns crossing.
            let block = [(-across, -across), (across, -across), (across, across), (-across, across)];
            let block = block.map(|(along, aside)| local.at(along, aside));
            draft.sheet.scene.part_path(Path::polygon(&block), Role::Wrap, "lashing");
            for off in [-0.35, 0.35] {
                turns.add_line(local.at(-across, off * across), local.at(across, off * across));
                turns.add_line(local.at(off * across, -across), local.at(off * across, across));
            }
            draft.sheet.scene.part_path(turns, Role::Turn, "lashing");
        } else {
            for off in [-1.3, 1.3] {
                turns.add_line(local.at(off * k, -across), local.at(off * k, across));
            }
            draft.sheet.scene.part_path(turns, Role::Cord, "hobble");
        }
    }
    if !input.show.ground_forces && connection == Connection::Ledger {
        let rows = Row::alone(input.of.voice().say("ledger"), Lettering::Note, Tone::Quiet);
        let seats = seats_on(&stage, ends, way);
        draft.sheet.label(("connection", 0), 21, rows, seats);
    }
}

fn seats_on(stage: &Stage, ends: Pair<P>, way: P) -> Vec<Seat> {
    let up = left_of(way);
    let mut seats = Vec::new();
    for far in [10.0, 26.0, 44.0] {
        for share in [0.5, 0.62, 0.38] {
            seats.push(Seat::beside(between(ends.left, ends.right, share), up, far * stage.k));
        }
    }
    // Beyond the right leg, with a leader, and beyond the left one.
    for far in [22.0, 40.0, 64.0] {
        for (at, side) in [(ends.right, 1.0), (ends.left, -1.0)] {
            for down in [0.0, -16.0, -34.0] {
                let place = (at.0 + side * far * stage.k, at.1 + down * stage.k);
                let inner = along(at, way, -side * 12.0 * stage.k);
                seats.push(Seat::beside(place, (side, 0.0), 0.0).led_to(inner));
            }
        }
    }
    seats
}

/// The forces in it: a rope pulls each leg to the other, a pole pulls or pushes.
pub(super) fn forces(draft: &mut Draft, input: &FrontViewInput<'_>, frame: &Frame) {
    let stage = draft.stage;
    let k = stage.k;
    let connection = input.of.rig.feet.connection;
    let (kind, name) = match connection {
        Connection::None => return,
        Connection::Hobble => (Kind::Pull, "hobble"),
        Connection::Ledger => (Kind::Push, "ledger"),
    };
    let Some(newtons) = force(input).filter(|newtons| newtons.abs() > 1e-6 && k < PROJECTOR) else { return };
    let ends = ends(&stage, input, frame);
    let way = unit(sub(ends.right, ends.left), (1.0, 0.0));
    let from = frame.widths.0 / 2.0 + 2.0 * k;
    let room = length(sub(ends.right, ends.left)) / 2.0 - from - 2.0 * k;
    if room < 12.0 * k {
        return;
    }
    for (at, inward) in [(ends.left, way), (ends.right, times(way, -1.0))] {
        let full = newtons.abs() * draft.px_per_newton;
        let near = along(at, inward, from);
        // A push ends at the leg, a pull begins there.
        let (tail, way) = if newtons > 0.0 {
            (near, inward)
        } else {
            (along(near, inward, full.min(room)), times(inward, -1.0))
        };
        Length { kind, tail, way, full, room, part: name }.draw(&mut draft.sheet);
    }
    let voice = input.of.voice();
    let mut rows = voice.force(voice.say(name), newtons.abs(), kind);
    if newtons < 0.0 || connection == Connection::Ledger {
        let key = if newtons < 0.0 { "ledger.pushes" } else { "ledger.pulls" };
        rows.push(Row::new(voice.say(key), Lettering::Note, Tone::Quiet));
    }
    let seats = seats_on(&stage, ends, way);
    draft.sheet.label(("connection", 1), 10, rows, seats);
}
