"""The states that a frame on springs goes through as its load grows: displacement control by its lean."""

from math import copysign, radians, sqrt

STRIDE = radians(0.1)
# So far from the lean it faces a node may be held, rad: a head held otherwise than square to the frame turns it as the
# legs shorten.
ASKEW = radians(0.5)
FLAT = radians(89.5)
# Loads beyond so many times the load are not looked at, and those below count as none.
GREATEST, NONE = 200.0, 1e-6
# A frame that is about to go but bears more again so many strides on, by another guy, only jumps: 3 degrees.
JUMP = 30
GOLDEN = (sqrt(5.0) - 1.0) / 2.0


class Lost(Exception):
    """The library finds no balance with the head held."""


class NoBalance(Exception):
    """At a lean there is none, whatever the load."""


class Path:
    def __init__(self, node_facing, lean, scale):
        """A node to face any lean; the lean as set; what forces are like, N."""
        self.node_facing, self.lean = node_facing, lean
        self.node = node_facing(lean)
        # Less than this is rounding, N.
        self.nothing = 1e-9 * scale

    def face(self, lean):
        self.node = self.node_facing(lean)

    def held(self, lean, multiple):
        """What holds the head at a lean, N, forward positive."""
        if abs(lean - self.node.facing) > ASKEW:
            self.face(lean)
        force = self.node.at(multiple, lean)
        if force is None:
            # From nearer by there may be one.
            self.face(lean)
            force = self.node.at(multiple, lean)
        if force is None:
            raise Lost(f"at a lean of {lean} and {multiple} times the load")
        return force

    @staticmethod
    def root(function, low, high, at_low, at_high):
        """Where a function changes sign between two places: the bracketed secant called Illinois."""
        middle = low
        for _ in range(200):
            middle = (low * at_high - high * at_low) / (at_high - at_low)
            at = function(middle)
            if at == 0.0:
                break
            if (at > 0.0) == (at_high > 0.0):
                at_low *= 0.5
            else:
                low, at_low = high, at_high
            high, at_high = middle, at
            if abs(high - low) < 1e-14:
                break
        return middle

    def rest(self):
        """The lean at which the head comes to rest without load; `None` where nothing holds it."""
        lean = self.lean
        force = self.held(lean, 0.0)
        if abs(force) <= self.nothing:
            return lean
        way = -copysign(1.0, force)
        while abs(lean + way * STRIDE) < FLAT:
            there = self.held(lean + way * STRIDE, 0.0)
            if abs(there) <= self.nothing:
                return self.slack(lean, lean + way * STRIDE)
            if there * force < 0.0:
                self.face(lean)
                force, there = self.held(lean, 0.0), self.held(lean + way * STRIDE, 0.0)
                return self.root(lambda at: self.held(at, 0.0), lean, lean + way * STRIDE, force, there)
            lean, force = lean + way * STRIDE, there
        return None

    def slack(self, lean, there):
        """Where, from a lean at which something pulls to one at which nothing does, it ceases to."""
        while abs(there - lean) > 1e-12:
            middle = 0.5 * (lean + there)
            if abs(self.held(middle, 0.0)) > self.nothing:
                lean = middle
            else:
                there = middle
        return there

    def way(self, lean, multiple):
        """Which way more of the load than a multiple takes the head, or 0."""
        little = 1e-3
        pull = self.held(lean, multiple) - self.held(lean, multiple + little)
        return 0.0 if abs(pull) <= self.nothing else copysign(1.0, pull)

    def firm(self, lean, multiple):
        """Whether the head, moved a little from where it is in balance, is not drawn on."""
        little = 1e-5
        ahead, behind = self.held(lean + little, multiple), self.held(lean - little, multiple)
        return ahead >= -self.nothing and behind <= self.nothing

    def multiple(self, lean, near, rough=1e6):
        """The multiple of the load in balance at a lean: by secants, since what holds the head is all but linear in it. One
        that is still out of balance by `rough` times rounding is none."""
        a, b = near, near + 0.01 * max(1.0, abs(near))
        at_a, at_b = self.held(lean, a), self.held(lean, b)
        for _ in range(30):
            if at_b == at_a:
                if abs(at_b) <= self.nothing:
                    return b
                raise Lost(f"no load tells at a lean of {lean}")
            a, at_a, b = b, at_b, b - at_b * (b - a) / (at_b - at_a)
            # No farther than that at once: farther off there may be no balance.
            most = max(1.0, abs(a))
            b = min(max(b, a - most), a + most)
            if abs(b) > 1e6:
                return copysign(float("inf"), b)
            if abs(b - a) < 1e-12 * max(1.0, abs(b)):
                return b
            at_b = self.held(lean, b)
            if abs(at_b) <= 0.01 * self.nothing:
                return b
        if abs(at_b) > rough * self.nothing:
            raise NoBalance(f"at a lean of {lean}")
        return b

    def peak(self, low, high, near):
        """The greatest multiple between two leans, by golden section."""
        self.face(0.5 * (low + high))
        a, b = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
        at_a, at_b = self.multiple(a, near), self.multiple(b, near)
        while abs(high - low) > 1e-8:
            if at_a > at_b:
                high, b, at_b = b, a, at_a
                a = high - GOLDEN * (high - low)
                at_a = self.multiple(a, near)
            else:
                low, a, at_a = a, b, at_b
                b = low + GOLDEN * (high - low)
                at_b = self.multiple(b, near)
        return (a, at_a) if at_a > at_b else (b, at_b)

    def follow(self, start, multiple, way):
        """As the load grows from a multiple: the lean at which the whole of it is first borne, or `None`; the greatest
        multiple, or `None` where there is none to be found; and the lean at that."""
        lean, before = start, start
        stands = start if multiple >= 1.0 else None
        while True:
            there = lean + way * STRIDE
            if abs(there) >= FLAT:
                return stands, multiple, lean
            try:
                more = self.multiple(there, multiple)
            except NoBalance:
                there, more = self.last(lean, there, multiple)
                if stands is None and more >= 1.0:
                    stands = self.borne_between(lean, there)
                return stands, more, there
            top = None
            if more < multiple - 1e-9 * max(1.0, multiple):
                top = self.peak(before, there, multiple)
                there, more = top if top[1] > multiple else (lean, multiple)
            if stands is None and more >= 1.0:
                stands = self.borne_between(lean, there)
            if more > GREATEST:
                return stands, None, None
            if top is not None:
                caught = self.caught(there, more, way)
                if caught is None:
                    return stands, more, there
                there, more = caught, self.multiple(caught, more)
                if stands is None and more >= 1.0:
                    stands = self.borne_before(caught, way)
            before, lean, multiple = lean, there, more

    def caught(self, lean, multiple, way):
        """The lean, a few strides on from the greatest multiple, at which as much is borne again."""
        near = multiple
        for stride in range(1, JUMP + 1):
            there = lean + way * STRIDE * stride
            if abs(there) >= FLAT:
                break
            near = self.multiple(there, near)
            if near > multiple:
                return there
        return None

    def last(self, lean, beyond, multiple):
        """The last lean with a balance before one without, where a guy goes slack that alone held the head, and its
        multiple."""
        while abs(beyond - lean) > 1e-13:
            middle = 0.5 * (lean + beyond)
            try:
                lean, multiple = middle, self.multiple(middle, multiple, rough=10.0)
            except NoBalance:
                beyond = middle
        return lean, multiple

    def borne_between(self, less, more):
        """Where the whole load is borne, between a lean at which less is and one at which more is."""
        self.face(0.5 * (less + more))
        held = [self.held(at, 1.0) for at in (less, more)]
        return self.root(lambda at: self.held(at, 1.0), less, more, *held)

    def borne_before(self, lean, way):
        """Where the whole load is borne, on the stride before a lean at which more is."""
        self.face(lean)
        behind = lean - way * STRIDE
        held = [self.held(at, 1.0) for at in (behind, lean)]
        return self.root(lambda at: self.held(at, 1.0), behind, lean, *held)
