//! Equilibrium of the head with rigid legs and one working guy, or two splayed to either side.

use crate::feet::level_run;
use crate::guy::{Guy, GuyForce, MAX_GUYS, Role, Station};
use crate::resolve::resolve_in_plane;
use crate::splay::Together;
use crate::{Case, Fault, Field, Footing, Force, Layout, LineForces, Pair, Resultant, Rig, Side, Vector};
use arrayvec::ArrayVec;

/// Which way a frame goes that does not stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
pub enum Tip {
    /// Over its feet, toward the edge: no guy holds it back.
    Forward,
    /// Over its feet, away from the edge: no guy holds it out.
    Back,
    /// Over the left foot: the right one lifts and nothing holds it down.
    Left,
    /// Over the right foot: the left one lifts and nothing holds it down.
    Right,
}

impl Tip {
    /// The way a frame tips whose feet nobody holds down; `None` where no foot would lift.
    pub(crate) fn by_lifting(footing: &Footing) -> Option<Self> {
        let (left, right) = (&footing.feet.left, &footing.feet.right);
        // Where both would lift, it goes over the one that lifts less.
        if left.lifts && (!right.lifts || left.bearing <= right.bearing) {
            Some(Self::Right)
        } else {
            right.lifts.then_some(Self::Left)
        }
    }
}

/// What the parts carry in a frame that stands.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Forces {
    /// Compression of each leg at the head, N; negative in a leg that pulls on a foot held down.
    pub compression: Pair<f64>,
    /// The guys, in the order of the rig.
    pub guys: ArrayVec<GuyForce, MAX_GUYS>,
    /// Which guy works, counted from 0, the first of two that hold together; `None` where balance needs none.
    pub working_guy: Option<u8>,
    /// The feet.
    pub footing: Footing,
    /// Bending moment midway up each leg from its own weight, N m.
    pub leg_moment: Pair<f64>,
}

/// Whether the frame stands, and if so what it carries.
#[expect(clippy::large_enum_variant, reason = "a box would allocate in the solve path")]
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
pub enum Balance {
    /// It stands.
    Stands(Forces),
    /// It does not: a result, not an error.
    Tips(Tip),
}

/// A rig solved at one lean.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Solution {
    /// Where everything is.
    pub layout: Layout,
    /// What is going on.
    pub case: Case,
    /// What the main line puts on the frame.
    pub line: LineForces,
    /// What the second line puts on the frame, where there is one.
    pub second: Option<LineForces>,
    /// The sum of what loads the head.
    pub resultant: Resultant,
    /// Length of each guy from head to anchor, m, in the order of the rig.
    pub guy_length: ArrayVec<f64, MAX_GUYS>,
    /// Arm of each guy about the foot line, m: moment of a unit tension against tipping forward. An aft guy
    /// has a positive arm, a fore guy a negative one; zero holds nothing.
    pub guy_arm: ArrayVec<f64, MAX_GUYS>,
    /// Whether it stands and what it carries.
    pub balance: Balance,
}

impl Solution {
    /// What each line puts on the frame, the main line first.
    pub fn lines(&self) -> impl Iterator<Item = &LineForces> {
        core::iter::once(&self.line).chain(&self.second)
    }

    /// What all lines together put on the head, N.
    #[must_use]
    pub fn lines_on_head(&self) -> Force {
        self.lines().fold(Force::ZERO, |all, line| all + line.on_head())
    }

    /// What the parts carry, if the frame stands.
    #[must_use]
    pub const fn forces(&self) -> Option<&Forces> {
        match &self.balance {
            Balance::Stands(forces) => Some(forces),
            Balance::Tips(_) => None,
        }
    }

    /// Which way it tips, if it does.
    #[must_use]
    pub const fn tips(&self) -> Option<Tip> {
        match self.balance {
            Balance::Stands(_) => None,
            Balance::Tips(tip) => Some(tip),
        }
    }
}

/// Solves a rig at its own lean. See [`solve_at`].
///
/// # Errors
///
/// As [`solve_at`].
pub fn solve(rig: &Rig) -> Result<Solution, Fault> {
    solve_at(rig, rig.lean)
}

/// Solves a rig at a lean (rad, forward positive), its anchors and haul points staying where they are.
///
/// The rigid solution: two legs that do not give and a working guy, in closed form. The moment of the
/// loads about the foot line, less what the guys hold as they were set, says which way the frame would go; the
/// first rigged guy in the list whose arm opposes it works (a side guy only where no other can) and pulls as much
/// more as balance needs: tension = moment/arm for guys set slack. Where that one is splayed to a side, the first of its
/// station splayed to the other holds with it: of like ropes that hardly stretch each takes up tension as its arm over its
/// length, half each of two alike. Every other guy holds the pretension it was given; where nothing pulls against a
/// pretension, it eases to what balance needs, a splayed pair together. The legs then carry what is left in the frame's
/// plane. Loads on the head: the lines, and of each leg's weight the share that the head carries.
///
/// The frame tips forward or back where no guy opposes the moment, left or right where a foot would lift
/// that nothing holds down. Where the moment is nil within rounding, no guy works.
///
/// # Errors
///
/// The field, its value and what is allowed, for any number out of range (NaN and infinities always are),
/// legs that do not meet, or a line or guy of no length.
pub fn solve_at(rig: &Rig, lean: f64) -> Result<Solution, Fault> {
    rig.check()?;
    Field::Lean.check(lean)?;
    Posture::at(rig, lean)?.loaded(rig, rig.case)
}

/// A rig at a lean before anything loads it: what all its cases there share.
#[derive(Clone)]
pub(crate) struct Posture {
    pub layout: Layout,
    pub guy_length: ArrayVec<f64, MAX_GUYS>,
    pub guy_arm: ArrayVec<f64, MAX_GUYS>,
    guy_way: ArrayVec<Vector, MAX_GUYS>,
}

impl Posture {
    /// The posture of a rig and a lean already checked.
    // Where size does not matter, inlined: a copy less of what is large takes a fifteenth off a solve.
    #[cfg_attr(not(target_family = "wasm"), inline(always))]
    pub(crate) fn at(rig: &Rig, lean: f64) -> Result<Self, Fault> {
        let layout = Layout::at(rig, lean)?;
        let mut guy_length = ArrayVec::new();
        let mut guy_arm = ArrayVec::new();
        let mut guy_way: ArrayVec<Vector, MAX_GUYS> = ArrayVec::new();
        for (number, guy) in (0_u8..).zip(&rig.guys) {
            let rope = guy.anchor - layout.head;
            let length = Field::GuyLength(number).check(rope.length())?;
            let way = rope / length;
            guy_length.push(length);
            guy_arm.push(-Force::along(way, 1.0).moment_about(
                layout.mid_base,
                layout.foot_line,
                layout.head,
            ));
            guy_way.push(way);
        }
        Ok(Self { layout, guy_length, guy_arm, guy_way })
    }

    /// As [`solve_at`], in any case.
    // As above.
    #[cfg_attr(not(target_family = "wasm"), inline(always))]
    pub(crate) fn loaded(self, rig: &Rig, case: Case) -> Result<Solution, Fault> {
        let pulls = rig.pulls(case, &self.layout)?;
        let (line, second) = rig.line_forces(&pulls, [None; 2], &self.layout)?;
        let weight = rig.legs.left.weight_at_head() + rig.legs.right.weight_at_head();
        let lines = second.iter().fold(line.on_head(), |all, line| all + line.on_head());
        let resultant = Resultant::of(lines + Force::new(0.0, 0.0, -weight), &self.layout);
        let balance = balance(rig, &self, &line, second.as_ref(), &resultant);
        let Self { layout, guy_length, guy_arm, .. } = self;
        Ok(Solution { layout, case, line, second, resultant, guy_length, guy_arm, balance })
    }
}

fn balance(
    rig: &Rig,
    posture: &Posture,
    line: &LineForces,
    second: Option<&LineForces>,
    resultant: &Resultant,
) -> Balance {
    let Posture { layout, guy_arm, guy_way, .. } = posture;
    let set_to = |guy: &Guy| if guy.rigged { guy.pretension } else { 0.0 };
    let all_set: f64 = rig.guys.iter().map(set_to).sum();
    // Shares of the slant height and of the moment below these are rounding.
    let least_arm = 1e-9 * layout.slant_height;
    let least_moment = 1e-12 * layout.slant_height * (resultant.force.size() + all_set);
    let holds = |arm: f64, moment: f64| arm.abs() > least_arm && arm * moment > 0.0;

    // What the guys as they were set leave to be balanced, forward positive.
    let mut tensions: ArrayVec<f64, MAX_GUYS> = rig.guys.iter().map(set_to).collect();
    let set: f64 = tensions.iter().zip(guy_arm).map(|(tension, arm)| tension * arm).sum();
    let mut moment = resultant.tipping_moment - set;
    let mut working: Option<Together> = None;
    if moment.abs() > least_moment {
        let can = |number: usize| {
            let guy = rig.guys.get(number).zip(guy_arm.get(number));
            guy.is_some_and(|(guy, arm)| guy.rigged && holds(*arm, moment))
        };
        // A guy to a side, whose arm is small beside its length, works only where no other can.
        let to_side = |guy: &Guy| matches!(Station::of(guy.anchor, layout), Station::Side);
        let mut could = (0..rig.guys.len()).filter(|number| can(*number));
        let not_to_side = could.clone().find(|number| !rig.guys.get(*number).is_some_and(to_side));
        working = not_to_side.or_else(|| could.next()).map(|first| Together::of(rig, posture, first, can));
        if let Some(working) = working {
            for (number, more) in working.pull(posture, moment) {
                if let Some(tension) = tensions.get_mut(number) {
                    *tension += more;
                }
            }
            moment = 0.0;
        }
        // Nothing to pull against: guys that were set harder than balance needs go easier, the first one first. Each time
        // but the last one of them goes slack.
        for _ in &rig.guys {
            let taut = |number: usize| {
                let guy = tensions.get(number).zip(guy_arm.get(number));
                moment.abs() > least_moment
                    && guy.is_some_and(|(tension, arm)| *tension > 0.0 && holds(*arm, -moment))
            };
            let Some(first) = (0..rig.guys.len()).find(|number| taut(*number)) else { break };
            let easing = Together::of(rig, posture, first, taut);
            for (number, more) in easing.pull(posture, moment) {
                if let Some((tension, arm)) = tensions.get_mut(number).zip(guy_arm.get(number)) {
                    let eased = *tension + more;
                    // Less than rounding is slack.
                    let eased = if eased * arm.abs() > least_moment { eased } else { 0.0 };
                    moment -= (eased - *tension) * arm;
                    *tension = eased;
                }
            }
            working = Some(easing);
        }
        if moment.abs() > least_moment {
            return Balance::Tips(if moment > 0.0 { Tip::Forward } else { Tip::Back });
        }
    }

    let mut guys: ArrayVec<GuyForce, MAX_GUYS> = ArrayVec::new();
    let mut working_guy = None;
    let mut on_head = resultant.force;
    for ((number, guy), (way, tension)) in (0_u8..).zip(&rig.guys).zip(guy_way.iter().zip(tensions)) {
        let role = match guy.rigged {
            false => Role::NotRigged,
            true if tension == 0.0 => Role::Slack,
            true if working.is_some_and(|working| working.has(number.into())) => Role::Working,
            true => Role::Pretensioned,
        };
        if matches!(role, Role::Working) {
            working_guy = working_guy.or(Some(number));
        }
        on_head += Force::along(*way, tension);
        guys.push(GuyForce { tension, role });
    }

    let down = [layout.down_leg.left, layout.down_leg.right];
    let [left, right] = resolve_in_plane(down, layout.normal, on_head);
    let compression = Pair::new(left, right);
    let footing = Footing::of(rig, layout, compression, line, second);
    if !rig.feet.held_down
        && let Some(tip) = Tip::by_lifting(&footing)
    {
        return Balance::Tips(tip);
    }
    let leg_moment = Pair::from_fn(|side: Side| rig.legs.on(side).midspan_moment(level_run(layout, side)));
    Balance::Stands(Forces { compression, guys, working_guy, footing, leg_moment })
}
