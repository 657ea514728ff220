//! The working range: the leans at which everything assessed holds.

use crate::angle::degrees;
use crate::limit::{governing_at, governing_unstretched, holds_at, limit_at};
use crate::numeric::{bisect, grid, valley};
use crate::{Case, Fault, Governing, Limit, Rig, Stretch};
use arrayvec::ArrayVec;

/// The lean farthest back at which anything is looked for: −30°, rad.
pub const FARTHEST_BACK: f64 = degrees(-30.0);
/// The lean farthest out at which anything is looked for: 80°, rad.
pub const FARTHEST_OUT: f64 = degrees(80.0);
/// Grid of leans, rad: 0.25°.
pub(crate) const STEP: f64 = degrees(0.25);
/// Ends are found to this, rad: 0.01°.
pub(crate) const WIDTH: f64 = degrees(0.01);

/// One stretch of leans at which everything assessed holds.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Interval {
    /// Its end farther back, rad.
    pub from: f64,
    /// Its end farther out, rad.
    pub to: f64,
    /// What governs at `from`.
    pub from_limit: Limit,
    /// What governs at `to`.
    pub to_limit: Limit,
    /// What is going on when `from_limit` governs.
    pub from_case: Case,
    /// What is going on when `to_limit` governs.
    pub to_case: Case,
}

/// The working range of lean of a rig.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct WorkingRange {
    /// The stretches, from the one farthest back; empty where nothing holds. Ratios need not rise with
    /// lean, so there may be several.
    pub intervals: ArrayVec<Interval, 8>,
    /// The lean (rad) at which the rig is nearest to holding, or best inside, as if no guy stretched where that is inside.
    pub best_lean: f64,
    /// What governs there.
    pub best_limit: Limit,
    /// The greatest ratio there; infinite where at every lean the frame tips or a rule is not kept: `best_lean` is then the
    /// one farthest out.
    pub best_ratio: f64,
}

impl WorkingRange {
    /// The stretch that `lean` (rad) lies in, ends included.
    #[must_use]
    pub fn around(&self, lean: f64) -> Option<&Interval> {
        self.intervals.iter().find(|interval| interval.from <= lean && lean <= interval.to)
    }
}

/// The working range of lean of a rig, its anchors and haul points staying where they are on the ground.
///
/// A lean is in it when in every case ([`Rig::cases`]: lowering, holding and raising, at every stage, with the
/// main line lost where that is assessed) every assessed ratio is at most 1, the frame does not tip, no unpinned
/// foot slides on a known friction, the clear reach and headroom asked for are there, and the frame is not further
/// back than the upright stop. What is not assessed does not narrow it. Looked for between [`FARTHEST_BACK`] and
/// [`FARTHEST_OUT`] on a grid of 0.25° with the turning points of the worst ratio between; ends to 0.01°,
/// each on the side that holds. What is narrower than the grid, between two limits that are passed all at once, such as
/// a clear reach and a headroom asked for, can be missed.
///
/// Where it is known how the guys stretch, the path of a growing load is followed from the leans so found, 1° apart and at
/// their ends, and the range drawn in to those at which the load can grow to the margin asked for. Of a frame set before
/// loading all that is looked at holds as it is set and where it [comes to rest](Rig::comes_to_rest), in each case.
///
/// # Errors
///
/// As [`crate::solve`] at the rig's own lean.
pub fn working_range(rig: &Rig) -> Result<WorkingRange, Fault> {
    crate::solve(rig)?;
    let range = WorkingRange::search(rig.lean, |lean| governing_unstretched(rig, lean));
    Ok(match Stretch::of(rig) {
        Some(_) => range.followed(|lean| holds_at(rig, lean), |lean| governing_at(rig, lean)),
        None => range,
    })
}

/// The leans at which one limit alone is not passed, whatever the others do: a part's own limit lean. As
/// [`working_range`], of that limit.
///
/// # Errors
///
/// As [`crate::solve`] at the rig's own lean.
pub fn range_within(rig: &Rig, limit: Limit) -> Result<WorkingRange, Fault> {
    crate::solve(rig)?;
    Ok(WorkingRange::search(rig.lean, |lean| limit_at(rig, lean, limit)))
}

impl WorkingRange {
    /// Looks along all leans for those at which `worst` holds. Where no ratio is finite the best is the one farthest out.
    fn search(lean: f64, worst: impl Fn(f64) -> Governing) -> Self {
        let mut range = Self {
            intervals: ArrayVec::new(),
            best_lean: lean,
            best_limit: Limit::NotLookedFurther,
            best_ratio: f64::INFINITY,
        };
        let mut open: Option<(f64, Limit, Case)> = None;
        let mut last: Option<(f64, Governing)> = None;
        let mut before_last: Option<(f64, Governing)> = None;
        for lean in grid(FARTHEST_BACK, FARTHEST_OUT, STEP) {
            let here = (lean, worst(lean));
            // A peak or a valley of the ratio between grid points may cross 1 and come back unseen.
            if let (Some(a), Some(b)) = (before_last, last)
                && let Some(turn) = turning_point(a, b, here, &worst)
            {
                if turn.0 > b.0 {
                    range.take(last, turn, &mut open, &worst);
                    last = Some(turn);
                } else {
                    // Between two leans alike in holding or not, where nothing was opened or closed.
                    range.take(before_last, turn, &mut open, &worst);
                    range.take(Some(turn), b, &mut open, &worst);
                }
            }
            // So may a stretch beside a lean at which the frame tips.
            if let Some(b) = last
                && let Some(edge) = edge(b, here, &worst)
            {
                range.take(last, edge, &mut open, &worst);
                last = Some(edge);
            }
            range.take(last, here, &mut open, &worst);
            before_last = last;
            last = Some(here);
        }
        if let (Some((from, from_limit, from_case)), Some((to, at))) = (open, last) {
            let end = Interval {
                from,
                to,
                from_limit,
                to_limit: Limit::NotLookedFurther,
                from_case,
                to_case: at.case,
            };
            // Eight stretches of one rig are beyond sense; a ninth is left out rather than a panic.
            let _ = range.intervals.try_push(end);
        }
        range
    }

    /// Takes in the next lean looked at, closing or opening a stretch between it and the last.
    fn take(
        &mut self,
        last: Option<(f64, Governing)>,
        (lean, here): (f64, Governing),
        open: &mut Option<(f64, Limit, Case)>,
        worst: &impl Fn(f64) -> Governing,
    ) {
        if here.ratio < self.best_ratio || (here.ratio.is_infinite() && self.best_ratio.is_infinite()) {
            (self.best_lean, self.best_limit, self.best_ratio) = (lean, here.limit, here.ratio);
        }
        let Some((before, was)) = last else {
            if here.holds() {
                *open = Some((lean, Limit::NotLookedFurther, here.case));
            }
            return;
        };
        if was.holds() == here.holds() {
            return;
        }
        if here.holds() {
            let (inside, outside) = bisect(lean, before, WIDTH, |lean| worst(lean).holds());
            let ends = worst(outside);
            *open = Some((inside, ends.limit, ends.case));
        } else if let Some((from, from_limit, from_case)) = open.take() {
            let (to, outside) = bisect(before, lean, WIDTH, |lean| worst(lean).holds());
            let ends = worst(outside);
            let interval =
                Interval { from, to, from_limit, to_limit: ends.limit, from_case, to_case: ends.case };
            let _ = self.intervals.try_push(interval);
        }
    }
}

/// The turning point of the worst ratio around the middle one of three leans, if it crosses 1 there and the
/// middle lean itself does not show it.
fn turning_point(
    a: (f64, Governing),
    b: (f64, Governing),
    c: (f64, Governing),
    worst: &impl Fn(f64) -> Governing,
) -> Option<(f64, Governing)> {
    let (ratio_a, ratio_b, ratio_c) = (a.1.ratio, b.1.ratio, c.1.ratio);
    if !(ratio_a.is_finite() && ratio_b.is_finite() && ratio_c.is_finite()) {
        return None;
    }
    let peak = b.1.holds() && ratio_b >= ratio_a && ratio_b >= ratio_c;
    let dip = !b.1.holds() && ratio_b <= ratio_a && ratio_b <= ratio_c;
    // A plateau is not turned on.
    let flat = ratio_a.to_bits() == ratio_b.to_bits() && ratio_b.to_bits() == ratio_c.to_bits();
    if flat || (!peak && !dip) {
        return None;
    }
    let sign = if peak { -1.0 } else { 1.0 };
    let at = valley(a.0, c.0, |lean| sign * worst(lean).ratio);
    let found = worst(at);
    (found.holds() != b.1.holds() && at > a.0 && at < c.0).then_some((at, found))
}

/// The last lean with a finite ratio between one that has and one that has none, neither of which holds, if that
/// lean holds.
fn edge(
    a: (f64, Governing),
    b: (f64, Governing),
    worst: &impl Fn(f64) -> Governing,
) -> Option<(f64, Governing)> {
    if a.1.holds() || b.1.holds() || a.1.ratio.is_finite() == b.1.ratio.is_finite() {
        return None;
    }
    let (from, to) = if a.1.ratio.is_finite() { (a.0, b.0) } else { (b.0, a.0) };
    let (at, _) = bisect(from, to, WIDTH, |lean| worst(lean).ratio.is_finite());
    let found = worst(at);
    found.holds().then_some((at, found))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Part;

    fn ratio(ratio: f64) -> Governing {
        Governing { ratio, limit: Limit::Part(Part::Lashing), case: Case::default() }
    }

    fn found(worst: impl Fn(f64) -> f64) -> Vec<(f64, f64)> {
        let range = WorkingRange::search(0.0, |lean| ratio(worst(lean.to_degrees())));
        range.intervals.iter().map(|i| (i.from.to_degrees(), i.to.to_degrees())).collect()
    }

    /// Wherever a peak or a dip lies between the leans looked at.
    #[test]
    fn a_turn_between_two_leans_of_the_grid_is_not_missed() {
        for step in 0..50 {
            let middle = 10.0 + 0.01 * f64::from(step);
            let peak = found(|lean| 1.0 + 0.01 * (0.01 - (lean - middle) * (lean - middle)));
            assert_eq!(peak.len(), 2, "a peak at {middle}");
            assert!((peak[0].1 - (middle - 0.1)).abs() < 0.011 && (peak[1].0 - (middle + 0.1)).abs() < 0.011);
            let dip = found(|lean| 1.0 - 0.01 * (0.01 - (lean - middle) * (lean - middle)));
            assert_eq!(dip.len(), 1, "a dip at {middle}");
            assert!((dip[0].0 - (middle - 0.1)).abs() < 0.011 && (dip[0].1 - (middle + 0.1)).abs() < 0.011);
        }
    }

    /// A stretch narrower than the grid between a stop and a strength.
    #[test]
    fn a_stretch_beside_a_stop_is_not_missed() {
        for step in 0..50 {
            let stop = 10.0 + 0.01 * f64::from(step);
            let out = found(|lean| if lean < stop { f64::INFINITY } else { 1.0 + 0.1 * (lean - stop - 0.1) });
            assert_eq!(out.len(), 1, "from {stop}");
            assert!((out[0].0 - stop).abs() < 0.011 && (out[0].1 - stop - 0.1).abs() < 0.011);
            let back =
                found(|lean| if lean > stop { f64::INFINITY } else { 1.0 - 0.1 * (lean - stop + 0.1) });
            assert_eq!(back.len(), 1, "to {stop}");
        }
    }

    #[test]
    fn a_frame_with_no_guys_has_no_working_range() {
        let rig = Rig::new(4.0, 1.2, 0.0, 100.0);
        assert!(working_range(&rig).is_ok_and(|range| range.intervals.is_empty()));
    }
}
