//! People at work on a frame: how they stand, and what of them names keep clear of.

use super::board::Board;
use crate::drawing::local::table;
use crate::drawing::person::{Pose, person};
use crate::drawing::vec2::P;

/// Both hands before the chest, as high as a head that is lifted off the ground.
pub(super) static CARRYING: Pose = Pose {
    arms: [
        table([(0.02, 1.35), (0.1, 1.1), (0.33, 1.16)]),
        table([(-0.02, 1.35), (0.04, 1.08), (0.27, 1.1)]),
    ],
    legs: [
        table([(-0.04, 0.9), (-0.02, 0.48), (-0.18, 0.06), (-0.04, 0.035)]),
        table([(0.03, 0.9), (0.16, 0.5), (0.14, 0.06), (0.28, 0.035)]),
    ],
    trunk: table([(0.0, 1.36), (-0.02, 0.93)]),
    neck: table([(0.02, 1.45), (0.05, 1.6)]),
};

/// Both hands over the head, under a leg that goes up.
pub(super) static PUSHING: Pose = Pose {
    arms: [
        table([(0.02, 1.35), (0.18, 1.55), (0.26, 1.83)]),
        table([(-0.02, 1.35), (0.1, 1.58), (0.12, 1.86)]),
    ],
    legs: [
        table([(-0.04, 0.9), (-0.08, 0.48), (-0.24, 0.06), (-0.1, 0.035)]),
        table([(0.03, 0.9), (0.2, 0.52), (0.14, 0.06), (0.28, 0.035)]),
    ],
    trunk: table([(0.02, 1.36), (-0.02, 0.93)]),
    neck: table([(0.03, 1.45), (0.05, 1.6)]),
};

/// Leaning back on a rope.
pub(super) static PULLING: Pose = Pose {
    arms: [
        table([(-0.27, 1.26), (-0.06, 1.12), (0.2, 1.08)]),
        table([(-0.29, 1.24), (-0.12, 1.04), (0.1, 1.05)]),
    ],
    legs: [
        table([(-0.12, 0.84), (0.12, 0.52), (0.24, 0.07), (0.38, 0.07)]),
        table([(-0.14, 0.84), (-0.1, 0.44), (-0.16, 0.06), (-0.02, 0.035)]),
    ],
    trunk: table([(-0.28, 1.27), (-0.14, 0.86)]),
    neck: table([(-0.31, 1.36), (-0.31, 1.52)]),
};

/// On one knee, hands at what lies on the ground.
pub(super) static KNEELING: Pose = Pose {
    arms: [table([(0.16, 0.88), (0.3, 0.6), (0.5, 0.42)]), table([(0.14, 0.86), (0.22, 0.56), (0.42, 0.34)])],
    legs: [
        table([(-0.02, 0.46), (0.34, 0.46), (0.3, 0.06), (0.44, 0.035)]),
        table([(-0.02, 0.46), (0.12, 0.07), (-0.26, 0.07), (-0.4, 0.05)]),
    ],
    trunk: table([(0.15, 0.88), (-0.01, 0.48)]),
    neck: table([(0.2, 0.97), (0.25, 1.11)]),
};

/// One hand up: stop.
pub(super) static LEADING: Pose = Pose {
    arms: [
        table([(0.02, 1.35), (0.16, 1.5), (0.2, 1.78)]),
        table([(-0.03, 1.35), (-0.11, 1.09), (-0.04, 0.87)]),
    ],
    legs: [
        table([(-0.05, 0.9), (-0.09, 0.48), (-0.14, 0.06), (0.0, 0.035)]),
        table([(0.03, 0.9), (0.07, 0.49), (0.06, 0.06), (0.2, 0.035)]),
    ],
    trunk: table([(0.0, 1.36), (-0.01, 0.93)]),
    neck: table([(0.015, 1.45), (0.045, 1.6)]),
};

/// Draws someone with their heels at `at`, facing right (1) or left (−1); names keep clear of them.
pub(super) fn stands(board: &mut Board, at: P, pose: &Pose, facing: f64, scale: f64) {
    person(board.scene(), at, pose, facing, scale);
    let high = if core::ptr::eq(pose, &KNEELING) { 1.2 } else { 1.75 };
    let (hip, head) = ((at.0, at.1 - 0.15 * scale), (at.0, at.1 - (high - 0.15) * scale));
    board.sheet.keep_clear(hip, head, 0.24 * scale, false);
}
