"""Whether each piece can be bought: thickness, width and length against what is sold."""

from __future__ import annotations

from fractions import Fraction

from sheets.base.length import MM_PER_INCH, snap
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import across_the_grain, at, decided, under
from sheets.checks.mechanics.strengths import panel_of
from sheets.checks.wording import called, fine, length
from sheets.model.part import Part
from sheets.model.settings import Stock
from sheets.model.wall import Wall
from sheets.schedules.cutting_panels import fits_sheet
from sheets.schedules.stock import Rough, is_softwood, rough_of, scarf_slope
from sheets.tables.figures import figure
from sheets.tables.lumber import (
    PanelSheet,
    Trade,
    hardwood_quarters,
    panel_sheets,
    sawn_thicknesses,
    sheet_sizes,
    sheet_sold,
    softwood_thicknesses,
    softwood_widths,
    stock_lengths,
)
from sheets.tables.read import Cited, together

NAME = "stock-sizes"
SHOP = Cited("the shop's stock as the spec gives it", "confirmed")

EXPLAIN = """\
Reads the finished sizes of each shop-made piece. Solid wood: is there a thickness sold that dresses to
it (PS 20 for softwood, NHLA quarters surfaced on two sides for hardwood; in a metric set the sawn sizes
of EN 1313-1 for softwood, -2 for hardwood), is a single board wide enough, is a stock length long enough,
all of the stock that the spec names. Panels: is the thickness one that the panel truly has (3/4 in
plywood is about 23/32 in), does the piece fit the sheet with its face grain along the piece, the sheet's
edges trimmed and as small as its tolerance lets it be. A piece longer than any board: a warning, with the
longer stock that would do in one and the lengths that the schedule joins it of. A piece larger than the
sheet: an error. A panel drawn thicker or thinner than it is sold: a warning. A glue-up with its strips, a
lamination with its layers: a note, so that it is planned and not found out.
Sources: PS 20; NHLA; EN 1313; PS 1 and HP-1, EN 315, 622 and 312 for panels; Wood Handbook chapter 10 for
scarfs, from memory; the shop's own stock from the spec."""


def _judge(wall: Wall) -> Outcome:
    stock = wall.settings.stock
    parts = [part for part in wall.parts if part.maker == "shop" and part.material.kind in ("wood", "panel")]
    findings: list[Finding] = []
    for part in parts:
        if part.material.kind == "panel":
            findings += _panel(wall, part, stock)
            continue
        findings += _boards(wall, part, stock)
    measures = (
        (
            Measure(
                f"{len(parts)} pieces of wood and panel",
                f"longest {length(wall, _longest(parts))}",
                f"{length(wall, stock.longest)} from the longest board",
                "for information",
                SHOP,
            ),
        )
        if parts
        else ()
    )
    return Outcome(len(parts), tuple(findings), measures)


def _longest(parts: list[Part]) -> Fraction:
    return max(part.length for part in parts)


def _boards(wall: Wall, part: Part, stock: Stock) -> tuple[Finding, ...]:
    rough = rough_of(part, stock, wall.units)
    assert rough is not None
    return (*_long(wall, part, rough, stock), *_thick(wall, part, rough), *_wide(wall, part, rough))


def _long(wall: Wall, part: Part, rough: Rough, stock: Stock) -> tuple[Finding, ...]:
    if part.length <= stock.longest:
        return ()
    longer = _sold(wall, part, stock)
    whole = f"a board of {length(wall, longer)} would do in one" if longer else "no longer board is sold"
    if rough.lengths > 1:
        cure = (
            f"{whole}; else join it of {rough.lengths} lengths, each {length(wall, rough.blank[2])}, by "
            f"scarfs of 1 in {scarf_slope()}, as the schedule lists it"
        )
    else:
        cure = f"{whole}; else make it in two pieces with a joint that is drawn"
    return (
        about(
            NAME,
            "warning" if rough.lengths > 1 else "error",
            f"{called(part)} is {length(wall, part.length)} long; the longest board gives "
            f"{length(wall, stock.longest)}",
            part,
            cure=cure,
            cited=together(SHOP, figure("joinery", "scarf slope").cited),
            made_from=decided(part, part.length_axis),
        ),
    )


def _sold(wall: Wall, part: Part, stock: Stock) -> Fraction | None:
    """The shortest length in which boards of this trade are sold that holds the part, its ends trimmed."""
    wanted = part.length + stock.length_allowance + 2 * stock.end_trim
    return next((row.length for row in stock_lengths(_trade(part), wall.units) if row.length >= wanted), None)


def _trade(part: Part) -> Trade:
    return "softwood" if is_softwood(part.material.name) else "hardwood"


def _thick(wall: Wall, part: Part, rough: Rough) -> tuple[Finding, ...]:
    if rough.layers == (part.bend.laminations if part.bend else 1):
        return ()  # what is bent of laminations is meant to be in layers
    return (
        about(
            NAME,
            "note",
            f"{called(part)} is {length(wall, part.thickness)} thick; a single board dresses to "
            f"{length(wall, rough.dressed)}",
            part,
            cure=f"build it up of {rough.layers} layers, each {length(wall, rough.blank[0])} thick, as the "
            "schedule lists it, the glue line away from the face that shows",
            cited=_cited(wall, part, "thickness"),
            made_from=decided(part, "thickness"),
        ),
    )


def _wide(wall: Wall, part: Part, rough: Rough) -> tuple[Finding, ...]:
    if rough.strips == 1:
        return ()
    return (
        about(
            NAME,
            "note",
            f"{called(part)} is {length(wall, part.width)} wide; a single board gives "
            f"{length(wall, rough.widest)}",
            part,
            cure=f"glue it up of {rough.strips} strips, each {length(wall, rough.blank[1])} wide before "
            "jointing, as the schedule lists it, colour and grain matched",
            cited=_cited(wall, part, "width"),
            made_from=across_the_grain(part),
        ),
    )


def _cited(wall: Wall, part: Part, side: str) -> Cited:
    if wall.units == "mm":
        return together(SHOP, sawn_thicknesses(_trade(part))[-1].cited) if side == "thickness" else SHOP
    if _trade(part) == "softwood":
        sizes = softwood_thicknesses() if side == "thickness" else softwood_widths()
        return together(SHOP, sizes[-1].cited)
    return together(SHOP, hardwood_quarters()[-1].cited) if side == "thickness" else SHOP


def _panel(wall: Wall, part: Part, stock: Stock) -> tuple[Finding, ...]:
    findings = [*_panel_thickness(wall, part)]
    if not fits_sheet(part, stock):
        long, wide = stock.sheet_along, stock.sheet_across
        lost = stock.panel_length - long
        larger = next(
            (s for s in sheet_sizes() if min(s.length - part.length, s.width - part.width) >= lost), None
        )
        sold = (
            f"a sheet of {length(wall, larger.length)} by {length(wall, larger.width)} would do; else make it"
            if larger
            else "no larger sheet is commonly sold: make it"
        )
        findings.append(
            about(
                NAME,
                "error",
                f"{called(part)}, {length(wall, part.length)} along the face grain and "
                f"{length(wall, part.width)} across, is larger than the {length(wall, long)} by "
                f"{length(wall, wide)} that a sheet of {length(wall, stock.panel_length)} by "
                f"{length(wall, stock.panel_width)} gives with its edges trimmed",
                part,
                cure=f"{sold} in two pieces with a joint that is drawn",
                cited=together(SHOP, larger.cited) if larger else SHOP,
                made_from=decided(part, part.length_axis if part.length > long else part.width_axis),
            )
        )
    return tuple(findings)


def _panel_thickness(wall: Wall, part: Part) -> tuple[Finding, ...]:
    panel = panel_of(part.material)
    sheets = [each for each in panel_sheets(panel.sold_as) if each.series == wall.units] if panel else []
    thickness = part.bend.layer if part.bend else part.thickness
    if panel is None or not sheets or sheet_sold(panel.sold_as, wall.units, thickness):
        return ()
    nearest = min(sheets, key=lambda sheet: abs(sheet.thickness - thickness))
    return (
        about(
            NAME,
            "warning",
            f"{called(part)} is drawn {length(wall, thickness)} thick; no {nearest.panel} is sold so: "
            f"nearest is {nearest.label}, truly {fine(wall, nearest.thickness)}",
            part,
            cure=f"would do at {length(wall, _true(wall, nearest))}; measure the sheets before cutting",
            cited=nearest.cited,
            made_from=under(part.made_from, "thickness")
            if part.bend
            else at(part.made_from, "materials", part.material.key, "thickness"),
        ),
    )


def _true(wall: Wall, sheet: PanelSheet) -> Fraction:
    """The true thickness as it can be written: in 64ths of an inch, or tenths of a millimetre."""
    step = MM_PER_INCH / 64 if wall.units == "inch" else Fraction(1, 10)
    return snap(sheet.thickness, step)


RULE = Rule(NAME, "Stock sizes", "stock", 10, _judge, EXPLAIN)
