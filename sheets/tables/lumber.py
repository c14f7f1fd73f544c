"""What lumber yards and panel dealers sell: dressed softwood, hardwood in quarters, T&G patterns, sheets.

All lengths are exact millimetres. Each row carries its citation.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Literal

from sheets.tables.read import Cited, cited, inches, length, optional_inches, rows

Trade = Literal["softwood", "hardwood"]
Series = Literal["inch", "mm"]
"""The sizes of North America in inches, those of Europe in millimetres."""


@dataclass(frozen=True, slots=True)
class DressedSize:
    """One line of the softwood standard: a nominal thickness or width and what is left when it is dressed
    dry.
    """

    dimension: Literal["thickness", "width"]
    nominal: str  # "1", "5/4", "6", as the yard says it
    dressed: Fraction
    green: Fraction | None  # finish is dressed dry alone
    cited: Cited


@dataclass(frozen=True, slots=True)
class HardwoodQuarter:
    """A hardwood thickness as sold: rough, surfaced on one side, surfaced on two."""

    name: str  # "4/4"
    rough: Fraction
    s1s: Fraction | None
    s2s: Fraction
    cited: Cited


@dataclass(frozen=True, slots=True)
class StockLength:
    """A length in which boards are sold."""

    trade: Trade
    length: Fraction
    cited: Cited


@dataclass(frozen=True, slots=True)
class TongueAndGroove:
    """A tongue-and-groove pattern of 1 in nominal stock. Overall = face + tongue. Mills vary."""

    nominal: str
    overall: Fraction
    face: Fraction  # what it covers
    tongue: Fraction
    feet_per_square_foot: float
    board_feet_per_square_foot: float
    cited: Cited


@dataclass(frozen=True, slots=True)
class PanelSheet:
    """A panel as sold: label, true thickness with its least and most."""

    panel: str  # "veneer-core plywood", "MDF", ...
    series: Series
    label: str  # "3/4", "18 mm"
    thickness: Fraction
    least: Fraction
    most: Fraction
    cited: Cited


@cache
def softwood_boards() -> tuple[DressedSize, ...]:
    """Return the nominal thicknesses and widths of softwood with their dressed sizes, thinnest and narrowest
    first.
    """
    return tuple(
        DressedSize(
            "thickness" if row["dimension"] == "thickness" else "width",
            row["nominal"],
            inches(row["dressed_in"]),
            optional_inches(row["green_in"]),
            cited(row),
        )
        for row in rows("softwood")
    )


@cache
def softwood_thicknesses() -> tuple[DressedSize, ...]:
    """Return the softwood thicknesses, thinnest first."""
    return tuple(size for size in softwood_boards() if size.dimension == "thickness")


@cache
def softwood_widths() -> tuple[DressedSize, ...]:
    """Return the softwood widths, narrowest first."""
    return tuple(size for size in softwood_boards() if size.dimension == "width")


@cache
def hardwood_quarters() -> tuple[HardwoodQuarter, ...]:
    """Return the hardwood thicknesses, thinnest first."""
    return tuple(
        HardwoodQuarter(
            row["quarters"],
            inches(row["rough_in"]),
            optional_inches(row["s1s_in"]),
            inches(row["s2s_in"]),
            cited(row),
        )
        for row in rows("hardwood")
    )


@dataclass(frozen=True, slots=True)
class SawnThickness:
    """A thickness in which sawn timber is sold in Europe."""

    trade: Trade
    thickness: Fraction
    cited: Cited


@cache
def sawn_thicknesses(trade: Trade) -> tuple[SawnThickness, ...]:
    """Return the thicknesses of sawn metric sections of a trade, thinnest first."""
    return tuple(
        SawnThickness(trade, Fraction(row["thickness_mm"]), cited(row))
        for row in rows("sawn")
        if row["trade"] == trade
    )


@cache
def stock_lengths(trade: Trade, series: Series) -> tuple[StockLength, ...]:
    """Return the lengths in which the boards of a trade are sold, shortest first."""
    return tuple(
        StockLength(trade, length(row["length"]), cited(row))
        for row in rows("lengths")
        if (row["trade"], row["series"]) == (trade, series)
    )


@cache
def tongue_and_groove() -> tuple[TongueAndGroove, ...]:
    """Return the tongue-and-groove patterns of 1 in nominal stock, narrowest first."""
    return tuple(
        TongueAndGroove(
            row["nominal"],
            inches(row["overall_in"]),
            inches(row["face_in"]),
            inches(row["tongue_in"]),
            float(row["feet_per_square_foot"]),
            float(row["board_feet_per_square_foot"]),
            cited(row),
        )
        for row in rows("tongue_and_groove")
    )


@cache
def panel_sheets(panel: str = "") -> tuple[PanelSheet, ...]:
    """Return the sheets sold, thinnest first within a panel; those of one panel when it is named."""
    return tuple(
        PanelSheet(
            row["panel"],
            "mm" if row["series"] == "mm" else "inch",
            row["label"],
            length(row["thickness"]),
            length(row["least"]),
            length(row["most"]),
            cited(row),
        )
        for row in rows("panel_sheets")
        if panel in ("", row["panel"])
    )


def sheet_sold(panel: str, series: Series, thickness: Fraction) -> PanelSheet | None:
    """Return the sheet that a thickness means: the one that is called so, else the nearest whose tolerance
    holds it; None where no sheet of the series is so thick.
    """
    sold = [sheet for sheet in panel_sheets(panel) if sheet.series == series]
    called = [sheet for sheet in sold if _nominal(sheet.label) == thickness]
    held = [sheet for sheet in sold if sheet.least <= thickness <= sheet.most]
    return min(called or held, key=lambda sheet: abs(sheet.thickness - thickness), default=None)


def _nominal(label: str) -> Fraction:
    return length(label) if label.endswith("mm") else inches(label)


@dataclass(frozen=True, slots=True)
class SheetSize:
    """A size in which plywood is sold. Length is along the face grain."""

    width: Fraction
    length: Fraction
    cited: Cited


@cache
def sheet_sizes() -> tuple[SheetSize, ...]:
    """Return the sizes in which plywood is sold, the narrowest and shortest first."""
    return tuple(
        SheetSize(inches(row["width_in"]), inches(row["length_in"]), cited(row))
        for row in rows("panel_sizes")
    )
