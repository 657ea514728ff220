//! The frame on the plate: two legs that cross at the head, butts below ground.

use super::stage::{Stage, beyond};
use super::{Draft, FrontViewInput};
use crate::drawing::frame::{leg_widths, pole};
use crate::drawing::rope::sleeve;
use crate::drawing::vec2::{P, add, length, sub, times, unit};
use outlean_rig::{Pair, Part, Side};

/// Where the frame is, px.
#[derive(Clone, Copy)]
pub(super) struct Frame {
    pub head: P,
    pub feet: Pair<P>,
    /// Unit steps from each foot up its leg.
    pub way: Pair<P>,
    /// From each foot to the head.
    pub long: Pair<f64>,
    /// What the view shows of each leg: 1 for a leg that lies in it.
    pub share: Pair<f64>,
    pub butts: Pair<P>,
    pub tips: Pair<P>,
    /// Midway between both legs.
    pub up: P,
    pub widths: (f64, f64),
}

impl Frame {
    pub(super) fn new(stage: &Stage, input: &FrontViewInput<'_>) -> Self {
        let (view, layout) = (stage.view, &input.of.solution.layout);
        let head = view.at(layout.head);
        let feet = Pair::from_fn(|side| view.at(*input.of.rig.feet.at.on(side)));
        let way = Pair::from_fn(|side| unit(sub(head, *feet.on(side)), (0.0, -1.0)));
        let long = Pair::from_fn(|side| length(sub(head, *feet.on(side))));
        let working = layout.working_length;
        let share = Pair::from_fn(|side| *long.on(side) / (*working.on(side) * view.scale).max(1e-6));
        let on = |side: Side, from: P, metres: f64| {
            add(from, times(*way.on(side), metres * *share.on(side) * view.scale))
        };
        Self {
            head,
            feet,
            way,
            long,
            share,
            butts: Pair::from_fn(|side| on(side, *feet.on(side), -0.1)),
            tips: Pair::from_fn(|side| on(side, head, beyond(input.of.rig.legs.on(side).lashing_below_tip))),
            up: unit(add(way.left, way.right), (0.0, -1.0)),
            widths: leg_widths(view.scale, stage.k),
        }
    }

    /// The place on a leg `up` m above its foot, at the least and at the most so far that it can be seen, px.
    pub(super) fn above_foot(&self, stage: &Stage, side: Side, up: f64) -> P {
        let (foot, way) = (*self.feet.on(side), *self.way.on(side));
        let rise = (-way.1).max(0.05);
        let along = ((up * stage.view.scale).max(5.0 * stage.k) / rise).min(0.9 * *self.long.on(side));
        add(foot, times(way, along))
    }
}

/// Draws the legs, the left one over the right one.
pub(super) fn legs(draft: &mut Draft, input: &FrontViewInput<'_>, frame: &Frame) {
    let k = draft.stage.k;
    let half = frame.widths.0 / 2.0;
    for side in [Side::Right, Side::Left] {
        let (butt, tip) = (*frame.butts.on(side), *frame.tips.on(side));
        if input.of.is_over(Part::Leg(side)) {
            sleeve(&mut draft.sheet.scene, butt, frame.head, half + 6.0 * k, "leg");
        }
        pole(&mut draft.sheet.scene, butt, tip, frame.widths, "leg");
        draft.sheet.keep_clear(butt, tip, half, true);
    }
}
