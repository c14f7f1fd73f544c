"""Faces have area, and their areas close the solid: a face without one would hide what it must not."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from sheets.geometry.boundary import boundary
from sheets.pipeline import solve

SPECS = sorted((Path(__file__).resolve().parents[2] / "specs").glob("*.yaml"))


@pytest.mark.parametrize("spec", SPECS, ids=lambda path: path.stem)
def test_each_face_has_area_and_faces_close_the_solid(spec: Path) -> None:
    wall = solve(spec).wall
    assert wall is not None
    for part in wall.parts:
        faces = boundary(part.solid).faces
        one, other = faces[:, 2] - faces[:, 0], faces[:, 3] - faces[:, 1]
        area = np.cross(one, other) / 2
        assert np.linalg.norm(area, axis=1).min() > 1e-6, part.key
        normals = boundary(part.solid).normals
        outward = normals * np.linalg.norm(area, axis=1)[:, None]
        # a closed surface has no net area in any direction
        assert np.abs(outward.sum(axis=0)).max() < 1e-3 * np.linalg.norm(area, axis=1).sum(), part.key
