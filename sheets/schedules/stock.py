"""What each part is milled from: the nominal board or sheet it is cut from, and the strips of a glue-up.

Softwood: the smallest PS 20 size whose dressed size holds the part; tongue-and-groove boards are bought as
such in softwood. Hardwood: the thinnest quarter that dresses to the part's thickness, and a board width that
holds it with an edge to joint. Metric: the smallest sawn section that holds it with the allowance.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Literal

from sheets.base.length import MM_PER_INCH, snap
from sheets.base.notation import Notation
from sheets.model.part import Part
from sheets.schedules.cells import TIMES, joined, length_cell
from sheets.schedules.settings import ShopSettings, StockSettings
from sheets.schedules.table import Cell
from sheets.tables.lumber import hardwood_quarters, softwood_thicknesses, softwood_widths, tongue_and_groove
from sheets.tables.woods import wood_named

Kind = Literal["softwood", "hardwood", "pattern", "sawn", "panel"]
Units = Literal["inch", "mm"]

# Conifers by the last word of their name, for species that the table of woods does not hold.
# Source: Wood Handbook, chapter 2: softwoods are the conifers.
_CONIFERS = (
    "fir",
    "pine",
    "cedar",
    "redcedar",
    "redwood",
    "spruce",
    "hemlock",
    "larch",
    "cypress",
    "juniper",
)
_MARK_INCH, _MARK_MM = MM_PER_INCH / 32, Fraction(1, 2)
# EN 1313-1 and -2 preferred sawn thicknesses, mm (from memory).
_SAWN_THICKNESS = tuple(Fraction(n) for n in (16, 19, 22, 25, 27, 32, 38, 44, 50, 63, 75, 100))


@dataclass(frozen=True, slots=True)
class Rough:
    """What a part is milled from. Sizes in mm.

    thickness and width are the nominal board's as it is paid for; `blank` is the piece sawn from it before
    milling, along the grain last. A part glued up of strips or laminated of layers has strips * layers
    blanks.
    """

    kind: Kind
    label: str  # "1 × 6", "4/4", "25 × 150", "23/32"
    thickness: Fraction
    width: Fraction
    blank: tuple[Fraction, Fraction, Fraction]
    strips: int = 1
    layers: int = 1
    lanes: int = 1  # how many such blanks are ripped side by side out of one board
    glue_up: str = ""  # said in the schedule's notes

    @property
    def pieces(self) -> int:
        return self.strips * self.layers

    def cell(self, notation: Notation) -> Cell:
        """The rough size as the schedule prints it: the stock, then how many pieces and how long."""
        count = f"{self.pieces} of " if self.pieces > 1 else ""
        if self.kind == "hardwood":
            size = joined(
                self.label,
                length_cell(self.blank[1], notation),
                length_cell(self.blank[2], notation),
                by=TIMES,
            )
        elif self.kind == "panel":
            size = joined(self.label, " panel")
        else:
            size = joined(self.label, length_cell(self.blank[2], notation), by=TIMES)
        return joined(count, size) if count else size


def is_softwood(species: str) -> bool:
    """Return whether the species is sold as softwood; one the table of woods does not hold goes by its last
    word.
    """
    wood = wood_named(species)
    if wood is not None:
        return wood.trade == "softwood"
    words = species.lower().replace("-", " ").split()
    return bool(words) and words[-1] in _CONIFERS


def rough_of(part: Part, settings: ShopSettings, units: Units) -> Rough | None:
    """Return what the part is milled from; None for stone, gypsum and the like."""
    if part.material.kind == "panel":
        return _panel(part, settings.stock)
    if part.material.kind != "wood":
        return None
    if units == "mm":
        return _sawn(part, settings.stock)
    if not is_softwood(part.material.name):
        return _hardwood(part, settings.stock)
    pattern = _pattern(part, settings.stock) if is_pattern_board(part) else None
    return pattern or _softwood(part, settings.stock)


def is_pattern_board(part: Part) -> bool:
    """Return whether the part is run with tongue and groove, as backer boards are."""
    return any(joint.kind in ("tongue", "groove") for joint in part.joints) and "backer" in part.role


def _pattern(part: Part, stock: StockSettings) -> Rough | None:
    fits = [row for row in tongue_and_groove() if row.overall >= part.width]
    if not fits or part.thickness > MM_PER_INCH:
        return None
    row = fits[0]
    nominal = Fraction(row.nominal) * MM_PER_INCH
    blank = (part.thickness, part.width, part.length + stock.length_allowance)
    return Rough("pattern", f"1 × {row.nominal} T&G", MM_PER_INCH, nominal, blank)


def _softwood(part: Part, stock: StockSettings) -> Rough:
    widest = softwood_widths()[-1]
    sizes = [row for row in softwood_thicknesses() if _nominal(row.nominal) <= stock.thickest]
    layers = max(1, ceil(part.thickness / sizes[-1].dressed))
    thickness = next(row for row in sizes if row.dressed >= part.thickness / layers)
    strips, each = _strips(part.width, widest.dressed, _MARK_INCH)
    width = next(row for row in softwood_widths() if row.dressed >= each)
    blank = (part.thickness / layers, each, part.length + stock.length_allowance)
    return Rough(
        "softwood",
        f"{thickness.nominal} × {width.nominal}",
        _nominal(thickness.nominal),
        _nominal(width.nominal),
        blank,
        strips,
        layers,
        glue_up=_glue_up(strips, layers),
    )


def _hardwood(part: Part, stock: StockSettings) -> Rough:
    sizes = [row for row in hardwood_quarters() if row.rough <= stock.thickest]
    layers = max(1, ceil(part.thickness / sizes[-1].s2s))
    quarter = next(row for row in sizes if row.s2s >= part.thickness / layers)
    strips, each = _strips(part.width, max(stock.board_widths) - stock.edge_allowance, _MARK_INCH)
    sawn = each + stock.edge_allowance
    width, lanes = _board(sawn, stock)
    blank = (part.thickness / layers, sawn, part.length + stock.length_allowance)
    return Rough(
        "hardwood", quarter.name, quarter.rough, width, blank, strips, layers, lanes, _glue_up(strips, layers)
    )


def _sawn(part: Part, stock: StockSettings) -> Rough:
    sizes = [size for size in _SAWN_THICKNESS if size <= stock.thickest]
    planed = min(stock.rough_allowance, sizes[0] / 2)
    layers = max(1, ceil(part.thickness / (sizes[-1] - planed)))
    thickness = next(size for size in sizes if size - planed >= part.thickness / layers)
    strips, each = _strips(part.width, max(stock.board_widths) - stock.edge_allowance, _MARK_MM)
    sawn = each + stock.edge_allowance
    width, lanes = _board(sawn, stock)
    blank = (part.thickness / layers, sawn, part.length + stock.length_allowance)
    return Rough(
        "sawn",
        f"{thickness} × {width}",
        thickness,
        width,
        blank,
        strips,
        layers,
        lanes,
        _glue_up(strips, layers),
    )


def _panel(part: Part, stock: StockSettings) -> Rough:
    blank = (part.thickness, part.width, part.length)
    return Rough("panel", _fraction_text(part.thickness), part.thickness, stock.panel_width, blank)


def _board(sawn: Fraction, stock: StockSettings) -> tuple[Fraction, int]:
    """The board width that wastes least when blanks of a width are ripped from it, and how many it gives."""
    choices = [(w, (w + stock.kerf) // (sawn + stock.kerf)) for w in stock.board_widths if w >= sawn]
    return min(choices, key=lambda choice: (choice[0] / choice[1], choice[0]))


def _strips(width: Fraction, widest: Fraction, mark: Fraction) -> tuple[int, Fraction]:
    # Strips of one width, up to the next mark of a rule; a blank's allowance covers jointing glued edges.
    count = max(1, ceil(width / widest))
    return (1, width) if count == 1 else (count, min(widest, snap(width / count, mark, "up")))


def _glue_up(strips: int, layers: int) -> str:
    said = [
        f"glue up of {strips} strips" if strips > 1 else "",
        f"laminate of {layers} layers" if layers > 1 else "",
    ]
    return ", ".join(word for word in said if word)


def _nominal(name: str) -> Fraction:
    return sum((Fraction(word) for word in name.split()), Fraction(0)) * MM_PER_INCH


def _fraction_text(size: Fraction) -> str:
    inches = size / MM_PER_INCH
    if inches.denominator in (1, 2, 4, 8, 16, 32, 64):
        whole, rest = divmod(inches, 1)
        return " ".join(text for text in (str(whole) if whole else "", str(rest) if rest else "") if text)
    return f"{float(size):g} mm"
