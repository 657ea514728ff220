//! The as-built sheet: what is to be measured before anything is loaded, how far it may be off, and the test load.

use crate::Stretching;
use outlean_rig::{
    Dimension, EXTRA_LEAN, Fault, LeanIs, Outcome, Rig, Scatter, Stretch, WorkingRange, solve, solve_at,
    stretched,
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
    /// Of a rig.
    ///
    /// # Errors
    ///
    /// As [`solve`].
    pub fn of(
        rig: &Rig,
        job: &Job,
        range: &WorkingRange,
        stretching: Option<&Stretching>,
    ) -> Result<Self, Fault> {
        solve(rig)?;
        let mass = job.test_load.unwrap_or(rig.load.mass * rig.load.dynamic_factor);
        let before = stretching.and_then(|found| found.set_lean).unwrap_or(rig.lean);
        let known = stretching.is_some_and(|found| found.set_lean.is_some());
        let loaded = |lean: f64| if known { loaded(rig, lean, mass) } else { Ok(None) };
        let under = loaded(before)?;
        // The range is of leans as set, or under load: in either way a frame may stand anywhere between both.
        let ends = range.around(rig.lean).map(|interval| (interval.from, interval.to));
        let ends = match (ends, rig.lean_is) {
            (Some((from, to)), LeanIs::SetBefore | LeanIs::Cut) => {
                let [at_from, at_to] = [from, to].map(|end| loaded(end).ok().flatten().unwrap_or(end));
                Some((from.min(at_from), to.max(at_to)))
            }
            (ends, _) => ends,
        };
        let between = |one: f64, other: f64, off: f64| {
            let (least, most) = (one.min(other), one.max(other));
            let (from, to) = ends.unwrap_or((f64::NEG_INFINITY, f64::INFINITY));
            ((least - off).max(from.min(least)), (most + off).min(to.max(most)))
        };
        let off = job.scatter.angle;
        let at_work = match stretching.and_then(|found| found.least_lean.zip(found.most_lean)) {
            Some((least, most)) if known => between(before.min(least), before.max(most), off),
            _ => between(before, before, EXTRA_LEAN),
        };
        let between = match under {
            Some(under) => between(before, under, off),
            None => between(before, before, EXTRA_LEAN),
        };
        Ok(Self { mass, before, under, between, at_work })
    }
}

/// The lean (rad) at which a frame that is set at `lean` stands with `mass` (kg) hung; `None` where that is not known or it does
/// not stand.
#[inline(never)]
fn loaded(rig: &Rig, lean: f64, mass: f64) -> Result<Option<f64>, Fault> {
    let mut there = Rig { lean, lean_is: LeanIs::SetBefore, ..rig.clone() };
    (there.load.mass, there.load.dynamic_factor) = (mass, 1.0);
    let Some(stretch) = Stretch::of(&there) else { return Ok(None) };
    Ok(match stretched(&there, &stretch)? {
        Outcome::Stands(found) => Some(found.lean),
        _ => None,
    })
}
