//! Guys: those that stand to a side are seen whole, an aft guy comes toward the reader and is cut off. A fore guy
//! behind the frame is hidden by it.

use super::frame::Frame;
use super::stage::Stage;
use super::toward::{Rope, Seen};
use super::{Draft, FrontViewInput};
use crate::drawing::frame::{lashing_half, pulley_radius};
use crate::drawing::ground::picket;
use crate::drawing::length::Length;
use crate::drawing::rope::{TIED, broken, hang, sleeve};
use crate::drawing::vec2::{P, between, length, sub};
use crate::naming::{guy_name, guy_part};
use crate::side_view::seats::{self, Margin, On, of_arrow};
use crate::{Kind, Lettering, PROJECTOR, Row, Tone};
use outlean_rig::{Part, Station};

/// A guy on the plate.
pub(super) struct Guy {
    number: u8,
    station: Station,
    rope: Rope,
    taut: bool,
    tension: f64,
    /// Whether it comes toward the reader, and so is drawn over the frame.
    near: bool,
}

/// The rigged guys that can be seen.
pub(super) fn guys(stage: &Stage, input: &FrontViewInput<'_>, frame: &Frame) -> Vec<Guy> {
    let layout = &input.of.solution.layout;
    let mut all = Vec::new();
    for (number, guy) in (0_u8..).zip(&input.of.rig.guys) {
        if !guy.rigged {
            continue;
        }
        let (x, _) = stage.view.flat(guy.anchor);
        let aside = x.abs() > stage.half + 0.25;
        let near = layout.setback(guy.anchor) >= layout.setback(layout.head);
        if !aside && !near {
            continue;
        }
        // A rope cut off ends over the pulley below the head.
        let drop = length(sub(stage.view.at(input.of.solution.line.pulley), frame.head));
        let clear = drop - pulley_radius(stage.view.scale, stage.k) - 3.0 * stage.k;
        let least = lashing_half(stage.view.scale, stage.k) + 7.0 * stage.k;
        let rope = Rope::new(
            stage,
            layout,
            (frame.head, layout.head),
            guy.anchor,
            aside,
            clear.min(0.4 * stage.view.scale).max(least),
        );
        let tension = input.of.guy_force(number).map_or(0.0, |force| force.tension);
        let taut = input.of.is_taut(number, input.show.forces);
        all.push(Guy { number, station: Station::of(guy.anchor, layout), rope, taut, tension, near });
    }
    all
}

/// Draws the guys that are near the reader, or those that are behind the frame, with their holdfasts.
pub(super) fn draw(draft: &mut Draft, input: &FrontViewInput<'_>, guys: &[Guy], near: bool) {
    for guy in guys.iter().filter(|guy| guy.near == near) {
        let rope = &guy.rope;
        let (k, part) = (draft.stage.k, guy_part(guy.station));
        if let Seen::Whole { cut: false, sunk: false } = rope.seen {
            holdfast(draft, rope.to, rope.way, input.of.is_over(Part::GuyHoldfast(guy.number)));
        }
        // One that hangs is told by its name alone.
        if guy.taut && input.of.is_over(Part::GuyRope(guy.number)) {
            sleeve(&mut draft.sheet.scene, rope.from, rope.to, 7.5 * k, part);
        }
        if guy.taut {
            rope.draw_taut(draft, part);
            if let Seen::Whole { cut: true, .. } = rope.seen {
                broken(&mut draft.sheet.scene, rope.to, rope.way);
            }
            if !input.show.forces {
                name(draft, input, guy, None);
            }
            continue;
        }
        let curve = slack_curve(&draft.stage, rope);
        rope.draw_slack(draft, &curve, part);
        name(draft, input, guy, Some(&curve));
    }
}

/// How a slack guy hangs, px.
fn slack_curve(stage: &Stage, rope: &Rope) -> Vec<P> {
    if matches!(rope.seen, Seen::Begins { .. }) {
        return vec![rope.from, between(rope.from, rope.to, 0.5), rope.to];
    }
    let metres = |at: P| {
        let from = sub(at, stage.view.origin);
        (from.0 / stage.view.scale, -from.1 / stage.view.scale)
    };
    let floor = |x: f64| stage.ground_at(x) + TIED;
    let curve = hang(metres(rope.from), metres(rope.to), 0.0, floor);
    curve.into_iter().map(|at| stage.view.p(at)).collect()
}

/// A picket where a rope is tied to the ground.
fn holdfast(draft: &mut Draft, at: P, way: P, over: bool) {
    let (scale, k) = (draft.stage.view.scale, draft.stage.k);
    let away = if way.0 < 0.0 { -1.0 } else { 1.0 };
    if over {
        let from = (at.0 + away * 0.15 * scale, at.1 - 0.56 * scale);
        let to = (at.0 - away * 0.22 * scale, at.1 + 0.82 * scale);
        sleeve(&mut draft.sheet.scene, from, to, (0.2 * scale).max(9.0 * k), "holdfast");
    }
    picket(&mut draft.sheet.scene, at, away, scale, "holdfast");
    draft.sheet.keep_clear(at, (at.0 + away * 0.12 * scale, at.1 - 0.45 * scale), 4.0 * k, true);
}

/// The name of a guy without its force: that it is slack, and whether it comes toward the reader.
fn name(draft: &mut Draft, input: &FrontViewInput<'_>, guy: &Guy, curve: Option<&[P]>) {
    let (_, may) = input.of.guy_said(guy.number);
    let mut text = guy_name(input.of.words, input.of.rig, &input.of.solution.layout, guy.number);
    if curve.is_some() {
        text = input.of.words.fill("slack", &[("part", &text)]);
    }
    if let Seen::Begins { toward } = guy.rope.seen {
        text = input.of.words.fill(if toward { "toward" } else { "away" }, &[("part", &text)]);
    }
    let mut rows = Row::alone(text, Lettering::Note, Tone::Quiet);
    input.of.mark_past(may, &mut rows);
    let seats = match (guy.rope.seen, curve) {
        (Seen::Whole { .. }, Some(curve)) => seats::along(curve, false, draft.stage.k),
        (Seen::Whole { .. }, None) => {
            let ends = [guy.rope.from, between(guy.rope.from, guy.rope.to, 0.5), guy.rope.to];
            seats::along(&ends, false, draft.stage.k)
        }
        (Seen::Begins { .. }, _) => guy.rope.seats(&draft.stage, 1.0),
    };
    draft.sheet.label(("slack guy", guy.number), if may.is_some() { 3 } else { 20 }, rows, seats);
}

/// The forces of the guys: an arrow on each that is seen whole, the number alone where it comes toward the reader.
pub(super) fn forces(draft: &mut Draft, input: &FrontViewInput<'_>, frame: &Frame, guys: &[Guy]) {
    let stage = draft.stage;
    let (k, voice) = (stage.k, input.of.voice());
    for guy in guys.iter().filter(|guy| guy.taut) {
        let (mut name, may) = input.of.guy_said(guy.number);
        if let Seen::Begins { toward } = guy.rope.seen {
            name = input.of.words.fill(if toward { "toward" } else { "away" }, &[("part", &name)]);
        }
        let mut rows = voice.force(name, guy.tension, Kind::Pull);
        input.of.mark_past(may, &mut rows);
        let seats = match guy.rope.seen {
            Seen::Begins { .. } if k >= PROJECTOR => continue,
            Seen::Begins { .. } => guy.rope.seats(&stage, 1.0),
            Seen::Whole { .. } => {
                let from = (0.2 * stage.view.scale).max(12.0 * k);
                let arrow = Length {
                    kind: Kind::Pull,
                    tail: crate::drawing::vec2::along(guy.rope.from, guy.rope.way, from),
                    way: guy.rope.way,
                    full: guy.tension * guy.rope.share * draft.px_per_newton,
                    room: length(sub(guy.rope.to, guy.rope.from)) - from - 12.0 * k,
                    part: "guy",
                };
                let ends = arrow.draw(&mut draft.sheet);
                let open = if guy.rope.way.0 < 0.0 { -1.0 } else { 1.0 };
                of_arrow(ends, open, 1.0, On { half: 0.0, goes_on: true }, &margin(&stage, frame), k)
            }
        };
        draft.sheet.label(("guy", guy.number), if may.is_some() { 3 } else { 6 }, rows, seats);
    }
}

/// The column right of the frame for labels that have no room at their arrows.
pub(super) fn margin(stage: &Stage, frame: &Frame) -> Margin {
    Margin {
        left: frame.feet.right.0.max(frame.head.0) + 16.0 * stage.k,
        top: frame.head.1,
        bottom: stage.lowest() - 20.0 * stage.k,
    }
}
