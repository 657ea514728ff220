//! The main line: where it runs, and what it puts on the head.

use crate::fault::Allowed;
use crate::{Fault, Feet, Field, Force, Layout, Load, Point, Side, Vector};

/// How the line moves. A pulley turns with friction, so the haul side carries more while raising and less
/// while lowering; holding may be anywhere between.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum Operation {
    /// The load goes down: haul tension is the load's tension × efficiency.
    Lowering,
    /// The load stands still; computed without friction.
    #[default]
    Holding,
    /// The load goes up: haul tension is the load's tension ÷ efficiency.
    Raising,
}

impl Operation {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Lowering, Self::Holding, Self::Raising];

    /// Haul tension over load tension at one pulley of the given efficiency.
    #[must_use]
    pub fn factor(self, efficiency: f64) -> f64 {
        match self {
            Self::Lowering => efficiency,
            Self::Holding => 1.0,
            Self::Raising => 1.0 / efficiency,
        }
    }
}

/// Where the main line runs after the head.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum Path {
    /// It ends at the head: the load is hung there.
    Hung,
    /// Over the head pulley and straight to a haul point behind the frame.
    StraightBack {
        /// The haul point.
        to: Point,
    },
    /// Over the head pulley, down a leg to a pulley tied to that leg's foot, and away.
    RedirectedAtFoot {
        /// Which foot.
        foot: Side,
        /// The haul point.
        to: Point,
    },
    /// Over the head pulley, down to a pulley on its own holdfast midway between the feet, and away.
    RedirectedMidBase {
        /// The haul point.
        to: Point,
    },
    /// Over the head pulley and on over the front.
    OverTheFront {
        /// The haul point.
        to: Point,
    },
    /// A tackle hung at the head, its lead leaving the block at the head. The head carries the load and
    /// the lead's pull.
    TackleAtHead {
        /// Parts of rope that carry the load.
        parts: u8,
        /// Where the lead goes.
        to: Point,
    },
    /// It does not run over the head: the frame carries nothing of it.
    NotOverHead,
}

impl Path {
    /// The haul point, if the line goes on after the head.
    #[must_use]
    pub const fn haul_point(&self) -> Option<Point> {
        match *self {
            Self::Hung | Self::NotOverHead => None,
            Self::StraightBack { to }
            | Self::RedirectedAtFoot { to, .. }
            | Self::RedirectedMidBase { to }
            | Self::OverTheFront { to }
            | Self::TackleAtHead { to, .. } => Some(to),
        }
    }
}

/// The main line: its path and its pulleys.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Line {
    /// Where it runs.
    pub path: Path,
    /// What it is doing.
    pub operation: Operation,
    /// Efficiency of the pulley at the head (of each sheave of a tackle), above 0 and at most 1.
    pub pulley_efficiency: f64,
    /// Efficiency of the redirect pulley.
    pub redirect_efficiency: f64,
    /// Length of the sling by which the pulley hangs below the head, m, at most half the way from the head to where
    /// the line goes from there. It hangs along the pull of the lines.
    pub sling: f64,
}

/// What the main line puts on the frame.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct LineForces {
    /// Pull of the load line on the head, N.
    pub load: Force,
    /// Pull of the haul line on the head, N; zero where none leaves the head.
    pub haul: Force,
    /// Tension of the haul line as it leaves the head, N.
    pub haul_tension: f64,
    /// Tension of the haul line after its redirect pulley, N; as `haul_tension` where there is none.
    pub after_redirect: f64,
    /// Greatest tension anywhere in the line, N: of a tackle, in its lead or the part at its other end.
    pub greatest_tension: f64,
    /// Pull of the rope on whatever the redirect pulley is tied to, N: both parts of the rope.
    pub redirect: Option<Force>,
    /// Where the pulley hangs.
    pub pulley: Point,
}

impl LineForces {
    /// Pull of the load line and the haul line together, N.
    #[must_use]
    pub fn on_head(&self) -> Force {
        self.load + self.haul
    }
}

impl Line {
    /// A line that ends at the head.
    #[must_use]
    pub const fn hung() -> Self {
        Self::along(Path::Hung)
    }

    /// A line along `path`, holding, without friction, its pulley right at the head.
    #[must_use]
    pub const fn along(path: Path) -> Self {
        Self {
            path,
            operation: Operation::Holding,
            pulley_efficiency: 1.0,
            redirect_efficiency: 1.0,
            sling: 0.0,
        }
    }

    /// The operations that differ for this line: all three where it moves over a pulley, else holding.
    #[must_use]
    pub const fn operations(&self) -> &'static [Operation] {
        match self.path {
            Path::Hung | Path::NotOverHead => &[Operation::Holding],
            _ => &Operation::ALL,
        }
    }

    /// Haul tension over load tension as the line leaves the head.
    fn haul_factor(&self) -> f64 {
        let efficiency = self.pulley_efficiency;
        match self.path {
            Path::Hung | Path::NotOverHead => 0.0,
            Path::TackleAtHead { parts, .. } => {
                // Each sheave passes on its tension × (1/factor); the load hangs on all the parts.
                let pass = 1.0 / self.operation.factor(efficiency);
                let (mut part, mut carried) = (1.0, 0.0);
                for _ in 0..parts {
                    part *= pass;
                    carried += part;
                }
                1.0 / carried
            }
            _ => self.operation.factor(efficiency),
        }
    }

    /// Greatest tension in a tackle whose lead carries `lead`: in the lead while raising, in the part farthest from
    /// it while lowering.
    fn greatest_of_tackle(&self, parts: u8, lead: f64) -> f64 {
        let pass = 1.0 / self.operation.factor(self.pulley_efficiency);
        let farthest = (0..parts).fold(lead, |part, _| part * pass);
        lead.max(farthest)
    }

    /// The forces of the line on a frame so laid out.
    ///
    /// The pulley hangs a sling's length below the head along the pull of both parts of the line, and that
    /// pull depends on where the pulley hangs: a fixed point, found in a few steps. With no sling the lines
    /// meet at the head itself. Errs where a part of the line has no length, and where the sling is longer than
    /// half the way to where the line goes.
    pub(crate) fn forces(&self, load: &Load, feet: &Feet, layout: &Layout) -> Result<LineForces, Fault> {
        if matches!(self.path, Path::NotOverHead) {
            return Ok(LineForces {
                load: Force::ZERO,
                haul: Force::ZERO,
                haul_tension: 0.0,
                after_redirect: 0.0,
                greatest_tension: 0.0,
                redirect: None,
                pulley: layout.head + -Vector::Z * self.sling,
            });
        }
        let tension = load.tension();
        let load_pull = Force::along(load.direction(), tension);
        let haul_tension = tension * self.haul_factor();
        let pulley = layout.head + self.hangs(load_pull, haul_tension, feet, layout)? * self.sling;
        self.at(pulley, load_pull, haul_tension, feet, layout)
    }

    /// The direction in which the sling hangs: along the pull of both parts of the line at the pulley.
    ///
    /// A fixed point, taken in whole steps while they shrink and in smaller ones where a long sling near the line's
    /// next point would make it swing.
    fn hangs(&self, load: Force, haul_tension: f64, feet: &Feet, layout: &Layout) -> Result<Vector, Fault> {
        const STEPS: usize = 200;
        let mut hangs = load.direction().unwrap_or(-Vector::Z);
        let Some(next) = self.next_point(feet, layout).filter(|_| self.sling > 0.0) else { return Ok(hangs) };
        // On a longer sling the pulley would hang nearer to that point than to the head.
        let most = 0.5 * (next - layout.head).length();
        Field::Sling.check_within(self.sling, Allowed { least: 0.0, most })?;
        let (mut step, mut last) = (1.0, f64::INFINITY);
        for _ in 0..STEPS {
            let pulley = layout.head + hangs * self.sling;
            let pull = load + Force::along(toward(pulley, next)?, haul_tension);
            let along = pull.direction().unwrap_or(-Vector::Z);
            let turned = (hangs + (along - hangs) * step).normalize_or(along);
            let moved = (turned - hangs).length() * self.sling;
            hangs = turned;
            if moved < 1e-13 {
                break;
            }
            if moved > 0.7 * last {
                step *= 0.5;
            }
            last = moved;
        }
        Ok(hangs)
    }

    /// Where the line goes from the head: its redirect pulley, else its haul point.
    pub(crate) fn next_point(&self, feet: &Feet, layout: &Layout) -> Option<Point> {
        match self.path {
            Path::RedirectedAtFoot { foot, .. } => Some(*feet.at.on(foot)),
            Path::RedirectedMidBase { .. } => Some(layout.mid_base),
            _ => self.path.haul_point(),
        }
    }

    fn at(
        &self,
        pulley: Point,
        load: Force,
        haul_tension: f64,
        feet: &Feet,
        layout: &Layout,
    ) -> Result<LineForces, Fault> {
        let none = LineForces {
            load,
            haul: Force::ZERO,
            haul_tension: 0.0,
            after_redirect: 0.0,
            greatest_tension: load.size(),
            redirect: None,
            pulley,
        };
        let straight = |to: Point| -> Result<LineForces, Fault> {
            let haul = Force::along(toward(pulley, to)?, haul_tension);
            let greatest_tension = match self.path {
                Path::TackleAtHead { parts, .. } => self.greatest_of_tackle(parts, haul_tension),
                _ => haul_tension.max(none.greatest_tension),
            };
            Ok(LineForces { haul, haul_tension, after_redirect: haul_tension, greatest_tension, ..none })
        };
        let redirected = |by: Point, to: Point| -> Result<LineForces, Fault> {
            let down = toward(pulley, by)?;
            let after_redirect = haul_tension * self.operation.factor(self.redirect_efficiency);
            let redirect = Force::along(-down, haul_tension) + Force::along(toward(by, to)?, after_redirect);
            let haul = Force::along(down, haul_tension);
            let greatest_tension = haul_tension.max(after_redirect).max(none.greatest_tension);
            let redirect = Some(redirect);
            Ok(LineForces { haul, haul_tension, after_redirect, greatest_tension, redirect, ..none })
        };
        match self.path {
            Path::Hung | Path::NotOverHead => Ok(none),
            Path::StraightBack { to } | Path::OverTheFront { to } | Path::TackleAtHead { to, .. } => {
                straight(to)
            }
            Path::RedirectedAtFoot { foot, to } => redirected(*feet.at.on(foot), to),
            Path::RedirectedMidBase { to } => redirected(layout.mid_base, to),
        }
    }

    pub(crate) fn check(&self) -> Result<(), Fault> {
        Field::PulleyEfficiency.check(self.pulley_efficiency)?;
        Field::RedirectEfficiency.check(self.redirect_efficiency)?;
        Field::Sling.check(self.sling)?;
        if let Path::TackleAtHead { parts, .. } = self.path {
            Field::TackleParts.check(f64::from(parts))?;
        }
        if let Some(to) = self.path.haul_point() {
            for coordinate in to.coordinates() {
                Field::HaulPoint.check(coordinate)?;
            }
        }
        Ok(())
    }
}

/// The unit vector from one end of a part of the line to the other.
fn toward(from: Point, to: Point) -> Result<Vector, Fault> {
    let way = to - from;
    let length = Field::HaulLength.check(way.length())?;
    Ok(way / length)
}
