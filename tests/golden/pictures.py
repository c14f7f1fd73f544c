"""Sheets as grey pictures: the pages of a PDF by poppler, the layouts of a DXF by ezdxf's drawing add-on.

A picture is an array of rows from the top, 0 black to 255 white, of the sheet's whole paper.
"""

from __future__ import annotations

import io
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path
from unittest.mock import patch

import ezdxf
import ezdxf.bbox
import numpy as np
import pypdf
from ezdxf.addons.drawing.config import BackgroundPolicy, Configuration, LineweightPolicy
from ezdxf.addons.drawing.frontend import UniversalFrontend
from ezdxf.addons.drawing.matplotlib import MatplotlibBackend
from ezdxf.addons.drawing.pipeline import RenderPipeline2d
from ezdxf.addons.drawing.properties import RenderContext
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from PIL import Image

MM = 25.4  # in an inch
_POINTS = 72 / MM


def of_pdf(
    data: bytes, dots: int, pages: tuple[int, int] | None = None, *, finer: int = 1
) -> tuple[np.ndarray, ...]:
    """The pages of a PDF, all or from the first to the last asked for (1, 1 is the first page).

    finer: drawn so many times finer and averaged, since poppler moves lines to whole dots.
    """
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "set.pdf"
        path.write_bytes(data)
        span = ["-f", str(pages[0]), "-l", str(pages[1])] if pages else []
        box = pypdf.PdfReader(path).pages[pages[0] - 1 if pages else 0].mediabox
        wide, high = (str(_dots(float(v) / 72, dots) * finer) for v in (box.width, box.height))
        size = ["-scale-to-x", wide, "-scale-to-y", high]
        command = ["pdftoppm", "-gray", *size, *span, str(path), str(Path(folder) / "page")]
        subprocess.run(command, check=True, timeout=120)
        drawn = (Image.open(p) for p in sorted(Path(folder).glob("page-*.pgm")))
        return tuple(np.asarray(page.reduce(finer) if finer > 1 else page) for page in drawn)


def of_dxf(data: bytes, dots: int, names: tuple[str, ...]) -> Iterator[np.ndarray]:
    """The layouts of a DXF of these names, one after the other."""
    document = ezdxf.read(io.StringIO(data.decode("utf-8")))
    unit = MM if document.units == ezdxf.units.IN else 1.0
    reaches = ezdxf.bbox.Cache()  # what lies outside a viewport is not drawn in it
    for name in names:
        layout = document.layouts.get(name)
        # A layout's paper is in mm whatever its units are.
        figure = _blank(layout.dxf.paper_width, layout.dxf.paper_height, dots)
        axes = figure.add_axes((0, 0, 1, 1))
        backend = MatplotlibBackend(axes, adjust_figure=False)
        config = Configuration(
            background_policy=BackgroundPolicy.WHITE,
            lineweight_policy=LineweightPolicy.ABSOLUTE,
            # The backend takes widths in mm for points; lines are as thin as they say, dashes as short.
            lineweight_scaling=_POINTS,
            min_lineweight=0.01,
            min_dash_length=0.001,
            max_flattening_distance=0.01 / unit,
        )
        context = RenderContext(document)
        # The add-on moves each hatch by 3 to 10 parts in 10,000 of its pitch, at random: always by the least.
        with patch("ezdxf.render.hatching._jiggle_factor", return_value=0.0003):
            UniversalFrontend(context, _Pipeline(backend), config, reaches).draw_layout(layout)
        axes.set_axis_off()
        axes.set_aspect("auto")
        axes.set_position((0, 0, 1, 1))
        axes.set_xlim(0, layout.dxf.paper_width / unit)
        axes.set_ylim(0, layout.dxf.paper_height / unit)
        yield _drawn(figure)


class _Pipeline(RenderPipeline2d):
    """Dashes as the DXF Reference has them where $PSLTSCALE is 0: they shrink in a viewport with model space.
    The add-on does not read that variable."""

    def get_vp_ltype_scale(self) -> float:
        """What a dash is multiplied by on the way to paper."""
        return self.current_vp_scale


def of_png(data: bytes) -> np.ndarray:
    """A PNG made grey."""
    return np.asarray(Image.open(io.BytesIO(data)).convert("L"))


def _blank(width: float, height: float, dots: int) -> Figure:
    size = (_dots(width / MM, dots) / dots, _dots(height / MM, dots) / dots)
    figure = Figure(figsize=size, dpi=dots, facecolor="white")
    FigureCanvasAgg(figure)
    return figure


def _dots(inches: float, dots: int) -> int:
    # Whole dots: what a renderer does with part of a dot at the edge of the paper is its own affair.
    return round(inches * dots)


def _drawn(figure: Figure) -> np.ndarray:
    figure.canvas.draw()
    return np.asarray(Image.fromarray(np.asarray(figure.canvas.buffer_rgba())).convert("L"))
