//! Outcome: what becomes of a frame on guys that stretch.

use super::node::{Node, State};
use super::path::{End, GREATEST_MULTIPLE, NO_LOAD};
use super::{LeanIs, Stretch};
use crate::{Fault, Footing, LineForces, MAX_GUYS, Pair, Point, Rig, Tip};
use arrayvec::ArrayVec;

/// A frame on guys that stretch, as it stands under load.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Stretched {
    /// Where its head is.
    pub head: Point,
    /// Its lean there, rad.
    pub lean: f64,
    /// Its lean before loading, rad; `None` where, going back from the loaded state, the load does not shrink to
    /// nothing.
    pub set_lean: Option<f64>,
    /// Compression of each leg, N; negative in a leg that pulls on a foot held down.
    pub compression: Pair<f64>,
    /// Tension of each guy, N, in the order of the rig.
    pub tension: ArrayVec<f64, MAX_GUYS>,
    /// Least stiffness of the head against any displacement, N/m: the least eigenvalue of the tangent stiffness.
    pub stiffness: f64,
    /// What the main line puts on the displaced head.
    pub line: LineForces,
    /// What the second line puts on it, where there is one.
    pub second: Option<LineForces>,
    /// What its feet ask of the ground.
    pub footing: Footing,
}

/// What becomes of a frame on guys that stretch.
#[expect(clippy::large_enum_variant, reason = "a box would allocate in the solve path")]
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
pub enum Outcome {
    /// It stands.
    Stands(Stretched),
    /// It runs away: no equilibrium on the way to its load. The multiple of its load at which it goes, at most 1.
    RunsAway(f64),
    /// Nothing holds it even without its load: no guy comes under tension the way it goes.
    NothingHolds,
    /// In balance a foot would lift that nothing holds down.
    Tips(Tip),
}

/// The load at which a frame no longer stands.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Margin {
    /// That load over its load; infinite where there is none up to [`super::GREATEST_MULTIPLE`].
    pub multiple: f64,
    /// Its lean then, rad; `None` where there is no such load.
    pub lean: Option<f64>,
    /// How far the frame jumps at once on the way there, at most, rad: where one guy goes slack before another is
    /// taut. Zero where it does not; at most [`super::FARTHEST_JUMP`].
    pub jump: f64,
}

/// Where a rig stands whose guys stretch, and what its parts carry there.
///
/// The state at the end of the path that a load growing from nothing leads along. Found by Newton's method at one go where
/// all states on the way are firm and bear a load that grows from one to the next, looked over 1.5° apart; else by
/// following the path, 0.25° apart. Whether it runs away is never told by whether an iteration ends. Does not
/// allocate. How far off run-away is, says [`margin`], which takes longer.
///
/// With the lean [as it stands under load](LeanIs::UnderLoad) the tensions are those of [`crate::solve`], and the
/// frame runs away if a small displacement is not resisted; the multiple is then that of the load at which one
/// standing there would just be firm.
///
/// A foot that lifts is looked for in the loaded state, not on the way to it.
///
/// # Errors
///
/// As [`crate::solve`], and a stiffness or give out of range; a guy without a rope is one whose stiffness is NaN.
pub fn stretched(rig: &Rig, stretch: &Stretch) -> Result<Outcome, Fault> {
    stretch.check(rig)?;
    let node = match Node::of(rig, stretch)? {
        Ok(node) => node,
        Err(Tip::Forward | Tip::Back) => return Ok(Outcome::NothingHolds),
        Err(tip) => return Ok(Outcome::Tips(tip)),
    };
    Ok(match node.standing(stretch.lean_is) {
        Standing::At { state, set } => node.outcome(&state, set.as_ref()),
        Standing::Goes(multiple) if multiple > NO_LOAD => Outcome::RunsAway(multiple.min(1.0)),
        Standing::Goes(_) | Standing::Not => Outcome::NothingHolds,
    })
}

/// The load at which a rig whose guys stretch no longer stands: the limit point of the path of its equilibria, or where
/// its head comes down to its feet. A limit point past which another guy catches the frame within
/// [`super::FARTHEST_JUMP`] is not yet the end. `None` where nothing holds it even without load.
///
/// Below 1 for a rig that [runs away](Outcome::RunsAway). Feet that lift on the way are not looked for.
///
/// # Errors
///
/// As [`stretched`].
pub fn margin(rig: &Rig, stretch: &Stretch) -> Result<Option<Margin>, Fault> {
    stretch.check(rig)?;
    let Ok(node) = Node::of(rig, stretch)? else { return Ok(None) };
    Ok(node.margin(stretch.lean_is))
}

/// Whether a rig whose guys stretch bears `multiple` of its load, at most [`super::GREATEST_MULTIPLE`]: whether its
/// [`margin`] is no less, found sooner.
///
/// # Errors
///
/// As [`stretched`].
pub(crate) fn bears(rig: &Rig, stretch: &Stretch, multiple: f64) -> Result<bool, Fault> {
    stretch.check(rig)?;
    let Ok(node) = Node::of(rig, stretch)? else { return Ok(false) };
    Ok(node.bears(stretch.lean_is, multiple))
}

/// The lean of a rig on guys that stretch loaded, and as it was set, rad: the second `None` where it is not known how it
/// stood before loading, both where it does not stand.
///
/// # Errors
///
/// As [`stretched`].
pub(crate) fn leans(rig: &Rig, stretch: &Stretch) -> Result<Option<(f64, Option<f64>)>, Fault> {
    stretch.check(rig)?;
    let Ok(node) = Node::of(rig, stretch)? else { return Ok(None) };
    Ok(match node.standing(stretch.lean_is) {
        Standing::At { state, set } => Some((node.lean(&state), set.map(|set| node.lean(&set)))),
        _ => None,
    })
}

/// Whether and where a frame stands.
enum Standing {
    /// In a state, come to from another without load.
    At { state: State, set: Option<State> },
    /// It goes at a multiple of its load.
    Goes(f64),
    /// Nothing holds it.
    Not,
}

/// How the path of a growing load begins.
enum Beginning {
    /// It goes from where it stands at a multiple of its load: lean (rad).
    Goes(f64, f64),
    /// It moves from a state, forward or back.
    Moves(State, f64),
}

impl Node<'_> {
    fn standing(&self, lean_is: LeanIs) -> Standing {
        if matches!(lean_is, LeanIs::UnderLoad) {
            let Some(state) = self.held(0.0, 1.0, &self.reference, 0.0) else { return Standing::Not };
            let multiple = self.firm_up_to(&state);
            if multiple <= 1.0 {
                return Standing::Goes(multiple);
            }
            let way = self.way(&state);
            let set = if way == 0.0 { Some(state) } else { self.before_loading(&state, way) };
            return Standing::At { state, set };
        }
        let Some(start) = self.unloaded() else { return Standing::Not };
        let set = Some(start);
        let way = self.way(&start);
        if way == 0.0 {
            let multiple = self.buckles_at(&start);
            return match self.held(start.turned, 1.0, &start, 0.0) {
                Some(state) if multiple > 1.0 => Standing::At { state, set },
                _ => Standing::Goes(multiple),
            };
        }
        if let Some(state) = self.at_one_go(&start, 1.0, way) {
            return Standing::At { state, set };
        }
        let followed = self.follow(&start, way, GREATEST_MULTIPLE);
        match (followed.stands, followed.end) {
            (Some(state), _) => Standing::At { state, set },
            (None, End::Goes(multiple, _)) => Standing::Goes(multiple),
            (None, End::Beyond) => Standing::Not,
        }
    }

    fn margin(&self, lean_is: LeanIs) -> Option<Margin> {
        match self.beginning(lean_is)? {
            Beginning::Goes(multiple, lean) => Margin::at(multiple, lean),
            Beginning::Moves(start, way) => {
                let followed = self.follow(&start, way, GREATEST_MULTIPLE);
                let margin = match followed.end {
                    End::Goes(multiple, lean) => Margin::at(multiple, lean),
                    End::Beyond => Margin::at(f64::INFINITY, 0.0),
                };
                margin.map(|margin| Margin { jump: followed.jump, ..margin })
            }
        }
    }

    fn bears(&self, lean_is: LeanIs, multiple: f64) -> bool {
        match self.beginning(lean_is) {
            None => false,
            Some(Beginning::Goes(at, _)) => at >= multiple,
            Some(Beginning::Moves(start, way)) => {
                start.multiple >= multiple
                    || self.at_one_go(&start, multiple, way).is_some()
                    || match self.follow(&start, way, multiple).end {
                        End::Goes(at, _) => at >= multiple,
                        End::Beyond => true,
                    }
            }
        }
    }

    /// Where the path of a growing load begins; `None` where nothing holds the frame without load.
    fn beginning(&self, lean_is: LeanIs) -> Option<Beginning> {
        let start = if matches!(lean_is, LeanIs::UnderLoad) {
            let state = self.held(0.0, 1.0, &self.reference, 0.0)?;
            let multiple = self.firm_up_to(&state);
            if multiple <= 1.0 {
                return Some(Beginning::Goes(multiple, self.lean(&state)));
            }
            state
        } else {
            self.unloaded()?
        };
        Some(match self.way(&start) {
            0.0 => Beginning::Goes(self.buckles_at(&start), self.lean(&start)),
            way => Beginning::Moves(start, way),
        })
    }

    /// Multiple of the load at which a frame whose load pulls it neither way tips out of its state, one way or the other.
    fn buckles_at(&self, start: &State) -> f64 {
        let multiple = |way: f64| {
            let firmness = |multiple: f64| {
                let state = self.held(start.turned, multiple, start, way)?;
                Some(state.firmness)
            };
            let (without, with) = (firmness(0.0)?, firmness(1.0)?);
            Some(if with < without { without.max(0.0) / (without - with) } else { f64::INFINITY })
        };
        let either = |way| multiple(way).unwrap_or(0.0);
        either(1.0).min(either(-1.0))
    }

    fn outcome(&self, state: &State, set: Option<&State>) -> Outcome {
        let gone = Outcome::NothingHolds;
        let way = if state.pull < 0.0 { -1.0 } else { 1.0 };
        let Some(tangent) = self.tangent(state.turned, state.multiple, state.push, way) else { return gone };
        let layout = self.frame.layout_in(&tangent.pose);
        let Some((line, second)) = self.line_forces(&layout) else { return gone };
        let [left, right] = state.push;
        let compression = Pair::new(left, right);
        let footing = Footing::of(self.rig, &layout, compression, &line, second.as_ref());
        if !self.rig.feet.held_down
            && let Some(tip) = Tip::by_lifting(&footing)
        {
            return Outcome::Tips(tip);
        }
        let mut tension: ArrayVec<f64, MAX_GUYS> = self.rig.guys.iter().map(|_| 0.0).collect();
        for (number, guy) in &self.guys {
            if let Some(tension) = tension.get_mut(*number) {
                *tension = guy.pull(tangent.pose.moved).tension();
            }
        }
        Outcome::Stands(Stretched {
            head: layout.head,
            lean: self.lean(state),
            set_lean: set.map(|set| self.lean(set)),
            compression,
            tension,
            stiffness: tangent.least_stiffness(self.frame.gives()).unwrap_or(0.0),
            line,
            second,
            footing,
        })
    }
}

impl Margin {
    fn at(multiple: f64, lean: f64) -> Option<Self> {
        let lean = Some(lean).filter(|_| multiple.is_finite());
        (multiple > NO_LOAD).then_some(Self { multiple, lean, jump: 0.0 })
    }
}
