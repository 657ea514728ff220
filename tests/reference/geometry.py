"""From the tape measure to points: where the head of a frame is, from its legs, its feet and its lean.

Lengths in m, angles in rad; x forward, y to the left, z up.
"""

from math import atan2, cos, sin, sqrt

import numpy as np

UP = np.array([0.0, 0.0, 1.0])
SIDES = ("left", "right")


def unit(vector):
    return vector / sqrt(vector @ vector)


def turned(vector, axis, angle):
    """A vector turned right-handed about a unit axis (Rodrigues)."""
    return (
        vector * cos(angle)
        + np.cross(axis, vector) * sin(angle)
        + axis * (axis @ vector) * (1.0 - cos(angle))
    )


class Frame:
    """Two legs on their feet, leaning."""

    def __init__(self, rig):
        legs = [rig["legs"][side] for side in SIDES]
        self.feet = [np.array(rig["feet"]["at"][side]) for side in SIDES]
        self.lengths = [leg["length"] - leg["lashing_below_tip"] for leg in legs]
        self.middle = (self.feet[0] + self.feet[1]) / 2.0
        across = self.feet[0] - self.feet[1]
        self.spread = sqrt(across @ across)
        self.foot_line = across / self.spread
        # Level, square to the foot line, toward the edge; and level to the left of one who faces that way.
        self.forward = unit(np.cross(self.foot_line, UP))
        self.left = np.cross(UP, self.forward)

        # Law of cosines in the triangle of the legs, from the right foot.
        of_left, of_right = self.lengths
        cosine = (of_right**2 + self.spread**2 - of_left**2) / (2.0 * of_right * self.spread)
        self.below_head = self.feet[1] + self.foot_line * (of_right * cosine)
        self.slant = of_right * sqrt(1.0 - cosine**2)
        self.plumb = unit(UP - self.foot_line * (UP @ self.foot_line))
        self.lean = rig["lean"]
        self.head = self.head_at(self.lean)
        self.normal = turned(self.forward, self.foot_line, self.lean)

    def head_at(self, lean):
        return self.below_head + turned(self.plumb * self.slant, self.foot_line, lean)

    def lean_of(self, head):
        """The lean of the plane through the foot line and a head that need not be at the legs' lengths."""
        up = head - self.below_head
        return atan2(up @ self.forward, up @ self.plumb)

    def in_axes(self, vector):
        """Forward, left and up of a vector."""
        return np.array([self.forward @ vector, self.left @ vector, vector[2]])

    def is_to_a_side(self, anchor):
        """More than twice as far along the foot line as square to it."""
        from_middle = anchor - self.middle
        return 2.0 * abs(from_middle @ self.forward) < abs(from_middle @ self.foot_line)
