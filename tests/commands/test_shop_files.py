"""The shop's files of an example wall: there, readable, the same bytes twice."""

from __future__ import annotations

import csv
import json
from io import BytesIO
from pathlib import Path
from typing import Any

import pypdf
import pytest
from typer.testing import CliRunner

from sheets.base.length import inch
from sheets.cli import app
from sheets.commands.shop_files import label_files, pattern_files, schedule_files
from sheets.model.wall import Wall
from sheets.pipeline import solve
from sheets.schedules.all_schedules import shop_schedules
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


def test_labels_that_pass_the_paper_are_said() -> None:
    wall = make_wall(block("mantel/rail", size=("3/4", 4, 30)), labels={"gap": inch(10)})
    files, (problem,) = label_files(wall, "plain")
    assert files == ()
    assert (problem.severity, problem.path) == ("error", ("labels", "grid"))
    # 3 x 2 5/8 and 2 x 10 are 27 7/8 of 8 1/2 in: 19 3/8 over, half on each side, 246.06 mm.
    assert "by 246.1 mm" in problem.message


def test_labels_too_small_to_write_on_are_said() -> None:
    grid = {"width": inch("1/2"), "height": inch("1/4")}
    files, (problem,) = label_files(
        make_wall(block("mantel/rail", size=("3/4", 4, 30)), labels={"grid": grid}), "plain"
    )
    assert files == ()
    assert "a label of 12.7 by 6.3 mm" in problem.message


def test_labels_and_schedules_are_the_same_bytes_twice(wall: Wall) -> None:
    assert label_files(wall, "tern") == label_files(wall, "tern")
    files, problems = schedule_files(wall, shop_schedules(wall), "xlsx")
    assert [name for name, _ in files] == ["schedules.xlsx"]
    assert (files, problems) == schedule_files(wall, shop_schedules(wall), "xlsx")
    text = pypdf.PdfReader(BytesIO(label_files(wall, "tern")[0][0][1])).pages[0].extract_text()
    assert "SHELF" in text


SPEC = """\
project: {title: Two shelves, number: "4", date: 2026-05-04}
room: {width: 8', ceiling: {height: 8'}}
cases:
  - {name: one, at: centre, width: 36, height: 60, shelves: {count: 2}}
"""


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    path = tmp_path / "shelves.yaml"
    path.write_text(SPEC, encoding="utf-8")
    return path


def run(*words: str) -> Any:
    return CliRunner().invoke(app, list(words))


def rows_of(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_schedules_name_the_sheet_that_the_set_details_each_part_on(spec: Path, tmp_path: Path) -> None:
    assert run("draw", str(spec), "-o", str(tmp_path)).exit_code == 0
    assert run("schedule", str(spec), "-o", str(tmp_path)).exit_code == 0
    drawn, listed = tmp_path / "shelves" / "parts.csv", tmp_path / "shelves-schedules" / "parts.csv"
    assert listed.read_bytes() == drawn.read_bytes()
    assert all(row["sheets"].startswith("Z-") for row in rows_of(listed))


def test_a_folder_of_schedules_is_written_again_and_keeps_other_files(spec: Path, tmp_path: Path) -> None:
    folder = tmp_path / "shelves-schedules"
    assert run("schedule", str(spec), "-o", str(tmp_path)).exit_code == 0
    (folder / "prices.txt").write_text("mine")
    spec.write_text(spec.read_text().replace("width: 36", "width: 40"))
    assert run("schedule", str(spec), "-o", str(tmp_path), "--format", "json").exit_code == 0
    names = {path.name for path in folder.iterdir()}
    assert {"manifest.json", "prices.txt", "schedules.json", "schedules.schema.json", "parts.csv"} <= names
    listed = json.loads((folder / "manifest.json").read_text())
    assert {entry["name"] for entry in listed["files"]} == names - {"manifest.json", "prices.txt"}


def test_schedules_leave_what_is_not_theirs(spec: Path, tmp_path: Path) -> None:
    out, folder = tmp_path / "out", tmp_path / "out" / "shelves-schedules"
    folder.mkdir(parents=True)
    photo, note = folder / "photo.jpg", out / "note.txt"
    photo.write_bytes(b"of the site")
    note.write_text("mine")
    refused = run("schedule", str(spec), "-o", str(out))
    assert refused.exit_code == 2
    assert "holds files that are not a drawing set's" in refused.output
    assert [path.name for path in folder.iterdir()] == ["photo.jpg"]
    photo.rename(tmp_path / "photo.jpg")
    assert run("schedule", str(spec), "-o", str(out)).exit_code == 0
    (tmp_path / "photo.jpg").rename(photo)
    (folder / "parts.csv").write_text("mark,price\nC1,40\n")
    told = run("schedule", str(spec), "-o", str(out))
    assert told.exit_code == 0
    assert "is kept as parts.kept-1.csv" in told.output
    assert (folder / "parts.kept-1.csv").read_text() == "mark,price\nC1,40\n"
    assert photo.read_bytes() == b"of the site"
    assert note.read_text() == "mine"
    assert [path.name for path in out.iterdir() if path.name.startswith(".")] == []


def test_marks_are_those_of_the_issued_set(spec: Path, tmp_path: Path) -> None:
    assert run("revise", str(spec), "--number", "1").exit_code < 2
    # A cap comes before the plinth and the shelves in a fresh count, but those keep their marks.
    spec.write_text(spec.read_text().replace("shelves: {count: 2}", "shelves: {count: 2}, cap: {}"))
    assert run("revise", str(spec), "--number", "2").exit_code < 2
    assert run("draw", str(spec), "-o", str(tmp_path)).exit_code == 0
    assert run("schedule", str(spec), "-o", str(tmp_path)).exit_code == 0
    drawn = {row["name"]: row["mark"] for row in rows_of(tmp_path / "shelves" / "parts.csv")}
    listed = {row["name"]: row["mark"] for row in rows_of(tmp_path / "shelves-schedules" / "parts.csv")}
    assert listed == drawn
    counted = solve(spec).wall
    assert counted is not None
    assert {part.name: part.mark for part in counted.parts if part.mark} != drawn


def test_a_pdf_of_a_set_stands_for_its_spec(spec: Path, tmp_path: Path) -> None:
    assert run("draw", str(spec), "-o", str(tmp_path)).exit_code == 0
    for command, name in (("schedule", "parts.csv"), ("labels", "shelves-labels.pdf")):
        for path, where in ((spec, "a"), (tmp_path / "shelves" / "shelves.pdf", "b")):
            assert run(command, str(path), "-o", str(tmp_path / where)).exit_code == 0
        kind = {"schedule": "schedules", "labels": "labels"}[command]
        made = [(tmp_path / where / f"shelves-{kind}" / name).read_bytes() for where in "ab"]
        assert made[0] == made[1]


def test_columns_are_told_without_a_spec() -> None:
    told = run("schedule", "--columns")
    assert told.exit_code == 0
    assert "| thickness_mm | number | finished thickness, millimetres |" in told.output
    assert run("schedule").exit_code == 2
