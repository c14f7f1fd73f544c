"""The direction of sight of a view's frame, and a look along it."""

from __future__ import annotations

from sheets.geometry.sight import Sight
from sheets.geometry.solid import Point3
from sheets.model.part import AXES, Axis
from sheets.views.frames import sight_axis
from sheets.views.view import Frame


def sight_of(frame: Frame) -> Sight:
    """Return the sight whose right and up are the frame's u and v."""
    axis, toward = sight_axis(frame)
    return Sight(
        right=_along(frame.u_axis, frame.u_sign),
        up=_along(frame.v_axis, frame.v_sign),
        toward=_along(axis, toward),
    )


def _along(axis: Axis, sign: int) -> Point3:
    x, y, z = (float(sign) if axis == other else 0.0 for other in AXES)
    return x, y, z
