"""Patterns: ordinates of published arcs, outlines with true arcs, tiles that meet."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.base.notation import Notation
from sheets.geometry.path import Arc, Line, Loop, arc_through
from sheets.geometry.solid import extrude, moved
from sheets.model.part import Curve, Extent, Part
from sheets.schedules.patterns import Pattern, is_shaped, ordinate_table, patterns
from sheets.schedules.table import plain
from sheets.schedules.tiles import BORDER, tile
from tests.resolve.solved import wall_of
from tests.schedules.conftest import block, make_wall


def arched_rail(chord: Fraction, rise: Fraction, height: Fraction, mark: str = "M2", x: float = 0.0) -> Part:
    """A rail as long as its arch: a block with an arc cut from the underside, swept along y."""
    c, h, tall = float(chord), float(rise), float(height)
    arch = arc_through((-c / 2, 0.0), (c / 2, 0.0), h)
    loop = Loop(
        (
            arch,
            Line((c / 2, 0.0), (c / 2, tall)),
            Line((c / 2, tall), (-c / 2, tall)),
            Line((-c / 2, tall), (-c / 2, 0.0)),
        )
    )
    plain_part = block(
        f"mantel/rail-{mark.lower()}", size=("3/4", 1, 1), assembly="mantel", mark=mark, name="Rail"
    )
    solid = moved(extrude("y", loop, 0.0, 19.05), dx=x)
    extent = Extent(-chord / 2, chord / 2, Fraction(0), inch("3/4"), Fraction(0), height)
    return replace(
        plain_part,
        solid=solid,
        extent=extent,
        thickness_axis="y",
        width_axis="z",
        length_axis="x",
        curve=Curve(chord, rise, arch.radius, "y", "underside"),
    )


def made(part: Part, **patterns_section: object) -> Pattern:
    found = patterns(make_wall(part, patterns=patterns_section))
    assert len(found) == 1
    return found[0]


@pytest.mark.parametrize(
    ("chord", "rise", "radius"),
    [
        (120, 30, 75.0),  # Hatfield, American House Carpenter, art. 518
        (80, 11, 1721 / 22),  # millwork forum example
        (30, Fraction(5, 2), 46.25),  # furniture pattern question, CRC tables formula
        (12, 2, 10.0),  # integer case
    ],
)
def test_radius_from_chord_and_rise_as_published(chord: int, rise: Fraction | int, radius: float) -> None:
    (curve,) = made(arched_rail(inch(chord), inch(rise), inch(rise) + inch(3))).curves
    assert curve.radius / 25.4 == pytest.approx(radius, abs=1e-9)
    assert curve.chord / 25.4 == pytest.approx(chord, abs=1e-9)
    assert curve.rise / 25.4 == pytest.approx(float(rise), abs=1e-9)


@pytest.mark.parametrize(
    ("chord", "rise", "step", "printed"),
    [
        # Ordinates from the chord, y = sqrt(R2 - x2) - (R - h); Hatfield art. 519-520 gives the method,
        # values computed.
        (60, 3, 5, (3.0000, 2.9175, 2.6696, 2.2556, 1.6741, 0.9231, 0.0)),
        (120, 30, 10, (30.0, 29.3303, 27.2842, 23.7386, 18.4429, 10.9017, 0.0)),
    ],
)
def test_ordinates_of_published_arcs(chord: int, rise: int, step: int, printed: tuple[float, ...]) -> None:
    (curve,) = made(arched_rail(inch(chord), inch(rise), inch(rise) + inch(3)), station=inch(step)).curves
    half = [o for o in curve.ordinates if o.offset >= 0]
    assert [o.offset / inch(step) for o in half] == list(range(len(printed)))
    assert [o.height / 25.4 for o in half] == pytest.approx(list(printed), abs=5e-5)
    assert [o.height for o in curve.ordinates] == pytest.approx([o.height for o in reversed(curve.ordinates)])


def test_tips_of_the_ordinates_lie_on_the_arc() -> None:
    pattern = made(arched_rail(inch(60), inch(3), inch(6)))
    (curve,) = pattern.curves
    for ordinate in curve.ordinates:
        away = ((ordinate.tip[0] - curve.centre[0]) ** 2 + (ordinate.tip[1] - curve.centre[1]) ** 2) ** 0.5
        assert away == pytest.approx(curve.radius, abs=1e-6)


def test_outline_keeps_its_arc_and_its_size() -> None:
    pattern = made(arched_rail(inch(60), inch(3), inch(6)))
    assert sum(isinstance(s, Arc) for loop in pattern.outline for s in loop.segments) >= 1
    assert (pattern.width, pattern.height) == pytest.approx((60 * 25.4, 6 * 25.4))
    assert pattern.grain == "u"
    low = [min(v) for v in zip(*[p for loop in pattern.outline for p in loop.vertices], strict=True)]
    assert low == pytest.approx([0.0, 0.0])


def test_parts_with_one_mark_share_a_pattern_and_plain_ones_have_none() -> None:
    one, two = arched_rail(inch(30), inch(2), inch(5)), arched_rail(inch(30), inch(2), inch(5), x=1000.0)
    wall = make_wall(one, replace(two, key="mantel/rail-other"), block("mantel/post", size=("3/4", 6, 40)))
    found = patterns(wall)
    assert [pattern.quantity for pattern in found] == [2]
    assert not is_shaped(wall.parts[2])


def test_table_of_ordinates_reads_in_sixty_fourths() -> None:
    pattern = made(arched_rail(inch(60), inch(3), inch(6)), station=inch(15))
    table = ordinate_table(pattern, Notation("inches", inch("1/16")))
    rows = [[plain(cell) for cell in row] for row in table.rows]
    # 2.2556 in is 2 16.4/64: read as 2 1/4, marked as near.
    assert rows == [["1", '0"', '3"'], ["1", '15"', '≈2 1/4"'], ["1", '30"', '0"']]
    # R = (60^2/4 + 9) / 6 = 151.5
    assert 'RADIUS 151 1/2"' in table.notes[0]


@given(
    st.tuples(st.floats(20, 3000), st.floats(20, 1500)),
    st.floats(5, 30),
    st.sampled_from([(279.4, 215.9), (297.0, 210.0), (431.8, 279.4)]),
)
def test_tiles_cover_the_pattern_and_meet_at_their_register_marks(
    size: tuple[float, float], overlap: float, paper: tuple[float, float]
) -> None:
    tiling = tile(size, paper, overlap)
    assert len(tiling.tiles) == tiling.rows * tiling.columns
    by_place = {(t.row, t.column): t for t in tiling.tiles}
    first, last = by_place[1, 1].window, by_place[tiling.rows, tiling.columns].window
    assert first[0] <= -BORDER + 1e-6
    assert first[1] <= -BORDER + 1e-6
    assert last[2] >= size[0] + BORDER - 1e-6
    assert last[3] >= size[1] + BORDER - 1e-6
    for (row, column), here in by_place.items():
        for beside in (by_place.get((row, column + 1)), by_place.get((row + 1, column))):
            if beside is None:
                continue
            shared = (
                max(here.window[0], beside.window[0]),
                max(here.window[1], beside.window[1]),
                min(here.window[2], beside.window[2]),
                min(here.window[3], beside.window[3]),
            )
            assert min(shared[2] - shared[0], shared[3] - shared[1]) == pytest.approx(overlap)
            common = [
                a for a in here.marks if any(abs(a[0] - b[0]) + abs(a[1] - b[1]) < 1e-6 for b in beside.marks)
            ]
            assert len(common) >= 2
        page_low = (here.window[0] + here.shift[0], here.window[1] + here.shift[1])
        page_high = (here.window[2] + here.shift[0], here.window[3] + here.shift[1])
        assert min(page_low) > 0
        assert page_high[0] < tiling.page[0]
        assert page_high[1] < tiling.page[1]


def test_an_overlap_as_wide_as_the_paper_is_refused() -> None:
    with pytest.raises(ValueError, match="overlap"):
        tile((100.0, 100.0), (297.0, 210.0), 250.0)


def test_tiles_are_named_from_the_lower_left() -> None:
    tiling = tile((600.0, 100.0), (297.0, 210.0), 12.0)
    assert [t.name for t in tiling.tiles] == ["A1", "B1", "C1"]


def test_what_is_bent_is_laid_out_by_the_face_on_its_form():
    """A lining of an arch has two arcs of one centre; the form is made to the inner one."""
    arcs = [arc for pattern in patterns(_lined()) if pattern.name == "Arch lining" for arc in pattern.curves]
    assert len(arcs) == 1
    # Hatfield: radius of a chord of 36 and a rise of 4 in: (18^2 + 4^2) / 8 = 42 1/2 in.
    assert arcs[0].radius == pytest.approx(42.5 * 25.4)


def _lined():
    return wall_of(
        """
        room: {width: 120}
        mantel:
          top: 54
          width: 60
          layers: {cap: {}, fascia: {}}
          posts: {}
          arch: {rise: 4, rail: 8, chord: 36, lining: {thickness: 3/8, laminations: 3}}
          material: oak
        """
    )


def upright_arc(off: float) -> Part:
    """A corbel's side, 3 3/4 by 13 in: an arc hollows its right edge, whose head is off by what arithmetic
    leaves."""
    wide, tall, h = 95.25, 330.2, 19.05
    foot, head = (wide, 0.0), (wide + off, tall)
    sides = (Line((0.0, 0.0), foot), arc_through(head, foot, h).reversed())
    loop = Loop((*sides, Line(head, (0.0, tall)), Line((0.0, tall), (0.0, 0.0))))
    part = arched_rail(inch(13), inch("3/4"), inch("15/4"))
    assert part.curve is not None
    return replace(part, solid=extrude("x", loop, 0.0, 19.05), curve=replace(part.curve, across="x"))


def test_the_note_of_a_piece_does_not_hang_on_the_last_digit_of_where_it_stands() -> None:
    """Its chord stands upright: the lower end is named first, to whichever side it is off."""
    notation = Notation("inches", inch("1/16"))
    said = [ordinate_table(made(upright_arc(off)), notation).notes for off in (-1e-9, 0.0, 1e-9)]
    assert said[0] == said[1] == said[2]
    assert '0" UP TO' in said[0][0]
