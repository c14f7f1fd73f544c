"""Measuring between what a view shows: a dimension to a line that is not there tells nobody anything.

A stop of a string where nothing is drawn is shown dashed if a piece has its face there behind others, as a
case's sides under its cap are on the plan; if none has, the stop is left out and its two gaps become one.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from sheets.annotate.chains import without_repeats
from sheets.annotate.intent import Annotated, DimString, Gap
from sheets.annotate.places import Direction, has_face
from sheets.geometry.path import Arc
from sheets.model.part import Part
from sheets.views.hidden import with_hidden
from sheets.views.view import Seen, View

_NEAR = 0.01  # mm
_JOINT = 5.0  # mm: a joint is measured to its middle, which lies this far at most from both its edges


def between_what_shows(one: Annotated, by_key: Mapping[str, Part]) -> Annotated:
    """Return the view with strings that stop only at what is drawn, and dashed what has to be."""
    drawn: dict[Direction, list[float]] = {"u": _coordinates(one, "u"), "v": _coordinates(one, "v")}
    dashed: dict[str, Part] = {}
    strings: list[DimString] = []
    for string in one.strings:
        lost: set[Fraction] = set()
        for gap in string.gaps:
            for at in (gap.a, gap.b):
                if _is_drawn(drawn[string.direction], float(at)):
                    continue
                hidden = _hidden_at(one.view, string, gap, at, by_key)
                dashed |= {part.key: part for part in hidden}
                if not hidden:
                    lost.add(at)
        gaps = _without(string.gaps, lost) if lost else string.gaps
        if gaps:
            strings.append(replace(string, gaps=gaps))
    view = with_hidden(one.view, dashed.values()) if dashed else one.view
    # Two gaps joined over a line that is not drawn may be what another string measures.
    return replace(one, view=view, strings=without_repeats(strings))


def _coordinates(one: Annotated, direction: Direction) -> list[float]:
    k = 0 if direction == "u" else 1
    found: set[float] = set()
    for trace in one.view.lines:
        for segment in trace.path:
            found |= {segment.first[k], segment.last[k]}
            if isinstance(segment, Arc):
                box = segment.bounds
                found |= {box[k], box[k + 2]}
    found |= {float(line.at) for line in one.axes if (line.direction == "v") == (direction == "u")}
    return sorted(found)


def _is_drawn(coordinates: list[float], at: float) -> bool:
    k = bisect_left(coordinates, at)
    below = at - coordinates[k - 1] if k else None
    above = coordinates[k] - at if k < len(coordinates) else None
    if (above is not None and above < _NEAR) or (below is not None and below < _NEAR):
        return True
    return above is not None and below is not None and above < _JOINT and abs(above - below) < _NEAR


def _hidden_at(
    view: View, string: DimString, gap: Gap, at: Fraction, by_key: Mapping[str, Part]
) -> list[Part]:
    there: list[Seen] = [
        one for one in view.seen if one.part in by_key and has_face(one, string.direction, at)
    ]
    owner = string.id.partition("/")[2]
    owners = (*gap.parts, owner) if owner else gap.parts
    own = [one for one in there if any(_belongs(one.part, name) for name in owners)]
    return [by_key[one.part] for one in own]


def _belongs(key: str, owner: str) -> bool:
    return key == owner or key.startswith(owner + "/")


def _without(gaps: tuple[Gap, ...], lost: set[Fraction]) -> tuple[Gap, ...]:
    kept: list[Gap] = []
    start: Gap | None = None  # the first of the gaps that become one
    for gap in gaps:
        if start is not None and start.b != gap.a and start.b in lost:
            start = None  # the string has a hole here
        if start is None:
            start = gap if gap.a not in lost else None
            if start is None:
                continue
        else:
            start = replace(
                start,
                b=gap.b,
                foot_b=gap.foot_b,
                parts=tuple(dict.fromkeys((*start.parts, *gap.parts))),
                equal=False,
                verify=start.verify or gap.verify,
            )
        if gap.b not in lost:
            kept.append(start)
            start = None
    return tuple(kept)
