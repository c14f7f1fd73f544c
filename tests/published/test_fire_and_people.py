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


# NUREG-0700 rev. 3, table 11.4 (after MIL-STD-1472G): 5 % female and 95 % male, inches.
@pytest.mark.parametrize(
    ("measure", "least", "most"),
    [
        ("stature", 63.5, 73.9),
        ("standing eye height", 59.1, 69.1),
        ("popliteal height", 14.8, 18.6),
        ("eye height above seat", 28.5, 34.0),
        ("functional reach", 26.7, 34.9),
    ],
)
def test_bodies_of_the_human_factors_table(measure: str, least: float, most: float) -> None:
    found = body(measure)
    assert (float(found.least / inch(1)), float(found.most / inch(1))) == (
        pytest.approx(least),
        pytest.approx(most),
    )


def test_seated_eyes_are_the_sum_of_seat_and_eye() -> None:
    # The same table: 14.8 + 28.5 and 18.6 + 34.0; a bound only, and marked as computed.
    found = seated_eye_height()
    assert (round(float(found.least / inch(1)), 1), round(float(found.most / inch(1)), 1)) == (43.3, 52.6)
    assert found.cited.confidence == "computed"


def test_standing_eyes_hold_the_published_means() -> None:
    # Pheasant, US adults 19 to 65, standing eye height of the middle man and woman: 1710 and 1525 mm.
    eyes = body("standing eye height")
    assert float(eyes.least) < 1525 < 1710 < float(eyes.most)
