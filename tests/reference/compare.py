#!/usr/bin/env python3
"""Works random rigs out with OpenSees, a general-purpose structural library, and holds the core to it.

Usage: python3 tests/reference/compare.py [--rigs N] [--seed S] [--kind rigid|stretched]

Makes a Python environment of its own under target/. Exits 1 where the two differ by more than the tolerance.
"""

import argparse
import json
import os
import subprocess
import sys
import time
import venv
from pathlib import Path

from differences import KINDS, Report

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent


def environment():
    """The environment with the library in it, made where there is none: its Python, and where its own parts lie."""
    home = Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target")) / "reference"
    wanted = (HERE / "requirements.txt").read_text()
    made = home / "made"
    python = home / "bin" / "python"
    if not made.exists() or made.read_text() != wanted:
        print(f"making {home}", flush=True)
        venv.create(home, clear=True, with_pip=True)
        subprocess.run(
            [python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "-r", HERE / "requirements.txt"],
            check=True,
        )
        made.write_text(wanted)
    # The wheel brings its linear algebra along without saying where it lies.
    [own] = home.glob("lib/python3*/site-packages/openseespylinux/lib")
    return python, {**os.environ, "LD_LIBRARY_PATH": str(own)}


def from_core(kind, count, seed):
    """Rigs and what the core says of them."""
    command = ["cargo", "run", "--quiet", "--release", "-p", "outlean-tests", "--example", "reference", "--"]
    done = subprocess.run([*command, kind, str(count), str(seed)], cwd=ROOT, check=True, stdout=subprocess.PIPE)
    return [json.loads(line) for line in done.stdout.decode().splitlines()]


def from_library(kind, asked, python, variables):
    """What the library makes of the rigs, worked out in as many processes as there are cores."""
    parts = max(1, os.cpu_count() or 1)
    workers = []
    for part in range(parts):
        given = HERE / "worker.py"
        worker = subprocess.Popen(
            [python, given, kind], env=variables, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )
        workers.append(worker)
    # Given from here by a thread of its own each, so that no pipe fills.
    from concurrent.futures import ThreadPoolExecutor

    def talk(part):
        # Nothing that the core said goes to the library's side.
        lines = [
            json.dumps({"rig": one["rig"], "stretch": one.get("stretch")}) for one in asked[part::parts]
        ]
        said, _ = workers[part].communicate("\n".join(lines))
        return [json.loads(line) for line in said.splitlines()]

    with ThreadPoolExecutor(parts) as threads:
        answers = list(threads.map(talk, range(parts)))
    found = [None] * len(asked)
    for part in range(parts):
        found[part::parts] = answers[part]
    return found


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("--rigs", type=int, default=1200, help="random rigs of each kind (1200)")
    words.add_argument("--seed", type=int, default=0, help="seed of the first (0)")
    words.add_argument("--kind", choices=sorted(KINDS), help="only these")
    asked = words.parse_args()
    python, variables = environment()
    good = True
    for kind in [asked.kind] if asked.kind else sorted(KINDS):
        started = time.monotonic()
        core = from_core(kind, asked.rigs, asked.seed)
        taken = [one for one in core if "fault" not in one]
        library = from_library(kind, taken, python, variables)
        report = Report(kind, refused=len(core) - len(taken))
        for one, found in zip(taken, library):
            report.compare(one, found)
        good &= report.print(time.monotonic() - started)
    sys.exit(0 if good else 1)


if __name__ == "__main__":
    main()
