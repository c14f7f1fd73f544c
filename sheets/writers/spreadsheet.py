"""A table as comma-separated values (RFC 4180), for the shop's own spreadsheet."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from io import StringIO

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def csv_bytes(rows: Iterable[Sequence[str]]) -> bytes:
    """Return rows, the headings first, as UTF-8 CSV. A cell that would be run as a formula is made text."""
    out = StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    for row in rows:
        writer.writerow([_inert(cell) for cell in row])
    return out.getvalue().encode("utf-8")


def _inert(cell: str) -> str:
    if cell.startswith(_FORMULA) and not _is_number(cell):
        return "'" + cell
    return cell


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True
