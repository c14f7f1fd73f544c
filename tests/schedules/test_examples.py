"""Schedules of the example specs: volumes by plain arithmetic, every part in one row and one plan, hands and
faces as a joiner reads them off the drawing.
"""

from __future__ import annotations

import json
from collections import Counter
from io import BytesIO
from pathlib import Path

import jsonschema
import openpyxl
import pytest

from sheets.geometry.solid import volume
from sheets.model.marks import is_own_mirror
from sheets.model.wall import Wall
from sheets.pipeline import solve
from sheets.schedules.all_schedules import ShopSchedules, plan_findings, shop_schedules
from sheets.schedules.export import export
from sheets.schedules.parts import PartRow, shop_parts
from sheets.schedules.stock import rough_of
from tests.schedules.test_cutting_plans import check_boards, check_sheets

SPECS = sorted((Path(__file__).parents[2] / "specs").glob("*.yaml"))
CUBIC_INCH = 25.4**3

# What is cut out of a block of thickness x width x length, cubic inches, by hand from the sizes of the spec.
CUT_AWAY = {
    # Under an arc of chord 58 and rise 3 1/2: R = (29^2 + 3.5^2) / 7 = 121.8929, half angle asin(29 / R) =
    # 0.240217, segment R^2 x 0.240217 - 29 x (R - 3.5) = 135.727 sq in; 1 thick.
    ("mantel", "Arched rail"): 135.727,
    # Beside an arc of chord 13 and rise 3/4 (R 28.5417, segment 6.5172 sq in), over a width of 4 1/2.
    ("mantel", "Corbel"): (13 * 0.75 - 6.5172) * 4.5,
    # A return 4 wide stands 2 out of the breast and 1/2 of setback: it takes 2 1/2 off the left end, from the
    # front of the case of charts, 11 1/2, to the back of the cap's front, 22 3/4.
    ("mantel", "Mantel cap board"): 2.5 * (22.75 - 11.5) * 1.75,
    # Mitres through 3/4 of thickness over a post of 45 3/4: on the face two, on a side one.
    ("mantel", "Post face"): 2 * 0.75**2 / 2 * 45.75,
    ("mantel", "Post side"): 0.75**2 / 2 * 45.75,
    # Grooves as wide as a panel, 3/8, and as deep as it is let in and moves, 1/2; beside a tenon of 3/8 x 1/2
    # the other 3/8 of the thickness.
    ("overmantel", "Stile"): 42 * 3 / 8 * 1 / 2,
    ("overmantel", "Bottom rail"): 64 * 3 / 8 * 1 / 2 + 2 * 4.5 * 3 / 8 * 1 / 2,
    ("overmantel", "Top rail"): 64 * 3 / 8 * 1 / 2 + 2 * 4.5 * 3 / 8 * 1 / 2,
    ("overmantel", "Mullion"): 2 * 34 * 3 / 8 * 1 / 2 + 2 * 3 * 3 / 8 * 1 / 2,
    # A divider 3/4 thick is let 1/4 into bottom and top; it runs from the backer, 1 3/8 from the wall, to the
    # frame. Shelves 1 thick are let 3/16 into it from both sides, so that 3/8 of it is left between them.
    ("charts", "Bottom"): 1 / 4 * 3 / 4 * 9.375,
    ("charts", "Top"): 1 / 4 * 3 / 4 * 9.375,
    ("charts", "Divider"): 10 * 3 / 16 * 9.375,
    ("parcels", "Bottom"): 2 * 1 / 4 * 3 / 4 * 16.875,
    ("parcels", "Top"): 2 * 1 / 4 * 3 / 4 * 16.875,
    ("parcels", "Divider"): 2 * 3 / 16 * 16.875,
    # Bottom and top over the whole depth, the shelves, and up all the rest of its 87 or 33 1/2 the rabbet of
    # rail and boards, 3/4 + 5/8: all 1/4 deep; and in front of the plinth, set back 1 and on whole
    # halves up to the bottom at 9 1/4, the corner.
    ("charts", "Side"): 1 / 4 * (2 * 3 / 4 * 10.75 + 5 * 9.375 + 11 / 8 * 85.5) + 1 * 9 * 3 / 4,
    ("parcels", "Side"): 1 / 4 * (2 * 3 / 4 * 18.25 + 1 * 16.875 + 11 / 8 * 32) + 1 * 9 * 3 / 4,
    # A mitre across 2 3/4 at the end that is free.
    ("charts", "Cap front"): 2.75**2 / 2 * 1,
    ("charts", "Cap return"): 2.75**2 / 2 * 1,
}


@pytest.fixture(scope="module", params=SPECS, ids=[path.stem for path in SPECS])
def made(request: pytest.FixtureRequest) -> tuple[Wall, ShopSchedules]:
    wall = solve(request.param).wall
    assert wall is not None
    return wall, shop_schedules(wall)


@pytest.fixture(scope="module")
def fireplace() -> tuple[Wall, ShopSchedules]:
    wall = solve(next(path for path in SPECS if path.stem == "ferry-landing")).wall
    assert wall is not None
    return wall, shop_schedules(wall)


def block(row: PartRow) -> float:
    return float(row.thickness * row.width * row.length) / CUBIC_INCH


def test_there_are_examples() -> None:
    assert len(SPECS) >= 4


def test_volumes_by_arithmetic_are_those_of_the_model(fireplace: tuple[Wall, ShopSchedules]) -> None:
    wall, shop = fireplace
    total = 0.0
    for row in shop.parts.rows:
        if wall.part(row.keys[0]).bend is not None:
            continue  # as it lies flat it is not what it is when bent
        cut = CUT_AWAY.get((row.group.split("/")[-1], row.name), 0.0)
        if row.name.startswith("Backer board"):
            cut = _backer_cut(row)
        solids = [volume(wall.part(key).solid) / CUBIC_INCH for key in row.keys]
        assert solids == pytest.approx([block(row) - cut] * row.quantity, abs=2e-3), row.title
        total += row.quantity * (block(row) - cut)
    model = sum(volume(part.solid) for part in shop_parts(wall) if part.bend is None) / CUBIC_INCH
    assert total == pytest.approx(model, rel=1e-5)


def _backer_cut(row: PartRow) -> float:
    """Of a board 5/8 thick: at a tongue 1/4 x 1/4 the rest of the edge beside it, at a groove 1/4 x 1/4; at
    both half a V of 1/4 x 1/8 less half the gap of 1/16. The last one's groove is open at the back: the 1/2
    that is left at the V, less 1/4, leaves a cheek of 1/8 there, which is gone.
    """
    half_v = (1 / 8 - 1 / 32) * 1 / 8 / 2
    cut = {"tongue": (5 / 8 - 1 / 4) * 1 / 4 + half_v, "groove": 1 / 4 * 1 / 4 + half_v}
    kinds = [joint.kind for joint in row.joints if joint.kind in cut]
    cheek = 1 / 4 * 1 / 8 if kinds == ["groove"] else 0.0
    return float(row.length) / 25.4 * (sum(cut[kind] for kind in kinds) + cheek)


def test_every_part_is_in_one_row_and_in_one_plan(made: tuple[Wall, ShopSchedules]) -> None:
    wall, shop = made
    parts = shop_parts(wall)
    rows = Counter(key for row in shop.parts.rows for key in row.keys)
    assert rows == Counter(part.key for part in parts)
    boards = Counter(p.key for plan in shop.boards.plans for board in plan.boards for p in board.pieces)
    sheets = Counter(p.key for plan in shop.panels.plans for sheet in plan.sheets for p in sheet.pieces)
    for part in parts:
        rough = rough_of(part, shop.settings.stock, wall.units)
        assert rough is not None
        assert (boards[part.key], sheets[part.key]) == (
            (0, rough.pieces) if rough.kind == "panel" else (rough.pieces, 0)
        )
    for board_plan in shop.boards.plans:
        check_boards(board_plan, wall)
    for sheet_plan in shop.panels.plans:
        check_sheets(sheet_plan, wall)
    assert not [found for found in plan_findings(shop) if found.code == "not-in-a-plan"]
    assert all(plan.proven for plan in shop.boards.plans)


def test_no_solid_is_larger_than_its_row_says(made: tuple[Wall, ShopSchedules]) -> None:
    wall, shop = made
    for row in shop.parts.rows:
        for key in row.keys:
            part = wall.part(key)
            assert (part.thickness, part.width, part.length) == (row.thickness, row.width, row.length)
            if part.bend is None:
                assert 0 < volume(part.solid) / CUBIC_INCH <= block(row) * (1 + 1e-9)


def test_hands_are_told_where_a_piece_does_not_serve_on_both_sides(made: tuple[Wall, ShopSchedules]) -> None:
    wall, shop = made
    for row in shop.parts.rows:
        own = is_own_mirror(wall.part(row.keys[0]))
        assert bool(row.hand) != own, row.title
        if row.name == "Side":
            assert {key.rsplit("-", 1)[1] for key in row.keys} == {row.hand}


def test_faces_of_the_ferry_landing_as_read_off_its_elevation(
    fireplace: tuple[Wall, ShopSchedules],
) -> None:
    rows = {(row.group.split("/")[-1], row.title): row.shows for row in fireplace[1].parts.rows}
    # The side of the charts' case at the wall is behind the scribe; the other is seen above the mantel.
    assert rows["charts", "Side, left hand"] == ("inside",)
    assert rows["charts", "Side, right hand"] == ("inside", "right")
    assert rows["parcels", "Side, right hand"] == ("inside",)
    assert rows["mantel", "Arched rail"] == ("front", "bottom")
    assert rows["overmantel", "Panel"] == ("front",)
    assert rows["parcels", "Shelf"] == ("top", "bottom", "front")
    assert rows["mantel", "Rib"] == ()


def test_the_deeper_case_and_the_higher_one_show_their_sides() -> None:
    wall = solve(next(path for path in SPECS if path.stem == "cider-house")).wall
    assert wall is not None
    rows = [row for row in shop_schedules(wall).parts.rows if row.name == "Side"]
    # From the left wall: 440 mm deep and 960 high, 440 and 1500, 260 and 2150.
    shows = {(row.group, row.hand): row.shows for row in rows}
    assert shows["cases/tasting", "left"] == ("inside", "left")
    assert shows["cases/tasting", "right"] == ("inside", "right")
    assert shows["cases/crates/left", "left"] == ("inside",)


def test_files_of_the_examples_hold_the_same_rows(made: tuple[Wall, ShopSchedules]) -> None:
    wall, shop = made
    (_, text), (_, schema) = export(wall, shop, "json")
    said = json.loads(text)
    jsonschema.validate(said, json.loads(schema))
    ((_, data),) = export(wall, shop, "xlsx")
    book = openpyxl.load_workbook(BytesIO(data))
    csv = dict(export(wall, shop, "csv"))
    for name, records in said["schedules"].items():
        sheet = book[name]
        assert sheet.max_row - 1 == len(records) == csv[f"{name}.csv"].count(b"\r\n") - 1
        heads = [str(cell.value).replace(" ", "_") for cell in sheet[1]]
        for cells, record in zip(sheet.iter_rows(min_row=2), records, strict=True):
            assert [cell.value if cell.value is not None else "" for cell in cells] == [
                record[head] for head in heads
            ]
    assert sum(row["quantity"] for row in said["schedules"]["parts"]) == len(shop_parts(wall))
