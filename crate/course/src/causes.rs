//! The answer split by what causes it: shown right after the number itself.

use outlean_rig::{Fault, Line, Pair, Quantity, Rig, solve};

/// What a share of an answer comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Cause {
    /// The load hung at the head, and the guy that holds it.
    Load,
    /// The legs' own weight.
    LegWeight,
    /// The pull of the haul line on the head, and what it changes at the guy. Negative where it takes off.
    HaulLine,
    /// Everything together, where it cannot be split: with less on its head the frame would tip.
    All,
}

/// One share of an answer.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Share {
    /// What it comes from.
    pub cause: Cause,
    /// How much of the answer it is, SI, signed. The shares sum to the answer.
    pub value: f64,
}

/// What of `ask` on `rig` comes from what, in the order load, legs' own weight, haul line; causes that are not
/// there are left out. Found by taking them off the rig one after another: first the haul line, then the
/// weight of the legs. Empty where the frame tips.
///
/// # Errors
///
/// As [`outlean_rig::solve`].
pub fn causes(rig: &Rig, ask: Quantity) -> Result<Vec<Share>, Fault> {
    let of = |rig: &Rig| -> Result<Option<f64>, Fault> { Ok(ask.of(&solve(rig)?)) };
    let Some(answer) = of(rig)? else { return Ok(Vec::new()) };
    let hung = Rig { line: Line::hung(), ..rig.clone() };
    let mut light = hung.clone();
    for side in outlean_rig::Side::BOTH {
        light.legs.on_mut(side).weight_per_metre = 0.0;
    }
    let (Some(with_weight), Some(without)) = (of(&hung)?, of(&light)?) else {
        return Ok(vec![Share { cause: Cause::All, value: answer }]);
    };
    let mut parts = vec![Share { cause: Cause::Load, value: without }];
    let Pair { left, right } = rig.legs;
    if left.weight_per_metre + right.weight_per_metre > 0.0 {
        parts.push(Share { cause: Cause::LegWeight, value: with_weight - without });
    }
    if rig.line.path.haul_point().is_some() {
        parts.push(Share { cause: Cause::HaulLine, value: answer - with_weight });
    }
    Ok(parts)
}
