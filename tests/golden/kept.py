"""The goldens: which sheets are kept, how each is drawn, and where it is kept."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
from PIL import Image

from sheets.commands.stages import stage_text
from sheets.drawing.dump import dump
from sheets.drawing.pens import where
from sheets.drawing.walk import viewports
from tests.audit.examples import ROOT, example
from tests.golden import pictures
from tests.golden.ink import Unlike, unlike

FOLDER = Path(__file__).parent / "kept"
DOTS = 60  # to the inch: a sheet is some tens of kilobytes, and its lettering can be made out
NEAR = 0.43  # mm: one dot aside
BOUND = 0.002  # of the ink, for what one version of a renderer does otherwise than another
TILE_BOUND = 0.05  # of a tile of 5 mm, which is 12 dots wide

PLAIN = "plain-mantel"  # small enough for what a stage made of it to be kept whole

# By example and kind of view: the first sheet with such a view. Sheets get other numbers as sets grow.
TEXTS = (("narrow-wall", "elevation"), (PLAIN, "wall"))
PICTURES = (
    ("ferry-landing", "elevation"), ("ferry-landing", "detail"), ("cider-house", "section"),
    ("mantel-alone", "axonometric"),
)  # fmt: skip


def text_path(stem: str, kind: str) -> Path:
    """Where the text of a sheet, or of a stage, is kept."""
    return FOLDER / f"{stem}-{kind}.txt"


def picture_path(stem: str, kind: str) -> Path:
    """Where the picture of a sheet is kept."""
    return FOLDER / f"{stem}-{kind}.png"


@cache
def index(stem: str, kind: str) -> int:
    """Which sheet of the set is the first with a view of a kind."""
    sheets = example(stem).drawing.sheets
    return next(k for k, s in enumerate(sheets) if kind in {where(view.id) for view in viewports(s)})


def text_now(stem: str, kind: str) -> str:
    """The sheet as text, as it is drawn now; of the plain mantel, what a stage makes of it now."""
    if stem == PLAIN:
        text, found = stage_text(ROOT / "tests" / "acceptance" / "specs" / f"{stem}.yaml", kind)  # type: ignore[arg-type]
        assert text, found
        return text
    return dump(example(stem).drawing.sheets[index(stem, kind)])


@cache
def picture_now(stem: str, kind: str) -> np.ndarray:
    """The sheet's page of the PDF, as it is drawn now."""
    page = index(stem, kind) + 1
    return pictures.of_pdf(example(stem).pdf, DOTS, (page, page))[0]


def picture_kept(stem: str, kind: str) -> np.ndarray:
    """The picture that is kept."""
    return np.asarray(Image.open(picture_path(stem, kind)).convert("L"))


def apart(before: np.ndarray, after: np.ndarray) -> Unlike | None:
    """How far two pictures are apart when that is more than renderers differ; None if it is not."""
    if max(abs(before.shape[k] - after.shape[k]) for k in (0, 1)) > 1:
        return Unlike(1.0, 1.0, 1.0, (0.0, 0.0))
    found = unlike(before, after, dots=DOTS, near=NEAR)
    same = max(found.only_first, found.only_second) < BOUND and found.worst < TILE_BOUND
    return None if same else found


def beside(before: np.ndarray, after: np.ndarray) -> Image.Image:
    """One picture: before, after, and what only one of them has in black over the other in light grey."""
    rows = max(before.shape[0], after.shape[0])
    columns = max(before.shape[1], after.shape[1])
    first, second = (_filled(p, rows, columns) for p in (before, after))
    both = np.minimum(first, second)
    changed = np.abs(first.astype(int) - second.astype(int)) > 64
    third = np.where(changed, both, 255 - (255 - both) // 6).astype(np.uint8)
    rule = np.zeros((rows, 4), dtype=np.uint8)
    return Image.fromarray(np.hstack([first, rule, second, rule, third]))


def _filled(picture: np.ndarray, rows: int, columns: int) -> np.ndarray:
    paper = np.full((rows, columns), 255, dtype=np.uint8)
    paper[rows - picture.shape[0] :, : picture.shape[1]] = picture
    return paper
