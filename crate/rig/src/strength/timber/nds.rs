//! Columns and beam-columns after the National Design Specification for Wood Construction, 2018. Stresses in any one
//! unit; every formula is homogeneous in them.

use super::{Duration, Moisture};
use crate::angle::sqrt;

/// The greatest slenderness `l_e/d` for which the column formula holds (3.7.1.4).
pub const MOST_SLENDER: f64 = 50.0;
/// `c` of sawn lumber in [`column_stability`] (3.7.1.5).
pub const SAWN: f64 = 0.8;
/// `c` of round poles.
pub const ROUND: f64 = 0.85;

/// Critical buckling value `F_cE` = 0.822 `E_min`′/(`l_e/d`)² (3.7.1.5).
#[must_use]
pub fn critical_buckling(e_min: f64, slenderness: f64) -> f64 {
    0.822 * e_min / (slenderness * slenderness)
}

/// Column stability factor `C_P` of `F_cE/F_c*` (3.7-1): 0 for a column without stiffness, toward 1 for a stocky one.
///
/// ```
/// // A 4x4 of spruce-pine-fir, 7.3 ft long.
/// let c_p = outlean_rig::strength::timber::nds::column_stability(669.22 / 1322.5, 0.8);
/// assert!((c_p - 0.43783).abs() < 1e-4);
/// ```
#[must_use]
pub fn column_stability(ratio: f64, c: f64) -> f64 {
    let half = (1.0 + ratio) / (2.0 * c);
    // Of the two ends of the quadratic the lesser, without a difference of nearly equal numbers.
    ratio / c / (half + sqrt((half * half - ratio / c).max(0.0)))
}

/// A column that bends about one axis: what grows with its compression and what does not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    /// Adjusted compression value `F_c`′.
    pub fc_prime: f64,
    /// Adjusted bending value `F_b`′.
    pub fb_prime: f64,
    /// Critical buckling value in the plane of bending, `F_cE`.
    pub f_ce: f64,
    /// Bending stress that is there whatever the compression.
    pub f_b: f64,
    /// Bending stress of a crook over the compression stress that makes it.
    pub crook: f64,
    /// Bending stress of a load off the axis over the compression stress, 6e/d of a rectangle.
    pub eccentric: f64,
}

impl Column {
    /// Compression, bending and a load off the axis together, about one axis (15.4-1), under a compression stress:
    /// at most 1 is allowed.
    ///
    /// (`f_c/F_c`′)² + (`f_b` + `f_c`·crook + `f_c`·eccentric·(1 + 0.234 `f_c/F_cE`))/(`F_b`′(1 − `f_c/F_cE`))
    ///
    /// The crook grows as a bow does, the eccentricity as one that is the same at both ends: at a leg, whose foot is
    /// pinned, that is on the safe side. Infinite at and past `F_cE`.
    #[must_use]
    pub fn interaction(&self, f_c: f64) -> f64 {
        let room = 1.0 - f_c / self.f_ce;
        if room <= 0.0 {
            return f64::INFINITY;
        }
        let axial = f_c / self.fc_prime;
        axial * axial + self.bending(f_c) / (self.fb_prime * room)
    }

    fn bending(&self, f_c: f64) -> f64 {
        self.f_b + f_c * (self.crook + self.eccentric * (1.0 + 0.234 * f_c / self.f_ce))
    }

    /// The compression stress at which [`Column::interaction`] is 1; 0 where the bending alone is past it.
    #[must_use]
    pub fn greatest_compression(&self) -> f64 {
        // The interaction less 1, times what it is divided by: a cubic without poles, below 0 at nothing and not
        // below it at F_c′, which is at most F_cE.
        let Self { fc_prime, fb_prime, f_ce, f_b, crook, eccentric } = *self;
        let square = fb_prime / (fc_prime * fc_prime);
        let a0 = f_b - fb_prime;
        let a1 = fb_prime / f_ce + crook + eccentric;
        let a2 = square + 0.234 * eccentric / f_ce;
        let a3 = -square / f_ce;
        if a0 >= 0.0 {
            return 0.0;
        }
        let (mut low, mut high) = (0.0, fc_prime);
        // Newton's steps, halving instead where one would leave what is left between the bounds.
        let mut f_c = (-a0 / a1).min(high);
        for _ in 0..60 {
            let value = a0 + f_c * (a1 + f_c * (a2 + f_c * a3));
            if value > 0.0 {
                high = f_c;
            } else {
                low = f_c;
            }
            let next = f_c - value / (a1 + f_c * (2.0 * a2 + f_c * 3.0 * a3));
            let next = if next >= low && next <= high { next } else { 0.5 * (low + high) };
            if (next - f_c).abs() <= 1e-13 * fc_prime {
                return next;
            }
            f_c = next;
        }
        f_c
    }
}

/// Load duration factor `C_D` (2.3.2), of those offered.
#[must_use]
pub const fn load_duration(duration: Duration) -> f64 {
    match duration {
        Duration::Permanent => 0.9,
        Duration::Long => 1.0,
        Duration::Medium => 1.15,
        Duration::Short => 1.25,
    }
}

/// Size factors `C_F` on compression and bending of dimension lumber (supplement, table 4A) of that depth, m. A 4 in
/// piece is 3.5 in dry and 3.5625 in green; the steps lie between the dressed sizes. A 5 in piece is taken as one of
/// 6 in, and one deeper than 8 in is not given more than 1.
#[must_use]
pub fn size_factors(thickness: f64, depth: f64) -> (f64, f64) {
    let (thick, wide) = (thickness / 0.0254 > 3.0, depth / 0.0254);
    match wide {
        w if w < 4.0 => (1.15, 1.5),
        w if w < 6.0 => (1.1, 1.3),
        w if w < 8.0 => (1.05, if thick { 1.3 } else { 1.2 }),
        w if w < 12.0 => (1.0, 1.0),
        _ => (0.9, 0.9),
    }
}

/// Wet service factors `C_M` on compression, bending and modulus (supplement, table 4A). `compression` and `bending`
/// are the values times their size factors, Pa: low ones are not reduced. Used for every grade; on posts and timbers
/// they reduce more than their own.
#[must_use]
pub fn wet_service(moisture: Moisture, compression: f64, bending: f64) -> [f64; 3] {
    /// 750 and 1,150 psi.
    const LOW: [f64; 2] = [5.171_068e6, 7.928_971e6];
    if matches!(moisture, Moisture::Dry) {
        return [1.0; 3];
    }
    let [low_compression, low_bending] = LOW;
    [
        if compression <= low_compression { 1.0 } else { 0.8 },
        if bending <= low_bending { 1.0 } else { 0.85 },
        0.9,
    ]
}
