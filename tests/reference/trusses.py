"""Small structures for the library: pin-jointed bars at one joint, and a beam on two supports."""

import openseespy.opensees as ops

import numpy as np

# Any will do where balance alone tells the forces.
ANY_STIFFNESS = 1e9


def analysed():
    """Solves the model for small displacements, reactions too; whether it could."""
    ops.constraints("Plain")
    ops.numberer("Plain")
    ops.system("FullGeneral")
    ops.algorithm("Linear")
    ops.integrator("LoadControl", 0.0)
    ops.analysis("Static")
    solved = ops.analyze(1) == 0
    if solved:
        ops.reactions()
    return solved


class Joint:
    """A joint held by bars to fixed points: small displacements."""

    def __init__(self, at, bars_to):
        ops.wipe()
        ops.model("basic", "-ndm", 3, "-ndf", 3)
        ops.node(1, *map(float, at))
        ops.uniaxialMaterial("Elastic", 1, ANY_STIFFNESS)
        ops.timeSeries("Constant", 1)
        ops.pattern("Plain", 1, 1)
        for number, to in enumerate(bars_to, 2):
            ops.node(number, *map(float, to))
            ops.fix(number, 1, 1, 1)
            ops.element("Truss", number, 1, number, 1.0, 1)
        self.bars = range(2, 2 + len(bars_to))

    def load(self, force, bar=None):
        """Loads the joint, or the far end of a bar."""
        ops.load(1 if bar is None else self.bars[bar], *map(float, force))

    def solve(self):
        """Tension of each bar and the reaction of its far end; `None` where they do not hold the joint."""
        if not analysed():
            return None
        tensions = [ops.basicForce(bar)[0] for bar in self.bars]
        return tensions, [np.array(ops.nodeReaction(bar)) for bar in self.bars]


def beam(span, overhang):
    """A beam with a load of one newton a metre all along, held at its start and at `span`, going on by `overhang`.

    The reactions of both supports and the moment midway between them, sagging positive.
    """
    ops.wipe()
    ops.model("basic", "-ndm", 2, "-ndf", 3)
    for number, place in enumerate((0.0, span / 2.0, span), 1):
        ops.node(number, place, 0.0)
    ops.fix(1, 1, 1, 0)
    ops.fix(3, 0, 1, 0)
    ops.geomTransf("Linear", 1)
    ops.timeSeries("Constant", 1)
    ops.pattern("Plain", 1, 1)
    # What lies beyond, on the support: as an element of its own a short one would cost digits.
    ops.load(3, 0.0, -overhang, -(overhang**2) / 2.0)
    for number in (1, 2):
        ops.element("elasticBeamColumn", number, number, number + 1, 1.0, 1e9, 1.0, 1)
        ops.eleLoad("-ele", number, "-type", "-beamUniform", -1.0)
    analysed()
    # At its far end the first half is turned by the sagging moment counterclockwise.
    return ops.nodeReaction(1)[1], ops.nodeReaction(3)[1], ops.eleForce(1)[5]
