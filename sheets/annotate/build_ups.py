"""Strings of a detail, from the faces of its subjects: layers, overhangs, setbacks, profiles."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise

from sheets.annotate.intent import DimString, Gap, Side
from sheets.annotate.places import Direction, across, corners, foot, in_box, nearer_side, places, span
from sheets.annotate.typical import series
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.views.frames import box_of
from sheets.views.view import CutFace, Seen, View

_MOST = 12  # dimensions in one string of a detail: past that the boards repeat and one of them says it all
_MOST_PROFILE = 9
_FINEST = Fraction(1, 5)  # mm: less is no size a joiner cuts


def build_up(wall: Wall, view: View, by_key: Mapping[str, Part]) -> tuple[DimString, ...]:
    """Return the strings of a detail: profiles nearest, then the layers, then their sum.

    Only whole faces within the window are used: what the window cuts through is not measured.
    """
    if view.kind != "detail" or view.frame is None:
        return ()
    found: list[DimString] = []
    for direction in _directions():
        found.extend(_profiles(view, by_key, direction))
        found.extend(_layers(wall, view, dict(by_key), direction))
    return tuple(found)


def _directions() -> tuple[Direction, Direction]:
    return "u", "v"


def _layers(wall: Wall, view: View, by_key: dict[str, Part], direction: Direction) -> list[DimString]:
    subjects = set(view.subjects)
    shown = [p for p in places(view, by_key, direction) if p.part in subjects and p.how != "hidden"]
    if len({p.at for p in shown}) > _MOST:
        shown = [p for p in shown if p.how == "cut"]
    owners: dict[Fraction, list[str]] = {}
    for place in shown:
        owners.setdefault(place.at, []).append(place.part)
    for line in (*_datums(view, direction), *_set_out(wall, view, direction)):
        owners.setdefault(line, [])
    stops = sorted(owners)[: _MOST + 1]
    if len(stops) < 2 or not any(owners.values()):
        return []
    side = _side(view, direction, subjects)
    gaps = tuple(
        _gap(view, direction, side, a, b, tuple(dict.fromkeys((*owners[a][:1], *owners[b][:1]))))
        for a, b in pairwise(stops)
        if b - a >= _FINEST
    )
    strings = [DimString(f"layers-{direction}", direction, side, 1, gaps)] if gaps else []
    if len(gaps) > 2:
        whole = _gap(view, direction, side, stops[0], stops[-1], ())
        strings.append(DimString(f"sum-{direction}", direction, side, 2, (whole,)))
    return strings


def _datums(view: View, direction: Direction) -> list[Fraction]:
    # The wall face and the floor, where the window shows them: every layer is set out from there.
    frame = view.frame
    if frame is None:
        return []
    axis = frame.u_axis if direction == "u" else frame.v_axis
    return [Fraction(0)] if axis != "x" and in_box(view.box, direction, Fraction(0)) else []


def _set_out(wall: Wall, view: View, direction: Direction) -> list[Fraction]:
    # The lines that boards or bays are set out on, so that the detail says how far the pieces stand off them.
    frame = view.frame
    if frame is None:
        return []
    axis = frame.u_axis if direction == "u" else frame.v_axis
    lines = [
        frame.to_view(axis, line)
        for one in series(wall)
        if one.owner == view.subject and one.axis == axis and one.chain == "boards"
        for line in one.lines
    ]
    return sorted(
        {placed[1] for placed in lines if placed is not None and in_box(view.box, direction, placed[1])}
    )


def _profiles(view: View, by_key: Mapping[str, Part], direction: Direction) -> list[DimString]:
    frame = view.frame
    if frame is None:
        return []
    seen = {one.part: one for one in view.seen}
    done: set[tuple[object, ...]] = set()
    found: list[DimString] = []
    for face in sorted(view.cuts, key=lambda face: _clipped(face, seen, by_key, view)):
        part = by_key.get(face.part)
        if part is None or face.part not in view.subjects:
            continue
        alike = (part.role, part.thickness)
        string = _profile(view, face, seen[face.part], part, direction)
        if string is not None and alike not in done:
            done.add(alike)
            found.append(string)
    return found


def _profile(view: View, face: CutFace, one: Seen, part: Part, direction: Direction) -> DimString | None:
    frame = view.frame
    if frame is None:
        return None
    whole = span(box_of(part.extent, frame), direction)
    shown = span(one.box, direction)
    inner = sorted(
        c
        for c in corners(view, direction, part.key)
        if whole[0] + _FINEST < c < whole[1] - _FINEST and shown[0] < c < shown[1]
    )
    if not inner or len(inner) >= _MOST_PROFILE:
        return None
    ends = [end for end in whole if shown[0] <= end <= shown[1]]
    stops = sorted({*inner, *ends})
    cross = sum(across(one.box, direction), Fraction(0)) / 2
    side = nearer_side(view, direction, cross)
    gaps = [_gap(view, direction, side, a, b, (part.key,)) for a, b in pairwise(stops) if b - a >= _FINEST]
    if len(gaps) == 2 and len(ends) == 2:
        # One cut: its depth says all, what it leaves is not dimensioned.
        gaps = [min(gaps, key=lambda gap: (gap.b - gap.a, gap.a))]
    return DimString(f"profile-{direction}/{part.key}", direction, side, 0, tuple(gaps)) if gaps else None


def _clipped(
    face: CutFace, seen: Mapping[str, Seen], by_key: Mapping[str, Part], view: View
) -> tuple[bool, str]:
    part = by_key.get(face.part)
    if part is None or view.frame is None:
        return True, face.part
    return seen[face.part].box != box_of(part.extent, view.frame), face.part


def _side(view: View, direction: Direction, subjects: set[str]) -> Side:
    boxes = [one.box for one in view.seen if one.part in subjects and one.how != "hidden"]
    middles = [sum(across(box, direction), Fraction(0)) / 2 for box in boxes]
    return nearer_side(view, direction, sum(middles, Fraction(0)) / len(middles)) if middles else "below"


def _gap(
    view: View, direction: Direction, side: Side, a: Fraction, b: Fraction, parts: tuple[str, ...]
) -> Gap:
    return Gap(a, b, foot(view, direction, a, side), foot(view, direction, b, side), parts=parts)
