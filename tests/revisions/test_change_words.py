"""What a comparison says, as a joiner reads it: from what to what, in the set's units, nothing told twice.

Each case is a small wall edited in one place; what is expected is the edit, said by hand.
"""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from sheets.base.length import inch
from sheets.checks.finding import Finding
from sheets.commands.comparison import Compared, as_called_by, as_json, compared, text
from sheets.commands.given import Given, given
from sheets.model.wall import Wall
from sheets.revisions.comparing.change_json import to_json
from sheets.revisions.comparing.change_words import take_off_text, to_text
from sheets.revisions.comparing.changes import TakeOffLine
from sheets.revisions.comparing.compare import compare
from sheets.revisions.comparing.reason import summary
from sheets.revisions.keeping.record import Record

MANTEL = """\
project: {title: Mantel, date: 2026-01-19}
precision: 1/16
materials:
  oak: {species: white oak, finish: clear}
  slate: {masonry: slate, thickness: 3/4}
room: {width: 100, ceiling: {height: 96}}
fireplace:
  opening: {width: 36, height: 28}
  appliance: listed gas
  listing: {mantel: [{projection: 6, above: 8}, {projection: 9, above: 12}]}
surround: {width: 52}
mantel: {top: 54, breast: 7, width: 60, posts: {width: 5}}
notes:
  - Feild verify all openings.
"""


def turned(home: Path, old: str, new: str, before: str = MANTEL) -> tuple[Compared, Given, Given]:
    assert before.count(old) == 1
    for name, said in (("was.yaml", before), ("now.yaml", before.replace(old, new))):
        (home / name).write_text(said, "utf-8")
    was, now = given(str(home / "was.yaml")), given(str(home / "now.yaml"))
    assert now.solved.wall is not None, now.diagnostics
    was = as_called_by(now, was)
    return compared(was, now), was, now


def said(home: Path, old: str, new: str, before: str = MANTEL) -> list[str]:
    found, was, now = turned(home, old, new, before)
    return [line.strip() for line in text(found, was, now).splitlines()]


def test_a_row_of_the_listing_is_said_in_inches(tmp_path: Path) -> None:
    lines = said(tmp_path, "{projection: 6, above: 8}", "{projection: 6, above: 7}")
    assert 'above the opening at a projection of 6", from the listing 8" to 7"' in lines
    assert not [line for line in lines if "mm" in line]


def test_a_list_of_lengths_is_said_as_lengths(tmp_path: Path) -> None:
    lines = said(tmp_path, "precision: 1/16\n", "precision: 1/16\nstock: {board_lengths: [8', 9']}\n")
    (told,) = (line for line in lines if line.startswith("stock, board lengths "))
    assert told.endswith(" to 8'-0\", 9'-0\"")
    assert "/" not in told, "no raw fraction of a millimetre"


def test_another_finish_is_said_as_that(tmp_path: Path) -> None:
    found, was, now = turned(tmp_path, "finish: clear", "finish: oil")
    lines = text(found, was, now)
    assert "finish clear to oil" in lines
    assert "other material" not in lines
    assert summary(found.changes, found.before, found.after) == "Mantel: finish clear to oil"


def test_another_species_is_another_material(tmp_path: Path) -> None:
    lines = said(tmp_path, "species: white oak", "species: black walnut")
    told = [line for line in lines if line.startswith("other material")]
    assert told
    assert all("white oak, plain sawn, clear to black walnut, plain sawn, clear" in line for line in told)


def test_a_note_that_was_corrected_is_one_change(tmp_path: Path) -> None:
    found, was, now = turned(tmp_path, "Feild", "Field")
    (word,) = found.changes.words
    assert (word.before, word.after) == ("Feild verify all openings.", "Field verify all openings.")
    line = "note corrected from “Feild verify all openings.” to “Field verify all openings.”"
    assert line in text(found, was, now)
    assert summary(found.changes, found.before, found.after) == "Note corrected"


def test_a_note_that_says_another_thing_is_two_changes(tmp_path: Path) -> None:
    lines = said(tmp_path, "Feild verify all openings.", "Hearth by others.")
    assert "note added: Hearth by others." in lines
    assert "note removed: Feild verify all openings." in lines


@pytest.mark.parametrize(
    ("pieces", "amounts", "told"),
    [
        ((50, 50), (20, 21), "oak, 4/4: 20.0 to 21.0 BD FT, 50 pieces"),
        ((50, 52), (20, 20), "oak, 4/4: 20.0 BD FT, 50 to 52 pieces"),
        ((0, 1), (0, 2), "oak, 4/4: 0.0 to 2.0 BD FT, 0 to 1 pieces"),
        ((1, 1), (2, 3), "oak, 4/4: 2.0 to 3.0 BD FT, 1 piece"),
    ],
)
def test_what_is_the_same_on_both_sides_is_said_once(
    pieces: tuple[int, int], amounts: tuple[int, int], told: str
) -> None:
    was, now = (inch(1) / inch(1) * amount for amount in amounts)
    assert take_off_text(TakeOffLine("oak", "4/4", "BD FT", *pieces, was, now)) == told


def test_sizes_in_json_are_numbers(tmp_path: Path) -> None:
    found, was, now = turned(tmp_path, "top: 54", "top: 53")
    content = json.loads(as_json(found, was, now))
    (size,) = [one for one in content["sizes"] if one["what"] == "top"]
    # 54 x 25.4 and 53 x 25.4
    assert (size["from"], size["to"], size["unit"]) == (1371.6, 1346.2, "mm")
    group = next(one for one in content["groups"] if one["assembly"] == "MANTEL")
    assert {"owner": "mantel", "what": "top", "from": 1371.6, "to": 1346.2, "unit": "mm"} in group["sizes"]


def test_the_room_is_told_by_its_sizes_never_as_pieces_that_moved(tmp_path: Path) -> None:
    lines = said(tmp_path, "breast: 7", "breast: 8")
    assert not [line for line in lines if "Floor" in line or "Ceiling" in line or "wall" in line.lower()]
    lower = said(tmp_path, "height: 96", "height: 95")
    assert "ceiling height 8'-0\" to 7'-11\"" in lower
    assert not [line for line in lower if line.startswith(("moved: Ceiling", "resized"))]


def test_marks_are_told_in_the_step_that_retires_them_alone(tmp_path: Path) -> None:
    found, was, now = turned(tmp_path, ", posts: {width: 5}", "")
    gone = found.retired_now
    assert gone
    assert "MARKS RETIRED" in text(found, was, now)
    kept = {part.key: part.mark for part in found.after.parts if part.mark}
    old = replace(now, record=Record("B", "", "", "", marks=kept, retired=gone))
    (tmp_path / "next.yaml").write_text(
        (tmp_path / "now.yaml").read_text("utf-8").replace("top: 54", "top: 53"), "utf-8"
    )
    later = given(str(tmp_path / "next.yaml"))
    again = compared(old, later)
    assert again.retired == gone, "they are kept"
    assert again.retired_now == ()
    assert "MARKS RETIRED" not in text(again, old, later)


def test_another_unit_is_no_change_of_what_is_built(tmp_path: Path) -> None:
    """The same sizes, rounded to whole millimetres (by 0.5 mm at most) and to 1/16 in (by 0.8)."""
    exact = MANTEL.replace("{width: 36, height: 28}", '{width: 36", height: 28"}')
    old, new = tmp_path / "inch.yaml", tmp_path / "mm.yaml"
    old.write_text(exact, "utf-8")
    new.write_text(
        "units: mm\n" + _with_inches(exact).replace("precision: 1/16\n", "precision: 1\n"), "utf-8"
    )
    was, now = given(str(old)), given(str(new))
    assert now.solved.wall is not None, now.diagnostics
    found = compared(was, now)
    resized = [c for c in found.changes.parts if "resized" in c.kinds and c.part.maker == "shop"]
    for change in resized:
        assert change.before is not None
        assert change.after is not None
        pairs = zip(_sizes(change.before), _sizes(change.after), strict=True)
        # (25.4 / 16 + 1) / 2 = 1.29375
        assert max(abs(a - b) for a, b in pairs) > 1.29
    lines = text(found, was, now)
    assert "units inch to mm" in lines
    assert 'precision 1/16" to 1' in lines
    assert "THE PRECISION IS ANOTHER" in lines
    assert found.changes.take_off == ()


def _with_inches(spec: str) -> str:
    import re

    head, tail = spec.split("room:")
    tail = re.sub(r"(: )(\d+)(?=[,}])", r"\1\2 in", tail)
    return head.replace("thickness: 3/4", "thickness: 3/4 in") + "room:" + tail


def _sizes(part: object) -> tuple[float, ...]:
    return tuple(float(getattr(part, name)) for name in ("thickness", "width", "length"))


def finding(message: str, *subjects: str) -> Finding:
    return Finding("stock-sizes", "note", message, "", None, None, subjects)  # type: ignore[arg-type]


def marked(wall: Wall, key: str, mark: str) -> Wall:
    return replace(wall, parts=tuple(replace(p, mark=mark) if p.key == key else p for p in wall.parts))


LEFT, RIGHT = "cases/flanking/left/shelf-1", "cases/flanking/right/shelf-1"


def test_a_finding_whose_mark_alone_is_another_is_no_news(wall: Wall) -> None:
    from sheets.checks.wording import called

    was, now = marked(wall, LEFT, "C2"), marked(wall, LEFT, "C9")
    one, other = (finding(f"{called(w.part(LEFT))} is wide", LEFT) for w in (was, now))
    assert one.message != other.message
    found = compare(was, now, [one], [other])
    assert (found.lost, found.gained, found.restated) == ((), (), ())


def test_nor_is_one_that_is_told_in_two_where_it_was_told_in_one(wall: Wall) -> None:
    from sheets.checks.wording import called

    left, right = called(wall.part(LEFT)), called(wall.part(RIGHT))
    together = finding(f"{left} is wide; 1 more alike", LEFT, RIGHT)
    apart = [finding(f"{left} is wide", LEFT), finding(f"{right} is wide", RIGHT)]
    found = compare(wall, wall, [together], apart)
    assert (found.lost, found.gained, found.restated) == ((), (), ())
    more = compare(wall, wall, apart[:1], apart)
    assert [one.message for one in more.gained] == [f"{right} is wide"]


def test_a_title_block_that_holds_something_else_is_a_change(wall: Wall) -> None:
    assert not compare(wall, wall, blocks=("one", "one"))
    found = compare(wall, wall, blocks=("one", "other"))
    assert "content of the title block" in to_text(found, wall, wall)
    assert summary(found, wall, wall) == "Title block changed"
    json.dumps(to_json(found, wall, wall))


def test_a_reason_fits_its_field_and_counts_what_it_leaves_out(tmp_path: Path) -> None:
    found, _, _ = turned(tmp_path, "top: 54, breast: 7, width: 60", "top: 53, breast: 8, width: 62")
    reason = summary(found.changes, found.before, found.after)
    assert len(reason) <= 100
    assert reason.startswith("Mantel: ")
    assert ", and " in reason
    assert reason.endswith(" more")
