"""What the spec sets for the shop and for the checks, typed once.

Nothing here has a default: the spec's language has them, in `grammar/shop.py`, and `resolve/settings.py`
copies every field over. Lengths are exact mm.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal


@dataclass(frozen=True, slots=True)
class Search:
    """How long one cutting plan is sought: steps of branch and bound, the same on every machine; the clock
    only guards against hanging.
    """

    steps: int
    seconds: int  # a plan that it stops says so


@dataclass(frozen=True, slots=True)
class Stock:
    """What boards and sheets are bought, how they are sawn, and what is left on a part until it is milled."""

    board_lengths: tuple[Fraction, ...]
    board_widths: tuple[Fraction, ...]  # rough hardwood, and sawn metric sections
    thickest: Fraction  # nominal; a thicker part is laminated
    panel_length: Fraction  # along the face grain
    panel_width: Fraction
    edge_trim: Fraction  # cut off each edge of a sheet, the saw cut included
    sheet_tolerance: Fraction  # a sheet may be so much shorter and narrower than it is sold
    kerf: Fraction
    end_trim: Fraction  # cut off each end of a board, the saw cut included
    rough_allowance: Fraction  # on the thickness; twice on the width, eight times on the length
    waste: int  # percent on the lumber count
    keep_offcut: Fraction  # a shorter offcut is waste
    search: Search

    @property
    def edge_allowance(self) -> Fraction:
        """Twice the rough allowance on the width of a part; never half of a board."""
        return min(2 * self.rough_allowance, min(self.board_widths) / 4)

    @property
    def sheet_along(self) -> Fraction:
        """What a sheet gives along its grain once its edges are trimmed, the smallest that may come."""
        return self.panel_length - self.sheet_tolerance - 2 * self.edge_trim

    @property
    def sheet_across(self) -> Fraction:
        """What it gives across."""
        return self.panel_width - self.sheet_tolerance - 2 * self.edge_trim

    @property
    def longest(self) -> Fraction:
        """What the longest board gives once its ends are trimmed."""
        return max(self.board_lengths) - 2 * self.end_trim

    @property
    def length_allowance(self) -> Fraction:
        """Eight times the rough allowance on the length of a part."""
        return 8 * self.rough_allowance


@dataclass(frozen=True, slots=True)
class Fasteners:
    """Kinds and spacing of fasteners; what carries load is sized by others."""

    case: str
    nail: str
    wall: str
    spacing: Fraction  # at most this far apart along a joint
    nail_spacing: Fraction
    wall_diameter: Fraction  # of the screw that holds work to the wall, over its thread
    wall_length: Fraction
    screws_per_stud: int


@dataclass(frozen=True, slots=True)
class LabelGrid:
    """Labels by the size of one and how many there are on a sheet, across and down."""

    width: Fraction
    height: Fraction
    columns: int
    rows: int


@dataclass(frozen=True, slots=True)
class Labels:
    """The sheet that part labels are printed on. A margin of None puts the labels in the middle of it."""

    paper: str
    grid: LabelGrid
    gap: Fraction  # between columns
    row_gap: Fraction
    side_margin: Fraction | None
    top_margin: Fraction | None


@dataclass(frozen=True, slots=True)
class Patterns:
    """Full-size patterns: how far apart ordinates stand, and what paper they are tiled on."""

    paper: str
    station: Fraction
    overlap: Fraction


@dataclass(frozen=True, slots=True)
class GivenLoad:
    """What a running length of shelf carries: pounds per foot, or kilograms per metre."""

    weight: int
    per: Literal["foot", "metre"]


@dataclass(frozen=True, slots=True)
class Sag:
    """How far shelves may sag, as span over sag: `aim` at first under what they carry, `years` in the end,
    `most` under the industry's load.
    """

    aim: int
    years: int
    most: int


@dataclass(frozen=True, slots=True)
class Season:
    """The air of the room in a season. humidity: relative, percent."""

    humidity: int
    temperature: int
    degrees: Literal["F", "C"]


@dataclass(frozen=True, slots=True)
class Air:
    """The driest and the dampest season."""

    driest: Season
    dampest: Season


@dataclass(frozen=True, slots=True)
class Waiver:
    """Findings of one rule that someone answers for; of one part or component when `part` names its key.

    relied_on: the document that it rests on.
    """

    rule: str
    reason: str
    by: str
    part: str
    relied_on: str


@dataclass(frozen=True, slots=True)
class Checks:
    """What findings are judged by. given_load goes before load, air before region."""

    load: str  # a use of shelves: tables/loads.py
    given_load: GivenLoad | None
    sag: Sag
    region: str  # tables/climates.py
    air: Air | None
    stud_spacing: Fraction
    blocking: bool  # solid backing behind all that is screwed to the wall
    waivers: tuple[Waiver, ...]


@dataclass(frozen=True, slots=True)
class Codes:
    """What body of rules judges the fireplace. body: "" where the spec does not choose; own: a table of the
    user's own. text: that table, as it was read.
    """

    body: Literal["", "none", "manual", "IRC", "own"]
    edition: str = ""
    table: str = ""  # its path as written
    text: str = ""


@dataclass(frozen=True, slots=True)
class Settings:
    """All of them, by their section of the spec."""

    codes: Codes
    checks: Checks
    stock: Stock
    fasteners: Fasteners
    labels: Labels
    patterns: Patterns
