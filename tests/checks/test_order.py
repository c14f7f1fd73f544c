"""Order: symmetry, lines that almost meet, margins, depth, arches beside the ceiling."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from sheets.base.length import inch
from sheets.model.part import Curve
from sheets.model.wall import Component

STEP = Fraction(1, 16)


def pair(kit, right, *, components=()):  # type: ignore[no-untyped-def]
    left = kit.part("post", (-30, -25), (0, 3), (0, 40), key="work/post-left")
    other = kit.part("post", (right, right + 5), (0, 3), (0, 40), key="work/post-right")
    return kit.severities("symmetry", kit.wall(left, other, components=components))


def test_mirror_images(kit) -> None:  # type: ignore[no-untyped-def]
    assert pair(kit, Fraction(25)) == []
    assert pair(kit, 25 + STEP) == ["warning", "warning"]


def test_images_of_unlike_material_are_none(kit) -> None:  # type: ignore[no-untyped-def]
    one = kit.part("post", (-30, -25), (0, 3), (0, 40), key="work/a")
    two = kit.part("post", (25, 30), (0, 3), (0, 40), key="work/b", material="quarter")
    assert kit.severities("symmetry", kit.wall(one, two)) == ["warning", "warning"]


def test_a_case_that_stands_alone_is_a_declared_exception(kit) -> None:  # type: ignore[no-untyped-def]
    side = kit.part("side", (40, 41), (0, 12), (0, 80), axes="xyz", assembly="cases/alone")
    case = kit.component("case", (40, 80), (0, 12), (0, 80), key="cases/alone")
    found = kit.findings("symmetry", kit.wall(side, components=(case,)))
    assert [each.severity for each in found] == ["note"]
    assert found[0].subjects == ("cases/alone",)


def lines(kit, other):  # type: ignore[no-untyped-def]
    shelf = kit.part("shelf", (-80, -50), (0, 12), (49, 50), axes="zyx", assembly="cases/a")
    cap = kit.part("cap", (-40, 40), (0, 16), (other - 4, other), axes="zyx", assembly="mantel")
    owners: tuple[Component, ...] = (
        kit.component("case", (-80, -50), (0, 12), (0, 80), key="cases/a"),
        kit.component("mantel", (-40, 40), (0, 16), (0, 50), key="mantel"),
    )
    return kit.severities("alignment", kit.wall(shelf, cap, components=owners))


@pytest.mark.parametrize(
    ("other", "severities"),
    [
        (Fraction(50), []),
        (50 + STEP, ["warning"]),
        (Fraction(101, 2), ["warning"]),
        (Fraction(101, 2) + STEP, []),
    ],
)
def test_lines_that_almost_meet(kit, other, severities) -> None:  # type: ignore[no-untyped-def]
    # Tops within 1/2 in and not in line (common practice). The undersides here are 2 1/2 in apart and more.
    assert lines(kit, other) == severities


def test_margins_beside_the_opening(kit) -> None:  # type: ignore[no-untyped-def]
    def found(right):  # type: ignore[no-untyped-def]
        surround = kit.component("surround", (-30, right), (0, 1), (0, 40))
        return kit.severities("equal-margins", kit.wall(components=(surround,), opening=kit.opening(36, 30)))

    assert found(Fraction(30)) == []
    assert found(30 + STEP) == ["warning"]


def test_ends_of_a_row_of_boards(kit) -> None:  # type: ignore[no-untyped-def]
    def found(first, last):  # type: ignore[no-untyped-def]
        edges = [0, first, first + 5, first + 10, first + 10 + last]
        row = [
            kit.part("backer board", (a, b), (0, 1), (0, 60), axes="yxz", key=f"work/board-{n}")
            for n, (a, b) in enumerate(pairwise(edges))
        ]
        case = kit.component("case", (0, edges[-1]), (0, 12), (0, 60))
        return kit.severities("equal-margins", kit.wall(*row, components=(case,)))

    assert found(Fraction(5, 2), Fraction(5, 2)) == []
    assert found(Fraction(5, 2), Fraction(5, 2) + STEP) == ["warning"]
    assert found(Fraction(5, 2) - STEP, Fraction(5, 2) - STEP) == ["warning"]


@pytest.mark.parametrize(
    ("front", "severities"),
    [(Fraction(10), []), (10 + STEP, ["warning"]), (10 + 2 * STEP, []), (10 - STEP, ["warning"])],
)
def test_the_cap_stands_proud_of_the_fascia(kit, front, severities) -> None:  # type: ignore[no-untyped-def]
    fascia = kit.part("fascia", (-40, 40), (9, 10), (44, 50), assembly="mantel")
    cap = kit.part("cap", (-40, 40), (0, front), (50, 51), axes="zyx", assembly="mantel")
    owner = kit.component("mantel", (-40, 40), (0, 12), (0, 51), key="mantel")
    assert kit.severities("depth-order", kit.wall(fascia, cap, components=(owner,))) == severities


def arch(kit, rise):  # type: ignore[no-untyped-def]
    curve = Curve(inch(60), inch(rise), 1.0, "y", "underside")
    rail = kit.part("arch rail", (-30, 30), (0, 1), (30, 36), curve=curve)
    # The ceiling rises 20 in 200: 1 in 10. A quarter off is 7 1/2 in 60.
    return kit.severities("arch-ratio", kit.wall(rail, width=200, height=100, spring=80))


def test_arch_beside_the_ceiling(kit) -> None:  # type: ignore[no-untyped-def]
    assert arch(kit, Fraction(6)) == []
    assert arch(kit, Fraction(15, 2)) == []
    assert arch(kit, Fraction(15, 2) + STEP) == ["note"]
    assert arch(kit, Fraction(9, 2)) == []
    assert arch(kit, Fraction(9, 2) - STEP) == ["note"]


def test_a_declared_exception_softens_what_follows_from_it(kit) -> None:  # type: ignore[no-untyped-def]
    side = kit.part("side", (40, 41), (0, 12), (0, 80), axes="xyz", assembly="cases/alone")
    base = kit.part("baseboard", (-100, 40), (0, 1), (0, 5))
    case = kit.component("case", (40, 80), (0, 12), (0, 80), key="cases/alone")
    assert kit.severities("symmetry", kit.wall(side, base, components=(case,))) == ["note", "note"]
    assert kit.severities("symmetry", kit.wall(base)) == ["warning"]
