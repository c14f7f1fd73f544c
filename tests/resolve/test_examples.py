"""Every example that is shipped: buildable, symmetric, closed, and the same on every run."""

import subprocess
import sys
from dataclasses import fields, replace
from pathlib import Path

import pytest
from pydantic import BaseModel

from sheets.geometry.boundary import boundary
from sheets.geometry.solid import bounds, mirrored_x, moved
from sheets.grammar.reader import read_spec, read_spec_text
from sheets.model.wall import Wall
from sheets.resolve.solve import resolve
from tests.made_settings import SILENT
from tests.resolve.solids import disagreeing, loose, overlapping

SPECS = sorted((Path(__file__).parents[2] / "specs").glob("*.yaml"))


def solved(path: Path) -> Wall:
    spec, source, _ = read_spec(path)
    assert spec is not None
    wall, said = resolve(spec, source)
    assert wall is not None, said
    return wall


@pytest.fixture(scope="module", params=SPECS, ids=[p.stem for p in SPECS])
def wall(request: pytest.FixtureRequest) -> Wall:
    return solved(request.param)


def test_there_are_examples() -> None:
    assert len(SPECS) >= 4


def test_no_two_parts_share_space(wall: Wall) -> None:
    assert overlapping(wall.parts) == []


def test_the_solid_of_a_part_fills_its_extent(wall: Wall) -> None:
    assert disagreeing(wall.parts) == []


def test_nothing_floats(wall: Wall) -> None:
    assert loose(wall.parts) == []


def test_these_proofs_can_fail(wall: Wall) -> None:
    shop = next(p for p in wall.parts if p.maker == "shop")
    rest = tuple(p for p in wall.parts if p is not shop)
    pushed = replace(shop, solid=moved(shop.solid, dy=-3.0, dz=-3.0))
    lifted = replace(shop, solid=moved(shop.solid, dy=9000.0))
    assert overlapping((*rest, pushed))
    assert loose((*rest, lifted)) == [shop.key]


def test_extents_are_those_of_the_solids(wall: Wall) -> None:
    for part in wall.parts:
        e = part.extent
        exact = (e.x0, e.x1, e.y0, e.y1, e.z0, e.z1)
        assert bounds(part.solid) == pytest.approx([float(v) for v in exact], abs=1e-6), part.key
        assert boundary(part.solid)


def test_twins_are_exact_mirrors(wall: Wall) -> None:
    twins = [p for p in wall.parts if p.twin]
    for part in twins:
        original = wall.part(part.twin)
        assert part.solid == mirrored_x(original.solid)
        assert (part.extent.x0, part.extent.x1) == (-original.extent.x1, -original.extent.x0)
        assert {part.hand, original.hand} == {"left", "right"}
        assert [j.kind for j in part.joints] == [j.kind for j in original.joints]
    for component in wall.components:
        if component.twin:
            assert any(p.assembly == component.key and p.twin for p in wall.parts)


def test_mates_name_parts_that_are_there(wall: Wall) -> None:
    keys = {p.key for p in wall.parts}
    mates = {j.mate for p in wall.parts for j in p.joints if j.mate}
    assert mates <= keys
    assert len(keys) == len(wall.parts)
    assert {p.assembly for p in wall.parts} <= {c.key for c in wall.components}


def test_stations_and_features_belong_to_what_is_built(wall: Wall) -> None:
    owners = {c.key for c in wall.components}
    keys = {p.key for p in wall.parts}
    assert {s.owner for s in wall.stations} <= owners
    assert {c.owner for c in wall.cuts} <= owners
    for feature in wall.features:
        assert feature.owner in owners
        assert feature.subjects, feature.title
        assert set(feature.subjects) <= keys
        assert all(line == line.upper() for line in feature.says)


def test_one_section_a_case_one_plan_of_the_wall_the_mantel_box_and_the_panelling(wall: Wall) -> None:
    cases = [c for c in wall.components if c.kind.name == "case" and not c.twin]
    sections = [c for c in wall.cuts if c.kind == "section"]
    assert {c.key for c in cases} <= {c.owner for c in sections}
    ribs = [p for p in wall.parts if p.name == "Rib"]
    plans = [c for c in wall.cuts if c.kind == "plan"]
    panelled = any(c.kind.name == "overmantel" for c in wall.components)
    assert [c.owner for c in plans] == ["room", *["mantel"] * bool(ribs), *["overmantel"] * panelled]
    for cut in (c for c in plans if c.owner == "mantel"):
        assert all(p.extent.z0 < cut.at < p.extent.z1 for p in ribs)


def test_what_is_left_over_is_less_than_a_step_a_piece(wall: Wall) -> None:
    assert all(abs(one.amount) <= 20 * wall.grid for one in wall.leftovers)


def test_parts_know_the_line_they_come_from(wall: Wall) -> None:
    assert all(p.made_from.line > 0 for p in wall.parts if p.maker == "shop")


def same_values(said: BaseModel, made: object) -> None:
    assert [field.name for field in fields(made)] == list(type(said).model_fields)  # type: ignore[arg-type]
    for name in type(said).model_fields:
        one, other = getattr(said, name), getattr(made, name)
        if not isinstance(one, tuple):
            one, other = (one,), (other,)
        for a, b in zip(one, other, strict=True):
            same_values(a, b) if isinstance(a, BaseModel) else _same(a, b)


def _same(one: object, other: object) -> None:
    assert one == other


SET = """
codes: IRC 2018
checks:
  load: display
  given_load: {weight: 60, per: foot}
  sag: {aim: 500, most: 150}
  region: dry
  air: {driest: {humidity: 20, temperature: 18, degrees: C}, dampest: {humidity: 60, temperature: 75}}
  stud_spacing: 24
  blocking: true
  waivers: [{rule: bends, reason: steamed, by: RV, part: mantel}, {rule: stock, reason: in hand, by: RV}]
fasteners: {wall: lag bolt, wall_diameter: 5/16, wall_length: 4}
stock: {search: {steps: 7, seconds: 3}}
"""


@pytest.mark.parametrize("text", ["", SET], ids=["silent", "set"])
def test_every_value_that_is_set_reaches_the_wall(text: str) -> None:
    spec, source, _ = read_spec_text(SILENT.format("inch") + text)
    assert spec is not None
    wall, _ = resolve(spec, source)
    assert wall is not None
    codes = wall.settings.codes
    assert (codes.body, codes.edition) == (("IRC", "2018") if text else ("", ""))
    for section in fields(wall.settings):
        if section.name == "codes":  # one word of the spec, in its parts
            continue
        same_values(getattr(spec, section.name), getattr(wall.settings, section.name))


def test_the_same_on_every_run_whatever_the_hash_seed() -> None:
    program = (
        "import sys; from sheets.grammar.reader import read_spec; from sheets.resolve.solve import resolve;"
        "s, f, _ = read_spec(sys.argv[1]); w, _ = resolve(s, f);"
        "print([(p.key, p.mark, p.extent, p.solid, p.joints) for p in w.parts]);"
        "print(w.stations, w.features, w.cuts)"
    )
    said = {
        subprocess.run(
            [sys.executable, "-c", program, str(SPECS[0])],
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(Path(__file__).parents[2])},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(said) == 1
    assert len(said.pop()) > 1000
