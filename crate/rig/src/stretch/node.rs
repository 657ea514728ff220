//! Node: the head on springs, and what it takes to hold it.

use super::pose::{Frame, Pose};
use super::spring::Spring;
use super::{LeanIs, Stretch};
use crate::line::Pull;
use crate::resolve::resolve;
use crate::stiffness::stiffness;
use crate::{
    Balance, Fault, Field, Force, Layout, Line, LineForces, LineName, Load, MAX_GUYS, Path, Point, Rig, Tip,
    Vector,
};
use arrayvec::ArrayVec;
use core::cell::Cell;
use glam::DMat3;

/// Share of the forces on the head that is rounding, or becomes it by one more step of Newton's method.
const NEAR: f64 = 1e-7;

/// The head of a rig between its legs, guys and lines.
pub(super) struct Node<'a> {
    pub rig: &'a Rig,
    pub frame: Frame,
    /// The guys that act, each with its number.
    pub guys: ArrayVec<(usize, Spring), MAX_GUYS>,
    /// Weight of the legs at the head, N.
    weight: Vector,
    /// The reference place: turned by nothing.
    pub reference: State,
    /// Whether ropes push too, so that a guy that just goes slack does not let the frame go.
    ropes_push: bool,
    lines: Lines<'a>,
}

/// The head in balance, or held there by a force square to the frame's plane.
#[derive(Clone, Copy, Debug)]
pub(super) struct State {
    /// Forward from the reference place, rad.
    pub turned: f64,
    /// Multiple of the load.
    pub multiple: f64,
    /// Compression of the legs, left and right, N.
    pub push: [f64; 2],
    /// Force forward, square to the frame's plane, that holds it there, N; zero in balance.
    pub held: f64,
    /// Stiffness against turning forward, at the head, N/m: positive where it is firm.
    pub firmness: f64,
    /// What the whole load pulls the head forward by, square to the frame's plane, N.
    pub pull: f64,
}

impl State {
    /// About what stands a share of the way to another state.
    pub(super) fn between(&self, to: &Self, share: f64) -> Self {
        let between = |from: f64, to: f64| from + (to - from) * share;
        let ([left, right], [to_left, to_right]) = (self.push, to.push);
        Self {
            turned: between(self.turned, to.turned),
            multiple: between(self.multiple, to.multiple),
            push: [between(left, to_left), between(right, to_right)],
            ..*self
        }
    }
}

/// Forces on the head in some pose and how they change.
pub(super) struct Tangent {
    pub pose: Pose,
    /// What is left unbalanced, N.
    pub left: Vector,
    /// What the lines pull at the whole load, N.
    pub loads: Vector,
    /// Stiffness against displacement of the head with the legs' compression unchanged, N/m.
    pub stiffness: DMat3,
    /// How `left` changes by each leg's compression.
    by_push: [Vector; 2],
    /// How large forces are, N.
    pub size: f64,
}

/// What is known of the lines beforehand.
#[derive(Clone)]
enum Lines<'a> {
    /// Pulleys at the head itself and no edge: so much from the load lines, N, and a haul line to a point with its
    /// tension, N, from each.
    AtHead { load: Vector, hauls: ArrayVec<(Point, f64), 2> },
    /// They have to be found anew wherever the head is: how the load pulls on them, the ways in which their pulleys hung
    /// when last looked at, and what was found then.
    Turning { pulls: [Pull<'a>; 2], hung: Cell<[Option<Vector>; 2]>, last: Cell<Option<Found>> },
}

/// Where the head was, what the lines pulled there, N, and the stiffness they added, N/m.
type Found = (Point, Vector, DMat3);

impl<'a> Node<'a> {
    /// The node of a rig, or the way it tips before anything loads it, its rig and stretch already checked.
    pub(super) fn of(rig: &'a Rig, stretch: &Stretch) -> Result<Result<Self, Tip>, Fault> {
        let layout = Layout::at(rig, rig.lean)?;
        let (tension, push) = match as_set(rig, stretch.lean_is)? {
            Ok(set) => set,
            Err(tip) => return Ok(Err(tip)),
        };
        let under_load = matches!(stretch.lean_is, LeanIs::UnderLoad);
        let mut guys = ArrayVec::new();
        let all = rig.guys.iter().zip(&stretch.ropes).zip(tension).zip(0_u8..);
        for (((guy, rope), tension), number) in all.filter(|(((guy, _), _), _)| guy.rigged) {
            let way = guy.anchor - layout.head;
            let length = Field::GuyLength(number).check(way.length())?;
            // Under load a slack guy hangs by nobody knows how much, and what gave has given.
            if !under_load || tension > 0.0 {
                let give = if under_load { 0.0 } else { rope.give };
                guys.push((usize::from(number), Spring::set(way, length, *rope, tension, give)));
            }
        }
        let weight = -Vector::Z * (rig.legs.left.weight_at_head() + rig.legs.right.weight_at_head());
        let multiple = if under_load { 1.0 } else { 0.0 };
        let reference = State { turned: 0.0, multiple, push, held: 0.0, firmness: 0.0, pull: 0.0 };
        let frame = Frame::new(layout, stretch.leg_stiffness, push);
        let lines = Lines::of(rig, &layout)?;
        Ok(Ok(Self { rig, frame, guys, weight, reference, ropes_push: false, lines }))
    }

    /// The same with guys that push where they would be slack.
    pub(super) fn as_if_ropes_pushed(&self) -> Self {
        Self { guys: self.guys.clone(), lines: self.lines.clone(), ropes_push: true, ..*self }
    }

    /// Forces on the head and how they change, at a multiple of the load. A guy just about to come taut counts as
    /// taut where going `way` would tighten it. `None` where the frame or a line cannot be so.
    pub(super) fn tangent(&self, turned: f64, multiple: f64, push: [f64; 2], way: f64) -> Option<Tangent> {
        /// Strain that counts as none.
        const SLIGHT: f64 = 1e-9;
        let pose = self.frame.pose(self.rig, turned, push)?;
        let (loads, lines) = self.lines(self.frame.layout.head + pose.moved)?;
        let mut left = loads * multiple + self.weight;
        // A millinewton is none; of a stiff guy the rounding of its length is some.
        let mut size = 1e-3 + loads.length() * multiple.abs().max(1.0) + self.weight.length();
        let mut total = lines * multiple;
        for (_, guy) in &self.guys {
            let pull = guy.pull(pose.moved);
            let tension = if self.ropes_push { pull.signed } else { pull.tension() };
            left += pull.way * tension;
            size += tension.abs() + 4e-16 / NEAR * guy.elastic() * pull.length;
            let comes_taut =
                pull.signed > -SLIGHT * guy.elastic() * pull.length && way * pull.way.dot(pose.normal) < 0.0;
            if tension > 0.0 || comes_taut || self.ropes_push {
                total += stiffness(pull.way, guy.elastic(), tension / pull.length);
            }
        }
        for ((push, way), length) in push.into_iter().zip(pose.down).zip(pose.length) {
            left -= way * push;
            size += push.abs();
            total += stiffness(way, 0.0, -push / length);
        }
        let [down_left, down_right] = pose.down;
        let [moved_left, moved_right] = pose.by_length();
        let [gives_left, gives_right] = self.frame.gives();
        let by_push =
            [total * moved_left * gives_left - down_left, total * moved_right * gives_right - down_right];
        (left.is_finite() && size.is_finite()).then_some(Tangent {
            pose,
            left,
            loads,
            stiffness: total,
            by_push,
            size,
        })
    }

    /// The state turned so far that is in balance at some multiple of the load, near another.
    pub(super) fn on_path(&self, turned: f64, near: &State, way: f64) -> Option<State> {
        let (mut multiple, mut push) = (near.multiple, near.push);
        for _ in 0..30 {
            let tangent = self.tangent(turned, multiple, push, way)?;
            let [more, left, right] = tangent.solve(tangent.loads)?;
            multiple += more;
            push = add(push, [left, right]);
            if tangent.left.length() <= NEAR * tangent.size {
                return Some(tangent.state(turned, multiple, push, 0.0));
            }
        }
        None
    }

    /// The state turned so far at a multiple of the load, and the force that holds it there.
    pub(super) fn held(&self, turned: f64, multiple: f64, near: &State, way: f64) -> Option<State> {
        let (mut held, mut push) = (near.held, near.push);
        for _ in 0..30 {
            let tangent = self.tangent(turned, multiple, push, way)?;
            let off = (tangent.left + tangent.pose.normal * held).length();
            let [holds, left, right] = tangent.solve(tangent.pose.normal)?;
            held = holds;
            push = add(push, [left, right]);
            if off <= NEAR * tangent.size {
                return Some(tangent.state(turned, multiple, push, held));
            }
        }
        None
    }

    /// The firm state in balance at a multiple of the load that Newton's method comes to from another, firm all the way;
    /// `None` where that is not so.
    pub(super) fn settled(&self, multiple: f64, from: &State, way: f64) -> Option<State> {
        /// Farther than this in one step is not trusted, rad.
        const MOST: f64 = 0.12;
        let (mut turned, mut push) = (from.turned, from.push);
        for _ in 0..25 {
            let tangent = self.tangent(turned, multiple, push, way)?;
            // Where all guys are slack and nothing pulls, what is left of firmness is rounding.
            if tangent.firmness() * tangent.pose.slant <= 1e-9 * tangent.size {
                return None;
            }
            let by_turn = tangent.stiffness * tangent.pose.normal * -tangent.pose.slant;
            let [more, left, right] = tangent.solve(by_turn)?;
            let share = (MOST / more.abs()).min(1.0);
            turned += more * share;
            push = add(push, [left * share, right * share]);
            if tangent.left.length() <= NEAR * tangent.size {
                return Some(tangent.state(turned, multiple, push, 0.0));
            }
        }
        None
    }

    /// What the lines put on the head, wherever it is.
    pub(super) fn line_forces(&self, layout: &Layout) -> Option<(LineForces, Option<LineForces>)> {
        let Lines::Turning { pulls, hung, .. } = &self.lines else {
            return self
                .rig
                .line_forces(&self.rig.pulls(self.rig.case, layout).ok()?, [None; 2], layout)
                .ok();
        };
        let (main, second) = self.rig.line_forces(pulls, hung.get(), layout).ok()?;
        hung.set([main.hangs(layout), second.and_then(|second| second.hangs(layout))]);
        Some((main, second))
    }

    /// What the lines pull, N, and the stiffness they add, N/m, with the head somewhere.
    fn lines(&self, head: Point) -> Option<(Vector, DMat3)> {
        match &self.lines {
            Lines::AtHead { load, hauls } => {
                let (mut pull, mut total) = (*load, DMat3::ZERO);
                for (to, tension) in hauls {
                    let way = *to - head;
                    let length = way.length();
                    let way = (length >= Field::HaulLength(LineName::Main).allowed().least)
                        .then(|| way / length)?;
                    pull += way * *tension;
                    total += stiffness(way, 0.0, tension / length);
                }
                Some((pull, total))
            }
            Lines::Turning { last, .. } if last.get().is_some_and(|(at, ..)| at == head) => {
                last.get().map(|(_, pull, stiffness)| (pull, stiffness))
            }
            Lines::Turning { pulls, last, hung } => {
                let layout = Layout { head, ..self.frame.layout };
                if self.rig.second.is_none()
                    && let Some((at, pull, stiffness)) = last.get()
                {
                    // It hangs along the pull, which falls off as its stiffness says.
                    hung.set([(pull - stiffness * (head - at)).try_normalize(), None]);
                }
                let (main, second) = self.line_forces(&layout)?;
                let pull = vector(main.on_head() + second.as_ref().map_or(Force::ZERO, LineForces::on_head));
                let stiffness = self.rig.line_stiffness(pulls, &layout, (&main, second.as_ref()));
                last.set(Some((head, pull, stiffness)));
                Some((pull, stiffness))
            }
        }
    }
}

impl<'a> Lines<'a> {
    fn of(rig: &'a Rig, layout: &Layout) -> Result<Self, Fault> {
        let pulls = rig.pulls(rig.case, layout)?;
        let (main, second) = rig.line_forces(&pulls, [None; 2], layout)?;
        let hung = [main.hangs(layout), second.and_then(|second| second.hangs(layout))];
        let second = rig.second.as_ref().map(|second| &second.line).zip(second);
        let mut load = Vector::ZERO;
        let mut hauls = ArrayVec::new();
        for (line, forces) in core::iter::once((&rig.line, main)).chain(second) {
            if line.sling > 0.0 || rig.edge.is_some() {
                return Ok(Self::Turning { pulls, hung: Cell::new(hung), last: Cell::new(None) });
            }
            load += vector(forces.load);
            if let Some(next) = line.path.next_point(&rig.feet, layout) {
                hauls.push((next, forces.haul_tension));
            }
        }
        Ok(Self::AtHead { load, hauls })
    }
}

impl Tangent {
    /// How far to go along `unknown` (so much of it by one) and in the legs' compressions for balance.
    fn solve(&self, unknown: Vector) -> Option<[f64; 3]> {
        let [left, right] = self.by_push;
        resolve([unknown, left, right], Force::along(-self.left, 1.0))
    }

    /// The direction that the legs, giving as they do, hold nothing of; square to the frame's plane where they
    /// do not give. One along the frame's normal.
    fn unheld(&self) -> Vector {
        let [left, right] = self.by_push;
        let across = left.cross(right);
        across / across.dot(self.pose.normal)
    }

    /// Stiffness of the head against turning forward, the legs giving as they do, N/m.
    pub(super) fn firmness(&self) -> f64 {
        self.unheld().dot(self.stiffness * self.pose.normal)
    }

    /// What pulls the head forward, square to the frame's plane, out of a force on it.
    pub(super) fn forward(&self, force: Vector) -> f64 {
        self.unheld().dot(force)
    }

    /// Least stiffness of the head against any displacement, N/m, on legs that give by `gives` (m/N): the least
    /// eigenvalue of its tangent stiffness. By power iteration on the flexibility, of which legs leave one
    /// direction far softer than the others.
    pub(super) fn least_stiffness(&self, gives: [f64; 2]) -> Option<f64> {
        let [moved_left, moved_right] = self.pose.by_length();
        let [gives_left, gives_right] = gives;
        // Along the frame's normal and the two ways that lengthen one leg, each scaled by what the legs give.
        let basis = DMat3::from_cols(
            self.pose.normal,
            moved_left * libm::sqrt(gives_left),
            moved_right * libm::sqrt(gives_right),
        );
        let legs = DMat3::from_diagonal(Vector::new(0.0, 1.0, 1.0));
        let flexibility =
            basis * (basis.transpose() * self.stiffness * basis + legs).inverse() * basis.transpose();
        let mut softest = self.pose.normal;
        let mut most = 0.0;
        for _ in 0..60 {
            let next = flexibility * softest;
            let size = next.length();
            let settled = (size - most).abs() <= 1e-14 * size;
            (softest, most) = (next.try_normalize()?, size);
            if settled {
                break;
            }
        }
        Some(1.0 / most)
    }

    fn state(&self, turned: f64, multiple: f64, push: [f64; 2], held: f64) -> State {
        State { turned, multiple, push, held, firmness: self.firmness(), pull: self.forward(self.loads) }
    }
}

/// Tension of every guy as set (N, in the order of the rig) and compression of the legs, or how it tips then.
pub(super) type AsSet = Result<(ArrayVec<f64, MAX_GUYS>, [f64; 2]), Tip>;

pub(super) fn as_set(rig: &Rig, lean_is: LeanIs) -> Result<AsSet, Fault> {
    let given = || rig.guys.iter().map(|guy| guy.pretension).collect();
    let light = rig.legs.left.weight_per_metre == 0.0 && rig.legs.right.weight_per_metre == 0.0;
    let slack = rig.guys.iter().all(|guy| guy.pretension == 0.0 || !guy.rigged);
    let solution = match lean_is {
        LeanIs::Cut => return Ok(Ok((given(), [0.0; 2]))),
        LeanIs::SetBefore if light && slack => return Ok(Ok((given(), [0.0; 2]))),
        LeanIs::SetBefore => {
            let mut unloaded = rig.clone();
            unloaded.load = Load::hanging(0.0);
            (unloaded.line, unloaded.second, unloaded.edge) = (Line::along(Path::Hung), None, None);
            crate::solve(&unloaded)?
        }
        LeanIs::UnderLoad => crate::solve(rig)?,
    };
    Ok(match solution.balance {
        Balance::Tips(tip) => Err(tip),
        Balance::Stands(forces) => Ok((
            forces.guys.iter().map(|guy| guy.tension).collect(),
            [forces.compression.left, forces.compression.right],
        )),
    })
}

fn add([a, b]: [f64; 2], [c, d]: [f64; 2]) -> [f64; 2] {
    [a + c, b + d]
}

fn vector(force: Force) -> Vector {
    Vector::from_array(force.components())
}
