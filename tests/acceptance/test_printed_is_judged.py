"""What notes, schedules and checks say of load, screws, studs and codes is one and the same value."""

from __future__ import annotations

import inspect
import re
import sys
from pathlib import Path
from typing import Any, get_args

import pytest
from pydantic import BaseModel

from sheets.annotate.general_notes import general_notes
from sheets.checks.finding import Finding
from sheets.checks.run import RULES, run_checks
from sheets.grammar.schema import Spec
from sheets.model.wall import Wall
from sheets.pipeline import solve
from sheets.schedules.hardware import hardware_rows
from tests.acceptance.edge_table import EDGES, Edge
from tests.acceptance.edits import base, changed

UNLIKE = """
project: {title: Unlike}
units: inch
dimensions: inches
codes: IRC 2018
materials:
  oak: {species: red oak}
  ply: {panel: veneer-core plywood, face: red oak}
room: {width: 160}
mantel: {top: 54, width: 62, layers: {cap: {}, fascia: {height: 7}}, material: oak}
cases:
  - {name: deep, at: left, width: 46, height: 80, depth: 19, shelves: {count: 4}, backer: {material: oak},
     plinth: {}, frame: {material: oak}, material: ply}
checks: {load: heavy books, stud_spacing: 12}
fasteners: {wall: lag screw, wall_diameter: 5/16, wall_length: 3-1/2, screws_per_stud: 3}
"""


def wall_of(tmp_path: Path, text: str) -> Wall:
    path = tmp_path / "wall.yaml"
    path.write_text(text, encoding="utf-8")
    solved = solve(path)
    assert solved.wall is not None, [each.message for each in solved.diagnostics]
    return solved.wall


def notes_of(wall: Wall) -> str:
    return " ".join(line for group in general_notes(wall) for line in group.lines)


def test_load_screws_and_studs_are_printed_as_they_were_judged(tmp_path: Path) -> None:
    wall = wall_of(tmp_path, UNLIKE)
    notes, reports = notes_of(wall), {report.rule: report for report in run_checks(wall)}
    # Heavy books, 35 lb a foot; on shelves 16 in deep and more two rows of them, 70 (shelf_loads.csv).
    assert "HEAVY BOOKS, 35 LB PER FOOT" in notes
    assert "2 ROWS, ONE BEHIND THE OTHER: 70 LB PER FOOT" in notes
    judged = [measure.subject for measure in reports["shelf-sag"].measures]
    assert any("70 lb per ft" in subject for subject in judged)
    assert not any("35 lb per ft" in subject for subject in judged)
    # The rail of 44 9/16 in, less 3/4 at each end, is sure of three studs at 12 in: three screws to each.
    rail = next(row for row in hardware_rows(wall) if row.use == "hanging rail to wall")
    assert rail.item == 'lag screw, 5/16" x 3 1/2"'
    assert (rail.quantity, rail.rule) == (9, '3 a stud, studs 12" on centre')
    assert "LAG SCREW, 5/16\" X 3 1/2\", 3 TO A STUD, STUDS 12\" ON CENTRE" in notes.upper()
    (row, *_) = reports["anchorage"].measures
    assert "3 sure studs" in row.value
    hung = [measure.value for measure in reports["hanging"].measures]
    cleat = next(row for row in hardware_rows(wall) if row.use == "wall cleat to wall")
    assert hung
    assert all(value.startswith(f"{cleat.quantity} sure screws") for value in hung)


@pytest.mark.parametrize("spacing", ["7-15/16", "24-1/16", "3 m"])
def test_studs_that_nobody_builds_are_refused(tmp_path: Path, spacing: str) -> None:
    path = tmp_path / "wall.yaml"
    path.write_text(UNLIKE.replace("stud_spacing: 12", f"stud_spacing: {spacing}"), encoding="utf-8")
    (fault,) = solve(path).diagnostics
    assert (fault.code, fault.severity) == ("stud-spacing", "error")
    assert "From 8\" to " in fault.help


def findings_of(tmp_path: Path, edge: Edge) -> tuple[Finding, ...]:
    text = changed(changed(base(edge.wall), edge.given), {edge.path: edge.fails})
    wall = wall_of(tmp_path, text)
    return tuple(found for report in run_checks(wall) for found in report.findings)


def words_of(annotation: Any, found: tuple[type[BaseModel], ...] = ()) -> tuple[type[BaseModel], ...]:
    """Every mapping of the language that a type holds."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel) and annotation not in found:
        found = (*found, annotation)
        for field in annotation.model_fields.values():
            found = words_of(field.annotation, found)
    for inner in get_args(annotation):
        found = words_of(inner, found)
    return found


KEYS = {name for words in words_of(Spec) for name in words.model_fields}


@pytest.mark.parametrize("edge", {(e.wall, e.rule): e for e in EDGES}.values(), ids=lambda edge: edge.name)
def test_what_a_finding_asks_to_change_is_a_word_of_the_spec(tmp_path: Path, edge: Edge) -> None:
    for found in findings_of(tmp_path, edge):
        path = found.made_from.path
        named = [step for before, step in zip(("", *path), path, strict=False) if before != "materials"]
        assert all(step in KEYS for step in named if isinstance(step, str)), (found.rule, path)


def test_no_cure_names_what_the_spec_cannot_say() -> None:
    """A key is said with its value, or in backticks."""
    sources = [inspect.getsource(sys.modules[rule.judge.__module__]) for rule in RULES]
    said = {word for source in sources for word in re.findall(r"`([a-z_]+)[:`]", source)}
    said |= {word for source in sources for word in re.findall(r"([a-z_]+): true under", source)}
    assert {"blocking", "given_load"} <= said <= KEYS
    assert not [source for source in sources if "edge strip" in source]
