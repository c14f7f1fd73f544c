"""An SVG of a sheet as a grey picture, by a viewer that is not ours: librsvg, with the font of the sheets."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import tempfile
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from PIL import Image

from sheets.drawing.lettering import font_path

needs_viewer = pytest.mark.skipif(
    shutil.which("rsvg-convert") is None, reason="no viewer of SVG: librsvg2-bin is not installed"
)


def size_mm(data: bytes) -> tuple[float, float]:
    """The width and height that the file says it has, mm."""
    root = ElementTree.fromstring(data)
    wide, high = (re.fullmatch(r"([\d.]+)mm", root.get(name, "")) for name in ("width", "height"))
    assert wide is not None
    assert high is not None
    return float(wide[1]), float(high[1])


def of_svg(data: bytes, dots: int) -> np.ndarray:
    """The picture of a file."""
    with tempfile.TemporaryDirectory() as folder:
        fonts = Path(folder) / "fonts.conf"
        fonts.write_text(
            f"<fontconfig><dir>{font_path().parent}</dir><cachedir>{folder}</cachedir></fontconfig>", "utf-8"
        )
        command = ["rsvg-convert", "--background-color=white", f"--dpi-x={dots}", f"--dpi-y={dots}"]
        run = subprocess.run(
            command, input=data, capture_output=True, check=True, timeout=120,
            env=os.environ | {"FONTCONFIG_FILE": str(fonts)},
        )  # fmt: skip
    return np.asarray(Image.open(BytesIO(run.stdout)).convert("L"))
