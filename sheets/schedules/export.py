"""The schedules as files: CSV, one a schedule; one spreadsheet; JSON with the schema that their fields make.

Same wall, same bytes.
"""

from __future__ import annotations

import csv
import json
from collections.abc import Callable, Iterable, Mapping
from io import StringIO
from typing import Any, Literal

from sheets.model.wall import Wall
from sheets.schedules.all_schedules import ShopSchedules, told_of
from sheets.schedules.backer_boards import BACKER, backer_rows
from sheets.schedules.cutting_tables import BOARDS, OFFCUTS, SHEETS, board_rows, offcut_rows, sheet_rows
from sheets.schedules.fields import Records, Schedule, Told, Value, begins_a_formula
from sheets.schedules.hardware import HARDWARE
from sheets.schedules.lumber_list import LUMBER
from sheets.schedules.panel_list import PANELS
from sheets.schedules.parts import PARTS
from sheets.schedules.patterns import ORDINATES, finely_told, ordinate_rows

Format = Literal["csv", "xlsx", "json"]
_SCHEMA_NAME = "schedules.schema.json"
_VERSION = 1
_JSON_TYPES = {"text": "string", "count": "integer", "number": "number"}
FILES: tuple[tuple[Schedule[Any], Callable[[ShopSchedules], Iterable[Any]]], ...] = (
    (PARTS, lambda shop: shop.parts.rows),
    (LUMBER, lambda shop: shop.lumber.rows),
    (PANELS, lambda shop: shop.sheet_goods),
    (BOARDS, lambda shop: board_rows(shop.boards)),
    (SHEETS, lambda shop: sheet_rows(shop.panels)),
    (OFFCUTS, lambda shop: offcut_rows(shop.boards, shop.panels)),
    (BACKER, lambda shop: backer_rows(shop.backers)),
    (HARDWARE, lambda shop: shop.hardware),
    (ORDINATES, lambda shop: ordinate_rows(shop.patterns)),
)
"""The schedules in the order a shop wants them, and where each has its rows from."""


def export(
    wall: Wall, shop: ShopSchedules, format: Format, sheet_of: Mapping[str, str] | None = None
) -> tuple[tuple[str, bytes], ...]:
    """Return the files of all schedules: name and bytes. sheet_of: the sheet where each mark is detailed."""
    records = all_records(shop, sheet_of)
    if format == "csv":
        return tuple((f"{table.name}.csv", csv_bytes(table)) for table in records)
    if format == "json":
        return ("schedules.json", json_bytes(wall, records)), (_SCHEMA_NAME, schema_bytes())
    from sheets.schedules.workbook import workbook_bytes

    return (("schedules.xlsx", workbook_bytes(wall.project, records, metric=wall.units == "mm")),)


def all_records(shop: ShopSchedules, sheet_of: Mapping[str, str] | None = None) -> tuple[Records, ...]:
    """Return every schedule as records, in order."""
    return tuple(_records(schedule, rows(shop), told_of(shop, sheet_of)) for schedule, rows in FILES)


def parts_csv(shop: ShopSchedules, sheet_of: Mapping[str, str]) -> bytes:
    """Return parts.csv alone."""
    return csv_bytes(PARTS.records(shop.parts.rows, told_of(shop, sheet_of)))


def _records(schedule: Schedule[Any], rows: Iterable[Any], told: Told) -> Records:
    return schedule.records(rows, finely_told(told.notation) if schedule is ORDINATES else told)


def csv_bytes(table: Records) -> bytes:
    """Return a schedule as UTF-8 CSV (RFC 4180): column names, then rows. No cell can be run as a formula."""
    out = StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([column.name for column in table.columns])
    writer.writerows([[_inert(value) for value in row] for row in table.rows])
    return out.getvalue().encode("utf-8")


def json_bytes(wall: Wall, records: tuple[Records, ...]) -> bytes:
    """Return all schedules as one JSON text, as the schema describes it."""
    project = wall.project
    said = {
        "format": "shopset schedules",
        "version": _VERSION,
        "units": wall.units,
        "project": {
            "title": project.title,
            "number": project.number,
            "date": project.date,
            "status": project.status,
        },
        "schedules": {
            table.name: [dict(zip((c.name for c in table.columns), row, strict=True)) for row in table.rows]
            for table in records
        },
    }
    return (json.dumps(said, ensure_ascii=False, indent=1) + "\n").encode("utf-8")


def schema() -> dict[str, Any]:
    """Return the JSON schema of the exported schedules, made from the same fields."""
    text = {"type": "string"}
    tables = {
        schedule.name: {
            "type": "array",
            "items": {
                "type": "object",
                "additionalProperties": False,
                "required": [column.name for column in schedule.columns],
                "properties": {
                    column.name: {"type": _JSON_TYPES[column.kind], "description": column.says}
                    for column in schedule.columns
                },
            },
        }
        for schedule, _ in FILES
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Schedules of a shop set",
        "type": "object",
        "additionalProperties": False,
        "required": ["format", "version", "units", "project", "schedules"],
        "properties": {
            "format": {"const": "shopset schedules"},
            "version": {"const": _VERSION},
            "units": {"enum": ["inch", "mm"]},
            "project": {
                "type": "object",
                "additionalProperties": False,
                "required": ["title", "number", "date", "status"],
                "properties": {key: text for key in ("title", "number", "date", "status")},
            },
            "schedules": {
                "type": "object",
                "additionalProperties": False,
                "required": list(tables),
                "properties": tables,
            },
        },
    }


def schema_bytes() -> bytes:
    """Return the schema as it is written beside the schedules."""
    return json.dumps(schema(), ensure_ascii=False, indent=1).encode("utf-8")


def columns_document() -> str:
    """Return what every column of every schedule says, as a Markdown text."""
    lines = ["# Columns of the schedules", ""]
    for schedule, _ in FILES:
        lines += [f"## {schedule.name}", "", "| column | kind | says |", "|---|---|---|"]
        lines += [f"| {column.name} | {column.kind} | {column.says} |" for column in schedule.columns]
        lines.append("")
    return "\n".join(lines)


def _inert(value: Value) -> Value:
    # An apostrophe makes text of what a spreadsheet would run.
    return "'" + value if isinstance(value, str) and begins_a_formula(value) else value
