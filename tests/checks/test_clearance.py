"""Clearance of combustibles: masonry by the code, listed appliances by the copied manual alone."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheets.checks.finding import Checked
from sheets.checks.mechanics.manual import required_height
from sheets.checks.reports.text import as_text
from sheets.model.fire import ListingRow

STEP = Fraction(1, 16)


def mantel(kit, above, projection, **opening):  # type: ignore[no-untyped-def]
    """An opening of 36 by 30 with a shelf so far above it, standing out so far."""
    shelf = kit.part("cap", (-25, 25), (0, projection), (30 + above, 32 + above))
    return kit.wall(shelf, opening=kit.opening(36, 30, **opening))


# IRC R1001.11, exception 4: 1/8 in of projection for each inch, from 6 to 12 in.
@pytest.mark.parametrize(("distance", "most"), [(6, "3/4"), (8, 1), (10, "5/4"), (12, "3/2")])
def test_masonry_projection_at_the_limit(kit, distance, most) -> None:  # type: ignore[no-untyped-def]
    passes, fails = Fraction(most), Fraction(most) + STEP
    assert kit.severities("masonry-clearance", mantel(kit, distance, passes)) == []
    assert kit.severities("masonry-clearance", mantel(kit, distance, fails)) == ["error"]


def test_nothing_combustible_within_six_inches(kit) -> None:  # type: ignore[no-untyped-def]
    assert kit.severities("masonry-clearance", mantel(kit, Fraction(6), "1/4")) == []
    assert kit.severities("masonry-clearance", mantel(kit, 6 - STEP, "1/4")) == ["error"]


def test_beyond_twelve_inches_the_code_has_no_limit(kit) -> None:  # type: ignore[no-untyped-def]
    assert kit.severities("masonry-clearance", mantel(kit, Fraction(12), 10)) == ["error"]
    assert kit.severities("masonry-clearance", mantel(kit, 12 + STEP, 10)) == []


def test_sides_count_like_the_top(kit) -> None:  # type: ignore[no-untyped-def]
    def post(away: Fraction):  # type: ignore[no-untyped-def]
        leg = kit.part("post", (18 + away, 24 + away), (0, 1), (0, 40))
        return kit.wall(leg, opening=kit.opening(36, 30))

    assert kit.severities("masonry-clearance", post(Fraction(8))) == []
    assert kit.severities("masonry-clearance", post(8 - STEP)) == ["error"]


@pytest.mark.parametrize(
    ("material", "burns"), [("oak", True), ("mdf", True), ("gypsum", True), ("slate", False)]
)
def test_gypsum_is_not_called_noncombustible(kit, material, burns) -> None:  # type: ignore[no-untyped-def]
    near = kit.part("moulding", (-25, 25), (0, "1/2"), (32, 34), material=material)
    far = kit.part("cap", (-25, 25), (0, 1), (50, 52))
    found = kit.findings("masonry-clearance", kit.wall(near, far, opening=kit.opening(36, 30)))
    assert bool(found) == burns


def test_projection_is_from_the_face_that_the_opening_is_in(kit) -> None:  # type: ignore[no-untyped-def]
    assert kit.severities("masonry-clearance", mantel(kit, 12, 14, face="25/2")) == []
    assert kit.severities("masonry-clearance", mantel(kit, 12, 14 + STEP, face="25/2")) == ["error"]


def test_cures_say_what_would_pass(kit) -> None:  # type: ignore[no-untyped-def]
    (found,) = kit.findings("masonry-clearance", mantel(kit, 8, "5/4"))
    # 8 in x 1/8 = 1; 1 1/4 x 8 = 10.
    assert 'projection of 1"' in found.cure
    assert '10" or more' in found.cure
    assert found.cited.source.startswith("IRC R1001.11")
    assert (found.made_from.line, found.made_from.column) == (7, 3)


# IRC R1001.10: under 6 sq ft 16 and 8 in, from 6 sq ft 20 and 12 in. 30 x 24 = 5.00, 35 x 24.5 = 5.955, 36 x
# 24 = 6.00.
@pytest.mark.parametrize(
    ("width", "height", "front", "side"),
    [(30, 24, 16, 8), (35, "49/2", 16, 8), (36, 24, 20, 12)],
)
def test_hearth_extension(kit, width, height, front, side) -> None:  # type: ignore[no-untyped-def]
    def found(front, side):  # type: ignore[no-untyped-def]
        half = Fraction(width, 2) + side
        hearth = kit.part(
            "hearth", (-half, half), (0, front), (0, 2), axes="zyx", material="slate", maker="others"
        )
        return kit.severities("hearth-extension", kit.wall(hearth, opening=kit.opening(width, height)))

    assert found(Fraction(front), Fraction(side)) == []
    assert found(front - STEP, Fraction(side)) == ["error"]
    assert found(Fraction(front), side - STEP) == ["error", "error"]


def test_a_hearth_of_wood_is_none(kit) -> None:  # type: ignore[no-untyped-def]
    hearth = kit.part("hearth", (-40, 40), (0, 30), (0, 2), axes="zyx")
    assert kit.severities("hearth-extension", kit.wall(hearth, opening=kit.opening(30, 24))) == ["error"]


@pytest.mark.parametrize(("sill", "severities"), [("37/4", []), ("147/16", ["warning"])])
def test_a_raised_opening_takes_a_thin_extension(kit, sill, severities) -> None:  # type: ignore[no-untyped-def]
    # IRC R1001.9.2, exception: 3/8 in where the opening is 8 in or more above the extension (here 1 1/4 in
    # thick).
    hearth = kit.part("hearth", (-30, 30), (0, 20), (0, "5/4"), axes="zyx", material="slate", maker="others")
    assert (
        kit.severities("hearth-extension", kit.wall(hearth, opening=kit.opening(30, 24, sill=sill)))
        == severities
    )


LISTING = ((4, 6), (8, 10))


@pytest.mark.parametrize(
    ("projection", "above", "severities"),
    [
        (4, 6, []),
        (4, 6 - STEP, ["error"]),
        (4 + STEP, 6, ["error"]),
        (4 + STEP, 10, []),  # between rows the stricter one, nothing interpolated
        (6, 10 - STEP, ["error"]),
        (8, 10, []),
        (8 + STEP, 40, ["error"]),  # beyond the last row nothing is assumed
        (1, 6 - STEP, ["error"]),
    ],
)
def test_listed_pairs(kit, projection, above, severities) -> None:  # type: ignore[no-untyped-def]
    wall = mantel(kit, above, projection, appliance="listed electric", listing=LISTING)
    assert kit.severities("listed-clearance", wall) == severities


def test_without_pairs_there_is_an_error(kit) -> None:  # type: ignore[no-untyped-def]
    (found,) = kit.findings("listed-clearance", mantel(kit, 40, 1, appliance="listed gas"))
    assert found.severity == "error"
    assert "manual" in found.cure
    assert found.made_from.line == 3


def test_masonry_rules_leave_a_listed_appliance_alone(kit) -> None:  # type: ignore[no-untyped-def]
    wall = mantel(kit, 1, 10, appliance="listed gas", listing=((12, 1),))
    assert kit.report("masonry-clearance", wall).looked_at == 0
    assert kit.report("masonry-air", wall).looked_at == 0
    assert kit.severities("hearth-extension", wall) == ["warning"]  # its manual's hearth is asked for
    assert kit.severities("listed-clearance", wall) == []


rows = st.lists(
    st.tuples(st.integers(1, 12), st.integers(0, 30)),
    min_size=1,
    max_size=5,
    unique_by=lambda row: row[0],
)


@given(rows, st.integers(1, 12), st.integers(0, 30), st.integers(0, 4), st.integers(1, 10))
@settings(max_examples=200, deadline=None)
def test_a_stricter_listing_never_clears_a_finding(listing, projection, above, row, more) -> None:  # type: ignore[no-untyped-def]
    before = tuple(ListingRow(Fraction(p), Fraction(a)) for p, a in listing)
    chosen = row % len(before)
    after = tuple(
        ListingRow(each.projection, each.above + more) if number == chosen else each
        for number, each in enumerate(before)
    )
    was, now = (required_height(each, Fraction(projection)) for each in (before, after))
    fails_before = was is None or above < was
    fails_after = now is None or above < now
    assert fails_after or not fails_before


@given(rows, st.integers(1, 12), st.integers(0, 30), st.integers(0, 4), st.integers(0, 11), st.integers(0, 9))
@settings(max_examples=500, deadline=None)
def test_a_pair_that_holds_for_less_never_clears_a_finding(
    kit, listing, projection, above, row, less, more
) -> None:  # type: ignore[no-untyped-def]
    """Stricter: a pair of a manual, where more projection never wants less height, holds for less."""
    heights = sorted(a for _, a in listing)
    manual = tuple(zip(sorted(p for p, _ in listing), heights, strict=True))
    chosen = row % len(manual)
    stricter = tuple(
        (max(p - less, Fraction(1, 2)), a + more) if number == chosen else (p, a)
        for number, (p, a) in enumerate(manual)
    )
    was, now = (
        kit.severities(
            "listed-clearance", mantel(kit, above, projection, appliance="listed gas", listing=each)
        )
        for each in (manual, stricter)
    )
    assert now.count("error") >= was.count("error")


@given(rows, st.integers(1, 12), st.integers(1, 12))
@settings(max_examples=200, deadline=None)
def test_a_greater_projection_never_wants_less_height(listing, one, other) -> None:  # type: ignore[no-untyped-def]
    copied = tuple(ListingRow(Fraction(p), Fraction(a)) for p, a in listing)
    less, more = sorted((one, other))
    low, high = required_height(copied, Fraction(less)), required_height(copied, Fraction(more))
    assert high is None or (low is not None and low <= high)


def test_facing_must_reach_as_far_as_the_manual_wants(kit) -> None:  # type: ignore[no-untyped-def]
    def found(half, top):  # type: ignore[no-untyped-def]
        facing = kit.part("surround", (-half, half), (0, "3/4"), (0, top), material="slate", maker="others")
        opening = kit.opening(36, 30, appliance="listed gas", listing=((1, 1),), facing=(6, 3))
        return kit.severities("facing-extent", kit.wall(facing, opening=opening))

    assert found(Fraction(21), Fraction(36)) == []
    assert found(21 - STEP, Fraction(36)) == ["error", "error"]
    assert found(Fraction(21), 36 - STEP) == ["error"]


def test_nothing_that_burns_stands_on_the_facing(kit) -> None:  # type: ignore[no-untyped-def]
    def found(inner):  # type: ignore[no-untyped-def]
        facing = kit.part("surround", (-30, 30), (0, "3/4"), (0, 40), material="slate", maker="others")
        post = kit.part("post", (inner, inner + 5), ("3/4", 3), (0, 40))
        opening = kit.opening(36, 30, appliance="listed gas", listing=((1, 1),), facing=(6, 3))
        return kit.severities("facing-extent", kit.wall(facing, post, opening=opening))

    assert found(Fraction(21)) == []
    assert found(21 - STEP) == ["error"]


def test_cautions_are_always_printed_and_nothing_is_certified(kit) -> None:  # type: ignore[no-untyped-def]
    report = kit.report("masonry-clearance", mantel(kit, 20, 5))
    assert report.findings == ()
    text = as_text(Checked("wall.yaml", (report,))).lower()
    for word in (
        "listing",
        "local code",
        "licensed trades",
        "verify every clearance on site",
        "certify nothing",
    ):
        assert word in text


def test_what_stands_beside_a_listed_opening_is_named_not_judged(kit) -> None:  # type: ignore[no-untyped-def]
    shelf = kit.part("cap", (-25, 25), (0, 2), (50, 52))

    def beside(aside):  # type: ignore[no-untyped-def]
        post = kit.part("post", (18 + aside, 25 + aside), (0, 2), (0, 50))
        opening = kit.opening(36, 30, appliance="listed gas", listing=LISTING)
        return kit.findings("listed-clearance", kit.wall(shelf, post, opening=opening))

    # The pairs want 6 in of height for 2 in of projection: nearer than that is refused until legs are copied.
    (near,) = beside(6 - STEP)
    assert near.severity == "error"
    (found,) = beside(Fraction(6))
    assert (found.severity, found.subjects) == ("warning", ("work/post",))
    assert "not judged" in found.message


def test_a_piece_above_and_a_little_aside_is_held_against_the_pairs(kit) -> None:  # type: ignore[no-untyped-def]
    def found(aside):  # type: ignore[no-untyped-def]
        shelf = kit.part("cap", (-25, 25), (0, 2), (60, 62))
        bracket = kit.part("corbel", (18 + aside, 24 + aside), (0, 8), (35, 45))
        opening = kit.opening(36, 30, appliance="listed gas", listing=LISTING)
        return kit.severities("listed-clearance", kit.wall(shelf, bracket, opening=opening))

    # 5 in above the opening where 8 in of projection wants 10; the pairs reach as far aside as 10 in.
    assert found(10 - STEP) == ["error"]
    assert found(Fraction(10)) == ["warning"]
    assert found(36 + STEP) == []
