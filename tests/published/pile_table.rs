//! AF&PA, *ASD Manual*, 2001, table of round timber piles: what a pile carries without buckling at a load duration
//! factor of 1.15, by the circumference of its tip. Kips, inches.

use super::near;
use outlean_rig::strength::timber::Section;

#[test]
fn a_pile_carries_its_area_times_its_value() {
    for (compression, kips) in [
        // Pacific coast Douglas fir, southern pine, red pine.
        (1250.0, [29.28, 41.30, 55.37, 71.50, 89.68, 109.93]),
        (1200.0, [28.11, 39.64, 53.15, 68.64, 86.10, 105.53]),
        (900.0, [21.08, 29.73, 39.86, 51.48, 64.57, 79.15]),
    ] {
        for (circumference, printed) in [16.0, 19.0, 22.0, 25.0, 28.0, 31.0].into_iter().zip(kips) {
            let area = Section::Round(circumference / core::f64::consts::PI).area();
            near(compression * 1.15 * area / 1000.0, printed, 0.006);
        }
    }
}
