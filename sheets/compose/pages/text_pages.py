"""Plain pages of headings, lines and small tables, for what goes with a set: the transmittal, the list of
changes.

Paper mm; letter paper in inch sets, A4 in metric ones.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum
from typing import Literal

from sheets.base.notation import Run
from sheets.compose.page_sizes import TEXT_PAGE
from sheets.drawing.items import Item, Sheet, Stroke, Text, Weight
from sheets.drawing.lettering import width
from sheets.geometry.box import Box
from sheets.geometry.path import Line

# ANSI A is 8.5 × 11 in (ASME Y14.1); A4 is 210 × 297 mm (ISO 216).
_PAPER: dict[str, tuple[float, float]] = {"inch": (215.9, 279.4), "mm": (210.0, 297.0)}


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading with a rule under it."""

    text: str


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph, broken at spaces: it begins `left` mm in, further lines `indent` mm more."""

    text: str
    indent: float = 0.0
    left: float = 0.0


@dataclass(frozen=True, slots=True)
class Rows:
    """Rows of cells in columns; the last column takes what is left and is broken in lines."""

    rows: tuple[tuple[str, ...], ...]
    header: tuple[str, ...] = ()


Block = Heading | Paragraph | Rows


def report_blocks(lines: Sequence[str]) -> tuple[Block, ...]:
    """Return a report's lines as paragraphs that stand in as far as they did."""
    return tuple(
        Paragraph(line.strip(), TEXT_PAGE.indent, TEXT_PAGE.per_space * (len(line) - len(line.lstrip(" "))))
        for line in lines
        if line.strip()
    )


def text_pages(
    title: str, blocks: Sequence[Block], units: Literal["inch", "mm"], number: str, foot: str = ""
) -> tuple[Sheet, ...]:
    """Return the pages. number: of the first; further ones are numbered on. foot: said at the foot of
    each."""
    wide, high = _PAPER[units]
    frame = Box(TEXT_PAGE.left, TEXT_PAGE.edge, wide - TEXT_PAGE.edge, high - TEXT_PAGE.edge)
    page = _Filler(frame)
    page.text(title.upper(), TEXT_PAGE.title, "bold")
    page.down(TEXT_PAGE.title + TEXT_PAGE.gap)
    for block in blocks:
        match block:
            case Heading():
                page.need(TEXT_PAGE.head + 3 * TEXT_PAGE.step)
                page.down(TEXT_PAGE.gap)
                page.text(block.text.upper(), TEXT_PAGE.head, "bold")
                page.down(TEXT_PAGE.head + TEXT_PAGE.under_head)
                page.rule("table border")
                page.down(TEXT_PAGE.step - TEXT_PAGE.between)
            case Paragraph():
                for k, words in enumerate(
                    _wrapped(block.text, page.wide - (block.indent if block.indent else 0.0))
                ):
                    page.need(TEXT_PAGE.step)
                    page.text(words, TEXT_PAGE.letter, indent=block.left + (block.indent if k else 0.0))
                    page.down(TEXT_PAGE.step)
            case Rows():
                _rows(page, block)
    pages = page.pages
    return tuple(
        _sheet(title, items, (wide, high), frame, number, k, len(pages), foot)
        for k, items in enumerate(pages)
    )


class _Filler:
    def __init__(self, frame: Box) -> None:
        self.pages: list[list[Item]] = [[]]
        self._frame = frame
        self.y = frame[3]

    @property
    def wide(self) -> float:
        return self._frame[2] - self._frame[0]

    def need(self, tall: float) -> None:
        if self.y - tall < self._frame[1] + 2 * TEXT_PAGE.step:
            self.pages.append([])
            self.y = self._frame[3]

    def down(self, by: float) -> None:
        self.y -= by

    def text(self, words: str, height: float, weight: Weight = "regular", indent: float = 0.0) -> None:
        at = (self._frame[0] + indent, self.y - height)
        room = self.wide - indent
        squeeze = max(TEXT_PAGE.least_squeeze, min(1.0, room / (width(words, height, weight) or 1.0)))
        self.pages[-1].append(Text((Run(words),), at, height, weight=weight, squeeze=squeeze))

    def rule(self, pen: Literal["table border", "table rule"]) -> None:
        a, b = (self._frame[0], self.y), (self._frame[2], self.y)
        self.pages[-1].append(Stroke((Line(a, b),), pen))


def _rows(page: _Filler, block: Rows) -> None:
    everything = [block.header, *block.rows] if block.header else list(block.rows)
    if not everything:
        return
    columns = len(everything[0])
    wides = [
        max(width(row[k], TEXT_PAGE.letter, "bold") for row in everything) + TEXT_PAGE.column_gap
        for k in range(columns - 1)
    ]
    for n, row in enumerate(everything):
        head = bool(block.header) and n == 0
        last = _wrapped(row[-1], max(TEXT_PAGE.last_least, page.wide - fsum(wides)))
        page.need(TEXT_PAGE.step * len(last) + 1.0)
        x = 0.0
        for cell, wide in zip(row[:-1], wides, strict=True):
            page.text(cell, TEXT_PAGE.letter, "bold" if head else "regular", indent=x)
            x += wide
        for words in last:
            page.text(words, TEXT_PAGE.letter, "bold" if head else "regular", indent=x)
            page.down(TEXT_PAGE.step)
        page.y += TEXT_PAGE.step - TEXT_PAGE.letter - 1.0
        page.rule("table border" if head else "table rule")
        page.down(TEXT_PAGE.under_row)
    page.down(TEXT_PAGE.gap)


def _sheet(
    title: str, items: Sequence[Item], size: tuple[float, float], frame: Box,
    number: str, k: int, count: int, foot: str,
) -> Sheet:  # fmt: skip
    says = f"{number}  PAGE {k + 1} OF {count}"
    low = frame[1]
    texts: list[Item] = [Text((Run(says),), (frame[2], low), TEXT_PAGE.letter, "right")]
    if foot:
        room = frame[2] - frame[0] - width(says, TEXT_PAGE.letter) - TEXT_PAGE.foot_gap
        squeeze = max(TEXT_PAGE.least_squeeze, min(1.0, room / width(foot, TEXT_PAGE.letter)))
        texts.append(Text((Run(foot),), (frame[0], low), TEXT_PAGE.letter, squeeze=squeeze))
    return Sheet(number if k == 0 else f"{number}.{k + 1}", title, *size, frame, (*items, *texts))


def _wrapped(text: str, room: float) -> list[str]:
    lines: list[str] = []
    current = ""
    for word in text.split():
        longer = f"{current} {word}" if current else word
        if current and width(longer, TEXT_PAGE.letter) > room:
            lines.append(current)
            current = word
        else:
            current = longer
    return [*lines, current]
