"""How far two answers to one rig differ: over the value or a thousandth of the load, whichever is greater."""

from collections import Counter
from math import hypot, isfinite, sqrt

# Largest difference let pass, and why not smaller.
TOLERANCE = {
    # Both solve linear equations in double precision.
    "rigid": 1e-9,
    # The library takes extensions as differences of lengths: rounding of a length times the stiffness of a leg.
    "stretched": 1e-6,
}
# The load at which a guy goes slack that alone held the head: the core takes a strain above -1e-9 as taut, of a rope of
# 2 MN two thousandths of a newton.
MARGIN_TOLERANCE = 1e-5
# Least load that differences are taken over a thousandth of, N: a frame may carry nothing of its load.
LEAST = 1.0
# Lean past which a frame that goes is as good as on the ground, rad.
FLAT = 1.5


def rigid(one, found, note):
    rig, core = one["rig"], one["core"]
    load, length = max(found["scale"], LEAST), core["layout"]["slant_height"]
    note.vector("head", core["layout"]["head"], found["head"], length)
    note.vector("pull on the head", core["resultant"]["force"], found["on_head"], load)
    lines = [core["line"]] + ([core["second"]] if core["second"] else [])
    for line, tension, pulley in zip(lines, found["haul_tensions"], found["pulleys"], strict=True):
        note.number("haul tension", line["haul_tension"], tension, load)
        note.vector("pulley", line["pulley"], pulley, length)
    balance = core["balance"]
    note.same("tips", balance.get("tips"), found["tips"])
    if "tips" in balance or found["tips"]:
        return "tips " + (found["tips"] or "not")
    forces = balance["stands"]
    note.same("working guy", forces["working_guy"], found["working"])
    footing = forces["footing"]
    for number, side in enumerate(("left", "right")):
        note.number("leg compression", forces["compression"][side], found["compression"][number], load)
        note.number("leg moment", forces["leg_moment"][side], found["leg_moment"][number], load * length)
        foot = footing["feet"][side]
        fore, left, up = found["reactions"][number]
        note.number("kick", foot["kick"], -fore, load)
        note.number("outward", foot["outward"], -left if number == 0 else left, load)
        note.number("bearing", foot["bearing"], up, load)
        note.number("reaction", sqrt(sum(part**2 for part in foot["reaction"])), hypot(fore, left, up), load)
    note.number("spread thrust", footing["spread_thrust"], found["spread_thrust"], load)
    note.number("net sideways", footing["net_sideways"], found["net_sideways"], load)
    for guy, tension in zip(forces["guys"], found["tension"], strict=True):
        note.number("guy tension", guy["tension"], tension, load)
    return f"stands, {'a guy' if found['working'] is not None else 'no guy'} works"


def stretched(one, found, note):
    core, margin = one["core"], one["margin"]
    load, length = found["scale"] or max(found["set"], LEAST), found["length"]
    outcome, said = (core, None) if isinstance(core, str) else next(iter(core.items()))
    outcome = f"tips {said}" if outcome == "tips" else outcome.replace("_", " ")
    lean_is = one["stretch"]["lean_is"].replace("_", " ")
    note.same("outcome", outcome, found["outcome"])
    if outcome != found["outcome"]:
        return f"{lean_is}: at odds"
    if outcome in ("stands", "runs away") and not (outcome == "runs away" and lean_is == "under load"):
        ours = margin and margin["multiple"]
        note.same("has a margin", ours is not None, found["margin"] is not None)
        if ours is not None and found["margin"] is not None:
            # All but on the ground each may stop at its own stride.
            if max(abs(margin["lean"]), abs(found["goes_at"])) < FLAT:
                note.number("margin", ours, found["margin"], 1.0)
            else:
                outcome += ", goes down flat"
    if said and outcome.startswith("stands"):
        if found["scale"] == 0.0 and not any(found["tension"]) and not any(said["tension"]):
            # It may stand anywhere where its guys are slack.
            return f"{lean_is}: stands, nothing pulls"
        note.vector("head", said["head"], found["head"], length)
        note.number("lean", said["lean"], found["lean"], 1.0)
        for number, side in enumerate(("left", "right")):
            note.number("leg compression", said["compression"][side], found["compression"][number], load)
            foot, (fore, left, up) = said["footing"]["feet"][side], found["reactions"][number]
            note.number("kick", foot["kick"], -fore, load)
            note.number("outward", foot["outward"], -left if number == 0 else left, load)
            note.number("bearing", foot["bearing"], up, load)
        for ours, theirs in zip(said["tension"], found["tension"], strict=True):
            note.number("guy tension", ours, theirs, load)
    return f"{lean_is}: {outcome}"


KINDS = {"rigid": rigid, "stretched": stretched}


class Note:
    """The differences of one rig, by quantity."""

    def __init__(self):
        self.worst, self.odds = {}, []

    def number(self, what, ours, theirs, scale):
        off = abs(ours - theirs) / max(abs(ours), abs(theirs), 1e-3 * scale)
        self.worst[what] = max(self.worst.get(what, 0.0), off if isfinite(off) else float("inf"))

    def vector(self, what, ours, theirs, scale):
        size = sqrt(sum(part**2 for part in theirs))
        off = sqrt(sum((a - b) ** 2 for a, b in zip(ours, theirs, strict=True)))
        self.number(what, size + off, size, scale)

    def same(self, what, ours, theirs):
        if ours != theirs:
            self.odds.append(f"{what}: {ours} by the core, {theirs} by the library")


class Report:
    """What was found on all rigs of a kind."""

    def __init__(self, kind, refused):
        self.kind, self.refused = kind, refused
        self.kinds, self.worst, self.at, self.failing = Counter(), {}, {}, []

    def compare(self, one, found):
        seed = one["seed"]
        if "failed" in found:
            self.kinds["not worked out"] += 1
            self.failing.append((seed, found["failed"].strip().splitlines()[-1]))
            return
        note = Note()
        self.kinds[KINDS[self.kind](one, found, note)] += 1
        for what, off in note.worst.items():
            if off >= self.worst.get(what, 0.0):
                self.worst[what], self.at[what] = off, seed
            if off > (MARGIN_TOLERANCE if what == "margin" else TOLERANCE[self.kind]):
                note.odds.append(f"{what}: {off:.1e}")
        if note.odds:
            self.failing.append((seed, "; ".join(note.odds)))

    def print(self, seconds):
        compared = sum(self.kinds.values())
        print(f"\n{self.kind}: {compared} rigs compared in {seconds:.0f} s, {self.refused} refused by the core")
        for what, count in self.kinds.most_common():
            print(f"  {count:6} {what}")
        print(f"  largest relative differences (tolerance {TOLERANCE[self.kind]:.0e}):")
        for what, off in self.worst.items():
            print(f"  {off:9.1e}  {what} (seed {self.at[what]})")
        print(f"  {len(self.failing)} rigs fail")
        for seed, why in self.failing:
            print(f"    seed {seed}: {why}")
        return not self.failing
