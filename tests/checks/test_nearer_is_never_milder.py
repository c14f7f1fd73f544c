"""Moving or growing a piece that burns towards the fire never makes a finding milder, nor lets it vanish.

Over random openings, pieces, codes and manuals, and over all clearance rules that measure a distance.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.checks.run import run_checks
from sheets.geometry.region import polygon
from sheets.geometry.solid import Solid, box, extrude
from sheets.model.fire import Chimney, ListingRow, MasonryWork
from sheets.model.part import Extent, Part
from sheets.model.wall import Opening, Wall

STEP = inch("1/16")
HARD = {"note": 1, "warning": 2, "error": 3}
RULES = (
    "masonry-clearance",
    "masonry-air",
    "chimney-air",
    "listed-clearance",
    "facing-extent",
    "service-space",
)
WIDTH, HEIGHT, SILL, FACE = 36, 30, 8, Fraction(3, 4)

sixteenths = st.integers(0, 16 * 24).map(lambda count: Fraction(count, 16))
sizes = st.integers(1, 16 * 10).map(lambda count: Fraction(count, 16))
Place = tuple[Fraction, Fraction, Fraction, Fraction, Fraction, Fraction]


@st.composite
def places(draw: st.DrawFn) -> Place:
    """A block above, beside or aside of the opening, at one side, in inches: x0, x1, y0, y1, z0, z1."""
    half, top = Fraction(WIDTH, 2), Fraction(SILL + HEIGHT)
    x0 = half + draw(sixteenths) - 8
    z0 = top + draw(sixteenths) - 10
    y0 = FACE + draw(st.integers(-20, 16)) * Fraction(1, 16)
    return x0, x0 + draw(sizes), y0, y0 + draw(sizes), z0, z0 + draw(sizes)


@st.composite
def openings(draw: st.DrawFn, kit) -> Opening:  # type: ignore[no-untyped-def]
    rows = st.lists(
        st.tuples(st.integers(1, 12), st.integers(0, 30)),
        min_size=1,
        max_size=4,
        unique_by=lambda row: row[0],
    )
    if draw(st.booleans()):
        copied = {
            "legs": tuple(draw(rows)) if draw(st.booleans()) else (),
            "side_trim": tuple(draw(rows)) if draw(st.booleans()) else (),
            "in_front": inch(draw(st.integers(0, 40))) if draw(st.booleans()) else None,
        }
        facing = draw(st.none() | st.tuples(st.integers(0, 12), st.integers(0, 12)))
        opening = kit.opening(
            WIDTH, HEIGHT, sill=SILL, face=FACE, appliance="listed gas", listing=tuple(draw(rows)),
            facing=facing, **copied,
        )  # fmt: skip
        assert isinstance(opening, Opening)
        return opening
    thick = st.integers(4, 16)
    opening = kit.opening(
        WIDTH, HEIGHT, sill=SILL, face=FACE, masonry=(draw(thick), draw(thick), draw(thick))
    )
    body = opening.masonry.extent
    chimney = None
    if draw(st.booleans()):
        flue = Extent(inch(-6), inch(6), inch(-15), inch(-7), body.z1, inch(100))
        around = Extent(inch(-12), inch(12), inch(-20), inch(-2), body.z1, inch(100))
        chimney = Chimney(around, draw(st.booleans()), flue if draw(st.booleans()) else None)
    # The masonry ends at the wall's face, the facing lies before it.
    body = replace(body, y1=Fraction(0))
    return replace(opening, masonry=MasonryWork(body, draw(st.booleans()), chimney))


codes = st.sampled_from(
    [{}, {"body": "IRC"}, {"body": "IRC", "edition": "2018"}, {"body": "IRC", "edition": "2021"}]
)


def solid_of(place: Place, slope: bool) -> Solid:
    """A block, or one whose front leans back towards its foot, as a corbel's does."""
    x0, x1, y0, y1, z0, z1 = (float(inch(each)) for each in place)
    if not slope:
        return box(x0, x1, y0, y1, z0, z1)
    return extrude("x", polygon(((y0, z0), ((y0 + y1) / 2, z0), (y1, z1), (y0, z1))).outer, x0, x1)


def piece(kit, place: Place, slope: bool, kind: str) -> Part:  # type: ignore[no-untyped-def]
    part = kit.part("thing", place[0:2], place[2:4], place[4:6], assembly=kind, solid=solid_of(place, slope))
    assert isinstance(part, Part)
    return part


def said(kit, opening: Opening, place: Place, slope: bool, kind: str, chosen) -> dict[str, int]:  # type: ignore[no-untyped-def]
    """How hard each rule is on the piece; 0 where it says nothing of it."""
    part = piece(kit, place, slope, kind)
    facing = kit.part("surround", (-30, 30), (0, FACE), (0, 60), material="slate", maker="others")
    component = kit.component(
        "mantel" if kind == "mantel" else "case", place[0:2], place[2:4], place[4:6], key=kind
    )
    wall: Wall = kit.wall(part, facing, components=(component,), opening=opening, codes=chosen)
    found = {rule: 0 for rule in RULES}
    for report in run_checks(wall):
        if report.rule in found:
            hard = [HARD[each.severity] for each in report.findings if part.key in each.subjects]
            found[report.rule] = max(hard, default=0)
    return found


def inward(place: Place, dx: Fraction, dz: Fraction) -> Place:
    """The place moved towards the opening, no farther than to its edge on either way."""
    x0, x1, y0, y1, z0, z1 = place
    left = max(x0 - Fraction(WIDTH, 2), Fraction(0))
    down = max(z0 - (SILL + HEIGHT), Fraction(0))
    dx, dz = min(dx, left), min(dz, down)
    return x0 - dx, x1 - dx, y0, y1, z0 - dz, z1 - dz


def grown(place: Place, dx: Fraction, dy: Fraction, dz: Fraction) -> Place:
    """The place grown towards the axis, out into the room and down."""
    x0, x1, y0, y1, z0, z1 = place
    return x0 - dx, x1, y0, y1 + dy, z0 - dz, z1


moves = st.tuples(sixteenths, sixteenths, sixteenths).map(lambda by: tuple(each / 4 for each in by))
onto_the_grid: Callable[[Fraction], Fraction] = lambda value: Fraction(int(value * 16), 16)  # noqa: E731


@pytest.fixture(scope="module")
def made(kit):  # type: ignore[no-untyped-def]
    return kit


@given(st.data(), places(), st.booleans(), st.sampled_from(["mantel", "case"]), codes, moves)
@settings(max_examples=400, deadline=None)
def test_moved_towards_the_opening(made, data, place, slope, kind, chosen, by) -> None:  # type: ignore[no-untyped-def]
    opening = data.draw(openings(made))
    dx, _, dz = (onto_the_grid(each) for each in by)
    # Down to the opening is away from the chimney over it.
    judged = [rule for rule in RULES if rule != "chimney-air" or dz == 0]
    before = said(made, opening, place, slope, kind, chosen)
    after = said(made, opening, inward(place, dx, dz), slope, kind, chosen)
    milder = {rule: (before[rule], after[rule]) for rule in judged if after[rule] < before[rule]}
    assert not milder


@given(st.data(), places(), st.sampled_from(["mantel", "case"]), codes, moves)
@settings(max_examples=400, deadline=None)
def test_grown_towards_the_opening(made, data, place, kind, chosen, by) -> None:  # type: ignore[no-untyped-def]
    opening = data.draw(openings(made))
    before = said(made, opening, place, False, kind, chosen)
    after = said(made, opening, grown(place, *(onto_the_grid(each) for each in by)), False, kind, chosen)
    milder = {rule: (before[rule], after[rule]) for rule in RULES if after[rule] < before[rule]}
    assert not milder


@pytest.mark.parametrize("kind", ["mantel", "case"])
def test_a_corbel_lowered_by_a_step_stays_an_error(kit, kind) -> None:  # type: ignore[no-untyped-def]
    """From just above the top of the opening to just beside it: once an error that became a note."""
    opening = replace(
        kit.opening(WIDTH, HEIGHT, sill=SILL, face=FACE, appliance="listed gas"),
        manual=replace(kit.opening(1, 1).manual, mantel=(ListingRow(inch(8), inch(10)),)),
    )
    top = Fraction(SILL + HEIGHT)
    at_top = (Fraction(20), Fraction(24), FACE, FACE + 5, top, top + 11)
    lowered = (*at_top[:4], top - Fraction(1, 16), top + 11 - Fraction(1, 16))
    for place in (at_top, lowered):
        assert said(kit, opening, place, False, kind, {})["listed-clearance"] == HARD["error"]
