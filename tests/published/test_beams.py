"""Beams against published results: shelf lengths of the woodwork standard, textbook beams, span tables."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from sheets.checks.mechanics.beams import (
    inertia_of_board,
    sag_uniform,
    span_for_sag_ratio,
)
from sheets.tables.loads import sag_limit
from sheets.tables.panels import panel_named
from sheets.tables.woods import wood_named

OAK, FACED, PLAIN = (
    wood_named("red oak"),
    panel_named("veneer-core plywood", hardwood_face=True),
    panel_named("veneer-core plywood", hardwood_face=False),
)

# Architectural Woodwork Standards, 1st edition 2009, 10-4.4.14.10, adjustable shelves at L/144:
# material, thickness in, load psf, longest shelf in. Published lengths are cut to whole inches.
TWELVE_SHELVES = (
    (OAK, 0.75, 40, 49),
    (OAK, 0.75, 50, 46),
    (OAK, 1, 40, 66),
    (OAK, 1, 50, 61),
    (FACED, 0.75, 40, 49),
    (FACED, 0.75, 50, 46),
    (FACED, 1, 40, 66),
    (FACED, 1, 50, 61),
    (PLAIN, 0.75, 40, 40),
    (PLAIN, 0.75, 50, 37),
    (PLAIN, 1, 40, 53),
    (PLAIN, 1, 50, 49),
)


@pytest.mark.parametrize(("material", "thickness", "load", "published"), TWELVE_SHELVES)
def test_the_woodwork_standards_shelf_lengths(material, thickness, load, published) -> None:  # type: ignore[no-untyped-def]
    depth = 12.0
    longest = span_for_sag_ratio(
        load / 144 * depth,
        material.e_million_psi * 1e6,
        inertia_of_board(depth, thickness),
        sag_limit("industry").value,
    )
    assert published <= longest + 0.03 < published + 1  # 45.98 is printed as 46


def test_shelf_formula_of_the_european_mdf_guide() -> None:
    # d = 5 W L^3 9.81 / (32 E b t^3), W kg in all, E = 2500 N/mm2 (European MDF association guide).
    for span in (600, 800, 1000):
        guide = 5 * 20 * span**3 * 9.81 / (32 * 2500 * 300 * 18**3)
        ours = sag_uniform(20 * 9.81 / span, span, 2500, inertia_of_board(300, 18))
        assert ours == pytest.approx(guide, rel=1e-12)


def test_steel_beam_of_the_mechanics_textbook() -> None:
    # Gere, Mechanics of Materials, problem 9.3-1 (from memory): 1.8 k/ft, 14 ft, 30e6 psi, 285 in4: 0.182 in.
    load, span = 1800 / 12, 14 * 12
    assert round(sag_uniform(load, span, 30e6, 285), 3) == 0.182


def test_steel_beam_of_the_class_notes() -> None:
    # 6 m, 2 kN/m, 200 GPa, 8e-6 m4: 21 mm (class-note example).
    assert round(sag_uniform(2.0, 6000, 200e3, 8e6)) == 21


@pytest.mark.parametrize(
    ("depth", "modulus", "feet", "inches"),
    [(9.25, 1.9e6, 17, 4), (9.25, 1.6e6, 16, 5), (7.25, 1.9e6, 13, 7)],
)
def test_joist_spans_of_the_residential_code(depth: float, modulus: float, feet: int, inches: int) -> None:
    # IRC table R502.3.1(2), 40 psf live at L/360, 16 in on centre, stiffness-governed rows (from memory).
    load = 40 / 144 * 16
    longest = span_for_sag_ratio(load, modulus, inertia_of_board(1.5, depth), 360)
    assert longest == pytest.approx(feet * 12 + inches, abs=0.6)


def deflected(moment: Callable[[float], float], *, cantilever: bool = False) -> float:
    """The greatest sag of a beam of length 1 and E I = 1 by summing its curvature twice, trapezoid by
    trapezoid, from the moment along it; both ends held at one level, or the left one held level and still.
    """
    steps = 20_000
    width = 1 / steps
    slope, sag, line = 0.0, 0.0, [0.0]
    for n in range(steps):
        step = (moment(n * width) + moment((n + 1) * width)) / 2 * width
        sag += (slope + step / 2) * width
        slope += step
        line.append(sag)
    chord = 0.0 if cantilever else line[-1]
    return max(abs(sag - chord * n * width) for n, sag in enumerate(line))


@pytest.mark.parametrize(
    ("moment", "kind"),
    [
        # Moments of statics under 1 per length: simple x/2 - x^2/2; fixed less 1/12; propped from its end
        # reaction of 3/8; cantilever -(1 - x)^2 / 2.
        (lambda x: x / 2 - x * x / 2, "simple"),
        (lambda x: x / 2 - x * x / 2 - 1 / 12, "fixed"),
        (lambda x: 3 / 8 * x - x * x / 2, "propped"),
        (lambda x: 3 / 8 * x - x * x / 2, "two spans"),
        (lambda x: -((1 - x) ** 2) / 2, "cantilever"),
    ],
)
def test_sag_is_the_moment_summed_twice(moment, kind) -> None:  # type: ignore[no-untyped-def]
    by_sums = deflected(moment, cantilever=kind == "cantilever")
    # 1/185 is the Design Aid's rounding of 1/184.6.
    assert sag_uniform(3.0, 100.0, 7.0, 11.0, kind) == pytest.approx(by_sums * 3 * 100**4 / 77, rel=0.003)
