//! From the tape measure to points.

use crate::angle::{cos, sin, sqrt};
use crate::fault::Allowed;
use crate::{Fault, Field, Pair, Point, Rig, Vector};

/// Where the frame is: its head, its axes, its dimensions.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Layout {
    /// Angle of the frame's plane from the vertical, rad, forward positive.
    pub lean: f64,
    /// Distance between the feet, m.
    pub spread: f64,
    /// Foot to lashing, m, left and right.
    pub working_length: Pair<f64>,
    /// Foot line to head, in the frame's plane, m. The height of the head when the frame stands upright on
    /// level feet.
    pub slant_height: f64,
    /// Centre of the lashing.
    pub head: Point,
    /// Midway between the feet.
    pub mid_base: Point,
    /// Unit vector along the foot line, from the right foot to the left: +y for feet set square.
    pub foot_line: Vector,
    /// Level unit vector square to the foot line, toward the edge: +x for feet set square.
    pub forward: Vector,
    /// Unit vector in the frame's plane, square to the foot line, from the foot line to the head.
    pub up_the_frame: Vector,
    /// Unit vector square to the frame's plane, facing the edge.
    pub normal: Vector,
    /// Unit vectors from the head down each leg to its foot.
    pub down_leg: Pair<Vector>,
}

impl Layout {
    /// The layout of a rig at a lean (rad), from any feet and any two legs.
    ///
    /// With e the foot line, q the point of it below the head and a the slant height:
    /// q = F_R + e·(ℓ_R² − ℓ_L² + s²)/(2s), a = √(ℓ_R² − |q − F_R|²), up = unit(ẑ − (ẑ·e)e), n = e × up,
    /// head = q + a(sin λ·n + cos λ·up). For equal legs on level feet a = √(ℓ² − (s/2)²) and
    /// head = (a sin λ, 0, a cos λ).
    ///
    /// # Errors
    ///
    /// The field, its value and what is allowed, where a number is out of its range, where the feet are so
    /// far apart (or, with unequal legs, so near) that the legs do not meet, or where one foot stands over
    /// the other.
    ///
    /// ```
    /// use outlean_rig::{Layout, Rig};
    /// let layout = Layout::of(&Rig::new(4.0, 1.2, 0.0, 0.0), 20f64.to_radians())?;
    /// assert!((layout.slant_height - 3.9547).abs() < 1e-4);
    /// assert!((layout.reach() - 1.3526).abs() < 1e-4);
    /// # Ok::<(), outlean_rig::Fault>(())
    /// ```
    pub fn of(rig: &Rig, lean: f64) -> Result<Self, Fault> {
        rig.check()?;
        Field::Lean.check(lean)?;
        Self::at(rig, lean)
    }

    /// As [`Layout::of`], of a rig and a lean already checked.
    // Inlined as in `Posture::at`.
    #[cfg_attr(not(target_family = "wasm"), inline(always))]
    pub(crate) fn at(rig: &Rig, lean: f64) -> Result<Self, Fault> {
        let feet = rig.feet.at;
        let working_length = Pair::new(rig.legs.left.working_length(), rig.legs.right.working_length());
        let (left, right) = (working_length.left, working_length.right);
        let across = feet.left - feet.right;
        let level_spread = crate::angle::hypot(across.x, across.y);
        Field::Spread.check(level_spread)?;
        // A hair inside the triangle's own bounds, so that the frame has a height at all.
        let triangle = Allowed { least: (left - right).abs() + 0.01, most: (left + right) * 0.999 };
        let spread = Field::Spread.check_within(across.length(), triangle)?;

        let foot_line = across / spread;
        let from_right = (right * right - left * left + spread * spread) / (2.0 * spread);
        let below_head = feet.right + foot_line * from_right;
        let slant_height = sqrt(right * right - from_right * from_right);
        let forward = Vector::new(foot_line.y, -foot_line.x, 0.0) * (spread / level_spread);
        let plumb = (Vector::Z - foot_line * foot_line.z) * (spread / level_spread);
        let (sine, cosine) = (sin(lean), cos(lean));
        let up_the_frame = forward * sine + plumb * cosine;
        let normal = foot_line.cross(up_the_frame);
        let head = below_head + up_the_frame * slant_height;
        let down_leg = Pair::new((feet.left - head) / left, (feet.right - head) / right);
        Ok(Self {
            lean,
            spread,
            working_length,
            slant_height,
            head,
            mid_base: feet.left.midpoint(feet.right),
            foot_line,
            forward,
            up_the_frame,
            normal,
            down_leg,
        })
    }

    /// Level distance from the foot line to the plumb line from the head, m, forward positive.
    #[must_use]
    pub fn reach(&self) -> f64 {
        (self.head - self.mid_base).dot(self.forward)
    }

    /// Height of the head above the middle of the foot line, m.
    #[must_use]
    pub fn head_height(&self) -> f64 {
        (self.head - self.mid_base).z
    }

    /// A vector given as so much forward, to the left and up, in the axes of the crate.
    #[must_use]
    pub fn turned(&self, forward_left_up: Vector) -> Vector {
        let left = Vector::Z.cross(self.forward);
        self.forward * forward_left_up.x + left * forward_left_up.y + Vector::Z * forward_left_up.z
    }

    /// Setback of a point: level distance behind the foot line, square to it, m. Negative ahead of it.
    #[must_use]
    pub fn setback(&self, point: Point) -> f64 {
        -(point - self.mid_base).dot(self.forward)
    }
}
