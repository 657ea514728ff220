//! Likely slips: the wrong turns that people take on the way to an answer, each worked out on their own rig.

use core::f64::consts::FRAC_PI_2;
use outlean_rig::{Fault, Line, Path, Point, Quantity, Rig, Side, Solution, resolve, solve};

/// A wrong turn. Each is another rig on which its number would be right, or a formula on the same rig.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SlipKind {
    /// "The load is on the head, done": the load as if hung there. The haul line's own pull is left out.
    ForgotMainLine,
    /// "Half the load down each leg, and the line": the frame as if it stood upright.
    ForgotLean,
    /// "It leans, but the guy only holds it back": that the aft guy also presses the head down is left out.
    ForgotGuy,
    /// "The load goes down the leg": each leg with the whole load on it instead of half, and its line.
    WholeLoadOnEachLeg,
    /// "The pull is what hangs on it": the load's weight itself as the answer.
    JustTheLoad,
    /// "Two parts, half each": half the load's weight as the answer, whatever the lean.
    HalfTheLoad,
    /// "24 degrees" read from the ground: the lean and its complement mixed up.
    LeanFromGround,
    /// "It pulls straight back": the guy as if level; its slope, or its length against the level distance, is
    /// left out.
    LevelGuy,
    /// "The head carries it, so both legs do": the haul line's pull shared by both legs, though it runs down
    /// one.
    SharedMainLine,
    /// "A pulley doubles": the pull of the line taken twice on the leg it runs down.
    DoubledMainLine,
    /// "The other left": the line as if led to the other foot.
    OtherFoot,
}

/// A slip with the number it leads to.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Slip {
    /// Which.
    pub kind: SlipKind,
    /// The number, SI.
    pub value: f64,
}

impl SlipKind {
    /// All of them.
    pub const ALL: [Self; 11] = [
        Self::ForgotMainLine,
        Self::ForgotLean,
        Self::ForgotGuy,
        Self::WholeLoadOnEachLeg,
        Self::JustTheLoad,
        Self::HalfTheLoad,
        Self::LeanFromGround,
        Self::LevelGuy,
        Self::SharedMainLine,
        Self::DoubledMainLine,
        Self::OtherFoot,
    ];

    /// Its name in keys and files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::ForgotMainLine => "forgot_main_line",
            Self::ForgotLean => "forgot_lean",
            Self::ForgotGuy => "forgot_guy",
            Self::WholeLoadOnEachLeg => "whole_load_on_each_leg",
            Self::JustTheLoad => "just_the_load",
            Self::HalfTheLoad => "half_the_load",
            Self::LeanFromGround => "lean_from_ground",
            Self::LevelGuy => "level_guy",
            Self::SharedMainLine => "shared_main_line",
            Self::DoubledMainLine => "doubled_main_line",
            Self::OtherFoot => "other_foot",
        }
    }

    /// Whether the slip can be made at all when `ask` is asked of `rig`: nobody forgets a haul line that is not
    /// there.
    #[must_use]
    pub fn applies(self, rig: &Rig, ask: Quantity) -> bool {
        let leg = matches!(ask, Quantity::LegCompression(_));
        let guy = matches!(ask, Quantity::GuyTension(_));
        let led_to = match rig.line.path {
            Path::RedirectedAtFoot { foot, .. } => Some(foot),
            _ => None,
        };
        let down_this_leg = led_to.is_some_and(|foot| ask == Quantity::LegCompression(foot));
        // A line led to a foot has next to no moment about the foot line: a guy hardly feels it.
        let felt = if guy { led_to.is_none() } else { leg && (led_to.is_none() || down_this_leg) };
        match self {
            Self::ForgotMainLine => felt && rig.line.path.haul_point().is_some(),
            Self::ForgotLean | Self::ForgotGuy | Self::WholeLoadOnEachLeg => leg,
            Self::JustTheLoad => guy || (leg && rig.line.path.haul_point().is_some()),
            Self::HalfTheLoad | Self::LeanFromGround | Self::LevelGuy => leg || guy,
            Self::SharedMainLine => leg && led_to.is_some(),
            Self::DoubledMainLine => down_this_leg,
            Self::OtherFoot => leg && led_to.is_some() && !down_this_leg,
        }
    }

    /// The rig on which the slip's number would be right; `None` where there is none.
    #[must_use]
    pub fn rig(self, rig: &Rig) -> Option<Rig> {
        let mut other = rig.clone();
        match self {
            Self::ForgotMainLine => other.line = Line { path: Path::Hung, ..rig.line },
            Self::ForgotLean => other.lean = 0.0,
            Self::LeanFromGround => other.lean = FRAC_PI_2 - rig.lean,
            Self::LevelGuy => {
                let solution = solve(rig).ok()?;
                let working = usize::from(solution.forces()?.working_guy?);
                let guy = other.guys.get_mut(working)?;
                guy.anchor = Point::new(guy.anchor.x(), guy.anchor.y(), solution.layout.head.z());
            }
            Self::SharedMainLine => {
                let to = rig.line.path.haul_point()?;
                other.line.path = Path::RedirectedMidBase { to };
            }
            Self::OtherFoot => match &mut other.line.path {
                Path::RedirectedAtFoot { foot, .. } => *foot = foot.other(),
                _ => return None,
            },
            Self::ForgotGuy
            | Self::WholeLoadOnEachLeg
            | Self::JustTheLoad
            | Self::HalfTheLoad
            | Self::DoubledMainLine => return None,
        }
        Some(other)
    }

    /// The number that the slip leads to when `ask` is asked of `rig`, whose solution is `solution`. `None`
    /// where the slip's rig tips, or the slip does not apply.
    ///
    /// # Errors
    ///
    /// As [`outlean_rig::solve`], of the slip's rig.
    pub fn value(self, rig: &Rig, solution: &Solution, ask: Quantity) -> Result<Option<f64>, Fault> {
        if !self.applies(rig, ask) {
            return Ok(None);
        }
        if let Some(other) = self.rig(rig) {
            return Ok(ask.of(&solve(&other)?));
        }
        let load = solution.line.load.size();
        Ok(match (self, ask) {
            (Self::JustTheLoad, _) => Some(load),
            (Self::HalfTheLoad, _) => Some(load / 2.0),
            (Self::ForgotGuy, Quantity::LegCompression(side)) => without_guy(solution, side),
            (Self::WholeLoadOnEachLeg, Quantity::LegCompression(side)) => {
                let down_it = matches!(rig.line.path, Path::RedirectedAtFoot { foot, .. } if foot == side);
                Some(if down_it { load + solution.line.haul_tension } else { load })
            }
            (Self::DoubledMainLine, Quantity::LegCompression(_)) => {
                ask.of(solution).map(|answer| answer + solution.line.haul_tension)
            }
            _ => None,
        })
    }
}

/// What a leg carries of the loads on the head along the frame's plane, as if the guy took only what is square
/// to it.
fn without_guy(solution: &Solution, side: Side) -> Option<f64> {
    let layout = &solution.layout;
    let directions = [layout.down_leg.left, layout.down_leg.right, layout.normal];
    let [left, right, _] = resolve(directions, solution.resultant.force)?;
    Some(match side {
        Side::Left => left,
        Side::Right => right,
    })
}
