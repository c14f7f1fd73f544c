"""How long a cold `shopset draw` takes beside its floor: a benchmark to read, not a test to pass.

    python tests/benchmark/draw.py [RUNS]

The floor is a bare script that imports ezdxf and reportlab and writes as many entities as the set holds.
"""

from __future__ import annotations

import json
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SPEC = ROOT / "specs" / "fireplace-wall.yaml"

FLOOR = """
import sys, ezdxf
from reportlab.pdfgen.canvas import Canvas
lines, texts, sheets, out = int(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]), sys.argv[4]
document = ezdxf.new(setup=True)
space = document.modelspace()
canvas = Canvas(out + ".pdf", pagesize=(1728, 1296), invariant=1)
for i in range(lines):
    space.add_line((i % 97, i % 89), (i % 83, i % 79))
for i in range(texts):
    space.add_mtext("5'-2 1/2\\"", dxfattribs={"insert": (i % 97, i % 89)})
document.saveas(out + ".dxf")
for sheet in range(sheets):
    for i in range(lines // sheets):
        canvas.line(i % 97, i % 89, i % 83, i % 79)
    for i in range(texts // sheets):
        canvas.drawString(i % 97, i % 89, "5'-2 1/2\\"")
    canvas.showPage()
canvas.save()
"""


def wall_time(command: list[str]) -> float:
    start = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True, cwd=ROOT)
    return time.perf_counter() - start


def main() -> None:
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    with tempfile.TemporaryDirectory() as folder:
        draw = [sys.executable, "-m", "sheets", "draw", str(SPEC), "-o", folder]
        wall_time(draw)
        stem = Path(folder) / SPEC.stem
        sheets = len(json.loads((stem / "manifest.json").read_text("utf-8"))["sheets"])
        import ezdxf

        document = ezdxf.readfile(stem / f"{SPEC.stem}.dxf")
        kinds: dict[str, int] = {}
        for entity in document.entitydb.values():
            kinds[entity.dxftype()] = kinds.get(entity.dxftype(), 0) + 1
        lines = sum(
            kinds.get(kind, 0)
            for kind in ("LINE", "ARC", "LWPOLYLINE", "HATCH", "DIMENSION", "INSERT", "CIRCLE")
        )
        texts = sum(kinds.get(kind, 0) for kind in ("TEXT", "MTEXT", "ATTRIB"))
        floor = [
            sys.executable,
            "-c",
            FLOOR,
            str(lines),
            str(texts),
            str(sheets),
            str(Path(folder) / "floor"),
        ]
        times: dict[str, list[float]] = {"draw": [], "floor": []}
        for _ in range(runs):
            times["draw"].append(wall_time(draw))
            times["floor"].append(wall_time(floor))
        middle = {name: statistics.median(found) for name, found in times.items()}
        print(f"{lines} lines, {texts} texts, {sheets} sheets; median of {runs} cold runs")
        print(
            f"draw   {middle['draw']:.2f} s   floor {middle['floor']:.2f} s   "
            f"ratio {middle['draw'] / middle['floor']:.2f}"
        )
    from sheets.pipeline import draw as stages

    timings = stages(SPEC).timings
    whole = sum(timing.seconds for timing in timings)
    print("the stages in one process, the import of each library counted where it is first used:")
    for timing in timings:
        print(f"  {timing.stage:<12}{timing.seconds * 1000:7.0f} ms  {100 * timing.seconds / whole:4.0f} %")


if __name__ == "__main__":
    main()
