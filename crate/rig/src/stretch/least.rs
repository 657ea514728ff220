//! Least stiffness: what guys must at least have for a lean to stand under load.

use super::node::{Node, State, Tangent};
use super::{LeanIs, Stretch};
use crate::stiffness::stiffness;
use crate::{Fault, Rig};
use glam::DMat3;

/// The share of its ropes' stiffness that a rig must at least have so as not to run away from its lean under load, whatever
/// `stretch` says its lean is of: 0.5 where ropes half as stiff would just do, above 1 where they are too soft. Zero
/// where its load does not loosen it; `None` where it does not stand there even on guys that do not stretch, or on
/// none that works.
///
/// Of a frame on one rope to the ground, its load hung, it is W·L·a²/(h·arm²·EA): W the load, L the guy's length, a and h
/// slant height and height of the head. Exact where the legs give little beside the ropes.
///
/// # Errors
///
/// As [`super::stretched`].
pub fn least_share(rig: &Rig, stretch: &Stretch) -> Result<Option<f64>, Fault> {
    stretch.check(rig)?;
    let loaded = Stretch { lean_is: LeanIs::UnderLoad, ..stretch.clone() };
    let Ok(node) = Node::of(rig, &loaded)? else { return Ok(None) };
    let Some(state) = node.held(0.0, 1.0, &node.reference, 0.0) else { return Ok(None) };
    let multiple = node.firm_up_to(&state);
    Ok((multiple > 0.0).then_some(1.0 / multiple))
}

impl Node<'_> {
    /// Multiple of the load up to which the frame would be firm in a loaded state, its tensions growing with the
    /// load; infinite where its load does not loosen it.
    pub(super) fn firm_up_to(&self, state: &State) -> f64 {
        let multiple = |way: f64| {
            let tangent = self.tangent(state.turned, state.multiple, state.push, way)?;
            let (elastic, firm) = (self.elastic(&tangent), tangent.firmness());
            Some(if firm < elastic { elastic / (elastic - firm) } else { f64::INFINITY })
        };
        let either = |way| multiple(way).unwrap_or(0.0);
        match self.way(state) {
            0.0 => either(1.0).min(either(-1.0)),
            way => either(way),
        }
    }

    /// The part of the firmness in a pose that comes of the guys stretching: under load all that act are taut.
    fn elastic(&self, tangent: &Tangent) -> f64 {
        let mut elastic = DMat3::ZERO;
        for (_, guy) in &self.guys {
            let pull = guy.pull(tangent.pose.moved);
            elastic += stiffness(pull.way, guy.by_rope(pull.length), 0.0);
        }
        tangent.forward(elastic * tangent.pose.normal)
    }
}
