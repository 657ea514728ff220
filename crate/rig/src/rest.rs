//! Rest: what a frame carries that was set before it was loaded, where it comes to rest on guys that stretch.

use crate::solve::Posture;
use crate::stretch::leans;
use crate::{Case, LeanIs, Rig, Solution, Stretch};

impl Rig {
    /// Whether its parts are looked at twice, as it is set and where it then comes to rest under load: its lean is not
    /// said as it stands under load, and it is known how every rigged guy stretches.
    #[must_use]
    pub fn comes_to_rest(&self) -> bool {
        from_set(self).is_some()
    }
}

/// What a rig says of how its guys stretch, where its lean is not said as it stands under load.
fn from_set(rig: &Rig) -> Option<Stretch> {
    if matches!(rig.lean_is, LeanIs::UnderLoad) { None } else { Stretch::of(rig) }
}

/// A rig solved where it comes to rest from the lean of `solution`, in its case. `None` for one that does not
/// [come to rest](Rig::comes_to_rest) elsewhere, or not at all.
pub(crate) fn rested(rig: &Rig, solution: &Solution) -> Option<Solution> {
    let stretch = from_set(rig)?;
    let there = Rig { lean: solution.layout.lean, case: solution.case, ..rig.clone() };
    let (loaded, _) = leans(&there, &stretch).ok()??;
    solved_at(rig, loaded, solution.case)
}

/// A rig solved at the lean (rad) at which it stands loaded; `None` where it cannot be solved there.
///
/// Forces are those of a rigid frame there: the same for one guy that works. Of guys set taut against one another that which
/// does not work is taken to pull as it was set.
pub(crate) fn solved_at(rig: &Rig, loaded: f64, case: Case) -> Option<Solution> {
    Posture::at(rig, loaded).and_then(|posture| posture.loaded(rig, case)).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        Clearance, DataSheet, Edge, G, Guy, Layout, Limit, Line, Part, Path, Point, Reaching, checks,
        governing, holdfast_pulls, holds, limits_at, range_within, solve, worked, working_range,
    };

    /// Legs of 4 m a third of that apart, 2.7 kN, one guy to an anchor 1.5 times as far as the head is high, on rope of
    /// 133 kN just taut as it is set: what independent solutions of large displacements find is beside it.
    fn frame(set: f64, ahead: f64) -> Rig {
        let mut rig = Rig::new(4.0, 4.0 / 3.0, set.to_radians(), 2700.0 / G);
        rig.lean_is = LeanIs::SetBefore;
        rig.limits.stretch_margin = Some(1.0);
        let height = Layout::of(&rig, rig.lean).unwrap().head_height();
        let sheet = DataSheet { elongation: Some(0.01), at: Some(1330.0), give: None };
        rig.guys.push(Guy { sheet, ..Guy::to(Point::new(ahead * 1.5 * height, 0.0, 0.0)) });
        rig
    }

    fn carries(rig: &Rig, part: Part) -> f64 {
        let all = checks(rig, &solve(rig).unwrap());
        all.iter().find(|check| check.part == part).unwrap().demand
    }

    #[test]
    fn a_guy_is_held_against_what_it_carries_where_the_frame_comes_to_rest() {
        for (set, rigid, loaded) in [(20.0, 1386.0, 1559.0), (25.0, 1852.0, 2152.0), (30.0, 2396.0, 2930.0)] {
            let rig = frame(set, -1.0);
            let as_set = solve(&rig).unwrap();
            assert!((as_set.forces().unwrap().guys[0].tension - rigid).abs() < 0.5);
            for part in [Part::GuyRope(0), Part::GuyHoldfast(0)] {
                assert!((carries(&rig, part) - loaded).abs() < 0.5, "{set}: {}", carries(&rig, part));
            }
            assert!((holdfast_pulls(&rig, &as_set)[0].1.size - loaded).abs() < 0.5);
            let under_load = Rig { lean_is: LeanIs::UnderLoad, ..rig };
            assert!((carries(&under_load, Part::GuyRope(0)) - rigid).abs() < 0.5);
        }
    }

    /// Between what it carries as set and where it comes to rest.
    #[test]
    fn a_rope_that_holds_only_as_set_does_not_hold() {
        let mut rig = frame(20.0, -1.0);
        rig.guys[0].rope_allowable = Some(1450.0);
        let governs = governing(&rig, rig.lean).unwrap();
        assert_eq!(governs.limit, Limit::Part(Part::GuyRope(0)));
        assert!((governs.ratio - 1559.0 / 1450.0).abs() < 1e-3 && !holds(&rig));
        let range = working_range(&rig).unwrap();
        let end = range.intervals.last().unwrap();
        assert_eq!((range.around(rig.lean), end.to_limit), (None, Limit::Part(Part::GuyRope(0))));
        let there = Rig { lean: end.to, ..rig.clone() };
        assert!(holds(&there) && carries(&there, Part::GuyRope(0)) > 1449.0);
        let steps = worked(&rig, &solve(&rig).unwrap(), Part::GuyRope(0));
        assert!((steps[0].value.to_degrees() - 22.0).abs() < 0.05 && (steps[1].value - 1559.0).abs() < 0.5);
        rig.lean_is = LeanIs::UnderLoad;
        assert!(holds(&rig));
    }

    /// Hauled straight back it comes to rest at 8.3°, where its fore guy carries 2,135 N and not 1,984.
    #[test]
    fn a_frame_that_backs_past_its_stop_under_load_is_past_it() {
        let mut rig = frame(10.0, 1.0);
        rig.line = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
        assert!((carries(&rig, Part::GuyRope(0)) - 2135.0).abs() < 0.5);
        let stopped = |stop: f64, rig: &Rig| {
            let mut rig = rig.clone();
            rig.limits.upright_stop = Some(stop.to_radians());
            limits_at(&rig, rig.lean).unwrap().iter().any(|met| met.limit == Limit::UprightStop)
        };
        assert!(stopped(10.0, &rig) && stopped(8.4, &rig) && !stopped(8.2, &rig));
        rig.lean_is = LeanIs::UnderLoad;
        assert!(!stopped(10.0, &rig) && stopped(10.1, &rig));
    }

    /// Leaning out under load it has more reach and less headroom; hauled straight back it is the other way.
    #[test]
    fn the_room_at_the_edge_is_the_least_of_both() {
        for (ahead, hauled) in [(-1.0, false), (1.0, true)] {
            let mut rig = frame(if hauled { 10.0 } else { 30.0 }, ahead);
            if hauled {
                rig.line = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
            }
            rig.edge = Some(Edge::at(0.5));
            let set = solve(&rig).unwrap();
            let at = |solution| Clearance::of(rig.edge.as_ref().unwrap(), &rig, solution);
            let (set, rested) = (at(&set), at(&rested(&rig, &set).unwrap()));
            let least = Clearance::least(&rig, rig.lean).unwrap();
            assert_eq!(rested.clear_reach < set.clear_reach, hauled);
            assert!(least.clear_reach <= set.clear_reach.min(rested.clear_reach));
            assert!(least.headroom <= set.headroom.min(rested.headroom));
            // What a clear reach asks for is where the range of that limit begins.
            let wanted = 0.2;
            rig.edge = Some(Edge { clear_reach_wanted: Some(wanted), ..Edge::at(0.5) });
            let lean = Reaching::of(&rig, wanted).unwrap().unwrap().lean;
            let begins = range_within(&rig, Limit::ClearReach).unwrap().intervals[0].from;
            assert!((lean - begins).abs() < 2e-4, "{lean} {begins}");
        }
    }

    #[test]
    fn what_is_not_known_to_stretch_rests_as_it_is_set() {
        let mut rig = frame(20.0, -1.0);
        rig.guys[0].sheet = DataSheet::default();
        assert!(!rig.comes_to_rest() && rested(&rig, &solve(&rig).unwrap()).is_none());
        assert!((carries(&rig, Part::GuyRope(0)) - 1386.0).abs() < 0.5);
    }
}
