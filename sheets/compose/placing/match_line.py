"""A view too wide for its sheet, drawn in parts that meet at match lines. Coordinates of the view, full
size, mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from sheets.annotate.intent import Annotated, CutMark, DimString, Gap
from sheets.base.notation import format_length
from sheets.compose.placing.manner import Manner
from sheets.geometry.box import Box
from sheets.geometry.clip import clip_segment
from sheets.geometry.joining import clip_to_box
from sheets.views.view import CutFace, ExactBox, FaceTexture, Seen, Trace, View

MOST_PARTS = 4
"""A view that needs more parts than this is asked to go on a larger sheet."""

Ends = tuple[tuple[str, str], ...]
"""Sides of a part ("left", "right") at which it goes on, each with the id of the part it goes on in."""


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a divided view, and where it goes on."""

    annotated: Annotated
    ends: Ends


def divided(annotated: Annotated, count: int, manner: Manner) -> tuple[Part, ...]:
    """Return a view in equal parts from left to right, each with what is said of it.

    A dimension that reaches across a match line is told in a note under each part that it touches: it has
    its two ends on different sheets.
    """
    view = annotated.view
    u0, wide = view.box.u0, view.box.u1 - view.box.u0
    inner = [_clear_of_marks(annotated, u0 + wide * k / count, wide / count) for k in range(1, count)]
    edges = [u0, *inner, view.box.u1]
    ids = [view.id if k == 0 else f"{view.id}/part-{k + 1}" for k in range(count)]
    parts: list[Part] = []
    for k in range(count):
        low, high = edges[k], edges[k + 1]
        ends = [("left", ids[k - 1])] if k else []
        ends += [("right", ids[k + 1])] if k + 1 < count else []
        title = f"{view.title}, PART {k + 1} OF {count}"
        parts.append(
            Part(_part(annotated, low, high, ids[k], title, (k == 0, k + 1 == count), manner), tuple(ends))
        )
    return tuple(parts)


def _clear_of_marks(annotated: Annotated, at: Fraction, wide: Fraction) -> Fraction:
    # Moved off cutting lines and axes, which would run along the match line, by up to a quarter of a part.
    lines = [m.at for m in annotated.cut_marks if m.direction == "v"]
    lines += [a.at for a in annotated.axes if a.direction == "v"]
    clear = wide / 10
    for k in (0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5):
        moved = at + wide * k / 20
        if all(abs(moved - line) >= clear for line in lines):
            return moved
    return at


def _part(
    whole: Annotated,
    low: Fraction,
    high: Fraction,
    part_id: str,
    title: str,
    outer: tuple[bool, bool],
    manner: Manner,
) -> Annotated:
    def within(u: float) -> bool:
        return float(low) <= u <= float(high)

    strings, across = _strings(whole.strings, low, high, outer)
    said = tuple(f"ACROSS THE MATCH LINE: {format_length(g.b - g.a, manner.notation).plain}" for g in across)
    first = whole.notes if outer[0] else ()
    return replace(
        whole,
        view=_view(whole.view, low, high, part_id, title),
        strings=strings,
        arcs=tuple(a for a in whole.arcs if within(a.centre[0])),
        callouts=tuple(c for c in whole.callouts if within(c.target[0])),
        balloons=tuple(b for b in whole.balloons if within(b.target[0])),
        cut_marks=tuple(m for c in whole.cut_marks for m in _cut_mark(c, low, high)),
        detail_marks=tuple(d for d in whole.detail_marks if low <= (d.u0 + d.u1) / 2 <= high),
        axes=tuple(a for a in whole.axes if a.direction == "u" or low < a.at < high),
        notes=(*first, *dict.fromkeys(said)),
    )


def _view(view: View, low: Fraction, high: Fraction, part_id: str, title: str) -> View:
    box = ExactBox(low, high, view.box.v0, view.box.v1)
    frame = Box(float(low), float(box.v0), float(high), float(box.v1))
    lines = tuple(
        Trace((piece,), t.role, t.part)
        for t in view.lines
        for s in t.path
        for piece in clip_segment(s, frame)
    )
    cuts = tuple(
        CutFace(kept, f.part, f.material, f.grain)
        for f in view.cuts
        if (kept := clip_to_box(f.regions, frame))
    )
    textures = tuple(
        FaceTexture(kept, f.part, f.material, f.grain)
        for f in view.textures if (kept := clip_to_box(f.regions, frame))
    )  # fmt: skip
    seen = tuple(
        Seen(s.part, s.how, ExactBox(max(s.box.u0, low), min(s.box.u1, high), s.box.v0, s.box.v1), s.spot)
        for s in view.seen if s.box.u0 < high and s.box.u1 > low
    )  # fmt: skip
    return replace(
        view, id=part_id, title=title, box=box, lines=lines, cuts=cuts, textures=textures, seen=seen
    )


def _strings(
    strings: Sequence[DimString], low: Fraction, high: Fraction, outer: tuple[bool, bool]
) -> tuple[tuple[DimString, ...], list[Gap]]:
    kept: list[DimString] = []
    across: list[Gap] = []
    for string in strings:
        if string.direction == "v":
            # Heights stand at the outer ends alone, where they are measured.
            if outer[0 if string.side == "left" else 1]:
                kept.append(string)
            continue
        inside = tuple(g for g in string.gaps if min(g.a, g.b) >= low and max(g.a, g.b) <= high)
        across += [
            g for g in string.gaps
            if g not in inside and max(min(g.a, g.b), low) < min(max(g.a, g.b), high)
        ]  # fmt: skip
        if inside:
            kept.append(replace(string, gaps=inside))
    return tuple(kept), across


def _cut_mark(mark: CutMark, low: Fraction, high: Fraction) -> tuple[CutMark, ...]:
    if mark.direction == "v":
        return (mark,) if low <= mark.at <= high else ()
    start, end = max(min(mark.start, mark.end), low), min(max(mark.start, mark.end), high)
    return (replace(mark, start=start, end=end),) if start < end else ()
