//! Remedy: the smallest change of one thing that keeps a frame on stretching guys far enough off run-away.

use super::{Outcome, Stretch, margin, stretched};
use crate::angle::degrees;
use crate::numeric::bisect;
use crate::{Fault, Rig, Solution, Station, solve};
use arrayvec::ArrayVec;

/// One thing done differently. "The guys that hold" are those whose arm opposes the moment of the load; guys to a side
/// only where there is no other.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Cure {
    /// A guy that holds is set to a pretension against one that opposes it.
    Pretension {
        /// The guy that holds, counted from 0.
        guy: u8,
        /// The guy it is set against.
        against: u8,
        /// What it is set to, N, to 10 N.
        tension: f64,
    },
    /// Every guy that holds is so many ropes instead of one, at most [`MOST_ROPES`].
    Ropes(u8),
    /// Every guy that holds is of a rope at least so stiff: EA, N, to 1 %. By its data sheet it gets longer by
    /// tension/EA.
    Stiffness(f64),
    /// It leans otherwise: rad, to 0.05°, not further back than its upright stop. Anchors and haul points stay where they
    /// are.
    Lean(f64),
    /// The anchors of the guys that hold stand so much farther from the foot line, m, to 0.05 m; negative is nearer.
    Setback(f64),
}

/// More ropes to a guy are not proposed.
pub const MOST_ROPES: u8 = 6;

/// A change that would hold, and what comes of it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Remedy {
    /// The smallest of its kind that reaches the margin asked for.
    pub cure: Cure,
    /// Load at run-away over load; infinite where there is none up to [`super::GREATEST_MULTIPLE`].
    pub margin: f64,
    /// Lean under load, rad.
    pub lean: f64,
    /// Greatest tension of the guys that hold, N.
    pub tension: f64,
}

/// What would bring a rig to a margin asked for (see [`super::WANTED_MARGIN`]), each by itself: the smallest change of
/// its kind, in the order of [`Cure`]. Kinds that would not do are left out, up to: a pretension of five times what
/// the lines pull more than is set, [`MOST_ROPES`], ropes a thousand times as stiff, 30° of lean, anchors farther or
/// nearer by three slant heights. Empty where the margin is there already.
///
/// Each is found by steps and then bisection; where a margin rises and falls again within one step, that is missed.
/// Takes some hundred times as long as [`margin`].
///
/// # Errors
///
/// As [`stretched`].
pub fn remedies(rig: &Rig, stretch: &Stretch, wanted: f64) -> Result<ArrayVec<Remedy, 5>, Fault> {
    let mut all = ArrayVec::new();
    if margin(rig, stretch)?.is_some_and(|margin| margin.multiple >= wanted)
        && matches!(stretched(rig, stretch)?, Outcome::Stands(_))
    {
        return Ok(all);
    }
    let solution = solve(rig)?;
    let case = Plight { rig, stretch, wanted, holding: Holding::of(rig, &solution), solution: &solution };
    all.extend(
        [case.pretension(), case.ropes(), case.stiffness(), case.lean(), case.setback()]
            .into_iter()
            .flatten(),
    );
    Ok(all)
}

/// Which guys hold and which oppose them.
struct Holding {
    /// Which way the load moves the frame, forward 1.
    way: f64,
    /// For every guy of the rig: whether it holds.
    holds: ArrayVec<bool, { crate::MAX_GUYS }>,
    /// The first that holds and the first that opposes.
    first: Option<usize>,
    against: Option<usize>,
}

impl Holding {
    fn of(rig: &Rig, solution: &Solution) -> Self {
        let way = if solution.resultant.tipping_moment < 0.0 { -1.0 } else { 1.0 };
        let is = |wanted: f64, to_side: bool| {
            rig.guys.iter().zip(&solution.guy_arm).map(move |(guy, arm)| {
                let beside = matches!(Station::of(guy.anchor, &solution.layout), Station::Side);
                guy.rigged && arm * wanted > 0.0 && beside == to_side
            })
        };
        let side_only = !is(way, false).any(|holds| holds);
        let holds: ArrayVec<bool, { crate::MAX_GUYS }> = is(way, side_only).collect();
        let first = holds.iter().position(|holds| *holds);
        Self { way, holds, first, against: is(-way, false).position(|against| against) }
    }
}

/// A rig that is not far enough off run-away.
struct Plight<'a> {
    rig: &'a Rig,
    stretch: &'a Stretch,
    wanted: f64,
    holding: Holding,
    solution: &'a Solution,
}

impl Plight<'_> {
    /// What comes of a change; `None` where it does not do or cannot be.
    fn effect(&self, cure: Cure) -> Option<Remedy> {
        let (rig, stretch) = self.changed(cure)?;
        let margin = margin(&rig, &stretch).ok()??.multiple;
        if margin < self.wanted {
            return None;
        }
        let Ok(Outcome::Stands(found)) = stretched(&rig, &stretch) else { return None };
        let held = found.tension.iter().zip(&self.holding.holds).filter(|(_, holds)| **holds);
        let tension = held.fold(0.0, |most: f64, (tension, _)| most.max(*tension));
        Some(Remedy { cure, margin, lean: found.lean, tension })
    }

    /// The rig and its stretch with a change.
    fn changed(&self, cure: Cure) -> Option<(Rig, Stretch)> {
        let (mut rig, mut stretch) = (self.rig.clone(), self.stretch.clone());
        let holds = &self.holding.holds;
        match cure {
            Cure::Pretension { guy, against, tension } => {
                let (guy, against) = (usize::from(guy), usize::from(against));
                let arms = &self.solution.guy_arm;
                rig.guys.get_mut(guy)?.pretension = tension;
                rig.guys.get_mut(against)?.pretension = -tension * arms.get(guy)? / arms.get(against)?;
            }
            Cure::Ropes(ropes) => {
                for (rope, _) in stretch.ropes.iter_mut().zip(holds).filter(|(_, holds)| **holds) {
                    rope.stiffness *= f64::from(ropes);
                }
            }
            Cure::Stiffness(stiffness) => {
                for (rope, _) in stretch.ropes.iter_mut().zip(holds).filter(|(_, holds)| **holds) {
                    rope.stiffness = rope.stiffness.max(stiffness);
                }
            }
            Cure::Lean(lean) if rig.limits.upright_stop.is_some_and(|stop| lean < stop) => return None,
            Cure::Lean(lean) => rig.lean = lean,
            Cure::Setback(by) => {
                let away: crate::Vector = self.solution.layout.forward * (-self.holding.way * by);
                for (guy, _) in rig.guys.iter_mut().zip(holds).filter(|(_, holds)| **holds) {
                    guy.anchor = guy.anchor + away;
                }
            }
        }
        Some((rig, stretch))
    }

    fn pretension(&self) -> Option<Remedy> {
        let (guy, against) = (self.holding.first?, self.holding.against?);
        let number = |at: usize| u8::try_from(at).ok();
        let (guy, against, set) = (number(guy)?, number(against)?, self.rig.guys.get(guy)?.pretension);
        let most = 5.0 * self.solution.lines_on_head().size();
        let to = |share: f64| Cure::Pretension { guy, against, tension: set + most * share };
        self.smallest(to, 50, 10.0 / most)
    }

    fn ropes(&self) -> Option<Remedy> {
        self.holding.first?;
        (2..=MOST_ROPES).find_map(|ropes| self.effect(Cure::Ropes(ropes)))
    }

    fn stiffness(&self) -> Option<Remedy> {
        let ropes = self.stretch.ropes.iter().zip(&self.holding.holds).filter(|(_, holds)| **holds);
        let softest = ropes.fold(f64::INFINITY, |least, (rope, _)| least.min(rope.stiffness));
        // In equal ratios up to a thousand.
        let to = |share: f64| Cure::Stiffness(softest * libm::pow(1000.0, share));
        if softest.is_finite() { self.smallest(to, 24, 0.01 / libm::log(1000.0)) } else { None }
    }

    fn lean(&self) -> Option<Remedy> {
        const MOST: f64 = degrees(30.0);
        let to = |share: f64| Cure::Lean(self.rig.lean - self.holding.way * MOST * share);
        self.smallest(to, 60, degrees(0.05) / MOST)
    }

    fn setback(&self) -> Option<Remedy> {
        self.holding.first?;
        let most = 3.0 * self.solution.layout.slant_height;
        let farther = self.smallest(|share| Cure::Setback(most * share), 24, 0.05 / most);
        let nearer = self.smallest(|share| Cure::Setback(-most * share), 24, 0.05 / most);
        let by = |remedy: &Remedy| if let Cure::Setback(by) = remedy.cure { by.abs() } else { 0.0 };
        match (farther, nearer) {
            (Some(farther), Some(nearer)) if by(&nearer) < by(&farther) => Some(nearer),
            (farther, nearer) => farther.or(nearer),
        }
    }

    /// The smallest change of a kind that does, of changes from none (share 0) to the greatest (1): the first of so many
    /// steps that does, drawn in to `width` of the greatest.
    fn smallest(&self, to: impl Fn(f64) -> Cure, steps: u8, width: f64) -> Option<Remedy> {
        let steps = f64::from(steps);
        let mut step = 1.0;
        while step <= steps {
            if let Some(found) = self.effect(to(step / steps)) {
                let fails = |share: f64| self.effect(to(share)).is_none();
                let (_, least) = bisect((step - 1.0) / steps, step / steps, width, fails);
                return Some(self.effect(to(least)).unwrap_or(found));
            }
            step += 1.0;
        }
        None
    }
}
