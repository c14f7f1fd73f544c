"""Stock and milling: sizes sold, saw cuts, dadoes."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.model.part import Joint, Material

STEP = Fraction(1, 16)


def test_longest_board(kit) -> None:  # type: ignore[no-untyped-def]
    # Boards of 8, 10 and 12 ft less 2 in at each end: 140 in.
    def found(length):  # type: ignore[no-untyped-def]
        return kit.severities("stock-sizes", kit.wall(kit.part("fascia", (0, length), (0, "3/4"), (0, 5))))

    assert found(Fraction(140)) == []
    assert found(140 + STEP) == ["warning"]


def test_a_board_too_long_is_told_what_would_do(kit) -> None:  # type: ignore[no-untyped-def]
    def cure(length, **stock):  # type: ignore[no-untyped-def]
        fascia = kit.part("fascia", (0, length), (0, "3/4"), (0, 5))
        (found,) = kit.findings("stock-sizes", kit.wall(fascia, stock=stock))
        return found.severity, found.cure

    # 150 in, 1 in over and 2 in off each end are 155: hardwood is sold in whole feet, so 13 ft (NHLA).
    # Two lengths share a scarf of 8 x 3/4 = 6 in: (150 + 6) / 2 + 1 = 79 in.
    assert cure(150) == (
        "warning",
        "a board of 13'-0\" would do in one; else join it of 2 lengths, each 6'-7\", by scarfs of 1 in 8, as "
        "the schedule lists it",
    )
    # Nothing over 16 ft is sold.
    assert cure(200)[1].startswith("no longer board is sold; else join it of 2 lengths")
    # A board as short as its own scarf joins nothing.
    assert cure(150, board_lengths=(inch(14),)) == (
        "error",
        "a board of 13'-0\" would do in one; else make it in two pieces with a joint that is drawn",
    )


def test_a_larger_sheet_is_named(kit) -> None:  # type: ignore[no-untyped-def]
    def cure(length, width, material="ply"):  # type: ignore[no-untyped-def]
        side = kit.part("side", (0, "3/4"), (0, width), (0, length), axes="xyz", material=material)
        return [found.cure for found in kit.findings("stock-sizes", kit.wall(side))]

    assert cure(100, 12)[0].startswith("a sheet of 10'-0\" by 4'-0\" would do; else make it in two pieces")
    assert cure(90, 50)[0].startswith("a sheet of 8'-0\" by 5'-0\" would do")
    assert cure(130, 12)[0].startswith("no larger sheet is commonly sold: make it in two pieces")
    # MDF has no grain to keep: 40 in by 90 in is cut either way.
    assert cure(40, 90, Material("mdf", "panel", "MDF")) == []


def test_sheet_of_four_by_eight(kit) -> None:  # type: ignore[no-untyped-def]
    def found(length, width):  # type: ignore[no-untyped-def]
        side = kit.part("side", (0, "23/32"), (0, width), (0, length), axes="xyz", material="ply")
        return kit.severities("stock-sizes", kit.wall(side))

    # 1/16 short (PS 1: +0 -1/16), 1/8 trimmed off each edge: 95 11/16 x 47 11/16.
    long, wide = Fraction(1531, 16), Fraction(763, 16)
    assert found(long, wide) == []
    assert found(long + Fraction(1, 16), wide) == ["error"]
    assert found(long, wide + Fraction(1, 16)) == ["error"]


@pytest.mark.parametrize(
    ("thickness", "severities"), [("23/32", []), ("3/4", []), ("49/64", ["warning"]), ("11/16", ["warning"])]
)
def test_true_thickness_of_plywood(kit, thickness, severities) -> None:  # type: ignore[no-untyped-def]
    # 3/4 hardwood plywood is commonly 23/32, HP-1 tolerance +0 -3/64 (so 0.703 to 0.750).
    side = kit.part("side", (0, thickness), (0, 12), (0, 80), axes="xyz", material="ply")
    assert kit.severities("stock-sizes", kit.wall(side)) == severities


def test_a_wide_board_is_a_glue_up(kit) -> None:  # type: ignore[no-untyped-def]
    # Hardwood: the widest board that the shop buys, 8 in, less 1/4 in to joint. Softwood: PS 20, nominal 12
    # dresses to 11 1/4.
    pine = Material("pine", "wood", "ponderosa pine")

    def found(width, material="oak"):  # type: ignore[no-untyped-def]
        cap = kit.part("cap", (0, 60), (0, width), (0, "3/4"), axes="zyx", material=material)
        return kit.severities("stock-sizes", kit.wall(cap))

    assert found(Fraction(31, 4)) == []
    assert found(Fraction(31, 4) + STEP) == ["note"]
    assert found(Fraction(45, 4), pine) == []
    assert found(Fraction(45, 4) + STEP, pine) == ["note"]


def test_strips_and_layers_are_named(kit) -> None:  # type: ignore[no-untyped-def]
    cap = kit.part("cap", (0, 60), (0, 16), (0, "5/2"), axes="zyx")
    thick, wide = kit.findings("stock-sizes", kit.wall(cap))
    # 16 in of boards that give 7 3/4: three strips of 5 11/32, jointed from 5 19/32. 2 1/2 in of 8/4 that
    # dresses to 1 3/4: two layers of 1 1/4.
    assert thick.cure.startswith("build it up of 2 layers, each 1 1/4\" thick, as the schedule lists it")
    assert wide.cure.startswith("glue it up of 3 strips, each 5 19/32\" wide before jointing")


def test_a_thick_board_is_laminated(kit) -> None:  # type: ignore[no-untyped-def]
    # NHLA: 8/4 surfaces to 1 3/4.
    def found(thickness):  # type: ignore[no-untyped-def]
        return kit.severities(
            "stock-sizes", kit.wall(kit.part("corbel", (0, 7), (0, thickness), (0, 11), axes="yxz"))
        )

    assert found(Fraction(7, 4)) == []
    assert found(Fraction(7, 4) + STEP) == ["note"]


def saw_cut(kit, depth, *, thickness="3/4", height=6, count=1, width="1/8"):  # type: ignore[no-untyped-def]
    cut = Joint("saw cut", width=inch(width), depth=inch(depth), count=count)
    return kit.severities(
        "saw-cuts", kit.wall(kit.part("fascia", (0, 60), (0, thickness), (0, height), joints=(cut,)))
    )


def test_saw_cut_to_half_the_thickness(kit) -> None:  # type: ignore[no-untyped-def]
    assert saw_cut(kit, "3/8") == []
    assert saw_cut(kit, Fraction(3, 8) + STEP) == ["warning"]


def test_saw_cut_leaves_an_eighth(kit) -> None:  # type: ignore[no-untyped-def]
    assert saw_cut(kit, "5/8") == ["warning"]
    assert saw_cut(kit, Fraction(5, 8) + STEP) == ["error"]


def test_bands_between_saw_cuts(kit) -> None:  # type: ignore[no-untyped-def]
    # 3 cuts of 1/8 in 1 3/8 in leave four bands of 1/4 in.
    assert saw_cut(kit, "1/4", height="11/8", count=3) == []
    assert saw_cut(kit, "1/4", height=Fraction(11, 8) - STEP, count=3) == ["warning"]


def test_narrow_saw_cut(kit) -> None:  # type: ignore[no-untyped-def]
    assert saw_cut(kit, "1/4", width="1/8") == []
    assert saw_cut(kit, "1/4", width="1/16") == ["warning"]


def test_saw_cut_in_the_edge_of_a_cap_goes_into_its_width(kit) -> None:  # type: ignore[no-untyped-def]
    cut = Joint("saw cut", width=inch("1/8"), depth=inch("3/4"))
    cap = kit.part("cap", (0, 60), (0, 3), (0, 1), axes="zyx", joints=(cut,))
    assert kit.severities("saw-cuts", kit.wall(cap)) == []


def test_dado_of_half_the_thickness(kit) -> None:  # type: ignore[no-untyped-def]
    def found(depth):  # type: ignore[no-untyped-def]
        joint = Joint("dado", width=inch(1), depth=inch(depth))
        side = kit.part("side", (0, "3/4"), (0, 12), (0, 80), axes="xyz", joints=(joint,))
        return kit.severities("dadoes", kit.wall(side))

    assert found(Fraction(3, 8)) == []
    assert found(Fraction(3, 8) + STEP) == ["error"]


def let_in(kit, *shelves):  # type: ignore[no-untyped-def]
    joint = Joint("dado", width=inch(1), depth=inch("1/4"))
    side = kit.part("side", (0, "3/4"), (0, 12), (0, 80), axes="xyz", joints=(joint,))
    boards = (
        kit.part("shelf", x, (0, 12), (z, z + 1), axes="zyx", key=f"work/shelf-{n}")
        for n, (x, z) in enumerate(shelves)
    )
    return kit.severities("dadoes", kit.wall(side, *boards))


def test_wood_between_a_dado_and_the_end(kit) -> None:  # type: ignore[no-untyped-def]
    assert let_in(kit, (("1/2", 40), Fraction(3, 8))) == []
    assert let_in(kit, (("1/2", 40), Fraction(3, 8) - STEP)) == ["warning"]


def test_dadoes_back_to_back(kit) -> None:  # type: ignore[no-untyped-def]
    right, left, deeper = ("9/16", 40), (-40, "3/16"), (-40, "1/4")
    assert let_in(kit, (right, 30), (left, 30)) == []
    assert let_in(kit, (right, 30), (deeper, 30)) == ["warning"]
    # 3/8 and 3/16 leave 3/16 in; a 1/16 more does not.
    assert let_in(kit, (("3/8", 40), 30), (left, 30)) == ["warning"]
    assert let_in(kit, (("3/8", 40), 30), (deeper, 30)) == ["error"]
    assert let_in(kit, (right, 30), (deeper, 31)) == []
