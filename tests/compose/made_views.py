"""Views made by hand for single questions, and a sheet round one of them."""

from __future__ import annotations

import itertools
from fractions import Fraction as F  # noqa: N817

from sheets.annotate.intent import Annotated, DimString, Gap
from sheets.base.length import inch
from sheets.base.notation import Notation
from sheets.compose.placing.manner import manner
from sheets.compose.placing.placed import viewport
from sheets.drawing.items import Sheet
from sheets.geometry.box import Box
from sheets.geometry.path import Line
from sheets.views.view import ExactBox, Trace, View

INCH_MANNER = manner("inch", Notation("feet-inches", inch("1/16")))
MM_MANNER = manner("mm", Notation("mm", F(1)))


def box_view(width, height, *, kind="section", **said):
    """A rectangle of width by height, mm, as a view, with what is said of it."""
    w, h = float(width), float(height)
    corners = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)]
    lines = tuple(
        Trace((Line(a, b),), "outline", "box")
        for a, b in zip(corners, corners[1:] + corners[:1], strict=True)
    )
    view = View(f"{kind}/box", kind, "A BOX", "", None, ExactBox(F(0), F(width), F(0), F(height)), lines)
    return Annotated(view, **said)


def chain(side, cuts, *, rank=0, foot=0, name=""):
    """A string along a side through cuts, mm."""
    gaps = tuple(Gap(F(a), F(b), F(foot), F(foot)) for a, b in itertools.pairwise(cuts))
    return DimString(name or f"{side}/{rank}", "u" if side in ("above", "below") else "v", side, rank, gaps)


def as_sheet(placed):
    """A sheet that the placed view fills."""
    width, height = placed.size
    view = viewport(placed, (-placed.box[0], -placed.box[1]), "1")
    return Sheet("Z-101", "T", width, height, Box(0.0, 0.0, width, height), (view,))
