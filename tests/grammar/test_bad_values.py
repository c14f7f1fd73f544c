"""Each kind of wrong value gives one clear error with its line and column."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.diagnostics import Diagnostic, print_text
from sheets.grammar.defaults import filled
from sheets.grammar.reader import read_spec_text

WALL = """\
project: {title: Test wall}
units: inch
materials:
  oak: {species: white oak}
  walnut: {species: black walnut}
  ply: {panel: plywood, thickness: 3/4}
  slate: {masonry: slate}
room:
  width: 14'
  ceiling: {height: 8'}
fireplace:
  opening: {width: 48, height: 15}
  sill: 18
surround: {material: slate, width: 76}
mantel:
  top: 52
  layers:
    cap: {thickness: 1, overhang: 1, material: walnut}
    fascia: {height: 6}
  posts: {width: 6}
  arch: {rise: 2, rail: 6}
cases:
  - name: flanking
    mirrored: true
    width: fill
    height: 80
    frame: {stile: 1-1/2}
    plinth: {height: 5-1/2}
    cap: {thickness: 1}
    shelves: {count: 4, thickness: 1, spacing: even}
"""


def changed(old: str, new: str) -> str:
    """Return the spec with one piece of text replaced; it must be there exactly once."""
    assert WALL.count(old) == 1, old
    return WALL.replace(old, new)


def errors(text: str) -> tuple[Diagnostic, ...]:
    """Return the errors of a text that has to be wrong."""
    spec, _, found = read_spec_text(text, "wall.yaml")
    assert spec is None
    return tuple(d for d in found if d.severity == "error")


def where(text: str, marked: str) -> tuple[int, int]:
    """Return line and column, from 1, of a piece of text that occurs once."""
    assert text.count(marked) == 1, marked
    before = text[: text.index(marked)].split("\n")
    return len(before), len(before[-1]) + 1


SHELVES = "{count: 4, thickness: 1, spacing: even}"

# The clear height of the case: 80 less the cap 1, the plinth 5 1/2, the bottom rail 2 1/2 that the bottom
# is flush with, and a top board of 3/4: 70 1/4.
# old text, new text, the text at the place, code, words that the message or the help holds
CASES = [
    ("    height: 80", "    heigth: 80", "heigth", "unknown-key", ("'heigth'", "Did you mean height?")),
    ("cap: {thickness: 1, o", "cap: {thikness: 1, o", "thikness", "unknown-key", ("thickness",)),
    ("units: inch\n", "units: inch\nwindows: 3\n", "windows", "unknown-key", ("Allowed: project",)),
    ("{title: Test wall}", "{title: Test wall, study}", "study", "unknown-key", ("comma", "quotes")),
    ("width: 76", "width: 15'", "15'", "too-wide", ("the wall 14'",)),  # and no more
    ("title: Test wall", "titel: Test wall", "titel", "unknown-key", ("title",)),
    ("units: inch", "units: inches", "inches", "unknown-word", ("Did you mean inch?",)),
    ("mirrored: true", "mirrored: yes", "yes", "not-true-or-false", ("true nor false",)),
    ("mirrored: true", "mirrored: [true]", "mirrored", "wrong-type", ("a list",)),
    ("width: 14'", "width: 12:30", "12:30", "not-a-length", ("colon",)),
    ("width: 14'", "width: 1_000", "1_000", "not-a-length", ("underscore",)),
    ("width: 14'", "width: 010", "010", "not-a-length", ("0",)),
    ("width: 14'", "width: no", "no\n", "not-a-length", ("'no'",)),
    ("width: 14'", "width: 1e3", "1e3", "not-a-length", ("write the number out",)),
    ("width: 14'", "width: true", "true\n  c", "not-a-length", ("'true'",)),
    ("width: 14'", "width: [14]", "width: [", "wrong-type", ("a list",)),
    ("width: 14'", "width: {feet: 14}", "width: {feet", "wrong-type", ("keys",)),
    ("width: 14'", "width: wide", "wide", "not-a-length", ("5'-2 1/2\"",)),
    ("width: 14'", "width: 0", "0\n  ceiling", "not-positive", ("above 0",)),
    ("width: 14'", "width: -14'", "-14'", "not-positive", ("above 0",)),
    ("width: 14'", "width: 14 km", "14 km", "not-a-length", ()),
    ("width: 14'", "width: 5000'", "5000'", "too-long", ("100 m",)),
    ("width: 14'", "width: 1/999999999", "1/999999999", "too-small", ("0.001 mm",)),
    ("width: 14'", "width: 0.000001 mm", "0.000001 mm", "too-small", ("0.001 mm",)),
    ("  width: 14'\n", "", "room:", "missing-key", ("'width' of room",)),
    ("  top: 52\n", "", "mantel:", "missing-key", ("'top' of mantel",)),
    ("{title: Test wall}", "{}", "project:", "missing-key", ("'title' of project",)),
    ("{title: Test wall}", '{title: ""}', '""', "empty-value", ("title",)),
    ("count: 4", "count: four", "four", "not-a-count", ("whole number",)),
    ("count: 4", "count: 4.5", "4.5", "not-a-count", ("whole number",)),
    ("count: 4", "count: 400", "400", "out-of-range", ("0 to 40",)),
    ("count: 4", "count: -4", "-4", "out-of-range", ("0 to 40",)),
    ("spacing: even", "spacing: evne", "evne", "unknown-word", ("Did you mean even?",)),
    ("spacing: even", "spacing: {graduated: much}", "much", "not-a-length", ("'much'",)),
    ("spacing: even", "spacing: {ratio: 1:2}", "1:2", "not-a-number", ("1.08",)),
    ("spacing: even", "spacing: {ratio: 3}", "3}}", "shelves", ("0.5 to 2",)),
    ("spacing: even", "spacing: [10, fil]", "fil]", "not-a-length", ("Did you mean fill?",)),
    ("width: fill", "width: full", "full", "not-a-length", ("Did you mean fill?",)),
    (
        "oak: {species: white oak}",
        "oak: {wood: white oak}",
        "oak:",
        "missing-key",
        ("species, panel, masonry",),
    ),
    ("oak: {species: white oak}", "oak: {speces: white oak}", "speces", "unknown-key", ("species",)),
    ("oak: {species: white oak}", "oak: white", "white\n", "wrong-type", ("'white'",)),
    (
        "overhang: 1, material: walnut",
        "overhang: 1, material: wallnut",
        "wallnut",
        "missing-material",
        ("Did you mean walnut?",),
    ),
    ("surround: {material: slate", "surround: {material: oak", "oak, width", "wrong-material", ("masonry",)),
    ("    width: fill", "    width: 90", "90", "too-wide", ("14'-0\"",)),
    ("    width: fill", "    width: 46", "46", "too-wide", ("3'-10\"",)),
    (
        SHELVES,
        "{thickness: 1, spacing: [12, 12, 14, 10, 10]}",
        "spacing",
        "shelves",
        ('1\'-0" + 1\'-0" + 1\'-2" + 10" + 10"', "= 5'-2\"", "5'-10 1/4\""),
    ),
    (SHELVES, "{thickness: 1, spacing: [40, 40, fill]}", "spacing", "shelves", ("leave nothing", "6'-10\"")),
    (SHELVES, "{count: 4, thickness: 1, spacing: [12, fill]}", "spacing", "shelves", ("5 bays",)),
    (SHELVES, "{count: 40, thickness: 2, spacing: even}", "40", "shelves", ("leave nothing",)),
    (SHELVES, "{count: 6, thickness: 1, spacing: {graduated: 6}}", "6}}", "shelves", ("no height left",)),
    (SHELVES, "{count: 4, material: ply, thickness: 1}", "1}", "panel-thickness", ("panel",)),
    (SHELVES, "{count: 4, thickness: 1, joint: {dado: 3/4}}", "3/4}}", "dado", ("goes through",)),
    (
        "arch: {rise: 2, rail: 6}",
        "arch: {rise: 25, rail: 6}",
        "25",
        "arc-rise",
        ("half its chord of 4'-0\"",),
    ),
    ("arch: {rise: 2, rail: 6}", "arch: {rise: 6, rail: 6}", "6, rail", "arc-rise", ("rail",)),
    ("arch: {rise: 2, rail: 6}", "arch: {rise: 2, rail: 16}", "16", "opening-collides", ("hangs into",)),
    ("ceiling: {height: 8'}", "ceiling: {height: 8', vault: {spring: 8'}}", "8'}}", "vault", ("not below",)),
    (
        "ceiling: {height: 8'}",
        "ceiling: {height: 20', vault: {spring: 10'}}",
        "10'}}",
        "arc-rise",
        ("half the room",),
    ),
    (
        "ceiling: {height: 8'}",
        "ceiling: {height: 8', vault: {spring: 7', rise: 1'}}",
        "rise: 1'",
        "said-twice",
        ("not both",),
    ),
    ("opening: {width: 48", "opening: {width: 80", "80, h", "opening-collides", ("6'-4\"",)),
    ("opening: {width: 48", "opening: {width: 70", "6}\n  arch", "opening-collides", ("5'-4\"", "5'-10\"")),
    (
        "opening: {width: 48, height: 15",
        "opening: {width: 48, height: 80",
        "80}",
        "opening-collides",
        ("ceiling",),
    ),
    ("height: 15", "height: 30", "fascia", "opening-collides", ('4"',)),
    ("  sill: 18", "  sill: 40", "40", "opening-collides", ("4'-7\"", "4'-4\"")),
    ("height: 15", "height: 36", "18\nsurround", "opening-collides", ("collides with the mantel",)),
    ("fascia: {height: 6}", "fascia: {height: 26}", "fascia", "opening-collides", ("1'-7\"",)),
    (
        "fascia: {height: 6}",
        "fascia: {height: 6, saw_cuts: {count: 2, width: 3}}",
        "3}}",
        "saw-cuts",
        ("nothing",),
    ),
    ("fascia: {height: 6}", "fascia: {height: 6, saw_cuts: {depth: 1}}", "1}}", "saw-cuts", ("through",)),
    ("    height: 80", "    height: 97", "97", "too-high", ("The ceiling is 8'-0\" high there",)),
    ("    height: 80", "    height: 7", "7\n", "too-low", ("nothing",)),
    ("units: inch\n", "units: inch\ndimensions: mm\n", "mm\n", "dimensions", ("feet-inches",)),
    ("units: inch\n", "units: inch\nprecision: 1/10\n", "1/10", "precision", ("1/16",)),
    ("units: inch\n", "units: inch\nsheet: {size: a4}\n", "a4", "unknown-word", ("iso-a4",)),
    ("title: Test wall", "title: Test wall, date: 2026-02-30", "2026-02-30", "not-a-date", ("calendar",)),
    ("    mirrored: true", "    mirrored: true\n    at: right", "right", "case-place", ("left",)),
    ("    mirrored: true", "    at: centre", "centre", "case-place", ("fireplace",)),
    ("    mirrored: true", "    at: center", "center", "unknown-word", ("Did you mean centre?",)),
    ("    mirrored: true", "    at: {offset: 90}", "fill", "case-width", ("offset",)),
    ("    mirrored: true", "    backer: {gap: 1}", "1}\n    width", "backer", ("tongue",)),
    ("name: flanking", "name: '-'", "'-'", "bad-name", ("letter",)),
    ("project:", "notes: one\nproject:", "one", "wrong-type", ("a list",)),
    ("project:", "notes: [one, [two]]\nproject:", "[two]", "wrong-type", ("a list",)),
]


@pytest.mark.parametrize(
    ("old", "new", "at", "code", "words"), CASES, ids=[f"{c[3]}-{c[1].strip()[:30]}" for c in CASES]
)
def test_one_error_at_its_place(old: str, new: str, at: str, code: str, words: tuple[str, ...]) -> None:
    text = changed(old, new)
    found = errors(text)
    told = print_text(found)
    assert len(found) == 1, told
    assert found[0].code == code, told
    start = text.index(new) if new else 0
    column_of = where(text, at) if text.count(at) == 1 else where_after(text, at, start)
    assert found[0].place is not None
    assert (found[0].place.line, found[0].place.column) == column_of, told
    assert found[0].place.text_of_line == text.split("\n")[column_of[0] - 1]
    for word in words:
        assert word in told


def where_after(text: str, marked: str, start: int) -> tuple[int, int]:
    at = text.index(marked, start)
    before = text[:at].split("\n")
    return len(before), len(before[-1]) + 1


def test_all_errors_of_a_stage_are_told_in_order() -> None:
    text = (
        changed("width: 14'", "width: no")
        .replace("mirrored: true", "mirrored: maybe")
        .replace("top: 52", "top: 0")
    )
    assert [d.code for d in errors(text)] == ["not-a-length", "not-positive", "not-true-or-false"]


def test_two_cases_of_one_name() -> None:
    text = WALL + "  - {name: Flanking, at: {offset: 0}, width: 10, height: 20}\n"
    found = errors(text)
    assert [d.code for d in found] == ["same-name"]
    assert "line 23" in found[0].message


def test_a_spec_that_builds_nothing() -> None:
    found = errors("project: {title: x}\nroom: {width: 10'}\n")
    assert [d.code for d in found] == ["nothing-to-build"]


def test_a_mantel_without_a_width_to_take() -> None:
    text = changed("surround: {material: slate, width: 76}\n", "")
    found = errors(text)
    assert [(d.code, d.place and d.place.line) for d in found] == [("missing-key", where(text, "mantel:")[0])]


ODD_VALUES = [
    "0",
    "-1",
    "1",
    "90 m",
    "1/64",
    "12:30",
    "fill",
    "even",
    "{}",
    "[]",
    "[1, 2]",
    "{a: 1}",
    "true",
    "",
    "~",
    "100",
    "3",
    "surround",
    "mantel",
    "breast",
    "opening",
    "left",
    "centre",
    "{offset: -20}",
    "{ratio: 1.1}",
    "{graduated: 1}",
    "[fill, fill]",
    "0.0001 mm",
    "oak",
    "slate",
    "ply",
]
VALUE = re.compile(r"(?<=: )[^{}\[\],\n]+")


@given(st.data())
def test_a_spec_with_any_values_swapped_is_read_or_refused_with_places(data: st.DataObject) -> None:
    text = WALL
    for _ in range(data.draw(st.integers(1, 3))):
        spot = data.draw(st.sampled_from(list(VALUE.finditer(text))))
        text = text[: spot.start()] + data.draw(st.sampled_from(ODD_VALUES)) + text[spot.end() :]
    spec, source, found = read_spec_text(text, "wall.yaml")
    assert (spec is None) == any(d.severity == "error" for d in found)
    assert all(d.place is not None and d.place.line <= text.count("\n") + 1 for d in found)
    if spec is not None:
        assert read_spec_text(filled(spec, source))[0] == spec
