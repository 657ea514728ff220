//! What each part carries against what it may carry.

use crate::holdfast_pull::{HoldfastPull, Tied, tied_at};
use crate::standby::each_other;
use crate::strength::{Basis, Capacity, CheckRule, Citation, Holdfast, Notes, Symbol, Worked, timber};
use crate::{Forces, LineForces, MAX_GUYS, Path, Point, Rig, Side, Solution};
use arrayvec::ArrayVec;
use core::cell::Cell;
use core::ops::ControlFlow;

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
    /// The pulley at the head.
    HeadPulley,
    /// The connector between that pulley and its sling.
    Connector,
    /// The pulley of a redirect.
    RedirectPulley,
    /// What the haul line ends at.
    HaulHoldfast,
    /// The second line's pulley at the head.
    SecondPulley,
    /// The connector between that pulley and its sling.
    SecondConnector,
    /// The pulley of the second line's redirect.
    SecondRedirect,
    /// What the second line's haul line ends at.
    SecondHoldfast,
    /// The ground under a foot.
    Bearing(Side),
    /// The ground between the feet and the edge.
    Edge,
}

/// How far a part was assessed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum State {
    /// Compared with an allowable.
    Assessed,
    /// Compared with an allowable that someone states, or in which a value was taken for one that is not known.
    Assumed,
    /// Nothing is known of what it may carry, or no factor was asked for.
    NotAssessed,
    /// No published strength exists: only an inspection on site can say.
    ConfirmOnSite,
}

/// One part: what it carries and what it may carry. What led there, [`worked`] puts down.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Check {
    /// The part.
    pub part: Part,
    /// What it carries, N. Of a holdfast the pull of every rope tied there together; of the lashing the difference of
    /// the two legs' compressions, which would make it slip; at an edge the weight on both feet.
    pub demand: f64,
    /// The strength that its rule begins from, N.
    pub strength: Option<f64>,
    /// What it may carry, N.
    pub allowable: Option<f64>,
    /// Demand over allowable; above 1 is past it, infinite where nothing may be carried at all.
    pub ratio: Option<f64>,
    /// How many times what it carries it is expected to bear before it fails, at the least; `None` where it carries
    /// nothing or its strength says nothing of failure.
    pub multiple: Option<f64>,
    /// How far it was assessed.
    pub state: State,
    /// What the strength stands on.
    pub basis: Basis,
    /// By which rule it was assessed.
    pub rule: Option<CheckRule>,
    /// Where its strength comes from.
    pub source: Option<Citation>,
}

impl Check {
    fn new(part: Part, demand: f64, capacity: Option<Capacity>) -> Self {
        let allowable = capacity.and_then(|capacity| capacity.allowable);
        let ratio = allowable.map(
            |allowable| {
                if allowable > 0.0 { demand.max(0.0) / allowable } else { f64::INFINITY }
            },
        );
        let failure = capacity.and_then(|capacity| capacity.failure);
        let (state, rule) = match (part, capacity) {
            (Part::Lashing, _) => (State::ConfirmOnSite, Some(CheckRule::LashingOnSite)),
            (Part::Edge, _) => (State::ConfirmOnSite, Some(CheckRule::EdgeOnSite)),
            (_, Some(Capacity { allowable: Some(_), assumed: true, rule, .. })) => {
                (State::Assumed, Some(rule))
            }
            (_, Some(Capacity { allowable: Some(_), rule, .. })) => (State::Assessed, Some(rule)),
            (_, capacity) => (State::NotAssessed, capacity.map(|capacity| capacity.rule)),
        };
        Self {
            part,
            demand,
            strength: capacity.map(|capacity| capacity.strength),
            allowable,
            ratio,
            multiple: failure.filter(|_| demand > 0.0).map(|failure| failure / demand),
            state,
            basis: capacity.map_or(Basis::Unknown, |capacity| capacity.basis),
            rule,
            source: capacity.map(|capacity| capacity.source),
        }
    }

    /// Whether it is more of what its part may carry than another check of that is, or where neither is known carries more.
    fn outweighs(&self, other: &Self) -> bool {
        let share = |check: &Self| check.ratio.unwrap_or(-1.0);
        share(self).total_cmp(&share(other)).then(self.demand.total_cmp(&other.demand)).is_gt()
    }
}

/// How many checks a rig can have.
pub(crate) const MAX_CHECKS: usize = 2 * MAX_GUYS + 18;

/// Every part of a solved rig against what it may carry: rigged guys in the order of the rig (rope, then
/// holdfast), legs, main line, sling, lashing. Then, where the rig says something of them: head pulley, connector,
/// redirect pulley, haul holdfast, the ground under the feet and toward the edge. A second line has rows like those of
/// the main line: its holdfast is named apart, its hardware is like the main line's. Where only the main line's holdfast
/// is named, its own is `NotAssessed`, unless it is one with that or with a guy's. Empty where the frame tips:
/// nothing is carried then.
///
/// An allowable stated with the rig and one worked out from its [`crate::strength::Gear`]: the lesser holds. A part of
/// which nothing is known is `NotAssessed`, as is a leg that pulls; the lashing is `ConfirmOnSite`: no strength is ever
/// guessed.
///
/// Of a frame that [comes to rest](Rig::comes_to_rest) elsewhere than it is solved each part is listed as it is used more,
/// and where another guy could hold in place of those that work (see [`crate::stands_by`]) as if each held alone.
#[must_use]
pub fn checks(rig: &Rig, solution: &Solution) -> ArrayVec<Check, MAX_CHECKS> {
    let mut all = checks_of(rig, solution);
    each_other(rig, solution, &mut |rig, there| {
        for check in checks_of(rig, there) {
            match all.iter_mut().find(|known| known.part == check.part) {
                Some(known) if check.outweighs(known) => *known = check,
                _ => {}
            }
        }
    });
    all
}

/// As [`checks`], at its own lean alone.
fn checks_of(rig: &Rig, solution: &Solution) -> ArrayVec<Check, MAX_CHECKS> {
    let mut all = ArrayVec::new();
    let _ = each_check(rig, solution, &KnownLegs::default(), &mut |check| {
        // There is room for every part.
        let _ = all.try_push(check);
        ControlFlow::Continue(())
    });
    all
}

/// What each leg of a rig may carry beside a bending moment, kept from one solution of it to the next: it hangs on
/// nothing but the bending by its own weight, which is the same in every case at one lean.
#[derive(Default)]
pub(crate) struct KnownLegs {
    left: Cell<Option<Known>>,
    right: Cell<Option<Known>>,
}

/// A bending moment, N m, and what the leg may carry beside it.
type Known = (f64, Option<Capacity>);

impl KnownLegs {
    const fn of(&self, side: Side) -> &Cell<Option<Known>> {
        match side {
            Side::Left => &self.left,
            Side::Right => &self.right,
        }
    }

    fn find(&self, rig: &Rig, side: Side, moment: f64) -> Option<Option<Capacity>> {
        if rig.gear.timber.grade.is_none() {
            return Some(None);
        }
        let (at, capacity) = self.of(side).get()?;
        (at.to_bits() == moment.to_bits()).then_some(capacity)
    }
}

/// As [`checks`] at its own lean alone, one by one until `take` breaks off.
pub(crate) fn each_check(
    rig: &Rig,
    solution: &Solution,
    legs: &KnownLegs,
    take: &mut dyn FnMut(Check) -> ControlFlow<()>,
) -> ControlFlow<()> {
    let Some(forces) = solution.forces() else { return ControlFlow::Continue(()) };
    let assessor = Assessor { rig, solution, forces, legs };
    let mut found = |part| match assessor.check(part, &mut ()) {
        Some(check) => take(check),
        None => ControlFlow::Continue(()),
    };
    for (number, guy) in (0_u8..).zip(&rig.guys) {
        if guy.rigged {
            found(Part::GuyRope(number))?;
            found(Part::GuyHoldfast(number))?;
        }
    }
    for part in [
        Part::Leg(Side::Left),
        Part::Leg(Side::Right),
        Part::MainLine,
        Part::Sling,
        Part::SecondLine,
        Part::SecondSling,
        Part::Lashing,
        Part::HeadPulley,
        Part::Connector,
        Part::RedirectPulley,
        Part::HaulHoldfast,
        Part::SecondPulley,
        Part::SecondConnector,
        Part::SecondRedirect,
        Part::SecondHoldfast,
        Part::Bearing(Side::Left),
        Part::Bearing(Side::Right),
        Part::Edge,
    ] {
        found(part)?;
    }
    ControlFlow::Continue(())
}

/// The inputs and intermediate values of the check of a part, in the order in which they are worked out: as far as
/// they are known. Empty for a part that the rig does not have or that carries nothing because the frame tips. Of one used
/// more where the frame comes to rest or with another guy alone (see [`checks`]) they are those there; where it comes to rest
/// they begin with that lean.
#[must_use]
pub fn worked(rig: &Rig, solution: &Solution, part: Part) -> Worked {
    let mut notes = Worked::new();
    let mut most = check_of(rig, solution, part, &mut notes);
    each_other(rig, solution, &mut |rig, there| {
        let mut anew = Worked::new();
        if there.layout.lean.to_bits() != solution.layout.lean.to_bits() {
            anew.put(Symbol::LoadedLean, there.layout.lean);
        }
        let check = check_of(rig, there, part, &mut anew);
        if check.zip(most).is_some_and(|(check, most)| check.outweighs(&most)) {
            (most, notes) = (check, anew);
        }
    });
    notes
}

/// The check of a part of a solved rig, with its steps put down.
fn check_of<N: Notes>(rig: &Rig, solution: &Solution, part: Part, notes: &mut N) -> Option<Check> {
    let forces = solution.forces()?;
    Assessor { rig, solution, forces, legs: &KnownLegs::default() }.check(part, notes)
}

/// A solved rig that stands.
struct Assessor<'a> {
    rig: &'a Rig,
    solution: &'a Solution,
    forces: &'a Forces,
    legs: &'a KnownLegs,
}

impl Assessor<'_> {
    /// The check of a part, with its steps put down; `None` for a part that is not there or of which nothing is said.
    fn check<N: Notes>(&self, part: Part, notes: &mut N) -> Option<Check> {
        let Self { rig, forces, legs, .. } = *self;
        let gear = &rig.gear;
        let factor = gear.factor;
        let (demand, capacity) = match part {
            Part::GuyRope(number) => {
                let (guy, force) = self.guy(number)?;
                notes.put(Symbol::Tension, force);
                let stated = guy.rope_allowable.map(Capacity::stated);
                (force, Capacity::lesser(stated, guy.cordage.capacity_noted(factor, notes)))
            }
            Part::GuyHoldfast(number) => {
                let (guy, force) = self.guy(number)?;
                let demand = self.pull_noted(guy.anchor, force, notes);
                let stated = guy.holdfast_allowable.map(Capacity::stated);
                (demand, Capacity::lesser(stated, guy.holdfast.capacity_noted(notes)))
            }
            Part::Leg(side) => {
                let carried = *forces.compression.on(side);
                let moment = *forces.leg_moment.on(side);
                let known = if N::KEPT { None } else { legs.find(rig, side, moment) };
                let capacity = known.unwrap_or_else(|| {
                    let leg = rig.legs.on(side);
                    let capacity = timber::capacity(leg, &gear.timber, moment, carried, notes);
                    legs.of(side).set(Some((moment, capacity)));
                    capacity
                });
                (carried, capacity.filter(|_| carried >= 0.0))
            }
            Part::MainLine | Part::SecondLine => {
                let (_, line) = self.line(part)?;
                notes.put(Symbol::Tension, line.greatest_tension);
                let rope = if matches!(part, Part::MainLine) { &gear.line } else { &gear.second };
                (line.greatest_tension, rope.capacity_noted(factor, notes))
            }
            Part::Sling | Part::SecondSling => {
                let demand = self.line(part)?.1.on_head().size();
                notes.put(Symbol::Tension, demand);
                (demand, gear.sling.capacity_noted(factor, notes))
            }
            Part::HeadPulley
            | Part::Connector
            | Part::RedirectPulley
            | Part::SecondPulley
            | Part::SecondConnector
            | Part::SecondRedirect => {
                let (_, line) = self.line(part)?;
                let (hardware, pull) = match part {
                    Part::HeadPulley | Part::SecondPulley => (&gear.pulley, line.on_head()),
                    Part::Connector | Part::SecondConnector => (&gear.connector, line.on_head()),
                    _ => (&gear.redirect, line.redirect?),
                };
                let demand = hardware.is_known().then(|| pull.size())?;
                notes.put(Symbol::Tension, demand);
                (demand, hardware.capacity_noted(factor, notes))
            }
            Part::HaulHoldfast | Part::SecondHoldfast => {
                let (path, line) = self.line(part)?;
                let to = path.haul_point()?;
                let (main, second) =
                    ((&gear.haul, gear.haul_allowable), (&gear.second_haul, gear.second_haul_allowable));
                let named = |of: (&Holdfast, Option<f64>)| of.0.is_known() || of.1.is_some();
                let (holdfast, stated) = if matches!(part, Part::HaulHoldfast) { main } else { second };
                if !named((holdfast, stated)) && (!named(main) || !self.alone(to)) {
                    return None;
                }
                let demand = self.pull_noted(to, line.after_redirect, notes);
                (demand, Capacity::lesser(stated.map(Capacity::stated), holdfast.capacity_noted(notes)))
            }
            Part::Lashing => {
                let (left, right) = (forces.compression.left, forces.compression.right);
                notes.put(Symbol::LegLeft, left);
                notes.put(Symbol::LegRight, right);
                ((left - right).abs(), None)
            }
            Part::Bearing(side) => {
                let pressure = rig.feet.bearing_allowable?;
                let demand = forces.footing.ground(side, &self.solution.layout).z().max(0.0);
                notes.put(Symbol::Bearing, demand);
                notes.put(Symbol::BearingAllowable, pressure);
                let capacity = rig.feet.bearing_area.map(|area| {
                    notes.put(Symbol::BearingArea, area);
                    Capacity { rule: CheckRule::Bearing, ..Capacity::stated(pressure * area) }
                });
                (demand, capacity)
            }
            Part::Edge => {
                notes.put(Symbol::EdgeDistance, rig.edge?.ahead);
                let (left, right) = (&forces.footing.feet.left, &forces.footing.feet.right);
                let demand = left.bearing.max(0.0) + right.bearing.max(0.0);
                notes.put(Symbol::Bearing, demand);
                (demand, None)
            }
        };
        Some(Check::new(part, demand, capacity))
    }

    /// A rigged guy and its tension, N.
    fn guy(&self, number: u8) -> Option<(&crate::Guy, f64)> {
        let number = usize::from(number);
        let guy = self.rig.guys.get(number).filter(|guy| guy.rigged)?;
        Some((guy, self.forces.guys.get(number)?.tension))
    }

    /// The path and the forces of the line that a part belongs to: the second line's parts are named as such. `None` for
    /// those of a second line that is not there.
    fn line(&self, part: Part) -> Option<(Path, &LineForces)> {
        match part {
            Part::SecondLine
            | Part::SecondSling
            | Part::SecondPulley
            | Part::SecondConnector
            | Part::SecondRedirect
            | Part::SecondHoldfast => {
                Some((self.rig.second.as_ref()?.line.path, self.solution.second.as_ref()?))
            }
            _ => Some((self.rig.line.path, &self.solution.line)),
        }
    }

    /// Every rope that ends at `at`.
    fn tied(&self, at: Point) -> impl Iterator<Item = Tied> {
        tied_at(at, self.rig, self.solution, self.forces)
    }

    /// Whether no more than one rope ends at `at`.
    fn alone(&self, at: Point) -> bool {
        self.tied(at).count() < 2
    }

    /// The pull of every rope that ends at `at`, N: of one alone its `tension`.
    fn pull_noted<N: Notes>(&self, at: Point, tension: f64, notes: &mut N) -> f64 {
        let alone = self.alone(at);
        if alone && !N::KEPT {
            return tension;
        }
        let pull = HoldfastPull::of(self.tied(at));
        let size = if alone { tension } else { pull.size };
        notes.put(Symbol::Pull, size);
        notes.put(Symbol::Lift, pull.uplift);
        if let Some(angle) = pull.angle {
            notes.put(Symbol::PullAngle, angle);
        }
        size
    }
}
