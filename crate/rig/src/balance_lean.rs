//! Balance lean: where the frame's plane lies on the resultant and the working guy changes sides.

use crate::{Fault, Quantity, Rig, leans_where};
use arrayvec::ArrayVec;

/// The balance leans (rad) of a rig as it is, weight of the legs, sling and all, in its present operation:
/// where the loads have no moment about the foot line. Usually one; none where they always pull one way.
///
/// # Errors
///
/// As [`crate::solve`].
pub fn balance_leans(rig: &Rig) -> Result<ArrayVec<f64, 8>, Fault> {
    leans_where(rig, Quantity::TippingMoment, 0.0)
}
