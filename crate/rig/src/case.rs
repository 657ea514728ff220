//! Case: one combination of what may be going on, out of all those a rig must stand.

use crate::line::Pull;
use crate::{Fault, Field, Layout, LineForces, LineName, Operation, Rig, Stage};
use arrayvec::ArrayVec;

/// Which lines hold the load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum Scenario {
    /// Every line holds its share.
    #[default]
    Shared,
    /// The main line is lost and the second line has caught the load.
    MainLost,
}

/// What is going on: how the lines move, what the load is doing, which lines hold it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Case {
    /// How the lines move.
    pub operation: Operation,
    /// What the load is doing.
    pub stage: Stage,
    /// Which lines hold it.
    pub scenario: Scenario,
}

impl Case {
    /// The load hangs clear and every line holds its share, while the lines move as `operation` says.
    #[must_use]
    pub const fn of(operation: Operation) -> Self {
        Self { operation, stage: Stage::HangingClear, scenario: Scenario::Shared }
    }
}

/// How many cases a rig can have: every operation at every stage in every scenario.
pub const MAX_CASES: usize = 18;

impl Rig {
    /// The cases that the rig must stand, each once: every operation that differs for its lines, at every stage
    /// whose angles are given, with the lines shared and, where the second line's peak factor is stated, with
    /// the main line lost. Never empty.
    ///
    /// The case without a peak factor is left out because it cannot be assessed: see
    /// [`Rig::main_lost_is_assessed`].
    ///
    /// ```
    /// use outlean_rig::{Case, Line, Path, Point, Rig};
    /// let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
    /// assert_eq!(rig.cases().as_slice(), [Case::default()]);
    /// rig.line = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
    /// assert_eq!(rig.cases().len(), 3);
    /// ```
    #[must_use]
    pub fn cases(&self) -> ArrayVec<Case, MAX_CASES> {
        let second = self.second.as_ref();
        let moves = self.line.moves() || second.is_some_and(|second| second.line.moves());
        let operations: &[Operation] = if moves { &Operation::ALL } else { &[Operation::Holding] };
        let caught = second.is_some_and(|second| second.peak_factor.is_some());
        let scenarios: &[Scenario] =
            if caught { &[Scenario::Shared, Scenario::MainLost] } else { &[Scenario::Shared] };
        let mut all = ArrayVec::new();
        for &scenario in scenarios {
            for stage in Stage::ALL.into_iter().filter(|stage| self.load.swing_at(*stage).is_some()) {
                for &operation in operations {
                    // Eighteen places hold them all.
                    let _ = all.try_push(Case { operation, stage, scenario });
                }
            }
        }
        all
    }

    /// Whether the loss of the main line is among the cases, or cannot matter since there is one line only.
    #[must_use]
    pub fn main_lost_is_assessed(&self) -> bool {
        self.second.as_ref().is_none_or(|second| second.peak_factor.is_some())
    }

    /// What the main line and the second line put on the frame in a case. Errs where a line has no length, and for the
    /// loss of the main line where no peak factor of the second is stated.
    pub(crate) fn line_forces(
        &self,
        case: Case,
        layout: &Layout,
    ) -> Result<(LineForces, Option<LineForces>), Fault> {
        let (main, second) = match (case.scenario, &self.second) {
            (Scenario::Shared, None) => (self.load.tension(), 0.0),
            (Scenario::Shared, Some(second)) => {
                let whole = self.load.tension();
                (whole * (1.0 - second.share), whole * second.share)
            }
            (Scenario::MainLost, None) => (0.0, 0.0),
            (Scenario::MainLost, Some(second)) => {
                let factor = Field::PeakFactor.check(second.peak_factor.unwrap_or(f64::NAN))?;
                (0.0, self.load.weight() * factor)
            }
        };
        let pull = |on: LineName, tension: f64| Pull {
            on,
            tension,
            direction: layout.turned(self.load.direction(case.stage)),
            edge: self.edge.as_ref(),
            operation: case.operation,
        };
        let on_main = self.line.forces(&pull(LineName::Main, main), &self.feet, layout)?;
        let on_second = match &self.second {
            Some(line) => Some(line.line.forces(&pull(LineName::Second, second), &self.feet, layout)?),
            None => None,
        };
        Ok((on_main, on_second))
    }
}
