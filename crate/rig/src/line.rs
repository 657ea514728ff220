//! A line to the load: its path, its pulleys, and what it puts on the head.

use crate::fault::Allowed;
use crate::resolve::resolve_in_plane;
use crate::stiffness::stiffness;
use crate::{Edge, Fault, Feet, Field, Force, Layout, Operation, Path, Point, Vector, simple_advantage};
use glam::DMat3;

/// Which line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum LineName {
    /// The main line.
    Main,
    /// The second line.
    Second,
}

/// A line to the load: its path and its pulleys.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Line {
    /// Where it runs.
    pub path: Path,
    /// Efficiency of the pulley at the head (of each sheave of a tackle), above 0 and at most 1.
    pub pulley_efficiency: f64,
    /// Efficiency of the redirect pulley.
    pub redirect_efficiency: f64,
    /// Length of the sling by which the pulley hangs below the head, m, at most half the way from the head to where
    /// the line goes from there. It hangs along the pull of the lines.
    pub sling: f64,
}

/// What a line puts on the frame.
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
    /// Whether the load line bears on the edge on its way down. Its friction there is not assessed.
    pub bears_on_edge: bool,
}

/// How the load pulls on a line.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pull<'a> {
    /// On which line.
    pub on: LineName,
    /// Tension of the load line, N.
    pub tension: f64,
    /// Along which it pulls where no edge bends it.
    pub direction: Vector,
    /// The edge that it may bear on.
    pub edge: Option<&'a Edge>,
    /// How the line moves.
    pub operation: Operation,
}

impl Pull<'_> {
    /// How the force of the load line falls off as the pulley moves, N/m.
    fn stiffness(&self, pulley: Point, bears_on_edge: bool, layout: &Layout) -> DMat3 {
        match self.edge {
            Some(edge) if bears_on_edge => edge.stiffness(pulley, self.direction, layout, self.tension),
            _ => DMat3::ZERO,
        }
    }

    /// The force of the load line on a pulley, and whether it bears on the edge.
    fn at(&self, pulley: Point, layout: &Layout) -> Result<(Force, bool), Fault> {
        let (direction, bears) = match self.edge {
            // A line that holds nothing presses on nothing.
            Some(edge) if self.tension > 0.0 => edge.bend(pulley, self.direction, layout)?,
            _ => (self.direction, false),
        };
        Ok((Force::along(direction, self.tension), bears))
    }
}

impl LineForces {
    /// Pull of the load line and the haul line together, N.
    #[must_use]
    pub fn on_head(&self) -> Force {
        self.load + self.haul
    }

    /// The direction in which its pulley hangs from the head; `None` for one right at it.
    pub(crate) fn hangs(&self, layout: &Layout) -> Option<Vector> {
        (self.pulley - layout.head).try_normalize()
    }
}

impl Line {
    /// A line that ends at the head.
    #[must_use]
    pub const fn hung() -> Self {
        Self::along(Path::Hung)
    }

    /// A line along `path`, without friction, its pulley right at the head.
    #[must_use]
    pub const fn along(path: Path) -> Self {
        Self { path, pulley_efficiency: 1.0, redirect_efficiency: 1.0, sling: 0.0 }
    }

    /// Whether it moves over a pulley, so that lowering, holding and raising differ.
    #[must_use]
    pub const fn moves(&self) -> bool {
        !matches!(self.path, Path::Hung | Path::NotOverHead)
    }

    /// Haul tension over load tension as the line leaves the head.
    #[must_use]
    pub fn haul_factor(&self, operation: Operation) -> f64 {
        let efficiency = self.pulley_efficiency;
        match self.path {
            Path::Hung | Path::NotOverHead => 0.0,
            Path::TackleAtHead { parts, .. } => {
                // The lead leaves a sheave of its own.
                let pass = 1.0 / operation.factor(efficiency);
                1.0 / (pass * simple_advantage(parts, pass))
            }
            _ => operation.factor(efficiency),
        }
    }

    /// Greatest tension in a tackle whose lead carries `lead`: in the lead while raising, in the part farthest from
    /// it while lowering.
    fn greatest_of_tackle(&self, parts: u8, lead: f64, operation: Operation) -> f64 {
        let pass = 1.0 / operation.factor(self.pulley_efficiency);
        let farthest = (0..parts).fold(lead, |part, _| part * pass);
        lead.max(farthest)
    }

    /// The forces of the line on a frame so laid out.
    ///
    /// The pulley hangs a sling's length below the head along the pull of both parts of the line, and that
    /// pull depends on where the pulley hangs: a fixed point, found in a few steps. With no sling the lines
    /// meet at the head itself. Errs where a part of the line has no length, and where the sling is longer than
    /// half the way to where the line goes.
    pub(crate) fn forces(
        &self,
        pull: &Pull<'_>,
        hung: Option<Vector>,
        feet: &Feet,
        layout: &Layout,
    ) -> Result<LineForces, Fault> {
        if matches!(self.path, Path::NotOverHead) {
            return Ok(LineForces {
                load: Force::ZERO,
                haul: Force::ZERO,
                haul_tension: 0.0,
                after_redirect: 0.0,
                greatest_tension: pull.tension,
                redirect: None,
                pulley: layout.head + -Vector::Z * self.sling,
                bears_on_edge: false,
            });
        }
        let haul_tension = pull.tension * self.haul_factor(pull.operation);
        let pulley = match self.sling {
            0.0 => layout.head,
            sling => layout.head + self.hangs(pull, hung, haul_tension, feet, layout)? * sling,
        };
        self.at(pulley, pull, haul_tension, feet, layout)
    }

    /// The direction in which the sling hangs: along the pull of both parts of the line at the pulley.
    ///
    /// Looked for from where it `hung` with the head near by, if that is known, by Newton's method on the sphere about the
    /// head, and by shorter and shorter steps along the pull where that does not come nearer. Errs where it comes to no
    /// rest.
    fn hangs(
        &self,
        load: &Pull<'_>,
        hung: Option<Vector>,
        haul_tension: f64,
        feet: &Feet,
        layout: &Layout,
    ) -> Result<Vector, Fault> {
        let start = || Ok(load.at(layout.head, layout)?.0.direction().unwrap_or(-Vector::Z));
        let next = self.path.next_point(feet, layout);
        if let Some(next) = next {
            // On a longer sling the pulley would hang nearer to that point than to the head.
            let most = 0.5 * (next - layout.head).length();
            Field::Sling(load.on).check_within(self.sling, Allowed { least: 0.0, most })?;
        } else if load.edge.is_none() {
            return start();
        }
        let off = |hangs: Vector| -> Result<Off, Fault> {
            let pulley = layout.head + hangs * self.sling;
            let (mut pull, bears) = load.at(pulley, layout)?;
            if let Some(next) = next {
                pull += Force::along(toward(pulley, next, load.on)?, haul_tension);
            }
            let aimed = aimed(load, bears, haul_tension, pulley, next, layout);
            let size = pull.size();
            let (pulled, swings) = if size > 0.0 {
                (Vector::from_array(pull.components()) / size, self.sling / size)
            } else {
                (-Vector::Z, 0.0)
            };
            Ok(Off { by: pulled - hangs, turns: aimed * swings })
        };
        // A line that ends there pulls as it would at the head: from near by there is nothing to gain.
        if next.is_some()
            && let Some(hung) = hung
            && let Ok(Some(hangs)) = at_rest(hung, off)
        {
            return Ok(hangs);
        }
        // There may be no rest on a sling of this length; without one there always is.
        let none = Allowed { least: 0.0, most: 0.0 };
        at_rest(start()?, off)?.ok_or(Fault {
            field: Field::Sling(load.on),
            value: self.sling,
            allowed: none,
        })
    }

    fn at(
        &self,
        pulley: Point,
        pull: &Pull<'_>,
        haul_tension: f64,
        feet: &Feet,
        layout: &Layout,
    ) -> Result<LineForces, Fault> {
        let (load, bears_on_edge) = pull.at(pulley, layout)?;
        let none = LineForces {
            load,
            haul: Force::ZERO,
            haul_tension: 0.0,
            after_redirect: 0.0,
            greatest_tension: load.size(),
            redirect: None,
            pulley,
            bears_on_edge,
        };
        let straight = |to: Point| -> Result<LineForces, Fault> {
            let haul = Force::along(toward(pulley, to, pull.on)?, haul_tension);
            let greatest_tension = match self.path {
                Path::TackleAtHead { parts, .. } => {
                    self.greatest_of_tackle(parts, haul_tension, pull.operation)
                }
                _ => haul_tension.max(none.greatest_tension),
            };
            Ok(LineForces { haul, haul_tension, after_redirect: haul_tension, greatest_tension, ..none })
        };
        let redirected = |by: Point, to: Point| -> Result<LineForces, Fault> {
            let down = toward(pulley, by, pull.on)?;
            let after_redirect = haul_tension * pull.operation.factor(self.redirect_efficiency);
            let redirect =
                Force::along(-down, haul_tension) + Force::along(toward(by, to, pull.on)?, after_redirect);
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
            Path::RedirectedMidBase { to } | Path::RedirectedOnLedger { to } => {
                redirected(layout.mid_base, to)
            }
        }
    }

    /// How what the line puts on the head falls off as the head moves, N/m, where it is `forces`.
    pub(crate) fn stiffness(
        &self,
        pull: &Pull<'_>,
        forces: &LineForces,
        feet: &Feet,
        layout: &Layout,
    ) -> DMat3 {
        let next = self.path.next_point(feet, layout);
        let aimed = aimed(pull, forces.bears_on_edge, forces.haul_tension, forces.pulley, next, layout);
        if self.sling == 0.0 {
            return aimed;
        }
        // The pulley moves as the head does and swings as the pull turns.
        aimed * (DMat3::IDENTITY + self.swings(forces.on_head()) * aimed).inverse()
    }

    /// How far a pulley under `pull` swings on its sling for a newton more of it, m/N.
    fn swings(&self, pull: Force) -> DMat3 {
        let hangs = pull.direction();
        hangs.map_or(DMat3::ZERO, |hangs| stiffness(hangs, 0.0, self.sling / pull.size()))
    }

    pub(crate) fn check(&self, name: LineName) -> Result<(), Fault> {
        Field::PulleyEfficiency(name).check(self.pulley_efficiency)?;
        Field::RedirectEfficiency(name).check(self.redirect_efficiency)?;
        Field::Sling(name).check(self.sling)?;
        if let Path::TackleAtHead { parts, .. } = self.path {
            Field::TackleParts(name).check(f64::from(parts))?;
        }
        if let Some(to) = self.path.haul_point() {
            for coordinate in to.coordinates() {
                Field::HaulPoint(name).check(coordinate)?;
            }
        }
        Ok(())
    }
}

/// How the pull of both parts of a line on its pulley falls off as the pulley moves, N/m: each stays aimed at where
/// it goes.
fn aimed(
    load: &Pull<'_>,
    bears_on_edge: bool,
    haul_tension: f64,
    pulley: Point,
    next: Option<Point>,
    layout: &Layout,
) -> DMat3 {
    let load = load.stiffness(pulley, bears_on_edge, layout);
    let Some(next) = next else { return load };
    let way = next - pulley;
    let length = way.length();
    load + stiffness(way / length, 0.0, haul_tension / length)
}

/// How far a pulley that hangs in some direction is off the direction of the pull there.
struct Off {
    /// What that direction has more, as unit vectors.
    by: Vector,
    /// How the pull falls off as the pulley swings, as a share of the pull.
    turns: DMat3,
}

impl Off {
    /// The step of Newton's method, square to the direction in which it `hangs`.
    fn turn(&self, hangs: Vector) -> Vector {
        let (e, f) = hangs.any_orthonormal_pair();
        let [by_e, by_f] =
            resolve_in_plane([e + self.turns * e, f + self.turns * f], hangs, Force::along(self.by, 1.0));
        e * by_e + f * by_f
    }
}

/// The unit vector near `start` at which nothing is `off`; `None` where none is found.
fn at_rest(start: Vector, off: impl Fn(Vector) -> Result<Off, Fault>) -> Result<Option<Vector>, Fault> {
    /// One more step of Newton's method from nearer than this leaves nothing but rounding.
    const NEAR: f64 = 1e-8;
    let (mut hangs, mut step) = (start, 1.0);
    let mut here = off(hangs)?;
    for _ in 0..200 {
        let far = here.by.length();
        if far < 1e-14 {
            return Ok(Some(hangs));
        }
        let turn = here.turn(hangs);
        let newton = (hangs + turn * (0.5 / turn.length()).min(1.0)).try_normalize();
        if newton.is_some() && far < NEAR && turn.length() < NEAR {
            return Ok(newton);
        }
        let nearer = newton.and_then(|there| Some((there, off(there).ok()?)));
        if let Some((there, left)) = nearer.filter(|(_, left)| left.by.length() < 0.5 * far) {
            (hangs, here) = (there, left);
            continue;
        }
        let there = (hangs + here.by * step).normalize_or(hangs);
        let left = off(there)?;
        if left.by.length() > 0.9 * far {
            step = (0.7 * step).max(0.01);
        }
        (hangs, here) = (there, left);
    }
    Ok((here.by.length() < 1e-11).then_some(hangs))
}

/// The unit vector from one end of a part of the line to the other.
fn toward(from: Point, to: Point, on: LineName) -> Result<Vector, Fault> {
    let way = to - from;
    let length = Field::HaulLength(on).check(way.length())?;
    Ok(way / length)
}
