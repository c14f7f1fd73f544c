"""Files of the schedules: CSV, spreadsheet and JSON say the same, validate, and come out the same bytes
twice.
"""

from __future__ import annotations

import csv
import json
from io import BytesIO, StringIO
from zipfile import ZipFile

import jsonschema
import openpyxl
import pytest

from sheets.model.wall import Project, Wall
from sheets.schedules.export import FORMATS, columns_document, csv_bytes, published_schema, schedule, schema
from sheets.schedules.records import Field, Records, all_records
from sheets.schedules.shop import shop_schedules
from sheets.schedules.workbook import workbook_bytes
from tests.schedules.conftest import block, make_wall


def read_csv(files: dict[str, bytes], name: str) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(files[name].decode("utf-8"), newline="")))


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
    assert (schema_name, shipped.decode()) == ("schedules.schema.json", published_schema())
    said = json.loads(text)
    jsonschema.Draft202012Validator.check_schema(json.loads(published_schema()))
    jsonschema.validate(said, json.loads(published_schema()))
    assert name == "schedules.json"
    assert said["schedules"]["parts"][0]["mark"]
    said["schedules"]["parts"][0]["quantity"] = "two"
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(said, json.loads(published_schema()))


def test_the_published_schema_is_the_one_the_columns_make() -> None:
    assert json.loads(published_schema()) == schema()


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


@pytest.mark.parametrize("format", FORMATS)
def test_same_wall_same_bytes(wall: Wall, format: str) -> None:
    assert schedule(wall, format) == schedule(wall, format)  # type: ignore[arg-type]


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
    fields = tuple(Field(name, "text", name) for name in ("mark", "name"))
    table = Records("t", "t", fields, (("A1", text), ("A2", "a = b"), ("A3", "")))
    rows = list(csv.reader(StringIO(csv_bytes(table).decode("utf-8"), newline="")))
    assert [row[1] for row in rows] == ["name", f"'{text}", "a = b", ""]
    book = openpyxl.load_workbook(BytesIO(workbook_bytes(Project("t"), (table,), metric=True)))
    cells = [book["t"][place] for place in ("B2", "B3")]
    assert [cell.data_type for cell in cells] == ["s", "s"]
    assert cells[0].value.strip() == text.strip()
    assert [bool(cell.quotePrefix) for cell in cells] == [True, False]


def test_no_table_has_a_cell_that_begins_a_formula() -> None:
    wall = make_wall(block("mantel/rail", size=("3/4", 4, 30), mark="=M1", name="=1+1", role="rail"))
    for name, data in schedule(wall, "csv"):
        for row in csv.reader(StringIO(data.decode("utf-8"), newline="")):
            assert not [cell for cell in row if cell[:1] in "=+-@\t\r" and cell], (name, row)
    ((_, data),) = schedule(wall, "xlsx")
    cells = [cell for sheet in openpyxl.load_workbook(BytesIO(data)) for row in sheet for cell in row]
    assert not [cell.coordinate for cell in cells if cell.data_type == "f"]
    assert any(cell.value == "=1+1" for cell in cells)


def test_every_column_is_documented(wall: Wall) -> None:
    document = columns_document()
    for table in all_records(shop_schedules(wall)):
        assert f"## {table.name}" in document
        for column in table.columns:
            assert f"| {column.name} | {column.kind} | {column.says} |" in document
            assert column.says


def test_csv_is_rfc_4180_and_runs_nothing() -> None:
    fields = tuple(Field(name, "text", name) for name in ("mark", "name", "notes"))
    table = Records("t", "t", fields, (("A1", 'Shelf, 3/4"', "=HYPERLINK(1)"), ("A2", "x", "-x")))
    # RFC 4180: CRLF ends a record; a field with a comma or a quote is quoted, a quote doubled.
    assert csv_bytes(table) == (
        b'mark,name,notes\r\nA1,"Shelf, 3/4""",\'=HYPERLINK(1)\r\nA2,x,\'-x\r\n'
    )
