"""From spec to findings: cures that cure, examples without a slip, materials that no table knows.

A spec that just passes and one that just fails, for every rule: tests/acceptance/edge_table.py. The units:
tests/acceptance/test_inches_or_millimetres.py.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from sheets.checks.finding import RuleReport
from sheets.checks.rules import run_checks
from sheets.pipeline import solve

SPECS = sorted((Path(__file__).resolve().parents[2] / "specs").glob("*.yaml"))

# One wall with the numbers that the cases below move; inches.
TEMPLATE = """\
project: {{title: Checks}}
units: inch
precision: 1/16
materials:
  oak: {{species: red oak}}
  ply: {{panel: veneer-core plywood, face: white oak, thickness: 23/32}}
  slate: {{masonry: slate}}
room: {{width: 240, ceiling: {{{ceiling}}}, doorway: {{width: {door}, height: 80}}, out_of_plumb: 1/4}}
fireplace:
  opening: {{width: 36, height: 24}}
  sill: {sill}
  appliance: {appliance}
  {listing}
surround: {{material: slate, width: 80, hearth: {{projection: {hearth}, thickness: 1-1/4}}}}
mantel:
  top: {mantel}
  breast: 5
  layers:
    cap: {{overhang: 1-1/2}}
    fascia: {{height: 6, saw_cuts: {{count: 1, width: 1/8, depth: {cut}}}}}
    sub_fascia: {{height: 2, setback: {setback}}}
  posts: {{width: {post}}}
  arch: {{rise: {arch}, rail: 6}}
cases:
  - name: books
    mirrored: true
    width: {width}
    height: {height}
    depth: {depth}
    scribe: {scribe}
    frame: {{}}
    plinth: {{}}
    shelves: {{count: {shelves}, thickness: {shelf}, joint: {{dado: {dado}}}, material: oak}}
    cap: {{overhang: 1-1/4}}
    backer: {{face: 5, gap: {gap}, tongue: {{length: {tongue}}}}}
    material: ply
"""
GOOD = {
    "ceiling": "height: 110",
    "door": "36",
    "sill": "9-1/4",
    "appliance": "masonry",
    "listing": "",
    "hearth": "20",
    "mantel": "62",
    "cut": "1/4",
    "setback": "3/8",
    "post": "7",
    "arch": "2",
    "width": "36",
    "height": "84",
    "depth": "13",
    "scribe": "1/2",
    "shelves": "5",
    "shelf": "1",
    "dado": "1/4",
    "gap": "1/16",
    "tongue": "1/4",
}


def report_of(tmp_path: Path, rule: str, **changed: str) -> RuleReport:
    """What one rule says of the template with some values changed."""
    path = tmp_path / "wall.yaml"
    path.write_text(TEMPLATE.format(**{**GOOD, **changed}), encoding="utf-8")
    solved = solve(path)
    assert solved.wall is not None, [each.message for each in solved.diagnostics]
    reports = run_checks(solved.wall, solved.source.place_of)
    report = next(report for report in reports if report.rule == rule)
    assert report.looked_at > 0
    return report


def test_cure_of_a_finding_cures_it(tmp_path: Path) -> None:
    (found,) = report_of(tmp_path, "shelf-sag", width="60").findings
    assert found.cure.startswith("would do at a span of")
    thick = found.cure.split(" or ")[1].split('"')[0]
    assert report_of(tmp_path, "shelf-sag", width="60", shelf=thick.replace(" ", "-")).findings == ()


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
