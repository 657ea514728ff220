//! Case: one combination of what may be going on, out of all those a rig must stand.

use crate::line::Pull;
use crate::{Fault, Field, Layout, LineForces, LineName, Operation, Rig, Stage, Vector};
use arrayvec::ArrayVec;
use glam::DMat3;

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

    /// What the main line and the second line put on the frame so pulled. Their pulleys are looked for from where they
    /// `hung` with the head near by, where that is known. Errs where a line has no length.
    // Inlined as in `Posture::at`.
    #[cfg_attr(not(target_family = "wasm"), inline(always))]
    pub(crate) fn line_forces(
        &self,
        [main, second]: &[Pull<'_>; 2],
        hung: [Option<Vector>; 2],
        layout: &Layout,
    ) -> Result<(LineForces, Option<LineForces>), Fault> {
        let [main_hung, second_hung] = hung;
        let on_main = self.line.forces(main, main_hung, &self.feet, layout)?;
        let on_second = match &self.second {
            Some(line) => Some(line.line.forces(second, second_hung, &self.feet, layout)?),
            None => None,
        };
        Ok((on_main, on_second))
    }

    /// How what the lines put on the head falls off as the head moves, N/m, where it is `forces`.
    pub(crate) fn line_stiffness(
        &self,
        [main, second]: &[Pull<'_>; 2],
        layout: &Layout,
        forces: (&LineForces, Option<&LineForces>),
    ) -> DMat3 {
        let of_main = self.line.stiffness(main, forces.0, &self.feet, layout);
        let both = self.second.as_ref().zip(forces.1);
        let of_second = both.map(|(line, forces)| line.line.stiffness(second, forces, &self.feet, layout));
        of_main + of_second.unwrap_or(DMat3::ZERO)
    }

    /// How the load pulls on the main line and on the second in a case, at whatever lean. Errs for the loss of the main
    /// line where no peak factor of the second is stated.
    // Inlined as in `Posture::at`.
    #[cfg_attr(not(target_family = "wasm"), inline(always))]
    pub(crate) fn pulls(&self, case: Case, layout: &Layout) -> Result<[Pull<'_>; 2], Fault> {
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
        let direction = layout.turned(self.load.direction(case.stage));
        let pull = |on: LineName, tension: f64| Pull {
            on,
            tension,
            direction,
            edge: self.edge.as_ref(),
            operation: case.operation,
        };
        Ok([pull(LineName::Main, main), pull(LineName::Second, second)])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Edge, Generator, Line, Path, Point, SecondLine};

    /// A rig with two lines, one or both on a sling, in front of an edge in two of three.
    fn drawn(seed: u64) -> Rig {
        let draw = &mut Generator::new(seed, "lines");
        let mut between = |least: f64, most: f64| least + (most - least) * draw.unit();
        let mut rig = Rig::new(4.0, 1.2, between(-0.3, 0.9), between(50.0, 400.0));
        let to = Point::new(between(-14.0, -4.0), between(-3.0, 3.0), between(-1.0, 1.0));
        let sling = |length: f64| if length < 0.1 { 0.0 } else { length };
        rig.line = Line { sling: sling(between(0.0, 0.5)), ..Line::along(Path::StraightBack { to }) };
        let line = Line { sling: sling(between(0.0, 0.5)), ..Line::along(Path::RedirectedMidBase { to }) };
        rig.second = Some(SecondLine { line, share: between(0.0, 1.0), peak_factor: None });
        (rig.load.side_angle, rig.load.outward_angle) = (between(-0.2, 0.2), between(-0.3, 0.3));
        let edge = Edge { level: between(-0.5, 0.5), ..Edge::at(between(-0.5, 4.0)) };
        rig.edge = (!seed.is_multiple_of(3)).then_some(edge);
        rig
    }

    #[test]
    fn what_the_lines_pull_falls_off_as_their_stiffness_says() {
        let (mut bear, mut hang) = (0, 0);
        for seed in 0..600 {
            let rig = drawn(seed);
            let layout = Layout::at(&rig, rig.lean).unwrap();
            let pulls = rig.pulls(rig.case, &layout).unwrap();
            let forces = |step: Vector| {
                let there = Layout { head: layout.head + step, ..layout };
                rig.line_forces(&pulls, [None; 2], &there).unwrap()
            };
            let (main, second) = forces(Vector::ZERO);
            let stiffness = rig.line_stiffness(&pulls, &layout, (&main, second.as_ref()));
            let bears = |(main, second): (LineForces, Option<LineForces>)| {
                (main.bears_on_edge, second.unwrap().bears_on_edge)
            };
            let apart = 1e-5;
            for axis in [Vector::X, Vector::Y, Vector::Z] {
                let (ahead, behind) = (forces(axis * apart), forces(axis * -apart));
                if bears(ahead) != bears(behind) {
                    continue;
                }
                let pull = |(main, second): (LineForces, Option<LineForces>)| {
                    main.on_head() + second.unwrap().on_head()
                };
                let falls_off = (pull(behind) - pull(ahead)).scaled(0.5 / apart);
                let off = Vector::from_array(falls_off.components()) - stiffness * axis;
                let size = rig.load.tension();
                assert!(off.length() < 1e-7 * size, "seed {seed} along {axis}: {off} N/m off of {size} N");
            }
            bear += u32::from(main.bears_on_edge);
            hang += u32::from(!main.bears_on_edge);
        }
        assert!(bear > 150 && hang > 150, "{bear} bear, {hang} hang clear");
    }

    #[test]
    fn a_pulley_hangs_where_it_does_from_wherever_it_is_looked_for() {
        for seed in 0..600 {
            let rig = drawn(seed);
            let layout = Layout::at(&rig, rig.lean).unwrap();
            let pulls = rig.pulls(rig.case, &layout).unwrap();
            let (main, second) = rig.line_forces(&pulls, [None; 2], &layout).unwrap();
            let aside = |line: &LineForces| {
                line.hangs(&layout).map(|way| (way + Vector::new(0.1, -0.1, 0.05)).normalize())
            };
            let near = [aside(&main), second.as_ref().and_then(aside)];
            let (again, second_again) = rig.line_forces(&pulls, near, &layout).unwrap();
            for (first, then) in [(main, again), (second.unwrap(), second_again.unwrap())] {
                let apart = (first.pulley - then.pulley).length();
                assert!(apart < 1e-11, "seed {seed}: {apart} m apart");
            }
        }
    }
}
