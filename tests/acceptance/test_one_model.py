"""One model: schedule, views and solids speak of the same parts."""

from __future__ import annotations

import csv
from collections import defaultdict
from fractions import Fraction
from itertools import combinations
from pathlib import Path

import pdfplumber
import pytest
from pypdf import PdfReader

from sheets.drawing.items import Symbol, Viewport
from sheets.drawing.walk import ungrouped
from sheets.geometry.contact import intersection_volume, touching
from sheets.geometry.solid import bounds
from tests.acceptance.stages import staged
from tests.acceptance.test_dimensions_tell_the_truth import INCH, size_of

TOUCH_MM = 0.05


def near(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return all(
        one[2 * i] <= other[2 * i + 1] + TOUCH_MM and other[2 * i] <= one[2 * i + 1] + TOUCH_MM
        for i in range(3)
    )


def test_each_mark_of_the_schedule_is_in_a_view_and_the_other_way_round(drawn: Path, spec: Path) -> None:
    with open(drawn / spec.stem / "parts.csv", encoding="utf-8", newline="") as file:
        listed = {row["mark"] for row in csv.DictReader(file)}
    _, _, drawing = staged(spec)
    shown = {
        item.fields["mark"]
        for sheet in drawing.sheets
        for viewport in sheet.items
        if isinstance(viewport, Viewport)
        for item in ungrouped(viewport.items)
        if isinstance(item, Symbol) and item.kind == "part balloon"
    }
    assert listed
    assert shown == listed


def test_the_sizes_and_the_count_of_each_row_are_those_of_its_solids(drawn: Path, spec: Path) -> None:
    wall, _, _ = staged(spec)
    unit_mm = INCH if wall.units == "inch" else Fraction(1)
    solids: dict[str, list[list[float]]] = defaultdict(list)
    bent = {part.mark for part in wall.parts if part.bend is not None}  # a row says them as they lie flat
    for part in wall.parts:
        if part.maker == "shop":
            box = bounds(part.solid)
            solids[part.mark].append(sorted(box[2 * i + 1] - box[2 * i] for i in range(3)))
    with open(drawn / spec.stem / "parts.csv", encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    counted: dict[str, int] = defaultdict(int)  # alike pieces of several cases have a row in each
    for row in rows:
        counted[row["mark"]] += int(row["quantity"])
    assert counted == {mark: len(alike) for mark, alike in solids.items()}
    for row in rows:
        sizes = sorted(float(row[f"{name}_mm"]) for name in ("thickness", "width", "length"))
        for solid in solids[row["mark"]] if row["mark"] not in bent else ():
            assert solid == pytest.approx(sizes, abs=0.01), row["mark"]
        for name in ("thickness", "width", "length"):
            rounded = "≈" in row[name]
            said = float(size_of(row[name], unit_mm))
            assert said == pytest.approx(float(row[f"{name}_mm"]), abs=1.6 if rounded else 0.001), row["mark"]


def test_left_is_left_on_every_view_from_the_room(drawn: Path) -> None:
    """Of two unlike cases the tall one stands at the left: its marks are left of the other's."""
    folder = drawn / "vault-unlike-sides"
    with open(folder / "parts.csv", encoding="utf-8", newline="") as file:
        marks: dict[str, set[str]] = defaultdict(set)
        for row in csv.DictReader(file):
            marks[row["assembly"]].add(row["mark"])
    tall, low = marks["TALL CASE"], marks["LOW CASE"]
    assert tall
    assert low
    with pdfplumber.open(folder / "vault-unlike-sides.pdf") as pdf:
        page = pdf.pages[PdfReader(folder / "vault-unlike-sides.pdf").page_labels.index("Z-101")]
        places = {word["text"]: word["x0"] for word in page.extract_words()}
    left = [places[mark] for mark in tall & places.keys()]
    right = [places[mark] for mark in low & places.keys()]
    assert len(left) > 2
    assert len(right) > 2
    assert max(left) < min(right)


def test_no_two_parts_share_a_place(spec: Path) -> None:
    wall, _, _ = staged(spec)
    boxes = {part.key: bounds(part.solid) for part in wall.parts}
    pairs = [(a, b) for a, b in combinations(wall.parts, 2) if near(boxes[a.key], boxes[b.key])]
    assert len(pairs) > len(wall.parts)
    clashes = [(a.key, b.key) for a, b in pairs if intersection_volume(a.solid, b.solid) > 1.0]
    assert not clashes


def test_nothing_floats(spec: Path) -> None:
    """From the room's own faces, contact reaches every part."""
    wall, _, _ = staged(spec)
    boxes = {part.key: bounds(part.solid) for part in wall.parts}
    held = {part.key for part in wall.parts if part.maker == "room"}
    assert held
    loose = [part for part in wall.parts if part.key not in held]
    while True:
        caught = [
            part
            for part in loose
            if any(
                other.key in held
                and near(boxes[part.key], boxes[other.key])
                and touching(part.solid, other.solid, TOUCH_MM)
                for other in wall.parts
            )
        ]
        if not caught:
            break
        held |= {part.key for part in caught}
        loose = [part for part in loose if part.key not in held]
    assert [part.key for part in loose] == []


def test_the_mirrored_side_is_the_exact_mirror() -> None:
    wall, _, _ = staged(Path(__file__).resolve().parents[2] / "specs" / "cider-house.yaml")
    twins = [part for part in wall.parts if part.twin]
    assert twins
    for part in twins:
        other = wall.part(part.twin).extent
        assert (part.extent.x0, part.extent.x1) == (-other.x1, -other.x0)
        assert part.extent.span("y") == other.span("y")
        assert part.extent.span("z") == other.span("z")
