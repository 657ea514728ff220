//! What the curves show: compression and tension sampled over a lever.

use super::over::shown;
use crate::sort_few::sort_few;
use outlean_rig::{
    Balance, Case, Fault, Field, Interval, Lever, Limit, MAX_GUYS, Part, Quantity, Rig, Side, Solution,
    Station, Tip, WorkingRange, balance_leans, checks, governing, holds, solve,
};
use outlean_rigfile::DEG;

/// Distance between two leans looked at, rad: 0.5°.
const STEP: f64 = 0.5 * DEG;
/// Leans at which a frame begins to tip are found to this, rad.
const WIDTH: f64 = 1e-5;
/// From one look to the next along any other lever, and how finely a change between two of them is found, both as shares
/// of what is shown. At each look every case is solved; what changes twice between two looks is not seen.
pub(super) const LOOKS: f64 = 1.0 / 144.0;
const FINE: f64 = 1e-4;
/// Most lines that a rig can have: two legs and its guys.
const MAX_LINES: usize = 2 + MAX_GUYS;

/// One point of a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// What the lever is set to, SI: for curves over the lean rad, forward positive.
    pub at: f64,
    /// Compression or tension, N.
    pub value: f64,
}

/// One line: what a leg or a guy carries over the lever.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// What it is of.
    pub quantity: Quantity,
    /// Its points, the lever rising, broken where the frame tips, where the guy hangs slack and where the value
    /// jumps. Each piece has two points or more.
    pub pieces: Vec<Vec<Sample>>,
}

/// An allowable that some of the lines must stay under.
#[derive(Clone, Debug, PartialEq)]
pub struct Allowable {
    /// What it is the allowable of.
    pub part: Part,
    /// N.
    pub value: f64,
}

/// Which panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PanelKind {
    /// Compression of the legs.
    Legs,
    /// Tension of the guys.
    Guys,
}

/// The lines of one panel.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// Which one it is.
    pub kind: PanelKind,
    /// Its lines. Two legs that carry the same everywhere are one line, the left one.
    pub series: Vec<Series>,
    /// The lowest allowable of each leg or guy that has one; of two legs that are one line the lesser.
    pub allowables: Vec<Allowable>,
    /// Greatest value where everything holds, N; where nothing does, everywhere, of leans from upright to 45°.
    pub within: f64,
    /// Greatest value over all that is shown, N.
    pub greatest: f64,
    /// Least value over all that is shown, N; negative only for a leg that pulls on a foot held down.
    pub least: f64,
}

/// Values of the lever, from and to, at which the frame does not stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fall {
    /// SI.
    pub from: f64,
    /// SI.
    pub to: f64,
    /// Which way it tips; `None` where the geometry ends.
    pub tip: Option<Tip>,
}

/// Legs and guys of a rig over a lever. What the lever itself is set to makes no difference, as long as that is within what
/// is shown anyway.
#[derive(Clone, Debug, PartialEq)]
pub struct Curves {
    /// What they run over.
    pub lever: Lever,
    /// Least value of it shown, SI.
    pub from: f64,
    /// Greatest value of it shown, SI.
    pub to: f64,
    /// Where every check passes: over the lean the stretches of the working range, over any other lever those of its
    /// values at which the rig's own lean holds in every case.
    pub ranges: Vec<Interval>,
    /// Leans at which the working guy changes sides, rad; only those shown, and none over another lever.
    pub balance: Vec<f64>,
    /// Where the frame tips, from the least value.
    pub falls: Vec<Fall>,
    /// The legs.
    pub legs: Panel,
    /// The guys.
    pub guys: Panel,
    /// Whether both legs carry the same everywhere.
    pub legs_alike: bool,
    /// Where each guy of the rig stands, rigged or not.
    pub stations: Vec<Station>,
}

/// The rig solved at one value of the lever.
struct Look {
    at: f64,
    /// Values in the order of the lines; `None` where the frame does not stand.
    values: Option<[f64; MAX_LINES]>,
    tip: Option<Tip>,
    working: Option<u8>,
    /// What is past there in some case; not asked over the lean, whose working range is known.
    past: Option<Limit>,
}

/// A rig to be looked at along a lever.
struct Along<'a> {
    rig: Rig,
    lever: Lever,
    lines: &'a [Quantity],
}

impl Along<'_> {
    fn look(&mut self, at: f64) -> Look {
        let Self { rig, lever, lines } = self;
        lever.set(rig, at);
        let solution = solve(rig).ok();
        let past = match lever {
            Lever::Lean => None,
            // Asked first whether it holds: how near it is takes far longer where guys stretch.
            _ if holds(rig) => None,
            _ => governing(rig, rig.lean)
                .map_or(Some(Limit::NoGeometry), |governs| (!governs.holds()).then_some(governs.limit)),
        };
        let values = solution.as_ref().and_then(|solution| values(lines, solution));
        let (tip, working) = match solution.map(|solution| solution.balance) {
            Some(Balance::Stands(forces)) => (None, forces.working_guy),
            Some(Balance::Tips(tip)) => (Some(tip), None),
            None => (None, None),
        };
        Look { at, values, tip, working, past }
    }
}

fn values(lines: &[Quantity], solution: &Solution) -> Option<[f64; MAX_LINES]> {
    let mut values = [0.0; MAX_LINES];
    for (value, line) in values.iter_mut().zip(lines) {
        *value = line.of(solution).filter(|value| value.is_finite())?;
    }
    Some(values)
}

impl Look {
    /// Whether nothing but numbers differs: it stands or tips alike, on the same guy, and holds alike.
    fn like(&self, other: &Self) -> bool {
        self.values.is_some() == other.values.is_some()
            && self.tip == other.tip
            && self.working == other.working
            && self.past.is_none() == other.past.is_none()
    }
}

impl Curves {
    /// Samples a rig over a lever. `range` is its working range. The leans shown hold the working range and at least
    /// upright to 60°, as far as 30° back and 80° out. `None` where the rig has no such lever.
    ///
    /// # Errors
    ///
    /// As [`outlean_rig::solve`] of the rig as it is.
    pub fn of(rig: &Rig, range: &WorkingRange, lever: Lever) -> Result<Option<Self>, Fault> {
        let layout = solve(rig)?.layout;
        if lever.get(rig).is_none() {
            return Ok(None);
        }
        let (from, to) = shown(lever, rig, range);
        let rigged = (0_u8..).zip(&rig.guys).filter(|(_, guy)| guy.rigged).map(|(i, _)| i);
        let lines: Vec<Quantity> = Side::BOTH
            .map(Quantity::LegCompression)
            .into_iter()
            .chain(rigged.map(Quantity::GuyTension))
            .take(MAX_LINES)
            .collect();

        let over_lean = lever == Lever::Lean;
        let mut balance = if over_lean { balance_leans(rig)?.to_vec() } else { Vec::new() };
        balance.retain(|lean| from <= *lean && *lean <= to);
        let mut also = balance.clone();
        if over_lean {
            also.extend(range.intervals.iter().flat_map(|interval| [interval.from, interval.to]));
        }
        let mut along = Along { rig: rig.clone(), lever, lines: &lines };
        let looks = looks(&mut along, (from, to), &also);
        let ranges = if over_lean { range.intervals.to_vec() } else { holding(&looks) };
        let legs_alike = looks.iter().filter_map(|look| look.values).all(|v| {
            let [left, right, ..] = v;
            (left - right).abs() <= 1e-9 * (left.abs() + right.abs()) + 1e-6
        });

        let (_, width) = widths(lever, (from, to));
        let mut all: Vec<Series> = (0..lines.len()).map(|line| series(&lines, line, &looks, width)).collect();
        let guys = all.split_off(all.len().min(2));
        let mut legs = all;
        if legs_alike {
            legs.truncate(1);
        }
        let mut allowables = allowables(&mut along, &looks, &ranges);
        let of_leg = |one: &Allowable| matches!(one.part, Part::Leg(_));
        let mut on_legs: Vec<Allowable> = allowables.iter().filter(|one| of_leg(one)).cloned().collect();
        if legs_alike {
            // One line for both, one limit: the lesser.
            sort_few(&mut on_legs, |one| one.value);
            on_legs.truncate(1);
        }
        allowables.retain(|one| !of_leg(one));
        let usual = if over_lean { 45.0 * DEG } else { to };
        let legs = Panel::of(PanelKind::Legs, legs, on_legs, &ranges, usual);
        let guys = Panel::of(PanelKind::Guys, guys, allowables, &ranges, usual);
        Ok(Some(Self {
            lever,
            from,
            to,
            ranges,
            balance,
            falls: falls(&looks),
            legs,
            guys,
            legs_alike,
            stations: rig.guys.iter().map(|guy| Station::of(guy.anchor, &layout)).collect(),
        }))
    }

    /// The panel of a kind.
    #[must_use]
    pub const fn panel(&self, kind: PanelKind) -> &Panel {
        match kind {
            PanelKind::Legs => &self.legs,
            PanelKind::Guys => &self.guys,
        }
    }

    /// Whether every check passes at a value of the lever (SI), ends included.
    #[must_use]
    pub fn holds(&self, at: f64) -> bool {
        within(&self.ranges, at)
    }
}

fn within(ranges: &[Interval], at: f64) -> bool {
    ranges.iter().any(|range| range.from <= at && at <= range.to)
}

impl Panel {
    fn of(
        kind: PanelKind,
        mut series: Vec<Series>,
        allowables: Vec<Allowable>,
        ranges: &[Interval],
        usual: f64,
    ) -> Self {
        series.retain(|series| !series.pieces.is_empty());
        let points = || series.iter().flat_map(|series| &series.pieces).flatten();
        let greatest = points().fold(0.0, |most: f64, point| most.max(point.value));
        let least = points().fold(0.0, |least: f64, point| least.min(point.value));
        let most = |of: &dyn Fn(f64) -> bool| {
            points().filter(|point| of(point.at)).fold(0.0, |most: f64, point| most.max(point.value))
        };
        let within = [most(&|at| within(ranges, at)), most(&|at| at <= usual), greatest];
        let within = within.into_iter().find(|value| *value > 0.0).unwrap_or(0.0);
        let mut allowables = allowables;
        // Of a guy that never works here there is no line to stay under.
        allowables.retain(|one| {
            member(one.part).is_some_and(|of| {
                series.iter().any(|series| series.quantity == of) || matches!(of, Quantity::LegCompression(_))
            })
        });
        Self { kind, series, allowables, within, greatest, least }
    }
}

/// Every value worth looking at, solved: the grid, those of `also`, and both sides of every place where the frame begins to
/// tip, another guy takes over, or something begins to be past what it may.
fn looks(along: &mut Along<'_>, (from, to): (f64, f64), also: &[f64]) -> Vec<Look> {
    let (step, width) = widths(along.lever, (from, to));
    let steps = libm::ceil((to - from) / step - 1e-9).clamp(1.0, 1000.0);
    let mut values: Vec<f64> =
        (0..=steps as u32).map(|i| to.min(from + (to - from) * (f64::from(i) / steps))).collect();
    values.extend(also);
    let farthest = if along.lever == Lever::Lean { Field::Lean.allowed().most } else { to };
    values.retain(|at| from <= *at && *at <= to && farthest >= *at);
    // The grid is in order; what was added is a handful.
    sort_few(&mut values, |at| *at);
    values.dedup_by(|b, a| *b - *a < 1e-12);

    let mut looks: Vec<Look> = Vec::with_capacity(values.len() + 8);
    for at in values {
        let here = along.look(at);
        if let Some(last) = looks.last().filter(|last| !last.like(&here)) {
            // A change in between: close in on it from both sides.
            let (mut before, mut after) = (last.at, here.at);
            let (mut near, mut far) = (None, None);
            while after - before > width {
                let middle = along.look(0.5 * (before + after));
                if middle.like(last) {
                    before = middle.at;
                    near = Some(middle);
                } else {
                    after = middle.at;
                    far = Some(middle);
                }
            }
            looks.extend(near);
            looks.extend(far);
        }
        looks.push(here);
    }
    looks
}

/// Between two looks, and how finely a change between them is found, SI.
fn widths(lever: Lever, (from, to): (f64, f64)) -> (f64, f64) {
    if lever == Lever::Lean { (STEP, WIDTH) } else { (LOOKS * (to - from), FINE * (to - from)) }
}

/// The stretches in which every check passes, with what is past beyond them. In which case it is past is not said.
fn holding(looks: &[Look]) -> Vec<Interval> {
    let mut all: Vec<Interval> = Vec::new();
    // What was past at the look before; nothing ends a stretch at the end of what is shown.
    let mut before = Limit::NotLookedFurther;
    let mut open = false;
    for look in looks {
        match (all.last_mut().filter(|_| open), look.past) {
            (Some(last), None) => last.to = look.at,
            (Some(last), Some(past)) => last.to_limit = past,
            (None, None) => all.push(Interval {
                from: look.at,
                to: look.at,
                from_limit: before,
                to_limit: Limit::NotLookedFurther,
                from_case: Case::default(),
                to_case: Case::default(),
            }),
            (None, Some(_)) => {}
        }
        open = look.past.is_none();
        before = look.past.unwrap_or(before);
    }
    all
}

/// One line through what was looked at.
fn series(lines: &[Quantity], line: usize, looks: &[Look], width: f64) -> Series {
    let quantity = lines.get(line).copied().unwrap_or(Quantity::LegCompression(Side::Left));
    let may_hang_slack = matches!(quantity, Quantity::GuyTension(_));
    let mut pieces: Vec<Vec<Sample>> = Vec::new();
    let mut piece: Vec<Sample> = Vec::new();
    let mut close = |piece: &mut Vec<Sample>| {
        let carries = !may_hang_slack || piece.iter().any(|sample| sample.value > 0.0);
        if piece.len() > 1 && carries {
            pieces.push(core::mem::take(piece));
        }
        piece.clear();
    };
    for look in looks {
        let Some(value) = look.values.as_ref().and_then(|values| values.get(line)).copied() else {
            close(&mut piece);
            continue;
        };
        let here = Sample { at: look.at, value };
        if let Some(last) = piece.last().copied() {
            let jump = here.at - last.at <= width
                && (here.value - last.value).abs() > 1.0 + 1e-2 * (here.value.abs() + last.value.abs());
            if jump {
                close(&mut piece);
            } else if may_hang_slack && last.value <= 0.0 && here.value <= 0.0 {
                // Slack since the last look: the line ended there, and starts afresh from here.
                close(&mut piece);
            }
        }
        piece.push(here);
    }
    close(&mut piece);
    Series { quantity, pieces }
}

/// Where the frame does not stand.
fn falls(looks: &[Look]) -> Vec<Fall> {
    let mut falls: Vec<Fall> = Vec::new();
    let mut open = false;
    for look in looks {
        if look.values.is_some() {
            open = false;
            continue;
        }
        match falls.last_mut().filter(|fall| open && fall.tip == look.tip) {
            Some(fall) => fall.to = look.at,
            None => falls.push(Fall { from: look.at, to: look.at, tip: look.tip }),
        }
        open = true;
    }
    falls
}

/// What is read of the leg or the guy that a part belongs to.
pub(crate) const fn member(part: Part) -> Option<Quantity> {
    match part {
        Part::Leg(side) => Some(Quantity::LegCompression(side)),
        Part::GuyRope(i) | Part::GuyHoldfast(i) => Some(Quantity::GuyTension(i)),
        _ => None,
    }
}

/// The lowest allowable of every leg and guy. A leg may carry the less the more its own weight bends it, so that they are
/// asked for where `ranges` end as well as at the first value at which the frame stands.
fn allowables(along: &mut Along<'_>, looks: &[Look], ranges: &[Interval]) -> Vec<Allowable> {
    let mut all: Vec<Allowable> = Vec::new();
    let stands = looks.iter().find(|look| look.values.is_some()).map(|look| look.at);
    for at in stands.into_iter().chain(ranges.iter().flat_map(|range| [range.from, range.to])) {
        along.lever.set(&mut along.rig, at);
        let Ok(solution) = solve(&along.rig) else { continue };
        for check in checks(&along.rig, &solution) {
            let (Some(this), Some(value)) = (member(check.part), check.allowable) else { continue };
            match all.iter_mut().find(|one| member(one.part) == Some(this)) {
                Some(one) if value < one.value => *one = Allowable { part: check.part, value },
                Some(_) => {}
                None => all.push(Allowable { part: check.part, value }),
            }
        }
    }
    all
}
