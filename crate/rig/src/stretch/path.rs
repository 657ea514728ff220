//! Path: the states in balance that a frame goes through as its load grows.

use super::node::{Node, State};
use crate::angle::degrees;
use crate::numeric::{bisect, valley};

/// Loads beyond so many times the load are not looked at: our choice, beyond any margin that may be asked for.
pub const GREATEST_MULTIPLE: f64 = 200.0;

/// How far the frame turns from one state looked at to the next, rad: our choice, as fine as the grid of leans.
const STRIDE: f64 = degrees(0.25);
/// The same where a state found at one go is looked over: our choice.
const LOOK_OVER: f64 = degrees(1.5);
/// A frame that leans farther lies on the ground, rad.
const FLAT: f64 = degrees(89.5);
/// How far a frame may jump at once, from a guy that lets go to one that catches it, without its having run away,
/// rad. Our choice: what slack guys make good.
pub const FARTHEST_JUMP: f64 = degrees(3.0);
/// A multiple of the load that counts as none.
pub(super) const NO_LOAD: f64 = 1e-6;

/// How a path ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum End {
    /// At a load that can be borne no more, or with the head on the ground: multiple of the load, lean (rad).
    Goes(f64, f64),
    /// Past the load that it was followed to.
    Beyond,
}

/// A path followed to its end.
pub(super) struct Followed {
    /// The state at which it first bears the whole load.
    pub stands: Option<State>,
    /// How far it jumps at once, at most, rad: where a guy lets go and another catches.
    pub jump: f64,
    pub end: End,
}

impl Node<'_> {
    /// Where the frame comes to rest under no load, from its reference place; `None` where nothing holds it.
    pub(super) fn unloaded(&self) -> Option<State> {
        self.rest(&self.reference, 0.0)
    }

    /// Where the frame comes to rest at a multiple of its load, let go at `from`.
    fn rest(&self, from: &State, multiple: f64) -> Option<State> {
        let first = self.held(from.turned, multiple, from, 0.0)?;
        let tangent = self.tangent(first.turned, multiple, first.push, 0.0)?;
        let rounding = 1e-11 * tangent.size + 1e-9;
        if first.held.abs() <= rounding {
            return Some(first);
        }
        let way = -first.held.signum();
        let near = self.settled(multiple, from, way).filter(|near| self.is_up(near.turned));
        if let Some(near) = near.filter(|near| (near.turned - from.turned).abs() < LOOK_OVER) {
            return Some(near);
        }
        let mut at = first;
        loop {
            let turned = at.turned + way * STRIDE;
            let next = self.held(turned, multiple, &at, way).filter(|_| self.is_up(turned))?;
            if next.held * way >= -rounding {
                let moves = |turned: f64| {
                    self.held(turned, multiple, &at, way).is_some_and(|state| state.held * way < -rounding)
                };
                let (_, turned) = bisect(at.turned, next.turned, 1e-13, moves);
                return self.held(turned, multiple, &next, way);
            }
            at = next;
        }
    }

    /// Which way the load moves the frame from a state in balance; zero where it pulls neither way.
    pub(super) fn way(&self, from: &State) -> f64 {
        let tangent = self.tangent(from.turned, from.multiple, from.push, 0.0);
        tangent.map_or(0.0, |tangent| {
            let pull = tangent.forward(tangent.loads);
            if pull.abs() <= 1e-10 * tangent.loads.length() { 0.0 } else { pull.signum() }
        })
    }

    /// The state at a multiple of the load on the path from another, found at one go. `None` where it is not
    /// certain that the path leads there: where Newton's method meets a state that is not firm, or where, looked over
    /// on the way, the load does not grow from state to state.
    pub(super) fn at_one_go(&self, from: &State, multiple: f64, way: f64) -> Option<State> {
        let found = self.settled(multiple, from, way).filter(|found| self.is_up(found.turned))?;
        let far = found.turned - from.turned;
        let growth = multiple - from.multiple;
        if far * way * growth < 0.0 && far.abs() > 1e-9 {
            return None;
        }
        let apart = if self.over_ground(from, &found) { LOOK_OVER } else { STRIDE };
        let parts = if far.abs() < 0.1 * apart { 1.0 } else { 1.0 + libm::ceil(far.abs() / apart) };
        let mut before = *from;
        let mut part = 1.0;
        while part < parts {
            let share = part / parts;
            let at = self.on_path(from.turned + far * share, &from.between(&found, share), way)?;
            let grows = (at.multiple - before.multiple) * growth > 0.0;
            let between = (multiple - at.multiple) * growth > 0.0;
            if !(grows && between && at.firmness > 0.0 && at.pull * way > 0.0) {
                return None;
            }
            before = at;
            part += 1.0;
        }
        Some(found)
    }

    /// Whether no pulley comes as low as the edge, and so into the ground, on the way from one state to another: the
    /// head is nowhere lower than at one end of its arc.
    fn over_ground(&self, from: &State, to: &State) -> bool {
        /// For what the legs give on the way, m.
        const SPARE: f64 = 0.1;
        let Some(edge) = &self.rig.edge else { return true };
        let second = self.rig.second.as_ref().map_or(0.0, |second| second.line.sling);
        let low = self.frame.layout.head_height() - self.rig.line.sling.max(second) - SPARE;
        [from, to].into_iter().all(|state| {
            let pose = self.frame.pose(self.rig, state.turned, state.push);
            pose.is_some_and(|pose| low + pose.moved.z > edge.level)
        })
    }

    /// Follows the path from a state as the load grows, the frame going `way`, to its end or past `far` times the load.
    pub(super) fn follow(&self, start: &State, way: f64, far: f64) -> Followed {
        let (mut before, mut at) = (*start, *start);
        let mut stands = (start.multiple >= 1.0).then_some(*start);
        let mut jump = 0.0_f64;
        loop {
            let turned = at.turned + way * STRIDE;
            if !self.is_up(turned) {
                let flat = self.on_path(way * FLAT - self.frame.layout.lean, &at, way);
                let last = flat.filter(|flat| flat.multiple > at.multiple).unwrap_or(at);
                if stands.is_none() && last.multiple > 1.0 {
                    stands = self.crossing(&at, &last, way);
                }
                return Followed { stands, jump, end: End::Goes(last.multiple, self.lean(&last)) };
            }
            let Some(mut next) = self.on_path(turned, &at, way) else {
                return Followed { jump, ..self.beyond_turning(&at, stands, way, far) };
            };
            if next.pull * way <= 0.0 && next.multiple < 0.0 {
                // Between them the load no longer pulls that way: it is borne however great it is.
                stands = stands.or_else(|| self.crossing(&at, &next, way));
                return Followed { stands, jump, end: End::Beyond };
            }
            if next.multiple < at.multiple - 1e-9 * at.multiple.abs().max(1.0) {
                let peak = self.peak(&before, &next, way).filter(|peak| peak.multiple >= at.multiple);
                let peak = peak.unwrap_or(at);
                if stands.is_none() && peak.multiple >= 1.0 {
                    stands = self.crossing(&before, &peak, way);
                }
                let Some(caught) = self.caught(&peak, &next, way) else {
                    return Followed { stands, jump, end: End::Goes(peak.multiple, self.lean(&peak)) };
                };
                jump = jump.max((caught.turned - peak.turned).abs());
                (at, next) = (peak, caught);
            }
            if stands.is_none() && next.multiple >= 1.0 {
                stands = self.crossing(&at, &next, way);
            }
            if next.multiple > far {
                return Followed { stands, jump, end: End::Beyond };
            }
            (before, at) = (at, next);
        }
    }

    /// The first state past a greatest load, farther on from `from`, that bears more: where another guy catches the
    /// frame. `None` where none does within [`FARTHEST_JUMP`].
    fn caught(&self, peak: &State, from: &State, way: f64) -> Option<State> {
        let mut at = *from;
        loop {
            let turned = at.turned + way * 0.25 * STRIDE;
            let near = (turned - peak.turned).abs() <= FARTHEST_JUMP && self.is_up(turned);
            let next = self.on_path(turned, &at, way).filter(|next| near && next.pull * way > 0.0)?;
            if next.multiple > peak.multiple && next.firmness > 0.0 {
                return Some(next);
            }
            at = next;
        }
    }

    /// The end of a path of which the turn does not lead on.
    fn beyond_turning(&self, at: &State, stands: Option<State>, way: f64, far: f64) -> Followed {
        let next = at.turned + way * STRIDE;
        if self.tangent(next, at.multiple, at.push, way).is_some() {
            return self.by_load(at, stands, way, far);
        }
        // The frame cannot be there: a line would have no length, or run in the ground.
        let can_be = |turned: f64| self.on_path(turned, at, way).is_some();
        let (turned, _) = bisect(at.turned, next, 1e-10, can_be);
        let last = self.on_path(turned, at, way).unwrap_or(*at);
        let stands = stands.or_else(|| self.crossing(at, &last, way).filter(|_| last.multiple >= 1.0));
        Followed { stands, jump: 0.0, end: End::Goes(last.multiple, self.lean(&last)) }
    }

    /// As `follow`, by growing the load in place of the turn: for the little that is left where the turn does not lead
    /// on since the legs give more than the guys.
    fn by_load(&self, start: &State, mut stands: Option<State>, way: f64, far: f64) -> Followed {
        let (mut at, mut step) = (*start, 0.05);
        while step > 1e-7 * at.multiple.max(1.0) {
            let multiple = at.multiple + step;
            let next = self.settled(multiple, &at, way);
            let near = |next: &State| (next.turned - at.turned).abs() < LOOK_OVER && self.is_up(next.turned);
            let Some(next) = next.filter(near) else {
                step *= 0.5;
                continue;
            };
            if stands.is_none() && next.multiple >= 1.0 {
                stands = self.settled(1.0, &at, way);
            }
            if next.multiple > far {
                return Followed { stands, jump: 0.0, end: End::Beyond };
            }
            (at, step) = (next, 1.5 * step);
        }
        Followed { stands, jump: 0.0, end: End::Goes(at.multiple, self.lean(&at)) }
    }

    /// The state without load from which a loaded one was come to; `None` where going back from it the load does not
    /// shrink to nothing.
    pub(super) fn before_loading(&self, loaded: &State, way: f64) -> Option<State> {
        // Without weight and pretension the guys just go slack there: as if ropes pushed, that is a firm state.
        let found = self.as_if_ropes_pushed().at_one_go(loaded, 0.0, way).filter(|found| {
            let pose = self.frame.pose(self.rig, found.turned, found.push);
            pose.is_some_and(|pose| {
                let slight = NO_LOAD * (loaded.pull.abs() + 1.0);
                self.guys.iter().all(|(_, guy)| guy.pull(pose.moved).signed >= -slight)
            })
        });
        if found.is_some() {
            return found;
        }
        let mut at = *loaded;
        loop {
            let turned = at.turned - way * STRIDE;
            let next = self.on_path(turned, &at, way).filter(|_| self.is_up(turned))?;
            if next.multiple >= at.multiple {
                return None;
            }
            if next.multiple <= NO_LOAD {
                let loads = |turned: f64| {
                    self.on_path(turned, &at, way).is_some_and(|state| state.multiple > NO_LOAD)
                };
                let (turned, _) = bisect(at.turned, next.turned, 1e-12, loads);
                return self.on_path(turned, &at, way);
            }
            at = next;
        }
    }

    /// The state of the first greatest load between two about it.
    fn peak(&self, from: &State, to: &State, way: f64) -> Option<State> {
        // A guy that comes taut or goes slack in between may make more than one: in small steps to the first.
        const PARTS: f64 = 16.0;
        let step = (to.turned - from.turned) / PARTS;
        let (mut before, mut at) = (from.turned, *from);
        let mut part = 1.0;
        while part <= PARTS {
            let next = self.on_path(from.turned + step * part, &at, way)?;
            if next.multiple < at.multiple {
                break;
            }
            (before, at) = (at.turned, next);
            part += 1.0;
        }
        let (a, b) = (before.min(at.turned + step), before.max(at.turned + step));
        let multiple = |turned: f64| self.on_path(turned, &at, way).map_or(0.0, |state| state.multiple);
        self.on_path(valley(a, b, |turned| -multiple(turned)), &at, way)
    }

    /// The state of the whole load between one that bears less and one that bears no less, or whose load pulls the
    /// other way.
    fn crossing(&self, less: &State, more: &State, way: f64) -> Option<State> {
        let bears_less = |turned: f64| {
            let state = self.on_path(turned, less, way);
            state.is_some_and(|state| state.multiple < 1.0 && state.pull * way > 0.0)
        };
        let (_, turned) = bisect(less.turned, more.turned, 1e-14, bears_less);
        let near = self.on_path(turned, more, way)?;
        let polished = self.settled(1.0, &near, way);
        Some(polished.filter(|state| (state.turned - turned).abs() < 1e-6).unwrap_or(near))
    }

    pub(super) fn lean(&self, state: &State) -> f64 {
        self.frame.layout.lean + state.turned
    }

    fn is_up(&self, turned: f64) -> bool {
        (self.frame.layout.lean + turned).abs() < FLAT
    }
}
