"""The transmittal page of an issue: which sheets, which revision, status, to whom, what changed, cautions."""

from __future__ import annotations

from collections.abc import Sequence

from sheets.compose.pages.text_pages import Block, Heading, Paragraph, Rows, report_blocks, text_pages
from sheets.drawing.items import DrawingSet
from sheets.model.wall import Project, Revision
from sheets.revisions.keeping.record import Record

CAUTIONS = (
    "These drawings propose woodwork. They do not certify that it is safe or lawful.",
    "The appliance's listing and its manual, local codes and the licensed trades for structure, gas, "
    "power and flue govern over these drawings. Whoever is responsible on site checks clearances before "
    "work begins.",
    "Tall cases are fixed to the structure so that they cannot tip.",
    "Sheets of earlier revisions that are listed here with a later one, or as withdrawn, are to be taken out "
    "of use.",
    "Do not scale. Printed sizes govern.",
)


def transmittal(
    project: Project, drawing: DrawingSet, record: Record, revisions: Sequence[Revision]
) -> DrawingSet:
    """Return the transmittal as a small set of its own. revisions: all of the spec, the earliest first."""
    rows = tuple((line.number, line.revision or "–", line.says, line.title) for line in record.lines)
    said = [
        ("PROJECT", project.title),
        ("NUMBER", project.number),
        ("SITE", project.site),
        ("CLIENT", project.client),
        ("FROM", project.firm),
        ("TO", record.sent_to or "(to be filled in)"),
        ("REVISION", record.number),
        ("DATE", record.date),
        ("BY", record.by),
        ("STATUS", record.status),
        ("REASON", record.reason),
        ("FOLLOWS", f"revision {record.earlier}" if record.earlier else "first issue"),
        ("SENT", f"{len(record.only)} sheets; the others stand as they were" if record.only else ""),
    ]
    blocks: list[Block] = [
        Rows(tuple((name, value) for name, value in said if value)),
        Heading("Sheets"),
        Rows(rows, ("SHEET", "REV.", "IN THIS ISSUE", "TITLE")),
    ]
    void = [row for row in revisions if row.void is not None]
    if void:
        of = tuple((r.number, ", ".join(r.void.sheets) or "all", r.void.reason) for r in void if r.void)
        blocks += [Heading("Void, not to be used"), Rows(of, ("REV.", "SHEETS THAT CARRY IT", "WHY"))]
    if len(revisions) > 1:  # the sheets show as many as they have room for; here all stand
        said_of = tuple((r.number, r.date, r.by, r.says) for r in reversed(revisions))
        blocks += [Heading("Record of revisions"), Rows(said_of, ("REV.", "DATE", "BY", "REASON"))]
    blocks.append(Heading("Cautions"))
    blocks += [Paragraph(f"{k}.  {words}", 5.0) for k, words in enumerate(CAUTIONS, 1)]
    if record.changes:
        blocks.append(Heading("What changed"))
        blocks += report_blocks(record.changes)
    foot = " ".join(word for word in (project.number, project.title) if word)
    pages = text_pages("Transmittal of shop drawings", blocks, drawing.units, "TRANSMITTAL", foot)
    return DrawingSet(
        f"Transmittal, revision {record.number}: {drawing.title}", drawing.number, drawing.author,
        record.date,
        drawing.units, pages,
    )  # fmt: skip
