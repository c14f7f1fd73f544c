"""What burns, whose rules judge, the air of a masonry fireplace, and all that a manual gives."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.checks.mechanics.strengths import is_combustible
from sheets.checks.run import run_checks
from sheets.model.fire import Chimney, ListedHearth, Service
from sheets.model.part import Extent, Material
from sheets.model.purpose import Purpose
from sheets.tables.noncombustible import IMITATIONS, noncombustibles

STEP = Fraction(1, 16)


@pytest.mark.parametrize(
    "name", ["slate", "Slate", "glazed tile", "tile, glazed", "Cement-Board", "brick", "cast iron", "marble"]
)
def test_what_the_list_names_does_not_burn(name) -> None:  # type: ignore[no-untyped-def]
    kind = "other" if name in ("cast iron", "Cement-Board") else "masonry"
    assert not is_combustible(Material("m", kind, name))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "name",
    [
        "plexiglass",  # a substring of it passed once
        "fiberglass panel",
        "noncombustible-look MDF",
        "slate effect laminate",
        "brick veneer panel",
        "cultured marble",
        "stone-faced foam",
        "brass coloured vinyl",
        "ironwood",
        "steelcase",
        "glassine",
        "moon rock",
        "straw bale",
        "framing by others",
    ],
)
@pytest.mark.parametrize("kind", ["masonry", "other"])
def test_any_other_name_burns(name, kind) -> None:  # type: ignore[no-untyped-def]
    assert is_combustible(Material("m", kind, name))


def test_a_finish_that_imitates_takes_the_name_away() -> None:
    assert is_combustible(Material("m", "masonry", "marble", finish="vinyl wrap"))
    assert not is_combustible(Material("m", "masonry", "marble", finish="honed"))


def test_wood_by_a_stones_name_burns() -> None:
    assert is_combustible(Material("m", "wood", "slate"))
    assert is_combustible(Material("m", "panel", "steel"))


def test_no_name_of_the_list_says_an_imitation() -> None:
    words = {word for row in noncombustibles() for name in row.names for word in name.split()}
    assert not words & IMITATIONS
    assert len(noncombustibles()) > 20


def test_a_facing_of_unknown_stone_is_judged_and_said(kit) -> None:  # type: ignore[no-untyped-def]
    def wall(stone: str):  # type: ignore[no-untyped-def]
        facing = kit.part(
            "surround",
            (-30, -18),
            (0, "3/4"),
            (0, 40),
            material=Material("m", "masonry", stone),
            maker="others",
        )
        opening = kit.opening(36, 30, face="3/4", masonry=(12, 12, 8))
        body = replace(opening.masonry.extent, y1=Fraction(0))  # the facing lies before it
        return kit.wall(facing, opening=replace(opening, masonry=replace(opening.masonry, extent=body)))

    assert kit.severities("fire-materials", wall("slate")) == []
    assert kit.severities("masonry-clearance", kit.wall(opening=kit.opening(36, 30))) == []
    (said,) = kit.findings("fire-materials", wall("slaet"))
    assert said.severity == "warning"
    assert "write slate" in said.cure
    assert kit.severities("masonry-clearance", wall("slaet")) == ["error"]


def masonry(kit, part, *, kind="case", said=True, work=(12, 12, 8), chimney=None, codes=None, units="inch"):  # type: ignore[no-untyped-def]
    """A masonry opening of 36 by 30 in a wall's face, with a piece of a case, a mantel or the room."""
    opening = kit.opening(36, 30, masonry=work, said=said)
    opening = replace(opening, masonry=replace(opening.masonry, chimney=chimney))
    component = kit.component(kind, (-1, 1), (0, 1), (0, 1))
    return kit.wall(part, components=(component,), opening=opening, codes=codes, units=units)


def test_a_case_against_the_masonry_beside_the_firebox(kit) -> None:  # type: ignore[no-untyped-def]
    """IRC R1001.11: 2 in of air at the sides, or contact 12 in from the inside of the lining."""

    def found(masonry_beside, gap):  # type: ignore[no-untyped-def]
        x0 = 18 + Fraction(masonry_beside) + gap
        side = kit.part("side", (x0, x0 + 1), (-10, -1), (0, 80))
        return kit.severities("masonry-air", masonry(kit, side, work=(masonry_beside, 12, 8)))

    assert found(12, Fraction(0)) == []  # touches, 12 from the lining
    assert found(12 - STEP, Fraction(0)) == ["error"]
    assert found(8, Fraction(2)) == []  # 2 of air
    assert found(8, 2 - STEP) == ["error"]


def test_four_inches_behind(kit) -> None:  # type: ignore[no-untyped-def]
    """The firebox is 14 deep and 6 of masonry stand behind it: its back is at -20."""

    def found(gap):  # type: ignore[no-untyped-def]
        stud = kit.part("stud", (-1, 1), (-24 - gap, -20 - gap), (0, 90), maker="room")
        return kit.severities("masonry-air", masonry(kit, stud, work=(12, 12, 6)))

    assert found(Fraction(4)) == []
    assert found(4 - STEP) == ["error"]


def test_the_projection_rule_lets_only_mantel_and_trim_onto_the_front(kit) -> None:  # type: ignore[no-untyped-def]
    board = kit.part(
        "board", (26, 30), (0, "3/4"), (0, 60)
    )  # 8 in from the opening, 3/4 out: 1 in is allowed
    for kind, severities in (("mantel", []), ("trim", []), ("case", ["error"])):
        wall = masonry(kit, board, kind=kind)
        assert kit.severities("masonry-clearance", wall) == []
        assert kit.severities("masonry-air", wall) == severities


def test_the_rooms_gypsum_board_is_a_piece(kit) -> None:  # type: ignore[no-untyped-def]
    def found(edge):  # type: ignore[no-untyped-def]
        board = kit.part("wall", (18 + edge, 90), ("-1/2", 0), (0, 96), material="gypsum", maker="room")
        return kit.severities("masonry-air", masonry(kit, board))

    assert found(Fraction(12)) == []
    assert found(12 - STEP) == ["error"]


def test_masonry_that_is_not_said_is_asked_for_by_name(kit) -> None:  # type: ignore[no-untyped-def]
    side = kit.part("side", (30, 31), (-10, -1), (0, 80))
    (asked,) = kit.findings("masonry-air", masonry(kit, side, said=False))
    assert asked.severity == "warning"
    assert "side" in asked.message


def test_air_about_the_chimney(kit) -> None:  # type: ignore[no-untyped-def]
    """IRC R1003.18: 2 in inside, 1 in outside; or 12 in from the inside of the flue."""

    def found(gap, outside=False, flue=None):  # type: ignore[no-untyped-def]
        around = Extent(inch(-15), inch(15), inch(-24), inch(-2), inch(42), inch(96))
        inner = None
        if flue is not None:
            inner = Extent(
                inch(-15 + flue), inch(15 - flue), inch(-24 + flue), inch(-2 - flue), inch(42), inch(96)
            )
        stud = kit.part("stud", (15 + gap, 17 + gap), (-10, -5), (42, 96), maker="room")
        return kit.severities("chimney-air", masonry(kit, stud, chimney=Chimney(around, outside, inner)))

    assert found(Fraction(2)) == []
    assert found(2 - STEP) == ["error"]
    assert found(Fraction(1), outside=True) == []
    assert found(1 - STEP, outside=True) == ["error"]
    assert found(Fraction(0), flue=8) == ["error"]
    assert found(Fraction(4), flue=8) == []


def test_a_chimney_that_is_not_placed_is_asked_for_by_name(kit) -> None:  # type: ignore[no-untyped-def]
    panel = kit.part("panel", (-10, 10), (0, 1), (60, 80))
    (asked,) = kit.findings("chimney-air", masonry(kit, panel))
    assert (asked.severity, "panel" in asked.message) == ("warning", True)


NEAR = ((-25, 25), (0, 2), (35, 37))  # 5 in above the opening


@pytest.mark.parametrize(
    ("units", "codes", "severities"),
    [
        ("inch", {}, ["error"]),
        ("inch", {"body": "IRC", "edition": "2018"}, ["error"]),
        ("mm", {}, ["warning", "warning"]),  # one asks for a choice
        ("mm", {"body": "IRC"}, ["error"]),
        ("inch", {"body": "none"}, ["warning"]),
        ("inch", {"body": "manual"}, ["warning"]),
    ],
)
def test_codes_are_chosen(kit, units, codes, severities) -> None:  # type: ignore[no-untyped-def]
    wall = masonry(kit, kit.part("cap", *NEAR), kind="mantel", codes=codes, units=units)
    assert kit.severities("masonry-clearance", wall) == severities


def test_a_wall_elsewhere_is_not_told_one_countrys_law(kit) -> None:  # type: ignore[no-untyped-def]
    wall = masonry(kit, kit.part("cap", *NEAR), kind="mantel", units="mm")
    found = [each for report in run_checks(wall) if report.about_fire for each in report.findings]
    assert found
    assert not [each for each in found if each.severity == "error"]
    assert any("write `codes:`" in each.cure for each in found)


def test_an_own_table_judges(kit) -> None:  # type: ignore[no-untyped-def]
    table = (
        "where,projects_over,distance,per_projection,no_limit_beyond,source\nabove,1 in,9 in,0,,town rule 4\n"
    )

    def found(above):  # type: ignore[no-untyped-def]
        cap = kit.part("cap", (-25, 25), (0, 2), (30 + above, 32 + above))
        codes = {"body": "own", "table": "t.csv", "text": table}
        return kit.findings("masonry-clearance", masonry(kit, cap, kind="mantel", codes=codes))

    assert found(Fraction(9)) == ()
    (far,) = found(9 - STEP)
    assert (far.severity, far.cited.source, far.cited.confidence) == ("error", "town rule 4", "not seen")


def test_a_code_figure_says_whether_a_copy_was_read(kit) -> None:  # type: ignore[no-untyped-def]
    def cited(edition):  # type: ignore[no-untyped-def]
        wall = masonry(kit, kit.part("cap", *NEAR), kind="mantel", codes={"body": "IRC", "edition": edition})
        return kit.findings("masonry-clearance", wall)[0].cited

    assert cited("2018").text.endswith("2018, read in a copy")
    assert cited("2015").text.endswith("2015 (from memory)")


LISTED = {"appliance": "listed gas", "listing": ((4, 6), (8, 10))}


def listed(kit, *parts, kind="mantel", **copied):  # type: ignore[no-untyped-def]
    component = kit.component(kind, (-1, 1), (0, 1), (0, 1))
    return kit.wall(*parts, components=(component,), opening=kit.opening(36, 30, **LISTED, **copied))


def test_legs_and_side_trim_by_their_own_pairs(kit) -> None:  # type: ignore[no-untyped-def]
    def found(beside, kind):  # type: ignore[no-untyped-def]
        thing = kit.part("leg", (18 + beside, 30 + beside), (0, 3), (0, 50))
        wall = listed(kit, thing, kind=kind, legs=((3, 3), (6, 9)), side_trim=((3, 5),))
        return kit.severities("listed-clearance", wall)

    assert (found(Fraction(3), "mantel"), found(3 - STEP, "mantel")) == ([], ["error"])
    assert (found(Fraction(3), "case"), found(3 - STEP, "case")) == ([], ["error"])
    assert (found(Fraction(5), "trim"), found(5 - STEP, "trim")) == ([], ["error"])


def test_a_silent_copy_names_every_piece_concerned(kit) -> None:  # type: ignore[no-untyped-def]
    left = kit.part("leg", (-40, -30), (0, 3), (0, 50), key="work/left")
    right = kit.part("leg", (30, 40), (0, 3), (0, 50), key="work/right")
    (found,) = kit.findings("listed-clearance", listed(kit, left, right))
    assert (found.severity, set(found.subjects)) == ("warning", {"work/left", "work/right"})


def test_side_walls_and_ceiling(kit) -> None:  # type: ignore[no-untyped-def]
    def found(**copied):  # type: ignore[no-untyped-def]
        around = (
            kit.part("side wall", (30, 31), (0, 60), (0, 70), material="gypsum", maker="room"),
            kit.part("ceiling", (-60, 60), (0, 60), (70, 71), axes="zyx", material="gypsum", maker="room"),
        )
        parts = [
            replace(part, does=Purpose(fire=fire))
            for part, fire in zip(around, ("side wall", "ceiling"), strict=True)
        ]
        return kit.severities("listed-clearance", listed(kit, *parts, **copied))

    # The side wall is 12 in beside the opening, the ceiling 40 above it.
    assert found(side_walls=inch(12), ceiling=inch(40)) == []
    assert found(side_walls=inch(12 + STEP), ceiling=inch(40)) == ["error"]
    assert found(side_walls=inch(12), ceiling=inch(40 + STEP)) == ["error"]
    assert found() == ["warning", "warning"]


def test_nothing_nearer_in_front_than_the_copy_allows(kit) -> None:  # type: ignore[no-untyped-def]
    def found(gap):  # type: ignore[no-untyped-def]
        screen = kit.part("screen", (-10, 10), (gap, gap + 1), (0, 20))
        copied = {"in_front": inch(36), "legs": ((60, 0),)}
        opening = kit.opening(36, 30, appliance="listed gas", listing=((60, 0),), **copied)
        return kit.severities("listed-clearance", kit.wall(screen, opening=opening, components=(
            kit.component("mantel", (-1, 1), (0, 1), (0, 1)),
        )))  # fmt: skip

    assert (found(Fraction(36)), found(36 - STEP)) == ([], ["error"])


def test_the_hearth_of_a_listed_appliance(kit) -> None:  # type: ignore[no-untyped-def]
    def found(front, thick):  # type: ignore[no-untyped-def]
        slab = kit.part(
            "hearth", (-30, 30), (0, front), (0, thick), axes="zyx", material="slate", maker="others"
        )
        hearth = ListedHearth(inch(18), inch(12), inch(2))
        return kit.severities("hearth-extension", listed(kit, slab, hearth=hearth))

    assert found(Fraction(18), 2) == []
    assert found(18 - STEP, 2) == ["error"]
    assert found(Fraction(18), 2 - STEP) == ["warning"]


def test_the_space_for_service(kit) -> None:  # type: ignore[no-untyped-def]
    def found(low):  # type: ignore[no-untyped-def]
        shelf = kit.part("cap", (-25, 25), (0, 4), (low, low + 1), material="slate")
        return kit.severities(
            "service-space", listed(kit, shelf, service=Service(inch(12), inch(2), inch(6)))
        )

    assert (found(Fraction(36)), found(36 - STEP)) == ([], ["error"])


def test_a_television_above(kit) -> None:  # type: ignore[no-untyped-def]
    def found(above, **copied):  # type: ignore[no-untyped-def]
        screen = kit.part("television", (-25, 25), (0, 2), (30 + above, 60 + above), maker="others")
        screen = replace(screen, does=Purpose(fire="electronics"))
        return kit.severities("heat-above", listed(kit, screen, **copied))

    assert (found(Fraction(20), television=inch(20)), found(20 - STEP, television=inch(20))) == (
        [],
        ["error"],
    )
    assert found(Fraction(20)) == ["warning"]
