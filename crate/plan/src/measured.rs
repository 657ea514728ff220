//! A rig that was measured beside the one that was planned: how far each thing is off, and what that makes of it.

use crate::as_built::REACH;
use crate::{Given, Measure, Plan, Stated, differences};
use outlean_rig::{Dimension, Fault, LeanIs, Limit, Rig, limits_at, solve};
use outlean_rigfile::{choice, field};
use serde::Serialize;

/// A measured rig beside the planned one.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Measured {
    /// Everything on the as-built sheet.
    pub rows: Vec<Compared>,
    /// What else the measured file has otherwise.
    pub others: Vec<Other>,
    /// The lean by a second method less the lean, rad; `None` where it was measured once.
    pub second_lean: Option<f64>,
    /// Whether every row is within its tolerance and both leans agree within that of an angle.
    pub within: bool,
    /// The plan of what was measured.
    pub plan: Plan,
}

/// One thing, planned and measured.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Compared {
    /// What was planned.
    #[serde(flatten)]
    pub planned: Measure,
    /// As measured, in SI units; `None` where the measured rig has no such thing.
    pub measured: Option<f64>,
    /// Whether it is within its tolerance.
    pub within: bool,
    /// What would come of it were this alone as measured and all else as planned; `None` where it is not off at all, and
    /// where such a rig cannot be.
    pub alone: Option<Effect>,
}

/// Something else that is otherwise.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Other {
    /// Its key in a rig file.
    pub key: String,
    /// What was planned.
    pub planned: Option<Stated>,
    /// What was measured.
    pub measured: Option<Stated>,
    /// As in [`Compared`].
    pub alone: Option<Effect>,
}

/// The limit that one thing moves most.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Effect {
    /// Which.
    pub limit: Limit,
    /// Its ratio as planned; 0 where it was not near.
    pub before: f64,
    /// Its ratio with that one thing as measured; infinite where the frame then tips or stands against a rule.
    pub after: f64,
}

/// What is off by less than this, in SI units, is not off.
const NOTHING: f64 = 1e-6;

impl Measured {
    /// Of a measured rig beside a plan and the rig it was made of. What is measured is the lean before loading: a plan whose lean is
    /// said as it stands under load, on guys that are known to stretch, is held against what was measured as set before loading.
    ///
    /// # Errors
    ///
    /// As [`solve`], of the measured rig.
    pub fn of(plan: &Plan, planned: &Rig, measured: &Given<'_>) -> Result<Self, Fault> {
        let set_lean = plan.stretching.as_ref().and_then(|found| found.set_lean);
        let lean_is = if set_lean.is_some() { LeanIs::SetBefore } else { measured.rig.lean_is };
        let rig = &Rig { lean_is, ..measured.rig.clone() };
        let measured = &Given { rig, ..*measured };
        let layout = solve(rig)?.layout;
        let mut rows = Vec::new();
        for row in &plan.as_built {
            let value = match row.key.as_str() {
                REACH => Some(layout.reach()),
                key => field(key).and_then(|field| field.get(rig)),
            };
            let off = value.map(|value| value - row.planned);
            // The lean by the plumb line is the lean once more.
            let alone = off.filter(|off| off.abs() > NOTHING && row.key != REACH);
            rows.push(Compared {
                measured: value,
                within: off.is_some_and(|off| off.abs() <= row.tolerance + NOTHING),
                alone: alone.and_then(|off| {
                    // Of a lean under load the sheet has the lean before it: as far off as that is.
                    let value = if row.key == "lean" { planned.lean + off } else { value? };
                    alone_as(planned, &row.key, Stated::Number(value))
                }),
                planned: row.clone(),
            });
        }
        let listed = |key: &str| {
            rows.iter().any(|row| row.planned.key == key)
                || key.starts_with("feet.at.")
                || (key == "lean_is" && set_lean.is_some())
                || twin(&rows, key)
        };
        let others = differences(&[planned, rig]).into_iter().filter(|found| !listed(&found.key));
        let others = others
            .map(|found| {
                let at = |place: usize| found.values.get(place).copied().flatten();
                let alone = at(1).and_then(|value| alone_as(planned, &found.key, value));
                Other { planned: at(0), measured: at(1), alone, key: found.key.clone() }
            })
            .collect();
        let again = measured.job.lean_again.map(|lean| lean.from_vertical(layout.slant_height) - rig.lean);
        let leans_agree = again.is_none_or(|off| off.abs() <= plan.job.scatter.angle + NOTHING);
        Ok(Self {
            within: leans_agree && rows.iter().all(|row| row.within),
            rows,
            others,
            second_lean: again,
            plan: Plan::of(measured)?,
        })
    }
}

/// Whether a key says again what a row of the sheet says: a setback of a fore guy is its distance ahead.
fn twin(rows: &[Compared], key: &str) -> bool {
    let other = if let Some(stem) = key.strip_suffix(".setback") {
        format!("{stem}.ahead")
    } else if let Some(stem) = key.strip_suffix(".ahead") {
        format!("{stem}.setback")
    } else {
        return false;
    };
    rows.iter().any(|row| row.planned.key == other)
}

/// What becomes of the planned rig with one thing as measured.
fn alone_as(planned: &Rig, key: &str, value: Stated) -> Option<Effect> {
    let mut rig = planned.clone();
    match value {
        Stated::Number(value) => field(key)?.set(&mut rig, value).ok()?,
        Stated::Word(word) => choice(key)?.set(&mut rig, word).ok()?,
    }
    let before = limits_at(planned, planned.lean).ok()?;
    let after = limits_at(&rig, rig.lean).ok()?;
    let effects = after.iter().map(|after| {
        let before = before.iter().find(|before| before.limit == after.limit);
        Effect { limit: after.limit, before: before.map_or(0.0, |before| before.ratio), after: after.ratio }
    });
    effects.max_by(|a, b| a.change().total_cmp(&b.change()))
}

impl Effect {
    /// How far it moves the ratio, either way.
    fn change(&self) -> f64 {
        let change = (self.after - self.before).abs();
        // Infinite before and after: it makes no difference.
        if change.is_nan() { 0.0 } else { change }
    }
}

/// What kind of quantity stands at a key; `None` for a word.
pub(crate) fn dimension_of(key: &str) -> Option<Dimension> {
    field(key).map(|field| field.dimension())
}
