"""An SVG of a sheet as a grey picture, by a small reader of what such a file holds: paths, styles, clips.
It stands for a viewer: it knows SVG 1.1 (absolute M, L, Q, C and Z, clips), not the program.
"""

from __future__ import annotations

import re
from io import BytesIO
from typing import Any
from xml.etree import ElementTree

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from PIL import Image

_SVG = "{http://www.w3.org/2000/svg}"
_PARTS = re.compile(r"[MLQCZz]|-?\d+\.?\d*(?:e-?\d+)?")
_POINTS_OF = {"M": 1, "L": 1, "Q": 2, "C": 3}
_CODE_OF = {"M": Path.MOVETO, "L": Path.LINETO, "Q": Path.CURVE3, "C": Path.CURVE4}


def size_mm(data: bytes) -> tuple[float, float]:
    """The width and height that the file says it has, mm."""
    root = ElementTree.fromstring(data)
    return tuple(_mm(root.get(name)) for name in ("width", "height"))


def of_svg(data: bytes, dots: int) -> np.ndarray:
    """The picture of a file."""
    root = ElementTree.fromstring(data)
    width, height = size_mm(data)
    _, _, wide, high = (float(v) for v in root.get("viewBox").split())
    figure = Figure(figsize=(width / 25.4, height / 25.4), dpi=dots, facecolor="white")
    FigureCanvasAgg(figure)
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set_axis_off()
    axes.set_xlim(0, wide)
    axes.set_ylim(high, 0)
    clips = {
        clip.get("id"): _path(clip.find(f"{_SVG}path").get("d"))
        for clip in root.iter(f"{_SVG}clipPath")
        if clip.find(f"{_SVG}path") is not None
    }
    points = width / 25.4 * 72 / wide  # points of paper in a unit of the file
    hidden = {id(e) for part in root.iter(f"{_SVG}defs") for e in part.iter()}
    for element in root.iter(f"{_SVG}path"):
        if id(element) not in hidden:
            _draw(element, clips, axes, points)
    out = BytesIO()
    figure.savefig(out, format="png", dpi=dots)
    return np.asarray(Image.open(out).convert("L"))


def _draw(element: Any, clips: dict[str, Path], axes: Any, points: float) -> None:
    style = dict(part.strip().split(":", 1) for part in element.get("style", "").split(";") if ":" in part)
    style = {name.strip(): value.strip() for name, value in style.items()}
    fill, stroke = style.get("fill", "#000000"), style.get("stroke", "none")
    patch = PathPatch(
        _path(element.get("d")),
        facecolor="none" if fill == "none" else fill,
        edgecolor="none" if stroke == "none" else stroke,
        linewidth=float(style.get("stroke-width", 1)) * points if stroke != "none" else 0,
        capstyle={"butt": "butt", "round": "round"}.get(style.get("stroke-linecap", "butt"), "butt"),
        joinstyle="round",
    )
    dashes = [float(v) for v in re.split(r"[ ,]+", style.get("stroke-dasharray", "").strip()) if v]
    if dashes:
        # The dashes of a patch count in widths of its line.
        wide = float(style.get("stroke-width", 1))
        patch.set_linestyle((float(style.get("stroke-dashoffset", 0)) / wide, [d / wide for d in dashes]))
    axes.add_patch(patch)
    clip = re.search(r"#([^)]+)", element.get("clip-path", ""))
    if clip:
        patch.set_clip_path(clips[clip[1]], axes.transData)


def _path(text: str) -> Path:
    vertices: list[tuple[float, float]] = []
    codes: list[int] = []
    words = _PARTS.findall(text)
    k = 0
    start = (0.0, 0.0)
    while k < len(words):
        verb = words[k].upper()
        k += 1
        if verb == "Z":
            vertices.append(start)
            codes.append(Path.CLOSEPOLY)
            continue
        while True:
            for _ in range(_POINTS_OF[verb]):
                vertices.append((float(words[k]), float(words[k + 1])))
                codes.append(_CODE_OF[verb])
                k += 2
            if verb == "M":
                start = vertices[-1]
            if k >= len(words) or words[k].upper() in "MLQCZ":
                break
    return Path(vertices, codes)


def _mm(text: str) -> float:
    number = float(re.match(r"[\d.]+", text)[0])
    unit = text.lstrip("0123456789.")
    return number * {"pt": 25.4 / 72, "in": 25.4, "mm": 1.0, "px": 25.4 / 96, "": 25.4 / 96}[unit]
