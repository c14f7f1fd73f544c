"""The schedule of parts: alike parts in a row, mirrored assemblies together, hands apart, sizes exact."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.model.wall import Wall
from sheets.schedules.fields import Told
from sheets.schedules.parts import PARTS, parts_schedule, parts_table, shop_parts
from sheets.schedules.table import plain
from tests.schedules.conftest import make_wall


def test_alike_parts_share_a_row_and_hands_do_not(wall: Wall) -> None:
    schedule = parts_schedule(wall)
    by_mark = {row.mark: row for row in schedule.rows}
    assert by_mark["C2"].quantity == 6
    assert by_mark["C2"].keys[0] == "cases/flanking/left/shelf-1"
    assert by_mark["C1l"].quantity == by_mark["C1r"].quantity == 1
    # Plain blocks serve on either side, whatever case they stand in.
    assert by_mark["C1l"].title == by_mark["C1r"].title == "Side"
    assert [heading for _, heading in schedule.groups] == [
        "Flanking case, left and Flanking case, right",
        "Mantel",
    ]


def test_each_part_of_the_shop_is_in_one_row(wall: Wall) -> None:
    schedule = parts_schedule(wall)
    listed = [key for row in schedule.rows for key in row.keys]
    assert sorted(listed) == sorted(part.key for part in shop_parts(wall))
    assert "hearth/slab" not in listed
    assert sum(row.quantity for row in schedule.rows) == len(listed) == 11


def test_sizes_are_exact_and_the_table_says_them(wall: Wall) -> None:
    schedule = parts_schedule(wall)
    side = next(row for row in schedule.rows if row.mark == "C1l")
    assert (side.thickness, side.width, side.length) == (inch("23/32"), inch(12), inch(72))
    table = parts_table(schedule, Told(wall.notation))
    assert all(len(row) == len(table.columns) for row in table.rows)
    cells = next([plain(cell) for cell in row] for row in table.rows if plain(row[0]) == "C1l")
    assert cells[4] == '23/32" × 12" × 72"'
    assert cells[8] == '3 dado 1" × 1/4" deep, glue'


def test_what_a_part_is_milled_from(wall: Wall) -> None:
    rows = {row.mark: row for row in parts_schedule(wall).rows}
    stile = rows["C4"].rough
    # A 3/4 in part comes out of 4/4, which dresses to 13/16 (NHLA surfaced thickness).
    assert stile is not None
    assert stile.label == "4/4"
    assert stile.blank == (inch("3/4"), inch("7/4"), inch(73))
    shelf = rows["C2"].rough
    # 12 in is wider than an 8 in board with an edge to joint: two strips of 6 in.
    assert shelf is not None
    assert shelf.strips == 2
    assert "glue up of 2 strips" in rows["C2"].notes
    corbel = rows["M3"].rough
    # 3 1/2 in out of 8/4, which dresses to 1 3/4: two layers of 1 3/4.
    assert corbel is not None
    assert (corbel.layers, corbel.label, corbel.blank[0]) == (2, "8/4", inch("7/4"))


def test_sheets_are_told_when_they_are_known(wall: Wall) -> None:
    schedule, told = parts_schedule(wall), Told(wall.notation, {"C2": "Z-502", "M3": "Z-501"})
    said = {"C1l": "", "C1r": "", "C2": "Z-502", "C4": "", "M3": "Z-501"}
    on_paper = {row[0]: row[-1] for row in parts_table(schedule, told).rows if row[0]}
    in_files = {row[0]: row[-1] for row in PARTS.records(schedule.rows, told).rows}
    assert on_paper == in_files == said


def test_sums_of_volume_agree_with_the_model(wall: Wall) -> None:
    from sheets.geometry.solid import volume

    scheduled = sum(
        (row.quantity * row.thickness * row.width * row.length for row in parts_schedule(wall).rows),
        Fraction(0),
    )
    model = sum(volume(part.solid) for part in shop_parts(wall))
    assert abs(float(scheduled) - model) < 1.0  # mm3: these parts are plain blocks


@pytest.mark.parametrize("allowance", [0, "1/8", 6])
@pytest.mark.parametrize("units", ["inch", "mm"])
def test_any_allowance_leaves_a_board_to_cut(wall: Wall, allowance: str | int, units: str) -> None:
    parts = [part for part in wall.parts if part.maker == "shop"]
    odd = make_wall(*parts, units=units, stock={"rough_allowance": inch(allowance)})
    for row in parts_schedule(odd).rows:
        assert row.rough is not None
        assert row.rough.strips * row.rough.blank[1] >= row.width
        assert row.rough.kind == "panel" or row.rough.width >= row.rough.blank[1]
