"""All schedules of a wall: hardware by rule, labels, tables in order, what the plans could not do."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.model.part import Joint
from sheets.model.purpose import Purpose
from sheets.model.wall import Wall
from sheets.schedules.all_schedules import all_diagrams, all_tables, plan_findings, shop_schedules
from sheets.schedules.diagrams import board_diagrams, numbers_text
from sheets.schedules.hardware import hardware_rows
from sheets.schedules.labels import place_labels
from sheets.schedules.table import plain
from sheets.schedules.wall_screws import places_along
from tests.made_settings import settings
from tests.schedules.conftest import PLY, block, make_wall


@pytest.mark.parametrize(
    ("run", "spacing", "count"),
    [
        (24, 8, 4),  # at 0, 8, 16, 24
        (25, 8, 5),
        (3, 8, 2),  # never under two
    ],
)
def test_fasteners_along_a_joint(run: int, spacing: int, count: int) -> None:
    assert places_along(inch(run), inch(spacing)) == count


def test_hardware_says_its_rule_and_adds_up() -> None:
    screwed = Joint("butt", fastening="screw")
    dowels = Joint("dowel", count=4, fastening="glue")
    tongue = Joint("tongue", depth=inch("1/4"), fastening="nail")
    dado = Joint("dado", width=inch(1), depth=inch("1/4"), count=4, fastening="glue")
    board, anchor = Purpose(member="board"), Purpose(anchors=True)
    wall = make_wall(
        block("cases/flanking/left/plinth", size=("3/4", 5, 24), joints=(screwed,)),
        block("cases/flanking/left/rail-1", size=("3/4", 3, 30), joints=(dowels,)),
        block("cases/flanking/left/board-1", size=("11/16", 5, 64), does=board, joints=(tongue,)),
        block("cases/flanking/left/side-left", size=("23/32", 12, 72), material=PLY, joints=(dado,)),
        block("cases/flanking/left/hanging-rail", size=("3/4", 4, 48), does=anchor, at=(0, 0, 0)),
    )
    rows = {(row.item, row.use): row for row in hardware_rows(wall)}
    assert rows["wood screw", "plinth, butt"].quantity == 4
    assert rows["dowel", "frame joints"].quantity == 4
    assert rows["finish nail", "board, tongue"].quantity == 5  # 64 in at 16 in
    # Four dadoes across a side 12 in wide.
    assert rows["wood glue", "joints"].run == 4 * inch(12)
    anchor = next(row for row in rows.values() if row.use.endswith("to wall"))
    # This rail stands upright: 48 in at 16 in.
    assert anchor.quantity == 4
    assert all(row.rule for row in rows.values())


def test_a_dowel_that_two_parts_speak_of_is_one_dowel() -> None:
    # Two stiles, two rails, two dowels a corner: eight, though each rail says 4 and each stile says 4.
    dowels = (Joint("dowel", count=4, fastening="glue"),)
    stiles = [block(f"mantel/stile-{n}", size=("3/4", 2, 70), joints=dowels) for n in (1, 2)]
    rails = [
        replace(
            block(f"mantel/rail-{n}", size=("3/4", 30, 3), joints=dowels), length_axis="x", width_axis="z"
        )
        for n in (1, 2)
    ]
    rows = {row.item: row for row in hardware_rows(make_wall(*stiles, *rails))}
    assert rows["dowel"].quantity == 8


def test_spacing_is_settable() -> None:
    part = block("mantel/cleat", size=("3/4", 2, 24), joints=(Joint("butt", fastening="screw"),))
    (row,) = hardware_rows(make_wall(part, fasteners={"spacing": inch(4), "case": "trim screw"}))[:1]
    rows = {
        r.item: r
        for r in hardware_rows(make_wall(part, fasteners={"spacing": inch(4), "case": "trim screw"}))
    }
    assert rows["trim screw"].quantity == 7
    assert row.rule


def test_each_piece_has_one_label_on_the_grid(wall: Wall) -> None:
    labels = shop_schedules(wall).labels
    assert len(labels) == len({label.key for label in labels}) == 11
    assert [label.piece for label in labels if label.mark == "C2"] == [f"{n} of 6" for n in range(1, 7)]
    grid = {"width": inch("59/16"), "height": inch(3), "columns": 2, "rows": 3}
    six = {"grid": grid, "side_margin": inch("1/2"), "row_gap": inch("1/8")}
    places = place_labels(labels, settings(labels=six).labels, (215.9, 279.4))
    assert [place.page for place in places] == [1] * 6 + [2] * 5
    for place in places:
        assert place.x >= 12.7 - 1e-9
        assert place.x + place.width <= 215.9 - 12.7 + 1e-9
        assert place.y >= 12.7 - 1e-9
    first, second = places[0], places[1]
    assert second.x - (first.x + first.width) == pytest.approx(3.175)
    assert first.y - (places[2].y + places[2].height) == pytest.approx(3.175)


def test_tables_come_in_the_order_of_the_work(wall: Wall) -> None:
    tables = all_tables(shop_schedules(wall))
    assert [table.id for table in tables] == ["parts", "lumber", "panels", "boards", "sheets", "hardware"]
    for table in tables:
        assert all(len(row) == len(table.columns) for row in table.rows)


def test_diagrams_count_alike_boards_and_stay_inside(wall: Wall) -> None:
    shop = shop_schedules(wall)
    boards = board_diagrams(shop.boards.plans, shop.notation)
    cut = sum(len(plan.boards) for plan in shop.boards.plans)
    assert sum(len(diagram.numbers) for diagram in boards) == cut
    for diagram in all_diagrams(shop):
        for piece in diagram.pieces:
            assert piece.x >= 0
            assert piece.x + piece.width <= diagram.width
            assert piece.y + piece.height <= diagram.height
            assert piece.label


def test_a_number_names_one_board_of_a_stock() -> None:
    # Stiles ripped two to a board, rails one to a board: two plans of 4/4 white oak.
    parts = [block(f"mantel/stile-{n}", size=("3/4", 2, 90), mark="M1") for n in range(3)]
    parts += [block(f"mantel/rail-{n}", size=("3/4", 7, 90), mark="M2") for n in range(4)]
    shop = shop_schedules(make_wall(*parts))
    assert len(shop.boards.plans) == 2
    numbers = [board.number for plan in shop.boards.plans for board in plan.boards]
    assert numbers == list(range(1, len(numbers) + 1))
    shown = board_diagrams(shop.boards.plans, shop.notation)
    assert sorted(n for diagram in shown for n in diagram.numbers) == numbers
    assert "boards 1 to 4" in [diagram.count for diagram in shown]


@pytest.mark.parametrize(
    ("numbers", "text"), [((3,), "3"), ((5, 6), "5, 6"), ((4, 5, 6, 9, 1), "1, 4 to 6, 9")]
)
def test_numbers_in_short(numbers: tuple[int, ...], text: str) -> None:
    assert numbers_text(numbers) == text


def test_what_is_in_no_plan_is_said() -> None:
    large = block("mantel/side", size=("3/4", 12, 100), mark="M1", name="Side", material=PLY)
    tight = block("mantel/rail", size=("3/4", 5, Fraction(279, 2)), mark="M2", name="Rail")  # type: ignore[arg-type]
    shop = shop_schedules(make_wall(large, tight))
    found = {finding.code: finding for finding in plan_findings(shop)}
    assert found["not-in-a-plan"].message.startswith("M1 Side is larger than the sheet")
    assert found["no-allowance"].message.startswith("M2 Rail is cut to its finished length")
    sheets = next(table for table in all_tables(shop) if table.id == "sheets")
    assert [plain(cell) for cell in sheets.rows[-1]] == [
        "veneer-core plywood, white oak face", "", "", 'M1 Side 3/4" × 12" × 100"', "",
        "in no plan: larger than the sheet",
    ]  # fmt: skip
