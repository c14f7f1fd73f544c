"""Use: eyes, mantel, pictures, books, reach."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.checks.mechanics.bays import Bay
from sheets.checks.rules.book_bays import formats_for
from sheets.checks.rules.mantel_height import largest_picture
from sheets.model.settings import GivenLoad
from tests.made_settings import settings

STEP = Fraction(1, 16)


def test_opening_that_is_looked_up_at(kit) -> None:  # type: ignore[no-untyped-def]
    # Lounge seat: eyes at 38 to 44 in (common practice). Opening 16 high: its middle at sill + 8.
    assert kit.severities("opening-height", kit.wall(opening=kit.opening(50, 16, sill=36))) == []
    assert kit.severities("opening-height", kit.wall(opening=kit.opening(50, 16, sill=36 + STEP))) == ["note"]


def mantel(kit, top, **room):  # type: ignore[no-untyped-def]
    return kit.wall(components=(kit.component("mantel", (-40, 40), (0, 14), (0, top)),), **room)


def test_mantel_between_48_and_60(kit) -> None:  # type: ignore[no-untyped-def]
    def found(top):  # type: ignore[no-untyped-def]
        return [
            each for each in kit.findings("mantel-height", mantel(kit, top)) if "is usual" in each.message
        ]

    assert [len(found(top)) for top in (48 - STEP, Fraction(48), Fraction(60), 60 + STEP)] == [1, 0, 0, 1]


def test_picture_above_the_mantel(kit) -> None:  # type: ignore[no-untyped-def]
    # Mantel top 50 under a ceiling of 70: a wall of 20 by 80, its middle at 60, the highest of habit (57 to
    # 60 in).
    def found(ceiling):  # type: ignore[no-untyped-def]
        return kit.severities("mantel-height", mantel(kit, 50, height=ceiling))

    assert found(Fraction(70)) == []
    assert found(70 + STEP) == ["note"]


def test_no_room_for_a_picture(kit) -> None:  # type: ignore[no-untyped-def]
    found = kit.findings("mantel-height", mantel(kit, 50, height=61))
    assert "no picture" in found[0].message


def test_taller_cases_bound_the_wall_above(kit) -> None:  # type: ignore[no-untyped-def]
    cases = tuple(
        kit.component("case", x, (0, 12), (0, 80), key=key) for x, key in (((-70, -35), "a"), ((30, 70), "b"))
    )
    wall = kit.wall(
        kit.part("x", (0, 1), (0, 1), (0, 1)),
        components=(kit.component("mantel", (-40, 40), (0, 14), (0, 50)), *cases),
        height=70,
    )
    free = next(
        row for row in kit.report("mantel-height", wall).measures if row.subject.startswith("free wall")
    )
    assert free.value == "5'-5\" by 1'-8\""


@given(st.integers(1, 200), st.integers(1, 200), st.integers(0, 20))
def test_a_picture_leaves_like_margins(width, height, margin) -> None:  # type: ignore[no-untyped-def]
    wide, high = largest_picture(Fraction(width), Fraction(height), Fraction(margin))
    assert wide == max(width - 2 * margin, 0)
    assert high == max(height - 2 * margin, 0)


def case(kit, clear, deep=9, shelf=None):  # type: ignore[no-untyped-def]
    bottom = kit.part("bottom", (0, 30), (0, deep), (4, 5), axes="zyx")
    top = kit.part("top", (0, 30), (0, deep), (5 + clear, 6 + clear), axes="zyx")
    extra = (kit.part("shelf", (0, 30), (0, deep), shelf, axes="zyx"),) if shelf else ()
    return kit.wall(
        bottom, top, *extra, components=(kit.component("case", (0, 30), (0, deep), (0, 6 + clear)),)
    )


@pytest.mark.parametrize(
    ("clear", "deep", "largest"),
    [
        (8, 8, "paperback"),
        (10, 8, "trade and octavo"),
        (12, 10, "large"),
        (12, 9, "trade and octavo"),
        (14, 12, "art and binder"),
    ],
)
def test_formats_of_a_bay(kit, clear, deep, largest) -> None:  # type: ignore[no-untyped-def]
    # Octavos 10 in: Burgoyne and Dana; the other formats are common practice.
    (row,) = kit.report("book-bays", case(kit, clear, deep)).measures
    assert row.limit == f"up to {largest}"


def test_burgoynes_case_takes_eight_rows_of_octavos(kit) -> None:  # type: ignore[no-untyped-def]
    # Burgoyne, Library Construction: 87 in clear: 8 shelves' rows of 10 in octavos at 3/4 in of shelf = 86
    # in.
    part = kit.part("bottom", (0, 30), (0, 9), (0, 1), axes="zyx")
    bay = Bay(kit.component("case", (0, 30), (0, 9), (0, 90)), part, part, inch(10), inch(9))
    assert "trade and octavo" in [each.name for each in formats_for(bay)]
    assert 8 * (10 + Fraction(3, 4)) <= 87


def test_bay_too_low_for_any_book(kit) -> None:  # type: ignore[no-untyped-def]
    assert kit.severities("book-bays", case(kit, Fraction(8), 8)) == []
    assert kit.severities("book-bays", case(kit, 8 - STEP, 8)) == ["note"]


def test_what_a_load_of_its_own_weighs_need_not_be_books(kit) -> None:  # type: ignore[no-untyped-def]
    low = case(kit, 8 - STEP, 8)
    own = replace(low, settings=settings("inch", checks={"given_load": GivenLoad(55, "metre")}))
    assert kit.severities("book-bays", low) == ["note"]
    assert kit.report("book-bays", own).looked_at == 0


@given(st.integers(1, 20), st.integers(1, 20))
def test_a_larger_bay_takes_no_fewer_books(height, deep) -> None:  # type: ignore[no-untyped-def]
    def count(high, far):  # type: ignore[no-untyped-def]
        return len(formats_for(Bay(None, None, None, inch(high), inch(far))))  # type: ignore[arg-type]

    assert count(height + 1, deep) >= count(height, deep)
    assert count(height, deep + 1) >= count(height, deep)


def test_reach_to_the_top_shelf(kit) -> None:  # type: ignore[no-untyped-def]
    def found(top):  # type: ignore[no-untyped-def]
        return kit.severities("shelf-reach", case(kit, 100, shelf=(top - 1, top)))

    # Standing vertical grip reach of small and of tall women: 1790 mm, 70.47 in, and 2020 mm, 79.53 in
    # (Pheasant, from memory).
    assert found(Fraction(1127, 16)) == []
    assert found(Fraction(1128, 16)) == ["note"]
    assert found(Fraction(1272, 16)) == ["note"]
    assert found(Fraction(1273, 16)) == ["warning"]
