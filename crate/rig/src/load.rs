//! The load: what hangs on the load line, and where it pulls.

use crate::{Fault, Field, Stage, Swing, Vector};

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
    /// How its line stands while it is lifted at the edge; `None` where that stage is not looked at.
    pub at_edge: Option<Swing>,
    /// How its line stands while tag lines draw it; `None` where that stage is not looked at.
    pub on_tag_lines: Option<Swing>,
}

impl Load {
    /// A still load of `mass` kilograms hanging plumb.
    #[must_use]
    pub const fn hanging(mass: f64) -> Self {
        Self {
            mass,
            dynamic_factor: 1.0,
            side_angle: 0.0,
            outward_angle: 0.0,
            at_edge: None,
            on_tag_lines: None,
        }
    }

    /// Weight of the load at rest, N: mass × [`G`].
    #[must_use]
    pub fn weight(&self) -> f64 {
        self.mass * G
    }

    /// Tension of the load line, N: mass × dynamic factor × [`G`].
    #[must_use]
    pub fn tension(&self) -> f64 {
        self.dynamic_factor * self.mass * G
    }

    /// How its line stands at a stage; `None` for a stage whose angles are not given.
    #[must_use]
    pub const fn swing_at(&self, stage: Stage) -> Option<Swing> {
        match stage {
            Stage::HangingClear => Some(Swing { side: self.side_angle, outward: self.outward_angle }),
            Stage::AtEdge => self.at_edge,
            Stage::OnTagLines => self.on_tag_lines,
        }
    }

    /// Unit vector along which the load line pulls the head at a stage, as so much forward, to the left and up, where no
    /// edge bends it; as hanging clear at a stage whose angles are not given.
    #[must_use]
    pub fn direction(&self, stage: Stage) -> Vector {
        let hanging = Swing { side: self.side_angle, outward: self.outward_angle };
        self.swing_at(stage).unwrap_or(hanging).direction()
    }

    pub(crate) fn check(&self) -> Result<(), Fault> {
        Field::Mass.check(self.mass)?;
        Field::DynamicFactor.check(self.dynamic_factor)?;
        for stage in Stage::ALL {
            if let Some(swing) = self.swing_at(stage) {
                swing.check(stage)?;
            }
        }
        Ok(())
    }
}
