//! Head-block factor, the load on a block over the tension of the rope that turns over it, by the angle between the
//! rope's two parts: printed alike in three rigging tables of block makers. The tables are cut off, not rounded, in
//! places (40°: 1.87 for 1.879), hence the tolerance of 0.011.

use super::{mass_of, near, solved};
use outlean_rig::{Guy, Line, Path, Point, Rig};

#[test]
fn load_on_the_head_by_angle_between_the_parts() {
    for (angle, factor) in [
        (0.0, 2.00),
        (10.0, 1.99),
        (20.0, 1.97),
        (30.0, 1.93),
        (40.0, 1.87),
        (45.0, 1.84),
        (50.0, 1.81),
        (60.0, 1.73),
        (70.0, 1.64),
        (80.0, 1.53),
        (90.0, 1.41),
        (100.0, 1.29),
        (110.0, 1.15),
        (120.0, 1.00),
        (130.0, 0.84),
        (135.0, 0.76),
        (140.0, 0.68),
        (150.0, 0.52),
        (160.0, 0.35),
        (170.0, 0.17),
        (180.0, 0.00),
    ] {
        let mut rig = Rig::new(4.0, 1.2, 0.3, mass_of(1.0));
        rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
        rig.guys.push(Guy::to(Point::new(6.0, 0.0, 0.0)));
        // From the head, `angle` away from the load line that hangs plumb below it.
        let head = solved(&rig).layout.head;
        let angle = f64::to_radians(angle);
        let to = Point::new(head.x() - 3.0 * libm::sin(angle), head.y(), head.z() - 3.0 * libm::cos(angle));
        rig.line = Line::along(Path::StraightBack { to });
        let solution = solved(&rig);
        near(solution.line.on_head().size(), factor, 0.011);
        near(solution.line.on_head().size(), 2.0 * libm::cos(angle / 2.0), 1e-12);
        // The pull lies along the bisector of the two parts.
        let pull = solution.line.on_head();
        near(pull.x() * libm::cos(angle / 2.0), pull.z() * libm::sin(angle / 2.0), 1e-12);
    }
}
