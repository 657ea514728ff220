//! Guys: straight where they work, hanging where they do not, cut where they leave the plate.

use super::stage::Stage;
use super::{Draft, Frame, SideViewInput, seats};
use crate::drawing::rope::{TIED, broken, cut, hang, slack, sleeve, working};
use crate::drawing::vec2::{P, along, between, length, sub, unit};
use crate::naming::{guy_name, guy_part};
use crate::{Area, Lettering, Row, Tone};
use outlean_rig::{Part, Point, Station};

/// Where a guy ends on the plate.
pub(super) struct End {
    /// The point, px.
    pub at: P,
    /// Whether the rope goes on beyond it.
    pub cut: bool,
}

/// Where the rope of a guy to `anchor` ends on the plate.
pub(super) fn end(stage: &Stage, frame: &Frame, anchor: Point) -> End {
    let (x, z) = stage.view.flat(anchor);
    let (at, cut) = cut(frame.head, stage.view.p((x, z + TIED)), stage.plate());
    End { at, cut }
}

/// Draws the sleeves of guys past what their rope may carry.
pub(super) fn sleeves(draft: &mut Draft, input: &SideViewInput<'_>, frame: &Frame) {
    let stage = draft.stage;
    for (number, guy) in (0_u8..).zip(&input.of.rig.guys) {
        // One that hangs is told by its name alone.
        let taut = input.of.is_taut(number, input.show.forces);
        if guy.rigged && taut && input.of.is_over(Part::GuyRope(number)) {
            let end = end(&stage, frame, guy.anchor);
            sleeve(&mut draft.sheet.scene, frame.head, end.at, 7.5 * stage.k, "guy");
        }
    }
}

/// Draws the guys.
pub(super) fn guys(draft: &mut Draft, input: &SideViewInput<'_>, frame: &Frame) {
    let stage = draft.stage;
    for (number, guy) in (0_u8..).zip(&input.of.rig.guys) {
        if !guy.rigged {
            continue;
        }
        let station = Station::of(guy.anchor, &input.of.solution.layout);
        let part = guy_part(station);
        let end = end(&stage, frame, guy.anchor);
        let way = unit(sub(end.at, frame.head), (-1.0, 0.0));
        if input.of.is_taut(number, input.show.forces) {
            working(&mut draft.sheet, frame.head, end.at, part);
            if end.cut {
                goes_on(draft, end.at, way);
            }
            // Where its force is drawn it is named there.
            if !input.show.forces {
                let rope = [frame.head, between(frame.head, end.at, 0.5), end.at];
                name(draft, input, number, station, &rope, false);
            }
            continue;
        }
        let head = (
            (frame.head.0 - stage.view.origin.0) / stage.view.scale,
            (stage.view.origin.1 - frame.head.1) / stage.view.scale,
        );
        let (x, z) = stage.view.flat(guy.anchor);
        // On the ground, and by its holdfast on the ground there.
        let floor = |at: f64| {
            let beside = ((at - x).abs() < 0.6).then_some(z);
            let under = match (stage.ground(at), beside) {
                (Some(ground), Some(z)) => Some(ground.min(z)),
                (ground, z) => ground.or(z),
            };
            under.map_or(f64::NEG_INFINITY, |under| under + TIED)
        };
        // Its sag is that of its whole length, splayed or not: a shallow parabola is longer by 8/3 sag² over chord.
        let chord = length(sub((x, z), head));
        let whole = input.of.solution.guy_length.get(usize::from(number)).copied().unwrap_or(chord);
        let rope = chord + whole * whole / (73.5 * chord.max(1e-6));
        let curve = stage.line(hang(head, (x, z + TIED), rope, floor));
        let (curve, is_cut) = clipped(&curve, stage.plate());
        slack(&mut draft.sheet, &curve, part);
        if let (true, [.., before, last]) = (is_cut, curve.as_slice()) {
            goes_on(draft, *last, unit(sub(*last, *before), way));
        }
        name(draft, input, number, station, &curve, true);
    }
}

/// The mark of a rope that goes on beyond the plate.
fn goes_on(draft: &mut Draft, end: P, way: P) {
    broken(&mut draft.sheet.scene, end, way);
    let middle = along(end, way, -11.0 * draft.stage.k);
    draft.sheet.keep_clear(middle, middle, 7.0 * draft.stage.k, false);
}

/// The name of a guy at its rope, and that it is slack.
fn name(
    draft: &mut Draft,
    input: &SideViewInput<'_>,
    number: u8,
    station: Station,
    curve: &[P],
    slack: bool,
) {
    let (_, may) = input.of.guy_said(number);
    let mut text = guy_name(input.of.words, input.of.rig, &input.of.solution.layout, number);
    if slack {
        text = input.of.words.fill("slack", &[("part", &text)]);
    }
    let mut rows = Row::alone(text, Lettering::Note, Tone::Quiet);
    input.of.mark_past(may, &mut rows);
    let seats = seats::along(curve, station != Station::Aft, draft.stage.k);
    if may.is_some() {
        draft.sheet.label(("slack guy", number), 5, rows, seats);
    } else {
        draft.sheet.label(("slack guy", number), 20, rows, seats);
        draft.sheet.timid();
    }
}

/// The part of a curve from its start to where it leaves the plate, and whether it leaves it.
fn clipped(curve: &[P], plate: Area) -> (Vec<P>, bool) {
    let mut inside: Vec<P> = Vec::with_capacity(curve.len());
    for at in curve {
        let out = at.0 < plate.left || at.0 > plate.right || at.1 < plate.top || at.1 > plate.bottom;
        match (out, inside.last().copied()) {
            (false, _) => inside.push(*at),
            (true, Some(last)) => {
                let (end, _) = cut(last, *at, plate);
                if length(sub(end, last)) > 0.1 {
                    inside.push(end);
                }
                return (inside, true);
            }
            (true, None) => return (inside, true),
        }
    }
    (inside, false)
}
