"""What a user may name as a set: a spec, a PDF, a folder, a revision in git; and what is said when it is
none."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pypdf
import pytest

from sheets.commands.comparison import compared, version_notes
from sheets.commands.drawing import Job, draw_one
from sheets.commands.given import GivenError, given
from sheets.revisions.keeping import attached
from tests.commands.shelf import SPEC

TITLEBLOCK = Path(__file__).resolve().parents[2] / "titleblocks" / "shop-small.yaml"


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a spec of an odd name, drawn with a title block of its own."""
    home = tmp_path_factory.mktemp("odd") / "a house, 2nd (old)"
    (home / "specs").mkdir(parents=True)
    shutil.copy(TITLEBLOCK, home / "our block.yaml")
    text = SPEC.replace("titleblock: shop-small", 'titleblock: "../our block.yaml"')
    assert text != SPEC
    spec = home / "specs" / "wall é #1.yaml"
    spec.write_text(text, "utf-8")
    done = draw_one(Job(spec, home / "out"))
    assert done.sheets, done.diagnostics
    return home


def test_a_spec_a_pdf_and_a_folder_are_the_same_set(drawn: Path) -> None:
    spec = drawn / "specs" / "wall é #1.yaml"
    folder = drawn / "out" / "wall é #1"
    for named in (folder, folder / "wall é #1.pdf"):
        one = given(str(named))
        assert one.stem == spec.stem
        assert not compared(given(str(spec)), one).changes
        assert version_notes(one) == ()


def test_the_spec_out_of_a_pdf_draws_the_same_bytes_anywhere(drawn: Path, tmp_path: Path) -> None:
    issued = tmp_path / "received.pdf"
    folder = drawn / "out" / "wall é #1"
    shutil.copy(folder / "wall é #1.pdf", issued)
    done = draw_one(Job(issued, tmp_path / "out"))
    assert done.sheets, done.diagnostics
    names = sorted(file.name for file in folder.iterdir())
    assert names == sorted(file.name for file in done.job.folder.iterdir())
    for name in names:
        assert (done.job.folder / name).read_bytes() == (folder / name).read_bytes(), name


def test_a_set_of_another_version_says_so(
    drawn: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from sheets.revisions.keeping import attached

    monkeypatch.setattr(attached, "__version__", "0.0.1")
    old = tmp_path / "out"
    done = draw_one(Job(drawn / "specs" / "wall é #1.yaml", old))
    monkeypatch.undo()
    (note,) = version_notes(given(str(done.job.folder)))
    assert "0.0.1" in note
    again = draw_one(Job(done.job.folder / "wall é #1.pdf", tmp_path / "again"))
    assert [d.code for d in again.diagnostics if d.severity == "note" and "0.0.1" in d.message] == [
        "other-version"
    ]


def git(*words: str, at: Path) -> None:
    subprocess.run(
        ["git", "-c", "user.name=RV", "-c", "user.email=rv@example.invalid", *words],
        cwd=at,
        check=True,
        capture_output=True,
    )


def test_a_revision_in_git_is_read_with_its_title_block(
    drawn: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    home = tmp_path / "repository"
    shutil.copytree(drawn, home)
    git("init", "-q", at=home)
    git("add", ".", at=home)
    git("commit", "-q", "-m", "first", at=home)
    spec = home / "specs" / "wall é #1.yaml"
    spec.write_text(spec.read_text("utf-8").replace("count: 1", "count: 2"), "utf-8")
    (home / "our block.yaml").unlink()
    monkeypatch.chdir(home / "specs")
    for named in (
        "HEAD:specs/wall é #1.yaml",
        "HEAD:./wall é #1.yaml",
        "HEAD:wall é #1.yaml",
        "HEAD:out/wall é #1/wall é #1.pdf",
    ):
        old = given(named)
        found = compared(old, given(str(spec)))
        assert {c.part.role for c in found.changes.parts if "added" in c.kinds} == {"shelf"}, named
        assert not given(named).diagnostics or all(d.severity != "error" for d in given(named).diagnostics)
    for named in ("HEAD~5:specs/wall é #1.yaml", "HEAD:specs/none.yaml", "--help:x", ":x", "HEAD:"):
        with pytest.raises(GivenError):
            given(named)


def test_outside_a_repository_git_is_told_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    with pytest.raises(GivenError, match=r"HEAD:wall\.yaml"):
        given("HEAD:wall.yaml")


def test_what_is_no_set_is_told(tmp_path: Path) -> None:
    from sheets.writers.pdf import pdf
    from tests.writers.hand_made_set import sample

    (tmp_path / "folder").mkdir()
    (tmp_path / "broken.pdf").write_bytes(b"%PDF-1.7\nnothing more")
    (tmp_path / "bare.pdf").write_bytes(pdf(sample()))
    for name in ("none.yaml", "folder", "broken.pdf", "bare.pdf"):
        with pytest.raises(GivenError):
            given(str(tmp_path / name))


SMALL = {"program": "shopset", "version": "1", "spec": "n.yaml", "titleblock": "shop-small"}
HOSTILE: dict[str, tuple[dict[str, str] | bytes, dict[str, bytes]]] = {
    "a title block with NUL": ({**SMALL, "titleblock": "a\0.yaml"}, {"a\0.yaml": b"a: 1\n"}),
    "a long title block": ({**SMALL, "titleblock": "x" * 300 + ".yaml"}, {"x" * 300 + ".yaml": b"a: 1\n"}),
    "a path of 50 000 folders": ({**SMALL, "titleblock": "../" * 50_000 + "t.yaml"}, {"t.yaml": b"a: 1\n"}),
    "a deep note": (b"[" * 200_000, {}),
    "a note that is a list": (b"[1]", {}),
    "a spec's name with NUL": ({**SMALL, "spec": "n\0.yaml"}, {"n\0.yaml": SPEC.encode()}),
    "a spec's name that leads up": ({**SMALL, "spec": "../n.yaml"}, {"../n.yaml": SPEC.encode()}),
    "a spec's long name": ({**SMALL, "spec": "n" * 300 + ".yaml"}, {"n" * 300 + ".yaml": SPEC.encode()}),
    "a deep record": (SMALL, {"issue.json": b"[" * 100_000}),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_crafted_pdf_is_told_in_one_line(tmp_path: Path, name: str) -> None:
    import json

    from pypdf import PdfWriter

    note, files = HOSTILE[name]
    writer = PdfWriter()
    writer.add_blank_page(100, 100)
    writer.add_attachment("made-by.json", note if isinstance(note, bytes) else json.dumps(note).encode())
    for inner, data in {"n.yaml": SPEC.encode(), **files}.items():
        writer.add_attachment(inner, data)
    writer.write(str(tmp_path / "crafted.pdf"))
    with pytest.raises(GivenError, match=r"crafted\.pdf: "):
        given(str(tmp_path / "crafted.pdf"))
    assert [p.name for p in tmp_path.iterdir()] == ["crafted.pdf"]


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes of Unix")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "set.pdf")
    with pytest.raises(GivenError, match="not a plain file"):
        given(str(tmp_path / "set.pdf"))


def test_what_is_wrong_in_an_attached_spec_is_told_at_its_line() -> None:
    from sheets.commands.given import _solved

    (complaint,) = _solved(b"project:\n  title: Ha\x1bll\n", "n.yaml", lambda name: None).diagnostics
    assert complaint.place is not None
    assert (complaint.place.line, complaint.place.column) == (2, 12)


@pytest.mark.parametrize("named", ["C:\\specs\\wall.yaml", "C:/specs/wall.yaml", "none.yaml", "HEAD:"])
def test_a_path_that_leads_to_nothing_is_told_as_one(named: str) -> None:
    with pytest.raises(GivenError) as told:
        given(named)
    assert str(told.value) == f"there is no spec, PDF or folder {named}"


def test_a_word_that_was_filled_in_and_is_retired_now_does_not_lose_an_issue(tmp_path: Path) -> None:
    filled = SPEC.replace("room:", "retired: 16\nroom:")
    writer = pypdf.PdfWriter()
    writer.add_blank_page(100, 100)
    writer.add_attachment(attached.NAME, attached.made_by("hall.yaml", "shop-small"))
    writer.add_attachment("hall.yaml", filled.encode())
    writer.write(tmp_path / "old.pdf")
    assert given(str(tmp_path / "old.pdf")).solved.wall is None
    writer.add_attachment(attached.AS_WRITTEN, SPEC.encode())
    writer.write(tmp_path / "issue.pdf")
    assert given(str(tmp_path / "issue.pdf")).solved.wall is not None
