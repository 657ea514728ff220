//! People: limbs as round strokes in one flat tone, a helmet set off by a gap of paper. No faces.

use super::local::{Local, Place, table};
use super::vec2::P;
use crate::{Path, Role, Scene};

/// How someone is placed; joints in metres from the heels, x the way they face, y up. 1.75 m tall.
pub(crate) struct Pose {
    /// Shoulder to hand, twice.
    pub arms: [[Place; 3]; 2],
    /// Hip to toe, twice.
    pub legs: [[Place; 4]; 2],
    /// Shoulder and hip.
    pub trunk: [Place; 2],
    /// Neck and the middle of the head.
    pub neck: [Place; 2],
}

/// Standing with a line in hand, watching the head.
pub(crate) static STANDING: Pose = Pose {
    arms: [
        table([(0.02, 1.35), (0.05, 1.09), (0.28, 1.17)]),
        table([(-0.03, 1.35), (-0.11, 1.09), (-0.04, 0.87)]),
    ],
    legs: [
        table([(-0.04, 0.9), (-0.07, 0.48), (-0.14, 0.06), (0.0, 0.035)]),
        table([(0.03, 0.9), (0.09, 0.49), (0.08, 0.06), (0.22, 0.035)]),
    ],
    trunk: table([(0.0, 1.36), (-0.02, 0.93)]),
    neck: table([(0.015, 1.45), (0.045, 1.6)]),
};

/// In a harness beside a litter, feet toward the face, hands on the rail. Measured from the rail's height.
pub(crate) static HANGING: Pose = Pose {
    arms: [
        table([(-0.2, 0.32), (-0.02, 0.12), (0.2, 0.04)]),
        table([(-0.2, 0.3), (0.02, 0.17), (0.22, 0.05)]),
    ],
    legs: [
        table([(-0.12, -0.12), (0.26, -0.3), (0.5, -0.62), (0.62, -0.58)]),
        table([(-0.1, -0.14), (0.24, -0.42), (0.46, -0.78), (0.58, -0.76)]),
    ],
    trunk: table([(-0.22, 0.33), (-0.12, -0.12)]),
    neck: table([(-0.26, 0.42), (-0.3, 0.56)]),
};

/// Draws someone with their heels at `at`, facing right (`facing` 1) or left (−1), `scale` px to a metre.
pub(crate) fn person(scene: &mut Scene, at: P, pose: &Pose, facing: f64, scale: f64) {
    let local = Local { along: (facing, 0.0), ..Local::upright(at, scale) };
    let [arm, other_arm] = &pose.arms;
    let [leg, other_leg] = &pose.legs;
    let limbs: [(&[Place], f64); 6] = [
        (arm, 0.085),
        (other_arm, 0.085),
        (leg, 0.125),
        (other_leg, 0.125),
        (&pose.trunk, 0.25),
        (&pose.neck, 0.1),
    ];
    let mut head = at;
    for (joints, width) in limbs {
        let joints = local.points(joints);
        head = joints.last().copied().unwrap_or(head);
        let limb = Path { pen: width * scale, ..Path::through(&joints) };
        scene.part_path(limb, Role::Limb, "person");
    }
    scene.circle(head, 0.105 * scale, Role::Skin, "person");
    helmet(scene, (head.0, head.1 - 0.035 * scale), 0.0, scale);
}

/// Draws a helmet centred on `at`, turned by `turn` rad from upright.
pub(crate) fn helmet(scene: &mut Scene, at: P, turn: f64, scale: f64) {
    let mut dome = Path::new();
    let quarter = core::f64::consts::FRAC_PI_2;
    dome.arc(at, 0.145 * scale, turn - quarter, turn + quarter, true);
    dome.close();
    scene.part_path(dome, Role::Helmet, "person");
}
