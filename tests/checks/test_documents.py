"""The JSON that other programs read names its format, and is as the schema made of its types says."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from sheets.base.stopwatch import Stopwatch
from sheets.checks.finding import Checked
from sheets.checks.reports import document
from sheets.checks.run import run_checks
from sheets.commands.checking import schema_text
from sheets.commands.drawing import Job, draw_one
from sheets.pipeline import solve
from sheets.writers.pictures import Picture
from tests.acceptance.edits import base, changed
from tests.commands.shelf import SPEC

Document = dict[str, Any]


def held(kind: str, said: Document) -> None:
    schema = json.loads(schema_text(kind))  # type: ignore[arg-type]
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(said)
    assert (said["format"], said["version"]) == (f"shopset {kind}", 1)
    for damage in ({"version": 2}, {"format": "other"}, {"more": 1}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.Draft202012Validator(schema).validate({**said, **damage})


def test_what_check_found(tmp_path: Path) -> None:
    path = tmp_path / "wall.yaml"
    waiver = "checks: {waivers: [{rule: mitres, reason: splined, by: RV}]}\n"
    path.write_text(base("masonry") + waiver, encoding="utf-8")
    wall = solve(path).wall
    assert wall is not None
    said = json.loads(document.as_json((Checked("wall.yaml", run_checks(wall)),)))
    findings = [found for rule in said["specs"][0]["rules"] for found in rule["findings"]]
    assert any(found["waived"] for found in findings)
    assert any(found["waived"] is None for found in findings)
    held("check", said)


def test_the_manifest_of_a_set_with_pictures_and_of_schedules(tmp_path: Path) -> None:
    from sheets.commands.shop_files import named_set, schedules_of, with_manifest

    spec = tmp_path / "hall.yaml"
    spec.write_text(SPEC, "utf-8")
    draw_one(Job(spec, tmp_path, (Picture("png", 20), Picture("svg"))))
    held("manifest", json.loads((tmp_path / "hall" / "manifest.json").read_text("utf-8")))
    shop_set, _ = named_set(spec)
    assert shop_set is not None
    files = dict(with_manifest(shop_set, schedules_of(shop_set, "json")[0]))
    held("manifest", json.loads(files["manifest.json"]))
    held("schedules", json.loads(files["schedules.json"]))
    schema = json.loads(schema_text("schedules"))
    assert json.loads(files["schedules.schema.json"]) == schema


def test_a_comparison_of_two_walls(tmp_path: Path) -> None:
    from sheets.commands.comparison import as_json, bare_sets, compared, sheet_lines_of
    from sheets.commands.given import given

    old, new = tmp_path / "old.yaml", tmp_path / "new.yaml"
    old.write_text(base("masonry"), "utf-8")
    new.write_text(
        changed(base("masonry"), {"cases.0.depth": "13", "cases.0.shelves.count": "3", "mantel.arch": "-"}),
        "utf-8",
    )
    sides = given(str(old)), given(str(new))
    watch = Stopwatch()
    found = compared(*sides, watch)
    before, after, _ = bare_sets(found, *sides, watch)
    said = json.loads(as_json(found, *sides, sheet_lines_of(*sides, (before, after))))
    for name in ("groups", "parts", "sizes", "findings", "take_off", "sheets"):
        assert said[name], name
    held("compare", said)
