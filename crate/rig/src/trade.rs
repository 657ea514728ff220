//! Rules of the trade: what instructors ask of a rig beside its forces.

use crate::angle::degrees;
use crate::{Fault, Layout, Path, Rig, Station};
use arrayvec::ArrayVec;

/// A rule of the trade. All of these are common practice: taught widely, with no single published source.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Rule {
    /// A guy's anchor stands at least one upright head height from the foot line. Value and wanted are
    /// multiples of it.
    SetbackAtLeast(u8),
    /// One and a half upright head heights are better. Value and wanted are multiples of it.
    SetbackPreferred(u8),
    /// A two-legged frame does not stand alone: an aft guy always. Value counts them.
    AftGuy,
    /// A fore guy wherever one is possible. Value counts them.
    ForeGuy,
    /// The frame never stands within 10° of upright, held by the fore guy. Value and wanted are leans, rad.
    UprightStop,
    /// A line hauled straight back wants a fore guy, or it pulls the frame over backwards below the balance
    /// lean. Value counts fore guys.
    StraightBackWantsForeGuy,
}

/// A rule held against a rig.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Finding {
    /// The rule.
    pub rule: Rule,
    /// What the rig has.
    pub value: f64,
    /// What the rule asks for at least.
    pub wanted: f64,
    /// Whether the rig meets it.
    pub met: bool,
}

/// The rules that apply to a rig, in the order of [`Rule`], with the rig's value beside what is asked.
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
pub fn findings(rig: &Rig) -> Result<ArrayVec<Finding, 16>, Fault> {
    let layout = Layout::of(rig, rig.lean)?;
    let mut all = ArrayVec::new();
    let mut hold = |rule, value: f64, wanted: f64| {
        // Sixteen places hold every rule for every guy.
        let _ = all.try_push(Finding { rule, value, wanted, met: value >= wanted });
    };
    let (mut aft, mut fore) = (0.0, 0.0);
    for (number, guy) in (0_u8..).zip(&rig.guys).filter(|(_, guy)| guy.rigged) {
        let station = Station::of(guy.anchor, &layout);
        match station {
            Station::Aft => aft += 1.0,
            Station::Fore => fore += 1.0,
            Station::Side => continue,
        }
        let heights = layout.setback(guy.anchor).abs() / layout.slant_height;
        hold(Rule::SetbackAtLeast(number), heights, 1.0);
        hold(Rule::SetbackPreferred(number), heights, 1.5);
    }
    hold(Rule::AftGuy, aft, 1.0);
    hold(Rule::ForeGuy, fore, 1.0);
    hold(Rule::UprightStop, rig.limits.upright_stop.unwrap_or(f64::NEG_INFINITY), degrees(10.0));
    if matches!(rig.line.path, Path::StraightBack { .. }) {
        hold(Rule::StraightBackWantsForeGuy, fore, 1.0);
    }
    Ok(all)
}
