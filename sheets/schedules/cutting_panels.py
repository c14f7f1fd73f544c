"""The cutting plan of panels: for each sheet good few sheets, in layouts that a table saw can make, and how
many the area needs at least.

The grain of a piece lies along the sheet's, unless the panel has none. Kerf, the trim of the edges and what a
sheet may be short of its size are counted.
Layouts are rips then crosscuts, or crosscuts then rips, with more rips and a trim of what is left.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import reduce
from math import ceil, gcd, lcm

from sheets.base.keys import key_order
from sheets.model.part import Material, Part
from sheets.model.settings import Stock
from sheets.model.wall import Wall
from sheets.schedules.guillotine import Laid, Layout, Rectangle, lay_out
from sheets.schedules.parts import shop_parts
from sheets.tables.lumber import Series
from sheets.tables.panels import panel_named

_WITHOUT_GRAIN = ("MDF", "particleboard", "hardboard")  # by what they creep as
_MOST_UNITS = 40_000  # finer sizes are packed on a coarser scale, rounded so that they still fit


@dataclass(frozen=True, slots=True)
class SheetPiece:
    """One part in a sheet. x from one end along the sheet's grain, y from one edge across it; mm."""

    key: str
    mark: str
    name: str
    x: Fraction
    y: Fraction
    along: Fraction
    across: Fraction
    turned: bool  # its length lies across the sheet

    @property
    def label(self) -> str:
        return self.mark or self.name


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet as cut. crosscut_first: sections are cut off before the rips. offcuts: along × across."""

    number: int
    crosscut_first: bool
    pieces: tuple[SheetPiece, ...]
    rips: tuple[tuple[Fraction, Fraction], ...]  # each first cut's strip, from and to
    offcuts: tuple[tuple[Fraction, Fraction], ...]


@dataclass(frozen=True, slots=True)
class PanelPlan:
    """All sheets of one panel and thickness."""

    material: Material
    thickness: Fraction  # true
    series: Series
    length: Fraction  # of a sheet, along its grain
    width: Fraction
    sheets: tuple[Sheet, ...]
    bound: int  # by area and kerf: no way of cutting needs fewer

    @property
    def proven(self) -> bool:
        return len(self.sheets) <= self.bound

    @property
    def statement(self) -> str:
        """What is known of the plan, as printed under it."""
        if self.proven:
            return "fewest sheets: proven, by area"
        return f"{len(self.sheets)} sheets; at least {self.bound} by area"


@dataclass(frozen=True, slots=True)
class PanelCutting:
    """All plans, and the parts that the sheet does not hold."""

    plans: tuple[PanelPlan, ...]
    too_large: tuple[Part, ...]


def cut_panels(wall: Wall) -> PanelCutting:
    """Return the cutting plans of all parts made of panels."""
    stock = wall.settings.stock
    groups: dict[tuple[str, Fraction], list[Part]] = {}
    too_large = []
    for part in shop_parts(wall):
        if part.material.kind != "panel":
            continue
        if fits_sheet(part, stock):
            layers = part.bend.laminations if part.bend else 1
            groups.setdefault((part.material.key, part.thickness / layers), []).extend([part] * layers)
        else:
            too_large.append(part)
    plans = tuple(plan_of(tuple(groups[key]), stock, key[1], wall.units) for key in sorted(groups))
    return PanelCutting(plans, tuple(too_large))


def has_grain(material: Material) -> bool:
    """Return whether a panel has a face grain to keep: any but a plain board of fibre or particles that the
    tables know.
    """
    panel = panel_named(material.name, hardwood_face=False)
    return bool(material.face) or panel is None or panel.creeps_as not in _WITHOUT_GRAIN


def fits_sheet(part: Part, stock: Stock) -> bool:
    """Return whether the part comes out of one sheet, its grain along the sheet's where it has one."""
    along, across = stock.sheet_along, stock.sheet_across
    if part.length <= along and part.width <= across:
        return True
    return not has_grain(part.material) and part.width <= along and part.length <= across


def plan_of(parts: tuple[Part, ...], stock: Stock, thickness: Fraction, series: Series) -> PanelPlan:
    """Return the plan of parts of one panel and thickness, each layer of a bent one a part. Each fits the
    sheet.
    """
    material = parts[0].material
    kinds = tuple(sorted({(part.length, part.width) for part in parts}, reverse=True))
    waiting = {
        kind: sorted((p for p in parts if (p.length, p.width) == kind), key=_order, reverse=True)
        for kind in kinds
    }
    units = _units(kinds, stock.kerf)
    turn = not has_grain(material)
    pieces = tuple(
        Rectangle(
            ceil((length + stock.kerf) * units),
            ceil((width + stock.kerf) * units),
            len(waiting[length, width]),
            turn,
        )
        for length, width in kinds
    )
    along, across = stock.sheet_along, stock.sheet_across
    layouts = lay_out(pieces, int((along + stock.kerf) * units), int((across + stock.kerf) * units))
    sheets = tuple(
        _sheet(number, layout, kinds, waiting, stock) for number, layout in enumerate(layouts, 1)
    )
    area = sum((part.length + stock.kerf) * (part.width + stock.kerf) for part in parts)
    bound = ceil(area / ((along + stock.kerf) * (across + stock.kerf)))
    return PanelPlan(material, thickness, series, stock.panel_length, stock.panel_width, sheets, bound)


def _units(kinds: tuple[tuple[Fraction, Fraction], ...], kerf: Fraction) -> Fraction:
    """How many whole units a mm is: as few as say every size with its kerf exactly."""
    sizes = [size + kerf for kind in kinds for size in kind]
    whole = lcm(*(size.denominator for size in sizes))
    common = reduce(gcd, (int(size * whole) for size in sizes))
    units = Fraction(whole, common)
    longest = max(sizes)
    return units if longest * units <= _MOST_UNITS else Fraction(_MOST_UNITS) / longest


def _order(part: Part) -> tuple[object, ...]:
    return (part.mark, key_order(part.key))


def _sheet(
    number: int,
    layout: Layout,
    kinds: tuple[tuple[Fraction, Fraction], ...],
    waiting: dict[tuple[Fraction, Fraction], list[Part]],
    stock: Stock,
) -> Sheet:
    run, room = stock.sheet_along, stock.sheet_across
    if layout.sections:
        run, room = room, run
    at, pieces, rips, offcuts = Fraction(0), [], [], []
    trim = stock.edge_trim
    for strip in layout.strips:
        lying = [
            [(laid, _side(kinds[laid.kind], laid.turned, layout.sections)) for laid in segment]
            for segment in strip.segments
        ]
        width = max(_stacked(segment, stock.kerf) for segment in lying)
        start = Fraction(0)
        for segment in lying:
            across = at
            for laid, (long, wide) in segment:
                part = waiting[kinds[laid.kind]].pop()
                piece = _piece(part, start + trim, across + trim, long, wide, layout.sections, laid.turned)
                pieces.append(piece)
                across += wide + stock.kerf
            longest = max(long for _, (long, _wide) in segment)
            offcuts.append(_offcut(longest, at + width - across, layout.sections))
            start += longest + stock.kerf
        rips.append((at + trim, at + trim + width))
        offcuts.append(_offcut(run - start, width, layout.sections))
        at += width + stock.kerf
    offcuts.append(_offcut(run, room - at, layout.sections))
    kept = tuple(o for o in offcuts if min(o) >= stock.keep_offcut / 4 and max(o) >= stock.keep_offcut)
    return Sheet(number, layout.sections, tuple(pieces), tuple(rips), kept)


def _stacked(segment: list[tuple[Laid, tuple[Fraction, Fraction]]], kerf: Fraction) -> Fraction:
    """How wide the pieces of a segment are together, with the saw cuts between them."""
    return sum((wide for _, (_long, wide) in segment), Fraction(0)) + (len(segment) - 1) * kerf


def _side(kind: tuple[Fraction, Fraction], turned: bool, sections: bool) -> tuple[Fraction, Fraction]:
    """Run along its strip and width across it, of a piece length × width."""
    length, width = kind
    return (width, length) if turned != sections else (length, width)


def _piece(
    part: Part, start: Fraction, at: Fraction, run: Fraction, width: Fraction, sections: bool, turned: bool
) -> SheetPiece:
    x, y, along, across = (at, start, width, run) if sections else (start, at, run, width)
    return SheetPiece(part.key, part.mark, part.name, x, y, along, across, turned)


def _offcut(run: Fraction, width: Fraction, sections: bool) -> tuple[Fraction, Fraction]:
    return (width, run) if sections else (run, width)
