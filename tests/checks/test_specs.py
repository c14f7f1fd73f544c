"""From spec to findings: cures that cure, examples without a slip, materials that no table knows.

A spec that just passes and one that just fails, for every rule: tests/acceptance/edge_table.py. The units:
tests/acceptance/test_inches_or_millimetres.py.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from sheets.checks.finding import RuleReport
from sheets.checks.run import run_checks
from sheets.pipeline import solve
from tests.acceptance.edits import base, changed

SPECS = sorted((Path(__file__).resolve().parents[2] / "specs").glob("*.yaml"))


def sag_of(tmp_path: Path, **shelves: str) -> RuleReport:
    """What the rule of sag says of a case 60 in wide, its shelves as given."""
    path = tmp_path / "wall.yaml"
    given = {f"cases.0.shelves.{key}": value for key, value in shelves.items()}
    path.write_text(changed(base("masonry"), {"cases.0.width": "60", **given}), encoding="utf-8")
    solved = solve(path)
    assert solved.wall is not None, [each.message for each in solved.diagnostics]
    reports = run_checks(solved.wall, solved.source.place_of)
    return next(report for report in reports if report.rule == "shelf-sag")


def test_cure_of_a_finding_cures_it(tmp_path: Path) -> None:
    (found,) = sag_of(tmp_path).findings
    assert found.cure.startswith("would do at a span of")
    thick = found.cure.split(" or ")[1].split('"')[0]
    assert sag_of(tmp_path, thickness=thick.replace(" ", "-")).findings == ()


@pytest.mark.parametrize("spec", SPECS, ids=lambda path: path.stem)
def test_no_example_collides_or_lacks_its_image(spec: Path) -> None:
    wall = solve(spec).wall
    assert wall is not None
    by_rule = {report.rule: report for report in run_checks(wall)}
    assert by_rule["collisions"].findings == ()
    assert not [each for each in by_rule["symmetry"].findings if each.severity != "note"]
    assert by_rule["collisions"].looked_at > 10


ODD = """\
project: {{title: Odd}}
units: {units}
materials:
  zebra: {{species: zebrawood}}
  board: {{panel: strange board}}
  stone: {{masonry: moon rock}}
room: {{width: 5000 mm, baseboard: {{material: zebra}}}}
fireplace: {{opening: {{width: 900 mm, height: 500 mm}}, sill: 0, appliance: masonry, frame: {{}}}}
surround: {{material: stone, width: 1800 mm}}
mantel: {{top: 1400 mm, layers: {{cap: {{}}, fascia: {{}}}}, posts: {{}}, material: zebra}}
cases:
  - name: one
    mirrored: {mirrored}
    width: 1200 mm
    height: 2000 mm
    bays: 2
    shelves: {{count: 2, thickness: {thick}, material: {wood}}}
    backer: {{direction: {way}, material: zebra}}
    material: {wood}
"""


@pytest.mark.parametrize("units", ["inch", "mm"])
@pytest.mark.parametrize("wood", ["zebra", "board"])
@pytest.mark.parametrize(("mirrored", "way"), [("true", "vertical"), ("false", "horizontal")])
def test_what_no_table_knows_is_said_and_stops_no_rule(tmp_path, units, wood, mirrored, way) -> None:  # type: ignore[no-untyped-def]
    path = tmp_path / "odd.yaml"
    thick = "23/32" if units == "inch" else "18"
    text = ODD.format(units=units, wood=wood, mirrored=mirrored, way=way, thick=thick)
    path.write_text(text, encoding="utf-8")
    solved = solve(path)
    assert solved.wall is not None, [each.message for each in solved.diagnostics]
    found = [each for report in run_checks(solved.wall, solved.source.place_of) for each in report.findings]
    assert any("zebrawood" in each.message for each in found)
    assert all(each.made_from.line > 0 for each in found)
