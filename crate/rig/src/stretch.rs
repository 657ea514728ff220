//! Equilibrium on guys that stretch: where the head goes under load, and the load at which it runs away.

use crate::angle::atan2;
use crate::guy::MAX_GUYS;
use crate::resolve::resolve;
use crate::{Fault, Field, Force, Layout, Pair, Point, Rig, Side, Vector};
use arrayvec::ArrayVec;

/// How a guy stretches. The rope is taken as linear, which is an assumption: a rope that stiffens as it is
/// loaded gives way less.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rope {
    /// Axial stiffness EA, N: tension for a strain of 1.
    pub stiffness: f64,
    /// Length by which knots setting and the anchor giving loosen it, m.
    pub give: f64,
}

impl Rope {
    /// A rope that gets longer by the share `elongation` under `tension` (N), as its data sheet says, with no
    /// give. An elongation of nothing is a rope that does not stretch: infinite stiffness, which is refused.
    ///
    /// ```
    /// // 3 % at 1.33 kN.
    /// assert!((outlean_rig::Rope::of_elongation(0.03, 1335.0).stiffness - 44_500.0).abs() < 1e-6);
    /// ```
    #[must_use]
    pub fn of_elongation(elongation: f64, tension: f64) -> Self {
        Self { stiffness: tension / elongation, give: 0.0 }
    }
}

/// What a frame's parts give.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// Axial stiffness EA of each leg, N.
    pub leg_stiffness: f64,
    /// The ropes, in the order of [`Rig::guys`]; a guy without one is a fault.
    pub ropes: ArrayVec<Rope, MAX_GUYS>,
}

/// Stiffness of a leg whose give is of no account, N.
pub const STIFF_LEG: f64 = 1e11;

/// A frame on guys that stretch, as it stands under load.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretched {
    /// Where its head is.
    pub head: Point,
    /// Its lean there, rad.
    pub lean: f64,
    /// Compression of each leg, N; negative in a leg that pulls on a foot held down.
    pub compression: Pair<f64>,
    /// Tension of each guy, N.
    pub tension: ArrayVec<f64, MAX_GUYS>,
    /// The load at which it would run away, over its load; infinite where no such load is found up to
    /// [`GREATEST_MULTIPLE`].
    pub margin: f64,
}

/// What becomes of a frame on guys that stretch.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// It stands.
    Stands(Stretched),
    /// It runs away: no equilibrium on the way to its load. The multiple of its load at which it goes, below 1.
    RunsAway(f64),
    /// Nothing holds it even without its load: no guy comes under tension the way it goes.
    NothingHolds,
}

/// Loads beyond so many times the load are not looked at.
pub const GREATEST_MULTIPLE: f64 = 200.0;

/// The equilibrium of a rig whose lean is as set before loading, its guys then at their pretensions.
///
/// The head is a node of three degrees of freedom on springs: legs that push and pull, guys that only pull, the
/// haul line kept aimed at its point, the load line in its direction. Large displacements. The path of equilibria
/// is followed from no load on, by the head's forward displacement, which goes on through the greatest load that
/// can be borne; that load, the limit point, is where it runs away. Leg weight is there from the start. A sling is
/// left out: the line turns at the head.
///
/// Extensions are computed as (2d·u + u·u)/(L + L′), not as differences of lengths, so that the rigid answer is the
/// limit for stiff ropes.
///
/// # Errors
///
/// As [`crate::solve`], and [`Field::GuyLength`] for a guy without a rope of positive finite stiffness.
pub fn stretched(rig: &Rig, stretch: &Stretch) -> Result<Outcome, Fault> {
    rig.check()?;
    let layout = Layout::of(rig, rig.lean)?;
    let node = Node::of(rig, stretch, &layout)?;
    let Some(start) = node.settle(Vector::ZERO, 0.0).or_else(|| node.sag()) else {
        return Ok(Outcome::NothingHolds);
    };
    let loads = node.loads(start, 1.0);
    let moment = loads.moment_about(layout.mid_base, layout.foot_line, node.head(start));
    let way = if moment < 0.0 { -1.0 } else { 1.0 };
    Ok(node.follow(start, way))
}

/// Whether a rig whose lean is as it stands under load, its guys at their pretensions, is firm: any small displacement of
/// the head is resisted. The tangent stiffness of the loaded state, on its three principal minors; the pretensions are
/// taken as what the guys carry.
///
/// # Errors
///
/// As [`stretched`].
pub fn firm(rig: &Rig, stretch: &Stretch) -> Result<bool, Fault> {
    rig.check()?;
    let layout = Layout::of(rig, rig.lean)?;
    let mut node = Node::of(rig, stretch, &layout)?;
    // Rigid legs carry what balance leaves them: given to them as if they were set to it.
    let (left, _) = node.balance(Vector::ZERO, 1.0);
    let down = [layout.down_leg.left, layout.down_leg.right];
    let pushed = crate::resolve::resolve_in_plane(down, layout.normal, left);
    for (leg, push) in node.legs.iter_mut().zip(pushed) {
        leg.stretched_by = -push * leg.unstretched / leg.stiffness;
    }
    let (_, [x, y, z]) = node.balance(Vector::ZERO, 1.0);
    Ok(x.x > 0.0 && x.x * y.y - x.y * y.x > 0.0 && x.dot(y.cross(z)) > 0.0)
}

/// One spring: a leg or a guy.
#[derive(Clone, Copy)]
struct Spring {
    /// From the unloaded head to its far end.
    way: Vector,
    /// Length while the head stands unloaded, and unstretched, m.
    length: f64,
    unstretched: f64,
    /// `length − unstretched`, kept apart for the sake of its digits.
    stretched_by: f64,
    stiffness: f64,
    /// Whether it pushes too.
    pushes: bool,
}

impl Spring {
    /// Tension (N), unit vector to the far end, length, with the head displaced by `u`.
    fn pull(&self, u: Vector) -> (f64, Vector, f64) {
        let now = self.way - u;
        let length = now.length();
        let longer = (u.length_squared() - 2.0 * self.way.dot(u)) / (length + self.length);
        let tension = self.stiffness * (longer + self.stretched_by) / self.unstretched;
        (if self.pushes { tension } else { tension.max(0.0) }, now / length, length)
    }
}

struct Node<'a> {
    rig: &'a Rig,
    layout: &'a Layout,
    legs: [Spring; 2],
    guys: ArrayVec<Spring, MAX_GUYS>,
    weight: Force,
    /// Pull of the load line on the head, N.
    load: Force,
    /// Where the haul line goes from the head and its tension, N.
    haul: Option<(Point, f64)>,
}

impl<'a> Node<'a> {
    fn of(rig: &'a Rig, stretch: &Stretch, layout: &'a Layout) -> Result<Self, Fault> {
        let leg = |side: Side| {
            let length = *layout.working_length.on(side);
            let way = *rig.feet.at.on(side) - layout.head;
            let stiffness = stretch.leg_stiffness;
            Spring { way, length, unstretched: length, stretched_by: 0.0, stiffness, pushes: true }
        };
        let mut guys = ArrayVec::new();
        for (number, guy) in (0_u8..).zip(&rig.guys).filter(|(_, guy)| guy.rigged) {
            let way = guy.anchor - layout.head;
            let length = Field::GuyLength(number).check(way.length())?;
            let none = Fault {
                field: Field::GuyLength(number),
                value: length,
                allowed: Field::GuyLength(number).allowed(),
            };
            let rope = stretch.ropes.get(usize::from(number)).ok_or(none)?;
            if !(rope.stiffness > 0.0 && rope.stiffness.is_finite() && rope.give.is_finite()) {
                return Err(none);
            }
            let strain = guy.pretension / rope.stiffness;
            let stretched_by = length * strain / (1.0 + strain) - rope.give;
            let unstretched = length - stretched_by;
            guys.push(Spring {
                way,
                length,
                unstretched,
                stretched_by,
                stiffness: rope.stiffness,
                pushes: false,
            });
        }
        let weight = Force::new(0.0, 0.0, -rig.legs.left.weight_at_head() - rig.legs.right.weight_at_head());
        let line = crate::Line { sling: 0.0, ..rig.line };
        let bare = Rig { line, second: None, ..rig.clone() };
        let (forces, _) = bare.line_forces(rig.case, layout)?;
        let haul = line.path.next_point(&rig.feet, layout).map(|to| (to, forces.haul_tension));
        let legs = [leg(Side::Left), leg(Side::Right)];
        Ok(Self { rig, layout, legs, guys, weight, load: forces.load, haul })
    }

    fn head(&self, u: Vector) -> Point {
        self.layout.head + u
    }

    /// Pull of the lines on the displaced head at a multiple of the load.
    fn loads(&self, u: Vector, multiple: f64) -> Force {
        let mut pull = self.load;
        if let Some((to, tension)) = self.haul {
            let way = to - self.head(u);
            pull += Force::along(way.normalize_or_zero(), tension);
        }
        Force::along(Vector::from_array(pull.components()), multiple)
    }

    /// What is left on the head, N, and the stiffness against displacement along x, y, z, N/m.
    fn balance(&self, u: Vector, multiple: f64) -> (Force, [Vector; 3]) {
        let mut left = self.loads(u, multiple) + self.weight;
        let mut stiffness = [Vector::ZERO; 3];
        let mut add = |along: f64, across: f64, way: Vector| {
            for (column, axis) in stiffness.iter_mut().zip([Vector::X, Vector::Y, Vector::Z]) {
                let part = way * way.dot(axis);
                *column += part * along + (axis - part) * across;
            }
        };
        for spring in self.legs.iter().chain(&self.guys) {
            let (tension, way, length) = spring.pull(u);
            left += Force::along(way, tension);
            if spring.pushes || tension > 0.0 {
                add(spring.stiffness / spring.unstretched, tension / length, way);
            }
        }
        if let Some((to, tension)) = self.haul {
            let way = to - self.head(u);
            let length = way.length();
            add(0.0, multiple * tension / length, way / length);
        }
        (left, stiffness)
    }

    /// How much force counts as none, N.
    fn none(&self) -> f64 {
        1e-10 * (self.load.size() + self.weight.size() + 1.0)
    }

    /// The equilibrium at a multiple of the load near `u`, by Newton's method; `None` where none is found.
    fn settle(&self, mut u: Vector, multiple: f64) -> Option<Vector> {
        for _ in 0..60 {
            let (left, stiffness) = self.balance(u, multiple);
            if left.size() <= self.none() {
                return Some(u);
            }
            let step = Vector::from_array(resolve(stiffness, left)?);
            let most = 0.05 * self.layout.slant_height;
            u += step * (most / step.length()).min(1.0);
        }
        let (left, _) = self.balance(u, multiple);
        (left.size() <= 1e4 * self.none()).then_some(u)
    }

    /// The equilibrium with the head displaced forward by `ahead`, near `u` and `multiple`: the other two
    /// displacements and the multiple of the load.
    fn at(&self, ahead: f64, mut u: Vector, mut multiple: f64) -> Option<(Vector, f64)> {
        let (forward, across) = (self.layout.forward, self.layout.foot_line);
        let up = forward.cross(across);
        u += forward * (ahead - u.dot(forward));
        for _ in 0..80 {
            let (left, [x, y, z]) = self.balance(u, multiple);
            let against = |way: Vector| x * way.x + y * way.y + z * way.z;
            if left.size() <= self.none() {
                return Some((u, multiple));
            }
            // left + loads·Δmultiple − stiffness·Δu = 0
            let loads = Vector::from_array(self.loads(u, 1.0).components());
            let [dy, dz, dm] = resolve([against(across), against(up), -loads], left)?;
            let most = 0.05 * self.layout.slant_height;
            let step = across * dy + up * dz;
            u += step * (most / step.length()).min(1.0);
            multiple += dm;
        }
        let (left, _) = self.balance(u, multiple);
        (left.size() <= 1e4 * self.none() && multiple.is_finite()).then_some((u, multiple))
    }

    /// Where the head comes to rest under the weight of the legs alone, guys slack at first.
    fn sag(&self) -> Option<Vector> {
        let moment = self.weight.moment_about(self.layout.mid_base, self.layout.foot_line, self.layout.head);
        let stride = 0.002 * self.layout.slant_height * if moment < 0.0 { -1.0 } else { 1.0 };
        let bare = Node {
            rig: self.rig,
            layout: self.layout,
            legs: self.legs,
            guys: self.guys.clone(),
            weight: Force::new(0.0, 0.0, 0.0),
            load: self.weight,
            haul: None,
        };
        let (mut u, mut multiple) = (Vector::ZERO, 0.0);
        for _ in 0..500 {
            let (next, more) = bare.at(u.dot(self.layout.forward) + stride, u, multiple)?;
            if more >= 1.0 {
                return self.settle(u.lerp(next, (1.0 - multiple) / (more - multiple)), 0.0);
            }
            (u, multiple) = (next, more);
        }
        None
    }

    /// Follows the path of equilibria from `start`, the head going `way`, to the limit point.
    fn follow(&self, start: Vector, way: f64) -> Outcome {
        let stride = 0.004 * self.layout.slant_height;
        let (mut u, mut multiple) = (start, 0.0);
        let mut stands: Option<Vector> = None;
        let mut before = start;
        for _ in 0..2000 {
            let Some((next, more)) = self.at(u.dot(self.layout.forward) + way * stride, u, multiple) else {
                break;
            };
            if stands.is_none() && more >= 1.0 {
                stands = self.settle(u.lerp(next, (1.0 - multiple) / (more - multiple)), 1.0);
            }
            if more <= multiple {
                // The limit point lies between the last three.
                let margin = self.peak(before, next, multiple);
                return self.outcome(stands, margin);
            }
            if more > GREATEST_MULTIPLE {
                return self.outcome(stands, f64::INFINITY);
            }
            (before, u, multiple) = (u, next, more);
        }
        match stands {
            Some(_) => self.outcome(stands, multiple),
            None if multiple > 0.0 => Outcome::RunsAway(multiple),
            None => Outcome::NothingHolds,
        }
    }

    /// The greatest multiple of the load between two displacements that lie about it.
    fn peak(&self, from: Vector, to: Vector, near: f64) -> f64 {
        let near_u = from;
        let multiple = |ahead: f64| self.at(ahead, near_u, near).map_or(0.0, |(_, multiple)| multiple);
        let (from, to) = (from.dot(self.layout.forward), to.dot(self.layout.forward));
        multiple(crate::numeric::valley(from.min(to), from.max(to), |ahead| -multiple(ahead)))
    }

    fn outcome(&self, stands: Option<Vector>, margin: f64) -> Outcome {
        // A peak between two strides may just reach the load.
        let Some(u) = stands.or_else(|| (margin >= 1.0).then(|| self.settle(Vector::ZERO, 1.0)).flatten())
        else {
            return Outcome::RunsAway(margin.max(0.0));
        };
        let tension = |spring: &Spring| spring.pull(u).0;
        let [left, right] = &self.legs;
        let mut all = ArrayVec::new();
        let mut rigged = self.guys.iter();
        for guy in &self.rig.guys {
            all.push(if guy.rigged { rigged.next().map_or(0.0, tension) } else { 0.0 });
        }
        let head = self.head(u);
        let from_middle = head - self.layout.mid_base;
        Outcome::Stands(Stretched {
            head,
            lean: atan2(from_middle.dot(self.layout.forward), from_middle.z),
            compression: Pair::new(-tension(left), -tension(right)),
            tension: all,
            margin,
        })
    }
}

/// The least axial stiffness EA (N) of the rope of an aft guy on which a frame, leaning `lean` rad under load with
/// its load hung, does not run away: W·L·a²/(h·arm²), from the tangent stiffness of a rigid frame on one rope, its
/// anchor on the ground and no moment from a haul line.
///
/// `load` N, `guy_length` and its `arm` about the foot line in m, `slant_height` a, `head_height` h in m. A model
/// result: linear rope, rigid legs and anchor.
#[must_use]
pub fn least_stiffness(load: f64, guy_length: f64, arm: f64, slant_height: f64, head_height: f64) -> f64 {
    load * guy_length * slant_height * slant_height / (head_height * arm * arm)
}
