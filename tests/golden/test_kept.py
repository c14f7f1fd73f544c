"""A few sheets are as they were when someone last looked at them.

If a change is meant: python tests/golden/renew.py, look at what it shows, and commit goldens with the change.
"""

from __future__ import annotations

import difflib

import numpy as np
import pytest

from tests.golden import kept, renew

ASK = "if this is meant: python tests/golden/renew.py shows before and after, and keeps what is drawn now"


@pytest.mark.parametrize("one", kept.TEXTS, ids="-".join)
def test_a_sheet_says_what_it_said(one):
    before = kept.text_path(*one).read_text("utf-8").splitlines()
    changes = list(difflib.unified_diff(before, kept.text_now(*one).splitlines(), "before", "after", n=0))
    assert not changes, "\n".join([*changes[:40], ASK])


@pytest.mark.parametrize("one", kept.PICTURES, ids="-".join)
def test_a_sheet_looks_as_it_looked(one):
    found = kept.apart(kept.picture_kept(*one), kept.picture_now(*one))
    assert found is None, f"{found}; {ASK}"


def test_goldens_are_small_and_none_is_left_over():
    files = {path.name: path.stat().st_size for path in kept.FOLDER.iterdir()}
    named = {kept.text_path(*one).name for one in kept.TEXTS}
    named |= {kept.picture_path(*one).name for one in kept.PICTURES}
    assert set(files) == named
    assert max(files.values()) < 80_000


def test_a_change_of_a_picture_is_found():
    before = kept.picture_kept(*kept.PICTURES[0])
    after = before.copy()
    after[300:303, 200:260] = 0  # a line of 25 mm
    assert kept.apart(before, after) is not None
    after = before.copy()
    after[_fullest(before)] = 255  # a square of 17 mm gone, where most is drawn
    assert kept.apart(before, after) is not None
    assert kept.apart(before, before[:-40]) is not None


def _fullest(picture: np.ndarray) -> tuple[slice, slice]:
    spots = [(y, x) for y in range(100, 900, 40) for x in range(100, 1200, 40)]
    y, x = max(spots, key=lambda spot: (picture[spot[0] : spot[0] + 40, spot[1] : spot[1] + 40] < 128).sum())
    return slice(y, y + 40), slice(x, x + 40)


def test_before_and_after_are_shown_side_by_side():
    before = kept.picture_kept(*kept.PICTURES[0])
    after = before.copy()
    after[300:303, 200:260] = 0
    shown = np.asarray(kept.beside(before, after))
    assert shown.shape == (before.shape[0], 3 * before.shape[1] + 8)
    difference = shown[:, 2 * before.shape[1] + 8 :]
    assert difference[301, 230] == 0
    assert (difference < 128).sum() <= 180  # what did not change is light


def test_renewing_replaces_what_changed_and_nothing_else(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(kept, "FOLDER", tmp_path)
    monkeypatch.setattr(renew, "SHOWN", tmp_path / "shown")
    one = kept.PICTURES[0]
    monkeypatch.setattr(kept, "PICTURES", (one,))
    renew.main()
    assert capsys.readouterr().out.count(": new\n") == len(kept.TEXTS) + 1
    first = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    renew.main()
    assert capsys.readouterr().out == "No golden has changed.\n"
    old = kept.picture_kept(*one).copy()
    old[300:303, 200:260] = 0
    renew.Image.fromarray(old).save(kept.picture_path(*one))
    kept.text_path(*kept.TEXTS[0]).write_text("sheet\n", "utf-8")
    renew.main()
    said = capsys.readouterr().out
    assert "-sheet" in said
    assert "before, after, the difference" in said
    assert (tmp_path / "shown" / kept.picture_path(*one).name).exists()
    assert {p.name: p.read_bytes() for p in tmp_path.iterdir() if p.is_file()} == first
