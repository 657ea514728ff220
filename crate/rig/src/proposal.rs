//! Proposals: the smallest changes that bring a rig inside its limits at its lean.

use crate::limit::holds;
use crate::numeric::bisect;
use crate::{Governing, Lever, Path, Rig, governing};
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
                }
            }
            Self::PinFeet => rig.feet.pinned = true,
            Self::HoldFeetDown => rig.feet.held_down = true,
        }
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
pub(crate) struct Reach {
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

/// The smallest changes that bring `rig` inside its limits at its own lean in every case: each single change that
/// does, and each pair that does with less effort than either of its two alone, in the order of effort. Empty where
/// it is inside already, cannot be solved, or nothing found helps.
///
/// Effort is our choice, so that unlike things can be put in an order: a pace is 1° of lean, 0.25 m of setback
/// (outward only), 0.1 m of spread, 10° of haul direction, 10 kg less load; a change that is made or not counts 8.
/// A lever is tried over 40 paces, over 16 where two change; single changes are found to a hundredth of a pace, pairs to a pace of the
/// first. What is not assessed is not helped by any of them.
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
        .map(|reach| {
            let single = smallest(rig, reach, f64::from(PACES));
            let effort = single.map_or(f64::INFINITY, |(_, effort)| effort);
            found.extend(single.and_then(|(change, effort)| proposal(rig, &[change], effort)));
            effort
        })
        .collect();
    for change in whole_changes(rig) {
        let mut changed = rig.clone();
        change.apply(&mut changed);
        if holds(&changed) {
            found.extend(proposal(rig, &[change], WHOLE));
            continue;
        }
        for (reach, single) in levers.iter().zip(&alone) {
            let most = f64::from(PACES).min(single - WHOLE);
            let with = smallest(&changed, reach, most);
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

fn levers(rig: &Rig) -> Vec<Reach> {
    let both: &[f64] = &[1.0, -1.0];
    let mut all = vec![
        Reach { lever: Lever::Lean, pace: crate::angle::degrees(1.0), directions: both },
        Reach { lever: Lever::Spread, pace: 0.1, directions: both },
        Reach { lever: Lever::Mass, pace: 10.0, directions: &[-1.0] },
    ];
    let rigged = (0_u8..).zip(&rig.guys).filter(|(_, guy)| guy.rigged);
    all.extend(rigged.map(|(number, _)| Reach {
        lever: Lever::Setback(number),
        pace: 0.25,
        directions: &[1.0],
    }));
    if rig.line.path.haul_point().is_some() {
        all.push(Reach { lever: Lever::HaulDirection, pace: crate::angle::degrees(10.0), directions: both });
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
pub(crate) fn smallest(rig: &Rig, reach: &Reach, most: f64) -> Option<(Change, f64)> {
    let from = reach.lever.get(rig)?;
    let mut changed = rig.clone();
    let mut inside = |to: f64| {
        reach.lever.set(&mut changed, to);
        holds(&changed)
    };
    for pace in 1..=PACES {
        let paces = f64::from(pace);
        if paces > most {
            break;
        }
        for direction in reach.directions {
            let at = |paces: f64| from + direction * paces * reach.pace;
            if inside(at(paces)) {
                let (paces, _) = bisect(paces, paces - 1.0, 0.01, |paces| inside(at(paces)));
                return Some((Change::Set { lever: reach.lever, from, to: at(paces) }, paces));
            }
        }
    }
    None
}

/// The pair of changes with the least effort together, if that is less than `alone`.
fn pair(rig: &Rig, first: &Reach, second: &Reach, alone: f64) -> Option<([Change; 2], f64)> {
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
