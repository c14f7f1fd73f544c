"""Stability: rails and studs, tipping, weight."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import inf
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.checks.mechanics.assemblies import cases_as_moved
from sheets.checks.mechanics.balance import balance
from sheets.checks.mechanics.strengths import weight_kg
from sheets.geometry.region import rectangle
from sheets.geometry.solid import stack
from sheets.model.part import Joint, Material
from sheets.pipeline import solve
from sheets.schedules.wall_screws import sure_studs
from tests.checks.conftest import MATERIALS

SPECS = Path(__file__).resolve().parents[2] / "specs"
STEP = Fraction(1, 16)
SCREW = (Joint("butt", fastening="screw"),)


def case(kit, *, width=40, rail=70, height=90, checks=None):  # type: ignore[no-untyped-def]
    side = kit.part("board", (0, 1), (0, 12), (0, height), axes="xyz")
    rails = (
        (kit.part("nailing rail", (1, width - 1), (0, 1), (rail - 1, rail + 2), joints=SCREW),)
        if rail
        else ()
    )
    case = kit.component("case", (0, width), (0, 12), (0, height))
    return kit.wall(side, *rails, components=(case,), checks=checks)


def test_rail_in_the_upper_third(kit) -> None:  # type: ignore[no-untyped-def]
    # Upper third of 90 in: from 60; the rail's middle is half an inch above its name here.
    assert kit.severities("anchorage", case(kit, rail=Fraction(119, 2))) == []
    assert kit.severities("anchorage", case(kit, rail=Fraction(119, 2) - STEP)) == ["warning"]
    assert kit.severities("anchorage", case(kit, rail=None)) == ["warning"]


def test_what_is_told_of_rails(kit) -> None:  # type: ignore[no-untyped-def]
    (found,) = kit.findings("anchorage", case(kit, rail=None))
    assert found.cure.endswith("above 5'-0\""), "two thirds of 90 in"
    # 3/4 in at each end takes no screw: 16 1/2 of 18 in are sure of one stud; 2 x 16 + 1 1/2 would be of two.
    (found,) = kit.findings("anchorage", case(kit, width=20))
    assert "is sure of 1 stud" in found.message
    assert "would be sure" not in found.cure, "no rail of 33 1/2 in goes into a case of 20"
    wide = case(kit, width=40)
    short = replace(wide.parts[1], extent=replace(wide.parts[1].extent, x1=inch(19)))
    (found,) = kit.findings("anchorage", replace(wide, parts=(wide.parts[0], short)))
    assert found.cure.endswith("a rail 2'-9 1/2\" long would be sure of 2")
    # Of two rails high up the one that is sure of more counts.
    both = (wide.parts[0], short, replace(wide.parts[1], key="work/other", extent=high(wide.parts[1], 10)))
    assert kit.severities("anchorage", replace(wide, parts=both)) == []
    said = [kit.report("anchorage", each).measures[0].verdict for each in (wide, case(kit, width=20))]
    assert said == ["within limit", "to judge"]


def high(part, by):  # type: ignore[no-untyped-def]
    """The box of a piece so much higher, inches."""
    return replace(part.extent, z0=part.extent.z0 + inch(by), z1=part.extent.z1 + inch(by))


def test_a_short_screw_is_told_with_the_one_that_would_do(kit) -> None:  # type: ignore[no-untyped-def]
    # Through 2 in of rail and 1/2 in of lining 3 1/2 in go 1 in into the stud; six times 1/4 are 1 1/2, and
    # 2 + 1/2 + 1 1/2 in is 4. Through 4 in of rail it does not come out at all.
    wall = case(kit)
    for thick, into, wanted in (("2", '1"', '4"'), ("4", '0"', '6"')):
        rail = replace(wall.parts[1], extent=replace(wall.parts[1].extent, y1=inch(thick)))
        (found,) = kit.findings("anchorage", replace(wall, parts=(wall.parts[0], rail)))
        assert f"goes {into} into the stud" in found.message
        assert found.cure == f"a screw of {wanted} or longer would do"


def test_of_the_loads_that_tip_the_worst_is_told(kit) -> None:  # type: ignore[no-untyped-def]
    # The block 1 in thick, 27.5 lb, its middle 6 in behind its toe: 27.5 x 6 / 90 = 1.8 of 50 lb at its top,
    # 27.5 x 6 / 56 = 2.9 of 10 lb at 56 in: the first is the less of what is tried.
    (found,) = kit.findings("tipping", block(kit, 1))
    assert "tips at 2 lb of level pull at its top" in found.message
    numbers = [(row.value, row.verdict) for row in kit.report("tipping", block(kit, 1)).measures]
    assert numbers[:2] == [("tips at 2 lb", "to judge"), ("tips at 3 lb", "to judge")]
    # Raised 0.43 in on feet 12 deep, its middle 45 in up comes forward 1.61 and an edge at 56 in 2.01: 27.5 x
    # 4.39 / 2.01 = 60.2 of 60 lb.
    assert numbers[2] == ("tips at 60.2 lb", "within limit")


def test_a_rail_a_step_off_the_wall_is_no_rail_at_it(kit) -> None:  # type: ignore[no-untyped-def]
    # The wall is at y = 0; what reaches it, or is let into it, can be screwed to it.
    def standing_at(y):  # type: ignore[no-untyped-def]
        side = kit.part("board", (0, 1), (0, 12), (0, 90), axes="xyz")
        rail = kit.part("nailing rail", (1, 39), (y, y + 1), (70, 73), joints=SCREW)
        return kit.wall(side, rail, components=(kit.component("case", (0, 40), (0, 12), (0, 90)),))

    assert kit.severities("anchorage", standing_at(Fraction(0))) == []
    assert kit.severities("anchorage", standing_at(-STEP)) == []
    assert kit.severities("anchorage", standing_at(STEP)) == ["warning"]


def test_two_sure_studs(kit) -> None:  # type: ignore[no-untyped-def]
    # Studs 16 in on centre (IRC R602.3(5), from memory): 32 in is sure of two. The rail is 2 shorter than the
    # case here, and takes no screw in 3/4 at each end: 32 + 2 + 1 1/2.
    wide = Fraction(71, 2)
    assert kit.severities("anchorage", case(kit, width=wide)) == []
    assert kit.severities("anchorage", case(kit, width=wide - STEP)) == ["warning"]
    assert kit.severities("anchorage", case(kit, width=wide, checks={"stud_spacing": inch(24)})) == [
        "warning"
    ]
    backed = {"stud_spacing": inch(24), "blocking": True}
    assert kit.severities("anchorage", case(kit, width=Fraction(20), checks=backed)) == []


def test_a_low_case_is_not_judged(kit) -> None:  # type: ignore[no-untyped-def]
    # 27 in: the height from which tip-over standards begin (ASTM F2057-23).
    assert kit.report("anchorage", case(kit, height=27, rail=None)).looked_at == 1
    assert kit.report("anchorage", case(kit, height=27 - STEP, rail=None)).looked_at == 0


RAILS = st.lists(st.tuples(st.integers(0, 200), st.integers(1, 90)), min_size=1, max_size=4)


@given(RAILS, st.integers(8, 30))
def test_sure_studs_are_those_of_the_worst_place_of_the_first_stud(rails, spacing) -> None:  # type: ignore[no-untyped-def]
    # Every place of the first stud in steps of a quarter, counted one by one; rails lie apart.
    spans = [(Fraction(4 * (each + 100 * number)), Fraction(4 * (each + long + 100 * number)))
             for number, (each, long) in enumerate(rails)]  # fmt: skip
    worst = min(
        sum(low <= stud <= high for low, high in spans for stud in range(first, 4000, 4 * spacing))
        for first in range(1 - 4 * spacing, 1, 2)
    )
    assert sure_studs(spans, Fraction(4 * spacing)) == worst


def test_rails_parted_by_dividers_count_together(kit) -> None:  # type: ignore[no-untyped-def]
    # 16 in each, less 3/4 at both ends, is sure of no stud at 16 in: two of them side by side neither, a stud
    # may stand behind the divider; with a rail of 33 1/2 beside it two are sure.
    assert sure_studs([(Fraction(0), Fraction(29, 2))], Fraction(16)) == 0
    assert sure_studs([(Fraction(0), Fraction(29, 2)), (Fraction(16), Fraction(61, 2))], Fraction(16)) == 0
    assert sure_studs([(Fraction(0), Fraction(29, 2)), (Fraction(16), Fraction(48))], Fraction(16)) == 2


def test_a_wall_screw_reaches_into_the_stud(kit) -> None:  # type: ignore[no-untyped-def]
    # Through 1 1/2 in of rail and 1/2 of lining a 3 1/2 in screw goes 1 1/2 in: six times 1/4 (NDS 12.1), no
    # more.
    thin, rail = case(kit), case(kit).part("work/nailing-rail")
    for more, said in ((Fraction(0), []), (STEP, ["error"])):
        thick = replace(rail, extent=replace(rail.extent, y1=inch("3/2") + more))
        # A board before the rail takes as much of the screw as if the rail were thicker.
        covered = replace(rail, does=replace(rail.does, covered=inch("1/2") + more))
        for piece in (thick, covered):
            found = replace(thin, parts=(thin.part("work/board"), piece))
            assert kit.severities("anchorage", found) == said


def test_weight_of_a_board(kit) -> None:  # type: ignore[no-untyped-def]
    # Red oak, gravity 0.63 at 12 %: 0.63 x 1.12 x 62.4 lb = 44.0 lb per cubic foot (Wood Handbook table
    # 5-3b).
    board = kit.part("shelf", (0, 12), (0, 12), (0, 12), axes="zyx")
    found = weight_kg(board)
    assert found is not None
    assert found[0] / 0.45359237 == pytest.approx(44.0, abs=0.1)


def test_tipping_is_warned_of_only_where_nothing_fixes_the_case(kit) -> None:  # type: ignore[no-untyped-def]
    assert kit.severities("tipping", case(kit)) == []
    assert kit.severities("tipping", case(kit, rail=None)) == ["warning"]


def narrow(kit, wide, feet, *, material="oak", checks=None):  # type: ignore[no-untyped-def]
    """A block on its feet with a rail from side to side at its top."""
    (body,) = block(kit, wide, feet).parts
    rail = kit.part("nailing rail", (0, wide), (0, "3/4"), (86, 89), key="work/nailing-rail")
    body = replace(body, material=MATERIALS.get(material) or Material("x", "wood", material))
    case = kit.component("case", (0, wide), (0, 12), (0, 90))
    return kit.wall(body, rail, components=(case,), checks=checks)


def test_what_falls_and_is_sure_of_no_stud_is_an_error(kit) -> None:  # type: ignore[no-untyped-def]
    # 3/4 in at each end takes no screw: at studs 16 in apart 17 1/2 in is sure of one, 17 in of none.
    assert kit.severities("tipping", narrow(kit, 17, 5)) == ["error"]
    assert kit.severities("tipping", narrow(kit, "35/2", 5)) == ["warning"]
    assert kit.severities("tipping", narrow(kit, 17, 5, checks={"blocking": True})) == ["warning"]
    assert kit.severities("tipping", narrow(kit, 17, 12)) == ["warning"], "it stands, and 50 lb tip it"
    assert kit.severities("tipping", narrow(kit, "35/2", 12)) == []


@given(st.integers(4, 80), st.integers(0, 40), st.integers(1, 12), st.integers(0, 6))
@settings(max_examples=60, deadline=None)
def test_a_narrower_case_on_shorter_feet_is_never_milder(kit, wide, more, feet, longer) -> None:  # type: ignore[no-untyped-def]
    def hard(wide, feet):  # type: ignore[no-untyped-def]
        found = kit.severities("tipping", narrow(kit, wide, feet))
        return max(({"warning": 1, "error": 2}[each] for each in found), default=0)

    assert hard(wide, feet) >= hard(wide + more, min(12, feet + longer))


@pytest.mark.parametrize(("rule", "severity"), [("tipping", "warning"), ("weights", "note")])
def test_what_cannot_be_weighed_is_said(kit, rule, severity) -> None:  # type: ignore[no-untyped-def]
    (found,) = kit.findings(rule, narrow(kit, 40, 12, material="snakewood"))
    assert (found.severity, "snakewood" in found.message) == (severity, True)
    assert "species of the tables" not in found.cure, "no other name is proposed that would pass"


def block(kit, thick, feet=12):  # type: ignore[no-untyped-def]
    """Red oak, 12 deep and 90 high, its lowest 4 in only as deep as its feet."""
    shape = stack("z", ((0, 101.6, (rectangle(0, 0, float(inch(thick)), float(inch(feet))),)),
                        (101.6, 90 * 25.4, (rectangle(0, 0, float(inch(thick)), 12 * 25.4),))))  # fmt: skip
    side = kit.part("board", (0, thick), (0, 12), (0, 90), axes="xyz", solid=shape)
    return kit.wall(side, components=(kit.component("case", (0, thick), (0, 12), (0, 90)),))


def test_fifty_pounds_is_the_pull_that_a_case_withstands(kit) -> None:  # type: ignore[no-untyped-def]
    # Red oak 44.03 lb per cubic foot, as in the weights below. A block T thick, 12 deep, 90 high weighs
    # T x 12 x 90 / 1728 x 44.03 = 27.52 T lb and tips at 27.52 T x 6 / 90 = 1.8346 T lb: 27 in at 49.5 lb
    # (22.5 kg), 28 in at 51.4 lb (23.3 kg). The pull of a child is 50 lb (common practice, from memory).
    assert kit.severities("tipping", block(kit, 27)) == ["warning"]
    assert kit.severities("tipping", block(kit, 28)) == []


def test_a_case_turns_about_the_toe_of_its_feet(kit) -> None:  # type: ignore[no-untyped-def]
    # The same block 1 in thick on feet F deep: weights in in3 are 4 F and 86 x 12 = 1032, their centres at
    # F / 2 and 6. F = 8: (4 x 8 x 4 + 1032 x 6) / 1064 = 5.940, 2.060 behind the toe at 8; 1064 in3 of red
    # oak are 1064 / 1728 x 44.03 = 27.11 lb and tip at 27.11 x 2.060 / 90 = 0.62 lb level at the top.
    body = balance(block(kit, 1, 8).parts, (0.0,))
    assert body is not None
    assert body.behind / 25.4 == pytest.approx(2.060, abs=0.001)
    assert body.pull_at(90 * 25.4) / 0.45359237 == pytest.approx(0.62, abs=0.01)
    # F = 6: (4 x 6 x 3 + 1032 x 6) / 1056 = 5.932, 0.068 behind. F = 5: 5.933, 0.933 before: it falls.
    assert not balance(block(kit, 1, 6).parts, (0.0,)).falls  # type: ignore[union-attr]
    assert balance(block(kit, 1, 5).parts, (0.0,)).falls  # type: ignore[union-attr]
    assert kit.severities("tipping", block(kit, 40, 5)) == ["error"]


def test_a_weight_on_the_edge_is_no_pull(kit) -> None:  # type: ignore[no-untyped-def]
    # On feet 12 deep the edge stands over the toe: no weight on it tips the block on a hard floor. On feet 8
    # deep it stands out 4 in: 27.11 lb x 2.060 / 4 = 13.96 lb.
    assert balance(block(kit, 1).parts, (0.0,)).weight_on_edge(56 * 25.4) == inf  # type: ignore[union-attr]
    body = balance(block(kit, 1, 8).parts, (0.0,))
    assert body is not None
    assert body.weight_on_edge(56 * 25.4) / 0.45359237 == pytest.approx(13.96, abs=0.02)
    # Its back raised 0.43 in it leans 0.43 / 8: the centre, (4 x 8 x 2 + 1032 x 47) / 1064 = 45.65 high,
    # moves 2.454 forward, before the toe: it falls by itself.
    assert body.weight_on_edge(56 * 25.4, 0.43 * 25.4) == 0


def test_the_hall_niche_tips_about_its_recessed_plinth() -> None:
    # By hand in review, from the pieces' weights, about the plinth's face 2 in behind the front: 5.8 lb, with
    # four rails more between bottom and top, each 35 1/16 x 3 x 23/32 of plywood at 36 lb per cu ft, 1.58 lb,
    # 7.64 behind the toe: 48.2 lb in; and with 0.25 x (23/32) x 78 more of each side at the wall, 0.58 lb.
    # The 53 lb in over 84 in of height are 0.63 lb. The two rails left, 35 9/16 x 3 x 3/4, are of poplar,
    # 29.4 lb per cu ft: 0.5 lb less at 7.64 is 0.04 lb more. What a 32nd of the shelves is worth lies within
    # a tenth.
    wall = solve(SPECS / "narrow-wall.yaml").wall
    assert wall is not None
    (case,) = cases_as_moved(wall)
    body = balance(case.parts, (0.0,))
    assert body is not None
    assert body.pull_at(body.height) / 0.45359237 == pytest.approx(5.8 - 0.63 - 0.04, abs=0.1)


@given(st.integers(1, 12), st.integers(1, 12), st.floats(1, 2000), st.floats(0, 30))
def test_a_shorter_foot_is_never_milder(kit, feet, other, height, raised) -> None:  # type: ignore[no-untyped-def]
    short, long = (balance(block(kit, 2, each).parts, (0.0,)) for each in sorted((feet, other)))
    assert short is not None
    assert long is not None
    assert short.pull_at(height) <= long.pull_at(height)
    assert short.weight_on_edge(height, raised) <= long.weight_on_edge(height, raised)
    assert long.weight_on_edge(height, raised) <= long.weight_on_edge(height)


def test_more_than_two_people_carry(kit) -> None:  # type: ignore[no-untyped-def]
    # 150 lb of red oak at 44.03 lb per cubic foot is 5886.6 in3: a block of 10 x 10 x 58 13/16 stays below,
    # 58 14/16 not.
    def found(length):  # type: ignore[no-untyped-def]
        block = kit.part("side", (0, length), (0, 10), (0, 10), axes="zyx")
        return kit.severities(
            "weights", kit.wall(block, components=(kit.component("case", (0, length), (0, 10), (0, 10)),))
        )

    assert found(Fraction(58 * 16 + 13, 16)) == []
    assert found(Fraction(58 * 16 + 14, 16)) == ["warning"]
