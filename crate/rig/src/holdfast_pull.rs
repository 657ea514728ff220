//! Pull on a holdfast: what all ropes tied there do together.

use crate::angle::{atan2, hypot};
use crate::standby::each_other;
use crate::{Force, Forces, LineForces, MAX_GUYS, Part, Path, Point, Rig, Solution};
use arrayvec::ArrayVec;

/// Ropes that end this near to one another are tied to one holdfast, m.
const SAME_HOLDFAST: f64 = 0.05;

/// What ropes do to a holdfast.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct HoldfastPull {
    /// Size of the pull, N.
    pub size: f64,
    /// What of it lifts the holdfast out of the ground, N; negative where it presses it down.
    pub uplift: f64,
    /// What of it pulls level, N, never negative.
    pub level: f64,
    /// Its angle above the level, rad; `None` where nothing pulls.
    pub angle: Option<f64>,
}

/// Holdfasts, each by the part that it is, and what pulls on it.
type Pulls = ArrayVec<(Part, HoldfastPull), { MAX_GUYS + 4 }>;

/// A rope that ends at a holdfast.
pub(crate) struct Tied {
    end: Point,
    from: Point,
    tension: f64,
}

impl HoldfastPull {
    fn from_force(pull: Force) -> Self {
        let level = hypot(pull.x(), pull.y());
        let size = pull.size();
        Self { size, uplift: pull.z(), level, angle: (size > 0.0).then(|| atan2(pull.z(), level)) }
    }

    pub(crate) fn of(ropes: impl Iterator<Item = Tied>) -> Self {
        Self::from_force(ropes.fold(Force::ZERO, |pull, rope| {
            let way = rope.from - rope.end;
            pull + Force::along(way / way.length(), rope.tension)
        }))
    }
}

/// The pull on each holdfast of a solved rig, by the part that it is: those of rigged guys in their order, of the haul
/// line, of the second line's, and as [`Part::RedirectPulley`] and [`Part::SecondRedirect`] those of pulleys midway
/// between the feet that hang on a holdfast of their own, of both lines on one. Ropes that end within 5 cm of one another pull
/// together, and each such holdfast is then listed for each of them. Whether anything is known of their strength makes no difference. Empty
/// where the frame tips. Of a frame that [comes to rest](Rig::comes_to_rest) elsewhere each is the greater pull, and so it is
/// where another guy could hold alone (see [`crate::stands_by`]).
///
/// ```
/// use outlean_rig::{Guy, Point, Rig, holdfast_pulls, solve};
/// let mut rig = Rig::new(4.0, 1.2, 20f64.to_radians(), 250.0);
/// rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
/// // 7.35 m back from the head and 3.72 m below it: 27 degrees.
/// let (_, pull) = holdfast_pulls(&rig, &solve(&rig)?)[0];
/// assert!((pull.uplift / pull.level - 3.716 / 7.353).abs() < 1e-3);
/// # Ok::<(), outlean_rig::Fault>(())
/// ```
#[must_use]
pub fn holdfast_pulls(rig: &Rig, solution: &Solution) -> Pulls {
    let mut all = pulls_of(rig, solution);
    each_other(rig, solution, &mut |rig, there| {
        for (part, pull) in pulls_of(rig, there) {
            match all.iter_mut().find(|(known, _)| *known == part) {
                Some((_, known)) if pull.size > known.size => *known = pull,
                _ => {}
            }
        }
    });
    all
}

/// As [`holdfast_pulls`], at its own lean alone.
fn pulls_of(rig: &Rig, solution: &Solution) -> Pulls {
    let mut all = ArrayVec::new();
    let Some(forces) = solution.forces() else { return all };
    let at = |place: Point| HoldfastPull::of(tied_at(place, rig, solution, forces));
    let guys = (0_u8..).zip(&rig.guys).filter(|(_, guy)| guy.rigged);
    all.extend(guys.map(|(number, guy)| (Part::GuyHoldfast(number), at(guy.anchor))));
    let second = rig.second.as_ref().zip(solution.second.as_ref());
    let second =
        second.map(|(second, forces)| (second.line.path, forces, Part::SecondHoldfast, Part::SecondRedirect));
    let main = (rig.line.path, &solution.line, Part::HaulHoldfast, Part::RedirectPulley);
    let lines = || core::iter::once(main).chain(second);
    let at_middle = |path: Path, forces: &LineForces| match path {
        Path::RedirectedMidBase { .. } => forces.redirect,
        _ => None,
    };
    let middle = lines()
        .filter_map(|(path, forces, ..)| at_middle(path, forces))
        .fold(Force::ZERO, |all, pull| all + pull);
    for (path, forces, haul, redirect) in lines() {
        all.extend(path.haul_point().map(|to| (haul, at(to))));
        if at_middle(path, forces).is_some() {
            all.push((redirect, HoldfastPull::from_force(middle)));
        }
    }
    all
}

/// Whether ropes that end at two points are tied to one holdfast: within 5 cm of one another.
#[must_use]
pub fn one_holdfast(one: Point, other: Point) -> bool {
    (one - other).length_squared() < SAME_HOLDFAST * SAME_HOLDFAST
}

/// Every rigged guy and every haul line that end at `at`.
pub(crate) fn tied_at(
    at: Point,
    rig: &Rig,
    solution: &Solution,
    forces: &Forces,
) -> impl Iterator<Item = Tied> {
    let head = solution.layout.head;
    let guys =
        rig.guys.iter().zip(&forces.guys).filter(move |(guy, _)| guy.rigged && one_holdfast(guy.anchor, at));
    let guys = guys.map(move |(guy, force)| Tied { end: guy.anchor, from: head, tension: force.tension });
    let second = rig.second.as_ref().zip(solution.second.as_ref());
    let second = second.map(|(second, forces)| (&second.line, forces));
    let lines = core::iter::once((&rig.line, &solution.line)).chain(second);
    guys.chain(lines.filter_map(move |(line, forces)| {
        let end = line.path.haul_point().filter(|to| one_holdfast(*to, at))?;
        let next = line.path.next_point(&rig.feet, &solution.layout).filter(|next| *next != end);
        Some(Tied { end, from: next.unwrap_or(forces.pulley), tension: forces.after_redirect })
    }))
}
