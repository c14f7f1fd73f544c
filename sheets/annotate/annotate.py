"""From views to annotated views: the order in which a drafter works."""

from __future__ import annotations

from dataclasses import replace

from sheets.annotate.arcs import arcs
from sheets.annotate.balloons import balloons, cut_marks, detail_marks
from sheets.annotate.build_ups import build_up
from sheets.annotate.chains import chains, ranked, without_repeats
from sheets.annotate.complete import complete
from sheets.annotate.intent import Annotated, AxisLine, Balloon
from sheets.annotate.notes import callouts, view_notes
from sheets.annotate.part_drawings import annotated_part
from sheets.annotate.places import parts_by_key
from sheets.annotate.shown import between_what_shows
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.views.hidden import with_hidden
from sheets.views.view import View


def annotate(wall: Wall, views: tuple[View, ...]) -> tuple[Annotated, ...]:
    """Return the views with all that is measured and said of them, in the order given, pieces by themselves
    last.

    Strings come from the stations; details measure their own build-ups; what is then still open is added
    (see `complete`), so that nothing has to be scaled off the paper.
    """
    by_key = parts_by_key(wall)
    pieces = tuple(annotated_part(wall, view, by_key) for view in views if view.kind == "part")
    return (*_of_the_wall(wall, tuple(view for view in views if view.kind != "part"), by_key), *pieces)


def _of_the_wall(wall: Wall, views: tuple[View, ...], by_key: dict[str, Part]) -> tuple[Annotated, ...]:
    from_stations = chains(wall, views)
    radii, arc_strings = arcs(wall, views, from_stations)
    sets = tuple(
        Annotated(
            view,
            strings=without_repeats(
                (
                    *from_stations.get(view.id, ()),
                    *arc_strings.get(view.id, ()),
                    *build_up(wall, view, by_key),
                )
            ),
            arcs=radii.get(view.id, ()),
            axes=_axes(wall, view),
            notes=view_notes(wall, view),
        )
        for view in views
    )
    sets = complete((between_what_shows(one, by_key) for one in sets), wall)
    sets = tuple(between_what_shows(one, by_key) for one in sets)
    marks = balloons(views, by_key)
    rings = detail_marks(views)
    said = callouts(wall, sets, by_key)
    return tuple(
        replace(
            one,
            view=_with_marked(one.view, marks.get(one.view.id, ()), by_key),
            strings=ranked(one.strings),
            callouts=said.get(one.view.id, ()),
            balloons=marks.get(one.view.id, ()),
            cut_marks=cut_marks(one.view, views),
            detail_marks=rings.get(one.view.id, ()),
        )
        for one in sets
    )


def _with_marked(view: View, balloons: tuple[Balloon, ...], by_key: dict[str, Part]) -> View:
    # A piece that no view shows is marked where it lies hidden, and its outline drawn there.
    hidden = {one.part for one in view.seen if one.how == "hidden"}
    parts = [by_key[balloon.part] for balloon in balloons if balloon.part in hidden]
    return with_hidden(view, parts) if parts else view


def _axes(wall: Wall, view: View) -> tuple[AxisLine, ...]:
    frame = view.frame
    if frame is None or view.kind == "axonometric":
        return ()
    placed = frame.to_view("x", 0 * wall.room.width)
    if placed is None:
        return ()
    box = view.box
    if placed[0] == "u":
        return (AxisLine("v", placed[1]),) if box.u0 < placed[1] < box.u1 else ()
    return (AxisLine("u", placed[1]),) if box.v0 < placed[1] < box.v1 else ()
