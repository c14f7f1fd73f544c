"""Facts of the trade can be read off the set. All values: common practice, no source."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from sheets.drawing.items import Dimension, Viewport
from tests.acceptance.conftest import HERE
from tests.acceptance.stages import staged

SPEC = HERE / "specs" / "trade-facts.yaml"
INCH = Fraction(127, 5)


@pytest.fixture(scope="module")
def printed() -> dict[str, set[Fraction]]:
    """The sizes printed, in inches, by kind of view."""
    _, _, drawing = staged(SPEC)
    found: dict[str, set[Fraction]] = {}
    for sheet in drawing.sheets:
        for viewport in sheet.items:
            if isinstance(viewport, Viewport):
                for item in viewport.items:
                    if isinstance(item, Dimension) and item.kind == "linear":
                        kind = viewport.id.split("/")[0]
                        found.setdefault(kind, set()).add(Fraction(item.value) / INCH)
    return found


@pytest.mark.parametrize(("what", "inches"), [
    ("landscape opening, width", Fraction(60)),
    ("landscape opening, height", Fraction(13)),
    ("its sill, seen from a chair", Fraction(35, 2)),
    ("breast proud of the cases", Fraction(9, 2)),
    ("corbel width", Fraction(7)),
    ("very shallow curve of the corbel", Fraction(1, 2)),
    ("saw cut width", Fraction(1, 8)),
    ("band of the fascia: (6 3/4 - 2 x 1/8) / 3", Fraction(13, 6)),
    ("ceiling rise", Fraction(16)),
])
def test_the_size_is_on_a_sheet(printed: dict[str, set[Fraction]], what: str, inches: Fraction) -> None:
    sizes = set().union(*printed.values())
    if inches.denominator not in (1, 2, 4, 8, 16):  # lands on the 1/16 in grid, the rest placed symmetrically
        grid = Fraction(1, 16)
        assert any(abs(size - inches) <= grid for size in sizes), what
    else:
        assert inches in sizes, what


def test_the_caps_are_of_the_contrasting_wood(drawn: Path) -> None:
    with open(drawn / SPEC.stem / "parts.csv", encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    caps = [row for row in rows if "cap" in row["name"].lower() and "stile" not in row["name"].lower()]
    assert caps
    assert all("walnut" in row["material"].lower() for row in caps)


def test_shelves_are_fixed_and_housed(drawn: Path) -> None:
    """A dado is cut in the side, so the side's row lists it; the shelf's row says what it sits in."""
    with open(drawn / SPEC.stem / "parts.csv", encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    shelves = [row for row in rows if row["name"].lower().startswith("shelf")]
    assert sum(int(row["quantity"]) for row in shelves) == 8
    assert all("fixed in dado" in row["notes"].lower() for row in shelves)
    sides = [row for row in rows if row["name"].lower() == "side"]
    assert sum(int(row["quantity"]) for row in sides) == 4
    assert all('4 dado 1"' in row["joints"] and '1/4" deep' in row["joints"] for row in sides)


def test_the_surround_runs_to_the_floor_and_stops_the_baseboard() -> None:
    wall, _, _ = staged(SPEC)
    stone = [part for part in wall.parts if part.assembly.startswith("surround")]
    surround = [part for part in stone if part.maker == "others"]
    assert min(part.extent.z0 for part in surround) == 0
    edge = max(part.extent.x1 for part in surround)
    boards = [part for part in wall.parts if part.role == "baseboard"]
    assert all(part.extent.x0 >= edge or part.extent.x1 <= -edge for part in boards)
