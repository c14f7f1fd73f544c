"""Dimensions as real DIMENSION entities, whose picture is exactly what was placed on the sheet.

A dimension's block is filled here and not by the library's own renderer, so that paper and DXF show the same
lines and the same text; the points that it measures are the view's own, at full size.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sheets.drawing.items import Dimension
from sheets.drawing.lettering import box
from sheets.geometry.path import Point, Similarity
from sheets.writers.dxf_items import Space, draw

APPLICATION = "SHOPSET"
"""Owner of the extended data that names each dimension."""

_LINEAR, _RADIUS = 0, 4
_OWN_BLOCK, _TEXT_PLACED = 32, 128


@dataclass(frozen=True, slots=True)
class Measured:
    """What the dimensions of one view share: its style, and the map from full-size view mm to model units."""

    style: str
    to_model: Similarity


def add_dimension(space: Space, item: Dimension, view: Measured, number: int) -> None:
    """Add a dimension to model space. number: of the block that holds its picture."""
    doc = space.tables.doc
    block = doc.blocks.new(f"*D{number}")
    draw(Space(block, space.place, space.kind, space.tables), (*item.heads, *item.strokes, item.text))
    x0, y0, x1, y1 = box(item.text)
    a, b = view.to_model(item.a), view.to_model(item.b)
    attributes: dict[str, Any] = space.tables.attributes("dimension", space.kind) | {
        "geometry": block.name, "dimstyle": view.style, "text": _override(item), "attachment_point": 5,
        "text_midpoint": space.place(((x0 + x1) / 2, (y0 + y1) / 2)),
        "actual_measurement": float(item.value) * view.to_model.scale,
    }
    if item.kind == "linear":
        attributes |= {
            "dimtype": _LINEAR | _OWN_BLOCK | _TEXT_PLACED,
            "defpoint": _on_line(space.place(item.line_at), b, item.angle),
            "defpoint2": a, "defpoint3": b, "angle": item.angle,
        }
    else:
        attributes |= {"dimtype": _RADIUS | _OWN_BLOCK | _TEXT_PLACED, "defpoint": b, "defpoint4": a}
    entity = space.layout.new_entity("DIMENSION", attributes)
    if item.id:
        entity.set_xdata(APPLICATION, [(1000, item.id)])


def _override(item: Dimension) -> str:
    # <> stands for the measured size; a radius brings its R itself.
    prefix = "" if item.kind == "radius" and item.prefix == "R" else item.prefix
    return f"{prefix}<>{item.suffix}"


def _on_line(line: Point, b: Point, angle: float) -> Point:
    # The dimension line's end at the second measured point.
    return (line[0], b[1]) if angle == 90.0 else (b[0], line[1])
