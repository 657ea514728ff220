//! How large the polygon is drawn, and where: so that all of it fits at any lean of the working range, and nothing is
//! rescaled or moved while the frame moves within it.

use super::acting::{Acting, acting};
use crate::Area;
use crate::drawing::vec2::P;
use crate::force_scale::sampled;
use outlean_rig::{Rig, Solution, WorkingRange};
use outlean_rigfile::DEG;

/// Leans farther out than this are not looked at until the frame is there, rad: few frames lean so far, and forces
/// there dwarf all others.
const FARTHEST: f64 = 35.0 * DEG;

/// Pixels drawn for a newton where nothing asks for another scale.
const USUAL: f64 = 0.024;

/// What polygons take up from where they start, N: y down.
#[derive(Clone, Copy)]
struct Extent(Area);

impl Extent {
    fn take(&mut self, forces: &[Acting]) {
        let (mut x, mut y) = (0.0_f64, 0.0_f64);
        for force in forces {
            x += force.forward;
            y -= force.up;
            let Area { left, top, right, bottom } = self.0;
            self.0 = Area { left: left.min(x), top: top.min(y), right: right.max(x), bottom: bottom.max(y) };
        }
    }

    fn size(self) -> P {
        (self.0.right - self.0.left, self.0.bottom - self.0.top)
    }
}

/// Pixels to a newton and where the polygon starts, px, so that it lies in `room`.
///
/// The scale is `wanted`, that of the figure beside it, or the usual one, halved until what acts now and anywhere in
/// the working range up to 35 degrees fits, and doubled while it would take up less than two fifths of the room.
pub(super) fn fit(
    rig: &Rig,
    range: &WorkingRange,
    solution: &Solution,
    room: Area,
    wanted: Option<f64>,
) -> (f64, P) {
    let mut extent = Extent(Area { left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 });
    sampled(rig, range, FARTHEST, &mut |solution| extent.take(&acting(rig, solution)));
    extent.take(&acting(rig, solution));
    let (wide, high) = extent.size();
    let (across, down) = ((room.right - room.left).max(10.0), (room.bottom - room.top).max(10.0));
    let mut scale = wanted.filter(|wanted| wanted.is_finite() && *wanted > 0.0).unwrap_or(USUAL);
    let taken = |scale: f64| (wide * scale / across).max(high * scale / down);
    if wide.max(high) > 0.0 && wide.is_finite() && high.is_finite() {
        for _ in 0..60 {
            if taken(scale) > 1.0 {
                scale /= 2.0;
            } else if taken(scale) < 0.4 {
                scale *= 2.0;
            } else {
                break;
            }
        }
    }
    let middle = |from: f64, to: f64| (from + to) / 2.0;
    let Area { left, top, right, bottom } = extent.0;
    let start = (
        middle(room.left, room.right) - middle(left, right) * scale,
        middle(room.top, room.bottom) - middle(top, bottom) * scale,
    );
    (scale, start)
}
