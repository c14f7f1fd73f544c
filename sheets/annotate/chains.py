"""Dimension strings from stations: each run goes to the view that shows it best, and nowhere else.

Overall sizes are the exception: a joiner wants them on the plan and on the elevation alike.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from fractions import Fraction
from itertools import pairwise

from sheets.annotate.intent import DimString, Gap, Side
from sheets.annotate.places import Direction, across, arc_ends, corners, foot, has_face, in_box, nearer_side
from sheets.annotate.runs import Run, runs
from sheets.model.part import Axis
from sheets.model.wall import Wall
from sheets.views.view import View

# Which kind of view shows a run along an axis best. Cases are read on the plan, which cuts them; what hangs
# on the wall above the cut, as a mantel or a cap, on the elevation.
_PREFERRED: dict[Axis, tuple[str, ...]] = {
    "x": ("plan", "elevation", "detail"),
    "y": ("detail", "section", "plan"),
    "z": ("detail", "section", "elevation"),
}
# How far a cap overhangs and a breast stands proud is read on the plan, beside what they stand out from.
_IN_PLAN = ("cap-width", "breast")
_FINE = Fraction(12)  # mm
_ABOVE: tuple[str, ...] = ("elevation", "plan", "detail")
_MAJOR: dict[Axis, tuple[str, ...]] = {
    "x": ("elevation", "plan"),
    "y": ("plan", "section"),
    "z": ("elevation", "section"),
}
_OVERALL: dict[Axis, tuple[str, ...]] = {"x": ("elevation", "plan"), "y": (), "z": ("elevation", "section")}


def chains(wall: Wall, views: tuple[View, ...]) -> Mapping[str, tuple[DimString, ...]]:
    """Return the strings of each view by its id, from stations alone; ranks are not final (see `ranked`)."""
    found: dict[str, list[DimString]] = defaultdict(list)
    for run in runs(wall):
        for view in _views_for(run, wall, views):
            string = string_in(run, wall, view)
            if string is not None:
                found[view.id].append(string)
    return {key: without_repeats(sorted(strings, key=_fullest)) for key, strings in found.items()}


def _fullest(string: DimString) -> tuple[int, int]:
    # Of two strings of one rank that measure the same, the longer chain keeps it: it would have a hole else.
    return -string.rank, -len(string.gaps)


def string_in(run: Run, wall: Wall, view: View) -> DimString | None:
    """Return the run as a string of this view, or None if the view does not show two of its stops."""
    frame = view.frame
    if frame is None:
        return None
    places: list[tuple[Fraction, bool, bool, tuple[str, ...]]] = []
    direction: Direction | None = None
    for stop in run.stops:
        placed = frame.to_view(run.axis, stop.at)
        if placed is None:
            return None
        direction = placed[0]
        if in_box(view.box, placed[0], placed[1]):
            places.append((placed[1], stop.equal, stop.verify, stop.owners))
    if len(places) < 2 or direction is None:
        return None
    flipped = (frame.u_sign if direction == "u" else frame.v_sign) < 0
    side = _side(run, wall, view, direction)
    ordered = sorted(places)
    gaps = []
    for here, there in pairwise(ordered):
        # What a station says about its bay belongs to the bay that ends there, seen along the world axis.
        end = here if flipped else there
        gaps.append(
            Gap(
                here[0],
                there[0],
                foot(view, direction, here[0], side),
                foot(view, direction, there[0], side),
                parts=tuple(dict.fromkeys((*here[3], *there[3]))),
                equal=end[1],
                verify=end[2],
            )
        )
    rank = {"minor": 0, "major": 1, "overall": 2}[run.rank]
    return DimString(run.id, direction, side, rank, tuple(gaps))


def without_repeats(strings: Iterable[DimString]) -> tuple[DimString, ...]:
    """Return the strings without a dimension that an earlier one of them already gives."""
    given: set[tuple[str, Fraction, Fraction]] = set()
    kept: list[DimString] = []
    for string in strings:
        gaps = []
        for gap in string.gaps:
            what = (string.direction, gap.a, gap.b)
            if what not in given:
                given.add(what)
                gaps.append(gap)
        if gaps:
            kept.append(DimString(string.id, string.direction, string.side, string.rank, tuple(gaps)))
    return tuple(kept)


def ranked(strings: Iterable[DimString]) -> tuple[DimString, ...]:
    """Return the strings with their final ranks: on each side the small ones nearest, the overall outermost.

    Strings of one kind that lie clear of each other share a line, as those of several cases do.
    """
    out: list[DimString] = []
    sides: dict[tuple[str, Side], list[DimString]] = defaultdict(list)
    for string in strings:
        sides[(string.direction, string.side)].append(string)
    for key in sorted(sides):
        longest: dict[tuple[int, str], Fraction] = {}
        for string in sides[key]:
            kind = (string.rank, _kind(string))
            longest[kind] = max(longest.get(kind, Fraction(0)), string.gaps[-1].b - string.gaps[0].a)
        lines: list[tuple[int, list[DimString]]] = []
        for string in sorted(sides[key], key=lambda s: (s.rank, longest[(s.rank, _kind(s))], _kind(s), s.id)):
            line = next((held for rank, held in lines if rank == string.rank and _clear(string, held)), None)
            if line is None:
                lines.append((string.rank, [string]))
            else:
                line.append(string)
        for number, (_, held) in enumerate(lines):
            out.extend(DimString(s.id, s.direction, s.side, number, s.gaps) for s in held)
    return tuple(out)


def _kind(string: DimString) -> str:
    return string.id.split("/", 1)[0]


def _views_for(run: Run, wall: Wall, views: tuple[View, ...]) -> tuple[View, ...]:
    shows = [view for view in views if _shows(run, view)]
    if run.rank == "overall":
        wanted = _OVERALL[run.axis]
        chosen = [view for view in shows if view.kind in wanted]
        firsts = [next((view for view in chosen if view.kind == kind), None) for kind in wanted]
        return tuple(view for view in firsts if view is not None) if run.axis == "x" else tuple(chosen[:1])
    component = wall.component_of(run.owner) if run.owner else None
    if run.rank == "major":
        order = _MAJOR[run.axis]
        ranked_views = [
            ((order.index(v.kind), -_stops_met(run, v)), n) for n, v in enumerate(shows) if v.kind in order
        ]
        return (shows[min(ranked_views)[1]],) if ranked_views else ()
    if run.axis == "x" and _too_fine(run):
        return ()
    order = _PREFERRED[run.axis]
    if run.name.startswith(_IN_PLAN):
        order = ("plan", *(kind for kind in order if kind != "plan"))
    elif run.axis == "x" and (component is None or component.kind.widths_in == "elevation"):
        order = _ABOVE
    scored = []
    for n, view in enumerate(shows):
        own = component is not None and view.subject == component.key
        if view.kind in order and (view.kind != "detail" or own):
            unmet = len(run.stops) - _stops_met(run, view)
            scored.append((((unmet, 0 if own else 1, order.index(view.kind))), n))
    return (shows[min(scored)[1]],) if scored else ()


def _too_fine(run: Run) -> bool:
    # On a view of the whole wall such a size is a dot: it is left to a detail, or to where it is missed.
    return min(b.at - a.at for a, b in pairwise(run.stops)) < _FINE


def _shows(run: Run, view: View) -> bool:
    frame = view.frame
    if frame is None:
        return False
    placed = [frame.to_view(run.axis, stop.at) for stop in run.stops]
    inside = [one is not None and in_box(view.box, one[0], one[1]) for one in placed]
    return all(inside)


def _stops_met(run: Run, view: View) -> int:
    # How many stops are a face of something that is cut or seen here; in a detail a corner of it as well, on
    # the elevation the end of an arc.
    frame = view.frame
    if frame is None:
        return 0
    met = 0
    for stop in run.stops:
        placed = frame.to_view(run.axis, stop.at)
        if placed is not None:
            direction, at = placed
            seen = any(one.how != "hidden" and has_face(one, direction, at) for one in view.seen)
            met += (
                seen
                or (view.kind == "detail" and at in corners(view, direction))
                or (view.kind == "elevation" and at in arc_ends(view, direction))
            )
    return met


def _side(run: Run, wall: Wall, view: View, direction: Direction) -> Side:
    frame = view.frame
    if direction == "u":
        if run.rank == "minor" and view.kind != "section":
            return _by_faces(run, view, direction)
        return "below"
    if view.kind == "section" and frame is not None:
        # On the side of the room: the other side is the wall.
        return "right" if frame.u_sign > 0 else "left"
    component = wall.component_of(run.owner) if run.owner else None
    if component is not None and view.kind in ("elevation", "plan"):
        return "right" if component.extent.middle("x") > 0 else "left"
    return "right" if run.level in ("right cases", "middle", "mantel") else "left"


def _by_faces(run: Run, view: View, direction: Direction) -> Side:
    # A string lies on the side that the faces it measures are nearer to.
    frame = view.frame
    if frame is None:
        return "below"
    middles: list[Fraction] = []
    for stop in run.stops:
        placed = frame.to_view(run.axis, stop.at)
        if placed is not None:
            middles += [
                sum(across(one.box, direction), Fraction(0)) / 2
                for one in view.seen
                if one.how != "hidden"
                and one.part.startswith(run.owner)
                and has_face(one, direction, placed[1])
            ]
    return nearer_side(view, direction, sum(middles, Fraction(0)) / len(middles)) if middles else "below"


def _clear(string: DimString, held: list[DimString]) -> bool:
    # A string may stand in the hole of another: posts to either hand of an arch's chord make one line.
    return all(
        gap.b <= other.a or other.b <= gap.a for one in held for other in one.gaps for gap in string.gaps
    )
