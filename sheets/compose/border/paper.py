"""Sheet sizes: what a size's name means in mm, read from `titleblocks/sheets.yaml`."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Any, Literal

from sheets.base.diagnostics import Diagnostic, nearest
from sheets.geometry.box import Box

MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True)
class SheetSize:
    """A sheet as it lies: mm. frame: the box inside its margins."""

    name: str
    width: float
    height: float
    frame: Box
    zones: bool = False
    centring_inside: float = 0.0


@lru_cache(maxsize=1)
def _table() -> dict[str, tuple[dict[str, Any], Any]]:
    import yaml

    data = yaml.load(files("titleblocks").joinpath("sheets.yaml").read_text("utf-8"), Loader=yaml.CSafeLoader)
    return {
        name: (family, entry)
        for family in data["families"].values()
        for name, entry in family["sizes"].items()
    }


def size_names() -> tuple[str, ...]:
    """All sheet sizes by name, in the order of the file."""
    return tuple(_table())


def sheet_size(
    name: str, orientation: Literal["landscape", "portrait"] = "landscape"
) -> tuple[SheetSize | None, tuple[Diagnostic, ...]]:
    """Return the sheet of this name, or None with a diagnostic that gives the nearest name."""
    found = _table().get(name)
    if found is None:
        guess = nearest(name, _table())
        known = f"did you mean {guess}?" if guess else "known sizes: " + ", ".join(_table())
        return None, (
            Diagnostic("sheet-size-unknown", "error", f"there is no sheet size '{name}'", help=known),
        )
    family, entry = found
    unit = MM_PER_INCH if family.get("inch") else 1.0
    size = entry["size"] if isinstance(entry, dict) else entry
    margins = entry["margins"] if isinstance(entry, dict) else family["margins"]
    width, height = (round(s * unit, 3) for s in size)
    left, right, top, bottom = (m * unit for m in margins)
    if orientation == "portrait":
        width, height = height, width
    return SheetSize(
        name,
        width,
        height,
        Box(left, bottom, width - right, height - top),
        bool(family.get("zones")),
        float(family.get("centring_inside", 0.0)),
    ), ()


def next_larger(name: str) -> tuple[str, ...]:
    """The sizes of the same family that are larger, smallest first."""
    family = name.split("-")[0]
    sizes = {n: sheet_size(n)[0] for n in _table() if n.split("-")[0] == family}
    here = sizes.get(name)
    if here is None:
        return ()
    bigger = [
        (s.width * s.height, n)
        for n, s in sizes.items()
        if s and s.width * s.height > here.width * here.height
    ]
    return tuple(n for _, n in sorted(bigger))
