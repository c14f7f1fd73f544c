"""What became of each sheet from one issue to the next: a line for each, as index, transmittal and reports
list them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict, dataclass
from typing import Any, Literal, get_args

SheetState = Literal["issued", "new", "changed", "unchanged", "renumbered", "withdrawn", "held back"]
STATES: tuple[SheetState, ...] = get_args(SheetState)


@dataclass(frozen=True, slots=True)
class SheetLine:
    """One sheet: what became of it, its number and title, the revision that it carries (of one that is
    withdrawn: the last it carried), and the number that it had, if that was another.

    `issued` is any of a first issue; `renumbered` what shows what another number showed before, and what else
    has changed is `changed`. `held back` did not go with an issue of some sheets.
    """

    state: SheetState
    number: str
    title: str
    revision: str = ""
    was: str = ""

    @property
    def says(self) -> str:
        """What became of it, in words: `renumbered, was Z-605`, `withdrawn, last rev. 6`."""
        if self.state == "withdrawn":
            return f"withdrawn, last rev. {self.revision}" if self.revision else "withdrawn"
        return f"{self.state}, was {self.was}" if self.was else self.state


def still_withdrawn(earlier: Iterable[SheetLine], lines: Iterable[SheetLine]) -> tuple[SheetLine, ...]:
    """Return the lines of an issue, with those sheets that earlier ones withdrew and whose number is not used
    again. They come last, by number."""
    now = tuple(lines)
    used = {line.number for line in now}
    gone = [line for line in now if line.state == "withdrawn"]
    gone += [line for line in earlier if line.state == "withdrawn" and line.number not in used]
    return (
        *(line for line in now if line.state != "withdrawn"),
        *sorted(gone, key=lambda line: line.number),
    )


def told(lines: Iterable[SheetLine]) -> tuple[str, ...]:
    """Return the lines as text, those of sheets that did not change left out."""
    return tuple(f"{line.number} {line.title}: {line.says}" for line in lines if line.state != "unchanged")


def line_json(line: SheetLine) -> dict[str, Any]:
    """Return a line as plain values for JSON."""
    return asdict(line)


def line_of(entry: Any) -> SheetLine:
    """Return the line that JSON holds. Raises ValueError, LookupError or TypeError if it holds none."""
    state = STATES[STATES.index(entry["state"])]
    return SheetLine(state, *(str(entry[name]) for name in ("number", "title", "revision", "was")))
