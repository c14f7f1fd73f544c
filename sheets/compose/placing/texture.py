"""How cut and seen materials are drawn: which hatch, along which way, how close; break lines round a window.

A cut face too thin on paper for its hatch to read is filled grey instead. Paper mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum

from sheets.compose.ink import mapped, polyline
from sheets.compose.view_sizes import FACE
from sheets.drawing.items import Area, Stroke
from sheets.geometry.box import Box
from sheets.geometry.path import Similarity
from sheets.geometry.region import Region
from sheets.model.part import Look
from sheets.views.view import CutFace, FaceTexture, GrainSeen, View

# Least thickness on paper at which a hatch reads, mm: about two and a half of its lines.
_READS = {
    "wood end": 3.2,
    "wood long": 3.0,
    "panel": 1.9,
    "fibreboard": 1.9,
    "masonry": 3.0,
    "brick": 2.4,
    "concrete": 3.0,
    "stone": 3.0,
    "gypsum": 1.6,
    "other": 3.0,
}
_WOODEN = ("wood", "panel", "fibreboard")
_FACES = {"stone": "stone face", "brick": "brick face", "tile": "tile face"}


def hatch_of(material: Look, grain: GrainSeen | None) -> str:
    """The hatch of a material where it is cut."""
    if material == "wood":
        return "wood end" if grain in ("end", None) else "wood long"
    return "masonry" if material == "tile" else material


def cut_areas(faces: Sequence[CutFace], change: Similarity) -> tuple[Area, ...]:
    """The cut faces of a view on paper, filled and hatched; end grain of touching parts leans differently."""
    found: list[Area] = []
    leaning: list[tuple[Box, float]] = []
    for face in sorted(faces, key=lambda f: f.part):
        regions = tuple(mapped(r, change) for r in face.regions)
        if not regions:
            continue
        name = hatch_of(face.material, face.grain)
        thick = min(_thickness(r) for r in regions)
        if thick < _READS[name]:
            grey = FACE.thin_grey if face.material in _WOODEN else FACE.stone_grey
            found.append(Area(regions, fill=grey, key=face.part))
            continue
        if name == "panel" and thick > FACE.thickest_panel * change.scale:
            name = "wood long"  # cut along the sheet: no plies are seen
        angle = _along(face, regions, name)
        if name in ("wood end", "stone", "masonry", "brick", "concrete", "other"):
            box = regions[0].bounds
            near = {a for b, a in leaning if box.meets(b, FACE.touching)}
            angle = next((a for a in FACE.angles if a not in near), 0.0)
            leaning.append((box, angle))
        pitch = 1.0 if thick >= FACE.lines_least * _READS[name] else FACE.closest
        origin = (regions[0].bounds[0], regions[0].bounds[1])
        found.append(
            Area(
                regions,
                fill=FACE.under_hatch,
                hatch=name,
                angle=angle,
                pitch=pitch,
                origin=origin,
                key=face.part,
            )
        )
    return tuple(found)


def face_areas(faces: Sequence[FaceTexture], change: Similarity, gaps: Sequence[Box]) -> tuple[Area, ...]:
    """The light textures of faces seen square on, left clear round texts."""
    found: list[Area] = []
    for face in sorted(faces, key=lambda f: f.part):
        regions = tuple(mapped(r, change) for r in face.regions)
        regions = tuple(r for r in regions if _thickness(r) >= FACE.face_least)
        if not regions:
            continue
        if face.material in _FACES:
            name, angle = _FACES[face.material], 0.0
        elif face.material in ("wood", "panel") and face.grain in ("u", "v"):
            name, angle = "wood face", 0.0 if face.grain == "u" else 90.0
        else:
            continue
        boxes = [r.bounds for r in regions]
        clear = tuple(g for g in gaps if any(g.meets(box) for box in boxes))
        origin = boxes[0][:2]
        found.append(
            Area(
                regions,
                hatch=name,
                angle=angle,
                pitch=FACE.face_pitch,
                origin=origin,
                gaps=clear,
                key=face.part,
            )
        )
    return tuple(found)


def _along(face: CutFace, regions: Sequence[Region], name: str) -> float:
    if name in ("panel", "gypsum"):
        x0, y0, x1, y1 = max(regions, key=lambda r: r.area).bounds
        return 0.0 if x1 - x0 >= y1 - y0 else 90.0
    return 90.0 if face.grain == "v" else 0.0


def _thickness(shape: Region) -> float:
    # Of a long strip this is its width, of a square half of its side and a bit more.
    edge = fsum(loop.length for loop in shape.loops)
    return 2 * shape.area / edge if edge else 0.0


def break_lines(view: View, change: Similarity) -> tuple[Stroke, ...]:
    """Zigzag lines along the sides of a detail's window where it cuts through parts."""
    if not view.window:
        return ()
    x0, y0 = change((float(view.box.u0), float(view.box.v0)))
    x1, y1 = change((float(view.box.u1), float(view.box.v1)))
    touching: dict[str, list[tuple[float, float]]] = {"left": [], "right": [], "below": [], "above": []}
    for face in view.cuts:
        for shape in face.regions:
            for s in shape.outer.segments:
                a, b = change(s.first), change(s.last)
                for side, k, at in (("left", 0, x0), ("right", 0, x1), ("below", 1, y0), ("above", 1, y1)):
                    if abs(a[k] - at) < FACE.on_edge and abs(b[k] - at) < FACE.on_edge:
                        touching[side].append((min(a[1 - k], b[1 - k]), max(a[1 - k], b[1 - k])))
    found: list[Stroke] = []
    for side, at in (("left", x0), ("right", x1), ("below", y0), ("above", y1)):
        for low, high in _merged(touching[side], FACE.break_join):
            if high - low > FACE.break_least:
                found.append(_zigzag(side, at, low - FACE.break_past, high + FACE.break_past))
    return tuple(found)


def _merged(spans: list[tuple[float, float]], apart: float) -> list[tuple[float, float]]:
    merged: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if merged and low - merged[-1][1] < apart:
            merged[-1] = (merged[-1][0], max(merged[-1][1], high))
        else:
            merged.append((low, high))
    return merged


def _zigzag(side: str, at: float, low: float, high: float) -> Stroke:
    middle, h = (low + high) / 2, min(FACE.zigzag, (high - low) / 6)
    run = [
        (low, 0.0),
        (middle - h, 0.0),
        (middle - h / 3, h),
        (middle + h / 3, -h),
        (middle + h, 0.0),
        (high, 0.0),
    ]
    if side in ("left", "right"):
        return polyline([(at + off, t) for t, off in run], "break")
    return polyline([(t, at + off) for t, off in run], "break")
