//! The title, the spread of the feet, and the handle that sets it.

use super::frame::Frame;
use super::{Draft, FrontViewInput};
use crate::drawing::dimension::dimension;
use crate::drawing::pointer;
use crate::drawing::vec2::P;
use crate::{Edge, Lettering, PROJECTOR, Row, Seat, Tone};
use outlean_rig::Dimension;

/// From the ground to the tip of the handle, px at k = 1.
const OFF: f64 = 6.0;

/// Says from where it is seen.
pub(super) fn title(draft: &mut Draft, input: &FrontViewInput<'_>) {
    let stage = draft.stage;
    let (k, voice) = (stage.k, input.of.voice());
    let row = |key: &str| Row::new(voice.say(key), Lettering::Title, Tone::Ink);
    let rows = vec![row("front.title"), row("front.looking")];
    let (left, right) = (8.0 * k, stage.width - 8.0 * k);
    let seats = vec![
        Seat::at((left, 8.0 * k), Edge::Near, Edge::Near),
        Seat::at((right, 8.0 * k), Edge::Far, Edge::Near),
        Seat::at((left, stage.height - 8.0 * k), Edge::Near, Edge::Far),
    ];
    draft.sheet.label(("title", 0), 0, rows, seats);
}

/// The spread, below the feet.
pub(super) fn spread(draft: &mut Draft, input: &FrontViewInput<'_>) {
    let stage = draft.stage;
    let k = stage.k;
    if k >= PROJECTOR {
        return;
    }
    let text = input.of.voice().fill("spread", "length", input.of.solution.layout.spread, Dimension::Length);
    let (from, to) = (stage.view.p(stage.feet.left).0, stage.view.p(stage.feet.right).0);
    let y = stage.lowest() + stage.room_below + (OFF + 18.0) * k;
    dimension(&mut draft.sheet, (from, to), y, text, ("spread", 0));
}

/// The handle under the right foot, and under what the ground gives it where that is shown. Gives its middle.
pub(super) fn handle(draft: &mut Draft, input: &FrontViewInput<'_>, frame: &Frame) -> P {
    let k = draft.stage.k;
    let foot = frame.feet.right;
    let low =
        if draft.stage.room_below > 0.0 { draft.stage.lowest() + draft.stage.room_below } else { foot.1 };
    let tip = (foot.0, low + OFF * k);
    let middle = pointer::pointer(&mut draft.sheet.scene, tip, (0.0, -1.0), input.handle, "pointer");
    draft.sheet.keep_clear(tip, (tip.0, tip.1 + pointer::LENGTH * k), pointer::HALF * k, false);
    middle
}
