"""One table from a pen to its width, dashes, grey and layers.

Widths are of the ISO 128-2 series. Views at small scale use the group 0.13, 0.25, 0.5 and details the group
0.18, 0.35, 0.7: three widths, 1 to 2 to 4. The frame is 0.7 mm (ISO 5457). Dashes and gaps are paper mm.

Layers: US sets in the form of the US National CAD Standard, discipline-major-minor, Z being contractor and
shop drawings; mm sets in the form of ISO 13567-2, agent (2), element (6), presentation (2).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal, get_args

from sheets.drawing.items import Pen

Group = Literal["fine", "medium", "wide"]
Where = Literal["elevation", "plan", "section", "detail", "part", "axonometric", "pattern", "sheet"]

WIDTHS = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0)
"""The ISO 128-2 series as far as it is used here, mm."""

SMALL_SCALE: dict[Group, float] = {"fine": 0.13, "medium": 0.25, "wide": 0.5}
LARGE_SCALE: dict[Group, float] = {"fine": 0.18, "medium": 0.35, "wide": 0.7}

PENS: tuple[Pen, ...] = get_args(Pen)


@dataclass(frozen=True, slots=True)
class Style:
    """How a pen draws. width: mm; dash: strokes and gaps in turn, mm, or (); grey: 0 black, 1 white."""

    width: float
    dash: tuple[float, ...]
    grey: float
    layer: str
    linetype: str  # name of the dash in a DXF


@dataclass(frozen=True, slots=True)
class _Row:
    group: Group
    line: str  # of _LINES
    grey: float
    minor: str  # US layer: minor group
    presentation: str  # ISO 13567-2


@dataclass(frozen=True, slots=True)
class _LineType:
    """A kind of line. us: by what US drawings use it for, in the words of ASME Y14.2 where it has them; iso:
    what ISO 128-2 calls it; dash: strokes and gaps in turn, paper mm.
    """

    us: str
    iso: str
    dash: tuple[float, ...] = ()


# The words are those of ISO 128-2, types 01 to 05. Strokes stand to gaps about as they do there (from
# memory), at lengths that read on a sheet of any size.
_LINES: dict[str, _LineType] = {
    "continuous": _LineType("CONTINUOUS", "CONTINUOUS"),
    "dashed": _LineType("HIDDEN", "DASHED", (2.4, 1.0)),
    "dashed spaced": _LineType("OVERHEAD", "DASHED-SPACED", (1.5, 2.2)),
    "long-dashed dotted": _LineType("CENTER", "LONG-DASHED-DOTTED", (9.0, 1.2, 1.0, 1.2)),
    "long-dashed double-dotted": _LineType(
        "PHANTOM", "LONG-DASHED-DOUBLE-DOTTED", (10.0, 1.2, 1.0, 1.2, 1.0, 1.2)
    ),
}


def linetypes(units: Literal["inch", "mm"]) -> dict[str, tuple[float, ...]]:
    """Return every broken line by its name in a DXF of these units: strokes and gaps in turn, paper mm."""
    return {_linetype(name, units): line.dash for name, line in _LINES.items() if line.dash}


def _linetype(line: str, units: Literal["inch", "mm"]) -> str:
    return _LINES[line].us if units == "inch" else _LINES[line].iso


_TABLE: dict[Pen, _Row] = {
    "cut": _Row("wide", "continuous", 0.0, "MCUT", "E-"),
    "outline": _Row("wide", "continuous", 0.0, "OTLN", "E-"),
    "step": _Row("medium", "continuous", 0.0, "CASE", "E-"),
    "edge": _Row("fine", "continuous", 0.0, "EDGE", "E-"),
    "fine": _Row("fine", "continuous", 0.3, "FINE", "E-"),
    "beyond": _Row("fine", "continuous", 0.2, "MBND", "E-"),
    "hidden": _Row("fine", "dashed", 0.1, "HIDN", "E-"),
    "overhead": _Row("fine", "dashed spaced", 0.1, "OVHD", "E-"),
    "centre": _Row("fine", "long-dashed dotted", 0.0, "CNTR", "G-"),
    "cutting plane": _Row("medium", "long-dashed double-dotted", 0.0, "SYMB", "J-"),
    # ISO 128-2 has this line, narrow, for the framing of particular areas.
    "detail place": _Row("fine", "long-dashed double-dotted", 0.0, "SYMB", "J-"),
    "hatch": _Row("fine", "continuous", 0.4, "PATT", "H-"),
    "texture": _Row("fine", "continuous", 0.6, "FACE", "H-"),
    "break": _Row("fine", "continuous", 0.0, "BRKL", "E-"),
    "dimension": _Row("fine", "continuous", 0.0, "DIMS", "D-"),
    "leader": _Row("fine", "continuous", 0.0, "NOTE", "T-"),
    "text": _Row("fine", "continuous", 0.0, "TEXT", "T-"),
    "symbol": _Row("medium", "continuous", 0.0, "SYMB", "J-"),
    "match line": _Row("wide", "long-dashed double-dotted", 0.0, "MTCH", "J-"),
    "frame": _Row("wide", "continuous", 0.0, "TTLB", "B-"),
    "block rule": _Row("medium", "continuous", 0.0, "TTLB", "B-"),
    "table rule": _Row("fine", "continuous", 0.0, "SCHD", "T-"),
    "table border": _Row("medium", "continuous", 0.0, "SCHD", "T-"),
    "revision": _Row("medium", "continuous", 0.0, "REVC", "K-"),
    "strike": _Row("medium", "continuous", 0.0, "REVC", "K-"),
    "pattern": _Row("medium", "continuous", 0.0, "OTLN", "E-"),
}
_WIDTH_OF_ITS_OWN: dict[Pen, float] = {"frame": 0.7}

_OF_THE_SHEET = frozenset({
    "centre", "cutting plane", "detail place", "dimension", "leader", "text", "symbol", "match line",
    "frame", "block rule", "table rule", "table border", "revision", "strike",
})
_MAJOR: dict[Where, str] = {
    "elevation": "ELEV", "plan": "FLOR", "section": "SECT", "detail": "DETL", "part": "PART",
    "axonometric": "PRSP", "pattern": "PATN", "sheet": "ANNO",
}
_LARGE: frozenset[Where] = frozenset({"detail", "pattern"})


def where(view_id: str) -> Where:
    """Return the kind of view that a viewport's id names: its first step, `section` of section/mantel."""
    first = view_id.split("/")[0]
    return first if first in _MAJOR else "sheet"


@cache
def style(pen: Pen, kind: Where = "sheet", units: Literal["inch", "mm"] = "inch") -> Style:
    """Return how a pen draws in a kind of view, and its layer in a set of these units."""
    row = _TABLE[pen]
    group = LARGE_SCALE if kind in _LARGE and pen not in _OF_THE_SHEET else SMALL_SCALE
    return Style(
        width=_WIDTH_OF_ITS_OWN.get(pen, group[row.group]), dash=_LINES[row.line].dash, grey=row.grey,
        layer=layer(pen, kind, units), linetype=_linetype(row.line, units),
    )


def layer(pen: Pen, kind: Where = "sheet", units: Literal["inch", "mm"] = "inch") -> str:
    """Return the layer of a pen in a kind of view: Z-ELEV-OTLN in a US set, X-ELEVOTE- in a metric one."""
    row = _TABLE[pen]
    major = "ANNO" if pen in _OF_THE_SHEET else _MAJOR[kind]
    if units == "inch":
        return f"Z-{major}-{row.minor}"
    # ISO 13567-2: X- is a sub-contractor; the element is ours to choose (no classification is laid down for
    # built-in work), two letters of the view and four of the content.
    return f"X-{_ELEMENT_VIEW[major]}{row.minor}{row.presentation}"


def viewport_layer(units: Literal["inch", "mm"]) -> str:
    """Return the layer of the viewports' own borders, which is not plotted."""
    return "Z-ANNO-NPLT" if units == "inch" else "X-ANNPLTU-"


_ELEMENT_VIEW = {
    "ELEV": "EL", "FLOR": "PL", "SECT": "SE", "DETL": "DE", "PART": "PA", "PRSP": "AX", "PATN": "PT",
    "ANNO": "AN",
}
