"""The set as one DXF: views at full size in model space, a layout at true size for each sheet.

A view's items go back to full size through its viewport; borders, title blocks, tables, notes and view titles
stay on paper. Nothing of the clock, the machine or the run gets into the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from io import StringIO
from math import ceil
from typing import Any

from ezdxf import options  # type: ignore[attr-defined]
from ezdxf.document import Drawing
from ezdxf.filemanagement import new

from sheets.drawing.items import Area, Dimension, DrawingSet, Item, Sheet, Stroke, Symbol, Text, Viewport
from sheets.drawing.pens import viewport_layer, where
from sheets.drawing.walk import ungrouped, viewports
from sheets.geometry.path import Similarity, scaled, shifted
from sheets.writers.dxf_blocks import Blocks
from sheets.writers.dxf_dimensions import APPLICATION, Measured, add_dimension
from sheets.writers.dxf_handles import Handles, identity
from sheets.writers.dxf_items import Space, draw
from sheets.writers.dxf_tables import Tables, dimension_style, new_tables

_INCHES, _MILLIMETRES = 1, 4  # $INSUNITS
_LOCKED = 0x4000  # viewport flag: its scale cannot be changed by scrolling
_APART = 600.0  # mm between views in model space, at least
_STEP = 2540.0  # mm, and 100 in: what a view's place in model space is a multiple of
_MARGIN = 1.0  # mm of paper round a view: a line on the edge of its window would be cut off
_ON_PAPER = frozenset({"view title", "scale bar"})


def dxf(drawing: DrawingSet) -> bytes:
    """Return the set as the bytes of a DXF (release 2010, UTF-8)."""
    out = StringIO()
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True  # no time stamps, no random identifiers
    try:
        document(drawing).write(out)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return out.getvalue().encode("utf-8")


def document(drawing: DrawingSet) -> Drawing:
    """Return the set as a DXF document, which bears the time it was made until `dxf` writes it."""
    inch = drawing.units == "inch"
    doc = new("R2010", setup=False, units=_INCHES if inch else _MILLIMETRES)
    doc.header["$MEASUREMENT"] = 0 if inch else 1
    doc.header["$LUNITS"] = 4 if inch else 2
    doc.header["$LTSCALE"] = 1.0
    doc.header["$PSLTSCALE"] = 0  # dashed lines in model space carry their view's scale themselves
    doc.header["$LWDISPLAY"] = 1
    for name, value in (("TITLE", drawing.title), ("NUMBER", drawing.number), ("DRAWN BY", drawing.author),
                        ("DATE", drawing.date)):  # fmt: skip
        if value:
            doc.header.custom_vars.append(name, value)
    doc.appids.add(APPLICATION)
    tables = new_tables(doc, drawing)
    placed = _laid_apart(drawing, tables.unit)
    handles = Handles(doc)
    blocks = Blocks(tables, handles)
    for index, sheet in enumerate(drawing.sheets):
        _sheet(tables, blocks, sheet, index, placed)
    handles.close()
    # The order of the CLASSES section would follow that of a set.
    for kind in sorted(doc.entitydb.dxf_types_in_use()):
        doc.classes.add_class(kind)
    return doc


@dataclass(frozen=True, slots=True)
class _Placed:
    """A view in model space: the maps to it from paper mm and from full-size view mm."""

    from_paper: Similarity
    from_view: Similarity


def _laid_apart(drawing: DrawingSet, unit: float) -> dict[tuple[str, str], _Placed]:
    # In one row, in the order of the sheets, each with its own zero of height at y = 0. By sheet and view.
    placed: dict[tuple[str, str], _Placed] = {}
    x = 0.0
    for sheet in drawing.sheets:
        for view in viewports(sheet):
            enlarge = float(1 / view.scale)
            left = (view.box[0] - view.origin[0]) * enlarge
            right = (view.box[2] - view.origin[0]) * enlarge
            to_model = scaled(1 / unit).then(shifted((x - left) / unit, 0.0))
            to_view = shifted(-view.origin[0], -view.origin[1]).then(scaled(enlarge))
            placed[sheet.number, view.id] = _Placed(to_view.then(to_model), to_model)
            # In whole steps: a view that grows a little leaves the others where they are.
            x += ceil((right - left + _APART) / _STEP) * _STEP
    return placed


def _sheet(
    tables: Tables, blocks: Blocks, sheet: Sheet, index: int, placed: dict[tuple[str, str], _Placed]
) -> None:
    blocks.handles.under(f"sheet {sheet.number}")
    layout = _layout(tables, sheet, index)
    paper = Space(layout, scaled(1 / tables.unit), "sheet", tables)
    for item in ungrouped(sheet.items):
        if not isinstance(item, Viewport):
            _items(paper, blocks, (item,), sheet.number, None)
            continue
        at = placed[sheet.number, item.id]
        model = Space(tables.doc.modelspace(), at.from_paper, where(item.id), tables)
        measured = Measured(dimension_style(tables, item), at.from_view)
        held = tuple(ungrouped(item.items))
        on_paper = [i for i in held if isinstance(i, Symbol) and i.kind in _ON_PAPER]
        home = f"{sheet.number} {item.id}"
        _items(model, blocks, (i for i in held if i not in on_paper), home, measured)
        _items(paper, blocks, on_paper, f"{home} on paper", None)
        blocks.handles.under(f"{home} viewport")
        _viewport(layout, tables, item, at)


def _items(
    space: Space, blocks: Blocks, items: Iterable[Item], home: str, measured: Measured | None
) -> None:
    # home: where the items are, which together with what they are of finds their handles.
    for item in items:
        blocks.handles.under(f"{home}\n{identity(item)}")
        if isinstance(item, Symbol):
            blocks.insert(space, item)
        elif isinstance(item, Dimension) and measured:
            add_dimension(space, item, measured, blocks.number(f"{home}\n{item.id}"))
        elif isinstance(item, Dimension):
            draw(space, (*item.heads, *item.strokes, item.text))
        elif isinstance(item, (Stroke, Area, Text)):
            draw(space, (item,))


def _layout(tables: Tables, sheet: Sheet, index: int) -> Any:
    doc = tables.doc
    name = re.sub(r'[<>/\\":;?*|,=`]', "-", sheet.number)
    if index == 0:
        doc.layouts.rename("Layout1", name)
        layout = doc.layouts.get(name)
    else:
        layout = doc.layouts.new(name)
    layout.page_setup(
        size=(sheet.width / tables.unit, sheet.height / tables.unit), margins=(0, 0, 0, 0),
        units=tables.units, scale=(1, 1), name="SHEET", device="",
    )
    return layout


def _viewport(layout: Any, tables: Tables, view: Viewport, at: _Placed) -> None:
    x0, y0, x1, y1 = view.box
    x0, y0, x1, y1 = x0 - _MARGIN, y0 - _MARGIN, x1 + _MARGIN, y1 + _MARGIN
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    unit = tables.unit
    window = layout.add_viewport(
        center=(middle[0] / unit, middle[1] / unit),
        size=((x1 - x0) / unit, (y1 - y0) / unit),
        view_center_point=at.from_paper(middle),
        view_height=(y1 - y0) * at.from_paper.scale,
        dxfattribs={"layer": viewport_layer(tables.units)},
    )
    window.dxf.flags |= _LOCKED
