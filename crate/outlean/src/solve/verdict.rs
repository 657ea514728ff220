//! What a rig is past at its own lean, lowering, holding or raising.

use outlean_rig::{Governing, Limit, Operation, Rig, Side, checks, solve};
use serde::Serialize;

/// A limit that is passed, and what the main line is doing then.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub(super) struct Past {
    pub limit: Limit,
    pub operation: Operation,
}

/// Every limit that `rig` is past at its own lean, what governs there first, each once. Empty exactly if what
/// governs holds.
pub(super) fn past(rig: &Rig, governing: Governing) -> Vec<Past> {
    let mut all: Vec<Past> = Vec::new();
    let mut found = |limit, operation| {
        if all.iter().all(|past| past.limit != limit) {
            all.push(Past { limit, operation });
        }
    };
    if governing.holds() {
        return Vec::new();
    }
    found(governing.limit, governing.operation);
    for &operation in rig.line.operations() {
        let mut rig = rig.clone();
        rig.line.operation = operation;
        let Ok(solution) = solve(&rig) else {
            found(Limit::NoGeometry, operation);
            continue;
        };
        if let Some(tip) = solution.tips() {
            found(Limit::Tips(tip), operation);
        }
        for check in checks(&rig, &solution) {
            if check.ratio.is_some_and(|ratio| ratio > 1.0) {
                found(Limit::Part(check.part), operation);
            }
        }
        if let (Some(forces), false, Some(friction)) = (solution.forces(), rig.feet.pinned, rig.feet.friction)
        {
            for side in Side::BOTH {
                let needed = forces.footing.feet.on(side).friction_needed;
                if needed.is_none_or(|needed| needed > friction) {
                    found(Limit::FootSlides(side), operation);
                }
            }
        }
        if rig.limits.upright_stop.is_some_and(|stop| rig.lean < stop) {
            found(Limit::UprightStop, operation);
        }
    }
    all
}
