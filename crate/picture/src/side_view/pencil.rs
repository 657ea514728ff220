//! The learner's own arrow: dashed graphite beside its part, from the same joint.

use super::line::Run;
use super::seats::{Margin, On, of_arrow};
use super::{Draft, Frame, SideViewInput, guys};
use crate::drawing::arrow;
use crate::drawing::vec2::{P, add, left_of, sub, times, unit};
use crate::{Lettering, Row, Tone};
use outlean_rig::Dimension;

/// What a guessed force is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Carried {
    /// A leg, or both.
    Legs,
    /// A guy, counted from 0.
    Guy(u8),
    /// The haul line.
    HaulLine,
    /// The resultant on the head.
    Resultant,
}

/// A guess.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pencil {
    /// What it is of.
    pub of: Carried,
    /// How much, N.
    pub newtons: f64,
}

/// Where a pencil arrow is, px: a push grows down the leg from the head as it does in ink, so its handle is at its
/// tail end and `way` points from the joint to the handle.
#[derive(Clone, Copy)]
pub(super) struct Drawn {
    pub tail: P,
    pub tip: P,
    pub way: P,
}

/// Draws it; nothing where the rig has no such part.
pub(super) fn pencil(
    draft: &mut Draft,
    input: &SideViewInput<'_>,
    frame: &Frame,
    line: &Run,
    pencil: Pencil,
    px_per_newton: f64,
) -> Option<Drawn> {
    let stage = draft.stage;
    let k = stage.k;
    let beside = 15.0 * k;
    let (joint, way, side, push) = match pencil.of {
        Carried::Legs => {
            let off = beside + frame.widths.0 / 2.0;
            let joint =
                add(frame.on(&stage, frame.slant - 0.2 * stage.view.scale), times(left_of(frame.up), off));
            (joint, times(frame.up, -1.0), -1.0, true)
        }
        Carried::Guy(number) => {
            let guy = input.of.rig.guys.get(usize::from(number)).filter(|guy| guy.rigged)?;
            let way = unit(sub(guys::end(&stage, frame, guy.anchor).at, frame.head), (-1.0, 0.0));
            let up = if way.0 < 0.0 { -1.0 } else { 1.0 };
            let joint =
                add(add(frame.head, times(way, 0.16 * stage.view.scale)), times(left_of(way), up * beside));
            (joint, way, up, false)
        }
        Carried::HaulLine => {
            let (from, _) = line.haul?;
            let joint = add(from, times(left_of(line.haul_way), beside));
            (joint, line.haul_way, 1.0, false)
        }
        Carried::Resultant => {
            let (way, _) = stage.view.way_of(input.of.solution.resultant.force, (0.0, 1.0));
            (add(frame.head, times(left_of(way), -beside)), way, -1.0, false)
        }
    };
    let newtons = if pencil.newtons.is_finite() { pencil.newtons.max(0.0) } else { 0.0 };
    let long = (newtons * px_per_newton).max(0.0).min(0.92 * frame.slant);
    let end = add(joint, times(way, long));
    let (tail, tip) = if push { (end, joint) } else { (joint, end) };
    arrow::pencil(&mut draft.sheet, tail, tip, if push { times(way, -1.0) } else { way }, "pencil");
    let text = input.of.voice().fill("pencil", "force", newtons, Dimension::Force);
    let margin = Margin { left: frame.head.0 + 30.0 * k, top: frame.head.1, bottom: stage.view.origin.1 };
    // Seats are given for the way from tail to tip.
    let open = if push { 1.0 } else { side };
    let seats = of_arrow(
        (tail, tip),
        open,
        if push { 0.0 } else { 1.0 },
        On { half: 2.0, goes_on: false },
        &margin,
        k,
    );
    let rows = Row::alone(text, Lettering::Value, Tone::Pencil);
    draft.sheet.label(("pencil", 0), 1, rows, seats);
    Some(Drawn { tail: joint, tip: end, way })
}
