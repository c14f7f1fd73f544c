"""No sum of floats is left to the builtin `sum`: from Python 3.12 on it carries what rounding loses, so that
the same spec would give other bytes on 3.11. `math.fsum` is exact on all."""

from __future__ import annotations

import builtins
import os
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import pytest

from sheets.commands.one_set import draw
from sheets.commands.shop_files import label_files, named_set, pattern_files, schedules_of
from sheets.grammar.starter import starter_spec
from sheets.writers.pictures import Picture

ROOT = Path(__file__).resolve().parents[2]


def float_sums(specs: Iterable[Path], monkeypatch: pytest.MonkeyPatch) -> set[str]:
    """Draw and schedule specs; return where in the program `sum` met a float, as file:line."""
    found: set[str] = set()
    plain = builtins.sum

    def watched(items: Iterable[Any], /, start: Any = 0) -> Any:
        items = list(items)
        frame = sys._getframe(1)
        where = Path(frame.f_code.co_filename)
        if where.is_relative_to(ROOT / "sheets") and any(isinstance(one, float) for one in (start, *items)):
            found.add(f"{where.relative_to(ROOT)}:{frame.f_lineno}")
        return plain(items, start)

    monkeypatch.setattr(builtins, "sum", watched)
    monkeypatch.setattr(os, "sched_getaffinity", lambda process: {0})  # all in this process
    for spec in specs:
        assert draw(spec, pictures=(Picture("svg"),)).files
        shop_set, _ = named_set(spec)
        assert shop_set is not None
        schedules_of(shop_set, "xlsx")
        pattern_files(shop_set.wall, shop_set.stem)
        label_files(shop_set.wall, shop_set.stem)
    return found


def test_no_float_is_summed_by_the_builtin(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    spec = tmp_path / "wall.yaml"
    spec.write_text(starter_spec())
    assert float_sums([spec], monkeypatch) == set()


@pytest.mark.nightly
def test_nor_in_any_example(monkeypatch: pytest.MonkeyPatch) -> None:
    specs = [*ROOT.glob("specs/*.yaml"), *ROOT.glob("tests/acceptance/specs/*.yaml")]
    assert float_sums(specs, monkeypatch) == set()
