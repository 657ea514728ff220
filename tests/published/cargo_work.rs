//! Kemp & Young, *Notes on Cargo Work*, p. 4, and Glerum (second hand): a tackle of n parts over s sheaves, each of which
//! costs a tenth of the load, is pulled with W·(1 + s/10)/n. *Derived* for 1,000: 1100, 600, 433.33, 350, 300, 266.67.

use super::near;
use outlean_rig::{Line, Operation, Path, Point};

/// A line hung as a tackle of so many parts, as many sheaves, each of which passes on 10/11 of what it gets: one costs a
/// tenth of what goes on.
fn pull(parts: u8, operation: Operation) -> f64 {
    let path = Path::TackleAtHead { parts, to: Point::new(-8.0, 0.0, 0.0) };
    1000.0 * Line { pulley_efficiency: 1.0 / 1.1, ..Line::along(path) }.haul_factor(operation)
}

/// The rule lets every sheave cost a tenth of all that hangs there; in a tackle each carries its own part of it. At one
/// sheave they are the same, at more the rule asks for more, and for less than a fifth more.
#[test]
fn a_tenth_for_every_sheave() {
    near(pull(1, Operation::Raising), 1100.0, 1e-9);
    for (parts, printed) in [(2, 600.0), (3, 433.33), (4, 350.0), (5, 300.0), (6, 266.67)] {
        let n = f64::from(parts);
        near(pull(parts, Operation::Holding), 1000.0 / n, 1e-9);
        let raising = pull(parts, Operation::Raising);
        assert!(raising < printed && raising > printed / 1.2, "{parts}: {raising} for {printed}");
        // Half of what the rule adds is what a mean sheave costs.
        near(raising, 1000.0 * (1.0 + 0.05 * (n + 1.0)) / n, 0.03 * raising);
    }
}
