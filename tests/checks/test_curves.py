"""Curves: what bends, how many kerfs, where the grain runs out."""

from __future__ import annotations

from fractions import Fraction
from math import radians, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.checks.rules.bends import kerf_count, laminations
from sheets.checks.rules.short_grain import run_out
from sheets.model.part import Bend, Curve, Kerfs

STEP = Fraction(1, 16)


def bent(kit, radius, *, thickness="3/4", material="oak", layers=1, grain="x", kerfs=None):  # type: ignore[no-untyped-def]
    """A strip bent to a radius over a chord of 4 in, of so many layers, its grain along or across."""
    inner, half = float(inch(radius)), float(inch(2))
    rise = Fraction(inner - sqrt(inner * inner - half * half)).limit_denominator(10**6)
    part = kit.part(
        "apron",
        (0, 4),
        (0, Fraction(thickness) + rise / inch(1)),
        (0, 20),
        axes="yzx" if grain == "x" else "yxz",
        material=material,
        curve=Curve(inch(4), rise, inner, "z", "front"),
        bend=Bend("x", inch(thickness), inch(5), layers, kerfs),
    )
    return kit.severities("bends", kit.wall(part))


def test_a_sawn_bow_is_not_bent(kit) -> None:  # type: ignore[no-untyped-def]
    corbel = kit.part(
        "corbel", (0, 7), (0, "7/2"), (0, 11), curve=Curve(inch(11), inch("5/8"), 622.3, "x", "front")
    )
    assert kit.report("bends", kit.wall(corbel)).looked_at == 0
    assert kit.report("short-grain", kit.wall(corbel)).looked_at == 1


def test_what_is_bent_has_no_short_grain(kit) -> None:  # type: ignore[no-untyped-def]
    part = kit.part(
        "lining",
        (0, 4),
        (0, 1),
        (0, 20),
        curve=Curve(inch(4), inch(2), 50.8, "z", "front"),
        bend=Bend("x", inch("1/8"), inch(7)),
    )
    assert kit.report("short-grain", kit.wall(part)).looked_at == 0


def test_a_bent_piece_is_sized_as_it_lies_flat(kit) -> None:  # type: ignore[no-untyped-def]
    part = kit.part("lining", (0, 4), (0, 1), (0, 20), axes="yzx", bend=Bend("x", inch("1/8"), inch(7), 2))
    assert (part.thickness, part.width, part.length) == (inch("1/8"), inch(20), inch(7))
    assert part.bend is not None
    assert part.bend.layer == inch("1/16")


def test_a_strip_bends_to_sixty_times_its_thickness(kit) -> None:  # type: ignore[no-untyped-def]
    # Radius over thickness: 60 with care, 40 at best (from memory).
    assert bent(kit, Fraction(45)) == []
    assert bent(kit, 45 - STEP) == ["warning"]
    assert bent(kit, Fraction(30)) == ["warning"]
    assert bent(kit, 30 - STEP) == ["error"]


# APA TT-003, Douglas-fir plywood bent dry, across the grain, feet: 1/4: 2, 3/8: 3, 1/2: 6, 3/4: 12.
@pytest.mark.parametrize(("thickness", "feet"), [("1/4", 2), ("3/8", 3), ("1/2", 6), ("3/4", 12)])
def test_plywood_across_the_grain(kit, thickness, feet) -> None:  # type: ignore[no-untyped-def]
    across = {"thickness": thickness, "material": "ply", "grain": "z"}
    assert bent(kit, Fraction(12 * feet), **across) == []
    assert bent(kit, 12 * feet - STEP, **across) == ["error"]


def test_plywood_along_the_grain(kit) -> None:  # type: ignore[no-untyped-def]
    # The same table, parallel: 1/4 in 5 ft.
    assert bent(kit, Fraction(60), thickness="1/4", material="ply") == []
    assert bent(kit, 60 - STEP, thickness="1/4", material="ply") == ["error"]


def test_each_layer_bends_by_its_own_thickness(kit) -> None:  # type: ignore[no-untyped-def]
    # Two layers of 3/8 in: 22 1/2 in with care, 15 at best.
    assert bent(kit, Fraction(45, 2), layers=2) == []
    assert bent(kit, Fraction(45, 2) - STEP, layers=2) == ["warning"]
    assert bent(kit, Fraction(15) - STEP, layers=2) == ["error"]


def test_no_table_says_how_a_fibre_board_bends(kit) -> None:  # type: ignore[no-untyped-def]
    assert bent(kit, Fraction(400), material="mdf") == ["note"]


def test_kerfs_that_close_at_the_curve(kit) -> None:  # type: ignore[no-untyped-def]
    # 3/4 in, web 3/32, kerf 1/8, 4 in of chord at 4 in of radius, so 60 degrees: 5.89 kerfs, so 6.
    def found(count, web):  # type: ignore[no-untyped-def]
        return bent(kit, Fraction(4), material="mdf", kerfs=Kerfs(count, inch("1/8"), inch(web)))

    assert found(6, "3/32") == []
    assert found(5, "3/32") == ["error"]
    assert found(7, "1/16") == []
    assert found(7, "3/64") == ["warning"]


def test_kerf_count_of_the_worked_example() -> None:
    # 3/4 in panel, 60 degrees, web 3/32, kerf 1/8: closure 0.736 / 0.125 = 5.89, so 6. Simple rule without
    # web: 6.28, so 7.
    assert kerf_count(0.75, 3 / 32, 0.125, radians(60)) == 6
    assert kerf_count(0.75, 0, 0.125, radians(60)) == 7


@given(st.integers(1, 40), st.integers(100, 5000))
def test_laminations_go_round(thickness, radius) -> None:  # type: ignore[no-untyped-def]
    count = laminations(Fraction(thickness), float(radius), Fraction(60))
    assert Fraction(thickness, count) * 60 <= radius
    assert count == 1 or Fraction(thickness, count - 1) * 60 > radius


def sawn(kit, rise, *, width=20, chord=40, edge="underside"):  # type: ignore[no-untyped-def]
    curve = Curve(inch(chord), inch(rise), 1.0, "y", edge)
    return kit.severities(
        "short-grain", kit.wall(kit.part("arch rail", (0, 40), (0, 1), (0, width), curve=curve))
    )


def test_run_out_of_a_three_four_five() -> None:
    # Chord 120, rise 30: the tangent at the ends leaves the chord by 53.13 degrees, 4 in 3 (Hatfield's
    # 3-4-5).
    assert run_out(120, 30) == pytest.approx(4 / 3)


def test_grain_runs_out_one_in_four(kit) -> None:  # type: ignore[no-untyped-def]
    # tan(angle) = 1/4: rise = chord / 2 x (sqrt 17 - 4) = 2.462 in for 40 in.
    assert sawn(kit, Fraction(39, 16)) == []
    assert sawn(kit, Fraction(40, 16)) == ["warning"]
    assert sawn(kit, 5) == ["error"]


def test_wood_over_the_crown(kit) -> None:  # type: ignore[no-untyped-def]
    # At least 1 1/2 thicknesses (common practice): 1 1/2 in here.
    assert sawn(kit, 2, width=Fraction(7, 2)) == []
    assert sawn(kit, 2, width=Fraction(7, 2) - STEP) == ["warning"]


def test_panels_have_no_short_grain(kit) -> None:  # type: ignore[no-untyped-def]
    curve = Curve(inch(40), inch(10), 1.0, "y", "underside")
    rail = kit.part("arch rail", (0, 40), (0, 1), (0, 20), curve=curve, material="mdf")
    assert kit.report("short-grain", kit.wall(rail)).looked_at == 0
