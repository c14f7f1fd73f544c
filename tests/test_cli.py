"""The commands as a user runs them: exit status, what goes where, what is left untouched."""

import json
import os
import re
import subprocess
import sys
from contextlib import suppress
from pathlib import Path

import pytest

from sheets import __version__
from sheets.grammar.starter import starter_spec


def run(*arguments, cwd, **environment):
    return subprocess.run(
        [sys.executable, "-c", "from sheets.__main__ import main; main()", *map(str, arguments)],
        cwd=cwd, env=os.environ | environment, capture_output=True, text=True, check=False,
    )  # fmt: skip


@pytest.fixture(scope="module")
def drawn(tmp_path_factory):
    folder = tmp_path_factory.mktemp("shop")
    (folder / "alcove.yaml").write_text(starter_spec())
    return folder, run("draw", "alcove.yaml", cwd=folder)


def test_version(tmp_path):
    done = run("--version", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (0, f"shopset {__version__}\n")


def test_new_writes_a_spec_once(tmp_path):
    first = run("new", "walls/mine.yaml", cwd=tmp_path)
    assert first.returncode == 0
    text = (tmp_path / "walls" / "mine.yaml").read_text()
    assert text == starter_spec()
    (tmp_path / "walls" / "mine.yaml").write_text("mine")
    again = run("new", "walls/mine.yaml", cwd=tmp_path)
    assert again.returncode == 2
    assert "exists already" in again.stderr
    assert (tmp_path / "walls" / "mine.yaml").read_text() == "mine"


def test_draw_writes_the_set_and_says_where_the_sheets_are(drawn):
    folder, done = drawn
    assert done.returncode == 0, done.stderr
    out = folder / "out" / "alcove"
    names = sorted(p.name for p in out.iterdir())
    assert names == ["alcove-checks.pdf", "alcove.dxf", "alcove.pdf", "manifest.json", "parts.csv"]
    content = json.loads((out / "manifest.json").read_text())
    for sheet in content["sheets"]:
        assert f"{sheet['number']}" in done.stdout
        assert sheet["title"] in done.stdout
    assert str(Path("out/alcove/alcove.pdf")) in done.stdout
    assert "\r" not in done.stderr  # progress is for a terminal


def test_the_set_of_the_filled_in_spec_is_the_same(drawn, tmp_path):
    folder, _ = drawn
    filled = run("defaults", folder / "alcove.yaml", cwd=tmp_path)
    assert filled.returncode == 0
    (tmp_path / "alcove.yaml").write_text(filled.stdout)
    assert run("draw", "alcove.yaml", "-o", "elsewhere", cwd=tmp_path).returncode == 0
    first, second = folder / "out" / "alcove", tmp_path / "elsewhere" / "alcove"
    for path in sorted(first.iterdir()):
        assert (second / path.name).read_bytes() == path.read_bytes(), path.name


def test_the_same_spec_gives_the_same_bytes_anywhere(drawn, tmp_path):
    folder, _ = drawn
    (tmp_path / "alcove.yaml").write_bytes((folder / "alcove.yaml").read_bytes())
    other = {"PYTHONHASHSEED": "99", "TZ": "Asia/Kathmandu", "LC_ALL": "C", "SOURCE_DATE_EPOCH": "1"}
    assert run("draw", "alcove.yaml", cwd=tmp_path, **other).returncode == 0
    for path in sorted((folder / "out" / "alcove").iterdir()):
        assert (tmp_path / "out" / "alcove" / path.name).read_bytes() == path.read_bytes(), path.name


def test_check_draws_nothing(drawn, tmp_path):
    folder, _ = drawn
    done = run("check", folder / "alcove.yaml", cwd=tmp_path)
    assert done.returncode == 0
    assert "parts" in done.stdout
    assert os.listdir(tmp_path) == []


def test_a_wrong_spec_is_said_with_its_place_and_leaves_the_earlier_set(tmp_path):
    spec = tmp_path / "alcove.yaml"
    spec.write_text(starter_spec())
    assert run("draw", spec, cwd=tmp_path).returncode == 0
    before = {p.name: p.read_bytes() for p in (tmp_path / "out" / "alcove").iterdir()}
    spec.write_text(starter_spec().replace("  width: 12'-2", "  widht: 12'-2"))
    for command in ("draw", "check", "defaults"):
        done = run(command, spec, cwd=tmp_path)
        assert done.returncode == 2
        assert "alcove.yaml:" in done.stderr
        assert "widht" in done.stderr
        assert "Traceback" not in done.stderr
    assert {p.name: p.read_bytes() for p in (tmp_path / "out" / "alcove").iterdir()} == before


def test_the_starter_breaks_no_rule(drawn, tmp_path):
    folder, _ = drawn
    done = run("check", folder / "alcove.yaml", cwd=tmp_path)
    assert done.returncode == 0
    assert ": 0 errors, 0 warnings," in done.stdout


def test_an_error_of_a_rule_is_a_finding_and_the_set_is_written(tmp_path):
    """Status 1 from draw as from check; about fire a waiver without grounds does not change it, and one with
    a reason, a name and a document makes it 3.
    """
    spec = tmp_path / "alcove.yaml"
    near = starter_spec().replace("  posts: {width: 6-1/2}", "  posts: {width: 14}")
    assert near != starter_spec()
    spec.write_text(near)
    done = run("draw", spec, cwd=tmp_path)
    assert done.returncode == 1
    assert (tmp_path / "out" / "alcove" / "alcove.pdf").exists()
    assert re.search(r"^checks: [1-9]\d* error", done.stdout, re.M)
    assert run("check", spec, cwd=tmp_path).returncode == 1
    said = "rule: masonry-clearance, reason: the posts are of cast stone and only drawn as wood, by: RV"
    spec.write_text(near + f"\nchecks: {{waivers: [{{{said}}}]}}\n")
    assert run("check", spec, cwd=tmp_path).returncode == 1
    spec.write_text(near + f"\nchecks: {{waivers: [{{{said}, relied_on: mason's offer 12}}]}}\n")
    done = run("check", spec, cwd=tmp_path)
    assert done.returncode == 3
    assert "fire-waived: " in done.stderr
    assert "relied on: mason's offer 12" in done.stdout
    assert run("draw", spec, cwd=tmp_path).returncode == 3


@pytest.mark.skipif(sys.platform == "win32", reason="no terminal to be had")
def test_progress_is_shown_on_a_terminal_and_wiped(drawn, tmp_path):
    folder, _ = drawn
    ours, theirs = os.openpty()
    program = "from sheets.__main__ import main; main()"
    command = [sys.executable, "-c", program, "draw", str(folder / "alcove.yaml")]
    with subprocess.Popen(command, cwd=tmp_path, stdout=subprocess.PIPE, stderr=theirs) as done:
        os.close(theirs)
        table = done.communicate(timeout=300)[0].decode()
    said = b""
    with suppress(OSError):  # the end of a terminal is an error on some systems
        while piece := os.read(ours, 65536):
            said += piece
    os.close(ours)
    lines = said.decode().split("\r")
    assert any("compose" in line for line in lines)
    assert any("write PDF" in line for line in lines)
    assert lines[-1] == ""
    assert lines[-2].strip() == ""
    assert "\r" not in table


def test_a_missing_file_is_one_clear_error(tmp_path):
    done = run("draw", "nowhere.yaml", cwd=tmp_path)
    assert done.returncode == 2
    assert "nowhere.yaml" in done.stderr
    assert os.listdir(tmp_path) == []


def test_two_specs_of_one_name_are_refused_before_anything_is_drawn(tmp_path):
    for folder in ("left", "right"):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "wall.yaml").write_text(starter_spec())
    done = run("draw", "left/wall.yaml", "right/wall.yaml", cwd=tmp_path)
    assert done.returncode == 2
    assert "same" in done.stderr or "both" in done.stderr
    assert sorted(os.listdir(tmp_path)) == ["left", "right"]


def test_pictures_and_times_on_request(drawn, tmp_path):
    folder, _ = drawn
    done = run("draw", folder / "alcove.yaml", "--svg", "--times", cwd=tmp_path)
    assert done.returncode == 0
    sheets = json.loads((tmp_path / "out" / "alcove" / "manifest.json").read_text())["sheets"]
    pictures = sorted(p.name for p in (tmp_path / "out" / "alcove").glob("*.svg"))
    assert pictures == sorted(f"alcove-{s['number']}.svg" for s in sheets)
    assert "ms  compose" in done.stderr


def test_an_output_folder_that_is_not_ours_is_left_alone(drawn, tmp_path):
    folder, _ = drawn
    mine = tmp_path / "out" / "alcove"
    mine.mkdir(parents=True)
    (mine / "letter.txt").write_text("keep")
    done = run("draw", folder / "alcove.yaml", cwd=tmp_path)
    assert done.returncode == 2
    assert "not a drawing set's" in done.stderr
    assert [p.name for p in mine.iterdir()] == ["letter.txt"]
