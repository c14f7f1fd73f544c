"""The small wall of the views' tests, its views and what is said of them."""

from __future__ import annotations

from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from sheets.annotate.annotate import annotate
from sheets.views.make import make_views

_FILE = Path(__file__).parents[1] / "views" / "conftest.py"


@pytest.fixture(scope="session")
def small():
    """The module that builds small walls."""
    spec = spec_from_file_location("small_walls", _FILE)
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def wall(small):
    return small.make_wall()


@pytest.fixture(scope="session")
def views(wall):
    return make_views(wall)


@pytest.fixture(scope="session")
def annotated(wall, views):
    return annotate(wall, views)
