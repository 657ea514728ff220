//! Elastic cases: guys and legs that stretch. What the core says is held against `outputs_large_displacement`, and what
//! its guys share on rigid legs against `outputs_rigid_leg_limit`. The small-displacement `outputs` are answers that no
//! user sees.

use super::computed::{Computed, Floor, Reading};
use super::input::SetUp;
use super::{Report, Trouble};
use outlean_rig::{
    Balance, Forces, GuyForce, Outcome, Pair, Role, Stretch, Stretched, Tip, shared, solve, stretched,
};
use serde_json::{Map, Value};

/// Begins the names of quantities of large displacements.
const LARGE: &str = "elastic ";
/// Begins the names of quantities of guys that share on rigid legs.
const SHARED: &str = "rigid legs ";

/// Runs an elastic case.
pub(super) fn compare(
    id: &str,
    set_up: &SetUp,
    stretch: &Stretch,
    case: &Value,
    report: &mut Report,
) -> Result<(), Trouble> {
    let outputs = |key: &str| {
        let outputs = case.get(key).and_then(Value::as_object);
        outputs.ok_or_else(|| Trouble::new(key, "nothing", "an object of readings"))
    };
    large(id, set_up, stretch, outputs("outputs_large_displacement")?, report)?;
    sharing(id, set_up, stretch, outputs("outputs_rigid_leg_limit")?, report)
}

fn refused(fault: outlean_rig::Fault) -> Trouble {
    Trouble::new("inputs", &fault.to_string(), "a rig that the core takes")
}

fn large(
    id: &str,
    set_up: &SetUp,
    stretch: &Stretch,
    outputs: &Map<String, Value>,
    report: &mut Report,
) -> Result<(), Trouble> {
    let mut solution = solve(&set_up.rig).map_err(refused)?;
    let unloaded = solution.clone();
    let back = solution.resultant.tipping_moment < 0.0;
    let falls = if back { Tip::Back } else { Tip::Forward };
    let outcome = stretched(&set_up.rig, stretch).map_err(refused)?;
    let tip = match &outcome {
        Outcome::Tips(tip) => *tip,
        _ => falls,
    };
    solution.balance = Balance::Tips(tip);
    if let Outcome::Stands(found) = &outcome {
        solution.balance = Balance::Stands(forces(set_up, found));
        solution.line = found.line;
    }
    let mut computed = Computed::of(set_up, &solution);
    match &outcome {
        Outcome::RunsAway(_) => computed.status = "unstable_no_equilibrium",
        Outcome::Stands(found) => {
            computed.status = holds(set_up, found);
            let moved = found.head - unloaded.layout.head;
            for (name, floor, reading) in [
                ("head_loaded_m", Floor::Small, Reading::List(Some(found.head.coordinates().to_vec()))),
                ("head_displacement_m", Floor::Small, Reading::List(Some(moved.to_array().to_vec()))),
                ("lean_loaded_deg", Floor::Small, Reading::Number(Some(found.lean.to_degrees()))),
                ("min_tangent_stiffness_N_per_m", Floor::Load, Reading::Number(Some(found.stiffness))),
            ] {
                computed.readings.push((name, floor, reading));
            }
        }
        Outcome::NothingHolds | Outcome::Tips(_) => {}
    }
    computed.compare(id, LARGE, outputs, report)
}

fn sharing(
    id: &str,
    set_up: &SetUp,
    stretch: &Stretch,
    outputs: &Map<String, Value>,
    report: &mut Report,
) -> Result<(), Trouble> {
    let mut solution = solve(&set_up.rig).map_err(refused)?;
    let found = shared(&set_up.rig, stretch).map_err(refused)?;
    solution.balance = found.balance;
    let mut computed = Computed::of(set_up, &solution);
    let turned = solution.forces().is_some().then_some(found.turned);
    computed.readings.push(("rotation_rad", Floor::Small, Reading::Number(turned)));
    computed.compare(id, SHARED, outputs, report)
}

/// Which guys hold, in the words of the file: those that pull hardest.
fn holds(set_up: &SetUp, found: &Stretched) -> &'static str {
    let (aft, fore) = found.tension.split_at(set_up.aft_guys.min(found.tension.len()));
    if fore.iter().sum::<f64>() > aft.iter().sum() { "ok_fore_guy_carries" } else { "ok" }
}

/// What the parts carry in the displaced frame, as the rigid solution says it.
fn forces(set_up: &SetUp, found: &Stretched) -> Forces {
    let guys = found.tension.iter().map(|&tension| GuyForce { tension, role: Role::Working }).collect();
    let leg_moment = Pair::from_fn(|side| {
        let down = *set_up.rig.feet.at.on(side) - found.head;
        set_up.rig.legs.on(side).midspan_moment(libm::hypot(down.x, down.y))
    });
    Forces { compression: found.compression, guys, working_guy: None, footing: found.footing, leg_moment }
}
