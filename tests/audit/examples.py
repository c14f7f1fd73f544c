"""The example specs drawn by the program, each once in a test run."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from sheets.commands.one_set import draw
from sheets.drawing.items import DrawingSet

ROOT = Path(__file__).parents[2]
STEMS = tuple(sorted(path.stem for path in (ROOT / "specs").glob("*.yaml")))


@dataclass(frozen=True, slots=True)
class Example:
    """A drawn set with the bytes of its two files."""

    drawing: DrawingSet
    pdf: bytes
    dxf: bytes


@cache
def example(stem: str) -> Example:
    """The set of specs/<stem>.yaml."""
    drawn = draw(ROOT / "specs" / f"{stem}.yaml")
    assert drawn.drawing is not None, drawn.diagnostics
    files = dict(drawn.files)
    return Example(drawn.drawing, files[f"{stem}.pdf"], files[f"{stem}.dxf"])
