//! The stage: how metres in the side view become pixels on the plate. It depends on the rig's own dimensions
//! and the plate, never on the lean, so that nothing is rescaled while the frame moves.

use crate::drawing::pointer;
use crate::drawing::projection::Projection;
use crate::drawing::vec2::P;
use crate::{Area, type_scale};
use outlean_rig::{Layout, Pair, Rig, WorkingRange};

/// Metres to pixels in the plane square to the foot line: x forward to the right, z up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Stage {
    pub width: f64,
    pub height: f64,
    pub k: f64,
    /// Where things stand: forward is to the right.
    pub view: Projection,
    /// Foot line to tip, m, in the view.
    pub tip: f64,
    /// Radius of the inner edge of the arc, px.
    pub arc: f64,
    /// The leans that the arc spans, rad.
    pub span: (f64, f64),
    /// How far below the ground anything is drawn, m.
    pub depth: f64,
    /// Where the edge is: ahead of the foot line and above it, m.
    pub edge: P,
}

/// How far ahead of the feet the edge is drawn, m, of a rig that does not say where it is. It is never named then.
const EDGE: f64 = 0.38;

impl Stage {
    pub(crate) fn new(
        rig: &Rig,
        layout: &Layout,
        range: &WorkingRange,
        (width, height, k): (f64, f64, f64),
        people: bool,
    ) -> Self {
        let slant = layout.slant_height;
        let working = (layout.working_length.left + layout.working_length.right) / 2.0;
        let beyond = |side: f64| if side > 0.05 { side } else { 0.3 };
        let Pair { left, right } = rig.legs;
        let beyond = beyond(left.lashing_below_tip).max(beyond(right.lashing_below_tip));
        let tip = slant * (1.0 + beyond / working);
        let span = lean_span(range);
        let depth = (if people { 2.65 } else { 2.0_f64 }).max(0.55 * slant);

        let lettering = type_scale(k);
        let over_arc = 26.0 * k + 34.0 * lettering;
        let over_tip = 20.0 * k;
        let fits_height = (height - over_arc - over_tip - 10.0 * k) / (tip + depth);
        // An anchor one and a half heights back has its place; what is farther is cut at the edge.
        let back = 1.5 * slant + 0.35;
        let sine = libm::sin(span.1.min(core::f64::consts::FRAC_PI_2)).max(0.5);
        let edge = rig.edge.map_or((EDGE, 0.0), |edge| (edge.ahead, edge.level));
        let ahead = (tip * sine).max(edge.0.min(slant) + 1.2);
        let beside_arc = (over_tip + 16.0 * k) * sine + 10.0 * k;
        let fits_width = (width - 16.0 * k - beside_arc) / (back + ahead);
        let scale = fits_height.min(fits_width).clamp(1.0, 1000.0);
        let arc = tip * scale + (0.26 * scale).max(over_tip);

        let left_need = 16.0 * k + back * scale;
        let right_need = ahead * scale + beside_arc;
        let x = (0.65 * width).min(width - right_need).max(left_need.min(width - right_need));
        let spare = (height - over_arc - arc - depth * scale - 10.0 * k).max(0.0);
        let y = over_arc + arc + 0.4 * spare;
        Self {
            width,
            height,
            k,
            view: Projection::from_the_right(layout, scale, (x, y)),
            tip,
            arc,
            span,
            depth,
            edge,
        }
    }

    /// Where the ground begins to rise or fall to the edge, m ahead of the foot line.
    pub(crate) fn bends(&self) -> f64 {
        if self.edge.0 > 0.25 { 0.12 } else { self.edge.0 - 0.5 }
    }

    /// The height of the ground so far ahead of the foot line, m; `None` beyond the edge.
    pub(crate) fn ground(&self, x: f64) -> Option<f64> {
        let (ahead, level) = self.edge;
        let share = ((x - self.bends()) / (ahead - self.bends())).max(0.0);
        (x <= ahead).then_some(level * share)
    }

    /// A line in metres in pixels.
    #[inline(never)]
    pub(crate) fn line(&self, mut points: Vec<P>) -> Vec<P> {
        for point in &mut points {
            *point = self.view.p(*point);
        }
        points
    }

    /// Points from one lean to another, the first and the last among them, `radius` px from the foot.
    pub(crate) fn along_arc(&self, from: f64, to: f64, radius: f64, pieces: i32) -> Vec<P> {
        let mut points = Vec::new();
        for i in 0..=pieces {
            points.push(self.on_arc(from + (to - from) * f64::from(i) / f64::from(pieces), radius));
        }
        points
    }

    /// The point at a lean, `radius` px from the foot.
    #[inline(never)]
    pub(crate) fn on_arc(&self, lean: f64, radius: f64) -> P {
        (self.view.origin.0 + radius * libm::sin(lean), self.view.origin.1 - radius * libm::cos(lean))
    }

    /// The whole plate.
    pub(crate) fn plate(&self) -> Area {
        Area { left: 0.0, top: 0.0, right: self.width, bottom: self.height }
    }

    /// Where labels and cut lines end.
    pub(crate) fn inside(&self) -> Area {
        self.plate().grown(-3.0 * self.k)
    }

    /// Length of the pointer, px.
    pub(crate) fn pointer(&self) -> f64 {
        pointer::LENGTH * self.k
    }
}

/// The leans (rad) that scales of lean show for a working range: from 5° back to 60° out, and wider where the
/// range needs it, so that every end stands 6° inside. Never beyond what is looked at, 30° back to 80° out.
#[must_use]
pub(crate) fn lean_span(range: &WorkingRange) -> (f64, f64) {
    const DEGREE: f64 = core::f64::consts::PI / 180.0;
    let (mut from, mut to) = (-5.0 * DEGREE, 60.0 * DEGREE);
    for interval in &range.intervals {
        from = from.min(interval.from - 6.0 * DEGREE);
        to = to.max(interval.to + 6.0 * DEGREE);
    }
    (from.max(outlean_rig::FARTHEST_BACK), to.min(outlean_rig::FARTHEST_OUT))
}
