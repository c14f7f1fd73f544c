"""A set that is drawn after an issue and is not that issue: what its sheets say of it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace

from sheets.drawing.items import Sheet
from sheets.model.wall import Revision, Wall


@dataclass(frozen=True, slots=True)
class Draft:
    """What no longer is as it was issued. follows: the number of the issue; says: how it stands to it.

    unlike: of sheets without revisions, the numbers of those that are not as they were issued.
    """

    follows: str
    says: str
    unlike: Callable[[Sequence[Sheet]], frozenset[str]]

    @property
    def number(self) -> str:
        """What stands where a sheet carries its revision: that of the issue, and more."""
        return f"{self.follows}+"

    @property
    def fields(self) -> tuple[dict[str, str], ...]:
        """What a title block says of it, by its fields: in full, and shorter where that has no room."""
        ways = ((self.number, self.says), (self.number, "not issued"), ("+", "not issued"))
        return tuple({"sheet.revision": sign, "project.status": says.upper()} for sign, says in ways)

    @property
    def row(self) -> Revision:
        """The row over those of the issues: it has no date."""
        return Revision(self.number, "", "", self.says)

    def on_the_first(self, wall: Wall, carried: Collection[str]) -> Wall:
        """Return the wall as the first sheet tells of it. carried: the revisions of all sheets."""
        if self.number not in carried:
            return wall
        return replace(wall, project=replace(wall.project, status=self.says))


def every_sheet(sheets: Sequence[Sheet]) -> frozenset[str]:
    """Return the numbers of all sheets: of a draft whose issue is not at hand."""
    return frozenset(sheet.number for sheet in sheets)
