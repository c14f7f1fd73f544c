"""The manifest names files and sheets by hashes that hashlib gives too."""

import hashlib
import json
from dataclasses import replace

import ezdxf
from hand_made_set import sample

from sheets import __version__
from sheets.writers.manifest import drawn_apart, manifest

FILES = {"alcove.pdf": b"%PDF", "alcove.dxf": b"0"}


def test_lists_files_sheets_spec_and_version():
    drawing = sample("mm")
    content = json.loads(manifest(drawing, FILES, "alcove.yaml", b"wall: 1\n"))
    assert content["drawn_with"]["shopset"] == __version__
    assert content["spec"] == {"name": "alcove.yaml", "sha256": hashlib.sha256(b"wall: 1\n").hexdigest()}
    assert {f["name"]: f["sha256"] for f in content["files"]} == {
        name: hashlib.sha256(data).hexdigest() for name, data in FILES.items()
    }
    assert [(s["number"], s["title"]) for s in content["sheets"]] == [
        ("Z-001", "INDEX"), ("Z-201", "ELEVATION"), ("Z-501", "DETAILS"),
    ]  # fmt: skip


def test_a_sheets_hash_changes_with_that_sheet_alone():
    drawing = sample("mm")
    changed = replace(drawing.sheets[1], title="FRONT ELEVATION")
    other = replace(drawing, sheets=(drawing.sheets[0], changed, drawing.sheets[2]))
    written = [json.loads(manifest(d, FILES, "a.yaml", b"")) for d in (drawing, other)]
    before, after = ([s["sha256"] for s in content["sheets"]] for content in written)
    assert [a == b for a, b in zip(before, after, strict=True)] == [True, False, True]


def test_it_names_the_versions_of_what_its_files_were_drawn_with():
    content = json.loads(manifest(sample("mm"), FILES, "a.yaml", b""))
    assert set(content["drawn_with"]) == {
        "deflate", "ezdxf", "numpy", "reportlab", "scipy", "shapely", "shopset",
    }  # fmt: skip
    assert content["drawn_with"]["ezdxf"] == ezdxf.__version__
    pictures = json.loads(manifest(sample("mm"), {**FILES, "a.png": b""}, "a.yaml", b""))
    assert pictures["drawn_with"].keys() - content["drawn_with"].keys() == {"matplotlib", "pillow"}
    older = {**content, "drawn_with": {**content["drawn_with"], "numpy": "1.0"}}
    assert drawn_apart(older, content) == f"numpy 1.0, here {content['drawn_with']['numpy']}"
    assert drawn_apart(content, content) == ""
    assert "numpy not named" in drawn_apart({"drawn_with": []}, content)
