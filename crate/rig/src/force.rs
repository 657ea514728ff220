//! Forces.

use crate::{Point, Vector};
use core::ops::{Add, AddAssign, Neg, Sub};

/// A force in newtons, in the axes of the crate. Where it acts is said by whoever holds it.
///
/// ```
/// use outlean_rig::{Force, Point, Vector};
/// // 1 kN straight down at a head 1 m forward of a foot line along +y tips forward: +1 kN m.
/// let down = Force::new(0.0, 0.0, -1000.0);
/// let moment = down.moment_about(Point::ORIGIN, Vector::Y, Point::new(1.0, 0.0, 3.0));
/// assert_eq!(moment, 1000.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(transparent))]
pub struct Force(Vector);

impl Force {
    /// No force.
    pub const ZERO: Self = Self(Vector::ZERO);

    /// The force with these components, in newtons.
    #[must_use]
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self(Vector::new(x, y, z))
    }

    /// `size` newtons along the unit vector `direction`; a negative size acts against it.
    #[must_use]
    pub fn along(direction: Vector, size: f64) -> Self {
        Self(direction * size)
    }

    /// The force along the same line, `factor` times as great.
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        Self(self.0 * factor)
    }

    /// Newtons forward.
    #[must_use]
    pub const fn x(self) -> f64 {
        self.0.x
    }

    /// Newtons to the left.
    #[must_use]
    pub const fn y(self) -> f64 {
        self.0.y
    }

    /// Newtons upward.
    #[must_use]
    pub const fn z(self) -> f64 {
        self.0.z
    }

    /// The three components `[x, y, z]`, in newtons.
    #[must_use]
    pub const fn components(self) -> [f64; 3] {
        [self.0.x, self.0.y, self.0.z]
    }

    /// Its size, in newtons, never negative.
    #[must_use]
    pub fn size(self) -> f64 {
        self.0.length()
    }

    /// The part of it along the unit vector `direction`, in newtons, signed.
    #[must_use]
    pub fn component(self, direction: Vector) -> f64 {
        self.0.dot(direction)
    }

    /// The unit vector along it, or `None` for a force of no size.
    #[must_use]
    pub fn direction(self) -> Option<Vector> {
        self.0.try_normalize()
    }

    /// Its moment, in N m, about the line through `on_axis` along the unit vector `axis`, when it acts at
    /// `at`. Positive turns right-handed about `axis`; about a foot line along +y that is forward.
    #[must_use]
    pub fn moment_about(self, on_axis: Point, axis: Vector, at: Point) -> f64 {
        axis.dot((at - on_axis).cross(self.0))
    }
}

impl Add for Force {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Force {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sub for Force {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Force {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}
