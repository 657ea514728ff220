//! Pose: the frame turned about its foot line, its legs a little shorter.

use crate::angle::{cos, sin, sqrt};
use crate::{Layout, Pair, Rig, Vector};

/// The frame in its reference place, and what its legs give.
#[derive(Clone, Copy)]
pub(super) struct Frame {
    pub layout: Layout,
    /// Compression of each leg in the reference place, N: there it is as long as the layout has it.
    set_push: [f64; 2],
    /// m/N: how much shorter for a newton more.
    gives: [f64; 2],
    /// Level with the foot line's plumb: the direction of the frame's plane when it stands upright.
    plumb: Vector,
    /// From the right foot along the foot line to below the head, m.
    from_right: f64,
}

/// Where the frame is.
#[derive(Clone, Copy)]
pub(super) struct Pose {
    /// Lean, rad.
    pub lean: f64,
    /// Displacement of the head from its reference place, m.
    pub moved: Vector,
    /// Foot line to head, m.
    pub slant: f64,
    /// From the foot line to the head, and square to the frame's plane, forward.
    pub up: Vector,
    pub normal: Vector,
    /// From the head to the feet, left and right, and how far.
    pub down: [Vector; 2],
    pub length: [f64; 2],
}

impl Frame {
    pub(super) fn new(layout: Layout, leg_stiffness: f64, set_push: [f64; 2]) -> Self {
        let Pair { left, right } = layout.working_length;
        let spread = layout.spread;
        Self {
            layout,
            set_push,
            gives: [left / leg_stiffness, right / leg_stiffness],
            plumb: layout.forward.cross(layout.foot_line),
            from_right: (right * right - left * left + spread * spread) / (2.0 * spread),
        }
    }

    /// m/N of each leg, left and right.
    pub(super) const fn gives(&self) -> [f64; 2] {
        self.gives
    }

    /// The pose turned forward by `turned` (rad) with so much compression in the legs (N); `None` where the legs no
    /// longer meet. The displacement is made of what changed, not of a difference of places.
    pub(super) fn pose(&self, rig: &Rig, turned: f64, push: [f64; 2]) -> Option<Pose> {
        let Layout { working_length, spread, slant_height, foot_line, forward, .. } = self.layout;
        let [shorter_left, shorter_right] = self.shorter(push);
        let grown = |length: f64, shorter: f64| shorter * (shorter - 2.0 * length);
        let (left, right) =
            (grown(working_length.left, shorter_left), grown(working_length.right, shorter_right));
        let along = (right - left) / (2.0 * spread);
        let squared = right - along * (2.0 * self.from_right + along);
        let slant = sqrt(slant_height * slant_height + squared);
        let taller = squared / (slant + slant_height);

        let middle = self.layout.lean + 0.5 * turned;
        let chord = (forward * cos(middle) - self.plumb * sin(middle)) * (2.0 * sin(0.5 * turned));
        let up = self.layout.up_the_frame + chord;
        let moved = foot_line * along + up * taller + chord * slant_height;
        let head = self.layout.head + moved;
        let length = [working_length.left - shorter_left, working_length.right - shorter_right];
        let [length_left, length_right] = length;
        let down = [(rig.feet.at.left - head) / length_left, (rig.feet.at.right - head) / length_right];
        (slant > 0.0).then(|| Pose {
            lean: self.layout.lean + turned,
            moved,
            slant,
            up,
            normal: foot_line.cross(up),
            down,
            length,
        })
    }

    fn shorter(&self, push: [f64; 2]) -> [f64; 2] {
        let ([left, right], [set_left, set_right], [gives_left, gives_right]) =
            (push, self.set_push, self.gives);
        [(left - set_left) * gives_left, (right - set_right) * gives_right]
    }

    /// The layout in a pose.
    pub(super) fn layout_in(&self, pose: &Pose) -> Layout {
        let ([left, right], [down_left, down_right]) = (pose.length, pose.down);
        Layout {
            lean: pose.lean,
            working_length: Pair::new(left, right),
            slant_height: pose.slant,
            head: self.layout.head + pose.moved,
            up_the_frame: pose.up,
            normal: pose.normal,
            down_leg: Pair::new(down_left, down_right),
            ..self.layout
        }
    }
}

impl Pose {
    /// How the head moves for a metre more of each leg, the frame's plane and the other leg staying.
    pub(super) fn by_length(&self) -> [Vector; 2] {
        let [left, right] = self.down;
        let (beside_left, beside_right) = (self.normal.cross(left), self.normal.cross(right));
        [-beside_right / beside_right.dot(left), -beside_left / beside_left.dot(right)]
    }
}
