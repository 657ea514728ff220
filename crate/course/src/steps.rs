//! The worked solution of an estimate: the way an instructor would go at the board, every number the core's.

use crate::expr::{cosine, minus, over, product, root, sine, squared, sum};
use crate::{Measure, Symbol, Worked};
use outlean_rig::{Dimension, Fault, Forces, G, Line, Operation, Path, Quantity, Rig, Side, Solution, solve};

const LENGTH: Measure = Measure::Of(Dimension::Length);
const FORCE: Measure = Measure::Of(Dimension::Force);
const ANGLE: Measure = Measure::Of(Dimension::Angle);
const RATIO: Measure = Measure::Of(Dimension::Ratio);

/// The worked solution of what `ask` is on `rig`; empty where the frame tips, since then nothing is carried.
/// The last step's value is the core's answer.
///
/// A line led down a leg meets that leg's foot: it has no moment about the foot line and presses on that leg
/// alone. The solution then works out the load and its guy first and adds the haul line last. Where the haul
/// line goes any other way, all forces on the head are taken together.
///
/// # Errors
///
/// As [`outlean_rig::solve`].
pub fn worked(rig: &Rig, ask: Quantity) -> Result<Worked, Fault> {
    let whole = solve(rig)?;
    let mut paper = Worked::new();
    let Some(answer) = ask.of(&whole) else { return Ok(paper) };
    match ask {
        Quantity::LegCompression(side) if down_a_leg(&rig.line) => {
            let hung_rig = Rig { line: Line::hung(), ..rig.clone() };
            let hung = solve(&hung_rig)?;
            let Some(forces) = hung.forces() else { return Ok(paper) };
            let share = *forces.compression.on(side);
            head(&mut paper, rig, &hung);
            let loads = loads(&mut paper, &hung_rig, &hung);
            guy(&mut paper, rig, &hung, forces);
            leg(&mut paper, &hung, forces, &loads, (side, Symbol::Share, share));
            if matches!(rig.line.path, Path::RedirectedAtFoot { foot, .. } if foot == side) {
                haul(&mut paper, rig, &whole);
                let total = sum([Symbol::Share.into(), Symbol::Haul.into()]);
                paper.write("leg_with_haul_line", Symbol::Leg, answer, FORCE, total);
            } else {
                paper.write("leg_without_haul_line", Symbol::Leg, answer, FORCE, Symbol::Share);
            }
        }
        Quantity::LegCompression(side) => {
            let Some(forces) = whole.forces() else { return Ok(paper) };
            head(&mut paper, rig, &whole);
            let loads = loads(&mut paper, rig, &whole);
            guy(&mut paper, rig, &whole, forces);
            leg(&mut paper, &whole, forces, &loads, (side, Symbol::Leg, answer));
        }
        Quantity::GuyTension(number) => {
            let Some(forces) = whole.forces() else { return Ok(paper) };
            if forces.working_guy == Some(number) {
                head(&mut paper, rig, &whole);
                loads(&mut paper, rig, &whole);
                guy(&mut paper, rig, &whole, forces);
            } else {
                paper.write("guy_not_working", Symbol::Guy, answer, FORCE, Symbol::Guy);
            }
        }
        Quantity::HaulTension => {
            load(&mut paper, rig, &whole);
            haul(&mut paper, rig, &whole);
        }
        Quantity::Reach => {
            head(&mut paper, rig, &whole);
            paper.steps.retain(|step| step.symbol != Symbol::HeadHeight);
        }
        Quantity::HeadHeight => {
            head(&mut paper, rig, &whole);
            paper.steps.retain(|step| step.symbol != Symbol::Reach);
        }
        Quantity::OnHead => {
            load(&mut paper, rig, &whole);
            haul(&mut paper, rig, &whole);
            haul_slope(&mut paper, &whole);
            // Two pulls with the angle 90° + γ between load and haul line.
            let (w, t) = (Symbol::Load, Symbol::Haul);
            let both = product([2.into(), w.into(), t.into(), sine(Symbol::HaulSlope)]);
            paper.write("on_head", Symbol::OnHead, answer, FORCE, root(sum([squared(w), squared(t), both])));
        }
        _ => {
            head(&mut paper, rig, &whole);
            loads(&mut paper, rig, &whole);
        }
    }
    Ok(paper)
}

/// Whether the haul line runs along a leg from the head itself.
fn down_a_leg(line: &Line) -> bool {
    matches!(line.path, Path::RedirectedAtFoot { .. }) && line.sling <= 0.0
}

/// Where the head is.
fn head(paper: &mut Worked, rig: &Rig, solution: &Solution) {
    let layout = &solution.layout;
    let leg = rig.legs.left;
    if leg.lashing_below_tip > 0.0 {
        paper.give(Symbol::LegLength, leg.length, LENGTH);
        paper.give(Symbol::BelowTip, leg.lashing_below_tip, LENGTH);
        let less = sum([Symbol::LegLength.into(), minus(Symbol::BelowTip)]);
        paper.write("working_length", Symbol::WorkingLength, layout.working_length.left, LENGTH, less);
    } else {
        paper.give(Symbol::WorkingLength, layout.working_length.left, LENGTH);
    }
    paper.give(Symbol::Spread, layout.spread, LENGTH);
    paper.give(Symbol::Lean, layout.lean, ANGLE);
    let slant = root(sum([squared(Symbol::WorkingLength), minus(squared(over(Symbol::Spread, 2)))]));
    paper.write("slant_height", Symbol::SlantHeight, layout.slant_height, LENGTH, slant);
    let (a, lean) = (Symbol::SlantHeight, Symbol::Lean);
    paper.write("reach", Symbol::Reach, layout.reach(), LENGTH, product([a.into(), sine(lean)]));
    paper.write(
        "head_height",
        Symbol::HeadHeight,
        layout.head_height(),
        LENGTH,
        product([a.into(), cosine(lean)]),
    );
}

/// The weight on the load line.
fn load(paper: &mut Worked, rig: &Rig, solution: &Solution) {
    paper.give(Symbol::Mass, rig.load.mass, Measure::Of(Dimension::Mass));
    paper.give(Symbol::Gravity, G, Measure::Gravity);
    let mut factors = vec![Symbol::Mass.into(), Symbol::Gravity.into()];
    if rig.load.dynamic_factor > 1.0 {
        paper.give(Symbol::DynamicFactor, rig.load.dynamic_factor, RATIO);
        factors.insert(0, Symbol::DynamicFactor.into());
    }
    paper.write("load", Symbol::Load, solution.line.load.size(), FORCE, product(factors));
}

/// The pull of the haul line.
fn haul(paper: &mut Worked, rig: &Rig, solution: &Solution) {
    let w = Symbol::Load;
    if rig.case.operation != Operation::Holding && rig.line.pulley_efficiency < 1.0 {
        paper.give(Symbol::Efficiency, rig.line.pulley_efficiency, RATIO);
    }
    let eta = Symbol::Efficiency;
    let (key, pull) = match rig.case.operation {
        Operation::Raising if rig.line.pulley_efficiency < 1.0 => ("haul_line_raising", over(w, eta)),
        Operation::Lowering if rig.line.pulley_efficiency < 1.0 => {
            ("haul_line_lowering", product([w.into(), eta.into()]))
        }
        _ => ("haul_line", w.into()),
    };
    paper.write(key, Symbol::Haul, solution.line.haul_tension, FORCE, pull);
}

/// The slope of the haul line, read off the layout.
fn haul_slope(paper: &mut Worked, solution: &Solution) {
    let haul = solution.line.haul;
    let level = libm::hypot(haul.x(), haul.y());
    paper.give(Symbol::HaulSlope, libm::atan2(-haul.z(), level), ANGLE);
}

/// How what loads the head was written down.
struct Loads {
    /// The letter of what bears down on it.
    down: Symbol,
    /// Whether something also pulls it level, forward or back.
    level: bool,
}

/// What loads the head, and its moment about the foot line. A haul line down a leg has none and is left out.
fn loads(paper: &mut Worked, rig: &Rig, solution: &Solution) -> Loads {
    load(paper, rig, solution);
    let weight = rig.legs.left.weight_at_head() + rig.legs.right.weight_at_head();
    let mut down = vec![Symbol::Load.into()];
    if weight > 0.0 {
        // Of each leg w·L·(L/2)/ℓ, and there are two.
        paper.give(
            Symbol::WeightPerMetre,
            rig.legs.left.weight_per_metre,
            Measure::Of(Dimension::ForcePerLength),
        );
        if rig.legs.left.lashing_below_tip <= 0.0 {
            paper.give(Symbol::LegLength, rig.legs.left.length, LENGTH);
        }
        let legs = product([Symbol::WeightPerMetre.into(), squared(Symbol::LegLength)]);
        paper.write("leg_weight", Symbol::LegWeight, weight, FORCE, over(legs, Symbol::WorkingLength));
        down.push(Symbol::LegWeight.into());
    }
    let resultant = &solution.resultant;
    let along_a_leg = down_a_leg(&rig.line);
    let pulled = rig.line.path.haul_point().is_some() && !along_a_leg;
    let plumb = solution.line.load.x().abs() <= 1e-12 * solution.line.load.size();
    let level = pulled || !plumb;
    if pulled {
        haul(paper, rig, solution);
        haul_slope(paper, solution);
        down.push(product([Symbol::Haul.into(), sine(Symbol::HaulSlope)]));
    }
    // On a leg the haul line's pull is added at the end.
    let on_head = if along_a_leg { resultant.force - solution.line.haul } else { resultant.force };
    let (letter, alone) = if down.len() == 1 && plumb { (Symbol::Load, true) } else { (Symbol::Down, false) };
    if !alone {
        paper.write("down", letter, -on_head.z(), FORCE, sum(down));
    }
    let mut moment = product([letter.into(), Symbol::Reach.into()]);
    if level {
        let back = -on_head.component(solution.layout.forward);
        let pull = product([Symbol::Haul.into(), cosine(Symbol::HaulSlope)]);
        // Forward it is the same pull with the other sign.
        paper.write("back", Symbol::Back, back, FORCE, if back < 0.0 { minus(pull) } else { pull });
        moment = sum([moment, minus(product([Symbol::Back.into(), Symbol::HeadHeight.into()]))]);
    }
    paper.write("moment", Symbol::Moment, resultant.tipping_moment, Measure::Moment, moment);
    Loads { down: letter, level }
}

/// The working guy, if one works.
fn guy(paper: &mut Worked, rig: &Rig, solution: &Solution, forces: &Forces) {
    let Some(number) = forces.working_guy.map(usize::from) else { return };
    let (Some(guy), Some(length), Some(arm), Some(force)) = (
        rig.guys.get(number),
        solution.guy_length.get(number),
        solution.guy_arm.get(number),
        forces.guys.get(number),
    ) else {
        return;
    };
    let (p, h) = (Symbol::Setback, Symbol::HeadHeight);
    paper.give(p, solution.layout.setback(guy.anchor), LENGTH);
    let level = squared(sum([p.into(), Symbol::Reach.into()]));
    paper.write("guy_length", Symbol::GuyLength, *length, LENGTH, root(sum([level, squared(h)])));
    let by = over(product([h.into(), p.into()]), Symbol::GuyLength);
    paper.write("guy_arm", Symbol::GuyArm, *arm, LENGTH, by);
    paper.write("guy", Symbol::Guy, force.tension, FORCE, over(Symbol::Moment, Symbol::GuyArm));
}

/// What presses down along the frame's plane, and one leg's share of it.
fn leg(
    paper: &mut Worked,
    solution: &Solution,
    forces: &Forces,
    loads: &Loads,
    (side, symbol, value): (Side, Symbol, f64),
) {
    let layout = &solution.layout;
    // What the legs push back with is what presses on them.
    let pushed = |toward: outlean_rig::Vector| -> f64 {
        Side::BOTH.iter().map(|s| forces.compression.on(*s) * layout.down_leg.on(*s).dot(toward)).sum()
    };
    let (d, lean) = (loads.down, Symbol::Lean);
    let mut press = vec![product([d.into(), cosine(lean)])];
    if loads.level {
        press.push(product([Symbol::Back.into(), sine(lean)]));
    }
    if forces.working_guy.is_some() {
        let along = sum([Symbol::SlantHeight.into(), product([Symbol::Setback.into(), sine(lean)])]);
        press.push(product([Symbol::Guy.into(), over(along, Symbol::GuyLength)]));
    }
    paper.write("press", Symbol::Press, pushed(-layout.up_the_frame), FORCE, sum(press));
    let half = product([
        Symbol::Press.into(),
        over(Symbol::WorkingLength, product([2.into(), Symbol::SlantHeight.into()])),
    ]);
    let toward = match side {
        Side::Left => layout.foot_line,
        Side::Right => -layout.foot_line,
    };
    let sideways = pushed(toward);
    if sideways.abs() > 1e-9 * solution.resultant.force.size() {
        paper.give(Symbol::Sideways, sideways, FORCE);
        let more = product([Symbol::Sideways.into(), over(Symbol::WorkingLength, Symbol::Spread)]);
        paper.write("leg_and_sideways", symbol, value, FORCE, sum([half, more]));
    } else {
        paper.write("leg", symbol, value, FORCE, half);
    }
}
