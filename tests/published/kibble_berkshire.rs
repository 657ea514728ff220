//! T. W. B. Kibble, F. H. Berkshire, *Classical Mechanics*, 5th ed., the tripod problem: two front legs of 1.4 m with
//! feet 0.8 m apart, a rear leg of 1.5 m with its foot 1.5 m behind the middle of theirs, 2 kg, g = 10.
//! Printed: 1.2 m high; 7, 7 and 10 N.

use super::{members, near};
use outlean_rig::{Layout, Lean, Rig};

#[test]
fn two_front_legs_and_a_back_leg() {
    let ends = [[0.6, 0.4, 0.0], [0.6, -0.4, 0.0], [-0.9, 0.0, 0.0]];
    let [left, right, rear] = members([0.0, 0.0, 1.2], ends, [0.0, 0.0, -20.0]);
    near(left, 7.0, 1e-9);
    near(right, 7.0, 1e-9);
    near(rear, 10.0, 1e-9);
}

/// The front legs as a frame leaning 0.6 m back: its head is where the rear leg reaches it.
#[test]
fn the_front_legs_as_a_frame() {
    let slant = Layout::of(&Rig::new(1.4, 0.8, 0.0, 0.0), 0.0).unwrap().slant_height;
    let lean = Lean::Reach(-0.6).from_vertical(slant);
    let layout = Layout::of(&Rig::new(1.4, 0.8, lean, 0.0), lean).unwrap();
    near(layout.head_height(), 1.2, 1e-12);
    near(libm::hypot(1.5 + layout.reach(), layout.head_height()), 1.5, 1e-12);
}
