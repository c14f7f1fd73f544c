"""All schedules as one spreadsheet: typed cells, frozen headings, set up to print. Same in, same bytes."""

from __future__ import annotations

import re
from datetime import datetime
from io import BytesIO
from typing import Any
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from sheets.model.wall import Project
from sheets.schedules.fields import FileColumn, Records, begins_a_formula

_EPOCH = datetime(1980, 1, 1)
"""The earliest time a zip can hold: a file written twice must not differ by when."""
_FORMATS = {"count": "0", "number": "0.0###", "text": "@"}
_WIDEST = 60
_LETTER, _A4 = 1, 9
"""Paper sizes as ECMA-376 numbers them (18.3.1.63, paperSize)."""


def workbook_bytes(project: Project, records: tuple[Records, ...], *, metric: bool) -> bytes:
    """Return the spreadsheet: one sheet a schedule, in order; schedules with no row keep their headings.

    metric: it prints on A4, else on letter paper.
    """
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.worksheets[0])
    book.properties.title = project.title
    book.properties.creator = project.drawn
    for table in records:
        _fill(book.create_sheet(table.name), table, project, _A4 if metric else _LETTER)
    out = BytesIO()
    book.save(out)
    return _without_time(out.getvalue())


def _fill(sheet: Any, table: Records, project: Project, paper: int) -> None:
    from openpyxl.styles import Alignment, Border, Font, Side

    rule = Border(bottom=Side(style="thin"))
    for place, column in enumerate(table.columns, 1):
        head = sheet.cell(row=1, column=place, value=_heading(column))
        head.font, head.border = Font(bold=True), rule
        head.alignment = Alignment(
            vertical="bottom", wrap_text=True, horizontal="left" if column.kind == "text" else "right"
        )
        for line, row in enumerate(table.rows, 2):
            cell = sheet.cell(row=line, column=place)
            value = row[place - 1]
            cell.value = value
            if isinstance(value, str):
                cell.data_type = "s"  # text that starts with = stays text, also when someone edits it
                cell.quotePrefix = begins_a_formula(value)
            cell.number_format = _FORMATS[column.kind]
            cell.alignment = Alignment(vertical="top", wrap_text=column.kind == "text")
        sheet.column_dimensions[head.column_letter].width = _width(table, place - 1, column)
    _print_set_up(sheet, table, project)
    sheet.page_setup.paperSize = paper


def _print_set_up(sheet: Any, table: Records, project: Project) -> None:
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = sheet.dimensions
    sheet.print_title_rows = "1:1"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.oddHeader.left.text = _plain(project.title)
    sheet.oddHeader.right.text = _plain(table.says)
    sheet.oddFooter.left.text = _plain(f"{project.number} {project.date} {project.status}".strip())
    sheet.oddFooter.right.text = "&P / &N"


def _heading(column: FileColumn) -> str:
    return column.name.replace("_", " ")


def _plain(text: str) -> str:
    # In headers and footers an ampersand starts a code; doubled it is itself.
    return text.replace("&", "&&")


def _width(table: Records, place: int, column: FileColumn) -> float:
    longest = max((len(str(row[place])) for row in table.rows), default=0)
    return float(min(_WIDEST, max(8, longest + 2, len(column.name) + 2)))


def _without_time(written: bytes) -> bytes:
    """The same archive with every time in it set to one."""
    out = BytesIO()
    stamp = _EPOCH.strftime("%Y-%m-%dT%H:%M:%SZ")
    with ZipFile(BytesIO(written)) as old, ZipFile(out, "w", ZIP_DEFLATED) as new:
        for name in old.namelist():
            data = old.read(name)
            if name == "docProps/core.xml":
                data = re.sub(rb"(<dcterms:(created|modified)[^>]*>)[^<]*", rb"\g<1>" + stamp.encode(), data)
            entry = ZipInfo(name, date_time=_EPOCH.timetuple()[:6])
            entry.compress_type = ZIP_DEFLATED
            entry.external_attr = 0o600 << 16
            new.writestr(entry, data)
    return out.getvalue()
