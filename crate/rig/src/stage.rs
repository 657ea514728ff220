//! Stage: what the load is doing on its way over the edge, and how its line then stands out of plumb.

use crate::angle::{cos, sin};
use crate::{Fault, Field, Vector};

/// What the load is doing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum Stage {
    /// It hangs clear.
    #[default]
    HangingClear,
    /// It is lifted off the edge or landed on it: the edge transition.
    AtEdge,
    /// Tag lines draw it in or out.
    OnTagLines,
}

impl Stage {
    /// All three.
    pub const ALL: [Self; 3] = [Self::HangingClear, Self::AtEdge, Self::OnTagLines];
}

/// How far the load line stands out of plumb, as seen square on in the front and in the side view, so that each
/// angle can be read off a photograph.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Swing {
    /// In the front view, rad, to the left positive.
    pub side: f64,
    /// In the side view, rad, outward positive.
    pub outward: f64,
}

impl Swing {
    /// Plumb.
    pub const NONE: Self = Self { side: 0.0, outward: 0.0 };

    /// Unit vector along which the load line pulls, as so much forward, to the left and up. Plumb is (0, 0, −1).
    #[must_use]
    pub fn direction(self) -> Vector {
        let (side, out) = (self.side, self.outward);
        if side == 0.0 && out == 0.0 {
            return -Vector::Z;
        }
        Vector::new(sin(out) * cos(side), sin(side) * cos(out), -cos(side) * cos(out))
            .normalize_or(-Vector::Z)
    }

    pub(crate) fn check(self, stage: Stage) -> Result<(), Fault> {
        Field::SideAngle(stage).check(self.side)?;
        Field::OutwardAngle(stage).check(self.outward)?;
        Ok(())
    }
}
