"""The types of a comparison as JSON, and the JSON schema that they make."""

from __future__ import annotations

from typing import Any, Literal

from typing_extensions import TypedDict

from sheets.base.diagnostics import Severity
from sheets.base.documents import schema_of
from sheets.revisions.comparing.changes import PartKind
from sheets.revisions.comparing.sheet_lines import SheetState

Number = float | str
"""A length in mm; one that no decimal says exactly is the text of its fraction."""
Said = float | str | list[float | str] | None

class Compared(TypedDict):
    name: str
    version: str | None
"""One side. version: of the program that made it, null for a spec."""

Size = TypedDict("Size", {"owner": str, "what": str, "from": Said, "to": Said, "unit": Literal["mm", ""]})
"""One size or word of the wall that is another."""


class PartLine(TypedDict):
    """Alike pieces that changed alike."""

    change: str
    mark: str
    name: str
    how: str
    count: int
    keys: list[str]


class Group(TypedDict):
    """All that changed of one assembly, as it is said and as it is."""

    assembly: str
    says: list[str]
    sizes: list[Size]
    parts: list[PartLine]


class Joint(TypedDict):
    """A joint as cut in a piece."""

    kind: str
    mate: str
    width_mm: Number | None
    depth_mm: Number | None
    count: int
    fastening: str
    glued_mm: Number | None


class Piece(TypedDict):
    """One piece, with its sizes and its box in the wall's frame."""

    name: str
    mark: str
    assembly: str
    hand: str
    material: str
    size_mm: dict[str, Number]
    box_mm: dict[str, Number]
    joints: list[Joint]


class ChangedPart(TypedDict):
    """One piece as it was and as it is, null on the side where it is not."""

    key: str
    kinds: list[PartKind]
    before: Piece | None
    after: Piece | None


class ChangedFinding(TypedDict):
    """A finding of the checks on one side alone, or with other numbers."""

    rule: str
    severity: Severity
    message: str
    subjects: list[str]


class ChangedFindings(TypedDict):
    """What the checks find now and did not, did and do not, and find with other numbers."""

    gained: list[ChangedFinding]
    lost: list[ChangedFinding]
    with_other_numbers: list[ChangedFinding]


class Amount(TypedDict):
    """How much of a stock is ordered, and for how many pieces."""

    pieces: int
    amount: float


class TakeOff(TypedDict):
    """A stock of which another amount is ordered."""

    material: str
    stock: str
    unit: str
    before: Amount
    after: Amount


class ChangedSheet(TypedDict):
    """What became of a sheet. was: the number it had, where it has another."""

    state: SheetState
    number: str
    title: str
    revision: str
    was: str


Document = TypedDict(
    "Document",
    {
        "format": Literal["shopset compare"],
        "version": Literal[1],
        "from": Compared,
        "to": Compared,
        "groups": list[Group],
        "parts": list[ChangedPart],
        "sizes": list[Size],
        "words": list[Size],
        "findings": ChangedFindings,
        "take_off": list[TakeOff],
        "marks_retired": list[str],
        "sheets": list[ChangedSheet],
    },
)
"""A comparison. sheets: none where it is not known what became of them."""


def schema() -> dict[str, Any]:
    """Return the JSON schema of a comparison."""
    return schema_of(Document, "What is another between two sets of shopset")
