//! Shapes in a frame of their own: so far along, so far aside.
//!
//! Shapes are tables of small whole numbers, not code: a point computed in the page takes ten times the room.

use super::vec2::{P, add, left_of, times};
use crate::{Path, Role, Scene};

/// A point of a shape: along and aside, thousandths.
pub(crate) type Place = (i16, i16);

/// A shape as a table, from points in whatever they are measured in, up to 32 either way.
#[expect(clippy::indexing_slicing, reason = "runs only in the compiler")]
pub(crate) const fn table<const N: usize>(points: [P; N]) -> [Place; N] {
    const fn thousandths(value: f64) -> i16 {
        (value * 1000.0 + if value < 0.0 { -0.5 } else { 0.5 }) as i16
    }
    let mut table = [(0, 0); N];
    let mut i = 0;
    while i < N {
        table[i] = (thousandths(points[i].0), thousandths(points[i].1));
        i += 1;
    }
    table
}

/// Where a shape stands, which way it goes, how large it is.
#[derive(Clone, Copy)]
pub(crate) struct Local {
    /// Its origin, px.
    pub origin: P,
    /// The unit step along it.
    pub along: P,
    /// The unit step aside.
    pub aside: P,
    /// Pixels to its unit.
    pub scale: f64,
}

impl Local {
    /// To the right and up from `origin`.
    pub(crate) fn upright(origin: P, scale: f64) -> Self {
        Self { origin, along: (1.0, 0.0), aside: (0.0, -1.0), scale }
    }

    /// Back from `tip`, to which `way` leads, and to the left of that way.
    pub(crate) fn back_from(tip: P, way: P, scale: f64) -> Self {
        Self { origin: tip, along: times(way, -1.0), aside: left_of(way), scale }
    }

    /// On from `origin` along `way`, and to the left of it.
    pub(crate) fn onward(origin: P, way: P, scale: f64) -> Self {
        Self { origin, along: way, aside: left_of(way), scale }
    }

    /// A point in the picture.
    #[inline(never)]
    pub(crate) fn at(&self, along: f64, aside: f64) -> P {
        add(add(self.origin, times(self.along, along * self.scale)), times(self.aside, aside * self.scale))
    }

    /// The points of a shape in the picture.
    #[inline(never)]
    pub(crate) fn points(&self, shape: &[Place]) -> Vec<P> {
        let mut points = Vec::with_capacity(shape.len());
        for (along, aside) in shape {
            points.push(self.at(f64::from(*along) / 1000.0, f64::from(*aside) / 1000.0));
        }
        points
    }

    /// Draws a shape as lines from point to point.
    #[inline(never)]
    pub(crate) fn open(&self, scene: &mut Scene, shape: &[Place], role: Role, part: &'static str) {
        scene.part_path(Path::through(&self.points(shape)), role, part);
    }

    /// Draws a shape as a polygon.
    #[inline(never)]
    pub(crate) fn closed(&self, scene: &mut Scene, shape: &[Place], role: Role, part: &'static str) {
        scene.part_path(Path::polygon(&self.points(shape)), role, part);
    }

    /// Draws strokes: each from one point to the next but one.
    #[inline(never)]
    pub(crate) fn strokes(&self, scene: &mut Scene, shape: &[Place], role: Role, part: &'static str) {
        let mut path = Path::new();
        for ends in self.points(shape).chunks_exact(2) {
            path.add_through(ends);
        }
        scene.part_path(path, role, part);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_holds_its_points_to_the_last_bit() {
        let shape = [(0.105, -0.27), (18.5, -32.0), (1.0, 0.14), (-0.035, 0.98)];
        let points = Local::upright((0.0, 0.0), 1.0).points(&table(shape));
        assert_eq!(points, shape.map(|(x, y)| (x, -y)));
    }
}
