"""One sheet as the drawing operators of a PDF page. Paper mm in, points (1/72 in) out."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import lru_cache
from math import ceil, cos, pi, radians, sin, tan

from sheets.drawing.hatches import HATCHES, lines_over
from sheets.drawing.items import Area, Stroke, Text, Weight
from sheets.drawing.lettering import Glyphs, font_size, fraction_layout, glyph_runs, width
from sheets.drawing.pens import Where, style
from sheets.drawing.walk import Leaf
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Point, Segment
from sheets.geometry.region import Region
from sheets.writers.outlines import outline

POINTS = 72 / 25.4
"""Points in a millimetre."""

# Turns text into shown strings: (name of the embedded subset, escaped string) of each piece.
Encode = Callable[[str, Weight], list[tuple[str, str]]]


class Page:
    """Gathers the operators of one page; says each property of the pen once."""

    def __init__(self, encode: Encode, size: tuple[float, float]) -> None:
        self.code: list[str] = ["1 J 1 j"]  # round caps and joins
        self._encode = encode
        self._size = size
        self._pen: tuple[float, tuple[float, ...], float] | None = None
        self._fill: float | None = None
        self._open = False  # a path is begun and not yet stroked

    def draw(self, leaves: Iterable[tuple[Where, Leaf]]) -> None:
        """Draw strokes, areas and texts in their order."""
        for kind, leaf in leaves:
            match leaf:
                case Stroke():
                    look = style(leaf.pen, kind)
                    self._set_pen(look.width, look.dash, look.grey)
                    self.code.append(_path(leaf.path, leaf.closed))
                    self._open = True
                case Area():
                    self._stroke_path()
                    self._area(leaf, kind)
                case Text():
                    self._stroke_path()
                    self._text(leaf)
        self._stroke_path()

    def _stroke_path(self) -> None:
        if self._open:
            self.code.append("S")
            self._open = False

    def _set_pen(self, width: float, dash: tuple[float, ...], grey: float) -> None:
        if self._pen == (width, dash, grey):
            return
        self._stroke_path()
        before = self._pen or (None, (), None)
        if width != before[0]:
            self.code.append(f"{_n(width * POINTS)} w")
        if dash != before[1]:
            self.code.append(f"[{' '.join(_n(d * POINTS) for d in dash)}] 0 d")
        if grey != before[2]:
            self.code.append(f"{_n(grey)} G")
        self._pen = (width, dash, grey)

    def _set_fill(self, grey: float) -> None:
        if self._fill != grey:
            self.code.append(f"{_n(grey)} g")
            self._fill = grey

    def _area(self, area: Area, kind: Where) -> None:
        outlines = "\n".join(_region(r) for r in area.regions)
        if not outlines:
            return
        before = self._pen, self._fill
        if area.gaps:
            self.code.append("q")
            self.code.extend(self._all_but(gap) for gap in area.gaps)
        if area.fill is not None:
            self._set_fill(area.fill)
            self.code.append(outlines + "\nf*")
        if area.hatch:
            hatch = HATCHES[area.hatch]
            look = style(hatch.pen, kind)
            self._set_pen(look.width, look.dash, look.grey)
            self.code.append(f"q\n{outlines}\nW* n")
            for region in area.regions:
                strokes = lines_over(
                    area.hatch, region.bounds, angle=area.angle, pitch=area.pitch, origin=area.origin
                )
                self.code.extend(f"{_p(a)} m {_p(b)} l" for a, b in strokes)
            self.code.append("S\nQ")
        if area.gaps:
            self.code.append("Q")
            self._pen, self._fill = before

    def _all_but(self, gap: Box) -> str:
        # Each box on its own: two that overlap must not cancel each other.
        x0, y0, x1, y1 = gap
        page = f"0 0 {_n(self._size[0] * POINTS)} {_n(self._size[1] * POINTS)} re"
        return f"{page} {_p((x0, y0))} {_n((x1 - x0) * POINTS)} {_n((y1 - y0) * POINTS)} re W* n"

    def _text(self, text: Text) -> None:
        placed = glyph_runs(text)
        self._set_fill(text.grey)
        shown: list[str] = []
        at_fraction: dict[int, tuple[str, Point, float]] = _fractions(text, placed.glyphs)
        scale = 100.0
        for k, glyphs in enumerate(placed.glyphs):
            if k in at_fraction:
                words, at, room = at_fraction[k]
                fitted = 100 * room / (width(words, text.height, text.weight) or 1)
                shown.append("3 Tr " + self._show(words, at, text, fitted) + " 0 Tr")
                scale = fitted
            if glyphs.part == "text":
                shown.append(self._show(glyphs.text, glyphs.at, text, 100 * text.squeeze))
                scale = 100 * text.squeeze
        if shown:
            tail = "\n100 Tz" if scale != 100.0 else ""
            self.code.append("BT\n" + "\n".join(shown) + tail + "\nET")
        for glyphs in placed.glyphs:
            if glyphs.part != "text":
                self.code.append(_drawn(glyphs, text))
        for bar in placed.bars:
            # A shape like the figures over and under it: the widths of lines are those of the pens alone.
            c, s = _turn(text.angle)
            aside = (-s * bar.width / 2, c * bar.width / 2)
            corners = [(x + k * aside[0], y + k * aside[1])
                       for (x, y), k in ((bar.a, 1), (bar.b, 1), (bar.b, -1), (bar.a, -1))]  # fmt: skip
            start, *rest = (_p(corner) for corner in corners)
            self.code.append(f"{start} m " + " ".join(f"{corner} l" for corner in rest) + " f")

    def _show(self, words: str, at: Point, text: Text, stretch: float) -> str:
        size = _n(font_size(text.height) * POINTS)
        pieces = [f"{_turning(text.angle)} {_p(at)} Tm {_n(stretch)} Tz"]
        for name, string in self._encode(words, text.weight):
            pieces.append(f"{name} {size} Tf ({string}) Tj")
        return " ".join(pieces)


def _fractions(text: Text, glyphs: tuple[Glyphs, ...]) -> dict[int, tuple[str, Point, float]]:
    # A stacked fraction is drawn as shapes; the words for readers and searches lie unseen in its place, so
    # that 5'-2 1/2" is found as one string. By the index of its numerator: words, start of baseline, room.
    found: dict[int, tuple[str, Point, float]] = {}
    c, s = _turn(text.angle)
    before, k = "", 0
    for run in text.runs:
        if not run.denominator:
            before, k = run.text, k + 1
            continue
        layout = fraction_layout(run, text.height, text.weight)
        dx, dy = layout.numerator[0] * text.squeeze, layout.numerator[1]
        x, y = glyphs[k].at
        words = (" " if before[-1:].isdigit() else "") + Text((run,), (0.0, 0.0), 1.0).plain
        found[k] = (words, (x - c * dx + s * dy, y - s * dx - c * dy), layout.width * text.squeeze)
        before, k = "", k + 2
    return found


def _drawn(glyphs: Glyphs, text: Text) -> str:
    # The digits of a fraction as filled shapes.
    c, s = _turn(text.angle)
    code: list[str] = []
    along, up = glyphs.size * text.squeeze * POINTS / 1000, glyphs.size * POINTS / 1000
    step = glyphs.width / len(glyphs.text)
    for k, digit in enumerate(glyphs.text):
        at = _p((glyphs.at[0] + c * step * k, glyphs.at[1] + s * step * k))
        matrix = f"{along * c:.5f} {along * s:.5f} {-up * s:.5f} {up * c:.5f} {at}"
        code.append(f"q {matrix} cm\n{_shape(digit, text.weight)}\nf Q")
    return "\n".join(code)


@lru_cache(maxsize=64)
def _shape(digit: str, weight: Weight) -> str:
    # A digit's outline in thousandths of the size.
    verbs = {"move": "m", "line": "l", "curve": "c", "close": "h"}
    return "\n".join(
        " ".join([*(f"{1000 * u:.0f} {1000 * v:.0f}" for u, v in points), verbs[verb]])
        for verb, points in outline(digit, weight)
    )


def _region(region: Region) -> str:
    return "\n".join(_path(loop.segments, True) for loop in region.loops)


def _path(path: tuple[Segment, ...], closed: bool) -> str:
    if not path:
        return ""
    words = [f"{_p(path[0].first)} m"]
    for segment in path:
        if isinstance(segment, Arc):
            words.extend(_beziers(segment))
        else:
            words.append(f"{_p(segment.b)} l")
    if closed:
        words.append("h")
    return "\n".join(words)


def _beziers(arc: Arc) -> list[str]:
    # A quarter of a circle as one cubic stands off by less than 0.03 % of the radius; a piece here turns at
    # most an eighth of a circle, which is better than 0.001 %.
    count = max(1, ceil(abs(arc.sweep) / (pi / 4) - 1e-9))
    turn = arc.sweep / count
    reach = 4 / 3 * tan(turn / 4) * arc.radius
    words: list[str] = []
    for k in range(count):
        t0, t1 = arc.start + turn * k, arc.start + turn * (k + 1)
        a, b = arc.at_angle(t0), arc.at_angle(t1)
        c1 = (a[0] - reach * sin(t0), a[1] + reach * cos(t0))
        c2 = (b[0] + reach * sin(t1), b[1] - reach * cos(t1))
        words.append(f"{_p(c1)} {_p(c2)} {_p(b)} c")
    return words


def _turn(angle: float) -> tuple[float, float]:
    return {0.0: (1.0, 0.0), 90.0: (0.0, 1.0)}.get(angle) or (cos(radians(angle)), sin(radians(angle)))


@lru_cache(maxsize=64)
def _turning(angle: float) -> str:
    # The first four numbers of a matrix that turns.
    c, s = _turn(angle)
    return f"{_n(c)} {_n(s)} {_n(-s)} {_n(c)}"


def _p(point: Point) -> str:
    return f"{_n(point[0] * POINTS)} {_n(point[1] * POINTS)}"


@lru_cache(maxsize=65536)
def _n(value: float) -> str:
    # A thousandth of a point is 0.35 micrometres. Settled first, as what two issues are compared by is.
    text = f"{round(value, 6):.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
