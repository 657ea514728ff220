//! The rig: everything that is set up, as numbers.

use crate::strength::Gear;
use crate::{Case, Edge, Fault, Feet, Field, Guy, LeanIs, Leg, Line, LineName, Load, Pair, SecondLine};
use arrayvec::ArrayVec;

/// A frame with its load, its main line and its guys: the input of every calculation.
///
/// Plain data; nothing is checked until it is used, and then everything is: a number out of range is a
/// [`Fault`] that names it.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Rig {
    /// The two poles.
    pub legs: Pair<Leg>,
    /// Where they stand and what holds them.
    pub feet: Feet,
    /// Angle of the frame's plane from the vertical, rad, forward positive.
    pub lean: f64,
    /// When it has that lean. A [`crate::Solution`] is of that lean, however that is; limits and checks, which say what
    /// holds, look at where it [comes to rest](Rig::comes_to_rest) as well.
    #[cfg_attr(feature = "serde", serde(default))]
    pub lean_is: LeanIs,
    /// What hangs on the load line.
    pub load: Load,
    /// The main line.
    pub line: Line,
    /// The second line, if there is one.
    pub second: Option<SecondLine>,
    /// The edge, if it is known where it is.
    pub edge: Option<Edge>,
    /// What is going on now.
    pub case: Case,
    /// The guys, at most [`crate::MAX_GUYS`]. Where several could hold the frame, the first of them works, or with
    /// it one splayed to the other side: see [`crate::solve_at`].
    pub guys: ArrayVec<Guy, { crate::MAX_GUYS }>,
    /// Limits that are set, not computed.
    pub limits: Limits,
    /// What it is made of, for what its parts may carry.
    #[cfg_attr(feature = "serde", serde(default))]
    pub gear: Gear,
}

/// Limits of the working range that someone sets.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Limits {
    /// Least lean ever allowed, rad, held by the fore guy; `None` for none.
    pub upright_stop: Option<f64>,
    /// Least load at run-away over load that is asked for, where stretch is assessed; `None` for
    /// [`crate::WANTED_MARGIN`].
    #[cfg_attr(feature = "serde", serde(default))]
    pub stretch_margin: Option<f64>,
}

impl Limits {
    /// The margin against run-away that is asked for.
    #[must_use]
    pub fn wanted_margin(&self) -> f64 {
        self.stretch_margin.unwrap_or(crate::WANTED_MARGIN)
    }
}

impl Rig {
    /// A frame of two weightless legs of `working_length` m from foot to lashing, level feet `spread` m apart
    /// and held down, at `lean` rad, with `mass` kg hung at its head, no guys and no limits.
    #[must_use]
    pub fn new(working_length: f64, spread: f64, lean: f64, mass: f64) -> Self {
        Self {
            legs: Pair::both(Leg::weightless(working_length)),
            feet: Feet::apart(spread),
            lean,
            lean_is: LeanIs::UnderLoad,
            load: Load::hanging(mass),
            line: Line::hung(),
            second: None,
            edge: None,
            case: Case::default(),
            guys: ArrayVec::new(),
            limits: Limits::default(),
            gear: Gear::default(),
        }
    }

    /// Its lines, the main line first.
    pub fn lines(&self) -> impl Iterator<Item = &Line> + Clone {
        core::iter::once(&self.line).chain(self.second.as_ref().map(|second| &second.line))
    }

    /// As [`Rig::lines`], to change them.
    pub fn lines_mut(&mut self) -> impl Iterator<Item = &mut Line> {
        core::iter::once(&mut self.line).chain(self.second.as_mut().map(|second| &mut second.line))
    }

    /// Checks every number that stands in the rig against its own range.
    ///
    /// # Errors
    ///
    /// The first number out of range. What the numbers imply together is checked by [`crate::Layout::of`]
    /// and [`crate::solve`].
    pub fn check(&self) -> Result<(), Fault> {
        self.legs.left.check(crate::Side::Left)?;
        self.legs.right.check(crate::Side::Right)?;
        self.feet.check()?;
        Field::Lean.check(self.lean)?;
        self.load.check()?;
        self.line.check(LineName::Main)?;
        if let Some(second) = &self.second {
            second.check()?;
        }
        if let Some(edge) = &self.edge {
            edge.check()?;
        }
        for (number, guy) in (0_u8..).zip(&self.guys) {
            guy.check(number)?;
        }
        Field::StretchMargin.check_if(self.limits.stretch_margin)?;
        Field::UprightStop.check_if(self.limits.upright_stop)?;
        self.gear.check()
    }
}
