//! The advice: build it, find something out first, change something first, or do not build this.

use crate::steps::over_head;
use crate::{Demand, LeftOut, Stretching, Test, Verdict};
use outlean_rig::{Part, Proposal, Rig};
use serde::Serialize;

/// What to do with a plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Advice {
    /// All that was assessed holds, and all that the frame depends on was assessed but the holdfast of a redirect midway between
    /// the feet: no field says what that may carry, it is tried.
    Build,
    /// All that was assessed holds, but nothing is known of these, and the frame depends on them: parts that carry something,
    /// friction that alone holds the feet, what holds a foot down.
    FindOut(Vec<LeftOut>),
    /// All parts hold, but on guys that stretch it is too near run-away or leans too far under load.
    Stiffen,
    /// All holds, but not the test load: a lesser one is to be hung.
    TestLess,
    /// It is past a limit as planned; a small change brings it inside.
    Change,
    /// It is past a limit, and no small change was found that brings it inside.
    DoNotBuild,
}

impl Advice {
    pub(crate) fn of(
        rig: &Rig,
        verdict: &Verdict,
        proposals: &[Proposal],
        demands: &[Demand],
        stretching: Option<&Stretching>,
        test: &Test,
    ) -> Self {
        if !verdict.past.is_empty() {
            return if proposals.is_empty() { Self::DoNotBuild } else { Self::Change };
        }
        if stretching.is_some_and(|found| !found.holds()) {
            return Self::Stiffen;
        }
        if !test.holds && rig.lines().any(over_head) {
            return Self::TestLess;
        }
        let unknown = unknown(rig, verdict, demands);
        if unknown.is_empty() { Self::Build } else { Self::FindOut(unknown) }
    }
}

impl Advice {
    /// Its name, as words are found by.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Build => "build",
            Self::FindOut(_) => "find_out",
            Self::Stiffen => "stiffen",
            Self::TestLess => "test_less",
            Self::Change => "change",
            Self::DoNotBuild => "do_not_build",
        }
    }

    /// Whether it may be built as planned, once what is not known of it has been found out.
    #[must_use]
    pub const fn may_be_built(&self) -> bool {
        matches!(self, Self::Build | Self::FindOut(_))
    }
}

/// What a frame depends on and of which nothing is known. A haul line that ends at a holdfast of which nothing is
/// said has no check at all: it is named here.
fn unknown(rig: &Rig, verdict: &Verdict, demands: &[Demand]) -> Vec<LeftOut> {
    let carried = demands.iter().filter(|demand| !demand.known && demand.force > 0.0);
    let bears = |part: &Part| !matches!(part, Part::Lashing | Part::Edge);
    let mut all: Vec<Part> = carried.map(|demand| demand.part).filter(bears).collect();
    let listed = |part: Part| demands.iter().any(|demand| demand.part == part);
    let hauled = |hauled: bool, part: Part| (hauled && !listed(part)).then_some(part);
    let second = rig.second.as_ref().and_then(|second| second.line.path.haul_point());
    all.extend(hauled(rig.line.path.haul_point().is_some(), Part::HaulHoldfast));
    all.extend(hauled(second.is_some(), Part::SecondHoldfast));
    let feet = |gap: &&LeftOut| matches!(gap, LeftOut::Friction | LeftOut::HeldDown);
    all.into_iter().map(LeftOut::Part).chain(verdict.not_assessed.iter().filter(feet).copied()).collect()
}
