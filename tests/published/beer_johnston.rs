//! F. P. Beer, E. R. Johnston, *Vector Mechanics for Engineers: Statics*, chapter 2, the derrick boom guyed by two
//! cables, a worker lifting a 20 kg block by a rope over the pulley at its head. Printed: boom 1742 N, AC 1517 N,
//! AD 403 N. (The coordinates are the sign-consistent set; one transcription has D mirrored, which does not give the
//! printed answers.)

use super::{members, near};

#[test]
fn boom_two_guys_and_a_haul_line_over_the_head() {
    let (head, hauler) = ([0.0, 6.0, 0.0], [6.0, 1.5, 0.0]);
    let ends = [[-6.0, 0.0, -3.0], [-10.5, 0.0, -8.0], [-6.0, 0.0, 7.0]];
    let weight = 20.0 * 9.81;
    // y is up: the rope pulls the head down with the weight, and toward the worker with as much.
    let way = libm::sqrt(6.0 * 6.0 + 4.5 * 4.5);
    let pull = [weight * hauler[0] / way, -weight + weight * (hauler[1] - head[1]) / way, 0.0];
    let [boom, c, d] = members(head, ends, pull);
    near(boom, 1742.0, 0.5);
    near(-c, 1517.0, 0.5);
    near(-d, 403.0, 0.5);
}
