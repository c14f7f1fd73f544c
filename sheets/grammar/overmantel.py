"""The spec language: the panelling above the mantel."""

from typing import Annotated

from pydantic import PlainValidator

from sheets.grammar.values import Size, SizeOrMantel, SizeOrZero, SomeText, Words, counted, either


class FramePanel(Words):
    """The panels, flat, in grooves of the frame as wide as they are thick. let_in: of each edge into its
    groove; gap: left behind it for the wood to move.
    """

    thickness: Size = either("3/8", "10")
    let_in: Size = either("3/8", "10")
    gap: SizeOrZero = either("1/8", "3")
    material: SomeText


class Overmantel(Words):
    """Frame and panels on the wall above the mantel. height: from the mantel's top to its own.

    width: a length, or `mantel` for as wide as the mantel's breast. panels: side by side, alike wide,
    mullions between them. stile, rail, mullion: widths of the faces.
    """

    height: Size
    width: SizeOrMantel = "mantel"
    thickness: Size = either("3/4", "19")
    stile: Size = either("3", "75")
    rail: Size = either("3", "75")
    mullion: Size = either("2-1/2", "64")
    panels: Annotated[int, PlainValidator(counted(1, 12))] = 3
    panel: FramePanel
    material: SomeText
