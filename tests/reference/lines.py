"""What the lines put on the head: tensions through pulleys, load lines out of plumb or over the edge, slings."""

from math import sqrt, tan

import numpy as np

from geometry import UP, unit

G = 9.80665


class Unsettled(Exception):
    """A pulley on its sling comes to no rest."""


class Line:
    """One line at one position of the head. Forces in N on whatever they are named after."""

    def __init__(self, path, operation, data, tension, edge, swing, frame):
        self.kind, details = (path, {}) if isinstance(path, str) else next(iter(path.items()))
        self.frame, self.edge = frame, edge
        self.over_head = self.kind != "not_over_head"
        self.tension = tension if self.over_head else 0.0
        self.sling = data["sling"]
        # Tangents of the two angles are what a photograph from the side and from the front shows.
        side, outward = swing
        self.falls = unit(frame.forward * tan(outward) + frame.left * tan(side) - UP)

        passes = {"lowering": 1.0, "holding": 1.0, "raising": -1.0}[operation]
        of_head, of_redirect = (
            1.0 if operation == "holding" else data[key] ** passes
            for key in ("pulley_efficiency", "redirect_efficiency")
        )
        to = np.array(details["to"]) if "to" in details else None
        self.foot, self.redirected_by = None, None
        if self.kind == "redirected_at_foot":
            self.foot = 0 if details["foot"] == "left" else 1
            self.redirected_by = frame.feet[self.foot]
        elif self.kind in ("redirected_mid_base", "redirected_on_ledger"):
            self.redirected_by = frame.middle
        self.next = to if self.redirected_by is None else self.redirected_by
        if self.next is None or not self.over_head:
            self.next, self.haul_tension = None, 0.0
        elif self.kind == "tackle_at_head":
            # Each sheave, from the lead on, hands its tension on divided by its factor; all those parts hold the load.
            self.haul_tension = self.tension / sum(of_head**-part for part in range(1, details["parts"] + 1))
        else:
            self.haul_tension = self.tension * of_head
        self.on_redirect = np.zeros(3)
        self.after_redirect = self.haul_tension
        if self.redirected_by is not None and self.over_head:
            self.after_redirect = self.haul_tension * of_redirect
        self.haul_point = to

    def load_at(self, pulley):
        """Pull of the load line on its pulley. One that would pass behind the edge bears on it."""
        way = self.falls
        if self.edge is not None:
            from_middle = pulley - self.frame.middle
            above = from_middle[2] - self.edge["level"]
            ahead = from_middle @ self.frame.forward
            down = way * (above / -way[2])
            if above > 0.01 and ahead + down @ self.frame.forward < self.edge["ahead"]:
                # Over the edge at the same place along it.
                way = unit(down + self.frame.forward * (self.edge["ahead"] - ahead - down @ self.frame.forward))
        return way * self.tension

    def haul_at(self, pulley):
        if self.next is None:
            return np.zeros(3)
        return unit(self.next - pulley) * self.haul_tension

    def pulley(self, head):
        """Where the pulley hangs: along the pull of its own lines, found by going there half way again and again."""
        if self.sling == 0.0:
            return head
        if self.tension == 0.0:
            return head - UP * self.sling
        hangs, share = unit(self.load_at(head)), 0.5
        last = float("inf")
        for _ in range(20_000):
            at = head + hangs * self.sling
            pull = self.load_at(at) + self.haul_at(at)
            size = sqrt(pull @ pull)
            wanted = pull / size if size > 0.0 else -UP
            off = wanted - hangs
            far = sqrt(off @ off)
            if far < 1e-14:
                return at
            if far > last:
                share = max(0.5 * share, 1e-3)
            last = far
            hangs = unit(hangs + off * share)
        if last < 1e-12:
            return head + hangs * self.sling
        raise Unsettled

    def forces(self, head):
        """Pull of load line and haul line on the head, and of the redirect pulley on what holds it."""
        at = self.pulley(head)
        redirect = np.zeros(3)
        if self.redirected_by is not None and self.over_head:
            redirect = (
                unit(at - self.redirected_by) * self.haul_tension
                + unit(self.haul_point - self.redirected_by) * self.after_redirect
            )
        return self.load_at(at) + self.haul_at(at), redirect

    def on_feet(self, redirect):
        """The pull of its redirect pulley on the left and on the right foot."""
        if self.foot is not None:
            return [redirect if self.foot == foot else np.zeros(3) for foot in (0, 1)]
        share = 0.5 if self.kind == "redirected_on_ledger" else 0.0
        return [share * redirect, share * redirect]


def lines_of(rig, frame):
    """The main line, and the second where there is one, with the tensions of the case that the rig is in."""
    load, case, second = rig["load"], rig["case"], rig["second"]
    swing = {"hanging_clear": None, "at_edge": load["at_edge"], "on_tag_lines": load["on_tag_lines"]}[case["stage"]]
    angles = (swing["side"], swing["outward"]) if swing else (load["side_angle"], load["outward_angle"])
    at_rest = load["mass"] * G
    whole = at_rest * load["dynamic_factor"]
    if case["scenario"] == "main_lost":
        tensions = [0.0, at_rest * second["peak_factor"] if second else 0.0]
    else:
        share = second["share"] if second else 0.0
        tensions = [whole * (1.0 - share), whole * share]
    data = [rig["line"]] + ([second["line"]] if second else [])
    return [
        Line(one["path"], case["operation"], one, tension, rig["edge"], angles, frame)
        for one, tension in zip(data, tensions)
    ]
