"""The example specs drawn by the program, each once in a test run."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from sheets.drawing.items import DrawingSet
from tests.drawn import EXAMPLES, ROOT, drawn

STEMS = tuple(path.stem for path in EXAMPLES)


@dataclass(frozen=True, slots=True)
class Example:
    """A drawn set with the bytes of its two files."""

    drawing: DrawingSet
    pdf: bytes
    dxf: bytes


@cache
def example(stem: str) -> Example:
    """The set of specs/<stem>.yaml."""
    found = drawn(ROOT / "specs" / f"{stem}.yaml")
    assert found.drawing is not None
    files = dict(found.files)
    return Example(found.drawing, files[f"{stem}.pdf"], files[f"{stem}.dxf"])
