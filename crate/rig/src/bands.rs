//! Bands: the bounds between which nine in ten of many rigs lie that are a little off what was entered, along a lever.

use crate::scatter::{END, scattered};
use crate::{Fault, Lever, Quantity, Rig, Scatter, solve};
use arrayvec::ArrayVec;

/// How many rigs are drawn.
pub const BAND_DRAWS: u32 = 512;
/// How many values of the lever each is solved at.
pub const BAND_PLACES: u32 = 41;
/// So many of the least and of the greatest values are kept: those beyond a bound, and the bound.
const KEPT: usize = 27;
/// The seed of the draws: the same for every rig, so that a band moves with its rig and does not flicker.
pub const BAND_SEED: u64 = 1;

/// The least values so far of those seen, in order.
type Least = ArrayVec<f64, KEPT>;

/// What was seen of one line at one value of the lever.
#[derive(Clone, Debug, PartialEq, Default)]
struct Ends {
    /// How many of the draws stand there.
    stand: u32,
    least: Least,
    /// The greatest, negated.
    most: Least,
}

/// Bands of some quantities of a rig along a lever, drawn little by little. Every number of the rig is off within its
/// scatter, the lever's own too.
#[derive(Clone, Debug, PartialEq)]
pub struct Bands {
    rig: Rig,
    scatter: Scatter,
    lever: Lever,
    shown: (f64, f64),
    lines: Vec<Quantity>,
    drawn: u32,
    ends: Vec<Ends>,
}

impl Bands {
    /// Bands of the quantities `lines` of `rig` along `lever`, from and to two values of it (SI). None of them is drawn yet.
    ///
    /// # Errors
    ///
    /// A scatter out of range.
    pub fn new(
        rig: &Rig,
        scatter: Scatter,
        lever: Lever,
        shown: (f64, f64),
        lines: Vec<Quantity>,
    ) -> Result<Self, Fault> {
        scatter.check()?;
        let ends = vec![Ends::default(); lines.len() * BAND_PLACES as usize];
        Ok(Self { rig: rig.clone(), scatter, lever, shown, lines, drawn: 0, ends })
    }

    /// Draws so many more rigs, as far as there are any left; whether any was drawn.
    pub fn draw(&mut self, draws: u32) -> bool {
        let first = self.drawn;
        let last = self.drawn.saturating_add(draws).min(BAND_DRAWS);
        while self.drawn < last {
            let drawn = scattered(&self.rig, &self.scatter, BAND_SEED, self.drawn);
            let off = self.lever.get(&drawn).zip(self.lever.get(&self.rig)).map_or(0.0, |(is, was)| is - was);
            for place in 0..BAND_PLACES {
                // Anew for each, as in a sweep.
                let mut there = drawn.clone();
                self.lever.set(&mut there, self.at(place) + off);
                let Ok(solution) = solve(&there) else { continue };
                let values = self.lines.iter().map(|line| line.of(&solution));
                let ends = self.ends.iter_mut().skip(place as usize).step_by(BAND_PLACES as usize);
                for (ends, value) in ends.zip(values) {
                    let Some(value) = value.filter(|value| value.is_finite()) else { continue };
                    ends.stand += 1;
                    keep(&mut ends.least, value);
                    keep(&mut ends.most, -value);
                }
            }
            self.drawn += 1;
        }
        self.drawn > first
    }

    /// What is banded.
    #[must_use]
    pub fn lines(&self) -> &[Quantity] {
        &self.lines
    }

    /// The value of the lever (SI) at a place, of [`BAND_PLACES`].
    #[must_use]
    pub fn at(&self, place: u32) -> f64 {
        let (from, to) = self.shown;
        from + (to - from) * f64::from(place) / f64::from(BAND_PLACES - 1)
    }

    /// The bounds, in the line's SI unit, at a place of a line, by its number: one in twenty of the draws that stand there is below, one above.
    /// `None` before all are drawn, and where half of them or more do not stand.
    #[must_use]
    pub fn bounds(&self, line: usize, place: u32) -> Option<(f64, f64)> {
        let ends = self.ends.get(line * BAND_PLACES as usize + place as usize)?;
        if place >= BAND_PLACES || self.drawn < BAND_DRAWS || ends.stand <= BAND_DRAWS / 2 {
            return None;
        }
        let bound = libm::round(END * f64::from(ends.stand - 1)) as usize;
        Some((*ends.least.get(bound)?, -*ends.most.get(bound)?))
    }
}

/// Puts a value among the least, if it is one.
fn keep(least: &mut Least, value: f64) {
    let place = least.iter().position(|kept| value < *kept).unwrap_or(least.len());
    if least.is_full() {
        if place == least.len() {
            return;
        }
        least.pop();
    }
    let _ = least.try_insert(place, value);
}
