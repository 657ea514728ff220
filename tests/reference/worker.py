"""Reads rigs, one JSON object a line, and writes what the library makes of them. Never sees what the core said."""

import json
import os
import sys
import traceback


def main():
    kind = sys.argv[1]
    if kind == "rigid":
        import rigid

        work = lambda asked: rigid.solve(asked["rig"])
    else:
        import stretched

        work = lambda asked: stretched.solve(asked["rig"], asked["stretch"])
    # The library tells each iteration that does not end; whether one did is looked at here.
    out = os.fdopen(os.dup(1), "w")
    quiet = os.open(os.devnull, os.O_WRONLY)
    os.dup2(quiet, 1)
    os.dup2(quiet, 2)
    for line in sys.stdin:
        try:
            found = work(json.loads(line))
        except Exception:
            found = {"failed": traceback.format_exc()}
        out.write(json.dumps(found) + "\n")
        out.flush()


main()
