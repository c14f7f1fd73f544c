"""The small walls made by hand for the views, and ways to change them."""

from __future__ import annotations

from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType

import pytest

from sheets.model.wall import Wall
from tests.revisions.turns import Turn, issued

_FILE = Path(__file__).parents[1] / "views" / "conftest.py"


@pytest.fixture(scope="session")
def small() -> ModuleType:
    """The module that builds small walls."""
    spec = spec_from_file_location("small_walls", _FILE)
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def wall(small: ModuleType) -> Wall:
    return small.make_wall()


@pytest.fixture(scope="session")
def turns(tmp_path_factory: pytest.TempPathFactory) -> tuple[Turn, ...]:
    """Twelve revisions of one wall, issued one after the other."""
    return issued(tmp_path_factory.mktemp("history"))
