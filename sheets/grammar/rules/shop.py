"""What the shop buys, what the saw takes of it, and how patterns are measured out."""

from fractions import Fraction

from sheets.base.length import MM_PER_INCH
from sheets.base.source import Source
from sheets.grammar.measure import written
from sheets.grammar.rules.fault import Findings, error
from sheets.grammar.schema import Spec

_STUDS = ((MM_PER_INCH * 8, MM_PER_INCH * 24), (Fraction(200), Fraction(625)))
"""Studs from, to: inches; millimetres. The most: IRC table R602.3(5), 24 in, and the panels of 1250 mm that
stand on 625; the least: old houses (common practice)."""
_SCREW_DIAMETERS = (MM_PER_INCH / 8, MM_PER_INCH * 3 / 8)
"""Of wood screws from No. 5 up, and of structural ones (common practice)."""
_SCREW_LENGTHS = (MM_PER_INCH, MM_PER_INCH * 12)
_NEAREST_STATION = MM_PER_INCH / 4
_WIDEST_KERF = MM_PER_INCH / 2
"""No saw of a shop takes more (common practice: 1/8 in, 3/32 in with a thin blade)."""


def check(spec: Spec, source: Source) -> Findings:
    """Yield what is wrong with the stock that parts are cut from."""
    stock = spec.stock
    for key, what in (("board_lengths", "length"), ("board_widths", "width")):
        if not getattr(stock, key):
            yield error(
                source,
                ("stock", key),
                "no-stock",
                f"no board {what} is given",
                f"List at least one {what}, or leave {key} out for the default.",
            )
    if stock.kerf > _WIDEST_KERF:
        yield error(
            source,
            ("stock", "kerf"),
            "kerf",
            f"a saw takes no {written(stock.kerf, spec)}",
            f"Most: {written(_WIDEST_KERF, spec)}. A full-kerf blade takes about 1/8 in, 3 mm.",
        )
    if stock.board_lengths and 2 * stock.end_trim >= max(stock.board_lengths):
        yield error(
            source,
            ("stock", "end_trim"),
            "end-trim",
            f"{written(stock.end_trim, spec)} off each end leaves nothing of the longest board, "
            f"{written(max(stock.board_lengths), spec)}",
            "It is what is cut off one end to square it.",
        )
    yield from _wall(spec, source)
    if spec.patterns.station < _NEAREST_STATION:
        yield error(
            source,
            ("patterns", "station"),
            "station",
            f"ordinates {written(spec.patterns.station, spec)} apart cannot be told apart",
            f"Least: {written(_NEAREST_STATION, spec)}.",
        )
    least = MM_PER_INCH if spec.units == "inch" else 25
    if stock.thickest < least:
        yield error(
            source,
            ("stock", "thickest"),
            "thickest",
            f"no part is milled from boards of {written(stock.thickest, spec)} at most",
            "Give the nominal thickness of the thickest board that the shop buys: "
            f"at least {'1 in, as 4/4 hardwood' if spec.units == 'inch' else '25 mm'}.",
        )


def _wall(spec: Spec, source: Source) -> Findings:
    """Yield what is wrong with the studs and with the screws into them."""
    least, most = _STUDS[0 if spec.units == "inch" else 1]
    spacing = spec.checks.stud_spacing
    if not least <= spacing <= most:
        yield error(
            source,
            ("checks", "stud_spacing"),
            "stud-spacing",
            f"nobody builds a wall with studs {written(spacing, spec)} on centre",
            f"From {written(least, spec)} to {written(most, spec)}: codes allow no wider, no house has "
            "nearer. 16 in and 24 in, or 400, 600 and 625 mm, are usual.",
        )
    for key, (low, high) in (("wall_diameter", _SCREW_DIAMETERS), ("wall_length", _SCREW_LENGTHS)):
        size = getattr(spec.fasteners, key)
        if not low <= size <= high:
            yield error(
                source,
                ("fasteners", key),
                "wall-screw",
                f"{written(size, spec)} is not the {key.removeprefix('wall_')} of a screw into a stud",
                f"From {written(low, spec)} to {written(high, spec)}.",
            )
