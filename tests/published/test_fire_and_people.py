"""Code values and bodies against published figures."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.checks.mechanics.fireside import Block, block_of
from sheets.checks.rules.hearth_extension import opening_area, wanted_extension
from sheets.checks.rules.masonry_clearance import broken_by
from sheets.model.part import Extent
from sheets.model.wall import Opening
from sheets.tables.clearances import clearances
from sheets.tables.people import body, seated_eye_height

IRC_2018 = clearances("IRC", "2018")


@pytest.mark.parametrize(("distance", "projection"), [(6, "3/4"), (8, "1"), (10, "5/4"), (12, "3/2")])
def test_projection_beside_a_masonry_opening(distance: int, projection: str) -> None:
    # IRC R1001.11, exception 4 (2018, as quoted by a mantel trade article): 1/8 in for each inch of distance.
    assert broken_by(IRC_2018, above(inch(distance), inch(projection))) is None
    assert broken_by(IRC_2018, above(inch(distance), inch(projection) + inch("1/16"))) is not None


def test_none_within_six_inches_and_no_limit_beyond_twelve() -> None:
    # IRC R1001.11, exception 4.
    assert broken_by(IRC_2018, above(inch("95/16"), inch("1/16"))) is not None
    assert broken_by(IRC_2018, above(inch("193/16"), inch(20))) is None


def above(distance: Fraction, projection: Fraction) -> Block:
    """A board so far above an opening, standing out so far."""
    none = Fraction(0)
    opening = Opening(Extent(none, inch(36), none, none, none, inch(30)), "masonry")
    low = inch(30) + distance
    return block_of(Extent(none, inch(36), none, projection, low, low + inch(2)), opening)


@pytest.mark.parametrize(
    ("width", "height", "square_feet", "front", "side"),
    [("30", "24", 5.0, 16, 8), ("35", "49/2", 5.955, 16, 8), ("36", "24", 6.0, 20, 12)],
)
def test_hearth_extension_by_the_size_of_the_opening(
    width: str, height: str, square_feet: float, front: int, side: int
) -> None:
    # IRC R1001.10 (2006, as quoted by inspectors): under 6 sq ft 16 and 8 in, from 6 sq ft up 20 and 12 in.
    none = Fraction(0)
    opening = Opening(Extent(none, inch(width), none, none, none, inch(height)), "masonry")
    area = opening_area(opening)
    assert float(area) == pytest.approx(square_feet, abs=0.0005)
    wanted = wanted_extension(area)
    assert (wanted.front.value, wanted.side.value) == (inch(front), inch(side))


# Pheasant, Bodyspace, British adults 19 to 65: 5 % woman and 95 % man, mm (from memory); reach of women, 5
# and 95 %. Civilians: the figures of soldiers stand 3 in too high for small women.
@pytest.mark.parametrize(
    ("measure", "least", "most"),
    [
        ("popliteal height", 355, 490),
        ("eye height above seat", 685, 845),
        ("top shelf reach", 1790, 2020),
    ],
)
def test_bodies_of_civilians(measure: str, least: int, most: int) -> None:
    found = body(measure)
    assert (found.least, found.most) == (least, most)


def test_seated_eyes_are_the_sum_of_seat_and_eye() -> None:
    # The same table: 355 + 685 = 1040 mm, 40.9 in, and 490 + 845 = 1335 mm, 52.6 in; a bound only, and marked
    # as computed.
    found = seated_eye_height()
    assert (found.least, found.most) == (1040, 1335)
    assert found.cited.confidence == "computed"
