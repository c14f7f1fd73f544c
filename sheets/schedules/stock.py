"""What each part is milled from: the nominal board or sheet it is cut from, and the strips of a glue-up, the
layers of a lamination, the lengths of a scarf.

Softwood: the smallest PS 20 size whose dressed size holds the part; tongue-and-groove boards are bought as
such in softwood. Hardwood: the thinnest quarter that dresses to the part's thickness, and a board width that
holds it with an edge to joint. Metric: the smallest sawn section of its trade that holds it with the
allowance.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Literal

from sheets.base.length import MM_PER_INCH, snap
from sheets.base.notation import Notation
from sheets.model.part import Part
from sheets.model.settings import Stock
from sheets.schedules.cells import TIMES, joined, length_cell
from sheets.schedules.table import Cell
from sheets.tables.figures import figure
from sheets.tables.lumber import (
    Trade,
    hardwood_quarters,
    sawn_thicknesses,
    softwood_thicknesses,
    softwood_widths,
    tongue_and_groove,
)
from sheets.tables.woods import trade_of

Kind = Literal["softwood", "hardwood", "pattern", "sawn", "panel"]
Units = Literal["inch", "mm"]

_MARK_INCH, _MARK_MM = MM_PER_INCH / 32, Fraction(1, 2)
_MOST_LENGTHS = 20
"""A part of more lengths than this is a slip."""


@dataclass(frozen=True, slots=True)
class Rough:
    """What a part is milled from. Sizes in mm.

    thickness and width are the nominal board's as it is paid for; `blank` is the piece sawn from it before
    milling, along the grain last. A part glued up of strips, laminated of layers or joined of lengths has
    strips * layers * lengths blanks.
    """

    kind: Kind
    label: str  # "1 × 6", "4/4", "25 × 150", "23/32"
    thickness: Fraction
    width: Fraction
    blank: tuple[Fraction, Fraction, Fraction]
    strips: int = 1
    layers: int = 1
    lengths: int = 1  # end to end, joined by scarfs
    lanes: int = 1  # how many such blanks are ripped side by side out of one board
    dressed: Fraction = Fraction(0)  # thickest that this stock makes, and the widest of one board, mm
    widest: Fraction = Fraction(0)

    @property
    def pieces(self) -> int:
        return self.strips * self.layers * self.lengths

    @property
    def counted_width(self) -> Fraction:
        """What a blank's width counts as: hardwood its own, what is sold in sizes its share of the board."""
        return self.blank[1] if self.kind == "hardwood" else self.width / self.lanes

    @property
    def piece_name(self) -> str:
        """What one of several pieces is: a strip, a layer, a length; empty when the part is of one."""
        several = {"strip": self.strips, "layer": self.layers, "length": self.lengths}
        names = [name for name, count in several.items() if count > 1]
        return names[0] if len(names) == 1 else "piece" if names else ""

    @property
    def glue_up(self) -> str:
        """How the part is made of them, as the schedule's notes say it; empty when it is of one piece."""
        said = [
            f"glue up of {self.strips} strips" if self.strips > 1 else "",
            f"laminate of {self.layers} layers" if self.layers > 1 else "",
            f"join {self.lengths} lengths by scarfs, 1 in {scarf_slope()}" if self.lengths > 1 else "",
        ]
        return ", ".join(word for word in said if word)

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
    """Return whether the species is sold as softwood; one that no table has is listed as rough hardwood, and
    the checks say so.
    """
    return trade_of(species) == "softwood"


def rough_of(part: Part, stock: Stock, units: Units) -> Rough | None:
    """Return what the part is milled from; None for stone, gypsum and the like."""
    if part.material.kind == "panel":
        return _panel(part, stock)
    if part.material.kind != "wood":
        return None
    if units == "mm":
        return _sawn(part, stock)
    if not is_softwood(part.material.name):
        return _hardwood(part, stock)
    pattern = _pattern(part, stock) if is_pattern_board(part) else None
    return pattern or _softwood(part, stock)


def is_pattern_board(part: Part) -> bool:
    """Return whether the part is run with tongue and groove, as backer boards are."""
    return any(joint.kind in ("tongue", "groove") for joint in part.joints) and part.does.member == "board"


def _pattern(part: Part, stock: Stock) -> Rough | None:
    fits = [row for row in tongue_and_groove() if row.overall >= part.width]
    if not fits or part.thickness > MM_PER_INCH:
        return None
    row = fits[0]
    nominal = Fraction(row.nominal) * MM_PER_INCH
    lengths, long = _lengths(part, 1, stock, _MARK_INCH)
    blank = (part.thickness, part.width, long)
    return Rough(
        "pattern",
        f"1 × {row.nominal} T&G",
        MM_PER_INCH,
        nominal,
        blank,
        lengths=lengths,
        dressed=MM_PER_INCH,
        widest=tongue_and_groove()[-1].overall,
    )


def _softwood(part: Part, stock: Stock) -> Rough:
    widest = softwood_widths()[-1]
    sizes = [row for row in softwood_thicknesses() if _nominal(row.nominal) <= stock.thickest]
    layers = max(_bent_layers(part), ceil(part.thickness / sizes[-1].dressed))
    thickness = next(row for row in sizes if row.dressed >= part.thickness / layers)
    strips, each = _strips(part.width, widest.dressed, _MARK_INCH)
    width = next(row for row in softwood_widths() if row.dressed >= each)
    lengths, long = _lengths(part, layers, stock, _MARK_INCH)
    return Rough(
        "softwood",
        f"{thickness.nominal} × {width.nominal}",
        _nominal(thickness.nominal),
        _nominal(width.nominal),
        (part.thickness / layers, each, long),
        strips,
        layers,
        lengths,
        dressed=sizes[-1].dressed,
        widest=widest.dressed,
    )


def _hardwood(part: Part, stock: Stock) -> Rough:
    sizes = [row for row in hardwood_quarters() if row.rough <= stock.thickest]
    layers = max(_bent_layers(part), ceil(part.thickness / sizes[-1].s2s))
    quarter = next(row for row in sizes if row.s2s >= part.thickness / layers)
    return _ripped(part, "hardwood", quarter.name, quarter.rough, sizes[-1].s2s, layers, stock)


def _sawn(part: Part, stock: Stock) -> Rough:
    trade: Trade = "softwood" if is_softwood(part.material.name) else "hardwood"
    sizes = [row.thickness for row in sawn_thicknesses(trade) if row.thickness <= stock.thickest]
    planed = min(stock.rough_allowance, sizes[0] / 2)
    layers = max(_bent_layers(part), ceil(part.thickness / (sizes[-1] - planed)))
    thickness = next(size for size in sizes if size - planed >= part.thickness / layers)
    return _ripped(part, "sawn", str(thickness), thickness, sizes[-1] - planed, layers, stock)


def _ripped(
    part: Part,
    kind: Kind,
    label: str,
    thickness: Fraction,
    dressed: Fraction,
    layers: int,
    stock: Stock,
) -> Rough:
    """What is ripped from rough boards of the widths that the shop buys."""
    mark = _MARK_MM if kind == "sawn" else _MARK_INCH
    widest = max(stock.board_widths) - stock.edge_allowance
    strips, each = _strips(part.width, widest, mark)
    sawn = each + stock.edge_allowance
    width, lanes = _board(sawn, stock)
    lengths, long = _lengths(part, layers, stock, mark)
    blank = (part.thickness / layers, sawn, long)
    said = f"{label} × {width}" if kind == "sawn" else label
    return Rough(kind, said, thickness, width, blank, strips, layers, lengths, lanes, dressed, widest)


def _panel(part: Part, stock: Stock) -> Rough:
    layers = _bent_layers(part)
    each = part.thickness / layers
    blank = (each, part.width, part.length)
    return Rough("panel", _fraction_text(each), each, stock.panel_width, blank, layers=layers)


def _bent_layers(part: Part) -> int:
    """Layers of a piece that is bent of laminations, else 1."""
    return part.bend.laminations if part.bend else 1


def _board(sawn: Fraction, stock: Stock) -> tuple[Fraction, int]:
    """The board width that wastes least when blanks of a width are ripped from it, and how many it gives."""
    choices = [(w, (w + stock.kerf) // (sawn + stock.kerf)) for w in stock.board_widths if w >= sawn]
    return min(choices, key=lambda choice: (choice[0] / choice[1], choice[0]))


def _strips(width: Fraction, widest: Fraction, mark: Fraction) -> tuple[int, Fraction]:
    # Strips of one width, up to the next mark of a rule; a blank's allowance covers jointing glued edges.
    count = max(1, ceil(width / widest))
    return (1, width) if count == 1 else (count, min(widest, snap(width / count, mark, "up")))


def _lengths(part: Part, layers: int, stock: Stock, mark: Fraction) -> tuple[int, Fraction]:
    """How many lengths a part is joined of, and how long each blank is, half of each scarf and the allowance
    included. One, however long, where so thick a scarf leaves nothing of a board.
    """
    longest = stock.longest
    if part.length <= longest:
        return 1, part.length + stock.length_allowance
    scarf = scarf_slope() * part.thickness / layers
    for count in range(2, _MOST_LENGTHS + 1):
        each = snap((part.length + (count - 1) * scarf) / count, mark, "up") + stock.length_allowance
        if each <= longest and each > 2 * scarf:
            return count, each
    return 1, part.length + stock.length_allowance


def scarf_slope() -> int:
    """Return how many times its thickness a scarf is long."""
    return int(figure("joinery", "scarf slope").value)


def _nominal(name: str) -> Fraction:
    return sum((Fraction(word) for word in name.split()), Fraction(0)) * MM_PER_INCH


def _fraction_text(size: Fraction) -> str:
    inches = size / MM_PER_INCH
    if inches.denominator in (1, 2, 4, 8, 16, 32, 64):
        whole, rest = divmod(inches, 1)
        return " ".join(text for text in (str(whole) if whole else "", str(rest) if rest else "") if text)
    return f"{float(size):g} mm"
