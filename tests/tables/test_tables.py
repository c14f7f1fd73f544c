"""The data files: every row has its source, its confidence and sensible figures, and is found by its
names.
"""

from __future__ import annotations

from fractions import Fraction
from importlib.resources import files

import pytest

from sheets.base.length import inch
from sheets.tables import bends, climates, loads, people
from sheets.tables.figures import figure
from sheets.tables.lumber import (
    hardwood_quarters,
    panel_sheets,
    softwood_boards,
    softwood_thicknesses,
    softwood_widths,
    stock_lengths,
    tongue_and_groove,
)
from sheets.tables.match import plain_name
from sheets.tables.panels import density_named, nearest_panels, panel_named, panels
from sheets.tables.read import CONFIDENCES, Cited, confidence, inches, rows, together
from sheets.tables.woods import may_be, trade_of, wood_groups, wood_named, woods

TABLES = sorted(
    each.name.removesuffix(".csv") for each in files("sheets.tables").iterdir() if each.name.endswith(".csv")
)


def test_there_are_tables() -> None:
    assert len(TABLES) >= 18


@pytest.mark.parametrize("name", TABLES)
def test_each_row_has_a_source_and_a_confidence(name: str) -> None:
    table = rows(name)
    assert table
    for row in table:
        assert row["source"].strip(), row
        assert row["confidence"] in CONFIDENCES, row
        assert None not in row, row
        assert all(value is not None for value in row.values()), row


@pytest.mark.parametrize("name", TABLES)
def test_a_from_memory_source_never_passes_as_confirmed(name: str) -> None:
    for row in rows(name):
        assert not ("from memory" in row["source"] and row["confidence"] == "confirmed"), row


def test_an_unknown_confidence_is_refused() -> None:
    with pytest.raises(ValueError, match="confidence"):
        confidence("fairly sure")


def test_citation_carries_its_mark() -> None:
    assert Cited("a code", "confirmed").text == "a code"
    assert Cited("a code", "from memory").text == "a code (from memory)"


def test_what_rests_on_several_figures_is_as_sure_as_the_weakest() -> None:
    sure, worked, recalled = (Cited(word, word) for word in ("confirmed", "computed", "from memory"))  # type: ignore[arg-type]
    assert together(sure, sure) == sure
    assert together(sure, worked).confidence == "computed"
    assert together(worked, recalled, sure) == Cited("computed; from memory; confirmed", "from memory")


def test_inches_are_exact() -> None:
    assert inches("1 1/2") == Fraction(381, 10)
    assert inches("0.703") == Fraction(703, 1000) * Fraction(127, 5)


def test_dressed_softwood_of_ps_20() -> None:
    # PS 20: a 1 x 6 is dressed to 3/4 x 5 1/2, a 2 x 4 to 1 1/2 x 3 1/2, a 1 x 8 to 7 1/4.
    thick = {size.nominal: size.dressed for size in softwood_thicknesses()}
    wide = {size.nominal: size.dressed for size in softwood_widths()}
    assert (thick["1"], wide["6"]) == (inch("3/4"), inch("11/2"))
    assert (thick["2"], wide["4"]) == (inch("3/2"), inch("7/2"))
    assert wide["8"] == inch("29/4")
    assert all(size.green is None or size.dressed < size.green for size in softwood_boards())


def test_hardwood_quarters_of_nhla() -> None:
    # NHLA: 4/4 surfaces to 13/16, 8/4 to 1 3/4.
    quarters = {row.name: row for row in hardwood_quarters()}
    assert quarters["4/4"].s2s == inch("13/16")
    assert quarters["8/4"].s2s == inch("7/4")
    assert all(row.s2s < row.rough for row in quarters.values())
    assert all(row.s1s is None or row.s2s < row.s1s < row.rough for row in quarters.values())


def test_tongue_and_groove_agrees_with_the_estimators_factors() -> None:
    # WWPA estimator: linear feet per square foot = 12 / face, board feet = nominal / face.
    for row in tongue_and_groove():
        face = row.face / inch(1)
        assert row.overall == row.face + row.tongue
        assert float(12 / face) == pytest.approx(row.feet_per_square_foot, abs=0.006)
        assert float(Fraction(row.nominal) / face) == pytest.approx(row.board_feet_per_square_foot, abs=0.006)


def test_sheets_lie_within_their_own_tolerance() -> None:
    assert panel_sheets()
    assert all(sheet.least <= sheet.thickness <= sheet.most for sheet in panel_sheets())
    assert {sheet.panel for sheet in panel_sheets("MDF")} == {"MDF"}


def test_stock_lengths_rise() -> None:
    for trade in ("softwood", "hardwood"):
        for series in ("inch", "mm"):
            sizes = [row.length for row in stock_lengths(trade, series)]  # type: ignore[arg-type]
            assert sizes == sorted(sizes)
            assert len(sizes) > 3


@pytest.mark.parametrize(
    ("written", "species"),
    [
        ("White Oak", "white oak"),
        ("oak, white", "white oak"),
        ("quarter sawn white oak", "white oak"),
        ("clear vertical grain Douglas fir", "Douglas-fir"),
        ("white oak, rift sawn", "white oak"),
        ("hard maple", "sugar maple"),  # Wood Handbook chapter 2: sugar maple is also called hard maple
        ("poplar", "yellow-poplar"),  # the same: also known as poplar, tulip-poplar and tulipwood
        ("douglas fir", "Douglas-fir"),
        ("Khaya", "african mahogany"),
        ("western red cedar", "western redcedar"),
        ("Alaska yellow-cedar", "yellow-cedar"),
        ("red elm", "slippery elm"),
        ("brazilian cherry", "jatoba"),
        ("pedunculate oak", "European oak"),
        ("Scotch pine", "Scots pine"),
    ],
)
def test_species_by_their_whole_trade_names(written: str, species: str) -> None:
    wood = wood_named(written)
    assert wood is not None
    assert wood.species == species


@pytest.mark.parametrize(
    "written",
    [
        "silk oak", "Tasmanian oak", "red white oak", "reclaimed barn oak", "Brazilian walnut",
        "African walnut", "mountain ash", "box elder maple", "santos mahogany", "Australian cypress",
        "huon pine", "Brazilian redwood", "poison oak", "Siberian larch", "marblewood", "bamboo", "", "clear",
        "quarter sawn",
    ],
)  # fmt: skip
def test_nothing_is_guessed_from_the_last_word(written: str) -> None:
    assert wood_named(written) is None
    assert trade_of(written) is None


@pytest.mark.parametrize(
    ("written", "among", "trade"),
    [
        ("oak", "European oak", "hardwood"),
        ("pine", "ponderosa pine", "softwood"),
        ("cedar", "Spanish-cedar", None),  # a hardwood among softwoods
        ("soft maple", "silver maple", "hardwood"),
        ("quarter sawn oak", "red oak", "hardwood"),
        ("cherry", "black cherry", "hardwood"),
        ("mahogany", "african mahogany", "hardwood"),
    ],
)
def test_a_name_of_several_woods_is_none_of_them(written: str, among: str, trade: str | None) -> None:
    assert wood_named(written) is None
    assert among in may_be(written)
    assert trade_of(written) == trade


def test_unknown_names_have_their_nearest() -> None:
    assert may_be("wite oak")[0] == "white oak"
    assert may_be("swamp white oak") == ("white oak",)
    assert may_be("qqqq") == ()
    assert nearest_panels("birch plywood, WBP")[0] == "birch plywood"
    assert nearest_panels("felt") == ()


def test_one_word_of_several_is_no_hint() -> None:
    # Tasmanian oak is a eucalypt, Brazilian walnut an ipe; bending plywood carries nothing (common practice).
    assert may_be("Tasmanian oak") == may_be("Brazilian walnut") == may_be("wood of unknown make") == ()
    assert nearest_panels("bending plywood") == ()


@pytest.mark.parametrize(
    "written", ["mystery board", "bending plywood", "plywood bent", "honeycomb MDF", "lightweight MDF", "ply"]
)
def test_panels_are_matched_whole(written: str) -> None:
    assert panel_named(written, hardwood_face=True) is None


@pytest.mark.parametrize(
    ("written", "panel"),
    [
        ("Plywood", "veneer-core plywood"),
        ("Baltic birch", "birch plywood"),
        ("medium-density fibreboard", "MDF"),
        ("chipboard", "particleboard"),
        ("fir plywood", "softwood plywood"),
    ],
)
def test_panels_by_their_whole_names(written: str, panel: str) -> None:
    found = panel_named(written, hardwood_face=False)
    assert found is not None
    assert found.panel == panel


def test_stones_are_matched_whole() -> None:
    assert density_named("felt") is None
    assert density_named("printed slate") is None
    honed = density_named("Honed slate")
    assert honed is not None
    assert honed.material == "slate"


def test_groups_name_woods_of_the_table_and_are_no_wood() -> None:
    species = {wood.species for wood in woods()}
    names = {name for wood in woods() for name in wood.names}
    for group in wood_groups():
        assert set(group.may_be) <= species, group
        assert plain_name(group.name) not in names, group


def test_weights_at_twelve_percent() -> None:
    # Wood Handbook chapter 4: G(12) = G_b / (1 - 0.265 x 0.6 x G_b), weight 1120 G(12).
    # Sapele: 0.55 / (1 - 0.08745) = 0.60271, 675.0 kg/m3. Teak the same. True mahogany: 0.45 / 0.92845 =
    # 0.48468, 542.8. Red oak is on its volume at 12 %: 0.63 x 1120 = 705.6. European oak is weighed: 675.
    weights = {"sapele": 675.0, "teak": 675.0, "Honduran mahogany": 542.8, "red oak": 705.6}
    for species, weight in weights.items():
        wood = wood_named(species)
        assert wood is not None
        assert wood.kg_per_m3 == pytest.approx(weight, abs=0.1)
    european = wood_named("European oak")
    assert european is not None
    assert european.kg_per_m3 == 675


def test_no_two_species_answer_to_one_name() -> None:
    names = [name for wood in woods() for name in wood.names]
    assert len(names) == len(set(names))


def test_species_figures_are_sensible() -> None:
    for wood in woods():
        assert 0.0007 < wood.radial < wood.tangential < 0.0045, wood.species
        assert 0.75 < wood.e_million_psi < 2.5, wood.species
        assert 6000 < wood.mor_psi < 24000, wood.species
        assert 300 < wood.kg_per_m3 < 950, wood.species


def test_panels_by_face() -> None:
    faced, plain = (panel_named("plywood", hardwood_face=each) for each in (True, False))
    assert faced is not None
    assert plain is not None
    assert (faced.e_million_psi, plain.e_million_psi) == (1.80, 0.95)
    assert all(300 < panel.kg_per_m3 < 1000 for panel in panels())
    honed = density_named("honed slate")
    assert honed is not None
    assert honed.kg_per_m3 == pytest.approx(2755, abs=1)


def test_climates() -> None:
    for climate in climates.climates():
        assert climate.dry.humidity_pct < climate.damp.humidity_pct
        assert 0 < climate.installed_pct < 15
    assert len({climates.climate_named(name).region for name in ("most", "dry", "damp")}) == 3
    with pytest.raises(KeyError):
        climates.climate_named("lunar")


def test_loads_and_creep() -> None:
    books = loads.shelf_load("books")
    assert books.newton_per_mm == pytest.approx(25 * 4.4482216 / 304.8)
    assert books.standard_newton_per_mm2 == pytest.approx(50 * 4.4482216 / 304.8**2)
    with pytest.raises(KeyError):
        loads.shelf_load("anvils")
    # 0.02 in and 1/32 in per foot of 12 in.
    assert loads.sag_limit("aim").value == 12 / 0.02
    assert loads.sag_limit("years").value == 12 * 32


@pytest.mark.parametrize(
    ("product", "kdef"),
    [
        # EN 1995-1-1 table 3.2, service classes 1, 2 and 3; plywood of EN 636 parts 1, 2, 3; OSB/2 and /3;
        # particleboard P4 and P5; MDF.LA and .HLS; HB.LA and .HLA. None: the product is not made for it.
        ("solid wood", (0.60, 0.80, 2.00)),
        ("plywood", (0.80, 1.00, 2.50)),
        ("OSB", (2.25, 2.25, None)),
        ("particleboard", (2.25, 3.00, None)),
        ("MDF", (2.25, 3.00, None)),
        ("hardboard", (2.25, 3.00, None)),
    ],
)
def test_creep_of_table_3_2(product: str, kdef: tuple[float | None, ...]) -> None:
    for service, wanted in enumerate(kdef, 1):
        found = loads.creep_of(product, service)  # type: ignore[arg-type]
        assert (found and (found.kdef, found.factor)) == (wanted and (wanted, 1 + wanted))


def test_every_panel_has_its_own_creep() -> None:
    assert {panel.creeps_as for panel in panels()} <= {row.product for row in loads.creeps()}


def test_people() -> None:
    assert all(each.least < each.most for each in people.ranges())
    heights = [each.clear_height for each in people.book_formats()]
    assert heights == sorted(heights)


def test_plywood_bends_take_the_next_thicker_row() -> None:
    bend = bends.plywood_bend(inch("9/32"))
    assert bend is not None
    assert bend.thickness == inch("5/16")
    assert bends.plywood_bend(inch(2)) is None


def test_figures_by_name() -> None:
    assert figure("fireplace", "hearth front small").value == inch(16)
    with pytest.raises(KeyError):
        figure("fireplace", "no such figure")
