"""A small picture of the worst shelf under its load, sag drawn larger than life."""

from __future__ import annotations

from sheets.checks.finding import Figure, PictureStroke, PictureText
from sheets.checks.mechanics.beams import sag_at
from sheets.checks.mechanics.shelf import Shelf
from sheets.checks.wording import called, fine, length, line_load
from sheets.model.wall import Wall

_WIDTH, _HEIGHT, _EDGE, _DEEPEST = 90.0, 40.0, 6.0, 14.0
_STEPS = 24


def sag_picture(wall: Wall, shelf: Shelf, newton_per_mm: float) -> Figure:
    """Return the curve of a shelf on simple ends; the deepest point has a fixed depth, so its true sag is
    written.
    """
    sag = shelf.sag_mm(newton_per_mm)
    across, top = _WIDTH - 2 * _EDGE, _HEIGHT - 12
    curve = tuple(
        (_EDGE + across * step / _STEPS, top - _DEEPEST * sag_at(step / _STEPS)) for step in range(_STEPS + 1)
    )
    middle, low = _WIDTH / 2, top - _DEEPEST
    supports = tuple(
        PictureStroke(((x - 2.5, top - 4), (x, top), (x + 2.5, top - 4), (x - 2.5, top - 4)), "edge")
        for x in (_EDGE, _WIDTH - _EDGE)
    )
    lines = (
        PictureStroke(((_EDGE, top), (_WIDTH - _EDGE, top)), "hidden"),
        PictureStroke(curve, "outline"),
        PictureStroke(((middle, top), (middle, low)), "dimension"),
        *supports,
    )
    texts = (
        PictureText((middle, top + 3), f"{called(shelf.part).upper()}, SPAN {length(wall, shelf.span)}"),
        PictureText(
            (middle, low - 6),
            f"{fine(wall, sag)} AT FIRST UNDER {line_load(wall, newton_per_mm)}, NOT TO SCALE",
        ),
    )
    return Figure("Sag of the worst shelf", _WIDTH, _HEIGHT, lines, texts)
