//! Columns after EN 1995-1-1. Stresses in any one unit.

use super::{Duration, Moisture};
use crate::angle::sqrt;
use core::f64::consts::PI;

/// Partial factor on solid timber (table 2.3).
pub const GAMMA_M: f64 = 1.3;
/// Partial factor on a load that comes and goes (EN 1990).
pub const GAMMA_Q: f64 = 1.5;
/// Partial factor on a weight that stays (EN 1990).
pub const GAMMA_G: f64 = 1.35;
/// Straightness factor of solid timber, β_c (6.29).
const BETA_C: f64 = 0.2;
/// Relative slenderness up to which a column does not buckle (6.3.2).
const STOCKY: f64 = 0.3;

/// Modification factor `k_mod` of solid timber (table 3.1): service class 3 for wet, 1 and 2 for dry.
#[must_use]
pub const fn modification(moisture: Moisture, duration: Duration) -> f64 {
    match (moisture, duration) {
        (Moisture::Dry, Duration::Permanent) => 0.6,
        (Moisture::Dry, Duration::Long) => 0.7,
        (Moisture::Dry, Duration::Medium) => 0.8,
        (Moisture::Dry, Duration::Short) => 0.9,
        (Moisture::Wet, Duration::Permanent) => 0.5,
        (Moisture::Wet, Duration::Long) => 0.55,
        (Moisture::Wet, Duration::Medium) => 0.65,
        (Moisture::Wet, Duration::Short) => 0.7,
    }
}

/// Design strength `k_mod` · `f_k`/γ_M (2.14).
///
/// ```
/// use outlean_rig::strength::timber::eurocode::design_strength;
/// assert!((design_strength(24.0, 0.8) - 14.769).abs() < 1e-3);
/// ```
#[must_use]
pub fn design_strength(characteristic: f64, k_mod: f64) -> f64 {
    k_mod * characteristic / GAMMA_M
}

/// Relative slenderness λ_rel = λ/π · √(`f_c,0,k/E_0.05`) (6.21), λ the length over the radius of gyration.
#[must_use]
pub fn relative_slenderness(slenderness: f64, compression: f64, stiffness: f64) -> f64 {
    slenderness / PI * sqrt(compression / stiffness)
}

/// `k` of a relative slenderness (6.27).
#[must_use]
pub fn k(relative: f64) -> f64 {
    0.5 * (1.0 + BETA_C * (relative - STOCKY) + relative * relative)
}

/// Buckling factor `k_c` of a relative slenderness (6.25): 1 up to 0.3.
#[must_use]
pub fn buckling(relative: f64) -> f64 {
    if relative <= STOCKY {
        return 1.0;
    }
    let k = k(relative);
    1.0 / (k + sqrt(k * k - relative * relative))
}
