//! What the curves run over: the lean or another lever, how far, and the numbers on its rule.

use crate::decade::decade;
use outlean_rig::{Dimension, Lever, Limit, Rig, WorkingRange};
use outlean_rigfile::{DEG, FT, Units, fixed};

/// Setbacks shown, m; farther where the anchor stands farther.
pub const SETBACKS: (f64, f64) = (1.0, 15.0);
/// Spreads shown, m; wider where the feet stand wider.
pub const SPREADS: (f64, f64) = (0.5, 4.0);

/// The values of a lever to show, in its SI unit. Setback and spread have room of their own, the haul direction a quarter
/// turn either way, or a half turn where it is led forward; of other levers from nothing to twice what is set. A lean:
/// the working range with a little beyond it, upright, and 60°.
pub(crate) fn shown(lever: Lever, rig: &Rig, range: &WorkingRange) -> (f64, f64) {
    let now = lever.get(rig).filter(|now| now.is_finite()).unwrap_or(0.0);
    let holding = |(least, most): (f64, f64)| (least.min(now), most.max(now));
    match lever {
        Lever::Lean => leans(range),
        Lever::Setback(_) => holding(SETBACKS),
        Lever::Spread => holding(SPREADS),
        Lever::HaulDirection => {
            let turn = if now.abs() <= 90.0 * DEG { 90.0 * DEG } else { 180.0 * DEG };
            (-turn, turn)
        }
        _ => (0.0, (2.0 * now).max(1e-3)),
    }
}

/// In whole fives back and whole tens out.
fn leans(range: &WorkingRange) -> (f64, f64) {
    let ends = |limit: Limit| limit != Limit::NotLookedFurther;
    let (mut back, mut out) = (0.0_f64, 60.0_f64);
    for interval in &range.intervals {
        // A range that nobody has ended yet may run out of the picture.
        let from =
            if ends(interval.from_limit) { interval.from / DEG } else { (interval.from / DEG).max(-10.0) };
        let to =
            if ends(interval.to_limit) { interval.to / DEG + 0.5 } else { (interval.to / DEG).min(70.0) };
        back = back.min(libm::floor(from / 5.0) * 5.0);
        out = out.max(libm::ceil(to / 10.0) * 10.0);
    }
    (back.max(-30.0) * DEG, out.min(80.0) * DEG)
}

/// The graduation of the rule under the panels: fine strokes, every fifth and tenth longer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Rule {
    /// From one fine stroke to the next, SI.
    pub(crate) fine: f64,
    /// The same in the unit shown, a power of ten, and its exponent.
    power: f64,
    exponent: i32,
    unit: &'static str,
}

impl Rule {
    /// The graduation of values from and to (SI) in the units shown: whole degrees, or a power of ten of the unit, ten to a
    /// hundred of them.
    pub(crate) fn of(dimension: Dimension, (from, to): (f64, f64), units: Units) -> Self {
        let (size, unit) = match (dimension, units) {
            (Dimension::Length, Units::Us) => (FT, "\u{2009}ft"),
            (Dimension::Length, Units::Metric) => (1.0, "\u{2009}m"),
            (Dimension::Angle, _) => return Self { fine: DEG, power: 1.0, exponent: 0, unit: "°" },
            _ => (1.0, ""),
        };
        let (power, exponent) = decade(0.1 * (to - from) / size);
        Self { fine: power * size, power, exponent, unit }
    }

    /// The strokes between two values, counted from 0.
    pub(crate) fn strokes(&self, (from, to): (f64, f64)) -> core::ops::RangeInclusive<i32> {
        let count = |value: f64| (value / self.fine).clamp(-1000.0, 1000.0);
        libm::ceil(count(from) - 1e-6) as i32..=libm::floor(count(to) + 1e-6) as i32
    }

    /// Strokes from one number to the next, where a stroke is so wide and a number needs so much room.
    pub(crate) fn every(&self, stroke: f64, need: f64) -> i32 {
        let least = if self.unit == "°" { 10 } else { 1 };
        [1, 2, 5, 10, 20, 50]
            .into_iter()
            .find(|n| *n >= least && stroke * f64::from(*n) >= need)
            .unwrap_or(90)
    }

    /// The number at a stroke.
    pub(crate) fn number(&self, stroke: i32) -> String {
        let decimals = (-self.exponent).clamp(0, 4) as usize;
        let shown = f64::from(stroke.abs()) * self.power;
        let sign = if stroke < 0 { "−" } else { "" };
        format!("{sign}{}{}", fixed(shown, decimals), self.unit)
    }
}
