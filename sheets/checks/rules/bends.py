"""Bent pieces: whether a lamination or a panel goes round its radius, and whether kerfs close on it."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.strengths import panel_of
from sheets.checks.wording import called, fine, length, on_grid
from sheets.geometry.path import arc_angle
from sheets.model.part import Bend, Curve, Kerfs, Part
from sheets.model.wall import Wall
from sheets.tables.bends import PlywoodBend, bend_ratio, plywood_bend, plywood_bends
from sheets.tables.figures import figure
from sheets.tables.read import Cited

NAME = "bends"

EXPLAIN = """\
Reads each piece that is bent to its curve. Solid wood, cold and dry, takes a radius of 60 times the
thickness of a layer with care and 40 at best; a thinner lamination takes a tighter radius, so the count
of laminations that passes is given. Plywood goes by its table, next thicker row: along its face grain it
is stiffer than across. A kerfed piece turns as far as its kerfs close: kerfs = angle x (thickness - half
the web) / kerf, rounded up; fewer do not reach the curve: an error. Less than 1/16 in of wood left behind
the kerfs breaks or shows: a warning.
Sources: APA TT-003 for plywood; the ratios for solid wood and the web are from memory; the kerf count is
derived from closing each kerf about the middle of its web."""


def laminations(thickness: Fraction, radius: float, ratio: Fraction) -> int:
    """Return the least number of equal laminations that go round a radius."""
    return max(1, ceil(Fraction(thickness) * ratio / Fraction(radius)))


def kerf_count(thickness: float, web: float, kerf: float, angle: float) -> int:
    """Return how many saw kerfs a panel needs to turn an angle (radians), lengths in one unit.

    Source: derived: each kerf closes about the middle of its web, so they take up angle x (thickness - web /
    2).
    """
    return ceil(angle * (thickness - web / 2) / kerf - 1e-9)


def _judge(wall: Wall) -> Outcome:
    bent = [part for part in wall.parts if part.maker == "shop" and part.bend is not None]
    findings: list[Finding] = []
    measures: list[Measure] = []
    for part in bent:
        assert part.bend is not None
        assert part.curve is not None
        if part.bend.kerfs is not None:
            found, measure = _kerfed(wall, part, part.curve, part.bend, part.bend.kerfs)
        else:
            found, measure = _layered(wall, part, part.curve, part.bend)
        findings += found
        measures += [] if part.twin else measure
    return Outcome(len(bent), tuple(findings), tuple(measures))


def _kerfed(
    wall: Wall, part: Part, curve: Curve, bend: Bend, kerfs: Kerfs
) -> tuple[list[Finding], list[Measure]]:
    angle = arc_angle(float(curve.chord), float(curve.rise))
    wanted = kerf_count(float(bend.thickness), float(kerfs.web), float(kerfs.width), angle)
    web = figure("joinery", "kerf web")
    derived = Cited("derived: each kerf closes about the middle of its web", "computed")
    findings = []
    if kerfs.count < wanted:
        findings.append(
            about(
                NAME,
                "error",
                f"{called(part)} is to turn to a radius of {on_grid(wall, curve.radius)}; "
                f"{kerfs.count} kerfs {length(wall, kerfs.width)} wide close before that",
                part,
                cure=f"would do with {wanted} kerfs, or with wider ones",
                cited=derived,
                word=("kerfs", "count"),
            )
        )
    if kerfs.web < web.value:
        findings.append(
            about(
                NAME,
                "warning",
                f"{length(wall, kerfs.web)} of wood is left behind the kerfs of {called(part)}; "
                f"{length(wall, web.value)} is the least",
                part,
                cure=f"would do with {length(wall, web.value)} left",
                cited=web.cited,
                word=("kerfs", "web"),
            )
        )
    measure = Measure(
        f"{called(part)}, {length(wall, bend.thickness)} thick, kerfed",
        f"{kerfs.count} kerfs of {length(wall, kerfs.width)}, {length(wall, kerfs.web)} left",
        f"{wanted} kerfs to turn to a radius of {on_grid(wall, curve.radius)}",
        "within limit" if kerfs.count >= wanted else "beyond limit",
        derived,
    )
    return findings, [measure]


def _layered(wall: Wall, part: Part, curve: Curve, bend: Bend) -> tuple[list[Finding], list[Measure]]:
    least, cited = _least_radius(part, bend)
    if least is None:
        unknown = about(
            NAME,
            "note",
            f"{called(part)}: no table says how {part.material.name} of {length(wall, bend.layer)} bends",
            part,
            cure="bend a sample, or name a wood or a plywood of the tables",
            cited=cited,
            word=("material",),
        )
        return [unknown], []
    passes = curve.radius >= least
    layers = f"{bend.laminations} layers of " if bend.laminations > 1 else ""
    measure = Measure(
        f"{called(part)}, {layers}{length(wall, bend.layer)} thick",
        f"radius {on_grid(wall, curve.radius)}",
        f"{on_grid(wall, least, 'up')} at least",
        "within limit" if passes else "beyond limit",
        cited,
    )
    return ([] if passes else [_too_tight(wall, part, curve, bend, least, cited)]), [measure]


def _least_radius(part: Part, bend: Bend) -> tuple[float | None, Cited]:
    if part.material.kind == "panel":
        panel = panel_of(part.material)
        if panel is None or panel.creeps_as != "plywood":
            return None, Cited("no table", "confirmed")
        row = plywood_bend(bend.layer)
        if row is None:
            return None, Cited("APA TT-003: no row this thick", "confirmed")
        return float(_radius(row, part, bend)), row.cited
    if part.material.kind == "wood":
        ratio = bend_ratio("dry lamination")
        return float(bend.layer * ratio.careful), ratio.cited
    return None, Cited("no table", "confirmed")


def _radius(row: PlywoodBend, part: Part, bend: Bend) -> Fraction:
    """The least radius of a row: along its face grain a sheet is stiffer."""
    return row.parallel if bend.along == part.length_axis else row.across


def _too_tight(wall: Wall, part: Part, curve: Curve, bend: Bend, least: float, cited: Cited) -> Finding:
    said = (
        f"{called(part)}, {'in layers of ' if bend.laminations > 1 else ''}{length(wall, bend.layer)}"
        f"{'' if bend.laminations > 1 else ' thick'}, is bent to a radius of {on_grid(wall, curve.radius)}; "
        f"{on_grid(wall, least, 'up')} is the least"
    )
    if part.material.kind == "panel":
        bold, cure = False, _panel_cure(wall, part, curve, bend)
    else:
        ratio = bend_ratio("dry lamination")
        count = laminations(bend.thickness, curve.radius, ratio.careful)
        bold = curve.radius >= float(bend.layer * ratio.least)
        thin = floor(Fraction(curve.radius) / ratio.careful / (wall.grid / 2)) * wall.grid / 2
        cure = f"would do laminated of {count} strips up to {fine(wall, thin)} thick, or sawn from solid"
    return about(
        NAME,
        "warning" if bold else "error",
        said,
        part,
        cure=cure,
        cited=cited,
        word=("laminations",),
    )


def _panel_cure(wall: Wall, part: Part, curve: Curve, bend: Bend) -> str:
    """Layers of a sheet that goes round, or kerfs."""
    web, kerf = figure("joinery", "kerf web").value, figure("joinery", "saw kerf").value
    angle = arc_angle(float(curve.chord), float(curve.rise))
    count = kerf_count(float(bend.thickness), float(web), float(kerf), angle)
    kerfed = f"with {count} saw kerfs of {fine(wall, kerf)} that leave {fine(wall, web)}"
    goes = [row for row in plywood_bends() if float(_radius(row, part, bend)) <= curve.radius]
    if not goes:
        turned = ", or with its grain across the curve" if bend.along == part.length_axis else ""
        return f"would do {kerfed}{turned}"
    thickest = min(goes[-1].thickness, bend.thickness)
    return (
        f"would do laminated of {ceil(bend.thickness / thickest)} sheets up to {length(wall, thickest)} "
        f"thick, or {kerfed}"
    )


RULE = Rule(NAME, "Bent pieces", "curves", 10, _judge, EXPLAIN)
