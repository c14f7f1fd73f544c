"""Files of the schedules: CSV, spreadsheet and JSON say the same, validate, and come out the same bytes
twice.
"""

from __future__ import annotations

import csv
import json
from dataclasses import replace
from io import BytesIO, StringIO
from typing import get_args
from zipfile import ZipFile

import jsonschema
import openpyxl
import pytest

from sheets.model.wall import Wall
from sheets.schedules import export as exporting
from sheets.schedules.all_schedules import shop_schedules, told_of
from sheets.schedules.export import Format, all_records, columns_document, csv_bytes, export
from sheets.schedules.fields import Field, FileColumn, Records
from sheets.schedules.parts import PARTS, parts_table
from sheets.schedules.table import plain
from tests.schedules.conftest import block, make_wall


def read_csv(files: dict[str, bytes], name: str) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(files[name].decode("utf-8"), newline="")))


def schedule(wall: Wall, format: Format) -> tuple[tuple[str, bytes], ...]:
    return export(wall, shop_schedules(wall), format)


def test_csv_reads_back(wall: Wall) -> None:
    files = dict(schedule(wall, "csv"))
    rows = read_csv(files, "parts.csv")
    assert {row["mark"]: int(row["quantity"]) for row in rows} == {
        "C1l": 1,
        "C1r": 1,
        "C2": 6,
        "C4": 2,
        "M3": 1,
    }
    shelf = next(row for row in rows if row["mark"] == "C2")
    assert (shelf["thickness"], float(shelf["thickness_mm"])) == ('3/4"', 19.05)
    blanks = read_csv(files, "cutting-boards.csv")
    # Six shelves of two strips, two stiles, one corbel of two layers.
    assert len(blanks) == 6 * 2 + 2 + 2


def test_json_validates_against_the_published_schema(wall: Wall) -> None:
    (name, text), (schema_name, shipped) = schedule(wall, "json")
    assert (name, schema_name) == ("schedules.json", "schedules.schema.json")
    said, published = json.loads(text), json.loads(shipped)
    jsonschema.Draft202012Validator.check_schema(published)
    jsonschema.validate(said, published)
    assert said["schedules"]["parts"][0]["mark"]
    said["schedules"]["parts"][0]["quantity"] = "two"
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(said, published)


def test_a_new_column_is_one_field(wall: Wall, monkeypatch: pytest.MonkeyPatch) -> None:
    # One value added: it is on the sheet, in CSV, JSON and its schema, in the spreadsheet, and documented.
    girth = Field("girth", "length", lambda r, _: 2 * (r.width + r.thickness), "GIRTH", "once around")  # type: ignore[var-annotated]
    longer = replace(PARTS, fields=(*PARTS.fields, girth))
    files = tuple((longer if made is PARTS else made, rows) for made, rows in exporting.FILES)
    monkeypatch.setattr(exporting, "FILES", files)
    monkeypatch.setattr("sheets.schedules.parts.PARTS", longer)
    shop = shop_schedules(wall)
    table = parts_table(shop.parts, told_of(shop))
    assert table.columns[-1].header == "GIRTH"
    assert plain(next(row[-1] for row in table.rows if row[0] == "C2")) == '25 1/2"'  # 2 x (12 + 3/4)
    row = next(r for r in read_csv(dict(schedule(wall, "csv")), "parts.csv") if r["mark"] == "C2")
    assert (row["girth"], float(row["girth_mm"])) == ('25 1/2"', 647.7)
    (_, text), (_, shape) = schedule(wall, "json")
    jsonschema.validate(json.loads(text), json.loads(shape))
    assert {"girth", "girth_mm"} <= set(
        json.loads(shape)["properties"]["schedules"]["properties"]["parts"]["items"]["required"]
    )
    ((_, book),) = schedule(wall, "xlsx")
    assert "girth mm" in [cell.value for cell in openpyxl.load_workbook(BytesIO(book))["parts"][1]]
    assert "| girth_mm | number | once around, millimetres |" in columns_document()


def test_spreadsheet_is_typed_and_ready_to_print(wall: Wall) -> None:
    ((_, data),) = schedule(wall, "xlsx")
    book = openpyxl.load_workbook(BytesIO(data))
    assert book.sheetnames == [table.name for table in all_records(shop_schedules(wall))]
    sheet = book["parts"]
    heads = [cell.value for cell in sheet[1]]
    first = {head: cell for head, cell in zip(heads, sheet[2], strict=True)}
    assert first["quantity"].data_type == "n"
    assert isinstance(first["quantity"].value, int)
    assert isinstance(first["thickness mm"].value, float)
    assert first["mark"].data_type == "s"
    assert sheet.freeze_panes == "A2"
    assert sheet.print_title_rows == "$1:$1"
    assert sheet.page_setup.orientation == "landscape"
    assert sheet.sheet_properties.pageSetUpPr.fitToPage
    assert sheet.page_setup.paperSize == 1  # letter
    ((_, metric),) = schedule(make_wall(*wall.parts, units="mm"), "xlsx")
    assert openpyxl.load_workbook(BytesIO(metric))["parts"].page_setup.paperSize == 9  # A4


@pytest.mark.parametrize("format", get_args(Format))
def test_same_wall_same_bytes(wall: Wall, format: Format) -> None:
    assert schedule(wall, format) == schedule(wall, format)


def test_no_time_is_left_in_the_spreadsheet(wall: Wall) -> None:
    ((_, data),) = schedule(wall, "xlsx")
    with ZipFile(BytesIO(data)) as archive:
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        core = archive.read("docProps/core.xml").decode()
    assert core.count("1980-01-01T00:00:00Z") == 2


# What spreadsheets take for the beginning of a formula: OWASP, "CSV Injection" (= + - @ tab CR, and their
# full-width forms).
FORMULAS = ["=1+1", "+1", "-1", "@SUM(1)", "\t=1", "\r=1", "\n=1", "  =1"]
FORMULAS += ["＝1", "＋1", "－1", "＠1", "\u3000=1", "﹦1"]


@pytest.mark.parametrize("text", FORMULAS, ids=ascii)
def test_text_that_looks_like_a_formula_stays_text(text: str) -> None:
    wall = make_wall(block("mantel/rail", size=("3/4", 4, 30), mark="M1", name=text, role="rail"))
    assert read_csv(dict(schedule(wall, "csv")), "parts.csv")[0]["name"] == f"'{text}"
    ((_, data),) = schedule(wall, "xlsx")
    book = openpyxl.load_workbook(BytesIO(data))
    assert book["parts"]["C2"].value.strip() == text.strip()
    assert book["parts"]["C2"].quotePrefix
    assert not book["parts"]["A2"].quotePrefix
    cells = [cell for sheet in book for row in sheet for cell in row]
    assert not [cell.coordinate for cell in cells if cell.data_type == "f"]


def test_no_table_has_a_cell_that_begins_a_formula() -> None:
    wall = make_wall(block("mantel/rail", size=("3/4", 4, 30), mark="=M1", name="=1+1", role="rail"))
    for name, data in schedule(wall, "csv"):
        for row in csv.reader(StringIO(data.decode("utf-8"), newline="")):
            assert not [cell for cell in row if cell[:1] in "=+-@\t\r" and cell], (name, row)


def test_every_column_is_documented(wall: Wall) -> None:
    document = columns_document()
    for table in all_records(shop_schedules(wall)):
        assert f"## {table.name}" in document
        for column in table.columns:
            assert f"| {column.name} | {column.kind} | {column.says} |" in document
            assert column.says


def test_csv_is_rfc_4180_and_runs_nothing() -> None:
    columns = tuple(FileColumn(name, "text", name) for name in ("mark", "name", "notes"))
    table = Records("t", "t", columns, (("A1", 'Shelf, 3/4"', "=HYPERLINK(1)"), ("A2", "x", "-x")))
    # RFC 4180: CRLF ends a record; a field with a comma or a quote is quoted, a quote doubled.
    assert csv_bytes(table) == (
        b'mark,name,notes\r\nA1,"Shelf, 3/4""",\'=HYPERLINK(1)\r\nA2,x,\'-x\r\n'
    )
