//! An independent test of pulleys, 2016 (read): five pulls each with 0.1 kN, efficiency as √(tension lowering ÷ tension
//! raising). A pulley with a 25 mm sheave 83 %, a bare 10 mm connector 53 %.

use super::{mass_of, near, solved};
use outlean_rig::{Case, Guy, Line, Operation, Path, Point, Rig};

#[test]
fn efficiency_is_the_root_of_lowering_over_raising() {
    for efficiency in [0.83, 0.53] {
        let tension = |operation| {
            let mut rig = Rig::new(4.0, 1.2, 0.3, mass_of(100.0));
            rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
            rig.guys.push(Guy::to(Point::new(6.0, 0.0, 0.0)));
            let to = Point::new(-8.0, 0.0, 0.0);
            rig.line = Line { pulley_efficiency: efficiency, ..Line::along(Path::StraightBack { to }) };
            rig.case = Case::of(operation);
            solved(&rig).line.haul_tension
        };
        near(libm::sqrt(tension(Operation::Lowering) / tension(Operation::Raising)), efficiency, 1e-12);
        near(tension(Operation::Holding), 100.0, 1e-9);
        near(tension(Operation::Raising), 100.0 / efficiency, 1e-9);
    }
}
