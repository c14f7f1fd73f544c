"""Looking at parts through a frame: cut faces, edges, textures, and where each part shows."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from sheets.geometry.box import Box
from sheets.geometry.clip import clip_segment
from sheets.geometry.cutting import halve, section
from sheets.geometry.joining import clip_to_box, difference
from sheets.geometry.path import Segment
from sheets.geometry.region import Region
from sheets.geometry.sight import Sighted
from sheets.geometry.solid import Solid
from sheets.geometry.visibility import look
from sheets.model.part import Part
from sheets.views.frames import as_floats, box_of, meet, onto_view, sight_axis
from sheets.views.roles import role_beyond, role_seen, segments
from sheets.views.sights import sight_of
from sheets.views.silhouettes import silhouette
from sheets.views.spots import seen_parts
from sheets.views.tidy import tidy
from sheets.views.view import CutFace, ExactBox, FaceTexture, Frame, GrainSeen, LineRole, Seen, Trace


@dataclass(frozen=True, slots=True)
class Scene:
    """All that parts give to a view."""

    lines: tuple[Trace, ...]
    cuts: tuple[CutFace, ...]
    textures: tuple[FaceTexture, ...]
    seen: tuple[Seen, ...]


@dataclass(frozen=True, slots=True)
class Kept:
    """A part on the far side of the cut: what is left of its solid, its cut faces in view coordinates."""

    part: Part
    solid: Solid
    box: ExactBox
    faces: tuple[Region, ...]


def look_at(
    parts: Iterable[Part],
    frame: Frame,
    window: ExactBox,
    *,
    extra: Iterable[Trace] = (),
    wants_hidden: Callable[[Part, Sighted, ExactBox], bool] | None = None,
) -> Scene:
    """Return what a frame shows of these parts within a window (view coordinates, mm).

    extra: lines that are drawn with those of the parts, as the room's outline. wants_hidden: which edges
    behind other parts are shown dashed.
    """
    kept = keep(parts, frame, window)
    cut = any(one.faces for one in kept)
    pieces = look([one.solid for one in kept], sight_of(frame), hidden=wants_hidden is not None)
    around = as_floats(window)
    traces = [*_within(extra, around), *_outlines(kept, around)]
    for piece in pieces:
        one = kept[piece.index]
        role = _role(piece, one, cut, wants_hidden)
        if role is not None:
            traces.extend(
                Trace((run,), role, one.part.key)
                for segment in segments(piece)
                for run in clip_segment(segment, around)
            )
    faces = [clip_to_box(one.faces, around) if one.faces else () for one in kept]
    cuts = tuple(
        CutFace(shown, one.part.key, one.part.material.look, grain_seen(one.part, frame))
        for one, shown in zip(kept, faces, strict=True)
        if shown
    )
    return Scene(
        tidy(traces),
        cuts,
        _textures(kept, frame, window),
        seen_parts(
            [(one.part, shown, one.box) for one, shown in zip(kept, faces, strict=True)], frame, window
        ),
    )


def keep(parts: Iterable[Part], frame: Frame, window: ExactBox) -> tuple[Kept, ...]:
    """Return the parts that reach into the window on the far side of the cut, with their cut faces."""
    found: list[Kept] = []
    axis, toward = sight_axis(frame)
    change = onto_view(frame)
    for part in parts:
        box = box_of(part.extent, frame)
        if meet(box, window) is None:
            continue
        if frame.cut_at is None:
            found.append(Kept(part, part.solid, box, ()))
            continue
        low, high = part.extent.span(axis)
        at = frame.cut_at
        if (low >= at) if toward > 0 else (high <= at):
            continue
        if low < at < high:
            rest = halve(part.solid, axis, float(at), -toward)
            faces = tuple(r.transformed(change) for r in section(part.solid, axis, float(at), -toward))
            if rest is not None:
                found.append(Kept(part, rest, box, faces))
        else:
            found.append(Kept(part, part.solid, box, ()))
    return tuple(found)


def grain_seen(part: Part, frame: Frame) -> GrainSeen | None:
    """Return how the grain of a part meets the eye in a view; None for what has none."""
    if part.grain is None:
        return None
    if part.grain == frame.u_axis:
        return "u"
    return "v" if part.grain == frame.v_axis else "end"


def outline_traces(regions: Iterable[Region], role: LineRole, part: str) -> list[Trace]:
    """Return the borders of regions as lines."""
    return [
        Trace((segment,), role, part)
        for region in regions
        for loop in region.loops
        for segment in loop.segments
    ]


def _role(
    piece: Sighted, one: Kept, cut: bool, wants_hidden: Callable[[Part, Sighted, ExactBox], bool] | None
) -> LineRole | None:
    if not piece.visible:
        return "hidden" if wants_hidden is not None and wants_hidden(one.part, piece, one.box) else None
    return role_beyond(piece, one.box) if cut else role_seen(piece, one.box, one.part)


def _within(traces: Iterable[Trace], around: Box) -> list[Trace]:
    runs: list[tuple[Segment, Trace]] = [
        (run, trace) for trace in traces for segment in trace.path for run in clip_segment(segment, around)
    ]
    return [Trace((run,), trace.role, trace.part) for run, trace in runs]


def _outlines(kept: Iterable[Kept], around: Box) -> list[Trace]:
    # Clipped as lines, not as regions: where a window cuts through a part there is a break, no edge.
    return _within(
        (trace for one in kept for trace in outline_traces(one.faces, "cut", one.part.key)), around
    )


def _textures(kept: tuple[Kept, ...], frame: Frame, window: ExactBox) -> tuple[FaceTexture, ...]:
    axis, _ = sight_axis(frame)
    change = onto_view(frame)
    fronts = [_front(one.part, frame) for one in kept]
    boxes = [as_floats(one.box) for one in kept]

    @cache  # one part may shade many
    def outline(k: int) -> tuple[Region, ...]:
        return tuple(region.transformed(change) for region in silhouette(kept[k].solid, axis))

    found: list[FaceTexture] = []
    for k, one in enumerate(kept):
        if one.faces or not _is_textured(one.part, frame):
            continue
        nearer = [n for n, front in enumerate(fronts) if front > fronts[k] and boxes[n].overlaps(boxes[k])]
        shades = [region for n in nearer for region in outline(n)]
        shown = clip_to_box(difference(outline(k), shades), as_floats(window))
        if shown:
            found.append(
                FaceTexture(shown, one.part.key, one.part.material.look, grain_seen(one.part, frame))
            )
    return tuple(found)


def _is_textured(part: Part, frame: Frame) -> bool:
    # Stone wherever it is seen; the grain of wood in the elevation alone, where the eye judges it.
    if part.material.kind == "wood":
        return frame.cut_at is None and grain_seen(part, frame) in ("u", "v")
    return part.material.kind == "masonry"


def _front(part: Part, frame: Frame) -> Fraction:
    axis, toward = sight_axis(frame)
    low, high = part.extent.span(axis)
    return high if toward > 0 else -low
