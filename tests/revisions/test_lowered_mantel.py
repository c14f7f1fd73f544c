"""A mantel built lower is the same mantel: its pieces only moved, its details and patterns are the same
sheets.

Sizes in inches end in 5 at many digits, where arithmetic could fall to either side.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from sheets.commands.one_set import draw
from sheets.drawing.dump import sheet_hash
from sheets.pipeline import solve
from sheets.revisions.comparing.compare import part_kinds
from tests.drawn import drawn

SPEC = Path(__file__).parents[1] / "acceptance" / "specs" / "lined-arch.yaml"


@pytest.fixture(scope="module")
def lower(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("lower") / "wall.yaml"
    text = SPEC.read_text("utf-8")
    assert text.count("top: 62\n") == 1
    path.write_text(text.replace("top: 62\n", "top: 61\n"), "utf-8")
    return path


def test_its_pieces_moved_and_only_what_stands_under_it_was_cut_shorter(lower: Path) -> None:
    before, after = ({p.key: p for p in solve(path).wall.parts} for path in (SPEC, lower))
    changed = {key: kinds for key in before if (kinds := part_kinds(before[key], after[key]))}
    assert {key for key, kinds in changed.items() if kinds != ("moved",)} == {
        "surround/slab",
        *(
            f"mantel/post-{piece}"
            for piece in ("face-left", "face-right", "packing-left", "packing-right", "side-left-inner",
                          "side-left-outer", "side-right-inner", "side-right-outer")
        ),
    }  # fmt: skip
    assert {key.split("/")[0] for key in changed} == {"surround", "mantel"}


def test_its_details_and_patterns_are_the_same_sheets(lower: Path) -> None:
    before, after = ({s.number: s for s in made.drawing.sheets} for made in (drawn(SPEC), draw(lower)))
    assert before.keys() == after.keys()
    same = {number for number in before if sheet_hash(before[number]) == sheet_hash(after[number])}
    assert {s.number for s in before.values() if s.title in ("DETAILS", "PATTERNS")} <= same
    assert "Z-201" not in same
