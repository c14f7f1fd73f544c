"""The DXF of a set, written by a process beside the one that writes the rest."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager

from sheets.base.beside import beside, ready_beside
from sheets.drawing.items import DrawingSet

DxfOf = Callable[[DrawingSet], Callable[[], bytes]]
"""Begins the DXF of a set, and returns what waits for its bytes."""


def dxf_beside(drawing: DrawingSet) -> Callable[[], bytes]:
    """Begin the DXF of a set."""
    return beside(lambda: _dxf(drawing))


def ready_for_dxf() -> AbstractContextManager[DxfOf]:
    """Let a process load what a DXF is written with, while this one loads and works out all else."""
    return ready_beside(_load, _dxf)


def _load() -> None:
    from sheets.drawing.lettering import read_fonts

    read_fonts()


def _dxf(drawing: DrawingSet) -> bytes:
    from sheets.writers.dxf import dxf

    return dxf(drawing)
