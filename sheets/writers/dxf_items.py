"""Strokes, areas and lettering as DXF entities: true arcs, real hatches, text that stays text."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import cos, degrees, fsum, pi, radians, sin, tan
from typing import Any

from ezdxf.colors import BYLAYER
from ezdxf.enums import TextEntityAlignment

from sheets.base.tolerance import SAME_POINT
from sheets.drawing.hatches import HATCHES, clear_of_gaps, turned_family
from sheets.drawing.items import Area, Stroke, Text
from sheets.drawing.lettering import settable
from sheets.drawing.pens import Where, style
from sheets.geometry.path import Arc, Line, Loop, Point, Segment, Similarity
from sheets.geometry.region import Region
from sheets.writers.dxf_tables import TEXT_STYLES, Tables

Vertex = tuple[float, float, float]
"""x, y and the bulge of the side that leaves it: tan(sweep / 4)."""

_FULL = 2 * pi - 1e-9
_SOLID_CORNERS = (3, 4)
ALIGNMENTS = {
    ("left", "baseline"): TextEntityAlignment.LEFT,
    ("centre", "baseline"): TextEntityAlignment.CENTER,
    ("right", "baseline"): TextEntityAlignment.RIGHT,
    ("left", "middle"): TextEntityAlignment.MIDDLE_LEFT,
    ("centre", "middle"): TextEntityAlignment.MIDDLE_CENTER,
    ("right", "middle"): TextEntityAlignment.MIDDLE_RIGHT,
}
_MIDDLES = {"left": 4, "centre": 5, "right": 6}  # attachment points of an MTEXT at mid height
_STACKED = 0.7  # height of a stacked fraction's digits over the text's


@dataclass(frozen=True, slots=True)
class Space:
    """Where entities go: a layout or block, the map from paper mm to its units, and the kind of view."""

    layout: Any
    place: Similarity
    kind: Where
    tables: Tables

    def length(self, paper: float) -> float:
        """Return a paper length, mm, in the space's units."""
        return paper * self.place.scale


def draw(space: Space, items: Iterable[Stroke | Area | Text]) -> None:
    """Add items to a space in their order."""
    for item in items:
        match item:
            case Stroke():
                _stroke(space, item)
            case Area():
                _area(space, item)
            case Text():
                _text(space, item)


def _stroke(space: Space, stroke: Stroke) -> None:
    if not stroke.path:
        return
    attributes = space.tables.attributes(stroke.pen, space.kind)
    if style(stroke.pen, space.kind).dash:
        # Full-size dashes, so that they are as long on paper whichever way a program shows them.
        attributes["ltscale"] = space.length(space.tables.unit)
    path = [segment.transformed(space.place) for segment in stroke.path]
    circle = _circle(path)
    if circle:
        space.layout.add_circle(circle.centre, circle.radius, dxfattribs=attributes)
    elif len(path) == 1 and isinstance(path[0], Line):
        space.layout.add_line(path[0].a, path[0].b, dxfattribs=attributes)
    elif len(path) == 1 and isinstance(path[0], Arc):
        arc = path[0] if path[0].sweep > 0 else path[0].reversed()
        start = degrees(arc.start) % 360
        space.layout.add_arc(arc.centre, arc.radius, start, start + degrees(arc.sweep), dxfattribs=attributes)
    else:
        closed = stroke.closed or _near(path[0].first, path[-1].last)
        vertices = _vertices(path)
        if not closed:
            vertices.append((*path[-1].last, 0.0))
        space.layout.add_lwpolyline(vertices, format="xyb", close=closed, dxfattribs=attributes)


def _circle(path: list[Segment]) -> Arc | None:
    # Arcs of one circle that go all the way round.
    first = path[0]
    if not isinstance(first, Arc) or abs(fsum(s.sweep for s in path if isinstance(s, Arc))) < _FULL:
        return None
    alike = all(
        isinstance(s, Arc) and _near(s.centre, first.centre) and abs(s.radius - first.radius) < SAME_POINT
        for s in path
    )
    return first if alike else None


def _vertices(path: Iterable[Segment]) -> list[Vertex]:
    return [(*s.first, tan(s.sweep / 4) if isinstance(s, Arc) else 0.0) for s in path]


def _area(space: Space, area: Area) -> None:
    regions = clear_of_gaps(area)
    if not regions:
        return
    if area.fill is not None:
        _filled(space, regions, area.fill)
    if area.hatch:
        _hatched(space, regions, area)


def _filled(space: Space, regions: tuple[Region, ...], grey: float) -> None:
    attributes = space.tables.attributes("hatch", space.kind)
    if grey >= 1.0:
        # White on paper: it hides what is under it, whatever the colour of the screen.
        for region in regions:
            points = [space.place(p) for p in region.outer.flatten(0.05)]
            space.layout.add_wipeout(points, dxfattribs=attributes)
        return
    level = round(255 * grey)
    attributes["color"] = 7
    if len(regions) == 1 and not regions[0].holes and grey == 0.0:
        corners = regions[0].outer.vertices
        straight = all(isinstance(s, Line) for s in regions[0].outer.segments)
        if straight and len(corners) in _SOLID_CORNERS:
            spots = [space.place(p) for p in corners]
            # A SOLID's third and fourth corners are crossed over.
            order = spots if len(spots) == 3 else [spots[0], spots[1], spots[3], spots[2]]
            space.layout.add_solid(order, dxfattribs=attributes)
            return
    hatch = space.layout.add_hatch(dxfattribs=attributes)
    _boundary(hatch, space, regions)
    if level:
        hatch.rgb = (level, level, level)


def _hatched(space: Space, regions: tuple[Region, ...], area: Area) -> None:
    pattern = HATCHES[area.hatch]
    attributes = space.tables.attributes(pattern.pen, space.kind)
    hatch = space.layout.add_hatch(dxfattribs=attributes)
    scale = space.place.scale
    definition = []
    for family in pattern.families:
        angle, base, offset, dashes = turned_family(family, area.angle, area.pitch, area.origin)
        definition.append(
            [
                angle,
                space.place(base),
                (offset[0] * scale, offset[1] * scale),
                [d * scale for d in dashes],
            ]
        )
    name = area.hatch.upper().replace(" ", "-")
    # Left to itself the library makes a pattern black.
    colour = attributes.get("color", BYLAYER)
    hatch.set_pattern_fill(name, colour, scale=1.0, angle=0.0, definition=definition, pattern_type=2)
    _boundary(hatch, space, regions)


def _boundary(hatch: Any, space: Space, regions: Iterable[Region]) -> None:
    for region in regions:
        for k, loop in enumerate(region.loops):
            placed = Loop(tuple(s.transformed(space.place) for s in loop.segments))
            flags = 1 if k == 0 else 16  # external, or a hole
            hatch.paths.add_polyline_path(_vertices(placed.segments), is_closed=True, flags=flags)


def _text(space: Space, text: Text) -> None:
    if not text.runs or not text.plain.strip():
        return
    attributes = space.tables.attributes(text.pen, space.kind)
    attributes["style"] = TEXT_STYLES[text.weight]
    if text.grey >= 0.25:
        # No indexed colour is as light as a mark that everything lies over; 9 is for what knows no other.
        level = round(255 * text.grey)
        attributes |= {"color": 9, "true_color": level << 16 | level << 8 | level}
    if any(run.denominator for run in text.runs):
        _stacked(space, text, attributes)
        return
    attributes |= text_look(space, text)
    entity = space.layout.add_text(single_line(text), dxfattribs=attributes)
    entity.set_placement(space.place(text.at), align=ALIGNMENTS[text.h, text.v])


def text_look(space: Space, text: Text) -> dict[str, Any]:
    """Return height, turn and width factor of a line of text as DXF attributes."""
    look: dict[str, Any] = {"height": space.length(text.height), "rotation": text.angle}
    look["width"] = text.squeeze
    return look


def single_line(text: Text) -> str:
    """Return a text as the content of a TEXT or an attribute, where two per cent signs begin a code."""
    return settable(text.plain).replace("%%", "% %")


def _stacked(space: Space, text: Text, attributes: dict[str, Any]) -> None:
    # An MTEXT hangs by its middle: a baseline is half the capitals lower.
    x, y = text.at
    if text.v == "baseline":
        turn = radians(text.angle)
        x, y = x - sin(turn) * text.height / 2, y + cos(turn) * text.height / 2
    attributes |= {
        "insert": space.place((x, y)),
        "char_height": space.length(text.height),
        "rotation": text.angle,
        "attachment_point": _MIDDLES[text.h],
    }
    space.layout.add_mtext(multi_line(text), dxfattribs=attributes)


def multi_line(text: Text) -> str:
    r"""Return a text as the content of an MTEXT: a fraction stacked as {\H0.7x;\S1/2;}, bar at mid height."""
    words = "\\A1;" + (f"\\W{text.squeeze:.3g};" if text.squeeze != 1.0 else "")
    before = ""
    for run in text.runs:
        if run.denominator:
            # The space keeps 5'-2 1/2" apart from 5'-21/2" for whoever reads the text without its codes.
            words += " " if before[-1:].isdigit() else ""
            words += f"{{\\H{_STACKED}x;\\S{run.numerator}/{run.denominator};}}"
        else:
            plain = settable(run.text)
            words += plain.replace("\\", "\\\\").replace("{", "\\{").replace("}", "\\}").replace("^", "^ ")
        before = run.text
    return words


def _near(a: Point, b: Point) -> bool:
    return abs(a[0] - b[0]) < SAME_POINT and abs(a[1] - b[1]) < SAME_POINT
