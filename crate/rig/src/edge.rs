//! The edge: where the ground ends ahead of the frame, and what room the load has there.

use crate::fault::Allowed;
use crate::rest::rested;
use crate::stiffness::outer;
use crate::{Fault, Field, Layout, Path, Point, Rig, Solution, Vector, solve_at};
use glam::DMat3;

/// The edge that the load goes over, a level line square to the frame's forward.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Edge {
    /// Ahead of the foot line, m.
    pub ahead: f64,
    /// Above the middle of the foot line, m; negative below.
    pub level: f64,
    /// From the pulley down to the lowest part of the litter or load that must clear the edge, m.
    pub litter_drop: f64,
    /// Clear reach asked for, m; `None` for none.
    pub clear_reach_wanted: Option<f64>,
    /// Headroom asked for, m; `None` for none.
    pub headroom_wanted: Option<f64>,
}

impl Edge {
    /// An edge so far ahead of the foot line (m), at its level, with no litter and nothing asked for.
    #[must_use]
    pub const fn at(ahead: f64) -> Self {
        Self { ahead, level: 0.0, litter_drop: 0.0, clear_reach_wanted: None, headroom_wanted: None }
    }

    /// The unit vector along which a line from `pulley` pulls that would stand along `direction` were there no
    /// edge, and whether it bears on the edge. A line that would pass behind the edge at its level bears on it, and
    /// runs from pulley to edge. Errs where the pulley hangs behind the edge and no higher than it: in the ground.
    pub(crate) fn bend(
        &self,
        pulley: Point,
        direction: Vector,
        layout: &Layout,
    ) -> Result<(Vector, bool), Fault> {
        let from_middle = pulley - layout.mid_base;
        let forward = layout.forward;
        let above = from_middle.z - self.level;
        if above <= 0.01 || direction.z >= 0.0 {
            if from_middle.dot(forward) < self.ahead {
                let allowed = Allowed { least: Field::EdgeLevel.allowed().least, most: from_middle.z - 0.01 };
                Field::EdgeLevel.check_within(self.level, allowed)?;
            }
            return Ok((direction, false));
        }
        let down_to_edge = direction * (above / -direction.z);
        let behind = self.ahead - (from_middle + down_to_edge).dot(forward);
        if behind <= 0.0 {
            return Ok((direction, false));
        }
        Ok(((down_to_edge + forward * behind).normalize_or(direction), true))
    }

    /// How the pull of a line with `tension` (N) that [bears](Self::bend) on the edge falls off as its pulley moves, N/m.
    ///
    /// From the pulley to the edge it runs w = (ahead − x)·forward + z·across, x how far ahead of the foot line and z how
    /// far above the edge the pulley is, across what the line would run for each metre down but for its part forward.
    pub(crate) fn stiffness(&self, pulley: Point, direction: Vector, layout: &Layout, tension: f64) -> DMat3 {
        let from_middle = pulley - layout.mid_base;
        let forward = layout.forward;
        let down = direction / -direction.z;
        let across = down - forward * down.dot(forward);
        let to_edge =
            forward * (self.ahead - from_middle.dot(forward)) + across * (from_middle.z - self.level);
        let length = to_edge.length();
        let way = to_edge / length;
        let beside = |vector: Vector| (vector - way * way.dot(vector)) * (tension / length);
        outer(beside(forward), forward) - outer(beside(across), Vector::Z)
    }

    pub(crate) fn check(&self) -> Result<(), Fault> {
        Field::EdgeAhead.check(self.ahead)?;
        Field::EdgeLevel.check(self.level)?;
        Field::LitterDrop.check(self.litter_drop)?;
        Field::ClearReachWanted.check_if(self.clear_reach_wanted)?;
        Field::HeadroomWanted.check_if(self.headroom_wanted)
    }
}

/// The room that the load has at the edge.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Clearance {
    /// From the edge forward to the plumb line from the pulley, m; negative where that falls behind the edge.
    pub clear_reach: f64,
    /// From the edge up to the lowest part of the litter hanging from the pulley, m; negative below the edge.
    pub headroom: f64,
}

impl Clearance {
    /// The clearance of a solved rig at an edge: the least of every pulley over which the load hangs, and of the head
    /// itself where no line runs over it.
    #[must_use]
    pub fn of(edge: &Edge, rig: &Rig, solution: &Solution) -> Self {
        let layout = &solution.layout;
        let forward = layout.forward;
        let at = |point: Point| {
            let from_middle = point - layout.mid_base;
            Self {
                clear_reach: from_middle.dot(forward) - edge.ahead,
                headroom: from_middle.z - edge.level - edge.litter_drop,
            }
        };
        let over_head = |path: Path| !matches!(path, Path::NotOverHead);
        let main = over_head(rig.line.path).then(|| at(solution.line.pulley));
        let second = rig.second.as_ref().filter(|second| over_head(second.line.path));
        let second = second.and(solution.second.as_ref()).map(|line| at(line.pulley));
        match (main, second) {
            (Some(a), Some(b)) => {
                Self { clear_reach: a.clear_reach.min(b.clear_reach), headroom: a.headroom.min(b.headroom) }
            }
            (one, other) => one.or(other).unwrap_or_else(|| at(layout.head)),
        }
    }

    /// The least of either that a rig comes to at a lean (rad), in any of its cases, as it is set and where it
    /// [comes to rest](Rig::comes_to_rest). `None` without an edge, and where a case cannot be solved.
    #[must_use]
    pub fn least(rig: &Rig, lean: f64) -> Option<Self> {
        let edge = rig.edge.as_ref()?;
        let mut least: Option<Self> = None;
        for case in rig.cases() {
            let there = Rig { case, ..rig.clone() };
            let set = solve_at(&there, lean).ok()?;
            let rested = rested(&there, &set);
            for found in rested.iter().chain([&set]) {
                let Self { clear_reach, headroom } = Self::of(edge, rig, found);
                least = Some(least.map_or(Self { clear_reach, headroom }, |least| Self {
                    clear_reach: clear_reach.min(least.clear_reach),
                    headroom: headroom.min(least.headroom),
                }));
            }
        }
        least
    }
}
