"""What a shop sets about its stock, its saw and its rules; the defaults are common practice, each with its
reason.

Lengths are exact millimetres. `shop_settings` reads the sections `stock`, `fasteners`, `labels` and
`patterns` of the wall's settings over the defaults of its units.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from fractions import Fraction
from typing import Any, TypeVar

from sheets.base.length import MM_PER_FOOT, inch
from sheets.model.wall import Wall

Section = TypeVar("Section")

_EIGHTH, _HALF, _INCH, _LABEL = inch("1/8"), inch("1/2"), inch(1), inch("21/8")
_TWO, _SIX, _EIGHT, _SIXTEEN = inch(2), inch(6), inch(8), inch(16)
_SHEET_LENGTH, _SHEET_WIDTH = inch(96), inch(48)


@dataclass(frozen=True, slots=True)
class StockSettings:
    """What boards and sheets are bought, how they are sawn, and what is left on a part until it is milled."""

    board_lengths: tuple[Fraction, ...] = (8 * MM_PER_FOOT, 10 * MM_PER_FOOT, 12 * MM_PER_FOOT)
    board_widths: tuple[Fraction, ...] = (_SIX, _EIGHT)  # rough hardwood, and sawn metric sections
    thickest: Fraction = _TWO  # nominal; a thicker part is laminated
    panel_length: Fraction = _SHEET_LENGTH  # along the face grain
    panel_width: Fraction = _SHEET_WIDTH
    kerf: Fraction = _EIGHTH  # a full-kerf blade (common practice)
    end_trim: Fraction = _TWO  # cut off each end of a board, the saw cut included
    rough_allowance: Fraction = _EIGHTH  # on the thickness; twice on the width, eight times on the length
    waste: int = 20  # percent on the lumber count: clear parts 15 to 25 (common practice)
    keep_offcut: Fraction = MM_PER_FOOT  # a shorter offcut is waste

    @property
    def edge_allowance(self) -> Fraction:
        """+1/4 in on the width of a part, from a trade guide on rough oversize; never half of a board."""
        return min(2 * self.rough_allowance, min(self.board_widths) / 4)

    @property
    def longest(self) -> Fraction:
        """What the longest board gives once its ends are trimmed."""
        return max(self.board_lengths) - 2 * self.end_trim

    @property
    def length_allowance(self) -> Fraction:
        """+1 in on the length of a part, from the same guide."""
        return 8 * self.rough_allowance


@dataclass(frozen=True, slots=True)
class SearchSettings:
    """How long one cutting plan is sought: steps of branch and bound, the same on every machine; the clock
    only guards against hanging.
    """

    steps: int = 1000
    seconds: float = 20.0  # a plan that it stops says so


@dataclass(frozen=True, slots=True)
class FastenerSettings:
    """Kinds and spacing of fasteners (common practice; what carries load is sized by others)."""

    case: str = "wood screw"
    nail: str = "finish nail"
    wall: str = "structural wood screw into blocking or stud"
    spacing: Fraction = _EIGHT  # at most this far apart along a joint
    nail_spacing: Fraction = _SIXTEEN  # T&G: a bearing at most 16 in apart, tongue side only
    wall_spacing: Fraction = _SIXTEEN  # IRC R602.3(5): studs 16 in on centre (from memory)
    screws_per_stud: int = 2


@dataclass(frozen=True, slots=True)
class PatternSettings:
    """Full-size patterns: how far apart ordinates stand, and what paper they are tiled on."""

    paper: str = "ansi-a"
    station: Fraction = _TWO
    overlap: Fraction = _HALF


@dataclass(frozen=True, slots=True)
class LabelSettings:
    """The labels that are printed on, by size and count; without more said, 2 5/8 x 1 in, 3 x 10 on the sheet
    of 8 1/2 x 11 in, or 70 x 37 mm, 3 x 8 on the A4 sheet (common practice). A margin of None puts the labels
    in the middle of the paper.
    """

    paper: str = "ansi-a"
    width: Fraction = _LABEL
    height: Fraction = _INCH
    columns: int = 3
    rows: int = 10
    gap: Fraction = _EIGHTH  # between columns
    row_gap: Fraction = Fraction(0)
    side_margin: Fraction | None = None
    top_margin: Fraction | None = None


@dataclass(frozen=True, slots=True)
class ShopSettings:
    """All of them."""

    stock: StockSettings = StockSettings()
    search: SearchSettings = SearchSettings()
    fasteners: FastenerSettings = FastenerSettings()
    patterns: PatternSettings = PatternSettings()
    labels: LabelSettings = LabelSettings()


INCH = ShopSettings()
MM = ShopSettings(
    stock=StockSettings(
        board_lengths=(Fraction(2400), Fraction(3000), Fraction(3600)),
        board_widths=tuple(Fraction(n) for n in (75, 100, 125, 150, 175, 200, 225)),  # EN 1313 (from memory)
        thickest=Fraction(50),
        panel_length=Fraction(2440),
        panel_width=Fraction(1220),
        kerf=Fraction(3),
        end_trim=Fraction(50),
        rough_allowance=Fraction(3),
        keep_offcut=Fraction(300),
    ),
    fasteners=FastenerSettings(spacing=Fraction(200), wall_spacing=Fraction(400), nail_spacing=Fraction(400)),
    patterns=PatternSettings(paper="iso-a4", station=Fraction(50), overlap=Fraction(12)),
    labels=LabelSettings(
        paper="iso-a4", width=Fraction(70), height=Fraction(37), columns=3, rows=8, gap=Fraction(0)
    ),
)


def shop_settings(wall: Wall) -> ShopSettings:
    """Return the wall's settings for its shop: the defaults of its units, with what the spec says put over
    them.

    A section is a mapping, or a value with attributes of the same names as here; a name that is missing
    leaves the default.
    """
    base = MM if wall.units == "mm" else INCH
    given = wall.settings
    return ShopSettings(
        stock=_over(base.stock, given.get("stock")),
        search=_over(base.search, _within(given.get("stock"), "search")),
        fasteners=_over(base.fasteners, given.get("fasteners")),
        patterns=_over(base.patterns, given.get("patterns")),
        labels=_over(_over(base.labels, given.get("labels")), _within(given.get("labels"), "grid")),
    )


def _within(section: object, name: str) -> object:
    return section.get(name) if isinstance(section, Mapping) else getattr(section, name, None)


def _over(base: Section, given: object) -> Section:
    section: Any = base
    changes: dict[str, object] = {}
    for field in fields(section):
        value = _within(given, field.name)
        if value is not None and value != ():
            changes[field.name] = tuple(value) if isinstance(value, list) else value
    changed: Section = replace(section, **changes)
    return changed
