//! What a rig is past at its own lean, in any of its cases, and what was left out.

use super::Solved;
use outlean_rig::{Fault, Governing, Rig, governing, limits_at};

/// Every limit that `rig` is past at its own lean, what governs there first, each once. Empty exactly if what
/// governs holds.
pub(super) fn past(rig: &Rig) -> Result<Vec<Governing>, Fault> {
    let first = governing(rig, rig.lean)?;
    if first.holds() {
        return Ok(Vec::new());
    }
    let others = limits_at(rig, rig.lean)?;
    let others = others.into_iter().filter(|other| !other.holds() && other.limit != first.limit);
    Ok(core::iter::once(first).chain(others).collect())
}

/// What no number here speaks of, by name.
pub(super) fn left_out(solved: &Solved<'_>) -> impl Iterator<Item = &'static str> {
    let bears = solved.solution.lines().any(|line| line.bears_on_edge);
    let main_lost = !solved.file.rig.main_lost_is_assessed();
    [("stretch", solved.giving.is_none()), ("edge_friction", bears), ("main_lost", main_lost)]
        .into_iter()
        .filter_map(|(name, is)| is.then_some(name))
}
