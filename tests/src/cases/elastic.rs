//! Elastic cases: guys and legs that stretch, large displacements. What the core says is held against
//! `outputs_large_displacement`; the small-displacement `outputs` are answers that no user sees.

use super::computed::numbers;
use super::input::SetUp;
use super::report::ELASTIC;
use super::{Report, TOLERANCE, Trouble};
use outlean_rig::{Outcome, Solution, Stretch, Stretched, Vector, stretched};
use serde_json::{Map, Value};

/// Runs an elastic case; `unloaded` is the rigid solution on the geometry as set.
pub(super) fn compare(
    id: &str,
    set_up: &SetUp,
    stretch: &Stretch,
    unloaded: &Solution,
    outputs: &Map<String, Value>,
    report: &mut Report,
) -> Result<(), Trouble> {
    let outcome = stretched(&set_up.rig, stretch)
        .map_err(|fault| Trouble::new("inputs", &fault.to_string(), "a rig that the core takes"))?;
    let found = match &outcome {
        Outcome::Stands(found) => found,
        Outcome::RunsAway(_) => return status(id, outputs, "unstable_no_equilibrium", report),
        Outcome::NothingHolds => {
            let back = unloaded.resultant.tipping_moment < 0.0;
            return status(id, outputs, if back { "topples_back" } else { "topples_forward" }, report);
        }
    };
    let (aft, fore) = found.tension.split_at(set_up.aft_guys.min(found.tension.len()));
    let fore = fore.first().copied().unwrap_or(0.0);
    let holds = if fore > aft.iter().sum() { "ok_fore_guy_carries" } else { "ok" };
    status(id, outputs, holds, report)?;
    for (key, wanted) in outputs {
        let Some((found, many, least)) = reading(key, set_up, found, unloaded, aft, fore) else { continue };
        let name = format!("{ELASTIC}{key}");
        match numbers(key, wanted, many)? {
            Some(wanted) if wanted.len() == found.len() => {
                for (wanted, found) in wanted.into_iter().zip(found) {
                    let difference = (found - wanted).abs() / wanted.abs().max(least);
                    report.difference(id, &name, wanted, found, difference, TOLERANCE);
                }
            }
            wanted => report.mismatch(id, &name, &format!("{wanted:?}"), &format!("{found:?}")),
        }
    }
    Ok(())
}

/// A reading under its name in the file: its numbers, whether the file has a list there, and below which size it is
/// compared absolutely.
fn reading(
    key: &str,
    set_up: &SetUp,
    found: &Stretched,
    unloaded: &Solution,
    aft: &[f64],
    fore: f64,
) -> Option<(Vec<f64>, bool, f64)> {
    let load = (1e-3 * set_up.load).max(1e-3);
    let moved: Vector = found.head - unloaded.layout.head;
    Some(match key {
        "leg_left_compression_N" => (vec![found.compression.left], false, load),
        "leg_right_compression_N" => (vec![found.compression.right], false, load),
        "aft_guy_tension_N" => (aft.to_vec(), true, load),
        "fore_guy_tension_N" => (vec![fore], false, load),
        "head_loaded_m" => (found.head.coordinates().to_vec(), true, 1e-3),
        "head_displacement_m" => (moved.to_array().to_vec(), true, 1e-3),
        "lean_loaded_deg" => (vec![found.lean.to_degrees()], false, 1e-3),
        _ => return None,
    })
}

fn status(id: &str, outputs: &Map<String, Value>, found: &str, report: &mut Report) -> Result<(), Trouble> {
    let value = outputs.get("status");
    match value.and_then(Value::as_str) {
        Some(status) if status == found => report.agree(&format!("{ELASTIC}status")),
        Some(status) => report.mismatch(id, &format!("{ELASTIC}status"), status, found),
        None => return Err(Trouble::at("outputs_large_displacement.status", value, "a word")),
    }
    Ok(())
}
