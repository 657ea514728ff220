//! Proposals: the smallest changes that bring a rig inside its limits at its lean.

use crate::limit::holds;
use crate::numeric::bisect;
use crate::strength::{Holdfast, HoldfastKind};
use crate::{Governing, Lever, Path, Rig, Side, governing};
use arrayvec::ArrayVec;

/// A change to a rig.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Change {
    /// A lever set from one value to another, in its SI unit.
    Set {
        /// The lever.
        lever: Lever,
        /// What it is set to now.
        from: f64,
        /// What it is set to then.
        to: f64,
    },
    /// A second rope to a second holdfast beside those of a guy, counted from 0, pulling as hard as they: both may
    /// carry twice as much.
    DoubleGuy(u8),
    /// The main line through a pulley on its own holdfast midway between the feet.
    RedirectMidBase,
    /// The feet kept from sliding: holes, pickets, pins.
    PinFeet,
    /// The feet kept from lifting.
    HoldFeetDown,
    /// A holdfast built as a stronger system of wooden pickets: that of a guy, counted from 0, or of the haul line.
    Pickets {
        /// Which guy's; `None` for the haul line's.
        of: Option<u8>,
        /// As what.
        kind: HoldfastKind,
    },
    /// A holdfast of so many steel pickets or pins: that of a guy, counted from 0, or of the haul line.
    Pins {
        /// Which guy's; `None` for the haul line's.
        of: Option<u8>,
        /// How many.
        count: u8,
    },
    /// Both legs cut shorter at the foot, m from foot to tip.
    LegLength {
        /// How long the left one is now.
        from: f64,
        /// How long it is then.
        to: f64,
    },
    /// Thicker poles for both legs, m at the thinnest place; they weigh more by their section.
    LegThickness {
        /// How thick the left one is now.
        from: f64,
        /// How thick it is then.
        to: f64,
    },
}

impl Change {
    /// Makes the change.
    pub fn apply(self, rig: &mut Rig) {
        match self {
            Self::Set { lever, to, .. } => lever.set(rig, to),
            Self::DoubleGuy(number) => {
                if let Some(guy) = rig.guys.get_mut(usize::from(number)) {
                    guy.rope_allowable = guy.rope_allowable.map(|most| 2.0 * most);
                    guy.holdfast_allowable = guy.holdfast_allowable.map(|most| 2.0 * most);
                    guy.cordage = guy.cordage.times(2.0);
                    guy.holdfast = guy.holdfast.times(2.0);
                }
            }
            Self::RedirectMidBase => {
                if let Some(to) = rig.line.path.haul_point() {
                    rig.line.path = Path::RedirectedMidBase { to };
                    // A pulley of which nothing is said is taken to be no better than that at the head.
                    rig.line.redirect_efficiency =
                        rig.line.redirect_efficiency.min(rig.line.pulley_efficiency);
                }
            }
            Self::PinFeet => rig.feet.pinned = true,
            Self::HoldFeetDown => rig.feet.held_down = true,
            Self::Pickets { of, kind } => {
                if let Some(holdfast) = holdfast_mut(rig, of) {
                    holdfast.kind = Some(kind);
                }
            }
            Self::Pins { of, count } => {
                if let Some(holdfast) = holdfast_mut(rig, of) {
                    holdfast.pickets = Some(f64::from(count));
                }
            }
            Self::LegLength { from, to } => {
                for side in Side::BOTH {
                    rig.legs.on_mut(side).length += to - from;
                }
            }
            Self::LegThickness { from, to } => {
                for side in Side::BOTH {
                    rig.legs.on_mut(side).thicken(to - from);
                }
            }
        }
    }
}

/// The holdfast of a guy, or of the haul line.
fn holdfast_mut(rig: &mut Rig, of: Option<u8>) -> Option<&mut Holdfast> {
    match of {
        Some(number) => rig.guys.get_mut(usize::from(number)).map(|guy| &mut guy.holdfast),
        None => Some(&mut rig.gear.haul),
    }
}

/// One or two changes that together bring a rig inside.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Proposal {
    /// What changes.
    pub changes: ArrayVec<Change, 2>,
    /// How much changes, counted in paces of each lever: see [`proposals`].
    pub effort: f64,
    /// What governs then; its ratio is at most 1.
    pub governing: Governing,
}

/// How far a lever is tried, in which directions and in what paces.
pub(crate) struct Trial {
    pub lever: Lever,
    pub pace: f64,
    pub directions: &'static [f64],
}

/// Paces beyond which a change is no longer a small one.
const PACES: u32 = 40;
/// Paces of either lever of a pair.
const PACES_OF_TWO: u32 = 16;
/// What a change that is made or not counts as.
const WHOLE: f64 = 8.0;
/// Paces up to which legs are tried otherwise.
const PACES_OF_LEGS: f64 = 20.0;
/// A pace of a leg's length and of its thickness, m.
const LEG_PACES: (f64, f64) = (0.1, 0.01);
/// More pickets or pins than these are not proposed for one holdfast.
const MOST_PINS: u8 = 12;
/// Systems of wooden pickets, from the weakest.
const SYSTEMS: [HoldfastKind; 5] = [
    HoldfastKind::Picket,
    HoldfastKind::Pickets11,
    HoldfastKind::Pickets111,
    HoldfastKind::Pickets21,
    HoldfastKind::Pickets321,
];

/// The smallest changes that bring `rig` inside its limits at its own lean in every case: each single change that
/// does, and each pair that does with less effort than either of its two alone, in the order of effort. Empty where
/// it is inside already, cannot be solved, or nothing found helps.
///
/// Effort is our choice, so that unlike things can be put in an order: a pace is 1° of lean, 0.25 m of setback (outward
/// only), 0.1 m of spread, 10° of haul direction, 10 kg less load, 0.1 m off both legs, 10 mm more of their thickness; a
/// change that is made or not counts 8, a stronger holdfast among them. A lever is tried over 40 paces, over 16 where two
/// change, the spread down to half of what it is; single changes are found to a hundredth of a pace, pairs to a pace of
/// the first. Legs and holdfasts are tried alone only, legs over 20 paces; of holdfasts the weakest system, or the fewest
/// pins, that does. What is not assessed is not helped by any of them.
///
/// ```
/// use outlean_rig::{Change, Guy, Lever, Point, Rig, proposals};
/// let mut rig = Rig::new(4.0, 1.2, 30f64.to_radians(), 250.0);
/// rig.guys.push(Guy { rope_allowable: Some(1800.0), ..Guy::to(Point::new(-6.0, 0.0, 0.0)) });
/// let found = proposals(&rig);
/// assert!(found.iter().any(|proposal| matches!(
///     proposal.changes[..],
///     [Change::Set { lever: Lever::Lean, to, .. }] if to < rig.lean
/// )));
/// assert!(found.iter().all(|proposal| proposal.governing.ratio <= 1.0));
/// ```
#[must_use]
pub fn proposals(rig: &Rig) -> Vec<Proposal> {
    if crate::solve(rig).is_err() || holds(rig) {
        return Vec::new();
    }
    let mut found: Vec<Proposal> = Vec::new();
    let levers = levers(rig);
    // Effort of each single change, to hold pairs against.
    let alone: Vec<f64> = levers
        .iter()
        .map(|trial| {
            let single = smallest(rig, trial, f64::from(PACES));
            let effort = single.map_or(f64::INFINITY, |(_, effort)| effort);
            found.extend(single.and_then(|(change, effort)| proposal(rig, &[change], effort)));
            effort
        })
        .collect();
    found.extend(legs(rig).into_iter().filter_map(|(change, effort)| proposal(rig, &[change], effort)));
    found.extend(stronger(rig).filter_map(|change| proposal(rig, &[change], WHOLE)));
    for change in whole_changes(rig) {
        let mut changed = rig.clone();
        change.apply(&mut changed);
        if holds(&changed) {
            found.extend(proposal(rig, &[change], WHOLE));
            continue;
        }
        for (trial, single) in levers.iter().zip(&alone) {
            let most = f64::from(PACES).min(single - WHOLE);
            let with = smallest(&changed, trial, most);
            found.extend(with.and_then(|(lever, effort)| proposal(rig, &[change, lever], WHOLE + effort)));
        }
    }
    for (i, (first, first_alone)) in levers.iter().zip(&alone).enumerate() {
        for (second, second_alone) in levers.iter().zip(&alone).skip(i + 1) {
            let best = pair(rig, first, second, first_alone.min(*second_alone));
            found.extend(best.and_then(|(changes, effort)| proposal(rig, &changes, effort)));
        }
    }
    found.sort_by(|a, b| a.effort.total_cmp(&b.effort));
    found
}

/// The proposal of some changes, held against the rig once more.
fn proposal(rig: &Rig, changes: &[Change], effort: f64) -> Option<Proposal> {
    let mut changed = rig.clone();
    for change in changes {
        change.apply(&mut changed);
    }
    let governing = governing(&changed, changed.lean).ok().filter(Governing::holds)?;
    Some(Proposal { changes: changes.iter().copied().take(2).collect(), effort, governing })
}

fn levers(rig: &Rig) -> Vec<Trial> {
    let both: &[f64] = &[1.0, -1.0];
    let mut all = vec![
        Trial { lever: Lever::Lean, pace: crate::angle::degrees(1.0), directions: both },
        Trial { lever: Lever::Spread, pace: 0.1, directions: both },
        Trial { lever: Lever::Mass, pace: 10.0, directions: &[-1.0] },
    ];
    let rigged = (0_u8..).zip(&rig.guys).filter(|(_, guy)| guy.rigged);
    all.extend(rigged.map(|(number, _)| Trial {
        lever: Lever::Setback(number),
        pace: 0.25,
        directions: &[1.0],
    }));
    if rig.line.path.haul_point().is_some() {
        all.push(Trial { lever: Lever::HaulDirection, pace: crate::angle::degrees(10.0), directions: both });
    }
    all
}

fn whole_changes(rig: &Rig) -> Vec<Change> {
    let known = |guy: &crate::Guy| {
        guy.rope_allowable.is_some()
            || guy.holdfast_allowable.is_some()
            || guy.cordage.capacity(rig.gear.factor).is_some_and(|rope| rope.allowable.is_some())
            || guy.holdfast.capacity().is_some()
    };
    let rigged = (0_u8..).zip(&rig.guys).filter(|(_, guy)| guy.rigged && known(guy));
    let mut all: Vec<Change> = rigged.map(|(number, _)| Change::DoubleGuy(number)).collect();
    let redirected = matches!(rig.line.path, Path::RedirectedMidBase { .. });
    if rig.line.path.haul_point().is_some() && !redirected {
        all.push(Change::RedirectMidBase);
    }
    if !rig.feet.pinned {
        all.push(Change::PinFeet);
    }
    if !rig.feet.held_down {
        all.push(Change::HoldFeetDown);
    }
    all
}

/// The smallest change of one lever that brings a rig inside, within `most` paces, and its effort.
pub(crate) fn smallest(rig: &Rig, trial: &Trial, most: f64) -> Option<(Change, f64)> {
    let from = trial.lever.get(rig)?;
    let mut changed = rig.clone();
    let inside = |by: f64| {
        // Feet that have once met do not know any more which way they stood apart.
        sensible(trial.lever, from, from + by) && {
            trial.lever.set(&mut changed, from + by);
            holds(&changed)
        }
    };
    let (by, paces) = first(trial.pace, trial.directions, most, inside)?;
    Some((Change::Set { lever: trial.lever, from, to: from + by }, paces))
}

/// The least that is `inside` of what is so many paces off in some directions, `most` at the most, and how many paces
/// that is.
fn first(
    pace: f64,
    directions: &[f64],
    most: f64,
    mut inside: impl FnMut(f64) -> bool,
) -> Option<(f64, f64)> {
    for number in 1..=PACES {
        let paces = f64::from(number);
        if paces > most {
            break;
        }
        for direction in directions {
            let at = |paces: f64| direction * paces * pace;
            if inside(at(paces)) {
                let (paces, _) = bisect(paces, paces - 1.0, 0.01, |paces| inside(at(paces)));
                return Some((at(paces), paces));
            }
        }
    }
    None
}

/// Shorter legs and thicker legs, each as little as brings the rig inside, and its effort.
fn legs(rig: &Rig) -> Vec<(Change, f64)> {
    let mut all = Vec::new();
    let mut attempt = |pace: f64, direction: f64, change: &dyn Fn(f64) -> Change| {
        let inside = |by: f64| {
            let mut changed = rig.clone();
            change(by).apply(&mut changed);
            holds(&changed)
        };
        if let Some((by, paces)) = first(pace, &[direction], PACES_OF_LEGS, inside) {
            all.push((change(by), paces));
        }
    };
    let from = rig.legs.left.length;
    attempt(LEG_PACES.0, -1.0, &|by| Change::LegLength { from, to: from + by });
    if let Some(from) =
        rig.legs.left.pole.least_thickness().filter(|_| rig.legs.right.pole.section().is_some())
    {
        attempt(LEG_PACES.1, 1.0, &|by| Change::LegThickness { from, to: from + by });
    }
    all
}

/// For each holdfast of pickets or pins the first stronger one that brings the rig inside.
fn stronger(rig: &Rig) -> impl Iterator<Item = Change> {
    let guys = (0_u8..).zip(&rig.guys).filter(|(_, guy)| guy.rigged && guy.holdfast_allowable.is_none());
    let of_guys = guys.map(|(number, guy)| (Some(number), guy.holdfast));
    let of_haul = rig.gear.haul_allowable.is_none().then_some((None, rig.gear.haul));
    let known = of_guys.chain(of_haul).filter(|(_, holdfast)| holdfast.strength.is_none());
    known.filter_map(|(of, holdfast)| {
        let helps = |change: &Change| {
            let mut changed = rig.clone();
            change.apply(&mut changed);
            holds(&changed)
        };
        let kind = holdfast.kind?;
        if let Some(now) = SYSTEMS.iter().position(|system| *system == kind) {
            let better = SYSTEMS.iter().skip(now + 1).map(|kind| Change::Pickets { of, kind: *kind });
            return better.into_iter().find(helps);
        }
        if !matches!(kind, HoldfastKind::SteelPickets | HoldfastKind::Pins1Inch | HoldfastKind::Pins3Inch) {
            return None;
        }
        // A count within its own bounds.
        let now = holdfast.pickets.map_or(1, |count| libm::round(count) as u8);
        (now.saturating_add(1)..=MOST_PINS).map(|count| Change::Pins { of, count }).find(helps)
    })
}

/// Whether anyone would set it so. Feet that come closer than half of their spread make another frame.
fn sensible(lever: Lever, from: f64, to: f64) -> bool {
    !matches!(lever, Lever::Spread) || to >= 0.5 * from
}

/// The pair of changes with the least effort together, if that is less than `alone`.
fn pair(rig: &Rig, first: &Trial, second: &Trial, alone: f64) -> Option<([Change; 2], f64)> {
    let from = first.lever.get(rig)?;
    let mut best: Option<([Change; 2], f64)> = None;
    for pace in 1..=PACES_OF_TWO {
        let paces = f64::from(pace);
        let left = best.map_or(alone, |(_, effort)| effort) - paces;
        // A pair that saves less than a pace is not worth two things to do.
        if left <= 1.0 {
            break;
        }
        for direction in first.directions {
            let to = from + direction * paces * first.pace;
            if !sensible(first.lever, from, to) {
                continue;
            }
            let mut changed = rig.clone();
            first.lever.set(&mut changed, to);
            if let Some((then, effort)) =
                smallest(&changed, second, (left - 1.0).min(f64::from(PACES_OF_TWO)))
            {
                let change = Change::Set { lever: first.lever, from, to };
                best = Some(([change, then], paces + effort));
            }
        }
    }
    best
}
