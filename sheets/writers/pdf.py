"""The set as one PDF: a page a sheet at true size, searchable, with outline, page labels, links and sources.

What it says of itself comes from the set alone, no clock and no environment: same set, same bytes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from hashlib import md5
from io import BytesIO
from typing import Any

from reportlab import rl_config
from reportlab.pdfbase import pdfdoc, pdfmetrics
from reportlab.pdfgen.canvas import Canvas

from sheets.drawing.items import DrawingSet, Sheet, Weight
from sheets.drawing.lettering import font_path, settable
from sheets.drawing.walk import leaves, links, viewports
from sheets.geometry.box import Box
from sheets.writers.pdf_fonts import FixedFont
from sheets.writers.pdf_page import POINTS, Page

# By weight: the font, and what it is called in pages.
_FONTS: dict[Weight, tuple[str, str]] = {
    "regular": ("SourceSansPro", "F1"),
    "bold": ("SourceSansPro-Semibold", "F2"),
}
_PROGRAM = "shopset"
_canvas: Any = Canvas  # its published types leave out what is used here


def pdf(drawing: DrawingSet, attachments: tuple[tuple[str, bytes], ...] = ()) -> bytes:
    """Return the set as the bytes of a PDF. attachments: files to embed, as (name, content)."""
    with _settled():
        return _written(drawing, attachments)


def _written(drawing: DrawingSet, attachments: tuple[tuple[str, bytes], ...]) -> bytes:
    out = BytesIO()
    canvas = _new_canvas(out, drawing)
    known_sheets = {sheet.number for sheet in drawing.sheets}
    known_views = {view.id for sheet in drawing.sheets for view in viewports(sheet)}
    for index, sheet in enumerate(drawing.sheets):
        canvas.setPageSize((sheet.width * POINTS, sheet.height * POINTS))
        canvas.addPageLabel(index, prefix=sheet.number)
        _entries(canvas, sheet)
        page = Page(_encoder(canvas), (sheet.width, sheet.height))
        page.draw(leaves(sheet.items))
        canvas._code.extend(page.code)
        _links(canvas, sheet, known_sheets, known_views)
        canvas.showPage()
    if attachments:
        canvas._doc.Catalog.Names = _embedded(canvas._doc, attachments)
    canvas.save()
    return out.getvalue()


@contextmanager
def _settled() -> Iterator[None]:
    # The library takes these from the user's environment. Streams as bytes, not as text: a third of the time.
    ours = {"useA85": 0, "pdfComments": 0, "invariant": 1}
    before = {name: getattr(rl_config, name) for name in ours}
    try:
        for name, value in ours.items():
            setattr(rl_config, name, value)
        yield
    finally:
        for name, value in before.items():
            setattr(rl_config, name, value)


def _new_canvas(out: BytesIO, drawing: DrawingSet) -> Any:
    for weight, (name, internal) in _FONTS.items():
        if name not in pdfmetrics.getRegisteredFontNames():
            pdfmetrics.registerFont(FixedFont(name, font_path(weight), internal))
    canvas: Any = _canvas(out, invariant=1, pageCompression=1, initialFontName=_FONTS["regular"][0])
    canvas._doc.signature = md5(usedforsecurity=False)  # its own starts from a settable time
    canvas._doc.info = _info(drawing)
    canvas._doc.Catalog.setPageMode("UseOutlines")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    canvas.setViewerPreference("PrintScaling", "None")  # a drawing to scale is not fitted to the paper
    return canvas


class _Info(pdfdoc.PDFInfo):
    """Document information; its dates are the set's own, or none."""

    made: tuple[int, int, int] | None = None

    def format(self, document: Any) -> Any:
        """Return the dictionary as reportlab writes it."""
        entries = {
            name: pdfdoc.PDFString(value)
            for name, value in (
                ("Title", self.title), ("Author", self.author), ("Subject", self.subject),
                ("Producer", _PROGRAM), ("Creator", _PROGRAM),
            )
            if value
        }
        if self.made:
            year, month, day = self.made
            date = pdfdoc.PDFString(f"D:{year:04d}{month:02d}{day:02d}000000Z")
            entries["CreationDate"] = entries["ModDate"] = date
        return pdfdoc.PDFDictionary(entries).format(document)


def _info(drawing: DrawingSet) -> _Info:
    info = _Info()
    info.title = f"{drawing.number} {drawing.title}".strip()
    info.author = drawing.author
    info.subject = "Shop drawings"
    found = re.fullmatch(r"(\d{4})-(\d\d)-(\d\d)", drawing.date.strip(), re.ASCII)
    info.made = (int(found[1]), int(found[2]), int(found[3])) if found else None
    return info


def _encoder(canvas: Any) -> Any:
    document = canvas._doc

    @cache
    def encode(text: str, weight: Weight) -> list[tuple[str, str]]:
        font: Any = pdfmetrics.getFont(_FONTS[weight][0])
        return [
            (font.getSubsetInternalName(subset, document), canvas._escape(string))
            for subset, string in font.splitString(settable(text), document)
        ]

    return encode


def _entries(canvas: Any, sheet: Sheet) -> None:
    # Destinations and the outline: the sheet, and under it each view that has a title.
    key = _sheet_key(sheet.number)
    canvas.bookmarkPage(key, fit="Fit")
    canvas.addOutlineEntry(f"{sheet.number} {sheet.title}".strip(), key, level=0, closed=True)
    for view in viewports(sheet):
        x0, y0, x1, y1 = (value * POINTS for value in view.box)
        canvas.bookmarkPage(_view_key(view.id), fit="FitR", left=x0, bottom=y0, right=x1, top=y1)
        if view.title:
            canvas.addOutlineEntry(f"{view.number} {view.title}".strip(), _view_key(view.id), level=1)


def _links(canvas: Any, sheet: Sheet, known_sheets: set[str], known_views: set[str]) -> None:
    for link in links(sheet.items):
        if link.view in known_views:
            goal = _view_key(link.view)
        elif link.sheet in known_sheets:
            goal = _sheet_key(link.sheet)
        else:
            continue
        canvas.linkRect("", goal, _rect(link.box), relative=0, thickness=0, Border="[0 0 0]")


def _rect(box: Box) -> tuple[float, ...]:
    return tuple(round(value * POINTS, 3) for value in box)


def _sheet_key(number: str) -> str:
    return f"sheet {number}"


def _view_key(view_id: str) -> str:
    return f"view {view_id}"


def _embedded(document: Any, attachments: tuple[tuple[str, bytes], ...]) -> Any:
    # The catalog's name tree of embedded files (ISO 32000-1, 7.11.4); names in order, as a name tree asks.
    names: list[Any] = []
    for name, content in sorted(attachments):
        stream = pdfdoc.PDFStream(
            pdfdoc.PDFDictionary({
                "Type": pdfdoc.PDFName("EmbeddedFile"),
                "Params": pdfdoc.PDFDictionary({"Size": len(content)}),
            }),
            content, filters=[pdfdoc.PDFZCompress],
        )
        file = pdfdoc.PDFDictionary({
            "Type": pdfdoc.PDFName("Filespec"), "F": pdfdoc.PDFString(name), "UF": pdfdoc.PDFString(name),
            "EF": pdfdoc.PDFDictionary({"F": document.Reference(stream)}),
        })
        names += [pdfdoc.PDFString(name), document.Reference(file)]
    return pdfdoc.PDFDictionary({"EmbeddedFiles": pdfdoc.PDFDictionary({"Names": pdfdoc.PDFArray(names)})})
