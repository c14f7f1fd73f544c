"""How long a cold `shopset draw` takes beside its floor: a benchmark to read, not a test to pass.

    python tests/benchmark/draw.py [RUNS]

The floor (`floor.py`) is a bare script that imports ezdxf and reportlab and writes, through their own calls,
as many entities of each kind as the set's DXF and PDF hold (`counts.py`). Both run from compiled files, as an
installed program does.
"""

from __future__ import annotations

import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from counts import counted

ROOT = Path(__file__).resolve().parents[2]
SPEC = ROOT / "specs" / "fireplace-wall.yaml"
FLOOR = Path(__file__).with_name("floor.py")


def wall_time(command: list[str]) -> float:
    compiled = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    start = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True, cwd=ROOT, env=compiled)
    return time.perf_counter() - start


def main() -> None:
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    with tempfile.TemporaryDirectory() as folder:
        draw = [sys.executable, "-m", "sheets", "draw", str(SPEC), "-o", folder]
        wall_time(draw)
        stem = Path(folder) / SPEC.stem / SPEC.stem
        counts = counted(stem.with_suffix(".dxf"), stem.with_suffix(".pdf"))
        listed = Path(folder) / "counts.json"
        listed.write_text(json.dumps(counts), "utf-8")
        floor = [sys.executable, str(FLOOR), str(listed), str(Path(folder) / "floor")]
        times: dict[str, list[float]] = {"draw": [], "floor": []}
        for _ in range(runs):
            times["draw"].append(wall_time(draw))
            times["floor"].append(wall_time(floor))
    entities = sum(sum(kinds.values()) for where, kinds in counts.items() if where.startswith("in_"))
    print(
        f"DXF: {entities} entities; PDF: {counts['lines']} lines, {counts['fills']} areas, {counts['shown']} "
        f"texts on {counts['pages']} pages; {runs} cold runs"
    )
    for word, of in (("median", statistics.median), ("least", min)):
        drawn, least = of(times["draw"]), of(times["floor"])
        print(f"{word:<7} draw {drawn:.2f} s   floor {least:.2f} s   ratio {drawn / least:.2f}")
    from sheets.pipeline import draw as stages

    timings = stages(SPEC).timings
    whole = sum(timing.seconds for timing in timings)
    print("the stages one after the other, the import of each library counted where it is first used;")
    print("of schedules, checks and DXF, which are worked out beside, the wait:")
    for timing in timings:
        print(f"  {timing.stage:<24}{timing.seconds * 1000:7.0f} ms  {100 * timing.seconds / whole:4.0f} %")


if __name__ == "__main__":
    main()
