//! What the curves show: compression and tension sampled over the lean.

use outlean_rig::{
    Balance, Fault, Field, Interval, Limit, MAX_GUYS, Part, Quantity, Rig, Side, Solution, Station, Tip,
    WorkingRange, balance_leans, checks, solve, solve_at,
};
use outlean_rigfile::DEG;

/// Distance between two leans looked at, rad: 0.5°.
const STEP: f64 = 0.5 * DEG;
/// Leans at which a frame begins to tip are found to this, rad.
const WIDTH: f64 = 1e-5;
/// Most lines that a rig can have: two legs and its guys.
const MAX_LINES: usize = 2 + MAX_GUYS;

/// One point of a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// Lean, rad, forward positive.
    pub lean: f64,
    /// Compression or tension, N.
    pub value: f64,
}

/// One line: what a leg or a guy carries over the lean.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// What it is of.
    pub quantity: Quantity,
    /// Its points, lean rising, broken where the frame tips, where the guy hangs slack and where the value
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
    /// Its lines. Two legs that carry the same at every lean are one line, the left one.
    pub series: Vec<Series>,
    /// The lowest allowable of each leg or guy that has one, equal ones once.
    pub allowables: Vec<Allowable>,
    /// Greatest value within the working range, N; where nothing holds, from upright to 45°.
    pub within: f64,
    /// Greatest value over all leans shown, N.
    pub greatest: f64,
    /// Least value over all leans shown, N; negative only for a leg that pulls on a foot held down.
    pub least: f64,
}

/// Leans, from and to, at which the frame does not stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fall {
    /// Rad.
    pub from: f64,
    /// Rad.
    pub to: f64,
    /// Which way it tips; `None` where the geometry ends.
    pub tip: Option<Tip>,
}

/// Legs and guys of a rig over the lean. Independent of the lean at which the rig stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Curves {
    /// Least lean shown, rad.
    pub from: f64,
    /// Greatest lean shown, rad.
    pub to: f64,
    /// The stretches of the working range.
    pub ranges: Vec<Interval>,
    /// Where the working guy changes sides, rad; only those shown.
    pub balance: Vec<f64>,
    /// Where the frame tips, from the farthest back.
    pub falls: Vec<Fall>,
    /// The legs.
    pub legs: Panel,
    /// The guys.
    pub guys: Panel,
    /// Whether both legs carry the same at every lean shown.
    pub legs_alike: bool,
    /// Where each guy of the rig stands, rigged or not.
    pub stations: Vec<Station>,
}

/// A lean solved.
struct Look {
    lean: f64,
    /// Values in the order of the lines; `None` where the frame does not stand.
    values: Option<[f64; MAX_LINES]>,
    tip: Option<Tip>,
    working: Option<u8>,
}

impl Look {
    fn at(rig: &Rig, lines: &[Quantity], lean: f64) -> Self {
        let solution = solve_at(rig, lean).ok();
        let values = solution.as_ref().and_then(|solution| Self::values(lines, solution));
        let (tip, working) = match solution.map(|solution| solution.balance) {
            Some(Balance::Stands(forces)) => (None, forces.working_guy),
            Some(Balance::Tips(tip)) => (Some(tip), None),
            None => (None, None),
        };
        Self { lean, values, tip, working }
    }

    fn values(lines: &[Quantity], solution: &Solution) -> Option<[f64; MAX_LINES]> {
        let mut values = [0.0; MAX_LINES];
        for (value, line) in values.iter_mut().zip(lines) {
            *value = line.of(solution).filter(|value| value.is_finite())?;
        }
        Some(values)
    }

    /// Whether nothing but numbers differs: it stands or tips alike, on the same guy.
    fn like(&self, other: &Self) -> bool {
        self.values.is_some() == other.values.is_some()
            && self.tip == other.tip
            && self.working == other.working
    }
}

impl Curves {
    /// Samples a rig over the lean. `range` is its working range; the leans shown hold the working range and
    /// at least upright to 60°, as far as 30° back and 80° out.
    ///
    /// # Errors
    ///
    /// As [`outlean_rig::solve`] at the rig's own lean.
    pub fn of(rig: &Rig, range: &WorkingRange) -> Result<Self, Fault> {
        let layout = solve(rig)?.layout;
        let (from, to) = shown_leans(range);
        let rigged = (0_u8..).zip(&rig.guys).filter(|(_, guy)| guy.rigged).map(|(i, _)| i);
        let lines: Vec<Quantity> = Side::BOTH
            .map(Quantity::LegCompression)
            .into_iter()
            .chain(rigged.map(Quantity::GuyTension))
            .take(MAX_LINES)
            .collect();

        let balance: Vec<f64> =
            balance_leans(rig)?.into_iter().filter(|lean| from <= *lean && *lean <= to).collect();
        let looks = looks(rig, &lines, (from, to), range, &balance);
        let legs_alike = looks.iter().filter_map(|look| look.values).all(|v| {
            let [left, right, ..] = v;
            (left - right).abs() <= 1e-9 * (left.abs() + right.abs()) + 1e-6
        });

        let mut all: Vec<Series> = (0..lines.len()).map(|line| series(&lines, line, &looks)).collect();
        let guys = all.split_off(all.len().min(2));
        let mut legs = all;
        if legs_alike {
            legs.truncate(1);
        }
        let mut allowables = allowables(rig, &looks);
        let of_leg = |one: &Allowable| matches!(one.part, Part::Leg(_));
        let on_legs = allowables.iter().filter(|one| of_leg(one)).cloned().collect();
        allowables.retain(|one| !of_leg(one));
        Ok(Self {
            from,
            to,
            ranges: range.intervals.to_vec(),
            balance,
            falls: falls(&looks),
            legs: Panel::of(PanelKind::Legs, legs, on_legs, range),
            guys: Panel::of(PanelKind::Guys, guys, allowables, range),
            legs_alike,
            stations: rig.guys.iter().map(|guy| Station::of(guy.anchor, &layout)).collect(),
        })
    }

    /// The panel of a kind.
    #[must_use]
    pub const fn panel(&self, kind: PanelKind) -> &Panel {
        match kind {
            PanelKind::Legs => &self.legs,
            PanelKind::Guys => &self.guys,
        }
    }

    /// Whether a lean (rad) lies in the working range, ends included.
    #[must_use]
    pub fn holds(&self, lean: f64) -> bool {
        self.ranges.iter().any(|range| range.from <= lean && lean <= range.to)
    }
}

impl Panel {
    fn of(
        kind: PanelKind,
        mut series: Vec<Series>,
        allowables: Vec<Allowable>,
        range: &WorkingRange,
    ) -> Self {
        series.retain(|series| !series.pieces.is_empty());
        let points = || series.iter().flat_map(|series| &series.pieces).flatten();
        let greatest = points().fold(0.0, |most: f64, point| most.max(point.value));
        let least = points().fold(0.0, |least: f64, point| least.min(point.value));
        let most = |of: &dyn Fn(f64) -> bool| {
            points().filter(|point| of(point.lean)).fold(0.0, |most: f64, point| most.max(point.value))
        };
        let within = [most(&|lean| range.around(lean).is_some()), most(&|lean| lean <= 45.0 * DEG), greatest];
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

/// The leans to show: the working range with a little beyond it, upright, and 60°; in whole fives back and whole tens out.
fn shown_leans(range: &WorkingRange) -> (f64, f64) {
    let ends = |limit: Limit| limit != Limit::NotLookedFurther;
    let (mut back, mut out) = (0.0_f64, 60.0_f64);
    for interval in &range.intervals {
        // A range that nobody has ended yet may run out of the picture.
        let from =
            if ends(interval.from_limit) { interval.from / DEG } else { (interval.from / DEG).max(-10.0) };
        let to =
            if ends(interval.to_limit) { interval.to / DEG + 0.5 } else { (interval.to / DEG).min(70.0) };
        back = back.min(libm::floor(from / 5.0) * 5.0);
        out = out.max(libm::ceil(to / 10.0) * 10.0);
    }
    (back.max(-30.0) * DEG, out.min(80.0) * DEG)
}

/// Every lean worth looking at, solved: the grid, the ends of the range, the balance leans, and both sides of
/// every place where the frame begins to tip or another guy takes over.
fn looks(
    rig: &Rig,
    lines: &[Quantity],
    (from, to): (f64, f64),
    range: &WorkingRange,
    balance: &[f64],
) -> Vec<Look> {
    let steps = libm::ceil((to - from) / STEP - 1e-9).clamp(1.0, 1000.0);
    let mut leans: Vec<f64> =
        (0..=steps as u32).map(|i| to.min(from + (to - from) * (f64::from(i) / steps))).collect();
    leans.extend(range.intervals.iter().flat_map(|interval| [interval.from, interval.to]));
    leans.extend(balance);
    leans.retain(|lean| from <= *lean && *lean <= to && Field::Lean.allowed().most >= *lean);
    // The grid is in order; what was added is a handful.
    crate::sort_few::sort_few(&mut leans, |lean| *lean);
    leans.dedup_by(|b, a| *b - *a < 1e-12);

    let mut looks: Vec<Look> = Vec::with_capacity(leans.len() + 8);
    for lean in leans {
        let here = Look::at(rig, lines, lean);
        if let Some(last) = looks.last().filter(|last| !last.like(&here)) {
            // A change in between: close in on it from both sides.
            let (mut before, mut after) = (last.lean, here.lean);
            let (mut near, mut far) = (None, None);
            while after - before > WIDTH {
                let middle = Look::at(rig, lines, 0.5 * (before + after));
                if middle.like(last) {
                    before = middle.lean;
                    near = Some(middle);
                } else {
                    after = middle.lean;
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

/// One line through the leans looked at.
fn series(lines: &[Quantity], line: usize, looks: &[Look]) -> Series {
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
        let here = Sample { lean: look.lean, value };
        if let Some(last) = piece.last().copied() {
            let jump = here.lean - last.lean <= WIDTH
                && (here.value - last.value).abs() > 1.0 + 1e-2 * (here.value.abs() + last.value.abs());
            if jump {
                close(&mut piece);
            } else if may_hang_slack && last.value <= 0.0 && here.value <= 0.0 {
                // Slack since the last lean: the line ended there, and starts afresh from here.
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
            Some(fall) => fall.to = look.lean,
            None => falls.push(Fall { from: look.lean, to: look.lean, tip: look.tip }),
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

/// The lowest allowable of every leg and guy, equal ones once. They are asked for at the first lean at which
/// the frame stands.
fn allowables(rig: &Rig, looks: &[Look]) -> Vec<Allowable> {
    let mut all: Vec<Allowable> = Vec::new();
    let Some(stands) = looks.iter().find(|look| look.values.is_some()) else { return all };
    let Ok(solution) = solve_at(rig, stands.lean) else { return all };
    for check in checks(rig, &solution) {
        let (Some(this), Some(value)) = (member(check.part), check.allowable) else { continue };
        match all.iter_mut().find(|one| member(one.part) == Some(this)) {
            Some(one) if value < one.value => *one = Allowable { part: check.part, value },
            Some(_) => {}
            None => all.push(Allowable { part: check.part, value }),
        }
    }
    all
}
