"""A window on one build-up, drawn large."""

from __future__ import annotations

from fractions import Fraction

from sheets.model.part import Part
from sheets.model.wall import Feature, Wall
from sheets.views.frames import box_of, frame_of_cut, sight_axis
from sheets.views.room_outline import elevation_outline, has_room, plan_outline, section_outline
from sheets.views.scene import look_at
from sheets.views.view import Frame, Trace, View

# How far beyond the cut a detail still shows what there is: past that it tells nothing of the joint.
_BEYOND = Fraction(350)  # mm


def detail(wall: Wall, feature: Feature, view_id: str, also: tuple[str, ...] = ()) -> View:
    """Return the detail of a feature: its window cut square to its axis, with what lies just beyond.

    A feature looked at from in front of all its parts is a face view, drawn as an elevation is.
    """
    frame = frame_of_cut(feature.axis, feature.at, feature.toward)
    window = box_of(feature.window, frame)
    subjects = set(feature.subjects)
    parts = [part for part in wall.parts if part.key in subjects or _is_near(part, frame)]
    scene = look_at(parts, frame, window, extra=() if has_room(wall.parts) else _room(wall, frame))
    return View(
        view_id,
        "detail",
        feature.title,
        feature.owner,
        frame,
        window,
        scene.lines,
        scene.cuts,
        scene.textures,
        scene.seen,
        window=True,
        says=feature.says,
        subjects=feature.subjects,
        also=also,
    )


def _is_near(part: Part, frame: Frame) -> bool:
    axis, toward = sight_axis(frame)
    at = frame.cut_at
    if at is None:
        return True
    low, high = part.extent.span(axis)
    return (at - high if toward > 0 else low - at) <= _BEYOND


def _room(wall: Wall, frame: Frame) -> tuple[Trace, ...]:
    far = 1e4  # the window clips it
    if frame.cut_axis == "x":
        return section_outline(wall.room, frame.cut_at or Fraction(0), far, frame.u_sign)
    if frame.cut_axis == "z":
        return plan_outline(wall.room, far) if frame.v_sign < 0 else ()
    return elevation_outline(wall.room) if frame.u_sign > 0 else ()
