//! Aghayere & Vigil, *Structural Wood Design*, 2007, example 5.7: a column of three 2x6 of Douglas fir-larch no 1,
//! 12 ft, solid and nailed (times 0.6).

use super::near;
use outlean_rig::strength::timber::nds::{SAWN, column_stability, critical_buckling};

#[test]
fn a_built_up_column() {
    // Compression 1,500 × 1.1 for its size; about the axis in which the pieces act as one they would be 4.5 in thick.
    let f_ce = critical_buckling(620e3, 12.0 * 12.0 / 4.5);
    let c_p = column_stability(f_ce / (1500.0 * 1.1), SAWN);
    near(c_p, 0.27988, 1e-4);
    near(0.6 * c_p, 0.16793, 1e-4);
}
