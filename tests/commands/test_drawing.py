"""Drawing many specs side by side, out of a store, and holding drawn sheets against their specs."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from PIL import Image

from sheets.commands import cache
from sheets.commands.drawing import Job, draw_all, draw_one
from sheets.writers.pictures import Picture
from tests.commands.shelf import SPEC, digests, elevation_sheet


@pytest.fixture(scope="module")
def committed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a spec and its set, as a repository has them."""
    home = tmp_path_factory.mktemp("committed")
    (home / "hall.yaml").write_text(SPEC, "utf-8")
    assert draw_one(Job(home / "hall.yaml", home / "out")).sheets
    return home


def check(home: Path, text: str | None = None) -> tuple[str, ...]:
    """What a check says of the set, with the spec saying something else if text is given."""
    spec = home / "hall.yaml"
    if text is not None:
        spec.write_text(text, "utf-8")
    before = digests(home / "out")
    done = draw_one(Job(spec, home / "out", check=True))
    spec.write_text(SPEC, "utf-8")
    assert digests(home / "out") == before, "a check writes nothing"
    assert done.sheets
    return done.differs


def test_sheets_that_are_what_the_spec_gives_pass(committed: Path) -> None:
    assert check(committed) == ()
    assert check(committed, "# another comment\n" + SPEC) == ()
    assert check(committed, SPEC.replace("height: 60", "height: 5'-0\"")) == (), (
        "a length said otherwise is no change"
    )


def test_a_changed_spec_names_the_sheets_that_differ(committed: Path) -> None:
    says = check(committed, SPEC.replace("count: 1", "count: 2"))
    changed = elevation_sheet(committed / "out" / "hall")
    assert any(f"{changed} " in line and line.endswith("is not what the spec gives") for line in says)
    assert any("Z-601" in line for line in says)


def test_a_changed_note_leaves_the_views_alone(committed: Path) -> None:
    says = check(committed, SPEC + "notes: [Look at the wall first.]\n")
    assert any("sheet Z-00" in line for line in says)
    assert not any(elevation_sheet(committed / "out" / "hall") in line for line in says)


def test_an_altered_or_missing_file_is_named(committed: Path) -> None:
    target = committed / "out" / "hall" / "hall.dxf"
    kept = target.read_bytes()
    target.write_bytes(kept + b"\n")
    assert check(committed) == ("hall.dxf: is not what the spec gives",)
    target.unlink()
    assert check(committed) == ("hall.dxf: is missing",)
    target.write_bytes(kept)


def test_a_page_altered_behind_the_manifests_back_is_named(committed: Path) -> None:
    from pypdf import PdfWriter
    from pypdf.annotations import FreeText  # noqa: F401  (what a reviewer's program writes)

    target = committed / "out" / "hall" / "hall.pdf"
    kept = target.read_bytes()
    writer = PdfWriter(clone_from=str(target))
    writer.pages[1].scale_by(0.99)
    writer.write(str(target))
    sheets = json.loads((committed / "out" / "hall" / "manifest.json").read_text("utf-8"))["sheets"]
    assert check(committed) == (
        f"sheet {sheets[1]['number']} {sheets[1]['title']}: is not what the spec gives",
    )
    target.write_bytes(kept)


def test_nothing_there_is_told(tmp_path: Path) -> None:
    (tmp_path / "hall.yaml").write_text(SPEC, "utf-8")
    done = draw_one(Job(tmp_path / "hall.yaml", tmp_path / "out", check=True))
    assert len(done.differs) == 1
    assert not (tmp_path / "out").exists()


def test_specs_drawn_side_by_side_are_the_same_as_one_by_one(tmp_path: Path) -> None:
    specs = []
    for k in (1, 2):
        specs.append(tmp_path / f"hall {k}.yaml")
        specs[-1].write_text(SPEC.replace("count: 1", f"count: {k}"), "utf-8")
    bad = tmp_path / "bad.yaml"
    bad.write_text("room: {}\n", "utf-8")
    order = [specs[0], bad, specs[1]]
    alone = list(draw_all([Job(spec, tmp_path / "alone") for spec in order], 1))
    beside = list(draw_all([Job(spec, tmp_path / "beside") for spec in order], 2))
    assert [d.job.spec for d in beside] == order
    assert [d.sheets for d in beside] == [d.sheets for d in alone]
    assert [bool(d.sheets) for d in beside] == [True, False, True]
    assert beside[1].diagnostics == alone[1].diagnostics
    assert digests(tmp_path / "alone") == digests(tmp_path / "beside")


def test_pictures_have_the_dots_per_inch_that_were_asked(tmp_path: Path) -> None:
    (tmp_path / "hall.yaml").write_text(SPEC, "utf-8")
    (tmp_path / "cache").mkdir()
    sizes = []
    for dpi in (20, 40):
        pictures = (Picture("png", dpi), Picture("svg"))
        done = draw_one(Job(tmp_path / "hall.yaml", tmp_path / f"at-{dpi}", pictures, tmp_path / "cache"))
        pngs = sorted((tmp_path / f"at-{dpi}" / "hall").glob("*.png"))
        svgs = sorted((tmp_path / f"at-{dpi}" / "hall").glob("*.svg"))
        assert len(pngs) == len(svgs) == len(done.sheets)
        with Image.open(pngs[0]) as picture:
            sizes.append(picture.size)
    assert sizes[1] == (2 * sizes[0][0], 2 * sizes[0][1])


def test_what_is_unchanged_comes_out_of_the_store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    spec, store = tmp_path / "hall.yaml", tmp_path / "store"
    spec.write_text(SPEC, "utf-8")
    first = draw_one(Job(spec, tmp_path / "a", store=store))
    (entry,) = store.glob("*.zip")
    spec.write_text("# a comment\n" + SPEC.replace("height: 60", "height: 1524 mm"), "utf-8")
    monkeypatch.setattr("sheets.commands.one_set.show", None)  # drawing would fail
    second = draw_one(Job(spec, tmp_path / "b", store=store))
    assert second.sheets == first.sheets
    assert digests(tmp_path / "a") == digests(tmp_path / "b")
    monkeypatch.undo()
    entry.write_bytes(entry.read_bytes()[:-40])
    assert draw_one(Job(spec, tmp_path / "c", store=store)).sheets == first.sheets, (
        "a broken entry counts as missing"
    )
    assert digests(tmp_path / "a") == digests(tmp_path / "c")


def test_the_key_is_of_the_content_and_the_program(monkeypatch: pytest.MonkeyPatch) -> None:
    one = cache.key_of([("a", b"x")])
    assert one == cache.key_of([("a", b"x")])
    assert (
        len({one, cache.key_of([("a", b"y")]), cache.key_of([("b", b"x")]), cache.key_of([("ax", b"")])}) == 4
    )
    monkeypatch.setattr(cache, "_program", lambda: "another program")
    assert cache.key_of([("a", b"x")]) != one


def test_drawn_by_other_versions_is_told_from_a_difference(committed: Path) -> None:
    target = committed / "out" / "hall" / "manifest.json"
    kept = target.read_text("utf-8")
    content = json.loads(kept)
    content["drawn_with"]["numpy"] = "1.0"
    target.write_text(json.dumps(content, indent=2, ensure_ascii=False) + "\n", "utf-8")
    done = draw_one(Job(committed / "hall.yaml", committed / "out", check=True))
    assert done.differs == ()
    assert "drawn by other versions: numpy 1.0, here" in done.told[0]
    dxf = committed / "out" / "hall" / "hall.dxf"
    drawn = dxf.read_bytes()
    dxf.write_bytes(drawn + b"\n")
    says = check(committed)
    dxf.write_bytes(drawn)
    target.write_text(kept, "utf-8")
    assert says[0] == "hall.dxf: is not what the spec gives"
    assert "drawn by other versions: numpy 1.0, here" in says[1]


def test_a_set_is_held_with_the_pictures_that_it_was_drawn_with(tmp_path: Path) -> None:
    spec = tmp_path / "hall.yaml"
    spec.write_text(SPEC, "utf-8")
    pictures = (Picture("png", 30), Picture("svg"))
    draw_one(Job(spec, tmp_path / "out", pictures, tmp_path / "store"))
    plain = draw_one(Job(spec, tmp_path / "out", (), tmp_path / "store", check=True))
    assert (plain.differs, plain.unchanged) == ((), True)
    finer = draw_one(Job(spec, tmp_path / "out", (Picture("png", 31),), tmp_path / "store", check=True))
    assert any(line.endswith(".png: is not what the spec gives") for line in finer.differs)
    picture = sorted((tmp_path / "out" / "hall").glob("*.svg"))[0]
    picture.write_bytes(b"<svg/>")
    altered = draw_one(Job(spec, tmp_path / "out", (), tmp_path / "store", check=True))
    assert altered.differs == (f"{picture.name}: is not what the spec gives",)


def test_what_stands_as_it_was_drawn_is_not_read_or_written_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    spec, block = tmp_path / "hall.yaml", tmp_path / "mine.yaml"
    spec.write_text(SPEC.replace("shop-small", "mine.yaml"), "utf-8")
    shipped = Path(__file__).resolve().parents[2] / "titleblocks" / "shop-small.yaml"
    block.write_bytes(shipped.read_bytes())
    job = Job(spec, tmp_path / "out", (), tmp_path / "store")
    assert not draw_one(job).unchanged
    before = digests(tmp_path / "out")
    times = {p: p.stat().st_mtime_ns for p in (tmp_path / "out" / "hall").iterdir()}
    with monkeypatch.context() as patched:
        patched.setattr("sheets.commands.one_set.solve", None)  # reading would fail
        again = draw_one(job)
    assert again.unchanged
    assert again.sheets
    assert {p: p.stat().st_mtime_ns for p in (tmp_path / "out" / "hall").iterdir()} == times
    (tmp_path / "out" / "hall" / "parts.csv").unlink()
    assert not draw_one(job).unchanged, "what is not whole is put there again"
    assert digests(tmp_path / "out") == before
    block.write_text(block.read_text("utf-8").replace("label: DATE", "label: DAY"), "utf-8")
    assert not draw_one(job).unchanged, "the title block that it names is part of what it is drawn from"
    assert digests(tmp_path / "out") != before


def test_an_entry_that_recalls_nothing_true_is_a_miss(tmp_path: Path) -> None:
    spec, store = tmp_path / "hall.yaml", tmp_path / "store"
    spec.write_text(SPEC, "utf-8")
    draw_one(Job(spec, tmp_path / "a", store=store))
    (entry,) = store.glob("*.json")
    kept = json.loads(entry.read_text("utf-8"))
    others: list[dict[str, object]] = [{"read": ["x"]}, {"key": 7}, {"key": "../up"}, {"more": 1}]
    for content in ("", "[]", "null", "{}", *(json.dumps({**kept, **other}) for other in others)):
        entry.write_text(content, "utf-8")
        assert draw_one(Job(spec, tmp_path / "b", store=store)).sheets
        assert digests(tmp_path / "b") == digests(tmp_path / "a")
