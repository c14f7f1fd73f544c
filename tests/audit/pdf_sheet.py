"""A page of a written PDF as a reader that had no part in writing it finds it: lines of lettering with the
boxes of their ink, and the strokes with their widths. Paper mm, y up.

Nothing of the program is used: letters and strokes come from pdfplumber, the outlines of the letters from the
font's file by fontTools.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from functools import cache
from importlib.util import find_spec
from math import atan2, degrees, hypot
from pathlib import Path

import pdfplumber
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

MM = 25.4 / 72  # a point is 1/72 in (ISO 32000-1, 8.3.2.3)
JOINED = 0.18  # mm, a fifth of a space: letters of one line stand no further from where the one before ends

Box = tuple[float, float, float, float]


PIECES = 16
"""Chords that stand for a curve."""


@dataclass(frozen=True, slots=True)
class Lettered:
    """A line of lettering. start, end: of its baseline; ink: the box around its letters' outlines."""

    text: str
    start: tuple[float, float]
    end: tuple[float, float]
    ink: Box
    letters: tuple[Box, ...]
    angle: float  # degrees
    capital: float  # height of an H of this font and size
    grey: float


@dataclass(frozen=True, slots=True)
class Stroked:
    """A stroked line or curve. points: along it."""

    width: float
    grey: float
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Page:
    """What is on a page."""

    width: float
    height: float
    lines: tuple[Lettered, ...]
    strokes: tuple[Stroked, ...]


def read(data: bytes) -> tuple[Page, ...]:
    """Return the pages of a PDF."""
    with pdfplumber.open(io.BytesIO(data)) as opened:
        return tuple(_page(page) for page in opened.pages)


def _page(page) -> Page:
    strokes = tuple(
        Stroked(item["linewidth"] * MM, _grey(item["stroking_color"]), _points(item, page.height))
        for item in (*page.lines, *page.curves, *page.rects)
        if item["stroke"]
    )
    lines, letters = [], []
    for letter in page.chars:
        if letters and not _follows(letters[-1], letter):
            lines.append(_lettered(letters))
            letters = []
        letters.append(letter)
    if letters:
        lines.append(_lettered(letters))
    return Page(float(page.width) * MM, float(page.height) * MM, tuple(lines), strokes)


def _points(item, height) -> tuple[tuple[float, float], ...]:
    points = list(item["pts"])
    if any(step[0] == "c" for step in item.get("path", ())):
        points = []
        for kind, *ends in item["path"]:
            if kind == "c":
                points += [_on_curve(points[-1], *ends, k / PIECES) for k in range(1, PIECES)]
            points += ends[-1:]
    return tuple((x * MM, (float(height) - y) * MM) for x, y in points)


def _on_curve(a, b, c, d, t: float) -> tuple[float, float]:
    # A cubic Bézier by Bernstein's polynomials.
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    return tuple(sum(w * p[k] for w, p in zip(weights, (a, b, c, d), strict=True)) for k in range(2))


def _grey(colour) -> float:
    return float(colour[0] if isinstance(colour, (tuple, list)) else colour)


def _follows(one, other) -> bool:
    # Whether a letter starts where the other ends, in its direction.
    a, b, _, _, x, y = one["matrix"]
    size = hypot(a, b)
    at = (x + one["adv"] * a / size, y + one["adv"] * b / size)
    turned = abs(a / size - other["matrix"][0] / hypot(*other["matrix"][:2])) > 0.01
    apart = hypot(other["matrix"][4] - at[0], other["matrix"][5] - at[1]) * MM
    return not turned and apart < JOINED and one["fontname"][7:] == other["fontname"][7:]


def _lettered(letters) -> Lettered:
    boxes = [b for b in map(_ink, letters) if b is not None]
    first, last = letters[0], letters[-1]
    a, b, _, _, x, y = last["matrix"]
    size = hypot(a, b)
    end = (x + last["adv"] * a / size, y + last["adv"] * b / size)
    edges = list(zip(*boxes, strict=True)) or [(0.0,)] * 4
    return Lettered(
        "".join(c["text"] for c in letters),
        (first["matrix"][4] * MM, first["matrix"][5] * MM),
        (end[0] * MM, end[1] * MM),
        (min(edges[0]), min(edges[1]), max(edges[2]), max(edges[3])),
        tuple(boxes),
        degrees(atan2(b, a)),
        _capital(first["fontname"][7:]) * _size(first) * MM,
        _grey(first["non_stroking_color"]),
    )


def _size(letter) -> float:
    # The size of the font, points: as high as pdfplumber makes a letter's box, along the letter's own up.
    return letter["height"] if abs(letter["matrix"][1]) < 1e-6 else letter["width"]


def _ink(letter) -> Box | None:
    bounds = outline(letter["fontname"][7:], letter["text"])
    if bounds is None:
        return None
    a, b, c, d, x, y = letter["matrix"]
    size = _size(letter)
    # The letter's own width says how far it is pressed together.
    advance = _advance(letter["fontname"][7:], letter["text"]) * size
    press = letter["adv"] / advance if advance else 1.0
    corners = [(u * size * press, v * size) for u in bounds[::2] for v in bounds[1::2]]
    across, up = hypot(a, b), hypot(c, d)
    xs = [(x + (a * u / across) + (c * v / up)) * MM for u, v in corners]
    ys = [(y + (b * u / across) + (d * v / up)) * MM for u, v in corners]
    return (min(xs), min(ys), max(xs), max(ys))


@cache
def _font(name: str) -> TTFont:
    folders = find_spec("font_source_sans_pro").submodule_search_locations
    styled = name if "-" in name else f"{name}-Regular"
    return TTFont(Path(folders[0]) / "files" / f"{styled}.ttf")


@cache
def outline(name: str, letter: str) -> Box | None:
    """The bounds of a letter's outline at size 1, from the font's file; None for a space."""
    font = _font(name)
    glyphs = font.getGlyphSet()
    pen = BoundsPen(glyphs)
    glyphs[font.getBestCmap()[ord(letter)]].draw(pen)
    return None if pen.bounds is None else tuple(v / font["head"].unitsPerEm for v in pen.bounds)


@cache
def _advance(name: str, letter: str) -> float:
    font = _font(name)
    return font["hmtx"][font.getBestCmap()[ord(letter)]][0] / font["head"].unitsPerEm


@cache
def _capital(name: str) -> float:
    return outline(name, "H")[3]
