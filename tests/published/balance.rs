//! Balance lean, where the resultant passes through the foot line and the working guy changes sides. *Derived* from
//! moments about the foot line; the numbers were worked out apart.

use super::{near, solved};
use outlean_rig::{Case, Guy, Line, Operation, Path, Point, Rig, Role, balance_leans};

/// The balance lean (rad) of a weightless frame whose haul line leaves the head at `slope` rad below the horizontal, with
/// `factor` times the load's tension: tan λ = k·cos γ/(1 + k·sin γ).
fn to_slope(factor: f64, slope: f64) -> f64 {
    libm::atan2(factor * libm::cos(slope), 1.0 + factor * libm::sin(slope))
}

/// The balance lean (rad) of one of slant height `a` (m) on level ground whose haul line runs straight back to the ground `p`
/// metres behind the foot line, without friction at the head: sin λ = (√(a² + 8p²) − a)/(4p).
fn to_ground(a: f64, p: f64) -> f64 {
    libm::asin((libm::sqrt(a * a + 8.0 * p * p) - a) / (4.0 * p))
}

/// Haul line 20° below the horizontal, efficiency 0.85: 31.8° lowering, 35° holding, 38.3° raising (38.25° with all
/// digits).
#[test]
fn the_working_guy_changes_sides_within_one_lift() {
    for (operation, printed) in
        [(Operation::Lowering, 31.8), (Operation::Holding, 35.0), (Operation::Raising, 38.3)]
    {
        let slope = 20f64.to_radians();
        let formula = to_slope(operation.factor(0.85), slope);
        near(formula.to_degrees(), printed, 0.06);

        // On a frame: the haul point so far away that the line keeps its slope as the frame leans.
        let mut rig = Rig::new(4.0, 4.0 / 3.0, formula, 200.0);
        rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
        rig.guys.push(Guy::to(Point::new(6.0, 0.0, 0.0)));
        let head = solved(&rig).layout.head;
        let to = Point::new(head.x() - 900.0 * libm::cos(slope), 0.0, head.z() - 900.0 * libm::sin(slope));
        rig.case = Case::of(operation);
        rig.line = Line { pulley_efficiency: 0.85, ..Line::along(Path::StraightBack { to }) };
        let found = balance_leans(&rig).unwrap();
        assert_eq!(found.len(), 1);
        near(found[0], formula, 1e-9);
        for (beside, working) in [(-1e-4, 1), (1e-4, 0)] {
            rig.lean = formula + beside;
            let solution = solved(&rig);
            let forces = solution.forces().unwrap();
            assert_eq!(forces.guys[working].role, Role::Working);
            assert_eq!(forces.guys[1 - working].role, Role::Slack);
        }
    }
}

/// Haul point on the ground 8 m behind, slant height 3.944 m: 36.48°. Always below 45°, and there the legs carry
/// least.
#[test]
fn straight_back_to_the_ground() {
    // Legs of 4 m with feet 4/3 m apart have that slant height.
    let mut rig = Rig::new(4.0, 4.0 / 3.0, 0.3, 200.0);
    rig.line = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig.guys.push(Guy::to(Point::new(6.0, 0.0, 0.0)));
    near(solved(&rig).layout.slant_height, 3.944, 5e-4);
    let found = balance_leans(&rig).unwrap();
    assert_eq!(found.len(), 1);
    near(found[0].to_degrees(), 36.48, 0.005);
    near(found[0], to_ground(solved(&rig).layout.slant_height, 8.0), 1e-9);
    for back in [0.5, 1.0, 50.0, 900.0] {
        rig.line = Line::along(Path::StraightBack { to: Point::new(-back, 0.0, 0.0) });
        let found = balance_leans(&rig).unwrap();
        near(found[0], to_ground(solved(&rig).layout.slant_height, back), 1e-9);
        assert!(found[0].to_degrees() < 45.0);
    }
    rig.line = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
    let legs_at = |lean: f64| super::legs(&solved(&Rig { lean, ..rig.clone() })).left;
    let least = legs_at(found[0]);
    for away in [0.5, 2.0, 8.0] {
        assert!(legs_at(found[0] + f64::to_radians(away)) > least);
        assert!(legs_at(found[0] - f64::to_radians(away)) > least);
    }
}
