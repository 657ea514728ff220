//! Places.

use crate::Vector;
use core::ops::{Add, Sub};

/// A place in space, in metres, in the axes of the crate. Not a direction, not a force.
///
/// The difference of two points is a [`Vector`]; points are not added to one another.
///
/// ```
/// use outlean_rig::Point;
/// let foot = Point::new(0.0, 0.6, 0.0);
/// let head = Point::new(1.0, 0.0, 3.0);
/// assert_eq!((head - foot).x, 1.0);
/// assert_eq!(foot.midpoint(Point::new(0.0, -0.6, 0.0)), Point::ORIGIN);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(transparent))]
pub struct Point(Vector);

impl Point {
    /// On the ground midway between the feet.
    pub const ORIGIN: Self = Self(Vector::ZERO);

    /// The point `x` forward, `y` to the left and `z` up, in metres.
    #[must_use]
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self(Vector::new(x, y, z))
    }

    /// Metres forward of the origin.
    #[must_use]
    pub const fn x(self) -> f64 {
        self.0.x
    }

    /// Metres to the left of the origin.
    #[must_use]
    pub const fn y(self) -> f64 {
        self.0.y
    }

    /// Metres above the origin.
    #[must_use]
    pub const fn z(self) -> f64 {
        self.0.z
    }

    /// The point halfway to `other`.
    #[must_use]
    pub fn midpoint(self, other: Self) -> Self {
        Self((self.0 + other.0) * 0.5)
    }

    /// The three coordinates `[x, y, z]`, in metres.
    #[must_use]
    pub const fn coordinates(self) -> [f64; 3] {
        [self.0.x, self.0.y, self.0.z]
    }
}

impl Sub for Point {
    type Output = Vector;
    fn sub(self, other: Self) -> Vector {
        self.0 - other.0
    }
}

impl Add<Vector> for Point {
    type Output = Self;
    fn add(self, step: Vector) -> Self {
        Self(self.0 + step)
    }
}
