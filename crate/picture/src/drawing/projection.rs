//! A view of the rig straight on: places and forces in space become places and ways on the plate.

use super::vec2::{P, unit};
use outlean_rig::{Force, Layout, Point};

/// Metres to pixels in an upright plane: so far across to the right, so far up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Projection {
    /// Pixels to the metre.
    pub scale: f64,
    /// Where the middle of the foot line is, px.
    pub origin: P,
    middle: Point,
    /// The level unit vector that points to the right in the picture: its x and y.
    right: P,
}

impl Projection {
    /// From behind, facing the edge: left is left.
    pub(crate) fn from_behind(layout: &Layout, scale: f64, origin: P) -> Self {
        Self { scale, origin, middle: layout.mid_base, right: (layout.forward.y, -layout.forward.x) }
    }

    /// From the right: forward is to the right.
    pub(crate) fn from_the_right(layout: &Layout, scale: f64, origin: P) -> Self {
        Self { scale, origin, middle: layout.mid_base, right: (layout.forward.x, layout.forward.y) }
    }

    /// A place in space as (to the right, up), m.
    #[inline(never)]
    pub(crate) fn flat(&self, point: Point) -> P {
        let from = point - self.middle;
        (from.x * self.right.0 + from.y * self.right.1, from.z)
    }

    /// A force as (to the right, up), N.
    #[inline(never)]
    pub(crate) fn flat_force(&self, force: Force) -> P {
        (force.x() * self.right.0 + force.y() * self.right.1, force.z())
    }

    /// The way a force acts, as a unit step in the picture, or `otherwise`, and its size in this plane, N.
    #[inline(never)]
    pub(crate) fn way_of(&self, force: Force, otherwise: P) -> (P, f64) {
        let (x, z) = self.flat_force(force);
        (unit((x, -z), otherwise), libm::hypot(x, z))
    }

    /// A place in metres (to the right, up) in pixels.
    #[inline(never)]
    pub(crate) fn p(&self, (x, z): P) -> P {
        (self.origin.0 + x * self.scale, self.origin.1 - z * self.scale)
    }

    /// A place in space in pixels.
    pub(crate) fn at(&self, point: Point) -> P {
        self.p(self.flat(point))
    }
}
