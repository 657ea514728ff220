//! The stiffness of the head, by pushing it a little.

use super::{alike, hung, standing};
use outlean_rig::{LeanIs, Rig, Stretch, Vector};

/// Force of the load on the head, N, and where that then stands.
fn pushed(rig: &Rig, stretch: &Stretch, side: f64, outward: f64, more: f64) -> (Vector, Vector) {
    let mut rig = rig.clone();
    (rig.load.side_angle, rig.load.outward_angle) = (side, outward);
    rig.load.mass *= 1.0 + more;
    let found = standing(&rig, stretch);
    (Vector::from_array(found.line.load.components()), found.head - outlean_rig::Point::ORIGIN)
}

/// What three small pushes in different directions make of the head gives its flexibility whole; of that the greatest
/// eigenvalue is one over the least stiffness, on stiff legs as on ones that give as much as the guys.
#[test]
fn it_gives_most_the_way_its_least_stiffness_says() {
    const SMALL: f64 = 1e-5;
    for (lean, leg_stiffness) in [(0.25, 1e10), (0.25, 1e5), (0.4, 2e5), (0.35, 1e6)] {
        let mut rig = hung(lean, 150.0);
        rig.legs.left.weight_per_metre = 40.0;
        rig.legs.right.weight_per_metre = 40.0;
        let stretch = Stretch { leg_stiffness, ..alike(&rig, 80_000.0, LeanIs::SetBefore) };
        let two_sided = |side: f64, outward: f64, more: f64| {
            let (force, at) = pushed(&rig, &stretch, side, outward, more);
            let (less, back) = pushed(&rig, &stretch, -side, -outward, -more);
            (force - less, at - back)
        };
        let pushes = [two_sided(SMALL, 0.0, 0.0), two_sided(0.0, SMALL, 0.0), two_sided(0.0, 0.0, SMALL)];
        let [a, b, c] = pushes.map(|(force, _)| force);
        let volume = a.cross(b).dot(c);
        let by = [b.cross(c), c.cross(a), a.cross(b)].map(|by| by / volume);
        let gives = |force: Vector| -> Vector {
            by.iter().zip(&pushes).map(|(by, (_, moved))| *moved * by.dot(force)).sum()
        };
        let mut way = Vector::X;
        for _ in 0..500 {
            way = gives(way).normalize();
        }
        let wanted = 1.0 / gives(way).length();
        let found = standing(&rig, &stretch).stiffness;
        assert!((found / wanted - 1.0).abs() < 1e-4, "{lean} {leg_stiffness}: {found} for {wanted}");
    }
}
