//! Rules of the trade: what instructors ask of a rig beside its forces.

use crate::angle::{atan2, degrees, hypot};
use crate::strength::{Citation, Source};
use crate::{Fault, Layout, Pair, Path, Rig, Side, Station};
use arrayvec::ArrayVec;

/// A rule of the trade. Where it comes from, [`Rule::source`] says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Rule {
    /// A guy's anchor stands at least one head height from the foot line. Value and wanted are multiples of the
    /// height of the head when the frame stands upright.
    SetbackAtLeast(u8),
    /// One and a half such heights are better.
    SetbackPreferred(u8),
    /// Two such heights, as older manuals ask.
    SetbackOlder(u8),
    /// A fore guy's anchor stands at least 5 ft ahead where the ground allows, m.
    ForeAhead(u8),
    /// A guy pulls on its holdfast at no more than 45° above the level, rad: what is published of holdfasts is for a
    /// pull near the level.
    HoldfastSteep(u8),
    /// The pickets of a guy's holdfast stand at least so far from one another, m.
    PicketSpacing(u8),
    /// A two-legged frame does not stand alone: an aft guy always. Value counts them.
    AftGuy,
    /// A fore guy wherever one is possible. Value counts them.
    ForeGuy,
    /// The frame never stands within 10° of upright, held by the fore guy. Value and wanted are leans, rad.
    UprightStop,
    /// Not loaded, the frame leans at least 15°, rad. This and the next hold the lean that the rig has against what is
    /// asked before loading: on guys that stretch it leans further under load.
    LeanLeast,
    /// Not loaded, it leans at most 25°, rad.
    LeanUnloadedMost,
    /// Loaded, it leans at most 45°, rad.
    LeanLoadedMost,
    /// The feet are at most a third of the legs' length to the lashing apart. Value and wanted are shares of it.
    SpreadMost,
    /// A leg is at most 60 times as long as it is thick where it is thinnest. Value and wanted are such multiples.
    Slenderness(Side),
    /// A line hauled straight back wants a fore guy, or it pulls the frame over backwards below the balance
    /// lean. Value counts fore guys.
    StraightBackWantsForeGuy,
}

impl Rule {
    /// Where it comes from.
    #[must_use]
    pub const fn source(self) -> Citation {
        match self {
            Self::SetbackOlder(_) => Citation::read(Source::DisasterRescue),
            Self::PicketSpacing(_) => Citation::read(Source::Navedtra14251),
            Self::LeanLeast | Self::LeanUnloadedMost | Self::LeanLoadedMost => {
                Citation::second_hand(Source::Fm39761)
            }
            Self::SpreadMost => Citation::second_hand(Source::WarOffice),
            Self::Slenderness(_) => Citation::read(Source::Fm5125),
            _ => Citation::none(Source::CommonPractice),
        }
    }

    /// Whether it asks for no more than what is wanted; else for no less.
    #[must_use]
    pub const fn at_most(self) -> bool {
        matches!(
            self,
            Self::HoldfastSteep(_)
                | Self::LeanUnloadedMost
                | Self::LeanLoadedMost
                | Self::SpreadMost
                | Self::Slenderness(_)
        )
    }
}

/// Least distance of a fore guy's anchor ahead of the foot line, m: 5 ft.
const FORE_AHEAD: f64 = 1.524;

/// How many findings a rig can have.
pub const MAX_FINDINGS: usize = 48;

/// A rule held against a rig.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Finding {
    /// The rule.
    pub rule: Rule,
    /// Where it comes from.
    pub source: Citation,
    /// What the rig has.
    pub value: f64,
    /// What the rule asks for: at most that where [`Rule::at_most`] says so, else at least.
    pub wanted: f64,
    /// Whether the rig meets it.
    pub met: bool,
}

/// The rules that apply to a rig, with the rig's value beside what is asked: those of its guys in their order, then
/// those of the rig. Of the legs' thickness and of pickets only where that is known.
///
/// # Errors
///
/// As [`Layout::of`].
///
/// ```
/// use outlean_rig::{Guy, Point, Rig, Rule, findings};
/// let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
/// rig.guys.push(Guy::to(Point::new(-3.0, 0.0, 0.0)));
/// let near = findings(&rig)?.into_iter().find(|f| f.rule == Rule::SetbackAtLeast(0)).unwrap();
/// assert!(!near.met && near.value < 0.8); // 3 m back for a head 3.95 m high
/// # Ok::<(), outlean_rig::Fault>(())
/// ```
pub fn findings(rig: &Rig) -> Result<ArrayVec<Finding, MAX_FINDINGS>, Fault> {
    let layout = Layout::of(rig, rig.lean)?;
    let mut all = ArrayVec::new();
    let mut hold_from = |source: Citation, rule: Rule, value: f64, wanted: f64| {
        // A hair of rounding is not held against a rig that was set out to the rule.
        let over = if rule.at_most() { value - wanted } else { wanted - value };
        let met = over <= 1e-9;
        // There are places for every rule for every guy.
        let _ = all.try_push(Finding { rule, source, value, wanted, met });
    };
    let (mut aft, mut fore) = (0.0, 0.0);
    for (number, guy) in (0_u8..).zip(&rig.guys).filter(|(_, guy)| guy.rigged) {
        let rope = layout.head - guy.anchor;
        let least = guy.holdfast.kind.and_then(|kind| kind.spacing());
        if let Some((spacing, (least, source))) = guy.holdfast.spacing.zip(least) {
            hold_from(source, Rule::PicketSpacing(number), spacing, least);
        }
        let mut hold = |rule: Rule, value, wanted| hold_from(rule.source(), rule, value, wanted);
        hold(Rule::HoldfastSteep(number), atan2(rope.z, hypot(rope.x, rope.y)), degrees(45.0));
        let setback = layout.setback(guy.anchor).abs();
        match Station::of(guy.anchor, &layout) {
            Station::Aft => aft += 1.0,
            Station::Fore => {
                fore += 1.0;
                hold(Rule::ForeAhead(number), setback, FORE_AHEAD);
            }
            Station::Side => continue,
        }
        let heights = setback / layout.slant_height;
        hold(Rule::SetbackAtLeast(number), heights, 1.0);
        hold(Rule::SetbackPreferred(number), heights, 1.5);
        hold(Rule::SetbackOlder(number), heights, 2.0);
    }
    let mut hold = |rule: Rule, value, wanted| hold_from(rule.source(), rule, value, wanted);
    hold(Rule::AftGuy, aft, 1.0);
    hold(Rule::ForeGuy, fore, 1.0);
    hold(Rule::UprightStop, rig.limits.upright_stop.unwrap_or(f64::NEG_INFINITY), degrees(10.0));
    hold(Rule::LeanLeast, rig.lean, degrees(15.0));
    hold(Rule::LeanUnloadedMost, rig.lean, degrees(25.0));
    hold(Rule::LeanLoadedMost, rig.lean, degrees(45.0));
    let Pair { left, right } = layout.working_length;
    hold(Rule::SpreadMost, layout.spread / (0.5 * (left + right)), 1.0 / 3.0);
    for side in Side::BOTH {
        let leg = rig.legs.on(side);
        if let Some(thickness) = leg.pole.least_thickness() {
            hold(Rule::Slenderness(side), leg.length / thickness, 60.0);
        }
    }
    if matches!(rig.line.path, Path::StraightBack { .. }) {
        hold(Rule::StraightBackWantsForeGuy, fore, 1.0);
    }
    Ok(all)
}
