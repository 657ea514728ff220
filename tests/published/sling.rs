//! The pulley hangs from its sling along the pull of both parts of the line, so that with the haul straight back the
//! load is not plumb under the head. *Derived*: legs of 4 m with feet 4/3 m apart at 18°, a 0.3 m sling, the haul
//! line to the ground 8 m behind: the load hangs 1.05 m out, the head 1.22 m.

use super::{near, solved};
use outlean_rig::{Line, Path, Point, Rig};

#[test]
fn the_load_is_not_plumb_under_the_head() {
    let mut rig = Rig::new(4.0, 4.0 / 3.0, 18f64.to_radians(), 100.0);
    rig.line = Line { sling: 0.3, ..Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) }) };
    let solution = solved(&rig);
    near(solution.line.pulley.x(), 1.05, 0.005);
    near(solution.layout.head.x(), 1.22, 0.005);
    near((solution.line.pulley - solution.layout.head).length(), 0.3, 1e-12);

    // A load that only hangs is plumb under the head.
    rig.line = Line { sling: 0.3, ..Line::hung() };
    let hung = solved(&rig);
    near(hung.line.pulley.x(), hung.layout.head.x(), 1e-15);
}
