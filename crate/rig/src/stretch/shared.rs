//! Shared: what several guys carry together on legs that do not give.

use super::node::as_set;
use super::spring::Spring;
use super::{LeanIs, Stretch};
use crate::feet::level_run;
use crate::resolve::resolve_in_plane;
use crate::{
    Balance, Fault, Footing, Force, Forces, GuyForce, MAX_GUYS, Pair, Rig, Role, Tip, Vector, solve,
};
use arrayvec::ArrayVec;

/// A rig whose guys share the moment of its loads.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Shared {
    /// How far the frame turns about its foot line for it, rad, forward positive. Small: the geometry is taken as
    /// unchanged.
    pub turned: f64,
    /// Whether it stands and what it carries.
    pub balance: Balance,
}

/// One guy as the frame turns: its tension is `at_rest + by_turn × angle`, if positive.
struct Share {
    at_rest: f64,
    by_turn: f64,
    arm: f64,
}

impl Share {
    fn tension(&self, turned: f64) -> f64 {
        (self.at_rest + self.by_turn * turned).max(0.0)
    }
}

/// Solves a rig for all its guys at once: the rigid legs turn about the foot line by a small angle θ, and every guy
/// carries max(0, t₀ + k·arm·θ), k = EA over its unstretched length, its arm as in [`crate::Solution::guy_arm`]. θ follows
/// from the moment of the loads, exactly, as the sum is straight between the angles at which a guy comes taut.
///
/// [`crate::solve`] in contrast lets one guy work. Where one only holds, both agree. The tensions at rest are as
/// [`LeanIs`] says; a lean under load counts as one before. [`super::stretched`] says the same of a frame that moves
/// far and on legs that give: that is what is shown of a rig; this closed form is what tests hold it against.
///
/// `working_guy` of the balance is the one pulled hardest of those that oppose the loads; guys taut against them are
/// [`Role::Pretensioned`].
///
/// # Errors
///
/// As [`super::stretched`].
pub fn shared(rig: &Rig, stretch: &Stretch) -> Result<Shared, Fault> {
    stretch.check(rig)?;
    let solution = solve(rig)?;
    let layout = &solution.layout;
    let tips = |tip| Ok(Shared { turned: 0.0, balance: Balance::Tips(tip) });
    let at_rest = match stretch.lean_is {
        LeanIs::UnderLoad => LeanIs::SetBefore,
        before => before,
    };
    let (set, _) = match as_set(rig, at_rest)? {
        Ok(set) => set,
        Err(tip) => return tips(tip),
    };
    let all: ArrayVec<(Share, Vector), MAX_GUYS> = rig
        .guys
        .iter()
        .zip(&stretch.ropes)
        .zip(set.iter().zip(&solution.guy_arm))
        .map(|((guy, rope), (tension, &arm))| {
            let way = guy.anchor - layout.head;
            let spring = Spring::set(way, way.length(), *rope, *tension, rope.give);
            // An arm of nothing holds nothing; neither does a guy that is not rigged.
            let by_turn = if arm.abs() > 1e-9 * layout.slant_height { spring.elastic() * arm } else { 0.0 };
            let rigged = if guy.rigged { 1.0 } else { 0.0 };
            let share = Share { at_rest: spring.at_rest() * rigged, by_turn: by_turn * rigged, arm };
            (share, way.normalize_or_zero())
        })
        .collect();

    let moment = solution.resultant.tipping_moment;
    let Some(turned) = turn(&all, moment, 1e-12 * layout.slant_height * solution.resultant.force.size())
    else {
        return tips(if moment > 0.0 { Tip::Forward } else { Tip::Back });
    };
    let mut guys: ArrayVec<GuyForce, MAX_GUYS> = ArrayVec::new();
    let mut working: Option<(u8, f64)> = None;
    let mut on_head = solution.resultant.force;
    for ((number, guy), (share, way)) in (0_u8..).zip(&rig.guys).zip(&all) {
        let tension = share.tension(turned);
        on_head += Force::along(*way, tension);
        let role = match guy.rigged {
            false => Role::NotRigged,
            true if tension == 0.0 => Role::Slack,
            true if share.arm * moment > 0.0 => Role::Working,
            true => Role::Pretensioned,
        };
        if matches!(role, Role::Working) && working.is_none_or(|(_, most)| tension > most) {
            working = Some((number, tension));
        }
        guys.push(GuyForce { tension, role });
    }
    let [left, right] =
        resolve_in_plane([layout.down_leg.left, layout.down_leg.right], layout.normal, on_head);
    let compression = Pair::new(left, right);
    let footing = Footing::of(rig, layout, compression, &solution.line, solution.second.as_ref());
    if !rig.feet.held_down
        && let Some(tip) = Tip::by_lifting(&footing)
    {
        return tips(tip);
    }
    let leg_moment = Pair::from_fn(|side| rig.legs.on(side).midspan_moment(level_run(layout, side)));
    let working_guy = working.map(|(number, _)| number);
    let balance = Balance::Stands(Forces { compression, guys, working_guy, footing, leg_moment });
    Ok(Shared { turned, balance })
}

/// The turn at which the guys hold `moment` (N m); `None` where they cannot.
fn turn(all: &[(Share, Vector)], moment: f64, rounding: f64) -> Option<f64> {
    let holds = |turned: f64| all.iter().map(|(share, _)| share.tension(turned) * share.arm).sum::<f64>();
    // What they hold grows with the turn; it bends where one of them comes taut.
    let (mut less, mut more) = (f64::NEG_INFINITY, f64::INFINITY);
    for (share, _) in all.iter().filter(|(share, _)| share.by_turn != 0.0) {
        let taut = -share.at_rest / share.by_turn;
        if holds(taut) <= moment {
            less = less.max(taut);
        } else {
            more = more.min(taut);
        }
    }
    let between = match (less.is_finite(), more.is_finite()) {
        (true, true) => 0.5 * (less + more),
        (true, false) => less + 1.0,
        (false, true) => more - 1.0,
        (false, false) => 0.0,
    };
    let (mut held, mut by_turn) = (0.0, 0.0);
    for (share, _) in all.iter().filter(|(share, _)| share.tension(between) > 0.0) {
        held += share.at_rest * share.arm;
        by_turn += share.by_turn * share.arm;
    }
    if by_turn > 0.0 {
        return Some((moment - held) / by_turn);
    }
    // All slack there, or taut with no arm: any turn between does, and the least is none.
    ((moment - held).abs() <= rounding).then(|| 0.0_f64.max(less).min(more))
}
