"""How lettering is set: one family, real advance widths, and stacked fractions laid out once for all.

Sizes are paper mm; a height is the height of capitals. The family is Source Sans Pro (SIL Open Font
License), which comes as files in a package of its own; nothing of it is imported.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.util import find_spec
from math import cos, fsum, radians, sin
from pathlib import Path

from sheets.base.notation import Run
from sheets.drawing.items import Text, Weight
from sheets.geometry.box import Box
from sheets.geometry.path import Point

FAMILY = "Source Sans Pro"
LEAST_DIGIT = 1.8
"""Least height of a fraction's digits, paper mm: the smallest height of the ISO 3098 series."""

_PACKAGE = "font_source_sans_pro"
_FILES: dict[Weight, str] = {"regular": "SourceSansPro-Regular.ttf", "bold": "SourceSansPro-Semibold.ttf"}
# Height of capitals over the size of the font: of the lower weight, from the outline of H.
_CAPITAL = 0.654

_DIGIT = 0.7  # of a fraction, over the height of capitals
_BAR_CLEAR = 0.17  # from the bar to the digits
_BESIDE = 0.12  # from the bar to the text next to it
_OVERHANG = 0.04  # of the bar over the wider number
_BAR_WIDTH = 0.075

# What the family lacks, and the drafter's usual way to write it instead.
_INSTEAD = {
    "\u2300": "\u00d8", "\u2104": "CL", "\u2011": "-", "\u202f": "\u00a0", "\u02b9": "\u2032",
    "\u02ba": "\u2033",
}
_UNKNOWN = "?"

_TALL = frozenset(
    "()[]{}|@/\\\"'\u2032\u2033\u2018\u2019\u201c\u201d$bdfhijkl&?!#%*\u00b0\u00aa\u00ba\u00ae\u00df\u00f0\u00fe"
)
_DEEP = frozenset("()[]{}|@/\\,;gjpqyQ$_\u00a1\u00a7\u00b5\u00b6\u00bf\u00fe\u03bc")
_RAISED = frozenset("\u00b9\u00b2\u00b3`\u00b4")
_ABOVE, _BELOW = frozenset((230,)), frozenset((202, 220))  # classes of combining marks (Unicode, ch. 3.11)
_RISE, _ACCENT, _DROP = 0.12, 0.32, 0.36  # over the height of capitals, from the outlines


@dataclass(frozen=True, slots=True)
class Glyphs:
    """A run of letters where it stands. at: left end of its baseline, paper mm; size: of the font, mm."""

    text: str
    at: Point
    size: float
    width: float  # advance, mm along the line
    part: str = "text"  # or "numerator", "denominator": set smaller, over and under a bar


@dataclass(frozen=True, slots=True)
class Bar:
    """The bar of a stacked fraction, paper mm."""

    a: Point
    b: Point
    width: float


@dataclass(frozen=True, slots=True)
class Lettering:
    """A Text placed: its letters and bars, in order of reading."""

    glyphs: tuple[Glyphs, ...]
    bars: tuple[Bar, ...]


@dataclass(frozen=True, slots=True)
class FractionLayout:
    """A stacked fraction of unit squeeze; x from its left side, y from the baseline, mm."""

    width: float
    digit: float  # height of its digits
    numerator: Point  # left end of the baseline
    denominator: Point
    bar: tuple[float, float, float]  # x0, x1, y
    bar_width: float

    @property
    def top(self) -> float:
        return self.numerator[1] + self.digit

    @property
    def bottom(self) -> float:
        return self.denominator[1]


@cache
def font_path(weight: Weight = "regular") -> Path:
    """Return the TrueType file of a weight. Raises FileNotFoundError if its package is not installed."""
    spec = find_spec(_PACKAGE)
    for folder in (spec.submodule_search_locations or ()) if spec else ():
        path = Path(folder) / "files" / _FILES[weight]
        if path.is_file():
            return path
    raise FileNotFoundError(f"the font {FAMILY} is missing: install the package font-source-sans-pro")


def read_fonts() -> None:
    """Read the files of both weights, as is done when a text is first measured."""
    for weight in _FILES:
        _widths(weight)


def font_size(height: float) -> float:
    """Return the size of the font, mm, whose capitals have this height."""
    return height / _CAPITAL


def missing(text: str) -> tuple[str, ...]:
    """Return the characters of a text that have neither a glyph nor a way to be written instead, sorted."""
    return tuple(sorted({c for c in text if _UNKNOWN in _set(c) and c != _UNKNOWN}))


@cache
def settable(text: str) -> str:
    """Return the text as it can be set: a missing glyph is replaced by its usual substitute, or by '?'."""
    return "".join(_set(c) for c in text)


def width(
    what: Iterable[Run] | str, height: float, weight: Weight = "regular", squeeze: float = 1.0
) -> float:
    """Return how wide a text or its runs are, paper mm, at a height of capitals and a horizontal factor."""
    if isinstance(what, str):
        return _text_width(what, weight) * font_size(height) * squeeze
    total = 0.0
    for run in what:
        if run.denominator:
            total += fraction_layout(run, height, weight).width
        else:
            total += _text_width(run.text, weight) * font_size(height)
    return total * squeeze


@lru_cache(maxsize=4096)
def fraction_layout(run: Run, height: float, weight: Weight = "regular") -> FractionLayout:
    """Return how a stacked fraction is laid out: numerator, bar, denominator, centred on mid height."""
    digit = min(height, max(_DIGIT * height, LEAST_DIGIT))
    over, under = str(run.numerator), str(run.denominator)
    over_width, under_width = width(over, digit, weight), width(under, digit, weight)
    wide = max(over_width, under_width) + 2 * _OVERHANG * height
    whole, middle, clear = wide + 2 * _BESIDE * height, height / 2, _BAR_CLEAR * height
    return FractionLayout(
        width=whole,
        digit=digit,
        numerator=((whole - over_width) / 2, middle + clear),
        denominator=((whole - under_width) / 2, middle - clear - digit),
        bar=(_BESIDE * height, _BESIDE * height + wide, middle),
        bar_width=_BAR_WIDTH * height,
    )


def glyph_runs(text: Text) -> Lettering:
    """Return a text's letters and fraction bars where they stand on the paper, anchored and turned."""
    place = _placer(text)
    glyphs: list[Glyphs] = []
    bars: list[Bar] = []
    x = 0.0
    for run in text.runs:
        if not run.denominator:
            size = font_size(text.height)
            advance = _text_width(run.text, text.weight) * size * text.squeeze
            glyphs.append(Glyphs(settable(run.text), place(x, 0.0), size, advance))
            x += advance
            continue
        layout = fraction_layout(run, text.height, text.weight)
        size = font_size(layout.digit)
        halves = (
            ("numerator", run.numerator, layout.numerator),
            ("denominator", run.denominator, layout.denominator),
        )
        for part, number, (dx, dy) in halves:
            advance = width(str(number), layout.digit, text.weight, text.squeeze)
            glyphs.append(Glyphs(str(number), place(x + dx * text.squeeze, dy), size, advance, part))
        x0, x1, y = layout.bar
        bars.append(Bar(place(x + x0 * text.squeeze, y), place(x + x1 * text.squeeze, y), layout.bar_width))
        x += layout.width * text.squeeze
    return Lettering(tuple(glyphs), tuple(bars))


@lru_cache(maxsize=16384)
def box(text: Text) -> Box:
    """Return the box (x0, y0, x1, y1), paper mm, that a text's ink lies in, however it is turned."""
    whole = width(text.runs, text.height, text.weight, text.squeeze)
    low, high = _extent(text)
    place = _placer(text)
    corners = [place(x, y) for x in (0.0, whole) for y in (low, high)]
    xs, ys = [p[0] for p in corners], [p[1] for p in corners]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _extent(text: Text) -> tuple[float, float]:
    # Depth under and height over the baseline.
    low, high = 0.0, text.height
    for run in text.runs:
        if run.denominator:
            layout = fraction_layout(run, text.height, text.weight)
            low, high = min(low, layout.bottom), max(high, layout.top)
            continue
        letters = set(unicodedata.normalize("NFD", settable(run.text)))
        marks = {unicodedata.combining(c) for c in letters}
        if letters & _DEEP or marks & _BELOW:
            low = min(low, -_DROP * text.height)
        if letters & _RAISED or marks & _ABOVE:
            high = max(high, (1 + _ACCENT) * text.height)
        elif letters & _TALL:
            high = max(high, (1 + _RISE) * text.height)
    return low, high


def _placer(text: Text) -> Callable[[float, float], Point]:
    # From mm along and over the line of lettering to the paper.
    whole = width(text.runs, text.height, text.weight, text.squeeze) if text.h != "left" else 0.0
    dx = {"left": 0.0, "centre": -whole / 2, "right": -whole}[text.h]
    dy = -text.height / 2 if text.v == "middle" else 0.0
    turn = radians(text.angle)
    # Quarter turns are exact, so that upright lettering stands on whole coordinates.
    c, s = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0)}.get(text.angle, (cos(turn), sin(turn)))
    x0, y0 = text.at

    def place(x: float, y: float) -> Point:
        u, v = x + dx, y + dy
        return (x0 + c * u - s * v, y0 + s * u + c * v)

    return place


@lru_cache(maxsize=16384)
def _text_width(text: str, weight: Weight) -> float:
    # Over the size of the font.
    widths = _widths(weight)
    return fsum(widths[ord(c)] for c in settable(text)) / 1000


@lru_cache(maxsize=2048)
def _set(character: str) -> str:
    widths = _widths("regular")
    if ord(character) in widths:
        return character
    instead = _INSTEAD.get(character) or unicodedata.normalize("NFKD", character)
    plain = "".join(c for c in instead if not unicodedata.combining(c))
    return plain if plain and all(ord(c) in widths for c in plain) else _UNKNOWN


@cache
def _widths(weight: Weight) -> dict[int, float]:
    # Advance widths in thousandths of the size, by code point, of the glyphs that the file has.
    from reportlab.pdfbase.ttfonts import TTFontFile

    font = TTFontFile(str(font_path(weight)), charInfo=1, validate=0)
    return {code: float(font.charWidths[code]) for code in font.charToGlyph if code >= 0x20}
