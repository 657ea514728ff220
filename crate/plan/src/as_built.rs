//! The as-built sheet: what is to be measured before anything is loaded, how far it may be off, and the test load.

use crate::Stretching;
use outlean_rig::{
    Case, Check, Dimension, EXTRA_LEAN, Fault, LeanIs, Operation, Outcome, Rig, Scatter, Side, Solution,
    Stretch, WorkingRange, checks, each_other, slide, solve, solve_at, stretched,
};
use outlean_rigfile::{Job, field};
use serde::Serialize;

/// One thing to measure.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Measure {
    /// The key of the rig file at which it stands; `reach` for the lean by the plumb line.
    pub key: String,
    /// The guy that it belongs to, counted from 0.
    pub guy: Option<u8>,
    /// What kind of quantity it is.
    pub dimension: Dimension,
    /// As planned, in SI units.
    pub planned: f64,
    /// How far it may be off either way: as far as the plan's uncertainty was worked out for.
    pub tolerance: f64,
}

/// The key of the lean by the plumb line: level from the foot line to under the head.
pub const REACH: &str = "reach";

/// Everything to measure, in the order in which it is paced out: the lean by angle and by plumb line, the spread, anchors,
/// what the lines run to, the edge.
///
/// # Errors
///
/// As [`solve`], of the rig as it is set, and a little off.
pub fn measures(rig: &Rig, scatter: &Scatter, set_lean: Option<f64>) -> Result<Vec<Measure>, Fault> {
    let lean = set_lean.unwrap_or(rig.lean);
    let set = solve_at(rig, lean)?.layout;
    let mut all = vec![Measure {
        key: "lean".to_owned(),
        guy: None,
        dimension: Dimension::Angle,
        planned: lean,
        tolerance: scatter.angle,
    }];
    // As far as the head goes for so much lean: out, or back where it can go no farther out.
    let off = solve_at(rig, lean + scatter.angle).or_else(|_| solve_at(rig, lean - scatter.angle))?;
    let beyond = (off.layout.reach() - set.reach()).abs();
    let mut put = |key: &str, guy: Option<u8>, planned: f64, tolerance: f64| {
        all.push(Measure { key: key.to_owned(), guy, dimension: Dimension::Length, planned, tolerance });
    };
    put(REACH, None, set.reach(), beyond);
    let mut of = |key: String, guy: Option<u8>| {
        if let Some(planned) = field(&key).and_then(|field| field.get(rig)) {
            put(&key, guy, planned, scatter.length);
        }
    };
    of("feet.spread".to_owned(), None);
    for (number, guy) in (0_u8..).zip(&rig.guys).filter(|(_, guy)| guy.rigged) {
        let ahead = set.setback(guy.anchor) < 0.0;
        for name in [if ahead { "ahead" } else { "setback" }, "offset", "rise"] {
            of(format!("guy.{number}.{name}"), Some(number));
        }
    }
    for line in ["line", "second"] {
        for name in ["back", "left", "up"] {
            of(format!("{line}.to.{name}"), None);
        }
    }
    for key in ["edge.ahead", "edge.level"] {
        of(key.to_owned(), None);
    }
    Ok(all)
}

/// The test load, and what the frame should do under it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Test {
    /// What is hung, kg: as the job says, else the load with its factor for motion. Our choice.
    pub mass: f64,
    /// Whether the frame stands with it hanging, no part past what it may carry then.
    pub holds: bool,
    /// The lean before it is hung, rad.
    pub before: f64,
    /// The lean with it hanging, rad; `None` where it is not known how the guys stretch, or it does not stand.
    pub under: Option<f64>,
    /// The leans between which it must stay with it, rad: the expected ones and as far as an angle may be off, where none is
    /// expected [`EXTRA_LEAN`] either way; not beyond where a frame set at an end of the working range stands, but for what is
    /// expected. Our choice.
    pub between: (f64, f64),
    /// The same at work, in any case.
    pub at_work: (f64, f64),
}

impl Test {
    /// Of a rig, and the rig with the test load as it is hung.
    ///
    /// # Errors
    ///
    /// As [`solve`], with the load and with the test load.
    pub fn of(
        rig: &Rig,
        job: &Job,
        range: &WorkingRange,
        stretching: Option<&Stretching>,
    ) -> Result<(Self, Rig), Fault> {
        solve(rig)?;
        let mass = job.test_load.unwrap_or(rig.load.mass * rig.load.dynamic_factor);
        let set_lean = stretching.and_then(|found| found.set_lean);
        let before = set_lean.unwrap_or(rig.lean);
        // It is hung clear on the frame as it is set, and nothing moves.
        let mut tested = match set_lean {
            Some(lean) => Rig { lean, lean_is: LeanIs::SetBefore, ..rig.clone() },
            None => rig.clone(),
        };
        (tested.load.mass, tested.load.dynamic_factor) = (mass, 1.0);
        tested.case = Case::of(Operation::Holding);
        let under = if set_lean.is_some() { Stands::of(&tested)? } else { Stands::NotKnown };
        let solution = solve(&tested)?;
        let past = |check: &Check| check.ratio.is_some_and(|ratio| ratio > 1.0);
        let mut holds = solution.forces().is_some()
            && under != Stands::Falls
            && !checks(&tested, &solution).iter().any(past);
        let mut grips = |there: &Rig, solution: &Solution| {
            let mut slides = Side::BOTH.iter().filter_map(|side| slide(there, solution, *side));
            holds &= slides.all(|slide| slide.ratio <= 1.0);
        };
        grips(&tested, &solution);
        each_other(&tested, &solution, &mut grips);
        let off = job.scatter.angle;
        let ends = |of: &dyn Fn(f64) -> Option<(f64, f64)>| ends(rig, range, of);
        let with_it = ends(&|lean| Stands::of(&Rig { lean, ..tested.clone() }).ok()?.at().map(|at| (at, at)));
        let between = match under.at() {
            Some(at) => bounds(before, at, off, with_it),
            None => bounds(before, before, EXTRA_LEAN, with_it),
        };
        let at_work = match stretching.and_then(|found| found.least_lean.zip(found.most_lean)) {
            Some((least, most)) if set_lean.is_some() => {
                bounds(before.min(least), before.max(most), off, ends(&|lean| at_work(rig, lean)))
            }
            _ => bounds(before, before, EXTRA_LEAN, ends(&|_| None)),
        };
        Ok((Self { mass, holds, before, under: under.at(), between, at_work }, tested))
    }
}

/// What becomes of a frame that is set at its lean and loaded.
#[derive(Clone, Copy, PartialEq)]
enum Stands {
    /// At a lean, rad.
    At(f64),
    Falls,
    /// It is not known how its guys stretch.
    NotKnown,
}

impl Stands {
    #[inline(never)]
    fn of(rig: &Rig) -> Result<Self, Fault> {
        let there = Rig { lean_is: LeanIs::SetBefore, ..rig.clone() };
        let Some(stretch) = Stretch::of(&there) else { return Ok(Self::NotKnown) };
        Ok(match stretched(&there, &stretch)? {
            Outcome::Stands(found) => Self::At(found.lean),
            _ => Self::Falls,
        })
    }

    const fn at(self) -> Option<f64> {
        match self {
            Self::At(lean) => Some(lean),
            _ => None,
        }
    }
}

/// The least and the greatest lean, rad, at which a frame set at `lean` stands at work, in any case; `None` where it does not, or
/// that is not known.
fn at_work(rig: &Rig, lean: f64) -> Option<(f64, f64)> {
    let mut found: Option<(f64, f64)> = None;
    for case in rig.cases() {
        let at = Stands::of(&Rig { case, lean, ..rig.clone() }).ok()?.at()?;
        let (least, most) = found.unwrap_or((at, at));
        found = Some((least.min(at), most.max(at)));
    }
    found
}

/// The leans, rad, between which a frame inside its working range may stand, which is of leans as set, or under load: in either way
/// anywhere between both. `loaded` gives where one that is set at a lean then stands.
fn ends(rig: &Rig, range: &WorkingRange, loaded: &dyn Fn(f64) -> Option<(f64, f64)>) -> Option<(f64, f64)> {
    let interval = range.around(rig.lean)?;
    let (from, to) = (interval.from, interval.to);
    if matches!(rig.lean_is, LeanIs::UnderLoad) {
        return Some((from, to));
    }
    let at = |end: f64| loaded(end).unwrap_or((end, end));
    Some((from.min(at(from).0), to.max(at(to).1)))
}

/// From `off` below what is expected to as much above, not beyond the ends but for what is expected; rad.
fn bounds(one: f64, other: f64, off: f64, ends: Option<(f64, f64)>) -> (f64, f64) {
    let (least, most) = (one.min(other), one.max(other));
    let (from, to) = ends.unwrap_or((f64::NEG_INFINITY, f64::INFINITY));
    ((least - off).max(from.min(least)), (most + off).min(to.max(most)))
}
