"""A spec taken through the stages in this process, once."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from sheets.drawing.items import DrawingSet
from sheets.model.wall import Wall
from sheets.views.view import View


@cache
def staged(path: Path) -> tuple[Wall, tuple[View, ...], DrawingSet]:
    """Wall, views and finished sheets of a spec that is good."""
    from sheets.pipeline import draw_stages

    done = draw_stages(path)
    assert done.wall is not None, done.diagnostics
    assert done.drawing is not None, done.diagnostics
    return done.wall, done.views, done.drawing
