"""Caps that stand out, and what the ends of shelves rest on."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.checks.rules.overhangs import _overhangs, _plates
from sheets.checks.run import rule_named
from sheets.model.part import Joint, Material
from sheets.pipeline import solve

SIZES = st.integers(1, 64).map(lambda count: Fraction(count, 8))
HARD = {"": 0, "warning": 1, "error": 2}


def cap(kit, out, thick, *, deep=12, axes="zyx", material="oak"):  # type: ignore[no-untyped-def]
    top = kit.part("top", (0, 40), (0, deep), (70, 71), axes="zyx", material="ply")
    board = kit.part("cap", (0, 40), (0, deep + out), (71, 71 + thick), axes=axes, material=material)
    return kit.wall(top, board)


def worst(kit, rule, wall):  # type: ignore[no-untyped-def]
    return max((HARD[found.severity] for found in kit.report(rule, wall).findings), default=0)


def test_the_stress_by_hand(kit) -> None:  # type: ignore[no-untyped-def]
    # 200 lb 2 in out over 4 + 2 x 2 = 8 in, 1 in thick: 6 x 200 x 2 / 8 = 300 psi. Red oak breaks along the
    # grain at 14300 psi (Wood Handbook), across it at a twentieth: 715.
    wall = cap(kit, 2, 1)
    (found,) = _overhangs(wall, wall.parts[1:])
    assert found.used == pytest.approx(300 / 715)
    wall = cap(kit, 2, 1, axes="zxy")
    (found,) = _overhangs(wall, wall.parts[1:])
    assert found.used == pytest.approx(300 / 14300)


def glued_up(kit, out, thick, split, axes="zyx"):  # type: ignore[no-untyped-def]
    """A cap of two pieces edge to edge: the joint stands `split` before its front."""
    top = kit.part("top", (0, 40), (0, 12), (70, 71), axes="zyx", material="ply")
    level = (71, 71 + thick)
    board = kit.part("cap board", (0, 40), (0, 12 + out - split), level, axes=axes)
    front = kit.part("cap", (0, 40), (12 + out - split, 12 + out), level, axes=axes)
    return kit.wall(top, board, front)


@given(st.integers(1, 24), st.fractions(Fraction(1, 2), 3, max_denominator=8), st.integers(1, 33))
@settings(max_examples=60, deadline=None)
def test_a_cap_that_is_glued_up_bends_as_one_wherever_its_joint_is(kit, out, thick, split) -> None:  # type: ignore[no-untyped-def]
    wall = glued_up(kit, out, thick, min(split, out + 11))
    (found,) = _overhangs(wall, wall.parts[1:])
    # As above: the breadth is 4 in and the overhang to each side; red oak across its grain breaks at 715.
    assert found.used == pytest.approx(6 * 200 * out / ((4 + 2 * out) * float(thick) ** 2) / 715)
    assert kit.severities("overhangs", wall) == kit.severities("overhangs", cap(kit, out, thick))


def on_corbels(kit, thick, apart, *, axes="zyx"):  # type: ignore[no-untyped-def]
    """A cap 14 in deep over a rail of 2 in and two corbels 12 out, 4 wide, so far apart."""
    rail = kit.part("rail", (0, 8 + apart), (0, 2), (68, 71))
    corbels = [
        kit.part("corbel", (x, x + 4), (0, 12), (60, 71), axes="xyz", key=f"work/corbel-{x}")
        for x in (0, 4 + apart)
    ]
    cap = kit.part("cap", (0, 8 + apart), (0, 14), (71, 71 + thick), axes=axes)
    return kit.wall(rail, *corbels, cap), cap


def test_between_corbels_a_cap_stands_out_from_the_rail_or_bridges(kit) -> None:  # type: ignore[no-untyped-def]
    # 12 in out from the rail, red oak across its grain: 6 x 200 x 12 / 28 / 715 = 0.719 at 1 in. As a beam, 4
    # in broad, from corbel to corbel, 40 in: 6 x 200 x 40 / 4 / 4 = 3000 psi of 14300 along it, 0.210, which
    # holds. Over a corbel it stands 2 in out: 300 / 715 = 0.420, which is the most of all.
    wall, cap = on_corbels(kit, 1, 40)
    (found,) = _overhangs(wall, (cap,))
    assert (found.out, found.used) == (2 * inch(1), pytest.approx(300 / 715))
    # Its grain front to back, it is strong there and bridges nothing: 514.3 / 14300.
    wall, cap = on_corbels(kit, 1, 40, axes="zxy")
    (found,) = _overhangs(wall, (cap,))
    assert (found.out, found.used) == (12 * inch(1), pytest.approx(514.29 / 14300, rel=1e-4))
    # 160 in apart: 6 x 200 x 160 / 16 = 12000 psi, 0.839: it rather stands out from the rail, 0.719.
    wall, cap = on_corbels(kit, 1, 160)
    (found,) = _overhangs(wall, (cap,))
    assert (found.out, found.used) == (12 * inch(1), pytest.approx(514.29 / 715, rel=1e-4))
    assert "where nothing carries that out" in kit.findings("overhangs", wall)[0].message


@given(st.integers(8, 200), st.integers(0, 100), SIZES, SIZES)
@settings(max_examples=60, deadline=None)
def test_corbels_farther_apart_are_never_milder(kit, apart, more, thick, less) -> None:  # type: ignore[no-untyped-def]
    near, far = on_corbels(kit, thick, apart)[0], on_corbels(kit, min(thick, less), apart + more)[0]
    assert worst(kit, "overhangs", far) >= worst(kit, "overhangs", near)


def test_of_both_ends_the_farther_is_judged(kit) -> None:  # type: ignore[no-untyped-def]
    top = kit.part("top", (0, 40), (0, 12), (70, 71), axes="zyx", material="ply")
    for left, right in ((3, 8), (8, 3)):
        cap = kit.part("cap", (-left, 40 + right), (0, 12), (71, 72), axes="zyx")
        (found,) = _overhangs(kit.wall(top, cap), (cap,))
        assert (found.out, found.to) == (8 * inch(1), "an end")
        # And of two pieces, one at each end; their grain runs along, 6 x 200 x 8 / 20 / 14300 psi.
        halves = (
            kit.part("cap", (-left, 20), (0, 12), (71, 72), axes="zyx", key="work/a"),
            kit.part("cap", (20, 40 + right), (0, 12), (71, 72), axes="zyx", key="work/b"),
        )
        (found,) = _overhangs(kit.wall(top, *halves), halves)
        assert found.used == pytest.approx(480 / 14300)


def test_pieces_that_do_not_lie_edge_to_edge_are_no_plate(kit) -> None:  # type: ignore[no-untyped-def]
    top = kit.part("top", (0, 40), (0, 12), (70, 71), axes="zyx", material="ply")
    cap = kit.part("cap", (0, 20), (0, 12), (71, 72), axes="zyx")
    for x, y in (((20, 40), (12, 20)), ((21, 40), (0, 20)), ((0, 20), (13, 20))):
        other = kit.part("cap", x, y, (71, 72), axes="zyx", key="work/other")
        assert [len(plate) for plate in _plates(kit.wall(cap, other))] == [1, 1]
    beside = kit.part("cap", (20, 40), (0, 20), (71, 72), axes="zyx", key="work/other")
    assert [len(plate) for plate in _plates(kit.wall(top, cap, beside))] == [1, 2]


def test_a_piece_of_unknown_strength_is_told_before_all_others(kit) -> None:  # type: ignore[no-untyped-def]
    wall = glued_up(kit, 8, Fraction(1), 4)
    odd = replace(wall.parts[2], material=Material("x", "wood", "snakewood"))
    report = kit.report("overhangs", replace(wall, parts=(*wall.parts[:2], odd)))
    (found,) = report.findings
    assert (found.severity, "snakewood" in found.message) == ("warning", True)
    assert not report.measures


@pytest.mark.parametrize(
    ("thick", "number", "verdict"),
    [("3/4", "128%", "beyond limit"), ("1", "72%", "to judge"), ("5/4", "46%", "within limit")],
)
def test_the_number_is_told_with_its_verdict(kit, thick, number, verdict) -> None:  # type: ignore[no-untyped-def]
    # 12 in out: 6 x 200 x 12 / 28 = 514.3 psi at 1 in, of 715; two thirds are the most.
    (row,) = kit.report("overhangs", cap(kit, 12, Fraction(thick))).measures
    assert (row.value, row.limit, row.verdict) == (f"{number} of what breaks it", "67%", verdict)


SHELVES = """
project: {title: a cap that stands far out}
units: inch
materials: {show: {species: yellow-poplar, cut: plain sawn}}
room: {width: 96, ceiling: {height: 100}}
cases:
  - {at: left, name: low, width: 40, height: 30, depth: 12, scribe: 3/4, shelves: {count: 1},
     cap: {thickness: THICK, overhang: OUT}, material: show}
"""


@pytest.mark.parametrize("thick", [Fraction(3, 4), Fraction(1), Fraction(3, 2)])
@pytest.mark.parametrize("out", [2, 4, 8, 11, 12, 13, 14, 16, 20])
def test_a_cap_as_the_program_builds_it_is_judged_to_its_edge(out, thick, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    spec = tmp_path / "wall.yaml"
    spec.write_text(SHELVES.replace("THICK", str(float(thick))).replace("OUT", str(out)), "utf-8")
    wall = solve(spec).wall
    assert wall is not None
    report = rule_named("overhangs").check(wall)
    # Yellow-poplar breaks at 10100 psi (Wood Handbook table 5-3b), across its grain at a twentieth of that.
    used = 6 * 200 * out / ((4 + 2 * out) * float(thick) ** 2) / 505
    said = [f for f in report.findings if "to the front" in f.message]
    assert [f.severity for f in said] == (["error"] if used > 1 else ["warning"] if used > 1 / 1.5 else [])
    assert all(f"{used:.2f} times" in f.message for f in said)


def cured(out: Fraction, cure: str) -> Fraction:
    """The thickness that a cure names, in inches: `would do 1 1/8" thick, ...`."""
    words = cure.removeprefix("would do ").partition('"')[0].split()
    return sum((Fraction(word) for word in words), Fraction(0))


@pytest.mark.parametrize("out", [3, 6, 9, 12, 15])
def test_what_the_cure_names_passes(kit, out) -> None:  # type: ignore[no-untyped-def]
    (found,) = kit.report("overhangs", cap(kit, out, Fraction(1, 2))).findings
    assert kit.severities("overhangs", cap(kit, out, cured(out, found.cure))) == []


MATERIALS = st.sampled_from(["oak", "quarter", "ply", "mdf"])


@given(SIZES, SIZES, SIZES, SIZES, MATERIALS)
@settings(max_examples=100, deadline=None)
def test_farther_out_or_thinner_is_never_milder(kit, out, more, thick, less, core) -> None:  # type: ignore[no-untyped-def]
    before = worst(kit, "overhangs", cap(kit, out, thick, material=core))
    assert worst(kit, "overhangs", cap(kit, out + more, thick, material=core)) >= before
    assert worst(kit, "overhangs", cap(kit, out, min(thick, less), material=core)) >= before


def shelf(kit, let_in, fastening=""):  # type: ignore[no-untyped-def]
    joint = Joint("dado", mate="work/side-left", fastening=fastening)
    left = kit.part("side", (0, "3/4"), (0, 12), (0, 80), axes="xyz", key="work/side-left")
    board = kit.part("shelf", (Fraction(3, 4) - let_in, 30), (0, 12), (40, 41), axes="zyx", joints=(joint,))
    return kit.wall(left, board)


def test_a_shelf_that_is_not_let_in_is_held_by_screws_alone(kit) -> None:  # type: ignore[no-untyped-def]
    assert kit.severities("bearings", shelf(kit, 0)) == ["error"]
    assert kit.severities("bearings", shelf(kit, 0, "glue")) == ["error"]
    assert kit.severities("bearings", shelf(kit, 0, "screw")) == []


@given(st.integers(0, 24), st.integers(0, 24), st.sampled_from(["", "glue", "screw"]))
def test_less_bearing_is_never_milder(kit, one, other, fastening) -> None:  # type: ignore[no-untyped-def]
    small, large = (shelf(kit, Fraction(each, 32), fastening) for each in sorted((one, other)))
    assert worst(kit, "bearings", small) >= worst(kit, "bearings", large)
