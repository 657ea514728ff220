//! Followed: a working range drawn in to the leans at which guys that stretch hold.

use crate::Governing;
use crate::angle::degrees;
use crate::numeric::{bisect, grid};
use crate::range::{Interval, WIDTH, WorkingRange};
use arrayvec::ArrayVec;

/// Leans at which the path of a growing load is followed are no farther apart, rad.
const STEP: f64 = degrees(1.0);

impl WorkingRange {
    /// This range, found as if no guy stretched, without the leans at which `holds`, which follows the path of a growing
    /// load, does not. `worst` says how near the limits are then.
    ///
    /// Looked at at its ends and 1° apart between, new ends to 0.01° as all are. Less than a degree that holds between
    /// two leans that do not is left out; less than a degree that does not hold between two that do is not seen.
    pub(crate) fn followed(mut self, holds: impl Fn(f64) -> bool, worst: impl Fn(f64) -> Governing) -> Self {
        let unstretched = core::mem::take(&mut self.intervals);
        for interval in &unstretched {
            for part in drawn_in(interval, &holds, &worst) {
                // As many as fit: a ninth is left out, as of a range without stretch.
                let _ = self.intervals.try_push(part);
            }
        }
        let widest = |a: &&Interval, b: &&Interval| (a.to - a.from).total_cmp(&(b.to - b.from));
        self.best_lean = match self.intervals.iter().max_by(widest) {
            Some(_) if self.around(self.best_lean).is_some() => self.best_lean,
            Some(widest) => widest.from,
            None => nearest(&unstretched, self.best_lean, &worst),
        };
        let best = worst(self.best_lean);
        (self.best_limit, self.best_ratio) = (best.limit, best.ratio);
        self
    }
}

/// The parts of an interval in which it holds.
fn drawn_in(
    whole: &Interval,
    holds: &impl Fn(f64) -> bool,
    worst: &impl Fn(f64) -> Governing,
) -> ArrayVec<Interval, 8> {
    let mut parts = ArrayVec::new();
    let mut open: Option<Interval> = None;
    let mut last: Option<f64> = None;
    for lean in grid(whole.from, whole.to, STEP) {
        match (open.as_mut(), holds(lean)) {
            (Some(part), true) => part.to = lean,
            (None, true) => {
                let mut part = Interval { to: lean, ..*whole };
                if let Some(last) = last {
                    let (inside, outside) = bisect(lean, last, WIDTH, holds);
                    let ends = worst(outside);
                    (part.from, part.from_limit, part.from_case) = (inside, ends.limit, ends.case);
                }
                open = Some(part);
            }
            (Some(part), false) => {
                let (inside, outside) = bisect(part.to, lean, WIDTH, holds);
                let ends = worst(outside);
                (part.to, part.to_limit, part.to_case) = (inside, ends.limit, ends.case);
                let _ = parts.try_push(*part);
                open = None;
            }
            (None, false) => {}
        }
        last = Some(lean);
    }
    if let Some(part) = open {
        let _ = parts.try_push(part);
    }
    parts
}

/// Of leans at which no part of some intervals holds the one nearest to holding; `best` where there are none.
fn nearest(intervals: &[Interval], best: f64, worst: &impl Fn(f64) -> Governing) -> f64 {
    let leans = intervals.iter().flat_map(|interval| grid(interval.from, interval.to, STEP));
    let ratios = leans.map(|lean| (lean, worst(lean).ratio));
    ratios.min_by(|a, b| a.1.total_cmp(&b.1)).map_or(best, |(lean, _)| lean)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Case, Limit};

    const UPRIGHT: Limit = Limit::UprightStop;

    fn whole(from: f64, to: f64) -> WorkingRange {
        let (from, to) = (degrees(from), degrees(to));
        let case = Case::default();
        let interval = Interval {
            from,
            to,
            from_limit: UPRIGHT,
            to_limit: Limit::NotLookedFurther,
            from_case: case,
            to_case: case,
        };
        WorkingRange {
            intervals: [interval].into_iter().collect(),
            best_lean: from,
            best_limit: UPRIGHT,
            best_ratio: 0.2,
        }
    }

    /// Of a range from −10° to 30°, that which holds where the ratio, a function of the lean in degrees, is at most 1.
    fn drawn(ratio: impl Fn(f64) -> f64) -> WorkingRange {
        let ratio = |lean: f64| ratio(lean.to_degrees());
        let worst = |lean| Governing { ratio: ratio(lean), limit: Limit::Stretch, case: Case::default() };
        whole(-10.0, 30.0).followed(|lean| ratio(lean) <= 1.0, worst)
    }

    fn ends(range: &WorkingRange) -> Vec<(f64, Limit, f64, Limit)> {
        let all = range.intervals.iter();
        all.map(|i| (i.from.to_degrees(), i.from_limit, i.to.to_degrees(), i.to_limit)).collect()
    }

    #[test]
    fn what_holds_everywhere_stays_as_it_is() {
        let best_lean = degrees(5.0);
        let worst = |_| Governing { ratio: 0.5, limit: Limit::Stretch, case: Case::default() };
        let found = WorkingRange { best_lean, ..whole(-10.0, 30.0) }.followed(|_| true, worst);
        assert_eq!(found.intervals, whole(-10.0, 30.0).intervals);
        assert_eq!((found.best_lean, found.best_limit, found.best_ratio), (best_lean, Limit::Stretch, 0.5));
    }

    #[test]
    fn a_single_lean_that_holds_is_drawn_in_from_both_sides() {
        let found = ends(&drawn(|lean| (lean - 7.0).abs() / 0.6));
        let [(from, Limit::Stretch, to, Limit::Stretch)] = found[..] else { panic!("{found:?}") };
        assert!((from - 6.4).abs() < 0.011 && (to - 7.6).abs() < 0.011, "{found:?}");
    }

    #[test]
    fn an_end_at_which_it_does_not_hold_is_drawn_in() {
        let found = ends(&drawn(|lean| lean / 12.345));
        let [(from, UPRIGHT, to, Limit::Stretch)] = found[..] else { panic!("{found:?}") };
        assert!((from + 10.0).abs() < 1e-9 && to <= 12.345 && to > 12.335);
        let found = ends(&drawn(|lean| -lean / 3.21));
        let [(from, Limit::Stretch, to, Limit::NotLookedFurther)] = found[..] else { panic!("{found:?}") };
        assert!((to - 30.0).abs() < 1e-9 && (-3.21..-3.2).contains(&from));
    }

    #[test]
    fn both_ends_and_what_is_between_are_looked_at() {
        let middle = drawn(|lean| (lean - 7.0).abs() / 4.0);
        assert!(middle.intervals.len() == 1 && middle.around(degrees(7.0)).is_some());
        assert!(middle.best_ratio <= 1.0 && middle.around(middle.best_lean).is_some());
        let gap = drawn(|lean| if (lean - 7.0).abs() < 1.5 { 2.0 } else { 0.5 });
        assert!(gap.intervals.len() == 2 && gap.around(degrees(7.0)).is_none());
    }

    #[test]
    fn where_the_best_lean_does_not_hold_the_widest_part_is_named() {
        let ratio = |lean: f64| if (degrees(10.0)..degrees(25.0)).contains(&lean) { 2.0 } else { 0.5 };
        let worst = |lean| Governing { ratio: ratio(lean), limit: Limit::Stretch, case: Case::default() };
        let between = WorkingRange { best_lean: degrees(15.0), ..whole(-10.0, 30.0) };
        let found = between.followed(|lean| ratio(lean) <= 1.0, worst);
        assert_eq!((found.intervals.len(), found.best_lean), (2, degrees(-10.0)));
    }

    #[test]
    fn where_nothing_holds_the_nearest_lean_is_named() {
        let none = drawn(|lean| 1.5 + 0.01 * (lean - 12.0).abs());
        assert!(none.intervals.is_empty() && none.best_limit == Limit::Stretch);
        assert!((none.best_lean.to_degrees() - 12.0).abs() < 1e-9 && (none.best_ratio - 1.5).abs() < 1e-12);
    }
}
