"""Same spec, same bytes: on any day, in any folder, time zone, locale and hash seed."""

from __future__ import annotations

import hashlib
import os
import shutil
from pathlib import Path

from tests.acceptance.conftest import ROOT, run


def digests(folder: Path) -> dict[str, str]:
    return {
        str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def test_two_runs_far_apart_give_the_same_bytes(tmp_path: Path) -> None:
    found = []
    for name, seed, zone, language in (
        ("here", "0", "UTC", "C.UTF-8"),
        ("far away", "4711", "Asia/Tokyo", "de_DE.UTF-8"),
    ):
        folder = tmp_path / name
        folder.mkdir()
        shutil.copy(ROOT / "specs" / "ferry-landing.yaml", folder)
        env = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "LANG": language, "LC_ALL": language}
        done = run("draw", "ferry-landing.yaml", "-o", "sheets out", cwd=folder, env=env)
        assert done.returncode == 0, done.stderr
        found.append(digests(folder / "sheets out"))
    assert found[0] == found[1]
    assert {Path(name).suffix for name in found[0]} >= {".pdf", ".dxf", ".csv", ".json"}


def test_the_spec_with_its_defaults_filled_in_draws_the_same(drawn: Path, spec: Path, tmp_path: Path) -> None:
    filled = run("defaults", spec)
    assert filled.returncode == 0, filled.stderr
    copy = tmp_path / spec.name
    copy.write_text(filled.stdout, encoding="utf-8")
    done = run("draw", copy, "-o", tmp_path / "out")
    assert done.returncode == 0, done.stderr
    assert digests(tmp_path / "out" / spec.stem) == digests(drawn / spec.stem)


def test_the_starter_draws(tmp_path: Path) -> None:
    made = run("new", tmp_path / "wall.yaml")
    assert made.returncode == 0, made.stderr
    assert (tmp_path / "wall.yaml").read_text("utf-8").count("#") > 10
    done = run("draw", tmp_path / "wall.yaml", "-o", tmp_path / "out")
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "out" / "wall" / "wall.pdf").exists()
    assert run("new", tmp_path / "wall.yaml").returncode == 2, "a file that is there is not written over"
