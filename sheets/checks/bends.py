"""Bent pieces: whether a lamination or a panel goes round its radius."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.wording import called, fine, length, on_grid
from sheets.geometry.path import arc_angle
from sheets.geometry.solid import volume
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.tables.bends import bend_ratio, plywood_bend
from sheets.tables.figures import figure
from sheets.tables.read import Cited

NAME = "bends"
_BENT = 0.85  # between two thirds (sawn hollow) and one (bent)

EXPLAIN = """\
Reads each curved piece of one thickness all along: it is bent, not sawn from a block. Solid wood, cold
and dry, takes a radius of 60 times its thickness with care and 40 at best; a thinner lamination takes a
tighter radius, so the count of laminations that passes is given. A panel goes by the plywood table:
across its face grain, next thicker row. A panel that will not bend may be kerfed: kerfs = angle x
(thickness - half the web) / kerf, rounded up.
Sources: APA TT-003 for plywood; the ratios for solid wood are from memory; the kerf count is derived
from closing each kerf about the middle of its web."""


def laminations(thickness: Fraction, radius: float, ratio: Fraction) -> int:
    """Return the least number of equal laminations that go round a radius."""
    return max(1, ceil(Fraction(thickness) * ratio / Fraction(radius)))


def kerf_count(thickness: float, web: float, kerf: float, angle: float) -> int:
    """Return how many saw kerfs a panel needs to turn an angle (radians), lengths in one unit.

    Source: derived: each kerf closes about the middle of its web, so they take up angle x (thickness - web /
    2).
    """
    return ceil(angle * (thickness - web / 2) / kerf - 1e-9)


def stock_thickness(part: Part) -> Fraction:
    """Return the thickness of the strip or sheet that a bent piece is made of, mm: its box less the rise of
    its curve.
    """
    assert part.curve is not None
    return part.thickness - part.curve.rise


def is_bent(part: Part) -> bool:
    """Return whether a curved part is bent, of one thickness all along, rather than sawn from a block.

    Its wood tells: a bent piece fills its box but for the whole rise, a sawn bow but for a third or two
    thirds of it.
    """
    curve = part.curve
    if curve is None or curve.across != part.width_axis or curve.rise <= 0 or curve.rise >= part.thickness:
        return False
    run = curve.radius * arc_angle(float(curve.chord), float(curve.rise))
    filled = volume(part.solid) / float(part.width) / run
    return (float(part.thickness) - filled) / float(curve.rise) > _BENT


def _judge(wall: Wall) -> Outcome:
    bent = [part for part in wall.parts if part.maker == "shop" and is_bent(part)]
    findings: list[Finding] = []
    measures: list[Measure] = []
    for part in bent:
        assert part.curve is not None
        least, cited = _least_radius(part)
        if least is None:
            findings.append(
                about(
                    NAME,
                    "note",
                    f"{called(part)}: no table says how {part.material.name} of this thickness bends",
                    part,
                    cure="bend a sample, or laminate thinner stock",
                    cited=cited,
                )
            )
            continue
        passes = part.curve.radius >= least
        if not part.twin:
            measures.append(
                Measure(
                    f"{called(part)}, {length(wall, stock_thickness(part))} thick",
                    f"radius {on_grid(wall, part.curve.radius)}",
                    f"{on_grid(wall, least, 'up')} at least",
                    "within limit" if passes else "beyond limit",
                    cited,
                )
            )
        if not passes:
            findings.append(_too_tight(wall, part, least, cited))
    return Outcome(len(bent), tuple(findings), tuple(measures))


def _least_radius(part: Part) -> tuple[float | None, Cited]:
    if part.material.kind == "panel":
        row = plywood_bend(stock_thickness(part))
        if row is None:
            return None, Cited("APA TT-003: no row this thick", "confirmed")
        # The face grain runs along the piece, so a piece curved along its length is bent along the grain.
        assert part.curve is not None
        along = part.curve.chord > part.width
        return float(row.parallel if along else row.across), row.cited
    if part.material.kind == "wood":
        ratio = bend_ratio("dry lamination")
        return float(stock_thickness(part) * ratio.careful), ratio.cited
    return None, Cited("no table", "confirmed")


def _too_tight(wall: Wall, part: Part, least: float, cited: Cited) -> Finding:
    assert part.curve is not None
    radius = part.curve.radius
    said = (
        f"{called(part)}, {length(wall, stock_thickness(part))} thick, is bent to a radius of "
        f"{on_grid(wall, radius)}; {on_grid(wall, least, 'up')} is the least"
    )
    if part.material.kind == "panel":
        web, kerf = figure("joinery", "kerf web").value, figure("joinery", "saw kerf").value
        angle = arc_angle(float(part.curve.chord), float(part.curve.rise))
        count = kerf_count(float(stock_thickness(part)), float(web), float(kerf), angle)
        return about(
            NAME,
            "error",
            said,
            part,
            cited=cited,
            cure=f"would do laminated of thinner sheets, or with {count} saw kerfs of {fine(wall, kerf)} "
            f"that leave {fine(wall, web)}",
        )
    ratio = bend_ratio("dry lamination")
    count = laminations(stock_thickness(part), radius, ratio.careful)
    bold = radius >= float(stock_thickness(part) * ratio.least)
    thin = floor(Fraction(radius) / ratio.careful / (wall.grid / 2)) * wall.grid / 2
    return about(
        NAME,
        "warning" if bold else "error",
        said,
        part,
        cited=cited,
        cure=f"would do laminated of {count} strips up to {fine(wall, thin)} thick, or sawn from solid",
    )


RULE = Rule(NAME, "Bent pieces", "curves", _judge, EXPLAIN)
