"""A spec taken through the stages in this process, once."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from sheets.drawing.items import DrawingSet
from sheets.model.wall import Wall
from sheets.pipeline import solve
from sheets.views.make import make_views
from sheets.views.view import View
from tests.drawn import drawn


@cache
def staged(path: Path) -> tuple[Wall, tuple[View, ...], DrawingSet]:
    """Wall, views and finished sheets of a spec that is good."""
    solved, drawing = solve(path), drawn(path).drawing
    assert solved.wall is not None, solved.diagnostics
    assert drawing is not None
    return solved.wall, make_views(solved.wall), drawing
