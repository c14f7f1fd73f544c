"""How a draw grows with the wall, and how many sheets a second come of several: to read, not to pass.

    python tests/benchmark/growth.py [MOST]

Prints for 1, 2, 4, ... up to MOST cases (32) the wall time on one core and on two, the seconds that the
processors worked, and the most memory that one process held; then sheets a second of eight specs under -j.
"""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
HEAD = """\
project: {title: Growth, number: "1", date: 2026-01-19, status: released}
units: inch
sheet: {size: arch-d, titleblock: architect-strip}
materials:
  maple: {species: hard maple, finish: clear}
  ply:   {panel: veneer-core plywood, face: hard maple, thickness: 3/4}
"""
CASE = """\
  - name: case {number}
    width: {width}
    height: {height}
    depth: 10
    frame: {{stile: 1-1/2, rail: 2}}
    shelves: {{count: {shelves}, thickness: 3/4, spacing: even}}
    material: ply
"""
_SPECS, _CASES = 8, 2


@dataclass(frozen=True)
class Run:
    """Seconds by the clock and of the processors, and the most memory of one process, MB."""

    clock: float
    worked: float
    memory: float


def spec_of(cases: int) -> str:
    """Return a spec of that many cases, no two alike, side by side."""
    widths = [24 + k % 7 for k in range(cases)]
    rows = [
        CASE.format(number=k + 1, width=width, height=48 + k % 5 * 4, shelves=1 + k % 4)
        for k, width in enumerate(widths)
    ]
    return f"{HEAD}room:\n  width: {sum(widths) + 2}\n  ceiling: {{height: 96}}\ncases:\n{''.join(rows)}"


def drawn(arguments: list[str], cores: int) -> Run:
    """Draw in a process that may use the first few cores alone."""
    command = [sys.executable, "-m", "sheets", "draw", *arguments]
    compiled = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    allowed = sorted(os.sched_getaffinity(0))[:cores]
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    done = subprocess.run(
        command, cwd=ROOT, env=compiled, capture_output=True, text=True, check=False,
        preexec_fn=lambda: os.sched_setaffinity(0, allowed),
    )  # fmt: skip
    clock, after = time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
    if done.returncode not in (0, 1):
        raise SystemExit(done.stderr)
    worked = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Run(clock, worked, after.ru_maxrss / 1024)


def main() -> None:
    most = int(sys.argv[1]) if len(sys.argv) > 1 else 32
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        print("cases   one core   two cores   processors   memory of the largest process so far")
        for cases in (1 << k for k in range(most.bit_length())):
            spec = home / f"wall-{cases}.yaml"
            spec.write_text(spec_of(cases), "utf-8")
            one, two = (drawn([str(spec), "-o", folder], cores) for cores in (1, 2))
            print(
                f"{cases:>5}{one.clock:>9.2f} s{two.clock:>10.2f} s{one.worked:>11.2f} s{two.memory:>9.0f} MB"
            )
        specs = [home / f"side-{k}.yaml" for k in range(_SPECS)]
        for spec in specs:
            spec.write_text(spec_of(_CASES), "utf-8")
        for jobs in (1, 2):
            run = drawn([*map(str, specs), "-o", folder + f"/j{jobs}", "-j", str(jobs)], 2)
            manifests = Path(folder, f"j{jobs}").glob("*/manifest.json")
            sheets = sum(len(json.loads(path.read_text("utf-8"))["sheets"]) for path in manifests)
            print(
                f"-j {jobs}: {sheets} sheets of {_SPECS} specs in {run.clock:.1f} s, "
                f"{sheets / run.clock:.1f} a second; the processors worked {run.worked:.1f} s"
            )


if __name__ == "__main__":
    main()
