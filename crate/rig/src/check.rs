//! What each part carries against what it may carry.

use crate::{MAX_GUYS, Pair, Rig, Side, Solution};
use arrayvec::ArrayVec;

/// A part of the rig that carries something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Part {
    /// The rope of a guy, counted from 0.
    GuyRope(u8),
    /// The holdfast of a guy, counted from 0.
    GuyHoldfast(u8),
    /// A leg.
    Leg(Side),
    /// The main line.
    MainLine,
    /// The second line.
    SecondLine,
    /// The sling that holds the main line's pulley to the head.
    Sling,
    /// The sling that holds the second line's pulley to the head.
    SecondSling,
    /// The lashing of the head.
    Lashing,
}

/// How far a part was assessed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum State {
    /// Compared with an allowable.
    Assessed,
    /// Nothing is known of what it may carry.
    NotAssessed,
    /// No published strength exists: only an inspection on site can say.
    ConfirmOnSite,
}

/// What kind of strength an allowable stands on. Ratios of different bases are not alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Basis {
    /// It was stated with the rig; what it stands on is not known here.
    Unknown,
}

/// One part: what it carries and what it may carry.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Check {
    /// The part.
    pub part: Part,
    /// What it carries, N. For the lashing the difference of the two legs' compressions, which would make it
    /// slip.
    pub demand: f64,
    /// What it may carry, N.
    pub allowable: Option<f64>,
    /// Demand over allowable; above 1 is past it.
    pub ratio: Option<f64>,
    /// How far it was assessed.
    pub state: State,
    /// What the allowable stands on.
    pub basis: Basis,
}

impl Check {
    fn new(part: Part, demand: f64, allowable: Option<f64>) -> Self {
        let ratio = allowable.map(|allowable| demand / allowable);
        let state = match (part, allowable) {
            (Part::Lashing, _) => State::ConfirmOnSite,
            (_, Some(_)) => State::Assessed,
            (_, None) => State::NotAssessed,
        };
        Self { part, demand, allowable, ratio, state, basis: Basis::Unknown }
    }
}

/// How many checks a rig can have.
pub(crate) const MAX_CHECKS: usize = 2 * MAX_GUYS + 7;

/// Every part of a solved rig against what it may carry: rigged guys in the order of the rig (rope, then
/// holdfast), legs, main line, sling, lashing. Empty where the frame tips: nothing is carried then.
///
/// The allowables of guys and holdfasts are those stated with the rig. The other parts are `NotAssessed`, the
/// lashing `ConfirmOnSite`: no strength is ever guessed.
#[must_use]
pub fn checks(rig: &Rig, solution: &Solution) -> ArrayVec<Check, MAX_CHECKS> {
    let mut all = ArrayVec::new();
    let Some(forces) = solution.forces() else { return all };
    for (number, (guy, force)) in (0_u8..).zip(rig.guys.iter().zip(&forces.guys)) {
        if guy.rigged {
            all.push(Check::new(Part::GuyRope(number), force.tension, guy.rope_allowable));
            all.push(Check::new(Part::GuyHoldfast(number), force.tension, guy.holdfast_allowable));
        }
    }
    let Pair { left, right } = forces.compression;
    all.push(Check::new(Part::Leg(Side::Left), left, None));
    all.push(Check::new(Part::Leg(Side::Right), right, None));
    let line = &solution.line;
    all.push(Check::new(Part::MainLine, line.greatest_tension, None));
    all.push(Check::new(Part::Sling, line.on_head().size(), None));
    if let Some(second) = &solution.second {
        all.push(Check::new(Part::SecondLine, second.greatest_tension, None));
        all.push(Check::new(Part::SecondSling, second.on_head().size(), None));
    }
    all.push(Check::new(Part::Lashing, (left - right).abs(), None));
    all
}
