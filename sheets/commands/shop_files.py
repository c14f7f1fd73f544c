"""The files of `schedule`, `patterns`, `labels`: solved wall in, names and bytes out. They write nothing."""

from __future__ import annotations

from sheets.base.diagnostics import Diagnostic, has_errors
from sheets.model.wall import Wall
from sheets.schedules.export import Format, export
from sheets.schedules.shop import plan_findings, shop_schedules

Files = tuple[tuple[str, bytes], ...]


def schedule_files(wall: Wall, format: Format) -> tuple[Files, tuple[Diagnostic, ...]]:
    """Return the schedules as files, and what the cutting plans could not do."""
    shop = shop_schedules(wall)
    return export(wall, shop, format), plan_findings(shop)


def pattern_files(wall: Wall, stem: str) -> tuple[Files, tuple[Diagnostic, ...]]:
    """Return the full-size patterns: a PDF of tiles, a PDF and a DXF of long sheets; none without a curve."""
    from sheets.compose.pattern_sheets import long_patterns, tiled_patterns
    from sheets.writers.dxf import dxf
    from sheets.writers.pdf import pdf

    tiled, problems = tiled_patterns(wall)
    if has_errors(problems) or not tiled.sheets:
        return (), problems
    long = long_patterns(wall)
    return (
        (f"{stem}-patterns-tiled.pdf", pdf(tiled)),
        (f"{stem}-patterns.pdf", pdf(long)),
        (f"{stem}-patterns.dxf", dxf(long)),
    ), problems


def label_files(wall: Wall, stem: str) -> tuple[Files, tuple[Diagnostic, ...]]:
    """Return the part labels as a PDF on their grid."""
    from sheets.compose.label_sheets import label_sheets
    from sheets.writers.pdf import pdf

    drawing, problems = label_sheets(wall, shop_schedules(wall))
    return () if has_errors(problems) else ((f"{stem}-labels.pdf", pdf(drawing)),), problems
