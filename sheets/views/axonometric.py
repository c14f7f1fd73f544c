"""The whole wall in parallel projection, hidden lines removed: for a glance, not for measuring."""

from __future__ import annotations

from fractions import Fraction
from math import inf

from sheets.geometry.box import Box
from sheets.geometry.sight import AXONOMETRIC, Sighted
from sheets.geometry.visibility import look
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.views.roles import STEP_MM, segments
from sheets.views.tidy import tidy
from sheets.views.view import ExactBox, LineRole, Seen, Trace, View


def axonometric(wall: Wall) -> View:
    """Return the isometric view of what stands at the wall: the room itself would hide it."""
    parts = [part for part in wall.parts if part.maker != "room"]
    pieces = look([part.solid for part in parts], AXONOMETRIC, hidden=False)
    lines = tidy(
        Trace((run,), _role(piece), parts[piece.index].key) for piece in pieces for run in segments(piece)
    )
    box = _box(lines)
    return View("axonometric", "axonometric", "AXONOMETRIC", "", None, box, lines, seen=_seen(parts, pieces))


def _role(piece: Sighted) -> LineRole:
    if piece.drop == inf:
        return "outline"
    return "step" if piece.drop >= STEP_MM else "edge"


def _box(lines: tuple[Trace, ...]) -> ExactBox:
    bounds = [segment.bounds for trace in lines for segment in trace.path] or [Box(0.0, 0.0, 1.0, 1.0)]
    # Nothing is measured here, so the box may be rounded outwards to whole mm.
    return ExactBox(
        Fraction(int(min(b[0] for b in bounds)) - 1),
        Fraction(int(max(b[2] for b in bounds)) + 1),
        Fraction(int(min(b[1] for b in bounds)) - 1),
        Fraction(int(max(b[3] for b in bounds)) + 1),
    )


def _seen(parts: list[Part], pieces: tuple[Sighted, ...]) -> tuple[Seen, ...]:
    shown: dict[int, list[Box]] = {}
    for piece in pieces:
        shown.setdefault(piece.index, []).append(piece.curve.bounds)
    found = []
    for index in sorted(shown):
        b = shown[index]
        u0, v0, u1, v1 = (
            min(x[0] for x in b),
            min(x[1] for x in b),
            max(x[2] for x in b),
            max(x[3] for x in b),
        )
        box = ExactBox(Fraction(round(u0)), Fraction(round(u1)), Fraction(round(v0)), Fraction(round(v1)))
        found.append(Seen(parts[index].key, "visible", box, ((u0 + u1) / 2, (v0 + v1) / 2)))
    return tuple(found)
