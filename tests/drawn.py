"""Sets that several tests look at, each drawn once in a test run."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from sheets.commands.one_set import Drawn, draw

ROOT = Path(__file__).parents[1]
EXAMPLES = tuple(sorted((ROOT / "specs").glob("*.yaml")))


@cache
def drawn(path: Path) -> Drawn:
    """The set of a good spec that does not change while the tests run."""
    found = draw(path)
    assert found.drawing is not None, found.diagnostics
    return found
