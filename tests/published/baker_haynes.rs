//! D. Baker, W. Haynes, *Engineering Statics: Open and Interactive* (CC BY-NC-SA), chapter on equilibrium of
//! particles: the tethered balloon, the camera on cables, the cargo boom, the guyed pole.

use super::{members, near};
use outlean_rig::{Force, Vector, resolve};

fn along(degrees: f64) -> (f64, f64) {
    (libm::sin(degrees.to_radians()), libm::cos(degrees.to_radians()))
}

/// Cables from (0, 30, 0) to (−20, 0, 0), (30, 0, 20), (0, 0, −20) ft, 900 lb up, y up. Printed: 464, 402, 309 lb.
/// (The figure's description gives B with z = −20; only +20, used in the book's own solution, balances.)
#[test]
fn tethered_balloon() {
    let ends = [[-20.0, 0.0, 0.0], [30.0, 0.0, 20.0], [0.0, 0.0, -20.0]];
    let [a, b, c] = members([0.0, 30.0, 0.0], ends, [0.0, 900.0, 0.0]);
    near(-a, 464.0, 0.5);
    near(-b, 402.0, 0.5);
    near(-c, 309.0, 0.5);
}

/// Cables along (cos 35°, cos 55°, 0), (−cos 15° cos 30°, cos 75°, −cos 15° cos 60°), (0, cos 70°, cos 20°); 196.2 N.
/// Printed: 196.4, 192.2, 98.5 N; with all digits 196.365, 192.289, 98.829.
#[test]
fn camera_on_cables() {
    let cosine = |degrees: f64| along(degrees).1;
    let cables = [
        Vector::new(cosine(35.0), cosine(55.0), 0.0),
        Vector::new(-cosine(15.0) * cosine(30.0), cosine(75.0), -cosine(15.0) * cosine(60.0)),
        Vector::new(0.0, cosine(70.0), cosine(20.0)),
    ];
    let [a, b, c] = resolve(cables, Force::new(0.0, -196.2, 0.0)).unwrap();
    for (found, printed, exact) in [(-a, 196.4, 196.365), (-b, 192.2, 192.289), (-c, 98.5, 98.829)] {
        near(found, printed, 0.4);
        near(found, exact, 0.001);
    }
}

/// 24 kN at the head of a boom 40° from the vertical, held by a topping lift that rises 1 in 4 to the mast. Printed:
/// lift 17.16 kN, boom 25.9 kN. In a plane: the third direction is square to it and takes nothing.
#[test]
fn cargo_boom() {
    let (sine, cosine) = along(40.0);
    let directions = [Vector::new(-sine, 0.0, -cosine), Vector::new(-4.0, 0.0, 1.0).normalize(), Vector::Y];
    let [boom, lift, square] = resolve(directions, Force::new(0.0, 0.0, -24.0)).unwrap();
    near(boom, 25.9, 0.05);
    near(-lift, 17.16, 0.05);
    near(square, 0.0, 1e-12);
}

/// Three lines of 10 kN each way from a pole, turned through an angle of 152° between them, a guy 38° from the
/// pole. Printed: guy 23.6 kN, its level part 14.5 kN.
#[test]
fn guyed_pole() {
    let (sine, cosine) = along(76.0);
    let lines = Force::new(30.0 * cosine, 30.0 * sine, 0.0) + Force::new(30.0 * cosine, -30.0 * sine, 0.0);
    let (sine, cosine) = along(38.0);
    let directions = [Vector::new(-sine, 0.0, -cosine), -Vector::Z, Vector::Y];
    let [guy, pole, square] = resolve(directions, lines).unwrap();
    near(-guy, 23.6, 0.05);
    near(-guy * sine, 14.515, 0.005);
    near(pole, -guy * cosine, 1e-12);
    near(square, 0.0, 1e-12);
}
