"""Arcs: radius on a leader, chord and rise as ordinary dimensions."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from fractions import Fraction
from math import pi

from sheets.annotate.intent import ArcDim, DimString, Gap
from sheets.annotate.places import Direction, exact, foot, nearer_side
from sheets.geometry.path import Arc
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.views.room_outline import ROOM, ceiling_curve
from sheets.views.view import View

_SAME_RADIUS_MM = 0.05  # an arc is found again by the radius that its chord and rise give
_KIND = {"detail": 0, "section": 1, "elevation": 2, "plan": 3}


def arcs(
    wall: Wall, views: tuple[View, ...], given: Mapping[str, tuple[DimString, ...]]
) -> tuple[dict[str, tuple[ArcDim, ...]], dict[str, tuple[DimString, ...]]]:
    """Return, by view id, the radii and the strings of chords and rises.

    The vault of the ceiling goes on the elevation; each shaped part on the view that shows the most of its
    arc at the largest scale, its mirrored twin and parts that share its mark not again. given: the strings
    that views have already; a rise that one of them says is not said again.
    """
    radii: dict[str, list[ArcDim]] = defaultdict(list)
    strings: dict[str, list[DimString]] = defaultdict(list)
    vault = ceiling_curve(wall.room)
    for view in views:
        if view.kind == "elevation" and vault is not None:
            radii[view.id].append(
                ArcDim("radius/ceiling", vault.centre, vault.radius, _angle(vault, 0.7), ROOM)
            )
            strings[view.id].extend(_vault_strings(wall, view))
    measured = {
        what for view in views for string in given.get(view.id, ()) for what in _measured(string, view)
    }
    done: set[str] = set()
    for part in wall.parts:
        if part.curve is None or part.maker == "room" or part.twin or (part.mark and part.mark in done):
            continue
        best = min(
            (found for found in (_shown(part, view) for view in views) if found is not None),
            key=lambda found: found[0],
            default=None,
        )
        if best is None:
            continue
        _, view, arc = best
        done.add(part.mark)
        radii[view.id].append(
            ArcDim(f"radius/{part.key}", arc.centre, arc.radius, _angle(arc, 0.5), part.key)
        )
        strings[view.id].extend(
            string
            for string in _chord_and_rise(part, view, arc)
            if string.id.startswith("chord") or not _measured(string, view) & measured
        )
    return {k: tuple(v) for k, v in radii.items()}, {k: tuple(v) for k, v in strings.items()}


def _measured(string: DimString, view: View) -> set[tuple[str, Fraction, Fraction]]:
    frame = view.frame
    if frame is None:
        return set()
    found: set[tuple[str, Fraction, Fraction]] = set()
    for gap in string.gaps:
        axis, a = frame.to_world(string.direction, gap.a)
        _, b = frame.to_world(string.direction, gap.b)
        found.add((axis, min(a, b), max(a, b)))
    return found


def _shown(part: Part, view: View) -> tuple[tuple[float, int, str], View, Arc] | None:
    curve = part.curve
    frame = view.frame
    if curve is None or frame is None or curve.across in (frame.u_axis, frame.v_axis):
        return None
    pieces = [
        segment
        for trace in view.lines
        if trace.part == part.key and trace.role not in ("hidden", "overhead")
        for segment in trace.path
        if isinstance(segment, Arc) and abs(segment.radius - curve.radius) <= _SAME_RADIUS_MM
    ]
    if not pieces:
        return None
    longest = max(pieces, key=lambda arc: (arc.length, arc.centre))
    share = min(1.0, longest.chord / float(curve.chord))
    return (-round(share, 2), _KIND[view.kind], view.id), view, longest


def _chord_and_rise(part: Part, view: View, arc: Arc) -> list[DimString]:
    curve = part.curve
    frame = view.frame
    seen = next((one for one in view.seen if one.part == part.key), None)
    if curve is None or frame is None or seen is None:
        return []
    # An arc of less than half a circle over a level or an upright chord; its ends are its exact corners.
    first, last = arc.first, arc.last
    level = abs(first[1] - last[1]) < abs(first[0] - last[0])
    k = 0 if level else 1
    low = min(first[k], last[k])
    start = exact(low)
    base = exact((first[1 - k] + last[1 - k]) / 2)
    outward = 1 if arc.centre[1 - k] < (first[1 - k] + last[1 - k]) / 2 else -1
    found: list[DimString] = []
    if abs(arc.chord - float(curve.chord)) < _SAME_RADIUS_MM:
        chord = (start, start + curve.chord)
        found.append(_string(view, f"chord/{part.key}", "u" if level else "v", chord, base, part.key))
    crown = base + outward * curve.rise
    middle = Fraction(round((first[k] + last[k]) / 2 * 64), 64)
    a, b = sorted((base, crown))
    found.append(_string(view, f"rise/{part.key}", "v" if level else "u", (a, b), middle, part.key))
    return found


def _string(
    view: View, name: str, direction: Direction, ends: tuple[Fraction, Fraction], cross: Fraction, part: str
) -> DimString:
    side = nearer_side(view, direction, cross)
    return DimString(name, direction, side, 0, (Gap(ends[0], ends[1], cross, cross, parts=(part,)),))


def _vault_strings(wall: Wall, view: View) -> list[DimString]:
    room = wall.room
    if room.spring is None:
        return []
    zero = Fraction(0)
    half = room.width / 2
    return [
        DimString(
            "ceiling",
            "v",
            "right",
            2,
            (
                Gap(zero, room.spring, half, half, parts=(ROOM,)),
                Gap(room.spring, room.height, half, foot(view, "v", room.height, "right"), parts=(ROOM,)),
            ),
        )
    ]


def _angle(arc: Arc, t: float) -> float:
    return (arc.start + arc.sweep * t) % (2 * pi)
