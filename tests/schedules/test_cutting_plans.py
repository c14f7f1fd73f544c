"""Cutting plans of whole walls: every part once, no overlap, none beyond its stock (by shapely)."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from math import ceil

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from sheets.base.length import MM_PER_FOOT, inch
from sheets.grammar.reader import read_spec_text
from sheets.model.part import Material, Part
from sheets.model.wall import Wall
from sheets.resolve.solve import resolve
from sheets.schedules.cutting_boards import BoardPlan, cut_boards
from sheets.schedules.cutting_panels import PanelPlan, cut_panels
from sheets.schedules.cutting_tables import panel_cutting_table
from sheets.schedules.fields import Told
from sheets.schedules.guillotine import Rectangle, lay_out
from sheets.schedules.lumber_list import lumber_table, lumber_take_off
from sheets.schedules.panel_list import panel_table, panel_take_off
from sheets.schedules.parts import shop_parts
from sheets.schedules.stock import rough_of
from sheets.schedules.table import plain
from tests.schedules.conftest import FIR, MDF, OAK, PLY, block, make_wall

UNTRIMMED = {"edge_trim": Fraction(0), "sheet_tolerance": Fraction(0)}
"""A shop that takes sheets as they are sold."""
SIXTEENTHS = st.integers(24, 1400)


def sixteenths(n: int) -> Fraction:
    return Fraction(n, 16)


def parts_of(sizes: list[tuple[int, int]], material: Material, thickness: str) -> list[Part]:
    return [
        block(
            f"cases/flanking/left/piece-{n}",
            size=(thickness, str(sixteenths(w)), str(sixteenths(length))),  # type: ignore[arg-type]
            material=material,
            mark=f"P{n}",
        )
        for n, (length, w) in enumerate(sizes, 1)
    ]


def check_boards(plan: BoardPlan, wall: Wall) -> None:
    stock = wall.settings.stock
    for board in plan.boards:
        boxes = []
        for piece in board.pieces:
            lane = board.width / board.lanes
            boxes.append(
                shapely.box(
                    float(piece.start),
                    float(piece.lane * lane),
                    float(piece.start + piece.length),
                    float(piece.lane * lane) + 1.0,
                )
            )
            assert piece.start >= stock.end_trim
            assert piece.start + piece.length <= board.length - stock.end_trim
        grown = [
            shapely.box(b.bounds[0], b.bounds[1], b.bounds[2] + float(stock.kerf) - 1e-6, b.bounds[3])
            for b in boxes
        ]
        total = sum(b.area for b in grown)
        assert abs(shapely.unary_union(grown).area - total) < 1e-3, (
            "pieces overlap, or leave no room for the saw"
        )
        widest = max(piece.width for piece in board.pieces)
        assert board.lanes * widest + (board.lanes - 1) * stock.kerf <= board.width


def check_sheets(plan: PanelPlan, wall: Wall) -> None:
    kerf = float(wall.settings.stock.kerf)
    around = shapely.box(0, 0, float(plan.length), float(plan.width))
    for sheet in plan.sheets:
        boxes = [
            shapely.box(float(p.x), float(p.y), float(p.x + p.along), float(p.y + p.across))
            for p in sheet.pieces
        ]
        assert all(around.covers(box) for box in boxes)
        grown = [
            shapely.box(*b.bounds[:2], b.bounds[2] + kerf - 1e-6, b.bounds[3] + kerf - 1e-6) for b in boxes
        ]
        assert abs(shapely.unary_union(grown).area - sum(b.area for b in grown)) < 1e-2
        assert guillotine(list(sheet.pieces), kerf)


def stated(plan, wall) -> None:  # type: ignore[no-untyped-def]
    """What a plan says of itself holds: its cost is what its boards cost, its bound is no less than what the
    material alone needs, and only a plan that costs no more than its bound is called proven.
    """
    stock = wall.settings.stock
    bought = [board.length for board in plan.boards]
    assert plan.cost == (sum(bought) if len(plan.lengths) > 1 else len(bought))
    run = sum(piece.length + stock.kerf for board in plan.boards for piece in board.pieces)
    # A board is charged by its length, gives that less both trims, and the last cut needs no kerf.
    best = max(plan.lengths)
    share = run / ((best - 2 * stock.end_trim + stock.kerf) * plan.lanes)
    assert plan.bound >= (share * best if len(plan.lengths) > 1 else share)
    gap = 100 * float(plan.cost / plan.bound - 1)
    said = "proven" if plan.cost == plan.bound else f"within {gap:.1f} % of the lower bound"
    assert plan.statement.split(": ")[1] == said


def guillotine(pieces: list, kerf: float) -> bool:  # type: ignore[type-arg]
    """Whether straight cuts from edge to edge take the pieces apart, tried both ways at every step."""
    if len(pieces) < 2:
        return True
    for low, size in (("x", "along"), ("y", "across")):
        ordered = sorted(pieces, key=lambda p: getattr(p, low))
        for n in range(1, len(ordered)):
            end = max(getattr(p, low) + getattr(p, size) for p in ordered[:n])
            if end + Fraction(kerf) <= getattr(ordered[n], low):
                return guillotine(ordered[:n], kerf) and guillotine(ordered[n:], kerf)
    return False


@settings(max_examples=25, deadline=None, derandomize=True)
@given(
    st.lists(st.tuples(SIXTEENTHS, st.integers(16, 200)), min_size=1, max_size=40),
    st.sampled_from([OAK, FIR]),
)
def test_boards_hold_each_blank_once(sizes: list[tuple[int, int]], material: Material) -> None:
    wall = make_wall(*parts_of(sizes, material, "3/4"))
    cutting = cut_boards(wall)
    assert not cutting.too_long
    cut = Counter(piece.key for plan in cutting.plans for board in plan.boards for piece in board.pieces)
    wanted = {part.key: rough_of(part, wall.settings.stock, "inch").pieces for part in wall.parts}  # type: ignore[union-attr]
    assert cut == wanted
    for plan in cutting.plans:
        check_boards(plan, wall)
        assert plan.bound <= plan.cost


@settings(max_examples=25, deadline=None, derandomize=True)
@given(
    st.lists(st.tuples(st.integers(80, 1536), st.integers(16, 768)), min_size=1, max_size=25),
    st.sampled_from([PLY, MDF]),
)
def test_sheets_hold_each_part_once(sizes: list[tuple[int, int]], material: Material) -> None:
    wall = make_wall(*parts_of(sizes, material, "3/4"), stock=UNTRIMMED)
    cutting = cut_panels(wall)
    assert not cutting.too_large
    cut = Counter(piece.key for plan in cutting.plans for sheet in plan.sheets for piece in sheet.pieces)
    assert cut == {part.key: 1 for part in wall.parts}
    for plan in cutting.plans:
        check_sheets(plan, wall)
        assert plan.bound <= len(plan.sheets)
        for sheet in plan.sheets:
            for piece in sheet.pieces:
                part = wall.part(piece.key)
                lying = (part.width, part.length) if piece.turned else (part.length, part.width)
                assert (piece.along, piece.across) == lying
                assert not (piece.turned and material is PLY), "the grain of plywood is kept"


def test_a_sheet_that_divides_evenly_is_used_up_but_for_the_kerf() -> None:
    # Four strips of 11 29/32 in with three kerfs of 1/8 in fill 48 in: 4 x 11.90625 + 3 x 0.125 = 48.
    wall = make_wall(
        *[
            block(f"cases/flanking/left/shelf-{n}", size=("3/4", "381/32", 96), material=PLY)
            for n in range(8)
        ],
        stock=UNTRIMMED,
    )
    (plan,) = cut_panels(wall).plans
    assert len(plan.sheets) == 2
    assert plan.proven


def test_what_a_sheet_gives_with_its_edges_trimmed() -> None:
    # 48 x 96, 1/16 short (PS 1: +0 -1/16), 1/8 off each edge: 47 11/16 x 95 11/16, from 1/8 in. Four strips
    # of 11 13/16 with three kerfs of 1/8 are 47 5/8; of 11 29/32 they are 48, and three go.
    for wide, sheets in (("189/16", 1), ("381/32", 2)):
        parts = [
            block(f"cases/a/shelf-{n}", size=("3/4", wide, "1531/16"), material=PLY) for n in range(4)
        ]
        wall = make_wall(*parts)
        (plan,) = cut_panels(wall).plans
        check_sheets(plan, wall)
        assert len(plan.sheets) == sheets
        pieces = [piece for sheet in plan.sheets for piece in sheet.pieces]
        assert min(piece.x for piece in pieces) == min(piece.y for piece in pieces) == inch("1/8")
        assert max(piece.x + piece.along for piece in pieces) <= inch("1533/16")
        assert max(piece.y + piece.across for piece in pieces) <= inch("765/16")


def test_ten_foot_boards_cut_by_hand() -> None:
    # From 120 in less 2 in at each end: three blanks of 38 in and two kerfs are 114 1/4; a fourth does not go
    # in. Ten parts of 37 in with an inch to spare need four boards of 10 ft.
    wall = make_wall(
        *[block(f"mantel/rail-{n}", size=("3/4", 5, 37), material=OAK) for n in range(10)],
        stock={"board_lengths": (10 * MM_PER_FOOT,)},
    )
    (plan,) = cut_boards(wall).plans
    assert len(plan.boards) == 4
    assert plan.proven
    assert plan.statement == "fewest boards for these blanks alone: proven"


def test_offcuts_are_what_is_left() -> None:
    wall = make_wall(block("mantel/rail", size=("3/4", 5, 37)), stock={"board_lengths": (8 * MM_PER_FOOT,)})
    (plan,) = cut_boards(wall).plans
    # 96 - 2 - 38 - 1/8 - 2 = 53 7/8
    assert plan.boards[0].offcuts == (inch("431/8"),)


def test_what_no_stock_holds_is_named() -> None:
    long, wide = (
        block("mantel/cap", size=("3/4", 5, 190)),
        block("mantel/panel", size=("3/4", 50, 60), material=PLY),
    )
    # Boards of 14 in give 10: less than a scarf of 6 in and its other half want.
    wall = make_wall(long, wide, stock={"board_lengths": (inch(14),)})
    assert cut_boards(wall).too_long == (long,)
    assert cut_panels(wall).too_large == (wide,)


def test_take_off_adds_up() -> None:
    wall = make_wall(
        *[block(f"mantel/rail-{n}", size=("3/4", "15/4", 47)) for n in range(4)],
        stock={"board_lengths": (10 * MM_PER_FOOT,), "waste": 25},
    )
    cutting = cut_boards(wall)
    take_off = lumber_take_off(wall, cutting.plans)
    (row,) = take_off.rows
    # Blanks 4 in x 48 in of 4/4: 4 x (1 x 4 x 4 / 12) = 5 1/3 board feet; a quarter more is 6 2/3.
    assert row.net == Fraction(16, 3)
    assert row.with_waste == Fraction(20, 3)
    # Two to a board, so two boards 6 in x 10 ft: surface measure 5 each.
    assert row.bought == ((2, 10 * MM_PER_FOOT),)
    assert row.tally == 10
    table = lumber_table(take_off, Told(wall.notation))
    assert all(len(cells) == len(table.columns) for cells in table.rows)


def test_metric_sets_count_sections_and_cubic_metres() -> None:
    wall = make_wall(
        block("mantel/rail", size=("100/127", "450/127", "9000/127")),
        units="mm",
        stock={"board_lengths": (Fraction(2400),)},
    )
    # EN 1313-2: oak 20 thick and 3 to plane is sawn 27.
    assert (wall.parts[0].thickness, wall.parts[0].width, wall.parts[0].length) == (20, 90, 1800)
    take_off = lumber_take_off(wall, cut_boards(wall).plans)
    (row,) = take_off.rows
    assert row.label == "27 × 100"
    assert row.tally == Fraction(27 * 100 * 2400, 10**9)


def test_panel_take_off() -> None:
    wall = make_wall(
        *[block(f"cases/flanking/left/side-{n}", size=("23/32", 12, 72), material=PLY) for n in range(4)]
    )
    rows = panel_take_off(cut_panels(wall).plans)
    assert [(row.label, row.sheets, row.pieces) for row in rows] == [("3/4", 2, 4)]
    # 4 x 1 ft x 6 ft = 24 sq ft of 64
    assert rows[0].used == Fraction(24, 64)
    assert len(panel_table(rows, Told(wall.notation)).rows) == 1


def test_a_wall_of_three_hundred_parts_is_cut_whole() -> None:
    parts = []
    for n in range(300):
        material = (OAK, PLY, FIR)[n % 3]
        size = (
            "3/4" if material is not PLY else "23/32",
            str(Fraction(24 + (n * 7) % 90, 16)),
            str(Fraction(160 + (n * 37) % 1100, 16)),
        )
        parts.append(block(f"cases/flanking/left/part-{n}", size=size, material=material, mark=f"P{n}"))  # type: ignore[arg-type]
    wall = make_wall(*parts)
    boards, panels = cut_boards(wall), cut_panels(wall)
    made = sum(len(b.pieces) for p in boards.plans for b in p.boards) + sum(
        len(s.pieces) for p in panels.plans for s in p.sheets
    )
    assert made == 300


def test_strips_alike_are_counted_in_the_table() -> None:
    parts = [
        block(f"cases/flanking/left/rail-{n}", size=("23/32", 3, 40), material=PLY, mark="C9")
        for n in range(10)
    ]
    wall = make_wall(*parts)
    table = panel_cutting_table(cut_panels(wall), wall.settings.stock, Told(wall.notation))
    assert plain(table.rows[0][3]) == '5 strips 3": 2 of C9 3" × 40"'


def test_three_hundred_panel_parts_of_as_many_sizes_come_near_what_their_area_needs() -> None:
    # The hardest of walls: nothing but panels, no two alike. The gap that is left is stated.
    sizes = [(160 + (n * 37) % 1100, 100 + (n * 7) % 500) for n in range(300)]
    wall = make_wall(*parts_of(sizes, PLY, "23/32"))
    (plan,) = cut_panels(wall).plans
    check_sheets(plan, wall)
    assert len(plan.sheets) <= plan.bound * 1.1
    # By area with a kerf on each side, over what a trimmed sheet gives: 48 and 96, less 5/16, and a kerf.
    needed = sum(Fraction(2 * a + 4, 32) * Fraction(2 * b + 4, 32) for a, b in sizes)
    least = ceil(needed / (Fraction(48 * 32 - 6, 32) * Fraction(96 * 32 - 6, 32)))
    assert plan.bound == least
    said = "fewest sheets: proven, by area" if len(plan.sheets) == least else f"at least {least} by area"
    assert plan.statement.endswith(said)


def test_narrow_pieces_are_ripped_side_by_side_out_of_one_crosscut() -> None:
    # By hand: a strip 24 in wide of a 48 in x 96 in sheet holds one 24 x 60; the 35 7/8 in left of it hold
    # three of 7 7/8 x 35 side by side (3 x 7 7/8 + 2 x 1/8 = 23 7/8). Two such strips fill the sheet's width
    # but for a kerf. One piece a crosscut would leave four of the six over.
    wide = [
        block(f"cases/flanking/left/panel-{n}", size=("3/4", Fraction(191, 8), 60), material=PLY, mark="A")  # type: ignore[arg-type]
        for n in range(2)
    ]
    narrow = [
        block(f"cases/flanking/left/rail-{n}", size=("3/4", Fraction(63, 8), 35), material=PLY, mark="B")  # type: ignore[arg-type]
        for n in range(6)
    ]
    wall = make_wall(*wide, *narrow, stock=UNTRIMMED)
    (plan,) = cut_panels(wall).plans
    assert len(plan.sheets) == 1
    check_sheets(plan, wall)


@settings(max_examples=20, deadline=None, derandomize=True)
@given(
    st.lists(
        st.tuples(st.sampled_from((240, 320, 480, 640, 960)), st.sampled_from((48, 64, 96, 160, 200, 380))),
        min_size=8,
        max_size=40,
    ),
    st.sampled_from([PLY, MDF]),
)
def test_layouts_of_sizes_that_invite_stacking_are_sound(
    sizes: list[tuple[int, int]], material: Material
) -> None:
    wall = make_wall(*parts_of(sizes, material, "3/4"))
    (plan,) = cut_panels(wall).plans
    check_sheets(plan, wall)
    cut = Counter(piece.key for sheet in plan.sheets for piece in sheet.pieces)
    assert cut == {part.key: 1 for part in wall.parts}
    assert plan.bound <= len(plan.sheets)
    area = sum(float(part.length * part.width) for part in wall.parts)
    assert len(plan.sheets) >= area / float(plan.length * plan.width)
    for sheet in plan.sheets:
        for along, across in sheet.offcuts:
            assert along > 0
            assert across > 0


def test_a_real_wall_of_three_hundred_parts_and_more_is_cut_whole() -> None:
    # Twelve cases of three widths and two heights, as an architect would write them.
    cases = "".join(
        f"  - {{name: c{n}, width: {36 + n % 3}, height: {84 + n % 2 * 2}, depth: {12 + n % 2}, "
        f"frame: {{stile: 2, rail: 3}}, plinth: {{height: 4}}, shelves: {{count: {5 + n % 3}}}, cap: {{}}, "
        f"backer: {{face: {4 + n % 2}}}}}\n"
        for n in range(12)
    )
    spec, source, _ = read_spec_text(
        f"project: {{title: A long wall}}\nroom: {{width: 40', ceiling: {{height: 9'}}}}\ncases:\n{cases}"
    )
    assert spec is not None
    wall, _ = resolve(spec, source)
    assert wall is not None
    assert len(shop_parts(wall)) > 300
    boards, sheets = cut_boards(wall), cut_panels(wall)
    for plan in boards.plans:
        check_boards(plan, wall)
        stated(plan, wall)
    for panel in sheets.plans:
        check_sheets(panel, wall)


def test_three_hundred_boards_of_as_many_lengths_state_their_gap() -> None:
    # No two boards alike, of forty widths: more ways to fill a board than are listed.
    parts = [
        block(
            f"cases/flanking/left/part-{n}",
            size=("3/4", str(Fraction(24 + (n * 13) % 40, 16)), str(Fraction(160 + (n * 67) % 1100, 16))),
            material=(OAK, OAK, FIR)[n % 3],
            mark=f"P{n}",
        )  # type: ignore[arg-type]
        for n in range(300)
    ]
    wall = make_wall(*parts)
    cutting = cut_boards(wall)
    cut = Counter(piece.key for plan in cutting.plans for board in plan.boards for piece in board.pieces)
    assert sum(cut.values()) == 300
    for plan in cutting.plans:
        check_boards(plan, wall)
        assert plan.cost <= plan.bound * Fraction(11, 10)
        stated(plan, wall)


@given(st.permutations(((24, 18), (60, 12))))
def test_of_two_ways_to_cut_a_sheet_the_one_that_leaves_most_in_one_piece(sizes) -> None:  # type: ignore[no-untyped-def]
    # By hand: 24 and 60 go one after the other into a rip of 18 (84 of 96), which leaves 30 of 48 whole; a
    # rip for each, 18 and 12 wide, leaves 18.
    (layout,) = lay_out(tuple(Rectangle(along, across, 1) for along, across in sizes), 96, 48)
    assert sum(strip.width for strip in layout.strips) == 18
