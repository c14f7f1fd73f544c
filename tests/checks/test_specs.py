"""From spec to findings: a spec that just passes and one that just fails, the units, the places in
the file.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from sheets.checks.finding import RuleReport
from sheets.checks.rules import run_checks
from sheets.pipeline import solve
from sheets.resolve.wall import resolve

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


def listed(above: str = "6", facing: str = "3") -> dict[str, str]:
    pairs = f"[{{projection: 6, above: {above}}}, {{projection: 9, above: 20}}]"
    return {
        "appliance": "listed electric",
        "listing": f"listing: {{mantel: {pairs}, facing: {{above: {facing}, beside: 3}}}}",
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


# Rule, severity, what just passes, what just fails: one step of the grid (1/16 in) or of the value's own
# apart. The opening
# is 36 by 24 (6.00 sq ft), its top at 33 1/4; the arched rail is 13 1/2 above it and 5 in front of the
# surround's face.
CASES = (
    ("hearth-extension", "error", {"hearth": "20"}, {"hearth": "19-15/16"}),  # IRC R1001.10
    (
        "masonry-clearance",
        "error",
        {"mantel": "60-9/16"},
        {"mantel": "60-1/2"},
    ),  # 5 in of projection at 12 1/16 and 12 in
    ("listed-clearance", "error", listed(above="13-1/2"), listed(above="13-9/16")),
    ("facing-extent", "error", listed(facing="13-1/2"), listed(facing="13-9/16")),
    # 1 in red oak 10 27/32 deep, 25 lb per ft, L/600: 384 E I / (5 w 600) = span^3 gives 46.6 in between
    # sides of 23/32.
    ("shelf-sag", "warning", {"width": "48"}, {"width": "48-1/16"}),
    ("board-movement", "error", {"gap": "3/64"}, {"gap": "1/32"}),  # 5 in x 0.00369 x 2 points = 0.037
    ("saw-cuts", "warning", {"cut": "3/8"}, {"cut": "7/16"}),
    ("dadoes", "error", {"dado": "5/16"}, {"dado": "3/8"}),
    ("stock-sizes", "error", {"height": "97-1/4"}, {"height": "97-5/16"}),  # sides of 96 in
    ("scribes", "warning", {"scribe": "1/4"}, {"scribe": "3/16"}),
    # Without its cap 82 3/4 high and 24 deep: 86.16 on the diagonal.
    (
        "moving-in",
        "warning",
        {"depth": "24", "ceiling": "height: 86-3/16"},
        {"depth": "24", "ceiling": "height: 86-1/8"},
    ),
    ("moving-in", "error", {"door": "13"}, {"door": "12-15/16"}),
    ("depth-order", "warning", {"setback": "1/8"}, {"setback": "1/16"}),
    # The ceiling rises 1 in 12, so 3 in 36; a quarter more is 3 3/4.
    (
        "arch-ratio",
        "note",
        {"arch": "3-3/4", "ceiling": "height: 110, vault: {spring: 90}"},
        {"arch": "3-13/16", "ceiling": "height: 110, vault: {spring: 90}"},
    ),
    (
        "opening-height",
        "note",
        {"sill": "32", "mantel": "80"},
        {"sill": "32-1/16", "mantel": "80"},
    ),  # middle at 44 in
    ("book-bays", "note", {"shelves": "5"}, {"shelves": "9"}),
    ("anchorage", "warning", {"width": "32"}, {"width": "31-15/16"}),  # two studs 16 in on centre
    # tan of half the arc's angle 1/4 at a rise of 36/2 x (sqrt 17 - 4) = 2.216 in.
    ("short-grain", "warning", {"arch": "2-3/16"}, {"arch": "2-1/4"}),
)


@pytest.mark.parametrize(
    ("rule", "severity", "good", "bad"), CASES, ids=lambda value: value if isinstance(value, str) else ""
)
def test_a_spec_that_just_passes_and_one_that_just_fails(tmp_path, rule, severity, good, bad) -> None:  # type: ignore[no-untyped-def]
    passing = [each.severity for each in report_of(tmp_path, rule, **good).findings]
    failing = [each for each in report_of(tmp_path, rule, **bad).findings if each.severity == severity]
    assert severity not in passing
    assert failing
    assert all(each.made_from.line > 1 for each in failing)


def test_cure_of_a_finding_cures_it(tmp_path: Path) -> None:
    (found,) = report_of(tmp_path, "shelf-sag", width="60").findings
    assert found.cure.startswith("would do at a span of")
    thick = found.cure.split(" or ")[1].split('"')[0]
    assert report_of(tmp_path, "shelf-sag", width="60", shelf=thick.replace(" ", "-")).findings == ()


@pytest.mark.parametrize(
    ("rule", "changed", "line"),
    [
        ("shelf-sag", {"width": "60"}, "    shelves: {count: 5, thickness: 1"),
        ("scribes", {"scribe": "1/8"}, "    scribe: 1/8"),
        ("board-movement", {"gap": "0"}, "    backer: {face: 5, gap: 0"),
        ("hearth-extension", {"hearth": "10"}, "surround: {material: slate"),
        ("listed-clearance", {"appliance": "listed gas"}, "fireplace:"),
        ("opening-height", {"sill": "33", "mantel": "80"}, "  sill: 33"),
        ("saw-cuts", {"cut": "1/2"}, "    fascia: {height: 6, saw_cuts: {count: 1, width: 1/8, depth: 1/2}}"),
    ],
)
def test_a_finding_points_at_the_line_to_change(tmp_path, rule, changed, line) -> None:  # type: ignore[no-untyped-def]
    found = report_of(tmp_path, rule, **changed).findings[0]
    lines = (tmp_path / "wall.yaml").read_text().splitlines()
    assert lines[found.made_from.line - 1].startswith(line)
    assert 1 <= found.made_from.column <= len(lines[found.made_from.line - 1])


@pytest.mark.parametrize("spec", SPECS, ids=lambda path: path.stem)
def test_the_same_wall_in_inches_and_in_millimetres(spec: Path) -> None:
    """Every length exact, the same in both; only what a bare number means and how lengths are shown
    differ.
    """
    solved = solve(spec)
    assert solved.spec is not None
    said = []
    for units, shown in (("inch", "feet-inches"), ("mm", "mm")):
        wall, _ = resolve(solved.spec.model_copy(update={"units": units, "dimensions": shown}), solved.source)
        assert wall is not None
        # Hidden blocking takes each trade's own sizes; what is asked of the wall that is seen is the same.
        said.append(
            sorted(
                (each.rule, each.severity, each.made_from.line)
                for report in run_checks(wall)
                for each in report.findings
                if each.rule not in ("weights", "masonry-clearance") or each.severity == "error"
            )
        )
    assert said[0]
    assert said[0] == said[1]


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
