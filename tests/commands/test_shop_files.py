"""The shop's files of an example wall: there, readable, the same bytes twice."""

from __future__ import annotations

from io import BytesIO

import pypdf
import pytest

from sheets.base.length import inch
from sheets.commands.shop_files import label_files, pattern_files, schedule_files
from sheets.model.wall import Wall
from tests.schedules.conftest import block, bookcase, make_wall
from tests.schedules.test_patterns import arched_rail


@pytest.fixture
def wall() -> Wall:
    return make_wall(*bookcase("left"), arched_rail(inch(60), inch(3), inch(8)))


def test_patterns_come_tiled_and_whole(wall: Wall) -> None:
    files, problems = pattern_files(wall, "tern")
    assert not problems
    assert [name for name, _ in files] == [
        "tern-patterns-tiled.pdf", "tern-patterns.pdf", "tern-patterns.dxf"]  # fmt: skip
    pages = {name: len(pypdf.PdfReader(BytesIO(data)).pages) for name, data in files if name.endswith(".pdf")}
    assert pages["tern-patterns.pdf"] == 1
    # 60 in of rail with 15 mm around it on letter paper turned sideways: 259.4 mm a tile, 12.7 mm shared.
    assert pages["tern-patterns-tiled.pdf"] >= 7 + 1
    assert pattern_files(wall, "tern") == (files, problems)


def test_a_wall_without_a_curve_has_no_pattern() -> None:
    assert pattern_files(make_wall(block("mantel/rail", size=("3/4", 4, 30))), "plain") == ((), ())


def test_a_grid_without_room_for_a_label_is_said() -> None:
    wall = make_wall(block("mantel/rail", size=("3/4", 4, 30)), labels={"gap": inch(10)})
    files, (problem,) = label_files(wall, "plain")
    assert files == ()
    assert (problem.severity, problem.path) == ("error", ("labels",))
    assert "leave 0.0 by 25.4 mm" in problem.message


def test_labels_and_schedules_are_the_same_bytes_twice(wall: Wall) -> None:
    assert label_files(wall, "tern") == label_files(wall, "tern")
    files, problems = schedule_files(wall, "xlsx")
    assert [name for name, _ in files] == ["schedules.xlsx"]
    assert (files, problems) == schedule_files(wall, "xlsx")
    text = pypdf.PdfReader(BytesIO(label_files(wall, "tern")[0][0][1])).pages[0].extract_text()
    assert "SHELF" in text
