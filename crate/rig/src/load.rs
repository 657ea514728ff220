//! The load: what hangs on the load line, and where it pulls.

use crate::angle::{cos, sin};
use crate::{Fault, Field, Vector};

/// Standard acceleration of gravity, m/s² (exact by definition; CGPM 1901).
pub const G: f64 = 9.806_65;

/// What hangs on the load line.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Load {
    /// Mass, kg.
    pub mass: f64,
    /// Factor on its weight for motion, at least 1.
    pub dynamic_factor: f64,
    /// Angle of the load line from the vertical as seen in the front view, rad, to the left positive.
    pub side_angle: f64,
    /// Angle of the load line from the vertical as seen in the side view, rad, outward positive.
    pub outward_angle: f64,
}

impl Load {
    /// A still load of `mass` kilograms hanging plumb.
    #[must_use]
    pub const fn hanging(mass: f64) -> Self {
        Self { mass, dynamic_factor: 1.0, side_angle: 0.0, outward_angle: 0.0 }
    }

    /// Tension of the load line, N: mass × dynamic factor × [`G`].
    #[must_use]
    pub fn tension(&self) -> f64 {
        self.dynamic_factor * self.mass * G
    }

    /// Unit vector along which the load line pulls the head. Both angles are as seen square on, in the front
    /// and in the side view, so that each can be read off a photograph. Plumb is (0, 0, −1).
    #[must_use]
    pub fn direction(&self) -> Vector {
        let (side, out) = (self.side_angle, self.outward_angle);
        Vector::new(sin(out) * cos(side), sin(side) * cos(out), -cos(side) * cos(out))
            .normalize_or(-Vector::Z)
    }

    pub(crate) fn check(&self) -> Result<(), Fault> {
        Field::Mass.check(self.mass)?;
        Field::DynamicFactor.check(self.dynamic_factor)?;
        Field::SideAngle.check(self.side_angle)?;
        Field::OutwardAngle.check(self.outward_angle)?;
        Ok(())
    }
}
