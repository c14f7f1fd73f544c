"""A component added as DEVELOPERS.md says is drawn, dimensioned, marked, scheduled, listed and judged.

The component is a plate rack: two ends, a shelf between them and a rail to screw to the wall. Its words, its
builder and the one line that registers it are all here; the package knows nothing of it.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import ClassVar, Literal

import pytest

from sheets.annotate.coverage import faces
from sheets.base.stopwatch import Stopwatch
from sheets.checks.finding import RuleReport
from sheets.checks.run import run_checks
from sheets.commands.one_set import Drawn, draw_solved
from sheets.drawing.items import Dimension, Viewport
from sheets.grammar.reader import read_spec_text
from sheets.grammar.schema import Spec
from sheets.grammar.values import Flag, Size, SomeText, Words, either
from sheets.model.kind import Kind, Rows
from sheets.model.part import Extent, Joint, Part
from sheets.model.purpose import Bears, DecidedBy, Purpose
from sheets.model.wall import Component, Cut, Wall
from sheets.pipeline import Solved
from sheets.resolve.built import NOTHING, Built, chain
from sheets.resolve.case import around
from sheets.resolve.components import COMPONENTS, Site
from sheets.resolve.gather import piece, settled
from sheets.resolve.solve import resolve
from sheets.schedules.hardware import hardware_rows
from sheets.views.make import make_views
from sheets.views.view import View
from tests.acceptance.test_fully_dimensioned import unmeasured

# Its words, as a file of grammar/ would hold them.


class Rack(Words):
    """A plate rack on the floor. left: from the left side wall to it. rail: whether there is one."""

    asked_for: ClassVar[str] = "a rack"
    made_of: ClassVar[Literal["", "wood", "masonry"]] = "wood"

    left: Size
    width: Size
    height: Size
    depth: Size = either("11-1/4", "285")
    shelf_at: Size
    thickness: Size = either("3/4", "19")
    rail: Flag = True
    material: SomeText


class Language(Spec):
    rack: Rack | None = None


# Its builder, as a file of resolve/ would hold it.

KEY = "rack"
RACK = Kind("rack", letter="R", arrives="stood up", rows=Rows())
DECIDED = DecidedBy(x=(KEY, "width"), y=(KEY, "depth"), z=(KEY, "height"), anchors=(KEY, "rail"))
ENDS = (f"{KEY}/end-left", f"{KEY}/end-right")
SCREWED = tuple(Joint("butt", mate=end, fastening="screw") for end in ENDS)


def rack(site: Site) -> Built:
    said = getattr(site.spec, KEY)
    if said is None:
        return NOTHING
    t, zero = said.thickness, Fraction(0)
    x0 = said.left - site.spec.room.width / 2
    x1, y1, z = x0 + said.width, said.depth, said.shelf_at
    parts = [
        _part(site, "end-left", "End", Extent(x0, x0 + t, zero, y1, zero, said.height), "xyz", _end()),
        _part(site, "end-right", "End", Extent(x1 - t, x1, zero, y1, zero, said.height), "xyz", _end()),
        _part(site, "shelf", "Shelf", Extent(x0 + t, x1 - t, zero, y1, z - t, z), "zyx", _shelf(), *SCREWED),
    ]
    if said.rail:
        low = said.height - 4 * t
        where = Extent(x0 + t, x1 - t, zero, t, low, said.height)
        parts.append(
            _part(site, "rail", "Wall rail", where, "yzx", Purpose(anchors=True), *SCREWED)
        )
    place = site.origin.made_from((KEY,))
    levels = sorted({zero, z - t, z, *(edge for part in parts for edge in part.extent.span("z"))})
    return Built(
        parts=settled(parts, DECIDED),
        components=(
            Component(KEY, RACK, "PLATE RACK", around(parts), made_from=place, decided_by=DECIDED),
        ),
        stations=(
            *chain("x", (x0, x1), "major", KEY, "width"),
            *chain("x", (x0, x0 + t, x1 - t, x1), "minor", KEY, "ends"),
            *chain("y", (zero, y1), "major", KEY, "depth"),
            *chain("z", (zero, said.height), "major", KEY, "height"),
            *chain("z", levels, "minor", KEY, "levels"),
        ),
        cuts=(Cut("section", "SECTION THROUGH RACK", KEY, "x", (x0 + x1) / 2, signature=KEY),),
    )


def _end() -> Purpose:
    return Purpose(bounds=("end",), lines=("upright",))


def _shelf() -> Purpose:
    return Purpose(Bears(ENDS), bounds=("floor",), lines=("level",))


def _part(site: Site, step: str, name: str, where: Extent, axes: str, does: Purpose, *joints: Joint) -> Part:
    return piece(
        step,
        name,
        name.lower(),
        KEY,
        site.materials[getattr(site.spec, KEY).material],
        where,
        axes,
        joints=joints,
        shows=("front",),
        made_from=site.origin.made_from((KEY,)),
        does=does,
        decided_by=DecidedBy(thickness=(KEY, "thickness")),
    )


# The one line that registers it.
WITH_RACK = (*COMPONENTS, rack)


def solved(rest: str = "", width: str = "37-1/2", height: str = "60") -> Solved:
    text = f"""
project: {{title: Plate rack}}
units: inch
dimensions: inches
materials:
  oak: {{species: red oak, finish: oil}}
room: {{width: 120, ceiling: {{height: 96}}, doorway: {{width: 32, height: 80}}}}
rack: {{left: 20, width: {width}, height: {height}, shelf_at: 34{rest}}}
"""
    spec, source, found = read_spec_text(text, "rack.yaml", Language)
    if spec is None:
        return Solved(source, None, None, found)
    wall, more = resolve(spec, source, WITH_RACK)
    return Solved(source, spec, wall, (*found, *source.placed(more)))


def wall_of(*said: str, **sizes: str) -> Wall:
    found = solved(*said, **sizes)
    assert found.wall is not None, found.diagnostics
    return found.wall


@pytest.fixture(scope="module")
def set_of(tmp_path_factory: pytest.TempPathFactory) -> tuple[Wall, tuple[View, ...], Drawn]:
    found = solved()
    assert found.wall is not None
    folder = tmp_path_factory.mktemp("rack")
    drawn = draw_solved(found, stem="rack", folder=folder, record=None, pictures=(), watch=Stopwatch())
    assert drawn.drawing is not None, drawn.diagnostics
    return found.wall, make_views(found.wall), drawn


def report(rule: str, wall: Wall) -> RuleReport:
    return next(each for each in run_checks(wall) if each.rule == rule)


def severities(rule: str, wall: Wall) -> list[str]:
    return [found.severity for found in report(rule, wall).findings]


def test_its_section_alone_is_a_spec_and_its_words_are_known(tmp_path: Path) -> None:
    (bad,) = solved(rest=", hight: 3").diagnostics
    assert bad.code == "unknown-key"
    assert "Did you mean height?" in bad.help
    none = read_spec_text("project: {title: None}\nroom: {width: 100}\n", "none.yaml", Language)
    assert "a rack" in none[2][0].help


def test_it_is_drawn(set_of: tuple[Wall, tuple[View, ...], Drawn]) -> None:
    wall, views, _ = set_of
    elevation = next(view for view in views if view.kind == "elevation")
    drawn = {trace.part for trace in elevation.lines}
    assert {"rack/end-left", "rack/end-right", "rack/shelf", "rack/rail"} <= drawn
    assert "section/rack" in [view.id for view in views]
    assert wall.component("rack").kind is RACK


def test_it_is_dimensioned_in_all_three_directions(set_of: tuple[Wall, tuple[View, ...], Drawn]) -> None:
    wall, views, drawn = set_of
    assert drawn.drawing is not None
    assert unmeasured(wall, views, drawn.drawing) == []
    assert all(len(list(faces(part))) == 6 for part in wall.parts if part.maker == "shop")
    said = {
        item.text.plain
        for sheet in drawn.drawing.sheets
        for viewport in sheet.items
        if isinstance(viewport, Viewport)
        for item in viewport.items
        if isinstance(item, Dimension)
    }
    assert {'37 1/2"', '60"', '11 1/4"'} <= said  # width, height, depth as written


def test_it_is_marked_scheduled_and_listed(set_of: tuple[Wall, tuple[View, ...], Drawn]) -> None:
    wall, _, drawn = set_of
    marks = {part.key: part.mark for part in wall.parts if part.maker == "shop"}
    assert marks == {
        "rack/end-left": "R1", "rack/end-right": "R1", "rack/rail": "R2", "rack/shelf": "R3",
    }  # fmt: skip
    listed = dict(drawn.files)["parts.csv"].decode("utf-8")
    assert all(f"R{n}" in listed for n in (1, 2, 3))
    # 36 in of rail cover two studs at 16 in wherever they stand; two screws a stud by default.
    (anchors,) = [row for row in hardware_rows(wall) if row.use == "wall rail to wall"]
    assert anchors.quantity == 4


@pytest.mark.parametrize(
    ("clear", "severity"),
    # The edges of tests/checks/test_sag.py, where the arithmetic stands: red oak, 3/4 by 11 1/4.
    [("561/16", []), ("562/16", ["warning"]), ("738/16", ["warning"]), ("739/16", ["error"])],
)
def test_its_shelf_is_judged_for_sag(clear: str, severity: list[str]) -> None:
    width = Fraction(clear) + Fraction(3, 2)
    wall = wall_of(width=f"{width.numerator}/{width.denominator}")
    assert severities("shelf-sag", wall) == severity
    assert {found.made_from.path for found in report("shelf-sag", wall).findings} <= {("rack", "thickness")}


def test_it_is_judged_for_anchorage_and_tipping() -> None:
    held, loose = wall_of(), wall_of(", rail: false")
    assert severities("anchorage", held) == []
    assert [found.made_from.path for found in report("anchorage", loose).findings] == [("rack", "rail")]
    # 35.6 lb (below), 11 1/4 in deep, 60 in high. The rail, 81 of 1397 cu in, lies 3/8 from the wall, all
    # else 5 5/8: the centre of gravity is 5.32 out, 5.93 behind the toe. 35.6 x 5.93 / 60 = 3.5 lb of pull.
    assert (severities("tipping", held), severities("tipping", loose)) == ([], ["warning"])
    tips = report("tipping", held).measures[0]
    assert (tips.value, tips.limit) == ("tips at 4 lb", "50 lb")


def test_it_is_judged_for_weight_stock_movement_and_fit() -> None:
    wall = wall_of()
    assert report("weights", wall).looked_at == 1
    # Red oak at 12 %: 0.63 x 1.12 x 62.4 = 44.0 lb per cubic foot (Wood Handbook table 5-3b). Two ends, a
    # shelf and a rail: (2 x 60 x 11.25 + 36 x 11.25 + 36 x 3) x 0.75 = 1397 cu in = 0.809 cu ft: 35.6 lb.
    (row,) = report("weights", wall).measures
    assert row.value == "36 lb"
    for rule in ("stock-sizes", "wide-pieces", "moving-in", "case-fit", "symmetry", "collisions"):
        assert report(rule, wall).looked_at > 0, rule
    assert severities("collisions", wall) == []
    # 13 ft of height do not stand under a ceiling of 8 ft: the finding asks for the height.
    high = report("case-fit", wall_of(height="156"))
    assert [found.made_from.path for found in high.findings] == [("rack", "height")]
