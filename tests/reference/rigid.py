"""A rig on legs and guys that do not give, in balance: bars at one joint, worked out by the library."""

import numpy as np

from geometry import SIDES, Frame
from lines import lines_of
from trusses import Joint, beam


class Legs:
    """What the weight of the legs puts on head and feet, N, and bends them by, N m."""

    def __init__(self, rig, frame):
        self.on_feet, self.on_head, self.moments = [], 0.0, []
        for number, side in enumerate(SIDES):
            leg, span = rig["legs"][side], frame.lengths[number]
            at_foot, at_head, moment = beam(span, leg["lashing_below_tip"])
            weight = leg["weight_per_metre"]
            along = frame.feet[number] - frame.head
            run = np.hypot(along[0], along[1])
            self.on_feet.append(np.array([0.0, 0.0, -weight * at_foot]))
            self.on_head += weight * at_head
            # Only what of the weight is square to the leg bends it.
            self.moments.append(weight * run / span * moment)


class Guys:
    """Which guys work and what each carries, by trying them one at a time."""

    def __init__(self, rig, frame, load):
        self.frame, self.load = frame, load
        self.anchors = [np.array(guy["anchor"]) for guy in rig["guys"]]
        self.rigged = [guy["rigged"] for guy in rig["guys"]]
        self.tensions = [guy["pretension"] if guy["rigged"] else 0.0 for guy in rig["guys"]]
        self.working = None
        # Less than this of a force is rounding.
        self.nothing = 1e-10 * (np.linalg.norm(load) + sum(self.tensions))

    def pull(self):
        ways = [(anchor - self.frame.head) for anchor in self.anchors]
        ways = [way / np.linalg.norm(way) for way in ways]
        return self.load + sum((way * t for way, t in zip(ways, self.tensions)), np.zeros(3))

    def left_over(self):
        """What the legs leave unbalanced, N, forward positive: what a prop square to the frame would hold."""
        joint = Joint(self.frame.head, [*self.frame.feet, self.frame.head + self.frame.normal])
        joint.load(self.pull())
        # A prop ahead of the head pushes back when the head goes forward.
        return -joint.solve()[0][2]

    def more_from(self, number):
        """What a guy would have to pull beside what all do already, N; `None` where it cannot hold the head at all."""
        joint = Joint(self.frame.head, [*self.frame.feet, self.anchors[number]])
        joint.load(self.pull())
        solved = joint.solve()
        if solved is None:
            return None
        more = solved[0][2]
        # In the frame's plane within rounding: no force is enough.
        return more if abs(more) < 1e8 * (np.linalg.norm(self.load) + 1.0) else None

    def splayed(self, number):
        """Behind, ahead or to a side, and off the middle to the left or right; `None` near the middle."""
        from_middle = self.anchors[number] - self.frame.middle
        ahead, left = from_middle @ self.frame.forward, from_middle @ self.frame.foot_line
        if abs(left) <= 0.1 * abs(ahead):
            return None
        station = "side" if self.frame.is_to_a_side(self.anchors[number]) else ahead > 0.0
        return station, left > 0.0

    def together(self, first, able):
        """What a guy would have to pull more, N, and another that holds with it, splayed to its other side, of those able."""
        mores = {first: self.more_from(first)}
        stands = self.splayed(first)
        for other in able if stands else []:
            if self.splayed(other) == (stands[0], not stands[1]):
                mores[other] = self.more_from(other)
                break
        else:
            return mores
        # By its arm over its length; the arm of one goes as the inverse of what it would have to pull alone.
        lengths = {number: np.linalg.norm(self.anchors[number] - self.frame.head) for number in mores}
        turn = 1.0 / sum(1.0 / (more * more * lengths[number]) for number, more in mores.items())
        return {number: turn / (more * lengths[number]) for number, more in mores.items()}

    def balance(self):
        """Finds the tensions. The way it tips, or `None` where it stands."""
        if abs(self.left_over()) <= self.nothing:
            return None
        numbers = [i for i, rigged in enumerate(self.rigged) if rigged]
        to_side = [self.frame.is_to_a_side(anchor) for anchor in self.anchors]
        more = {number: self.more_from(number) for number in numbers}
        able = [number for number in numbers if more[number] is not None and more[number] > 0.0]
        for first in [i for i in able if not to_side[i]] + [i for i in able if to_side[i]]:
            for number, pull in self.together(first, able).items():
                self.tensions[number] += pull
            self.working = first
            return None
        for _ in numbers:
            if abs(self.left_over()) <= self.nothing:
                break
            more = {number: self.more_from(number) for number in numbers if self.tensions[number] > 0.0}
            taut = [number for number, pull in more.items() if pull is not None and pull < 0.0]
            if not taut:
                break
            pulls = self.together(taut[0], taut)
            for number, pull in pulls.items():
                eased = self.tensions[number] + pull
                self.tensions[number] = eased if eased > self.nothing else 0.0
            self.working = min((number for number in pulls if self.tensions[number] > 0.0), default=None)
        left = self.left_over()
        return None if abs(left) <= self.nothing else ("forward" if left > 0.0 else "back")


def over(rig, left, right, forces):
    """Over which foot a frame goes that presses so on its feet, N, where nothing holds them down; or `None`."""
    lifts = [bearing < -1e-9 * forces for bearing in (left, right)]
    if rig["feet"]["held_down"] or not any(lifts):
        return None
    # Over the one that stays down, or that lifts less.
    return "right" if lifts[0] and (not lifts[1] or left <= right) else "left"


def solve(rig):
    """Everything that the core says of the rig, as the library has it."""
    frame = Frame(rig)
    lines = lines_of(rig, frame)
    legs = Legs(rig, frame)
    on_head, on_feet = np.array([0.0, 0.0, -legs.on_head]), list(legs.on_feet)
    for line in lines:
        force, redirect = line.forces(frame.head)
        on_head = on_head + force
        on_feet = [foot + pull for foot, pull in zip(on_feet, line.on_feet(redirect))]
    found = {
        "scale": sum(line.tension for line in lines),
        "head": frame.head.tolist(),
        "on_head": on_head.tolist(),
        "haul_tensions": [line.haul_tension for line in lines],
        "pulleys": [line.pulley(frame.head).tolist() for line in lines],
    }
    guys = Guys(rig, frame, on_head)
    found["tips"] = guys.balance()
    if found["tips"]:
        return found

    # The prop carries nothing and keeps the joint in place where no guy does.
    joint = Joint(frame.head, [*frame.feet, frame.head + frame.normal])
    joint.load(guys.pull())
    for foot, force in enumerate(on_feet):
        joint.load(force, foot)
    tensions, reactions = joint.solve()
    reactions = [frame.in_axes(reaction) for reaction in reactions[:2]]
    left, right = reactions
    found["tips"] = over(rig, left[2], right[2], abs(tensions[0]) + abs(tensions[1]) + found["scale"])
    if found["tips"]:
        return found
    found |= {
        "compression": [-tensions[0], -tensions[1]],
        "tension": guys.tensions,
        "working": guys.working,
        "reactions": [reaction.tolist() for reaction in reactions],
        "leg_moment": legs.moments,
        "spread_thrust": (right[1] - left[1]) / 2.0,
        "net_sideways": left[1] + right[1],
    }
    return found
