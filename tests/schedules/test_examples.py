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
from sheets.schedules.export import export
from sheets.schedules.parts import PartRow, shop_parts
from sheets.schedules.shop import ShopSchedules, plan_findings, shop_schedules
from sheets.schedules.stock import rough_of
from tests.schedules.test_cutting_plans import check_boards, check_sheets

SPECS = sorted((Path(__file__).parents[2] / "specs").glob("*.yaml"))
CUBIC_INCH = 25.4**3

# What is cut out of a block of thickness x width x length, cubic inches, by hand from the sizes of the spec.
CUT_AWAY = {
    # Under an arc of chord 60 and rise 2: R = (30^2 + 2^2) / 4 = 226, segment 80.0711 sq in, 3/4 thick.
    "Arched rail": 80.0711 * 0.75,
    # Beside an arc of chord 11 and rise 5/8 (R 24.5125, segment 4.5952 sq in), over a width of 7.
    "Corbel": (11 * 0.625 - 4.5952) * 7,
    # A return 3 1/2 wide stands 1 1/2 out and 3 behind the front: it takes 2 x 3 off each corner.
    "Mantel cap board": 2 * (2 * 3) * 1.25,
    # Two mitres across 3 1/2 of width; one on a return.
    "Mantel cap front": 2 * 3.5**2 / 2 * 1.25,
    "Mantel cap return": 3.5**2 / 2 * 1.25,
    # Mitres through 3/4 of thickness over 6 3/4 and 2 1/4; saw cuts 1/8 x 1/4 as long as the face is.
    "Fascia": 2 * 0.75**2 / 2 * 6.75 + 2 * (0.125 * 0.25) * (88 - 0.25),
    "Fascia return": 0.75**2 / 2 * 6.75 + 2 * (0.125 * 0.25) * (5 - 0.125),
    "Sub-fascia": 2 * 0.75**2 / 2 * 2.25,
    "Sub-fascia return": 0.75**2 / 2 * 2.25,
    # Bottom and top 23/32 wide over the whole depth, four shelves 1 x 10 27/32, a groove of 11/16 between top
    # and bottom, 70 1/32: all 1/4 deep.
    "Side": 0.25 * (2 * 23 / 32 * 12.25 + 4 * 10.84375 + 11 / 16 * 70.03125),
    # A mitre across 3 1/4 and a saw cut along the front; its mean length there is 1/8 less than the edge.
    "Cap front": 3.25**2 / 2 * 1.25 + 0.125 * 0.25 * (43.25 - 0.125),
    "Cap return": 3.25**2 / 2 * 1.25 + 0.125 * 0.25 * (14.25 - 0.125),
}


@pytest.fixture(scope="module", params=SPECS, ids=[path.stem for path in SPECS])
def made(request: pytest.FixtureRequest) -> tuple[Wall, ShopSchedules]:
    wall = solve(request.param).wall
    assert wall is not None
    return wall, shop_schedules(wall)


@pytest.fixture(scope="module")
def fireplace() -> tuple[Wall, ShopSchedules]:
    wall = solve(next(path for path in SPECS if path.stem == "fireplace-wall")).wall
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
        cut = CUT_AWAY.get(row.name, 0.0)
        if row.name.startswith("Backer board"):
            cut = _backer_cut(row)
        solids = [volume(wall.part(key).solid) / CUBIC_INCH for key in row.keys]
        assert solids == pytest.approx([block(row) - cut] * row.quantity, abs=2e-3), row.title
        total += row.quantity * (block(row) - cut)
    model = sum(volume(part.solid) for part in shop_parts(wall)) / CUBIC_INCH
    assert total == pytest.approx(model, rel=1e-5)


def _backer_cut(row: PartRow) -> float:
    """Of a board 11/16 thick: at a tongue 1/4 x 1/4 the rest of the edge beside it, at a groove 1/4 x 1/4; at
    both half a V of 1/4 x 1/8 less half the gap of 1/16.
    """
    half_v = (1 / 8 - 1 / 32) * 1 / 8 / 2
    cut = {"tongue": (11 / 16 - 1 / 4) * 1 / 4 + half_v, "groove": 1 / 4 * 1 / 4 + half_v}
    return float(row.length) / 25.4 * sum(cut[joint.kind] for joint in row.joints)


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


def test_faces_of_the_fireplace_wall_as_read_off_its_elevation(
    fireplace: tuple[Wall, ShopSchedules],
) -> None:
    rows = {row.title: row.shows for row in fireplace[1].parts.rows}
    # Only the case side beside the breast is seen from outside; the one at the wall is behind the scribe.
    assert rows["Side, left hand"] == ("inside", "left on 1")
    assert rows["Side, right hand"] == ("inside", "right on 1")
    assert rows["Arched rail"] == ("front", "bottom")
    assert rows["Mantel cap return"] == ("top", "bottom", "left or right")
    assert rows["Shelf"] == ("top", "bottom", "front")
    assert rows["Rib"] == ()


def test_the_deeper_case_shows_its_sides() -> None:
    wall = solve(next(path for path in SPECS if path.stem == "library-wall")).wall
    assert wall is not None
    rows = [row for row in shop_schedules(wall).parts.rows if row.name == "Side"]
    # 380 mm deep and 2440 high between cases of 300 and 2300.
    shows = {(row.group, row.hand): row.shows for row in rows}
    assert shows["cases/middle", "left"] == ("inside", "left")
    assert shows["cases/middle", "right"] == ("inside", "right")
    assert shows["cases/outer/left", "left"] == ("inside",)


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
