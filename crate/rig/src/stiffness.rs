//! Stiffness: how a force on a point falls off as the point moves.

use crate::Vector;
use glam::DMat3;

/// `along` of stiffness along a unit vector and `across` square to it.
pub(crate) fn stiffness(way: Vector, along: f64, across: f64) -> DMat3 {
    outer(way, way) * (along - across) + DMat3::from_diagonal(Vector::splat(across))
}

/// The matrix that takes a vector to `to`, as many times as it has of the unit vector `of`.
pub(crate) fn outer(to: Vector, of: Vector) -> DMat3 {
    DMat3::from_cols(to * of.x, to * of.y, to * of.z)
}
