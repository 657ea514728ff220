//! What hangs on a line and where, the tag line that draws it, and what keeps its rope off the edge.

use super::stage::Stage;
use super::{Draft, Frame, SideViewInput, seats};
use crate::drawing::hanging::{LITTER, Reach, WEIGHT};
use crate::drawing::rope::{cut, leads_away};
use crate::drawing::vec2::{P, add, between, sub, times, unit};
use crate::{Area, LabelKey, Lettering, Path, Role, Row, Tone};
use outlean_rig::Stage as LoadStage;

/// What hangs on a line.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Hangs {
    Nothing,
    Weight,
    Litter,
}

/// Where the load hangs and what it is: a litter with people where there is room for one and it meets no rope, no leg
/// and no ground; a frame that tips carries a weight, never people.
pub(super) fn hang(
    draft: &Draft,
    input: &SideViewInput<'_>,
    frame: &Frame,
    from: P,
    way: P,
    bears: bool,
) -> (P, Hangs) {
    let stage = &draft.stage;
    let stands = input.of.solution.tips().is_none();
    let people =
        stands && input.show.people && input.of.solution.layout.slant_height > 3.2 && stage.view.scale > 22.0;
    for (hangs, reach) in [(Hangs::Litter, LITTER), (Hangs::Weight, WEIGHT)] {
        if hangs == Hangs::Litter && !people {
            continue;
        }
        for up in [0.0, 0.5, 1.0, -0.5] {
            let ring = load_end(stage, input.of.solution.case.stage, from, way, reach, bears, up);
            let area = Area {
                left: ring.0 - reach.toward_face * stage.view.scale,
                top: ring.1,
                right: ring.0 + reach.outward * stage.view.scale,
                bottom: ring.1 + (reach.bridle + reach.below) * stage.view.scale,
            };
            // What hangs may touch.
            let area = area.grown(-6.0 * stage.k);
            let in_leg = hangs == Hangs::Litter && area.meets_line(stage.view.origin, frame.tip);
            if !in_leg && draft.sheet.cover(area, stage.plate()) == Some(0.0) {
                return (ring, hangs);
            }
        }
    }
    let ring = load_end(stage, input.of.solution.case.stage, from, way, WEIGHT, bears, 0.0);
    (ring, Hangs::Weight)
}

/// The ring of the load: below the edge where there is room beside the face, else above the ground, and so where it
/// is at the edge; `up` m higher.
fn load_end(stage: &Stage, doing: LoadStage, from: P, way: P, reach: Reach, bears: bool, up: f64) -> P {
    let (ahead, level) = stage.edge;
    let from_m = (
        (from.0 - stage.view.origin.0) / stage.view.scale,
        (stage.view.origin.1 - from.1) / stage.view.scale,
    );
    let low = level - 0.75;
    let clear = ahead + 0.13 + reach.toward_face;
    if bears {
        return stage.view.p((clear, low + up.min(0.0)));
    }
    let above = stage.ground(from_m.0).unwrap_or(level) + reach.bridle + reach.below + 0.12;
    // From touching the face to half a metre clear of it the load is let down past the edge.
    let share = ((from_m.0 - clear - 0.03) / 0.5).clamp(0.0, 1.0);
    let share = if doing == LoadStage::AtEdge { 0.0 } else { share * share * (3.0 - 2.0 * share) };
    let height = above + (low - above) * share + up;
    let height = height.min(from_m.1 - (14.0 * stage.k) / stage.view.scale);
    let down = way.1.max(0.3);
    let long = ((from_m.1 - height) * stage.view.scale / down).max(6.0 * stage.k);
    add(from, times(way, long))
}

/// A tag line from the load: outward, or in to the edge.
pub(super) fn tag_line(draft: &mut Draft, input: &SideViewInput<'_>, ring: P, reach: Reach, outward: bool) {
    let stage = draft.stage;
    let side = if outward { reach.outward * 0.6 } else { -reach.toward_face };
    let from = add(ring, (side * stage.view.scale, (reach.bridle + 0.15) * stage.view.scale));
    let (ahead, level) = stage.edge;
    let to = if outward {
        add(from, (1.9 * stage.view.scale, 0.5 * stage.view.scale))
    } else {
        stage.view.p((ahead - 0.1, level + 0.06))
    };
    let (to, _) = cut(from, to, stage.inside());
    draft.sheet.scene.line(from, to, Role::Cord, "tag line");
    leads_away(&mut draft.sheet.scene, to, unit(sub(to, from), (1.0, 0.0)), "tag line");
    draft.sheet.keep_clear(from, to, 2.0 * stage.k, true);
    let text = input.of.voice().say("line.tag");
    name_along(draft, ("tag line", 0), text, &[from, to]);
}

/// What keeps a rope off the rock, over the edge.
pub(super) fn edge_protection(draft: &mut Draft, input: &SideViewInput<'_>) {
    // Two lines may bear on it.
    const KEY: LabelKey = ("edge protection", 0);
    if draft.sheet.labels.iter().any(|label| label.key == KEY) {
        return;
    }
    let stage = draft.stage;
    let (x, z) = stage.edge;
    let pad = stage.line(vec![
        (x - 0.26, z + 0.025),
        (x + 0.02, z + 0.025),
        (x + 0.1, z - 0.03),
        (x + 0.13, z - 0.3),
    ]);
    draft.sheet.scene.part_path(Path::through(&pad), Role::Rail, "edge protection");
    let text = input.of.voice().say("edge.protection");
    name_along(draft, KEY, text, &pad);
}

/// A name along a line, left out where there is no room.
pub(super) fn name_along(draft: &mut Draft, key: LabelKey, text: String, line: &[P]) {
    let mut points = Vec::new();
    for piece in line.windows(2) {
        if let [from, to] = piece {
            for share in [0.15, 0.4, 0.65, 0.9] {
                points.push(between(*from, *to, share));
            }
        }
    }
    let rows = Row::alone(text, Lettering::Note, Tone::Quiet);
    draft.sheet.label(key, 24, rows, seats::along(&points, true, draft.stage.k));
    draft.sheet.timid();
}
