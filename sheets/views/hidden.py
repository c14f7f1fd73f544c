"""Showing dashed what a dimension is taken to though others stand before it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from sheets.geometry.clip import clip_segment
from sheets.model.part import Part
from sheets.views.frames import as_floats, onto_view, sight_axis
from sheets.views.scene import outline_traces
from sheets.views.silhouettes import silhouette
from sheets.views.tidy import tidy
from sheets.views.view import Trace, View


def with_hidden(view: View, parts: Iterable[Part]) -> View:
    """Return the view with the outlines of these parts dashed, where no other line is drawn already."""
    frame = view.frame
    if frame is None:
        return view
    axis, _ = sight_axis(frame)
    around = as_floats(view.box)
    added: list[Trace] = []
    for part in parts:
        regions = (region.transformed(onto_view(frame)) for region in silhouette(part.solid, axis))
        for trace in outline_traces(regions, "hidden", part.key):
            runs = (run for segment in trace.path for run in clip_segment(segment, around))
            added.extend(Trace((run,), "hidden", part.key) for run in runs)
    return replace(view, lines=tidy((*view.lines, *added))) if added else view
