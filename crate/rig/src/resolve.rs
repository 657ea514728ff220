//! The kernel: a force resolved along three directions.

use crate::{Force, Vector};

/// The three numbers by which `directions` must be multiplied so that together they make `force`.
///
/// With unit vectors these are the forces in three concurrent members: resolve the load along the
/// directions from the joint along the members, and a positive number is a member that pushes on the joint
/// (compression), a negative one a member that pulls. Solved by dual vectors (Cramer's rule), which is
/// exact but for rounding for three directions well apart.
///
/// `None` where the directions lie in one plane, within rounding, and where any number is not finite.
///
/// ```
/// use outlean_rig::{Force, Vector, resolve};
/// let members = [Vector::X, Vector::Y, Vector::Z];
/// assert_eq!(resolve(members, Force::new(1.0, 2.0, -3.0)), Some([1.0, 2.0, -3.0]));
/// assert_eq!(resolve([Vector::X, Vector::Y, Vector::X], Force::new(1.0, 2.0, 3.0)), None);
/// ```
#[must_use]
pub fn resolve(directions: [Vector; 3], force: Force) -> Option<[f64; 3]> {
    let [a, b, c] = directions;
    let volume = a.dot(b.cross(c));
    let flat = 1e-12 * a.length() * b.length() * c.length();
    if volume.is_nan() || volume.abs() <= flat {
        return None;
    }
    let parts = [
        force.component(b.cross(c)) / volume,
        force.component(c.cross(a)) / volume,
        force.component(a.cross(b)) / volume,
    ];
    parts.iter().all(|part| part.is_finite()).then_some(parts)
}

/// `force` resolved along two directions in a plane of the given normal; what of it is square to the plane is
/// left out. The caller knows that the directions are apart.
pub(crate) fn resolve_in_plane(directions: [Vector; 2], normal: Vector, force: Force) -> [f64; 2] {
    let [a, b] = directions;
    let (beside_a, beside_b) = (normal.cross(a), normal.cross(b));
    [force.component(beside_b) / a.dot(beside_b), force.component(beside_a) / b.dot(beside_a)]
}
