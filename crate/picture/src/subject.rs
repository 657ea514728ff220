//! What every view of a rig is given: the rig, what follows from it, the plate.

use crate::drawing::voice::Voice;
use crate::naming::{guy_name, holdfast_name};
use crate::{Lettering, Row, Tone, Words};
use outlean_rig::{Dimension, GuyForce, Part, Rig, Role, Solution, WorkingRange, checks};
use outlean_rigfile::Units;

/// What a picture shows, and on which plate.
#[derive(Clone, Copy, Debug)]
pub struct Subject<'a> {
    /// The rig.
    pub rig: &'a Rig,
    /// The rig solved at its own lean.
    pub solution: &'a Solution,
    /// Its working range.
    pub range: &'a WorkingRange,
    /// Parts past what they may carry.
    pub over: &'a [Part],
    /// The units of the numbers.
    pub units: Units,
    /// The words.
    pub words: &'a Words,
    /// Width of the plate, CSS pixels.
    pub width: f64,
    /// Its height, CSS pixels.
    pub height: f64,
    /// Size of strokes, heads and type: 1 on a page, 0.85 narrow, 2.1 on a projector.
    pub k: f64,
    /// The share of their length that force arrows have grown to, 0 to 1.
    pub grown: f64,
}

impl<'a> Subject<'a> {
    /// Width, height and k, brought within sense where they are not finite or beyond it.
    #[inline(never)]
    pub(crate) fn plate(&self) -> (f64, f64, f64) {
        let sound =
            |value: f64, least: f64| if value.is_finite() { value.max(least).min(20_000.0) } else { least };
        (sound(self.width, 80.0), sound(self.height, 80.0), sound(self.k, 0.5).min(8.0))
    }

    /// How far arrows have grown, 0 to 1; all the way for what is not finite.
    pub(crate) const fn grown(&self) -> f64 {
        if self.grown.is_finite() { self.grown.clamp(0.0, 1.0) } else { 1.0 }
    }

    /// Whether a part is past what it may carry.
    #[inline(never)]
    pub(crate) fn is_over(&self, part: Part) -> bool {
        self.over.contains(&part)
    }

    /// What a guy pulls, by its number, where the rig stands.
    pub(crate) fn guy_force(&self, number: u8) -> Option<&GuyForce> {
        self.solution.forces()?.guys.get(usize::from(number))
    }

    /// The name of a guy, and if it is past what its rope or its holdfast may carry how much that is, N: of the one that may
    /// carry less. Where that is the holdfast, it is named in place of the guy.
    #[inline(never)]
    pub(crate) fn guy_said(&self, number: u8) -> (String, Option<f64>) {
        let past = self.guy_past(number);
        let name = if matches!(past, Some((Part::GuyHoldfast(_), _))) { holdfast_name } else { guy_name };
        let name = name(self.words, self.rig, &self.solution.layout, number);
        (name, past.map(|(_, allowable)| allowable))
    }

    /// Marks what is past what it `may` carry, N, by its first row, and says how much that is.
    #[inline(never)]
    pub(crate) fn mark_past(&self, may: Option<f64>, rows: &mut Vec<Row>) {
        let Some(may) = may else { return };
        if let Some(first) = rows.first_mut() {
            first.past = true;
        }
        let text = self.voice().fill("may_carry", "force", may, Dimension::Force);
        rows.push(Row::new(text, Lettering::Note, Tone::Quiet));
    }

    /// Of a guy past what its rope or its holdfast may carry: which of them may carry less, and how much that is, N.
    fn guy_past(&self, number: u8) -> Option<(Part, f64)> {
        let ours = |part| part == Part::GuyRope(number) || part == Part::GuyHoldfast(number);
        if !self.over.iter().any(|part| ours(*part)) {
            return None;
        }
        let mut least: Option<(Part, f64)> = None;
        for check in checks(self.rig, self.solution) {
            if let (true, Some(allowable)) = (ours(check.part) && self.is_over(check.part), check.allowable)
                && least.is_none_or(|(_, least)| allowable < least)
            {
                least = Some((check.part, allowable));
            }
        }
        least
    }

    /// Whether a guy is drawn taut. Where forces are not `shown` all are: a rope that hangs would tell which of them works.
    pub(crate) fn is_taut(&self, number: u8, shown: bool) -> bool {
        let works = |force: &GuyForce| {
            matches!(force.role, Role::Working | Role::Pretensioned) && force.tension > 0.0
        };
        !shown || self.guy_force(number).is_some_and(works)
    }

    /// Its words and units.
    pub(crate) const fn voice(&self) -> Voice<'a> {
        Voice { words: self.words, units: self.units }
    }
}

/// The parts of a solved rig that are past what they may carry.
#[must_use]
pub fn parts_past(rig: &Rig, solution: &Solution) -> Vec<Part> {
    let checks = checks(rig, solution);
    let past = checks.iter().filter(|check| check.ratio.is_some_and(|ratio| ratio > 1.0));
    past.map(|check| check.part).collect()
}
