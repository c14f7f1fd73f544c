"""Handles follow what an entity is of: one line more leaves all other numbers as they were."""

from dataclasses import replace

import pytest
from hand_made_set import sample
from read_back import dxf_document

from sheets.drawing.items import Stroke, Text, Viewport
from sheets.geometry.path import Line
from sheets.writers import dxf_handles
from sheets.writers.dxf import dxf


def entities(data):
    """Each entity's handle with its kind and layer, in every layout and block."""
    document = dxf_document(data)
    return {
        entity.dxf.handle: (entity.dxftype(), entity.dxf.get("layer"))
        for block in document.blocks
        for entity in block
    }


def with_more(drawing, items):
    first, *rest = drawing.sheets
    return replace(drawing, sheets=(replace(first, items=(*items, *first.items)), *rest))


def test_items_before_all_others_change_no_other_handle():
    drawing = sample("mm", times=3)
    line = Stroke((Line((20.0, 20.0), (31.0, 47.0)),), "edge")
    words = Text((), (20.0, 20.0), 2.5)
    before, after = entities(dxf(drawing)), entities(dxf(with_more(drawing, (line, words))))
    assert {handle: after.get(handle) for handle in before} == before
    assert len(after) == len(before) + 1


def test_a_view_that_changes_leaves_the_lines_of_the_others():
    drawing = sample("inch", times=3)
    sheet = next(s for s in drawing.sheets if any(isinstance(i, Viewport) for i in s.items))
    view = next(i for i in sheet.items if isinstance(i, Viewport))
    box = (*view.box[:2], view.box[2], view.box[3] + 0.5)
    other = replace(sheet, items=tuple(replace(i, box=box) if i is view else i for i in sheet.items))
    changed = replace(drawing, sheets=tuple(other if s is sheet else s for s in drawing.sheets))
    before, after = (dxf(one).decode().splitlines() for one in (drawing, changed))
    assert len(before) == len(after)
    assert sum(a != b for a, b in zip(before, after, strict=True)) < 10, "its own middle and height"


@pytest.mark.parametrize("below", [1, 7, 900])
def test_blocks_that_are_taken_give_way(monkeypatch, below):
    """However crowded, every handle is one entity's, and the same each time."""
    whole = dxf_handles.digest
    monkeypatch.setattr(dxf_handles, "_BLOCK", 4)
    monkeypatch.setattr(dxf_handles, "_FILLED", 2)
    monkeypatch.setattr(dxf_handles, "digest", lambda what, limit: whole(what, min(limit, below * 50)))
    data = dxf(sample("inch"))
    assert data == dxf(sample("inch"))
    document = dxf_document(data)
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])


def test_the_next_handle_is_above_all_and_fits_in_31_bits():
    document = dxf_document(dxf(sample("inch")))
    highest = max(int(handle, 16) for handle in document.entitydb.keys())  # noqa: SIM118
    assert highest < int(document.header["$HANDSEED"], 16) < 2**31
