"""Sag of shelves: verdicts, cures, and how sag grows."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.checks.mechanics.beams import (
    inertia_of_board,
    sag_uniform,
    span_for_sag_ratio,
    thickness_for_sag_ratio,
)
from sheets.checks.mechanics.loading import lasting_load
from sheets.checks.mechanics.shelf import shelves
from sheets.model.purpose import Bears, Purpose
from sheets.model.settings import GivenLoad
from sheets.tables.loads import newton_per_mm

sizes = st.floats(1, 1000)


def shelf_wall(kit, span, *, material="oak", thickness="3/4", checks=None, axes="zyx"):  # type: ignore[no-untyped-def]
    """A shelf 11 1/4 in deep, 1/4 in into two sides, with this clear span."""
    end = Fraction(span) + Fraction(3, 4)
    parts = (
        kit.part("side", (0, "3/4"), (0, "45/4"), (0, 80), axes="xyz", key="work/side-left", material="ply"),
        kit.part(
            "side",
            (end, end + Fraction(3, 4)),
            (0, "45/4"),
            (0, 80),
            axes="xyz",
            key="work/side-right",
            material="ply",
        ),
        kit.part(
            "shelf",
            ("1/2", end + Fraction(1, 4)),
            (0, "45/4"),
            (30, 30 + Fraction(thickness)),
            axes=axes,
            material=material,
        ),
    )
    return kit.wall(*parts, checks=checks)


def test_span_is_clear_between_the_sides(kit) -> None:  # type: ignore[no-untyped-def]
    (shelf,) = shelves(shelf_wall(kit, 36))
    assert shelf.span == inch(36)


def test_the_worked_shelf_of_red_oak(kit) -> None:  # type: ignore[no-untyped-def]
    # 3/4 x 11 1/4 red oak, 36 in, 25 lb per ft: 0.0633 in, L/569 (computed from 5 w L^4 / 384 E I, E = 1.82e6
    # psi).
    (shelf,) = shelves(shelf_wall(kit, 36))
    assert shelf.sag_mm(25 * 4.4482216 / 304.8) / 25.4 == pytest.approx(0.0633, abs=0.0001)


def test_aim_just_met_and_just_missed(kit) -> None:  # type: ignore[no-untyped-def]
    # L/600 under 25 lb per ft in 3/4 x 11 1/4 red oak: 36 (569/600)^(1/3) = 35.37 in.
    assert kit.severities("shelf-sag", shelf_wall(kit, "565/16")) == []
    assert kit.severities("shelf-sag", shelf_wall(kit, "567/16")) == ["warning"]


def test_industry_limit_just_met_and_just_missed(kit) -> None:  # type: ignore[no-untyped-def]
    # Architectural Woodwork Standards 2009: 3/4 oak at 50 psf and L/144 reaches 46.15 in (printed 46).
    assert kit.severities("shelf-sag", shelf_wall(kit, "738/16")) == ["warning"]
    assert kit.severities("shelf-sag", shelf_wall(kit, "739/16")) == ["error"]


def test_display_is_held_at_forty_pounds(kit) -> None:  # type: ignore[no-untyped-def]
    # The same standard at 40 psf: 49.71 in (printed 49).
    checks = {"load": "display"}
    assert kit.severities("shelf-sag", shelf_wall(kit, "795/16", checks=checks)) == ["warning"]
    assert kit.severities("shelf-sag", shelf_wall(kit, "796/16", checks=checks)) == ["error"]


def test_a_given_load_and_limits_go_before_the_usual_ones(kit) -> None:  # type: ignore[no-untyped-def]
    light: dict[str, object] = {"given_load": GivenLoad(3, "foot"), "sag": {"most": 100}}
    assert kit.severities("shelf-sag", shelf_wall(kit, 48, checks=light)) == []
    assert kit.severities(
        "shelf-sag", shelf_wall(kit, 48, checks={**light, "sag": {"most": 100, "aim": 4000}})
    ) == ["warning"]


def test_mdf_fails_where_oak_does_not(kit) -> None:  # type: ignore[no-untyped-def]
    # E 0.363 against 1.82 million psi (European MDF guide; woodwork standard).
    assert kit.severities("shelf-sag", shelf_wall(kit, 35)) == []
    assert kit.severities("shelf-sag", shelf_wall(kit, 35, material="mdf")) == ["error"]


def test_grain_across_the_span_is_an_error(kit) -> None:  # type: ignore[no-untyped-def]
    (found,) = kit.findings("shelf-sag", shelf_wall(kit, 24, axes="zxy"))
    assert found.severity == "error"
    assert "grain" in found.message


def test_the_cure_is_true(kit) -> None:  # type: ignore[no-untyped-def]
    (found,) = kit.findings("shelf-sag", shelf_wall(kit, 42))
    # Each size that the cure names passes, and one step less does not.
    assert "span of 2'-11 5/16\"" in found.cure
    assert '15/16" thick' in found.cure
    assert kit.severities("shelf-sag", shelf_wall(kit, 42, thickness="15/16")) == []
    assert kit.severities("shelf-sag", shelf_wall(kit, 42, thickness="14/16")) == ["warning"]


def test_plywood_carries_its_note_of_doubt(kit) -> None:  # type: ignore[no-untyped-def]
    (found,) = kit.findings("shelf-sag", shelf_wall(kit, 34, material="ply"))
    assert found.severity == "note"
    assert found.cited.confidence == "from memory"


def test_unknown_wood_is_said_not_guessed(kit) -> None:  # type: ignore[no-untyped-def]
    from sheets.model.part import Material

    (found,) = kit.findings("shelf-sag", shelf_wall(kit, 30, material=Material("x", "wood", "marblewood")))
    assert (found.severity, "marblewood" in found.message) == ("note", True)


@given(sizes, sizes, sizes, sizes)
def test_sag_grows_with_the_fourth_power_of_the_span(load, span, modulus, inertia) -> None:  # type: ignore[no-untyped-def]
    once, twice = (sag_uniform(load, length, modulus, inertia) for length in (span, 2 * span))
    assert twice == pytest.approx(16 * once)


@given(sizes, sizes)
def test_twice_the_thickness_sags_an_eighth(breadth, thickness) -> None:  # type: ignore[no-untyped-def]
    once, twice = (sag_uniform(1, 100, 10, inertia_of_board(breadth, t)) for t in (thickness, 2 * thickness))
    assert once == pytest.approx(8 * twice)


@given(sizes, sizes, sizes)
def test_fixed_ends_are_a_fifth_and_load_is_in_proportion(load, span, inertia) -> None:  # type: ignore[no-untyped-def]
    simple, fixed = (sag_uniform(load, span, 10, inertia, ends) for ends in ("simple", "fixed"))
    assert simple == pytest.approx(5 * fixed)
    assert sag_uniform(3 * load, span, 10, inertia) == pytest.approx(3 * simple)


@given(
    st.floats(0.05, 5), st.floats(200, 2000), st.floats(1e3, 2e4), st.floats(50, 500), st.floats(100, 1000)
)
def test_longest_span_and_least_thickness_meet_the_limit_exactly(load, span, modulus, breadth, ratio) -> None:  # type: ignore[no-untyped-def]
    thick = thickness_for_sag_ratio(load, span, modulus, breadth, ratio)
    inertia = inertia_of_board(breadth, thick)
    assert sag_uniform(load, span, modulus, inertia) == pytest.approx(span / ratio)
    assert span_for_sag_ratio(load, modulus, inertia, ratio) == pytest.approx(span)


def test_two_rows_of_books_stand_on_a_deep_shelf(kit) -> None:  # type: ignore[no-untyped-def]
    # A row is 8 in deep (Burgoyne): 15 15/16 in hold one, 16 two, 24 three. A load that is given stays.
    checks = kit.wall().settings.checks
    loads = [lasting_load(checks, inch(deep)) for deep in (4, "255/16", 16, 24)]
    assert [load / newton_per_mm(25, "foot") for load in loads] == pytest.approx([1, 1, 2, 3])
    given_load = replace(checks, given_load=GivenLoad(40, "foot"))
    assert lasting_load(given_load, inch(24)) == newton_per_mm(40, "foot")


def deck(kit, *along, span=40):  # type: ignore[no-untyped-def]
    """The bottom of a case between its sides, carried along some of its edges."""
    wall = shelf_wall(kit, span, thickness="1/2")
    does = Purpose(carries=Bears(("work/side-left", "work/side-right"), along))
    return replace(wall, parts=(*wall.parts[:2], replace(wall.parts[2], does=does)))


def test_a_bottom_whose_back_edge_is_free_sags_as_a_shelf(kit) -> None:  # type: ignore[no-untyped-def]
    # 1/2 red oak at 50 lb per sq ft and L/144 reaches 46.15 x 2/3 = 30.8 in (AWS 2009: 3/4 reaches 46).
    assert kit.severities("shelf-sag", deck(kit, span=31)) == ["error"]
    assert kit.severities("shelf-sag", deck(kit, "work/plinth", span=31)) == ["error"]
    assert kit.report("shelf-sag", deck(kit, "work/plinth", "work/rail", span=31)).looked_at == 0


def test_a_load_in_kilograms_a_metre_is_the_same_load() -> None:
    # 25 lb per ft = 37.2 kg per m (NIST SP 811: 1 lb = 0.45359237 kg, 1 ft = 0.3048 m).
    assert newton_per_mm(25, "foot") == pytest.approx(newton_per_mm(37.2, "metre"), rel=0.001)
