"""The small wall of the views' tests, drawn."""

from __future__ import annotations

import sys
from dataclasses import replace
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from sheets.annotate.annotate import annotate
from sheets.compose.compose import compose
from sheets.views.make import make_views

_HERE = Path(__file__).parent
sys.path.insert(0, str(_HERE))  # made_views


def small_wall(size="arch-c", titleblock="architect-strip"):
    spec = spec_from_file_location("small_walls", _HERE.parent / "views" / "conftest.py")
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    wall = module.make_wall()
    return replace(wall, paper=replace(wall.paper, size=size, titleblock=titleblock))


@pytest.fixture(scope="session")
def make_small_wall():
    return small_wall


@pytest.fixture(scope="session")
def wall():
    return small_wall()


@pytest.fixture(scope="session")
def annotated(wall):
    return annotate(wall, make_views(wall))


@pytest.fixture(scope="session")
def drawn(wall, annotated):
    """(set, diagnostics) of the small wall."""
    return compose(annotated, wall)
