"""How the world lies in each kind of view.

Frame of the wall: x to the right of one who faces it, y out of it towards him, z up. Seen from the room the
wall is at his left when he looks along +x, so a section looked at along +x has the wall at its left; looked
at along -x, at its right.
"""

from __future__ import annotations

from fractions import Fraction

from sheets.geometry.box import Box
from sheets.geometry.path import Similarity
from sheets.model.part import Axis, Extent
from sheets.views.view import ExactBox, Frame

ELEVATION = Frame("x", 1, "z", 1)

# Half the view's plane for each cut axis: the world axes that lie across and up.
_PLANE: dict[Axis, tuple[Axis, Axis]] = {"x": ("y", "z"), "y": ("x", "z"), "z": ("x", "y")}


def frame_of_cut(axis: Axis, at: Fraction, toward: int) -> Frame:
    """Return the frame of a cut square to `axis` at `at` mm, looked at from the side `toward` (1 or -1)."""
    u_axis, v_axis = _PLANE[axis]
    if axis == "x":
        return Frame(u_axis, -toward, v_axis, 1, axis, at, toward)
    if axis == "y":
        return Frame(u_axis, toward, v_axis, 1, axis, at, toward)
    return Frame(u_axis, 1, v_axis, -toward, axis, at, toward)


def onto_view(frame: Frame) -> Similarity:
    """Return the map from the plane square to the sight (world axes in alphabetical order) to the view."""
    return Similarity(xx=float(frame.u_sign), yy=float(frame.v_sign))


def box_of(extent: Extent, frame: Frame) -> ExactBox:
    """Return the rectangle that an extent covers in the view."""
    u0, u1 = extent.span(frame.u_axis)
    v0, v1 = extent.span(frame.v_axis)
    if frame.u_sign < 0:
        u0, u1 = -u1, -u0
    if frame.v_sign < 0:
        v0, v1 = -v1, -v0
    return ExactBox(u0, u1, v0, v1)


def sight_axis(frame: Frame) -> tuple[Axis, int]:
    """Return the world axis along the line of sight, and the side of it that the viewer stands on."""
    if frame.cut_axis is not None:
        return frame.cut_axis, frame.toward
    (left,) = {"x", "y", "z"} - {frame.u_axis, frame.v_axis}
    return ("x" if left == "x" else "y" if left == "y" else "z"), frame.toward


def meet(one: ExactBox, other: ExactBox) -> ExactBox | None:
    """Return what two rectangles share, or None if they share no area."""
    u0, u1 = max(one.u0, other.u0), min(one.u1, other.u1)
    v0, v1 = max(one.v0, other.v0), min(one.v1, other.v1)
    return ExactBox(u0, u1, v0, v1) if u0 < u1 and v0 < v1 else None


def around(boxes: list[ExactBox]) -> ExactBox:
    """Return the rectangle that holds all of these. Raises ValueError for none."""
    if not boxes:
        raise ValueError("nothing to draw a box around")
    return ExactBox(
        min(b.u0 for b in boxes), max(b.u1 for b in boxes), min(b.v0 for b in boxes), max(b.v1 for b in boxes)
    )


def as_floats(box: ExactBox) -> Box:
    """Return (u0, v0, u1, v1) as floats, the form that geometry takes."""
    return Box(float(box.u0), float(box.v0), float(box.u1), float(box.v1))
