"""The head of a frame on legs and guys that give, in the library: large displacements, corotational bars.

Worked in axes of the frame at a lean that it *faces*: square to its plane, along the foot line, up its plane. The head may
be held square to that plane, in line with where it would be at some lean; what holds it is then the force that balance
lacks.
"""

from math import cos

import openseespy.opensees as ops

import numpy as np

from geometry import turned

HEAD = 1
SQUARE = 1
# A rope of constant tension is a bar so soft, and stretched so far beforehand, that no movement changes it.
FAR = 1e9
# Of slings, N: made so much too short that under their load they are as long as they should be.
STIFF = 1e9
# Pulleys are loaded by at least so many times their load, so that they hang somewhere.
SLIGHT = 1e-12


class Node:
    """The head on its springs, at a multiple of its load."""

    def __init__(self, frame, facing, legs, guys, weight, lines):
        """Legs: (foot, EA, compression as set). Guys: (anchor, EA, unstretched length). Weight: N on the head. Lines: those
        that carry something.
        """
        self.frame, self.facing = frame, facing
        normal, up = (turned(way, frame.foot_line, facing) for way in (frame.forward, frame.plumb))
        self.axes = np.array([normal, frame.foot_line, up])
        # The head is modelled where it would be on legs as long as when set.
        self.place = frame.head_at(facing)
        ops.wipe()
        ops.model("basic", "-ndm", 3, "-ndf", 3)
        ops.node(HEAD, 0.0, 0.0, 0.0)
        self.joints = HEAD
        self.legs = [self.bar(to, stiffness, stiffness, -push / stiffness) for to, stiffness, push in legs]
        self.guys = []
        for to, stiffness, unstretched in guys:
            length = np.linalg.norm(to - self.place)
            # The library's strain is over the length as modelled, a rope's over its own.
            strain = (length - unstretched) / length
            self.guys.append(self.bar(to, stiffness * length / unstretched, 0.0, strain))
        # Loads by joint, and stiffnesses that grow with the load as the forces in lines and slings do.
        self.loads, self.growing, self.slings = [], [], []
        for line in lines:
            pulley = line.pulley(self.place)
            at, pull = HEAD, line.load_at(pulley)
            if line.sling > 0.0:
                on_sling = np.linalg.norm(pull + line.haul_at(pulley))
                at = self.bar(pulley, STIFF, STIFF, on_sling / STIFF, free=True)
                self.slings.append(at)
                self.growing.append((at, STIFF))
                ops.parameter(at, "element", at, "E")
            self.loads.append((at, self.axes @ pull))
            if line.next is not None:
                bar = self.bar(line.next, 1.0 / FAR, 1.0 / FAR, FAR, at)
                self.growing.append((bar, line.haul_tension / FAR))
                ops.parameter(bar, "element", bar, "E")
        ops.timeSeries("Constant", 1)
        ops.pattern("Plain", 1, 1)
        ops.load(HEAD, *map(float, self.axes @ np.array([0.0, 0.0, -weight])))
        ops.constraints("Transformation")
        ops.numberer("Plain")
        ops.system("FullGeneral")
        ops.algorithm("Newton")
        ops.integrator("LoadControl", 0.0)
        ops.analysis("Static")
        self.patterns = []

    def bar(self, to, pulling, pushing, strain, at=HEAD, free=False):
        """A bar from a joint to a new one; its number and that joint's."""
        self.joints += 1
        number = self.joints
        ops.node(number, *map(float, self.axes @ (to - self.place)))
        if not free:
            ops.fix(number, 1, 1, 1)
        ops.uniaxialMaterial("Elastic", 2 * number, pulling, 0.0, pushing)
        ops.uniaxialMaterial("InitStrainMaterial", 2 * number + 1, 2 * number, strain)
        ops.element("corotTruss", number, at, number, 1.0, 2 * number + 1)
        return number

    def at(self, multiple, lean=None):
        """Balance at a multiple of the load, the head held at a lean, or free. What holds it square to the frame, N,
        forward positive; `None` where there is no balance."""
        for number in self.patterns:
            ops.remove("loadPattern", number)
        self.patterns = [2]
        ops.pattern("Plain", 2, 1)
        for at, load in self.loads:
            ops.load(at, *map(float, load * self.at_least(multiple, at)))
        for bar, stiffness in self.growing:
            ops.updateParameter(bar, stiffness * self.at_least(multiple, bar))
        if lean is not None:
            self.patterns.append(3)
            ops.pattern("Plain", 3, 1)
            ops.sp(HEAD, SQUARE, float(self.axes[0] @ (self.frame.head_at(lean) - self.place)))
        # Free, the head is on springs so soft that rounding in the legs' forces moves it more.
        ops.test("NormDispIncr", (1e-13 if lean is not None else 1e-9) * self.frame.slant, 40)
        if ops.analyze(1) != 0 or any(ops.basicForce(sling)[0] * multiple < 0.0 for sling in self.slings):
            # A sling that pushes is a pulley upside down, which balances too.
            return None
        if lean is None:
            return 0.0
        ops.reactions()
        return ops.nodeReaction(HEAD)[SQUARE - 1] * cos(lean - self.facing)

    @staticmethod
    def at_least(multiple, joint):
        return SLIGHT if joint != HEAD and abs(multiple) < SLIGHT else multiple

    def head(self):
        return self.place + self.axes.T @ np.array(ops.nodeDisp(HEAD))

    def forces(self):
        """Tension of the legs and of the guys, and the force of the ground on the feet."""
        ops.reactions()
        tensions = [[ops.basicForce(bar)[0] for bar in bars] for bars in (self.legs, self.guys)]
        return *tensions, [self.axes.T @ np.array(ops.nodeReaction(bar)) for bar in self.legs]
