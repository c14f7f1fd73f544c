"""Bad input: one clear error with file, line and column, status 2, and the earlier output untouched."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.acceptance.conftest import run
from tests.acceptance.test_same_bytes import digests

GOOD = """\
project:
  title: Plover House, den
units: inch
materials:
  oak: {species: white oak}
  ply: {panel: veneer-core plywood, face: white oak, thickness: 3/4}
  slate: {masonry: slate, thickness: 3/4}
room:
  width: 14'-0"
  ceiling: {height: 8'-6"}
fireplace:
  opening: {width: 40, height: 20}
  sill: 14
surround: {material: slate, width: 78, hearth: {thickness: 2}}
mantel:
  top: 60
  layers:
    cap: {thickness: 1-1/4, overhang: 1-1/2, material: oak}
    fascia: {height: 5, thickness: 3/4}
  posts: {width: 6}
  arch: {rise: 2}
  material: oak
cases:
  - name: books
    mirrored: true
    height: 76
    depth: 12
    frame: {stile: 2, rail: 2}
    plinth: {height: 5}
    shelves: {count: 4, thickness: 1}
    material: ply
"""

# what is wrong: (text of the good spec, what is written instead, word of the answer, line it must name)
WRONG = {
    "unknown key": ("  sill: 14", "  sil: 14", "sill", 13),
    "wrong type": ("    shelves: {count: 4, thickness: 1}", "    shelves: 4", "shelves", 30),
    "no length": ("    height: 76", "    height: tall", "tall", 26),
    "a time is no length": ("    height: 76", "    height: 12:30", "12:30", 26),
    "negative size": ("    depth: 12", "    depth: -12", "-12", 27),
    "zero size": ("    depth: 12", "    depth: 0", "0", 27),
    "case wider than the wall": ("    height: 76", "    width: 20'\n    height: 76", "wide", 26),
    "shelves that do not add up": (
        "    shelves: {count: 4, thickness: 1}",
        "    shelves: {count: 4, thickness: 1, spacing: [12, 12, 12, 12, 50]}",
        "add up",
        30,
    ),
    "missing material": ("    material: ply", "    material: plly", "ply", 31),
    "arch too high": ("  arch: {rise: 2}", "  arch: {rise: 30}", "half", 21),
    "opening that collides": ("  sill: 14", "  sill: 40", "opening", 13),
    "duplicate key": ("  sill: 14", "  sill: 14\n  sill: 15", "twice", 14),
    "missing title block": (
        "units: inch",
        "sheet: {size: arch-c, titleblock: nowhere}\nunits: inch",
        "nowhere",
        3,
    ),
    "unknown sheet": ("units: inch", "sheet: {size: arch-q}\nunits: inch", "arch-", 3),
}


@pytest.fixture(scope="module")
def before(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wall")
    (folder / "wall.yaml").write_text(GOOD, encoding="utf-8")
    done = run("draw", "wall.yaml", cwd=folder)
    assert done.returncode == 0, done.stdout + done.stderr
    assert (folder / "out" / "wall" / "wall.pdf").exists(), "out is the default folder"
    return folder


@pytest.mark.parametrize("name", WRONG)
def test_each_mistake_is_answered(before: Path, name: str) -> None:
    good, bad, word, line = WRONG[name]
    assert good in GOOD
    digest = digests(before / "out")
    spec = before / "wall.yaml"
    spec.write_text(GOOD.replace(good, bad), encoding="utf-8")
    done = run("draw", "wall.yaml", cwd=before)
    said = done.stderr + done.stdout
    assert done.returncode == 2, said
    assert "Traceback" not in said
    place = re.search(r"wall\.yaml:(\d+):(\d+)", said)
    assert place, said
    assert int(place[1]) == line, said
    assert word in said, said
    assert digests(before / "out") == digest, "the earlier output is untouched"


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("binary", bytes(range(256)) * 64),
        ("empty", b""),
        ("aliases", b"a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n"),
        ("a list", b"- room\n- wall\n"),
        ("open quote", b'project: {title: "Plover}\n'),
        ("two documents", b"project: {title: a}\n---\nproject: {title: b}\n"),
        ("fifty megabytes", b"# " + b"x" * (50 * 1024 * 1024)),
    ],
)
def test_what_is_no_spec_is_refused(tmp_path: Path, name: str, content: bytes) -> None:
    spec = tmp_path / "wall.yaml"
    spec.write_bytes(content)
    done = run("check", spec)
    said = done.stderr + done.stdout
    assert done.returncode == 2, said
    assert "Traceback" not in said
    assert "wall.yaml" in said
    assert len(said) < 2000


def test_a_missing_file_and_a_folder_are_refused(tmp_path: Path) -> None:
    for path in (tmp_path / "none.yaml", tmp_path):
        done = run("draw", path, "-o", tmp_path / "out")
        assert done.returncode == 2
        assert "Traceback" not in done.stderr
    assert not (tmp_path / "out").exists()
