"""The manifest: every hash in it is worked out again, and it names the sheets that are there."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import Any

import pypdf

from sheets import __version__
from sheets.drawing.dump import sheet_hash
from tests.acceptance.stages import staged


def manifest(drawn: Path, spec: Path) -> tuple[Path, dict[str, Any]]:
    folder = drawn / spec.stem
    return folder, json.loads((folder / "manifest.json").read_text("utf-8"))


def test_each_file_has_its_hash_and_there_is_no_other(drawn: Path, spec: Path) -> None:
    folder, said = manifest(drawn, spec)
    names = {f"{spec.stem}.pdf", f"{spec.stem}-checks.pdf", f"{spec.stem}.dxf", "parts.csv"}
    assert {path.name for path in folder.iterdir()} == names | {"manifest.json"}
    assert {file["name"] for file in said["files"]} == names
    for file in said["files"]:
        data = (folder / file["name"]).read_bytes()
        assert (file["bytes"], file["sha256"]) == (len(data), hashlib.sha256(data).hexdigest())


def test_each_sheet_has_its_number_title_and_hash(drawn: Path, spec: Path) -> None:
    folder, said = manifest(drawn, spec)
    reader = pypdf.PdfReader(folder / f"{spec.stem}.pdf")
    assert [sheet["number"] for sheet in said["sheets"]] == reader.page_labels
    titles = [entry.title for entry in reader.outline if not isinstance(entry, list)]
    assert [f"{sheet['number']} {sheet['title']}" for sheet in said["sheets"]] == titles
    _, _, drawing = staged(spec)
    assert [sheet["sha256"] for sheet in said["sheets"]] == [sheet_hash(sheet) for sheet in drawing.sheets]
    assert len({sheet["sha256"] for sheet in said["sheets"]}) == len(said["sheets"])


def test_the_hash_of_the_spec_is_of_the_filled_spec_that_the_pdf_carries(drawn: Path, spec: Path) -> None:
    folder, said = manifest(drawn, spec)
    carried = pypdf.PdfReader(folder / f"{spec.stem}.pdf").attachments[spec.name][0]
    assert said["spec"] == {"name": spec.name, "sha256": hashlib.sha256(carried).hexdigest()}
    assert said["drawn_with"]["shopset"] == __version__
