"""A sheet as a picture for looking at, a PNG. Lettering becomes shapes.

The same items in the same order as in the PDF. The file gets no date and no name.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from io import BytesIO
from math import cos, fsum, radians, sin
from typing import Any

import numpy as np
from matplotlib.artist import Artist
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.path import Path
from matplotlib.transforms import Affine2D, TransformedPath

from sheets.drawing.hatches import HATCHES, clear_of_gaps, lines_over
from sheets.drawing.items import Area, Sheet, Stroke, Text, Weight
from sheets.drawing.lettering import Glyphs, font_size, glyph_runs, width
from sheets.drawing.pens import Where, style
from sheets.drawing.walk import leaves
from sheets.geometry.path import Line, Point, Segment
from sheets.geometry.region import Region
from sheets.writers.outlines import outline

DOTS_PER_INCH = 150
_MM_PER_INCH = 25.4
_POINTS = 72 / 25.4
_CHORD = 0.01  # mm that the chords of an arc stand off at most
_MOVE, _LINE, _CLOSE = int(Path.MOVETO), int(Path.LINETO), int(Path.CLOSEPOLY)
_CODES = {"move": _MOVE, "line": _LINE, "curve": int(Path.CURVE4), "close": _CLOSE}

Vertices = list[Point]
Codes = list[int]


def png(sheet: Sheet, dots_per_inch: int = DOTS_PER_INCH) -> bytes:
    """Return a sheet as the bytes of a PNG."""
    figure = Figure(figsize=(sheet.width / _MM_PER_INCH, sheet.height / _MM_PER_INCH), facecolor="white")
    figure.add_artist(_Drawn(sheet))
    FigureCanvasAgg(figure)
    out = BytesIO()
    figure.savefig(out, format="png", dpi=dots_per_inch, metadata={"Software": None})
    return out.getvalue()


class _Drawn(Artist):
    """A sheet's items as one artist of the figure."""

    def __init__(self, sheet: Sheet) -> None:
        super().__init__()
        self._sheet = sheet

    def draw(self, renderer: Any) -> None:
        """Draw every leaf with the renderer's own strokes and fills."""
        figure: Any = self.get_figure(root=True)
        to_dots = Affine2D().scale(figure.dpi / _MM_PER_INCH)
        brush = _Brush(renderer, to_dots)
        for kind, leaf in leaves(self._sheet.items):
            match leaf:
                case Stroke():
                    look = style(leaf.pen, kind)
                    if leaf.path:
                        brush.stroke(_path([leaf.path], [leaf.closed]), look.width, look.dash, look.grey)
                case Area():
                    _area(brush, leaf, kind)
                case Text():
                    _text(brush, leaf)


class _Brush:
    """The renderer, in mm. It takes widths and dashes in points, whatever its own dots are."""

    def __init__(self, renderer: Any, to_dots: Affine2D) -> None:
        self._renderer = renderer
        self._to_dots = to_dots
        # The renderer knows a clip again by where it lies in memory: one that was let go would be taken for
        # the next that is put in its place.
        self._clips: list[TransformedPath] = []

    def stroke(
        self, path: Path, width: float, dash: Sequence[float], grey: float, clip: Path | None = None
    ) -> None:
        """Draw a path with a line of this width, mm."""
        context = self._context(clip)
        context.set_linewidth(width * _POINTS)
        context.set_foreground((grey, grey, grey))
        if dash:
            context.set_dashes(0, [d * _POINTS for d in dash])
        self._renderer.draw_path(context, path, self._to_dots)
        context.restore()

    def fill(self, path: Path, grey: float) -> None:
        """Fill a path."""
        context = self._context(None)
        context.set_linewidth(0.0)
        self._renderer.draw_path(context, path, self._to_dots, (grey, grey, grey))
        context.restore()

    def _context(self, clip: Path | None) -> Any:
        context = self._renderer.new_gc()
        context.set_capstyle("round")
        context.set_joinstyle("round")
        context.set_antialiased(True)
        if clip is not None:
            self._clips.append(TransformedPath(clip, self._to_dots))
            context.set_clip_path(self._clips[-1])
        return context


def _area(brush: _Brush, area: Area, kind: Where) -> None:
    regions = clear_of_gaps(area)
    if not regions:
        return
    bounded = _region_path(regions)
    if area.fill is not None:
        brush.fill(bounded, area.fill)
    if area.hatch:
        look = style(HATCHES[area.hatch].pen, kind)
        vertices: Vertices = []
        for region in regions:
            for a, b in lines_over(
                area.hatch, region.bounds, angle=area.angle, pitch=area.pitch, origin=area.origin
            ):
                vertices += [a, b]
        if vertices:
            lines = Path(np.array(vertices), [_MOVE, _LINE] * (len(vertices) // 2))
            brush.stroke(lines, look.width, (), look.grey, clip=bounded)


def _text(brush: _Brush, text: Text) -> None:
    placed = glyph_runs(text)
    vertices: list[Any] = []
    codes: list[Any] = []
    for glyphs in placed.glyphs:
        _letters(glyphs, text, vertices, codes)
    if vertices:
        brush.fill(Path(np.concatenate(vertices), np.concatenate(codes)), text.grey)
    for bar in placed.bars:
        line = Path(np.array([bar.a, bar.b]), [_MOVE, _LINE])
        brush.stroke(line, bar.width, (), text.grey)


def _letters(glyphs: Glyphs, text: Text, vertices: list[Any], codes: list[Any]) -> None:
    turn = radians(text.angle)
    across = 0.0
    letters = [_letter(c, text.weight) for c in glyphs.text]
    whole = fsum(advance for _, _, advance in letters) or 1.0
    stretch = glyphs.width / whole  # from unit size to mm along the line
    matrix = np.array([
        [stretch * cos(turn), stretch * sin(turn)], [-glyphs.size * sin(turn), glyphs.size * cos(turn)],
    ])
    for points, verbs, advance in letters:
        if len(points):
            shifted = points + np.array([across, 0.0])
            vertices.append(shifted @ matrix + np.array(glyphs.at))
            codes.append(verbs)
        across += advance


@lru_cache(maxsize=1024)
def _letter(character: str, weight: Weight) -> tuple[Any, Any, float]:
    # Points and codes of a letter at size 1, and its advance.
    points: Vertices = []
    verbs: Codes = []
    start: Point = (0.0, 0.0)
    for verb, spots in outline(character, weight):
        if verb == "move":
            start = spots[0]
        placed = spots or (start,)
        points.extend(placed)
        verbs.extend([_CODES[verb]] * len(placed))
    advance = width(character, 1.0, weight) / font_size(1.0)
    return np.array(points), np.array(verbs, dtype=np.uint8), advance


def _region_path(regions: Sequence[Region]) -> Path:
    loops = [loop.segments for region in regions for loop in region.loops]
    return _path(loops, [True] * len(loops))


def _path(paths: Sequence[tuple[Segment, ...]], closed: Sequence[bool]) -> Path:
    vertices: Vertices = []
    codes: Codes = []
    for path, shut in zip(paths, closed, strict=True):
        if not path:
            continue
        points = [path[0].first]
        for segment in path:
            points.extend(_points(segment))
        vertices += points
        codes += [_MOVE, *[_LINE] * (len(points) - 1)]
        if shut:
            vertices.append(points[0])
            codes.append(_CLOSE)
    return Path(np.array(vertices).reshape(-1, 2), codes)


def _points(segment: Segment) -> tuple[Point, ...]:
    return (segment.b,) if isinstance(segment, Line) else segment.flatten(_CHORD)[1:]
