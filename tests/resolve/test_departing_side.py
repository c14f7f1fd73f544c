"""A mirrored case that departs on the right: what departs is built anew, all else is the mirror of the left.

The case is 30 in wide and 60 in high, two shelves on the left, three or more
on the right. By hand: what is said under `right` and nothing else may differ.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from sheets.base.length import inch
from sheets.base.stopwatch import Stopwatch
from sheets.checks.run import run_checks
from sheets.grammar.reader import read_spec_text
from sheets.model.part import Extent
from sheets.model.wall import Wall
from sheets.pipeline import solve_reading

HEAD = """\
project: {title: Two cases, date: 2026-01-19}
room: {width: 100, ceiling: {height: 96}}
cases:
"""
BOOK = (
    "name: book, mirrored: true, width: 30, height: 60, plinth: {height: 4}, shelves: {count: 2}, backer: {}"
)


def wall_of(right: str) -> Wall:
    case = f"  - {{{BOOK}, {right}}}\n" if right else f"  - {{{BOOK}}}\n"
    solved = solve_reading(read_spec_text(HEAD + case), Stopwatch(), lambda _: None)
    assert solved.wall is not None, solved.diagnostics
    return solved.wall


def codes_of(case: str) -> list[tuple[str, str]]:
    found = read_spec_text(HEAD + f"  - {{{case}}}\n")[2]
    return [(one.code, ".".join(map(str, one.path or ()))) for one in found if one.severity == "error"]


def mirror_of(extent: Extent) -> Extent:
    return replace(extent, x0=-extent.x1, x1=-extent.x0)


def sides(wall: Wall) -> tuple[dict[str, Extent], dict[str, Extent]]:
    """The pieces on the left, where the mirror shows them, and those on the right, by key below the case."""
    left = {p.key[len("cases/book/left/") :]: mirror_of(p.extent) for p in wall.parts
            if p.assembly == "cases/book/left"}  # fmt: skip
    right = {p.key[len("cases/book/right/") :]: p.extent for p in wall.parts
             if p.assembly == "cases/book/right"}  # fmt: skip
    swapped = {"-".join({"left": "right", "right": "left"}.get(w, w) for w in key.split("-")): box
               for key, box in left.items()}  # fmt: skip
    return swapped, right


def test_one_shelf_more_on_the_right_moves_its_shelves_and_nothing_else() -> None:
    left, right = sides(wall_of("right: {shelves: {count: 3}}"))
    assert right.keys() - left.keys() == {"shelf-3"}
    # Bays of more than 16 in between two shelves want rails to hold the boards; lower ones do not.
    assert left.keys() - right.keys() == {"nailing-rail-1", "nailing-rail-2", "nailing-rail-3"}
    other = {key for key in left.keys() & right.keys() if left[key] != right[key]}
    assert other == {"shelf-1", "shelf-2"}


def test_boards_of_the_back_are_laid_from_the_side_wall_on_both_sides() -> None:
    wall = wall_of("right: {shelves: {count: 3}}")
    left, right = sides(wall)
    boards = [key for key in right if key.startswith("board-")]
    assert len(boards) >= 3
    assert all(right[key] == left[key] for key in boards)
    first = right["board-1"]
    assert first.x1 > max(right[key].x1 for key in boards if key != "board-1"), "the first is at the wall"


def test_what_is_said_lies_over_what_the_left_says() -> None:
    wall = wall_of("right: {height: 48, plinth: {setback: 1}, shelves: {thickness: 1}}")
    heights = {c.hand: c.extent.z1 for c in wall.components if c.kind.letter == "C"}
    assert heights == {"left": inch(60), "right": inch(48)}
    plinth = wall.part("cases/book/right/plinth")
    assert plinth.extent.size("z") == inch(4), "its height is the left's"
    shelves = [p for p in wall.parts if p.role == "shelf" and "/right/" in p.key]
    assert [p.thickness for p in shelves] == [inch(1), inch(1)], "so is their count"


def test_a_departure_that_says_nothing_else_is_none() -> None:
    assert wall_of("right: {shelves: {count: 2}}").components == wall_of("").components


def test_it_is_an_exception_that_the_spec_declares() -> None:
    """Without it, each shelf that has no mirror image would be a warning."""
    said = [
        (finding.severity, finding.message)
        for report in run_checks(wall_of("right: {shelves: {count: 3}}"))
        for finding in report.findings
        if finding.rule == "symmetry"
    ]
    assert said == [
        (
            "note",
            "book case, right is built otherwise than book case, left: an exception that the spec declares",
        )
    ]


@pytest.mark.parametrize(
    ("case", "told"),
    [
        (f"{BOOK}, right: {{shelfs: {{count: 3}}}}", [("unknown-key", "cases.0.right.shelfs")]),
        (f"{BOOK}, right: {{width: 20}}", [("unknown-key", "cases.0.right.width")]),
        (f"{BOOK}, right: {{shelves: {{count: 99}}}}", [("out-of-range", "cases.0.right.shelves.count")]),
        (f"{BOOK}, right: 3", [("wrong-type", "cases.0.right")]),
        (f"{BOOK.replace('count: 2', 'count: few')}, right: {{depth: 9}}",
         [("not-a-count", "cases.0.shelves.count")]),
        (f"{BOOK.replace('height: 60', 'height: 200')}, right: {{depth: 9}}",
         [("too-high", "cases.0.height")]),
        (f"{BOOK.replace('mirrored: true', 'mirrored: false')}, right: {{depth: 9}}",
         [("case-place", "cases.0.right")]),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_once_and_where_it_is_written(case: str, told: list[tuple[str, str]]) -> None:
    assert codes_of(case) == told
