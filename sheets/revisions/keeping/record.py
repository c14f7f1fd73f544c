"""The record of one issue: what was issued, which revision each sheet carries, its marks; as JSON and back.

It is what a later issue needs of an earlier one: part marks in use and retired, and the revision marks on
each sheet.
Positions are paper mm; those in a view are measured from the view, so that they follow it over the sheet.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, replace
from typing import Any

from sheets.geometry.path import Arc, Line, Point, Segment
from sheets.revisions.comparing.sheet_lines import SheetLine, line_json, line_of

NAME = "issue.json"
PROGRAM = "shopset"


class RecordError(ValueError):
    """A record cannot be read; the message says why."""


@dataclass(frozen=True, slots=True)
class CloudMark:
    """A cloud in a view, its line from where the view's marks are measured (`earlier_marks.anchor`)."""

    view: str
    path: tuple[Segment, ...]


@dataclass(frozen=True, slots=True)
class TriangleMark:
    """A triangle in a view: its number, its middle measured as a cloud's line is, the scale it was placed at.

    about: the name of the part, dimension or words that it stays by; "" for what is gone, where it keeps its
    place.
    """

    view: str
    number: str
    at: Point
    scale: float
    about: str = ""


@dataclass(frozen=True, slots=True)
class RowMark:
    """A marked row, line, picture or field outside the views, found again by its words."""

    words: str
    number: str
    gone: bool = False  # what the mark is for stood under it and is no longer there


@dataclass(frozen=True, slots=True)
class SheetRecord:
    """One sheet: the revision it carries, the hash of what it draws without revision marks, and those marks.

    bare: "" where the sheet had changed and was not among those that went out.
    """

    number: str
    title: str
    revision: str
    bare: str
    clouds: tuple[CloudMark, ...] = ()
    triangles: tuple[TriangleMark, ...] = ()
    rows: tuple[RowMark, ...] = ()


@dataclass(frozen=True, slots=True)
class Record:
    """One issue of a set."""

    number: str
    date: str
    by: str
    reason: str
    status: str = ""
    sent_to: str = ""
    earlier: str = ""  # number of the issue it was compared with; "" for a first one
    version: str = ""  # of the program that issued it
    sheets: tuple[SheetRecord, ...] = ()
    marks: Mapping[str, str] = field(default_factory=dict)  # by part key
    retired: tuple[str, ...] = ()
    changes: tuple[str, ...] = ()  # the report, line by line
    lines: tuple[SheetLine, ...] = ()  # what became of each sheet; none of a first issue
    only: tuple[str, ...] = ()  # the sheets that went out, where not all did

    def sheet(self, number: str) -> SheetRecord | None:
        """Return what is recorded of a sheet; None if it was not in the set."""
        return next((sheet for sheet in self.sheets if sheet.number == number), None)

    @property
    def kept(self) -> dict[str, str]:
        """Marks for `model.marks.marked`: those in use by part key, the retired ones under keys of no
        part."""
        return {**self.marks, **{f"{mark}/retired": mark for mark in self.retired}}

    def called(self, names: Mapping[str, str]) -> Record:
        """Return the record with assemblies and parts called by other keys, in the names of views too."""
        if not names:
            return self
        longest_first = sorted(names, key=lambda key: (-len(key), key))
        old = re.compile(rf"(?<![\w-])(?:{'|'.join(map(re.escape, longest_first))})(?![\w-])")

        def name(text: str) -> str:
            return old.sub(lambda found: names[found[0]], text)

        sheets = tuple(
            replace(
                sheet,
                clouds=tuple(replace(cloud, view=name(cloud.view)) for cloud in sheet.clouds),
                triangles=tuple(replace(t, view=name(t.view), about=name(t.about)) for t in sheet.triangles),
            )
            for sheet in self.sheets
        )
        return replace(self, sheets=sheets, marks={name(key): mark for key, mark in self.marks.items()})


def to_json(record: Record) -> bytes:
    """Return the record as UTF-8 JSON, the same bytes for the same record."""
    content: dict[str, Any] = {"program": PROGRAM, **asdict(record)}
    content["marks"] = {key: record.marks[key] for key in sorted(record.marks)}
    content["sheets"] = [_sheet_json(sheet) for sheet in record.sheets]
    content["lines"] = [line_json(line) for line in record.lines]
    return (json.dumps(content, indent=1, ensure_ascii=False) + "\n").encode("utf-8")


def from_json(data: bytes) -> Record:
    """Return the record that JSON holds. Raises RecordError."""
    try:
        content = json.loads(data.decode("utf-8"))
        if content["program"] != PROGRAM:
            raise RecordError("it is not the record of an issue")
        words = {
            name: str(content[name])
            for name in ("number", "date", "by", "reason", "status", "sent_to", "earlier", "version")
        }
        return Record(
            **words,
            sheets=tuple(_sheet(entry) for entry in content["sheets"]),
            marks={str(key): str(mark) for key, mark in content["marks"].items()},
            retired=tuple(str(mark) for mark in content["retired"]),
            changes=tuple(str(line) for line in content["changes"]),
            lines=tuple(line_of(entry) for entry in content.get("lines", ())),
            only=tuple(str(number) for number in content.get("only", ())),
        )
    except RecordError:
        raise
    except (ValueError, LookupError, TypeError, AttributeError, RecursionError, OverflowError) as error:
        raise RecordError(f"it is not the record of an issue ({error})") from error


def _sheet_json(sheet: SheetRecord) -> dict[str, Any]:
    return {
        "number": sheet.number,
        "title": sheet.title,
        "revision": sheet.revision,
        "bare": sheet.bare,
        "clouds": [{"view": c.view, "path": [_segment_json(s) for s in c.path]} for c in sheet.clouds],
        "triangles": [asdict(t) for t in sheet.triangles],
        "rows": [asdict(r) for r in sheet.rows],
    }


def _sheet(entry: Any) -> SheetRecord:
    return SheetRecord(
        str(entry["number"]),
        str(entry["title"]),
        str(entry["revision"]),
        str(entry["bare"]),
        tuple(CloudMark(str(c["view"]), tuple(_segment(s) for s in c["path"])) for c in entry["clouds"]),
        tuple(
            TriangleMark(
                str(t["view"]), str(t["number"]), _point(t["at"]), float(t["scale"]), str(t.get("about", ""))
            )
            for t in entry["triangles"]
        ),
        tuple(RowMark(str(r["words"]), str(r["number"]), bool(r.get("gone", False))) for r in entry["rows"]),
    )


def _segment_json(segment: Segment) -> list[float]:
    if isinstance(segment, Arc):
        return [*segment.centre, segment.radius, segment.start, segment.sweep]
    return [*segment.a, *segment.b]


def _segment(values: Any) -> Segment:
    numbers = [float(value) for value in values]
    if len(numbers) == 5:
        return Arc((numbers[0], numbers[1]), numbers[2], numbers[3], numbers[4])
    a, b, c, d = numbers
    return Line((a, b), (c, d))


def _point(values: Any) -> Point:
    x, y = values
    return (float(x), float(y))
