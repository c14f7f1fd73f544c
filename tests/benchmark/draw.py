"""How long a cold `shopset draw` takes beside its floor: a benchmark to read, not a test to pass.

    python tests/benchmark/draw.py [RUNS]

The floor (`floor.py`) is a bare script that imports ezdxf and reportlab and writes, through their own calls,
as many entities of each kind as the set's DXF and PDF hold (`counts.py`). Both run from compiled files, as an
installed program does.
"""

from __future__ import annotations

import json
import os
import re
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from counts import counted

ROOT = Path(__file__).resolve().parents[2]
SPEC = ROOT / "specs" / "ferry-landing.yaml"
FLOOR = Path(__file__).with_name("floor.py")


REST = "start, imports, folder, end"


def timed(command: list[str]) -> tuple[float, dict[str, float]]:
    """Return the wall time of a command, and of each stage that it tells of, seconds."""
    compiled = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    start = time.perf_counter()
    done = subprocess.run(command, check=True, capture_output=True, text=True, cwd=ROOT, env=compiled)
    whole = time.perf_counter() - start
    told = re.findall(r"^ *(\d+) ms  (.+)$", done.stderr, re.MULTILINE)
    stages = {stage: int(number) / 1000 for number, stage in told}
    return whole, {**stages, REST: whole - sum(stages.values())}


def main() -> None:
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    with tempfile.TemporaryDirectory() as folder:
        draw = [sys.executable, "-m", "sheets", "draw", "--times", str(SPEC), "-o", folder]
        timed(draw)
        stem = Path(folder) / SPEC.stem / SPEC.stem
        counts = counted(stem.with_suffix(".dxf"), stem.with_suffix(".pdf"))
        listed = Path(folder) / "counts.json"
        listed.write_text(json.dumps(counts), "utf-8")
        floor = [sys.executable, str(FLOOR), str(listed), str(Path(folder) / "floor")]
        pairs = [(timed(draw), timed(floor)) for _ in range(runs)]
    entities = sum(sum(kinds.values()) for where, kinds in counts.items() if where.startswith("in_"))
    print(
        f"DXF: {entities} entities; PDF: {counts['lines']} lines, {counts['fills']} areas, {counts['shown']} "
        f"texts on {counts['pages']} pages; {runs} cold runs"
    )
    for word, of in (("median", statistics.median), ("least", min)):
        drawn, bare = of(whole for (whole, _), _ in pairs), of(whole for _, (whole, _) in pairs)
        print(f"{word:<7} draw {drawn:.2f} s   floor {bare:.2f} s   ratio {drawn / bare:.2f}")
    print("medians of the stages, one after the other; a library's import counts where it is first used, and")
    print("of schedules, checks and DXF, which are worked out beside, the wait counts:")
    told = [stages for (_, stages), _ in pairs]
    middle = {stage: statistics.median(stages[stage] for stages in told) for stage in told[0]}
    for stage, seconds in middle.items():
        share = 100 * seconds / sum(middle.values())
        print(f"  {stage:<28}{seconds * 1000:7.0f} ms  {share:4.0f} %")


if __name__ == "__main__":
    main()
