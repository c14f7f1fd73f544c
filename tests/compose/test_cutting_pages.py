"""Cutting diagrams and labels on their sheets: every mark there, nothing outside, nothing over anything."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817

import pytest

from sheets.audit.audit import audit
from sheets.base.length import inch
from sheets.compose.ink import bounds, frame
from sheets.compose.pages.cutting_pages import _Block, _flowed, _heading, _in_turn, cutting_pages
from sheets.compose.pages.label_sheets import label_sheets
from sheets.compose.pages.page import Page
from sheets.drawing.items import DrawingSet, Sheet, Text
from sheets.drawing.walk import ungrouped
from sheets.geometry.box import Box
from sheets.model.wall import Wall
from sheets.schedules.all_schedules import all_diagrams, shop_schedules
from sheets.schedules.diagrams import Diagram, DiagramPiece
from tests.schedules.conftest import OAK, PLY, block, bookcase, make_wall

SPACE = Box(20.0, 20.0, 560.0, 400.0)


@pytest.fixture(scope="module")
def wall() -> Wall:
    more = [
        block(
            f"mantel/rail-{n}",
            size=("3/4", 2 + n % 5, 20 + 7 * n),
            material=OAK if n % 2 else PLY,
            mark=f"M{n}",
        )
        for n in range(1, 12)
    ]
    return make_wall(*bookcase("left"), *bookcase("right", "left"), *more)


def as_set(pages: tuple[Page, ...]) -> DrawingSet:
    sheets = tuple(Sheet(page.number, page.title, 594.0, 420.0, SPACE, page.items) for page in pages)
    return DrawingSet("A wall", "1", "", "", "inch", sheets)


def said(items: tuple[object, ...]) -> str:
    return " ".join(item.plain for item in ungrouped(items) if isinstance(item, Text))


@pytest.mark.parametrize("space", [SPACE, Box(20.0, 20.0, 380.0, 260.0)])
def test_every_mark_is_in_a_diagram_and_inside_the_frame(
    wall: Wall, space: Box
) -> None:
    pages = cutting_pages(all_diagrams(shop_schedules(wall)), space, "inch")
    assert [page.number for page in pages] == [f"Z-6{n:02d}" for n in range(1, 1 + len(pages))]
    text = " ".join(said(page.items) for page in pages)
    for part in wall.parts:
        assert part.mark in text, part.mark
    for page in pages:
        box = bounds(page.items)
        assert box[0] >= space[0] - 0.01
        assert box[1] >= space[1] - 0.01
        assert box[2] <= space[2] + 0.01
        assert box[3] <= space[3] + 0.01


def test_diagrams_pass_the_audit(wall: Wall) -> None:
    pages = cutting_pages(all_diagrams(shop_schedules(wall)), SPACE, "inch")
    assert not audit(as_set(pages))


def test_what_is_left_for_a_last_sheet_goes_where_the_one_before_has_room() -> None:
    def block_of(wide: float, tall: float) -> _Block:
        return _Block((frame(Box(0.0, -tall, wide, 0.0), "table border"),), wide, tall)

    # A column of a wide diagram and a narrow one fills 210 by 160; beside the narrow one 142 by 52 is free.
    first = [block_of(200.0, 100.0), block_of(60.0, 45.0)]
    assert len(_flowed([*first, block_of(100.0, 30.0)], Box(0.0, 0.0, 210.0, 160.0))) == 1
    assert len(_flowed([*first, block_of(160.0, 30.0)], Box(0.0, 0.0, 210.0, 160.0))) == 2


def test_the_heading_of_stock_that_goes_on_stays_in_the_space() -> None:
    heading = _heading("A STOCK WITH A LONG NAME THAT TAKES MORE ROOM THAN ITS BOARDS DO", "1:20", 60.0)
    board = _Block((), 60.0, 70.0)
    pages = _flowed([heading, board, board, board], Box(0.0, 0.0, 250.0, 80.0))
    assert all(bounds(items)[2] <= 250.0 for items in pages)


def test_a_column_is_as_wide_as_its_boards_whatever_the_stock_is_called() -> None:
    heading = _heading("VENEER-CORE PLYWOOD, WHITE OAK FACE, CLEAR", "1:20", 60.0)
    assert bounds(heading.items)[2] <= 60.0
    assert -heading.tall <= bounds(heading.items)[1]
    assert said(heading.items) == "VENEER-CORE PLYWOOD, WHITE OAK FACE, CLEAR SCALE 1:20"


def test_a_ripped_board_is_widened_so_that_every_lane_has_its_mark() -> None:
    lanes = [block(f"mantel/rail-{n}", size=("3/4", "3/2", 60), mark=f"M{n}") for n in range(1, 4)]
    (diagram,) = all_diagrams(shop_schedules(make_wall(*lanes)))
    # 8 ft at 1/2" = 1'-0" are 101.6 mm, at 3/4" they are too long; a lane of 2 in is then 2.1 mm.
    (page,) = cutting_pages((diagram,), Box(0.0, 0.0, 125.0, 80.0), "inch")
    text = [item.plain for item in ungrouped(page.items) if isinstance(item, Text)]
    assert "RIP INTO 3" in " ".join(text)
    assert "WIDTHS NOT TO SCALE" in " ".join(text)
    for mark in ("M1", "M2", "M3"):
        assert sum(line.split()[0] == mark for line in text if line) == 1
    assert not any(line.startswith("SMALL") for line in text)


def test_diagrams_grow_as_far_as_they_cost_no_sheet() -> None:
    wall = make_wall(block("mantel/rail", size=("3/4", 5, 60), mark="M1"))
    diagrams = all_diagrams(shop_schedules(wall))
    (page,) = cutting_pages(diagrams, Box(20.0, 20.0, 560.0, 400.0), "inch")
    # A board of 8 ft at 1 1/2" = 1'-0", an eighth: 304.8 mm.
    assert any("1 1/2\" = 1'-0\"" in item.plain for item in ungrouped(page.items) if isinstance(item, Text))
    many = diagrams * 24
    crowded = cutting_pages(many, Box(20.0, 20.0, 560.0, 400.0), "inch")
    assert len(crowded) == 1


def test_small_pieces_alike_are_counted_not_repeated() -> None:
    assert _in_turn(["C3", *["C2"] * 30, "C1", "C1"]) == "C3, C2 (30 TIMES), C1, C1"


def test_pieces_are_large_enough_for_their_marks_in_one_column_on_a_narrow_sheet() -> None:
    wide = DiagramPiece(F(0), F(0), F(800), F(150), "M3l strip")
    narrow = DiagramPiece(F(0), F(150), F(800), F(50), "M4 strip")
    board = Diagram("board", "OAK", F(2400), F(200), (wide, narrow))
    (page,) = cutting_pages((board, board), Box(0.0, 0.0, 170.0, 200.0), "mm")
    text = [item.plain for item in ungrouped(page.items) if isinstance(item, Text)]
    assert "OAK SCALE 1:20" in " ".join(text)
    assert text.count("M3l STRIP") == 2
    assert text.count("SMALL, FROM THE LEFT, TOP FIRST: M4 STRIP") == 2


def test_a_stock_that_goes_on_in_the_next_column_says_so() -> None:
    wall = make_wall(
        *[block(f"mantel/rail-{n}", size=("3/4", 5, 50 + n), mark=f"M{n}") for n in range(1, 40)]
    )
    pages = cutting_pages(all_diagrams(shop_schedules(wall)), Box(20.0, 20.0, 380.0, 120.0), "inch")
    assert len(pages) > 1
    assert all("(CONTINUED)" in said(page.items) for page in pages[1:])


def test_nothing_to_cut_makes_no_sheet() -> None:
    assert cutting_pages((), SPACE, "inch") == ()


def test_labels_say_what_a_piece_is_and_pass_the_audit(wall: Wall) -> None:
    shop = shop_schedules(wall)
    drawing, problems = label_sheets(wall, shop)
    assert not problems
    text = [said(sheet.items) for sheet in drawing.sheets]
    assert sum(page.count("SHELF") for page in text) == 6
    assert "FLANKING CASE, RIGHT" in " ".join(text)
    assert "SHOWS: FRONT, TOP" in text[0] + text[-1]
    assert not [d for d in audit(drawing) if d.kind != "sheet nearly empty"]


def test_labels_keep_to_their_grid(wall: Wall) -> None:
    crowded = make_wall(
        *wall.parts,
        labels={
            "grid": {"width": inch("7/4"), "height": inch("3/4"), "columns": 4, "rows": 12},
            "side_margin": inch("1/2"),
            "row_gap": inch("1/8"),
        },
    )
    drawing, _ = label_sheets(crowded, shop_schedules(crowded))
    for sheet in drawing.sheets:
        box = bounds(sheet.items)
        assert box[0] >= 12.7
        assert box[2] <= sheet.width - 12.7 + 0.01


def test_labels_are_named_by_size_and_count_and_stay_where_printers_reach(wall: Wall) -> None:
    a4 = make_wall(*wall.parts, units="mm", labels={"paper": "iso-a4"})
    drawing, problems = label_sheets(a4, shop_schedules(a4))
    assert not problems
    assert drawing.title.endswith("part labels 70x37-3x8")
    for sheet in drawing.sheets:
        # The labels reach the edge of the paper; a printer does not (common practice: 4 to 6 mm).
        box = bounds(sheet.items)
        assert box[0] >= 5.0
        assert box[2] <= 205.0
        assert box[3] <= 292.0


@pytest.mark.parametrize(
    ("grid", "code"),
    [
        ({"width": 107, "height": 37, "columns": 2, "rows": 8}, "labels-off-paper"),
        ({"width": 20, "height": 37, "columns": 2, "rows": 8}, "label-too-small"),
    ],
)
def test_labels_that_cannot_be_printed_are_refused(wall: Wall, grid: dict[str, int], code: str) -> None:
    a4 = make_wall(*wall.parts, units="mm", labels={"paper": "iso-a4", "grid": grid})
    drawing, problems = label_sheets(a4, shop_schedules(a4))
    assert not drawing.sheets
    assert [problem.code for problem in problems] == [code]
