"""What hangs on the wall: weight, lean, the screws that surely find a stud."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.checks.rules.hanging import _hung
from sheets.model.part import Joint, Material
from sheets.model.settings import GivenLoad
from tests.checks.conftest import Kit

HARD = {"": 0, "warning": 1, "error": 2}
SCREW = (Joint("butt", fastening="screw"),)


def shelf(kit: Kit, *, deep=8, high=6, width=40, foot=0, checks=None, anchored=True):  # type: ignore[no-untyped-def]
    """A mantel shelf of red oak on the wall: a cap of 1 in over a rail; foot: of corbels below it."""
    rail = kit.part("nailing rail", (0, width), (0, "3/4"), (50, 50 + high), joints=SCREW, assembly="mantel")
    cap = kit.part("cap", (0, width), (0, deep), (50 + high, 51 + high), axes="zyx", assembly="mantel")
    if not anchored:
        rail = replace(rail, does=cap.does)
    parts = [rail, cap]
    if foot:
        parts.append(kit.part("corbel", (2, 4), (0, 2), (50 - foot, 50), assembly="mantel", joints=SCREW))
    mantel = kit.component("mantel", (0, width), (0, deep), (50 - foot, 51 + high), key="mantel")
    return kit.wall(*parts, components=(mantel,), checks=checks)


def worst(kit: Kit, wall) -> int:  # type: ignore[no-untyped-def]
    return max((HARD[each] for each in kit.severities("hanging", wall)), default=0)


def test_what_nothing_screws_to_the_wall_is_an_error(kit) -> None:  # type: ignore[no-untyped-def]
    assert kit.severities("hanging", shelf(kit, anchored=False)) == ["error"]


def test_what_is_sure_of_no_stud_is_an_error(kit) -> None:  # type: ignore[no-untyped-def]
    # 3/4 in at each end takes no screw: 17 1/2 is sure of one stud at 16 in, less is not.
    assert "sure of no stud" in kit.findings("hanging", shelf(kit, width=17))[0].message
    backed = {"blocking": True}
    for wall in (shelf(kit, width="35/2"), shelf(kit, width=17, checks=backed)):
        assert not [each for each in kit.findings("hanging", wall) if "no stud" in each.message]


def test_a_screw_that_does_not_reach_is_to_be_longer(kit) -> None:  # type: ignore[no-untyped-def]
    # Through 2 in of rail and 1/2 of lining a screw of 3 in goes 1/2 in deep; six times 1/4 is the least.
    thin = shelf(kit, width=60)
    rail = replace(thin.parts[0], extent=replace(thin.parts[0].extent, y1=inch(2)))
    (found,) = kit.findings("hanging", replace(thin, parts=(rail, *thin.parts[1:])))
    assert found.severity == "error"
    assert found.cure.startswith("longer wall screws")


def test_what_cannot_be_weighed_is_said(kit) -> None:  # type: ignore[no-untyped-def]
    wall = shelf(kit, width=60)
    cap = replace(wall.parts[1], material=Material("x", "wood", "snakewood"))
    (found,) = kit.findings("hanging", replace(wall, parts=(wall.parts[0], cap)))
    assert (found.severity, "snakewood" in found.message) == ("warning", True)


def test_the_pull_on_the_screws_by_hand(kit) -> None:  # type: ignore[no-untyped-def]
    # 44.03 lb per cubic foot. Cap 40 x 8 x 1 = 320 in3, 8.154 lb, 4 out. Rail 40 x 3/4 x 6 = 180 in3,
    # 4.587 lb, 3/8 out. Books, 25 lb a foot, 83.33 lb, 4 out. Moment: 32.61 + 1.72 + 333.33 = 367.7 lb in; a
    # person on the edge 1600 more. Two sure studs, four screws, 3 above the foot of the rail.
    wall = shelf(kit)
    hung = _hung(wall, wall.components[0], wall.parts)
    down, moment = hung.asked(leaned_on=False)
    assert (down, moment) == (pytest.approx(96.07, abs=0.05), pytest.approx(367.7, abs=0.2))
    assert hung.asked(leaned_on=True)[1] == pytest.approx(1967.7, abs=0.2)
    (row,) = hung.rows
    assert (row.screws.sure, row.screws.screws) == (2, 4)
    pull, push = 1967.7 / 3 / 4, 296.07 / 4  # 163.97 and 74.0 lb
    used = ((pull / row.screw.withdrawal) ** 2 + (push / row.screw.lateral) ** 2) ** 0.5
    # 2850 x 0.42^2 x 0.25 = 125.7 lb an inch, 2 1/4 in of it.
    assert row.screw.withdrawal == pytest.approx(282.8, abs=0.1)
    assert hung.used(leaned_on=True) == pytest.approx(used, rel=1e-3)


def test_of_two_rows_the_one_that_is_pulled_more_decides(kit) -> None:  # type: ignore[no-untyped-def]
    # Rows 1 1/2 and 11 1/2 in above the foot, four screws each: the upper takes of a moment M, pound-inches,
    # M x 11.5 / (4 x (1.5^2 + 11.5^2)) a screw, and an eighth of the weight.
    held = {"joints": SCREW, "assembly": "mantel"}
    low = kit.part("nailing rail", (0, 40), (0, "3/4"), (50, 53), key="mantel/a", **held)
    high = kit.part("nailing rail", (0, 40), (0, "3/4"), (60, 63), key="mantel/b", **held)
    cap = kit.part("cap", (0, 40), (0, 12), (63, 64), axes="zyx", assembly="mantel")
    mantel = kit.component("mantel", (0, 40), (0, 12), (50, 64), key="mantel")
    hung = _hung(kit.wall(low, high, cap, components=(mantel,)), mantel, (low, high, cap))
    down, moment = hung.asked(leaned_on=True)
    screw = hung.rows[1].screw
    pull = moment * 11.5 / (4 * (1.5**2 + 11.5**2))
    used = ((pull / screw.withdrawal) ** 2 + (down / 8 / screw.lateral) ** 2) ** 0.5
    assert hung.used(leaned_on=True) == pytest.approx(used, rel=1e-6)


def test_what_stands_on_feet_turns_about_its_toe(kit) -> None:  # type: ignore[no-untyped-def]
    # Posts 4 to 7 in out carry it: the toe at 7. The rail is 3/4 x 6 x 40, its middle 3/8 out, the cap is 40
    # x 12 x 1, 6 out, each post 3 x 3 x 50, 5 1/2 out: (180 x 0.375 + 480 x 6 + 900 x 5.5) / 1560 = 5.063,
    # which is 1.937 behind.
    held = {"assembly": "mantel"}
    rail = kit.part("nailing rail", (0, 40), (0, "3/4"), (50, 56), joints=SCREW, **held)
    cap = kit.part("cap", (0, 40), (0, 12), (56, 57), axes="zyx", **held)
    posts = [kit.part("post", (x, x + 3), (4, 7), (0, 50), key=f"mantel/post-{x}", **held) for x in (0, 37)]
    mantel = kit.component("mantel", (0, 40), (0, 12), (0, 57), key="mantel")
    parts = (rail, cap, *posts)
    hung = _hung(kit.wall(*parts, components=(mantel,)), mantel, parts)
    assert hung.out == pytest.approx(-1.937, abs=0.001)
    assert (hung.stands, hung.pivot, hung.edge) == (True, 0.0, pytest.approx(5.0))
    # What lies on the cap lies in its middle, 6 out, an inch behind the toe; the person leans 5 before it.
    assert hung.load_out == pytest.approx(-1.0)
    _, moment = hung.asked(leaned_on=True)
    turned = hung.weight * -1.937 - hung.load + 200 * 5
    assert moment == pytest.approx(max(0.0, turned), abs=0.5)


def test_corbels_take_the_foot_lower(kit) -> None:  # type: ignore[no-untyped-def]
    plain, bracketed = (shelf(kit, foot=foot) for foot in (0, 8))
    assert _hung(plain, plain.components[0], plain.parts).pivot == 50
    assert _hung(bracketed, bracketed.components[0], bracketed.parts).pivot == 42


SIZES = st.integers(2, 60).map(lambda count: Fraction(count, 2))


@given(SIZES, SIZES, SIZES, SIZES, st.integers(2, 20), st.sampled_from(["books", "heavy books", "display"]))
@settings(max_examples=150, deadline=None)
def test_farther_out_is_never_milder(kit, deep, more, high, lower, wide, load) -> None:  # type: ignore[no-untyped-def]
    said = {"load": load}
    before = worst(kit, shelf(kit, deep=deep, high=high, width=8 * wide, checks=said))
    assert worst(kit, shelf(kit, deep=deep + more, high=high, width=8 * wide, checks=said)) >= before
    wall = shelf(kit, deep=deep, high=high, width=8 * wide, checks=said)
    hung = _hung(wall, wall.components[0], wall.parts)
    raised = replace(hung, pivot=hung.pivot + float(lower))
    assert raised.used(leaned_on=True) >= hung.used(leaned_on=True) >= hung.used(leaned_on=False)
    heavier = {"given_load": GivenLoad(400, "foot")}
    assert worst(kit, shelf(kit, deep=deep, high=high, width=8 * wide, checks=heavier)) >= before
    apart = {"load": load, "stud_spacing": inch(24)}
    assert worst(kit, shelf(kit, deep=deep, high=high, width=8 * wide, checks=apart)) >= before
