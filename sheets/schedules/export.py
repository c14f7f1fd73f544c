"""The schedules as files: CSV, one a schedule; one spreadsheet; JSON with a published schema.

`schedule(wall, format)` is what the command calls. Same wall, same bytes.
"""

from __future__ import annotations

import csv
import json
from importlib.resources import files
from io import StringIO
from typing import Literal

from sheets.model.wall import Wall
from sheets.schedules.records import (
    BACKER,
    BOARDS,
    HARDWARE,
    LUMBER,
    OFFCUTS,
    ORDINATES,
    PANELS,
    PARTS,
    SHEETS,
    Field,
    Records,
    Value,
    all_records,
    begins_a_formula,
    columns_of,
)
from sheets.schedules.shop import ShopSchedules, shop_schedules

Format = Literal["csv", "xlsx", "json"]
FORMATS: tuple[Format, ...] = ("csv", "xlsx", "json")
SCHEMA_NAME = "schedules.schema.json"
_VERSION = 1
_FIELDS: dict[str, tuple[Field, ...]] = {
    "parts": PARTS,
    "lumber": LUMBER,
    "panels": PANELS,
    "cutting-boards": BOARDS,
    "cutting-panels": SHEETS,
    "offcuts": OFFCUTS,
    "backer": BACKER,
    "hardware": HARDWARE,
    "ordinates": ORDINATES,
}
_JSON_TYPES = {"text": "string", "count": "integer", "number": "number"}


def schedule(wall: Wall, format: Format) -> tuple[tuple[str, bytes], ...]:
    """Return the files of all schedules of a wall: name and bytes."""
    return export(wall, shop_schedules(wall), format)


def export(wall: Wall, shop: ShopSchedules, format: Format) -> tuple[tuple[str, bytes], ...]:
    """Return the files of schedules that are worked out already."""
    records = all_records(shop)
    if format == "csv":
        return tuple((f"{table.name}.csv", csv_bytes(table)) for table in records)
    if format == "json":
        return (
            ("schedules.json", json_bytes(wall, records)),
            (SCHEMA_NAME, published_schema().encode("utf-8")),
        )
    from sheets.schedules.workbook import workbook_bytes

    return (("schedules.xlsx", workbook_bytes(wall.project, records, metric=wall.units == "mm")),)


def parts_csv(shop: ShopSchedules) -> bytes:
    """Return parts.csv alone."""
    return csv_bytes(next(table for table in all_records(shop) if table.name == "parts"))


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


def schema() -> dict[str, object]:
    """Return the JSON schema of the exported schedules, made from the same columns."""
    text = {"type": "string"}
    tables = {
        name: {
            "type": "array",
            "items": {
                "type": "object",
                "additionalProperties": False,
                "required": [column.name for column in columns_of(fields)],
                "properties": {
                    column.name: {"type": _JSON_TYPES[column.kind], "description": column.says}
                    for column in columns_of(fields)
                },
            },
        }
        for name, fields in _FIELDS.items()
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


def published_schema() -> str:
    """Return the text of the schema that is shipped with the program."""
    return files("sheets.schedules").joinpath(SCHEMA_NAME).read_text(encoding="utf-8")


def columns_document() -> str:
    """Return what every column of every schedule says, as a Markdown text."""
    lines = ["# Columns of the schedules", ""]
    for name, fields in _FIELDS.items():
        lines += [f"## {name}", "", "| column | kind | says |", "|---|---|---|"]
        lines += [f"| {column.name} | {column.kind} | {column.says} |" for column in columns_of(fields)]
        lines.append("")
    return "\n".join(lines)


def _inert(value: Value) -> Value:
    # An apostrophe makes text of what a spreadsheet would run.
    return "'" + value if isinstance(value, str) and begins_a_formula(value) else value
