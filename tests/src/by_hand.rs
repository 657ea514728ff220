//! Closed forms worked out by hand for plain frames, which the core, made for any, is held against.

/// The least axial stiffness EA (N) of the rope of an aft guy on which a frame, leaning under load with its load hung, does
/// not run away: W·L·a²/(h·arm²), from the tangent stiffness of a rigid frame on one rope, its anchor on the ground and no
/// moment from a haul line.
///
/// `load` N, `guy_length` and its `arm` about the foot line in m, `slant_height` a, `head_height` h in m. A model
/// result: linear rope, rigid legs and anchor.
#[must_use]
pub fn least_stiffness(load: f64, guy_length: f64, arm: f64, slant_height: f64, head_height: f64) -> f64 {
    load * guy_length * slant_height * slant_height / (head_height * arm * arm)
}
