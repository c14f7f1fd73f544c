"""The smallest spec that draws: one narrow case on an 11 × 17 in sheet. Invented."""

import hashlib
import json
from pathlib import Path

SPEC = """\
project:
  title: Hall shelf
  number: "7"
  date: 2026-01-19
  status: released
units: inch
dimensions: inches
sheet: {size: ansi-b, titleblock: shop-small}
materials:
  maple: {species: hard maple, finish: clear}
  ply:   {panel: veneer-core plywood, face: hard maple, thickness: 3/4}
room:
  width: 38
  ceiling: {height: 7'-10"}
cases:
  - name: hall
    width: fill
    height: 60
    depth: 10
    scribe: 1/2
    frame: {stile: 1-1/2, rail: 2}
    shelves: {count: 1, thickness: 3/4, spacing: even}
    material: ply
"""


def elevation_sheet(folder: Path) -> str:
    """The number of the sheet with the elevation; what shares a sheet with it is compose's to choose."""
    sheets = json.loads((folder / "manifest.json").read_text("utf-8"))["sheets"]
    found = [sheet["number"] for sheet in sheets if "ELEVATION" in sheet["title"]]
    assert len(found) == 1, sheets
    return str(found[0])


def digests(folder: Path) -> dict[str, str]:
    """The SHA-256 of every file in a folder, by its path from there."""
    return {
        str(p.relative_to(folder)): hashlib.sha256(p.read_bytes()).hexdigest()
        for p in sorted(folder.rglob("*"))
        if p.is_file()
    }
