"""Sag of shelves: verdicts, cures, and how sag grows."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.checks.mechanics.beams import (
    inertia_of_board,
    sag_uniform,
    span_for_sag_ratio,
    thickness_for_sag_ratio,
)
from sheets.checks.mechanics.loading import lasting_load
from sheets.checks.mechanics.shelf import shelves
from sheets.model.part import Material, Part
from sheets.model.purpose import Bears, Purpose
from sheets.model.settings import Air, GivenLoad, Season
from sheets.tables.loads import newton_per_mm

sizes = st.floats(1, 1000)


def shelf_wall(kit, span, *, material="oak", thickness="3/4", checks=None, axes="zyx"):  # type: ignore[no-untyped-def]
    """A shelf 11 1/4 in deep, 1/4 in into two sides, with this clear span."""
    end = Fraction(span) + Fraction(3, 4)
    parts = (
        kit.part("side", (0, "3/4"), (0, "45/4"), (0, 80), axes="xyz", key="work/side-left", material="ply"),
        kit.part(
            "side",
            (end, end + Fraction(3, 4)),
            (0, "45/4"),
            (0, 80),
            axes="xyz",
            key="work/side-right",
            material="ply",
        ),
        kit.part(
            "shelf",
            ("1/2", end + Fraction(1, 4)),
            (0, "45/4"),
            (30, 30 + Fraction(thickness)),
            axes=axes,
            material=material,
        ),
    )
    return kit.wall(*parts, checks=checks)


def test_span_is_clear_between_the_sides(kit) -> None:  # type: ignore[no-untyped-def]
    (shelf,) = shelves(shelf_wall(kit, 36))
    assert shelf.span == inch(36)


def test_the_worked_shelf_of_red_oak(kit) -> None:  # type: ignore[no-untyped-def]
    # 3/4 x 11 1/4 red oak, 36 in, 25 lb per ft: 0.0633 in, L/569 (computed from 5 w L^4 / 384 E I, E = 1.82e6
    # psi).
    (shelf,) = shelves(shelf_wall(kit, 36))
    assert shelf.sag_mm(25 * 4.4482216 / 304.8) / 25.4 == pytest.approx(0.0633, abs=0.0001)


def test_years_just_met_and_just_missed(kit) -> None:  # type: ignore[no-untyped-def]
    # kdef 0.6 (EN 1995-1-1 table 3.2, solid wood, class 1): the last sag is 1.6 times the first, and 1/32 in
    # per foot, L/384, is L/614.4 for the first. 25 lb per ft on 3/4 x 11 1/4 red oak: I = 0.395508 in4,
    # L^3 = 384 x 1.82e6 x 0.395508 / (5 x 2.08333 x 614.4) = 43 189, L = 35.086 in.
    assert kit.severities("shelf-sag", shelf_wall(kit, "561/16")) == []
    assert kit.severities("shelf-sag", shelf_wall(kit, "562/16")) == ["warning"]


def test_a_first_sag_that_the_spec_limits(kit) -> None:  # type: ignore[no-untyped-def]
    # The same at L/600 alone: L^3 = 44 226, L = 35.364 in.
    only_first: dict[str, object] = {"sag": {"years": 50}}
    assert kit.severities("shelf-sag", shelf_wall(kit, "565/16", checks=only_first)) == []
    assert kit.severities("shelf-sag", shelf_wall(kit, "566/16", checks=only_first)) == ["warning"]


@pytest.mark.parametrize(
    ("material", "factor"),
    [
        # 1 + kdef, and the first E over the lower one: EN 1995-1-1 table 3.2; ANSI A208.2 grade 130 (0.313
        # against 0.363), A208.1 M-1 (0.225 against 0.290), 1.1 of careful shops against 1.80.
        (Material("a", "wood", "red oak"), 1.6),
        (Material("a", "panel", "veneer-core plywood"), 1.8),
        (Material("a", "panel", "veneer-core plywood", face="white oak"), 1.8 * 1.80 / 1.1),
        (Material("a", "panel", "birch plywood"), 1.8),
        (Material("a", "panel", "MDF"), 3.25 * 0.363 / 0.313),
        (Material("a", "panel", "particleboard"), 3.25 * 0.290 / 0.225),
        (Material("a", "panel", "OSB"), 3.25 * 0.64 / 0.508),
    ],
    ids=lambda value: f"{value.name} {value.face}" if isinstance(value, Material) else "",
)
def test_what_the_years_add(kit, material: Material, factor: float) -> None:  # type: ignore[no-untyped-def]
    (shelf,) = shelves(shelf_wall(kit, 30, material=material))
    first, last = shelf.sag_mm(0.3), shelf.lasting_sag_mm(0.3)
    assert last == pytest.approx(first * factor)


def test_a_damp_room_makes_shelves_creep_more(kit) -> None:  # type: ignore[no-untyped-def]
    # Air of 70 % at 20 deg C: wood settles at 13.0 % (equation 4-5), class 2. Solid wood 1.8, MDF 4.0.
    air = Air(Season(40, 20, "C"), Season(70, 20, "C"))
    oak, mdf = (
        shelves(shelf_wall(kit, 30, material=each, checks={"air": air}))[0] for each in ("oak", "mdf")
    )
    assert oak.lasting_sag_mm(1) == pytest.approx(1.8 * oak.sag_mm(1))
    assert mdf.lasting_sag_mm(1) == pytest.approx(4.0 * 0.363 / 0.313 * mdf.sag_mm(1))


def test_a_board_that_is_not_made_for_such_air_is_not_passed(kit) -> None:  # type: ignore[no-untyped-def]
    # 95 % at 20 deg C: 24 % and more (table 4-2 has 23.9 at 70 deg F), class 3, where MDF has no kdef.
    air = Air(Season(90, 20, "C"), Season(95, 20, "C"))
    found = kit.findings("shelf-sag", shelf_wall(kit, 12, material="mdf", checks={"air": air}))
    assert [each.severity for each in found] == ["warning"]
    assert "damp" in found[0].message


def test_industry_limit_just_met_and_just_missed(kit) -> None:  # type: ignore[no-untyped-def]
    # Architectural Woodwork Standards 2009: 3/4 oak at 50 psf and L/144 reaches 46.15 in (printed 46).
    assert kit.severities("shelf-sag", shelf_wall(kit, "738/16")) == ["warning"]
    assert kit.severities("shelf-sag", shelf_wall(kit, "739/16")) == ["error"]


def test_display_is_held_at_forty_pounds(kit) -> None:  # type: ignore[no-untyped-def]
    # The same standard at 40 psf: 49.71 in (printed 49).
    checks = {"load": "display"}
    assert kit.severities("shelf-sag", shelf_wall(kit, "795/16", checks=checks)) == ["warning"]
    assert kit.severities("shelf-sag", shelf_wall(kit, "796/16", checks=checks)) == ["error"]


def test_a_given_load_and_limits_go_before_the_usual_ones(kit) -> None:  # type: ignore[no-untyped-def]
    # 25 lb per ft gives L/569 at 36 in: 3 lb per ft at 48 gives 569 x 25/3 x (36/48)^3 = 2000, with the years
    # 2000 / 1.6 = 1250. 50 lb per sq ft gives L/144 at 46.15 in: 144 x (46.15/48)^3 = L/128 at 48.
    light: dict[str, object] = {"given_load": GivenLoad(3, "foot"), "sag": {"most": 127, "years": 1249}}
    assert kit.severities("shelf-sag", shelf_wall(kit, 48, checks=light)) == []
    for name, ratio, severity in (
        ("years", 1252, "warning"),
        ("aim", 2005, "warning"),
        ("most", 129, "error"),
    ):
        stricter = {**light, "sag": {"most": 127, "years": 1249, name: ratio}}
        assert kit.severities("shelf-sag", shelf_wall(kit, 48, checks=stricter)) == [severity]


def test_mdf_fails_where_oak_does_not(kit) -> None:  # type: ignore[no-untyped-def]
    # E 0.363 against 1.82 million psi (European MDF guide; woodwork standard).
    assert kit.severities("shelf-sag", shelf_wall(kit, 35)) == []
    assert kit.severities("shelf-sag", shelf_wall(kit, 35, material="mdf")) == ["error"]


def test_grain_across_the_span_is_an_error(kit) -> None:  # type: ignore[no-untyped-def]
    (found,) = kit.findings("shelf-sag", shelf_wall(kit, 24, axes="zxy"))
    assert found.severity == "error"
    assert "grain" in found.message


def test_the_cure_is_true(kit) -> None:  # type: ignore[no-untyped-def]
    (found,) = kit.findings("shelf-sag", shelf_wall(kit, 42))
    # 35.086 in at 3/4 in, as above; at 42 in 3/4 x 42 / 35.086 = 0.898 in. Both are brought to a 16th.
    assert "span of 2'-11 1/16\"" in found.cure
    assert '15/16" thick' in found.cure
    assert kit.severities("shelf-sag", shelf_wall(kit, 42, thickness="15/16")) == []
    assert kit.severities("shelf-sag", shelf_wall(kit, 42, thickness="14/16")) == ["warning"]


def test_plywood_is_judged_at_the_lower_stiffness(kit) -> None:  # type: ignore[no-untyped-def]
    # A 3/4 sheet may come 0.703 in thick (HP-1: 3/64 under): I = 11.25 x 0.703^3 / 12 = 0.325721 in4. With
    # the years E = 1.1 / 1.8 = 0.6111e6 psi: L^3 = 384 x 0.6111e6 x 0.325721 / (5 x 2.08333 x 384) = 19 109
    # and L = 26.735 in at L/384. At 3/4, the standard's 1.80 and L/600 alone it would reach 35.23.
    assert kit.severities("shelf-sag", shelf_wall(kit, "427/16", material="ply")) == []
    (found,) = kit.findings("shelf-sag", shelf_wall(kit, "428/16", material="ply"))
    assert found.severity == "warning"
    assert found.cited.confidence == "from memory"


def verdicts(kit, wall):  # type: ignore[no-untyped-def]
    return [row.verdict for row in kit.report("shelf-sag", wall).measures]


def test_the_printed_verdicts_are_those_of_the_findings(kit) -> None:  # type: ignore[no-untyped-def]
    # The limits of the years (35.086 in) and of the industry (46.15 in) as above, each a step to either side.
    assert verdicts(kit, shelf_wall(kit, "561/16")) == ["within limit", "within limit"]
    assert verdicts(kit, shelf_wall(kit, "562/16")) == ["to judge", "within limit"]
    assert verdicts(kit, shelf_wall(kit, "738/16")) == ["to judge", "within limit"]
    assert verdicts(kit, shelf_wall(kit, "739/16")) == ["to judge", "beyond limit"]


def test_the_picture_is_of_the_worst_shelf(kit) -> None:  # type: ignore[no-untyped-def]
    # Sag over span goes with the cube of the span: of 20, 30 and 24 in the one of 30 is drawn.
    wide = [shelf_wall(kit, span) for span in (20, 30, 24)]
    parts = tuple(
        replace(part, key=f"{part.key}-{n}", does=replace(part.does, bears=bears(part, n)))
        for n, wall in enumerate(wide)
        for part in wall.parts
    )
    (picture,) = kit.report("shelf-sag", kit.wall(*parts)).figures
    assert "2'-6\"" in picture.texts[0].text


def bears(part: Part, number: int) -> Bears | None:
    return Bears(tuple(f"{key}-{number}" for key in part.does.bears.on)) if part.does.bears else None


def test_unknown_wood_is_said_not_guessed(kit) -> None:  # type: ignore[no-untyped-def]
    (found,) = kit.findings("shelf-sag", shelf_wall(kit, 30, material=Material("x", "wood", "marblewood")))
    assert (found.severity, "marblewood" in found.message) == ("warning", True)


@pytest.mark.parametrize("name", ["bending plywood", "Flexible MDF", "plywood, bendy"])
def test_what_is_made_to_bend_carries_no_shelf(kit, name) -> None:  # type: ignore[no-untyped-def]
    shelf = shelf_wall(kit, 10, material=Material("x", "panel", name))
    assert kit.severities("shelf-sag", shelf) == ["error"]


@given(sizes, sizes, sizes, sizes)
def test_sag_grows_with_the_fourth_power_of_the_span(load, span, modulus, inertia) -> None:  # type: ignore[no-untyped-def]
    once, twice = (sag_uniform(load, length, modulus, inertia) for length in (span, 2 * span))
    assert twice == pytest.approx(16 * once)


@given(sizes, sizes)
def test_twice_the_thickness_sags_an_eighth(breadth, thickness) -> None:  # type: ignore[no-untyped-def]
    once, twice = (sag_uniform(1, 100, 10, inertia_of_board(breadth, t)) for t in (thickness, 2 * thickness))
    assert once == pytest.approx(8 * twice)


@given(sizes, sizes, sizes)
def test_fixed_ends_are_a_fifth_and_load_is_in_proportion(load, span, inertia) -> None:  # type: ignore[no-untyped-def]
    simple, fixed = (sag_uniform(load, span, 10, inertia, ends) for ends in ("simple", "fixed"))
    assert simple == pytest.approx(5 * fixed)
    assert sag_uniform(3 * load, span, 10, inertia) == pytest.approx(3 * simple)


@given(
    st.floats(0.05, 5), st.floats(200, 2000), st.floats(1e3, 2e4), st.floats(50, 500), st.floats(100, 1000)
)
def test_longest_span_and_least_thickness_meet_the_limit_exactly(load, span, modulus, breadth, ratio) -> None:  # type: ignore[no-untyped-def]
    thick = thickness_for_sag_ratio(load, span, modulus, breadth, ratio)
    inertia = inertia_of_board(breadth, thick)
    assert sag_uniform(load, span, modulus, inertia) == pytest.approx(span / ratio)
    assert span_for_sag_ratio(load, modulus, inertia, ratio) == pytest.approx(span)


def test_two_rows_of_books_stand_on_a_deep_shelf(kit) -> None:  # type: ignore[no-untyped-def]
    # A row is 8 in deep (Burgoyne): 15 15/16 in hold one, 16 two, 24 three. A load that is given stays.
    checks = kit.wall().settings.checks
    loads = [lasting_load(checks, inch(deep)) for deep in (4, "255/16", 16, 24)]
    assert [load / newton_per_mm(25, "foot") for load in loads] == pytest.approx([1, 1, 2, 3])
    given_load = replace(checks, given_load=GivenLoad(40, "foot"))
    assert lasting_load(given_load, inch(24)) == newton_per_mm(40, "foot")


def deck(kit, *along, span=40):  # type: ignore[no-untyped-def]
    """The bottom of a case between its sides, carried along some of its edges."""
    wall = shelf_wall(kit, span, thickness="1/2")
    does = Purpose(carries=Bears(("work/side-left", "work/side-right"), along))
    return replace(wall, parts=(*wall.parts[:2], replace(wall.parts[2], does=does)))


def test_a_bottom_whose_back_edge_is_free_sags_as_a_shelf(kit) -> None:  # type: ignore[no-untyped-def]
    # 1/2 red oak at 50 lb per sq ft and L/144 reaches 46.15 x 2/3 = 30.8 in (AWS 2009: 3/4 reaches 46).
    assert kit.severities("shelf-sag", deck(kit, span=31)) == ["error"]
    assert kit.severities("shelf-sag", deck(kit, "work/plinth", span=31)) == ["error"]
    assert kit.report("shelf-sag", deck(kit, "work/plinth", "work/rail", span=31)).looked_at == 0


def test_a_load_in_kilograms_a_metre_is_the_same_load() -> None:
    # 25 lb per ft = 37.2 kg per m (NIST SP 811: 1 lb = 0.45359237 kg, 1 ft = 0.3048 m).
    assert newton_per_mm(25, "foot") == pytest.approx(newton_per_mm(37.2, "metre"), rel=0.001)
