"""Which specs a run is over: folders, title blocks among specs, and one machine's share of many."""

from __future__ import annotations

from pathlib import Path

import pytest

from sheets.commands.named_specs import NamedError, Share, named, share_from, share_of
from tests.commands.shelf import SPEC

BLOCKS = Path(__file__).resolve().parents[2] / "titleblocks"
MANY = [Path(f"specs/wall-{k}.yaml") for k in range(203)]


def test_a_folder_stands_for_its_specs_and_title_blocks_are_told_apart(tmp_path: Path) -> None:
    for name in ("b.yml", "a.yaml"):
        (tmp_path / name).write_text(SPEC, "utf-8")
    (tmp_path / "notes.txt").write_text("", "utf-8")
    (tmp_path / "mine.yaml").write_bytes((BLOCKS / "shop-small.yaml").read_bytes())
    found = named([tmp_path, tmp_path / "a.yaml"])
    assert found.specs == (tmp_path / "a.yaml", tmp_path / "b.yml")
    assert found.blocks == (tmp_path / "mine.yaml",)
    (tmp_path / "empty").mkdir()
    with pytest.raises(NamedError, match="holds no spec"):
        named([tmp_path / "empty"])


def test_a_spec_with_a_wrong_word_is_still_a_spec(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_text(SPEC + "layouts: []\n", "utf-8")
    assert named([path]).specs == (path,)


def test_every_spec_falls_to_one_share_and_shares_are_alike_in_size() -> None:
    for of in (1, 2, 3, 7):
        shares = [share_of(MANY, Share(k, of)) for k in range(1, of + 1)]
        assert sorted(spec for share in shares for spec in share) == sorted(MANY)
        sizes = {len(share) for share in shares}
        assert max(sizes) - min(sizes) <= 1


def test_shares_go_by_name_and_one_more_spec_moves_few() -> None:
    before = {spec: k for k in (1, 2, 3, 4) for spec in share_of(MANY, Share(k, 4))}
    turned = {spec: k for k in (1, 2, 3, 4) for spec in share_of(MANY[::-1], Share(k, 4))}
    assert turned == before
    more = [*MANY, Path("specs/a new one.yaml")]
    after = {spec: k for k in (1, 2, 3, 4) for spec in share_of(more, Share(k, 4))}
    assert sum(before[spec] != after[spec] for spec in MANY) < len(MANY) / 10


@pytest.mark.parametrize("text", ["0/3", "4/3", "1", "1/0", "a/b", "1/2/3", "-1/2", ""])
def test_a_share_that_is_none_is_refused(text: str) -> None:
    with pytest.raises(NamedError, match="K-th of N"):
        share_from(text)
