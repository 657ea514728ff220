"""A rig on legs and guys that give: where its head goes under load, and the load at which it runs away."""

import numpy as np

import rigid
from geometry import Frame
from lines import lines_of
from path import NONE, Path
from springs import Node


def as_set(rig, lean_is):
    """Tension of the guys and compression of the legs with the head where the tape measure has it; or how it tips."""
    if lean_is == "cut":
        return None, [guy["pretension"] for guy in rig["guys"]], [0.0, 0.0]
    bare = {"load": rig["load"] | {"mass": 0.0}, "line": rig["line"] | {"path": "hung"}, "second": None}
    found = rigid.solve(rig if lean_is == "under_load" else rig | bare)
    if found["tips"]:
        return found["tips"], None, None
    return None, found["tension"], found["compression"]


def set_to(rig):
    return sum(guy["pretension"] for guy in rig["guys"] if guy["rigged"])


def springs_of(rig, stretch, frame, lines, weight, tensions, pushes):
    """The head on its springs, to face any lean; and the number of the guy that each is."""
    under_load = stretch["lean_is"] == "under_load"
    guys, numbers = [], []
    for number, (guy, rope, tension) in enumerate(zip(rig["guys"], stretch["ropes"], tensions)):
        if not guy["rigged"] or (under_load and tension == 0.0):
            continue
        anchor, stiffness = np.array(guy["anchor"]), rope["stiffness"]
        length = np.linalg.norm(anchor - frame.head)
        # Knots and anchors give when the load comes.
        unstretched = length / (1.0 + tension / stiffness) + (0.0 if under_load else rope["give"])
        guys.append((anchor, stiffness, unstretched))
        numbers.append(number)
    legs = [(foot, stretch["leg_stiffness"], push) for foot, push in zip(frame.feet, pushes)]
    pulling = [line for line in lines if line.tension > 0.0]
    return lambda facing: Node(frame, facing, legs, guys, weight, pulling), numbers


def solve(rig, stretch):
    """Everything that the core says of the rig, as the library has it."""
    frame = Frame(rig)
    lines = lines_of(rig, frame)
    legs = rigid.Legs(rig, frame)
    found = {"scale": sum(line.tension for line in lines), "length": frame.slant, "margin": None, "goes_at": None, "set": 0.0}
    tips, tensions, pushes = as_set(rig, stretch["lean_is"])
    if tips:
        return found | {"outcome": f"tips {tips}" if tips in ("left", "right") else "nothing holds"}
    found["set"] = legs.on_head + set_to(rig)
    node_facing, numbers = springs_of(rig, stretch, frame, lines, legs.on_head, tensions, pushes)
    path = Path(node_facing, frame.lean, found["scale"] + legs.on_head + sum(tensions))

    if stretch["lean_is"] == "under_load":
        start, at_start = frame.lean, 1.0
        if not path.firm(start, 1.0):
            return found | {"outcome": "runs away"}
    else:
        start, at_start = path.rest(), 0.0
        if start is None:
            return found | {"outcome": "nothing holds"}
    way = path.way(start, at_start) if found["scale"] > 0.0 else 0.0

    stands = start
    if way != 0.0:
        stands, found["margin"], found["goes_at"] = path.follow(start, at_start, way)
        if stands is None:
            return found | {"outcome": "runs away" if found["margin"] > NONE else "nothing holds"}
    release(path, found, stands)
    return found | loaded(rig, frame, lines, legs, path.node, numbers)


def release(path, found, lean):
    """Lets the head go at a lean: held it is not quite where it stands."""
    path.face(lean)
    path.held(lean, 1.0)
    held, (_, pulling, _) = path.node.head(), path.node.forces()
    # Without any pull nothing keeps it where it is; at the greatest load it is about to go.
    kept = any(pulling) and path.firm(lean, 1.0) and not (found["margin"] or 2.0) < 1.0 + 1e-6
    path.held(lean, 1.0)
    if kept:
        if path.node.at(1.0) is None:
            raise ArithmeticError("let go where it was said to stand, the head finds no balance")
        moved = np.linalg.norm(path.node.head() - held)
        if moved > 1e-3 * found["length"]:
            raise ArithmeticError(f"let go where it was said to stand, the head moves on by {moved} m")


def loaded(rig, frame, lines, legs, node, numbers):
    """What the parts carry where the head is now, or over which foot it tips."""
    head = node.head()
    pulls, tensions, reactions = node.forces()
    for line in lines:
        _, redirect = line.forces(head)
        reactions = [a - b for a, b in zip(reactions, line.on_feet(redirect))]
    reactions = [frame.in_axes(a - b) for a, b in zip(reactions, legs.on_feet)]
    # What was set counts too: where nothing is left of it there is rounding.
    scale = abs(pulls[0]) + abs(pulls[1]) + sum(line.tension for line in lines) + set_to(rig)
    tips = rigid.over(rig, reactions[0][2], reactions[1][2], scale)
    if tips:
        return {"outcome": f"tips {tips}"}
    all_tensions = [0.0] * len(rig["guys"])
    for number, tension in zip(numbers, tensions):
        all_tensions[number] = tension
    return {
        "outcome": "stands",
        "head": head.tolist(),
        "lean": frame.lean_of(head),
        "compression": [-pull for pull in pulls],
        "tension": all_tensions,
        "reactions": [reaction.tolist() for reaction in reactions],
    }
