"""What the shop sets: each value that the schedules read can be written in the spec, shows in the defaults,
and does something.
"""

from __future__ import annotations

import re
from dataclasses import fields

import pytest

from sheets.base.length import read_length
from sheets.grammar.defaults import filled
from sheets.grammar.reader import read_spec_text
from sheets.model.settings import Settings
from sheets.model.wall import Wall
from sheets.resolve.solve import resolve
from sheets.schedules.cutting_boards import cut_boards
from sheets.schedules.hardware import hardware_rows
from sheets.schedules.labels import label_margins
from sheets.schedules.parts import shop_parts
from sheets.schedules.patterns import patterns
from sheets.schedules.stock import rough_of
from tests.grammar.test_bad_values import WALL, errors
from tests.made_settings import settings

SECTIONS = ("stock", "fasteners", "labels", "patterns")

OTHER = {
    "stock": "board_lengths: [84, 132], board_widths: [5, 7, 9], thickest: 3, panel_length: 120, "
    "panel_width: 60, edge_trim: 1/4, sheet_tolerance: 0, "
    "kerf: 3/32, end_trim: 1, rough_allowance: 1/4, waste: 35, keep_offcut: 18, "
    "search: {steps: 7, seconds: 3}",
    "fasteners": "case: trim screw, nail: cleat nail, wall: lag screw, spacing: 5, nail_spacing: 12, "
    "wall_diameter: 5/16, wall_length: 4, screws_per_stud: 3",
    "labels": "paper: iso-a4, grid: {width: 3-1/2, height: 1-1/4, columns: 2, rows: 8}, gap: 1/16, "
    "row_gap: 1/32, side_margin: 1/4, top_margin: 3/8",
    "patterns": "paper: ansi-b, station: 1, overlap: 3/4",
}
"""A value that is no default for every key that the schedules read."""


def wall_of(text: str) -> Wall:
    spec, source, _ = read_spec_text(text, "wall.yaml")
    assert spec is not None
    wall, _ = resolve(spec, source)
    assert wall is not None
    return wall


def settings_said(*sections: str) -> str:
    return WALL + "".join(f"{name}: {{{OTHER[name]}}}\n" for name in sections)


def values(settings: Settings) -> dict[str, object]:
    return {
        f"{name}.{field.name}": getattr(getattr(settings, name), field.name)
        for name in SECTIONS
        for field in fields(getattr(settings, name))
    }


def test_every_value_that_the_schedules_read_can_be_set() -> None:
    before, after = values(settings()), values(wall_of(settings_said(*SECTIONS)).settings)
    assert [name for name in before if before[name] == after[name]] == []


def test_the_defaults_show_every_value() -> None:
    spec, source, _ = read_spec_text(settings_said(*SECTIONS), "wall.yaml")
    assert spec is not None
    text = filled(spec, source)
    for section in SECTIONS:
        for key in re.findall(r"(\w+):", OTHER[section]):
            assert f"{key}: " in text.split(f"\n{section}:")[1]
    again, _, _ = read_spec_text(text, "wall.yaml")
    assert again == spec


def test_what_is_set_changes_what_is_bought() -> None:
    plain, wide = wall_of(WALL), wall_of(WALL + "stock: {board_widths: [18]}\n")
    strips = [
        max(r.strips for p in shop_parts(w) if (r := rough_of(p, w.settings.stock, w.units)))
        for w in (plain, wide)
    ]
    assert strips[0] > strips[1]

    def kept(wall: Wall) -> int:
        return sum(len(board.offcuts) for plan in cut_boards(wall).plans for board in plan.boards)

    assert kept(wall_of(WALL + "stock: {keep_offcut: 0}\n")) > kept(plain)
    assert kept(wall_of(WALL + "stock: {keep_offcut: 144}\n")) == 0


def test_what_is_set_changes_what_fastens() -> None:
    text = WALL.replace("    cap: {thickness: 1}\n", "    cap: {thickness: 1}\n    backer: {face: 5}\n")
    text = text.replace("  ceiling: {height: 8'}\n", "  ceiling: {height: 8'}\n  baseboard: {}\n")
    before = {(r.assembly, r.item, r.use): r.quantity for r in hardware_rows(wall_of(text))}
    said = "fasteners: {nail: cleat nail, nail_spacing: 8, screws_per_stud: 4}\nchecks: {stud_spacing: 24}\n"
    after = {(r.assembly, r.item, r.use): r.quantity for r in hardware_rows(wall_of(text + said))}
    case = next(key[0] for key in before if key[0].startswith("cases"))
    of_wall, run = next((a, use) for (a, item, use) in before if item == "finish nail" and "baseboard" in use)
    assert after[of_wall, "cleat nail", run] > before[of_wall, "finish nail", run]
    # A board takes one nail a level, however close nails stand elsewhere.
    board = next(use for (a, item, use) in before if item == "finish nail" and "board" in use and a == case)
    assert after[case, "cleat nail", board] == before[case, "finish nail", board]
    # 40 in or so of rail crosses one stud surely at 24 in on centre: two are the least, four screws to each.
    rail = next(use for (a, item, use) in before if "hanging rail to wall" in use)
    anchor = 'structural wood screw into blocking or stud, 1/4" x 3 1/2"'
    assert (before[case, anchor, rail], after[case, anchor, rail]) == (4, 8)


def test_stations_are_set() -> None:
    counts = [
        len(patterns(wall_of(WALL + said))[0].curves[0].ordinates)
        for said in ("", "patterns: {station: 8}\n")
    ]
    # A chord of 48 in has a foot in its middle, 12 or 3 each way at 2 in or 8 in, the ends among them.
    assert counts == [25, 7]


def test_labels_stand_in_the_middle_of_their_paper() -> None:
    # 3 x 2 5/8 and 2 x 1/8 are 8 1/8 of 8 1/2 in: 3/16 a side; 10 x 1 of 11 in: 1/2. 3 x 70 is all of 210 mm;
    # 8 x 37 is 296 of 297 mm.
    for units, paper, side, top in (("inch", (215.9, 279.4), 4.7625, 12.7), ("mm", (210.0, 297.0), 0.0, 0.5)):
        margins = label_margins(settings(units).labels, paper)
        assert margins == pytest.approx((side, top, side, top))


@pytest.mark.parametrize(
    ("name", "size", "count"),
    [
        ("2-5/8x1-3x10", ("2-5/8", "1"), (3, 10)),
        ("70 mm x 37 mm - 3 x 8", ("70 mm", "37 mm"), (3, 8)),
        ("3.5x1-1/4-2x8", ("3-1/2", "1-1/4"), (2, 8)),
    ],
)
def test_a_sheet_of_labels_is_named_by_size_and_count(
    name: str, size: tuple[str, str], count: tuple[int, int]
) -> None:
    spec, _, _ = read_spec_text(WALL + f"labels: {{grid: {name}}}\n", "wall.yaml")
    assert spec is not None
    grid = spec.labels.grid
    assert (grid.width, grid.height) == tuple(read_length(side, unit="inch") for side in size)
    assert (grid.columns, grid.rows) == count


@pytest.mark.parametrize(
    ("said", "code", "words"),
    [
        ("stock: {board_lengths: []}", "no-stock", "no board length is given"),
        ("stock: {board_widths: []}", "no-stock", "no board width is given"),
        ("stock: {kerf: 3}", "kerf", "a saw takes no"),
        ("stock: {end_trim: 72}", "end-trim", "leaves nothing of the longest board"),
        ("stock: {thickest: 3/8}", "thickest", "no part is milled"),
        ("stock: {waste: 130}", "out-of-range", "0 to 100"),
        ("stock: {search: {seconds: 0}}", "out-of-range", "1 to 3600"),
        ("stock: {search: {second: 9}}", "unknown-key", "'second' is not a key of stock, search"),
        ("stock: {keep_offcuts: 9}", "unknown-key", "'keep_offcuts' is not a key of stock"),
        ("fasteners: {screws_per_stud: 0}", "out-of-range", "1 to 6"),
        ("fasteners: {nail_spacing: 0}", "not-positive", "not a size"),
        ("patterns: {station: 1/64}", "station", "cannot be told apart"),
        ("patterns: {paper: a5}", "unknown-word", "a5"),
        ("labels: {grid: 70x37-0x8}", "out-of-range", "1 to 10"),
        ("labels: {grid: 70x37}", "not-a-grid", "does not say a size and a count"),
        ("labels: {grid: 70xb-3x8}", "not-a-length", ""),
    ],
)
def test_a_wrong_value_is_one_clear_error_at_its_place(said: str, code: str, words: str) -> None:
    text = WALL + said + "\n"
    (found,) = errors(text)
    assert (found.code, found.place.line if found.place else 0) == (code, text.count("\n"))
    assert words in found.message
