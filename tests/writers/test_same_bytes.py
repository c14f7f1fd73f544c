"""Every format gives the same bytes whatever the hash seed, time zone, locale, clock variable and folder."""

import os
import subprocess
import sys
from pathlib import Path

_PROGRAM = """
import hashlib, sys
sys.path.insert(0, {here!r})
from hand_made_set import sample
from sheets.writers.dxf import dxf
from sheets.writers.pdf import pdf
from sheets.writers.manifest import manifest
from sheets.writers.raster import png
from sheets.writers.svg import svg
for units in ("inch", "mm"):
    drawing = sample(units)
    files = {{"a.pdf": pdf(drawing, (("a.yaml", b"x"),)), "a.dxf": dxf(drawing)}}
    files["a.svg"] = svg(drawing.sheets[1])
    files["a.png"] = png(drawing.sheets[1], 50)
    files["manifest.json"] = manifest(drawing, files, "a.yaml", b"x")
    for name in sorted(files):
        print(units, name, hashlib.sha256(files[name]).hexdigest())
"""
_SETTINGS = (
    {"PYTHONHASHSEED": "1", "TZ": "UTC", "LC_ALL": "C"},
    {"PYTHONHASHSEED": "4242", "TZ": "Pacific/Kiritimati", "LC_ALL": "C.UTF-8", "SOURCE_DATE_EPOCH": "86400"},
)


def _hashes(settings, folder):
    environment = {k: v for k, v in os.environ.items() if k != "SOURCE_DATE_EPOCH"} | settings
    run = subprocess.run(
        [sys.executable, "-c", _PROGRAM.format(here=str(Path(__file__).parent))],
        cwd=folder, env=environment, capture_output=True, text=True, check=True,
    )  # fmt: skip
    return run.stdout.splitlines()


def test_same_set_same_bytes(tmp_path):
    one, other = (_hashes(settings, tmp_path) for settings in _SETTINGS)
    assert len(one) == 10
    assert one == other
