"""The same wall written in inches and in millimetres gives the same findings, each text read as a user's."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from sheets.base.length import inch
from sheets.checks.finding import Finding
from sheets.checks.run import run_checks
from sheets.grammar.defaults import canonical
from sheets.pipeline import solve
from tests.acceptance.conftest import SPECS

Said = tuple[str, str, tuple[str | int, ...], tuple[str, ...], str, str]


# A size with its unit, and what a load is per.
_SIZES = re.compile(r"[\d'\"./\- ≈]+|mm|N/|\b(?:in|lb|kg|N|kN|m2|per|sq|ft)\b")


def written(spec: Path, units: str, folder: Path) -> Path:
    """The spec with every default told, its lengths in these units, as a file."""
    solved = solve(spec)
    assert solved.spec is not None
    changed: dict[str, object] = {
        "units": units,
        "codes": "IRC",
        "dimensions": "mm" if units == "mm" else "feet-inches",
    }
    if units != solved.spec.units:
        # What derived sizes land on cannot be the same: the finest that each trade's rule has.
        changed["precision"] = Fraction(1, 10) if units == "mm" else inch("1/64")
    path = folder / f"{spec.stem}-{units}.yaml"
    path.write_text(canonical(solved.spec.model_copy(update=changed)), "utf-8")
    return path


def findings(path: Path) -> list[Finding]:
    solved = solve(path)
    assert solved.wall is not None, [each.message for each in solved.diagnostics]
    return [each for report in run_checks(solved.wall, solved.source.place_of) for each in report.findings]


def said(found: list[Finding]) -> list[Said]:
    """All of a finding but the sizes in its words, which are in each trade's units, and its line: a mapping
    that is too long for one line in one unit is written on several, so the place is told by its path."""
    return sorted(
        (
            each.rule,
            each.severity,
            each.made_from.path,
            each.subjects,
            each.cited.text,
            _SIZES.sub("", each.message),
        )
        for each in found
    )


def is_of_the_trades_stock(one: Said) -> bool:
    """Whether a finding is of the sizes of boards, which are sold in others in each trade.

    Source: PS 20 dresses 2 in softwood to 1 1/2 in (38 mm), and 12 in wide to 11 1/4 (286 mm); EN 1313 has
    its own series of thicknesses and widths.
    """
    return one[0] == "stock-sizes"


@pytest.mark.parametrize("spec", SPECS, ids=lambda path: path.stem)
def test_the_same_wall_gives_the_same_findings(spec: Path, tmp_path: Path) -> None:
    texts = {units: written(spec, units, tmp_path) for units in ("inch", "mm")}
    assert "units: mm" in texts["mm"].read_text("utf-8")
    inches, metric = (findings(texts[units]) for units in ("inch", "mm"))
    assert len(inches) >= 2
    only_one = set(said(inches)) ^ set(said(metric))
    assert {one for one in only_one if not is_of_the_trades_stock(one)} == set()
    assert not [each.message for each in metric if '"' in each.message]
    assert not [each.message for each in inches if re.search(r"\d mm\b", each.message)]


_OTHERS = {
    "mm": re.compile(r"\b(?:lbs?|ft|feet|foot|inch|inches|Fahrenheit)\b|\d[\"']|\d in\b(?! \d)"),
    "inch": re.compile(r"\b(?:mm|cm|kg|metres?|m2|N)\b"),
}
SHELF_OVER_A_HEARTH = """
project: {title: Shelf over a hearth, date: 2026-03-01}
units: mm
materials: {oak: {species: European oak}, tile: {masonry: porcelain tile, thickness: 12}}
room: {width: 4200, ceiling: {height: 2500}}
fireplace: {opening: {width: 700, height: 600}, sill: 200, appliance: masonry}
surround: {material: tile, width: 1100, to_floor: true, hearth: {projection: 300, thickness: 50}}
mantel: {top: 1100, breast: 150, layers: {cap: {thickness: 40, overhang: 200}}, material: oak}
"""


@pytest.mark.parametrize("units", ["inch", "mm"])
def test_what_is_said_is_in_the_units_of_the_wall(units: str, tmp_path: Path) -> None:
    """Also of a wall under no code, which most rules have something to say of."""
    over = tmp_path / "over-a-hearth.yaml"
    over.write_text(SHELF_OVER_A_HEARTH, "utf-8")
    said_in_all = 0
    for spec in (*SPECS, over):
        for each in findings(written(spec, units, tmp_path)):
            said_in_all += 1
            for words in (each.message, each.cure or ""):
                assert not _OTHERS[units].search(words), words
    assert said_in_all > 50
