"""Whether each piece can be bought: thickness, width and length against what is sold."""

from __future__ import annotations

from fractions import Fraction

from sheets.base.length import MM_PER_INCH
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.places import across_the_grain, at, decides
from sheets.checks.wording import called, length
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.schedules.settings import StockSettings, shop_settings
from sheets.schedules.stock import is_softwood
from sheets.tables.figures import figure
from sheets.tables.lumber import (
    PanelSheet,
    hardwood_quarters,
    panel_sheets,
    softwood_thicknesses,
    softwood_widths,
)
from sheets.tables.match import plain_name
from sheets.tables.read import Cited

NAME = "stock-sizes"
SHOP = Cited("the shop's stock as the spec gives it", "confirmed")

EXPLAIN = """\
Reads the finished sizes of each shop-made piece. Solid wood: is there a thickness sold that dresses to
it (PS 20 for softwood, NHLA quarters surfaced on two sides for hardwood), is a single board wide enough,
is a stock length long enough. Panels: is the thickness one that the panel truly has (3/4 in plywood is
about 23/32 in), does the piece fit the sheet with its face grain along the piece. A piece longer than
any stock, or larger than the sheet: an error. A panel drawn thicker or thinner than it is sold: a
warning. A glue-up or a lamination: a note, so that it is planned and not found out.
Sources: PS 20; NHLA; PS 1 and HP-1 for panels; the shop's own stock from the spec."""


def _judge(wall: Wall) -> Outcome:
    shop = shop_settings(wall)
    parts = [part for part in wall.parts if part.maker == "shop" and part.material.kind in ("wood", "panel")]
    findings: list[Finding] = []
    for part in parts:
        if part.material.kind == "panel":
            findings += _panel(wall, part, shop.stock)
            continue
        findings += _too_long(wall, part, shop.stock)
        findings += [*_thick(wall, part), *_wide(wall, part)]
    measures = (
        (
            Measure(
                f"{len(parts)} pieces of wood and panel",
                f"longest {length(wall, _longest(parts))}",
                f"{length(wall, max(shop.stock.board_lengths) - 2 * shop.stock.end_trim)} from the longest "
                "board",
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


def _too_long(wall: Wall, part: Part, stock: StockSettings) -> tuple[Finding, ...]:
    most = max(stock.board_lengths) - 2 * stock.end_trim
    if part.length <= most:
        return ()
    return (
        about(
            NAME,
            "error",
            f"{called(part)} is {length(wall, part.length)} long; the longest board gives "
            f"{length(wall, most)}",
            part,
            cure=f"would do at {length(wall, most)}, in two pieces with a joint that is drawn, or from "
            "longer stock",
            cited=SHOP,
            made_from=decides(part, part.length_axis),
        ),
    )


def _thick(wall: Wall, part: Part) -> tuple[Finding, ...]:
    """The thickest board that dealers keep: 8/4 hardwood, 2 in softwood."""
    most, cited = _thickest(part)
    if part.thickness <= most:
        return ()
    return (
        about(
            NAME,
            "note",
            f"{called(part)} is {length(wall, part.thickness)} thick; a single board dresses to "
            f"{length(wall, most)}: it is laminated or boxed",
            part,
            cure="plan the glue line away from the face that shows, or box the piece out",
            cited=cited,
            word=("thickness",),
        ),
    )


def _wide(wall: Wall, part: Part) -> tuple[Finding, ...]:
    most, cited = _widest(part)
    if part.width <= most:
        return ()
    return (
        about(
            NAME,
            "note",
            f"{called(part)} is {length(wall, part.width)} wide; single boards go up to "
            f"{length(wall, most)}: it is glued up",
            part,
            cure=f"would be one board up to {length(wall, most)} wide; else plan the joints and match the "
            "grain",
            cited=cited,
            made_from=across_the_grain(part),
        ),
    )


def _thickest(part: Part) -> tuple[Fraction, Cited]:
    if is_softwood(part.material.name):
        size = next(size for size in softwood_thicknesses() if size.nominal == "2")
        return size.dressed, size.cited
    quarter = next(quarter for quarter in hardwood_quarters() if quarter.name == "8/4")
    return quarter.s2s, quarter.cited


def _widest(part: Part) -> tuple[Fraction, Cited]:
    if is_softwood(part.material.name):
        size = softwood_widths()[-1]
        return size.dressed, size.cited
    widest = figure("joinery", "hardwood board width most")
    return widest.value, widest.cited


def _panel(wall: Wall, part: Part, stock: StockSettings) -> tuple[Finding, ...]:
    findings = [*_panel_thickness(wall, part)]
    long, wide = stock.panel_length, stock.panel_width
    if part.length > long or part.width > wide:
        findings.append(
            about(
                NAME,
                "error",
                f"{called(part)}, {length(wall, part.length)} along the face grain and "
                f"{length(wall, part.width)} across, is larger than the sheet of {length(wall, long)} by "
                f"{length(wall, wide)}",
                part,
                cure=f"would do within {length(wall, long)} by {length(wall, wide)}, or in two pieces "
                "with a joint that is drawn",
                cited=SHOP,
                made_from=decides(part, part.length_axis if part.length > long else part.width_axis),
            )
        )
    return tuple(findings)


def _panel_thickness(wall: Wall, part: Part) -> tuple[Finding, ...]:
    sheets = _sheets_of(part)
    if not sheets or any(sheet.least <= part.thickness <= sheet.most for sheet in sheets):
        return ()
    nearest = min(sheets, key=lambda sheet: abs(sheet.thickness - part.thickness))
    return (
        about(
            NAME,
            "warning",
            f"{called(part)} is drawn {length(wall, part.thickness)} thick; no {nearest.panel} is sold so: "
            f"nearest is {nearest.label}, truly {float(nearest.thickness / MM_PER_INCH):.3f} in",
            part,
            cure=f"would do at {length(wall, _in_64ths(nearest.thickness))}; measure the sheets before "
            "cutting",
            cited=nearest.cited,
            made_from=at(part.made_from, "materials", part.material.key, "thickness"),
        ),
    )


def _sheets_of(part: Part) -> tuple[PanelSheet, ...]:
    wanted = plain_name(part.material.name)
    exact = tuple(sheet for sheet in panel_sheets() if plain_name(sheet.panel) == wanted)
    return exact or tuple(
        sheet for sheet in panel_sheets() if wanted.endswith(plain_name(sheet.panel).split()[-1])
    )


def _in_64ths(value: Fraction) -> Fraction:
    return round(value / MM_PER_INCH * 64) * MM_PER_INCH / 64


RULE = Rule(NAME, "Stock sizes", "stock", _judge, EXPLAIN)
