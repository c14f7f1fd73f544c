"""Whatever wall is drawn from the language: it can be built, or it is said why not."""

from functools import partial

from hypothesis import HealthCheck, given, settings

from sheets.base.diagnostics import print_text
from sheets.geometry.solid import mirrored_x
from sheets.grammar.reader import read_spec_text
from sheets.model.marks import letter_of, marks_of
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.resolve.solve import resolve
from tests.property.strategies import Tree, bent_walls, walls, yaml_text
from tests.resolve.solids import disagreeing, loose, overlapping

few = settings(max_examples=40, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))


def assert_back_fits_its_rabbet(wall: Wall, side: Part) -> None:
    """The rabbet of a side is as wide as what fills it: back and rails one behind the other."""
    own = [p for p in wall.parts if p.assembly == side.assembly]
    back = [p for p in own if "back" in p.does.bounds]
    rabbets = [j for j in side.joints if j.kind == "rabbet" and not j.mate]
    assert len(rabbets) == bool(back)
    for rabbet in rabbets:
        rails = [p for p in own if p.role == "nailing rail"]
        # A panel of odd thickness leaves less than a step of the grid before the rail.
        over = {rabbet.width - p.extent.size("y") - back[0].extent.size("y") for p in rails}
        assert all(0 <= each < wall.grid for each in over)
        assert all(p.extent.y1 <= back[0].extent.y0 for p in rails)
        assert {p.extent.size("x") for p in rails} == {rails[0].extent.size("x")}
        shelves = [p for p in own if p.does.bears]
        assert all(p.extent.y0 == rabbet.width for p in shelves)


@few
@given(walls())
def test_a_drawn_wall_can_be_built(tree: Tree) -> None:
    spec, source, said = read_spec_text(yaml_text(tree))
    assert spec is not None, print_text(said)
    wall, found = resolve(spec, source)
    assert wall is not None, print_text(found)
    assert overlapping(wall.parts) == []
    assert loose(wall.parts) == []
    assert disagreeing(wall.parts) == []
    assert len({p.key for p in wall.parts}) == len(wall.parts)
    assert {p.assembly for p in wall.parts} <= {c.key for c in wall.components}
    for part in wall.parts:
        if part.twin:
            assert part.solid == mirrored_x(wall.part(part.twin).solid)
    for part in wall.parts:
        if part.name == "Side":
            assert_back_fits_its_rabbet(wall, part)
    for component in wall.components:
        if component.kind.name == "case":
            levels = sorted(s.at for s in wall.stations if s.owner == component.key and s.chain == "shelves")
            assert (levels[0], levels[-1]) == (0, component.facts["height"])


@few
@given(walls())
def test_marks_are_kept_and_never_used_twice(tree: Tree) -> None:
    spec, source, _ = read_spec_text(yaml_text(tree))
    assert spec is not None
    wall, _ = resolve(spec, source)
    assert wall is not None
    letter = partial(letter_of, wall)
    first = {p.key: p.mark for p in wall.parts if p.mark}
    assert marks_of(wall.parts, letter, first) == first
    # Half the parts go: the others keep their marks.
    kept = wall.parts[::2]
    assert marks_of(kept, letter, first) == {p.key: first[p.key] for p in kept if p.maker == "shop"}


@settings(few, max_examples=80)
@given(bent_walls())
def test_whatever_the_reader_accepts_is_built_or_refused_with_its_place(tree: Tree) -> None:
    spec, source, _ = read_spec_text(yaml_text(tree))
    if spec is None:
        return
    wall, said = resolve(spec, source)
    if wall is None:
        faults = [d for d in said if d.severity == "error"]
        assert faults
        assert all(d.place is not None and d.place.line > 0 for d in faults)
        return
    assert overlapping(wall.parts) == []
    assert loose(wall.parts) == []
    assert disagreeing(wall.parts) == []
