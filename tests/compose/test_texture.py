"""What a material is drawn as, by its name; and that every hatch there is can be asked for."""

from __future__ import annotations

from typing import get_args

import pytest

from sheets.compose.placing.texture import face_areas, hatch_of
from sheets.drawing.hatches import HATCHES
from sheets.geometry.path import scaled
from sheets.geometry.region import rectangle
from sheets.model.part import Look, Material
from sheets.views.view import FaceTexture


@pytest.mark.parametrize(
    ("kind", "name", "look"),
    [
        ("masonry", "brick", "brick"),
        ("masonry", "Reclaimed Brick", "brick"),
        ("masonry", "brickwork slate", "stone"),  # not the word
        ("masonry", "slate", "stone"),
        ("masonry", "glazed tile", "tile"),
        ("masonry", "cast concrete", "concrete"),
        ("masonry", "masonry by others", "masonry"),
        ("panel", "MDF", "fibreboard"),
        ("panel", "veneer-core plywood", "panel"),
        ("wood", "brick oak", "wood"),  # a word counts for its own kind
    ],
)
def test_a_material_looks_like_what_its_name_says(kind, name, look) -> None:  # type: ignore[no-untyped-def]
    assert Material("m", kind, name).look == look


def test_a_veneered_panel_shows_its_grain_whatever_its_core() -> None:
    assert Material("m", "panel", "MDF-core plywood", face="white oak").look == "panel"


def test_every_hatch_can_be_asked_for() -> None:
    looks, grains = get_args(Look), (None, "end", "u", "v")
    cut = {hatch_of(look, grain) for look in looks for grain in grains}
    faces = {
        area.hatch
        for look in looks
        for grain in grains
        for area in face_areas([FaceTexture((rectangle(0, 0, 100, 100),), "p", look, grain)], scaled(1.0), [])
    }
    assert cut | faces == set(HATCHES)
