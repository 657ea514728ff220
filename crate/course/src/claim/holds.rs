//! Holding a claim against a rig.

use super::{Claim, Comparison, End, Operand, Term, Way};
use crate::Unsuited;
use core::cell::OnceCell;
use outlean_rig::{
    Dimension, Fault, Governing, Rig, Solution, Tip, WorkingRange, holds, limits_at, solve, solve_at,
    working_range,
};
use outlean_rigfile::{DEG, SetError, field, first_guy};

/// Two sides nearer to one another than this share of the greater are a knife edge: no question hangs on them.
pub const CLEAR: f64 = 0.02;
/// Two sides within this share of the greater are equal to anyone who reads them.
const EQUAL: f64 = 1e-6;
/// A change of less than this share is none …
const NO_CHANGE: f64 = 1e-9;
/// … and one of more than this share is one; between the two nobody can say.
const CHANGE: f64 = 1e-3;
/// How far in lean, rad, a rig must be from where it would be otherwise.
const APART: f64 = 0.5 * DEG;

/// Whether a claim holds on a rig.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Truth {
    /// Whether it does.
    pub holds: bool,
    /// Whether it is clear: no knife edge.
    pub clear: bool,
    /// The two numbers that it hangs on, if it hangs on two.
    pub sides: Option<Sides>,
}

/// The two numbers that a claim hangs on, SI.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Sides {
    /// What stands before the sign, factor in; of a change the reading before it.
    pub left: f64,
    /// What stands after the sign, factor in; of a change the reading after it.
    pub right: f64,
    /// What both are.
    pub dimension: Dimension,
    /// Whether it is the same reading before and after a change.
    pub change: bool,
}

/// Why a claim says nothing clear of a rig.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Unclear {
    /// The rig cannot be computed.
    Impossible(Fault),
    /// It was not solved, though the claim speaks of a reading; never so through [`Claim::holds`].
    NotSolved,
    /// The frame tips, and what tips carries nothing.
    Tips(Tip),
    /// The rig has no such guy.
    NoSuchGuy,
    /// The rig has no value at this key.
    Absent(String),
    /// The field cannot grow by a step from where it is.
    CannotGrow(String),
    /// The lean lies in no stretch of the working range, so nothing ends it.
    NoRange,
    /// It is too near to being otherwise.
    KnifeEdge,
}

/// A rig that claims are held against, with what is found once for all of them.
pub(crate) struct Judged<'a> {
    rig: &'a Rig,
    range: OnceCell<Result<WorkingRange, Fault>>,
}

impl<'a> Judged<'a> {
    pub(crate) const fn new(rig: &'a Rig) -> Self {
        Self { rig, range: OnceCell::new() }
    }

    /// Its working range: hundreds of times the work of anything else that a claim asks.
    fn range(&self) -> Result<WorkingRange, Fault> {
        self.range.get_or_init(|| working_range(self.rig)).clone()
    }
}

impl Claim {
    /// Whether it holds on `rig`, clearly.
    ///
    /// # Errors
    ///
    /// Why it has no meaning there, or that it is a knife edge: two sides within [`CLEAR`] of one another, a change
    /// too small to be told, half a degree of lean from being otherwise.
    pub fn holds(&self, rig: &Rig) -> Result<bool, Unclear> {
        self.clearly(&Judged::new(rig)).map(|truth| truth.holds)
    }

    /// As [`Self::holds`], with the numbers that it hangs on.
    pub(crate) fn clearly(&self, rig: &Judged<'_>) -> Result<Truth, Unclear> {
        let truth = self.truth_on(rig)?;
        if truth.clear { Ok(truth) } else { Err(Unclear::KnifeEdge) }
    }

    /// Whether it holds on `rig`, and how clearly.
    ///
    /// # Errors
    ///
    /// Why it has no meaning there.
    pub fn truth(&self, rig: &Rig) -> Result<Truth, Unclear> {
        self.truth_on(&Judged::new(rig))
    }

    fn truth_on(&self, judged: &Judged<'_>) -> Result<Truth, Unclear> {
        let rig = judged.rig;
        match self {
            Self::Compare { left, is, right } => compare(rig, left, *is, right),
            Self::Change { of, way, with } => change(rig, of, *way, with),
            Self::InRange(wanted) => {
                // What the working range is made of, asked here and half a degree either way: a hundredth of its work.
                solved(rig)?;
                let inside = holds(rig);
                let beside = |lean: f64| holds(&Rig { lean, ..rig.clone() }) == inside;
                let clear = beside(rig.lean - APART) && beside(rig.lean + APART);
                Ok(Truth { holds: inside == *wanted, clear, sides: None })
            }
            Self::Stands(wanted) => around(rig, |solution| solution.tips().is_none() == *wanted),
            Self::Works(station, wanted) => {
                let number = first_guy(rig, *station).ok_or(Unclear::NoSuchGuy)?;
                if let Some(tip) = solved(rig)?.tips() {
                    return Err(Unclear::Tips(tip));
                }
                around(rig, |solution| {
                    let working = solution.forces().and_then(|forces| forces.working_guy);
                    (working == Some(number)) == *wanted
                })
            }
            Self::Governs(ender, end) => {
                let range = judged.range().map_err(Unclear::Impossible)?;
                let stretch = range.around(rig.lean).ok_or(Unclear::NoRange)?;
                let (lean, limit) = match end {
                    End::Out => (stretch.to, stretch.to_limit),
                    End::Back => (stretch.from, stretch.from_limit),
                };
                // Whatever else is as near as makes no difference there could as well have been it.
                let limits = limits_at(rig, lean).map_err(Unclear::Impossible)?;
                let close = |other: &Governing| other.limit != limit && other.ratio > 1.0 - CLEAR;
                let clear = !limits.iter().any(close);
                Ok(Truth { holds: ender.is(limit, rig), clear, sides: None })
            }
        }
    }
}

/// Whether `rig` can be shown to a learner who judges it by `claims`: it can be computed, and it stands unless one of them
/// is about just that.
///
/// # Errors
///
/// Why not.
pub(crate) fn fit_to_show<'a>(
    rig: &Rig,
    claims: impl IntoIterator<Item = &'a Claim>,
) -> Result<(), Unsuited> {
    let solution = solve(rig).map_err(Unsuited::Impossible)?;
    match solution.tips() {
        Some(tip) if !claims.into_iter().any(|claim| matches!(claim, Claim::Stands(_))) => {
            Err(Unsuited::Tips(tip))
        }
        _ => Ok(()),
    }
}

fn solved(rig: &Rig) -> Result<Solution, Unclear> {
    solve(rig).map_err(Unclear::Impossible)
}

/// What is so at the rig's lean; clear where it is so half a degree either way as well.
fn around(rig: &Rig, is: impl Fn(&Solution) -> bool) -> Result<Truth, Unclear> {
    let holds = is(&solved(rig)?);
    let beside = |lean: f64| solve_at(rig, lean).map_or(true, |solution| is(&solution) == holds);
    let clear = beside(rig.lean - APART) && beside(rig.lean + APART);
    Ok(Truth { holds, clear, sides: None })
}

fn compare(rig: &Rig, left: &Term, is: Comparison, right: &Term) -> Result<Truth, Unclear> {
    let reads = left.of.is_reading() || right.of.is_reading();
    let solution = if reads { Some(solved(rig)?) } else { None };
    let side = |term: &Term| Ok(term.factor * term.of.value(rig, solution.as_ref())?);
    let (a, b) = (side(left)?, side(right)?);
    let greater = a.abs().max(b.abs());
    let apart = (a - b).abs();
    let equal = apart <= EQUAL * greater;
    let far = apart > CLEAR * greater;
    let (holds, clear) = match is {
        Comparison::More => (a > b, far),
        Comparison::AtLeast => (a >= b, far),
        Comparison::Less => (a < b, far),
        Comparison::AtMost => (a <= b, far),
        Comparison::Equal => (equal, equal || far),
    };
    let dimension = left.of.dimension().unwrap_or(Dimension::Ratio);
    Ok(Truth { holds, clear, sides: Some(Sides { left: a, right: b, dimension, change: false }) })
}

fn change(rig: &Rig, of: &Operand, way: Way, with: &str) -> Result<Truth, Unclear> {
    let absent = || Unclear::Absent(with.to_owned());
    let place = field(with).ok_or_else(absent)?;
    let now = place.get(rig).ok_or_else(absent)?;
    let mut grown = rig.clone();
    place.set(&mut grown, now + step(place.dimension())).map_err(|why| match why {
        SetError::Absent => absent(),
        SetError::Fault(_) => Unclear::CannotGrow(with.to_owned()),
    })?;
    let value = |rig: &Rig| of.value(rig, Some(&solved(rig)?));
    let (before, after) = (value(rig)?, value(&grown)?);
    let share = (after - before) / before.abs().max(after.abs()).max(f64::MIN_POSITIVE);
    let found = match share {
        share if share.abs() <= NO_CHANGE => Some(Way::Stays),
        share if share >= CHANGE => Some(Way::Rises),
        share if share <= -CHANGE => Some(Way::Falls),
        _ => None,
    };
    let dimension = of.dimension().unwrap_or(Dimension::Ratio);
    let sides = Sides { left: before, right: after, dimension, change: true };
    Ok(Truth { holds: found == Some(way), clear: found.is_some(), sides: Some(sides) })
}

/// By how much a field grows where a claim asks what becomes of a reading, SI: what someone moves at a time.
const fn step(dimension: Dimension) -> f64 {
    match dimension {
        Dimension::Angle => DEG,
        Dimension::Length => 0.1,
        Dimension::Mass => 10.0,
        Dimension::Force | Dimension::Moment => 100.0,
        Dimension::ForcePerLength => 5.0,
        Dimension::Ratio => 0.05,
        Dimension::Pressure => 1e6,
        Dimension::Area => 1e-3,
        Dimension::Count => 1.0,
    }
}
