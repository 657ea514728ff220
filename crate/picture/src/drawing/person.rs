//! People: limbs as round strokes in one flat tone, a helmet set off by a gap of paper. No faces.

use super::vec2::P;
use crate::{Path, Role, Scene};

/// How someone is placed; joints in metres from the heels, x the way they face, y up. 1.75 m tall.
pub(crate) struct Pose {
    head: P,
    neck: P,
    shoulder: P,
    hip: P,
    legs: [[P; 4]; 2],
    arms: [[P; 3]; 2],
}

/// Standing with a line in hand, watching the head.
pub(crate) const STANDING: Pose = Pose {
    head: (0.045, 1.6),
    neck: (0.015, 1.45),
    shoulder: (0.0, 1.36),
    hip: (-0.02, 0.93),
    legs: [
        [(-0.04, 0.9), (-0.07, 0.48), (-0.14, 0.06), (0.0, 0.035)],
        [(0.03, 0.9), (0.09, 0.49), (0.08, 0.06), (0.22, 0.035)],
    ],
    arms: [[(0.02, 1.35), (0.05, 1.09), (0.28, 1.17)], [(-0.03, 1.35), (-0.11, 1.09), (-0.04, 0.87)]],
};

/// In a harness beside a litter, feet toward the face, hands on the rail. Measured from the rail's height.
pub(crate) const HANGING: Pose = Pose {
    head: (-0.3, 0.56),
    neck: (-0.26, 0.42),
    shoulder: (-0.22, 0.33),
    hip: (-0.12, -0.12),
    legs: [
        [(-0.12, -0.12), (0.26, -0.3), (0.5, -0.62), (0.62, -0.58)],
        [(-0.1, -0.14), (0.24, -0.42), (0.46, -0.78), (0.58, -0.76)],
    ],
    arms: [[(-0.2, 0.32), (-0.02, 0.12), (0.2, 0.04)], [(-0.2, 0.3), (0.02, 0.17), (0.22, 0.05)]],
};

/// Draws someone with their heels at `at`, facing right (`facing` 1) or left (−1), `scale` px to a metre.
pub(crate) fn person(scene: &mut Scene, at: P, pose: &Pose, facing: f64, scale: f64) {
    let joint = |p: &P| (at.0 + facing * p.0 * scale, at.1 - p.1 * scale);
    let mut limb = |joints: &[P], width: f64| {
        scene.part_path(Path::through(joints.iter().map(joint)), Role::Limb(width * scale), "person");
    };
    for arm in &pose.arms {
        limb(arm, 0.085);
    }
    for leg in &pose.legs {
        limb(leg, 0.125);
    }
    limb(&[pose.shoulder, pose.hip], 0.25);
    limb(&[pose.neck, pose.head], 0.1);
    let head = joint(&pose.head);
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
