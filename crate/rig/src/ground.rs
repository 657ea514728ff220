//! The ground as a crew paces it out: back or ahead of the foot line, and to the left of its middle.

use crate::{Feet, Pair, Point, Vector};

/// The level axes of a foot line. Needs the feet alone, so that it serves rigs not yet fit to be solved.
#[derive(Clone, Copy, Debug)]
pub struct Ground {
    middle: Point,
    forward: Vector,
    left: Vector,
}

impl Ground {
    /// The ground of `feet`. Of feet at one spot, and of feet that are no numbers, that of feet set square.
    #[must_use]
    pub fn of(feet: &Feet) -> Self {
        let across = feet.at.left - feet.at.right;
        let level = Vector::new(across.x, across.y, 0.0);
        let left = level.try_normalize().unwrap_or(Vector::Y);
        Self {
            middle: feet.at.left.midpoint(feet.at.right),
            forward: Vector::new(left.y, -left.x, 0.0),
            left,
        }
    }

    /// The point so far ahead, to the left and above the middle of the foot line, m.
    #[must_use]
    pub fn point(&self, ahead: f64, left: f64, up: f64) -> Point {
        self.middle + (self.forward * ahead + self.left * left + Vector::Z * up)
    }

    /// How far `point` is ahead, to the left and above, m.
    #[must_use]
    pub fn paced(&self, point: Point) -> [f64; 3] {
        let way = point - self.middle;
        [way.dot(self.forward), way.dot(self.left), way.z]
    }

    /// `point` with one of its three paces (ahead, left, up) changed to `value`.
    #[must_use]
    pub fn moved(&self, point: Point, which: usize, value: f64) -> Point {
        let mut paces = self.paced(point);
        if let Some(pace) = paces.get_mut(which) {
            *pace = value;
        }
        let [ahead, left, up] = paces;
        self.point(ahead, left, up)
    }

    /// Feet `spread` metres apart about the same middle, on the same line.
    #[must_use]
    pub fn feet_apart(feet: &Feet, spread: f64) -> Pair<Point> {
        let middle = feet.at.left.midpoint(feet.at.right);
        let along = (feet.at.left - feet.at.right).try_normalize().unwrap_or(Vector::Y);
        Pair::new(middle + along * (spread / 2.0), middle + along * (-spread / 2.0))
    }
}
